"""Compositions whose shares stand together and apart from their fibres: "75/25 merino/nylon"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.fibre.parts import ROUNDING, Part
from intake.fields.fibre.print import VOCABULARY, WHOLE, Named, Share, items_of, tokens_of
from intake.fields.fibre.shares import candidate_of
from intake.fields.letters import FoldedLines
from intake.records import Candidate, Line

_SHARES = r"\d{1,2}(?: ?/ ?\d{1,2}){1,3}"
_NAMES = r"[a-z][a-z '-]*(?: ?/ ?[a-z][a-z '-]*){1,3}"
_STROKES = re.compile(rf"(?<![\w.,/])(?P<shares>{_SHARES}) ?%? +(?P<names>{_NAMES})(?![\w/])")
"""How dyers write it: as many shares as fibres, in one order (common practice, no source)."""


def find_fibre_in_strokes(lines: Sequence[Line]) -> list[Candidate]:
    """Compositions of lines such as "80/20 merino/nylon", whose shares come to 100 % and whose
    names are all known.  The value is as of :func:`intake.fields.fibre.shares.find_fibre`."""
    sheet = FoldedLines(lines).mended(VOCABULARY)
    items = list(items_of(sheet))
    found = []
    for match in _STROKES.finditer(sheet.text):
        shares = [
            Share(float(one[0]), match.start() + one.start(), match.start() + one.end(), 1.0, False)
            for one in re.finditer(r"\d+", match["shares"])
        ]
        names = [
            named
            for one in re.finditer(r"[^/]+", match["names"])
            for start in [match.start("names") + one.start()]
            for named in _named(items, sheet.text, start, start + len(one[0]))
        ]
        whole = abs(sum(share.percent for share in shares) - WHOLE) <= ROUNDING
        if whole and len(names) == len(shares) == match["names"].count("/") + 1:
            parts = [Part(*pair) for pair in zip(shares, names, strict=True)]
            found.append(candidate_of(sheet, items, parts, ""))
    return found


def _named(items: Sequence[object], text: str, start: int, end: int) -> list[Named]:
    """The one fibre named between ``start`` and ``end``; none where words there are not known."""
    found = [
        one
        for one in items
        if isinstance(one, Named) and one.fibre and start <= one.start and one.end <= end
    ]
    unread = [one for one in tokens_of(text[start:end]) if one.sort == "word" and len(one.text) > 2]
    return found if len(found) == 1 and not unread else []
