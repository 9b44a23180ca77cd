"""A tag kept for several balls, on the pages.  In a real browser."""

from __future__ import annotations

import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT
from desk_pages import Served
from filing_tags import doubtful, tag
from playwright.sync_api import Page, expect

from intake.filing.cabinet import Cabinet
from intake.filing.record import Record

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)


@pytest.fixture
def five(cabinet: Cabinet) -> Record:
    cabinet.file(tag("b.jpg", shade="Ember", lot="0090"))
    return cabinet.file(tag("a.jpg", balls=5.0))


def test_the_shelf_counts_balls_and_marks_the_tag_that_stands_for_them(
    page: Page, desk: Served, five: Record
) -> None:
    page.goto(f"{desk.address}/shelf")
    expect(page.locator(".come-to")).to_contain_text("6 balls")
    card = page.locator(f'a[href="/records/{five.id}"]')
    expect(card.locator(".times")).to_contain_text("×5")
    expect(card).to_contain_text("250 g")
    expect(page.locator(".times")).to_have_count(1)


def test_the_number_is_corrected_as_any_field_is(
    page: Page, desk: Served, cabinet: Cabinet, five: Record
) -> None:
    page.goto(f"{desk.address}/records/{five.id}")
    page.get_by_label("number of balls").fill("two")
    page.get_by_role("button", name="Save corrections").click()
    expect(page.locator("#trouble-balls")).to_contain_text("whole number from 1")
    page.get_by_label("number of balls").fill("2")
    page.get_by_role("button", name="Save corrections").click()
    expect(page.locator(".record-sheet .times")).to_contain_text("×2")
    assert cabinet.record(five.id).balls == 2


def test_balls_are_split_off_and_that_is_undone(
    page: Page, desk: Served, cabinet: Cabinet, five: Record
) -> None:
    page.goto(f"{desk.address}/records/{five.id}")
    page.get_by_label("Balls that go").fill("5")
    page.get_by_role("button", name="Split off").click()
    expect(page.locator("#trouble-split")).to_contain_text("at least one must go")
    page.get_by_label("Balls that go").fill("2")
    page.get_by_role("button", name="Split off").click()
    expect(page.locator(".record-past")).to_contain_text("Balls split off")
    assert [one.balls for one in cabinet.records()] == [1, 3, 2]
    assert page.url != f"{desk.address}/records/{five.id}"
    page.goto(f"{desk.address}/records/{five.id}")
    expect(page.locator(".stroke")).to_contain_text("number of balls: 5")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".record-sheet .times")).to_contain_text("×5")
    assert [one.balls for one in cabinet.records()] == [1, 5]


def test_a_tag_for_one_ball_has_nothing_to_split(page: Page, desk: Served, five: Record) -> None:
    page.goto(f"{desk.address}/shelf")
    page.locator(".ball", has_text="50 g").filter(has_not_text="×5").first.click()
    expect(page.get_by_label("number of balls")).to_have_value("1")
    expect(page.get_by_role("button", name="Split off")).to_have_count(0)


def test_a_number_that_is_not_sure_is_asked_about_in_the_review(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    cabinet.take(tag("a.jpg", 1, doubtful("balls", 5.0, "1", reason="'x5' may say so")))
    page.goto(desk.address)
    expect(page.locator("main")).to_contain_text("'x5' may say so")
    expect(page.locator("main")).to_contain_text("number of balls")
