"""Links: which piece of print each caption announces.

A value stands behind its caption in the same line, to the right of it, below it or above
it.  A tag is set in one manner throughout, so below and above are decided for all of its
captions together.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from intake.fields.captions import Caption, Role, is_glue, is_in_brackets
from intake.fields.codes import code_and_name
from intake.fields.columns import link_columns
from intake.fields.left_over import left_over
from intake.fields.linked import Fit, Link
from intake.fields.pieces import Frame, Piece, frame_of, meet, piece_of, wide_gaps
from intake.fields.rows import table_values
from intake.records import Line, Span

_RIGHT_REACH = 14.0
_FAR_RIGHT = 3.0
_DOWN_REACH = 2.6
"""How far a value may stand from its caption, in heights of the caption's line; one further to
the right than ``_FAR_RIGHT``, or right below another caption, gives way to one right below."""

_IN_ROW = 0.4
"""From this share of their heights on that both have, a value stands in the row of its caption:
smaller captions may be set a little lower."""

_FIT_WELL = 0.35
"""A value that fits its caption less is looked for in all directions first."""

_IN_TABLE = 0.9
"""Closeness of a value in the row of its caption in a table."""

_FEWEST_WORDS = 3
"""So many words before a caption are running words."""

_SHARED = 0.9
"""Closeness of values that several captions in a row share out among them."""

_MARK_APART = re.compile(r"\s(?:[-–—|/·]\s|[·|(]|[,;]\s)|[,;]\s")
"""Marks between a range behind its caption and what follows."""

_IS_WORDS = (
    r"\s*(?:is|ist|heißt|lautet|est|è|es|är|er|heter|hedder|heet"
    r"|se llama|si chiama|s['’]appelle)"
)
_IS = re.compile(rf"{_IS_WORDS}\s+(?=\S)")
"""Between a caption and its value in a sentence: "the colour is Russet"."""

_ENDS = re.compile(rf"(?:{_IS_WORDS})?[\W_]*")
"""Behind a caption whose value opens the next line."""

_COMPOUND = re.compile(r"[^\W_]+[ -]?")
_OF_NUMBER = re.compile(r"[^\W_]+[ .-]{0,2}(?:de |di |del )?")
_PART = re.compile(r"[^\s/|·,+]*[^\W_][^\s/|·,+]*")
_STROKE = re.compile(r"[/+|]")
_BETWEEN_STROKES = re.compile(r"[^\s/+](?:(?!\s+[/+]\s).)*")
"""What stands between strokes that stand apart: "72/622" and "84-2419" in "72/622 / 84-2419"."""

_WORD = re.compile(r"[^\s|·,]*[^\s/|·,][^\s|·,]*")


def link(
    lines: Sequence[Line],
    captions: Sequence[Caption],
    pieces: Sequence[Piece],
    taken: Sequence[Span],
    fit: Fit,
) -> list[Link]:
    """Links of all captions that announce something; a piece is announced once.

    ``taken`` is print that other fields account for: no value reaches into it.
    """
    links = _before_brackets(lines, captions, fit)
    pieces = [
        piece for piece in pieces if not any(meet(piece.span, one.piece.span) for one in links)
    ]
    captions = _unlinked(captions, links)
    waiting: list[list[Caption]] = []
    chains = _chains(lines, captions)
    for chain in chains:
        behind = _behind(lines, captions, taken, chain[-1])
        names_range = len(chain) == 1 and chain[0].role is Role.RANGE
        named = len(chain) == 1 and chain[0].role in (Role.RANGE, Role.SHADE)
        if behind is not None and named and fit(chain[0], behind) == 0:
            behind = _before_mark(lines, behind)
        found = _shared_out(lines, chain, behind, fit) if behind is not None else []
        links += found
        text = lines[chain[0].line].text
        printed = any(sign.isalnum() for sign in text[chain[0].end :])
        answered = printed and names_range and chain[0].marked
        if not found and not answered and (behind is None or not _is_sentence(behind)):
            waiting.append(chain)
    announced = {(one.piece.span.line, one.piece.span.start) for one in links}
    free = [piece for piece in pieces if (piece.span.line, piece.span.start) not in announced]
    links += _link_wrapped(lines, waiting, free, fit)
    free = _without(free, links)
    linked = {one.caption for one in links}
    waiting = [
        chain
        for chain in waiting
        if chain[-1] not in linked and not _ends_sentence(lines[chain[0].line], chain)
    ]
    links += link_columns(lines, [one for chain in waiting for one in chain], free, fit)
    free = [piece for piece in free if not any(meet(piece.span, one.piece.span) for one in links)]
    linked = {one.caption for one in links}
    waiting = [chain for chain in waiting if not any(one in linked for one in chain)]
    links += _link_in_rows(lines, captions, waiting, free, fit)
    for chain in waiting:
        if len(chain) > 1 and not _is_compound(lines, chain):
            links += _shared_across(lines, chain, _without(free, links), fit)
    linked = {one.caption for one in links}
    halves = [chain[0] for chain in waiting if _is_compound(lines, chain)]
    whole = [caption for caption in captions if caption not in halves]
    rest = [one for chain in waiting for one in chain if one in whole and one not in linked]
    links += _link_across(lines, whole, rest, _without(free, links), fit)
    pairs = [chain for chain in chains if len(chain) > 1 and not _is_compound(lines, chain)]
    return _asked_of_halves(lines, pairs, links)


def _asked_of_halves(
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


def _before_brackets(lines: Sequence[Line], captions: Sequence[Caption], fit: Fit) -> list[Link]:
    """The links of captions in brackets behind their values: "2818 (Bath)"."""
    links: list[Link] = []
    for caption in captions:
        line = lines[caption.line]
        if not is_in_brackets(line.text, caption.start, caption.end):
            continue
        bracket = len(line.text[: caption.start].rstrip()) - 1
        starts = [
            one.end + 1 for one in captions if one.line == caption.line and one is not caption
        ]
        starts = [0, *(at for at in (*starts, *wide_gaps(line)) if at < bracket)]
        piece = piece_of(lines, Span(caption.line, max(starts), bracket))
        if piece is not None and fit(caption, piece) > 0:
            links.append(Link(caption, piece, 1.0))
    return links


def _link_wrapped(
    lines: Sequence[Line],
    chains: Sequence[Sequence[Caption]],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    """The links of captions that end a line of running words: the value opens the next."""
    links: list[Link] = []
    for chain in chains:
        caption = chain[-1]
        line, number = lines[caption.line], caption.line + 1
        before = line.text[: chain[0].start].split()
        ends = _ENDS.fullmatch(line.text, caption.end)
        if len(chain) > 1 or len(before) < _FEWEST_WORDS or not ends or number >= len(lines):
            continue
        gap_px = lines[number].quad[0][1] - line.quad[3][1]
        if not -0.5 * line.height_px < gap_px < line.height_px:
            continue
        opening = [
            piece
            for piece in pieces
            if piece.span.line == number
            and not any(sign.isalnum() for sign in lines[number].text[: piece.span.start])
            and fit(caption, piece) >= _FIT_WELL
        ]
        links += [Link(caption, piece, _SHARED) for piece in opening[:1]]
    return links


def _link_in_rows(
    lines: Sequence[Line],
    captions: Sequence[Caption],
    chains: Sequence[Sequence[Caption]],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    """The links of captions in the column of a table, however wide it is."""
    values = table_values(lines, captions)
    links: list[Link] = []
    for chain in chains:
        caption, beside = chain[0], values.get(chain[0].line)
        fitting = [
            piece
            for piece in pieces
            if piece.span.line == beside and fit(caption, piece) >= _FIT_WELL
        ]
        if len(chain) == 1 and fitting:
            links.append(Link(caption, fitting[0], _IN_TABLE))
    return links


def _shared_across(
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
        near = max(_rightness(frame, whole, ()), _downness(frame, whole))
        fitting = len(parts) == len(chain) and all(map(fit, chain, parts))
        if number != chain[0].line and near > 0 and fitting:
            options.append((near, parts))
    if not options:
        return []
    near, parts = max(options, key=lambda one: one[0])
    ask = _doubt_of_shares(lines[parts[0].span.line].text, parts)
    return [
        Link(caption, part, near * _SHARED, ask) for caption, part in zip(chain, parts, strict=True)
    ]


def _behind(
    lines: Sequence[Line], captions: Sequence[Caption], taken: Sequence[Span], caption: Caption
) -> Piece | None:
    """What stands behind ``caption`` in its own line, up to the next caption, to what is
    taken, or to the next column."""
    line = lines[caption.line]
    if _ENDS.fullmatch(line.text, caption.end):
        return None
    stops = [c.start for c in captions if c.line == caption.line and c.start >= caption.end]
    stops += [s.start for s in taken if s.line == caption.line and s.end > caption.end]
    is_ = _IS.match(line.text, caption.end)
    begins = caption.end if is_ is None else is_.end()
    first = next((at for at in range(begins, len(line.letters)) if line.text[at].isalnum()), None)
    if first is None:
        return None
    stops += [gap for gap in wide_gaps(line) if gap > first]
    return piece_of(lines, Span(caption.line, begins, min(stops, default=len(line.letters))))


def _before_mark(lines: Sequence[Line], piece: Piece) -> Piece:
    """``piece`` up to the first mark that stands apart in it: "Heidschnucke – Moosgrün"; a piece
    that has none as it is."""
    match = _MARK_APART.search(piece.text)
    start = piece.span.start
    first = match and piece_of(lines, Span(piece.span.line, start, start + match.start()))
    return first or piece


def _chains(lines: Sequence[Line], captions: Sequence[Caption]) -> list[list[Caption]]:
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


def _shared_out(
    lines: Sequence[Line], chain: Sequence[Caption], behind: Piece, fit: Fit
) -> list[Link]:
    """The piece behind a chain of captions, shared out among them: as many values as
    captions, in their order, or all of it to a single caption."""
    if len(chain) == 1 or _is_compound(lines, chain):
        return [Link(chain[-1], behind, 1.0)] if fit(chain[-1], behind) > 0 else []
    parts = _parts(lines, behind, chain)
    if len(parts) != len(chain):
        return []
    ask = _doubt_of_shares(lines[behind.span.line].text, parts)
    return [
        Link(caption, part, _SHARED, ask)
        for caption, part in zip(chain, parts, strict=True)
        if fit(caption, part) > 0
    ]


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


def _is_compound(lines: Sequence[Line], chain: Sequence[Caption]) -> bool:
    """Whether two captions are one in two words: "colour lot" announces a lot, "cód. color"
    a shade."""
    first, last = chain[0], chain[-1]
    between = lines[first.line].text[first.start : last.start]
    if first.role is Role.NUMBER:
        return len(chain) == 2 and _OF_NUMBER.fullmatch(between) is not None
    roles = (first.role, last.role)
    return roles == (Role.SHADE, Role.LOT) and _COMPOUND.fullmatch(between) is not None


def _ends_sentence(line: Line, chain: Sequence[Caption]) -> bool:
    """Whether captions are the last words of a line of running words, "please buy all from one
    lot", which announce nothing that stands elsewhere."""
    before = [word for word in line.text[: chain[0].start].split() if word.isalpha()]
    ends = not any(sign.isalnum() for sign in line.text[chain[-1].end :])
    return ends and sum(word.islower() for word in before) > _FEWEST_WORDS


def _is_sentence(piece: Piece) -> bool:
    """Words run on behind a caption that is none: "use one lot for the whole garment"."""
    return sum(word.isalpha() for word in piece.text.split()) > 2


def _link_across(
    lines: Sequence[Line],
    captions: Sequence[Caption],
    waiting: Sequence[Caption],
    pieces: Sequence[Piece],
    fit: Fit,
) -> list[Link]:
    frames = {c: frame_of(lines[c.line], c.start, c.end) for c in captions}
    waiting = _stacked(waiting, frames, pieces)
    links = _right_of(waiting, frames, pieces, lambda c, p: float(fit(c, p) >= _FIT_WELL))
    rest = _unlinked(waiting, links)
    free = _without(pieces, links)
    below = _assigned(rest, free, fit, lambda c, p: _downness(frames[c], p.frame))
    above = _assigned(rest, free, fit, lambda c, p: _downness(p.frame, frames[c]))
    above = [one for one in above if not _stands_alone(one, above, rest, frames)]
    links += max((below, above), key=lambda found: sum(one.closeness for one in found))
    links += _right_of(_unlinked(waiting, links), frames, _without(pieces, links), fit)
    return links + left_over(_unlinked(waiting, links), frames, _without(pieces, links), fit)


def _right_of(
    captions: Sequence[Caption], frames: Mapping[Caption, Frame], pieces: Sequence[Piece], fit: Fit
) -> list[Link]:
    """The nearest piece to the right of each caption that fits it, each piece once."""
    links: list[Link] = []
    for caption in captions:
        others = [frame for other, frame in frames.items() if other is not caption]
        fitting = [
            piece
            for piece in _without(pieces, links)
            if piece.span.line != caption.line and fit(caption, piece) > 0
        ]
        has_below = any(_is_right_below(frames[caption], piece.frame) for piece in fitting)
        options = [
            Link(caption, piece, _rightness(frames[caption], piece.frame, others))
            for piece in fitting
            if not (
                has_below
                and (
                    _is_far_right(frames[caption], piece.frame)
                    or any(_is_right_below(other, piece.frame) for other in others)
                )
            )
        ]
        right = max(options, key=lambda one: one.closeness, default=None)
        if right is not None and right.closeness > 0:
            links.append(right)
    return links


def _stands_alone(
    link: Link, links: Sequence[Link], captions: Sequence[Caption], frames: Mapping[Caption, Frame]
) -> bool:
    """Whether another caption in the row of a linked one has no link: values stand on one side of
    all captions of a row, and what stands there is something else."""
    frame = frames[link.caption]
    return any(
        other.role in (Role.SHADE, Role.LOT)
        and frames[other].overlap_y(frame) > 0.5 * min(frame.height_px, frames[other].height_px)
        for other in _unlinked(captions, links)
    )


def _is_right_below(caption: Frame, value: Frame) -> bool:
    """Whether a value stands close below its caption, at its margin or on its axis."""
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    gap_px = value.top - caption.bottom
    flush = caption.aside_px(value) < 0.6 * height_px
    return -0.5 * height_px < gap_px < height_px and flush


def _is_far_right(caption: Frame, value: Frame) -> bool:
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    return value.left - caption.right > _FAR_RIGHT * height_px


def _unlinked(captions: Sequence[Caption], links: Sequence[Link]) -> list[Caption]:
    return [one for one in captions if all(one is not link.caption for link in links)]


def _stacked(
    waiting: Sequence[Caption], frames: dict[Caption, Frame], pieces: Sequence[Piece]
) -> list[Caption]:
    """The captions of which each is the first of a stack: one caption in several languages,
    set line under line beside one value.  In ``frames`` the first takes the place of the
    whole stack.  Captions with a value each are no stack."""
    own = {caption: _nearest_right(frames[caption], pieces) for caption in waiting}
    first: list[Caption] = []
    for caption in sorted(waiting, key=lambda one: frames[one].top):
        frame = frames[caption]
        stack = next(
            (
                one
                for one in first
                if _asks(one) == _asks(caption)
                and _is_under(frame, frames[one])
                and (own[caption] is None or own[one] is None or own[caption] is own[one])
            ),
            None,
        )
        if stack is None:
            first.append(caption)
        else:
            upper = frames[stack]
            del frames[caption]
            own[stack] = own[stack] or own[caption]
            frames[stack] = Frame(
                upper.left, upper.top, max(upper.right, frame.right), frame.bottom
            )
    return first


def _asks(caption: Caption) -> tuple[Role, bool, bool]:
    return caption.role, caption.asks_number, caption.asks_name


def _nearest_right(caption: Frame, pieces: Sequence[Piece]) -> Piece | None:
    """The piece nearest to the right of a caption in its row."""
    beside = [piece for piece in pieces if _rightness(caption, piece.frame, ()) > 0]
    return min(beside, key=lambda piece: piece.frame.left, default=None)


def _is_under(lower: Frame, upper: Frame) -> bool:
    """Whether a caption stands right under others, at the same margin."""
    height_px = max(lower.height_px, 1.0)
    gap_px = lower.top - upper.bottom
    return -0.5 * height_px < gap_px < 0.6 * height_px and abs(lower.left - upper.left) < height_px


def _assigned(
    captions: Sequence[Caption],
    pieces: Sequence[Piece],
    fit: Fit,
    nearness: Callable[[Caption, Piece], float],
) -> list[Link]:
    """The best link of each caption in one direction, nearest first, each piece once."""
    options = [
        Link(caption, piece, nearness(caption, piece) * fit(caption, piece))
        for caption in captions
        for piece in pieces
        if piece.span.line != caption.line
    ]
    chosen: list[Link] = []
    for option in sorted(options, key=lambda one: -one.closeness):
        if option.closeness > 0 and all(
            one.caption is not option.caption and one.piece is not option.piece for one in chosen
        ):
            chosen.append(option)
    return chosen


def _without(pieces: Sequence[Piece], links: Sequence[Link]) -> list[Piece]:
    return [piece for piece in pieces if all(piece is not one.piece for one in links)]


def _rightness(caption: Frame, value: Frame, others: Sequence[Frame]) -> float:
    """1 for a value right behind its caption in the same row, 0 out of reach or with
    another caption between them."""
    height_px = max(min(caption.height_px, value.height_px), 1.0)
    shared = caption.overlap_y(value) / max(1.0, min(height_px, value.height_px))
    gap_px = value.left - caption.right
    if shared < _IN_ROW or gap_px < -height_px or gap_px > _RIGHT_REACH * height_px:
        return 0.0
    for other in others:
        between = caption.right <= other.left + height_px and other.right <= value.left + height_px
        if between and other.overlap_y(caption) > 0.5 * min(height_px, other.height_px):
            return 0.0
    return 0.95 - 0.4 * max(0.0, gap_px) / (_RIGHT_REACH * height_px)


def _downness(upper: Frame, lower: Frame) -> float:
    """1 for ``lower`` right under ``upper``, 0 out of reach or in another column."""
    height_px = max(min(upper.height_px, lower.height_px), 1.0)
    narrower_px = max(1.0, min(upper.right - upper.left, lower.right - lower.left))
    gap_px = lower.top - upper.bottom
    if gap_px < -0.6 * height_px or gap_px > _DOWN_REACH * height_px:
        return 0.0
    if upper.overlap_x(lower) <= 0.1 * narrower_px:
        return 0.0
    aside = upper.aside_px(lower) / height_px
    far = max(0.0, gap_px) / (_DOWN_REACH * height_px)
    return 0.9 - 0.4 * far - min(0.3, 0.02 * aside)
