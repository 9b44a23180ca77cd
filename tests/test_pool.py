"""Many pictures through many workers: in order, few at a time, none lost with a worker."""

from __future__ import annotations

import threading
import time
from collections import Counter
from concurrent.futures import Future, ProcessPoolExecutor, ThreadPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import psutil
import pytest

from intake.errors import EmptyFile, NoWorkers, PictureError
from intake.in_order import AHEAD, in_order
from intake.pool import read_pictures
from intake.records import PictureReading
from intake.sending import MOST_SENT_BYTES, read_sent, refuse_others, send, versions
from intake.workers import Workers

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"

FILES = [Path(f"{number}.jpg") for number in range(60)]


def names(files: list[Path]) -> list[str]:
    return [str(file) for file in files]


def nothing_on(file: Path) -> PictureReading:
    return PictureReading(str(file), ())


# The order and number of pictures under way, without reading any


def test_pictures_come_in_order_whichever_is_done_first() -> None:
    def slow_at_first(file: Path) -> PictureReading:
        time.sleep(0.1 if file == FILES[0] else 0)
        return nothing_on(file)

    with ThreadPoolExecutor(4) as threads:
        readings = in_order(FILES, lambda file: threads.submit(slow_at_first, file), 4)
        assert [reading.picture for reading in readings] == names(FILES)


def test_only_a_few_pictures_are_under_way_at_once() -> None:
    submitted: list[Path] = []

    def submit(file: Path) -> Future[PictureReading]:
        submitted.append(file)
        future: Future[PictureReading] = Future()
        future.set_result(nothing_on(file))
        return future

    readings = in_order(FILES, submit, 2)
    next(readings)
    assert len(submitted) == 2 * AHEAD
    next(readings)
    assert len(submitted) == 2 * AHEAD + 1


def test_large_files_under_way_are_few(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("intake.in_order.MOST_UNDER_WAY_BYTES", 2_500)
    files = [tmp_path / f"{number}.png" for number in range(9)]
    for file in files:
        file.write_bytes(bytes(1_000))
    pending: list[Future[PictureReading]] = []

    def submit(file: Path) -> Future[PictureReading]:
        pending.append(Future())
        if len(pending) == 3:
            for future, one in zip(pending, files, strict=False):
                future.set_result(nothing_on(one))
        return pending[-1]

    assert next(in_order(files, submit, 8)).picture == str(files[0])
    assert len(pending) == 3


def test_a_picture_that_is_lost_once_is_read_and_one_lost_twice_is_told() -> None:
    tries: Counter[Path] = Counter()

    def lost_at_first(file: Path) -> PictureReading:
        tries[file] += 1
        if file == FILES[2] or (file == FILES[1] and tries[file] == 1):
            raise ConnectionError("the line is dead")
        return nothing_on(file)

    with ThreadPoolExecutor(2) as threads:
        found = list(in_order(FILES[:5], lambda file: threads.submit(lost_at_first, file), 2))
    assert [reading.picture for reading in found] == names(FILES[:5])
    assert [reading.error is None for reading in found] == [True, True, False, True, True]
    assert isinstance(found[2].error, PictureError)
    assert "the line is dead" in str(found[2].error)
    assert tries[FILES[1]] == tries[FILES[2]] == 2


def test_what_is_under_way_is_cancelled_when_nobody_waits_any_more() -> None:
    futures: list[Future[PictureReading]] = []

    def submit(file: Path) -> Future[PictureReading]:
        futures.append(Future())
        return futures[-1]

    stopping = threading.Timer(0.1, lambda: futures[0].set_result(nothing_on(FILES[0])))
    readings = in_order(FILES, submit, 1)
    stopping.start()
    next(readings)
    readings.close()
    assert all(future.cancelled() for future in futures[1:])


def test_workers_that_are_gone_end_the_run_with_what_to_do() -> None:
    threads = ThreadPoolExecutor(1)
    threads.shutdown()
    with pytest.raises(NoWorkers, match="run it again to go on"):
        list(read_pictures([DEMO / "scan_01.jpg"], executor=threads))


def test_an_executor_that_closes_while_it_reads_ends_the_run_with_what_to_do() -> None:
    """As that of a cluster does: what it takes then is cancelled at once."""

    def submit(file: Path) -> Future[PictureReading]:
        future: Future[PictureReading] = Future()
        if file == FILES[0]:
            future.set_result(nothing_on(file))
        else:
            future.cancel()
        return future

    readings = in_order(FILES[:2], submit, 1)
    assert next(readings).picture == str(FILES[0])
    with pytest.raises(NoWorkers, match=r"they are gone\); what was filed stays filed: start them"):
        next(readings)


# Worker processes of this machine


def test_pictures_come_back_in_order() -> None:
    files = [DEMO / "scan_01.jpg", DEMO / "no.jpg", DEMO / "scan_03.jpg"]
    readings = list(read_pictures(files, jobs=2))
    assert [reading.picture for reading in readings] == names(files)
    assert isinstance(readings[1].error, PictureError)
    assert readings[0].tags
    assert readings[2].tags


def test_a_worker_that_is_killed_loses_no_picture() -> None:
    files = [DEMO / "scan_01.jpg", DEMO / "scan_02.jpg", DEMO / "scan_03.jpg"]
    killer = threading.Thread(target=kill_workers, args=(1,))
    killer.start()
    readings = list(read_pictures(files, jobs=2))
    killer.join()
    assert [reading.picture for reading in readings] == names(files)
    assert all(reading.tags and reading.error is None for reading in readings)


def test_a_picture_that_kills_two_workers_is_told() -> None:
    killer = threading.Thread(target=kill_workers, args=(2,))
    killer.start()
    with Workers(1) as workers:
        reading = workers.read(DEMO / "scan_01.jpg")
        killer.join()
        assert isinstance(reading.error, PictureError)
        assert "broke down" in str(reading.error)


def kill_workers(count: int) -> None:
    """Kill so many workers of this process, one after the other, each soon after it started."""
    for _ in range(count):
        while not (workers := psutil.Process().children()):
            time.sleep(0.05)
        time.sleep(0.3)
        workers[0].kill()
        workers[0].wait()


# Workers elsewhere


def test_any_executor_reads_pictures_that_its_workers_cannot_see(tmp_path: Path) -> None:
    hidden = tmp_path / "hidden.jpg"
    hidden.write_bytes((DEMO / "scan_01.jpg").read_bytes())
    content = hidden.read_bytes()
    with ProcessPoolExecutor(1) as executor:
        hidden.unlink()
        reading = executor.submit(read_sent, hidden, content, versions()).result()
    assert reading.picture == str(hidden)
    assert [tag.picture for tag in reading.tags] == [str(hidden)]
    assert reading.tags[0].fields["lot"].value == "81-50-7"


def test_a_bad_picture_is_told_by_its_own_name(tmp_path: Path) -> None:
    empty = tmp_path / "empty.jpg"
    empty.touch()
    files = [empty, tmp_path / "nowhere.jpg", tmp_path]
    with ThreadPoolExecutor(1) as executor:
        errors = [reading.error for reading in read_pictures(files, executor=executor)]
    assert isinstance(errors[0], EmptyFile)
    for file, error in zip(files, errors, strict=True):
        assert str(error).startswith(f"{file}: ")


def test_a_file_that_is_too_large_to_send_is_told(tmp_path: Path) -> None:
    file = tmp_path / "large.tif"
    with file.open("wb") as large:
        large.truncate(MOST_SENT_BYTES + 1)
    with ThreadPoolExecutor(1) as executor:
        assert "too much to send" in str(send(executor, file).result().error)


def test_a_worker_that_would_read_otherwise_is_refused() -> None:
    refuse_others(versions())
    other = {**versions(), "rapidocr": "0.1"}
    with pytest.raises(NoWorkers, match=r"rapidocr .* and this machine 0\.1; install the same"):
        refuse_others(other)


def test_a_refusal_ends_the_run(monkeypatch: pytest.MonkeyPatch) -> None:
    older = {**versions(), "balltag": "of the files 0000"}
    monkeypatch.setattr("intake.sending.versions", lambda: older)
    with (
        ProcessPoolExecutor(1, mp_context=get_context("spawn")) as executor,
        pytest.raises(NoWorkers),
    ):
        list(read_pictures([DEMO / "scan_01.jpg"], executor=executor))
