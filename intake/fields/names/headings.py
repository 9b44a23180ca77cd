"""Headings: which of a tag's free names is the maker's, and which the range's.

Every pair of names is an option, and every name as the maker without a range.  Each
option is weighed by what is known of its names (size, place, words of the trade, the web
address) in a conditional logistic regression, a model of discrete choice (D. McFadden,
"Conditional logit analysis of qualitative choice behavior", 1974; from memory).  Its
figures are in ``headings.json`` beside this file; ``fixtures/fit_headings.py`` fits them on
drawn tags with known truth.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from itertools import product
from statistics import median

from intake.fields.care.events import VOCABULARY as CARE_WORDS
from intake.fields.clutter import begins_with_postal_address, heads_address, web_spellings
from intake.fields.fibre.print import FIBRE_WORDS, KIND_WORDS
from intake.fields.letters import WORD, Folded
from intake.fields.names.colour_words import has_colour_word
from intake.fields.names.leads import made_by
from intake.fields.names.trade_words import has_firm_word, has_trade_word, is_only_trade
from intake.fields.pieces import Frame, Piece, ends_line, is_letter_spaced, opens_line
from intake.records import Line, Span

Features = dict[str, float]
"""Named evidence about a name or a pair of names, each between -1 and 1."""

Pair = tuple[int, int | None]
"""An option: the number of the maker's name, and of the range's if there is one."""

_REACH = 4.0
"""Beyond this distance, in heights of the smaller print, two names stand apart."""

_NEXT_LINE = 0.6
"""The lines of a firm's name and of its address are at most so many heights of the smaller one
apart."""

_LARGER = 1.6
"""A name is set in at most so many times the size of the address below it; a larger one may be
the range's as well."""

_ECHO_LETTERS = 5
"""A word of so many letters that stands elsewhere on the tag too is an echo."""

_QUALITY = re.compile(
    r"\b(?:soft|fine|tweed|merino|baby|cotton|silk\w*|alpaca|mohair|sock\w*|fino|fina|extra|super"
    r"|classic|natur\w*|organic|bio|deluxe|light|lana|lino|coton|algodon|seta|soie|seide|i{1,3})\b"
)
"""Words that ranges are named with (common practice, no source)."""


_FIBRES = FIBRE_WORDS.keys() | KIND_WORDS.keys()

_YARN_FIRST = re.compile(r"(?:yarn|garn|garen|fil|hilo|filato) \w.*")

_ARTICLE = re.compile(
    r"(?:the|la|le|les|il|el|los|las|lo|gli|i|de|het|den|det|aux?|chez|die|der|das|zum|zur|bei)\s.+|l'.+"
)
"""Names that begin so are a house's more often than a yarn's (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What stands on a tag beside its free names: the frames of weight words and where they
    stand in their lines; the frames of composition, length and mass, of free codes, and of
    addresses; the names in web addresses (folded); all lines, and the numbers of those with an
    address; and the frames of what captions announce as the shade, as the lot, and as nothing but
    the shade's code."""

    weights: Sequence[Frame]
    weight_spans: Sequence[Span]
    facts: Sequence[Frame]
    codes: Sequence[Frame]
    addresses: Sequence[Frame]
    web_names: Collection[str]
    lines: Sequence[Line]
    addressed: Collection[int] = ()
    shades: Sequence[Frame] = ()
    lots: Sequence[Frame] = ()
    shade_codes: Sequence[Frame] = ()


@dataclass(frozen=True, slots=True)
class Headings:
    """All options of one tag: its names, and the evidence for each as the maker or the
    range, and for each pair; and the names in its web addresses."""

    pieces: Sequence[Piece]
    names: Sequence[Features]
    pairs: Mapping[Pair, Features]
    web_names: Collection[str] = ()

    def best(self) -> tuple[Pair, dict[Pair, float]]:
        """The likeliest option, and the probability of each."""
        scores = {pair: _score(self, pair) for pair in self.pairs}
        top = max(scores.values())
        weights = {pair: math.exp(score - top) for pair, score in scores.items()}
        total = sum(weights.values())
        likely = {pair: weight / total for pair, weight in weights.items()}
        return max(likely, key=likely.__getitem__), likely


def headings(pieces: Sequence[Piece], around: Surroundings) -> Headings:
    """All options for ``pieces``, which may name the maker or the range."""
    tallest_px = max((piece.height_px for piece in pieces), default=1.0)
    usual_px = median([line.height_px for line in around.lines] or [1.0])
    first = _first(pieces)
    tops = [piece.frame.top for piece in pieces]
    lowest = max((line.centre[1] for line in around.lines), default=1.0)
    folded = [Folded(line.text).text for line in around.lines]
    names = [
        {
            "size": piece.height_px / tallest_px,
            "large": min(1.0, max(-1.0, math.log2(piece.height_px / usual_px) / 2)),
            "first": float(piece is first),
            "down": min(1.0, max(0.0, piece.frame.top / max(1.0, lowest))),
            "lowest": float(len(pieces) > 1 and piece.frame.top == max(tops)),
            **_wording(piece, around),
            "echo": float(_is_echoed(piece, folded, around.addressed)),
            **_company(piece, around),
        }
        for piece in pieces
    ]
    numbers = range(len(pieces))
    pairs = {
        (maker, other): _pair(pieces, maker, other, around)
        for maker, other in product(numbers, (*numbers, None))
        if maker != other
    }
    return Headings(pieces, names, pairs, around.web_names)


def _first(pieces: Sequence[Piece]) -> Piece | None:
    """The name that is read first: the topmost, of several in its row the leftmost."""
    top = min(pieces, key=lambda piece: piece.frame.top, default=None)
    if top is None:
        return None
    row = [piece for piece in pieces if piece.frame.top - top.frame.top < top.height_px / 2]
    return min(row, key=lambda piece: piece.frame.left)


def _wording(piece: Piece, around: Surroundings) -> Features:
    """What the name itself says."""
    folded = Folded(piece.text).text
    words = piece.text.split()
    line = around.lines[piece.span.line]
    agreed = line.agreed[piece.span.start : piece.span.end]
    return {
        "trade": float(has_trade_word(piece.text)),
        "firm": float(has_firm_word(piece.text)),
        "only_trade": float(is_only_trade(piece.text)),
        "and": float("&" in words or "and" in words or "et" in words or "y" in words),
        "quality": float(_QUALITY.search(folded) is not None),
        "capitals": float(piece.text.isupper()),
        "words": min(1.0, (len(words) - 1) / 2),
        "small_words": float(any(word[0].islower() and len(word) > 2 for word in words)),
        "short": float(len(piece.text) < _ECHO_LETTERS),
        "agreed": sum(agreed) / max(1, len(agreed)),
        "made_by": made_by(around.lines, piece),
        "heads_address": float(
            heads_address(line, piece.span) or stands_over_address(around.lines, piece)
        ),
        "web": float(_is_web_name(piece.text, around.web_names)),
        "colour": float(has_colour_word(piece.text)),
        "yarn_first": float(_YARN_FIRST.fullmatch(folded) is not None),
        "article": float(_ARTICLE.fullmatch(folded) is not None),
        "quoted": float(piece.is_quoted),
        "spaced": float(is_letter_spaced(line.text)),
        "opens_line": float(opens_line(line, piece) and not ends_line(line, piece)),
        "ends_line": float(ends_line(line, piece) and not opens_line(line, piece)),
    }


def stands_over_address(lines: Sequence[Line], piece: Piece) -> bool:
    """Whether a name, alone in its line, stands right above a line that begins with a postal
    address, flush with it or centred, as a firm's name does."""
    line = lines[piece.span.line]
    rest = line.text[: piece.span.start] + line.text[piece.span.end :]
    return not any(sign.isalnum() for sign in rest) and any(
        abs(other.quad[0][1] - line.quad[3][1]) < _NEXT_LINE * min(line.height_px, other.height_px)
        and _aside_px(line, other) < min(line.height_px, other.height_px)
        and line.height_px < _LARGER * other.height_px
        and begins_with_postal_address(other)
        for other in lines
    )


def _aside_px(line: Line, other: Line) -> float:
    """How far the left ends of two lines are apart, or their middles if these are nearer."""
    return min(abs(line.quad[0][0] - other.quad[0][0]), abs(line.centre[0] - other.centre[0]))


def _company(piece: Piece, around: Surroundings) -> Features:
    """What stands near the name."""
    return {
        "by_weight": _nearness(piece, around.weights),
        "by_facts": _nearness(piece, around.facts),
        "by_code": _nearness(piece, around.codes),
        "by_address": _nearness(piece, around.addresses),
        "by_shade": _nearness(piece, around.shades),
        "by_lot": _nearness(piece, around.lots),
    }


def _pair(pieces: Sequence[Piece], maker: int, other: int | None, around: Surroundings) -> Features:
    """What two names are to each other, and what they leave over."""
    rest = [piece for at, piece in enumerate(pieces) if at not in (maker, other)]
    untold = float(not around.shades)
    left = {
        "leaves_colour": untold * float(any(has_colour_word(piece.text) for piece in rest)),
        "leaves_one": untold * float(len(rest) == 1),
        "leaves_none": untold * float(not rest),
    }
    if other is None:
        return {"none": 1.0, "none_alone": float(len(pieces) == 1), **left}
    one, two = pieces[maker], pieces[other]
    between = [
        piece
        for piece in pieces
        if piece is not one and piece is not two and _stands_between(piece.frame, one, two)
    ]
    return {
        "near": _nearness(two, [one.frame]),
        "below": float(two.frame.top >= one.frame.top),
        "larger": min(1.0, max(-1.0, math.log2(two.height_px / one.height_px))),
        "one_case": float(one.text.isupper() == two.text.isupper()),
        "between": float(bool(between)),
        "column": float(one.frame.overlap_x(two.frame) > 0),
        "one_line": float(one.span.line == two.span.line),
        **left,
    }


def _stands_between(frame: Frame, one: Piece, two: Piece) -> bool:
    top, bottom = sorted((one.frame.top, two.frame.top))
    left = min(one.frame.left, two.frame.left)
    right = max(one.frame.right, two.frame.right)
    return top < frame.top < bottom and frame.left < right and frame.right > left


def _nearness(piece: Piece, frames: Sequence[Frame]) -> float:
    """1 where the nearest of ``frames`` touches ``piece``, 0 where all are out of reach."""
    return max((_near(piece, frame) for frame in frames), default=0.0)


def _near(piece: Piece, frame: Frame) -> float:
    height_px = max(1.0, min(piece.height_px, frame.height_px))
    apart_px = max(-piece.frame.overlap_x(frame), -piece.frame.overlap_y(frame), 0.0)
    return max(0.0, 1 - apart_px / (_REACH * height_px))


def _is_web_name(text: str, web_names: Collection[str]) -> bool:
    return any(
        spelled in name or name in spelled
        for spelled in web_spellings(text)
        for name in web_names
        if min(len(name), len(spelled)) > 3
    )


def _is_echoed(piece: Piece, lines: Sequence[str], addressed: Collection[int]) -> bool:
    """Whether a long word of the name, no fibre's and none of care, stands in another of the folded
    lines too, or begins a word of an address, which those ``addressed`` hold by their numbers."""
    words = [word[0] for word in WORD.finditer(Folded(piece.text).text)]
    words = [
        word
        for word in words
        if len(word) >= _ECHO_LETTERS
        and not (is_only_trade(word) or word in _FIBRES or word in CARE_WORDS)
    ]
    return any(
        re.search(rf"\b{word}" + ("" if at in addressed else r"\b"), line)
        for word in words
        for at, line in enumerate(lines)
        if at != piece.span.line
    )


@cache
def _weights() -> dict[str, dict[str, float]]:
    text = resources.files("intake.fields.names").joinpath("headings.json").read_text("utf-8")
    weights: dict[str, dict[str, float]] = json.loads(text)["weights"]
    return weights


def _score(found: Headings, pair: Pair) -> float:
    weights = _weights()
    maker, other = pair
    score = _weighed(weights["maker"], found.names[maker])
    score += _weighed(weights["pair"], found.pairs[pair])
    return score + (_weighed(weights["range"], found.names[other]) if other is not None else 0.0)


def _weighed(weights: Mapping[str, float], features: Features) -> float:
    return sum(weights.get(name, 0.0) * value for name, value in features.items())
