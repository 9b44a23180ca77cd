"""What stands next to lines of care: which lines those are, and which of its words tell a heat."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import pairwise

from intake.fields.amounts.weight import is_weight_word
from intake.fields.captions import SINGLE_WORDS
from intake.fields.care.concepts import meanings_of
from intake.fields.care.events import Event
from intake.fields.care.meaning import HOT_OR_WARM
from intake.fields.care.phrases import PROCESSES
from intake.fields.letters import FoldedLines

_SHARE_BEFORE = re.compile(r"\d\s?%\s*$")
_SHARE_BEHIND = re.compile(r"\s*\d{1,3}\s?%")


_ADDRESS = re.compile(r"[\w-]*[.@][a-z]")
"""What stands behind a word that is part of an address of the web or of post."""


def is_beside_care(
    lines: Mapping[int, Sequence[Event]], number: int, care: Collection[int]
) -> bool:
    """Whether a line of care is next to line ``number``, but for one that says nothing by itself:
    "auf dem" above "Flachtrockner"."""
    for step in (-1, 1):
        at = number + step
        if all(event.kind == "harmless" for event in lines.get(at, ())):
            at += step
        if {number + step, at} & set(care):
            return True
    return False


def is_share(text: str, event: Event) -> bool:
    """Whether a word names what a share of the yarn is: "15 % angora", "merinoull 70 %"."""
    line = text[text.rfind("\n", 0, event.start) + 1 : event.start]
    behind = text[event.end :].partition("\n")[0]
    return bool(_SHARE_BEFORE.search(line) or _SHARE_BEHIND.match(behind))


def is_heat(word: str) -> bool:
    """Whether a word only says how hot: "svalt"."""
    said = set(meanings_of((word,)))
    return bool(said) and said <= {"low", "medium", "high", HOT_OR_WARM}


def goes_on_below(sheet: FoldedLines, gap: str, event: Event) -> bool:
    """Whether a word may go on with the sentence of the line above: it begins small and is no
    caption, no weight and no part of an address."""
    word = sheet.text[event.start : event.end]
    known = word in SINGLE_WORDS or is_weight_word(word)
    address = _ADDRESS.match(sheet.text, event.end)
    small = sheet.printed(event.start, event.end)[:1].islower()
    return gap.count("\n") == 1 and small and not known and not address


def tells(event: Event) -> bool:
    """Whether an event shows that its line speaks of care."""
    return event.kind in PROCESSES or event.kind in ("machine", "mild", "no machine", "other")


def heats_of_care(events: Sequence[Event]) -> Iterator[Event]:
    """Temperatures right behind what tells of care: "hand wash at / 30 °C"."""
    telling = [event for event in events if event.kind not in ("harmless", "stop")]
    for before, event in pairwise(telling):
        if event.kind == "temperature" and tells(before):
            yield event
