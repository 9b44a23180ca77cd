"""Whether two tags say the same, as far as both say anything.

Of one tag two pictures seldom give all the same fields: what only one of them shows speaks
neither for one tag nor against.
"""

from __future__ import annotations

from dataclasses import dataclass
from sys import intern

from rapidfuzz import fuzz

from intake.filing.record import Record

_ONE_NAME = 80.0
"""Names of makers and ranges from this likeness on (0 to 100) may be one, read otherwise; to
take two for one costs a question."""


@dataclass(frozen=True, slots=True)
class Told:
    """What a tag says of its ball; empty or ``None`` where it does not."""

    maker: str
    range: str
    shade: str
    shade_code: str
    lot: str
    length_m: float | None
    mass_g: float | None


_COMPARED = ("maker", "range", "shade", "shade_code", "lot", "length_m", "mass_g")


def told(record: Record) -> Told:
    """What ``record`` says, in small letters but for its lot and codes."""
    return Told(
        maker=intern(record.maker.casefold()),
        range=intern(record.range.casefold()),
        shade=intern(record.shade.casefold()),
        shade_code=intern(record.shade_code.casefold()),
        lot=intern(record.lot),
        length_m=record.length_m,
        mass_g=record.mass_g,
    )


def one_lot(one: Told, other: Told) -> bool:
    """Whether both name the same lot and the same shade, and nothing speaks against."""
    shades = ((one.shade, other.shade), (one.shade_code, other.shade_code))
    named = any(here and here == there for here, there in shades)
    return bool(one.lot) and one.lot == other.lot and named and not contradictions(one, other)


def contradictions(one: Told, other: Told) -> tuple[str, ...]:
    """The fields of which the two say different things."""
    return tuple(name for name in _COMPARED if _differ(name, one, other))


def _differ(name: str, one: Told, other: Told) -> bool:
    here, there = getattr(one, name), getattr(other, name)
    if not here or not there or here == there:
        return False
    if name in ("maker", "range"):
        return fuzz.ratio(here, there) < _ONE_NAME
    return True
