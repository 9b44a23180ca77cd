"""A run is stopped at any moment and goes on later: every tag once, and nothing left behind."""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import psutil
import pytest

from intake import intake
from intake.errors import ExitCode
from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.store import Store
from intake.records import Outcome

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_scans"
NAMES = ("scan_01.jpg", "scan_02.jpg", "scan_03.jpg", "scan_05.jpg", "three_tags.tif")
TAGS = 7

NOBODY = ThreadPoolExecutor(1)
"""An executor that takes no picture."""
NOBODY.shutdown()


def box_of(folder: Path, names: Sequence[str]) -> Path:
    box = folder / "box"
    box.mkdir()
    for name in names:
        shutil.copy(DEMO / name, box)
    return box


def started(box: Path, stash: Path) -> subprocess.Popen[str]:
    temporary = stash.parent / "temporary"
    temporary.mkdir(exist_ok=True)
    return subprocess.Popen(
        [sys.executable, "-m", "intake", "intake", str(box), "--stash", str(stash), "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        env={**os.environ, "TMPDIR": str(temporary)},
        start_new_session=True,
    )


def interrupted(run: subprocess.Popen[str]) -> tuple[list[str], str]:
    """The results that a run had printed when Ctrl-C ended it, and what it said."""
    workers = psutil.Process(run.pid).children(recursive=True)
    os.killpg(run.pid, signal.SIGINT)  # as a terminal does
    printed, said = run.communicate(timeout=60)
    psutil.wait_procs(workers, timeout=10)
    assert not [one for one in workers if one.is_running()], "workers are left"
    return printed.splitlines(), said


def assert_nothing_half_done(stash: Path) -> None:
    assert not list((stash.parent / "temporary").glob("balltag-*"))
    findings = Check(Store(open_stash(stash))).findings()
    assert not findings, [f"{one.about}: {one.what}" for one in findings]


def test_ctrl_c_ends_a_run_which_goes_on_where_it_stopped(tmp_path: Path) -> None:
    box = box_of(tmp_path, NAMES[:2])
    stash = tmp_path / "stash.csv"
    run = started(box, stash)
    assert run.stdout is not None
    first = run.stdout.readline()
    printed, said = interrupted(run)
    assert run.returncode == ExitCode.STOPPED
    assert said.splitlines()[-1].startswith("balltag: stopped; what was filed stays filed")
    assert "Traceback" not in said
    assert_nothing_half_done(stash)
    rest = list(intake([box], stash))
    assert sum(one.outcome is Outcome.ALREADY for one in rest) >= len([first, *printed])
    assert_every_tag_once(stash, 2)


def assert_every_tag_once(stash: Path, count: int) -> None:
    cabinet = open_cabinet(stash)
    ids = [one.id for one in cabinet.records()] + cabinet.waiting()
    assert len(ids) == len(set(ids)) == count


@pytest.mark.slow
def test_ctrl_c_at_any_moment_loses_nothing_and_doubles_nothing(tmp_path: Path) -> None:
    box = box_of(tmp_path, NAMES)
    chance = random.Random(4)
    stash = tmp_path / "stash.csv"
    stopped = 0
    for _ in range(12):
        run = started(box, stash)
        try:
            run.wait(timeout=chance.uniform(0.2, 12))
        except subprocess.TimeoutExpired:
            _, said = interrupted(run)
            # Before Python is up it may end otherwise, and after the last tag it is done.
            assert run.returncode in (ExitCode.STOPPED, ExitCode.OK, -signal.SIGINT), said
            stopped += run.returncode == ExitCode.STOPPED
        assert_nothing_half_done(stash)
    assert stopped >= 3
    list(intake([box], stash))
    assert_every_tag_once(stash, TAGS)


def test_a_picture_that_was_taken_in_before_is_not_read_again(tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    first = list(intake([DEMO / "two_tags.pdf"], stash, jobs=1))
    again = list(intake([DEMO / "two_tags.pdf"], stash, jobs=1, executor=NOBODY))
    assert [one.outcome for one in again] == [Outcome.ALREADY] * 2
    assert [one.id for one in again] == [one.id for one in first]
    for before, now in zip(first, again, strict=True):
        assert before.reading is not None
        assert now.reading is not None
        for name in ("shade", "lot", "length_m", "fibre", "care"):
            assert now.reading.fields[name].value == before.reading.fields[name].value
