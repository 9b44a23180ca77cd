"""What a symbol can look like, and what it stands for: care processes, or a weight class.

The looks of care symbols are those of ISO 3758:2012 (tub, triangle, square, iron, circle;
cross, bars, dots, numbers, letters, lines) with those of ASTM D5489 that older tags carry: dots
for the temperature of washing, ``Cl`` in the triangle, ``A`` in the circle.  Both are given
from memory of the published tables.  Beside them stands the skein with a number from 0 to 7 that
the Craft Yarn Council's Standard Yarn Weight System gives each weight class.

A look is told in four parts: its kind, whether it is crossed out, how many bars stand under
it, and whether a corner is marked for shade.  Processes are named as
:data:`~intake.fields.care.phrases.PROCESSES` names them, which for some looks says less than
the symbol does: mild and very mild are both ``mild``, and cleaning in P or F is ``dry clean``.
"""

from __future__ import annotations

from itertools import product
from typing import NamedTuple

from intake.fields.amounts.weight import CATEGORIES
from intake.fields.care.phrases import PROCESSES

BASES: dict[str, tuple[str, ...]] = {
    "none": ("none",),
    "tub": (
        "wash",
        "wash 30",
        "wash 40",
        "wash 50",
        "wash 60",
        "wash 70",
        "wash 95",
        "hand wash",
    ),
    "triangle": ("bleach", "oxygen bleach", "chlorine bleach"),
    "square": ("dry", "line dry", "drip line dry", "dry flat", "drip dry flat"),
    "dryer": ("tumble", "tumble low", "tumble normal", "tumble high"),
    "iron": ("iron", "iron low", "iron medium", "iron high"),
    "circle": ("clean", "clean P", "clean F", "clean A", "wet clean W"),
    "skein": tuple(f"weight {number}" for number in range(len(CATEGORIES))),
}
"""Kinds of look by the shape that they share; ``none`` is print that is no symbol."""

NO_CARE = frozenset({"none", "skein"})
"""Shapes that are no care symbols."""

KINDS = tuple(kind for kinds in BASES.values() for kind in kinds)
BASE_OF = {kind: base for base, kinds in BASES.items() for kind in kinds}

MOST_BARS = 2


class Look(NamedTuple):
    """One look of a symbol; ``bars`` are counted from 0 to :data:`MOST_BARS`."""

    kind: str
    crossed: bool = False
    bars: int = 0
    shade: bool = False


LOOKS = tuple(
    Look(kind, crossed, bars, shade)
    for kind, crossed, bars, shade in product(
        KINDS, (False, True), range(MOST_BARS + 1), (False, True)
    )
)
"""Every look, in the order in which the classifier's parts are multiplied out."""

NO_SYMBOL: tuple[str, ...] = ("no symbol",)
"""Stands in for the meaning where the print is no symbol."""

NAMELESS: tuple[str, ...] = ("nameless",)
"""Stands in for processes where a care symbol says something that no process names: a tub
without temperature, an iron without heat, a square crossed out."""

_CROSSED = {
    "tub": "do not wash",
    "triangle": "do not bleach",
    "dryer": "do not tumble dry",
    "iron": "do not iron",
    "circle": "do not dry clean",
}

_PLAIN = {
    "hand wash": "hand wash",
    "bleach": "any bleach",
    "chlorine bleach": "any bleach",
    "oxygen bleach": "oxygen bleach only",
    "line dry": "line dry",
    "drip line dry": "drip line dry",
    "dry flat": "dry flat",
    "drip dry flat": "dry flat",
    "tumble": "tumble dry",
    "tumble low": "tumble dry low",
    "tumble normal": "tumble dry",
    "tumble high": "tumble dry",
    "iron low": "iron low",
    "iron medium": "iron medium",
    "iron high": "iron high",
    "clean": "dry clean",
    "clean P": "dry clean",
    "clean F": "dry clean",
    "clean A": "dry clean",
    "wet clean W": "wet clean",
}


def meaning_of(look: Look) -> tuple[str, ...]:
    """What ``look`` stands for: its weight class or its care processes, or :data:`NO_SYMBOL`
    or :data:`NAMELESS`."""
    if BASE_OF[look.kind] == "skein":
        return (CATEGORIES[int(look.kind.split()[1])],)
    return processes_of(look)


def processes_of(look: Look) -> tuple[str, ...]:
    """The care processes that ``look`` stands for, or :data:`NO_SYMBOL` or :data:`NAMELESS`."""
    base = BASE_OF[look.kind]
    if base in NO_CARE:
        return NO_SYMBOL
    if look.crossed:
        if look.kind == "wet clean W":
            return ("do not wet clean",)
        return (_CROSSED[base],) if base in _CROSSED else NAMELESS
    if look.kind.startswith("wash"):
        process = f"machine {look.kind}" + (" mild" if look.bars else "")
        return (process,) if process in PROCESSES else NAMELESS
    shade = ("dry in shade",) if base == "square" and look.shade else ()
    named = (_PLAIN[look.kind],) if look.kind in _PLAIN else ()
    return named + shade or NAMELESS
