"""Which garments are made of which lots: an assignment problem, solved to the best.

What counts, in this order:

1. as many garments as can be are covered;
2. as few lots as can be are mixed in them;
3. as few balls as can be are broken into: whole balls of which a part is left;
4. as little as can be is left in the lots that are drawn on, so that a lot which is just
   enough goes before one that would do for something larger;
5. in the lots that these goals choose, part balls are used up before whole ones;
6. where lots are mixed, the largest gives most, so that the odd one is small.

A garment is of one yarn.  A ball may be shared by garments: what one leaves goes into the
next.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from intake.sums.garments import Unit
from intake.sums.lexicographic import Programme
from intake.sums.piles import PiledLot, Yarn

TIME_LIMIT_S = 10.0
"""How long the best is sought for each goal."""

MOST_LOTS = 40
"""How many lots that are enough by themselves are weighed up for each of several needs:
those that leave least over.  With hundreds for each the search does not end in minutes."""

ENOUGH = 1 - 1e-9
"""How much of a need must be there: all of it, but for the rounding of sums."""

TRACE = 1e-5
"""Balls, below which a draw is the solver's rounding: a few millimetres."""


COVERED, MIXED = "garments covered", "lots mixed"
BROKEN, LEFT_OVER = "balls broken into", "left over"
"""What the goals are called that are sought among all lots."""


@dataclass(frozen=True, slots=True)
class Need:
    """``amount`` in ``unit``, of those lots that are asked for: numbers of lots by the
    number of their yarn."""

    amount: float
    unit: Unit
    lots: Mapping[int, frozenset[int]]


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A pile: the number of its yarn, of its lot there, and of the pile in the lot."""

    yarn: int
    lot: int
    pile: int


@dataclass(frozen=True, slots=True)
class Allotment:
    """Balls, in whole and parts, that each need draws from each pile; a need without
    draws is not covered.  ``unproven`` names the goals that may still be bettered, for the
    search ran out of time or there were too many lots to look at all."""

    draws: Mapping[int, Mapping[Place, float]]
    unproven: tuple[str, ...]


def allot(needs: Sequence[Need], yarns: Sequence[Yarn], seconds: float = TIME_LIMIT_S) -> Allotment:
    """The best allotment of ``yarns`` to ``needs``; each goal is sought for ``seconds``."""
    considered = [_shortlisted(need, yarns, len(needs)) for need in needs]
    sheet = _Sheet(considered, yarns, Programme(seconds))
    sheet.reach_goals()
    draws: defaultdict[int, dict[Place, float]] = defaultdict(dict)
    for (number, place), column in sheet.draws.items():
        if (balls := sheet.programme.value(column)) > TRACE:
            draws[number][place] = balls
    unproven = sheet.programme.unproven
    if considered != list(needs):
        unproven = [*unproven, *_unseen(len(needs), draws)]
    return Allotment(draws, tuple(dict.fromkeys(unproven)))


def _shortlisted(need: Need, yarns: Sequence[Yarn], needs: int) -> Need:
    """``need`` with the lots that fit it best, where very many are enough for it."""
    enough = sorted(
        (total, yarn, lot)
        for yarn, numbers in need.lots.items()
        for lot in numbers
        if (total := yarns[yarn].lots[lot].total(need.unit)) >= need.amount * ENOUGH
    )
    most = max(MOST_LOTS, 2 * needs)
    if needs == 1 or len(enough) <= most:
        return need
    lots: defaultdict[int, set[int]] = defaultdict(set)
    for _, yarn, lot in enough[:most]:
        lots[yarn].add(lot)
    return replace(need, lots={yarn: frozenset(numbers) for yarn, numbers in lots.items()})


def _unseen(needs: int, draws: Mapping[int, Mapping[Place, float]]) -> tuple[str, ...]:
    """The goals that lots which were not looked at might better."""
    lots = {(number, place.yarn, place.lot) for number, drawn in draws.items() for place in drawn}
    if len(draws) == len(lots) == needs:  # no goal is reached better than one lot for each
        return BROKEN, LEFT_OVER
    return COVERED, MIXED, BROKEN, LEFT_OVER


class _Sheet:
    """The programme's columns by what they stand for.

    ``made_of`` tells which yarn a need is covered by and ``mixed`` whether by several lots
    of it, ``draws`` how many balls of a pile it takes, ``uses`` whether it takes of a lot,
    ``opened`` whether anyone does.  Of a pile of whole balls, ``used_up`` are used up and
    ``broken`` is one that is not.
    """

    def __init__(self, needs: Sequence[Need], yarns: Sequence[Yarn], programme: Programme) -> None:
        self.needs = needs
        self.yarns = yarns
        self.programme = programme
        self.made_of: dict[tuple[int, int], int] = {}
        self.mixed: dict[int, int] = {}
        self.draws: dict[tuple[int, Place], int] = {}
        self.uses: dict[tuple[int, int, int], int] = {}
        self.opened: dict[tuple[int, int], int] = {}
        self.used_up: dict[Place, int] = {}
        self.broken: dict[Place, int] = {}
        for number, need in enumerate(needs):
            self._add_need(number, need)
        drawn_on: defaultdict[Place, list[int]] = defaultdict(list)
        for (_, place), column in self.draws.items():
            drawn_on[place].append(column)
        for place, columns in drawn_on.items():
            self._add_pile(place, columns)

    def reach_goals(self) -> None:
        """The goals of this module, in their order."""
        programme = self.programme
        covered = -programme.reach(COVERED, dict.fromkeys(self.made_of.values(), -1.0))
        lots = programme.reach(MIXED, dict.fromkeys(self.uses.values(), 1.0))
        # Follows from the two goals, but the solver is far quicker when it is told.
        programme.row(dict.fromkeys(self.mixed.values(), 1.0), high=lots - covered)
        programme.reach(BROKEN, dict.fromkeys(self.broken.values(), 1.0))
        programme.reach(LEFT_OVER, self._left_over())
        # What remains is how to draw on the lots that these goals chose.
        programme.hold(self.uses.values())
        programme.reach("part balls used up", self._part_draws())
        programme.reach("size of the odd lot", self._odd_draws())

    def _add_need(self, number: int, need: Need) -> None:
        self.mixed[number] = self.programme.column(1, whole=True)
        for yarn, numbers in need.lots.items():
            lots = {at: self.yarns[yarn].lots[at] for at in sorted(numbers)}
            if sum(lot.total(need.unit) for lot in lots.values()) >= need.amount * ENOUGH:
                self.made_of[number, yarn] = self.programme.column(1, whole=True)
                self._add_yarn(number, need, yarn, lots)
        made = dict.fromkeys((c for (n, _), c in self.made_of.items() if n == number), 1.0)
        self.programme.row(made, high=1)

    def _add_yarn(self, number: int, need: Need, yarn: int, lots: Mapping[int, PiledLot]) -> None:
        """A need that is made of a yarn draws all of its amount from the yarn's lots; of
        one lot alone unless it is mixed."""
        made = self.made_of[number, yarn]
        drawn: dict[int, float] = {}
        uses: dict[int, float] = {}
        for at, lot in lots.items():
            if lot.total(need.unit) > 0:
                place = Place(yarn, at, 0)
                drawn |= self._add_lot(number, need, place, lot)
                uses[self.uses[number, yarn, at]] = 1.0
        self.programme.row(drawn | {made: -1}, 0, 0)
        self.programme.row(uses | {made: -1, self.mixed[number]: -len(uses)}, high=0)

    def _add_lot(self, number: int, need: Need, place: Place, lot: PiledLot) -> dict[int, float]:
        """What a need may draw from a lot: columns to the share of the need in a ball."""
        uses = self.programme.column(1, whole=True)
        self.uses[number, place.yarn, place.lot] = uses
        self.programme.row({uses: 1, self.made_of[number, place.yarn]: -1}, high=0)
        self.programme.row({uses: 1, self._opened(place): -1}, high=0)
        drawn = {}
        for at, pile in enumerate(lot.piles):
            if pile.total(need.unit) > 0:
                share = pile.amounts[need.unit] / need.amount
                most = min(len(pile.balls), 1 / share)
                column = self.programme.column(most)
                self.programme.row({column: 1, uses: -most}, high=0)
                self.draws[number, replace(place, pile=at)] = column
                drawn[column] = share
        # A lot that is used gives the whole need, or else the need is mixed.
        rest = {column: -share for column, share in drawn.items()}
        self.programme.row(rest | {uses: 1, self.mixed[number]: -1}, high=0)
        return drawn

    def _opened(self, place: Place) -> int:
        at = (place.yarn, place.lot)
        if at not in self.opened:
            self.opened[at] = self.programme.column(1, whole=True)
        return self.opened[at]

    def _add_pile(self, place: Place, draws: Sequence[int]) -> None:
        """A pile gives no more than it has; of whole balls, those that are used up and
        one that may be broken into make up what it gives."""
        pile = self._lot(place).piles[place.pile]
        balls = len(pile.balls)
        drawn = dict.fromkeys(draws, 1.0)
        if not pile.whole:
            self.programme.row(drawn, high=balls)
            return
        used_up = self.used_up[place] = self.programme.column(balls, whole=True)
        broken = self.broken[place] = self.programme.column(1, whole=True)
        self.programme.row(drawn | {used_up: -1}, low=0)
        self.programme.row(drawn | {used_up: -1, broken: -1}, high=0)
        self.programme.row({used_up: 1, broken: 1}, high=balls)

    def _left_over(self) -> dict[int, float]:
        """What the lots that are drawn on hold, less what is drawn."""
        unit = _common_unit(self.needs)
        held = {
            column: self.yarns[yarn].lots[lot].total(unit)
            for (yarn, lot), column in self.opened.items()
        }
        drawn = {}
        for (number, place), column in self.draws.items():
            lot, need = self._lot(place), self.needs[number]
            # By the lot's own rate: whichever of its balls are drawn on, as much is left.
            rate = lot.total(unit) / lot.total(need.unit)
            drawn[column] = -lot.piles[place.pile].amounts[need.unit] * rate
        return held | drawn

    def _part_draws(self) -> dict[int, float]:
        """Draws on part balls; the more the better."""
        return {
            column: -self._share(number, place)
            for (number, place), column in self.draws.items()
            if not self._lot(place).piles[place.pile].whole
        }

    def _odd_draws(self) -> dict[int, float]:
        """Draws, each counted the more the smaller its lot."""
        return {
            column: self._share(number, place) / self._lot(place).total(self.needs[number].unit)
            for (number, place), column in self.draws.items()
        }

    def _share(self, number: int, place: Place) -> float:
        """The part of a need that a ball of a pile makes."""
        need = self.needs[number]
        return self._lot(place).piles[place.pile].amounts[need.unit] / need.amount

    def _lot(self, place: Place) -> PiledLot:
        return self.yarns[place.yarn].lots[place.lot]


def _common_unit(needs: Sequence[Need]) -> Unit:
    """The unit of all needs; balls where they differ."""
    units = {need.unit for need in needs}
    return units.pop() if len(units) == 1 else Unit.BALLS
