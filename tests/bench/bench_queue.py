"""How long a queue of 5,000 waiting tags keeps one waiting.

    python tests/bench/bench_queue.py

The tags are as large as the reading of a printed tag: 30 lines of 24 letters, seen by two
readers.  Of the stash 20,000 records are filed, which one correction changes.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from filing_tags import doubtful, line, record, tag

from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.groups import answer_group, grouped
from intake.filing.judge import judge
from intake.filing.kinds import open_stash
from intake.filing.knowledge import Knowledge
from intake.filing.offers import offers
from intake.filing.record import record_id
from intake.records import TagReading

WAITING = 5_000
FILED = 20_000
TIMES = 15

Found = TypeVar("Found")


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "stash.csv"
        fill(path)
        measure(path)


def fill(path: Path) -> None:
    plain = record(lot="")
    open_stash(path).append(
        [replace(plain, id=record_id(f"{number:064x}", 1)) for number in range(FILED)]
    )
    queue = Cabinet(open_stash(path)).queue
    for reading in tags(WAITING):
        queue.add(reading, judge(reading))


def tags(count: int) -> Iterator[TagReading]:
    """Tags whose shade is doubtful, one in three with a doubtful maker or lot besides."""
    print_ = tuple(line(f"line {number:2} of a long printed tag"[:24]) for number in range(30))
    plain = replace(tag(), lines=print_, jpeg=b"a picture")
    for number in range(count):
        doubts = [doubtful("shade", f"Tide {number // 50}", "Kelp")]
        if number % 3 == 0:
            doubts.append(doubtful("maker", f"Maker {number % 7}"))
        if number % 3 == 1:
            doubts.append(doubtful("lot", f"{number}O"))
        fields = {**plain.fields, **{doubt.name: doubt for doubt in doubts}}
        yield replace(plain, digest=f"w{number:063x}", picture=f"{number}.jpg", fields=fields)


def measure(path: Path) -> None:
    cabinet = told("opening the cabinet and knowing all tags", lambda: opened(path), times=1)
    told("what is asked, cold", cabinet.asked, times=1)
    told("what is asked, warm", cabinet.asked)
    told("waiting", cabinet.waiting)
    groups = told("groups, warm", lambda: grouped(cabinet))
    known = Knowledge(cabinet)
    told("knowledge, cold", known.refresh, times=1)
    told("offers, warm", lambda: offers(cabinet, known))
    waiting = iter(cabinet.waiting()[2::3])
    told("one answer", lambda: cabinet.resolve(next(waiting), {"lot": "1"}))
    told("groups after an answer", lambda: grouped(cabinet), times=1)
    told("answer to a group of 50", lambda: answer_group(cabinet, groups[-1], "Tide"), times=1)
    one = told("all records, cold", cabinet.records, times=1)[0]
    lots = iter(range(TIMES))
    told("one correction", lambda: cabinet.correct({one.id: {"lot": str(next(lots))}}))


def opened(path: Path) -> Cabinet:
    cabinet = open_cabinet(path)
    cabinet.waiting()
    return cabinet


def told(what: str, do: Callable[[], Found], times: int = TIMES) -> Found:
    """Do it ``times`` times and print the median time, and that of the processor."""
    took = []
    for _ in range(times):
        start, start_cpu = time.perf_counter(), time.process_time()
        found = do()
        took.append((time.perf_counter() - start, time.process_time() - start_cpu))
    all_ms, processor_ms = (1000 * statistics.median(one) for one in zip(*took, strict=True))
    print(f"{what:45} {all_ms:8.1f} ms, processor {processor_ms:8.1f} ms", flush=True)
    return found


if __name__ == "__main__":
    main()
