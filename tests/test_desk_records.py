"""Records on the page: corrected, merged, withdrawn, and each of it taken back; the maker
sheet.  In a real browser."""

from __future__ import annotations

import httpx
import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT
from desk_pages import Served
from filing_tags import tag
from patience import LONG_S
from playwright.sync_api import Page, expect

from intake.filing.cabinet import Cabinet
from intake.filing.changes import Action
from intake.filing.record import Record
from intake.sums.maker_sheet import MakerLine, read_maker_sheet, write_maker_sheet

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)


@pytest.fixture
def record(cabinet: Cabinet) -> Record:
    return cabinet.file(tag("a.jpg"))


def open_record(page: Page, desk: Served, record: Record) -> None:
    page.goto(f"{desk.address}/records/{record.id}")


def save(page: Page) -> None:
    page.get_by_role("button", name="Save corrections").click()


# Correcting


def test_a_correction_is_filed_told_and_taken_back(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    open_record(page, desk, record)
    page.get_by_label("lot", exact=True).fill("0777")
    page.get_by_label("length in metres").fill("199.5")
    save(page)
    expect(page.locator(".record-lot")).to_have_text("lot 0777")
    assert cabinet.record(record.id).lot == "0777"
    assert cabinet.record(record.id).length_m == 199.5
    (change,) = cabinet.history.changes(record.id)
    assert (dict(change.old), dict(change.new)) == (
        {"lot": "0012", "length_m": "210"},
        {"lot": "0777", "length_m": "199.5"},
    )
    expect(page.locator(".stroke")).to_contain_text("lot: 0012")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".record-lot")).to_have_text("lot 0012")
    assert cabinet.record(record.id) == record


def test_a_value_that_cannot_be_stays_typed_beside_its_reason(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    open_record(page, desk, record)
    page.get_by_label("mass in grams").fill("fifty")
    page.get_by_label("shade", exact=True).fill("Heron")
    save(page)
    expect(page.locator("#trouble-mass_g")).to_contain_text("no mass in grams")
    expect(page.get_by_label("mass in grams")).to_have_value("fifty")
    expect(page.get_by_label("shade", exact=True)).to_have_value("Heron")
    assert cabinet.record(record.id) == record
    page.get_by_label("mass in grams").fill("100")
    save(page)
    expect(page.locator("h1")).to_have_text("Heron 041")
    assert cabinet.record(record.id).mass_g == 100.0


def test_a_lot_near_to_another_of_the_shade_is_asked_about_before_it_is_filed(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    cabinet.file(tag("b.jpg", lot="8134"))
    open_record(page, desk, record)
    page.get_by_label("lot", exact=True).fill("B134")
    save(page)
    expect(page.locator(".ask")).to_contain_text("8134")
    assert cabinet.record(record.id).lot == "0012"
    page.get_by_role("button", name="save it all the same").click()
    expect(page.locator(".record-lot")).to_have_text("lot B134")
    assert cabinet.record(record.id).lot == "B134"


def test_two_windows_do_not_overwrite_each_other_unseen(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    open_record(page, desk, record)
    cabinet.correct({record.id: {"lot": "0500", "maker": "Marram & Daughter"}})
    page.get_by_label("lot", exact=True).fill("0777")
    save(page)
    expect(page.locator("#trouble-lot")).to_contain_text("'0500' meanwhile")
    assert cabinet.record(record.id).lot == "0500"
    save(page)
    expect(page.locator(".record-lot")).to_have_text("lot 0777")
    assert cabinet.record(record.id).maker == "Marram & Daughter"


def test_what_was_typed_outlives_a_lost_connection(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    open_record(page, desk, record)
    page.get_by_label("lot", exact=True).fill("0777")
    desk.close()
    save(page)
    expect(page.locator("form .lost")).to_contain_text("The desk does not answer")
    expect(page.get_by_label("lot", exact=True)).to_have_value("0777")
    desk.open()  # with a token of its own
    save(page)
    expect(page.locator(".record-lot")).to_have_text("lot 0777")
    assert cabinet.record(record.id).lot == "0777"


# Taking out


def test_a_withdrawn_record_is_gone_and_can_be_had_back_after_a_restart(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    open_record(page, desk, record)
    page.get_by_role("button", name="Withdraw from the stash").click()
    expect(page.locator("h1")).to_have_text("This record is not in the stash")
    assert cabinet.records() == []
    desk.close()
    desk.open()
    page.goto(f"{desk.address}/history")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".stroke").first).to_contain_text("Taken back: withdrawn")
    assert cabinet.records() == [record]


def test_a_second_record_of_one_ball_is_merged_after_both_tags_were_seen(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    other = cabinet.file(tag("b.jpg", length_m=200.0))
    open_record(page, desk, record)
    page.get_by_role("link", name="Same ball as another record").click()
    page.locator(".choosing .ball").click()
    expect(page.locator(".pair img")).to_have_count(2)
    for picture in page.locator(".pair img").all():
        assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") > 300
    expect(page.locator(".differs")).to_have_count(1)
    expect(page.locator(".differs")).to_contain_text("length in metres differs")
    page.get_by_role("button", name="Keep the right one").click()
    expect(page.get_by_label("length in metres")).to_have_value("200")
    assert [one.id for one in cabinet.records()] == [other.id]
    (change,) = cabinet.history.standing()
    assert (change.action, change.record, change.into) == (Action.MERGED, record.id, other.id)
    page.goto(f"{desk.address}/records/{record.id}")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_label("length in metres")).to_have_value("210")
    assert len(cabinet.records()) == 2


def test_the_other_record_can_be_searched_for(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    cabinet.file(tag("b.jpg", shade="Heron", lot="0098"))
    page.goto(f"{desk.address}/records/{record.id}/merge")
    expect(page.locator(".choosing .ball")).to_have_count(0)
    page.get_by_label("Search").fill("heron")
    page.keyboard.press("Enter")
    expect(page.locator(".choosing .ball")).to_have_count(1)


def test_what_changed_since_cannot_be_undone_under_it(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    cabinet.correct({record.id: {"lot": "0500"}})
    cabinet.correct({record.id: {"lot": "0777"}})
    open_record(page, desk, record)
    page.get_by_role("button", name="Undo").last.click()
    expect(page.locator("h1")).to_have_text("That did not work")
    assert cabinet.record(record.id).lot == "0777"


def test_a_long_history_comes_in_pages_that_cut_no_stroke(
    page: Page, desk: Served, cabinet: Cabinet, record: Record
) -> None:
    for number in range(230):
        cabinet.correct({record.id: {"lot": f"{number:04}"}})
    page.goto(f"{desk.address}/history")
    expect(page.locator(".stroke")).to_have_count(200)
    page.get_by_role("link", name="Earlier changes").click()
    expect(page.locator(".stroke")).to_have_count(30)


def test_a_record_that_never_was_is_told(desk: Served) -> None:
    for path in ("/records/t0123456789abcde", "/records/x", "/records/x/merge"):
        answer = httpx.get(desk.address + path, trust_env=False, timeout=LONG_S)
        assert answer.status_code == 404
        assert "has no record" in answer.text


def test_an_undo_leads_back_to_no_other_place(
    desk: Served, cabinet: Cabinet, record: Record
) -> None:
    (change,) = cabinet.correct({record.id: {"lot": "0500"}})
    with httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as client:
        token = client.get("/token").json()["token"]
        form = {"stroke": change.stroke, "record": "/tags.example/"}
        answer = client.post("/history/undo", params={"token": token}, data=form)
    assert answer.headers["Location"] == "/history"
    assert cabinet.record(record.id).lot == "0012"


# The maker sheet


def test_the_maker_sheet_is_written_on_the_page_and_shows_as_assumed(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    record = cabinet.file(tag("a.jpg", fibre=None))
    page.goto(f"{desk.address}/makers")
    page.get_by_label("maker, line 1").fill("Quillstow Spinners")
    page.get_by_label("fibre composition, line 1").fill("100% wool")
    page.get_by_role("button", name="Save the sheet").click()
    expect(page.get_by_role("status").first).to_contain_text("stash.makers.csv")
    (line,) = read_maker_sheet(cabinet.stash).lines
    assert line == MakerLine("Quillstow Spinners", "", {"fibre": "100% wool"})
    open_record(page, desk, record)
    expect(page.locator(".record-sheet .assumed")).to_contain_text("100% wool")
    expect(page.get_by_label("fibre composition")).to_have_value("")
    assert cabinet.record(record.id).fibre == ""


def test_a_line_that_cannot_be_keeps_all_that_was_typed(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    write_maker_sheet(cabinet.stash, [MakerLine("Thistlewick Mill", "", {"care": "hand wash"})])
    page.goto(f"{desk.address}/makers")
    page.get_by_role("button", name="Another line").click()
    page.get_by_label("maker, line 4").fill("Marram & Daughter")
    page.get_by_label("length in metres, line 4").fill("200")
    page.get_by_role("button", name="Save the sheet").click()
    expect(page.locator("#trouble-2")).to_contain_text("length_m stands alone")
    expect(page.get_by_label("length in metres, line 2")).to_have_value("200")
    assert len(read_maker_sheet(cabinet.stash).lines) == 1
    page.get_by_label("mass in grams, line 2").fill("50")
    page.get_by_role("button", name="Save the sheet").click()
    expect(page.get_by_role("status").first).to_contain_text("Saved")
    assert [line.maker for line in read_maker_sheet(cabinet.stash).lines] == [
        "Thistlewick Mill",
        "Marram & Daughter",
    ]


def test_two_lines_about_one_maker_are_refused(page: Page, desk: Served, cabinet: Cabinet) -> None:
    page.goto(f"{desk.address}/makers")
    for line in (1, 2):
        page.get_by_label(f"maker, line {line}").fill("Thistlewick Mill")
    page.get_by_role("button", name="Save the sheet").click()
    expect(page.locator(".trouble")).to_contain_text("has line 2 already")
    expect(page.get_by_label("maker, line 2")).to_have_value("Thistlewick Mill")
    assert read_maker_sheet(cabinet.stash).lines == ()


def test_a_form_that_is_none_is_refused(desk: Served, cabinet: Cabinet, record: Record) -> None:
    with httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as client:
        token = {"token": client.get("/token").json()["token"]}
        short = client.post("/makers/save", params=token, data={"maker": "x"})
        long = client.post("/makers/save", params=token, content=b"maker=" + b"x" * (1 << 20))
        wild = client.post(f"/records/{record.id}/correct", params=token, content=b"lot=%ff")
        none = client.post(f"/records/{record.id}/correct", params=token)
    assert [short.status_code, long.status_code, wild.status_code] == [400, 413, 400]
    assert none.status_code == 303
    assert cabinet.record(record.id) == record
