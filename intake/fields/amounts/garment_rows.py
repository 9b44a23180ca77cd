"""Rows that tell how much yarn a garment takes, by whom it is for: "Baby  Child  Lady" above
"200 g  350 g  500 g" (common practice, no source).  They tell nothing of the ball."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from intake.fields.letters import Folded
from intake.records import Line

WHO = (
    r"(?:baby|babies|bebes?|layette|neonat[oi]|kind(?:er|eren)?|children|child|kids?|barn|born|enfants?"
    r"|bambin[oi]|nin[oa]s?|dam(?:e|en|er|es)?|lady|ladies|femmes?|donna|senoras?|mujer|women|woman"
    r"|herr(?:e|en|er)?|heren|hommes?|uomo|caballeros?|hombre|men|man|gents?)"
)
"""A word for whom something is knitted, folded."""

_FOR_WHOM = re.compile(rf"{WHO}(?:[ /|·,]+{WHO})*")
_ONE = re.compile(WHO)
_MASSES = re.compile(r"\d{2,4} ?gr?\.?(?:[ /|·,]+\d{2,4} ?gr?\.?)*")
_MASS = re.compile(r"\d{2,4} ?gr?(?![a-z])")

_FEWEST = 3
"""So many masses in a row, and words for whom in another, tell of garments."""


def without_garment_rows(lines: Sequence[Line]) -> list[Line]:
    """``lines``, empty those that are nothing but masses or words for whom they are, where a row
    has several of each."""
    texts = [Folded(line.text).text.strip(" .:") for line in lines]
    whom = [at for at, text in enumerate(texts) if _FOR_WHOM.fullmatch(text)]
    masses = [at for at, text in enumerate(texts) if _MASSES.fullmatch(text)]
    told = {at for at in masses if _in_row(lines, at, masses, texts, _MASS) >= _FEWEST}
    named = {at for at in whom if _in_row(lines, at, whom, texts, _ONE) >= _FEWEST}
    if not told or not named:
        return list(lines)
    empty = told | named
    return [
        replace(line, letters=(), agreed=(), others=(), readings=()) if at in empty else line
        for at, line in enumerate(lines)
    ]


def _in_row(
    lines: Sequence[Line], at: int, among: Sequence[int], texts: Sequence[str], one: re.Pattern[str]
) -> int:
    """How many of what ``one`` finds stand in the row of a line, in it and in those ``among``."""
    own = lines[at]
    return sum(
        len(one.findall(texts[other]))
        for other in among
        if abs(lines[other].centre[1] - own.centre[1]) < own.height_px / 2
    )
