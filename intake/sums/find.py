"""Finding balls: by words, shade, lot, maker, weight class, fibre and metres."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from intake.errors import BadQuery
from intake.sums.catalogue import Catalogue, Rows
from intake.sums.lots import Lot
from intake.sums.terms import (
    Meant,
    class_term,
    fibre_term,
    lot_term,
    maker_term,
    shade_term,
    word_term,
)


@dataclass(frozen=True, slots=True)
class Metres:
    """How many metres are wanted; both bounds belong to it."""

    least: float = 0.0
    most: float = math.inf


@dataclass(frozen=True, slots=True)
class Query:
    """What is looked for; all of it must hold, and empty terms hold for every ball.

    ``metres`` are those that are left in one lot of what is found.
    """

    words: tuple[str, ...] = ()
    shade: str = ""
    lot: str = ""
    maker: str = ""
    weight_class: str = ""
    fibre: str = ""
    metres: Metres | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """What was found.

    ``lots`` hold the balls that are meant.  ``near`` are those of a lot one easily
    confused letter away, to be looked at again; ``other_lots`` those that fit in all but
    the lot, where no ball fits in the lot too.  ``taken_as`` maps misspelt terms to the
    names they were taken for.  ``unmeasured`` lots were left out because it is not known
    whether they have the metres.
    """

    lots: tuple[Lot, ...]
    near: tuple[Lot, ...] = ()
    other_lots: tuple[Lot, ...] = ()
    taken_as: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    unmeasured: tuple[Lot, ...] = ()


def find(balls: Catalogue, query: Query) -> Found:
    """The balls that ``query`` means, by lot."""
    terms = [(text, term(balls, text)) for text, term in _terms(query)]
    lot = lot_term(balls, query.lot) if query.lot.strip() else None
    others = _all_of(balls, (meant.rows for _, meant in terms))
    rows = others if lot is None else others & lot.rows
    meant = [one for _, one in terms] + ([] if lot is None else [lot])
    found = balls.lots(rows)
    near = _near(balls, meant) & ~rows
    wanted = query.metres or Metres()
    return Found(
        lots=tuple(lot for lot in found if _has(lot, wanted)),
        near=tuple(balls.lots(near)),
        other_lots=tuple(balls.lots(others & ~near)) if lot and terms and not rows.any() else (),
        taken_as={text: one.taken_as for text, one in terms if one.taken_as},
        unmeasured=tuple(lot for lot in found if _may_have(lot, wanted)),
    )


def metres(text: str) -> Metres:
    """What ``200..400``, ``200..``, ``..400`` or ``200`` (at least) asks for.  Raises
    :class:`BadQuery`."""
    number = r"(\d+(?:\.\d+)?)?"
    match = re.fullmatch(rf"\s*{number}\s*(\.\.)?\s*{number}\s*m?\s*", text)
    if match is None or not (match[1] or match[3]):
        raise BadQuery(f"{text!r} asks for no metres; write 200.. or ..400 or 200..400")
    found = Metres(float(match[1] or 0), float(match[3] or math.inf))
    if found.least > found.most:
        raise BadQuery(f"{text!r} runs backwards; write the smaller number of metres first")
    return found


def _terms(query: Query) -> Iterator[tuple[str, Callable[[Catalogue, str], Meant]]]:
    """The terms that are not empty, but for the lot, with what finds them."""
    terms = (
        *((word, word_term) for word in query.words),
        (query.shade, shade_term),
        (query.maker, maker_term),
        (query.weight_class, class_term),
        (query.fibre, fibre_term),
    )
    return ((text, term) for text, term in terms if text.strip())


def _all_of(balls: Catalogue, terms: Iterable[Rows]) -> Rows:
    rows = balls.all()
    for term in terms:
        rows &= term
    return rows


def _near(balls: Catalogue, meant: Sequence[Meant]) -> Rows:
    """Balls that fit in all terms but one, and there have a near lot."""
    rows = balls.none()
    for one in meant:
        if one.near is not None:
            rest = (other.rows for other in meant if other is not one)
            rows |= _all_of(balls, (one.near, *rest))
    return rows


def _has(lot: Lot, wanted: Metres) -> bool:
    """Whether a lot is known to have the metres that are wanted."""
    if wanted == Metres():
        return True
    is_bounded = wanted.most < math.inf
    total = lot.totals
    return wanted.least <= total.left_m <= wanted.most and not (is_bounded and total.unknown_m)


def _may_have(lot: Lot, wanted: Metres) -> bool:
    """Whether only unknown metres keep a lot from having what is wanted."""
    total = lot.totals
    return bool(total.unknown_m) and total.left_m <= wanted.most and not _has(lot, wanted)
