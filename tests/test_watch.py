"""A watched folder: each picture is taken in once, and only when it is whole."""

from __future__ import annotations

import hashlib
import os
import random
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import tag
from patience import LONG_S

from intake.errors import CutShort, ExitCode, NoTag
from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.store import Store
from intake.records import Outcome, PictureReading
from intake.run import TagResult
from intake.watch import PATIENCE_S, RELIST_S, SETTLED_S, Arrivals, watch
from intake.watched import Watched

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_scans"

WHOLE = PictureReading("any.jpg", ())
CUT = PictureReading("any.jpg", (), CutShort("any.jpg: is damaged or cut short"))
BLANK = PictureReading("any.jpg", (), NoTag("any.jpg: no print was found"))


@pytest.fixture
def basket(tmp_path: Path) -> Path:
    folder = tmp_path / "basket"
    folder.mkdir()
    return folder


def put(folder: Path, name: str, content: bytes = b"picture") -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    return path


def test_a_file_is_read_once_it_has_not_changed_for_a_moment(basket: Path) -> None:
    arrivals = Arrivals(basket)
    file = put(basket, "a.jpg")
    assert arrivals.settled(0.0) == []
    assert arrivals.settled(SETTLED_S / 2) == []
    put(basket, "a.jpg", b"more of the picture")
    assert arrivals.settled(SETTLED_S) == []
    assert arrivals.settled(2 * SETTLED_S) == [file]


def test_a_file_that_was_taken_is_left_until_it_changes(basket: Path) -> None:
    arrivals = Arrivals(basket)
    file = put(basket, "a.jpg")
    arrivals.settled(0.0)
    arrivals.settled(SETTLED_S)
    assert arrivals.take(file, WHOLE, SETTLED_S)
    assert arrivals.settled(9.0) == []
    put(basket, "a.jpg", b"another picture")
    arrivals.settled(10.0)
    assert arrivals.settled(11.0) == [file]


def test_a_file_that_changed_while_it_was_read_is_read_again(basket: Path) -> None:
    arrivals = Arrivals(basket)
    file = put(basket, "a.jpg")
    arrivals.settled(0.0)
    arrivals.settled(SETTLED_S)
    put(basket, "a.jpg", b"the rest came late")
    assert not arrivals.take(file, WHOLE, 3.0)
    assert arrivals.settled(3.0) == []
    assert arrivals.settled(3.0 + SETTLED_S) == [file]


def test_a_file_that_cannot_be_read_is_bad_only_after_some_patience(basket: Path) -> None:
    arrivals = Arrivals(basket)
    file = put(basket, "a.jpg")
    arrivals.settled(0.0)
    arrivals.settled(SETTLED_S)
    assert not arrivals.take(file, CUT, SETTLED_S)
    assert arrivals.settled(PATIENCE_S - 1) == []
    assert arrivals.settled(PATIENCE_S) == [file]
    assert arrivals.take(file, CUT, PATIENCE_S)
    assert arrivals.settled(PATIENCE_S + 5) == []


def test_a_picture_without_print_is_told_at_once(basket: Path) -> None:
    arrivals = Arrivals(basket)
    file = put(basket, "a.jpg")
    arrivals.settled(0.0)
    arrivals.settled(SETTLED_S)
    assert arrivals.take(file, BLANK, SETTLED_S)


def test_a_file_that_went_away_is_forgotten_and_new_when_it_is_back(basket: Path) -> None:
    arrivals = Arrivals(basket)
    file = put(basket, "a.jpg")
    arrivals.settled(0.0)
    arrivals.settled(SETTLED_S)
    file.unlink()
    assert not arrivals.take(file, WHOLE, 2.0)
    put(basket, "a.jpg")
    arrivals.settled(3.0)
    assert arrivals.settled(4.0) == [file]


@pytest.mark.parametrize(
    "name",
    [
        "a.jpg.part",
        "a.part.jpg",
        "a.TMP.jpg",
        "a.jpg.tmp",
        "~a.jpg",
        "a.jpg~",
        ".a.jpg",
        ".folder/a.jpg",
        "stash.tags/a.jpg",
        "stash.inbox/a.jpg",
    ],
)
def test_what_a_sync_tool_or_the_stash_keeps_for_itself_is_no_picture(
    basket: Path, name: str
) -> None:
    arrivals = Arrivals(basket)
    put(basket, name)
    arrivals.settled(0.0)
    assert arrivals.settled(5.0) == []


def test_a_lost_event_costs_a_minute_and_no_picture(basket: Path) -> None:
    arrivals = Arrivals(basket)
    arrivals.settled(0.0)
    file = put(basket, "a.jpg")
    assert arrivals.settled(1.0, heard=False) == []
    assert arrivals.settled(RELIST_S, heard=False) == []
    assert arrivals.settled(RELIST_S + SETTLED_S, heard=False) == [file]


def test_a_picture_that_grows_is_read_when_it_is_whole_and_bad_ones_are_told(
    basket: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("intake.watch.PATIENCE_S", 4 * SETTLED_S)
    stash = tmp_path / "stash.csv"
    shutil.copy(DEMO / "scan_01.jpg", basket / "first.jpg")
    put(basket, "torn.jpg", (DEMO / "scan_01.jpg").read_bytes()[:9000])
    stop = threading.Event()
    results = watch(basket, stash, jobs=1, stop=stop)

    first = next(results)
    assert Path(first.picture).name == "first.jpg"
    assert first.outcome in (Outcome.FILED, Outcome.QUEUED)

    sender = threading.Thread(target=send_slowly, args=(DEMO / "scan_03.jpg", basket / "late.jpg"))
    sender.start()
    seen = {Path(one.picture).name: one for one in until(results, 2)}
    sender.join()
    assert seen["late.jpg"].outcome in (Outcome.FILED, Outcome.QUEUED)
    assert seen["torn.jpg"].outcome is Outcome.FAILED
    assert "torn.jpg" in seen["torn.jpg"].reason
    stop.set()
    assert list(results) == []
    kept = len(open_stash(stash).records()) + len(open_cabinet(stash).waiting())
    assert kept == 2


@pytest.mark.slow
def test_a_name_that_is_no_utf_8_ends_no_watch(basket: Path, tmp_path: Path) -> None:
    """Names on Linux are any bytes but / and NUL (POSIX.1-2017, 3.170)."""
    stop = threading.Event()
    results = watch(basket, tmp_path / "stash.csv", jobs=1, stop=stop)
    arriving = threading.Timer(2 * SETTLED_S, shutil.copy, (DEMO / "scan_01.jpg", basket / "a.jpg"))
    put(basket, "first.jpg", b"")
    assert next(results).outcome is Outcome.FAILED
    for number in range(3):
        (basket / os.fsdecode(b"%d \xff.txt" % number)).touch()
    (basket / os.fsdecode(b"scan \xff.jpg")).write_bytes((DEMO / "scan_03.jpg").read_bytes())
    arriving.start()
    seen = {Path(one.picture).name: one.outcome for one in until(results, 2)}
    arriving.join()
    assert set(seen) == {"a.jpg", os.fsdecode(b"scan \xff.jpg")}
    assert set(seen.values()) <= {Outcome.FILED, Outcome.QUEUED}
    stop.set()
    assert list(results) == []


def test_a_watch_that_starts_again_reads_only_what_is_new(basket: Path, tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    shutil.copy(DEMO / "scan_01.jpg", basket / "a.jpg")
    (first,) = until_stopped(basket, stash)
    assert first.outcome in (Outcome.FILED, Outcome.QUEUED)
    shutil.copy(DEMO / "scan_03.jpg", basket / "b.jpg")
    (second,) = until_stopped(basket, stash)
    assert Path(second.picture).name == "b.jpg"


def until_stopped(basket: Path, stash: Path) -> list[TagResult]:
    """One result of a watch, and those that come before it is stopped."""
    stop = threading.Event()
    results = watch(basket, stash, jobs=1, stop=stop)
    first = next(results)
    stop.set()
    return [first, *results]


def test_a_picture_counts_as_taken_in_as_long_as_its_tags_are_known(tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    cabinet = open_cabinet(stash)
    file = tmp_path / "a.jpg"
    file.write_bytes(b"the picture of two tags")
    file_digest = hashlib.sha256(file.read_bytes()).hexdigest()
    readings = [replace(tag("a.jpg", number), digest=file_digest) for number in (1, 2)]
    ids = [cabinet.file(reading).id for reading in readings]
    Watched(cabinet).add(file_digest, ids)

    def is_taken_in() -> bool:
        return Watched(open_cabinet(stash)).has(file)

    assert is_taken_in()
    cabinet.withdraw(ids[:1])
    assert is_taken_in(), "what the user withdrew is not read again"
    file.write_bytes(b"another picture")
    assert not is_taken_in()
    file.write_bytes(b"the picture of two tags")
    stash.unlink()
    assert not is_taken_in()


def test_a_torn_line_costs_a_reading_and_no_picture(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    file = tmp_path / "a.jpg"
    file.write_bytes(b"x")
    watched = Watched(cabinet)
    watched.add(hashlib.sha256(b"x").hexdigest(), [])
    log = tmp_path / "stash.watched.jsonl"
    assert Watched(cabinet).has(file)
    log.write_bytes(log.read_bytes()[:-1])
    assert not Watched(cabinet).has(file)


def test_a_stash_can_be_reviewed_while_a_folder_is_watched(basket: Path, tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    shutil.copy(DEMO / "scan_01.jpg", basket / "a.jpg")
    stop = threading.Event()
    results = watch(basket, stash, jobs=1, stop=stop)
    first = next(results)
    desk = open_cabinet(stash)
    if first.outcome is Outcome.QUEUED:
        desk.discard(first.id)
    else:
        desk.withdraw([first.id])
    shutil.copy(DEMO / "scan_01.jpg", basket / "again.jpg")  # left out: taken in before
    shutil.copy(DEMO / "scan_03.jpg", basket / "b.jpg")
    second = next(results)
    stop.set()
    assert list(results) == []
    assert Path(second.picture).name == "b.jpg"
    assert second.outcome in (Outcome.FILED, Outcome.QUEUED)
    assert len(desk.records()) + len(desk.waiting()) == 1


def send_slowly(source: Path, target: Path) -> None:
    """As a sync tool does that writes in place: a page, a pause longer than what counts as
    settled, the rest."""
    content = source.read_bytes()
    with target.open("wb") as file:
        file.write(content[: len(content) // 2])
        file.flush()
        time.sleep(2 * SETTLED_S)
        file.write(content[len(content) // 2 :])


def until(results: Iterator[TagResult], count: int) -> list[TagResult]:
    return [next(results) for _ in range(count)]


def start_watch(basket: Path, stash: Path) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "intake", "watch", str(basket), "--stash", str(stash)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
        start_new_session=True,
    )


def ctrl_c(run: subprocess.Popen[str]) -> str:
    """Tell ``run`` to end as a terminal does, every process of it.  What it says then."""
    os.killpg(run.pid, signal.SIGINT)
    _, errors = run.communicate(timeout=LONG_S)
    return errors


def test_ctrl_c_ends_a_watch_cleanly(basket: Path, tmp_path: Path) -> None:
    shutil.copy(DEMO / "scan_01.jpg", basket)
    run = start_watch(basket, tmp_path / "stash.csv")
    assert run.stdout is not None
    line = run.stdout.readline()
    assert "scan_01.jpg #1: " in line
    errors = ctrl_c(run)
    assert run.returncode == ExitCode.OK, errors
    assert "Traceback" not in errors
    assert "ended; " in errors.splitlines()[-1]


@pytest.mark.slow
def test_ctrl_c_at_any_moment_ends_a_watch(basket: Path, tmp_path: Path) -> None:
    """While it loads, looks, reads, files or waits."""
    shutil.copy(DEMO / "scan_01.jpg", basket)
    chance = random.Random(11)
    for number in range(60):
        run = start_watch(basket, tmp_path / f"{number}.csv")
        assert run.stderr is not None
        assert f"a new stash begins at {tmp_path / f'{number}.csv'}" in run.stderr.readline()
        time.sleep(chance.uniform(0, 10 if number % 2 else 2))
        errors = ctrl_c(run)
        assert run.returncode == ExitCode.OK, errors
        assert errors.splitlines() == [errors.strip()], errors
        assert "ended; " in errors
        cabinet = open_cabinet(tmp_path / f"{number}.csv")
        assert Check(Store(cabinet.stash)).findings() == []
        assert len(cabinet.records()) + len(cabinet.waiting()) <= 1


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "intake", "watch", str(tmp_path / "no")],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )
    assert run.returncode == ExitCode.NO_PICTURE
    assert len(run.stderr.strip().splitlines()) == 1
