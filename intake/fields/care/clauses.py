"""Care sentences that no phrase has: a clause is understood from the words that it is made of.

A clause speaks of one thing (washing, bleach, the dryer, drying, ironing, cleaning), and
its other words say how, or not at all.  One that speaks of two things is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from intake.fields.care.advice import others_in
from intake.fields.care.answers import Answer, with_answers, with_open_answers
from intake.fields.care.ends import END, clauses_of
from intake.fields.care.events import Event, may_be_negation
from intake.fields.care.forms import worded
from intake.fields.care.handling import GENTLY, LAYING, ROLLING
from intake.fields.care.joins import lines_with_sense, unclear_lines
from intake.fields.care.lists import with_lists
from intake.fields.care.meaning import NO_SUN
from intake.fields.care.phrases import PROCESSES
from intake.fields.care.refusals import BROKEN
from intake.fields.care.subjects import SUBJECT_OF
from intake.fields.care.tokens import (
    FEWEST,
    IN_WATER,
    UNREAD,
    VAGUE,
    WORD,
    Clause,
    Place,
    is_unwrung,
    is_whole,
    kinds_in,
    tokens_of,
)

_AMBIGUOUS = frozenset({"tender"})
"""A word for hanging out the washing that another language has for other things."""

HANGING = _AMBIGUOUS | worded(
    "aufhangen suspendre suspendu appendere appeso colgar colgado ophangen upphangd henges haenges"
)
"""Words for hanging out the washing that say all of it by themselves."""

_SIGNS = frozenset(".,;:|/·-")

_STOPS = re.compile(r"[.;:·|!()]|\s[/*+-]\s")
"""What ends a sentence."""

_NEAR_LINES = 2
"""A sentence goes on over at most so many ends of lines between two things that it tells of."""

_NEVER_DRY = re.compile(r"\s(?:(?:nunca|jamas|mai|jamais)\s)?(?:en\sseco|a\ssecco|a\ssec)")
"""How a washing turns out to be a cleaning."""

_LOOSE = frozenset({"unread", "not", "wash", "iron", "machine word"})
"""Kinds of events where the phrases have not read a clause in full."""

_DRYING = frozenset({"dry flat", "line dry", "drip line dry"})


def with_clauses(text: str, events: Sequence[Event]) -> list[Event]:
    """``events`` of folded ``text``, those of a clause that its phrases have not read in full
    replaced by what its words say together.  A clause that speaks of care and is not
    understood leaves an event of the kind ``unclear``."""
    found, answers = with_answers(text, events)
    found = with_lists(text, found, END, partial(tokens_of, text))
    for start, end in _without_others(text, clauses_of(text), answers):
        for first, last, composed in _composed(text, _lines(text, start, end)):
            inside = [event for event in found if first <= event.start < last]
            # A temperature may hold the blank behind it, and have its unit in the next line.
            within = all(e.end <= last + 1 or e.kind == "temperature" for e in inside)
            if within and (
                _are_loose(inside) or _tempers(inside, composed) or _adds(inside, composed)
            ):
                at = found.index(inside[0])
                told = composed
                if (lost := _lost(inside, composed)) and not _is_dry(text, lost, composed):
                    told = [Event("unclear", lost.start, lost.end)]
                elif all(event.kind == "other" for event in composed):
                    told = [*(e for e in inside if _is_program(text, e)), *composed]
                # What is not clear leaves what the phrases have read.
                kept = inside if told[0].kind == "unclear" else []
                found[at : at + len(inside)] = [*kept, *told]
    told = _without_sun(_dripping(text, _with_lone_words(text, found)))
    return with_open_answers(text, told)


def _without_others(
    text: str, clauses: Iterable[Place], answers: Sequence[Answer]
) -> Iterator[Place]:
    """``clauses`` in their parts before and behind what speaks of other things, and before and
    behind headings that have their ``answers``."""
    others = [*others_in(text).items(), *((answer.start, answer.end) for answer in answers)]
    for start, end in clauses:
        for low, high in sorted(others):
            if start < high and low < end:
                yield start, max(start, low)
                start = min(high, end)
        yield start, end


def _lost(inside: Sequence[Event], composed: Sequence[Event]) -> Event | None:
    """What phrases have read of a clause on a subject that ``composed`` does not speak of; that it
    is not washed hot is care of no process, and tells of washing."""
    told = {SUBJECT_OF[event.kind] for event in composed if event.kind in SUBJECT_OF}
    if any(event.kind == "other" for event in composed):
        told.add("washing")
    if told & {"tumble drying", "ironing"}:
        inside = [event for event in inside if event.kind != "mild"]
    lost = (event for event in inside if SUBJECT_OF.get(event.kind, "") not in {"", *told})
    return next(lost, None)


def _with_lone_words(text: str, events: Sequence[Event]) -> list[Event]:
    """``events``, a word that says all of drying by itself, between commas or stops in a line that
    tells of other care, or beside one, told so: "lavar a mano, tender, no planchar"."""
    found = list(events)
    for at, event in enumerate(found):
        if event.kind != "unread" or text[event.start : event.end] not in HANGING:
            continue
        start, end = text.rfind("\n", 0, event.start) + 1, (text + "\n").index("\n", event.end)
        left, right = text[start : event.start].rstrip(), text[event.end : end].lstrip()
        first, last = start, end
        if text[event.start : event.end] not in _AMBIGUOUS:  # the lines beside may tell of care
            first = text.rfind("\n", 0, max(start - 1, 0)) + 1
            last = (text + "\n\n").index("\n", end + 1)
        cared = any(one.kind in SUBJECT_OF and first <= one.start < last for one in found)
        if cared and left[-1:] in {"", *_SIGNS} and right[:1] in {"", *_SIGNS}:
            found[at] = replace(event, kind="line dry", composed=True)
    return found


def _is_program(text: str, event: Event) -> bool:
    """Whether an event names a mild programme of the machine, whatever is said of the spinning
    behind it: "wool cycle without / spinning"."""
    said = {name for token in tokens_of(text, event.start, event.end) for name in token.meanings}
    return event.kind == "mild" and bool({"program", "wool"} & said)


def _is_dry(text: str, event: Event, composed: Sequence[Event]) -> bool:
    """Whether phrases have read a washing that is forbidden, and what stands behind it makes it a
    dry one: "no lavar nunca en seco"."""
    cleans = [one for one in composed if one.kind == "do not dry clean"]
    if event.kind != "do not wash" or len(composed) != 1 or not cleans:
        return False
    return bool(_NEVER_DRY.fullmatch(text, event.end, cleans[0].end))


def _dripping(text: str, events: Sequence[Event]) -> list[Event]:
    """``events``, a hanging told as dripping where a comma or the end of a line parts it from what
    says that nothing is wrung: "without wringing, hang to dry"."""
    telling = [event for event in events if event.kind in SUBJECT_OF]
    found: list[Event] = []
    for event in events:
        if event.kind == "line dry":
            behind = min((e.start for e in telling if e.start >= event.end), default=len(text))
            before = max((e.end for e in telling if e.end <= event.start), default=0)
            ahead = _STOPS.split(text[before : event.start])
            left = ahead[-1]
            if before and len(ahead) == 1:  # what goes on with another process belongs to that
                left = "".join(re.split(r"([,\n])", left, maxsplit=1)[1:])
            right = _STOPS.split(text[event.end : behind])[0]
            near = [part for part in (left, right) if part.count("\n") <= _NEAR_LINES]
            if any(is_unwrung(part) for part in near):
                event = replace(event, kind="drip line dry")
        found.append(event)
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
            dries = before is not None and before.kind in {*_DRYING, "dry in shade"}
            event = replace(event, kind="dry in shade" if dries else "unclear")
        found.append(event)
    return found


def _are_loose(events: Sequence[Event]) -> bool:
    """Whether phrases have not read a clause in full; one that washes by hand and gently
    names no programme of a machine."""
    kinds = {event.kind for event in events}
    if kinds and kinds <= {"harmless", "stop"}:
        return True
    loose = any(e.kind in _LOOSE and e.end - e.start >= FEWEST for e in events)
    return loose or ({"hand wash", "mild"} <= kinds and not kinds & {"or", "machine"})


def _tempers(events: Sequence[Event], composed: Sequence[Event]) -> bool:
    """Whether phrases have read a dryer or a washing machine, and the words of its clause add that
    it is not hot or that it is gentle; or washing by hand, and they that it is a programme; or the
    other way round."""
    kinds, told = ({event.kind for event in part} for part in (events, composed))
    kinds -= {"harmless", "stop", "temperature"}
    if kinds <= {"line dry", "dry in shade", "other"} and "drip line dry" in told:
        return True  # "hang to dry without wringing"
    if kinds <= {"hand wash"} and told == {"mild", "temperature"}:
        return True
    if kinds == {"mild"} and told == {"hand wash"}:
        return True  # "ullvask for hånd 30 grader"
    return (kinds - {"mild"} == {"tumble dry"} and told == {"tumble dry low"}) or (
        kinds == {"machine"} and told - {"temperature"} == {"machine", "mild"}
    )


def _adds(inside: Sequence[Event], composed: Sequence[Event]) -> bool:
    """Whether the words of a clause say all that phrases have read of it, and more."""
    kinds, told = ({event.kind for event in part} for part in (inside, composed))
    kinds &= {*PROCESSES}
    return bool(kinds) and kinds < told <= {*PROCESSES}


def _lines(text: str, start: int, end: int) -> list[Place]:
    """The lines from ``start`` to ``end``; those that share words which forbid only together,
    "under no / circumstances", are one."""
    found: list[Place] = []
    broken = [match.span() for match in BROKEN.finditer(text, start, end)]
    for match in re.finditer(r"[^\n]+", text[start:end]):
        first, last = start + match.start(), start + match.end()
        if found and any(low < found[-1][1] and first < high for low, high in broken):
            first = found.pop()[0]
        found.append((first, last))
    return found


def _composed(text: str, lines: Sequence[Place]) -> Iterator[tuple[int, int, list[Event]]]:
    """Of the lines of a clause those that make sense, alone or with the next ones: where
    they stand, and their events."""
    at = 0
    while at < len(lines):
        size = lines_with_sense(text, lines[at:])
        if size:
            first, last = lines[at][0], lines[at + size - 1][1]
            yield first, last, _events(text, tokens_of(text, first, last))
        elif _is_vague(tokens_of(text, *lines[at])) and (
            len(lines) == 1 or _is_limit(text, lines[at:])
        ):
            size = 1
            yield *lines[at], _events(text, tokens_of(text, *lines[at]))
        elif len(lines) - at == _NEAR_LINES and _is_bound(
            tokens := tokens_of(text, lines[at][0], lines[-1][1])
        ):
            size = _NEAR_LINES
            yield lines[at][0], lines[-1][1], _events(text, tokens)
        elif size := _lines_of_lone(text, lines[at:]):
            first, last = lines[at][0], lines[at + size - 1][1]
            yield first, last, _events(text, tokens_of(text, first, last))
        elif size := _lines_of_remark(text, lines[at:]):
            tokens = tokens_of(text, lines[at][0], lines[at + size - 1][1])
            kind = _remark(text, tokens)
            start, end = lines[at][0], lines[at + size - 1][1]
            yield start, end, [Event(kind, tokens[0].start, tokens[-1].end, composed=True)]
        else:
            size = unclear_lines(text, lines[at:])
            if size:
                tokens = tokens_of(text, lines[at][0], lines[at + size - 1][1])
                telling = [token for token in tokens if token.meanings]
                events = [Event("unclear", telling[0].start, telling[-1].end)]
                yield lines[at][0], lines[at + size - 1][1], events
        at += max(size, 1)


def _is_vague(tokens: Clause) -> bool:
    """Whether a clause tells how hot to wash and not by what, and nothing in it is unread."""
    return kinds_in(tokens) == VAGUE and not any(token.is_unread for token in tokens)


def _is_bound(tokens: Clause) -> bool:
    """Whether a clause says how hot to wash at most and nothing else: "no hotter / than 30 °C"."""
    said = {name for token in tokens for name in token.meanings}
    return _is_vague(tokens) and {"not", "above"} <= said


def _lines_of_lone(text: str, lines: Sequence[Place]) -> int:
    """How many of the first ``lines`` say all in one word, one or two; 0 where they do not."""
    sizes = range(1, min(_NEAR_LINES, len(lines)) + 1)
    return next((n for n in sizes if _is_lone(tokens_of(text, lines[0][0], lines[n - 1][1]))), 0)


def _is_lone(tokens: Clause) -> bool:
    """Whether one word of several meanings says all, and nothing beside it is unread: "handwas
    zonder wringen"."""
    telling = [token for token in tokens if token.meanings]
    unread = any(token.is_unread for token in tokens)
    said = telling[0].meanings if len(telling) == 1 else ()
    return len(said) >= FEWEST and not unread and kinds_in(tokens) not in ((), VAGUE)


def _is_limit(text: str, lines: Sequence[Place]) -> bool:
    """Whether the first of ``lines`` says how hot to wash at most and the next one something else
    of care: "water no hotter than 30 °C / no bleaching agents"."""
    said = {name for token in tokens_of(text, *lines[0]) for name in token.meanings}
    more = [tokens_of(text, *line) for line in lines[1:2]]
    return {"not", "above"} <= said and all(is_whole(tokens) for tokens in more)


def _lines_of_remark(text: str, lines: Sequence[Place]) -> int:
    """How many of the first ``lines`` are a remark together: one, or two where they say that wool
    is laid flat, "spread on a / towel"; 0 where they are none."""
    if kind := _remark(text, tokens_of(text, *lines[0])):
        below = WORD.findall(text, *lines[1]) if len(lines) > 1 else ()
        return 0 if kind == "dry flat" and any(map(ROLLING.match, below)) else 1
    laid = len(lines) > 1 and _remark(text, tokens_of(text, lines[0][0], lines[1][1]))
    return 2 if laid == "dry flat" and not lines_with_sense(text, lines[1:]) else 0


def _is_laid(text: str, tokens: Clause) -> bool:
    """Whether a clause says that wool is laid flat, and not only to roll it up in the towel that it
    is laid on."""
    words = [text[token.start : token.end] for token in tokens]
    told = [token for token in tokens if token.meanings]
    if any(token.meanings != ("flat",) for token in told) or any(one.is_unread for one in tokens):
        return False
    flat = any(WORD.fullmatch(text, token.start, token.end) for token in told)
    towel = bool(told) and not any(ROLLING.match(word) for word in words)
    return (flat or towel) and any(word in LAYING for word in words)


def _remark(text: str, tokens: Clause) -> str:
    """The kind of event that a clause is of which one word tells of handling, that care is to be
    taken or that wool is laid flat, and no other tells of anything: "short spin", "sanft"; empty
    for any other."""
    telling = [token for token in tokens if token.meanings]
    said = {name for token in telling for name in token.meanings}
    if {"harm"} <= said <= {"harm", "allow"} and not any(token.is_unread for token in tokens):
        return "harmless"
    if _is_laid(text, tokens):
        return "dry flat"
    if len(telling) != 1 or any(token.is_unread for token in tokens):
        return ""
    if telling[0].meanings in (("other",), ("steam",), ("normal",)):
        return "harmless"
    water = IN_WATER & set(WORD.findall(text, tokens[0].start, tokens[-1].end))
    if telling[0].meanings == ("low",) and not telling[0].celsius and water:
        return "harmless"  # "by hand, cool water"
    return "harmless" if text[telling[0].start : telling[0].end] in GENTLY else ""


def _may_open_with_negation(word: str) -> bool:
    """Whether a word that a clause begins with may be a misread one that forbids."""
    return len(word) >= UNREAD and may_be_negation(word.replace("\n", " "))


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
    for kind in kinds_in(tokens):
        events.append(Event(kind, start, end, composed=True))
    if any(kind in ("machine", "mild", "wash") for kind in kinds_in(tokens)):
        for token in telling:
            if token.celsius:
                events.append(Event("temperature", token.start, token.end, token.celsius))
    return events
