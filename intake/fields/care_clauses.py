"""Care sentences that no phrase has: a clause is understood from the words that it is made of.

A clause speaks of one thing (washing, bleach, the dryer, drying, ironing, cleaning), and
its other words say how, or not at all.  One that speaks of two things is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from intake.fields.care_concepts import FILLERS, LONGEST, STRONG, meanings_of
from intake.fields.care_events import (
    BEHIND,
    NO_ABBREVIATION,
    NUMBER,
    NUMBERING,
    TEMPERATURE,
    Event,
    may_be_negation,
    temperature_event,
)
from intake.fields.care_lists import AND, with_lists
from intake.fields.care_meaning import NO_SUN, hang_together, kinds_of
from intake.fields.care_subjects import SUBJECT_OF

_END = re.compile(
    NO_ABBREVIATION
    + r"(?<!temp)[.;:|!,]+(?=\s|[a-z]{3}|[a-z]{2}\s|$)|[·()]|\s[/*+-]\s|^[*+-]\s|\s[/*+-]$",
    re.MULTILINE,
)
"""What ends a clause."""

_WORD = re.compile(r"[^\W\d_]+")
_LINE = re.compile(r"\S[^\n]*")
_NOTHING = re.compile(r"\s*(?:[.,;:|!·)]|\s[/*+-]\s|\n|$)")
_WATER = re.compile(r"\b(?:water|wasser|eau|acqua|agua|vatten|vann|vand)\b")
"""What things are washed in, and neither dried nor ironed."""

_CODE = re.compile(r"\d{3}|\d[a-z]\d|\b[a-z]\d")
"""Part of a code, which no care has but the heat of an iron."""

_SETTING = re.compile(
    r"(?<!\d)(?:(?:stufe|stand|niveau|setting|level)\s?([123])(?!\d)"
    r"|([123])\s?(?:dots?|punkten?|punkt|points?|punt[io]s?|punten|prick(?:ar)?|prikk(?:er)?|prik)\b)"
)
"""The setting of an iron or a dryer, in dots: ISO 3758 gives one for low, two for medium and three
for high (from memory)."""

_BARE_HEAT = re.compile(r"(?<![\d.,])(?:110|150|200)(?![\d%°o]|\s?[a-z]{1,3}\b)")
"""The heat of an iron without its unit: "iron max. 150"."""

_LOOSE_ENDS = frozenset({",", ":", "("})

HANGING = frozenset({"tender"})
"""Words for hanging out the washing that other languages have for other things."""

_SIGNS = frozenset(".,;:|/·-")

_HEATS = {"1": "low", "2": "medium", "3": "high"}

_BETWEEN = re.compile(r"[\s'-]{0,2}")

_FEWEST = 2
"""A clause of fewer meaning words is left to the phrases."""

_UNREAD = 3
"""A word of so many letters that means nothing here is unread."""

_MOST_LINES = 4
"""A clause goes on over at most so many lines."""

_COOLEST = 20
"""What is said to be cooler, in degrees Celsius, is no heat but a count: 39 F."""

_LOOSE = frozenset({"unread", "not", "wash", "iron", "machine word"})
"""Kinds of events where the phrases have not read a clause in full."""

_DRYING = frozenset({"dry flat", "line dry", "drip line dry"})


@dataclass(frozen=True, slots=True)
class Token:
    """A word, or several that count together, with their meanings; none for an unread one."""

    start: int
    end: int
    meanings: tuple[str, ...] = ()
    celsius: int = 0
    filler: bool = False

    @property
    def is_unread(self) -> bool:
        """Whether the word is none of those that care is told in."""
        return not self.meanings and not self.filler


Clause = list[Token]
Place = tuple[int, int]


def with_clauses(text: str, events: Sequence[Event]) -> list[Event]:
    """``events`` of folded ``text``, those of a clause that its phrases have not read in full
    replaced by what its words say together.  A clause that speaks of care and is not
    understood leaves an event of the kind ``unclear``."""
    found = with_lists(text, events, _END, partial(_tokens, text))
    for start, end in _clauses(text):
        for first, last, composed in _composed(text, _lines(text, start, end)):
            inside = [event for event in found if first <= event.start < last]
            # A temperature may hold the blank behind it, and have its unit in the next line.
            within = all(e.end <= last + 1 or e.kind == "temperature" for e in inside)
            if within and (_are_loose(inside) or _tempers(inside, composed)):
                at = found.index(inside[0])
                told = composed
                if lost := _lost(inside, composed):
                    told = [Event("unclear", lost.start, lost.end)]
                # What is not clear leaves what the phrases have read.
                kept = inside if told[0].kind == "unclear" else []
                found[at : at + len(inside)] = [*kept, *told]
    return _without_sun(_with_lone_words(text, found))


def _lost(inside: Sequence[Event], composed: Sequence[Event]) -> Event | None:
    """What phrases have read of a clause on a subject that ``composed`` does not speak of; that it
    is not washed hot is care of no process, and tells of washing."""
    told = {SUBJECT_OF[event.kind] for event in composed if event.kind in SUBJECT_OF}
    if any(event.kind == "other" for event in composed):
        told.add("washing")
    lost = (event for event in inside if SUBJECT_OF.get(event.kind, "") not in {"", *told})
    return next(lost, None)


def _with_lone_words(text: str, events: Sequence[Event]) -> list[Event]:
    """``events``, a word that says all of drying by itself, between commas or stops in a line that
    tells of other care, told so: "lavar a mano, tender, no planchar"."""
    found = list(events)
    for at, event in enumerate(found):
        if event.kind != "unread" or text[event.start : event.end] not in HANGING:
            continue
        start, end = text.rfind("\n", 0, event.start) + 1, (text + "\n").index("\n", event.end)
        left, right = text[start : event.start].rstrip(), text[event.end : end].lstrip()
        cared = any(one.kind in SUBJECT_OF and start <= one.start < end for one in found)
        if cared and left[-1:] in {"", *_SIGNS} and right[:1] in {"", *_SIGNS}:
            found[at] = replace(event, kind="line dry", composed=True)
    return found


def _without_sun(events: Sequence[Event]) -> list[Event]:
    """``events``, those that forbid the sun told of drying where they stand right behind it, as in
    "dry flat, not in the sun"; else it is not clear what they ask for."""
    found: list[Event] = []
    for event in events:
        if event.kind == NO_SUN:
            before = next(
                (one for one in found[::-1] if one.kind not in ("stop", "harmless")), None
            )
            dries = before is not None and before.kind in _DRYING
            event = replace(event, kind="dry in shade" if dries else "unclear")
        found.append(event)
    return found


def _are_loose(events: Sequence[Event]) -> bool:
    """Whether phrases have not read a clause in full; one that washes by hand and gently
    names no programme of a machine."""
    kinds = {event.kind for event in events}
    if kinds and kinds <= {"harmless", "stop"}:
        return True
    loose = any(e.kind in _LOOSE and e.end - e.start >= _FEWEST for e in events)
    return loose or ({"hand wash", "mild"} <= kinds and not kinds & {"or", "machine"})


def _tempers(events: Sequence[Event], composed: Sequence[Event]) -> bool:
    """Whether phrases have read a dryer or a washing machine, and the words of its clause add that
    it is not hot or that it is gentle."""
    kinds, told = ({event.kind for event in part} for part in (events, composed))
    kinds -= {"harmless", "stop", "temperature"}
    if not kinds and told == {"mild", "temperature"}:
        return True
    return (kinds == {"tumble dry"} and told == {"tumble dry low"}) or (
        kinds == {"machine"} and told - {"temperature"} == {"machine", "mild"}
    )


def _clauses(text: str) -> Iterator[Place]:
    """Where the clauses of ``text`` stand.  A heat behind a comma belongs to the iron or the dryer
    before it: "iron, low heat"."""
    start = 0
    ends = list(_END.finditer(text))
    for at, match in enumerate(ends):
        until = ends[at + 1].start() if at + 1 < len(ends) else len(text)
        before = _tokens(text, max(start, text.rfind("\n", 0, match.start())), match.start())
        behind = _tokens(text, match.end(), until)
        ways = [before] if _is_whole(before) else [before, _two_lines(text, start, match.start())]
        if match[0].strip() in _LOOSE_ENDS and any(
            _is_heated(one, behind) or _ends_heated(text, one, match.end(), until) for one in ways
        ):
            continue
        if match[0].strip() == "," and any(
            _is_placed(one, behind) for one in (before, _tokens(text, start, match.start()))
        ):
            continue
        line = _LINE.search(text, match.end(), until)
        told = (behind, _tokens(text, *line.span()) if line else [])
        if match[0].strip() == ":" and any(_is_heading(before, one) for one in told):
            continue
        yield from _parted(text, start, match.start())
        start = match.end()
    yield from _parted(text, start, len(text))


def _parted(text: str, start: int, end: int) -> Iterator[Place]:
    """A clause, or its two halves where each says something of its own: "wash by hand and dry
    flat".  A negation in the first half may forbid the second, so such a clause stays whole."""
    for match in _WORD.finditer(text, start, end):
        if match[0] not in AND:
            continue
        one, other = _tokens(text, start, match.start()), _tokens(text, match.end(), end)
        about = [_about(part) for part in (one, other)]
        forbids = any({"not", "without", "or"} & set(token.meanings) for token in one)
        if all(about) and not set(about[0]) & set(about[1]) and not forbids:
            yield start, match.start()
            start = match.end()
    yield start, end


def _about(tokens: Clause) -> Sequence[str]:
    """The subjects of what a clause says in full; none where it does not."""
    said = [name for token in tokens for name in token.meanings]
    if len(said) < _FEWEST or any(token.is_unread for token in tokens):
        return ()
    return [SUBJECT_OF.get(kind, "") for kind in _kinds(tokens)]


def _two_lines(text: str, start: int, end: int) -> Clause:
    """The words of the last two lines before ``end``, none before ``start``."""
    last = text.rfind("\n", 0, end)
    return _tokens(text, max(start, text.rfind("\n", 0, max(last, 0))), end)


def _is_placed(one: Clause, other: Clause) -> bool:
    """Whether ``one`` tells of drying and ``other`` only where: "dry in the shade, flat"."""
    said, place = ({name for token in part for name in token.meanings} for part in (one, other))
    strange = any(token.is_unread for token in (*one, *other))
    dries = "dry" in said and said <= {"dry", "flat", "hang", "spread", "shade", "allow"}
    return dries and bool(place) and place <= {"flat", "hang", "shade"} and not strange


def _is_heated(one: Clause, other: Clause) -> bool:
    """Whether ``one`` names an iron or a dryer and ``other`` only a heat."""
    said, heat = ({name for token in part for name in token.meanings} for part in (one, other))
    unread = any(token.is_unread for token in other)
    named = said & {*_HEATS.values(), "heat"}
    wants_heat = said & {"iron", "tumble"} and "not" not in said and named <= heat
    told = heat & {*_HEATS.values(), "heat"}
    return bool(wants_heat and told) and heat <= {*told, "program"} and not unread


def _ends_heated(text: str, one: Clause, start: int, end: int) -> bool:
    """Whether the line behind ``start`` gives ``one`` a heat, by its name and not only as one word
    ("low heat") where the next may take it, and the next line says something by itself."""
    line = _LINE.search(text, start, end)
    if line is None:
        return False
    below = _LINE.search(text, line.end(), end)
    other, more = _tokens(text, *line.span()), _tokens(text, *below.span()) if below else []
    takes_heat = {"iron", "tumble"} & {name for token in more for name in token.meanings}
    named = len(other) >= _FEWEST or not takes_heat
    return named and _is_heated(one, other) and _is_whole(more)


def _is_heading(one: Clause, other: Clause) -> bool:
    """Whether ``one`` only names what ``other`` tells about: "drying: flat", "Bleichen: nein"."""
    heads, told = ({name for token in part for name in token.meanings} for part in (one, other))
    unread = any(token.is_unread for token in (*one, *other))
    return len(heads) == 1 and heads <= STRONG and bool(told) and not told & STRONG and not unread


def _lines(text: str, start: int, end: int) -> list[Place]:
    return [
        (start + match.start(), start + match.end())
        for match in re.finditer(r"[^\n]+", text[start:end])
    ]


def _composed(text: str, lines: Sequence[Place]) -> Iterator[tuple[int, int, list[Event]]]:
    """Of the lines of a clause those that make sense, alone or with the next ones: where
    they stand, and their events."""
    at = 0
    while at < len(lines):
        size = _sensible(text, lines[at:])
        if size:
            first, last = lines[at][0], lines[at + size - 1][1]
            yield first, last, _events(text, _tokens(text, first, last))
        else:
            size = _unclear(text, lines[at:])
            if size:
                tokens = _tokens(text, lines[at][0], lines[at + size - 1][1])
                telling = [token for token in tokens if token.meanings]
                events = [Event("unclear", telling[0].start, telling[-1].end)]
                yield lines[at][0], lines[at + size - 1][1], events
        at += max(size, 1)


def _unclear(text: str, lines: Sequence[Place]) -> int:
    """How many of the first ``lines`` of a clause that make no sense are about care all the
    same, the first alone or with the next one; 0 where they are not."""
    if speaks_of_care(_tokens(text, *lines[0])):
        return 1
    both = [_tokens(text, *line) for line in lines[:2]]
    told = all(any(one.meanings and not one.celsius for one in tokens) for tokens in both)
    goes_on = len(both) == 2 and told and not _sensible(text, lines[1:])
    return 2 if goes_on and speaks_of_care([*both[0], *both[1]]) else 0


def _sensible(text: str, lines: Sequence[Place]) -> int:
    """How many of the first ``lines`` make sense together; 0 where they make none."""
    size = next(
        (n for n in range(1, min(_MOST_LINES, len(lines)) + 1) if _has_sense(text, lines[:n])), 0
    )
    if size > 1 and not _goes_on(text, lines[: size - 1], lines[size - 1]):
        return 0
    # "Tumble dry" makes sense, and so does "low" behind it.
    while 0 < size < len(lines):
        more = _tokens(text, *lines[size])
        at_end = size + 1 == len(lines)
        strange = any(one.is_unread for one in more) or (
            any(_forbids_ahead(text, one) for one in more) and not (at_end and _only_forbids(more))
        )
        if strange or _has_sense(text, [lines[size]]) or not _has_sense(text, lines[: size + 1]):
            break
        hot = [token for token in _tokens(text, *lines[size - 1]) if token.meanings][-1:]
        fibre = {name for token in more for name in token.meanings} == {"wool"}
        if (fibre and hot and hot[0].celsius) or _is_whole(more):
            break
        said = _tokens(text, lines[0][0], lines[size - 1][1])
        if _WATER.search(text, *lines[size]) and "washing" not in _about(said):
            break
        size += 1
    return size


def _is_whole(tokens: Clause) -> bool:
    """Whether a line says something of care by itself, be it in one compound word."""
    said = [name for token in tokens for name in token.meanings]
    return len(said) >= _FEWEST and bool(STRONG & set(said)) and bool(_kinds(tokens))


def _goes_on(text: str, lines: Sequence[Place], last: Place) -> bool:
    """Whether ``last`` may go on with ``lines`` that make no sense without it: it says nothing by
    itself, or no more than with them, or they forbid what it says, or tell how hot or gentle."""
    tokens, more = _tokens(text, lines[0][0], lines[-1][1]), _tokens(text, *last)
    said = {name for token in tokens for name in token.meanings}
    if not _is_whole(more) or said & {"not", "without"}:
        return True
    about = {name for token in more for name in token.meanings}
    if about & {"tumble", "iron"} and said <= {*_HEATS.values(), "heat", "mild", "allow"}:
        return True
    if "wash" in about and said <= {"mild", "allow"}:
        return True
    places = {"flat", "hang", "spread", "shade", "drip", "allow"}
    if said <= ({*places, "dry"} if "dry" in about else {"allow"}):
        return True
    alike = _kinds(_tokens(text, lines[0][0], last[1])) == _kinds(more)
    return alike and said <= {*about, *STRONG, "allow"}


def _only_forbids(tokens: Clause) -> bool:
    """Whether a line only says that what stands before it is forbidden: "niet toegestaan"."""
    return all(set(token.meanings) <= {"not", "allow"} for token in tokens)


def _forbids_ahead(text: str, token: Token) -> bool:
    """Whether a word forbids what is said behind it, so that it cannot end a clause: all
    such words but those of the north, "torktumlas ej"."""
    forbids = bool({"not", "without"} & set(token.meanings))
    return forbids and text[token.start : token.end] not in BEHIND


def _has_sense(text: str, lines: Sequence[Place]) -> bool:
    tokens = _tokens(text, lines[0][0], lines[-1][1])
    strange = sum(token.is_unread and token.end - token.start >= _UNREAD for token in tokens)
    telling = sum(bool(token.meanings) for token in tokens)
    known = [token for token in tokens if not token.is_unread]
    each = all(
        any(token.start < end and start < token.end for token in known) for start, end in lines
    )
    if len(lines) > 1:
        opens = any(token.meanings and not token.celsius for token in _tokens(text, *lines[0]))
        coded = any(_CODE.search(TEMPERATURE.sub(" ", text[low:high])) for low, high in lines)
        if strange or not opens or coded:
            return False
    sound = strange <= telling / 2 and _hangs_together(tokens)
    return each and telling >= _FEWEST and sound and bool(_kinds(tokens))


def speaks_of_care(tokens: Clause) -> bool:
    """Whether words that make no sense are about care all the same."""
    strange = sum(token.is_unread and token.end - token.start >= _UNREAD for token in tokens)
    telling = [token for token in tokens if token.meanings]
    said = {name for token in telling for name in token.meanings}
    if said <= {"wash", "heat"} and not strange:
        return False  # whether by hand is asked for where nothing else tells it
    strong = any(STRONG & set(token.meanings) for token in telling)
    return strong and len(telling) >= _FEWEST and strange <= len(telling)


def _tokens(text: str, start: int, end: int) -> Clause:
    """The words of a clause, as many together as count together."""
    numbered = [match.start() for match in NUMBERING.finditer(text, start, end)]
    words = [word for word in _WORD.finditer(text, start, end) if word.start() not in numbered]
    heats = [
        match
        for match in TEMPERATURE.finditer(text, start, end)
        if temperature_event(match).celsius >= _COOLEST
    ]
    settings = [Token(*match.span(), (_HEATS[match[match.lastindex or 1]],))
                for match in _SETTING.finditer(text, start, end)]  # fmt: skip
    found = [Token(*match.span(), ("heat",), temperature_event(match).celsius) for match in heats]
    about = {meaning for word in words for meaning in meanings_of((word[0],))}
    if {"wash", "machine"} & about:
        found += [
            Token(*match.span(), ("heat",), int(match[0]))
            for match in NUMBER.finditer(text, start, end)
            if all(match.start() != heat.start() for heat in heats)
        ]
    if "iron" in about:
        found += [
            Token(*match.span(), ("heat",), int(match[0]))
            for match in _BARE_HEAT.finditer(text, start, end)
        ]
    found += settings
    told = tuple(found)
    at = 0
    while at < len(words):
        size, token = _token(text, words[at : at + LONGEST])
        if not any(one.start < token.end and token.start < one.end for one in told):
            found.append(token)
        at += size
    return _with_wool(text, sorted(found, key=lambda token: token.start))


def _with_wool(text: str, tokens: Clause) -> Clause:
    """``tokens``, wool right behind a heat and with nothing behind it told as the programme of a
    machine: "machine wash 30° wool"."""
    found = list(tokens)
    for at, (heat, token) in enumerate(pairwise(tokens), start=1):
        near = (
            not text[heat.end : token.start].strip(" ") and "\n" not in text[heat.end : token.end]
        )
        alone = near and _NOTHING.match(text, token.end)
        if heat.celsius and token.meanings == ("wool",) and alone:
            found[at] = replace(token, meanings=("wool", "program"))
    return found


def _token(text: str, words: Sequence[re.Match[str]]) -> tuple[int, Token]:
    for size in range(len(words), 0, -1):
        gaps = pairwise(words[:size])
        close = all(_BETWEEN.fullmatch(text, one.end(), two.start()) for one, two in gaps)
        meanings = meanings_of(tuple(word[0] for word in words[:size])) if close else ()
        if meanings:
            return size, Token(words[0].start(), words[size - 1].end(), meanings)
    word = words[0]
    beside = text[max(0, word.start() - 1) : word.start()] + text[word.end() : word.end() + 1]
    broken = any(sign.isdigit() for sign in beside)
    return 1, Token(*word.span(), filler=word[0] in FILLERS and not broken)


def _may_open_with_negation(word: str) -> bool:
    """Whether a word that a clause begins with may be a misread one that forbids."""
    return len(word) >= _UNREAD and may_be_negation(word)


def _hangs_together(tokens: Clause) -> bool:
    meanings = [meaning for token in tokens for meaning in token.meanings]
    return hang_together(meanings, [token.celsius for token in tokens if token.celsius])


def _kinds(tokens: Clause) -> tuple[str, ...]:
    meanings = [meaning for token in tokens for meaning in token.meanings]
    return kinds_of(meanings, [token.celsius for token in tokens if token.celsius])


def _events(text: str, tokens: Clause) -> list[Event]:
    """The events of a clause that makes sense: its unread words, then what it says."""
    telling = [token for token in tokens if token.meanings]
    start, end = telling[0].start, telling[-1].end
    events = [
        Event("unread", token.start, token.end)
        for at, token in enumerate(tokens)
        if token.is_unread
        or (at <= int(tokens[0].filler) and _may_open_with_negation(text[token.start : token.end]))
    ]
    for kind in _kinds(tokens):
        events.append(Event(kind, start, end, composed=True))
    if any(kind in ("machine", "mild") for kind in _kinds(tokens)):
        for token in telling:
            if token.celsius:
                events.append(Event("temperature", token.start, token.end, token.celsius))
    return events
