"""Numbers in tubs, which a reader of words is asked for where their looks do not tell them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from fixtures.care_symbols import draw_symbol
from intake.reading.base import Image, Reader
from intake.reading.rapid import RapidReader
from intake.records import Letter, Reading
from intake.symbols import look
from intake.symbols.classify import Sense, Verdict
from intake.symbols.look import verdicts_on
from intake.symbols.numbers import temperature_in
from intake.symbols.patch import Patch, Pixels
from intake.symbols.vocabulary import Look, meaning_of
from tests.test_symbols_read import plain_style

TUB = (20.0, 30.0, 120.0, 100.0)


class Telling(Reader):
    """Sees the same in whatever it is shown."""

    name = "telling"

    def __init__(self, text: str, confidence: float = 0.95) -> None:
        letters = tuple(Letter(letter, confidence, 0.0, 1.0) for letter in text)
        self.reading, self.shown = Reading(self.name, letters), list[Image]()

    def read(self, lines: Sequence[Image]) -> list[Reading]:
        self.shown += lines
        return [self.reading] * len(lines)


def card() -> Pixels:
    return np.full((140, 160, 3), 240, np.uint8)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [("30", "30"), ("40°", "40"), ("60°C", "60"), ("300", "30"), ("3O", "30"), ("-95C|", "95")],
)
def test_a_temperature_is_told_with_its_sign_or_without(text: str, degrees: str) -> None:
    assert temperature_in(card(), TUB, Telling(text)) == degrees


@pytest.mark.parametrize("text", ["", "3", "80", "35", "10C", "P30", "4012", "lot 40", "W"])
def test_what_is_no_temperature_of_a_tub_tells_none(text: str) -> None:
    assert temperature_in(card(), TUB, Telling(text)) == ""


def test_digits_that_are_read_poorly_tell_no_temperature() -> None:
    assert temperature_in(card(), TUB, Telling("40", 0.6)) == ""


@pytest.mark.parametrize("tub", [(-30.0, -30.0, 10.0, 0.0), (150.0, 130.0, 220.0, 180.0)])
def test_a_tub_that_leaves_the_picture_is_read_as_far_as_it_is_there(
    tub: tuple[float, float, float, float],
) -> None:
    reader = Telling("")
    assert temperature_in(card(), tub, reader) == ""
    assert all(min(shown.shape) > 0 for shown in reader.shown)


@pytest.mark.parametrize("kind", ["wash 30", "wash 40", "wash 60", "wash 95"])
def test_the_reader_of_words_sees_a_number_between_the_walls_of_a_tub(kind: str) -> None:
    image = np.full((140, 160, 3), 240, np.uint8)
    style = replace(plain_style(), letter=1.0)  # digits, no dots
    ink = draw_symbol(Look(kind), style, 90, np.random.default_rng(2))
    height, width = ink.shape
    image[30 : 30 + height, 20 : 20 + width] -= (ink * 0.8).astype(np.uint8)[..., None]
    tub = (20.0, 30.0, 20.0 + width, 30.0 + height)
    assert temperature_in(image, tub, RapidReader()) == kind.split()[1]


def verdict(*told: tuple[Look, float]) -> Verdict:
    senses = [Sense("tub", meaning_of(one), share, one) for one, share in told]
    return Verdict(tuple(senses))


@pytest.mark.parametrize(
    ("told", "asked"),
    [
        (((Look("wash 40"), 0.6), (Look("wash 60"), 0.4)), True),
        (((Look("wash 40"), 0.9999),), False),
        (((Look("hand wash"), 0.9),), False),
        (((Look("wash", crossed=True), 0.9),), False),
    ],
)
def test_only_a_tub_whose_number_is_not_sure_is_read(
    monkeypatch: pytest.MonkeyPatch, told: tuple[tuple[Look, float], ...], asked: bool
) -> None:
    given: list[Sequence[str]] = []

    def classify(
        patches: Sequence[Patch], views: int = 1, numbers: Sequence[str] = ()
    ) -> list[Verdict]:
        given.append(list(numbers))
        return [verdict(*told)] * (len(patches) // views)

    monkeypatch.setattr(look, "classify", classify)
    reader = Telling("60°")
    verdicts_on(card(), [TUB], (), reader)
    assert bool(reader.shown) == asked
    assert given[-1] == (["60"] if asked else [""])
