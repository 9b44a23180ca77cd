"""The review page in a real browser: by keyboard, by touch, over a restart, in two windows,
and while the desk does not answer."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT, phone, window
from desk_pages import Printed, Served, hold, lot_tag, printed_tag, served, with_field
from filing_tags import doubtful, sure
from playwright.sync_api import Browser, BrowserContext, Page, Request, expect

from intake.filing.cabinet import Cabinet
from intake.filing.queue import Left
from intake.filing.record import Record
from intake.filing.same import REPEAT, REPEAT_ANSWERS
from intake.records import FibrePart, Field, TagReading

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)

SHADE_AND_LOT = with_field(
    lot_tag(2, shade="Tarn"),
    doubtful("shade", "Tarn", "Torn", reason="near to the known shade Torn"),
)


def reviewing(context: BrowserContext, desk: Served) -> Page:
    page = context.new_page()
    page.goto(f"{desk.address}/review")
    page.wait_for_selector("body[data-shown]")
    return page


@pytest.fixture
def page(browser: Browser, desk: Served) -> Iterator[Page]:
    """A window of its own; open the review with :func:`open_review` once tags wait."""
    context = window(browser)
    yield context.new_page()
    context.close()


def open_review(page: Page, desk: Served) -> None:
    page.goto(f"{desk.address}/review")
    page.wait_for_selector("body[data-shown]")


def press(page: Page, *keys: str) -> None:
    """Press keys one after the other, each when the desk has answered the one before."""
    for key in keys:
        page.keyboard.press(key)
        settle(page)


def settle(page: Page) -> None:
    """Wait until the desk has answered."""
    page.wait_for_selector('main[aria-busy="false"]')


def asked(page: Page, tag_id: str, field: str) -> None:
    """Wait until that question is on show, and takes keys again."""
    page.wait_for_selector(f'body[data-shown="{tag_id}/{field}"]')
    settle(page)


def filed(cabinet: Cabinet) -> dict[str, Record]:
    return {record.picture: record for record in cabinet.records()}


def lots(cabinet: Cabinet) -> list[str]:
    return [record.lot for record in cabinet.records()]


# By keyboard


def test_a_whole_pass_by_keyboard_alone(page: Page, desk: Served, cabinet: Cabinet) -> None:
    one, two, three, four, five = hold(
        cabinet, lot_tag(1), SHADE_AND_LOT, lot_tag(3), lot_tag(4), lot_tag(5)
    )
    open_review(page, desk)
    asked(page, one, "lot")
    page.keyboard.press("2")
    asked(page, two, "shade")
    page.keyboard.press("Enter")
    asked(page, two, "lot")
    page.keyboard.press("t")
    page.keyboard.type("0412-B")
    page.keyboard.press("Enter")
    asked(page, three, "lot")
    page.keyboard.press("n")
    asked(page, four, "lot")
    page.keyboard.press("s")
    asked(page, five, "lot")
    page.keyboard.press("d")
    expect(page.locator("#empty-words")).to_have_text("Only skipped tags wait")
    assert lots(cabinet) == ["00412", "0412-B", ""]
    assert cabinet.waiting() == [four]
    assert cabinet.queue.was_discarded(five)


def test_back_goes_through_the_questions_and_tags_before(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    one, two = hold(cabinet, lot_tag(1), SHADE_AND_LOT)
    open_review(page, desk)
    press(page, "2", "2", "1")
    assert len(lots(cabinet)) == 2
    page.keyboard.press("b")
    asked(page, two, "lot")
    assert len(lots(cabinet)) == 1
    page.keyboard.press("b")
    asked(page, two, "shade")
    expect(page.locator("#typed")).to_have_value("Torn")
    page.keyboard.press("b")
    asked(page, one, "lot")
    assert lots(cabinet) == []
    expect(page.locator("#typed")).to_have_value("00412")
    press(page, "Enter", "1", "2")
    assert [(record.shade, record.lot) for record in cabinet.records()] == [
        ("Sloe", "00412"),
        ("Tarn", "00412"),
    ]


def test_going_back_works_after_a_restart(browser: Browser, desk: Served, cabinet: Cabinet) -> None:
    one, two = hold(cabinet, lot_tag(1), SHADE_AND_LOT)
    first = window(browser)
    page = reviewing(first, desk)
    press(page, "1", "2", "2")
    first.close()
    desk.close()
    desk.open()
    second = window(browser)
    page = reviewing(second, desk)
    expect(page.locator("#empty-words")).to_have_text("Nothing waits")
    page.keyboard.press("b")
    asked(page, two, "lot")
    expect(page.locator("#typed")).to_have_value("00412")
    page.keyboard.press("b")
    asked(page, two, "shade")
    page.keyboard.press("b")
    asked(page, one, "lot")
    assert cabinet.waiting() == [one, two]
    assert lots(cabinet) == []
    page.keyboard.press("b")
    expect(page.locator("#news")).to_contain_text("first step")
    second.close()


def test_a_held_key_answers_one_question(page: Page, desk: Served, cabinet: Cabinet) -> None:
    hold(cabinet, *(lot_tag(number) for number in range(1, 5)))
    open_review(page, desk)
    page.keyboard.down("Enter")
    for _ in range(5):
        page.keyboard.down("Enter")  # the keyboard's own repeat
    page.keyboard.up("Enter")
    settle(page)
    assert len(lots(cabinet)) == 1


def test_a_value_that_the_field_cannot_hold_is_asked_again(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    reading = with_field(lot_tag(1), sure("lot", "00412"), doubtful("length_m", 20.0, "200"))
    (tag_id,) = hold(cabinet, reading)
    open_review(page, desk)
    page.keyboard.press("t")
    page.keyboard.type("two hundred")
    page.keyboard.press("Enter")
    expect(page.locator("#trouble")).to_contain_text("two hundred")
    expect(page.locator("#typed")).to_have_value("two hundred")
    assert cabinet.waiting() == [tag_id]
    press(page, "Escape", "2")
    assert cabinet.records()[0].length_m == 200.0


def test_fibres_that_do_not_sum_up_can_be_confirmed_as_printed(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    parts = (FibrePart("wool", "", 80.0), FibrePart("polyamide", "", 10.0))
    hold(cabinet, with_field(lot_tag(1), sure("lot", "00412"), doubtful("fibre", parts)))
    open_review(page, desk)
    press(page, "t")
    page.keyboard.type("80% wool; 15% polyamide")
    press(page, "Enter")
    expect(page.locator("#trouble")).to_contain_text("95%")
    press(page, "Escape", "Enter")
    assert cabinet.records()[0].fibre == "80% wool; 10% polyamide"


def test_nothing_is_taken_for_a_lot_that_was_not_read(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    reading = with_field(lot_tag(1), Field("lot"))
    hold(cabinet, reading)
    open_review(page, desk)
    press(page, "Enter")
    expect(page.locator("#trouble")).to_contain_text("press N")
    assert lots(cabinet) == []


def test_the_picture_zooms_to_the_word_and_turns(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    hold(cabinet, lot_tag(1))
    open_review(page, desk)
    box = page.locator("#picture")
    expect(box).to_have_attribute("viewBox", "0 0 1100 700")
    page.keyboard.press("z")
    left, top, width, height = map(float, str(box.get_attribute("viewBox")).split())
    assert width < 1100 / 1.5
    line = lot_tag(1).lines[3]
    assert top < line.centre[1] < top + height
    assert left < line.centre[0] < left + width
    page.keyboard.press("z")
    page.keyboard.press("r")
    expect(box).to_have_attribute("viewBox", "0 0 700 1100")
    page.keyboard.press("Shift+R")
    expect(box).to_have_attribute("viewBox", "0 0 1100 700")


def test_the_picture_is_moved_by_dragging_and_by_the_wheel(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    hold(cabinet, lot_tag(1))
    open_review(page, desk)
    picture = page.locator("#picture")
    picture.hover()
    page.mouse.wheel(0, -100)
    page.mouse.wheel(0, -100)
    expect(picture).to_have_class("close")

    def shown() -> list[float]:
        return [float(text) for text in str(picture.get_attribute("viewBox")).split()]

    before = shown()
    assert before[2] < 1100
    page.mouse.down()
    page.mouse.move(500, 300, steps=4)
    page.mouse.up()
    left, top, width, _ = shown()
    assert (left, top) != (before[0], before[1])
    assert width == before[2]
    assert 0 <= left <= 1100 - width


def test_a_sure_field_can_be_corrected(page: Page, desk: Served, cabinet: Cabinet) -> None:
    hold(cabinet, lot_tag(1))
    open_review(page, desk)
    expect(page.locator("#other-maker")).to_be_hidden()
    page.keyboard.press("f")
    page.locator("#other-maker").fill("Hollin Field")
    expect(page.locator("tr", has=page.locator("#other-maker"))).to_contain_text("changed")
    page.locator("#other-maker").press("Escape")
    press(page, "2")
    assert cabinet.records()[0].maker == "Hollin Field"


def test_one_print_is_split_into_two_values(page: Page, desk: Served, cabinet: Cabinet) -> None:
    reading = with_field(
        lot_tag(1), doubtful("shade", "Sloe/071"), Field("shade_code"), sure("lot", "00412")
    )
    hold(cabinet, reading)
    open_review(page, desk)
    page.keyboard.press("x")
    expect(page.locator("#split-two")).to_have_text("071")
    page.keyboard.press("End")
    expect(page.get_by_role("button", name="Take both")).to_be_disabled()
    for _ in range(3):
        page.keyboard.press("ArrowLeft")
    press(page, "Enter")
    (record,) = cabinet.records()
    assert (record.shade, record.shade_code) == ("Sloe", "071")


def test_lines_of_print_are_joined_into_one_value(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    rows = (
        Printed("Early", words={"shade": "Early"}),
        Printed("Gorse"),
        Printed("Lot 77", words={"lot": "77"}),
    )
    hold(cabinet, printed_tag("gorse.jpg", rows, doubtful("shade", "Early"), sure("lot", "77")))
    open_review(page, desk)
    page.keyboard.press("j")
    page.get_by_label("Gorse").check()
    expect(page.locator("#join-text")).to_have_text("Early Gorse")
    page.keyboard.press("Enter")
    expect(page.locator("#typed")).to_have_value("Early Gorse")
    press(page, "Enter")
    assert cabinet.records()[0].shade == "Early Gorse"


def test_two_sides_of_one_tag_are_joined(page: Page, desk: Served, cabinet: Cabinet) -> None:
    front = printed_tag(
        "front.jpg",
        (Printed("HOLLIN FOLD", words={"maker": "HOLLIN FOLD"}), Printed("Sloe")),
        sure("maker", "Hollin Fold"),
        doubtful("shade", "Sloe"),
    )
    reverse = printed_tag(
        "reverse.jpg",
        (Printed("Lot 0O7", "Lot 007", {"lot": "0O7"}), Printed("50 g", words={"mass_g": "50"})),
        doubtful("lot", "0O7", "007"),
        sure("mass_g", 50.0),
    )
    one, other = hold(cabinet, front, reverse)
    open_review(page, desk)
    page.keyboard.press("j")
    page.locator("#join-sides input").nth(1).check()
    press(page, "Enter")
    expect(page.locator("#news")).to_contain_text("Joined")  # the shade is asked before, too
    asked(page, one, "shade")
    press(page, "Enter")
    asked(page, one, "lot")
    expect(page.locator("#source")).to_contain_text("reverse.jpg")
    press(page, "2")
    (record,) = cabinet.records()
    assert (record.shade, record.lot, record.mass_g) == ("Sloe", "007", 50.0)
    assert cabinet.waiting() == []
    assert cabinet.queue.left(other) is Left.JOINED
    press(page, "b")
    assert set(cabinet.waiting()) == {one, other}


def test_joining_can_be_taken_back(page: Page, desk: Served, cabinet: Cabinet) -> None:
    _, other = hold(cabinet, with_field(lot_tag(1), Field("maker")), lot_tag(2))
    open_review(page, desk)
    page.keyboard.press("j")
    page.locator("#join-sides input").nth(1).check()
    press(page, "Enter")
    expect(page.locator("#other-maker")).to_have_value("Hollin Fold")
    press(page, "b")
    expect(page.locator("#other-maker")).to_have_value("")
    press(page, "2")
    assert cabinet.records()[0].maker == ""
    assert cabinet.waiting() == [other]


def test_a_tag_that_the_answer_makes_a_repeat_is_asked_about(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    filed_one = with_field(lot_tag(1, shade="Sloe"), sure("lot", "00412"))
    cabinet.file(replace(filed_one, picture="before.jpg", digest="d" * 64))
    (tag_id,) = hold(cabinet, lot_tag(1, shade="Sloe"))
    open_review(page, desk)
    press(page, "2")
    asked(page, tag_id, REPEAT)
    expect(page.locator("#choices")).to_contain_text(REPEAT_ANSWERS[1])
    press(page, "Enter")
    expect(page.locator("#trouble")).to_have_text("Choose 1 or 2.")
    press(page, "2")
    assert len(cabinet.records()) == 1
    assert cabinet.queue.was_discarded(tag_id)


def test_keys_are_listed_and_can_be_made_to_need_alt(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    open_review(page, desk)
    page.keyboard.press("?")
    expect(page.locator("#keys")).to_be_visible()
    page.locator("#keys-on").uncheck()
    page.keyboard.press("Escape")
    press(page, "d")
    assert cabinet.waiting() == [tag_id]
    press(page, "Alt+d")
    assert cabinet.waiting() == []


# By touch


def test_a_pass_by_touch_on_a_phone(browser: Browser, desk: Served, cabinet: Cabinet) -> None:
    _, two, three = hold(cabinet, lot_tag(1), SHADE_AND_LOT, lot_tag(3))
    context = phone(browser)
    page = reviewing(context, desk)
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= 390
    page.get_by_role("button", name="00412").tap()
    asked(page, two, "shade")
    page.get_by_role("button", name="To the word").tap()
    page.get_by_role("button", name="Take").tap()
    asked(page, two, "lot")
    page.locator("#typed").tap()
    page.locator("#typed").fill("88")
    page.get_by_role("button", name="Take").tap()
    asked(page, three, "lot")
    page.get_by_role("button", name="Back").tap()
    asked(page, two, "lot")
    page.get_by_role("button", name="Take").tap()
    asked(page, three, "lot")
    page.get_by_role("button", name="Discard").tap()
    page.wait_for_selector('body[data-shown="nothing"]')
    assert sorted(lots(cabinet)) == ["00412", "88"]
    context.close()


# More than one window, and none that answers


def test_a_tag_answered_in_another_window_is_passed_over(
    browser: Browser, desk: Served, cabinet: Cabinet
) -> None:
    _, two = hold(cabinet, lot_tag(1), lot_tag(2))
    here, there = window(browser), window(browser)
    page, other = reviewing(here, desk), reviewing(there, desk)
    press(other, "2")
    page.keyboard.press("1")
    asked(page, two, "lot")
    expect(page.locator("#news")).to_contain_text("another window")
    assert lots(cabinet) == ["00412"]
    here.close()
    there.close()


def test_an_answer_given_to_many_tags_meanwhile_stands(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    (tag_id,) = hold(cabinet, SHADE_AND_LOT)
    open_review(page, desk)
    press(page, "1")
    asked(page, tag_id, "lot")
    cabinet.settle({tag_id: {"shade": "Torn"}})
    page.reload()
    asked(page, tag_id, "lot")
    press(page, "2")
    assert [(record.shade, record.lot) for record in cabinet.records()] == [("Torn", "00412")]


def test_nothing_typed_is_lost_while_the_desk_is_closed(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    one, two = hold(cabinet, SHADE_AND_LOT, lot_tag(3))
    open_review(page, desk)
    press(page, "2")
    asked(page, one, "lot")
    desk.close()
    page.keyboard.press("t")
    page.keyboard.type("00413")
    page.keyboard.press("Enter")
    expect(page.locator("#lost")).to_contain_text("does not answer")
    desk.open()
    asked(page, two, "lot")
    expect(page.locator("#lost")).to_be_hidden()
    assert [(record.shade, record.lot) for record in cabinet.records()] == [("Torn", "00413")]


def test_half_typed_text_is_there_again_after_the_page_was_closed(
    browser: Browser, desk: Served, cabinet: Cabinet
) -> None:
    (tag_id,) = hold(cabinet, SHADE_AND_LOT)
    context = window(browser)
    page = reviewing(context, desk)
    press(page, "2", "t")
    page.keyboard.type("004")
    page.close()
    desk.close()
    desk.open()
    page = reviewing(context, desk)
    asked(page, tag_id, "lot")
    expect(page.locator("#typed")).to_have_value("004")
    context.close()


def test_an_answer_that_was_never_confirmed_is_sent_when_the_page_opens_again(
    browser: Browser, desk: Served, cabinet: Cabinet
) -> None:
    _, two = hold(cabinet, SHADE_AND_LOT, lot_tag(3))
    context = window(browser)
    page = reviewing(context, desk)
    press(page, "2")
    desk.close()
    page.keyboard.press("2")
    expect(page.locator("#lost")).to_be_visible()
    page.close()
    desk.open()
    page = reviewing(context, desk)
    asked(page, two, "lot")
    expect(page.locator("#news")).to_contain_text("Filed: Torn, lot 00412")
    assert [(record.shade, record.lot) for record in cabinet.records()] == [("Torn", "00412")]
    context.close()


def test_a_stash_that_is_held_is_told_and_the_answer_can_be_given_again(
    page: Page, cabinet: Cabinet, stash: Path
) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    with served(stash, wait_s=0.1) as desk:
        open_review(page, desk)
        with cabinet.stash.locked():
            press(page, "2")
            expect(page.locator("#trouble")).to_contain_text("held by another balltag")
            expect(page.locator("#typed")).to_have_value("00412")
        assert cabinet.waiting() == [tag_id]
        press(page, "Enter")
        assert lots(cabinet) == ["00412"]


# What a tag says stays text, and nothing leaves the machine


def test_markup_on_a_tag_stays_text(page: Page, desk: Served, cabinet: Cabinet) -> None:
    script = "<img src=x onerror=document.title='run'><script>document.title='run'</script>"
    reading: TagReading = replace(
        with_field(lot_tag(1), doubtful("shade", script, script + "2", reason=f"near to {script}")),
        notes=(script,),
    )
    hold(cabinet, reading)
    open_review(page, desk)
    expect(page.locator("#choices")).to_contain_text(script)
    expect(page.locator("#reason")).to_contain_text(script)
    expect(page.locator("#notes")).to_have_text(script)
    press(page, "1", "2")
    expect(page.locator("#news")).to_contain_text(script)
    assert page.title() != "run"
    assert page.locator("main img, #news img").count() == 0
    assert cabinet.records()[0].shade == script


def test_no_request_leaves_the_machine(page: Page, desk: Served, cabinet: Cabinet) -> None:
    sent: list[str] = []

    def note(request: Request) -> None:
        sent.append(request.url)

    page.context.on("request", note)
    hold(cabinet, lot_tag(1), lot_tag(2))
    open_review(page, desk)
    press(page, "2", "z", "r", "b", "?", "Escape", "1", "1")
    assert len(sent) > 5
    assert all(url.startswith(f"{desk.address}/") for url in sent)


def test_the_page_runs_under_its_own_policy(page: Page, desk: Served, cabinet: Cabinet) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    hold(cabinet, lot_tag(1))
    open_review(page, desk)
    press(page, "z", "x", "Escape", "j", "Escape", "2")
    assert said == []
