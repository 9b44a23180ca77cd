"""How long a stash of 100,000 records keeps one waiting, in one run.

    PYTHONPATH=.:tests python tests/bench/bench_large.py [RECORDS]

`find` against a plain loop over the records, from the file each time; opening the review page's
list of what waits; the first page of the stash; the export, of four sheets to an Excel workbook
against pandas.to_excel of the stash's table alone, and to CSV.  The stash is as balltag left it,
without tag pictures.  Each is told in seconds and in seconds of a processor, for others use the
machine too.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import pandas as pd
from filing_tags import waiting_tag
from large_stash import fill, invented_table

from intake.desk.shelf import FreshShelf
from intake.exports.kinds import exporter_for
from intake.exports.workbook import stash_sheets
from intake.filing.cabinet import open_cabinet
from intake.filing.judge import judge
from intake.sums.balls import balls
from intake.sums.catalogue import catalogue
from intake.sums.find import Query, find
from intake.sums.lots import name_key

RECORDS = 100_000
WAITING = 100
TIMES, TIMES_LONG = 7, 2
TARGET_FIND_S = 0.3
WORD = "ochre"


class Took(NamedTuple):
    """Seconds from start to end, and of a processor."""

    s: float
    busy_s: float

    def __str__(self) -> str:
        return f"{self.s:.2f} s ({self.busy_s:.2f} s of a processor)"


def best(do: Callable[[], object], times: int = TIMES) -> Took:
    """What ``do`` takes: the least of some times."""
    took = []
    for _ in range(times):
        start, busy = time.perf_counter(), time.process_time()
        do()
        took.append(Took(time.perf_counter() - start, time.process_time() - busy))
    return Took(*map(min, zip(*took, strict=True)))


def found(path: Path) -> set[str]:
    """The ids of the balls with a word, from the file."""
    lots = find(catalogue(open_cabinet(path)), Query(words=(WORD,))).lots
    return {ball.record.id for lot in lots for ball in lot.balls}


def found_by_loop(path: Path) -> set[str]:
    """The same by a plain loop over the records."""
    records = open_cabinet(path).records()
    return {one.id for one in records if name_key(WORD) in name_key(one.shade)}


def exported(path: Path, ending: str) -> None:
    """All balls as a spreadsheet."""
    every = balls(open_cabinet(path))
    out = path.with_name(f"out{ending}")
    exporter_for(out).write(stash_sheets(every, "", None, 1200.0), out)


def exported_by_pandas(path: Path) -> None:
    """The table of the stash as pandas writes it, with the same engine."""
    table = pd.read_csv(path, dtype=str, keep_default_na=False)
    table.to_excel(path.with_name("pandas.xlsx"), index=False, engine="xlsxwriter")


def main(records: int) -> None:
    """Fill the stash, print what each takes."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "stash.csv"
        fill(path, invented_table(records))
        cabinet = open_cabinet(path)
        like = waiting_tag("w.jpg", shade="Tide")
        for number in range(records, records + WAITING):
            held = replace(like, picture=f"scans/{number}.jpg", digest=f"{number:064x}")
            cabinet.hold(held, judge(held))
        if found(path) != found_by_loop(path):
            raise SystemExit("the two find different balls")
        print(f"{records:,} records, {path.stat().st_size / 1e6:.0f} MB of CSV, the least times:")
        ours, loop = best(lambda: found(path)), best(lambda: found_by_loop(path), TIMES_LONG)
        print(f"find {ours} (target < {TARGET_FIND_S} s), loop {loop}: ", end="")
        print(f"the loop takes {loop.busy_s / ours.busy_s:.1f} times as much of a processor")
        print(f"what waits, as the review page opens: {best(lambda: open_cabinet(path).waiting())}")
        shelf = best(lambda: FreshShelf(cabinet).now().find(), TIMES_LONG)
        print(f"the first page of the stash, built anew: {shelf}")
        print(f"export to CSV: {best(lambda: exported(path, '.csv'), TIMES_LONG)}")
        ours = best(lambda: exported(path, ".xlsx"), TIMES_LONG)
        theirs = best(lambda: exported_by_pandas(path), TIMES_LONG)
        print(f"export to Excel: {ours}, pandas {theirs}: ", end="")
        print(f"ratio {ours.busy_s / theirs.busy_s:.2f} of a processor")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else RECORDS)
