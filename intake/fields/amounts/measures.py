"""Measures: the lengths and masses that a tag prints, in any unit.

Which of them is the ball's is told in :mod:`intake.fields.amounts.quantities`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from intake.fields.amounts.ball_words import BALL
from intake.fields.amounts.before_numbers import CAPTION, are_thousands, least_before, stands_alone
from intake.fields.amounts.tension import tension_areas
from intake.fields.amounts.units import (
    DECAGRAMS,
    FRACTIONS,
    GRAMS,
    GRAMS_PER_KILOGRAM,
    GRAMS_PER_POUND,
    HECTOGRAMS,
    KILOGRAMS,
    METRES,
    METRES_PER_YARD,
    METRIC,
    NATIVE,
    OUNCES,
    POUNDS,
    UNITS,
    YARDS,
)
from intake.fields.letters import FoldedLines, number_in

END_OF_UNIT = (
    r"(?:(?![a-z\d²^])|(?=(?:ca|env|circa|approx|aprox|per|e|ll)(?![a-z]))"
    rf"|(?=\d{{2,4}}\s?(?:{METRES}|{YARDS})(?![a-z]))|(?=\d{{1,2}}[ -]?(?:ply|fach)(?![a-z])))"
)
"""Nothing but a unit, or the space behind it was lost: "200g897 yds4-ply"."""

_GLUED_TO = (
    *("ca", "env", "circa", "per", "approx", "aprox", "ll", "lange", "lengte", "langd", "lengde"),
    *("laengde", "length", "longueur", "lunghezza", "longitud"),
)
GLUED = "(?:" + "|".join(f"(?<={word})" for word in _GLUED_TO) + ")"
"""Words that a number may stand behind without a space."""

_ABOVE_SEA = (
    r"\s?\(?(?:s\.?\s?[nl]\.?\s?m(?![a-z])|(?:u|o)\.?\s?d\.?\s?m(?![a-z])|[mo]\.?\s?o\.?\s?h(?![a-z])"
    r"|o\.?\s?h(?![a-z])|a\.?s\.?l|above sea|uber (?:dem )?meer|boven zee|over ha[vf]et|d'altitude"
    r"|sobre el nivel|sul livello)"
)
"""Behind metres that tell how high a place lies."""

MEASURE = re.compile(
    rf"(?<![\d¼½¾⅛⅜⅝⅞⅓⅔])(?<!\d[.,/])(?:(?<![a-z])|{GLUED}|(?<=\dg))(?:(?P<count>\d{{1,2}})\s?x\s?)?"
    rf"(?:(?P<number>[1-9]\d?[ '’]\d{{3}}(?=\s?(?:{METRES}|{YARDS}){END_OF_UNIT})"
    r"|[\doli|sb]{1,4}(?:[.,][\dol]{1,3})?)"
    r"(?:\s?-?(?P<fraction>[¼½¾⅛⅜⅝⅞⅓⅔]|[¹³][/⁄][24₂₄]|(?<=\d[ -])[13]/[24]))?"
    rf"|(?P<part>[¼½¾⅛⅜⅝⅞⅓⅔]|(?<![\w/])[13]/[24](?=\s?(?:{KILOGRAMS}|{HECTOGRAMS}|{POUNDS}){END_OF_UNIT})))"
    rf"(?:\s?|-(?=(?:g|gr|gramm?|m|meter)-[a-z]))(?P<unit>{METRES}|{YARDS}|{KILOGRAMS}|{HECTOGRAMS}|{DECAGRAMS}|{GRAMS}|{OUNCES}|{POUNDS}){END_OF_UNIT}(?!{_ABOVE_SEA})"
)
_LIKE_A_CODE = re.compile(r"\d+[GM]")
_NAME_BEHIND = re.compile(r"[^\W\d_a-zà-ÿ][^\W\d_]{2,}(?: [^\W\d_]+)*")
_GOES_ON_AS_CODE = re.compile(rf"[-–/.]\d+(?![\d.,]*\s?{NATIVE}(?![a-z]))")
_CURRENCY = r"(?:€|£|\$|kr\.?|eur|chf|sek|nok|dkk)"
_PRICE_PER = re.compile(rf"{_CURRENCY}\s?[\d.,]*\s?(?:/|per|je|pro|pr\.?|por|par)\s?$")
_PER = re.compile(r"(?:/|(?<![a-z])(?:per|je|pro|pr\.?|por|par|al?))\s?$")
_MARKS = re.compile(
    r"(?<![a-z])(?:evp|preis|v\.?k\.?|prix|price|prezzo|precio|prijs|pris)[ .:]{0,3}(?:nur )?$"
)
"""Before an amount of marks, "EVP 5,20 M"."""
_WITH_PENCE = re.compile(r"\d+[.,]\d\d ?m", re.IGNORECASE)
_PRICE_BEHIND = re.compile(
    rf"\s?[:=]?\s?(?:{_CURRENCY}\s?\d"
    rf"|(?<=[:= ])\d{{1,4}}[.,]\d\d(?!\d|\s?(?!{_CURRENCY})[a-z%]))"
)
_ABOUT = r"(?:(?:ca|circa|approx|aprox|env|environ)\b\.?\s?)?"
_GRAMS_FIRST = r"(?<![a-z\d])g(?:r|rs)?\.? ?(?P<mass{0}>\d{{2,4}})"
_METRES_FIRST = (
    rf"(?<![a-z\d])m(?:t|ts|tr|etri|etros|etres?)?\.? ?{_ABOUT}(?P<length{{0}}>\d{{{{2,4}}}}|[5-9])"
)
_NO_UNIT = rf"(?![\d.,]*\d| ?{NATIVE}(?![a-z]))"
_APART = rf"(?: ?net(?:t[oiea])?(?![a-z]))? ?{_ABOUT}[ .=/:;,|\n~≈·(\[–—-]{{1,4}}{_ABOUT}"
_NO_NUMBER = r"(?<!\d )(?<!\d\. )"
UNIT_FIRST = re.compile(
    rf"{_NO_NUMBER}(?:"
    + _GRAMS_FIRST.format(1) + _APART + _METRES_FIRST.format(1) + _NO_UNIT
    + "|" + _METRES_FIRST.format(2) + _APART + _GRAMS_FIRST.format(2) + _NO_UNIT
    + "|" + _METRES_FIRST.format(4) + r"(?: (?:circa|ca\.?|env\.?|aprox\.?))? "
    + r"(?:ogni|per|cada|par|pour|al|alla) (?:[a-z]+ )?(?:da|di|de) (?=\d{2,4} ?g(?![a-z]))"
    + "|" + r"(?<=\d g) ?[=|/(,·-] ?" + _METRES_FIRST.format(3) + _NO_UNIT + ")"
)  # fmt: skip
"""``gr. 50 = mt. 125``, ``gr 50 (mt 125)`` and ``50 g = m 125``: only as a pair, for ``Gr. 40``
alone is a garment's size."""

_MASS_TOLD = (
    r"(?<![a-z])(?:peso(?: net\w+)?|poids(?: net)?|weight|gewicht|nettogewicht|contenuto"
    r"|netto|net wt\.?|(?:gomitol[oi]|matass[ae]"
    r"|rocc[ah]e?|rocchett[oi]|con[oi]|pelotes?|echeveaux?"
    r"|bobines?|ovillos?"
    r"|madejas?|conos?|knauel|strang|ball|skein|hank|bol|streng|nystan|harva|noste|nogle)"
    r"(?: (?:da|di|de|of|von|zu|van|a))?)[ .:]{1,3}"
)
_LENGTH_TOLD = (
    r"(?<![a-z])(?:lunghezza|lungh|metraggio|longueur|metrage|longitud|length|lauflange|looplengte"
    r"|lopelengde|lopelaengde|loblaengde|loblangd|loplangd)[ .:]{1,3}"
)
_KILO_TOLD = rf"(?:{_MASS_TOLD}{_ABOUT}|(?<![^\n]){_ABOUT})kgs?\.? ?(?P<mass2>\d(?:[.,]\d{{1,3}})?)"
"""Kilograms may begin their line: no size of a garment is told in them."""

_KILO_FIRST = re.compile(r"(?<![a-z])kgs?\.? ?\d[\d.,]*$")
_YARDS_FIRST = re.compile(r"(?<![a-z])yard(?:s|age)?[ .:=].*?\d+$", re.DOTALL)
_A_BALL = (
    rf"(?: (?:per|por|par|pro|pr\.?|je|a|al|alla|la|in a|i|im|in) {BALL}"
    r"| (?:per|por|par|pro|pr\.?|je) (?:rocc[ah]|con[eo]|kone|kegel|kegle|kjegle|spole|bobine"
    r"|bobina|cono|kon))?"
)
_WORDED_FIRST = (
    r"(?<![\w/] )(?<![\w/])(?:(?:metri|metros|metres?|meters?|metrar|yards"
    r"|(?:lauf|lop|lope|lobe|strekkende |lopende |laufende |lopande )meters?|meterage|metrage"
    rf"|metraje|metraggio|yardage){_A_BALL}[ .:=]{{1,3}}{_ABOUT}(?P<length3>\d{{2,4}})"
    rf"|(?:gramm[eio]?|grammes|grams?|gramos?|gram){_A_BALL}[ .:=]{{1,3}}{_ABOUT}"
    r"(?P<mass3>\d{2,4}))"
)
"""Units in full, before their number: "Metri 200", "Grams: 50", "metros por cono: 5600"."""

TOLD_UNIT_FIRST = re.compile(
    rf"(?:{_MASS_TOLD}{_ABOUT}{_GRAMS_FIRST.format(1)}"
    rf"|{_KILO_TOLD}|{_WORDED_FIRST}"
    rf"|{_LENGTH_TOLD}{_ABOUT}{_METRES_FIRST.format(1)}"
    rf"|(?<=\d g, )(?:metri|metros|metres|meter) {_ABOUT}(?P<length2>\d{{2,4}})){_NO_UNIT}"
)
"""``Peso gr. 50`` and ``Lunghezza mt. 125``: behind a word for what it is it may stand alone."""

_TWO_LINES_M = 30.0
_LENGTHS = ("length1", "length2", "length3", "length4")

NEED = re.compile(
    r"\b(?:needs?|needed|requir\w*|verbrauch|bedarf|pull(?:i|over)?s?|sweaters?|jumpers?|cardigans?"
    r"|jersey(?= (?:adult|nin|de |para )|\s*:)|chaqueta|maglion[ei]|giacca|trui"
    r"|vest|troja|kofta|genser|jakke|troje"
    r"|strickjacke|(?<!needle )sizes?|gr\.?\s?\d\d|grosse|taille|taglia|talla|maat|storlek|strl?"
    r"|for an?|fur einen?|pour une?|per un|para un|consommation|consumo|atgang|garnforbrug"
    r"|garnforbruk|quantity)\b"
)
"""Words of lines that tell how much a garment takes."""

NET = re.compile(
    r"(?:net|netto?|inhalt|contents?|ball|knauel|pelote|gomitolo|ovillo|bol|nystan|noste|nogle"
    r"|skein|hank|strang|docke|echeveau|matassa|madeja|streng|harva|hespe|fed|kone|cone|rocca|cono"
    r"|spole|bobine|poids|peso|gewicht|\w*vikt|\w*vekt|\w*vaegt|weight|wt)[a-z .:]{0,12}$"
)
NET_SIGN = re.compile(r"\s?(?:℮|e(?![a-z]))")
"""The estimated sign of prepackages, directive 76/211/EEC, or the letter printed for it."""


@dataclass(frozen=True)
class Measure:
    """A printed length in metres or mass in grams.

    ``step`` is the rounding of the print, ``clean`` false where a letter stands among
    the digits, ``native`` true for metres and grams, ``count`` more than one in a pack,
    ``label`` the word that heads it, if it is one of
    :data:`~intake.fields.amounts.measure_heads.LABELS`, ``whole`` what it comes to if a number
    before it is its thousands, ``least`` the lesser number where it lies between two, ``rate``
    true for a unit without a number that a length is per: "3200 m/kg".
    """

    sort: str
    amount: float
    step: float
    start: int
    end: int
    native: bool = True
    clean: bool = True
    count: int = 1
    printed: str = ""
    label: str = ""
    whole: float = 0.0
    least: float = 0.0
    rate: bool = False

    def agrees(self, other: Measure) -> bool:
        """Whether both print one quantity: one is the other converted and rounded."""
        return abs(self.amount - other.amount) <= (max(self.step, other.step) + 1) / 2


def measures_of(sheet: FoldedLines) -> Iterator[Measure]:
    """Lengths and masses in the print, but for tension and what garments take."""
    unit_first = _unit_first(sheet.text)
    # In "gr 50 mt 125" the unit behind the 50 is that of the 125.
    told = [match.span() for match in unit_first]
    shut = [*tension_areas(sheet.text), *need_areas(sheet.text), *told]
    found = []
    for match in MEASURE.finditer(sheet.text):
        measure = measure_of(sheet, match)
        if measure is None or any(start <= measure.start < end for start, end in shut):
            continue
        if not (
            is_part_of_code(sheet, match)
            or _is_within_code(sheet, match)
            or _has_price(sheet, measure)
        ):
            found.append(measure)
    small = unit_first or any(not _LIKE_A_CODE.fullmatch(one.printed) for one in found)
    for measure in found:
        if not (small and _is_lone_code(sheet, measure)):
            yield measure
    for match in unit_first:
        for name, number in match.groupdict().items():
            if number:
                sort = name[:-1]
                kilos = _KILO_FIRST.search(match[0]) if sort == "mass" else None
                factor = GRAMS_PER_KILOGRAM if kilos else 1.0
                if sort == "length" and _YARDS_FIRST.search(match[0]):
                    factor = METRES_PER_YARD
                value = float(number.replace(",", ".")) * factor
                yield Measure(
                    sort,
                    value,
                    step_of(sort, number) * factor,
                    *match.span(name),
                    native=factor != METRES_PER_YARD,
                    printed=" ".join(sheet.printed(*match.span()).split()),
                )
    yield from _rates(sheet, found)


_RATE = re.compile(
    r"\s?(?:/|per|pro|pr\.?|je|par|por|al|a) ?(?P<unit>kgs?|kilos?|lbs?|pounds?)(?![a-z\d])"
)


def _rates(sheet: FoldedLines, found: Iterable[Measure]) -> Iterator[Measure]:
    """The kilogram or pound that a length is for, "1450 yds/lb": mills tell so how fine it is."""
    for length in found:
        match = _RATE.match(sheet.text, length.end) if length.sort == "length" else None
        if match:
            metric = match["unit"].startswith("k")
            amount = GRAMS_PER_KILOGRAM if metric else GRAMS_PER_POUND
            printed = sheet.printed(*match.span("unit"))
            yield Measure(
                "mass", amount, 1.0, *match.span("unit"), metric, printed=printed, rate=True
            )


def is_part_of_code(sheet: FoldedLines, match: re.Match[str]) -> bool:
    """Whether a match is the end of a code, such as lot ``167G``: no unit by its form."""
    unit = sheet.printed(*match.span("unit"))
    glued = sheet.text[match.start("unit") - 1 : match.start("unit")] != " "
    if not (glued and unit in ("G", "M")):
        return False
    before = sheet.text[max(0, match.start() - 30) : match.start()].rpartition("\n")[2]
    return bool(re.search(r"\w[\W_]*$", before)) and not (
        NET.search(before) or CAPTION.search(before) or re.search(rf"\d{NATIVE}\W+$", before)
    )


def _is_lone_code(sheet: FoldedLines, measure: Measure) -> bool:
    """Whether a measure has the form of a code and a line of its own but for a name behind it, as
    lot ``613M`` has in a table and a shade in ``881M Skifer``: on a tag that prints its units in
    small letters it is none."""
    opens = sheet.text[max(0, measure.start - 1) : measure.start] in ("", "\n")
    rest = sheet.text[measure.end :].split("\n")[0]
    behind = sheet.printed(measure.end, measure.end + len(rest)).strip()
    alone = not behind or _NAME_BEHIND.fullmatch(behind) is not None
    return opens and alone and _LIKE_A_CODE.fullmatch(measure.printed) is not None


def _is_within_code(sheet: FoldedLines, match: re.Match[str]) -> bool:
    """Whether the number is the end of a code, "20-2232", and its unit a word in the next line, or
    both begin one, "70G-73"."""
    before = sheet.text[max(0, match.start() - 1) : match.start()]
    if "\n" in match[0]:
        return before in ("-", "–", "/", ".")
    shaped = _LIKE_A_CODE.fullmatch(sheet.printed(*match.span())) is not None
    return shaped and _GOES_ON_AS_CODE.match(sheet.text, match.end()) is not None


def _has_price(sheet: FoldedLines, measure: Measure) -> bool:
    """Whether a mass is what a price is for, "per 100 g: 308,00" or "12,90 €/100 g", or metres are
    the marks of one.  A price in the line below is the ball's, but for one per such a mass."""
    before = sheet.text[max(0, measure.start - 20) : measure.start]
    if measure.sort == "length":
        return bool(_MARKS.search(before) and _WITH_PENCE.fullmatch(measure.printed))
    behind = _PRICE_BEHIND.match(sheet.text, measure.end)
    if behind and "\n" in behind[0] and not _PER.search(before):
        behind = None
    return bool(_PRICE_PER.search(before) or behind)


def need_areas(text: str) -> list[tuple[int, int]]:
    """Lines that tell what a garment takes, and nothing of the ball with its unit first."""
    told = [match.span() for match in _unit_first(text)]
    return [
        line.span()
        for line in re.finditer(r"[^\n]+", text)
        if NEED.search(line[0])
        and not any(start < line.end() and line.start() < end for start, end in told)
    ]


def _unit_first(text: str) -> list[re.Match[str]]:
    """Lengths and masses of which the unit stands before the number.  In two lines, "gr. 50" above
    "mt. 125", they are a pair only with a length that a ball may have: "Gr. 40" above "m 12" is
    a garment's size."""
    found = [match for form in (UNIT_FIRST, TOLD_UNIT_FIRST) for match in form.finditer(text)]
    return [
        match
        for match in found
        if "\n" not in match[0]
        or float(next(filter(None, (match[name] for name in _LENGTHS)))) >= _TWO_LINES_M
    ]


def measure_of(sheet: FoldedLines, match: re.Match[str]) -> Measure | None:
    """The measure that a match prints; ``None`` where its number is none."""
    unit = match["unit"]
    sort, factor = next((sort, f) for sort, names, f in UNITS if names.fullmatch(unit))
    text, fraction = match["number"] or "0", match["fraction"] or match["part"]
    start = match.start("number") if match["number"] else match.start("part")
    thousands, parted, rest = text.partition(" ")
    whole = 0.0
    before = sheet.text[max(0, start - 30) : start]
    if parted and not are_thousands(before, text):
        if not stands_alone(before):
            whole = float(thousands + rest) * factor
        text, start = rest, start + len(thousands) + 1
    printed = " ".join(sheet.printed(start, match.end()).split())
    stroke = text[0] == "|" and sheet.text[max(0, start - 2) : start].rstrip()[-1:].isalpha()
    if stroke:  # between two measures, "200g|440m"; it may be a 1 all the same
        text, start = text[1:], start + 1
    by_thousands = sort == "mass" and factor != 1.0
    number = number_in(text if by_thousands else without_thousands(text))
    if number is None or number[0] + FRACTIONS.get(fraction, 0) <= 0:
        return None
    amount, clean = number
    step = ounce_step(text) if by_thousands else step_of(sort, text)
    if fraction:
        amount, step = amount + FRACTIONS[fraction], 0.5 if fraction in ("½", "1/2") else 0.25
    return Measure(
        sort,
        round(amount * factor, 6),
        step * factor,
        start,
        match.end(),
        native=factor in METRIC,
        clean=clean and not stroke,
        count=int(match["count"] or 1),
        printed=printed,
        whole=whole,
        least=least_before(before.rpartition("\n")[2], amount, unit) if match["number"] else 0.0,
    )


def without_thousands(text: str) -> str:
    """``1,200`` as 1200: no length or mass of a ball is printed to three decimals."""
    return re.sub(r"^(\d{1,2})[., '’](\d{3})$", r"\1\2", text)


def step_of(sort: str, text: str) -> float:
    """Rounding of a printed length or of grams: makers round lengths to fives."""
    decimals = re.search(r"[.,](\d+)$", without_thousands(text))
    if decimals:
        return float(10 ** -len(decimals[1]))
    return 5.0 if sort == "length" and text[-1] in "05" else 1.0


def ounce_step(text: str) -> float:
    """Rounding of printed ounces or kilograms."""
    decimals = re.search(r"[.,](\d+)$", text)
    return float(10 ** -len(decimals[1])) if decimals else 1.0
