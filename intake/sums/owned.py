"""Do I own this lot?  A tag in a shop against the stash."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from intake.filing.judge import Doubt, judge
from intake.records import Field, TagReading
from intake.sums.catalogue import Catalogue
from intake.sums.lots import Lot, ShadeName, name_key
from intake.sums.terms import near_lots
from intake.wording import value_text

_NAMES = ("maker", "range", "shade", "shade_code")


class Verdict(StrEnum):
    """What the stash has of a tag in a shop."""

    THIS_LOT = "this lot"
    LOOK_AGAIN = "look again"
    """The tag is doubtful, or a lot that is owned is one easily confused letter away."""
    OTHER_LOTS = "other lots"
    """The shade is owned, in other lots only."""
    NOT_AT_ALL = "not at all"


@dataclass(frozen=True, slots=True)
class ShopTag:
    """A tag to ask about; text is empty where it was not read.  ``other_lots`` are other
    readings of the lot, ``doubts`` what is doubtful about the tag."""

    name: ShadeName
    lot: str
    other_lots: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()


@dataclass(frozen=True, slots=True)
class Owned:
    """What the stash has of a shop's tag.

    ``this_lot`` is the tag's lot as read, ``near`` lots of the shade that it may be a
    misreading of, ``other_lots`` the shade's others.  ``other_yarns`` bear the lot's
    number, but are of another shade or maker.
    """

    tag: ShopTag
    this_lot: tuple[Lot, ...]
    near: tuple[Lot, ...]
    other_lots: tuple[Lot, ...]
    other_yarns: tuple[Lot, ...]

    @property
    def verdict(self) -> Verdict:
        """The answer in a word."""
        if self._open_doubts or (self.near and not self.this_lot):
            return Verdict.LOOK_AGAIN
        if self.this_lot:
            return Verdict.THIS_LOT
        return Verdict.OTHER_LOTS if self.other_lots else Verdict.NOT_AT_ALL

    @property
    def _open_doubts(self) -> list[Doubt]:
        return [doubt for doubt in self.tag.doubts if not self._is_borne_out(doubt)]

    def _is_borne_out(self, doubt: Doubt) -> bool:
        """Whether the balls of the lot have one of the names that a doubt about the maker
        or the range lies between.  A shade or a lot is never settled so."""
        if doubt.field not in ("maker", "range") or not self.this_lot:
            return False
        readings = {name_key(text) for text in doubt.candidates}
        return all(name_key(getattr(lot.name, doubt.field)) in readings for lot in self.this_lot)


def shop_tag(reading: TagReading) -> ShopTag:
    """The tag that was read from a picture."""

    def read(name: str) -> Field:
        return reading.fields.get(name) or Field(name)

    def text(name: str) -> str:
        return value_text(name, read(name).value)

    asked = (*_NAMES, "lot")
    return ShopTag(
        ShadeName(*(text(name) for name in _NAMES)),
        text("lot"),
        tuple(other for other in read("lot").others if other != text("lot")),
        tuple(doubt for doubt in judge(reading) if doubt.field in asked),
    )


def owned(balls: Catalogue, tag: ShopTag) -> Owned:
    """What the stash has of ``tag``.  Nothing is asked and nothing is kept."""
    near = {*tag.other_lots, *(near_lots(tag.lot, balls.column("lot").texts) if tag.lot else ())}
    candidates = _candidates(balls, tag, near)
    doubted = {doubt.field for doubt in tag.doubts}
    firm = [column for column in _NAMES if column not in doubted]
    fitting = [lot for lot in candidates if _may_be(tag.name, lot.name, firm)]
    of_shade = [lot for lot in fitting if _is_of_shade(tag.name, lot.name)]
    return Owned(
        tag,
        this_lot=_with_lot(fitting, {tag.lot}),
        near=_with_lot(fitting, near - {tag.lot}),
        other_lots=tuple(lot for lot in of_shade if lot.lot not in {tag.lot, *near} or not lot.lot),
        other_yarns=_with_lot((lot for lot in candidates if lot not in fitting), {tag.lot}),
    )


def _candidates(balls: Catalogue, tag: ShopTag, near: set[str]) -> list[Lot]:
    """All lots that have the tag's lot or shade, or nearly."""
    rows = balls.column("lot").among([tag.lot, *near]) if tag.lot else balls.none()
    shade = name_key(tag.name.shade)
    if shade:
        rows |= balls.column("shade").where(lambda text: name_key(text) == shade)
    if tag.name.shade_code:
        rows |= balls.exactly("shade_code", tag.name.shade_code)
    return balls.lots(rows)


def _with_lot(lots: Iterable[Lot], wanted: set[str]) -> tuple[Lot, ...]:
    return tuple(lot for lot in lots if lot.lot and lot.lot in wanted)


def _may_be(tag: ShadeName, name: ShadeName, firm: Iterable[str]) -> bool:
    """Whether nothing firm that both print speaks against one shade."""
    return all(ours == theirs for ours, theirs in _both_print(tag, name, firm))


def _is_of_shade(tag: ShadeName, name: ShadeName) -> bool:
    """Whether a shade's name or code says that they are one."""
    return any(ours == theirs for ours, theirs in _both_print(tag, name, ("shade", "shade_code")))


def _both_print(tag: ShadeName, name: ShadeName, columns: Iterable[str]) -> list[tuple[str, str]]:
    """What both print, in the form that is compared."""
    pairs = []
    for column in columns:
        fold = str if column == "shade_code" else name_key
        ours, theirs = fold(getattr(tag, column)), fold(getattr(name, column))
        if ours and theirs:
            pairs.append((ours, theirs))
    return pairs
