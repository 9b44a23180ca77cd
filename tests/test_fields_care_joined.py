"""Care words of the tags drawn for tuning, joined and broken over lines as tags do."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import cycle
from textwrap import wrap

import pytest

from fixtures import care_words, fair_care, ware_care
from fixtures.care_words import in_order
from intake.fields.care.subjects import MILDEST_FIRST
from intake.fields.care.words import find_care
from tests.line_making import lines_from

WORDS = (care_words.CARE_WORDS, ware_care.CARE, fair_care.CARE)
LANGUAGES = ("en", "de", "fr", "it", "es", "nl", "sv", "no", "da")
JOINS = (", ", ". ", " · ", " – ", "; ", " / ", " | ")
LETTERS_A_LINE = 40
SUBJECTS = ("washing", "bleaching", "tumble drying", "natural drying", "ironing", "dry cleaning")


def tags(words: dict[str, dict[str, tuple[str, ...]]], language: str) -> Iterator[dict[str, str]]:
    """Each tag as process and wording, one of each subject; all processes get their turn."""
    said = [[one for one in MILDEST_FIRST[subject] if one in words] for subject in SUBJECTS]
    turns = [cycle(processes) for processes in said if processes]
    for number in range(max(map(len, said))):
        processes = [next(turn) for turn in turns]
        wordings = [words[process][language] for process in processes]
        yield {
            process: choices[number % len(choices)]
            for process, choices in zip(processes, wordings, strict=True)
        }


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("number", range(len(WORDS)))
def test_joined_care_is_right_or_asked_about_and_mostly_right(number: int, language: str) -> None:
    right = total = 0
    for tag in tags(WORDS[number], language):
        truth = in_order(tuple(tag))
        ways = [list(tag.values())]
        for at, join in enumerate(JOINS):
            text = join.join(tag.values())
            ways.append(wrap(text, LETTERS_A_LINE) if at % 2 else [text])
        for lines in ways:
            found = find_care(lines_from(*lines))
            assert found, lines
            assert found[0].value == truth or found[0].doubt, (lines, found[0].value)
            total += 1
            right += found[0].value == truth and not found[0].doubt
    assert right > 0.7 * total
