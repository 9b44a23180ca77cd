"""A worker that dies takes no other picture with it."""

from __future__ import annotations

import multiprocessing
import threading
import time
from pathlib import Path

from intake.errors import PictureError
from intake.pool import read_pictures

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"


def test_pictures_come_back_in_order() -> None:
    files = [DEMO / "scan_01.jpg", DEMO / "no.jpg", DEMO / "scan_03.jpg"]
    readings = list(read_pictures(files, jobs=2))
    assert [reading.picture for reading in readings] == [str(file) for file in files]
    assert isinstance(readings[1].error, PictureError)
    assert readings[0].tags
    assert readings[2].tags


def test_a_worker_that_is_killed_loses_no_picture() -> None:
    files = [DEMO / "scan_01.jpg", DEMO / "scan_02.jpg", DEMO / "scan_03.jpg"]
    killer = threading.Thread(target=kill_first_worker)
    killer.start()
    readings = list(read_pictures(files, jobs=2))
    killer.join()
    assert [reading.picture for reading in readings] == [str(file) for file in files]
    assert all(reading.tags and reading.error is None for reading in readings)


def kill_first_worker() -> None:
    for _ in range(600):
        workers = multiprocessing.active_children()
        if workers:
            time.sleep(1.0)
            workers[0].kill()
            return
        time.sleep(0.05)
