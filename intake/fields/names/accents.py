"""Accents that no language of the tag has.

The second reader's data for all Latin letters puts accents on the dot of an i now and then
("Spínnerij"), or on a letter under a mark of the paper ("Garñ"), and reads å as à or á; where
one reader sees an accent the other one is taken to have lost it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

from intake.fields.letters import Folded
from intake.records import Line

_SPANISH = re.compile(
    r"\b(?:lavar|secar|planchar|lejia|agujas?|bano|lote|partida|ovillos?|madejas?|algodon|hilos?"
    r"|hilados?|hilaturas?|tono|tinte|colores|espana|lana virgen|seda|poliamida|muestra|metros)\b"
)
_ITALIAN = re.compile(
    r"\b(?:lavare|asciugare|stirare|candeggiare|ferri|bagno|lotto|gomitol[oi]|matass[ae]|cotone"
    r"|filat[oi]|filatura|colore|lana vergine|seta|italia|campione|metri|tinta)\b"
)
_FRENCH = re.compile(
    r"\b(?:lavage|laver|sechage|secher|repassage|repasser|javel|aiguilles?|bain|pelotes?|echeveau"
    r"|coton|laine|fil|coloris|couleur|soie|france|echantillon|metres|filature)\b"
)
_DUTCH = re.compile(
    r"\b(?:wassen|wol|drogen|strijken|bleken|naalden?|verfbad|kleur\w*|bol|streng|katoen|garen"
    r"|nederland|spinnerij|ververij|looplengte|handwas)\b"
)
_GERMAN = re.compile(
    r"\b(?:waschen|\w*wasche|farbe|farbnr|partie|lauflange|nadel\w*|wolle|\w*wolle|seide|bugeln"
    r"|maschen|deutschland|osterreich|schweiz|gefarbt|gesponnen)\b"
)
_SWEDISH = re.compile(
    r"\b(?:\w*tvatt\w*|farg(?!e)\w*|langd|lopla\w*|stickor|sverige|strykes ej|blek ej|siden"
    r"|ullgarn)\b"
)
_NORSE_OR_DANISH = re.compile(
    r"\b(?:\w*vask\w*|farge\w*|farve\w*|\w*lengde|\w*laengde|pinner|pinde|norge|danmark|bomuld"
    r"|uld|\w+uld|ikke|innfarging|indfarvning)\b"
)
_RINGED = frozenset("àáâä")
"""Letters that an å of a Norwegian, Danish or Swedish tag is read as."""

_DOTTED = frozenset("äö")
"""Letters of German and Swedish, which an o or a under a mark of the paper is read as."""

_RINGLESS = re.compile(r"\bhandfarv|\bhandfarg(?=e|i)|\bhandspun(?:det|net)\b")
"""Danish and Norwegian words that begin with hånd, where both readers lost the ring."""

_ELIDED = re.compile(
    r"(?<!\w)(l|d)(?=atelier|echeveau|echeppe|aiguille|etoffe|artisan|ecole|union)"
)
"""French and Italian words that stand behind an article without a space, where both readers lost
the apostrophe."""

_LANGUAGES = (
    ("í", (_SPANISH,)),
    ("î", (_FRENCH,)),
    ("ï", (_FRENCH, _DUTCH)),
    ("ø", (_NORSE_OR_DANISH,)),
    ("â", (_FRENCH,)),
    ("à", (_FRENCH, _ITALIAN)),
    ("á", (_SPANISH,)),
    ("ó", (_SPANISH,)),
    ("ú", (_SPANISH,)),
    ("ò", (_ITALIAN,)),
    ("ô", (_FRENCH,)),
    ("û", (_FRENCH,)),
    ("ù", (_FRENCH, _ITALIAN)),
    ("æ", (_NORSE_OR_DANISH,)),
    ("œ", (_FRENCH,)),
)
"""Letters with accents or strokes, each with the languages that have them."""

_PAIRS = {"æ": "oe", "œ": "oe"}
"""Two letters that both readers see as one: "Gebroeders" is no word with an æ."""

_OWNED = frozenset({*(sign for sign, _ in _LANGUAGES), "ì"})

_CAPITAL_DOTS = re.compile(r"(?<!\w)Ä(?=\w)")
"""A capital that begins a Swedish word: both readers take the ring of an Å for dots (2 of 5 such
words in names on drawn tags)."""

_WITHIN = re.compile(r"(?<=\w)[éè](?=\w)")
"""Within a word only French, Italian and Spanish have them; others end words with them."""

_INITIAL = re.compile(r"(?<!\w)[éè](?=\w)")
"""At a word's beginning only French and Spanish have them."""

_USUAL = frozenset("àâäáåçéèêëíîïìóòôöúùûüÿ")
"""Letters with accents of the nine languages that tags are read in, but for the Spanish ñ
(common practice, no source)."""


_ZERO = re.compile(r"(?<=[^\W\d_])0(?=[^\W\d_])")
"""A letter O or Ø that was read as 0."""


def odd_accent(value: str, lines: Sequence[Line]) -> str:
    """``value`` without an accent that no language of ``lines`` has where it stands, or with a
    letter for a 0 in a word; empty where there is none."""
    text = unicodedata.normalize("NFC", value)
    if _ZERO.search(text):
        stroked = any(
            "ø" in line.text.casefold() or _NORSE_OR_DANISH.search(Folded(line.text).text)
            for line in lines
        )
        letter = "Ø" if stroked else "O"
        return _ZERO.sub(letter if text.isupper() else letter.lower(), text)
    if elided := _ELIDED.search(Folded(text).text):
        return f"{text[: elided.end()]}'{text[elided.end() :]}"
    if ringless := _RINGLESS.search(text.casefold()):
        at = ringless.start() + 1
        return text[:at] + ("Å" if text[at].isupper() else "å") + text[at + 1 :]
    strange = {sign for sign in text.casefold() if _is_accented(sign) and sign not in _USUAL}
    ringed = _RINGED & set(text.casefold())
    within = set(_WITHIN.findall(text.casefold()))
    initial = set(_INITIAL.findall(text.casefold()))
    dotted = _DOTTED & set(text.casefold())
    if not (_OWNED & set(text.casefold()) or strange or within or initial or dotted):
        return ""
    print_ = "\n".join(Folded(line.text).text for line in lines)
    if _CAPITAL_DOTS.search(text) and _SWEDISH.search(print_) and not _GERMAN.search(print_):
        return _CAPITAL_DOTS.sub("Å", text)
    if _SPANISH.search(print_):
        strange.discard("ñ")
    odd = {
        sign
        for sign, languages in _LANGUAGES
        if sign in text.casefold() and not any(one.search(print_) for one in languages)
    }
    # Italian has the grave accent at a word's end alone.
    if re.search(r"ì(?=\w)", text.casefold()) or (
        "ì" in text.casefold() and not _ITALIAN.search(print_)
    ):
        odd.add("ì")
    southern = any(one.search(print_) for one in (_SPANISH, _ITALIAN, _FRENCH))
    if not southern:
        odd |= within
    if not any(one.search(print_) for one in (_SPANISH, _FRENCH)):
        odd |= initial
    has_dots = _GERMAN.search(print_) or _SWEDISH.search(print_)
    if southern and not has_dots:
        odd |= dotted
    northern = _NORSE_OR_DANISH.search(print_) or _SWEDISH.search(print_)
    if northern and not has_dots:
        odd |= ringed & _DOTTED
    plain = text
    for sign in odd | strange:
        letter = "å" if sign in ringed and northern else _PAIRS.get(sign, Folded(sign).text)
        plain = plain.replace(sign, letter).replace(sign.upper(), letter.upper())
    return plain if odd | strange else ""


def _is_accented(sign: str) -> bool:
    return len(unicodedata.normalize("NFD", sign)) > 1
