"""Maker and range: the names that a tag is headed with."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from intake.fields.captions import Role
from intake.fields.codes import code_and_name, whole_name
from intake.fields.letters import Folded
from intake.fields.links import Link
from intake.fields.pieces import Piece
from intake.records import Candidate, Line

_HEADING_REACH = 4.0
"""How far the range may stand from the maker's name, in heights of the smaller one."""

_SIDE_REACH = 1.5
_SIDE_REACH_OF_BOXES = 1.0
"""Names nearer than this in one row, in line heights, may be one name; the second where the
line finder parted them too (on drawn tags all 12 such pairs from 1.0 on were two names)."""

_ONE_SIZE = 1.2

_NEARLY_TALLEST = 0.95

_TRADE = re.compile(
    r"\b(?:yarns?|wools?|woollens|spinners|spinning|mills?|fib(?:re|er)s|threads|textiles"
    r"|garne?|wolle|woll\w*|\w+wolle|strickgarne|spinnerei|manufaktur|wollwerk|faerberei|farberei"
    r"|laines?|maison|filature|fils|tricots?|lainerie|filat[oi]|filatura|lane|lanificio|maglieria"
    r"|lanas|hilos|hilados|hilaturas|hilatura|wol|\w*garen\w*|spinnerij|wolhuis|ull\w*|uld\w*"
    r"|spinneri\w*|\w*garn|\w*garner|\w*spinneri|& co|co\.|gmbh|ltd|s\.?r\.?l|bv|aps|ab|as"
    r"|and (?:sons|daughters)|& sohne?|& fils|e figli|y hijos|fratelli|hermanos|freres)(?!\w)"
)
_FIRM = re.compile(
    r"\b(?:spinners|woollens|mills?|spinnerei|manufaktur|wollwerk|filature|lainerie|filatura"
    r"|lanificio|maglieria|hilatura\w*|hilados|tejidos|spinnerij|\w*spinneri\w*|gmbh|ltd|s\.?r\.?l"
    r"|& co|& sohne?|& fils)(?!\w)"
)
_GENERIC = re.compile(
    r"(?:hand)?(?:knitting|strick|haekel|hakel|crochet|tricot\w*|maglia|punto|breien|brei|strikk\w*|"
    r"stick\w*|virk\w*)[ -]?(?:yarns?|wool|garne?|wolle|garen)?|fil a tricoter|laine a tricoter|"
    r"filato(?: per maglia)?|hilo(?: para tejer)?|yarn|garn|wolle|wool|laine|lana|wol|ull|uld|"
    r"new|neu|nouveau|nuovo|nuevo|ny|premium|quality|hand dyed|handgefaerbt|"
    r"front|back|thank you|handmade|approx|circa|environ|aprox|gomitolo|knauel|pelote|ovillo|"
    r"bol|nystan|noste|nogle|ball|skein|strang|echeveau|matassa|madeja|made with love"
)


def find_maker(
    links: Sequence[Link],
    free: Sequence[Piece],
    weight_lines: Collection[int],
    web_names: Collection[str],
    firms: Sequence[str],
) -> list[Candidate]:
    """Possible makers and ranges (candidates of both names), best first.

    ``free`` are the pieces that nothing else accounts for; ``weight_lines`` the numbers
    of the lines that print a weight word, which mostly stands behind the range's name;
    ``web_names`` the folded names in the tag's web addresses; ``firms`` the lines that name
    a firm (see :func:`firm_lines`).
    """
    coded = {piece.span.line for piece in free if code_and_name(piece.text)[0] is not None}
    names = [piece for piece in free if _is_heading(piece) and piece.span.line not in coded]
    tallest_px = max((piece.height_px for piece in names), default=1.0)
    top = _head(names)
    makers = _ranked(_maker(piece, tallest_px, piece is top, web_names) for piece in names)
    shades = [one.piece.text for one in links if one.caption.role is Role.SHADE]
    makers = _with_better_named(makers, [*firms, *filter(has_trade_word, shades)])
    ranges = [
        Candidate("range", one.piece.text, (one.piece.span,), {"caption": 1.0, "size": 1.0})
        for one in links
        if one.caption.role is Role.RANGE
    ]
    if not ranges and makers:
        head = next(piece for piece in names if piece.span == makers[0].spans[0])
        ranges = [
            _range(piece, head, tallest_px, weight_lines) for piece in names if piece is not head
        ]
    return _with_split_names(makers + _ranked(ranges), names)


def _with_split_names(candidates: Sequence[Candidate], names: Sequence[Piece]) -> list[Candidate]:
    """Asks where a heading has another name right beside it: the gap between them may be
    one within a name.  Maker and range may stand side by side if they are set unlike."""
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
                and (other.span not in taken or _may_be_one_name(piece, other))
            ]
            if beside:
                doubt = f"'{beside[0].text}' beside '{one.value}' may belong to its name"
                one = replace(one, doubt=one.doubt or doubt)
        asked.append(one)
    return asked


def firm_lines(lines: Sequence[Line]) -> list[str]:
    """The lines with a word that only firms have in their names, be it in small print."""
    return [line.text for line in lines if _FIRM.search(Folded(line.text).text)]


def _with_better_named(makers: Sequence[Candidate], firms: Sequence[str]) -> list[Candidate]:
    """Asks where the heading that is set like the maker's has no word of the trade and
    another one has, or a firm is named in small print."""
    if not makers or makers[0].cues["trade"] or makers[0].cues["web"]:
        return list(makers)
    named = [str(one.value) for one in makers[1:] if one.cues["trade"]]
    rivals = [name for name in (*named, *firms) if str(makers[0].value) not in name]
    if not rivals:
        return list(makers)
    doubt = f"the maker may be '{makers[0].value}' or '{rivals[0]}'"
    return [replace(makers[0], doubt=makers[0].doubt or doubt), *makers[1:]]


def _is_beside(piece: Piece, other: Piece) -> bool:
    height_px = min(piece.height_px, other.height_px)
    in_row = piece.frame.overlap_y(other.frame) > 0.5 * height_px
    one_line = piece.span.line == other.span.line
    reach = _SIDE_REACH if one_line else _SIDE_REACH_OF_BOXES
    return in_row and -piece.frame.overlap_x(other.frame) < reach * height_px


def _may_be_one_name(piece: Piece, other: Piece) -> bool:
    """Whether two pieces are set in one size and one case and neither is plainly a whole
    name, as a word of the trade with another word is."""
    small, large = sorted((piece.height_px, other.height_px))
    whole = any(has_trade_word(one.text) and " " in one.text for one in (piece, other))
    alike = large < _ONE_SIZE * small and piece.text.isupper() == other.text.isupper()
    return alike and not whole


def _head(names: Sequence[Piece]) -> Piece | None:
    """The heading that is read first: the topmost, of several in its row the leftmost."""
    top = min(names, key=lambda piece: piece.frame.top, default=None)
    if top is None:
        return None
    row = [piece for piece in names if piece.frame.top - top.frame.top < top.height_px / 2]
    return min(row, key=lambda piece: piece.frame.left)


def _maker(piece: Piece, tallest_px: float, is_head: bool, web_names: Collection[str]) -> Candidate:
    """A heading as the maker: the largest print, the first to be read, a word of the trade,
    a name of the web address."""
    size = piece.height_px / tallest_px
    first = float(is_head)
    cues = {
        "size": size,
        "first": first,
        "heads": first * float(size > _NEARLY_TALLEST),
        "trade": float(has_trade_word(piece.text)),
        "web": float(_is_web_name(piece, web_names)),
    }
    only_trade = _TRADE.fullmatch(Folded(piece.text).text) is not None
    doubt = f"'{piece.text}' alone is hardly the maker's whole name" if only_trade else ""
    return Candidate("maker", piece.text, (piece.span,), cues, doubt=doubt)


def _range(
    piece: Piece, maker: Piece, tallest_px: float, weight_lines: Collection[int]
) -> Candidate:
    """A heading as the range: large print beside the maker's name or the weight word."""
    height_px = max(1.0, min(piece.height_px, maker.height_px))
    apart_px = max(-piece.frame.overlap_x(maker.frame), -piece.frame.overlap_y(maker.frame), 0.0)
    cues = {
        "size": piece.height_px / tallest_px,
        "below": float(piece.frame.top >= maker.frame.top),
        "near": max(0.0, 1 - apart_px / (_HEADING_REACH * height_px)),
        "weight_word": float(piece.span.line in weight_lines),
    }
    return Candidate("range", piece.text, (piece.span,), cues)


_WEIGHTS = {
    "caption": 2.0, "size": 1.0, "trade": 0.8, "web": 1.0, "near": 0.5, "weight_word": 0.5,
    "first": 0.3, "heads": 0.1, "below": 0.1,
}  # fmt: skip
"""How much each cue counts when headings are ranked against each other."""


def _score(candidate: Candidate) -> float:
    return sum(_WEIGHTS[name] * value for name, value in candidate.cues.items())


def has_trade_word(text: str) -> bool:
    """Whether a word of the yarn trade stands in a name, as in most makers' names."""
    return _TRADE.search(Folded(text).text) is not None


def _ranked(candidates: Iterable[Candidate]) -> list[Candidate]:
    """Best first; the cue ``lead`` tells how far each is ahead of the best of the others."""
    ranked = sorted(candidates, key=_score, reverse=True)
    scores = [_score(candidate) for candidate in ranked] + [0.0]
    return [
        replace(candidate, cues={**candidate.cues, "lead": _lead(scores, at)})
        for at, candidate in enumerate(ranked)
    ]


def _lead(scores: Sequence[float], at: int) -> float:
    best_other = scores[1] if at == 0 else scores[0]
    return max(0.0, min(1.0, scores[at] - best_other))


def _is_heading(piece: Piece) -> bool:
    name = whole_name(piece.text)
    return (
        name is not None
        and piece.text[0].isupper()
        and not _GENERIC.fullmatch(Folded(piece.text).text)
    )


def _is_web_name(piece: Piece, web_names: Collection[str]) -> bool:
    joined = re.sub(r"[^a-z0-9]", "", Folded(piece.text).text)
    return any(
        joined in name or name in joined for name in web_names if min(len(name), len(joined)) > 3
    )
