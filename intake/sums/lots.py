"""Which balls belong together: shades, their lots, and what is left of each.

A shade belongs to its maker and range: two makers' ``Kelp`` are two shades.  A lot belongs
to its shade: two shades' ``0012`` are two lots.  Names are compared by
:func:`intake.shades.spelling.key`, shade codes and lots letter by letter.  A ball whose lot
is not known is a lot of its own, for nothing says that two such balls match.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from intake.filing.record import Record
from intake.shades.spelling import key
from intake.sums.ball import Ball

name_key = lru_cache(maxsize=1 << 16)(key)
""":func:`intake.shades.spelling.key`, remembered: a stash has many balls and few names."""


@dataclass(frozen=True, slots=True)
class ShadeName:
    """A shade as its tags print it; empty text for what none of them prints."""

    maker: str
    range: str
    shade: str
    shade_code: str

    @property
    def yarn(self) -> str:
        """Maker and range in one text."""
        return " ".join(filter(None, (self.maker, self.range)))

    @property
    def text(self) -> str:
        """Shade and code in one text."""
        return " ".join(filter(None, (self.shade, self.shade_code)))


@dataclass(frozen=True, slots=True)
class Totals:
    """What some balls come to.

    ``balls`` is how many there are, and not of how many records they are.  ``left_m`` metres
    and ``left_g`` grams are left on those of which it is known; of ``unknown_m`` and
    ``unknown_g`` it is not.  ``assumed`` balls have metres or grams that stand on the maker
    sheet.
    """

    balls: int
    left_m: float
    left_g: float
    unknown_m: int
    unknown_g: int
    assumed: int


@dataclass(frozen=True)
class Lot:
    """The balls of one lot of one shade; ``lot`` is empty where it is not known."""

    name: ShadeName
    lot: str
    balls: tuple[Ball, ...]

    @cached_property
    def totals(self) -> Totals:
        """What the lot comes to."""
        return totals(self.balls)


@dataclass(frozen=True, slots=True)
class Shade:
    """All lots of one shade, those without a known lot last."""

    name: ShadeName
    lots: tuple[Lot, ...]

    @property
    def balls(self) -> tuple[Ball, ...]:
        """The balls of all its lots."""
        return tuple(ball for lot in self.lots for ball in lot.balls)

    @property
    def totals(self) -> Totals:
        """What the shade comes to."""
        return totals(self.balls)


def totals(balls: Sequence[Ball]) -> Totals:
    """What ``balls`` come to."""
    each = [one for ball in balls for one in ball.each()]
    metres = [left_m for ball in each if (left_m := ball.left_m) is not None]
    grams = [left_g for ball in each if (left_g := ball.left_g) is not None]
    stand_on_sheet = [one for one in each if one.assumed]
    return Totals(
        balls=len(each),
        left_m=sum(metres),
        left_g=sum(grams),
        unknown_m=len(each) - len(metres),
        unknown_g=len(each) - len(grams),
        assumed=sum(
            ball.is_assumed("length_m") or ball.is_assumed("mass_g") for ball in stand_on_sheet
        ),
    )


def shades(balls: Iterable[Ball], identities: Identities | None = None) -> list[Shade]:
    """The shades of ``balls`` with their lots, by maker, range, shade and code.

    ``identities`` are those of all the tags where ``balls`` are some of a stash; else
    those of ``balls``.
    """
    balls = list(balls)
    identities = identities or Identities(printed(ball.record) for ball in balls)
    by_shade: defaultdict[Identity, list[Ball]] = defaultdict(list)
    for ball in balls:
        by_shade[identities.of(ball.record)].append(ball)
    return [_shade(by_shade[identity]) for identity in sorted(by_shade)]


def lots(balls: Iterable[Ball], identities: Identities | None = None) -> list[Lot]:
    """The lots of ``balls``, by shade; see :func:`shades`."""
    return [lot for shade in shades(balls, identities) for lot in shade.lots]


def lot_mates(balls: Iterable[Ball], record_id: str) -> tuple[Ball, ...]:
    """The other balls of the lot that a record is of."""
    mine = next(
        (lot.balls for lot in lots(balls) if any(b.record.id == record_id for b in lot.balls)), ()
    )
    return tuple(ball for ball in mine if ball.record.id != record_id)


def short_lots(among: Iterable[Lot], garment_m: float) -> list[Lot]:
    """Those lots that are not known to hold the ``garment_m`` metres of a garment.
    One with balls of unknown length may hold them all the same."""
    return [lot for lot in among if lot.totals.left_m < garment_m]


Identity = tuple[str, str, str, str]
"""Keys of maker, range and shade, and the shade code: what makes two shades one."""


class Identities:
    """Which shade each tag is of; ``tags`` gives maker, range, shade and code of each.

    Tags of one shade print its name, its code or both.  One that prints only the name is
    of the shade with a code if the maker's range has just one such code among the
    tags, and the other way round; else it is a shade of its own.
    """

    def __init__(self, tags: Iterable[Identity]) -> None:
        self._codes: defaultdict[tuple[str, str, str], set[str]] = defaultdict(set)
        self._shades: defaultdict[tuple[str, str, str], set[str]] = defaultdict(set)
        for maker, range_, shade, code in map(_keys, tags):
            if shade and code:
                self._codes[maker, range_, shade].add(code)
                self._shades[maker, range_, code].add(shade)

    def of(self, record: Record) -> Identity:
        """The identity of a record's shade."""
        maker, range_, shade, code = _keys(printed(record))
        if shade and not code:
            code = _only(self._codes.get((maker, range_, shade)))
        elif code and not shade:
            shade = _only(self._shades.get((maker, range_, code)))
        return maker, range_, shade, code


def printed(record: Record) -> Identity:
    """What a record's tag prints of its shade."""
    return record.maker, record.range, record.shade, record.shade_code


def _keys(tag: Identity) -> Identity:
    maker, range_, shade, code = tag
    return name_key(maker), name_key(range_), name_key(shade), code


def _only(texts: set[str] | None) -> str:
    return next(iter(texts)) if texts is not None and len(texts) == 1 else ""


def _shade(balls: Sequence[Ball]) -> Shade:
    """The shade of ``balls``, which are all of one."""
    records = [ball.record for ball in balls]
    name = ShadeName(
        *(_first(getattr(record, column) for record in records) for column in ShadeName.__slots__)
    )
    by_lot: defaultdict[str, list[Ball]] = defaultdict(list)
    for ball in balls:
        by_lot[ball.record.lot].append(ball)
    unknown = [Lot(name, "", (ball,)) for ball in by_lot.pop("", ())]
    known = [Lot(name, lot, tuple(by_lot[lot])) for lot in sorted(by_lot)]
    return Shade(name, (*known, *unknown))


def _first(texts: Iterable[str]) -> str:
    return next(filter(None, texts), "")
