"""How long a stash of 100,000 records keeps one waiting, in one run.

    PYTHONPATH=.:tests python tests/bench/bench_large.py

`find` against a plain loop over the records, from the file each time; opening the review page's
list of what waits; the export.  The stash is as balltag left it.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from filing_tags import waiting_tag
from large_stash import fill, invented_table

from intake.exports.kinds import exporter_for
from intake.exports.workbook import stash_sheets
from intake.filing.cabinet import open_cabinet
from intake.sums.balls import balls
from intake.sums.catalogue import catalogue
from intake.sums.find import Query, find
from intake.sums.lots import name_key

RECORDS = 100_000
WAITING = 100
TIMES = 7
TARGET_FIND_S = 0.3
WORD = "ochre"


def best_s(do: Callable[[], object]) -> float:
    """Seconds that ``do`` takes: the least of some times, for others use the machine too."""
    took = []
    for _ in range(TIMES):
        start = time.perf_counter()
        do()
        took.append(time.perf_counter() - start)
    return min(took)


def found(path: Path) -> set[str]:
    """The ids of the balls with a word, from the file."""
    lots = find(catalogue(open_cabinet(path)), Query(words=(WORD,))).lots
    return {ball.record.id for lot in lots for ball in lot.balls}


def found_by_loop(path: Path) -> set[str]:
    """The same by a plain loop over the records."""
    records = open_cabinet(path).records()
    return {one.id for one in records if name_key(WORD) in name_key(one.shade)}


def exported(path: Path) -> None:
    """All balls as CSV."""
    every = balls(open_cabinet(path))
    out = path.with_name("out.csv")
    exporter_for(out).write(stash_sheets(every, "", None, 1200.0), out)


def main() -> None:
    """Fill the stash, print what each takes."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "stash.csv"
        fill(path, invented_table(RECORDS))
        for number in range(WAITING):
            open_cabinet(path).take(waiting_tag(f"w{number}.jpg", shade=f"Tide {number}"))
        if found(path) != found_by_loop(path):
            raise SystemExit("the two find different balls")
        ours_s, loop_s = best_s(lambda: found(path)), best_s(lambda: found_by_loop(path))
        print(f"{RECORDS:,} records, {path.stat().st_size / 1e6:.0f} MB of CSV, the least times:")
        print(f"find {ours_s:.2f} s (target < {TARGET_FIND_S}), loop {loop_s:.2f} s, ", end="")
        print(f"ratio {loop_s / ours_s:.1f}")
        waiting_s = best_s(lambda: open_cabinet(path).waiting())
        print(f"what waits, as the review page opens: {waiting_s:.2f} s")
        print(f"export to CSV: {best_s(lambda: exported(path)):.2f} s")


if __name__ == "__main__":
    main()
