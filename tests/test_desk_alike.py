"""Doubts that many tags share, answered at one stroke, and what answers taught."""

from __future__ import annotations

import httpx
import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT
from desk_pages import Served, hold, lot_tag, with_field
from filing_tags import doubtful, sure
from patience import LONG_S
from playwright.sync_api import Page, expect

from intake.filing.cabinet import Cabinet
from intake.records import TagReading

needs_browser = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)


def spelled(number: int, shade: str, *others: str) -> TagReading:
    """A tag of which only the shade is doubtful."""
    return with_field(
        lot_tag(number, shade=shade),
        sure("lot", f"004{number:02}"),
        doubtful("shade", shade, *others, reason="no known shade is spelled so"),
    )


def shades(cabinet: Cabinet) -> list[str]:
    return [record.shade for record in cabinet.records()]


def post(desk: Served, path: str, **fields: str | list[str]) -> httpx.Response:
    with httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as client:
        token = client.get("/token").json()["token"]
        return client.post(path, params={"token": token}, data=fields)


@needs_browser
def test_a_shade_spelled_three_ways_is_answered_once(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    hold(cabinet, spelled(1, "Sloë"), spelled(2, "sloë"), spelled(3, "SLOË"), lot_tag(7))
    page.goto(f"{desk.address}/alike")
    expect(page.locator(".stack")).to_have_count(1)
    expect(page.locator(".stack")).to_contain_text("3 tags of Hollin Fold")
    page.get_by_placeholder("or type it").fill("Sloe")
    page.keyboard.press("Enter")
    rows = page.locator(".foreseen tbody tr")
    expect(rows).to_have_count(3)
    expect(rows.nth(2)).to_contain_text("is filed")
    assert shades(cabinet) == []  # nothing changes before it was shown
    page.get_by_role("button", name="Answer these tags").click()
    expect(page.locator(".told")).to_contain_text("3 tags answered; 3 filed")
    assert shades(cabinet) == ["Sloe"] * 3
    page.get_by_role("button", name="Take that back").click()
    page.wait_for_url("**/history")
    assert shades(cabinet) == []
    assert len(cabinet.waiting()) == 4


@needs_browser
def test_a_tag_that_is_unticked_is_left_alone(page: Page, desk: Served, cabinet: Cabinet) -> None:
    one, two, three = hold(cabinet, *(spelled(number, "Slo") for number in (1, 2, 3)))
    page.goto(f"{desk.address}/alike")
    page.get_by_role("button", name="Slo", exact=True).click()
    page.locator(f'input[value="{two}"]').uncheck()
    page.get_by_role("button", name="Answer these tags").click()
    expect(page.locator(".told")).to_contain_text("2 tags answered")
    assert cabinet.waiting() == [two]
    assert {record.id for record in cabinet.records()} == {one, three}


@needs_browser
def test_the_review_leads_to_the_tags_that_share_a_doubt(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    hold(cabinet, spelled(1, "Slo"), spelled(2, "slo"), spelled(3, "Tarm"))
    page.goto(f"{desk.address}/review")
    expect(page.locator("#shared")).to_contain_text("Another tag has the same doubt")
    page.keyboard.press("a")
    page.wait_for_url("**/alike#group-*")
    expect(page.locator(".stack:target")).to_contain_text("Slo")


@needs_browser
def test_the_review_goes_back_over_an_answer_to_many(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    tags = hold(cabinet, spelled(1, "Slo"), spelled(2, "Slo"))
    cabinet.settle({tag: {"shade": "Sloe"} for tag in tags})
    page.goto(f"{desk.address}/review")
    page.wait_for_selector('body[data-shown="nothing"]')
    page.keyboard.press("b")
    page.wait_for_selector(f'body[data-shown="{tags[0]}/shade"]')
    expect(page.locator("#news")).to_contain_text("2 tags wait again")
    assert cabinet.waiting() == tags


@needs_browser
def test_what_an_answer_taught_is_offered_in_the_review_and_can_be_forgotten(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    one, two = hold(cabinet, spelled(1, "Brackem"), spelled(2, "Brackem"))
    page.goto(f"{desk.address}/review")
    page.wait_for_selector(f'body[data-shown="{one}/shade"]')
    page.keyboard.press("t")
    page.keyboard.type("Bracken")
    page.keyboard.press("Enter")
    page.wait_for_selector(f'body[data-shown="{two}/shade"]')
    expect(page.locator("#choices li")).to_have_count(2)
    expect(page.locator("#choices li").nth(1)).to_contain_text("Bracken")
    page.goto(f"{desk.address}/learnt")
    expect(page.locator(".lessons")).to_contain_text("What reads Brackem means the shade Bracken")
    while page.get_by_role("button", name="Forget it").count():
        before = page.get_by_role("button", name="Forget it").count()
        page.get_by_role("button", name="Forget it").first.click()
        expect(page.get_by_role("button", name="Forget it")).to_have_count(before - 1)
    assert cabinet.learnt.lessons() == []
    assert shades(cabinet) == ["Bracken"]


def test_offers_are_shown_together_before_they_change_anything(
    desk: Served, cabinet: Cabinet
) -> None:
    one, two, three = hold(cabinet, *(spelled(number, "Brackem") for number in (1, 2, 3)))
    cabinet.resolve(one, {"shade": "Bracken"})
    text = httpx.get(f"{desk.address}/alike", trust_env=False, timeout=LONG_S).text
    assert "Learnt since these tags were read" in text
    asked = {"field": "shade", "old": "Brackem", "new": "Bracken"}
    preview = httpx.get(
        f"{desk.address}/alike/offer", params=asked, trust_env=False, timeout=LONG_S
    ).text
    assert two in preview
    assert three in preview
    assert one not in preview
    assert cabinet.waiting() == [two, three]


@pytest.mark.parametrize("field", ["lot", "shade_code", "barcode", "id", "repeat"])
def test_no_lot_or_code_is_answered_for_many_tags(
    desk: Served, cabinet: Cabinet, field: str
) -> None:
    tags = hold(cabinet, lot_tag(1), lot_tag(2))
    assert post(desk, "/alike/settle", field=field, answer="00412", tag=tags).status_code == 422
    assert cabinet.waiting() == tags


def test_an_answer_that_the_field_cannot_hold_changes_nothing(
    desk: Served, cabinet: Cabinet
) -> None:
    readings = [with_field(lot_tag(n), doubtful("length_m", 20.0, "200")) for n in (1, 2)]
    tags = hold(cabinet, *readings)
    answer = post(desk, "/alike/settle", field="length_m", answer="long", tag=tags)
    assert answer.status_code == 422
    assert "long" in answer.text
    assert cabinet.history.changes() == []


def test_tags_answered_meanwhile_are_told_kindly(desk: Served, cabinet: Cabinet) -> None:
    tags = hold(cabinet, spelled(1, "Slo"), spelled(2, "Slo"))
    cabinet.settle({tag: {"shade": "Sloe"} for tag in tags})
    answer = post(desk, "/alike/settle", field="shade", answer="Sloe", tag=tags)
    assert answer.status_code == 409
    assert "look again" in answer.text
    assert (
        httpx.get(f"{desk.address}/alike/0123456789ab", trust_env=False, timeout=LONG_S).status_code
        == 409
    )
