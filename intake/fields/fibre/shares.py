"""Fibre composition: shares in percent and the fibres they belong to."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from intake.fields.fibre.compositions import blocks_of, compositions
from intake.fields.fibre.names import BREEDS, FILLERS, UNDYED
from intake.fields.fibre.parts import ROUNDING, Part, is_whole, linked, sum_of
from intake.fields.fibre.print import (
    VOCABULARY,
    WHOLE,
    Named,
    Share,
    Token,
    items_of,
    words_without_spaces,
)
from intake.fields.letters import FoldedLines
from intake.records import Candidate, FibrePart, Line, Span
from intake.wording import fibre_text, number_text

_BRACKET_LINES = 1
_BRACKET_REACH = 24
"""A bracket within so many letters behind a fibre's name tells its kind; it closes in its line or
in so many lines below."""


def find_fibre(lines: Sequence[Line]) -> list[Candidate]:
    """Fibre compositions printed on the tag, the likeliest first.

    A composition is a tuple of :class:`~intake.records.FibrePart` in printed order.  The
    same content in several languages must agree.  A composition whose shares miss 100 %,
    or that another one on the tag contradicts, carries its doubt.
    """
    sheet = FoldedLines(lines).mended(VOCABULARY)
    items = list(items_of(sheet))
    shares = [item for item in items if isinstance(item, Share)]
    if not shares:
        return pure_fibre(sheet, items)
    parts, dangling = linked(sheet, items)
    if not parts:
        pure = pure_fibre(sheet, items)
        signed = next((share for share in shares if share.signed), None)
        if signed is None:
            return pure
        doubt = f"a share of {number_text(signed.percent)} % stands without a fibre"
        return [replace(one, doubt=one.doubt or doubt) for one in pure]
    found = compositions(sheet, parts)
    doubt = doubt_about(sheet, found, dangling)
    doubt = doubt or kind_before(sheet, items, found[0])
    candidates = [candidate_of(sheet, items, block, doubt) for block in found]
    if len(candidates) == 1:
        candidates += repeats(sheet, candidates[0], blocks_of(parts))
    return candidates


def find_fibre_among(lines: Sequence[Line], numbers: Sequence[int]) -> list[Candidate]:
    """Fibre compositions in those ``lines`` that have the ``numbers``, taken in that order."""
    return [
        replace(one, spans=tuple(replace(span, line=numbers[span.line]) for span in one.spans))
        for one in find_fibre([lines[number] for number in numbers])
    ]


def doubt_about(
    sheet: FoldedLines, found: Sequence[Sequence[Part]], dangling: Sequence[Share]
) -> str:
    """Why the compositions cannot be filed unasked; empty where nothing speaks against."""
    best = found[0]
    total = sum_of(best)
    if len(found) > 1:
        texts = " and ".join(fibre_text(values(block)) for block in found[:2])
        return f"the tag gives different compositions: {texts}"
    if abs(total - WHOLE) > ROUNDING:
        return f"the shares come to {number_text(round(total, 2))} %, not to 100 %"
    if not is_whole(best):
        return "one fibre is given two shares"
    repeated = {part.share.percent for part in best} | {WHOLE}
    for share in dangling:
        if share.percent not in repeated:
            return f"a share of {number_text(share.percent)} % stands without a fibre"
    if any(part.share.clean < 0.5 for part in best):
        return "a share has letters among its digits"
    doubt = next((part.doubt for part in best if part.doubt), "")
    doubt = doubt or next((one for part in best if (one := weight_before(sheet, part))), "")
    return doubt or next((one for part in best if (one := open_bracket(sheet, part))), "")


_OF_ALL = frozenset({"recycled", "organic"})


def kind_before(
    sheet: FoldedLines, items: Sequence[Share | Named | Token], parts: Sequence[Part]
) -> str:
    """What is asked of a composition that a kind heads which none of its parts has: "Recycled
    material: 90% cotton, 10% elastane"."""
    first = min(min(part.share.start, part.named.start) for part in parts)
    line = sheet.line_of(first)
    for item in items:
        if not isinstance(item, Named) or item.fibre or not _OF_ALL & set(item.kinds):
            continue
        if item.end <= first and sheet.line_of(item.start) == line:
            printed = sheet.printed(item.start, item.end)
            return f"'{printed}' before the composition may belong to all of it"
    return ""


_WEIGHT = re.compile(r"super[ -]fine(?= )")


def weight_before(sheet: FoldedLines, part: Part) -> str:
    """What is asked of a fibre whose share stands behind it and whose line begins with a kind that
    is a weight, too: "Super Fine" read together with "Lana: 100 %"."""
    start = part.named.start
    found = _WEIGHT.match(sheet.text, start)
    if not found or part.share.start < start or sheet.text[max(0, start - 1) : start].strip(" \n"):
        return ""
    printed = sheet.printed(start, found.end())
    return f"'{printed}' may be the weight of the yarn and no kind of {part.named.fibre}"


def open_bracket(sheet: FoldedLines, part: Part) -> str:
    """What is asked of a fibre behind which a bracket opens that does not close in its line or the
    next: "(merino" may have gone on."""
    start = min(part.share.start, part.named.start)
    rest = "\n".join(sheet.text[start:].split("\n")[: 1 + _BRACKET_LINES])
    behind = rest[part.named.start - start :]
    opened = behind.find("(", 0, _BRACKET_REACH)
    if opened < 0 or ")" in behind[opened:]:
        return ""
    return f"a bracket behind {part.named.fibre} is not closed: some of it may be lost"


def candidate_of(
    sheet: FoldedLines, items: Sequence[Share | Named | Token], block: Sequence[Part], doubt: str
) -> Candidate:
    """A composition as a candidate."""
    parts, extra = with_superwash(sheet, items, list(block))
    spans = tuple(span for part in parts for span in spans_of(sheet, part))
    cues = {
        "whole": 1.0 if is_whole(parts) else 0.0,
        "shape": min(min(part.share.clean, part.named.clean) for part in parts),
        "sign": 1.0 if all(part.share.signed for part in parts) else 0.7,
    }
    return Candidate("fibre", values(parts), spans + extra, cues, note_on(parts), doubt)


def repeats(
    sheet: FoldedLines, candidate: Candidate, blocks: Sequence[Sequence[Part]]
) -> Iterator[Candidate]:
    """The same composition over the letters of each further block that prints it."""
    for block in blocks:
        spans = tuple(span for part in block for span in spans_of(sheet, part))
        if values(block) == candidate.value and spans != candidate.spans:
            yield replace(candidate, spans=spans)


def values(parts: Sequence[Part]) -> tuple[FibrePart, ...]:
    """The parts as the stash keeps them."""
    return tuple(
        FibrePart(part.named.fibre, kind_text(part.named.kinds), part.share.percent)
        for part in parts
    )


def kind_text(kinds: Sequence[str]) -> str:
    """Kinds in printed order, but the treatment ``superwash`` last: English prints it
    first, other languages behind, and both mean one thing."""
    return " ".join(sorted(dict.fromkeys(kinds), key=lambda kind: kind == "superwash"))


def spans_of(sheet: FoldedLines, part: Part) -> tuple[Span, ...]:
    """The letters of the share and of the name."""
    share, named = part.share, part.named
    return sheet.spans(share.start, share.end) + sheet.spans(named.start, named.end)


def note_on(parts: Sequence[Part]) -> str:
    """What the user should know of a composition that is kept."""
    for part in parts:
        if part.named.kind_only and "bamboo" in part.named.kinds:
            return "bamboo is printed without a fibre name and kept as viscose from bamboo"
    return ""


def with_superwash(
    sheet: FoldedLines, items: Sequence[Share | Named | Token], parts: list[Part]
) -> tuple[list[Part], tuple[Span, ...]]:
    """Parts with a ``superwash`` printed behind their wool, or behind the composition, given to
    that wool: it is a treatment of nothing else."""
    wool = [place for place, part in enumerate(parts) if part.named.fibre == "wool"]
    if len(wool) != 1 or "superwash" in parts[wool[0]].named.kinds:
        return parts, ()
    end = parts[wool[0]].named.end
    for before, item in pairwise(items):
        if not isinstance(item, Named) or item.start < end or item.kinds != ("superwash",):
            continue
        if isinstance(before, Token) and before.text in ("not", "non", "no", "nicht", "kein"):
            continue
        part = parts[wool[0]]
        kinds = (*part.named.kinds, "superwash")
        parts[wool[0]] = replace(part, named=replace(part.named, kinds=kinds))
        return parts, sheet.spans(item.start, item.end)
    return parts, ()


def pure_fibre(sheet: FoldedLines, items: Sequence[Share | Named | Token]) -> list[Candidate]:
    """``pure new wool`` without a number: all of it is wool."""
    names = [item for item in items if isinstance(item, Named) and item.fibre]
    pure = [item for item in names if item.pure]
    if not pure:
        return []
    first = next((item for item in pure if fills_its_cell(sheet, item)), pure[0])
    kinds = max((item.kinds for item in pure if item.fibre == first.fibre), key=len)
    doubt = ""
    others = {item.fibre for item in names} - {first.fibre}
    if others:
        doubt = f"pure {first.fibre} is printed, but {sorted(others)[0]} is named as well"
    value = (FibrePart(first.fibre, " ".join(kinds), WHOLE),)
    # "Pure wool" by itself is all wool by law; in a sentence it may tell of something else.
    whole = 0.95 if fills_its_cell(sheet, first) else 0.7
    cues = {"whole": whole, "shape": first.clean, "sign": 0.7}
    note = f"no share is printed; pure {first.fibre} is taken as 100 %"
    return [Candidate("fibre", value, sheet.spans(first.start, first.end), cues, note, doubt)]


_CELL_ENDS = re.compile(r"[^\n/|·•,;:.()*]*\Z")
_BESIDE_ONE = FILLERS | BREEDS | UNDYED
_CELL = re.compile(r"[^\n/|·•,;:.()*]*")


def fills_its_cell(sheet: FoldedLines, item: Named) -> bool:
    """Whether nothing but a known word stands beside a name between the marks of its line."""
    before = _CELL_ENDS.search(sheet.text, 0, item.start)
    behind = _CELL.match(sheet.text, item.end)
    around = re.split(r"\s[-–—]\s", f" {before[0] if before else ''}")[-1]
    around += re.split(r"\s[-–—]\s", f"{behind[0] if behind else ''} ")[0]
    return not any(
        word not in _BESIDE_ONE and not words_without_spaces(word)
        for word in re.findall(r"[^\W_]+", around)
    )
