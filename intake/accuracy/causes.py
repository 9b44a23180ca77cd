"""Causes: why tags failed or waited, grouped, so that the largest cause is mended first.

A tag has failed where a main field is not as it should be or a false value was filed; it
has waited where it was queued.  One tag may have several causes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from intake.accuracy.compare import Verdict
from intake.accuracy.score import TagScore
from intake.accuracy.summary import MAIN_FIELDS, without_values

_FAILED = {
    Verdict.WRONG: "wrong",
    Verdict.MISSING: "missing",
    Verdict.INVENTED: "read where the tag has none",
}

Key = tuple[str, str]
"""A field's name, and what was the matter with it."""


@dataclass(frozen=True, slots=True)
class Cause:
    """What was the matter with the field ``name`` of ``tags``.

    ``alone`` counts the tags for which it was the only cause; ``needless`` those whose
    value was right, so that nothing needed asking.
    """

    name: str
    what: str
    tags: tuple[TagScore, ...]
    alone: int
    needless: int


def causes(tags: Sequence[TagScore]) -> list[Cause]:
    """The causes of all of ``tags``, the commonest first."""
    found: dict[Key, list[TagScore]] = {}
    alone: dict[Key, int] = {}
    for tag in tags:
        keys = list(dict.fromkeys(_causes_of(tag)))
        for key in keys:
            found.setdefault(key, []).append(tag)
            alone[key] = alone.get(key, 0) + (len(keys) == 1)
    every = [
        Cause(*key, tuple(some), alone[key], sum(_is_right(tag, key[0]) for tag in some))
        for key, some in found.items()
    ]
    return sorted(every, key=lambda one: (-len(one.tags), one.name, one.what))


def _causes_of(tag: TagScore) -> Iterable[Key]:
    if tag.read is None:
        yield "tag", "not read at all"
        return
    doubts = tag.read.doubts if tag.is_queued else ()
    asked = {doubt.field for doubt in doubts}
    for doubt in doubts:
        yield doubt.field, f"asked: {without_values(doubt.reason)}"
    for name, score in tag.fields.items():
        if name in asked or score.verdict.is_correct:
            continue
        if tag.is_filed and score.verdict.is_false:
            yield name, f"FILED {_FAILED[score.verdict]}"
        elif name in MAIN_FIELDS:
            yield name, f"{_FAILED[score.verdict]}, not asked"


def _is_right(tag: TagScore, name: str) -> bool:
    score = tag.fields.get(name)
    return score is not None and score.verdict.is_correct
