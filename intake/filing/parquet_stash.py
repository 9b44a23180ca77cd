"""A stash in a Parquet file: lengths and masses are doubles, the number of balls is a whole
number, all else is strings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.parquet as pq

from intake.errors import BadStash
from intake.filing.columns import SCHEMA, has_ball_counts, records_of, table_of
from intake.filing.layouts import refuse_newer, upgraded, version_of_columns
from intake.filing.record import (
    AMOUNTS,
    COLUMNS,
    MOST_BALLS,
    VERSION,
    Record,
    cell_text,
    record_from_row,
)
from intake.filing.safe_write import replace_file
from intake.filing.stash import NO_CELLS, Mark, OwnCells, Rows, Stash, check_columns


class ParquetStash(Stash):
    """A stash in a Parquet file, written anew with each change."""

    def read(self, after: Mark | None = None) -> Rows:
        """See :meth:`Stash.read`.  A file that changed is read whole."""
        mark = self._mark()
        if after is not None and after == mark:
            return Rows((), mark, whole=False)
        return Rows(self._records(), mark, whole=True)

    def append(self, records: Sequence[Record], own: OwnCells = NO_CELLS) -> Mark:
        """See :meth:`Stash.append`.  The cost grows with the file."""
        with self.locked():
            found = self._found()
            if self._is_older(found):
                self.backups.keep()
            return self._write(pa.concat_tables([self._checked(found), table_of(records)]))

    def rewrite(self, records: Iterable[Record], own: OwnCells = NO_CELLS) -> Mark:
        """See :meth:`Stash.rewrite`."""
        with self.locked():
            after = table_of(list(records))
            self.backups.keep()
            return self._write(after)

    def _records(self) -> Iterator[Record]:
        yield from records_of(self.table())

    def table(self) -> pa.Table:
        """See :meth:`Stash.table`."""
        return self._checked(self._found())

    def _found(self) -> pa.Table:
        """What the file holds, whatever that is."""
        with self.readable():
            if not self.path.exists() or self.path.stat().st_size == 0:
                return SCHEMA.empty_table()
            try:
                return pq.ParquetFile(self.path).read()
            except (pa.ArrowInvalid, pa.ArrowTypeError) as error:
                raise BadStash(f"{self.path} is no Parquet file; give another file") from error

    def _is_older(self, table: pa.Table) -> bool:
        versions = _versions(table) or [version_of_columns(table.schema.names, self._steps)]
        return bool(self._steps.keys() & set(versions))

    def _checked(self, table: pa.Table) -> pa.Table:
        versions = _versions(table)
        for version in versions:
            refuse_newer(self.path, version)
        if self._is_older(table):
            return self._upgraded(table)
        check_columns(self.path, table.schema.names, may_have_own=False)
        for name in COLUMNS:
            wanted, found = SCHEMA.field(name).type, table.schema.field(name).type
            if not (found == wanted or (_is_text(found) and _is_text(wanted))):
                raise BadStash(
                    f"the column {name!r} of {self.path} holds {found}, not {wanted}; "
                    "give another file for the stash"
                )
        if set(versions) - {VERSION}:
            raise BadStash(
                f"{self.path} has rows without layout version {VERSION}; correct them or give "
                "another file"
            )
        table = _without_nulls(table)
        if not has_ball_counts(table):
            raise BadStash(
                f"the column 'balls' of {self.path} holds what is no number of balls; make each "
                f"a whole number from 1 to {MOST_BALLS}"
            )
        return table.cast(SCHEMA)

    def _upgraded(self, table: pa.Table) -> pa.Table:
        try:
            rows = [
                upgraded({name: cell_text(value) for name, value in row.items()}, self._steps)
                for row in table.to_pylist()
            ]
            if rows:
                foreign = rows[0].keys() - set(COLUMNS)
                check_columns(self.path, [*COLUMNS, *sorted(foreign)], may_have_own=False)
            return table_of([record_from_row([row[name] for name in COLUMNS]) for row in rows])
        except (KeyError, ValueError) as error:
            raise BadStash(
                f"{self.path} is no whole stash of an older layout ({error}); correct it or give "
                "another file"
            ) from error

    def _write(self, table: pa.Table) -> Mark:
        replace_file(self.path, lambda file: pq.write_table(table, file))
        return self._mark()

    def _mark(self) -> Mark:
        with self.readable():
            try:
                status = self.path.stat()
            except FileNotFoundError:
                return Mark()
        return Mark(status.st_ino, status.st_size, status.st_mtime_ns)


def _versions(table: pa.Table) -> list[str]:
    if "version" not in table.schema.names:
        return []
    return [str(version) for version in pc.unique(table["version"]).to_pylist()]


def _is_text(kind: pa.DataType) -> bool:
    return bool(pa.types.is_string(kind) or pa.types.is_large_string(kind))


def _without_nulls(table: pa.Table) -> pa.Table:
    """Other programs write an absent text as null; here it is empty, and a number of balls
    that nobody gave is one."""
    for place, name in enumerate(COLUMNS):
        if name not in AMOUNTS and table[name].null_count:
            absent = 1 if name == "balls" else ""
            table = table.set_column(place, name, pc.fill_null(table[name], absent))
    return table
