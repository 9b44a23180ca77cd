"""The care processes of ISO 3758:2012 as limits that can be compared.

Each process sets limits, a number for each aspect of its subject (how hot, how rough),
the smaller the milder.  What two yarns both bear is the smaller number of each pair, so
60 °C mild and 40 °C normal make 40 °C mild, which neither tag prints.

The standard lists the processes and calls some of them mild; it does not say which of two
is the gentler where they differ in kind.  These orders are decided here:

- A hand wash is gentler handling than any programme of a machine, yet may be warmer than
  one at 30 °C.  Both limits then hold: by hand, at most 30 °C.
- P is rougher than F, for P allows the solvents of F and others as well.
- Flat is gentler than hung, for wet knitting stretches by its own weight; dripping is
  gentler than wrung or spun (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from enum import StrEnum

Limits = tuple[int, ...]
"""A number for each aspect of a subject; all 0 where the process is forbidden."""


class Subject(StrEnum):
    """What a process is about.  Professional care is two: a yarn may bear one alone."""

    WASHING = "washing"
    BLEACHING = "bleaching"
    TUMBLE_DRYING = "tumble drying"
    NATURAL_DRYING = "natural drying"
    IRONING = "ironing"
    DRY_CLEANING = "dry cleaning"
    WET_CLEANING = "wet cleaning"

    @property
    def group(self) -> str:
        """The standard's group of processes."""
        professional = self in (Subject.DRY_CLEANING, Subject.WET_CLEANING)
        return "professional care" if professional else self.value


ASPECTS: Mapping[Subject, tuple[str, ...]] = {
    Subject.WASHING: ("temperature", "handling"),
    Subject.BLEACHING: ("bleach",),
    Subject.TUMBLE_DRYING: ("heat",),
    Subject.NATURAL_DRYING: ("position", "wringing", "light"),
    Subject.IRONING: ("heat",),
    Subject.DRY_CLEANING: ("solvent", "handling"),
    Subject.WET_CLEANING: ("handling",),
}
"""What each number of a subject's limits is about."""

BY_HAND, VERY_MILD, MILD, NORMAL = 1, 2, 3, 4
FLAT, HUNG = 0, 1
DRIPPING, WRUNG = 0, 1
IN_SHADE, IN_SUN = 0, 1
F, P = 1, 2
UNSAID = 9
"""Of a shade alone: it says neither how the yarn lies nor whether it is wrung."""

STANDARD: Mapping[Subject, Mapping[str, Limits]] = {
    Subject.WASHING: {
        "max 95 C, normal": (95, NORMAL),
        "max 70 C, normal": (70, NORMAL),
        "max 60 C, normal": (60, NORMAL),
        "max 60 C, mild": (60, MILD),
        "max 50 C, normal": (50, NORMAL),
        "max 50 C, mild": (50, MILD),
        "max 40 C, normal": (40, NORMAL),
        "max 40 C, mild": (40, MILD),
        "max 40 C, very mild": (40, VERY_MILD),
        "max 30 C, normal": (30, NORMAL),
        "max 30 C, mild": (30, MILD),
        "max 30 C, very mild": (30, VERY_MILD),
        "wash by hand, max 40 C": (40, BY_HAND),
        "do not wash": (0, 0),
    },
    Subject.BLEACHING: {
        "any bleach": (2,),
        "oxygen bleach only": (1,),
        "do not bleach": (0,),
    },
    Subject.TUMBLE_DRYING: {
        "normal, exhaust max 80 C": (80,),
        "low, exhaust max 60 C": (60,),
        "do not tumble dry": (0,),
    },
    Subject.NATURAL_DRYING: {
        "line dry": (HUNG, WRUNG, IN_SUN),
        "drip line dry": (HUNG, DRIPPING, IN_SUN),
        "dry flat": (FLAT, WRUNG, IN_SUN),
        "drip dry flat": (FLAT, DRIPPING, IN_SUN),
        "in the shade (added to any of the four)": (UNSAID, UNSAID, IN_SHADE),
    },
    Subject.IRONING: {
        "max 200 C": (200,),
        "max 150 C": (150,),
        "max 110 C": (110,),
        "do not iron": (0,),
    },
    Subject.DRY_CLEANING: {
        "dry clean P, normal": (P, NORMAL),
        "dry clean P, mild": (P, MILD),
        "dry clean F, normal": (F, NORMAL),
        "dry clean F, mild": (F, MILD),
        "do not dry clean": (0, 0),
    },
    Subject.WET_CLEANING: {
        "wet clean W, normal": (NORMAL,),
        "wet clean W, mild": (MILD,),
        "wet clean W, very mild": (VERY_MILD,),
        "do not wet clean": (0,),
    },
}
"""The processes of ISO 3758:2012, as listed publicly, with their limits."""

KEPT_AS: Mapping[str, str] = {
    "hand wash": "wash by hand, max 40 C",
    **{f"machine wash {celsius}": f"max {celsius} C, normal" for celsius in (30, 40, 60, 95)},
    **{f"machine wash {celsius} mild": f"max {celsius} C, very mild" for celsius in (30, 40)},
    "machine wash 60 mild": "max 60 C, mild",
    "tumble dry": "low, exhaust max 60 C",
    "tumble dry low": "low, exhaust max 60 C",
    "dry in shade": "in the shade (added to any of the four)",
    "iron high": "max 200 C",
    "iron medium": "max 150 C",
    "iron low": "max 110 C",
    "dry clean": "dry clean F, mild",
    "wet clean": "wet clean W, very mild",
}
"""Processes as the stash keeps them where its name is not the standard's."""

_HOW_MILD = "mild and very mild are kept alike; very mild is meant here, the gentlest"

GRADES_UNSAID: Mapping[str, str] = {
    "machine wash 30 mild": _HOW_MILD,
    "machine wash 40 mild": _HOW_MILD,
    "tumble dry": "the heat is not kept; low is meant here, the gentlest",
    "dry clean": "the solvent is not kept; F, mild, is meant here, the gentlest",
    "wet clean": "the grade is not kept; very mild is meant here, the gentlest",
}
"""Kept processes that leave open how rough they are, with how they are taken."""

_BY_NAME = {
    name: (subject, limits)
    for subject, processes in STANDARD.items()
    for name, limits in processes.items()
}
_BY_LIMITS = {
    (subject, limits): name
    for subject, processes in STANDARD.items()
    for name, limits in processes.items()
}


def limits_of(process: str) -> tuple[Subject, Limits]:
    """Subject and limits of a process, under the standard's name or the stash's.  Raises
    ``KeyError`` where it is neither."""
    return _BY_NAME[KEPT_AS.get(process, process)]


def process_name(subject: Subject, limits: Limits) -> str:
    """The standard's words for ``limits``; for some that it has no process for, the words
    of those that make them up."""
    if subject is Subject.WASHING and limits == (30, BY_HAND):
        return "wash by hand, max 30 C"
    if subject is Subject.NATURAL_DRYING and limits[-1] == IN_SHADE:
        place, water, _ = limits
        how = _BY_LIMITS.get((subject, (place, water, IN_SUN)), "")
        return f"{how}, in the shade" if how else "in the shade"
    return _BY_LIMITS[subject, limits]


def both(one: Limits, other: Limits) -> Limits:
    """What a yarn that bears ``one`` and a yarn that bears ``other`` both bear."""
    return tuple(map(min, one, other))


def loosest(choices: Iterable[Limits]) -> list[Limits]:
    """Those of ``choices`` that allow something that no other does, in their order."""
    kept = list(dict.fromkeys(choices))
    return [one for one in kept if not any(one != two and both(one, two) == one for two in kept)]
