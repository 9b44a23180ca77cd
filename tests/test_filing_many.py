"""Many processes on one stash: none of their records is lost, none doubled, none read torn."""

from __future__ import annotations

import io
import os
import random
import shutil
import threading
import time
import traceback
from collections.abc import Callable, Sequence
from contextlib import closing, redirect_stdout, suppress
from dataclasses import replace
from functools import cache, partial
from pathlib import Path

import httpx
import pytest
from desk_pages import served
from filing_tags import line, tag, waiting_tag

from intake.commands.export import export
from intake.errors import StashBusy
from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.record import record_id
from intake.filing.store import Store
from intake.filing.strokes import withdrawn_change
from intake.records import TagReading
from intake.watch import watch

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"

TAKERS = 2

ONE_IN = 10
"""So many tags are taken for each one that has to wait."""


@cache
def plain() -> tuple[TagReading, TagReading]:
    return tag("plain.jpg"), waiting_tag("plain.jpg")


def reading(taker: int, number: int) -> TagReading:
    """A tag of its own shade and print: drawing thousands would take longer than filing."""
    sure, doubtful = plain()
    base = doubtful if number % ONE_IN == 0 else sure
    chance = random.Random(f"{taker}:{number}")
    shade = "".join(chance.choices("abcdefghijklmnopqrstuvwxyz", k=9)).title()
    code = f"{chance.randrange(10**8):08}"
    fields = {
        **base.fields,
        "shade": replace(base.fields["shade"], value=shade),
        "shade_code": replace(base.fields["shade_code"], value=code),
    }
    return replace(
        base, picture=f"box{taker}.jpg", tag=number, digest=f"{taker:064}",
        print_hash=chance.randbytes(32).hex(), fields=fields, lines=(line(shade),),
    )  # fmt: skip


def take_in(path: Path, taker: int, count: int) -> None:
    cabinet = open_cabinet(path, wait_s=600)
    for number in range(1, count + 1):
        taken = cabinet.take(reading(taker, number))
        assert taken.outcome in ("filed", "queued"), taken


def correct(path: Path, strokes: int) -> None:
    cabinet, chance = open_cabinet(path, wait_s=600), random.Random(5)
    for number in range(strokes):
        while not cabinet.records():
            time.sleep(0.05)
        some = chance.sample(cabinet.records(), min(3, len(cabinet.records())))
        cabinet.correct({one.id: {"origin": f"Quillstow {number}"} for one in some})


def answer(path: Path, each: int, count: int) -> None:
    """As the page does, to a desk of the stash; the tags of the watch are left waiting."""
    with (
        served(path, wait_s=600) as desk,
        httpx.Client(base_url=desk.address, trust_env=False, timeout=600) as page,
    ):
        page.headers["X-Desk-Token"] = page.get("/token").json()["token"]
        takers, answered = taken_in(each), 0
        while answered < count:
            ids = set(page.get("/review/tags").json()["ids"]) & takers
            for waiting in sorted(ids)[: count - answered]:
                answers = {"answers": {"lot": "0012"}}
                told = page.post(f"/review/tags/{waiting}/answers", json=answers).json()
                assert told["state"] == "filed", told
                answered += 1
            time.sleep(0.01)


def watch_folder(path: Path, pictures: Sequence[Path]) -> None:
    """Real pictures, read and taken in; the ids of their tags are left beside the stash.  A
    watch that finds the stash busy for too long ends, and is started again."""
    basket, ids = path.with_name("basket"), set[str]()
    basket.mkdir()
    for picture in pictures:
        shutil.copy(picture, basket)
    while len(ids) < len(pictures):
        with suppress(StashBusy), closing(watch(basket, path, jobs=1)) as results:
            for result in results:
                assert result.id, result.reason
                ids.add(result.id)
                if len(ids) == len(pictures):
                    break
    path.with_name("watched").write_text("\n".join(ids))


def read(path: Path, until: Path) -> None:
    """Read over and over: no row is torn, none that was there is gone."""
    before: set[str] = set()
    while not until.exists():
        records = open_stash(path).records()
        ids = {one.id for one in records}
        assert len(ids) == len(records)
        assert before <= ids
        before = ids
        assert open_stash(path).table().num_rows >= len(records)
        open_cabinet(path, wait_s=600).asked()


def export_sheets(path: Path, until: Path) -> None:
    while not until.exists():
        with redirect_stdout(io.StringIO()):
            export(path.with_name("sheet.csv"), path, garment_m=1200.0, no_pictures=True)
        time.sleep(0.2)


def start(work: Callable[[], None]) -> int:
    child = os.fork()
    if child == 0:
        try:
            work()
        except BaseException:
            traceback.print_exc()
            os._exit(1)
        os._exit(0)
    return child


def ended_well(child: int) -> bool:
    return os.waitpid(child, 0)[1] == 0


def taken_in(each: int) -> set[str]:
    """The ids of the tags that the takers take in."""
    return {
        record_id(f"{taker:064}", number)
        for taker in range(TAKERS)
        for number in range(1, each + 1)
    }


def many_at_once(path: Path, records: int, strokes: int, pictures: Sequence[Path]) -> float:
    """Two take in, one watches a folder of ``pictures`` of one tag each, one corrects, one
    answers on the page, two read and one exports.  How many seconds that took."""
    began = time.monotonic()
    until = path.with_name("enough")
    each = records // TAKERS
    waiting = TAKERS * (each // ONE_IN)
    plain()
    writers = [start(partial(take_in, path, taker, each)) for taker in range(TAKERS)]
    writers += [
        start(partial(watch_folder, path, pictures)),
        start(partial(correct, path, strokes)),
        start(partial(answer, path, each, waiting // 2)),
    ]
    readers = [start(partial(read, path, until)) for _ in range(2)]
    readers += [start(partial(export_sheets, path, until))]
    well = [ended_well(child) for child in writers]
    until.touch()
    well += [ended_well(child) for child in readers]
    took_s = time.monotonic() - began
    assert all(well), well
    cabinet = open_cabinet(path)
    watched = set(path.with_name("watched").read_text().split())
    assert len(watched) == len(pictures)
    filed, asked = [one.id for one in cabinet.records()], cabinet.waiting()
    assert len(filed) == len(set(filed))
    assert not set(filed) & set(asked)
    assert set(filed) | set(asked) == taken_in(each) | watched
    answered = TAKERS * each - waiting + waiting // 2
    assert len(set(filed) - watched) == answered
    assert len({one.stroke for one in cabinet.history.changes()}) == strokes + waiting // 2
    assert Check(Store(open_stash(path))).findings() == []
    return took_s


def test_many_processes_share_a_stash(tmp_path: Path) -> None:
    many_at_once(tmp_path / "stash.csv", 80, 5, [])  # reading a picture would take as long again


@pytest.mark.slow
def test_eight_processes_share_a_stash_of_five_thousand(tmp_path: Path) -> None:
    pictures = sorted(DEMO.glob("scan_*"))
    took_s = many_at_once(tmp_path / "stash.csv", 5000, 100, pictures)
    print(f"5000 records in {took_s:.0f} s")


def test_who_only_reads_waits_for_no_lock_once_the_stroke_is_done(tmp_path: Path) -> None:
    """A writer is in the midst of a stroke, ends it and holds the lock for its next."""
    path = tmp_path / "stash.csv"
    record = open_cabinet(path).file(tag())
    writer = Store(open_stash(path))
    with writer.stash.locked():
        writer.history.intend([withdrawn_change(record)])
        ending = threading.Timer(0.5, writer.history.end)
        ending.start()
        began_s = time.monotonic()
        assert open_cabinet(path, wait_s=60).records() == [record]
        assert time.monotonic() - began_s < 50
        ending.join()


def test_who_reads_what_nobody_ends_is_told(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    record = open_cabinet(path).file(tag())
    writer = Store(open_stash(path))
    with writer.stash.locked():
        writer.history.intend([withdrawn_change(record)])
        with pytest.raises(StashBusy, match="held by another"):
            open_cabinet(path, wait_s=0.5)
    assert open_cabinet(path).history.unfinished() == []


def test_who_has_to_wait_too_long_is_told(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    with open_stash(path).locked(), pytest.raises(StashBusy, match="held by another"):
        open_cabinet(path, wait_s=0.05).take(tag())
