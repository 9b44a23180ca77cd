"""A worker that hangs, grows or dies is ended, and takes no other picture with it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import cv2
import numpy as np
import psutil
import pytest

from intake.errors import TooLarge, TooSlow
from intake.guarded import GuardedWorker, WorkerDied, _Guard, _read
from intake.records import PictureReading
from intake.workers import Workers

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_scans"
WORKER = "intake.guarded"


def workers_of(pid: int) -> list[psutil.Process]:
    """The worker processes that the process ``pid`` has started."""
    return [
        child
        for child in psutil.Process(pid).children(recursive=True)
        if child.is_running() and WORKER in child.cmdline()
    ]


def until(true: Callable[[], object], most_s: float = 30) -> None:
    end_s = time.monotonic() + most_s
    while not true():
        assert time.monotonic() < end_s
        time.sleep(0.02)


@pytest.fixture(scope="module")
def others() -> list[psutil.Process]:
    """Workers that other tests of this process left idle."""
    return workers_of(os.getpid())


@pytest.fixture(scope="module")
def loaded(others: list[psutil.Process]) -> Iterator[Workers]:
    with Workers(1) as workers:
        assert workers.read(DEMO / "scan_01.jpg").tags
        yield workers


def test_a_worker_keeps_its_readers_from_one_picture_to_the_next(loaded: Workers) -> None:
    before = workers_of(os.getpid())
    assert loaded.read(DEMO / "scan_03.jpg").tags
    assert workers_of(os.getpid()) == before


def test_a_worker_that_hangs_is_ended_and_its_picture_told(
    loaded: Workers, others: list[psutil.Process], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("intake.guarded.STEP_S", 0.5)
    (worker,) = (one for one in workers_of(os.getpid()) if one not in others)
    worker.suspend()  # as a native call that does not come back
    reading = loaded.read(DEMO / "scan_01.jpg")
    assert isinstance(reading.error, TooSlow)
    assert not worker.is_running()
    monkeypatch.undo()
    assert loaded.read(DEMO / "scan_01.jpg").tags, "the next picture gets a new worker"


def test_a_fault_of_ours_on_a_picture_is_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """OpenCV ends what it says with a line break."""

    def fail(file: Path, step: object) -> None:
        cv2.resize(np.zeros((1, 2000), np.uint8), (700, 0))

    monkeypatch.setattr("intake.worker.read_picture", fail)
    reading = _read(tmp_path / "a.png", lambda: None)
    assert isinstance(reading, PictureReading)
    told = str(reading.error)
    assert len(told.splitlines()) == 1
    assert "balltag failed on it (error: " in told
    assert told.endswith("; scan or save it again")


def test_the_time_that_the_machine_sleeps_is_not_the_workers(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Stopped and gone on, as by Ctrl-Z and fg; a sleeping machine stops all, and the clock of
    some systems goes on meanwhile."""
    monkeypatch.setattr("intake.guarded.STEP_S", 2.0)
    monkeypatch.setattr("intake.guarded._crowding", lambda: 1.0)
    waking = "kill -STOP $PPID; sleep 4; kill -CONT $PPID"
    ended = threading.Event()
    with subprocess.Popen(["sleep", "60"]) as worker:
        guard = _Guard(worker.pid, ended.set)
        with guard:
            subprocess.run(["sh", "-c", waking], check=True)
            time.sleep(0.5)
            assert guard.fault is None
            assert ended.wait(10), "one that hangs after that is ended all the same"
        worker.kill()


def test_a_worker_that_grows_too_large_is_ended_and_its_picture_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("intake.guarded.MOST_BYTES", 1_000_000)
    others = workers_of(os.getpid())
    with Workers(1) as workers:
        reading = workers.read(DEMO / "scan_01.jpg")
        assert isinstance(reading.error, TooLarge)
        assert "\n" not in str(reading.error)
        assert workers_of(os.getpid()) == others


def test_a_worker_that_keeps_too_much_is_not_used_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("intake.guarded.MOST_KEPT_BYTES", 1_000_000)
    others = workers_of(os.getpid())
    with Workers(1) as workers:
        assert workers.read(DEMO / "scan_01.jpg").tags, "the picture at hand is read"
        assert workers_of(os.getpid()) == others
        assert workers.read(DEMO / "scan_03.jpg").tags


def test_what_a_worker_wrote_on_the_way_goes_with_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    worker = GuardedWorker()
    assert len(list(tmp_path.iterdir())) == 1
    ender = threading.Timer(0.5, worker.end)
    ender.start()
    with pytest.raises(WorkerDied):
        worker.read(DEMO / "twelve_tags.jpg")
    ender.join()
    worker.close()
    assert not list(tmp_path.iterdir())


def test_workers_end_with_the_process_that_started_them(tmp_path: Path) -> None:
    script = (
        "from pathlib import Path; from intake.workers import Workers\n"
        f"Workers(1).read(Path({str(DEMO / 'twelve_tags.jpg')!r}))"
    )
    # Without the library Tesseract runs as a program, which must end too.
    (tmp_path / "tesserocr.py").write_text("raise ImportError", encoding="utf-8")
    paths = os.pathsep.join((str(tmp_path), str(ROOT)))
    parent = subprocess.Popen(
        [sys.executable, "-c", script],
        env={**os.environ, "TMPDIR": str(tmp_path), "PYTHONPATH": paths},
    )
    until(lambda: workers_of(parent.pid))
    (worker,) = workers_of(parent.pid)
    until(lambda: worker.children())  # it has begun to read: Tesseract runs
    started = [worker, *worker.children()]
    parent.send_signal(signal.SIGKILL)
    parent.wait()
    psutil.wait_procs(started, timeout=10)
    assert not any(one.is_running() for one in started)
    until(lambda: not list(tmp_path.glob("balltag-*")))
