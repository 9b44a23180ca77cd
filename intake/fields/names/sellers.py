"""Who sold or imported a yarn, where nobody says whose it is."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.codes import whole_name
from intake.fields.letters import Folded
from intake.fields.names.house_words import BY_WORDS
from intake.fields.names.questions import PLACE_ONLY, may_be_range_or_maker
from intake.fields.pieces import meet
from intake.records import Candidate, Line, Span

_SELLS = re.compile(
    r"(?:.*\W)?(?:distribu\w*|distrib\.?|vertrieb\w*|vertrieben"
    r"|import(?=(?:or|oer|eur|er|ateur|atore|ador) )|import\w*|imp\."
    r"|sold|vendu|vendut[oa]"
    r"|vendid[oa]|verkocht|verkauft|saelges|selges|saljs|forhandl\w*|marketed|geleverd)"
    rf"(?:\s*[:·]| (?:{BY_WORDS})|(?<=import)(?:or|oer|eur|er|ateur|atore|ador) )\s*"
)
"""What stands before the name of who sells it (common practice, no source)."""

_NAME_ENDS = re.compile(r"\s*(?:,\s|[·•|;(]|\s[-–—]\s|$)")


def with_seller(candidates: Sequence[Candidate], lines: Sequence[Line]) -> list[Candidate]:
    """``candidates`` for maker and range, the seller's name first among the makers where only its
    place speaks for the one that stands there; that one may be the range then.  All is asked
    about: a house may have sold what another made."""
    makers = [one for one in candidates if one.name == "maker"]
    seller = next(
        (one for number, line in enumerate(lines) if (one := _seller(number, line))), None
    )
    if seller is None:
        return list(candidates)
    with_words = makers and meet(makers[0].spans[0], seller.spans[0])  # "Importert av Vikgarn AS"
    if makers and PLACE_ONLY not in makers[0].doubt and not with_words:
        return list(candidates)
    rest = [one for one in candidates if one.name != "maker"]
    if not rest and makers and not with_words:
        first = makers[0]
        doubt = may_be_range_or_maker(str(first.value))
        rest = [Candidate("range", first.value, first.spans, first.cues, doubt=doubt)]
    others = [one for one in makers if not meet(one.spans[0], seller.spans[0])]
    return [seller, *others, *rest]


def _seller(number: int, line: Line) -> Candidate | None:
    folded = Folded(line.text)
    told = _SELLS.match(folded.text)
    if told is None or told.end() >= len(folded.text):
        return None
    start, _ = folded.span(told.end(), len(folded.text))
    behind = line.text[start:]
    ends = _NAME_ENDS.search(behind)
    name = behind[: ends.start() if ends else None].strip()
    if not name[:1].isupper() or whole_name(name) is None:
        return None
    doubt = f"'{name}' sold or imported it, and nobody says who made it: whose yarn is it?"
    span = Span(number, start, start + len(name))
    return Candidate("maker", name, (span,), {"role": 0.5}, doubt=doubt)
