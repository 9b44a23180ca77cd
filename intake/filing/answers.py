"""What the user typed for a field, as its value."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import replace

from intake.errors import BalltagError, ExitCode, one_line, quoted
from intake.filing.judge import spoken
from intake.filing.record import AMOUNTS, MOST_BALLS, ball_count
from intake.records import FIELDS, FibrePart, Field, State, TagReading, Value
from intake.wording import fibre_parts, value_from_text, value_text

PERCENT_SLACK = 1.0
"""Printed percentages are rounded: 33, 33 and 33 are a whole."""


_TIMES = re.compile(r"^[x×]\s?(?=\d)|(?<=\d)\s?[x×]$", re.IGNORECASE)
"""What people write beside a number of balls: ``x5``, ``5×``."""


class BadAnswer(BalltagError, ValueError):
    """A typed value that the field cannot hold; ``str`` is one line for the user."""

    exit_code = ExitCode.USAGE


def answer_value(name: str, text: str) -> Value:
    """The value of field ``name`` that the user typed; ``None`` for an empty text, which
    says that the tag does not carry it (one ball, where it says no number).  Raises
    :class:`BadAnswer`."""
    if name not in FIELDS:
        raise BadAnswer(f"there is no field {name!r}; the fields are {', '.join(FIELDS)}")
    text = one_line(text).strip()
    if name == "balls":
        return _count(text)
    if not text:
        return None
    if name in AMOUNTS:
        return _number(name, text)
    if name == "fibre":
        return _composition(text)
    return value_from_text(name, text)


def answer_cell(name: str, text: str) -> str:
    """The cell text of what the user typed for column ``name`` of a record.  Raises
    :class:`BadAnswer`."""
    return value_text(name, answer_value(name, text))


def answered(reading: TagReading, answers: Mapping[str, str]) -> TagReading:
    """``reading`` with the fields in ``answers`` set to what the user said.  Raises
    :class:`BadAnswer`."""
    fields = dict(reading.fields)
    for name, text in answers.items():
        fields[name] = _answered_field(fields.get(name) or Field(name), answer_value(name, text))
    return replace(reading, fields=fields)


def _answered_field(read: Field, value: Value) -> Field:
    if value is None:
        return Field(read.name)
    if value == read.value:
        return replace(read, confidence=1.0, state=State.SURE, reason="")
    # What was read as printed belongs to the value that the user refused.
    return Field(read.name, value, 1.0, State.SURE, line=read.line, others=read.others)


def _count(text: str) -> float:
    try:
        return float(ball_count(_TIMES.sub("", text)))
    except ValueError as error:
        raise BadAnswer(
            f"{quoted(text)} is no {spoken('balls')}; type a whole number from 1 to {MOST_BALLS}"
        ) from error


def _number(name: str, text: str) -> float:
    try:
        number = float(text)
    except ValueError:
        number = math.nan
    if not (math.isfinite(number) and number > 0):
        raise BadAnswer(
            f"{quoted(text)} is no {spoken(name)}; type a number above 0 with a point, such as 87.5"
        )
    return number


def _composition(text: str) -> tuple[FibrePart, ...]:
    try:
        parts = fibre_parts(text)
    except ValueError as error:
        raise BadAnswer(str(error)) from error
    whole = sum(part.percent for part in parts)
    if abs(whole - 100) > PERCENT_SLACK or not all(part.percent > 0 for part in parts):
        raise BadAnswer(f"{quoted(text)} makes {whole:g}%, not 100%; give each fibre its share")
    return parts
