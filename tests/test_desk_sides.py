"""The desk asks with both pictures whether two tags are the sides of one."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT
from desk_pages import Printed, Served, printed_tag
from filing_tags import sure
from playwright.sync_api import Page, expect

from intake.filing.cabinet import Cabinet
from intake.filing.sides import SIDE
from intake.records import TagReading

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)


def front() -> TagReading:
    return printed_tag(
        "shed-0001.jpg",
        (
            Printed("HOLLIN FOLD", words={"maker": "HOLLIN FOLD"}),
            Printed("Drystone", words={"range": "Drystone"}),
            Printed("Sloe", words={"shade": "Sloe"}),
        ),
        sure("maker", "Hollin Fold"),
        sure("range", "Drystone"),
        sure("shade", "Sloe"),
    )


def back(lot: str = "00412") -> TagReading:
    return printed_tag(
        "shed-0002.jpg",
        (
            Printed("HOLLIN FOLD", words={"maker": "HOLLIN FOLD"}),
            Printed(f"Lot {lot}", words={"lot": lot}),
            Printed("50 g  200 m", words={"mass_g": "50", "length_m": "200"}),
        ),
        sure("maker", "Hollin Fold"),
        sure("lot", lot),
        sure("mass_g", 50.0),
        sure("length_m", 200.0),
    )


def asked_on(page: Page, desk: Served, cabinet: Cabinet) -> str:
    """The id of the back, shown with the question."""
    cabinet.take(front())
    back_id = cabinet.take(back()).id
    page.goto(f"{desk.address}/review#{back_id}")
    page.wait_for_selector(f'body[data-shown="{back_id}/{SIDE}"]')
    return back_id


def test_both_pictures_stand_side_by_side(page: Page, desk: Served, cabinet: Cabinet) -> None:
    asked_on(page, desk, cabinet)
    expect(page.locator("#asked")).to_have_text("Are these two sides of one tag?")
    expect(page.locator("#close-ups figure img")).to_have_count(2)
    expect(page.locator("#typing")).to_be_hidden()
    if folder := os.environ.get("BALLTAG_SCREENSHOTS"):
        page.screenshot(path=Path(folder) / "sides.png", full_page=True)


def test_one_key_joins_the_sides_and_another_parts_them(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    back_id = asked_on(page, desk, cabinet)
    page.keyboard.press("1")
    page.wait_for_selector('body[data-shown="nothing"]')
    (record,) = cabinet.records()
    assert (record.shade, record.lot, record.mass_g) == ("Sloe", "00412", 50.0)
    page.goto(f"{desk.address}/records/{record.id}")
    expect(page.get_by_alt_text("The other side of the tag")).to_be_visible()
    page.goto(f"{desk.address}/review")
    page.wait_for_selector('body[data-shown="nothing"]')
    page.keyboard.press("b")
    page.wait_for_selector(f'body[data-shown^="{back_id}/"]')
    assert cabinet.records() == []
    assert len(cabinet.waiting()) == 2


def test_a_tag_of_its_own_is_asked_what_it_lacks(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    back_id = asked_on(page, desk, cabinet)
    page.keyboard.press("2")
    page.wait_for_selector(f'body[data-shown="{back_id}/shade"]')
    assert cabinet.records() == []


def test_the_side_of_a_filed_tag_fills_in_its_record(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    reading = back()
    filed = cabinet.file(reading)
    cabinet.correct({filed.id: {"shade": "Sloe"}})
    front_id = cabinet.take(front()).id
    page.goto(f"{desk.address}/review")
    page.wait_for_selector(f'body[data-shown="{front_id}/{SIDE}"]')
    page.keyboard.press("1")
    page.wait_for_selector('body[data-shown="nothing"]')
    assert cabinet.record(filed.id).range == "Drystone"
    page.keyboard.press("b")
    page.wait_for_selector(f'body[data-shown="{front_id}/{SIDE}"]')
    assert cabinet.record(filed.id).range == ""
