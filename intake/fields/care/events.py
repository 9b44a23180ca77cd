"""Events of care: what the letters of a tag say about it, phrase by phrase."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from rapidfuzz.distance import Hamming, Levenshtein

from intake.fields.captions import SINGLE_WORDS
from intake.fields.care.advice import ADVICE
from intake.fields.care.allowances import denied
from intake.fields.care.asides import asides_in
from intake.fields.care.concepts import (
    BESIDE,
    FILLERS,
    STRONG,
    allowing_words,
    concept_words,
    forbidding_words,
    meanings_of,
    meant,
)
from intake.fields.care.handling import HARM
from intake.fields.care.manners import MORE_PHRASES
from intake.fields.care.phrases import HARMLESS, PHRASES
from intake.fields.care.refusals import REFUSALS
from intake.fields.fibre.names import FIBRES, KINDS, words_of
from intake.fields.fibre.print import words_without_spaces
from intake.fields.letters import Words, listed

_SHORTEST_WASHING = 6
"""Letters of a word for washing that no other language has for something else."""

_PROGRAMS = ("wool program", "hand program", "mild program")
"""Meanings of words that are phrases by themselves: the programmes of a machine that are mild."""

PHRASE_LIST = sorted(
    {
        *((phrase, kind) for kind, phrases in PHRASES.items() for phrase in listed(phrases)),
        *((phrase, kind) for kind, phrases in MORE_PHRASES.items() for phrase in phrases),
        *((word, "wash") for word in meant("wash") if len(word) >= _SHORTEST_WASHING),
        *((word, "mild") for name in _PROGRAMS for word in meant(name)),
    },
    key=lambda pair: (-len(pair[0].rstrip("*")), pair),
)
FIRST_WORDS = frozenset(
    words[0]
    for phrase, _ in PHRASE_LIST
    if phrase not in REFUSALS
    and len(words := re.split(r"[ '_-]", phrase)) > 1
    and len(words[0]) > 2
    and "*" not in words[0]
) - set(HARMLESS)
FIBRE_NAME_WORDS = frozenset(
    word for phrase in words_of(FIBRES) | words_of(KINDS) for word in phrase.split()
)
_PHRASE_WORDS = {
    word.rstrip("*")
    for phrase, _ in PHRASE_LIST
    for word in re.split(r"[ '_-]", phrase)
    if len(word) > 1
} | {word for word in HARMLESS if len(word) > 2}
_SHORTEST_MENDED = 6
VOCABULARY = Words(_PHRASE_WORDS)
"""Words of the phrases."""

MENDED = Words(
    _PHRASE_WORDS
    | {word for word in concept_words() | FILLERS if len(word) >= _SHORTEST_MENDED}
    | {"il", "ja", "el"}  # no look-alikes of "ll", "la" and "ej"
    | {word for word in ADVICE if len(word) >= _SHORTEST_MENDED}
    | SINGLE_WORDS,  # no misread words of care: "colore" is not "chlore"
    kept=(
        word
        for word in forbidding_words() | denied(allowing_words())
        if len(word) >= _SHORTEST_MENDED
    ),
)
"""Words that are put right where they were misread by a letter."""


_ENDING = r"(?![a-z]*(?:frarad|avrad|forbud|forbjud|verbo|interdi|vietat|niet|nicht|ikke))[a-z]*"
"""Any ending of a word, but no other word that forbids and has lost the space before it."""


def phrase_pattern(phrase: str) -> str:
    """A phrase as a pattern: the spaces may be lost, or be a hyphen or a line's end."""
    words = (re.escape(word).replace(r"\*", _ENDING) for word in re.split(r"[ '-]", phrase))
    return r"[\s'-]{0,2}".join(words).replace("_", " ?")


@cache
def _phrases_from(letter: str) -> tuple[re.Pattern[str], list[str]]:
    """Phrases that begin with a ``letter`` as one pattern, and the kinds of its groups: a single
    pattern of all phrases takes many times as long, and many a tag needs few of these."""
    entries = [(phrase, kind) for phrase, kind in PHRASE_LIST if phrase[0] == letter]
    pattern = "|".join(f"({phrase_pattern(phrase)}(?![a-z]))" for phrase, _ in entries)
    return re.compile(pattern or "(?!)"), [kind for _, kind in entries]


TEMPERATURE = re.compile(
    r"(?<!\d)(?P<number>(?:1 ?10|1 ?50|2 ?00)(?=\s?[°c])"
    r"|\d[\do]|1[\do]{2}|2[\do]{2}|3[\do]{2}(?=\s?°?\s?f))"
    r"(?:\s?°\s?(?P<unit>[cf])?(?![a-z])|[o0]?\s?(?P<bare>[cf])(?![a-z])|o(?![a-z\d])"
    r"|\s[o0]c(?![a-z])|\s?[\"'*]{1,2}\s?c(?![a-z])|\s?(?:deg|grad|degres|gradi|grados|graden|grader)[a-z]*)"
)
"""A temperature; the little ring before a "C" is read as quotes or a star, too."""
WATER = re.compile(
    r"(?<=wash[\s,])\s?(?P<water>cold|warm(?![\s,(]*(?:up to|max(?:imum)?\.?|at)?\s?\d\d\s?°))"
    r"(?![a-z])"
)
WATER_CELSIUS = {"cold": 30, "warm": 40}
"""American tags word the water's heat.  Cold is at most 30 °C, warm at most 44 °C (Care Labeling
Rule, 16 CFR 423, appendix A, from memory), so these are the washings of ISO 3758 that are no
hotter; hot is 45 to 63 °C and is asked about.  Degrees behind "warm" tell how warm."""

NUMBER = re.compile(
    r"(?<![\d.,])(?:30|40|60|95)(?![\d%°]|[.,]\d"
    r"| ?(?!(?<= )(?:on|in|at|or|and|und|im|mit|nur|et|og|och|con|no|ne|non|ej)\b)[a-z]{1,3}\b)"
)
"""A temperature without its unit; what counts other things has a short word behind it."""
WORD = re.compile(r"[^\W\d_]+")
MISREAD = re.compile(r"[^\W\d_]+[01358][^\W\d_]{2,}")
"""A word with a digit in its middle, "på1åg": letters look like that, or two words have lost
the space between them."""

NUMBERING = re.compile(r"no\s?[.:]?\s?(?=\d)|no\.:?(?=\s)")
"""``no. 12``: a number follows, nothing is forbidden."""

NORWAY = re.compile(
    r"no[\s:./|-]{1,3}(?=(?:handvask|maskinvask|finvask|ullvask|ullprogram|vask\w*|taler|skal|kan"
    r"|torkes|tork\w*|stryk\w*|kjemisk|rens\w*|ikke|ma ikke|ma kun|bruk|legg|ligge\w*"
    r"|for hand|gar i|kald|lunkent?|bare|vanlig|skansomt?|hold unna|heng\w*)(?![a-z]))"
)
"""``NO Håndvask``: the sign of a country before its language, which has another word for no."""

NO_ABBREVIATION = r"(?:(?<!max)(?<!maks)|(?<=[c°\d] max)|(?<=[c°\d] maks))"
"""A pattern before a stop: it ends no shortened word, or one behind its temperature."""

LEANING_SLASH = r"(?<=[^\W\d_]{3})/(?=\s)|(?<=°c)/(?=\s)|(?<=\s)/(?=[^\W\d_]{3})"
"""A slash between two things that was read without the space on one of its sides."""

STOP = re.compile(
    NO_ABBREVIATION + rf"[.;:|!]\s|[.;:|!]$|·|\s[/*+-]\s|{LEANING_SLASH}", re.MULTILINE
)

SHORTEST_GLUED = 6
"""Letters of a phrase that may stand behind another word without a space."""

_SIGN = re.compile(r"[.,;:|!·/()]|\s[*+-]\s")

_SHORTEST_NEGATION = 2

BEHIND = frozenset({"ej", "inte", "ikke", "icke"})
"""Words of the north that forbid what stands before them as well as what stands behind."""

_ARTICLES = frozenset({"el", "la", "los", "las"})

NEGATIONS = listed(PHRASES["not"])
"""Words that forbid."""

_NEGATIONS_BY_LENGTH = {
    length: [one for one in NEGATIONS if len(one) == length] for length in set(map(len, NEGATIONS))
}

GLUE = dict.fromkeys(HARMLESS, "harmless") | dict.fromkeys(NEGATIONS, "not")
"""Words that may stand before a phrase without a space, to the kind of their event."""


def may_be_negation(word: str) -> bool:
    """Whether a word is a letter away from one that forbids: "hot" for "not"."""
    return (
        word not in NEGATIONS
        and meanings_of((word,)) != ("not",)
        and any(Hamming.distance(one, word) == 1 for one in _NEGATIONS_BY_LENGTH.get(len(word), ()))
    )


def is_nearly_negation(word: str) -> bool:
    """Whether a word has a letter more, less or other than one that forbids: "ike" for "ikke"."""
    return len(word) >= _SHORTEST_NEGATION and any(
        Levenshtein.distance(one, word, score_cutoff=1) <= 1 for one in NEGATIONS
    )


KNOWN = (
    HARMLESS
    | FIBRE_NAME_WORDS
    | {one for one in BESIDE if not meanings_of((one,)) and not may_be_negation(one)}
    | {one for one in HARM if not may_be_negation(one)}
) - {"noch"}
"""Words that say nothing of care: those beside phrases or within clauses, and the names of
fibres; none that may be a misread negation, or is one in another language."""


@dataclass(frozen=True)
class Event:
    """Something said about care: a phrase, a temperature, a stop, or a word unread.

    ``celsius`` is a temperature, ``clean`` false where a letter stands among its digits,
    ``composed`` true where no phrase but the words of a clause say it together.
    """

    kind: str
    start: int
    end: int
    celsius: int = 0
    clean: bool = True
    composed: bool = False


def events_of(text: str) -> Iterator[Event]:
    """What the text says about care, in reading order."""
    position = 0
    while position < len(text):
        event = event_at(text, position)
        if event is None:
            position += 1
            continue
        yield event
        position = event.end


def event_at(text: str, position: int) -> Event | None:
    """The event that begins at ``position``, if one does."""
    if match := TEMPERATURE.match(text, position):
        return temperature_event(match)
    if match := WATER.match(text, position):
        return Event("temperature", *match.span("water"), celsius=WATER_CELSIUS[match["water"]])
    if match := NUMBER.match(text, position):
        return Event("number", *match.span(), celsius=int(match[0]))
    is_word = position == 0 or not text[position - 1].isalnum()
    if is_word and (match := NORWAY.match(text, position)):
        return Event("stop", *match.span())
    if match := NUMBERING.match(text, position) or STOP.match(text, position):
        return Event("stop", *match.span())
    phrase = phrase_at(text, position)
    until = asides_in(text).get(position, 0)
    if until and (phrase is None or phrase.end <= until):
        return Event("harmless", position, until)
    if phrase:
        return phrase
    if match := MISREAD.match(text, position):
        return Event("unread", *match.span())
    if match := WORD.match(text, position):
        return word_event(text, match)
    return None


def phrase_at(text: str, position: int) -> Event | None:
    """The phrase that begins at ``position``.  A negation at its end that opens another line
    of words belongs to those: "strykas / ej kemtvätt"."""
    pattern, kinds = _phrases_from(text[position])
    match = pattern.match(text, position)
    if match is None:
        return None
    words = match[0].split()
    if kind := _closes_line(text, match):
        return Event(kind, match.start(), match.start() + len(words[0]))
    opens_line = "\n" in match[0] and match[0].rpartition("\n")[2].strip() == words[-1]
    if opens_line and words[-1] in NEGATIONS and WORD.match(text, match.end() + 1):
        match = pattern.match(text, position, match.start() + match[0].rindex("\n"))
    if match is None or match.lastindex is None:
        return None
    return Event(kinds[match.lastindex - 1], *match.span())


def _closes_line(text: str, match: re.Match[str]) -> str:
    """The kind of the word that a phrase begins with where it ends a line and belongs to what
    stands before it: a negation, "blekes ikke / tørketrommel" or "bleach no / iron", or the heat of
    a dryer, "tumble dry on low / iron"; empty where it does not."""
    first, _, rest = match[0].partition("\n")
    line = text[text.rfind("\n", 0, match.start()) + 1 : match.start()]
    before = WORD.findall(_SIGN.split(line)[-1])
    if not rest or not before:
        return ""
    if first.strip() in BEHIND and STRONG & set(meanings_of((before[-1],))):
        return "not"
    named = [word for word in before if word not in _ARTICLES]
    if first.strip() == "no" and named and all(STRONG & set(meanings_of((one,))) for one in named):
        return "not"
    heats = "low" in meanings_of((first.strip(),))
    dries = any("tumble" in meanings_of((word,)) for word in before)
    return "harmless" if heats and dries else ""


def word_event(text: str, match: re.Match[str]) -> Event:
    """A word of no phrase; a harmless one may have lost the space behind it."""
    start, end = match.span()
    rest_of_word = start > 0 and text[start - 1].isdigit()
    if not rest_of_word and (match[0] in KNOWN or _names_yarn(match[0])):
        return Event("harmless", start, end)
    whole = meanings_of((match[0],))
    for cut in range(end - 1, start + 1, -1) if not whole else ():
        kind = GLUE.get(text[start:cut])
        phrase = phrase_at(text, cut) if kind else None
        if kind and phrase and phrase.end - cut >= SHORTEST_GLUED:
            return Event(kind, start, cut)
    return Event("unread", start, end)


@cache
def _names_yarn(word: str) -> bool:
    """Whether a word is made of words for fibres alone: "babywool"."""
    if meanings_of((word,)) or may_be_negation(word):
        return False
    parts = words_without_spaces(word)
    return len(parts) > 1 and any(part in FIBRE_NAME_WORDS for part in parts)


def temperature_event(match: re.Match[str]) -> Event:
    """A temperature in degrees Celsius; Fahrenheit is converted."""
    printed = match["number"]
    degrees = int(printed.replace("o", "0").replace(" ", ""))
    if "f" in (match["unit"], match["bare"]):
        degrees = round((degrees - 32) / 1.8)
    return Event("temperature", match.start(), match.end(), degrees, clean="o" not in printed)
