"""Readings that were answered otherwise before, by field and maker."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from intake.records import TagReading
from intake.shades.spelling import key


class Slips:
    """What readers took names for: read ``Ke1p``, meant ``Kelp``."""

    def __init__(self) -> None:
        self._meant: defaultdict[tuple[str, str, str], dict[str, str]] = defaultdict(dict)

    def add(self, field: str, maker: str, read: str, meant: str) -> None:
        """Take in that ``read`` in ``field`` of a tag of ``maker`` meant ``meant``."""
        self._meant[(field, key(maker), key(read))][key(meant)] = meant

    def meant(self, field: str, maker: str, read: str) -> str:
        """What ``read`` was meant to be each time; empty where it never came or meant
        different names."""
        found = self._meant.get((field, key(maker), key(read)), {})
        return next(iter(found.values())) if len(found) == 1 else ""


def with_meant_shade(reading: TagReading, slips: Slips) -> TagReading:
    """``reading`` with a shade that was read so and answered otherwise before.

    Where the reading is no word at all, such as one with a digit among its letters, the
    shade is put right, and is as sure or doubtful as it was; else what it meant is the
    first candidate: ``Cool`` may once have been ``Coal`` and yet be a shade of its own.
    """
    field, maker = reading.fields.get("shade"), reading.fields.get("maker")
    if field is None or maker is None or not isinstance(field.value, str):
        return reading
    meant = slips.meant("shade", str(maker.value or ""), field.value)
    if not meant:
        return reading
    if is_no_word(field.value) and not is_no_word(meant):
        note = f"{field.value!r} was {meant} before"
        field = replace(
            field,
            value=meant,
            printed=field.printed or field.value,
            others=tuple(other for other in field.others if other != meant),
            note="; ".join(filter(None, (field.note, note))),
        )
    else:
        field = replace(field, others=tuple(dict.fromkeys((meant, *field.others))))
    return replace(reading, fields={**reading.fields, "shade": field})


def is_no_word(text: str) -> bool:
    """Whether a word of ``text`` has digits among its letters."""
    return any(
        any(sign.isdigit() for sign in word) and any(sign.isalpha() for sign in word)
        for word in text.split()
    )
