"""A waiting tag as the review page shows it: what is asked, where it stands on the picture,
and what each reader saw there."""

from __future__ import annotations

import io
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import PIL.Image
from rapidfuzz.distance import Levenshtein, Opcode

from intake.filing.judge import Doubt, earlier_named, spoken
from intake.filing.queue import Waiting
from intake.filing.same import REPEAT
from intake.filing.sides import OTHER_SIDE, SIDE
from intake.pictures.keep import SPOILT
from intake.records import FIELDS, Field, Line, Quad, Span, TagReading
from intake.wording import value_text

Json = dict[str, Any]
"""What goes to the page: texts, numbers, lists and objects of them."""

_OF_TAG = {REPEAT: "Has this tag been here before?", SIDE: "Are these two sides of one tag?"}
"""What is asked about a tag as a whole, with the picture of an earlier one beside it."""

_LEVEL = (0.0, 1.0)
"""From where to where on a line a word stands that is the whole line."""


def tag_view(item: Waiting) -> Json:
    """All that the page needs to ask about one tag.

    Places are polygons in pixels of the tag's picture, clockwise from the top left as the
    text runs.
    """
    reading = item.reading
    width_px, height_px = _size_px(reading.jpeg)
    asked = {doubt.field for doubt in item.doubts}
    return {
        "id": item.id,
        "source": f"{Path(reading.picture).name}, page {reading.page}, tag {reading.tag}",
        "picture": reading.picture,
        "width_px": width_px,
        "height_px": height_px,
        "notes": list(reading.notes),
        "doubts": doubt_views(item.doubts, reading),
        "fields": [
            _field_view(reading.fields.get(name) or Field(name), reading)
            for name in FIELDS
            if name not in asked
        ],
        "lines": [{"text": line.text, "place": line.quad} for line in reading.lines],
    }


def doubt_views(doubts: Iterable[Doubt], reading: TagReading) -> list[Json]:
    """Each of ``doubts`` about ``reading`` with its place and the readers' readings."""
    return [_doubt_view(doubt, reading) for doubt in doubts]


def _doubt_view(doubt: Doubt, reading: TagReading) -> Json:
    field = reading.fields.get(doubt.field) or Field(doubt.field)
    is_of_tag = doubt.field in _OF_TAG
    return {
        **_field_view(field, reading),
        "question": _question(doubt.field),
        "reason": doubt.reason,
        "candidates": list(doubt.candidates),
        "only_candidates": is_of_tag,
        "joins": OTHER_SIDE if doubt.field == SIDE else "",
        "seen": [_seen(reading.lines[span.line], span) for span in _spans(field, reading)],
        "earlier": earlier_named(doubt.reason) if is_of_tag else "",
    }


def _question(name: str) -> str:
    return _OF_TAG.get(name) or f"What is the {spoken(name)}?"


def _field_view(field: Field, reading: TagReading) -> Json:
    return {
        "field": field.name,
        "spoken": spoken(field.name),
        "value": value_text(field.name, field.value),
        "state": field.state.value,
        "printed": field.line,
        "lines": sorted({span.line for span in _spans(field, reading)}),
        "places": [_place(reading.lines[span.line], span) for span in _spans(field, reading)],
    }


def _spans(field: Field, reading: TagReading) -> list[Span]:
    """The field's spans that lie on lines of the reading and hold a letter."""
    return [
        span
        for span in field.spans
        if span.line < len(reading.lines)
        and 0 <= span.start < min(span.end, len(reading.lines[span.line].letters))
    ]


def _stretch(line: Line, span: Span) -> tuple[float, float]:
    """From where to where the letters of ``span`` stand, 0 to 1 along the line."""
    letters = line.letters[span.start : span.end]
    return (letters[0].left, letters[-1].right) if letters else _LEVEL


def _place(line: Line, span: Span) -> Quad:
    """The part of the line's quad that the letters of ``span`` fill."""
    left, right = _stretch(line, span)
    top_left, top_right, bottom_right, bottom_left = line.quad
    return (
        _between(top_left, top_right, left),
        _between(top_left, top_right, right),
        _between(bottom_left, bottom_right, right),
        _between(bottom_left, bottom_right, left),
    )


def _between(
    one: tuple[float, float], other: tuple[float, float], share: float
) -> tuple[float, float]:
    return (
        round(one[0] + (other[0] - one[0]) * share, 1),
        round(one[1] + (other[1] - one[1]) * share, 1),
    )


def _seen(line: Line, span: Span) -> list[Json]:
    """What each reader saw where ``span`` stands: its letters there, those before and
    behind them on the line, and which of its letters another reader saw otherwise."""
    cut = [_cut(reading.text, line.text, span) for reading in line.readings]
    words = [word for _, word, _ in cut]
    return [
        {
            "reader": reading.reader,
            "before": before,
            "word": word,
            "after": after,
            "differs": _differing(word, words),
        }
        for reading, (before, word, after) in zip(line.readings, cut, strict=True)
    ]


def _cut(seen: str, merged: str, span: Span) -> tuple[str, str, str]:
    """``seen`` by one reader, cut where the letters of ``span`` begin and end in the
    ``merged`` text.  By the letters, for the readers place them too roughly."""
    steps = Levenshtein.opcodes(merged, seen)
    inside = [
        place
        for step in steps
        for place in range(step.dest_start, step.dest_end)
        if _is_inside(step.src_start + place - step.dest_start, step, span)
    ]
    if not inside:
        return seen, "", ""
    start, end = inside[0], inside[-1] + 1
    # Letters that only this reader saw belong to the word that they touch.
    extra = {
        place
        for step in steps
        if step.tag == "insert" and step.src_start in (span.start, span.end)
        for place in range(step.dest_start, step.dest_end)
    }
    while start - 1 in extra and seen[start - 1] != " ":
        start -= 1
    while end in extra and seen[end] != " ":
        end += 1
    return seen[:start], seen[start:end], seen[end:]


def _is_inside(place: int, step: Opcode, span: Span) -> bool:
    """Whether the letter that ``step`` puts at ``place`` of the merged text is of ``span``."""
    if step.tag == "insert":
        return span.start < step.src_start < span.end
    return span.start <= place < span.end


def _differing(word: str, words: Iterable[str]) -> list[int]:
    """The places in ``word`` whose letter is another one in any of ``words``."""
    return sorted(
        {
            place
            for other in words
            for step in Levenshtein.opcodes(word, other)
            if step.tag != "equal"
            for place in range(step.src_start, step.src_end)
        }
    )


def _size_px(jpeg: bytes) -> tuple[int, int]:
    """Width and height of the picture; 0 and 0 where someone took it away or spoilt it."""
    try:
        with PIL.Image.open(io.BytesIO(jpeg), formats=("JPEG",)) as picture:
            return picture.size
    except SPOILT:
        return 0, 0
