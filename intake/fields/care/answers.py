"""Headings of care with their answers: "tumble drying: no", "Strygning: / mellem, 150 °C".

A short answer belongs to the heading before it wherever the line breaks, and what stands behind
it is no part of it.  Anything longer than yes, no and how hot is left to the clauses.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from intake.fields.care.events import NORWAY, Event, event_at
from intake.fields.care.forms import worded
from intake.fields.care.meaning import HOT_OR_WARM, kinds_of
from intake.fields.care.phrases import PROCESSES
from intake.fields.care.subjects import SUBJECT_OF
from intake.fields.care.tokens import HEATS, Clause, Place, is_whole, tokens_of

_ASKING = re.compile(r"[ \n]?[:][ \n]?|(?<=[^\W\d_]) -{1,2} (?=[^\W\d_])")
"""What stands between a heading and its answer."""

_SIGN = re.compile(r"[.,;:|!?()·]|/|\s[*+-]{1,2}\s|\n")
"""What parts clauses from each other."""

_NAMES = frozenset({"wash", "machine", "tumble", "dry", "bleach", "iron", "clean", "wet"})
"""Meanings of words that a heading is made of."""

_HEATING = frozenset({*HEATS.values(), "heat", "mild", "normal", HOT_OR_WARM})
"""Meanings of words that tell how hot to dry or to iron."""

_BY_WHOM = re.compile(r"profess?ion[a-z]+|profesjon[a-z]+")
"""Words that tell who cleans."""

_FORBIDDEN = frozenset({"do not iron", "do not bleach", "no machine", "do not wash"}) | {
    process for process in PROCESSES if process.startswith("do not")
}

_ALLOWED = frozenset({*PROCESSES}) - _FORBIDDEN - {"dry in shade"}

_HEATED = frozenset({"tumble drying", "ironing"})
"""Subjects that a heat is told of."""

_YES = worded("si yes ja oui jo")
"""Words that allow and are all that is said."""

_BETWEEN = worded("mellem")
"""A heat in an answer, which elsewhere is the word for between."""

_TUMBLING = worded("tumling")
"""Headings that elsewhere are too near to other words ("turning")."""

_WHOLE_ANSWERS = worded("nein nee nej nei")
"""Words that forbid what stands before them, and nothing behind."""

_MOST_PARTS = 3
"""An answer has at most so many parts between commas: "yes, low, 60 °C"."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A heading and its answer: where they stand and the kind of event that they are, empty where
    a no stands at ``no`` of which it is not told here what it forbids."""

    start: int
    end: int
    kind: str
    no: int = 0


def answers_in(text: str) -> list[Answer]:
    """The headings of folded ``text`` that are answered by yes, no or a heat."""
    found: list[Answer] = []
    for asking in _ASKING.finditer(text):
        start = found[-1].end if found else 0
        if asking.start() < start:
            continue
        heads = list(_heads(text, start, asking.start()))
        answers = (_answer(text, head, asking) for head in heads)
        answer = next((one for one in answers if one), None) or _open(text, start, asking)
        if answer:
            found.append(answer)
    return found


def with_answers(text: str, events: Sequence[Event]) -> tuple[list[Event], list[Answer]]:
    """``events`` of folded ``text``, those where headings have their answers replaced by what these
    say; and these answers.  None counts that begins within a phrase."""
    found = list(events)
    kept: list[Answer] = []
    for answer in answers_in(text):
        if not answer.kind or any(event.start < answer.start < event.end for event in found):
            continue
        before = [event for event in found if event.start < answer.start]
        over = max((event.end for event in found if event.start < answer.end), default=0)
        again = list(_read_again(text, answer.end, over))
        over = max((event.end for event in again), default=answer.end)
        behind = [event for event in found if event.start >= over]
        said = Event(answer.kind, answer.start, answer.end, composed=True)
        found = [*before, said, *again, *behind]
        kept.append(answer)
    return found, kept


def with_open_answers(text: str, events: Sequence[Event]) -> list[Event]:
    """``events`` of folded ``text``, what a heading names told as not clear where a no answers it
    and was not read with it: "hot iron: no", "tumble drying, ironing: no"."""
    found = list(events)
    for answer in answers_in(text):
        inside = [one for one in found if answer.start <= one.start and one.end <= answer.no]
        if not answer.kind and any(one.kind in _ALLOWED for one in inside):
            at = found.index(inside[0])
            found[at : at + len(inside)] = [Event("unclear", answer.start, answer.end)]
    return found


def _read_again(text: str, start: int, end: int) -> Iterator[Event]:
    """The events from ``start`` to ``end``, where a phrase was read over the end of an answer."""
    while start < end:
        event = event_at(text, start)
        if event:
            yield event
        start = event.end if event else start + 1


def _open(text: str, first: int, asking: re.Match[str]) -> Answer | None:
    """The place of a heading with what is listed before it, if a no and nothing else answers it."""
    opening = tokens_of(text, asking.end(), _part_end(text, asking.end()))
    if not opening or "not" not in _meanings(opening):
        return None
    end = _refusal_end(text, asking, opening)
    start = _begin(text, first, asking.start())
    while start > first and _listed(text, first, start):
        start = _begin(text, first, len(text[:start].rstrip()) - 1)
    return Answer(start, end, "", asking.end()) if end else None


def _heads(text: str, first: int, end: int) -> Iterator[Place]:
    """Where a heading that ends at ``end`` may stand: in the end of one line and the next, or in
    its line alone.  One behind a comma is none where another thing is named before it."""
    own = _begin(text, first, end)
    if own > first and text[own - 1] == "\n":
        above = _begin(text, first, own - 1)
        fragment = tokens_of(text, above, own - 1)
        if fragment and not is_whole(fragment) and not _listed(text, first, above):
            yield above, end
    if not _listed(text, first, own):
        yield own, end


def _begin(text: str, first: int, end: int) -> int:
    """Where the last clause before ``end`` begins, in its line and not before ``first``."""
    signs = [match.end() for match in _SIGN.finditer(text, first, end)]
    return signs[-1] if signs else first


def _listed(text: str, first: int, start: int) -> bool:
    """Whether a sign of a list before ``start`` parts it from the bare name of another thing: of
    "tumble drying, ironing: no" both may be forbidden."""
    if text[:start].rstrip()[-1:] not in {",", "/"}:
        return False
    end = len(text[:start].rstrip()) - 1
    said = _meanings(tokens_of(text, _begin(text, first, end), end))
    return bool(said) and set(said) <= _NAMES and not set(said) <= {"wash", "machine"}


def _meanings(tokens: Clause) -> list[str]:
    return [name for token in tokens for name in token.meanings]


def _answer(text: str, head: Place, asking: re.Match[str]) -> Answer | None:
    """The heading at ``head`` with what answers it, if that is a process."""
    tokens = [
        replace(one, meanings=("tumble",)) if text[one.start : one.end] in _TUMBLING else one
        for one in tokens_of(text, *head)
    ]
    named = [one for one in tokens if one.meanings or not _BY_WHOM.match(text, one.start, one.end)]
    heads = _meanings(named)
    if not heads or not _NAMES.issuperset(heads) or any(one.is_unread for one in named):
        return None
    if len(named) < len(tokens) and set(heads) == {"wash"}:
        heads = ["wet"]  # a cleaner washes wet
    start = next(one.start for one in tokens if one.meanings or one not in named)
    opening = tokens_of(text, asking.end(), _part_end(text, asking.end()))
    if not opening:
        return None
    if "not" in _meanings(opening):
        end = _refusal_end(text, asking, opening)
        kinds = kinds_of([*heads, "not"], ()) if end else ()
        if len(kinds) == 1 and kinds[0] in _FORBIDDEN:
            return Answer(start, end, kinds[0])
        return None
    if ":" not in asking[0]:
        return None  # "tumble dry - low", of which the rest may be lost
    return _allowance(text, start, heads, asking.end())


def _part_end(text: str, start: int) -> int:
    """Where the part that begins at ``start`` ends: at the next sign or the end of the line."""
    sign = _SIGN.search(text, start)
    return sign.start() if sign else len(text)


def _refusal_end(text: str, asking: re.Match[str], opening: Clause) -> int:
    """Where an answer ends that says no and nothing else; 0 where it goes on."""
    if any(one.is_unread or not {"not", "allow"}.issuperset(one.meanings) for one in opening):
        return 0
    end = _part_end(text, asking.end())
    word = text[opening[0].start : opening[-1].end]
    if text[end : end + 1] in {":", "?"}:
        return 0  # "- NO: maskinvask"
    if re.match(r"\.?\s?\d", text[end : end + 3]) and word == "no":
        return 0  # a number
    if text[end : end + 1] != "\n":
        return end
    if "-" in asking[0] and NORWAY.match(text, opening[0].start):
        return 0
    if word in _WHOLE_ANSWERS:
        return end
    below = tokens_of(text, end + 1, _part_end(text, end + 1))
    if _goes_on(below):
        allowing = all(set(one.meanings) == {"allow"} or one.filler for one in below)
        return below[-1].end if allowing and "allow" not in _meanings(opening) else 0
    return end


def _goes_on(below: Clause) -> bool:
    """Whether a line goes on with the negation above it: "no / steam", "not / allowed"."""
    said = set(_meanings(below))
    if not said:
        return False
    return not is_whole(below) and not said & _NAMES


def _allowance(text: str, start: int, heads: list[str], at: int) -> Answer | None:
    """What a heading that begins at ``start`` is answered by: yes, how hot, or both, parted by
    commas."""
    said: list[str] = []
    celsius: list[int] = []
    found: Answer | None = None
    for number in range(_MOST_PARTS):
        end = _part_end(text, at)
        part = tokens_of(text, at, end)
        told = _yes_or_heat(text, part, not number)
        if not told:
            break
        said += told
        celsius += [one.celsius for one in part if one.celsius]
        kinds = kinds_of([*heads, *said], celsius)
        good = len(kinds) == 1 and kinds[0] in PROCESSES
        good = good and (said == ["allow"] or SUBJECT_OF[kinds[0]] in _HEATED)
        end = part[-1].end if part[-1].end >= end else end
        found = Answer(start, end, kinds[0]) if good else None
        comma = re.compile(r",\s?\n?|(?<=,)\n").match(text, end)
        if comma is None:
            below = tokens_of(text, end + 1, _part_end(text, end + 1))
            if text[end : end + 1] == "\n" and _yes_or_heat(text, below, False):
                return None  # "low / heat"
            break
        at = comma.end()
    return found


def _yes_or_heat(text: str, part: Clause, opens: bool) -> list[str]:
    """The meanings of a part of an answer that says yes, if it ``opens`` the answer, or how hot;
    none where it says anything else."""
    if opens and len(part) == 1 and text[part[0].start : part[0].end] in _YES:
        return ["allow"]
    if len(part) == 1 and text[part[0].start : part[0].end] in _BETWEEN:
        return ["medium"]
    said = _meanings(part)
    if not said or any(one.is_unread for one in part) or not _HEATING.issuperset(said):
        return []
    return said
