"""Keeps a spreadsheet from taking text in a CSV file for something else.

A CSV file cannot say that ``-12``, ``00412`` or ``3-12`` is text, so a spreadsheet takes
them for a formula, a number and a date.  Such a cell gets an apostrophe before it, which
the import takes off again.
"""

from __future__ import annotations

import re

GUARD = "'"

_MONTHS = "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
_TAKEN = re.compile(
    rf"""'* (?:
      [=+\-@\t\r] .*                                                   # a formula
    | [$€£]? (?=\D*\d) [\d.,:/\ -]+ (?: %  | [$€£] | [ap]\.?m\.? )?    # a number, date, time
    | \d [\d.,]* e [+-]? \d+                                           # a power of ten
    | \d{{1,4}} [-/.\ ]? (?:{_MONTHS}) [a-z]* (?: [-/.\ ]* \d+ )?      # a day and month
    | (?:{_MONTHS}) [a-z]* [-/.\ ]* \d+ (?: [-/.,\ ]+ \d+ )?           # a month and year
    | true | false
    )""",
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)
"""What a spreadsheet takes for other than text, guarded already or not.  The months are the
English ones; what a spreadsheet in another language takes for a date is told by
:mod:`intake.exports.mangled` when it comes back."""


def guarded(text: str) -> str:
    """``text`` as a cell that a spreadsheet leaves alone."""
    return GUARD + text if _TAKEN.fullmatch(text) else text


def unguarded(cell: str) -> str:
    """The text that :func:`guarded` made ``cell`` of; other cells stay as they are."""
    bare = cell.removeprefix(GUARD)
    return bare if _TAKEN.fullmatch(bare) else cell
