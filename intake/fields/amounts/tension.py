"""Tension: how many stitches and rows a swatch of 10 cm takes, as printed and as numbers.

Makers give it over 10 cm or 4 inches and mean the same by both, though 4 inches are 10.16 cm;
so the counts stand as printed.  Counts over 5 cm or 2 inches are doubled and those over 1 inch
taken four times, on the same footing.  Counts without an area are over 10 cm.  All this is
common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from intake.fields.evidence import letters_of
from intake.fields.letters import Folded, FoldedLines
from intake.records import Candidate, Field, Line, State
from intake.wording import number_text

STITCHES_FIELD, ROWS_FIELD = "stitches_per_10cm", "rows_per_10cm"

STITCHES = (
    r"(?:sts?|stitches|m|ma|maschen|mailles?|maglie|mgl|puntos|pts?|p|steken|stk|maskor|masker|mask"
    r"|msk)"
)
ROWS = (
    r"(?:r|rows?|rws|reihen|rh|rangs?|rgs?|f|ferri|righe|giri|v|vueltas|hileras|pasadas|nld|naalden"
    r"|toeren|varv|pinner|pinde|p|omg|omganger|rader)"
)
_BEFORE = r"(?<![\d.,a-z/])"
_AFTER = r"(?![a-wyz]|x(?! ?\d))\.?"
_NUMBER = r"\d{1,2}(?:[.,]5|½)?"
NUMBER_SPAN = rf"{_NUMBER}(?: ?- ?{_NUMBER})?"
_TIMES = r" ?(?:x|/|,|und|and|et|e|y|en|och|og|&|\+|-|by| ) ?"
_INCHES = r'(?:in(?:ch(?:es)?)?\b|")'
_AREA = (
    r"10 ?(?:cm)? ?x ?10 ?cm|(?:10|5)\s?cm(?: ?x ?(?:10|5) ?cm)?"
    rf"|[124] ?{_INCHES}?(?: ?x ?[124])? ?{_INCHES}|(?<=per )inch\b"
)
_SWATCH = re.compile(
    rf"(?<![\d.,])(?:10 ?(?:cm)? ?x ?10 ?cm|10 ?cm|4 ?x ?4 ?{_INCHES}|4 ?{_INCHES})"
)
_OVER = r" ?(?:=|:|-|/|per|to|over|auf|pour|su|en|op|pa|on)? ?(?:ca\.? ?)?"
_OTHER_AREA = r"(?! ?(?:=|per|to|over|auf|pour|su|en|op|pa|on) ?\d)"


def _counts(form: str, *, rows_needed: bool = False) -> str:
    """The pattern of stitches, and of rows behind them, with groups named after ``form``."""
    rows = rf"{_TIMES}(?P<rows_{form}>{NUMBER_SPAN}) ?{ROWS}{_AFTER}"
    return rf"{_BEFORE}(?P<stitches_{form}>{NUMBER_SPAN}) ?{STITCHES}{_AFTER}" + (
        rows if rows_needed else rf"(?:{rows})?"
    )


_FORMS = ("ahead", "behind", "alone")
TENSION = re.compile(
    rf"{_counts('ahead')}{_OVER}(?P<area_ahead>{_AREA})"
    rf"|(?P<area_behind>{_AREA}){_OVER}{_counts('behind')}"
    rf"|{_counts('alone', rows_needed=True)}{_OTHER_AREA}"
)
"""Stitches and rows over an area, which stands on either side; or both counts without one."""

_TIMES_10_CM = {"10": 1.0, "4": 1.0, "5": 2.0, "2": 2.0, "1": 4.0, "": 4.0}
"""How often an area of so many centimetres or inches goes into 10 cm, lengthwise."""

MOST_STITCHES, MOST_ROWS = 60.0, 99.0
LEAST_ROWS_A_STITCH, MOST_ROWS_A_STITCH = 0.8, 2.5
"""Rows over stitches of a knitted square: about 1.3 in stocking stitch and 2 in garter stitch;
common practice, no source."""


@dataclass(frozen=True, slots=True)
class Counts:
    """Stitches and rows over 10 cm: a number, a least and a most, or nothing."""

    stitches: tuple[float, ...] = ()
    rows: tuple[float, ...] = ()

    def agrees(self, other: Counts) -> bool:
        """Whether both may be the same swatch: they differ in nothing that both tell."""
        pairs = ((self.stitches, other.stitches), (self.rows, other.rows))
        return all(not mine or not theirs or mine == theirs for mine, theirs in pairs)

    @property
    def told(self) -> int:
        """How many of the two it tells."""
        return bool(self.stitches) + bool(self.rows)


NO_COUNTS = Counts()


def tension_areas(text: str) -> list[tuple[int, int]]:
    """Where folded ``text`` gives tension; ``22 m`` in one is stitches, not metres."""
    return [match.span() for match in TENSION.finditer(text)]


def prints_an_area(text: str) -> bool:
    """Whether folded ``text`` names the area of a swatch: a lone ``33 m`` may be stitches."""
    return _SWATCH.search(text) is not None


def find_tension(lines: Sequence[Line]) -> list[Candidate]:
    """Tension as printed: stitches and rows over an area.  What says the same again, as in
    another language, has the value of the fullest that does."""
    sheet = FoldedLines(lines)
    matches = list(TENSION.finditer(sheet.text))
    over_area = [match for match in matches if match["area_ahead"] or match["area_behind"]]
    shape = 1.0 if over_area else 0.6
    found = over_area or matches
    return [
        Candidate(
            "tension",
            " ".join(sheet.printed(*_fullest(match, found).span()).split()),
            sheet.spans(*match.span()),
            {"shape": shape, "caption": shape},
        )
        for match in found
    ]


def _fullest(match: re.Match[str], matches: Sequence[re.Match[str]]) -> re.Match[str]:
    """Of ``matches`` that may be the swatch of ``match`` the first with the most numbers."""
    counts = _of_match(match)
    if counts == NO_COUNTS:
        return match
    return max(
        (one for one in matches if _of_match(one).agrees(counts)),
        key=lambda one: _of_match(one).told,
    )


def counts_in(text: str) -> Counts:
    """The numbers in a printed tension; none where they cannot be those of knitting."""
    match = TENSION.search(Folded(text).text)
    return NO_COUNTS if match is None else _of_match(match)


def _of_match(match: re.Match[str]) -> Counts:
    form = next(form for form in _FORMS if match[f"stitches_{form}"])
    area = "10" if form == "alone" else match[f"area_{form}"]
    size = re.match(r"\d*", area)
    times = _TIMES_10_CM[size[0] if size else ""]
    stitches, rows = (
        tuple(times * number for number in numbers_in(match[f"{what}_{form}"] or ""))
        for what in ("stitches", "rows")
    )
    return sound(Counts(stitches, rows))


def numbers_in(text: str) -> tuple[float, ...]:
    """The number in folded ``text``, or the two of a span."""
    plain = text.replace("½", ".5").replace(",", ".")
    return tuple(float(number) for number in re.findall(r"\d+(?:\.\d+)?", plain))


def sound(counts: Counts) -> Counts:
    """``counts`` if knitting can have them, or none: a digit may be misread."""
    stitches, rows = counts.stitches, counts.rows
    for numbers, most in ((stitches, MOST_STITCHES), (rows, MOST_ROWS)):
        if numbers and not 1 <= numbers[0] <= numbers[-1] <= most:
            return NO_COUNTS
    ratios = [row / stitch for stitch, row in zip(stitches, rows, strict=False)]
    fits = all(LEAST_ROWS_A_STITCH <= ratio <= MOST_ROWS_A_STITCH for ratio in ratios)
    return counts if fits else NO_COUNTS


def span_text(numbers: Sequence[float]) -> str:
    """A span as ``3.5–4``, or one number."""
    return "–".join(dict.fromkeys(number_text(number) for number in numbers))


def with_counts(
    fields: Mapping[str, Field], lines: Sequence[Line], drawn: Sequence[Field] = ()
) -> dict[str, Field]:
    """``fields`` with stitches and rows per 10 cm, as text such as ``22`` or ``21–22``, from
    the tension in words and from those that were ``drawn`` about a square.

    Neither tells a ball from another, so nobody is asked about them: where a digit was read
    unclearly, or words and drawing differ, the field is left blank.
    """
    worded = _worded(fields["tension"], lines)
    found = dict(fields)
    for name in (STITCHES_FIELD, ROWS_FIELD):
        told = [one for one in (*worded, *drawn) if one.name == name]
        agreed = len({one.value for one in told}) == 1
        found[name] = told[0] if agreed else Field(name)
    return found


def _worded(tension: Field, lines: Sequence[Line]) -> list[Field]:
    """The numbers in the tension that was read for sure, if both readers saw their digits
    alike."""
    if tension.state is not State.SURE or not isinstance(tension.value, str):
        return []
    if any(letter.text.isdigit() and not seen for letter, seen in letters_of(lines, tension.spans)):
        return []
    return [
        Field(name, text, tension.confidence, State.SURE, line=tension.line, spans=tension.spans)
        for name, text in count_texts(counts_in(tension.value))
    ]


def count_texts(counts: Counts) -> list[tuple[str, str]]:
    """The fields that ``counts`` tell, with their text."""
    pairs = ((STITCHES_FIELD, counts.stitches), (ROWS_FIELD, counts.rows))
    return [(name, span_text(numbers)) for name, numbers in pairs if numbers]
