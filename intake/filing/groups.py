"""The same doubt about many waiting tags, answered once.

Lots, shade codes, barcodes and numbers of balls are asked about one by one: two tags that
read alike may be of two lots, and nothing but its own print tells.
"""

from __future__ import annotations

import hashlib
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from intake.filing.answers import answer_cell
from intake.filing.asked import Asked
from intake.filing.cabinet import Cabinet
from intake.filing.changes import Change
from intake.filing.judge import Doubt
from intake.filing.queue import NotWaiting
from intake.records import FIELDS
from intake.shades.spelling import key

ASKED_ALONE = frozenset({"lot", "shade_code", "barcode", "balls"})

_NAMES = frozenset({"maker", "range", "shade", "origin"})
"""Fields whose readings are the same where only their spelling differs."""

MOST_CANDIDATES = 9


@dataclass(frozen=True, slots=True)
class Group:
    """Waiting tags of one maker with the same reading and a doubt in the same field.

    ``readings`` are the ways it is spelled on them, ``reasons`` and ``candidates`` those of
    all the doubts; each begins with what is most frequent.  ``id`` stays the same while
    tags join and leave.
    """

    id: str
    field: str
    maker: str
    readings: tuple[str, ...]
    reasons: tuple[str, ...]
    candidates: tuple[str, ...]
    tags: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Foreseen:
    """What an answer would do to one field of one waiting tag.  The tag is filed where
    ``files`` is true, unless it then is a repeat of another."""

    tag: str
    field: str
    old: str
    new: str
    files: bool


def grouped(cabinet: Cabinet, least: int = 2) -> list[Group]:
    """The groups of at least ``least`` waiting tags, the largest first."""
    alike: defaultdict[tuple[str, str, str], list[tuple[Asked, Doubt]]] = defaultdict(list)
    for asked in cabinet.asked().values():
        for doubt in asked.doubts:
            reading = asked.texts.get(doubt.field, "")
            if reading and doubt.field in FIELDS and doubt.field not in ASKED_ALONE:
                alike[_key(doubt.field, reading, asked)].append((asked, doubt))
    groups = (_group(same, found) for same, found in alike.items() if len(found) >= least)
    return sorted(groups, key=lambda group: -len(group.tags))


def group_answers(cabinet: Cabinet, group: Group, text: str) -> dict[str, dict[str, str]]:
    """The answer ``text`` to the doubt of ``group`` for each of its tags that it is still
    open for, in the form that :meth:`Cabinet.settle` takes."""
    asked = cabinet.asked()
    return {
        tag: {group.field: text}
        for tag in group.tags
        if tag in asked and asked[tag].is_asked(group.field)
    }


def foresee(cabinet: Cabinet, answers: Mapping[str, Mapping[str, str]]) -> list[Foreseen]:
    """What :meth:`Cabinet.settle` would do with ``answers``.  Raises :class:`BadAnswer`."""
    asked = cabinet.asked()
    return [
        Foreseen(
            tag,
            field,
            asked[tag].texts.get(field, ""),
            answer_cell(field, text),
            files=all(doubt.field in texts for doubt in asked[tag].doubts),
        )
        for tag, texts in answers.items()
        if tag in asked
        for field, text in texts.items()
    ]


def answer_group(cabinet: Cabinet, group: Group, text: str) -> list[Change]:
    """Answer the doubt of ``group`` at one stroke; empty for what the tags do not carry.
    Raises :class:`BadAnswer`, and :class:`NotWaiting` where all were answered meanwhile."""
    answers = group_answers(cabinet, group, text)
    if not answers:
        raise NotWaiting(
            f"the doubts about {group.readings[0]!r} were answered meanwhile; look again"
        )
    return cabinet.settle(answers)


def _key(field: str, reading: str, asked: Asked) -> tuple[str, str, str]:
    maker = "" if field == "maker" else key(asked.texts.get("maker", ""))
    return field, key(reading) if field in _NAMES else reading, maker


def _group(same: tuple[str, str, str], found: Iterable[tuple[Asked, Doubt]]) -> Group:
    readings: Counter[str] = Counter()
    makers: Counter[str] = Counter()
    reasons: Counter[str] = Counter()
    candidates: Counter[str] = Counter()
    tags = []
    for asked, doubt in found:
        readings[asked.texts[doubt.field]] += 1
        makers[asked.texts.get("maker", "")] += 1
        reasons[doubt.reason] += 1
        candidates.update(doubt.candidates)
        tags.append(asked.id)
    return Group(
        id=hashlib.sha256(repr(same).encode()).hexdigest()[:12],
        field=same[0],
        maker="" if same[0] == "maker" else _ranked(makers)[0],
        readings=_ranked(readings),
        reasons=_ranked(reasons),
        candidates=_ranked(candidates)[:MOST_CANDIDATES],
        tags=tuple(tags),
    )


def _ranked(counted: Counter[str]) -> tuple[str, ...]:
    return tuple(text for text, _ in counted.most_common())
