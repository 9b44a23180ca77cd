"""Captions: the words on a tag that say what stands beside them.

The words of :mod:`intake.fields.caption_words` are looked for in folded text: lower case, no
accents.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from intake.fields.caption_words import (
    CALLED,
    LINES_OF_YARN,
    NAMES,
    NATURAL_SHADES,
    NUMBERED_LOTS,
    WORDS,
    YARN,
)
from intake.fields.letters import WORD, Folded, Words
from intake.fields.pieces import is_next_line
from intake.records import Line


class Role(StrEnum):
    """What a caption announces."""

    LOT = "lot"
    SHADE = "shade"
    RANGE = "range"
    NUMBER = "number"
    """A number that is neither lot nor code, such as an article's or a telephone's."""
    TOPIC = "topic"
    """Something that is known by its own words, such as care or the needle size."""


@dataclass(frozen=True, slots=True)
class Caption:
    """A caption in letters ``start`` to ``end`` (exclusive) of line number ``line``.

    ``end`` lies behind the colon or number sign, if there is one; ``marked`` says whether
    there was one; ``asks_number`` whether the caption asks for a number ("Farbe Nr."),
    ``asks_name`` whether for a name ("Colour name"); ``any_name`` whether the name may be that
    of something else than its role says ("My name is").
    """

    role: Role
    line: int
    start: int
    end: int
    marked: bool = False
    asks_number: bool = False
    asks_name: bool = False
    any_name: bool = False


_WORDS = {Role(name): words for name, words in WORDS.items()}

_NUMBER_WORD = (
    r"(?:(?:no|nr|nos|nro|num|number|nummer|numero|kode|kod|code|codice|codigo"
    r"|ref|reference|referenz|referencia|riferimento|referens|referanse)\b[.:°º]*"
    r"|n\s?(?:\.?[°º]|\.?o(?=[\s.:]|$)|\.)(?![a-z])|#)"
)
_NAME_WORD = rf"(?:{'|'.join(NAMES)})"
_BEFORE = (
    r"(?P<number_of>n(?:[°ºo.]+\s*|\s+)|(?:numero|number|nummer|codice|codigo|code|kode|kod)\s+"
    rf"|(?:cod|ref)\.?\s+)|(?P<name_of>{_NAME_WORD}\s+)"
)
_AND = "and|und|et|e|y|en|og|och"

_AND_ALSO = rf"(?: ?[/+&] ?| (?:{_AND}) )-?"
"""Between a word for a number and one for a name, both asked for: "Kleur-nr./naam"."""

_MARK = r"[\s]*(?:[:=#.]|[-–—](?=\s))*[\s]*"

_ARTICLES = ("article", "artikel", "articolo", "articulo", "artikkel")
_NAME_NEXT = re.compile(r"\s*[^\W\d_]{3,}(?:[ '’-][^\W\d_]+){0,3}\s*$")
"""A name behind a caption of an article is that of a range, as shops call it."""

_SHORT = 2

_SHORT_WORD = 4
_NUMBER_NEXT = re.compile(r"\s*(?:$|[a-z]{0,3}[ .-]?\d|[+(€£$])")
"""What stands behind a short caption of a number, such as "art"."""

_WORDS_TOO = frozenset({"kol", "los", "bath", "ll", "cuve", "tom", "lange"})
"""Captions that are other words as well, coal, "the", a town, a Roman two misread, a dyer's vat, a
name or "long", unless a mark or a number stands behind."""

_SEEKERS = {
    role: re.compile(
        # "8145ID" is a code, and no number of an ID
        (r"(?<![a-z\d])" if role is Role.NUMBER else r"(?<![a-z])")
        + rf"(?:(?:{_BEFORE})(?:(?:de|di|del|della|du|do|da|des|der|van|af|av)\s)?\s*)?(?:"
        + "|".join(
            r"[ .\-]*".join(map(re.escape, word.split()))
            + (r"(?=\s*:)" if word in NATURAL_SHADES else "")
            # "FV32", "FV-32" and "FV-SOL-32" are codes, "Fb. 32" has a caption.
            + (r"(?!\d)" if len(word) <= _SHORT else "")
            + (
                r"(?!-\d|-(?!n[ro]?-)[a-z]{1,4}-\d)"
                if word in _WORDS_TOO or (role is Role.SHADE and len(word) <= _SHORT_WORD)
                else ""
            )
            for word in sorted(words, key=len)[::-1]
        )
        + rf")(?:(?P<both>[ .:\-]*(?:{_NUMBER_WORD}{_AND_ALSO}{_NAME_WORD}\b"
        rf"|{_NAME_WORD}{_AND_ALSO}{_NUMBER_WORD}))"
        rf"|(?P<number>[ .:\-]*{_NUMBER_WORD}(?!\s*d[ei] ))"
        rf"|(?P<name>[ .:\-]*{_NAME_WORD}\b[.:]*)"
        r"|(?![a-z])|(?<=[a-z]{5})(?=[a-z]{1,2}\d))" + rf"(?P<mark>{_MARK})"
    )
    for role, words in _WORDS.items()
}

_OWN_LABEL = re.compile(rf"[a-z]{{3,}}[ .\-]{{0,2}}{_NUMBER_WORD}[ .:\-]*(?=[^\s]*\d)")

_WORD_AND_NUMBER = re.compile(r"[a-z]{3,}[ .:]{1,2}[a-z]{0,3}\d[\w/.-]{2,}")
_NUMBER_WORD_AT_END = re.compile(r"(?:(?<=[a-z]{3})|(?<![a-z]))(?:nr|nro|nummer|number|numero)$")

_NAMED_LIKE_CAPTION = re.compile(
    r"(?:farb|farg|farv|kleur|colou?r|couleur|coloris|tint[ae]|teint|nuance|nyanse|shade|verf)[a-z]*"
)

_LIKE_CAPTION = re.compile(
    r"(?<![a-z])(?:farb|farg|farv|kleur|colou?r|couleur|coloris|tint[ae]|teint|tono|nuance|nyanse"
    r"|shade|bad|bagno|bain|bano|partita|partida|partie?|cura|entretien|pflege|skotsel|onderhoud)"
    r"|(?<![a-z])(?:no|nr|nummer|numero|number|num|zahl)(?![a-z])|zahl(?![a-z])|(?<![a-z])[a-z]{1,4}\."
)

SINGLE_WORDS = frozenset(word for words in _WORDS.values() for word in words if word.isalpha())
"""Captions of one word."""

_ROLES = {word: role for role, words in _WORDS.items() for word in words if " " not in word}
_LONG_WORDS = Words(
    (word for word in _ROLES if len(word) >= 6 and word not in NUMBERED_LOTS),
    meaning=_ROLES.__getitem__,
)
_NO_CAPTIONS = frozenset(
    {
        *("chlore", "chloor", "chlorine"),
        *("farget", "fargede", "fargad", "fargade", "fargat", "farvet", "farvede", "gefarbt"),
        *("geverfd", "coloured", "colored", "coloriert", "teinte", "teintee"),
    }
)
"""Words that are near to captions: "chlore" to "colore", and what says that a yarn was dyed."""

_WITHIN_NAMES = frozenset({"col", "ton", "tono", "tone", "tinta"})
"""Captions that are a pass in the mountains or a tone behind other words."""

_NUMBER_END = re.compile(r"(?:nr|no|nummer|numero)$")
"""How a caption ends that asks for a number: "Verfbadnr"."""

_NUMBERED = re.compile(r"\W*(?:n\W*)?\d")
_VALUE_BEHIND = re.compile(r"\s*[:.]\s*|\s+(?=[a-z]{0,2}\d)")

_LONE_CODE = re.compile(r"(?=\S*\d)[A-Z0-9][A-Z0-9./-]{2,}")
_CODE_BESIDE = 1.5
"""A code alone in its line, and how near to it a word is its caption that is another word as well,
in heights of the larger print."""

_IN_A_NAME = re.compile(
    r"(?:[^\W\d_]{2,} )*[^\W\d_]{3,} (?:fib(?:re|er)|material|gauge) "
    r"[^\W\d_]{2,}\.?(?: [^\W\d_]{2,}\.?)*"
)
"""A word that is a caption elsewhere, in the middle of a firm's name."""

_ENDS_A_NAME = re.compile(
    r"(?:(?:by|von|van|fra|från|par|di|de|por|af|av) )?(?:"
    r"[^\W\d_a-zà-ÿ][^\W\d_]*(?:[ '’&-]+[^\W\d_]+)* (?:[Ff]ib(?:re|er)|FIB(?:RE|ER))"
    r"|(?:[^\W\d_a-zà-ÿ][a-zà-ÿ]+ ){2,}[^\W\d_a-zà-ÿ][a-zà-ÿ]+)"
)
"""Such a word behind a name with a capital, alone in the line, "Pippin & Plum Fibre", or behind two
with capitals each, "Breihuis De Korte Naald"."""

_OF_COLOUR = re.compile(r"colou?r|shade|farbe|couleur|colore|kleur|fargen|farven")

_IN_SHADE = re.compile(r"\bin (?:the )?$")
_DRIED = re.compile(r"\b(?:dry|dried|drying|hang)\b")
"""Before the word "shade" where it is a place to dry in; "dyed in shade Ember" is none."""

_OF_WHAT = re.compile(r"\b(?:del?|di|du|des|vom|van(?: het)?|of(?: the)?|a[fv]) $")
_FIBRES_TOO = frozenset({"wool", "wolle", "laine", "lana", "ull", "uld", "wol"})
"""Captions of a range that name a fibre as well."""

_MARKS_APART = re.compile(r"[/|·•,]")

_WORD_BEFORE = re.compile(r"[^\W\d_]{2,} $")

_GLUE = re.compile(
    rf"[\s/|,.·:;&+()\[\]–-]*(?:(?<=\s)(?:[Il1]|{_AND})(?=\s)\s)?"
    r"[\s/|,.·:;&+()\[\]–-]*",
    re.IGNORECASE,
)
"""What may stand between two captions of one row: marks, a stroke that was read as I, l or 1, or a
word for "and"."""

_SHORT_CODE = re.compile(r"[a-z]{0,2}\d")

_JOINED_BEHIND = re.compile(r"/[a-z]{3}")
_JOINED_TO = re.compile(rf"(?:[/+&]|\b(?:{_AND})) ?$")
"""Before the second of two captions in one: "Farbe und Los"."""


def find_captions(lines: Sequence[Line]) -> list[Caption]:
    """Captions in the order in which they stand; captions of one role that follow each
    other ("Partie/Bain/Lot:") are one."""
    found = [
        caption
        for number, line in enumerate(lines)
        for caption in _joined(line.text, _in_line(number, line.text))
    ]
    found += _dipped_in(lines, found)
    found += _in_row(lines, found)
    found += _number_heads(lines, found)
    found += _initials(lines, found)
    return sorted(found, key=lambda one: (one.line, one.start))


_IN = r"(?:into|in|dans|en|nell?[ao]?|i)"
_DIPPING = (
    r"(?<![a-z])(?:dip|dipped|dye|dyed|steep(?:ed)?|soak(?:ed)?|(?:ge|ein)?tauch\w*|eingetaucht|gefarbt|farben?"
    r"|plonge[rz]?|tremper?|trempez|teint(?:e|s|es)?|teindre|immerg\w*|tuffa\w*|tint[ao]|tinger\w*"
    r"|sumerg\w*|tenid[ao]s?|tenir|(?:onder)?(?:ge)?dompel\w*|doop|dopen|geverfd|verf|dopp\w*|fargad"
    r"|farga|dypp?\w*|farget?|farvet?|farg)"
    rf"(?: (?:it|this|them|the yarn|sie|es|das garn|la|le|les|lo|ze|het|den|det|garnet))?"
    rf"(?: onder)? {_IN}(?: the)? "
)
DIPS_IN = re.compile(rf"{_DIPPING}(?=\S)")
_DIPS_AT_END = re.compile(rf"{_DIPPING}$")
"""What leads to the name of a shade in words on dyeing: "dip it in", "teint en"."""

_CODED = (
    r"[^\W\d_a-zà-ÿ][^\W\d_]*(?:[ '’&-]+[^\W\d_]+){0,3} "
    r"\((?!(?:19|20)\d\d\))[A-Z]{0,3}\d[\w./-]*\)"
)
_IN_CODED = re.compile(rf"(?<!\w)(?i:{_IN}) (?={_CODED})")
"""Before a name with its code in brackets, "in Kestrel (D369)"."""

_OF_DYEING = re.compile(
    r"\b(?:dip|dye|steep|soak|\w*tauch|\w*farb|plong|tremp|tein[dt]|immer[gs]|tuff|tint|ting|sumerg|tenid"
    r"|tenir|\w*dompel|doop|\w*verf|dopp|farg|dyp|farv)"
)


def _dipped_in(lines: Sequence[Line], found: Sequence[Caption]) -> list[Caption]:
    """What stands in place of a caption before a shade and its code in words on dyeing, perhaps
    begun in the line above: "tauche sie in" before "Kestrel (D369)"."""
    extra = []
    for number, line in enumerate(lines):
        for match in _IN_CODED.finditer(line.text):
            before = [line.text[: match.start()]]
            before += [one.text for one in lines if is_next_line(one, line)]
            told = any(_OF_DYEING.search(Folded(text).text) for text in before)
            behind = any(one.line == number and one.start == match.end() for one in found)
            if told and not behind:
                verb = _DIPS_AT_END.search(Folded(line.text[: match.end()]).text)
                start = verb.start() if verb is not None else match.start()
                extra.append(Caption(Role.SHADE, number, start, match.end(), True))
    return extra


def _in_row(lines: Sequence[Line], found: Sequence[Caption]) -> list[Caption]:
    """Captions that are other words as well, each alone in its line, in a row with one that is not
    and fills its line too, "Los" beside "Sorte" and "Farbname", or as a lot's at one margin with
    it, "Bath" below "Colour code"; and the word for yarn at one margin with several, "Yarn" above
    "Colour" and "Dye batch"."""
    extra = []
    whole = {one.line for one in found if _fills(one, lines[one.line])}
    for number, line in enumerate(lines):
        word = Folded(line.text).text.strip(" .:")
        role = _ROLES.get(word) if word in _WORDS_TOO else None
        beside = any(
            _are_in_row(line, lines[at]) or (role is Role.LOT and _are_flush(line, lines[at]))
            for at in whole - {number}
        )
        beside = beside or (role is Role.LOT and any(_is_code_beside(one, line) for one in lines))
        if role is not None and beside:
            extra.append(Caption(role, number, 0, len(line.text)))
        flush = [at for at in whole - {number} if _are_flush(line, lines[at])]
        if word in YARN and word not in _FIBRES_TOO and len(flush) > 1 and number not in whole:
            extra.append(Caption(Role.RANGE, number, 0, len(line.text)))
    return extra


_INITIAL = re.compile(r"(?P<letter>[fkcpb])(?:[.:] |:)(?=[a-z]?\d[\da-z./-]{1,5}$)")
_OF_SHADE = frozenset("fkc")


def _initials(lines: Sequence[Line], found: Sequence[Caption]) -> list[Caption]:
    """Captions of one letter, "F. 318" or "P: 1307", each with its code alone in a line near that
    of the caption of the other of shade and lot, where the tag has none of their own."""
    roles = {one.role for one in found}
    if {Role.SHADE, Role.LOT} <= roles or not roles & {Role.SHADE, Role.LOT}:
        return []
    lacking = Role.LOT if Role.SHADE in roles else Role.SHADE
    others = [lines[one.line] for one in found if one.role in (Role.SHADE, Role.LOT)]
    extra = []
    for number, line in enumerate(lines):
        text = Folded(line.text).text.strip()
        match = _INITIAL.match(text)
        if match is None or (match["letter"] in _OF_SHADE) is not (lacking is Role.SHADE):
            continue
        near = (is_next_line(line, one) or is_next_line(one, line) for one in others)
        if any(near) or any(_are_in_row(line, one) for one in others):
            extra.append(Caption(lacking, number, 0, match.end(), True, asks_number=True))
    return extra if len(extra) == 1 else []


def is_initial(lines: Sequence[Line], caption: Caption) -> bool:
    """Whether a caption is one letter, "P: 1307", which may stand for something else."""
    said = lines[caption.line].text[caption.start : caption.end]
    return _INITIAL_ALONE.fullmatch(Folded(said).text.strip()) is not None


_INITIAL_ALONE = re.compile(r"[a-z][.:]{1,2}")

_NUMBER_HEAD = re.compile(r"(?:nr|no|n[°.]|num|nummer|numero|number|numer)[.:]?|n")


def _number_heads(lines: Sequence[Line], found: Sequence[Caption]) -> list[Caption]:
    """Words for a number that fill a box in a row of captions, next to that of the shade: "Colour",
    "No." and "Dye lot" head three columns.  What stands to the left of them tells first."""
    whole = {one.line: one for one in found if _fills(one, lines[one.line])}
    extra = []
    for number, line in enumerate(lines):
        if number in whole or not _NUMBER_HEAD.fullmatch(Folded(line.text).text.strip()):
            continue
        row = [at for at in whole if _are_in_row(line, lines[at])]
        left = [at for at in row if lines[at].quad[0][0] < line.quad[0][0]]
        right = [at for at in row if at not in left]
        beside = max(left, key=lambda at: lines[at].quad[0][0], default=None)
        if beside is None:
            beside = min(right, key=lambda at: lines[at].quad[0][0], default=None)
        if beside is None or len(row) < _FEWEST_HEADS or whole[beside].role is not Role.SHADE:
            continue
        if not whole[beside].asks_number:
            extra.append(Caption(Role.SHADE, number, 0, len(line.text), asks_number=True))
    return extra


_FEWEST_HEADS = 2


def _fills(caption: Caption, line: Line) -> bool:
    return caption.end - caption.start >= len(line.text.strip())


def _is_code_beside(code: Line, line: Line) -> bool:
    """Whether nothing but a code stands in a line right before or behind ``line`` in its row."""
    if not _LONE_CODE.fullmatch(code.text.strip()):
        return False
    height_px = max(code.height_px, line.height_px)
    gaps_px = (line.quad[0][0] - code.quad[1][0], code.quad[0][0] - line.quad[1][0])
    in_row = abs(line.centre[1] - code.centre[1]) < 0.5 * height_px
    return in_row and -0.5 * height_px < max(gaps_px) < _CODE_BESIDE * height_px


def _are_in_row(line: Line, other: Line) -> bool:
    """Whether the middles of two lines are at one height, in print of one size."""
    small, large = sorted((line.height_px, other.height_px))
    return abs(line.centre[1] - other.centre[1]) < 0.5 * small and large < 1.5 * small


def _are_flush(line: Line, other: Line) -> bool:
    """Whether two lines of one size begin at one margin."""
    small, large = sorted((line.height_px, other.height_px))
    aside_px = abs(line.quad[0][0] - other.quad[0][0])
    return aside_px < 0.3 * small and large < 1.2 * small


def role_in_column(text: str) -> Role:
    """What a word announces that stands in a column of captions and is none elsewhere."""
    is_yarn = Folded(text).text.strip(" .:") in YARN
    return Role.RANGE if is_yarn else Role.TOPIC


def is_caption(text: str, *, misread: bool = True) -> bool:
    """Whether ``text`` is nothing but a caption, a gap within it aside, and a misread letter where
    it may be ``misread``."""
    folded = Folded(text.replace(" ", "")).text
    if folded in _WORDS_TOO:
        return False
    exact = any(seeker.fullmatch(folded) for seeker in _SEEKERS.values())
    return exact or (misread and _LONG_WORDS.nearest(folded) is not None)


def is_like_caption(text: str) -> bool:
    """Whether ``text`` is a caption that is another word as well, or may be one that is not known:
    it has a word of colours or lots as captions have, a word for a number, or is abbreviated."""
    folded = Folded(text).text
    return folded in _WORDS_TOO or _LIKE_CAPTION.search(folded) is not None


def is_named_like_caption(text: str) -> bool:
    """Whether ``text`` is one word that begins with one for colour or a bath of dye, as captions
    do: "Färgomgång"."""
    return _NAMED_LIKE_CAPTION.fullmatch(Folded(text).text) is not None


_SAME = re.compile(
    r"\b(?:same|(?:der|des)?selben?|gleichen?|einer|memes?|stess[oae]|mism[oa]s?|hetzelfde|dezelfde"
    r"|zelfde|samma|samme)\b"
)
"""Words of a request for balls of one lot."""


def has_own_label(text: str) -> bool:
    """Whether ``text`` begins with a word that asks for the number behind it, known as a caption
    or not: "Kettenr. 3220G"."""
    return _OWN_LABEL.match(Folded(text).text) is not None


def may_have_label(text: str) -> bool:
    """Whether ``text`` is a word and a number behind it, of which the word may be a caption that
    is not known: "sats 20-9187"."""
    return _WORD_AND_NUMBER.fullmatch(Folded(text).text) is not None


def ends_with_number_word(text: str) -> bool:
    """Whether ``text`` ends with a word for a number that does not follow, as captions do:
    "satsnr"."""
    folded = Folded(text).text.rstrip(" .:")
    return _NUMBER_WORD_AT_END.search(folded) is not None


def ends_request(lines: Sequence[Line], caption: Caption) -> bool:
    """Whether a word for the lot or the shade ends a request for the same one, "use balls of the
    same dye lot", perhaps begun in the line above, and announces none."""
    line = lines[caption.line]
    before = Folded(line.text[: caption.start]).text
    ends = not any(sign.isalnum() for sign in line.text[caption.end :])
    if not before.strip():
        above = [
            Folded(one.text).text
            for one in lines
            if is_next_line(one, line) and not one.text.rstrip().endswith((".", "!", "?"))
        ]
        before = next((text for text in above if _SAME.search(text)), "")
    return ends and ":" not in line.text[caption.start :] and _SAME.search(before) is not None


def may_begin_with_caption(code: str) -> bool:
    """Whether letters that a hyphen joins to the rest of ``code`` are a caption elsewhere: "Fb-32"
    may be number 32 or a code as a whole."""
    return _ROLES.get(Folded(code.partition("-")[0]).text) in (Role.SHADE, Role.LOT)


_LENT = re.compile(r"n\W+(?=[a-z])")
"""A sign of number before a caption, which right behind a code is the end of that: "343N" in
"343N PARTI NR."."""


def _in_line(number: int, text: str) -> list[Caption]:
    folded = Folded(text)
    found: list[Caption] = []
    for role, seeker in _SEEKERS.items():
        for match in seeker.finditer(folded.text):
            is_place = match[0].startswith("shade") and _IN_SHADE.search(
                folded.text, 0, match.start()
            )
            if is_place and not _names_shade(text, folded, match):
                continue
            if role is Role.NUMBER and _may_be_a_name(folded.text, match):
                continue
            word = match[0].strip(" .:=#-–—")
            if word in NAMES and not _heads_name(text, match[0]):
                continue
            joined = _JOINED_TO.search(folded.text, 0, match.start()) is not None
            joined = joined or _JOINED_BEHIND.match(folded.text, match.end()) is not None
            numbered = _SHORT_CODE.match(folded.text, match.end()) is not None
            lent = _LENT.match(folded.text, match.start()) if match.start() else None
            glued = lent is not None and folded.text[match.start() - 1].isalnum()
            start, end = folded.span(lent.end() if lent and glued else match.start(), match.end())
            plain = not (match["mark"].strip() or numbered or joined)
            plain = plain and not is_in_brackets(text, start, end)
            if word in _WORDS_TOO and plain:
                continue
            if role is Role.LOT and _lacks_number(word, folded.text, match):
                continue
            in_words = _WORD_BEFORE.search(folded.text, 0, match.start())
            if word == "ferro" and in_words and not _NUMBERED.match(folded.text, match.end()):
                continue  # "grigio ferro"
            if word in _WITHIN_NAMES and plain and in_words:
                continue  # "Bergerie du Col Gris", "un ton un peu différent"
            if role is Role.RANGE and in_words and not match["mark"].strip():
                continue  # "Neue Qualität"
            if word in YARN and _OF_WHAT.search(folded.text, 0, match.start()):
                continue  # "Grosor del hilo:"
            alone = word in YARN and _are_ranges(folded.text)
            if word in YARN and ":" not in match[0] and not alone:
                continue
            if word in _ARTICLES and ":" in match[0] and _NAME_NEXT.match(text, end):
                found.append(Caption(Role.RANGE, number, start, end, marked=True))
                continue
            marked = bool(
                match["both"] or match["number"] or match["name"] or match["mark"].strip()
            )
            asks_number = bool(match["number"] or match["number_of"])
            any_name = word in NAMES or (word in CALLED and not _OF_COLOUR.search(word))
            asks_name = bool(match["name"] or match["name_of"]) or any_name
            found.append(
                Caption(role, number, start, end, marked, asks_number, asks_name, any_name)
            )
    found += _misread(number, folded, found)
    ends_name = len(found) == 1 and _ENDS_A_NAME.fullmatch(text.strip())
    if ends_name or _IN_A_NAME.fullmatch(folded.text.strip()):
        found = [one for one in found if one.role is not Role.TOPIC]
    return _longest_first(_without_number_of_others(text, found))


_NUMBER_CLOSE = re.compile(r"(?:[a-z]{1,2}[ -]?)?\d")


def _lacks_number(word: str, text: str, match: re.Match[str]) -> bool:
    """Whether a word that is a lot's caption only before a number has none behind it, or ends a
    name that has one: "Copper Kettle 12"."""
    core = _NUMBER_WORD_BEHIND.sub("", word).strip(" .-")
    in_name = not match["mark"].strip() and not match["number"]
    in_name = in_name and _WORD_BEFORE.search(text, 0, match.start()) is not None
    bare = _NUMBER_CLOSE.match(text, match.end()) is None
    return core in NUMBERED_LOTS and (bare or in_name)


_NUMBER_WORD_BEHIND = re.compile(rf"[ .:\-]*{_NUMBER_WORD}$")


def _are_ranges(text: str) -> bool:
    """Whether a line is nothing but captions of a range, one that hardly names anything else or
    several between marks: "Désignation · Denominación", "Garnnamn / Garen / Hilo"."""
    words = [word for word in re.split(r"[^a-z]+", text) if word]
    if any(sign.isdigit() for sign in text) or all(word in _FIBRES_TOO for word in words):
        return False  # "wool/ull/Wolle 80 %"
    apart = _MARKS_APART.search(text) is not None
    known = _WORDS[Role.RANGE] if apart and len(words) > 1 else LINES_OF_YARN
    return all(word in known for word in words)


def _without_number_of_others(text: str, found: Sequence[Caption]) -> list[Caption]:
    """``found``, the later of two cut short where they share a word for a number, which belongs to
    the first: "Col. number" and "dye bath no."."""
    cut = []
    for caption in found:
        ends = [
            other.end
            for other in found
            if other.role is not caption.role and other.start < caption.start < other.end
            if other.end < caption.end and _is_number_word(text[caption.start : other.end])
        ]
        cut.append(replace(caption, start=max(ends)) if ends else caption)
    return cut


def _is_number_word(text: str) -> bool:
    return re.fullmatch(_NUMBER_WORD, Folded(text).text.strip(" :")) is not None


def _names_shade(text: str, folded: Folded, match: re.Match[str]) -> bool:
    """Whether "in shade" leads up to a shade, a number or a name with a capital, and is no place to
    dry in."""
    start, end = folded.span(*match.span())
    named = text[start:end].islower() and text[end : end + 1].isupper()
    dried = _DRIED.search(folded.text, 0, match.start())
    return text[end : end + 1].isdigit() or (named and not match["mark"].strip() and not dried)


def _heads_name(text: str, caption: str) -> bool:
    """Whether a word for "name" is a caption: by its colon, because it stands alone, or with
    a name and nothing else behind it."""
    whole = text.strip()
    behind = whole[len(caption.strip()) :]
    opens = whole.casefold().startswith(caption.strip())
    named = re.fullmatch(r"\s+[^\W\d_]+(?:[ '’&-]+[^\W\d_]+){0,3}", behind)
    return ":" in caption or (opens and (not behind or named is not None))


def _may_be_a_name(text: str, match: re.Match[str]) -> bool:
    """Whether a short word stands in a name rather than before a number: "Våt Skifer"."""
    word = match[0].strip()
    marked = match["number"] or match["mark"].strip()
    if word.startswith("id") and _FIRM_BEFORE.search(text, 0, match.start()):
        return True
    return len(word) <= _SHORT_WORD and not marked and _NUMBER_NEXT.match(text, match.end()) is None


_FIRM_BEFORE = re.compile(r"\bco\.? $")
"""Before "Id." it says that this is "Ltd.", misread."""


def _misread(number: int, folded: Folded, found: Sequence[Caption]) -> list[Caption]:
    """Long caption words with letters misread; only with a colon or a number behind."""
    extra = []
    for match in WORD.finditer(folded.text):
        start, end = folded.span(*match.span())
        behind = _VALUE_BEHIND.match(folded.text, match.end())
        covered = any(start < other.end and other.start < end for other in found)
        if not behind or covered or match[0] in _NO_CAPTIONS:
            continue
        word = _LONG_WORDS.nearest(match[0]) or _LONG_WORDS.nearest(_NUMBER_END.sub("", match[0]))
        if word is not None:
            _, end = folded.span(match.start(), behind.end())
            extra.append(Caption(_ROLES[word], number, start, end, marked=True))
    return extra


def _longest_first(found: list[Caption]) -> list[Caption]:
    """``found`` in order, without those that lie in a longer one."""
    kept: list[Caption] = []
    for caption in sorted(found, key=lambda item: (item.start - item.end, item.start)):
        if not any(caption.start < other.end and other.start < caption.end for other in kept):
            kept.append(caption)
    return sorted(kept, key=lambda item: item.start)


def is_in_brackets(text: str, start: int, end: int) -> bool:
    """Whether nothing but a caption stands between brackets: "2818 (Bath)"."""
    return text[:start].rstrip()[-1:] in ("(", "[") and text[end:].lstrip()[:1] in (")", "]")


LANGUAGE_CODE = re.compile(r"\b(?:EN|GB|DE|FR|IT|ES|NL|SV|SE|NO|NB|DA|DK)\b")
"""Before each of several languages that say the same: "SV Färgbad NL Verfbad" (ISO 639-1 and 3166-1
have the letters; from memory)."""


def is_glue(text: str, start: int, end: int) -> bool:
    """Whether nothing but marks stands between two captions."""
    # The blank before a stroke may belong to the caption that ends there.
    return _GLUE.fullmatch(" " + text[start:end]) is not None


def _joined(text: str, captions: Sequence[Caption]) -> list[Caption]:
    joined: list[Caption] = []
    text = LANGUAGE_CODE.sub("  ", text)
    for caption in captions:
        last = joined[-1] if joined else None
        if (
            last is not None
            and last.role == caption.role
            and is_glue(text, last.end, caption.start)
        ):
            joined[-1] = Caption(
                last.role,
                last.line,
                last.start,
                caption.end,
                last.marked or caption.marked,
                last.asks_number or caption.asks_number,
                last.asks_name or caption.asks_name,
                last.any_name or caption.any_name,
            )
        else:
            joined.append(caption)
    return joined
