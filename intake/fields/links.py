"""Links: which piece of print each caption announces.

A value stands behind its caption in the same line, to the right of it, below it or above
it.  A tag is set in one manner throughout, so below and above are decided for all of its
captions together.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from intake.fields.between import asked_of_parted
from intake.fields.caption_stacks import in_order
from intake.fields.captions import Caption, Role, is_initial
from intake.fields.captions_behind import (
    before_brackets,
    before_line_end,
    before_line_ends,
    with_code_before,
)
from intake.fields.chains import (
    SHARED,
    asked_of_halves,
    chains_of,
    is_compound,
    shared_across,
    shared_out,
)
from intake.fields.columns import link_cells, link_columns
from intake.fields.left_over import left_over, stepped
from intake.fields.linked import Fit, Link
from intake.fields.nearness import (
    downness,
    is_far_right,
    is_right_below,
    is_under,
    rightness,
)
from intake.fields.pieces import Frame, Piece, frame_of, meet, piece_of, wide_gaps
from intake.fields.rows import empty_rows, table_values
from intake.fields.stretches import link_stretches
from intake.records import Line, Span

_PLAIN_LEAD = 0.15

_FIT_WELL = 0.35
"""A value that fits its caption less is looked for in all directions first."""

_IN_TABLE = 0.9
"""Closeness of a value in the row of its caption in a table."""

_FEWEST_WORDS = 3
"""So many words before a caption are running words."""

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
    links = before_brackets(lines, captions, fit)
    links += before_line_ends(lines, _unlinked(captions, links), taken, fit)
    pieces = [
        piece for piece in pieces if not any(meet(piece.span, one.piece.span) for one in links)
    ]
    captions = _unlinked(captions, links)
    waiting: list[list[Caption]] = []
    chains = chains_of(lines, captions)
    for chain in chains:
        behind = _behind(lines, captions, taken, chain[-1])
        names_range = len(chain) == 1 and chain[0].role is Role.RANGE
        named = len(chain) == 1 and chain[0].role in (Role.RANGE, Role.SHADE)
        if behind is not None and named and fit(chain[0], behind) == 0:
            behind = _before_mark(lines, behind)
        found = shared_out(lines, chain, behind, fit) if behind is not None else []
        links += found
        text = lines[chain[0].line].text
        printed = any(sign.isalnum() for sign in text[chain[0].end :])
        answered = printed and names_range and chain[0].marked
        answered = answered or (
            behind is not None
            and chain[-1].role is Role.LOT
            and any(sign.isdigit() for sign in behind.text)
        )
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
    alone = [one for chain in waiting for one in chain]
    links += link_columns(lines, alone, free, fit)
    links += link_stretches(lines, captions, _unlinked(alone, links), _without(free, links), fit)
    free = [piece for piece in free if not any(meet(piece.span, one.piece.span) for one in links)]
    linked = {one.caption for one in links}
    waiting = [chain for chain in waiting if not any(one in linked for one in chain)]
    links += _link_in_rows(lines, captions, waiting, free, fit)
    for chain in waiting:
        if len(chain) > 1 and not is_compound(lines, chain):
            links += shared_across(lines, chain, _without(free, links), fit)
    linked = {one.caption for one in links}
    halves = [chain[0] for chain in waiting if is_compound(lines, chain)]
    whole = [caption for caption in captions if caption not in halves]
    rest = [one for chain in waiting for one in chain if one in whole and one not in linked]
    links += link_cells(lines, whole, rest, _without(free, links), fit)
    links += _link_across(lines, whole, _unlinked(rest, links), _without(free, links), fit)
    links = with_code_before(lines, links, taken, fit)
    links += before_line_end(lines, _unlinked(rest, links), taken, _without(free, links), fit)
    pairs = [chain for chain in chains if len(chain) > 1 and not is_compound(lines, chain)]
    links = [_asked_of_initial(lines, one) for one in links]
    return asked_of_parted(lines, captions, asked_of_halves(lines, pairs, links))


def _asked_of_initial(lines: Sequence[Line], link: Link) -> Link:
    """``link``, asked about where its caption is a single letter."""
    if not is_initial(lines, link.caption):
        return link
    ask = f"'{lines[link.caption.line].text.strip()}' may be the {link.caption.role}, or another"
    return replace(link, doubt=link.doubt or f"{ask} number")


def is_answered(caption: Caption, links: Sequence[Link], lines: Sequence[Line]) -> bool:
    """Whether what another caption for the same thing announces stands in the row of ``caption``,
    on its other side: "Shade  98.5  Farve"."""
    own = frame_of(lines[caption.line], caption.start, caption.end)
    return any(
        one.caption.role is caption.role and one.piece.frame.shares_row(own) for one in links
    )


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
        links += [Link(caption, piece, SHARED) for piece in opening[:1]]
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
    waiting = [one for one in waiting if not is_answered(one, links, lines)]
    empty = empty_rows(lines, captions)
    waiting = [one for one in waiting if one.line not in empty]
    rest = _unlinked(waiting, links)
    free = _without(pieces, links)
    if {Role.SHADE, Role.LOT} <= {one.role for one in rest}:
        links += stepped(rest, frames, free, fit)
        rest, free = _unlinked(rest, links), _without(free, links)
    below = _assigned(rest, free, fit, lambda c, p: downness(frames[c], p.frame))
    below = in_order(below, rest, frames, free, fit)
    above = _assigned(rest, free, fit, lambda c, p: downness(p.frame, frames[c]))
    above = [one for one in above if not _stands_alone(one, above, rest, frames)]
    links += _the_nearer(below, above)
    links += _right_of(_unlinked(waiting, links), frames, _without(pieces, links), fit)
    return links + left_over(_unlinked(waiting, links), frames, _without(pieces, links), fit)


def _the_nearer(below: Sequence[Link], above: Sequence[Link]) -> list[Link]:
    """The links to what stands below captions or those to what stands above them, whichever are
    nearer; asked about where captions of shade and lot have about as near values on both sides."""
    near, far = sorted((below, above), key=lambda found: -sum(one.closeness for one in found))
    lead = sum(one.closeness for one in near) - sum(one.closeness for one in far)
    roles = {one.caption.role for one in near} & {one.caption.role for one in far}
    others = {one.caption: one.piece for one in far}
    if lead >= _PLAIN_LEAD or not {Role.SHADE, Role.LOT} <= roles:
        return list(near)
    return [
        replace(
            one, doubt=one.doubt or f"'{others[one.caption].text}' stands as near to its caption"
        )
        if one.caption in others
        else one
        for one in near
    ]


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
        has_below = any(is_right_below(frames[caption], piece.frame) for piece in fitting)
        options = [
            Link(caption, piece, rightness(frames[caption], piece.frame, others))
            for piece in fitting
            if not (
                has_below
                and (
                    is_far_right(frames[caption], piece.frame)
                    or any(is_right_below(other, piece.frame) for other in others)
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
        other.role in (Role.SHADE, Role.LOT) and frames[other].shares_row(frame)
        for other in _unlinked(captions, links)
    )


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
                and is_under(frame, frames[one])
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
    beside = [piece for piece in pieces if rightness(caption, piece.frame, ()) > 0]
    return min(beside, key=lambda piece: piece.frame.left, default=None)


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
