"""Compositions of one line whose shares have no sign of per cent, or stand apart from their fibres:
"75/25 merino/nylon", "75/25 (merino, nylon)", "wool / nylon: 75% / 25%", "wool 55, hemp 45"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from intake.fields.fibre.names import LISTERS
from intake.fields.fibre.parts import ROUNDING, Part
from intake.fields.fibre.print import VOCABULARY, WHOLE, Named, Share, items_of, tokens_of
from intake.fields.fibre.shares import candidate_of, find_fibre_among
from intake.fields.letters import FoldedLines
from intake.records import Candidate, Line

_SHARE = r"\d{1,2} ?%?"
_SHARES = rf"{_SHARE}(?: ?[/:-] ?{_SHARE}){{1,3}}"
_AND = "|".join(sorted(LISTERS, key=len, reverse=True))
_PARTED = rf"(?: ?[/&+,·|] ?| [–-] | (?:{_AND}) )"
_NAME = r"[a-z][a-z '-]*?"
_NAMES = rf"{_NAME}(?:{_PARTED}{_NAME}){{1,3}}"
_STROKES = (
    re.compile(rf"(?<![\w.,/])(?P<shares>{_SHARES})[: ] ?\(?(?P<names>{_NAMES})(?![\w/])"),
    re.compile(rf"(?<![\w/])(?P<names>{_NAMES}) ?[:(,\n]? ?(?P<shares>{_SHARES})(?![\w.,]|/\d)"),
)
"""How dyers write it: as many shares as fibres, in one order (common practice, no source)."""

_BARE = re.compile(r"(?<![\w.,/-])\d{1,2}(?![\w./%°-]|,\d)")


def find_fibre_in_strokes(lines: Sequence[Line]) -> list[Candidate]:
    """Compositions of lines such as "80/20 merino/nylon", whose shares come to 100 % and whose
    names are all known; none where another line gives another composition.  The value is as of
    :func:`intake.fields.fibre.shares.find_fibre`."""
    found = [*_in_strokes(lines), *_bare(lines)]
    used = {span.line for one in found for span in one.spans}
    rest = [number for number in range(len(lines)) if number not in used]
    others = [*found, *find_fibre_among(lines, [n for n in rest if "%" in lines[n].text])]
    return found if all(one.value == others[0].value for one in others) else []


def _in_strokes(lines: Sequence[Line]) -> Iterator[Candidate]:
    sheet = FoldedLines(lines).mended(VOCABULARY)
    items = list(items_of(sheet))
    for match in (match for form in _STROKES for match in form.finditer(sheet.text)):
        start = match.start("shares")
        shares = [
            Share(float(one[0]), start + one.start(), start + one.end(), 1.0, False)
            for one in re.finditer(r"\d+", match["shares"])
        ]
        starts, ends = match.span("names")
        marks = [one.span() for one in re.finditer(_PARTED, match["names"])]
        printed = [
            (starts + start, starts + end)
            for start, end in pairwise([0, *(at for mark in marks for at in mark), ends - starts])
        ][::2]
        names = [named for one in printed for named in _named(items, sheet.text, *one)]
        whole = abs(sum(share.percent for share in shares) - WHOLE) <= ROUNDING
        if whole and len(names) == len(shares) == len(printed):
            parts = [Part(*pair) for pair in zip(shares, names, strict=True)]
            yield candidate_of(sheet, items, parts, "")


def _bare(lines: Sequence[Line]) -> Iterator[Candidate]:
    """Compositions of lines that hold nothing but fibres with numbers which come to 100."""
    for number, line in enumerate(lines):
        if "%" in line.text or len(_BARE.findall(line.text)) < 2:
            continue
        for one in find_fibre_among(lines, [number])[:1]:
            parts = one.value if isinstance(one.value, tuple) else ()
            words = [token for token in tokens_of(FoldedLines([line]).text) if token.sort == "word"]
            known = all(token.text in LISTERS for token in words)
            if known and len(parts) > 1 and not one.doubt and one.cues["whole"] == 1.0:
                yield one


def _named(items: Sequence[object], text: str, start: int, end: int) -> list[Named]:
    """The one fibre named between ``start`` and ``end``; none where words there are not known."""
    found = [
        one
        for one in items
        if isinstance(one, Named) and one.fibre and start <= one.start and one.end <= end
    ]
    unread = [one for one in tokens_of(text[start:end]) if one.sort == "word" and len(one.text) > 2]
    return found if len(found) == 1 and not unread else []
