"""Records by column: an Arrow table, for looking through very many at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.csv

from intake.filing.arrays import text_scalar
from intake.filing.record import AMOUNTS, COLUMNS, MOST_BALLS, VERSION, Record


def _field(name: str) -> pa.Field:
    if name in AMOUNTS:
        return pa.field(name, pa.float64(), nullable=True)
    return pa.field(name, pa.int64() if name == "balls" else pa.string(), nullable=False)


SCHEMA = pa.schema([_field(name) for name in COLUMNS])
"""Lengths and masses are doubles, null where a tag has none; the number of balls is a whole
number from 1 up; all else is text."""

_AT_A_TIME = 10_000


def table_of(records: Sequence[Record]) -> pa.Table:
    """The table of ``records``."""
    columns = {name: [getattr(record, name) for record in records] for name in COLUMNS}
    return pa.table(columns, schema=SCHEMA)


_WORTH_THREADS = 1 << 22
"""So many bytes are read by several threads.  Fewer take no time, and a command that ends while
Arrow's threads are still starting is now and then aborted with them."""


def records_of(table: pa.Table) -> Iterator[Record]:
    """The records of a table of :data:`SCHEMA`."""
    for batch in table.to_batches(max_chunksize=_AT_A_TIME):
        for row in zip(*(column.to_pylist() for column in batch.columns), strict=True):
            yield Record(*row)


def table_of_csv(data: bytes) -> pa.Table | None:
    """The table that the bytes of a CSV stash make, header and whole lines; ``None``
    where Arrow finds anything amiss: the stash's own reader has to say what."""
    try:
        table = pyarrow.csv.read_csv(
            pa.BufferReader(data),
            read_options=pyarrow.csv.ReadOptions(use_threads=len(data) > _WORTH_THREADS),
            parse_options=pyarrow.csv.ParseOptions(
                newlines_in_values=True, ignore_empty_lines=False
            ),
            convert_options=pyarrow.csv.ConvertOptions(
                column_types=SCHEMA,
                null_values=[""],
                strings_can_be_null=False,
                include_columns=list(COLUMNS),  # and not those that the user added
            ),
        )
    except (pa.ArrowInvalid, pa.ArrowKeyError):
        return None
    return table.cast(SCHEMA) if _is_sound(table) else None


def _is_sound(table: pa.Table) -> bool:
    if table.schema.names != list(COLUMNS):
        return False
    finite = (pc.all(pc.is_finite(table[name]), min_count=0).as_py() for name in AMOUNTS)
    of_version = pc.all(pc.equal(table["version"], text_scalar(VERSION)), min_count=0).as_py()
    return bool(of_version and all(finite) and has_ball_counts(table))


def has_ball_counts(table: pa.Table) -> bool:
    """Whether each row says how many balls it stands for, as a record must."""
    balls = table["balls"]
    if not len(balls):
        return True
    bounds = pc.min_max(balls).as_py()
    return not balls.null_count and 1 <= bounds["min"] <= bounds["max"] <= MOST_BALLS
