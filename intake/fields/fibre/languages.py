"""Compositions of a tag in several languages, each with its shares on a side of its own: "70% wool
30% silk" above "lana 70% seta 30%"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from intake.fields.fibre.shares import find_fibre_among
from intake.records import Candidate, FibrePart, Line

_MOST_LINES = 3
"""A composition takes so many lines of one language at most."""


def fibres_by_language(lines: Sequence[Line]) -> list[Candidate]:
    """The composition that all languages on a tag print alike, each found by itself, once for
    each; empty where a share belongs to none of them, or two differ."""
    found: list[Candidate] = []
    shared = [number for number, line in enumerate(lines) if "%" in line.text]
    while shared:
        block = _first_block(lines, shared)
        if block is None:
            return []
        candidate, used = block
        found.append(candidate)
        shared = [number for number in shared if number not in used]
    if len(found) < 2 or any(_told(one) != _told(found[0]) for one in found):
        return []
    fullest = max(found, key=lambda one: len(_kinds(one)))
    if any(not _kinds(one) <= _kinds(fullest) for one in found):
        return []
    return [replace(one, value=fullest.value) for one in found]


def _first_block(lines: Sequence[Line], shared: Sequence[int]) -> tuple[Candidate, set[int]] | None:
    """The whole composition that the first of the lines with shares begins, with the numbers of its
    lines; ``None`` where that and the next ones come to none."""
    for count in range(1, _MOST_LINES + 1):
        numbers = range(shared[0], min(shared[0] + count, len(lines)))
        told = find_fibre_among(lines, numbers)
        if told and not told[0].doubt and told[0].cues["whole"] == 1.0:
            return told[0], set(numbers)
    return None


def _parts(candidate: Candidate) -> list[FibrePart]:
    value = candidate.value
    return (
        [part for part in value if isinstance(part, FibrePart)] if isinstance(value, tuple) else []
    )


def _told(candidate: Candidate) -> set[tuple[str, float]]:
    return {(part.fibre, part.percent) for part in _parts(candidate)}


def _kinds(candidate: Candidate) -> set[tuple[str, str]]:
    return {(part.fibre, kind) for part in _parts(candidate) for kind in part.kind.split()}
