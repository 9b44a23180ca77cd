"""The balls of a stash by column, so that looking through very many takes no time.

A column is kept as its distinct texts and a number for each ball: a question is asked of
each distinct text once, however many balls carry it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
from numpy.typing import NDArray

from intake.filing.arrays import numbers, row_numbers, text_scalar, truths
from intake.filing.cabinet import Cabinet
from intake.filing.columns import records_of
from intake.sums.ball import Ball, Weighing
from intake.sums.balls import last_weighings
from intake.sums.lots import Identities, Lot, lots
from intake.sums.maker_sheet import UNSAID, MakerSheet, read_maker_sheet

Rows = NDArray[np.bool_]
"""Which balls are meant: one truth value a ball, in the order of filing."""


@dataclass(frozen=True, slots=True)
class Column:
    """A text column: ``texts[codes[i]]`` is the text of ball ``i``."""

    codes: NDArray[np.int32]
    texts: Sequence[str]

    def where(self, fits: Callable[[str], bool]) -> Rows:
        """The balls whose text fits."""
        return np.array([fits(text) for text in self.texts], dtype=np.bool_)[self.codes]

    def among(self, wanted: Sequence[str]) -> Rows:
        """The balls whose text is one of ``wanted``."""
        chosen = frozenset(wanted)
        return self.where(lambda text: text in chosen)


class Catalogue:
    """The balls of a stash, what the maker sheet assumes of them included.

    ``table`` has the records by column (:data:`intake.filing.columns.SCHEMA`), ``weighed``
    the last weighing by record id.
    """

    def __init__(
        self, table: pa.Table, sheet: MakerSheet, weighed: Mapping[str, Weighing] | None = None
    ) -> None:
        self._table = table
        self._sheet = sheet
        self._weighed = weighed or {}
        self._columns: dict[str, Column] = {}
        self._as_printed: dict[str, Column] = {}

    def __len__(self) -> int:
        return int(self._table.num_rows)

    def all(self) -> Rows:
        """Every ball."""
        return np.ones(len(self), dtype=np.bool_)

    def none(self) -> Rows:
        """No ball."""
        return np.zeros(len(self), dtype=np.bool_)

    def column(self, name: str) -> Column:
        """A text column, with what the maker sheet assumes where the tag is silent."""
        if name not in self._columns:
            printed = self._printed(name)
            assumes = name in UNSAID and self._sheet.lines
            self._columns[name] = self._with_assumed(name, printed) if assumes else printed
        return self._columns[name]

    def exactly(self, name: str, text: str) -> Rows:
        """The balls whose tag has just ``text`` in a column, letter by letter."""
        return truths(pc.equal(self._table[name], text_scalar(text)))

    def lots(self, rows: Rows) -> list[Lot]:
        """The balls that are meant, by lot."""
        return lots(self.balls(rows), self._identities)

    @cached_property
    def _identities(self) -> Identities:
        names = ("maker", "range", "shade", "shade_code")
        first = row_numbers(_first_of_each([self._printed(name) for name in names]))
        kinds = self._table.select(names).take(first)
        return Identities(zip(*(column.to_pylist() for column in kinds.columns), strict=True))

    def balls(self, rows: Rows) -> list[Ball]:
        """The balls that are meant, in the order of filing."""
        return [
            Ball(record, self._sheet.assumed(record), self._weighed.get(record.id))
            for record in records_of(self._table.take(row_numbers(np.flatnonzero(rows))))
        ]

    def _printed(self, name: str) -> Column:
        if name not in self._as_printed:
            encoded = self._table[name].combine_chunks().dictionary_encode()
            texts = encoded.dictionary.to_pylist()
            self._as_printed[name] = Column(numbers(encoded.indices), texts)
        return self._as_printed[name]

    def _with_assumed(self, name: str, printed: Column) -> Column:
        """``printed`` with the silent balls given what their maker and range hold to."""
        silent = np.flatnonzero(printed.where(lambda text: not text))
        makers, ranges = self._printed("maker"), self._printed("range")
        pairs = makers.codes[silent].astype(np.int64) * len(ranges.texts) + ranges.codes[silent]
        names, place = np.unique(pairs, return_inverse=True)
        said = [
            self._sheet.said(makers.texts[maker], ranges.texts[range_], name)
            for maker, range_ in (divmod(int(pair), len(ranges.texts)) for pair in names)
        ]
        codes = printed.codes.copy()
        codes[silent] = len(printed.texts) + place
        return Column(codes, [*printed.texts, *said])


def _first_of_each(columns: Sequence[Column]) -> NDArray[np.int64]:
    """The first ball with each combination of texts that occurs."""
    kinds = np.zeros(len(columns[0].codes), np.int64)
    first: NDArray[np.int64] = kinds
    for column in columns:  # one by one, or the numbers of all combinations grow too large
        _, first, kinds = np.unique(
            kinds * len(column.texts) + column.codes, return_index=True, return_inverse=True
        )
    return first


def catalogue(cabinet: Cabinet, maker_sheet: MakerSheet | None = None) -> Catalogue:
    """The catalogue of a stash; see :func:`intake.sums.balls.balls`."""
    sheet = read_maker_sheet(cabinet.stash) if maker_sheet is None else maker_sheet
    return Catalogue(cabinet.table(), sheet, last_weighings(cabinet.history.standing()))
