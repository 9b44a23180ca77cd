"""Needle or hook size."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from intake.fields.amounts.tension import find_tension, span_text
from intake.fields.letters import FoldedLines, number_in
from intake.records import Candidate, Line

DECIMAL = r"\d{1,2}(?:[.,]\d{1,2}|[½¼¾])?"
RANGE = rf"(?P<low>{DECIMAL})(?:\s?(?:mm)?\s?(?:-|/|to|bis|a|till|til|tot)\s?(?P<high>{DECIMAL}))?"
BEFORE = r"(?:(?<![\d.,a-z/])|(?<=\bus)|(?<=\buk))"
MM = re.compile(rf"{BEFORE}{RANGE}\s?mm(?![a-z])")
TOOL = (
    r"(?:knitting\s?|strick|brei|strikk?e?)?(?:needles?|nadeln?|nadelstarke|nadelst\.?|aiguilles?|aig\.|"
    r"ferri|aghi|agujas?|naald(?:en)?|stickor|pinner?|pinde?|strikkepinde?r?|nld)"
)
HOOK = (
    r"(?:crochet\s?)?hooks?|hakelnadeln?|crochets?|uncinetto|ganchillo|haaknaald|virknal|heklenal"
    r"|haeklenal"
)
NUMBERED = r"(?:\s?(?:no|nr|n|size|st|starke|dikte|maat|stl|str|gr)(?![a-z])[.°]?)?"
NAMED = re.compile(
    rf"(?P<tool>\b(?:{TOOL})|\b(?:{HOOK})){NUMBERED}\s?[:.]?\s?{RANGE}(?P<unit>\s?mm)?"
    r"(?![\d%a-z.,]|[-/]\d|\s?(?:cm|[gmx]\b))"
)
OTHER_SIZE = re.compile(
    r"\b(?P<country>us|uk)\s?(?:size|no\.?|nr\.?)?\s?"
    r"(?P<size>\d{1,2}(?:\.5|½|\s1/2)?)(?![\d,.])"
)

US_SIZES_MM = {
    "0": 2.0, "1": 2.25, "2": 2.75, "3": 3.25, "4": 3.5, "5": 3.75, "6": 4.0, "7": 4.5,
    "8": 5.0, "9": 5.5, "10": 6.0, "10.5": 6.5, "11": 8.0, "13": 9.0, "15": 10.0, "17": 12.75,
}  # fmt: skip
"""United States needle sizes in mm: Craft Yarn Council's list, entered from memory."""

UK_SIZES_MM = {
    "14": 2.0, "13": 2.25, "12": 2.75, "11": 3.0, "10": 3.25, "9": 3.75, "8": 4.0, "7": 4.5,
    "6": 5.0, "5": 5.5, "4": 6.0, "3": 6.5, "2": 7.0, "1": 7.5, "0": 8.0,
}  # fmt: skip
"""Old British needle sizes in mm: common practice, no source."""

SMALLEST_MM, LARGEST_MM = 1.0, 30.0


def find_tools(lines: Sequence[Line]) -> list[Candidate]:
    """Candidates for ``needle_mm`` and ``tension``, each likeliest first."""
    return [*find_needle_mm(lines), *find_tension(lines)]


def find_needle_mm(lines: Sequence[Line]) -> list[Candidate]:
    """Needle sizes in mm, likeliest first, as text: ``4`` or ``3.5–4``.

    Only where no needle is named a hook or a bare size in mm counts, and only where there
    is none of these a size of the United States or Britain, converted, with a note.
    """
    sheet = FoldedLines(lines)
    named = list(named_sizes(sheet))
    needles = [each for each in named if each.cues["caption"] == 1.0]
    found = needles or named or list(plain_millimetres(sheet)) or list(converted_sizes(sheet))
    return one_of_each(sorted(found, key=lambda each: -sum(each.cues.values())))


def one_of_each(candidates: Sequence[Candidate]) -> list[Candidate]:
    """The first candidate for each value."""
    first: dict[object, Candidate] = {}
    for candidate in candidates:
        first.setdefault(candidate.value, candidate)
    return list(first.values())


def named_sizes(sheet: FoldedLines) -> Iterator[Candidate]:
    """Sizes behind the word for a needle or hook."""
    for match in NAMED.finditer(sheet.text):
        tool = "hook" if re.fullmatch(HOOK, match["tool"]) else "needle"
        sure = 1.0 if match["unit"] else 0.8
        yield from size(sheet, match, {"caption": 1.0 if tool == "needle" else 0.7, "unit": sure})


def plain_millimetres(sheet: FoldedLines) -> Iterator[Candidate]:
    """Sizes by their unit alone."""
    for match in MM.finditer(sheet.text):
        yield from size(sheet, match, {"caption": 0.5, "unit": 1.0})


def size(sheet: FoldedLines, match: re.Match[str], cues: dict[str, float]) -> Iterator[Candidate]:
    """The candidate for a matched size, if it is one that needles have."""
    ends = [decimal_of(match["low"]), decimal_of(match["high"] or match["low"])]
    first, last = "low", "high" if match["high"] else "low"
    if ends[0] > ends[1]:  # another country's number before the size, as in US 6 / 4 mm
        if "-" in match[0]:
            return  # "19-5" is a code
        ends, first = ends[1:], "high"
    if not SMALLEST_MM <= ends[0] <= ends[-1] <= LARGEST_MM:
        return
    start, end = match.start(first), match.end(last)
    yield Candidate("needle_mm", span_text(ends), sheet.spans(start, end), cues)


def decimal_of(text: str) -> float:
    """A size with a decimal point, comma or printed fraction."""
    for sign, part in (("½", 0.5), ("¼", 0.25), ("¾", 0.75)):
        if text.endswith(sign):
            return float(text[:-1]) + part
    number = number_in(text)
    assert number is not None, "sizes are matched as digits"
    return number[0]


def converted_sizes(sheet: FoldedLines) -> Iterator[Candidate]:
    """Sizes printed in the numbering of one country only."""
    for match in OTHER_SIZE.finditer(sheet.text):
        table = US_SIZES_MM if match["country"] == "us" else UK_SIZES_MM
        mm = table.get(match["size"].replace("½", ".5").replace(" 1/2", ".5"))
        if mm is None:
            continue
        note = f"needle size converted from {match['country'].upper()} {match['size']}"
        cues = {"caption": 0.6, "unit": 0.6}
        yield Candidate("needle_mm", f"{mm:.10g}", sheet.spans(*match.span("size")), cues, note)
