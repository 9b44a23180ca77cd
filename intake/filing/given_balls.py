"""How many balls a tag stands for where the user says so: for a whole run, or in the name of
its picture, as in ``IMG_0412 x5.jpg``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from pathlib import PurePath

from intake.records import Field, State, TagReading
from intake.wording import number_text

_IN_NAME = re.compile(r"(?P<sign>[ _-])[x×](?P<balls>[1-9]\d?)$", re.IGNORECASE)
"""Not ``4x5`` or ``10x15``, which are sizes of pictures."""


def with_given_balls(
    reading: TagReading, for_run: int | None = None, *, name: str, is_alone: bool = True
) -> TagReading:
    """``reading`` with the number of balls that the user gave ``for_run``, or else in the
    ``name`` of its picture.  ``is_alone`` tells that the picture has no other tag.

    What was given is sure, unless the tag or the name says something else, the number stands
    in the name behind another sign than a space (programs that enlarge pictures write
    ``_x2``), or the picture has other tags: then it is asked about.
    """
    named = _IN_NAME.search(PurePath(name).stem)
    in_name = float(named["balls"]) if named else None
    given = in_name if for_run is None else float(for_run)
    if given is None:
        return reading
    read = reading.fields.get("balls") or Field("balls")
    numbers = _each(number for number in (given, in_name, read.value) if number)
    doubt = _doubt(named, is_alone) if named and for_run is None else ""
    if len(numbers) > 1:
        doubt = f"more than one number of balls was given or printed: {', '.join(numbers)}"
    field = replace(
        read,
        value=given,
        confidence=0.5 if doubt else 1.0,
        state=State.DOUBTFUL if doubt else State.SURE,
        others=tuple(_each((*numbers, *read.others, "1"))[1:]),
        reason=doubt,
        note="the number of balls was given",
    )
    return replace(reading, fields={**reading.fields, "balls": field})


def _doubt(named: re.Match[str], is_alone: bool) -> str:
    """Why a number in the name of a picture is asked about; empty where it is sure."""
    written = named[0].strip()
    if not is_alone:
        return f"the picture's name ends in {written}, and it has other tags: is this one meant?"
    if named["sign"] != " ":
        return f"the picture's name ends in {written}: a number of balls, or how it was enlarged?"
    return ""


def _each(numbers: Iterable[object]) -> list[str]:
    """Each number as text, once."""
    texts = (number_text(one) if isinstance(one, float) else str(one) for one in numbers)
    return list(dict.fromkeys(texts))
