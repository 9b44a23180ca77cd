"""Chains: captions that stand together, "Farbe / Partie", and how they share what they announce."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

from intake.fields.captions import Caption, Role, is_glue
from intake.fields.codes import code_and_name
from intake.fields.linked import Fit, Link
from intake.fields.nearness import downness, rightness
from intake.fields.pieces import Frame, Piece, frame_of, piece_of
from intake.records import Line, Span

SHARED = 0.9
"""Closeness of values that several captions in a row share out among them."""

_IN_ROW = 0.5
"""Share of its height that a value has in common with others of its row."""

_COMPOUND = re.compile(r"[^\W_]+[ .-]?")
_OF_NUMBER = re.compile(r"[^\W_]+[ .-]{0,2}(?:de |di |del )?")
_PART = re.compile(r"[^\s/|·,+]*[^\W_][^\s/|·,+]*")
_STROKE = re.compile(r"[/+|]")
_BETWEEN_STROKES = re.compile(r"[^\s/+](?:(?!\s+[/+]\s).)*")
"""What stands between strokes that stand apart: "72/622" and "84-2419" in "72/622 / 84-2419"."""

_WORD = re.compile(r"[^\s|·,]*[^\s/|·,][^\s|·,]*")


def chains_of(lines: Sequence[Line], captions: Sequence[Caption]) -> list[list[Caption]]:
    """Captions in order, those together that stand next to each other in one line with
    nothing but marks between them: "Farbe / Partie"."""
    chains: list[list[Caption]] = []
    for caption in captions:
        last = chains[-1][-1] if chains else None
        if (
            last is not None
            and last.line == caption.line
            and is_glue(lines[last.line].text, last.end, caption.start)
        ):
            chains[-1].append(caption)
        else:
            chains.append([caption])
    return chains


def is_compound(lines: Sequence[Line], chain: Sequence[Caption]) -> bool:
    """Whether two captions are one in two words: "colour lot" announces a lot, "cód. color"
    a shade."""
    first, last = chain[0], chain[-1]
    between = lines[first.line].text[first.start : last.start]
    if first.role is Role.NUMBER:
        return len(chain) == 2 and _OF_NUMBER.fullmatch(between) is not None
    roles = (first.role, last.role)
    return roles == (Role.SHADE, Role.LOT) and _COMPOUND.fullmatch(between) is not None


def shared_out(
    lines: Sequence[Line], chain: Sequence[Caption], behind: Piece, fit: Fit
) -> list[Link]:
    """The piece behind a chain of captions, shared out among them: as many values as
    captions, in their order, or all of it to a single caption."""
    if len(chain) == 1 or is_compound(lines, chain):
        return [Link(chain[-1], behind, 1.0)] if fit(chain[-1], behind) > 0 else []
    parts = _parts(lines, behind, chain)
    if len(parts) != len(chain):
        return []
    ask = _doubt_of_shares(lines[behind.span.line].text, parts)
    return [
        Link(caption, part, SHARED, ask)
        for caption, part in zip(chain, parts, strict=True)
        if fit(caption, part) > 0
    ]


def shared_across(
    lines: Sequence[Line], chain: Sequence[Caption], pieces: Sequence[Piece], fit: Fit
) -> list[Link]:
    """The values of a chain of captions in one line right of it or below it, as many as
    there are captions: "M0514 / 45-85" below "Col # / Lot #"."""
    frame = frame_of(lines[chain[0].line], chain[0].start, chain[-1].end)
    options: list[tuple[float, list[Piece]]] = []
    for number in dict.fromkeys(piece.span.line for piece in pieces):
        row = [piece for piece in pieces if piece.span.line == number]
        across = piece_of(lines, Span(number, row[0].span.start, row[-1].span.end))
        parts = _between_strokes(lines, across, chain) if across is not None else []
        parts = parts or [part for piece in row for part in _parts(lines, piece, chain)]
        whole = frame_of(lines[number], row[0].span.start, row[-1].span.end)
        near = max(rightness(frame, whole, ()), downness(frame, whole))
        fitting = len(parts) == len(chain) and all(map(fit, chain, parts))
        if number != chain[0].line and near > 0 and fitting:
            options.append((near, parts))
    if not options:
        return []
    near, parts = max(options, key=lambda one: one[0])
    ask = _doubt_of_shares(lines[parts[0].span.line].text, parts)
    ask = ask or _doubt_of_row(frame, parts, pieces, lambda one: any(fit(c, one) for c in chain))
    return [
        Link(caption, part, near * SHARED, ask) for caption, part in zip(chain, parts, strict=True)
    ]


def _doubt_of_row(
    captions: Frame, parts: Sequence[Piece], pieces: Sequence[Piece], fits: Callable[[Piece], bool]
) -> str:
    """What is asked of values that were parted at a stroke, "9739/65", where another that ``fits``
    stands in their row below the same captions."""
    own = {part.span.line for part in parts}
    for other in pieces:
        in_row = other.frame.overlap_y(parts[-1].frame) > _IN_ROW * other.frame.height_px
        below = captions.overlap_x(other.frame) > 0 and other.span.line not in own
        if in_row and below and fits(other):
            return f"'{other.text}' stands below the captions of '{parts[0].text}' as well"
    return ""


def asked_of_halves(
    lines: Sequence[Line], chains: Sequence[Sequence[Caption]], links: Sequence[Link]
) -> list[Link]:
    """``links``, those asked about that give one value to captions of shade and lot together: it
    may hold both, "010-211.4" beside "Col./Bagno"."""
    asked: dict[Caption, str] = {}
    for chain in chains:
        answered = [one.caption for one in links if one.caption in chain]
        if {one.role for one in chain} >= {Role.SHADE, Role.LOT} and len(answered) == 1:
            words = lines[chain[0].line].text[chain[0].start : chain[-1].end].strip(" :")
            asked[answered[0]] = f"'{words}' asks for the shade and the lot, and this may be both"
    return [replace(one, doubt=one.doubt or asked.get(one.caption, "")) for one in links]


def _doubt_of_shares(text: str, parts: Sequence[Piece]) -> str:
    """What is asked of a shade's name, its code and a lot in a line's ``text`` of which a stroke
    close between two codes parts the last: "Kruisbes 965B/26-0379" may be a name and one code."""
    before, behind = parts[-2].span, parts[-1].span
    between = text[before.end : behind.start]
    code = parts[-2].text.split()[-1]
    if between.strip() != between or " " not in parts[-2].text or not between:
        return ""
    if not any(letter.isdigit() for letter in code):
        return ""
    return f"'{code}{between}{parts[-1].text}' may be one code, or the shade's and the lot"


def _parts(lines: Sequence[Line], piece: Piece, chain: Sequence[Caption]) -> list[Piece]:
    """``piece`` taken apart for the captions of ``chain``: at commas and spaces, and for a
    shade and a lot at a stroke without spaces too, which other numbers have within them."""
    line, start = piece.span.line, piece.span.start
    if parted := _between_strokes(lines, piece, chain):
        return parted
    is_pair = {caption.role for caption in chain} == {Role.SHADE, Role.LOT}
    spans = [match.span() for match in (_PART if is_pair else _WORD).finditer(piece.text)]
    if is_pair and len(spans) > len(chain):
        spans = _shade_and_lot(piece.text, spans, chain)
    parts = [piece_of(lines, Span(line, start + first, start + last)) for first, last in spans]
    return [part for part in parts if part is not None]


def _between_strokes(lines: Sequence[Line], piece: Piece, chain: Sequence[Caption]) -> list[Piece]:
    """What stands in ``piece`` between strokes that stand apart, if that is as much as there are
    captions in ``chain``."""
    line, start = piece.span.line, piece.span.start
    halves = [match.span() for match in _BETWEEN_STROKES.finditer(piece.text)]
    if len(halves) != len(chain) or len(chain) < 2:
        return []
    parts = [piece_of(lines, Span(line, start + first, start + last)) for first, last in halves]
    return [part for part in parts if part is not None]


def _shade_and_lot(
    text: str, spans: Sequence[tuple[int, int]], chain: Sequence[Caption]
) -> list[tuple[int, int]]:
    """``spans``, those joined that are the name and the code of the shade beside the lot, "Plomme
    (P57) 223858" or "Krapp - P8.6/KW35-1"; as they are where a code right beside the lot may be
    part of it."""
    if chain[0].role is Role.LOT:
        joined = [spans[0], (spans[1][0], spans[-1][1])]
        shade, next_to_lot = joined[1], spans[1]
    else:
        joined = [(spans[0][0], spans[-2][1]), spans[-1]]
        shade, next_to_lot = joined[0], spans[-2]
    bare = text[slice(*next_to_lot)]
    halves = code_and_name(text[slice(*shade)].strip(" /|·,"))
    apart = not any(letter.isdigit() for letter in bare) or bare[0] + bare[-1] == "()"
    if chain[0].role is not Role.LOT:
        before, behind = (text[one[1] : other[0]] for one, other in pairwise(spans[-3:]))
        apart = apart or (_STROKE.search(behind) is not None and not _STROKE.search(before))
    return joined if all(halves) and apart else list(spans)
