"""Makers and ranges that read nearly like known ones, which they may be misreadings of.

Both readers may lose the same last letter or take the same Å for an A.  A name that was never
met before and is a letter or so off one that was, is asked about, however sure it was; so is one
that has other accents.  A name is never put right by one that is merely near.
"""

from __future__ import annotations

from dataclasses import replace

from intake.records import Field, State, TagReading
from intake.shades.known import ShadeGroup
from intake.shades.names import KnownNames, asked
from intake.shades.spelling import key, same_marks

_LETTERS_A_SLIP = 10
"""A longer name may be off by one letter in so many, a shorter one by one."""


def with_near_names(reading: TagReading, known: KnownNames) -> TagReading:
    """``reading`` with a question about a sure maker or range that is new and near a known one:
    of the makers any, of the ranges those of the same maker."""
    maker, range_ = (reading.fields.get(name) or Field(name) for name in ("maker", "range"))
    found = (
        _asked_if_near(maker, known.makers),
        _asked_if_near(range_, known.ranges_of(str(maker.value or ""))),
    )
    if found == (maker, range_):
        return reading
    return replace(reading, fields={**reading.fields, "maker": found[0], "range": found[1]})


def _asked_if_near(field: Field, group: ShadeGroup | None) -> Field:
    if field.state is not State.SURE or not isinstance(field.value, str) or group is None:
        return field
    near = _near(field.value, group)
    if not near:
        return field
    return asked(field, near, f"reads '{field.value}': new, or a misreading of {' or '.join(near)}")


def _near(text: str, group: ShadeGroup) -> list[str]:
    """The known names that ``text`` may be a misreading of, nearest first; none where it is known
    itself."""
    same = group.same(text)
    if same:
        return [] if any(same_marks(one, text) for one in same) else list(same)
    most = max(1.0, len(key(text)) / _LETTERS_A_SLIP)
    return [one.shade for one in group.near(text) if one.cost <= most]
