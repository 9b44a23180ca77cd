"""What is asked of a shade's name or code: whether it is whole, and a shade's at all."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from intake.fields.captions import DIPS_IN, Caption, is_caption
from intake.fields.care.events import VOCABULARY as CARE_WORDS
from intake.fields.codes import Found, code_parts, has_lookalike
from intake.fields.letters import Folded
from intake.fields.linked import Link
from intake.fields.names.colour_words import has_colour_word
from intake.fields.names.heading_pieces import OF_WORDS
from intake.fields.names.trade_words import has_trade_word
from intake.fields.pieces import Piece, gap_in_heights, meet
from intake.records import Candidate, Line

_LIKE_A_CODE = re.compile(
    r"(?<!\w)(?:[A-Z]{1,3}[OI]{2,}|[OI]{2,}[A-Z]{0,3}|[A-Z]?[OI]-[A-Z]{1,2}|[A-Z]{1,2}-[OI]+)"
    r"(?![\w-])"
)
"""A word of a name such as PYOO or O-H, which is rather the code PY00 or 0-H."""

_GOES_ON = re.compile(rf"\s(?:{OF_WORDS}|der)$")
"""A name that ends so was cut off."""

_SAYS = re.compile(r"[a-z]+ (?:is|ist|est|er|ar|es|e|heter|hedder|heet) [a-z]")
"""A sentence in place of a name: "Fargen er Gyvelgul"."""

_IN_WORDS = re.compile(r"(?:in|im|en|i|aus|from|fra|fran|uit|de|da) \S")
"""Words of a sentence before a name: "Ik ben Veldkiem, in Parelgrijs"."""

_NOUGHT_WORD = re.compile(r"(?<!\w)0[a-zà-ÿ]{2,}\s+$")
"""A word whose O was read as 0, before the rest of a name: "0ld Gold"."""

_MAY = re.compile(
    r"(?:kan|kann|konnen|may|can|might|peut|peuvent|puo|possono|puede|pueden|var(?:ia|ie|iert|ierar"
    r"|ierer|ies|ieren|iano|ian))(?!\w)"
)
"""How a shade's word goes on in a sentence: "colours may vary"."""

_CUT_OFF = re.compile(r"[^\W\d_]{3,} [^\W\d_]\.?$")
"""A name whose last word is one letter may have lost the rest of it."""

_NAMED = re.compile(r"(?:nombre|nome|name|naam|namn|navn) [a-z]")
"""A name behind the word for it."""

_OTHER_MATTER = re.compile(
    r"\b(?:stitches|sts|rows|maschen|reihen|mailles|rangs|maglie|puntos|vueltas|pasadas|steken"
    r"|toeren|naalden|maskor|varv|masker|omganger|pinde"
    r"|patterns?|booklets?|anleitung\w*|strickheft\w*|modeles?|catalogues?|katalog\w*|patronen|patrones"
    r"|breiboek\w*|schemi|istruzioni|instrucciones|monster|beskrivning\w*|oppskrift\w*|opskrift\w*"
    r"|haefte\w*|hefte\w*|hafte\w*)\b"
)
"""Words about the tension and about patterns."""

_BALLS_OF = re.compile(
    r"(?:balls?|skeins?|hanks?|knauel|strange?|pelotes?|echeveaux?|gomitol[oi]|matass[ae]|ovillos?"
    r"|madejas?|bol(?:len)?|streng(?:en)?|nystan|harvor|noster?|nogler?) \w"
)
"""What a kit holds."""

_WORD_BEFORE = re.compile(r"[^\W\d_]{2,},? (?:[^\W\d_]{1,4} )?$")

_RUNNING_WORDS = 3
"""So many words before a caption are running words."""

_COUNTED = re.compile(r"\s+(?:of|von|sur|de|di|van|av|af)\s+\d", re.IGNORECASE)
"""Behind a number that counts: "5 of 12"."""


_ASKS_TO_ORDER = re.compile(
    r"\b(?:oppgi\w*|oplys\w*|uppge\w*|angi(?:s|v|vet)?|angeben|anzugeben|angegeben|bitte|please|quote"
    r"|quoting|specify|reorder\w*|re-order\w*|indiquer|indiquez|preciser|precisez|recommander|reassort"
    r"|indicare|indicate|precisare|riordin\w*|indicar|indique|especificar|vermeld\w*|opgeven|opgave"
    r"|(?:nach|na|bij)be(?:stell|stel)\w*|(?:etter|efter)bestil\w*|efterbestall\w*|s.v.p|a.u.b"
    r"|vanligen|vennligst|venligst)\b"
)
"""Words of a request, "When reordering please quote"."""

_IN_ALL = re.compile(r" (?:and|und|et|ed?|y|en|och|og|[&+/]) |, ?")
_COLOURS = re.compile(
    r"(?:colou?rs|shades|farben|farbtone|couleurs|coloris|colori|tinte|colores|tonos|kleuren|farger"
    r"|fargerne|farver|kulorer|nyanser)\W*"
)
"""Captions of more than one shade."""

_BARE_NUMBER = re.compile(r"[^\W\d_]+(?: [^\W\d_]+){2,} \d")
"""Several words and a digit that no mark parts from them: "Storm über Gleis 3"."""


def asks_to_order(text: str) -> bool:
    """Whether ``text`` has words of a request: "Ved etterbestilling oppgi"."""
    return _ASKS_TO_ORDER.search(Folded(text).text) is not None


def leads_to_caption(piece: Piece, captions: Sequence[Caption], lines: Sequence[Line]) -> bool:
    """Whether words whose last is in small letters stand right before a caption in small letters in
    their line, and are a sentence that leads to it: "Hvis mere ønskes opgiv farve 94"."""
    span, words = piece.span, piece.text.split()
    text = lines[span.line].text if span.line < len(lines) else ""
    return any(
        one.line == span.line
        and one.start >= span.end
        and not text[span.end : one.start].strip()
        and text[one.start : one.start + 1].islower()
        and len(words) > 1
        and words[-1].islower()
        for one in captions
    )


def may_be_several(told: Sequence[Candidate], one: Link, lines: Sequence[Line]) -> list[Candidate]:
    """What a caption announces, asked about where that is of several shades and what it announces
    too, "Colores: Tierra y Crudo", or where a digit ends a name of many words and may be part of
    it."""
    word, text = one.caption, one.piece.text
    said = lines[word.line].text[word.start : word.end] if word.line < len(lines) else ""
    ask = ""
    coded = any(sign.isdigit() for sign in text)
    several = _COLOURS.fullmatch(Folded(said).text.strip()) and _IN_ALL.search(Folded(text).text)
    if several and not coded:
        ask = f"'{text}' may be more than one shade"
    elif _BARE_NUMBER.fullmatch(text):
        ask = f"the digit of '{text}' may be part of the shade's name, or its code"
    return [replace(half, doubt=half.doubt or ask) for half in told] if ask else list(told)


def doubt_of(name: str, found: Found, piece: Piece) -> str:
    """Why ``found`` in ``piece`` may not be the whole shade or shade code (``name``), or none at
    all; empty where nothing speaks against it."""
    if name == "shade_code" and _holds_two_codes(piece.text):
        return f"'{piece.text}' holds more than one code: which of them is the shade's?"
    if name == "shade_code" and "%" in piece.text:
        return f"'{piece.text}' may be the share of a fibre, and '{found.text}' no code"
    if name == "shade_code" and _COUNTED.match(piece.text, found.end):
        return f"'{piece.text}' may count the shades, and '{found.text}' be no code"
    if name == "shade_code" and has_lookalike(found.text):
        return f"letters and digits look alike in the code '{found.text}': is it O or 0, I or 1?"
    if name == "shade" and piece.text[found.start - 1 : found.start].isalnum():
        glued = piece.text[found.start - 1]
        return f"the shade's name '{found.text}' may begin with the '{glued}' before it, misread"
    if name == "shade" and found.text == "sort" and found.alone:
        return "'sort' may be the shade, black, or a word for the sort of yarn"
    if name == "shade" and (odd := _NOUGHT_WORD.search(piece.text[: found.start])):
        return f"the shade's name '{found.text}' may begin with '{odd[0].strip()}', misread"
    if name == "shade" and has_trade_word(found.text):
        return f"'{found.text}' stands where the shade should, but is named like a maker"
    if name == "shade" and (
        _GOES_ON.search(Folded(found.text).text) or _CUT_OFF.search(found.text)
    ):
        return f"the shade's name '{found.text}' seems to go on"
    said = Folded(found.text).text
    if name == "shade" and (_SAYS.match(said) or (_MAY.match(said) and found.text[0].islower())):
        return f"'{found.text}' may be words about the shade and its name"
    if name == "shade" and (
        DIPS_IN.match(said) or (_IN_WORDS.match(said) and found.text[0].islower())
    ):
        return f"'{found.text}' may begin with words of a sentence"
    if name == "shade" and _NAMED.match(said):
        return f"'{found.text}' may begin with a caption, '{found.text.split()[0]}'"
    if name == "shade" and is_other_matter(found.text):
        return f"'{found.text}' may be about the tension or a pattern and no shade"
    if name == "shade" and said in CARE_WORDS and not has_colour_word(found.text):
        return f"'{found.text}' may be the shade or a word about care"
    if name == "shade" and _LIKE_A_CODE.search(found.text):
        return f"'{found.text}' may begin with a code in which 0 was read as O"
    if found.goes_on:
        return f"the print beside the shade code '{found.text}' may be part of it"
    return ""


def that_may_go_on(half: Candidate, one: Link, lines: Sequence[Line]) -> Candidate:
    """A name behind a caption within running words, asked about where it ends their line: it may
    go on in the next."""
    line = lines[one.caption.line].text if one.caption.line < len(lines) else ""
    span = one.piece.span
    behind = line[one.piece.span.end :].strip() if one.piece.span.line == one.caption.line else ""
    is_own = one.caption.line == span.line and one.caption.start >= span.end
    capital = behind.isalpha() and behind[0].isupper()
    if half.name == "shade" and capital and is_caption(behind) and not is_own:
        ask = f"'{behind}' behind '{half.value}' may be part of the shade's name"
        return replace(half, doubt=half.doubt or ask)
    before = [word for word in line[: one.caption.start].split() if word.strip(".,").isalpha()]
    ends = half.name == "shade" and span.line == one.caption.line and span.end >= len(line.rstrip())
    if not ends or len(before) < _RUNNING_WORDS or half.doubt:
        return half
    return replace(half, doubt=f"the shade's name '{half.value}' may go on in the next line")


def in_small_letters(half: Candidate, one: Link, lines: Sequence[Line]) -> Candidate:
    """A name of several words in small letters right behind a caption with a capital and no mark,
    or any behind one in small letters within its line, asked about: "Colour your day" and "undyed,
    the colour the sheep came in" name no shade."""
    word, name = one.caption, str(half.value)
    if word.marked or word.line != one.piece.span.line or half.name != "shade" or half.doubt:
        return half
    line = lines[word.line].text if word.line < len(lines) else ""
    opens = line[word.start : word.start + 1].isupper() and " " in name
    runs_on = line[word.start : word.end].strip().islower() and bool(
        _WORD_BEFORE.search(line[: word.start])
    )
    if not ((opens or runs_on) and name.islower()) or name != one.piece.text.strip():
        return half
    return replace(half, doubt=f"'{name}' in small letters may be words of a sentence and no shade")


def ask_beside_headings(
    found: Sequence[Candidate], headings: Sequence[Candidate], free: Sequence[Piece]
) -> list[Candidate]:
    """``found``, asked about where a name and its code have no caption and the maker's or the
    range's name, one of ``headings``, stands nearer to the code, or alone in its row."""
    name = next((one for one in found if one.name == "shade"), None)
    code = next((one for one in found if one.name == "shade_code"), None)
    if name is None or code is None or name.cues["caption"] or code.cues["caption"]:
        return list(found)
    name_piece, code_piece = (
        next((piece for piece in free if meet(piece.span, one.spans[0])), None)
        for one in (name, code)
    )
    if name_piece is None or code_piece is None or name_piece is code_piece:
        return list(found)
    apart = gap_in_heights(name_piece, code_piece)
    in_row = _shares_row(name_piece, code_piece)
    nearer = [
        piece.text
        for piece in free
        for heading in headings
        if meet(piece.span, heading.spans[0])
        and (
            gap_in_heights(piece, code_piece) < apart
            or (_shares_row(piece, code_piece) and not in_row)
        )
    ]
    if not nearer:
        return list(found)
    ask = f"'{nearer[0]}' stands nearer to the code '{code.value}' than '{name.value}' does"
    return [
        replace(one, doubt=one.doubt or ask) if one.value == name.value else one for one in found
    ]


def _shares_row(one: Piece, other: Piece) -> bool:
    height_px = min(one.height_px, other.height_px)
    return one.frame.overlap_y(other.frame) > 0.5 * height_px and gap_in_heights(one, other) < 2


def is_other_matter(text: str) -> bool:
    """Whether ``text`` is about the tension, a pattern, or how many balls of what a kit holds:
    stitches, rows, a booklet, "nøste Bomullslin"."""
    folded = Folded(text).text
    return bool(_OTHER_MATTER.search(folded) or _BALLS_OF.match(folded))


def _holds_two_codes(text: str) -> bool:
    words = text.split()
    return code_parts(text) > 1 and any(letter.isdigit() for letter in words[1])
