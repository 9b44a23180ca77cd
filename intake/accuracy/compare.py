"""When a value counts as right.

- ``lot``, ``shade_code``, ``barcode``, ``weight_class``: letter for letter.
- other text (``shade``, ``maker``, ``range``, ``weight_printed`` ...): capitals and spaces
  may differ, accents may not.
- ``length_m``, ``mass_g``: within 0.5 %.
- ``fibre``: the same parts in any order, each with the same fibre, kind and percentage.
- ``care``: the same processes in any order.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Hashable
from enum import StrEnum

from intake.records import FibrePart, Value

EXACT_TEXT = frozenset({"lot", "shade_code", "barcode", "weight_class"})

NUMBER_TOLERANCE = 0.005
"""Share by which a number may be off: a length converted from rounded yards is right."""


class Verdict(StrEnum):
    """What became of one field of one tag."""

    RIGHT = "right"
    WRONG = "wrong"
    MISSING = "missing"
    """The tag carries it, and nothing was read."""
    INVENTED = "invented"
    """The tag does not carry it, and yet something was read."""
    ABSENT = "absent"
    """The tag does not carry it, and nothing was read."""

    @property
    def is_correct(self) -> bool:
        """Whether the field is as it should be."""
        return self in (Verdict.RIGHT, Verdict.ABSENT)

    @property
    def is_false(self) -> bool:
        """Whether something was read that is not so."""
        return self in (Verdict.WRONG, Verdict.INVENTED)


def verdict(name: str, read: Value, truth: Value) -> Verdict:
    """How ``read`` does as the field ``name`` of a tag that says ``truth``."""
    if truth is None:
        return Verdict.ABSENT if read is None else Verdict.INVENTED
    if read is None:
        return Verdict.MISSING
    return Verdict.RIGHT if same(name, read, truth) else Verdict.WRONG


def same(name: str, read: Value, truth: Value) -> bool:
    """Whether two values of the field ``name`` say the same."""
    if isinstance(read, float) and isinstance(truth, float):
        return abs(read - truth) <= NUMBER_TOLERANCE * abs(truth)
    return _comparable(name, read) == _comparable(name, truth)


def comparable_text(name: str, text: str) -> str:
    """``text`` without what may differ in a right value of the field ``name``: case, spaces and
    the form of an apostrophe."""
    if name in EXACT_TEXT:
        return text
    plain = unicodedata.normalize("NFC", text).replace("’", "'")
    return "".join(plain.casefold().split())


def _comparable(name: str, value: Value) -> Hashable:
    if isinstance(value, str):
        return comparable_text(name, value)
    if isinstance(value, tuple):
        return frozenset(_part(part) if isinstance(part, FibrePart) else part for part in value)
    return value


def _part(part: FibrePart) -> tuple[str, frozenset[str], float]:
    return part.fibre, frozenset(part.kind.split()), round(part.percent, 2)
