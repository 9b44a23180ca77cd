"""Many processes on one stash: none of their records is lost, none doubled, none read torn."""

from __future__ import annotations

import io
import os
import random
import time
import traceback
from collections.abc import Callable
from contextlib import redirect_stdout
from dataclasses import replace
from functools import cache, partial
from pathlib import Path

import pytest
from filing_tags import line, tag, waiting_tag

from intake.commands.export import export
from intake.errors import StashBusy
from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.record import record_id
from intake.filing.store import Store
from intake.records import TagReading

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
    cabinet = open_cabinet(path, wait_s=120)
    for number in range(1, count + 1):
        taken = cabinet.take(reading(taker, number))
        assert taken.outcome in ("filed", "queued"), taken


def correct(path: Path, strokes: int) -> None:
    cabinet, chance = open_cabinet(path, wait_s=120), random.Random(5)
    for number in range(strokes):
        while not cabinet.records():
            time.sleep(0.05)
        some = chance.sample(cabinet.records(), min(3, len(cabinet.records())))
        cabinet.correct({one.id: {"origin": f"Quillstow {number}"} for one in some})


def answer(path: Path, count: int) -> None:
    cabinet = open_cabinet(path, wait_s=120)
    answered = 0
    while answered < count:
        for waiting in cabinet.waiting()[: count - answered]:
            cabinet.resolve(waiting, {"lot": "0012"})
            answered += 1
        time.sleep(0.01)


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
        open_cabinet(path, wait_s=120).asked()


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


def many_at_once(path: Path, records: int, strokes: int) -> float:
    """Three take in, one corrects, one answers, two read and one exports.  How many seconds
    that took."""
    began = time.monotonic()
    until = path.with_name("enough")
    each = records // 3
    waiting = 3 * (each // ONE_IN)
    plain()
    writers = [start(partial(take_in, path, taker, each)) for taker in range(3)]
    writers += [start(partial(correct, path, strokes)), start(partial(answer, path, waiting // 2))]
    readers = [start(partial(read, path, until)) for _ in range(2)]
    readers += [start(partial(export_sheets, path, until))]
    well = [ended_well(child) for child in writers]
    until.touch()
    well += [ended_well(child) for child in readers]
    took_s = time.monotonic() - began
    assert all(well), well
    cabinet = open_cabinet(path)
    tags = {
        record_id(f"{taker:064}", number) for taker in range(3) for number in range(1, each + 1)
    }
    filed = [one.id for one in cabinet.records()]
    assert len(filed) == len(set(filed))
    assert set(filed) | set(cabinet.waiting()) == tags
    assert not set(filed) & set(cabinet.waiting())
    assert len(filed) == 3 * each - waiting + waiting // 2
    assert len({one.stroke for one in cabinet.history.changes()}) == strokes + waiting // 2
    assert Check(Store(open_stash(path))).findings() == []
    return took_s


def test_eight_processes_share_a_stash(tmp_path: Path) -> None:
    many_at_once(tmp_path / "stash.csv", records=90, strokes=5)


@pytest.mark.slow
def test_eight_processes_share_a_stash_of_five_thousand(tmp_path: Path) -> None:
    took_s = many_at_once(tmp_path / "stash.csv", records=5000, strokes=100)
    print(f"5000 records in {took_s:.0f} s")


def test_who_has_to_wait_too_long_is_told(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    with open_stash(path).locked(), pytest.raises(StashBusy, match="held by another"):
        open_cabinet(path, wait_s=0.05).take(tag())
