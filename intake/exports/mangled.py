"""Text that a spreadsheet turned into something else on its way."""

from __future__ import annotations

import math
import re

from intake.exports.sheet_in import Held, SheetCell
from intake.filing.record import NUMBERS

_SURE_DIGITS = 15
"""A spreadsheet's numbers are doubles, which keep so many digits (IEEE 754)."""

_POWER_OF_TEN = re.compile(r"[+-]?\d+(?:[.,]\d+)?E[+-]?\d+", re.IGNORECASE)

_MONTH = r"[^\W\d_]{3,9}\.?"
_DATE = re.compile(
    rf"""
      \d{{4}}-\d{{1,2}}-\d{{1,2}} (?: [T\ ] .*)?
    | \d{{1,2}} [/.] \d{{1,2}} [/.] \d{{2}} (?: \d\d)? (?: \  .*)?
    | \d{{1,2}} [-.\ ]+ {_MONTH} (?: [-.\ ]* \d{{2,4}})?
    | {_MONTH} [-.\ ] \d{{1,4}}
    | \d{{1,2}}:\d\d (?: :\d\d)? (?: \ ?[AP]M)?
    """,
    re.VERBOSE | re.IGNORECASE,
)
"""How spreadsheets write dates and times, in any language's months."""


def mangling(column: str, known: str, cell: SheetCell) -> str:
    """Why ``cell`` cannot be taken for a value that someone typed into ``column``, as words
    about it; empty where it can.  ``known`` is the value that the stash holds."""
    if cell.held in (Held.FORMULA, Held.ERROR):
        return f"holds {cell.held} ({cell.text}); put its value there as text"
    if column in NUMBERS:
        wrong = cell.held in (Held.DATE, Held.TRUTH)
        return f"holds {cell.held} ({cell.text}), not a number" if wrong else ""
    if cell.text == known:
        return ""
    if cell.held in (Held.NUMBER, Held.DATE, Held.TRUTH):
        return f"was turned into {cell.held} ({cell.text}){_from(known)}; type it as text"
    return _looks_turned(known, cell.text)


def _looks_turned(known: str, text: str) -> str:
    """The same for a cell of text, which may have been a number in between."""
    if _POWER_OF_TEN.fullmatch(text):
        turned = "a power of ten"
    elif _same_number(known, text):
        turned = "a number"
    elif _DATE.fullmatch(text) and any(letter.isdigit() for letter in known or "0"):
        turned = "a date"
    else:
        return ""
    # Someone may mean it; then the record's own page is the place to say so.
    return (
        f"looks turned into {turned} ({text}){_from(known)}; "
        "if it is meant, correct the record in balltag itself"
    )


def _from(known: str) -> str:
    return f" from {known}" if known else ""


def _same_number(known: str, text: str) -> bool:
    """Whether both are one number to a spreadsheet: ``00412`` and ``412``, or long digits
    of which the last were lost."""
    try:
        numbers = float(known), float(text)
    except ValueError:
        return False
    digits = max(len(known), len(text))
    slack = 10.0 ** (1 - _SURE_DIGITS) if digits > _SURE_DIGITS else 0.0
    return math.isclose(*numbers, rel_tol=slack, abs_tol=0.0)
