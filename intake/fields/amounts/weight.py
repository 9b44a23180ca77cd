"""Weight of the yarn: the word that is printed, and its category.

Categories are those of the Craft Yarn Council's Standard Yarn Weight System, in lower
case.  Words that its table does not list are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rapidfuzz.distance import Levenshtein

from intake.fields.amounts.quantities import find_quantities
from intake.fields.amounts.units import GRAMS_PER_POUND, METRES_PER_YARD
from intake.fields.codes import whole_name
from intake.fields.fibre.names import FIBRES, KINDS, words_of
from intake.fields.letters import Folded, FoldedLines, Words, listed
from intake.fields.names.stacks import is_stacked
from intake.fields.pieces import piece_of
from intake.records import Candidate, Line, Span

CATEGORIES = ("lace", "super fine", "fine", "light", "medium", "bulky", "super bulky", "jumbo")
"""Category by its number, 0 to 7 (Craft Yarn Council)."""

WORDS = {
    "lace": "lace; lace weight; laceweight; heavy lace; cobweb; lacegarn",
    "super fine": "fingering; light fingering; heavy fingering; fingering weight; super fine;"
    " superfine",
    "fine": "sport; sport weight; sportweight",
    "light": "dk; d.k.; double knitting; double knit; light worsted; dk weight; light dk; heavy dk",
    "medium": "worsted; worsted weight; heavy worsted; aran; aran weight; afghan; light aran;"
    " heavy aran",
    "bulky": "chunky; bulky; chunky weight",
    "super bulky": "super chunky; super bulky; superchunky; superbulky; extra chunky",
    "jumbo": "jumbo",
}
"""Words that give a category wherever they stand; a light or heavy one within its category is
common practice, no source."""

LESSER_WORDS = {
    "super fine": "sock; sock weight; sock yarn; sockenwolle; sockengarn; strumpfwolle;"
    " strumpfgarn; sokkengarn; sokkenwol; strumpgarn; sockgarn; sokkegarn; strompegarn;"
    " laine a chaussettes; fil a chaussettes; filato per calze; hilo para calcetines",
}
"""Words that give way to another: sock yarn of six threads is no longer super fine."""

LONE_WORDS = {
    "fine": "fine",
    "light": "light",
    "medium": "medium",
    "bulky": "rug; craft",
}
"""Words of the Council's table that mean a weight only where they fill their line."""

UNCERTAIN_WORDS = {"baby": ("super fine", "fine"), "roving": ("super bulky", "jumbo")}
"""Words that the Council's table gives to two categories; they must fill their line."""

PLIES = {
    1: "lace", 2: "lace", 3: "super fine", 4: "super fine", 5: "fine", 6: "light", 8: "light",
    10: "medium", 12: "bulky", 14: "super bulky", 16: "super bulky",
}  # fmt: skip
"""British (to 4) and Australian ply: common practice, no source."""

MOST_PLIES_OF_BUILD = 3
"""``3 ply`` beside another weight word tells how the yarn is built."""

THREADS = {3: "super fine", 4: "super fine", 6: "light", 8: "medium"}
"""German, Dutch and French thread counts of sock yarn: common practice, no source."""

VOCABULARY = Words(
    {
        word
        for table in (WORDS, LESSER_WORDS)
        for words in table.values()
        for phrase in listed(words)
        for word in phrase.split()
        if len(word) > 4
    },
    kept=("worsteds",),  # a house's word
)


def alternatives(words: Sequence[str]) -> str:
    """Words as a pattern, longest first; spaces may be lost."""
    ordered = sorted(words, key=len, reverse=True)
    return "|".join(re.escape(word).replace(r"\ ", r"[\s-]?") for word in ordered)


CATEGORY_OF = {
    word: category
    for table in (WORDS, LESSER_WORDS)
    for category, words in table.items()
    for word in listed(words)
}
LESSER = {word for words in LESSER_WORDS.values() for word in listed(words)}
LONE_OF = {word: category for category, words in LONE_WORDS.items() for word in listed(words)}
WORD = re.compile(rf"(?<![a-z\d])(?P<word>{alternatives(list(CATEGORY_OF))})(?![a-z\d])")
PLY = re.compile(r"(?<![\w.,/|])(?P<count>\d{1,2})\s?-?\s?p[l1i|]y(?![a-z])")
THREAD = re.compile(
    r"(?<![\w.,/|])(?P<count>[3468])\s?-?\s?(?:fach|fadig[a-z]*|draads|fils)(?![a-z])"
    r"(?! (?:au|par|pro|per|je|/) ?[cd]m)"
)
NAMES = alternatives(CATEGORIES)
_ENGLISH = frozenset(word for words in WORDS.values() for word in listed(words))
"""Words that have no accents."""

_LONG_ENOUGH = 5
"""Shorter words for a weight are a letter off too many names."""

_WEIGHT_WORD = re.compile(alternatives([*CATEGORY_OF, *CATEGORIES]))
NUMBERED = re.compile(
    rf"(?P<before>[(#\[] ?(?P<first>[0-7]) ?[)\]]?|(?<![\w.,/])(?P<bare>[0-7])) ?-? ?"
    rf"(?P<name>{NAMES})(?![a-z])"
    rf"|(?<![a-z])(?P<named>{NAMES}) ?-? ?[(#\[] ?(?P<last>[0-7])(?![\w.,]) ?[)\]]?"
    rf"|(?<![^\n])(?P<lone>{NAMES}) ?[:·/-]? ?(?P<end>[0-7]) ?(?![^\n])"
)
CAPTIONED = re.compile(
    r"(?<![a-z])(?:yarn weight|weight category|weight class|cyc|garnstarke|categorie|kategorie)"
    r"\s?[:#(]?\s?(?P<number>[0-7])(?![\w.,%]|\s?(?:g|oz|mm|m)\b)"
)

CAPTIONED_WORD = re.compile(
    r"(?<![a-z])(?:(?:yarn )?weight|(?:yarn )?thickness|(?:garn)?starke|garndicke|dicke|grosseur"
    r"|epaisseur|grosor|spessore|(?:garen)?dikte|(?:garn)?tykkelse|(?:garn)?tjocklek"
    r"|[ck]ategor\w+)(?: (?:du fil|del? filato|del hilo|van het garen|des garns))?\s?[:=–-]\s?"
    rf"(?P<word>{alternatives(list(LONE_OF))})(?![a-z\d])\W*(?:\n|$)"
)
"""A lone word behind a caption for how thick the yarn is (common practice, no source)."""

FIBRE_WORDS = alternatives(list(words_of(FIBRES) | words_of(KINDS)))
COUNTRY = r"(?:de|at|ch|gb|uk|us|en|fr|it|es|nl|be|se|sv|no|fi|pl|cz)"
_LEGAL = r"(?:ltd|limited(?! ed)|inc|llc|plc|corp|co|company|gmbh|& co|(?:&|and) sons?)(?![a-z])"
_GOODS = (
    r"(?:sp[il1]n\S{2,6}|(?:knitting )?(?:yarns?|wools?|fib(?:re|er)s?|threads?)|knits|crafts?)"
)
_OF_FIRM = (
    r"(?:spinners|spinning|spinnery|mills?|manufactur(?:ers?|ing|y)|combers|dyers?|dye ?works"
    r"|weavers|bro(?:s|thers)|merchants|guild|trust|society|spinnerei|spinneri(?:et)?|spinderi(?:et)?"
    r"|spinnerij|kammgarnspinnerei)(?![a-z])"
)
"""Words of a firm that may stand behind what it spins: "Thornmere Worsted Spinners"."""

NOT_A_WEIGHT = re.compile(
    rf"super[ -]?fine +(?:{FIBRE_WORDS})(?![a-z])"
    r"|worsted[ -]?spun|spun[ -]?worsted"
    rf"|(?<![a-z])(?:{alternatives(list(CATEGORY_OF))})(?: {_OF_FIRM}|(?: {_GOODS})?[ \n]{_LEGAL}"
    rf"|\n(?:{_OF_FIRM} )+{_LEGAL})"
    r"|(?<![a-z])(?:retors|ge?zwirnt|zwirn|ritorto|retorcido|getwijnd|twijn|tvinna[dt]|tvunnet|tvundet"
    r"|twist) ?[:=]? ?\d{1,2}[ -]?(?:ply|fach|fils|fadig|draads|tradig|tradet)"
    r"|(?<!\d)\d{4} dk(?= [a-z])"
    r"|(?<![a-z])dk ?(?::|- ?[\dosl]{1,5}(?![a-z\d]| ?(?:g|gr|m|mtr|yds?|oz)(?![a-z]))"
    r"| \d{4}|[\dosl]{1,3} ?%)"
    rf"|(?<![a-z])(?:{COUNTRY} ?[/|,·-]? ?)+dk(?![a-z])"
    rf"|(?<![a-z])dk ?[/|,·-] ?{COUNTRY}(?![a-z])"
    r"|(?:^|[.\n] ?)\(dk\)(?= ?[a-z\d])"
)
"""Words that look like weights: a fineness of wool, a manner of spinning, a firm, Denmark."""

YARDS_PER_POUND = (2401, 1901, 1201, 901, 601, 401, 0)
"""Least yards per pound of each category, lace first; *Spin Off* magazine, Yarn
Standards handout, by its own words a rough guide.  Jumbo is not told from super bulky."""

ROUGHNESS = 0.08
"""How far past its limits a rough guide is still followed without a word."""


MODIFIERS = ("super", "extra", "light", "heavy", "double")
"""Words before a weight word that make it another."""


@dataclass(frozen=True)
class Found:
    """A weight word in the print; ``lesser`` words give way to others."""

    category: str
    start: int
    end: int
    lesser: bool = False
    build: bool = False
    counted: bool = False
    doubt: str = ""
    alone: bool = False


def find_weight(lines: Sequence[Line]) -> list[Candidate]:
    """Candidates for ``weight_class`` and ``weight_printed``, likeliest first.

    The class is one of :data:`CATEGORIES`; the printed weight is the word as it stands on
    the tag.  Words of different categories, and words that mean two, make a doubt.
    """
    sheet = FoldedLines(lines).mended(VOCABULARY)
    found = deciding([each for each in words_in(sheet) if not within_name(lines, sheet, each)])
    if not found:
        return []
    doubt = doubt_about(sheet, found) or count_against_length(lines, found)
    classes = [candidate_of("weight_class", each.category, sheet, each, doubt) for each in found]
    first = {printed_word(sheet, each) for each in one_of_each_category(found)}
    printed = [
        candidate_of("weight_printed", word, sheet, each, doubt)
        for each in found
        if (word := printed_word(sheet, each)) in first
    ]
    return [*classes, *printed]


def is_weight_word(text: str) -> bool:
    """Whether ``text`` is a word for a weight class and nothing else, as in a list of all of
    them of which one is ticked."""
    return _WEIGHT_WORD.fullmatch(Folded(text).text) is not None


def ends_with_weight(name: str) -> bool:
    """Whether ``name`` ends with a word that is a weight where it stands alone: "Moor Medium"."""
    before, _, last = Folded(name).text.rpartition(" ")
    return bool(before) and last in LONE_OF


def near_weight_word(text: str) -> bool:
    """Whether ``text`` is a letter off a word for a weight class: "Super Fihe"."""
    folded = Folded(text).text
    return len(folded) >= _LONG_ENOUGH and any(
        Levenshtein.distance(folded, word, score_cutoff=1) == 1
        for word in CATEGORY_OF
        if len(word) >= _LONG_ENOUGH
    )


def candidate_of(name: str, value: str, sheet: FoldedLines, found: Found, doubt: str) -> Candidate:
    """A candidate over the letters of a weight word."""
    return Candidate(
        name, value, sheet.spans(found.start, found.end), cues_of(sheet, found), doubt=doubt
    )


def count_against_length(lines: Sequence[Line], found: Sequence[Found]) -> str:
    """A doubt where plies or threads miss length per mass by more than the next category.

    One misread digit makes 3 ply of 8 ply; a word is never so easily another.
    """
    counted = [each for each in found if each.counted]
    if not counted or len(counted) < len(found):
        return ""
    quantities = find_quantities(lines)
    sure = {each.name: each.value for each in reversed(quantities) if not each.doubt}
    length_m, mass_g = sure.get("length_m"), sure.get("mass_g")
    if not isinstance(length_m, float) or not isinstance(mass_g, float):
        return ""
    usual = usual_category(length_m, mass_g)
    apart = abs(CATEGORIES.index(usual) - CATEGORIES.index(counted[0].category))
    note = length_note(counted[0].category, length_m, mass_g)
    return f"the count may be misread: {note}" if apart > 1 and note else ""


def usual_category(length_m: float, mass_g: float) -> str:
    """The category that length per mass is most usual for."""
    yards_per_pound = length_m / METRES_PER_YARD / mass_g * GRAMS_PER_POUND
    return next(
        name
        for name, least in zip(CATEGORIES, YARDS_PER_POUND, strict=False)
        if yards_per_pound > least - 1
    )


def printed_word(sheet: FoldedLines, found: Found) -> str:
    """The word as printed; a misread one put right, in the case of the print."""
    printed = " ".join(sheet.printed(found.start, found.end).split())
    word = " ".join(sheet.text[found.start : found.end].split())
    misread = not printed.isascii() and word in _ENGLISH
    if not (sheet.is_mended(found.start, found.end) or misread):
        return printed
    if printed.isupper():
        return word.upper()
    return word if printed.islower() and printed[0].isalpha() else word.title()


def words_in(sheet: FoldedLines) -> Iterator[Found]:
    """All weight words, in no order; words within another are left out."""
    shut = [match.span() for match in NOT_A_WEIGHT.finditer(sheet.text)]
    for each in (*numbered_in(sheet.text), *words_alone(sheet.text), *plain_words(sheet.text)):
        if not any(start < each.end and each.start < end for start, end in shut):
            shut.append((each.start, each.end))
            yield each


def numbered_in(text: str) -> Iterator[Found]:
    """Numbers of the Craft Yarn Council, with or without the category's name."""
    for match in NUMBERED.finditer(text):
        digit = match["first"] or match["bare"] or match["last"] or match["end"]
        printed = match["name"] or match["named"] or match["lone"]
        number = CATEGORIES[int(digit)]
        name = re.sub(r"[\s-]?(fine|bulky)$", r" \1", printed).strip()
        doubt = "" if number == name else f"the number says {number}, the word says {name}"
        if not doubt or not (match["bare"] or match["end"]):
            yield Found(name, *match.span(), doubt=doubt)
    for match in CAPTIONED.finditer(text):
        yield Found(CATEGORIES[int(match["number"])], *match.span("number"))
    for match in CAPTIONED_WORD.finditer(text):
        yield Found(LONE_OF[match["word"]], *match.span("word"))


def words_alone(text: str) -> Iterator[Found]:
    """Words that count only where they fill their line."""
    for line in re.finditer(r"[^\n]+", text):
        word = line[0].strip(" .:·-")
        start = line.start() + line[0].index(word)
        if word in LONE_OF:
            yield Found(LONE_OF[word], start, start + len(word), alone=True)
        elif word in UNCERTAIN_WORDS:
            first, second = UNCERTAIN_WORDS[word]
            doubt = f"'{word}' can mean {first} or {second}"
            yield Found(first, start, start + len(word), lesser=True, doubt=doubt, alone=True)


def plain_words(text: str) -> Iterator[Found]:
    """Weight words, plies and thread counts anywhere in the print."""
    for match in WORD.finditer(text):
        word = plain(match["word"])
        yield Found(CATEGORY_OF[word], *match.span(), lesser=word in LESSER)
    for match in PLY.finditer(text):
        category = PLIES.get(int(match["count"]))
        if category:
            build = int(match["count"]) <= MOST_PLIES_OF_BUILD
            yield Found(category, *match.span(), build=build, counted=True)
    for match in THREAD.finditer(text):
        yield Found(THREADS[int(match["count"])], *match.span(), counted=True)


def plain(printed: str) -> str:
    """The listed form of a printed word, whose spaces may be lost or hyphens."""
    if printed in CATEGORY_OF:
        return printed
    bare = re.sub(r"[\s-]", "", printed)
    return next(word for word in CATEGORY_OF if word.replace(" ", "") == bare)


def within_name(lines: Sequence[Line], sheet: FoldedLines, found: Found) -> bool:
    """Whether a word that fills its line is the second line of a name: "Alba" above "Fine"."""
    if not found.alone:
        return False
    number = sheet.line_of(found.start)
    whole = [piece_of(lines, Span(at, 0, len(line.letters))) for at, line in enumerate(lines)]
    word = whole[number]
    names = [piece for piece in whole if piece is not None and whole_name(piece.text)]
    return word is not None and any(is_stacked(name, word) for name in names)


def deciding(found: Sequence[Found]) -> list[Found]:
    """The words that count, as printed: lesser ones, and plies of the build, give way."""
    strong = [each for each in found if not each.lesser and not each.build]
    plies = [each for each in found if each.build]
    return sorted(strong or plies or found, key=lambda each: each.start)


def one_of_each_category(found: Sequence[Found]) -> list[Found]:
    """The first word in the print for each category."""
    first: dict[str, Found] = {}
    for each in found:
        first.setdefault(each.category, each)
    return list(first.values())


def doubt_about(sheet: FoldedLines, found: Sequence[Found]) -> str:
    """Why the weight cannot be filed unasked."""
    different = one_of_each_category(found)
    if len(different) > 1:
        printed = [sheet.printed(each.start, each.end) for each in different[:2]]
        return f"'{printed[0]}' and '{printed[1]}' are different weights"
    unread = (misread_before(sheet, each) for each in found)
    return next((doubt for doubt in (*(e.doubt for e in found), *unread) if doubt), "")


def misread_before(sheet: FoldedLines, found: Found) -> str:
    """A doubt where the word before may be a misread one that changes the weight."""
    before = re.search(r"([^\W_]+)[ -]?$", sheet.text[: found.start].rpartition("\n")[2])
    if before is None or before[1] in MODIFIERS:
        return ""
    near = any(Levenshtein.distance(before[1], word, score_cutoff=2) <= 2 for word in MODIFIERS)
    printed = sheet.printed(found.start, found.end)
    return f"the word before '{printed}' is unread: {before[1]}" if near else ""


def cues_of(sheet: FoldedLines, found: Found) -> dict[str, float]:
    """Evidence for a weight word."""
    line = sheet.text[: found.start].rpartition("\n")[2] + sheet.text[found.start :]
    fills = line.partition("\n")[0].strip() == sheet.text[found.start : found.end].strip()
    return {
        "shape": 0.8 if sheet.is_mended(found.start, found.end) else 1.0,
        "caption": 0.7 if found.alone or found.lesser else 1.0,
        "fills line": 1.0 if fills else 0.0,
    }


def length_note(weight_class: str, length_m: float, mass_g: float) -> str:
    """A note where length per mass is more usual for another category; else empty.

    ``length_m`` in metres and ``mass_g`` in grams are those of one ball.  The printed
    class stands: makers' weights differ.
    """
    if weight_class not in CATEGORIES or length_m <= 0 or mass_g <= 0:
        return ""
    yards_per_pound = length_m / METRES_PER_YARD / mass_g * GRAMS_PER_POUND
    printed = min(CATEGORIES.index(weight_class), len(YARDS_PER_POUND) - 1)
    low = YARDS_PER_POUND[printed] * (1 - ROUGHNESS)
    high = YARDS_PER_POUND[printed - 1] * (1 + ROUGHNESS) if printed else float("inf")
    if low <= yards_per_pound < high:
        return ""
    usual = usual_category(length_m, mass_g)
    manner = "thick" if yards_per_pound < low else "thin"
    per_100_g = round(100 * length_m / mass_g)
    return f"{manner} for {weight_class}: {per_100_g} m per 100 g is more usual for {usual}"
