"""What is asked about a printed measure though it was read well: "90-110 g", "2 balls 100 g"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.amounts.ball_words import BALL
from intake.fields.amounts.measures import Measure
from intake.fields.letters import FoldedLines
from intake.records import Candidate
from intake.wording import number_text

_BALLS_OF = re.compile(rf"(?<![\d.,/])[2-9] ?{BALL}(?P<between>[^\n\d]*)$")
_OF_EACH = re.compile(
    r"(?<![a-z])(?:x|a|al|of|de|da|di|je|zu|von|van|om|pa|por|per|each|cada|chaque)(?![a-z])|[@(]"
)
_BALLS_BEHIND = re.compile(
    rf"\s?(?:\(|in|i|auf|fordelt pa|verdeeld over|su|sur|dans|en|=) ?[2-9] ?{BALL}"
    r"(?! (?:til|for|fur|voor))"
)
_EACH_BEHIND = re.compile(
    r"[^\n]{0,12}(?<![a-z])(?:each|chacune?|cada un[oa]|ciascun[oa]|stuck|elk|per stuk|hver|vardera"
    r"|pro)(?![a-z])"
)


_WOUND = r"(?P<mass>20|25|40|50|75|100|125|150|200|250|400|500)"
"""Masses that most balls are wound to."""

_MISREAD_GRAMS = re.compile(
    r"(?:^|[a-z]\s?[-–—/=·|]\s?|(?:net\w*|peso|poids|weight|wt|gewicht|v[a-z]{1,3}[gk]t)[ .:]{1,3})"
    rf"(?P<print>{_WOUND}\s?[9q8£§])$",
    re.MULTILINE,
)
"""A mass on a line of its own, behind a length or behind its caption ("Vægt", "Vikt"), whose unit
was read as a look-alike."""

_LOST_GRAMS = re.compile(
    r"(?<![a-z])(?:(?:peso|poids|netto?|neto|net)(?: net\w*)?|(?:net )?(?:weight|wt)"
    r"|(?:netto)?(?:gewicht|vaegt|vekt|vikt))"
    rf"[ .:]{{1,3}}(?:ca\.? )?(?P<print>{_WOUND})(?: ?[,;/(]| ?$)",
    re.MULTILINE,
)
"""A mass behind its caption whose unit is lost: "Gewicht 100 , looplengte 186 m"."""

_GRAMS_ALONE = re.compile(
    rf"(?<![^\n])(?P<print>(?!gr\.? ?40)gr?s?\.? ?{_WOUND})(?![\d.,]*\d|[./-]\d)"
)
"""A mass at the beginning of its line with its unit before it: "Gr. 50" may be a garment's size."""


def of_a_range(measure: Measure) -> str:
    """The doubt about a measure that a label gives as lying between two."""
    if not measure.least:
        return ""
    return f"{number_text(measure.least)} to {measure.printed} are printed"


def of_several_balls(sheet: FoldedLines, masses: Sequence[Measure]) -> str:
    """The doubt about grams behind a number of balls and a name, which nothing says are those of
    one: "2 balls Longmere 100 g"."""
    for one in masses:
        if one.count == 1 and _BALLS_BEHIND.match(sheet.text, one.end):
            return f"{one.printed} may be the mass of one ball or of all of them"
        before = _BALLS_OF.search(sheet.text[: one.start].rpartition("\n")[2])
        if before is None or one.count > 1 or _EACH_BEHIND.match(sheet.text, one.end):
            continue
        if before["between"].strip() and not _OF_EACH.search(before["between"]):
            return f"{one.printed} may be the mass of one ball or of all of them"
    return ""


def misread_grams(sheet: FoldedLines) -> list[Candidate]:
    """A mass whose g was read as a look-alike, on a line of its own or behind a length:
    "157 m / 50 9", or whose g is lost or stands before it.  A question, with the mass that balls
    are wound to as its likely answer."""
    asked = (
        (_MISREAD_GRAMS, "the unit was not read"),
        (_LOST_GRAMS, "no unit was read behind it"),
        (_GRAMS_ALONE, "or a size or a number"),
    )
    return [
        Candidate(
            "mass_g",
            float(match["mass"]),
            sheet.spans(*match.span("print")),
            {"shape": 0.2},
            doubt=f"'{sheet.printed(*match.span('print'))}' may be {match['mass']} g: {why}",
        )
        for form, why in asked
        for match in form.finditer(sheet.text)
    ]
