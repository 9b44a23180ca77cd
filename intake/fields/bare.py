"""Values that no caption announces, or nothing but their place: what the other fields of the tag
make of them.

A number may be the lot or the shade's code, a name the range or the shade, and where a line of
print went unseen what is left may be taken for what it said.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from statistics import median

from intake.fields.amounts.quantities import CONVERTED
from intake.fields.amounts.tension import prints_an_area
from intake.fields.chains import SHARED
from intake.fields.codes import leading_code
from intake.fields.letters import Folded
from intake.fields.names.colour_words import has_colour_word, is_only_colours
from intake.fields.pieces import frame_of
from intake.records import Field, Line, State
from intake.wording import value_text

PARTNER = {"length_m": "mass_g", "mass_g": "length_m"}
"""Amounts that a tag hardly prints one without the other of."""

_OF_THE_BALL = ("maker", "range", "fibre", "length_m", "mass_g")
"""What tells of a ball beside its shade and its lot."""

_DATE = re.compile(r"(?:[012]?\d|3[01])[./-](?:0?\d|1[0-2])[./-](?:20)?\d\d")

_COUNT = re.compile(r"\d{1,2}")
"""What may be the stitches or the rows of a swatch."""

_BESIDE_SWATCH = 5.0
"""Stitches and rows stand no further from the side of their swatch, in heights of a line."""

_OWN = {"lot": 0.86, "shade_code": 0.6}
"""Closeness from which on a lot or a shade's code surely is what its caption announces.  On 1,200
drawn tags two counts were taken for lots, at 0.5; a count takes the place of a lot more easily,
whose box is stamped later or not at all."""

_LARGE = 1.25
"""Ranges are set larger than this, in heights of a tag's usual line, where they are headings."""


def doubt_bare(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[str, Field]:
    """``fields``, read from ``lines``, with all doubts that are told here."""
    found = _doubt_lone_conversion(fields)
    found = _doubt_lot_without_shade(_doubt_bare_lot(_doubt_counts(found, lines)))
    found = _doubt_lot_beside_others(found, lines)
    found = _doubt_bare_code(_doubt_lone_codes(found))
    found = _doubt_name_beside_doubtful_code(found)
    found = _doubt_bare_range(_doubt_swapped_names(found), lines)
    return _doubt_scrap(found)


def _doubt_lone_conversion(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a length in yards or a mass in ounces alone on a tag of which the
    other of the two was not found: metres and grams may have gone unseen with it."""
    found = dict(fields)
    for name, partner in PARTNER.items():
        field = fields[name]
        converted = field.note.startswith(CONVERTED)
        if field.state is State.SURE and converted and fields[partner].value is None:
            told = value_text(name, field.value)
            reason = f"{told} is {field.note}: does the tag print metres or grams as well?"
            found[name] = replace(field, state=State.DOUBTFUL, reason=reason)
    return found


def _doubt_counts(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[str, Field]:
    """``fields`` with a doubt at a lot and a shade's code of one or two digits that stand apart
    from their captions and near a swatch: the box for the lot may be empty, and the number tells
    the stitches."""
    found = dict(fields)
    sides = [line for line in lines if prints_an_area(Folded(line.text).text)]
    for name, own in _OWN.items():
        field = fields[name]
        apart = field.cues.get("closeness", 0.0) < own
        if field.state is not State.SURE or not apart or not _COUNT.fullmatch(str(field.value)):
            continue
        near = next((side for side in sides if _is_beside(lines[field.spans[0].line], side)), None)
        if near is not None:
            reason = f"'{field.value}' may be the stitches or rows of the swatch '{near.text}'"
            found[name] = replace(field, state=State.DOUBTFUL, reason=reason)
    return found


def _is_beside(line: Line, side: Line) -> bool:
    """Whether ``line`` stands near the ``side`` of a swatch."""
    one, other = (frame_of(each, 0, len(each.text)) for each in (line, side))
    return one.gap_px(other) < _BESIDE_SWATCH * max(line.height_px, side.height_px)


def _doubt_bare_lot(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a lot without a caption where length, mass or shade was not made
    out for sure, for the number may be theirs; and on a tag that announces shade or range with
    captions, which hardly leaves the lot without one (none of 340 drawn tags)."""
    lot = fields["lot"]
    if lot.state is not State.SURE or lot.cues.get("caption"):
        return dict(fields)
    shown = any(fields[name].state is State.SURE for name in ("shade", "shade_code"))
    unsure = ["length"] * (fields["length_m"].state is not State.SURE)
    unsure += ["mass"] * (fields["mass_g"].state is not State.SURE)
    unsure += ["shade's code"] * (fields["shade_code"].state is State.DOUBTFUL)
    unsure += ["shade"] * (not shown)
    announced = any(fields[name].cues.get("caption") for name in ("shade", "shade_code", "range"))
    if not unsure and not announced:
        return dict(fields)
    reason = f"no caption says that '{lot.value}' is the lot, " + (
        f"and the {unsure[0]} is not certain" if unsure else "though the tag has captions"
    )
    return {**fields, "lot": replace(lot, state=State.DOUBTFUL, reason=reason)}


_SIZES = re.compile(r"(\d{1,2}(?:[.,](?:0|25|5|75))?)[/-](\d{1,2}(?:[.,](?:0|25|5|75))?)(?: ?mm)?")
_WIDEST_SIZES_MM = 2.0
_THICKEST_MM = 20.0


def _doubt_lot_beside_others(
    fields: Mapping[str, Field], lines: Sequence[Line]
) -> dict[str, Field]:
    """``fields`` with a doubt at a lot without a caption that is written as two sizes of needles
    are, "2.5/3", or beside another number that stands alone and is nothing else's."""
    lot = fields["lot"]
    if lot.state is not State.SURE or lot.cues.get("caption"):
        return dict(fields)
    claimed = {span.line for field in fields.values() for span in field.spans}
    others = [
        code.text
        for at, line in enumerate(lines)
        if at not in claimed and (code := leading_code(line.text.strip())) is not None
        if code.alone and len(code.text) > 1 and any(letter.isdigit() for letter in code.text)
    ]
    reason = f"no caption says that '{lot.value}' is the lot, "
    if _are_sizes(str(lot.value)):
        reason += "and it may be the size of the needles"
    elif others:
        reason += f"and '{others[0]}' may be it as well"
    else:
        return dict(fields)
    return {**fields, "lot": replace(lot, state=State.DOUBTFUL, reason=reason)}


def _are_sizes(text: str) -> bool:
    """Whether a text may be two sizes of needles in millimetres, the thicker behind."""
    match = _SIZES.fullmatch(text)
    if match is None:
        return False
    thin_mm, thick_mm = (float(size.replace(",", ".")) for size in match.groups())
    return thin_mm < thick_mm <= min(thin_mm + _WIDEST_SIZES_MM, _THICKEST_MM)


def _doubt_lot_without_shade(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a lot that stands apart from its caption on a tag of which no
    shade was found: it may be the shade's code."""
    lot = fields["lot"]
    found = any(fields[name].state is not State.MISSING for name in ("shade", "shade_code"))
    apart = 0 < lot.cues.get("closeness", 0.0) < SHARED
    if lot.state is not State.SURE or found or not apart:
        return dict(fields)
    reason = f"no shade was found: is '{lot.value}' its code, or the lot?"
    return {**fields, "lot": replace(lot, state=State.DOUBTFUL, reason=reason)}


def _doubt_lone_codes(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a lot and a shade's code of which neither has a caption, and the
    code neither a name in its own line nor a colour's beside it: they may have changed places, and
    the name beside the code be another's."""
    code, lot = fields["shade_code"], fields["lot"]
    both = code.state is State.SURE and lot.state is State.SURE
    told = any(one.cues.get("caption") for one in (code, lot))
    lines = {span.line for span in code.spans}
    name = fields["shade"]
    told = told or bool(name.cues.get("colour")) or any(one.line in lines for one in name.spans)
    if not both or told or code.cues.get("together", 0.0) >= 1:
        return dict(fields)
    reason = f"no caption says which of '{lot.value}' and '{code.value}' is the lot"
    return {
        **fields,
        "lot": replace(lot, state=State.DOUBTFUL, reason=reason),
        "shade_code": replace(code, state=State.DOUBTFUL, reason=reason),
        **_with_name_asked(fields, str(code.value)),
    }


def _with_name_asked(fields: Mapping[str, Field], code: str) -> dict[str, Field]:
    """The shade's name with a doubt where no caption announces it and its ``code`` may be none."""
    name = fields["shade"]
    if name.state is not State.SURE or name.value is None or name.cues.get("caption"):
        return {}
    told = f"'{value_text('shade', name.value)}' stands beside '{code}'"
    reason = f"{told}, which may be no shade's code"
    return {"shade": replace(name, state=State.DOUBTFUL, reason=reason)}


def _doubt_name_beside_doubtful_code(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a shade's name for which nothing speaks but the code near it,
    where that is asked about."""
    code, name = fields["shade_code"], fields["shade"]
    near = 0 < name.cues.get("together", 0.0) < 1 and not name.cues.get("colour")
    if code.state is not State.DOUBTFUL or code.value is None or not near:
        return dict(fields)
    return {**fields, **_with_name_asked(fields, str(code.value))}


def _doubt_bare_code(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a shade's code without a caption and apart from the shade's name,
    on a tag whose lot is asked about or was not found: it may be the lot; and at one without a
    caption that is a date: that of the dyeing, perhaps."""
    code, lot = fields["shade_code"], fields["lot"]
    told = code.cues.get("caption") or code.cues.get("together", 0.0) >= 1
    bare = code.state is State.SURE and not code.cues.get("caption")
    if bare and _DATE.fullmatch(str(code.value)):
        reason = f"'{code.value}' may be the shade's code or a date"
        return {**fields, "shade_code": replace(code, state=State.DOUBTFUL, reason=reason)}
    if code.state is not State.SURE or told or lot.state is State.SURE:
        return dict(fields)
    unsure = "the lot is not certain" if lot.value else "no lot was found"
    reason = f"no caption says that '{code.value}' is the shade's code, and {unsure}"
    return {
        **fields,
        "shade_code": replace(code, state=State.DOUBTFUL, reason=reason),
        **_with_name_asked(fields, str(code.value)),
    }


def _doubt_swapped_names(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at a range without a caption that is a colour, on a tag whose shade's
    name names none, and at that: they may have changed places."""
    found, shade = fields["range"], fields["shade"]
    both = found.state is State.SURE and shade.state is State.SURE and shade.value is not None
    bare = not found.cues.get("caption") and is_only_colours(str(found.value))
    if not both or not bare or has_colour_word(str(shade.value)):
        return dict(fields)
    told = value_text("shade", shade.value)
    reason = f"'{found.value}' is a colour and '{told}' names none: which is the shade?"
    return {
        **fields,
        "range": replace(found, state=State.DOUBTFUL, reason=reason),
        "shade": replace(shade, state=State.DOUBTFUL, reason=reason),
    }


def _doubt_bare_range(fields: Mapping[str, Field], lines: Sequence[Line]) -> dict[str, Field]:
    """``fields`` with a doubt at a range without a caption: on a tag of which no shade was found,
    or no more than its code and the range is set no larger than the other print, the name may be
    the shade's; where the shade has no caption and is asked about, they may have changed places."""
    found = fields["range"]
    if found.state is not State.SURE or found.cues.get("caption"):
        return dict(fields)
    large = any(_is_large(lines[span.line], lines) for span in found.spans)
    rest = _what_shade_lacks(fields, in_large_print=large)
    if not rest:
        return dict(fields)
    reason = f"'{found.value}' may be the range or the shade, of which {rest}"
    return {**fields, "range": replace(found, state=State.DOUBTFUL, reason=reason)}


def _what_shade_lacks(fields: Mapping[str, Field], *, in_large_print: bool) -> str:
    """Why a name that may stand ``in_large_print`` may be the shade's; empty where it is none."""
    shade, code = fields["shade"], fields["shade_code"]
    if shade.state is State.DOUBTFUL:
        bare = shade.value is not None and not shade.cues.get("caption")
        return f"'{value_text('shade', shade.value)}' is not certain" if bare else ""
    if shade.state is State.MISSING and code.state is State.MISSING:
        return "nothing else was found"
    return "" if shade.state is State.SURE or in_large_print else "nothing but its code was found"


def _is_large(line: Line, lines: Sequence[Line]) -> bool:
    """Whether a line is set larger than the usual print of its tag."""
    return line.height_px > _LARGE * median(other.height_px for other in lines)


def _doubt_scrap(fields: Mapping[str, Field]) -> dict[str, Field]:
    """``fields`` with a doubt at the lot of a tag that tells nothing of the ball but its shade and
    its lot: it may be a part of one."""
    lot = fields["lot"]
    told = any(fields[name].value is not None for name in _OF_THE_BALL)
    if lot.state is not State.SURE or told:
        return dict(fields)
    reason = f"nothing of the ball but the lot '{lot.value}' was found: is this the whole tag?"
    return {**fields, "lot": replace(lot, state=State.DOUBTFUL, reason=reason)}
