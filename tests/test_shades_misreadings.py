"""Shades read wrong: how many are put right, asked about, or filed wrong.

Names: the 949 of the XKCD colour survey, as matplotlib carries them.  Many are one letter
off each other, which makes them harder than the shades of most ranges.  Two readers of
a model of our own misread them, and the merged line is weighed as it would be in a run.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Mapping

import pytest
from matplotlib.colors import XKCD_COLORS

from intake.reading.lines import merge
from intake.records import Field, Letter, Line, Reading, Span, State
from intake.shades.confusion import CONFUSED_LETTERS, CONFUSED_PAIRS, THIN
from intake.shades.known import KnownShade, KnownShades
from intake.shades.match import match_shade
from intake.shades.spelling import key

COLOUR_NAMES = [name.removeprefix("xkcd:") for name in XKCD_COLORS]
MAKER, RANGE = "Quillfen", "Brook 4"
TAGS = 1500
MISREAD_SHARE = 0.05
"""Letters that a reader gets wrong: about one name in two."""

CONFUSED_SHARE = 0.7
"""Share of the wrong letters that look like the printed one."""

SAME_SLIP_SHARE = 0.1
"""Share of the first reader's confusions that the second makes as well."""

SURE_CONFIDENCE = 0.85
QUAD = ((0.0, 0.0), (300.0, 0.0), (300.0, 30.0), (0.0, 30.0))


def misread(rng: random.Random, letters: str, at: int) -> tuple[str, int, bool]:
    """What is seen at ``at``, how many letters it swallows, and whether it looks alike."""
    if rng.random() < CONFUSED_SHARE:
        choices = [(two, 1) for two, one, _ in CONFUSED_PAIRS if one == letters[at]]
        choices += [(one, 2) for two, one, _ in CONFUSED_PAIRS if letters[at : at + 2] == two]
        for group, _ in CONFUSED_LETTERS:
            if letters[at] in group:
                choices += [(other, 1) for other in group if other != letters[at]]
        if letters[at] in THIN:
            choices.append(("", 1))
        if choices:
            return (*rng.choice(choices), True)
    return rng.choice("abcdefghijklmnopqrstuvwxyz"), 1, False


def confidence(rng: random.Random, right: bool) -> float:
    """A reader's score.  Wrong letters score lower as a rule, but not always."""
    return max(0.5, 1 - abs(rng.gauss(0, 0.04))) if right else rng.uniform(0.35, 0.99)


def two_readings(rng: random.Random, name: str) -> tuple[Reading, Reading]:
    slips: dict[int, tuple[str, int, bool]] = {}
    first = _reading(rng, "first", name, {}, slips)
    shared = {at: slip for at, slip in slips.items() if slip[2] and rng.random() < SAME_SLIP_SHARE}
    return first, _reading(rng, "second", name, shared, {})


def _reading(
    rng: random.Random,
    reader: str,
    name: str,
    forced: Mapping[int, tuple[str, int, bool]],
    slips: dict[int, tuple[str, int, bool]],
) -> Reading:
    seen: list[tuple[str, float]] = []
    at = 0
    while at < len(name):
        slip = forced.get(at)
        if slip is None and name[at] != " " and rng.random() < MISREAD_SHARE:
            slip = misread(rng, name, at)
        if slip is None:
            seen.append((name[at], confidence(rng, right=True)))
            at += 1
            continue
        slips[at] = slip
        seen += [(sign, confidence(rng, right=False)) for sign in slip[0]]
        at += slip[1]
    width = 1 / max(len(seen), 1)
    letters = [
        Letter(sign, score, number * width, (number + 1) * width)
        for number, (sign, score) in enumerate(seen)
    ]
    return Reading(reader, tuple(letters))


def shade_field(line: Line) -> Field:
    """The shade as the letters alone would have it."""
    sure = all(line.agreed) and min(x.confidence for x in line.letters) >= SURE_CONFIDENCE
    return Field(
        "shade",
        line.text,
        sum(letter.confidence for letter in line.letters) / len(line.letters),
        State.SURE if sure else State.DOUBTFUL,
        line=line.text,
        spans=(Span(0, 0, len(line.letters)),),
        reason="" if sure else "the readers do not agree on it",
    )


def verdict(truth: str, before: Field, after: Field) -> str:
    """What became of one tag.  A wrong reading that both readers were sure of and that is
    near to no known shade cannot be noticed here; it is told apart."""
    was_right = key(str(before.value)) == key(truth)
    if after.state is not State.SURE:
        return "asked"
    if key(str(after.value)) == key(truth):
        return "right as read" if was_right else "put right"
    if before.state is State.SURE and after.value == before.value:
        return "read wrong, surely and alike"
    return "filed wrong"


def run(
    seed: int, names: Iterable[str], codes: Mapping[str, str], known: KnownShades
) -> Counter[str]:
    rng = random.Random(seed)
    pool = sorted(names)
    counts: Counter[str] = Counter()
    for _ in range(TAGS):
        truth = rng.choice(pool)
        line = merge(QUAD, *two_readings(rng, truth))
        if not line.letters:
            continue
        before = shade_field(line)
        after = match_shade(before, MAKER, RANGE, codes.get(truth), known, [line])
        counts[verdict(truth, before, after)] += 1
        counts["was sure"] += before.state is State.SURE
        wrong = key(str(before.value)) != key(truth)
        counts["read wrong"] += wrong
    return counts


def half_known(with_codes: bool) -> tuple[KnownShades, list[str], list[str], dict[str, str]]:
    """A range of which half the names are known, the known, the new, and the codes."""
    rng = random.Random(42)
    shuffled = rng.sample(COLOUR_NAMES, len(COLOUR_NAMES))
    half = len(shuffled) // 2
    codes = {name: f"{number:04d}" for number, name in enumerate(shuffled)} if with_codes else {}
    known = KnownShades(
        KnownShade(MAKER, RANGE, name, codes.get(name, "")) for name in shuffled[:half]
    )
    return known, shuffled[:half], shuffled[half:], codes


@pytest.mark.parametrize("with_codes", [False, True])
def test_misread_known_shades_are_put_right_or_asked_about(with_codes: bool) -> None:
    known, old, _, codes = half_known(with_codes)
    counts = run(1, old, codes, known)
    assert counts["filed wrong"] <= 0.001 * TAGS
    assert counts["put right"] > 0.5 * counts["read wrong"]
    assert counts["right as read"] > 0.4 * TAGS


@pytest.mark.parametrize("with_codes", [False, True])
def test_new_shades_are_not_taken_for_known_ones(with_codes: bool) -> None:
    known, _, new, codes = half_known(with_codes)
    counts = run(2, new, codes, known)
    assert counts["filed wrong"] <= 0.0015 * TAGS
    assert counts["right as read"] > 0.15 * TAGS
