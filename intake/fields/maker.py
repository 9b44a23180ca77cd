"""Maker and range: the names that a tag is headed with."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from intake.fields.captions import Role
from intake.fields.codes import whole_name
from intake.fields.letters import Folded
from intake.fields.links import Link
from intake.fields.pieces import Piece
from intake.records import Candidate

_TRADE = re.compile(
    r"\b(?:yarns?|wools?|woollens|spinners|spinning|mills?|fib(?:re|er)s|threads|textiles"
    r"|garne?|wolle|woll\w*|strickgarne|spinnerei|manufaktur|wollwerk|faerberei|farberei"
    r"|laines?|filature|fils|tricots?|lainerie|filat[oi]|filatura|lane|lanificio|maglieria"
    r"|lanas|hilos|hilados|hilaturas|hilatura|wol|garens?|spinnerij|wolhuis|ull\w*|uld\w*"
    r"|spinneri\w*|\w*garn|\w*garner|\w*spinneri|& co|co\.|gmbh|ltd|s\.?r\.?l|bv|aps|ab|as"
    r"|and (?:sons|daughters)|& sohne?|& fils|e figli|y hijos|fratelli|hermanos|freres)(?!\w)"
)
_GENERIC = re.compile(
    r"(?:hand)?(?:knitting|strick|haekel|hakel|crochet|tricot\w*|maglia|punto|breien|brei|strikk\w*|"
    r"stick\w*|virk\w*)[ -]?(?:yarns?|wool|garne?|wolle|garen)?|fil a tricoter|laine a tricoter|"
    r"filato(?: per maglia)?|hilo(?: para tejer)?|yarn|garn|wolle|wool|laine|lana|wol|ull|uld|"
    r"new|neu|nouveau|nuovo|nuevo|ny|premium|quality|hand dyed|handgefaerbt|"
    r"front|back|thank you|handmade"
)


def find_maker(
    links: Sequence[Link],
    free: Sequence[Piece],
    weight_lines: Collection[int],
    web_names: Collection[str],
) -> list[Candidate]:
    """Possible makers and ranges (candidates of both names), best first.

    ``free`` are the pieces that nothing else accounts for; ``weight_lines`` the numbers
    of the lines that print a weight word, which mostly stands behind the range's name;
    ``web_names`` the folded names in the tag's web addresses.
    """
    names = [piece for piece in free if _is_heading(piece)]
    ranges = [
        _candidate("range", one.piece, one.closeness, 1.0)
        for one in links
        if one.caption.role is Role.RANGE
    ]
    tallest_px = max((piece.height_px for piece in names), default=1.0)
    makers = [
        _candidate("maker", piece, _is_trade(piece, web_names), piece.height_px / tallest_px)
        for piece in names
    ]
    makers.sort(key=_score, reverse=True)
    if not ranges:
        others = [piece for piece in names if not makers or piece.span != makers[0].spans[0]]
        ranges = [
            _candidate(
                "range",
                piece,
                float(piece.span.line in weight_lines),
                piece.height_px / tallest_px,
            )
            for piece in others
        ]
    return makers + sorted(ranges, key=_score, reverse=True)


def _candidate(name: str, piece: Piece, caption: float, size: float) -> Candidate:
    return Candidate(name, piece.text, (piece.span,), {"caption": caption, "size": size})


def _score(candidate: Candidate) -> float:
    return candidate.cues["caption"] + candidate.cues["size"]


def _is_heading(piece: Piece) -> bool:
    name = whole_name(piece.text)
    return name is not None and not _GENERIC.fullmatch(Folded(piece.text).text)


def _is_trade(piece: Piece, web_names: Collection[str]) -> float:
    """1 for a name with a word of the trade in it, or one that the web address repeats."""
    folded = Folded(piece.text).text
    joined = re.sub(r"[^a-z0-9]", "", folded)
    if any(joined and (joined in name or name in joined) for name in web_names if len(name) > 3):
        return 1.0
    return 0.9 if _TRADE.search(folded) else 0.0
