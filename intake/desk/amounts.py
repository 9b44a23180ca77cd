"""Metres, grams and counts as the pages write them."""

from __future__ import annotations

from intake.wording import number_text

_THIN = "\u202f"
"""The space within a number and before its unit; no line is broken at it."""

_EXACT_BELOW = 1000
"""Amounts below this are shown to a tenth, others to the whole."""


def amount(number: float, unit: str) -> str:
    """``number`` with its ``unit``, thousands apart: ``12 340 m``."""
    if abs(number) < _EXACT_BELOW:
        return f"{number_text(round(number, 1))}{_THIN}{unit}"
    return f"{number:,.0f}{_THIN}{unit}".replace(",", _THIN)


def count_of(count: int, thing: str) -> str:
    """``count`` things, one or more: ``1 ball``, ``12 340 balls``."""
    return f"{count:,} {thing}{'' if count == 1 else 's'}".replace(",", _THIN)
