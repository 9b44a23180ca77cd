"""Text that a spreadsheet took for something else: a lot made a number, a power of ten or a
date."""

from __future__ import annotations

import math
import re

_SURE_DIGITS = 15
"""A spreadsheet's numbers are doubles, which keep so many digits (IEEE 754)."""

_POWER_OF_TEN = re.compile(r"[+-]?\d+(?:[.,]\d+)?E[+-]?\d+", re.IGNORECASE)

_MONTHS = (
    "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|"  # English
    "jän|mär|mai|okt|dez|"  # German
    "jan|fév|avr|mai|jui|aoû|déc|"  # French
    "gen|mag|giu|lug|ago|set|ott|dic|"  # Italian
    "ene|abr|may|dic|"  # Spanish
    "fev|abr|out|dez|"  # Portuguese
    "mrt|maa|mei|"  # Dutch
    "maj|okt|"  # Danish, Swedish, Norwegian
    "tam|hel|maa|huh|tou|kes|hei|elo|syy|lok|mar|jou|"  # Finnish
    "sty|lut|kwi|cze|lip|sie|wrz|paź|lis|gru"  # Polish
)
"""How the months' names begin, as Unicode CLDR has them."""

_MONTH = rf"(?:{_MONTHS})[^\W\d_]{{0,9}}\.?"
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
"""How spreadsheets write dates and times."""


def turned_into(known: str, text: str) -> str:
    """What ``text``, which stands where ``known`` was, looks turned into, as words; empty
    where someone may have typed it.  ``known`` is empty where nothing is known."""
    if text == known:
        return ""
    if _POWER_OF_TEN.fullmatch(text):
        return "a power of ten"
    if _same_number(known, text):
        return "a number"
    if _DATE.fullmatch(text) and any(letter.isdigit() for letter in known or "0"):
        return "a date"
    return ""


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
