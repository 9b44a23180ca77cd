"""How many balls a tag stands for: a pack, or a number that somebody wrote on it.

A number read wrongly makes five balls of one.  So it is sure only where its words leave no
other meaning, every letter of them was seen alike by both readers, and nothing else on the
tag says another number; all else is asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from intake.fields.amounts.ball_words import BALL, COUNTED, MINI
from intake.fields.amounts.measures import NEED, need_areas
from intake.fields.amounts.tension import prints_an_area
from intake.fields.amounts.units import GRAMS
from intake.fields.evidence import is_witnessed, letters_of, second_reading
from intake.fields.letters import Folded, FoldedLines
from intake.fields.nearness import downness
from intake.fields.pieces import frame_of
from intake.records import Candidate, Field, Line, Span, State
from intake.wording import number_text

PACK = (
    r"(?:packs?|packet|package|packung|beutel|paquet|sachet|pochette|pacco|confezione|busta"
    r"|paquete|bolsa|pak|verpakking|zak|forpackning|pase|pakke|pakning|pose)(?![a-z])"
)
CONTENTS = (
    r"(?:contents?|contains?|inhalt|enthalt|contenu|contient|contenuto|contiene|contenido"
    r"|inhoud|bevat|innehall(?:er)?|innhold|inneholder|indhold|indeholder)(?![a-z])"
)
"""What comes before the number of balls in a pack."""

OF = r"(?:of|with|mit|zu|von|de|a|da|con|van|met|med|om|av|af)"
IN = r"(?:in|im|per|par|pro|por|i|pr\.?|dans|nel|en|a|the|einem|un|une|una|een|en|ett|et)"
COUNT = r"(?<![\d.,/-])(?P<count>\d{1,2})"
MASS = rf"x ?(?P<mass>\d{{2,3}}) ?(?:{GRAMS})(?![a-z])"

PACKS = tuple(
    re.compile(pattern)
    for pattern in (
        rf"(?<![a-z]){PACK} {OF} ?{COUNT}(?: ?{MASS}| ?{BALL}|(?![\d.,%]| ?[a-z]))",
        rf"(?<![a-z])lot de {COUNT} ?{BALL}",
        rf"{COUNT} ?-? ?(?:er)?[ -]?{PACK}",
        rf"(?<![a-z]){CONTENTS}[ :.]{{0,3}}{COUNT} ?(?:{BALL}|{MASS})",
    )
)
"""Words that say a pack, unless :data:`SOLD` goes before."""

SOLD = re.compile(rf"(?<![a-z]){IN} ?$")
"""What makes of a pack the way in which single balls are sold: "in packs of 10"."""

TIMES = re.compile(rf"{COUNT} ?{MASS}(?: ?= ?(?P<total>\d{{2,4}}) ?(?:{GRAMS})(?![a-z]))?")
"""``10 x 50 g = 500 g``."""

WHOLE = re.compile(rf"{COUNT} ?{BALL} ?{MASS}(?: ?= ?\d{{2,4}} ?(?:{GRAMS}))?(?: ?\([^)\n]*\))?")
"""``10 balls x 50 g (115 m)``: with nothing else in its line, what lies in a pack."""

_IN_WORDS = "|".join(COUNTED)
BALLS = re.compile(
    rf"{COUNT} ?{BALL}"
    rf"|(?<![a-z])(?P<word>{_IN_WORDS}) {BALL}"
    rf"|(?:{COUNT.replace('count', 'minis')}|(?<![a-z])(?P<word2>{_IN_WORDS}))"
    rf" ?(?:x ?)?(?:\d{{1,3}} ?(?:{GRAMS})[ -])?{MINI}"
)
"""A number of balls that may be meant for a garment, too."""

MARK = re.compile(r"\W*(?:x ?(?P<count>\d{1,2})|(?P<before>\d{1,2}) ?x)\W*")
"""``x5`` or ``5x`` on a line of its own, as people write it."""

MOST_ON_A_TAG = 50
"""No pack is larger, and no larger number is written on a tag (common practice, no source):
what looks so is a size or part of a code."""


def find_packs(lines: Sequence[Line]) -> list[Candidate]:
    """Candidates for ``balls`` that words announce, each number once, likeliest first;
    ``doubt`` is set where the words may mean something else."""
    sheet = FoldedLines(lines)
    shut = need_areas(sheet.text)
    found: dict[float, Candidate] = {}
    for start, one in (*_packs(sheet), *_totals(sheet), *_loose(sheet)):
        if any(left <= start < right for left, right in shut):
            continue
        assert isinstance(one.value, float)
        before = found.get(one.value)
        if before is None or (before.doubt and not one.doubt):
            found[one.value] = one
    return list(found.values())


def balls_of(
    packs: Sequence[Candidate], lines: Sequence[Line], fields: Mapping[str, Field]
) -> Field:
    """The field ``balls``: from what :func:`find_packs` found, else from a mark that nothing
    among ``fields`` accounts for.  Missing where the tag says no number: it is one ball."""
    found = list(packs) or list(_marks(lines, fields))
    if not found:
        return Field("balls")
    best, *rivals = found
    number = _text(best)
    reason = _unsure(best, rivals, lines)
    return Field(
        "balls",
        best.value,
        0.5 if reason else 0.99,
        State.DOUBTFUL if reason else State.SURE,
        " / ".join(dict.fromkeys(lines[span.line].text for span in best.spans)),
        best.spans,
        tuple(text for text in dict.fromkeys((*map(_text, rivals), "1")) if text != number),
        reason,
    )


def _unsure(best: Candidate, rivals: Sequence[Candidate], lines: Sequence[Line]) -> str:
    """Why a number of balls is asked about, in words; empty where it is sure."""
    number = _text(best)
    if not is_witnessed(lines, best.spans):
        return f"only one reader saw that the tag is for {number} balls"
    if not all(agreed for _, agreed in letters_of(lines, best.spans, spelled=False)):
        seen = second_reading(lines, best.spans)
        return f"the readers differ on whether the tag is for {number} balls: '{seen}'"
    if rivals:
        numbers = ", ".join(map(_text, (best, *rivals)))
        return f"the tag shows more than one number of balls: {numbers}"
    return best.doubt


def _packs(sheet: FoldedLines) -> Iterator[tuple[int, Candidate]]:
    for pattern in PACKS:
        for match in pattern.finditer(sheet.text):
            is_sold_so = SOLD.search(sheet.text[: match.start()])
            yield from _candidate(sheet, match, "how such balls are sold" if is_sold_so else "")


def _totals(sheet: FoldedLines) -> Iterator[tuple[int, Candidate]]:
    """A number of balls with the grams of each: sure where the grams of all stand behind."""
    for match in TIMES.finditer(sheet.text):
        whole_g = int(match["count"]) * int(match["mass"])
        is_told = match["total"] is not None and int(match["total"]) == whole_g
        yield from _candidate(sheet, match, "" if is_told else "how such balls are packed")


def _loose(sheet: FoldedLines) -> Iterator[tuple[int, Candidate]]:
    for match in BALLS.finditer(sheet.text):
        start = sheet.text.rfind("\n", 0, match.start()) + 1
        line = sheet.text[start:].partition("\n")[0].strip()
        if WHOLE.fullmatch(line):
            yield from _candidate(sheet, match, "")
            continue
        if NEED.search(line) and ":" in line:
            continue  # "Sweater, adult: about 10 balls"
        yield from _candidate(sheet, match, "what a garment takes, or how such balls are sold")


def _marks(lines: Sequence[Line], fields: Mapping[str, Field]) -> Iterator[Candidate]:
    """Marks that are no part of a value: a lot may be ``X5``."""
    taken = {span.line for field in fields.values() if field.value for span in field.spans}
    for number, line in enumerate(lines):
        match = MARK.fullmatch(Folded(line.text).text)
        if match is None or number in taken or (match["before"] and _is_of_swatch(line, lines)):
            continue
        count = int(match["count"] or match["before"])
        if 1 < count <= MOST_ON_A_TAG:
            doubt = f"'{line.text.strip()}' may say that the tag is for {count} balls"
            spans = (Span(number, 0, len(line.text)),)
            yield Candidate("balls", float(count), spans, doubt=doubt)


def _is_of_swatch(mark: Line, lines: Sequence[Line]) -> bool:
    """Whether ``mark``, "10 x", goes on below it with the other side of a swatch, "10 cm"."""
    frame = frame_of(mark, 0, len(mark.text))
    return any(
        prints_an_area(Folded(line.text).text)
        and downness(frame, frame_of(line, 0, len(line.text))) > 0
        for line in lines
    )


def _candidate(
    sheet: FoldedLines, match: re.Match[str], other_meaning: str
) -> Iterator[tuple[int, Candidate]]:
    """The candidate of a match and where it begins; none where its number is no count."""
    count = _count_of(match)
    if 1 < count <= MOST_ON_A_TAG:
        spans = sheet.spans(*match.span())
        printed = " ".join(sheet.printed(*match.span()).split())
        doubt = other_meaning and f"'{printed}' may be what the tag is for, or {other_meaning}"
        yield match.start(), Candidate("balls", float(count), spans, doubt=doubt)


def _count_of(match: re.Match[str]) -> int:
    """The number that a match counts, in digits or in words."""
    told = match.groupdict()
    digits = told.get("count") or told.get("minis")
    return int(digits) if digits else COUNTED[told.get("word") or told["word2"] or ""]


def _text(one: Candidate) -> str:
    assert isinstance(one.value, float)
    return number_text(one.value)
