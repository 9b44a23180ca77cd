"""Several things that one negation forbids: "do not bleach, tumble dry or iron"."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from intake.fields.care.advice import others_in
from intake.fields.care.events import BEHIND, Event
from intake.fields.letters import listed

_FORBIDDEN = {
    "wash": "do not wash",
    "machine": "no machine",
    "bleach": "do not bleach",
    "tumble": "do not tumble dry",
    "iron": "do not iron",
    "clean": "do not dry clean",
    "wet": "do not wet clean",
    "other": "other",
}
"""What a list can forbid, by the meaning of its words."""

_OFFERED = ("any", "oxygen", "tumble", "iron", "dry", "wet", "line", "drip", "hand", "machine")
"""How the kinds of events begin that allow something."""

_FORBIDS = ({"not"}, {"without"}, {"far"})
"""Meanings of a word that forbids what it is followed by."""

_JOINS = frozenset({"of", "o", "noch"})
"""Words for "or" that elsewhere mean other things or nothing."""

_NOR = frozenset({"nor", "ni", "ne"})
"""Negations that go on with a list; any other begins a sentence of its own."""

AND = frozenset({"and", "und", "et", "e", "ed", "y", "en", "och", "og"})
"""Words for "and", folded."""

_AVOIDING = listed(
    "keep away; keep off; keep out; hold unna; hold vaek;"
    " avoid; vermeiden; eviter; evitez; evitare; evitar; vermijd; vermijden; undvik; unnga; undga;"
    " prohibido; prohibida; vietato; vietati; divieto; interdit; proscrire"
)
"""Words that forbid all things behind them, be they joined by "and" or by "or"."""

_SHORTEST_VERDICT = 6

_OPENING = listed(
    "without; vermeiden; eviter; evitez; evitare; evitar; vermijd; vermijden; undvik; undvika;"
    " unnga; undga; neither; hverken; verken; varken; keiner; niemals; niente; nessun; nessuna;"
    " ningun; ninguna; aucune; keinen; geen; intet; aldrig; avoid; avoiding; proscrire"
)
"""Long negations that are said before what they forbid."""

_MOST_PIECES = 6
"""A list goes over at most so many lines and commas."""

_FEWEST = 2

_TOGETHER = {
    frozenset({"dry", "machine"}): "tumble",
    frozenset({"dry", "tumble"}): "tumble",
    frozenset({"wash", "machine"}): "machine",
}
"""Two words side by side that name one thing."""

_NEWLINE = re.compile(r"\n")


@dataclass(frozen=True, slots=True)
class _Named:
    start: int
    end: int
    meanings: tuple[str, ...]
    is_unread: bool = False


class Word(Protocol):
    """A word of a clause with what it means (:mod:`intake.fields.care.tokens`)."""

    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...
    @property
    def meanings(self) -> tuple[str, ...]: ...
    @property
    def is_unread(self) -> bool: ...


def with_lists(
    text: str,
    events: Sequence[Event],
    ends: re.Pattern[str],
    words_of: Callable[[int, int], Sequence[Word]],
) -> list[Event]:
    """``events`` of folded ``text``, those of a list that is forbidden as a whole replaced by a
    process for each of its things.  ``ends`` tells what ends a clause, ``words_of`` the words of a
    place."""
    found = list(events)
    pieces = _pieces(text, ends)
    at = 0
    while at < len(pieces):
        size = _longest(text, pieces[at:], words_of)
        if size:
            first, last = pieces[at][0], pieces[at + size - 1][1]
            composed = forbidden(text, words_of(first, last))
            before = sum(event.start < first for event in found)
            behind = sum(event.start < last for event in found)
            found[before:behind] = composed
        at += max(size, 1)
    return found


def _pieces(text: str, ends: re.Pattern[str]) -> list[tuple[int, int, bool]]:
    """The parts of ``text`` between commas, stops and the ends of lines, each with whether a stop
    is behind it."""
    cuts = [(*match.span(), match[0].strip() != ",") for match in ends.finditer(text)]
    cuts += [(*match.span(), False) for match in _NEWLINE.finditer(text)]
    cuts += [(low, high, True) for low, high in others_in(text).items()]
    pieces: list[tuple[int, int, bool]] = []
    start = 0
    for low, high, stops in (*sorted(cuts), (len(text), len(text), True)):
        if text[start:low].strip():
            pieces.append((start, low, stops))
        elif pieces:
            left, right, stopped = pieces[-1]
            pieces[-1] = (left, right, stopped or stops)
        start = max(start, high)
    return pieces


def _longest(
    text: str,
    pieces: Sequence[tuple[int, int, bool]],
    words_of: Callable[[int, int], Sequence[Word]],
) -> int:
    """Of how many of the first ``pieces`` the longest forbidden list is made; 0 for none."""
    size = longest = 0
    for size, (_, end, stops) in enumerate(pieces[:_MOST_PIECES], start=1):
        if forbidden(text, words_of(pieces[0][0], end)):
            longest = size
        if stops:
            break
    return longest


def forbidden(text: str, words: Sequence[Word]) -> list[Event]:
    """What ``words`` forbid if all they say is a negation and two things or more of which the last
    is joined by "or"; empty otherwise."""
    if any(word.is_unread and text[word.start : word.end] not in _JOINS for word in words):
        return []
    if composed := _forbidden_behind(text, words) or _forbidden_each(text, words):
        return composed
    avoids = any(
        text[word.start : word.end] in _AVOIDING or {"allow", "far"} & set(word.meanings)
        for word in words
    )
    joins = _JOINS | AND if avoids else _JOINS
    telling = _paired(text, words, joins)
    negation: Word | None = None
    things: list[Word] = []
    joined = last_joined = False
    for at, word in enumerate(telling):
        said = set(word.meanings)
        behind = set(telling[at + 1].meanings) if at + 1 < len(telling) else set()
        if text[word.start : word.end] == "noch" and not negation and _is_repeated(text, telling):
            negation = word
        elif said in _FORBIDS:
            if things and (text[word.start : word.end] not in _NOR or behind in _FORBIDS):
                return []
            negation, joined = negation or word, bool(things)
        elif said == {"or"} or not said:
            joined = True
        elif negation and len(said) == 1 and said <= set(_FORBIDDEN):
            if things and not joined and not _is_parted(text, things[-1], word):
                if set(things[-1].meanings) == said:
                    continue  # "tumble dryers"
                return []
            last_joined, joined = joined, False
            things.append(word)
        elif not (
            said == {"allow"}
            and (behind == {"not"} or (negation and (not things or at + 1 == len(telling))))
        ):
            return []
    if len(things) < _FEWEST or negation is None or not last_joined or joined:
        return []
    starts = [negation.start, *(word.start for word in things[1:])]
    return [
        Event(_FORBIDDEN[word.meanings[0]], start, word.end, composed=True)
        for start, word in zip(starts, things, strict=True)
    ]


def _forbidden_behind(text: str, words: Sequence[Word]) -> list[Event]:
    """What ``words`` forbid if they name two things or more, joined by "and" or "or", and then
    only that they are forbidden: "bleaching and tumble drying are not allowed"."""
    telling = _paired(text, words, _JOINS | AND)
    behind = len(telling)
    while behind and set(telling[behind - 1].meanings) & {"not", "allow"}:
        behind -= 1
    verdict, named = telling[behind:], telling[:behind]
    forbids = [word for word in verdict if "not" in word.meanings]
    allows = any("allow" in word.meanings for word in verdict)
    if len(forbids) != 1 or not (allows or _is_verdict(text[forbids[0].start : forbids[0].end])):
        return []
    things: list[Word] = []
    joined = True
    for word in named:
        said = set(word.meanings)
        if said == {"or"} or text[word.start : word.end] in _JOINS | AND:
            joined = True
        elif len(said) == 1 and said <= set(_FORBIDDEN) and (joined or not things):
            things.append(word)
            joined = False
        else:
            return []
    if len(things) < _FEWEST:
        return []
    starts = [*(word.start for word in things[:-1]), things[-1].start]
    ends = [*(word.end for word in things[:-1]), verdict[-1].end]
    return [
        Event(_FORBIDDEN[word.meanings[0]], start, end, composed=True)
        for word, start, end in zip(things, starts, ends, strict=True)
    ]


def _forbidden_each(text: str, words: Sequence[Word]) -> list[Event]:
    """What ``words`` forbid if they name two things or more, each with a negation of its own and
    joined by "and": "no bleach and no tumble dryer"."""
    found: list[tuple[Word, Word]] = []
    negation: Word | None = None
    joined = True
    for word in _paired(text, words, AND):
        said = set(word.meanings)
        if not said:
            joined, negation = True, None
        elif said in _FORBIDS and joined:
            negation, joined = word, False
        elif said == {"not"} and negation:
            continue  # "ne pas"
        elif len(said) == 1 and said <= set(_FORBIDDEN) and negation:
            found.append((negation, word))
            negation = None
        elif said == {"allow"}:
            continue
        elif found and not joined and said == set(found[-1][1].meanings):
            found[-1] = found[-1][0], word  # "tumble dryer"
        else:
            return []
    if len(found) < _FEWEST or joined or negation:
        return []
    return [
        Event(_FORBIDDEN[thing.meanings[0]], by.start, thing.end, composed=True)
        for by, thing in found
    ]


def _is_verdict(word: str) -> bool:
    """Whether a negation says by itself that what stands before it is forbidden, and not what
    stands behind it."""
    return len(word) >= _SHORTEST_VERDICT and word not in BEHIND | _OPENING


def _paired(text: str, words: Sequence[Word], joins: frozenset[str]) -> list[Word]:
    """The ``words`` that mean or join something, two that name one thing together as one."""
    found: list[Word] = []
    for word in words:
        if not word.meanings and text[word.start : word.end] not in joins:
            continue
        said = set(word.meanings)
        if len(found) > 1 and "machine" in said and text[found[-1].start : found[-1].end] == "en":
            found.pop()  # "séchage en machine"; Dutch and Swedish have "en" for "and"
        pair = frozenset(said | set(found[-1].meanings)) if found else frozenset()
        if len(said) == 2 and frozenset(said) in _TOGETHER:
            word = _Named(word.start, word.end, (_TOGETHER[frozenset(said)],))
        elif pair in _TOGETHER and len(said) == 1 and not _is_parted(text, found[-1], word):
            word = _Named(found.pop().start, word.end, (_TOGETHER[pair],))
        found.append(word)
    return found


def choices_behind_a_negation(
    events: Sequence[Event], line_of: Callable[[int], int]
) -> Iterator[tuple[Event, Event]]:
    """What is forbidden and a choice behind it in its sentence and line, which may be forbidden
    with it: "do not bleach, hand wash or dry clean".  ``line_of`` gives the line of a place."""
    negation: Event | None = None
    offers = False
    for event in events:
        if negation and line_of(event.start) != line_of(negation.start):
            negation = None
        if event.kind == "stop":
            negation = None
        elif event.kind.startswith("do not"):
            negation, offers = event, False
        elif event.kind == "or" and negation and offers:
            yield negation, event
        elif event.kind.startswith(_OFFERED):
            offers = True


def _is_repeated(text: str, telling: Sequence[Word]) -> bool:
    """Whether Dutch "noch" stands before each of two things: "noch bleken noch strijken"."""
    return sum(text[word.start : word.end] == "noch" for word in telling) > 1


def _is_parted(text: str, one: Word, other: Word) -> bool:
    return "," in text[one.end : other.start]
