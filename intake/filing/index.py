"""The index of a large stash: what a new tag is compared with, without reading all rows.

For ``stash.csv`` it is ``stash.index.arrow``.  It holds nothing that the stash does not, so
it may be taken away at any time, and only large stashes have one.  It tells the stash as it was
at one moment; what balltag wrote since stands in :mod:`intake.filing.written`, whose length
at that moment is kept.  An index is believed only while the stash is as balltag left it:
whoever finds that another program changed it throws the index away first.

The file is read by mapping it into memory, so that opening it costs nothing and a look at it
only the pages that are touched.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
from numpy.typing import NDArray

from intake.errors import NoAccess
from intake.filing.arrays import numbers
from intake.filing.hash_shelf import Nearness, columns_of_hashes, near_hashes
from intake.filing.record import COLUMNS, Record
from intake.filing.record import VERSION as STASH_VERSION
from intake.filing.safe_write import keep_names, may_write, replace_file

VERSION = f"1 of stash {STASH_VERSION}"
"""Version of the layout; an index of any other is written anew."""

CELLS = (
    "id", "picture", "digest", "page", "maker", "range", "shade", "shade_code", "lot", "barcode",
    "length_m", "mass_g",
)  # fmt: skip
"""The columns of the stash that it has."""

LAST = 200
"""So many records that were filed last it has whole."""
_REMEMBERED = 256
_BLANK: Mapping[str, Any] = dict.fromkeys(COLUMNS, "")


class Named(NamedTuple):
    """A maker, range and shade as a record names them."""

    maker: str
    range: str
    shade: str
    shade_code: str


def shade_keys(shade: str, shade_code: str) -> tuple[str, ...]:
    """What a shade goes by: its name, its code, or both."""
    names = {"name": shade, "code": shade_code}
    return tuple(f"{kind} {text.casefold()}" for kind, text in names.items() if text)


class Index:
    """What an index file holds.  Rows are numbered in the order of their ids."""

    def __init__(self, parts: pa.RecordBatch, written_end: int) -> None:
        self.written_end = written_end
        """How long the list of what was written was, in bytes, as the index was made."""
        self._cells = _columns(parts["rows"])
        self._by_lot = numbers(_columns(parts["by lot"])["row"])
        lots = _columns(parts["lots"])
        self._lot_shades, self._lot_names = lots["shade"], lots["lot"]
        self._lot_balls = numbers(lots["balls"])
        hashes = _columns(parts["hashes"])
        self._hash_rows = numbers(hashes.pop("row"))
        self._hash_words = tuple(map(numbers, hashes.values()))
        self._named = _columns(parts["named"])
        self._last = parts["last"].values
        self.row = lru_cache(maxsize=_REMEMBERED)(self._row)
        """The row of a record by its id; one tag's is asked for many times while it is filed."""

    def __len__(self) -> int:
        return len(self._cells["id"])

    def __contains__(self, tag_id: str) -> bool:
        return self.row(tag_id) is not None

    def _row(self, tag_id: str) -> int | None:
        """The row of a record; ``None`` where there is none."""
        place = _first(self._cells["id"], tag_id)
        there = place < len(self) and self._cells["id"][place].as_py() == tag_id
        return place if there else None

    def record(self, row: int) -> Record:
        """The record of a row, as far as it is known here: its :data:`CELLS`."""
        cells = {name: column[row].as_py() for name, column in self._cells.items()}
        return Record(**{**_BLANK, **cells})

    def last(self) -> list[Record]:
        """The last :data:`LAST` records of the stash, whole and in its order."""
        return [Record(**row) for row in self._last.to_pylist()]

    def of_lot(self, lot: str) -> Iterator[int]:
        """The rows of a lot, in the order of the stash."""
        lots = self._cells["lot"]
        first = bisect_left(self._by_lot, lot, key=lambda row: lots[int(row)].as_py())
        for row in map(int, self._by_lot[first:]):
            if lots[row].as_py() != lot:
                return
            yield row

    def lots(self, shade: str) -> dict[str, int]:
        """How many records of each lot there are of a shade, see :func:`shade_keys`."""
        found = {}
        for place in range(_first(self._lot_shades, shade), len(self._lot_shades)):
            if self._lot_shades[place].as_py() != shade:
                break
            found[self._lot_names[place].as_py()] = int(self._lot_balls[place])
        return found

    def near(self, print_hash: str, nearness: Nearness) -> Iterator[tuple[int, int]]:
        """The rows whose print hash is near, and in how many bits it differs."""
        for place, bits in near_hashes(self._hash_words, print_hash, nearness):
            yield int(self._hash_rows[place]), bits

    def named(self) -> dict[Named, int]:
        """The makers, ranges and shades, in the order in which they were filed first, and how
        many records have just these."""
        *names, times = (column.to_pylist() for column in self._named.values())
        return dict(zip(map(Named, *names), times, strict=True))


class FiledIds:
    """The ids of the records: those of an index, and those that came or went since."""

    def __init__(self, index: Index | None = None) -> None:
        self._index = index
        self._added: set[str] = set()
        self._gone: set[str] = set()

    def __contains__(self, record_id: str) -> bool:
        if record_id in self._added:
            return True
        return self._index is not None and record_id not in self._gone and record_id in self._index

    def add(self, record_id: str) -> None:
        """Count an id among them."""
        self._added.add(record_id)

    def discard(self, record_id: str) -> None:
        """Count an id among them no longer."""
        self._added.discard(record_id)
        self._gone.add(record_id)


class IndexFile:
    """The index in the file at ``path``, which need not exist."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def load(self) -> Index | None:
        """The index; ``None`` where there is none that can be used."""
        try:
            reader = pa.ipc.open_file(pa.memory_map(str(self.path)))
            about = reader.schema.metadata or {}
            if about.get(b"version") != VERSION.encode():
                return None
            return Index(reader.get_batch(0), int(about[b"written_end"]))
        except (OSError, pa.ArrowException, KeyError, ValueError):
            return None

    def write(self, table: pa.Table, written_end: int) -> None:
        """Index the records of ``table``, see :data:`intake.filing.columns.SCHEMA`.  For
        holders of the stash's lock.  Where it cannot be written, or two records have one id,
        there is none afterwards: it only saves time."""
        parts = _parts(table)
        if parts is None:
            self.discard()
            return
        about = {"version": VERSION, "written_end": str(written_end)}
        parts = parts.replace_schema_metadata(about)

        def write(file: object) -> None:
            with pa.ipc.new_file(file, parts.schema) as writer:
                writer.write_batch(parts)

        with suppress(NoAccess):
            replace_file(self.path, write)

    def discard(self) -> None:
        """Throw the index away.  For holders of the stash's lock.  Raises
        :class:`NoAccess`: one that stays would be believed."""
        with may_write(self.path):
            if self.path.exists():
                self.path.unlink()
                keep_names(self.path.parent)


def _parts(table: pa.Table) -> pa.RecordBatch | None:
    """The parts of an index, each a list of rows; ``None`` where two records have one id."""
    if len(pc.unique(table["id"])) < len(table):
        return None
    table = table.combine_chunks()
    order = pc.sort_indices(table["id"])
    by_lot = _places(order)[numbers(pc.sort_indices(table["lot"]))]
    places, words = columns_of_hashes(table["print_hash"].take(order).to_numpy())
    return pa.record_batch(
        {
            "rows": _list({name: table[name].take(order) for name in CELLS}),
            "by lot": _list({"row": by_lot}),
            "lots": _list(_lots(table)),
            "named": _list(_named(table)),
            "last": _list({name: table[name][-LAST:] for name in COLUMNS}),
            "hashes": _list({"row": places, **{f"word {n}": one for n, one in enumerate(words)}}),
        }
    )


def _places(order: pa.Array) -> NDArray[np.int32]:
    """Where each element stands after it was put in this order."""
    places = np.empty(len(order), np.int32)
    places[numbers(order)] = np.arange(len(order), dtype=np.int32)
    return places


def _lots(table: pa.Table) -> dict[str, list[str] | list[int]]:
    """How many records of each lot there are of a shade, in the order of the shades."""
    balls: Counter[tuple[str, str]] = Counter()
    kinds = ("shade", "shade_code", "lot")
    groups = _grouped(table, kinds, [("row", "count")])
    for (shade, code, lot), count in zip(
        _tuples(groups, kinds), groups["row_count"].to_pylist(), strict=True
    ):
        for one in shade_keys(shade, code) if lot else ():
            balls[one, lot] += count
    counted = sorted(balls.items())
    return {
        "shade": [shade for (shade, _), _ in counted],
        "lot": [lot for (_, lot), _ in counted],
        "balls": [count for _, count in counted],
    }


def _named(table: pa.Table) -> dict[str, pa.ChunkedArray]:
    groups = _grouped(table, Named._fields, [("row", "min"), ("row", "count")]).sort_by("row_min")
    return {**{name: groups[name] for name in Named._fields}, "times": groups["row_count"]}


def _grouped(table: pa.Table, columns: Sequence[str], sums: list[tuple[str, str]]) -> pa.Table:
    """What stands in ``columns``, each combination once, with ``sums`` over the numbers of its
    rows."""
    numbered = table.select(columns).append_column("row", pa.array(np.arange(len(table))))
    return numbered.group_by(list(columns), use_threads=False).aggregate(sums)


def _tuples(table: pa.Table, columns: Sequence[str]) -> Iterator[tuple[Any, ...]]:
    return zip(*(table[name].to_pylist() for name in columns), strict=True)


def _list(columns: Mapping[str, Any]) -> pa.ListArray:
    """A list of one element: all rows of ``columns``.  So parts of different length make one
    file."""
    parts = {name: _one_array(column) for name, column in columns.items()}
    rows = pa.StructArray.from_arrays(list(parts.values()), names=list(parts))
    return pa.ListArray.from_arrays(pa.array([0, len(rows)], pa.int32()), rows)


def _one_array(column: Any) -> pa.Array:
    return column.combine_chunks() if isinstance(column, pa.ChunkedArray) else pa.array(column)


def _columns(part: pa.ListArray) -> dict[str, pa.Array]:
    """What :func:`_list` was made of."""
    rows = part.values
    return {field.name: rows.field(field.name) for field in rows.type}


def _first(column: pa.StringArray, text: str) -> int:
    """Where ``text`` stands first in a column that is in order, or would stand."""
    return bisect_left(column, text, key=lambda each: each.as_py())
