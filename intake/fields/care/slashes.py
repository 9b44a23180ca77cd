"""Slashes between words of care: whether they part sentences, or join what one word forbids."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from intake.fields.care.events import Event
from intake.fields.care.phrases import PROCESSES

_FREE = re.compile(r"\s/\s")
"""A slash with space on both sides parts sentences."""

_CLOSE = re.compile(r" ?/|/ ?")
"""A slash that has lost a space, or has none."""


def doubts_of_slashes(text: str, events: Sequence[Event]) -> Iterator[str]:
    """What is asked where a close slash stands between what is forbidden and what is not, and no
    slash of the care parts sentences: "do not bleach/tumble dry" may forbid both."""
    told = [event for event in events if event.kind in PROCESSES]
    if not told or _FREE.search(text, told[0].start, told[-1].end):
        return
    for one, other in pairwise(told):
        between = text[one.end : other.start]
        forbids = [event.kind.startswith("do not") for event in (one, other)]
        if forbids == [True, False] and _CLOSE.fullmatch(between):
            yield f"'{one.kind}' may go on behind its slash: is '{other.kind}' forbidden too?"
