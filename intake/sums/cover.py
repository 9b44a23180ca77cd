"""Is there enough, and of one lot?  Garments covered from the stash, and what to buy.

A garment is of one yarn: one shade of one maker's range.  One lot is best; else the fewest,
with advice where the odd one shows least.  Nothing is counted as one lot that is not known
to be: see :mod:`intake.sums.lots`.  How lots are chosen stands in :mod:`intake.sums.allot`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from intake.sums.allot import ENOUGH, TIME_LIMIT_S, Need, allot
from intake.sums.ball import Ball
from intake.sums.catalogue import Catalogue
from intake.sums.find import Found, Query, find
from intake.sums.garments import Garment
from intake.sums.lots import Lot, name_key
from intake.sums.piles import PiledLot, Yarn, yarns
from intake.sums.purchase import Purchase, purchase
from intake.sums.shelf import Shelf, Take
from intake.sums.terms import near_lots

RIBS_SHARE = 0.15
"""Up to this part of a garment an odd lot goes into ribs and cuffs: common practice, from
memory."""

SLEEVES_SHARE = 0.4
"""Up to this part of a garment an odd lot makes both sleeves: common practice, from memory."""

ALL_OF_IT = "all of it"
MAIN_PART = "the body"
RIBS = "ribs, cuffs, neckband or edges"
SLEEVES = "both sleeves, or another part that stands apart"
THROUGHOUT = "throughout, alternated with the main lot every two rows"


@dataclass(frozen=True, slots=True)
class Part:
    """What a garment takes of one lot, where in the garment it goes, and what is then
    left in the lot by all garments.  Amounts are in the garment's unit."""

    lot: Lot
    takes: tuple[Take, ...]
    amount: float
    left: float
    use: str


@dataclass(frozen=True, slots=True)
class Cover:
    """How one garment fares.

    ``yarn`` is what it is made of, or what comes nearest to be enough, ``None`` where no
    ball fits.  ``parts`` are the lots it takes of, the largest part first; none where it is
    not covered.  ``why`` tells why these.  ``buy`` is set unless the garment is of one lot.
    ``uncounted`` balls fit, one of each record, but nobody knows how much is on them.
    """

    garment: Garment
    yarn: Yarn | None
    parts: tuple[Part, ...]
    why: str
    buy: Purchase | None
    uncounted: tuple[Ball, ...]
    notes: tuple[str, ...]

    @property
    def is_covered(self) -> bool:
        """Whether there is enough, in however many lots."""
        return bool(self.parts)


@dataclass(frozen=True, slots=True)
class Plan:
    """All garments.  ``unproven`` names what a search that takes hours might better."""

    covers: tuple[Cover, ...]
    unproven: tuple[str, ...]


def cover(balls: Catalogue, garments: Sequence[Garment], seconds: float = TIME_LIMIT_S) -> Plan:
    """How ``garments`` are best covered from the stash; nothing is given out twice.

    Each goal of :mod:`intake.sums.allot` is sought for ``seconds``.
    """
    found = [find(balls, garment.wanted) for garment in garments]
    asked = [exactly_named(each.lots, g.wanted) for each, g in zip(found, garments, strict=True)]
    stock = stock_of(balls, (lot for lots in asked for lot in lots))
    needs = [
        Need(garment.amount, garment.unit, lots_asked_for(stock, lots))
        for garment, lots in zip(garments, asked, strict=True)
    ]
    allotment = allot(needs, stock, seconds)
    shelf = Shelf(stock, allotment.draws)
    covers = (
        _Fitting(number, garment, needs[number], shelf).cover(found[number])
        for number, garment in enumerate(garments)
    )
    return Plan(tuple(covers), allotment.unproven)


# What is asked for


def exactly_named(lots: Sequence[Lot], wanted: Query) -> list[Lot]:
    """Those of ``lots`` that bear the very names asked for, where there are any: ``Kelp``
    means ``Dark Kelp`` only where nothing is called ``Kelp``."""
    chosen = list(lots)
    for column, text in (("maker", wanted.maker), ("shade", wanted.shade)):
        same = [lot for lot in chosen if name_key(getattr(lot.name, column)) == name_key(text)]
        chosen = same if text and same else chosen
    return chosen


def stock_of(balls: Catalogue, lots: Iterable[Lot]) -> list[Yarn]:
    """The yarns that the balls of ``lots`` are of."""
    ids = {ball.record.id for lot in lots for ball in lot.balls}
    return yarns(balls.lots(balls.column("id").among(sorted(ids))))


def lots_asked_for(stock: Sequence[Yarn], lots: Iterable[Lot]) -> dict[int, frozenset[int]]:
    """Where ``lots`` stand in ``stock``: numbers of lots by the number of their yarn."""
    ids = {ball.record.id for lot in lots for ball in lot.balls}
    asked = {
        number: frozenset(
            at
            for at, piled in enumerate(yarn.lots)
            if any(ball.record.id in ids for ball in piled.lot.balls)
        )
        for number, yarn in enumerate(stock)
    }
    return {number: numbers for number, numbers in asked.items() if numbers}


# What becomes of a garment


@dataclass(frozen=True, slots=True)
class _Fitting:
    """One garment, the ``number``-th, before the shelf."""

    number: int
    garment: Garment
    need: Need
    shelf: Shelf

    def cover(self, found: Found) -> Cover:
        """How the garment fares; ``found`` is what its words mean."""
        numbers = self._yarn()
        taken_as = tuple(_taken_as(found))
        if numbers is None:
            return Cover(self.garment, None, (), "no ball in the stash fits", None, (), taken_as)
        yarn = self.shelf.stock[numbers]
        parts = self._parts()
        free = self._free(numbers)
        buy = None if len(parts) == 1 else purchase(self.garment, yarn, free)
        return Cover(
            self.garment,
            yarn,
            parts,
            self._why(parts) if parts else self._why_not(free),
            buy,
            tuple({ball.record.id: ball for ball in self._uncounted()}.values()),
            (*taken_as, *self._notes(yarn, parts)),
        )

    def _parts(self) -> tuple[Part, ...]:
        lots = dict.fromkeys((p.yarn, p.lot) for p in self.shelf.draws.get(self.number, {}))
        unit = self.garment.unit
        takes = {lot: self.shelf.takes(self.number, *lot, unit) for lot in lots}
        amounts = {lot: sum(take.amount for take in taken) for lot, taken in takes.items()}
        ordered = sorted(lots, key=lambda lot: -amounts[lot])
        uses = places_for([amounts[lot] for lot in ordered])
        return tuple(
            Part(
                self.shelf.lot(*lot).lot,
                takes[lot],
                amounts[lot],
                self.shelf.left(*lot, unit),
                use,
            )
            for lot, use in zip(ordered, uses, strict=True)
        )

    def _yarn(self) -> int | None:
        """The number of the yarn that the garment is made of, or else comes nearest."""
        drawn = self.shelf.draws.get(self.number)
        if drawn:
            return next(iter(drawn)).yarn
        free = {yarn: sum(left for _, left in self._free(yarn)) for yarn in self.need.lots}
        return max(free, key=lambda yarn: free[yarn], default=None)

    def _free(self, yarn: int) -> list[tuple[str, float]]:
        """What the garment may have of each lot of a yarn: what it takes and what no other
        garment does."""
        unit = self.garment.unit
        return [
            (
                self.shelf.lot(yarn, lot).lot.lot,
                self.shelf.left(yarn, lot, unit)
                + sum(take.amount for take in self.shelf.takes(self.number, yarn, lot, unit)),
            )
            for lot in sorted(self.need.lots[yarn])
        ]

    def _lots(self) -> Iterator[PiledLot]:
        """All lots that are asked for."""
        for yarn, numbers in self.need.lots.items():
            yield from (self.shelf.lot(yarn, lot) for lot in sorted(numbers))

    def _why(self, parts: Sequence[Part]) -> str:
        enough = sum(lot.total(self.need.unit) >= self.need.amount * ENOUGH for lot in self._lots())
        if len(parts) > 1:
            alone = "other garments take the rest" if enough else "no lot is enough by itself"
            return f"{alone}; {len(parts)} lots are the fewest"
        if enough == 1:
            return "the only lot that is enough by itself"
        place = next(iter(self.shelf.draws[self.number]))
        broken = _count(self.shelf.broken(place.yarn, place.lot), "whole ball")
        left = self.need.unit.told(parts[0].left)
        return f"of {enough} lots that are enough: {broken} broken into, {left} left in the lot"

    def _why_not(self, free: Sequence[tuple[str, float]]) -> str:
        lots = [left for _, left in free if left > 0]
        taken = any(number != self.number for number in self.shelf.draws)
        besides = ", besides what other garments take" if taken else ""
        amount = self.need.unit.told(sum(lots))
        return f"the stash has {amount} of it in {_count(len(lots), 'lot')}{besides}"

    def _uncounted(self) -> Iterator[Ball]:
        for lot in self._lots():
            for pile in lot.piles:
                if self.garment.unit not in pile.amounts:
                    yield from pile.balls

    def _notes(self, yarn: Yarn, parts: Sequence[Part]) -> Iterator[str]:
        names = {self.shelf.stock[number].name for number in self.need.lots}
        if len(names) > 1 and self.garment.wanted.shade:
            told_apart = "; ".join(sorted(f"{name.yarn} {name.text}" for name in names))
            yield (
                f"{len(names)} yarns go by {self.garment.wanted.shade!r} and are never counted "
                f"together: {told_apart}"
            )
        lots = [part.lot for part in parts] or [piled.lot for piled in yarn.lots]
        yield from lot_notes(lots)
        if len(parts) > 1:
            yield (
                "where two lots meet, alternate them every two rows so that the join does not "
                "show (common practice)"
            )


def places_for(amounts: Sequence[float]) -> list[str]:
    """Where in a garment each lot shows least; ``amounts`` begins with the main lot's.

    Common practice, no source: small odd lots go into ribs and cuffs, one larger into the
    sleeves; what is larger still is alternated with the main lot throughout.
    """
    if len(amounts) < 2:
        return [ALL_OF_IT for _ in amounts]
    whole = sum(amounts)
    in_ribs = 0.0
    places: list[str] = []
    for amount in reversed(amounts[1:]):
        if (in_ribs + amount) / whole <= RIBS_SHARE:
            in_ribs += amount
            places.append(RIBS)
        elif amount / whole <= SLEEVES_SHARE and SLEEVES not in places:
            places.append(SLEEVES)
        else:
            places.append(THROUGHOUT)
    return [MAIN_PART, *reversed(places)]


# What to look at again


def lot_notes(lots: Sequence[Lot]) -> Iterator[str]:
    """What to make sure of before ``lots`` of one yarn are knitted."""
    unknown = sum(not lot.lot for lot in lots)
    if unknown:
        yield f"{_count(unknown, 'ball')} without a lot: each counts as a lot of its own"
    name = lots[0].name
    if not name.maker:
        yield "no maker is printed: make sure that all balls are of one"
    if not (name.shade or name.shade_code):
        yield "neither shade nor code is printed: make sure that all balls are of one shade"
    for one, other in combinations(filter(None, (lot.lot for lot in lots)), 2):
        if near_lots(one, [other]):
            yield f"lots {one} and {other} are easily taken for each other: look at the tags again"
    for lot in lots:
        fibres = sorted({ball.record.fibre for ball in lot.balls if ball.record.fibre})
        if len(fibres) > 1:
            yield f"tags of lot {lot.lot} differ in fibre: {' / '.join(fibres)}; look again"


def _taken_as(found: Found) -> Iterator[str]:
    for text, names in found.taken_as.items():
        yield f"{text!r} is nowhere in the stash; taken for {' or '.join(map(repr, names))}"


def _count(number: int, noun: str) -> str:
    return f"{number or 'no'} {noun}{'' if number == 1 else 's'}"
