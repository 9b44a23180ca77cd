"""What stands before the number of a measure: a word that announces it, its own thousands, or the
lesser of two numbers that it lies between.

Common practice, no source; all are folded.
"""

from __future__ import annotations

import re

from intake.fields.amounts.units import GRAMS

CAPTION = re.compile(
    r"(?:ll|\w*lange|length|meterage|yardage|metrage|longueur|long|lunghezza|metraggio|lungh"
    r"|longitud|metraje|largo|\w*lengte|\w*langd|\w*lengde|\w*laengde"
    r"|(?<![a-z])met(?:ers?|res?|ri|ros))"
    r"\W{0,3}(?:ca|approx|env|circa|aprox)?\W{0,3}$"
)


_OPENS_LENGTH = re.compile(
    rf"(?:^|\n|\d\s?(?:{GRAMS})\.?|[=/(:~≈±+|·–-]|(?<![a-z])(?:ca|cca|circa|cirka"
    r"|approx\w*|aprox\w*"
    r"|env|environ|etwa|ungefahr|rund|about|around|ongeveer|ong|omkring|omtrent|omtrentlig|ungefar"
    r"|om ?lag|omkr|min|minst|mind|mindestens|minimum|max|totalt?|unos|alrededor de)"
    r"[.:]?)\s?$"
)
"""Before a length: the beginning of its line, a mass, a mark or a word for about."""

_NUMBER_OF_ITS_OWN = re.compile(
    r"(?<![a-z])(?:no|nr|num\w*|nummer|ref|art\w*|code|col\w*|colou?r|shade|couleur|coloris|teinte"
    r"|kleur\w*|farb\w*|farve?\w*|farge?\w*|lot\w*|lotto|partie|partij|parti\w*|partida|bain|bagno|bad\w*"
    r"|bano|dye\w*|nm|ne|tex|den)(?:\.| ?[:#№°])? ?$|[#№°] ?$"
)
"""Before a number that is told of by itself, and no thousands of the length behind it."""

_RANGE_BEFORE = re.compile(
    r"(?<![\w.,/-])(?P<least>[1-9]\d{1,3}) ?(?P<unit>m|mt|g|gr)?(?: ?(?:[–—]|-(?=$)) ?"
    r"| (?:to|til|till|bis|tot|a|al|hasta|jusqu'a) )$"
)
_RANGE_FACTOR = 2.0
"""A mass or length that a label gives as lying between two is at most so many times the lesser."""


def are_thousands(before: str, number: str) -> bool:
    """Whether a space within a ``number`` parts its thousands, "3 000 m", by what stands
    ``before``: another number may stand before a length, "Shade 12 125 m"."""
    told = _OPENS_LENGTH.search(before) or CAPTION.search(before)
    return told is not None or number.endswith(" 000")


def stands_alone(before: str) -> bool:
    """Whether the words ``before`` a number tell what it is, which is no thousands of the next."""
    return _NUMBER_OF_ITS_OWN.search(before) is not None


def least_before(before: str, amount: float, unit: str) -> float:
    """The lesser number ``before`` an ``amount`` that lies between two, "90-110 g"; else 0.  In
    "75 m - 100 g", whose ``unit`` is another, it does not."""
    found = _RANGE_BEFORE.search(before)
    if found and found["unit"] and found["unit"][0] != unit[0]:
        return 0.0
    least = float(found["least"]) if found else 0.0
    return least if least < amount <= _RANGE_FACTOR * least else 0.0
