"""Speed of finding balls by column against a plain loop over the records, in one run.

    python tests/bench/bench_find.py

Both start from the same stash file of 100,000 invented records and answer the same
queries with the same balls.  The loop reads the records and folds each text once.
"""

from __future__ import annotations

import random
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from matplotlib.colors import XKCD_COLORS

from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.record import COLUMNS, Record
from intake.sums.catalogue import catalogue
from intake.sums.find import Query, find
from intake.sums.lots import name_key
from intake.sums.terms import CODE_COLUMNS, WORD_COLUMNS

RECORDS = 100_000
SHADES = 2_000
MAKERS = 60
LOTS = 20_000

QUERIES = {
    "a lot": Query(lot="012345"),
    "a word": Query(words=("ochre",)),
    "two words": Query(words=("maker 17", "blue")),
    "a shade of a maker": Query(shade="sea green", maker="maker 3"),
}


def invented(rng: random.Random) -> list[Record]:
    """Records whose shades are names of the XKCD colour survey."""
    colours = [name[5:] for name in XKCD_COLORS]
    shades = [rng.choice(colours) for _ in range(SHADES)]
    lots = [f"{rng.randrange(10**6):06d}" for _ in range(LOTS - 1)] + ["012345"]
    blank = dict.fromkeys(COLUMNS, "")
    records = []
    for number in range(RECORDS):
        shade = rng.randrange(SHADES)
        cells = {
            "id": f"t{number:015x}",
            "maker": f"Maker {shade % MAKERS}",
            "range": f"Range {shade % 7}",
            "shade": shades[shade],
            "shade_code": f"{shade:04d}",
            "lot": rng.choice(lots),
            "weight_class": rng.choice(("light", "fine", "medium")),
            "fibre": rng.choice(("100% wool", "75% wool (merino); 25% polyamide")),
            "care": "hand wash; dry flat",
            "picture": f"scans/{number}.jpg",
            "digest": f"{number:064x}",
            "print_hash": f"{number:064x}",
            "tag_picture": f"t{number:015x}.jpg",
            "filed_at": "2025-03-09T17:05:42Z",
            "version": "1",
        }
        records.append(Record(**{**blank, **cells, "length_m": 210.0, "mass_g": 50.0}))  # type: ignore[arg-type]
    return records


def by_loop(cabinet: Cabinet, query: Query) -> set[str]:
    """The ids that a plain loop over the records finds."""
    return {record.id for record in cabinet.records() if fits(record, query)}


def fits(record: Record, query: Query) -> bool:
    """Whether a record has all that is asked for, text by text."""

    def has(columns: tuple[str, ...], text: str) -> bool:
        return any(name_key(text) in name_key(getattr(record, column)) for column in columns)

    return (
        (not query.lot or record.lot == query.lot)
        and (not query.shade or has(("shade",), query.shade))
        and (not query.maker or has(("maker",), query.maker))
        and all(
            has(WORD_COLUMNS, word) or word in [getattr(record, name) for name in CODE_COLUMNS]
            for word in query.words
        )
    )


def by_column(cabinet: Cabinet, query: Query) -> set[str]:
    """The ids that are found by column, from the file to the grouped lots."""
    lots = find(catalogue(cabinet), query).lots
    return {ball.record.id for lot in lots for ball in lot.balls}


def timed(
    find_ids: Callable[[Cabinet, Query], set[str]], path: Path, query: Query
) -> tuple[float, set[str]]:
    """Seconds of a search in a stash that is opened for it, and what it found."""
    name_key.cache_clear()
    start = time.perf_counter()
    found = find_ids(open_cabinet(path), query)
    return time.perf_counter() - start, found


def main() -> None:
    """Print both times of each query and their ratio, and the time of a further query on
    a catalogue that is kept."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "stash.csv"
        open_cabinet(path).stash.append(invented(random.Random(1)))
        print(f"{RECORDS} records, {path.stat().st_size / 1e6:.0f} MB of CSV")
        for name, query in QUERIES.items():
            loop_s, expected = timed(by_loop, path, query)
            ours_s, found = timed(by_column, path, query)
            if found != expected:
                raise SystemExit(f"{name}: the two disagree on {len(found ^ expected)} balls")
            kept = catalogue(open_cabinet(path))
            find(kept, query)
            start = time.perf_counter()
            find(kept, query)
            again_s = time.perf_counter() - start
            print(
                f"{name:20} loop {loop_s:6.2f} s, ours {ours_s:5.2f} s from the file and "
                f"{again_s:5.3f} s again: {loop_s / ours_s:4.1f} times as fast, "
                f"{len(found)} balls"
            )


if __name__ == "__main__":
    main()
