"""Evidence for a value: what its letters, its caption and its rivals say."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from intake.fields.letters import Folded
from intake.fields.pieces import frame_of, gaps_beyond_usual
from intake.records import Candidate, Letter, Line, Span

Evidence = Mapping[str, float]
"""Named evidence, each between 0 and 1."""


_NEAR = 3
"""So many letters before and behind a value are looked at."""

_CLEAR = 0.8

_RIM = 0.1
"""The outermost print of a box stands at least so many of its heights within it."""

_GAP = 0.25
"""A gap within a code so much wider than usual, in heights of its line, may be a space (on 400 tags
one lot with a space and no other)."""

EXACT = frozenset({"lot", "shade_code", "barcode"})
"""Fields whose every letter matters and that nothing can check: both readers must have
seen every letter alike."""

SPELLED = EXACT | {"shade", "maker", "range", "origin"}
"""Fields whose value is whatever the letters say; the others are made of known words."""


def evidence(
    candidate: Candidate, lines: Sequence[Line], *, repeated: bool, rivals: int
) -> Evidence:
    """All that speaks for or against ``candidate``: its cues, and

    - ``weakest``: the lowest letter score of its print, ``steady`` the mean,
    - ``agreed``: share of its letters that both readers saw alike, ``unanimous`` 1 where
      that is all of them, ``clear`` 1 where besides no letter scores below 0.8 (below
      that, letters both readers saw alike were wrong one time in four on drawn tags),
      ``witnessed`` 1 where a second reader saw its lines at all,
    - ``repeated``: 1 where the same value stands elsewhere on the tag too,
    - ``doubted``: 1 where the finder has a reason never to file it unasked,
    - ``rival``: 1 where another value is possible, ``rivals`` the more the nearer to 1.
    """
    letters = letters_of(
        lines,
        candidate.spans,
        spelled=candidate.name in SPELLED,
        spaced=candidate.name in EXACT,
    )
    scores = [letter.confidence for letter, _ in letters] or [0.0]
    agreed = [seen for _, seen in letters] or [False]
    return {
        **candidate.cues,
        "weakest": min(scores),
        "steady": sum(scores) / len(scores),
        "agreed": sum(agreed) / len(agreed),
        "unanimous": float(all(agreed)),
        "clear": float(all(agreed) and min(scores) >= _CLEAR),
        "witnessed": float(is_witnessed(lines, candidate.spans)),
        "repeated": float(repeated),
        "doubted": float(bool(candidate.doubt)),
        "rival": float(rivals > 0),
        "rivals": 1 - 1 / (1 + rivals),
    }


def letters_of(
    lines: Sequence[Line], spans: Sequence[Span], *, spelled: bool = True, spaced: bool = True
) -> list[tuple[Letter, bool]]:
    """The letters of ``spans`` without spaces, each with whether both readers agreed.

    Where the value is ``spaced``, a gap that only one reader saw counts as a letter not
    agreed on: it may part two codes.  Where the value is known by its words and not
    ``spelled`` out, accents and capitals are no difference.
    """
    found = []
    for span in spans:
        line = lines[span.line]
        for at in range(span.start, min(span.end, len(line.letters))):
            letter, agreed = line.letters[at], line.agreed[at]
            if not spelled and not agreed:
                agreed = (
                    letter.text == " " or Folded(letter.text).text == Folded(line.others[at]).text
                )
            if letter.text != " " or (spaced and not agreed):
                found.append((letter, agreed))
    return found


def _alike(sign: str, other: str) -> bool:
    return Folded(sign).text == Folded(other).text


def is_witnessed(lines: Sequence[Line], spans: Sequence[Span]) -> bool:
    """Whether a second reader saw something in every line of ``spans``."""
    return all(
        len(lines[span.line].readings) > 1 and lines[span.line].readings[1].letters
        for span in spans
    )


def seen_beside(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    """Letters and digits that only one of the readers saw right before or behind ``spans``, in
    place of a space or a mark of the other: a part of the value may stand there."""
    for span in spans:
        line = lines[span.line]
        for places in (range(span.start - 1, -1, -1), range(span.end, len(line.letters))):
            near = []
            for at in list(places)[:_NEAR]:
                if line.text[at].isalnum():
                    break
                near.append(at)
            seen = "".join(line.others[at] for at in sorted(near) if not line.agreed[at])
            if any(sign.isalnum() for sign in seen):
                return seen.strip(" .…-–")
    return ""


def stands_in_other_box(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    """The text of another line whose box holds the first or the last letter of ``spans`` too: it
    may belong to that line, "R 23125" right behind "PARTIJNUMMER"; empty where there is none."""
    for span in spans:
        own = lines[span.line]
        ends = [frame_of(own, at, at + 1) for at in (span.start, span.end - 1)]
        for line in lines:
            if line is own or not line.letters:
                continue
            rim_px = _RIM * line.height_px
            left_px, right_px = line.quad[0][0] + rim_px, line.quad[1][0] - rim_px
            frame = frame_of(line, 0, len(line.letters))
            middles = [(end.left + end.right) / 2 for end in ends if frame.shares_row(end)]
            if any(left_px < middle < right_px for middle in middles):
                return line.text
    return ""


def with_seen_gap(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    """The code at ``spans``, printed without a space, with the space that the second reader saw in
    it or that the places of its letters leave between a letter and a digit; empty where there is
    none."""
    for span in spans:
        line = lines[span.line]
        code = line.text[span.start : span.end]
        if " " in code:
            continue
        within = re.compile(r" ?".join(map(re.escape, code)))
        for reading in line.readings[1:]:
            seen = within.search(reading.text)
            if seen is not None and " " in seen[0]:
                return seen[0]
        gaps = gaps_beyond_usual(line)
        for at in range(span.start + 1, span.end):
            one, other = line.text[at - 1], line.text[at]
            mixed = one.isalnum() and other.isalnum() and one.isalpha() != other.isalpha()
            if mixed and gaps.get(at, 0.0) > _GAP:
                return f"{line.text[span.start : at]} {line.text[at : span.end]}"
    return ""


def second_reading(lines: Sequence[Line], spans: Sequence[Span]) -> str:
    """What the second reader saw in place of ``spans``."""
    return " ".join(
        "".join(
            line.letters[at].text if line.agreed[at] else line.others[at]
            for at in range(span.start, min(span.end, len(line.letters)))
        ).strip()
        for span in spans
        for line in (lines[span.line],)
    )
