"""Pictures sent to the desk: read like any other, and nothing else gets in."""

from __future__ import annotations

import json
import resource
import shutil
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPResponse
from pathlib import Path

import httpx
import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT, phone, window
from desk_pages import Served
from patience import LONG_S, wait_until
from playwright.sync_api import Browser, Route, expect

from intake.desk.inbox import MOST_BYTES, MOST_UNREAD, Coming, Inbox, InboxFull, Stage
from intake.errors import EmptyFile, NoAccess, NotAPicture, TooLarge
from intake.filing.cabinet import Cabinet
from intake.filing.record import Record, record_from_reading

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"
SCAN = DEMO / "scan_01.jpg"


@pytest.fixture
def client(desk: Served) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as opened:
        opened.headers["X-Desk-Token"] = opened.get("/token").json()["token"]
        opened.headers["Accept"] = "application/json"
        yield opened


def files_under(folder: Path) -> list[str]:
    return sorted(
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and path.name != ".lock"
    )


def filed_or_waiting(cabinet: Cabinet) -> list[Record]:
    waiting = (record_from_reading(cabinet.get(tag_id).reading) for tag_id in cabinet.waiting())
    return [*cabinet.records(), *waiting]


def until_done(inbox: Inbox) -> None:
    wait_until(
        lambda: all(sent.stage is Stage.DONE for sent in inbox.all_sent()),
        "the pictures are read",
    )


@contextmanager
def sender(client: httpx.Client, name: str, size: int) -> Iterator[socket.socket]:
    """A line to the desk over which a picture of ``size`` bytes is announced, and no byte
    of it sent yet."""
    url = client.base_url
    assert url.port is not None
    head = (
        f"POST /new/pictures?name={name} HTTP/1.1\r\nHost: {url.host}:{url.port}\r\n"
        f"X-Desk-Token: {client.headers['X-Desk-Token']}\r\n"
        f"Accept: application/json\r\nContent-Length: {size}\r\n\r\n"
    )
    with socket.create_connection((url.host, url.port), timeout=LONG_S) as line:
        line.sendall(head.encode())
        yield line


# Reading


@pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)
def test_pictures_are_sent_read_and_told_on_the_page(
    browser: Browser, desk: Served, cabinet: Cabinet, tmp_path: Path
) -> None:
    text = tmp_path / "words.jpg"
    text.write_text("no picture at all " * 100)
    torn = tmp_path / "torn.jpg"
    torn.write_bytes(SCAN.read_bytes()[:9000])
    context = phone(browser)
    page = context.new_page()
    said: list[str] = []
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(f"{desk.address}/new")
    page.locator("#choose").set_input_files([SCAN, text, torn])
    results = {name: page.locator(".one", has_text=name) for name in ("scan_01", "words", "torn")}
    expect(results["words"]).to_contain_text("Not taken: is not a picture")
    page.context.new_page().goto(f"{desk.address}/shelf")
    stages = [
        sent["stage"]
        for sent in page.request.get(f"{desk.address}/new/pictures").json()["pictures"]
    ]
    assert "done" not in stages, "the page must answer while a picture is read"
    expect(results["scan_01"].locator(".filed, .queued")).to_have_count(1)
    expect(results["torn"]).to_contain_text("damaged or cut short")
    assert said == []

    (record,) = filed_or_waiting(cabinet)
    assert record.lot == "81-50-7"
    kept = Path(record.picture)
    assert kept.parent == desk.stash.with_suffix(".inbox")
    assert kept.read_bytes() == SCAN.read_bytes()
    assert files_under(kept.parent) == [kept.name]

    page.reload()
    page.locator("#choose").set_input_files(SCAN)
    expect(page.locator(".one").first).to_contain_text("Here already")
    assert files_under(kept.parent) == [kept.name]
    context.close()


@pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)
@pytest.mark.parametrize("list_comes", ["before the desk's answer", "after it"])
def test_each_picture_has_one_row_and_the_last_is_on_top_whenever_the_list_comes(
    list_comes: str, browser: Browser, desk: Served, tmp_path: Path
) -> None:
    def torn(name: str) -> Path:
        path = tmp_path / name
        path.write_bytes(SCAN.read_bytes()[:9000])
        return path

    context = window(browser)
    page = context.new_page()
    names = page.locator(".one-name")
    page.goto(f"{desk.address}/new")
    page.locator("#choose").set_input_files([torn("first.jpg"), torn("second.jpg")])
    expect(page.locator(".failed")).to_have_count(2)
    expect(names).to_have_text(["second.jpg", "first.jpg"])

    lists: list[Route] = []

    def let_the_list_come() -> None:
        with page.expect_response(lambda response: response.request.method == "GET"):
            lists[0].continue_()

    def hold(route: Route) -> None:
        if route.request.method == "GET" and not lists:
            lists.append(route)
        elif route.request.method == "POST" and list_comes == "before the desk's answer":
            answer = route.fetch()  # the desk has the picture now, and lists it
            let_the_list_come()
            route.fulfill(response=answer)
        else:
            route.continue_()

    page.route("**/new/pictures*", hold)
    page.reload()
    page.locator("#choose").set_input_files(torn("third.jpg"))
    if list_comes == "after it":
        expect(page.locator(".one-stage")).to_have_text("Waits to be read")
        let_the_list_come()
    expect(page.locator(".failed")).to_have_count(3)
    expect(names).to_have_text(["third.jpg", "second.jpg", "first.jpg"])
    context.close()


@pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)
def test_pictures_can_be_dropped_and_wait_for_a_desk_that_is_closed(
    browser: Browser, desk: Served, tmp_path: Path
) -> None:
    context = window(browser)
    page = context.new_page()
    page.goto(f"{desk.address}/new")
    desk.close()
    dropped = page.evaluate_handle(
        """() => {
          const files = new DataTransfer();
          files.items.add(new File(["plain words"], "dropped.png"));
          return files;
        }"""
    )
    page.dispatch_event("#drop", "drop", {"dataTransfer": dropped})
    expect(page.locator("#lost")).to_be_visible()
    expect(page.locator(".one-stage")).to_have_text("Waits for the desk")
    desk.open()
    expect(page.locator(".one")).to_contain_text("Not taken")
    expect(page.locator("#lost")).to_be_hidden()
    context.close()


@pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)
def test_a_phone_is_offered_its_camera(browser: Browser, desk: Served) -> None:
    context = phone(browser)
    page = context.new_page()
    page.goto(f"{desk.address}/new")
    camera = page.locator("#camera")
    assert camera.get_attribute("capture") == "environment"
    assert camera.get_attribute("accept") == "image/*"
    expect(page.locator("label", has=camera)).to_be_visible()
    context.close()
    at_desk = window(browser).new_page()
    at_desk.goto(f"{desk.address}/new")
    expect(at_desk.locator("label", has=at_desk.locator("#camera"))).to_be_hidden()


def test_what_was_not_read_when_the_desk_closed_is_read_when_it_opens(
    stash: Path, cabinet: Cabinet
) -> None:
    unread = stash.with_suffix(".inbox") / "unread"
    unread.mkdir(parents=True)
    shutil.copy(SCAN, unread / "20250309T170542-0a1b2c3d.jpg")
    (unread / "20250309T170543-0a1b2c3e.part").write_bytes(b"half a pict")
    inbox = Inbox(stash)
    inbox.resume()
    until_done(inbox)
    inbox.close()
    assert len(filed_or_waiting(cabinet)) == 1
    assert files_under(stash.with_suffix(".inbox")) == ["20250309T170542-0a1b2c3d.jpg"]


def test_a_second_desk_leaves_alone_what_the_first_has_to_read(stash: Path) -> None:
    first, second = Inbox(stash), Inbox(stash)
    coming = first.receive("a.jpg")
    second.resume()
    coming.write(SCAN.read_bytes())
    assert coming.keep().exists()
    second.resume()
    assert second.all_sent() == []
    first.close()
    second.close()


# What does not get in


def test_no_name_of_the_senders_names_a_file(
    client: httpx.Client, stash: Path, tmp_path: Path
) -> None:
    def outside() -> set[Path]:
        return {path for path in tmp_path.rglob("*") if "stash.inbox" not in path.parts}

    before = outside()
    names = ("../../out.jpg", "/tmp/out.jpg", "..\\out.jpg", "a\0b.jpg", "", "x" * 5000 + ".jpg")
    for name in names:
        answer = client.post("/new/pictures", params={"name": name}, content=b"%PDF-1.4 broken")
        assert answer.status_code == 200
        assert len(answer.json()["name"]) <= 120
    assert {path.name for path in outside() - before} <= {"stash.csv.lock"}


@pytest.mark.parametrize(
    ("content", "status"),
    [
        (b"", 415),
        (b"plain words", 415),
        (b"plain words " * 10_000, 415),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", 415),
        (b"GIF89a" + b"\0" * 2000, 415),
        (b"PK\x03\x04" + b"\0" * 2000, 415),
    ],
)
def test_what_is_no_picture_is_refused_whatever_its_name(
    client: httpx.Client, stash: Path, content: bytes, status: int
) -> None:
    answer = client.post("/new/pictures", params={"name": "tag.jpg"}, content=content)
    assert answer.status_code == status
    assert answer.json()["message"].startswith("tag.jpg: ")
    assert files_under(stash.with_suffix(".inbox")) == []


def test_a_giant_is_refused_before_it_is_sent(client: httpx.Client, stash: Path) -> None:
    """Only the head of the request is sent: the answer must not wait for the rest."""
    with sender(client, "giant.tif", MOST_BYTES + 1) as line:
        answer = line.recv(65536).decode()
    assert answer.startswith("HTTP/1.1 413 ")
    assert files_under(stash.with_suffix(".inbox")) == []


def test_a_giant_that_hides_its_size_is_cut_off(tmp_path: Path) -> None:
    coming = Coming(tmp_path, "giant.jpg")
    piece = b"\xff\xd8\xff" + bytes((1 << 20) - 3)
    for _ in range(MOST_BYTES // len(piece)):
        coming.write(piece)
    with pytest.raises(TooLarge):
        coming.write(piece)
    coming.drop()
    assert list(tmp_path.iterdir()) == []


HALF = b"\xff\xd8\xff" + bytes(100_000)


def test_a_sender_that_goes_away_leaves_nothing_and_nothing_is_said_of_it(
    desk: Served, client: httpx.Client, stash: Path, said: pytest.LogCaptureFixture
) -> None:
    inbox = stash.with_suffix(".inbox")
    with sender(client, "half.jpg", 2 * len(HALF)) as line:
        line.sendall(HALF)
        wait_until(lambda: files_under(inbox), "the desk has begun to take it in")
    wait_until(lambda: not files_under(inbox), "what was taken in is gone")
    assert client.get("/new/pictures").json() == {"pictures": []}
    desk.close()
    assert said.messages == []


def test_a_sender_that_falls_silent_is_not_waited_for(
    client: httpx.Client, stash: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a phone that leaves the network: its line stays open, and nothing comes."""
    monkeypatch.setattr("intake.desk.body.STALLED_S", 0.2)
    with sender(client, "half.jpg", 2 * len(HALF)) as line:
        line.sendall(HALF)
        answer = HTTPResponse(line)
        answer.begin()
        assert answer.status == 408
        assert "send it again" in json.load(answer)["message"]
    assert files_under(stash.with_suffix(".inbox")) == []


def test_a_full_disk_leaves_nothing_half(tmp_path: Path) -> None:
    """The most that this process may write into a file stands for the disk's room."""
    coming = Coming(tmp_path, "large.jpg")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, before[1]))
    try:
        with pytest.raises(NoAccess, match="cannot be written"):
            coming.write(HALF)
        coming.drop()
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_taken_without_the_token(client: httpx.Client, stash: Path) -> None:
    del client.headers["X-Desk-Token"]
    answer = client.post("/new/pictures?name=a.jpg", content=SCAN.read_bytes())
    assert answer.status_code == 403
    assert not stash.with_suffix(".inbox").exists()


def test_an_empty_file_and_a_short_text_are_told_apart(tmp_path: Path) -> None:
    with pytest.raises(EmptyFile):
        Coming(tmp_path, "a.jpg").keep()
    coming = Coming(tmp_path, "a.jpg")
    coming.write(b"words")
    with pytest.raises(NotAPicture):
        coming.keep()


def test_too_many_unread_pictures_have_to_wait(stash: Path) -> None:
    inbox = Inbox(stash)
    for number in range(MOST_UNREAD):
        coming = inbox.receive(f"{number}.pdf")
        coming.write(b"%PDF-1.4 broken")
        inbox.add(coming)
    if all(sent.stage is not Stage.DONE for sent in inbox.all_sent()):
        with pytest.raises(InboxFull):
            inbox.receive("one-more.pdf")
    until_done(inbox)
    assert all(sent.results[0].outcome == "failed" for sent in inbox.all_sent())
    inbox.receive("one-more.pdf").drop()
    inbox.close()
