"""Records by column: an Arrow table, for looking through very many at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.csv

from intake.filing.record import COLUMNS, NUMBERS, VERSION, Record

SCHEMA = pa.schema(
    [
        pa.field(name, pa.float64() if name in NUMBERS else pa.string(), nullable=name in NUMBERS)
        for name in COLUMNS
    ]
)
"""Lengths and masses are doubles, null where a tag has none; all else is text."""

_AT_A_TIME = 10_000


def table_of(records: Sequence[Record]) -> pa.Table:
    """The table of ``records``."""
    columns = {name: [getattr(record, name) for record in records] for name in COLUMNS}
    return pa.table(columns, schema=SCHEMA)


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
    finite = (pc.all(pc.is_finite(table[name]), min_count=0).as_py() for name in NUMBERS)
    return bool(pc.all(pc.equal(table["version"], VERSION), min_count=0).as_py() and all(finite))
