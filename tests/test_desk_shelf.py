"""The page of the stash: what stands on the shelf, what a search finds, and how it looks in a
real browser."""

from __future__ import annotations

import io
import os
from dataclasses import replace
from pathlib import Path

import httpx
import PIL.Image
import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT, phone
from desk_pages import Served
from filing_tags import sure, tag
from playwright.sync_api import Browser, Page, expect
from sums_balls import ball, weighed

from intake.desk.shelf import LOT_BALLS, PAGE_BALLS, FreshShelf, Shelf, Sought
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.sums.lots import totals
from intake.sums.maker_sheet import MakerLine, MakerSheet, write_maker_sheet

SHEET = MakerSheet([MakerLine("Thistlewick Mill", "", {"length_m": "200", "mass_g": "50"})])
WEIGHED = {
    "mass_g": "31.2",
    "mass_uncertainty_g": "0.5",
    "length_m": "131",
    "length_uncertainty_m": "4",
}


def shades_found(shelf: Shelf, sought: Sought, start: int = 0) -> list[str]:
    return [shade.name.shade for shade in shelf.find(sought, start).shades]


# What is found


def test_each_word_must_stand_on_the_tag_whatever_its_accents_and_case() -> None:
    shelf = Shelf([ball(shade="Façade Blue", lot="0012"), ball(shade="Heron", lot="0098")])
    assert shades_found(shelf, Sought("facade")) == ["Façade Blue"]
    assert shades_found(shelf, Sought("BLUE 0012")) == ["Façade Blue"]
    assert shades_found(shelf, Sought("blue 0098")) == []
    assert shades_found(shelf, Sought("quillstow")) == ["Façade Blue", "Heron"]


def test_no_word_is_found_across_two_columns() -> None:
    shelf = Shelf([ball(shade="Kelp", shade_code="041", lot="0012")])
    assert shelf.find(Sought("kelp041")).totals.balls == 0
    assert shelf.find(Sought("kelp 041")).totals.balls == 1


def test_leading_zeros_are_searched_as_they_stand() -> None:
    shelf = Shelf([ball(lot="0012"), ball(lot="12")])
    assert shelf.find(Sought("0012")).totals.balls == 1


def test_what_the_maker_sheet_assumes_is_found_and_told_as_assumed() -> None:
    assumed = ball(None, None, sheet=SHEET, maker="Thistlewick Mill", range="")
    found = Shelf([assumed]).find(Sought("thistlewick"))
    assert (found.totals.left_m, found.totals.assumed) == (200.0, 1)


def test_a_part_ball_counts_with_what_the_scale_left_of_it() -> None:
    found = Shelf([ball(210.0, 50.0), ball(210.0, 50.0, weighed(20.0, 84.0))]).find()
    assert (found.totals.left_m, found.totals.left_g) == (294.0, 70.0)


def test_sums_of_what_is_found_are_those_of_its_balls() -> None:
    balls = [
        ball(None if n % 5 == 0 else 100.0 + n / 8, None if n % 7 == 0 else 50.0, shade=f"Fen{n}")
        for n in range(60)
    ]
    balls.append(ball(None, None, sheet=SHEET, maker="Thistlewick Mill", range=""))
    shelf = Shelf(balls)
    assert shelf.find().totals == totals(balls)
    some = [one for one in balls if one.record.shade.startswith("Fen1")]
    assert shelf.find(Sought("fen1")).totals == totals(some)
    assert shelf.find(Sought("nowhere")).totals == totals([])
    assert Shelf().find().totals == totals([])


def test_maker_and_weight_class_are_the_balls_own() -> None:
    shelf = Shelf([ball(maker="Marram & Daughter"), ball(weight_class="aran")])
    assert shelf.makers == ["Marram & Daughter", "Quillstow Spinners"]
    assert shelf.find(Sought(maker="Marram & Daughter")).totals.balls == 1
    assert shelf.find(Sought(maker="Marram")).totals.balls == 0
    assert shelf.find(Sought(weight_class="aran")).totals.balls == 1


def test_two_makers_shades_of_one_name_stay_two() -> None:
    found = Shelf([ball(), ball(maker="Marram & Daughter")]).find(Sought("kelp"))
    assert (found.shade_count, found.lot_count) == (2, 2)


# Pages


def test_a_page_ends_with_a_lot_and_the_next_goes_on_with_the_shade() -> None:
    per_lot = 7
    shelf = Shelf([ball(lot=f"{lot:04}") for lot in range(20) for _ in range(per_lot)])
    first = shelf.find()
    lots = -(-PAGE_BALLS // per_lot)
    assert [len(shade.lots) for shade in first.shades] == [lots]
    assert first.following == lots
    second = shelf.find(start=first.following)
    assert second.shades[0].before
    assert second.shades[0].lots[0].lot.lot == f"{lots:04}"
    assert second.totals.balls == first.totals.balls == 20 * per_lot


def test_going_through_all_pages_meets_every_lot_once() -> None:
    shelf = Shelf([ball(shade=f"Shade {n % 23}", lot=f"{n % 101:03}") for n in range(400)])
    met: list[tuple[str, str]] = []
    start = -1
    while start:
        found = shelf.find(start=max(start, 0))
        met += [(shade.name.shade, lot.lot.lot) for shade in found.shades for lot in shade.lots]
        start = found.following
    assert len(met) == len(set(met)) == found.lot_count


@pytest.mark.parametrize("start", [-5, 99, 10**8])
def test_a_page_that_is_not_there_is_empty_or_the_first(start: int) -> None:
    found = Shelf([ball()]).find(start=start)
    assert len(found.shades) == (1 if start < 0 else 0)


def test_a_large_lot_is_cut_short_and_can_be_seen_whole() -> None:
    balls = [ball() for _ in range(LOT_BALLS + 5)]
    shelf = Shelf([*balls, ball(lot="0098")])
    (cut, _) = shelf.find().shades[0].lots
    assert (len(cut.shown), cut.more) == (LOT_BALLS, 5)
    assert cut.lot.totals.balls == LOT_BALLS + 5
    (whole,) = shelf.find(Sought(lot_of=balls[3].record.id)).shades[0].lots
    assert (len(whole.shown), whole.more) == (LOT_BALLS + 5, 0)
    assert shelf.find(Sought(lot_of="t" + "0" * 15)).totals.balls == 0


def test_a_heading_says_only_what_holds_for_all_its_balls() -> None:
    found = Shelf([ball(care="hand wash", fibre="100% wool"), ball(care="", fibre="100% wool")])
    (shade,) = found.find().shades
    assert shade.alike("fibre") is not None
    assert shade.alike("care") is None


# Following the files


def test_what_another_process_changes_is_on_the_shelf(cabinet: Cabinet, stash: Path) -> None:
    fresh = FreshShelf(open_cabinet(stash))
    assert len(fresh.now()) == 0
    record = cabinet.file(tag("a.jpg", length_m=None, mass_g=None))
    assert len(fresh.now()) == 1
    cabinet.correct({record.id: {"shade": "Heron"}})
    assert shades_found(fresh.now(), Sought("heron")) == ["Heron"]
    write_maker_sheet(
        cabinet.stash, [MakerLine("Quillstow Spinners", "", {"length_m": "90", "mass_g": "25"})]
    )
    assert fresh.now().find().totals.left_m == 90.0
    cabinet.weigh(record.id, WEIGHED)
    assert fresh.now().find().totals.left_m == 131.0
    cabinet.withdraw([record.id])
    assert len(fresh.now()) == 0


# Over the network


def test_text_read_from_a_tag_is_never_markup(client: httpx.Client, cabinet: Cabinet) -> None:
    shade = "<script>alert(1)</script>"
    record = cabinet.file(tag("a.jpg", shade=shade, maker='"><img src=x>'))
    pages = ("/shelf", "/shelf/found?words=script", f"/records/{record.id}", "/makers")
    for path in pages:
        text = client.get(path).text
        assert shade not in text
        assert "<img src=x>" not in text
    assert "&lt;script&gt;" in client.get("/shelf").text


def test_what_is_searched_for_is_never_markup(client: httpx.Client) -> None:
    text = client.get("/shelf", params={"words": '"><script>alert(1)</script>'}).text
    assert "<script>alert" not in text


def test_small_pictures_are_small_and_follow_the_tags(
    client: httpx.Client, cabinet: Cabinet
) -> None:
    record = cabinet.file(tag("a.jpg"))
    answer = client.get(f"/tags/{record.id}/small.jpg")
    assert answer.headers["Content-Type"] == "image/jpeg"
    with PIL.Image.open(io.BytesIO(answer.content)) as small:
        assert max(small.size) == 320
    path = cabinet.pictures.path(record.id)
    PIL.Image.new("RGB", (40, 30)).save(path)
    os.utime(path, ns=(1, 1))
    with PIL.Image.open(io.BytesIO(client.get(f"/tags/{record.id}/small.jpg").content)) as small:
        assert small.size == (40, 30)


@pytest.mark.parametrize(
    "tag_id", ["..", "..%2f..%2fstash", "t0123456789abcde", "t0123456789abcde%2f..%2fx", "%00"]
)
def test_no_small_picture_leads_out_of_the_folder(client: httpx.Client, tag_id: str) -> None:
    assert client.get(f"/tags/{tag_id}/small.jpg").status_code in (404, 405)


def test_a_spoilt_picture_is_missing_and_the_page_goes_on(
    client: httpx.Client, cabinet: Cabinet
) -> None:
    record = cabinet.file(tag("a.jpg"))
    cabinet.pictures.path(record.id).write_bytes(b"no picture")
    assert client.get(f"/tags/{record.id}/small.jpg").status_code == 404
    assert client.get("/shelf").status_code == 200


# In a browser

needs_browser = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)


def file_many(cabinet: Cabinet, count: int) -> None:
    """Records whose pictures are one and the same: drawing them would take long."""
    drawn = tag("many.jpg")
    for number in range(count):
        named = {"shade": sure("shade", f"Shade {number:03}"), "lot": sure("lot", f"{number:04}")}
        cabinet.file(replace(drawn, tag=number + 1, fields={**drawn.fields, **named}))


@needs_browser
def test_the_shelf_follows_what_is_typed(page: Page, desk: Served, cabinet: Cabinet) -> None:
    cabinet.file(tag("a.jpg", shade="Kelp"))
    cabinet.file(tag("b.jpg", shade="Heron", lot="0098"))
    page.goto(f"{desk.address}/shelf")
    expect(page.locator(".shade h2")).to_have_count(2)
    page.keyboard.press("/")
    page.keyboard.type("hero")
    expect(page.locator(".shade h2")).to_have_text(["Heron 041"])
    expect(page.locator("#said")).to_have_text("1 ball found")
    expect(page).to_have_url(f"{desk.address}/shelf?words=hero")
    page.reload()
    expect(page.locator(".shade h2")).to_have_text(["Heron 041"])
    page.locator("#words").fill("0012 heron")
    expect(page.locator("#found")).to_contain_text("Nothing is like that")
    page.locator("#words").fill("")
    expect(page.locator(".shade h2")).to_have_count(2)
    expect(page.locator("img[data-src]")).to_have_count(0)
    for picture in page.locator(".ball img").all():
        assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") == 320
    page.locator(".ball").first.click()
    expect(page.locator("h1")).to_have_text("Heron 041")


@needs_browser
def test_assumed_and_weighed_amounts_are_marked_in_words(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    cabinet.file(tag("a.jpg", length_m=None, mass_g=None))
    weighed_record = cabinet.file(tag("b.jpg", shade="Heron", lot="0098"))
    cabinet.weigh(weighed_record.id, WEIGHED)
    write_maker_sheet(
        cabinet.stash, [MakerLine("Quillstow Spinners", "", {"length_m": "90", "mass_g": "25"})]
    )
    page.goto(f"{desk.address}/shelf")
    expect(page.locator(".ball").first).to_contain_text("131\u202fm · 31.2\u202fg left")
    assumed = page.locator(".ball").nth(1)
    expect(assumed).to_contain_text("90\u202fm")
    expect(assumed.locator(".guess").first).to_have_text("≈")
    assert "assumed" in (assumed.text_content() or "")


@needs_browser
def test_more_shades_come_as_one_scrolls(page: Page, desk: Served, cabinet: Cabinet) -> None:
    file_many(cabinet, 3 * PAGE_BALLS)
    page.goto(f"{desk.address}/shelf")
    expect(page.locator(".shade")).to_have_count(PAGE_BALLS)
    for pages in (2, 3):
        page.keyboard.press("End")
        expect(page.locator(".shade")).to_have_count(pages * PAGE_BALLS)
    expect(page.locator(".come-to")).to_have_count(1)
    names = page.locator(".shade h2").all_text_contents()
    assert names == sorted(set(names))


@needs_browser
def test_a_lost_connection_is_told_and_the_search_goes_on_after_it(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    cabinet.file(tag("a.jpg"))
    page.goto(f"{desk.address}/shelf")
    desk.close()
    page.locator("#words").fill("kel")
    expect(page.locator("#found [role=alert]")).to_have_text("The desk does not answer.")
    desk.open()
    page.locator("#words").fill("kelp")
    expect(page.locator(".shade h2")).to_have_count(1)


@needs_browser
def test_no_request_leaves_the_machine_and_no_script_complains(
    page: Page, desk: Served, cabinet: Cabinet
) -> None:
    sent: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: sent.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    one, other = (cabinet.file(tag(name)).id for name in ("a.jpg", "b.jpg"))
    records = (f"/records/{one}", f"/records/{one}/merge", f"/records/{one}/merge/{other}")
    for path in ("/shelf", *records, "/history", "/makers", "/new"):
        page.goto(desk.address + path, wait_until="load")
    assert all(url.startswith(f"{desk.address}/") for url in sent)
    assert said == []


@needs_browser
@pytest.mark.parametrize("path", ["/shelf", "/history", "/makers", "/new", "/records"])
def test_nothing_is_wider_than_a_phone(
    browser: Browser, desk: Served, cabinet: Cabinet, path: str
) -> None:
    record = cabinet.file(tag("a.jpg", shade="Forgetmenotsandthistlesinthemorning"))
    cabinet.correct({record.id: {"fibre": "75% wool (merino superwash); 25% polyamide"}})
    context = phone(browser)
    touched = context.new_page()
    touched.goto(f"{desk.address}{path}{f'/{record.id}' if path == '/records' else ''}")
    assert touched.evaluate("document.documentElement.scrollWidth") == 390
    context.close()
