"""Names that are left over: on a tag that has its shade's code elsewhere one may be the shade's
name, or the shade has none.  What it stands beside tells more than its letters.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from intake.fields.clutter import find_addresses, web_letters
from intake.fields.letters import Folded
from intake.fields.names.shade import LEFT
from intake.fields.names.trade_words import is_place
from intake.fields.pieces import Frame, frame_of
from intake.records import Field, Line, State
from intake.wording import value_text


def ask_for_names_left(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[str, Field]:
    """``fields`` with no shade's name, and a question, where one is nothing but left over on a
    tag that has the shade's code elsewhere: many shades have no name (8 of 63 such names were the
    shade's on drawn tags).  One that names a colour is kept, and asked about."""
    shade = fields["shade"]
    if not shade.cues.get(LEFT) or shade.cues.get("colour") or shade.state is State.SURE:
        return dict(fields)
    told = value_text("shade", shade.value)
    of_address = _is_of_address(shade, fields["maker"], lines) or _is_in_a_country(shade, lines)
    of_other = _is_label(shade, fields, lines) or not _is_alone(shade, lines)
    if told.islower() or of_address or of_other:  # or the end of a sentence
        return {**fields, "shade": Field("shade")}
    reason = f"'{told}' may be the name of the shade, of which the tag has the code, or it has none"
    if _is_on_axis(shade, fields["shade_code"], lines):
        return {**fields, "shade": replace(shade, reason=reason)}
    return {
        **fields,
        "shade": replace(shade, value=None, reason=reason, others=(told, *shade.others)),
    }


def _is_alone(name: Field, lines: Sequence[Line]) -> bool:
    """Whether ``name`` stands in a line of its own: of 30 names left over beside other words on
    drawn tags none was a shade's, of 52 in lines of their own 16 were."""
    return all(
        not re.search(
            r"\w", lines[span.line].text[: span.start] + lines[span.line].text[span.end :]
        )
        for span in name.spans
    )


_ON_AXIS = 0.3
_NEAR_CODE = 3.0


def _is_on_axis(name: Field, code: Field, lines: Sequence[Line]) -> bool:
    """Whether ``name`` stands right above or below the shade's code, both on one axis, in heights
    of their lines: 8 of 9 such names on drawn tags were the shade's."""
    if not name.spans or not code.spans:
        return False
    own, place = name.spans[0], code.spans[0]
    line = lines[place.line]
    one = frame_of(lines[own.line], own.start, own.end)
    others = (frame_of(line, place.start, place.end), frame_of(line, 0, len(line.letters)))
    return any(_are_on_axis(one, other) for other in others)


def _are_on_axis(one: Frame, other: Frame) -> bool:
    low_px, high_px = sorted((one.height_px, other.height_px))
    on_axis = one.off_axis_px(other) <= _ON_AXIS * high_px
    return on_axis and one.gap_px(other) <= _NEAR_CODE * max(1.0, low_px)


def _is_of_address(name: Field, maker: Field, lines: Sequence[Line]) -> bool:
    """Whether ``name`` stands behind the maker's in a line of an address, or in the line before it:
    "Schnuckenhof, Heidestraße" above "34, D-72940 Tiefensand"."""
    addressed = {one.line for one in find_addresses(lines)}
    maker_key = web_letters(Folded(str(maker.value or "")).text)
    return bool(maker_key) and any(
        addressed & {span.line, span.line + 1}
        and maker_key in web_letters(Folded(lines[span.line].text[: span.start]).text)
        for span in name.spans
    )


def _is_in_a_country(name: Field, lines: Sequence[Line]) -> bool:
    """Whether ``name`` ends with the name of a country, or nothing else stands behind it:
    "Bratthylla · Norge"."""
    behind = [lines[span.line].text[span.end :].strip(" ·•,|/–—-.") for span in name.spans]
    words = str(name.value).split()
    return any(is_place(text) for text in [*behind, *words[1:][-1:]])


_BESIDE = 6.0
"""A number stands at most so many heights behind what it is labelled with."""


def _is_label(name: Field, fields: Mapping[str, Field], lines: Sequence[Line]) -> bool:
    """Whether ``name`` labels a number that none of ``fields`` is: "Schoenmaat  36/37"."""
    told = {span.line for field in fields.values() for span in field.spans if field is not name}
    boxes = [frame_of(line, 0, len(line.letters)) for line in lines]
    for span in name.spans:
        own = boxes[span.line]
        for at, line in enumerate(lines):
            gap_px = boxes[at].left - own.right
            is_beside = boxes[at].shares_row(own) and -0.3 < gap_px / own.height_px < _BESIDE
            if at not in told and is_beside and line.text[:1].isdigit():
                return True
    return False
