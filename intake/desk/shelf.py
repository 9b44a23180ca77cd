"""All balls in the order of the shelf, shade by shade and lot by lot, searched as one types."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from intake.collector import paused_collector
from intake.fields.letters import fold_letter
from intake.filing.cabinet import Cabinet
from intake.records import FIELDS
from intake.sums.ball import Ball
from intake.sums.balls import balls
from intake.sums.lots import Lot, ShadeName, Totals, shades, totals
from intake.sums.maker_sheet import maker_sheet_path

PAGE_BALLS = 36
"""A page ends with the lot that reaches so many tags."""

LOT_BALLS = 12
"""So many tags of one lot are shown on a page; the balls of the others are told by their
number."""

_SEARCHED = (*FIELDS, "shade_printed", "note", "id")
_searched_cells = attrgetter(*_SEARCHED)

_PLAIN_LETTERS = {code: fold_letter(chr(code)) for code in range(128) if chr(code) != "\n"}
"""What most texts consist of, as :func:`folded` has it; lines stay lines."""


@lru_cache(maxsize=1 << 16)
def folded(text: str) -> str:
    """``text`` in small letters without accents, as it is searched."""
    return "".join(map(fold_letter, text))


@dataclass(frozen=True, slots=True)
class Sought:
    """What the user looks for.

    Each of ``words`` must stand somewhere in what is known of a ball.  ``maker`` and
    ``weight_class`` must be the ball's own; ``lot_of`` is the id of a record whose lot is
    to be seen whole.  Empty text asks for nothing.
    """

    words: str = ""
    maker: str = ""
    weight_class: str = ""
    lot_of: str = ""


@dataclass(frozen=True, slots=True)
class FoundLot:
    """The balls of one lot that were found: those to show, and how many more there are."""

    lot: Lot
    shown: tuple[Ball, ...]
    more: int


@dataclass(frozen=True, slots=True)
class FoundShade:
    """The lots of one shade that stand on the page; ``before`` tells that the page before
    has some of it, too."""

    name: ShadeName
    lots: tuple[FoundLot, ...]
    before: bool

    def alike(self, column: str) -> Ball | None:
        """A ball that says of ``column`` what all balls here say; ``None`` where they say
        different things or nothing."""
        balls = [ball for one in self.lots for ball in one.lot.balls]
        is_alike = len({(ball.text(column), ball.is_assumed(column)) for ball in balls}) == 1
        return balls[0] if is_alike and balls[0].text(column) else None


@dataclass(frozen=True, slots=True)
class Found:
    """One page of what was found, and what all that was found comes to.  ``following`` is
    the lot that the next page starts with, 0 where this is the last."""

    totals: Totals
    shade_count: int
    lot_count: int
    shades: tuple[FoundShade, ...]
    following: int


class Shelf:
    """The balls of a stash."""

    def __init__(self, all_balls: Sequence[Ball] = ()) -> None:
        self._balls: list[Ball] = []
        self._lots: list[Lot] = []
        lot_of_ball: list[int] = []
        self._shade_of_lot: list[int] = []
        for number, shade in enumerate(shades(all_balls)):
            for lot in shade.lots:
                lot_of_ball += [len(self._lots)] * len(lot.balls)
                self._lots.append(lot)
                self._shade_of_lot.append(number)
                self._balls += lot.balls
        self._lot_of_ball = np.array(lot_of_ball, dtype=np.intp)
        self._texts = [_searched(ball) for ball in self._balls]
        self._amounts = _Amounts(self._balls)

    def __len__(self) -> int:
        return sum(ball.count for ball in self._balls)

    @cached_property
    def makers(self) -> list[str]:
        """The makers of the balls, each once and in order."""
        return self._names("maker")

    @cached_property
    def weight_classes(self) -> list[str]:
        """The weight classes of the balls, each once and in order."""
        return self._names("weight_class")

    def _names(self, column: str) -> list[str]:
        return sorted({ball.text(column) for ball in self._balls} - {""}, key=folded)

    def ball(self, record_id: str) -> Ball | None:
        """The ball of a record; ``None`` where there is none."""
        return next((ball for ball in self._balls if ball.record.id == record_id), None)

    def find(self, sought: Sought = Sought(), start: int = 0) -> Found:
        """The balls that ``sought`` asks for, from the lot with number ``start`` among
        those found."""
        places = self._places(sought)
        runs = self._runs(places)
        page, following = _page(runs, min(max(start, 0), len(runs)))
        return Found(
            totals=self._amounts.totals(places),
            shade_count=len({self._shade_of_lot[run.lot] for run in runs}),
            lot_count=len(runs),
            shades=self._shades(places, runs, page, whole=bool(sought.lot_of)),
            following=following,
        )

    def _places(self, sought: Sought) -> Sequence[int]:
        """Where the balls stand that are asked for, in the order of the shelf."""
        places: Sequence[int] = range(len(self._balls))
        if sought.lot_of:
            places = self._lot_places(sought.lot_of)
        for column in ("maker", "weight_class"):
            wanted = getattr(sought, column)
            if wanted:
                places = [place for place in places if self._balls[place].text(column) == wanted]
        texts = self._texts
        for word in folded(sought.words).split():
            places = [place for place in places if word in texts[place]]
        return places

    def _lot_places(self, record_id: str) -> list[int]:
        balls = enumerate(self._balls)
        mine = next((place for place, ball in balls if ball.record.id == record_id), None)
        if mine is None:
            return []
        same: list[int] = np.flatnonzero(self._lot_of_ball == self._lot_of_ball[mine]).tolist()
        return same

    def _runs(self, places: Sequence[int]) -> list[_Run]:
        """The lots that the balls at ``places`` are of, for those of one lot stand together."""
        lots = self._lot_of_ball[_index(places)]
        starts = np.flatnonzero(np.diff(lots, prepend=-1))
        ends = np.append(starts, len(lots))[1:]
        runs = zip(lots[starts].tolist(), starts.tolist(), ends.tolist(), strict=True)
        return [_Run(*run) for run in runs]

    def _shades(
        self, places: Sequence[int], runs: Sequence[_Run], page: slice, *, whole: bool
    ) -> tuple[FoundShade, ...]:
        before = self._shade_of_lot[runs[page.start - 1].lot] if page.start else -1
        shades = []
        for number, group in groupby(runs[page], key=lambda run: self._shade_of_lot[run.lot]):
            lots = tuple(self._found_lot(places, run, whole) for run in group)
            shades.append(FoundShade(lots[0].lot.name, lots, number == before))
        return tuple(shades)

    def _found_lot(self, places: Sequence[int], run: _Run, whole: bool) -> FoundLot:
        lot = self._lots[run.lot]
        balls = tuple(self._balls[place] for place in places[run.start : run.end])
        shown = balls if whole else balls[:LOT_BALLS]
        more = sum(ball.count for ball in balls[len(shown) :])
        return FoundLot(Lot(lot.name, lot.lot, balls), shown, more)


class _Amounts:
    """What each ball has left, in arrays: :func:`~intake.sums.lots.totals` of any of twenty
    thousand balls within the time of a keystroke."""

    def __init__(self, balls: Sequence[Ball]) -> None:
        names = Totals.__slots__
        rows = [attrgetter(*names)(totals([ball])) for ball in balls]
        self._table = np.array(rows, dtype=np.float64).reshape(len(balls), len(names))

    def totals(self, places: Sequence[int]) -> Totals:
        """What the balls at ``places`` come to."""
        balls, left_m, left_g, unknown_m, unknown_g, assumed = self._table[_index(places)].sum(0)
        return Totals(
            int(balls), float(left_m), float(left_g), int(unknown_m), int(unknown_g), int(assumed)
        )


def _index(places: Sequence[int]) -> npt.NDArray[np.intp]:
    return np.fromiter(places, dtype=np.intp, count=len(places))


class _Run(NamedTuple):
    """Balls of one lot among those found: its number, and from where to where."""

    lot: int
    start: int
    end: int


def _page(runs: Sequence[_Run], start: int) -> tuple[slice, int]:
    """Which of ``runs`` fill the page from ``start`` on, and the start of the next."""
    count = 0
    for number in range(start, len(runs)):
        count += min(runs[number].end - runs[number].start, LOT_BALLS)
        if count >= PAGE_BALLS:
            return slice(start, number + 1), (number + 1) % len(runs)
    return slice(start, len(runs)), 0


class FreshShelf:
    """The shelf of a cabinet, built anew when one of the files changed that it is made of."""

    def __init__(self, cabinet: Cabinet) -> None:
        self._cabinet = cabinet
        self._files = (
            cabinet.stash.path,
            cabinet.history.path,
            maker_sheet_path(cabinet.stash.path),
        )
        self._built_from: tuple[Stamp, ...] = ()
        self._shelf = Shelf()

    def now(self) -> Shelf:
        """The shelf as it is now.  Raises :class:`~intake.errors.BadStash` and
        :class:`~intake.errors.BadTable`."""
        there = tuple(map(_stamp, self._files))
        if there != self._built_from:
            with paused_collector():
                self._shelf = Shelf(balls(self._cabinet))
            self._built_from = there
            # Else the collector would walk a million lasting objects while the user types.
            gc.freeze()
        return self._shelf


Stamp = tuple[int, int, int]
"""A file's number, size in bytes and last change in nanoseconds; zeros where it is not."""


def _stamp(file: Path) -> Stamp:
    try:
        status = file.stat()
    except OSError:
        return 0, 0, 0
    return status.st_ino, status.st_size, status.st_mtime_ns


def _searched(ball: Ball) -> str:
    """What is known of a ball, one column a line, so that no word is found across two."""
    cells = _searched_cells(ball.record)
    if ball.assumed:
        texts = [
            str(cell or "") or ball.assumed.get(name, "")
            for name, cell in zip(_SEARCHED, cells, strict=True)
        ]
    else:
        texts = [str(cell) for cell in cells if cell]
    whole = "\n".join(filter(None, texts))
    if whole.isascii():
        return whole.translate(_PLAIN_LETTERS)
    return "\n".join(map(folded, filter(None, texts)))
