"""What a stash of a million records costs to add to, against an empty one, in one run.

    python tests/bench/bench_growth.py [FOLDER]

CSV: a hundred read tags are filed one by one, as a run does, each time by a new process.  That
is all a user's append costs but the reading of the pictures: opening the stash, carrying out
what was begun, knowing makers and shades, looking each tag up among all earlier ones, its
picture, the list of what was written, the row, each pushed to the disk (fsync).  The processes
for the empty and the large stash take turns.  The stash is as balltag left it; one that another
program changed is read whole once, which is told apart.

Parquet: one append of a hundred records, against pyarrow's reading, joining and writing of the
same file, pushed to the disk as well.

FOLDER keeps the large stashes for another run.
"""

from __future__ import annotations

import json
import os
import random
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent), str(HERE.parent.parent)]

FILED = 1_000_000
ADDED = 100
TURNS = 7
TARGET_CSV, TARGET_PARQUET = 1.3, 1.2
_ALONE = "--file-into"


def file_into(path: Path, seed: int) -> None:
    """File :data:`ADDED` tags in this process; print what it took as JSON."""
    from filing_tags import tag

    from intake.records import Outcome, PictureReading
    from intake.run import Filing

    def readings() -> Iterator[PictureReading]:
        chance, like = random.Random(seed), tag("new.jpg")
        for number in range(ADDED):
            word = "".join(chance.choices("abcdefghijklmnopqrstuvwxyz", k=10)).title()
            texts = {
                "maker": "Maker 3",
                "range": "Range 3",
                "shade": word,
                "shade_code": f"{chance.randrange(10**8):08}",
                "lot": f"{chance.randrange(10**9):09}",
            }
            fields = {name: replace(like.fields[name], value=text) for name, text in texts.items()}
            reading = replace(
                like,
                picture=f"new/{seed}-{number}.jpg",
                digest=f"{chance.getrandbits(256):064x}",
                print_hash=f"{chance.getrandbits(256):064x}",
                fields={**like.fields, **fields},
                lines=(),
            )
            yield PictureReading(reading.picture, (reading,))

    ready = list(readings())
    start, busy = time.perf_counter(), time.process_time()
    filing = Filing(path)
    opened = time.perf_counter()
    outcomes = [result.outcome for result in filing.file_all(ready)]
    done, done_busy = time.perf_counter(), time.process_time()
    if outcomes != [Outcome.FILED] * ADDED:
        raise SystemExit(f"not all were filed: {outcomes}")
    print(json.dumps([opened - start, done - opened, done_busy - busy]))


def filed_by_another_s(path: Path, seed: int) -> tuple[float, float, float, float]:
    """Seconds that a new process takes to open the stash, to file, both of a processor, and
    from its start to its end."""
    command = [sys.executable, __file__, _ALONE, str(path), str(seed)]
    start = time.perf_counter()
    told = subprocess.run(command, check=True, capture_output=True, text=True)
    opening_s, filing_s, busy_s = json.loads(told.stdout)
    return opening_s, filing_s, busy_s, time.perf_counter() - start


def csv_growth(large: Path, empty: Path) -> None:
    """Print what adding to the empty and to the large CSV stash costs, and the ratios."""
    large.with_suffix(".index.arrow").unlink(missing_ok=True)
    first = filed_by_another_s(large, seed=time.time_ns())
    print(f"without an index, as after another program changed it: {sum(first[:2]):.1f} s, once")
    runs = []
    for turn in range(TURNS):
        fresh = empty / f"empty {turn}" / "stash.csv"
        fresh.parent.mkdir()
        seed = time.time_ns()  # a stash that is kept has the tags of earlier turns
        runs.append((filed_by_another_s(fresh, seed), filed_by_another_s(large, seed)))
    rows = [[statistics.median(run[side][part] for run in runs) for part in range(4)]
            for side in range(2)]  # fmt: skip
    for name, (opening_s, filing_s, busy_s, whole_s) in zip(
        ("empty", f"{FILED:,}"), rows, strict=True
    ):
        print(
            f"CSV, {ADDED} records to {name:>9}: opening {opening_s:6.3f} s, filing "
            f"{filing_s:6.3f} s, processor {busy_s:6.3f} s, the process as a whole {whole_s:6.3f} s"
        )
    append = [opening_s + filing_s for opening_s, filing_s, _, _ in rows]
    each = statistics.median(
        sum(large_run[:2]) / sum(empty_run[:2]) for empty_run, large_run in runs
    )
    print(
        f"CSV ratio: {append[1] / append[0]:.2f} (target <= {TARGET_CSV}), turn by turn "
        f"{each:.2f}, of whole processes {rows[1][3] / rows[0][3]:.2f}"
    )


def parquet_growth(path: Path) -> None:
    """Print what an append costs against pyarrow's own rewriting of the file."""
    import pyarrow as pa
    import pyarrow.parquet as pq
    from large_stash import invented_table

    from intake.filing.columns import records_of
    from intake.filing.kinds import open_stash

    more = invented_table(ADDED, seed=2)
    records, stash = list(records_of(more)), open_stash(path)

    def by_pyarrow() -> None:
        fresh = path.with_name("by pyarrow")
        with fresh.open("wb") as file:
            pq.write_table(pa.concat_tables([pq.read_table(path), more]), file)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(path)

    runs = [(timed_s(by_pyarrow), timed_s(lambda: stash.append(records))) for _ in range(TURNS)]
    theirs_s, ours_s = (statistics.median(each) for each in zip(*runs, strict=True))
    each = statistics.median(ours / theirs for theirs, ours in runs)
    print(f"Parquet, {ADDED} records to {FILED:,}: pyarrow {theirs_s:.2f} s, ours {ours_s:.2f} s")
    print(
        f"Parquet ratio: {ours_s / theirs_s:.2f} (target <= {TARGET_PARQUET}), turn by turn "
        f"{each:.2f}"
    )


def timed_s(do: Callable[[], object]) -> float:
    """Seconds that ``do`` takes."""
    start = time.perf_counter()
    do()
    return time.perf_counter() - start


def large_stash(path: Path) -> Path:
    """A copy of the large stash of the kind of ``path``, which is made where it is not there."""
    from large_stash import fill, invented_table

    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        fill(path, invented_table(FILED))
    return path


def main(kept: Path | None = None) -> None:
    """Make the stashes, run both sides, print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        made = kept or Path(folder)
        csv_growth(large_stash(made / "csv" / "stash.csv"), Path(folder))
        parquet_growth(large_stash(made / "parquet" / "stash.parquet"))


if __name__ == "__main__":
    if sys.argv[1:2] == [_ALONE]:
        file_into(Path(sys.argv[2]), int(sys.argv[3]))
    else:
        main(*map(Path, sys.argv[1:2]))
