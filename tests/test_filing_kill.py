"""A process killed while it files or changes records leaves a stash that opens, with all it
reported."""

from __future__ import annotations

import os
import random
import signal
import time
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import record, tag, waiting_tag

from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.changes import Action
from intake.filing.history import History
from intake.filing.judge import Doubt
from intake.filing.kinds import open_stash
from intake.filing.record import Record, record_cells, record_id

LONGEST_LIFE_S = 0.03
BATCH = 40


def batch(number: int) -> list[Record]:
    """Some long rows, so that a kill may well fall into the writing of them."""
    plain = record(note="knots counted by the window, " * 40)
    digest = f"{number:064}"
    return [
        replace(plain, id=record_id(digest, tag), digest=digest, tag=str(tag))
        for tag in range(1, BATCH + 1)
    ]


def append_until_killed(path: Path, first: int, life_s: float) -> int:
    """Append batches from number ``first`` on in a process that is killed ``life_s``
    after its first report.  How many batches it reported."""
    inward, outward = os.pipe()
    child = os.fork()
    if child == 0:
        stash = open_stash(path)
        for number in range(first, first + 10_000):
            stash.append(batch(number))
            os.write(outward, b".")
    os.close(outward)
    with os.fdopen(inward, "rb", buffering=0) as reports:
        reported = len(reports.read(1))
        time.sleep(life_s)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        return reported + len(reports.read())


def kill_again_and_again(path: Path, kills: int) -> None:
    chance = random.Random(7)
    first = 0
    for _ in range(kills):
        reported = append_until_killed(path, first, chance.uniform(0, LONGEST_LIFE_S))
        kept = [each.id for each in open_stash(path).records()]
        expected = [each.id for number in range(first, first + reported) for each in batch(number)]
        assert reported > 0
        assert len(kept) == len(set(kept))
        # What was being written when the kill came may be there in part, row by row.
        assert kept[: len(expected)] == expected
        begun = [each.id for each in batch(first + reported)]
        assert kept[len(expected) :] == begun[: len(kept) - len(expected)]
        first += reported + 1
        path.unlink()
        open_stash(path).append(batch(first)[:0])


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_a_killed_append_loses_nothing_that_was_reported(ending: str, tmp_path: Path) -> None:
    kill_again_and_again(tmp_path / f"stash{ending}", kills=10)


@pytest.mark.slow
@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_three_hundred_kills_lose_nothing_that_was_reported(ending: str, tmp_path: Path) -> None:
    kill_again_and_again(tmp_path / f"stash{ending}", kills=300)


def test_a_stash_goes_on_after_kill_upon_kill(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    reported: set[str] = set()
    first = 0
    for _ in range(5):
        count = append_until_killed(path, first, 0.005)
        reported |= {each.id for number in range(first, first + count) for each in batch(number)}
        first += count + 1
    kept = [each.id for each in open_stash(path).records()]
    assert len(kept) == len(set(kept))
    assert reported <= set(kept)


# Killed while records are corrected, merged, withdrawn, answered, and all that undone


BALLS = [f"{letter}.jpg" for letter in "abcdefgh"]
WAITING = [f"{letter}.jpg" for letter in "uvwxyz"]

Rows = dict[str, dict[str, str]]
"""The cells of records by their ids."""


def fill(path: Path) -> Rows:
    """A stash of some balls, with tags that wait.  Its rows."""
    cabinet = open_cabinet(path)
    for name in BALLS:
        cabinet.file(tag(name, shade=f"Tide {name}"))
    for name in WAITING:
        cabinet.take(waiting_tag(name, shade=f"Tide {name}"))
    return rows_of(cabinet)


def rows_of(cabinet: Cabinet) -> Rows:
    return {record.id: record_cells(record) for record in cabinet.stash.records()}


def one_stroke(cabinet: Cabinet, chance: random.Random) -> None:
    """Do something to the stash that is a stroke of its own."""
    filed = [record.id for record in cabinet.records()]
    waiting = cabinet.waiting()
    done = cabinet.history.last_stroke()
    what = chance.choice(["correct", "undo", "undo", "merge", "withdraw", "answer", "settle"])
    if what == "undo" and done:
        cabinet.undo(done)
    elif what == "merge" and len(filed) > 3:
        keep, *others = chance.sample(filed, 3)
        cabinet.merge(keep, others)
    elif what == "withdraw" and len(filed) > 3:
        cabinet.withdraw(chance.sample(filed, 2))
    elif what == "answer" and waiting:
        cabinet.resolve(chance.choice(waiting), {"lot": str(chance.random())})
    elif what == "settle" and waiting:
        # A lot is still to be asked about each tag that is settled, and none about the last.
        answers = {one: {"range": str(chance.random())} for one in waiting}
        cabinet.settle({**answers, waiting[-1]: {"lot": str(chance.random())}})
    else:
        cabinet.correct(
            {one: {"lot": str(chance.random()), "range": ""} for one in chance.sample(filed, 2)}
        )


def change_until_killed(path: Path, seed: int, life_s: float) -> int:
    """Make strokes in a process that is killed ``life_s`` after its first report.  How
    many it reported."""
    inward, outward = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            cabinet, chance = open_cabinet(path), random.Random(seed)
            while True:
                one_stroke(cabinet, chance)
                os.write(outward, b".")
        finally:
            os._exit(1)
    os.close(outward)
    with os.fdopen(inward, "rb", buffering=0) as reports:
        reported = len(reports.read(1))
        time.sleep(life_s)
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        assert os.WIFSIGNALED(status)
        return reported + len(reports.read())


def told(rows: Rows, history: History) -> Rows:
    """``rows`` after all changes, by what the history says of each alone."""
    rows = dict(rows)
    for change in history.changes():
        if history.origin(change)[0].action is Action.SETTLED:
            assert change.record not in rows
        elif "id" in change.new:
            rows[change.record] = dict(change.new)
        elif "id" in change.old:
            assert rows.pop(change.record) == change.old
        else:
            assert {name: rows[change.record][name] for name in change.old} == change.old
            rows[change.record] = {**rows[change.record], **change.new}
    return rows


def field_of(doubt: Doubt) -> str:
    return doubt.field


def kill_changes_again_and_again(path: Path, kills: int) -> None:
    first, chance = fill(path), random.Random(11)
    tags = {record_id(tag(name).digest, 1) for name in WAITING}
    strokes = 0
    for seed in range(kills):
        strokes += change_until_killed(path, seed, chance.uniform(0, LONGEST_LIFE_S))
        cabinet = open_cabinet(path)
        rows = rows_of(cabinet)
        assert cabinet.history.unfinished() == []
        assert rows == told(first, cabinet.history)
        made = len({change.stroke for change in cabinet.history.changes()})
        # The one that was under way when the kill came may have been begun, or not.
        assert made in (strokes, strokes + 1)
        strokes = made
        gone = {change.record for change in cabinet.history.standing() if "id" in change.old}
        assert set(cabinet.waiting()) == tags - set(rows) - gone
        assert all("lot" in map(field_of, cabinet.get(one).doubts) for one in cabinet.waiting())
        assert all(cabinet.pictures.path(one).exists() for one in {*first, *tags})


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_a_killed_change_is_made_whole_and_is_in_the_history(ending: str, tmp_path: Path) -> None:
    kill_changes_again_and_again(tmp_path / f"stash{ending}", kills=8)


@pytest.mark.slow
@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_two_hundred_kills_leave_stash_queue_and_history_agreed(
    ending: str, tmp_path: Path
) -> None:
    kill_changes_again_and_again(tmp_path / f"stash{ending}", kills=200)
