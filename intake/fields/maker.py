"""Maker and range: the names that a tag is headed with."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from rapidfuzz.distance import Levenshtein

from intake.fields.captions import Role
from intake.fields.clutter import web_places, web_spellings
from intake.fields.heading_pieces import (
    BY,
    GENERIC,
    OF_WORDS,
    heading_pieces,
    is_in_two_lines,
    may_be_one_name,
)
from intake.fields.headings import Headings, Pair, Surroundings, headings
from intake.fields.letters import Folded
from intake.fields.linked import Link
from intake.fields.pieces import Piece, gaps_beyond_usual, part_of
from intake.fields.trade_words import goes_on_behind, has_trade_word, is_only_trade
from intake.records import Candidate, Line, Span

_SIDE_REACH = 1.5
_SIDE_REACH_OF_BOXES = 1.0
"""Names nearer than this in one row, in line heights, may be one name; the second where the
line finder parted them too (on drawn tags all 12 such pairs from 1.0 on were two names)."""

_MARKS = "-–—·•|/,;:*"
"""Marks that part two names in one line."""

_ALIKE = 0.7
"""From this likeness on a name and that of a web address are meant to be the same."""

_YARN_FIRST = re.compile(r"(?:yarn|garn|garen|fil|hilo|filato) \w.*")
"""The word for yarn before a name: a range's or a shade's as often as a maker's."""

_YARN_THEN = re.compile(r"(?i:yarn|garn|garen|hilo|filato) (?P<name>[^\W\d_a-zà-ÿ].+)")
"""The word for yarn and a name with a capital: "Garn Daggry" names the range Daggry."""

_GOES_ON = re.compile(r".*\b(?:de|di|du|des|del|della|of|von|van|der|the|and|und|et|y|e|og|och|&)")
"""A name that ends so was cut off."""

_HELD = re.compile(rf"\s(?:{OF_WORDS})\s")
"""Within a name of two lines it says that they are one."""

_WORD_GAP = 0.4
_LARGEST_WORD_GAP = 0.65
"""Words of one name stand nearer than the first, in line heights beyond the usual gap between
letters, and hardly ever further apart than the second (10 and 27 pairs on drawn tags)."""

_NO_RANGE = 0.9
"""From this probability on a tag is taken to name no range."""

_SWAPPED = 0.01
"""From this probability on an unsure maker and a range may have changed places."""


def find_maker(
    links: Sequence[Link], free: Sequence[Piece], around: Surroundings
) -> list[Candidate]:
    """Possible makers and ranges (candidates of both names), best first.

    ``free`` are the pieces that nothing else accounts for, ``around`` what stands beside
    them.  The cue ``role`` is the probability that the name is the maker's or the range's.
    """
    captioned = [
        Candidate("range", piece.text, piece.spans, {"caption": 1.0, "role": 1.0}, doubt=doubt)
        for one in links
        if one.caption.role is Role.RANGE and not GENERIC.fullmatch(Folded(one.piece.text).text)
        for piece, doubt in [_with_weight(one.piece, around)]
    ]
    names = heading_pieces(free, around)
    if not names:
        return [*_web_makers(around), *captioned]
    found = headings(names, around)
    pair, likely = _named(found)
    if not captioned and pair[1] is None and (elsewhere := _web_makers(around, found, pair[0])):
        return [*elsewhere, _range_without_maker(found, pair[0])]
    makers = _makers(found, pair, likely, bool(captioned))
    ranges = captioned or _ranges(found, pair, likely, around)
    if makers[0].doubt and len(makers[0].spans) > 1:  # else the range may be its second line
        ranges = [replace(one, doubt=one.doubt or makers[0].doubt) for one in ranges]
    asked = _with_split_names([*makers, *ranges], names, around)
    if captioned or not makers[0].doubt or _swapped(likely, pair) < _SWAPPED:
        return asked
    ask = f"'{makers[0].value}' may be the range as well as the maker"
    return [replace(one, doubt=one.doubt or ask) if one.name == "range" else one for one in asked]


def _named(found: Headings) -> tuple[Pair, dict[Pair, float]]:
    """The likeliest option and the probability of each; where one name is said to be whom the
    yarn is by, all others are none."""
    pair, likely = found.best()
    said = [at for at, name in enumerate(found.names) if name["made_by"] >= 1]
    if len(said) != 1 or pair[0] == said[0]:
        return pair, likely
    likely = {one: share for one, share in likely.items() if one[0] == said[0]}
    total = sum(likely.values())
    if not total:
        return found.best()
    likely = {one: share / total for one, share in likely.items()}
    return max(likely, key=likely.__getitem__), likely


_BACKING = ("made_by", "heads_address", "web", "echo", "trade")


def _web_makers(
    around: Surroundings, found: Headings | None = None, at: int = 0
) -> list[Candidate]:
    """The maker as the one web address of a tag names it, which is always asked about; none
    where something backs the name at ``at`` as the maker's."""
    if len(around.web_names) != 1 or (found and any(found.names[at][one] >= 1 for one in _BACKING)):
        return []
    (name,) = around.web_names
    spans = tuple(web_places(around.lines, name)[:1])
    doubt = f"only the web address names a maker, '{name}'"
    return [Candidate("maker", name.capitalize(), spans, {"role": 0.5}, doubt=doubt)]


def _range_without_maker(found: Headings, at: int) -> Candidate:
    piece = found.pieces[at]
    doubt = f"'{piece.text}' may be the name of the range or of the maker"
    return Candidate(
        "range", piece.text, piece.spans, {"role": 0.5, **_kept(found, at)}, doubt=doubt
    )


def _swapped(likely: Mapping[Pair, float], pair: Pair) -> float:
    """How likely the maker of ``pair`` is the range, and its range the maker."""
    maker, other = pair
    return 0.0 if other is None else likely.get((other, maker), 0.0)


def _makers(
    found: Headings, best: Pair, likely: Mapping[Pair, float], captioned: bool
) -> list[Candidate]:
    roles = [0.0] * len(found.pieces)
    for (maker, _), share in likely.items():
        roles[maker] += share
    ranked = sorted(range(len(roles)), key=lambda at: (at != best[0], -roles[at]))
    return [_maker(found, at, roles[at], captioned) for at in ranked]


def _maker(found: Headings, at: int, role: float, captioned: bool) -> Candidate:
    piece = found.pieces[at]
    cues = {"role": role, **_kept(found, at)}
    doubt = (
        _doubt(piece.text, found.web_names)
        or _in_two_lines(piece, cues)
        or _unbacked(piece.text, cues, found, captioned)
    )
    return Candidate("maker", piece.text, piece.spans, cues, doubt=doubt)


def _unbacked(name: str, cues: Mapping[str, float], found: Headings, captioned: bool) -> str:
    """What is asked of a name that stands where makers' do and has nothing else for it: no
    web address, no second place on the tag, no "by" before it, no postal address behind it,
    no word of the trade beside a range's name, which may be ``captioned``."""
    backed = any(cues[name] >= 1 for name in ("made_by", "heads_address", "web", "echo"))
    if backed or (cues["trade"] and (captioned or len(found.pieces) > 1)):
        return ""
    return f"nothing but its place says that '{name}' is the maker"


def _in_two_lines(piece: Piece, cues: Mapping[str, float]) -> str:
    """What is asked of a name that was put together of two lines."""
    if not piece.tail or cues["web"] or _HELD.search(Folded(piece.text).text):
        return ""
    return f"'{piece.text}' stands in two lines: is it one name?"


def _doubt(name: str, web_names: Collection[str]) -> str:
    """Why ``name`` may not be the maker's whole name and no more."""
    folded = Folded(name).text
    spelled = web_spellings(name)
    if _YARN_FIRST.fullmatch(folded):
        return f"'{name}' may be the name of a yarn and not of its maker"
    if _GOES_ON.fullmatch(folded):
        return f"the maker's name '{name}' seems to go on"
    by = BY.search(folded)
    if by is not None and by.start() and has_trade_word(folded[by.end() :].split()[0]):
        return f"'{name}' may be the names of a range and of its maker in one line"
    if is_only_trade(name):
        return f"'{name}' alone is hardly the maker's whole name"
    if goes_on_behind(name):
        return f"'{name}' may be the names of the maker and of the range in one line"
    likeness = {web: max(_likeness(plain, web) for plain in spelled) for web in web_names}
    like = [
        web for web in web_names if any(one in web for one in spelled) or likeness[web] >= _ALIKE
    ]
    if like and all(likeness[web] < 1 for web in like):
        return f"the maker's name '{name}' is not that of the web address, '{like[0]}'"
    return ""


def _likeness(plain: str, web: str) -> float:
    """How alike a name and that of a web address are; 1 where one of them only has a word
    of the trade more."""
    shorter, longer = sorted((plain, web), key=len)
    if longer.startswith(shorter) and is_only_trade(longer[len(shorter) :]):
        return 1.0
    return Levenshtein.normalized_similarity(plain, web)


def _ranges(
    found: Headings, best: Pair, likely: Mapping[Pair, float], around: Surroundings
) -> list[Candidate]:
    roles: dict[int | None, float] = {}
    for (_, other), share in likely.items():
        roles[other] = roles.get(other, 0.0) + share
    if roles.pop(None, 0.0) >= _NO_RANGE:
        return []
    ranked = sorted(
        (at for at in roles if at is not None and at != best[0]),
        key=lambda at: (at != best[1], -roles[at]),
    )
    return [_range(found, at, roles[at], around) for at in ranked]


def _range(found: Headings, at: int, role: float, around: Surroundings) -> Candidate:
    cues = {"role": role, **_kept(found, at)}
    piece, doubt = _with_weight(found.pieces[at], around)
    doubt = _in_two_lines(piece, cues) or doubt
    yarn = _YARN_THEN.fullmatch(piece.text)
    if yarn is not None:
        doubt = doubt or f"'{piece.text}' may be the range's whole name, or '{yarn['name']}'"
        span = Span(piece.span.line, piece.span.start + yarn.start("name"), piece.span.end)
        piece = part_of(piece, around.lines[piece.span.line], span)
    return Candidate("range", piece.text, piece.spans, cues, doubt=doubt)


def _with_weight(piece: Piece, around: Surroundings) -> tuple[Piece, str]:
    """``piece`` with the word for a weight that ends its line where that stands as near as the
    words of one name do ("Moor DK" and "Moor Aran" are two ranges), and what is to be asked:
    whether it belongs to the name."""
    line = around.lines[piece.span.line]
    for span in around.weight_spans:
        between = line.text[piece.span.end : span.start]
        ends = not any(sign.isalnum() for sign in line.text[span.end :])
        if span.line == piece.span.line and between == " " and ends and not piece.tail:
            gap = gaps_beyond_usual(line)[span.start]
            word = line.text[span.start : span.end]
            if gap < _WORD_GAP:
                piece = part_of(piece, line, Span(span.line, piece.span.start, span.end))
            if gap < _LARGEST_WORD_GAP:
                return piece, f"'{word}' may be part of the range's name, or the weight alone"
    return piece, ""


def _kept(found: Headings, at: int) -> dict[str, float]:
    """The evidence about a name that its confidence is told from beside its role."""
    names = found.names[at]
    return {name: names[name] for name in ("web", "echo", "trade", "made_by", "heads_address")}


def _with_split_names(
    candidates: Sequence[Candidate], names: Sequence[Piece], around: Surroundings
) -> list[Candidate]:
    """Asks where a heading has another name right beside it, or alike below it: the gap
    between them may be one within a name.  Maker and range may stand side by side if they are
    set unlike."""
    best = {one.name: one for one in reversed(candidates)}
    taken = [one.spans[0] for one in best.values()]
    places = {piece.span: piece for piece in names}
    asked = []
    for one in candidates:
        piece = places.get(one.spans[0])
        if piece is not None and one is best[one.name]:
            beside = [
                other
                for other in names
                if other is not piece
                and _is_beside(piece, other)
                and not _are_parted(piece, other, around.lines)
                and (other.span not in taken or may_be_one_name(piece, other))
            ]
            beside += [
                other
                for other in names
                if is_in_two_lines(piece, other, around) or is_in_two_lines(other, piece, around)
            ]
            if beside:
                doubt = f"'{beside[0].text}' beside '{one.value}' may belong to its name"
                one = replace(one, doubt=one.doubt or doubt)
        asked.append(one)
    return asked


def _are_parted(piece: Piece, other: Piece, lines: Sequence[Line]) -> bool:
    """Whether a printed mark, seen by both readers, stands between two names in one line."""
    if piece.span.line != other.span.line:
        return False
    line = lines[piece.span.line]
    first, last = sorted((piece.span, other.span), key=lambda one: one.start)
    return any(line.text[at] in _MARKS and line.agreed[at] for at in range(first.end, last.start))


def _is_beside(piece: Piece, other: Piece) -> bool:
    height_px = min(piece.height_px, other.height_px)
    in_row = piece.frame.overlap_y(other.frame) > 0.5 * height_px
    one_line = piece.span.line == other.span.line
    reach = _SIDE_REACH if one_line else _SIDE_REACH_OF_BOXES
    return in_row and -piece.frame.overlap_x(other.frame) < reach * height_px
