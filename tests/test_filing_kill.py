"""A process killed while it appends leaves a stash that opens, with all it reported."""

from __future__ import annotations

import os
import random
import signal
import time
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import record

from intake.filing.kinds import open_stash
from intake.filing.record import Record, record_id

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
