"""Whether a tag may be filed, and what is to be asked if not."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from intake.records import FIELDS, Field, State, TagReading
from intake.wording import value_text

ALWAYS_ASKED = ("lot", "shade")
"""What a tag without is not filed unasked: it is rarer than a lot that went unseen."""

_SPOKEN = {
    "weight_class": "weight class",
    "weight_printed": "weight in the tag's words",
    "shade_code": "shade code",
    "fibre": "fibre composition",
    "length_m": "length in metres",
    "mass_g": "mass in grams",
    "care": "care processes",
    "balls": "number of balls",
    "needle_mm": "needle size in mm",
    "stitches_per_10cm": "stitches in 10 cm",
    "rows_per_10cm": "rows in 10 cm",
}


@dataclass(frozen=True, slots=True)
class Doubt:
    """One question to the user.

    ``field`` is a field's name (or :data:`intake.filing.same.REPEAT`, for the tag as a
    whole), ``reason`` says in words why it is asked, ``candidates`` are the answers
    that are likely, best first; the first is the value as read, if there is one.
    """

    field: str
    reason: str
    candidates: tuple[str, ...] = ()


_RECORD = re.compile(r"\bt[0-9a-f]{15}\b")


def earlier_named(reason: str) -> str:
    """The id of the earlier tag that the reason of a doubt names; empty where it names none."""
    found = _RECORD.search(reason)
    return found[0] if found else ""


def spoken(name: str) -> str:
    """A field's name in words, with its unit."""
    return _SPOKEN.get(name, name)


def judge(reading: TagReading) -> list[Doubt]:
    """What keeps ``reading`` from being filed; nothing where it may be."""
    doubts = [
        Doubt(name, field.reason or f"the {spoken(name)} is not sure", _candidates(field))
        for name in FIELDS
        if (field := reading.fields.get(name)) is not None and field.state is State.DOUBTFUL
    ]
    doubts += [
        Doubt(
            name,
            f"{_why_missing(reading, name)}; type it, or leave it empty if the tag has none",
            _candidates(reading.fields.get(name) or Field(name)),
        )
        for name in FIELDS
        if _is_missed(reading, name)
    ]
    return doubts


def one_per_field(doubts: Iterable[Doubt]) -> list[Doubt]:
    """The same doubts with those about one field joined into one, in first order."""
    joined: dict[str, Doubt] = {}
    for doubt in doubts:
        before = joined.get(doubt.field)
        if before is not None:
            reasons = dict.fromkeys((before.reason, doubt.reason))
            candidates = dict.fromkeys((*before.candidates, *doubt.candidates))
            doubt = Doubt(doubt.field, "; ".join(reasons), tuple(candidates))
        joined[doubt.field] = doubt
    return list(joined.values())


def _is_missed(reading: TagReading, name: str) -> bool:
    """Whether a field was not found though the tag may well carry it: one that nearly
    every tag carries, or one that the reading gives a reason to look for."""
    if name == "shade":  # either the name or the code tells the shade
        return all(_state(reading, each) is State.MISSING for each in ("shade", "shade_code"))
    field = reading.fields.get(name)
    has_reason = field is not None and bool(field.reason)
    expected = name in ALWAYS_ASKED or (has_reason and name != "shade_code")
    return expected and _state(reading, name) is State.MISSING


def _why_missing(reading: TagReading, name: str) -> str:
    field = reading.fields.get(name)
    return field.reason if field is not None and field.reason else f"no {spoken(name)} was found"


def _state(reading: TagReading, name: str) -> State:
    field = reading.fields.get(name)
    return State.MISSING if field is None else field.state


def _candidates(field: Field) -> tuple[str, ...]:
    texts = (value_text(field.name, field.value), *field.others)
    return tuple(dict.fromkeys(text for text in texts if text))
