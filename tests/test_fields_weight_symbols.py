"""The weight class in words and in a drawn skein: they corroborate each other."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from intake.fields.amounts.weight import CATEGORIES
from intake.fields.amounts.weight_symbols import with_skeins
from intake.records import Field, Quad, State, Symbol, SymbolKind
from intake.symbols.vocabulary import Look, meaning_of

DATA = Path(__file__).parent / "data"
PLACE: Quad = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
NO_WORDS = Field("weight_class")


def skein(weight_class: str, *, sure: bool = True) -> Symbol:
    confidence, state = (0.999, State.SURE) if sure else (0.95, State.DOUBTFUL)
    return Symbol((), confidence, state, PLACE, SymbolKind.WEIGHT, weight_class)


def words(value: str, state: State = State.SURE, reason: str = "") -> Field:
    return Field("weight_class", value, 0.99, state, reason=reason)


def fields(weight: Field, length_m: float | None = None, mass_g: float = 50.0) -> dict[str, Field]:
    length = Field("length_m", length_m)
    return {"weight_class": weight, "length_m": length, "mass_g": Field("mass_g", mass_g)}


def test_each_number_stands_for_the_councils_category() -> None:
    # Craft Yarn Council, Standard Yarn Weight System: the number of each category.
    with (DATA / "weight_system.csv").open(encoding="utf-8") as file:
        listed = {row["number"]: row["category"] for row in csv.DictReader(file)}
    assert len(listed) == len(CATEGORIES)
    for number, category in listed.items():
        assert meaning_of(Look(f"weight {number}")) == (category,)


def test_without_a_skein_the_words_stay_as_they_are() -> None:
    care = Symbol(("hand wash",), 0.999, State.SURE, PLACE)
    assert with_skeins(fields(words("light")), [care]) == words("light")


def test_a_sure_skein_is_filed_without_words_and_says_so() -> None:
    found = with_skeins(fields(NO_WORDS), [skein("light")])
    assert (found.value, found.state) == ("light", State.SURE)
    assert "skein" in found.note


def test_a_skein_in_doubt_is_asked_about() -> None:
    found = with_skeins(fields(NO_WORDS), [skein("light", sure=False)])
    assert (found.value, found.state) == ("light", State.DOUBTFUL)
    assert found.reason


def test_words_and_skein_that_agree_are_sure() -> None:
    doubtful = words("light", State.DOUBTFUL, "the weight class was read unclearly")
    assert with_skeins(fields(doubtful), [skein("light")]).state is State.SURE
    assert with_skeins(fields(words("light")), [skein("light", sure=False)]).state is State.SURE


@pytest.mark.parametrize("sure", [True, False])
def test_a_contradiction_is_asked_about_with_both_to_choose_from(sure: bool) -> None:
    found = with_skeins(fields(words("light")), [skein("medium", sure=sure)])
    assert (found.value, found.state) == ("light", State.DOUBTFUL)
    assert found.others == ("medium",)
    assert "light" in found.reason
    assert "medium" in found.reason


def test_a_number_read_less_well_is_sure_where_words_or_length_say_the_same() -> None:
    fair = replace(skein("lace", sure=False), confidence=0.985)
    unsure = words("lace", State.DOUBTFUL, "a word of a name?")
    assert with_skeins(fields(unsure), [fair]).state is State.SURE
    assert with_skeins(fields(NO_WORDS, 400.0), [fair]).state is State.SURE
    assert with_skeins(fields(NO_WORDS), [fair]).state is State.DOUBTFUL
    assert with_skeins(fields(NO_WORDS, 110.0), [fair]).state is State.DOUBTFUL
    poor = skein("lace", sure=False)
    assert with_skeins(fields(unsure), [poor]).state is State.DOUBTFUL


def test_two_skeins_that_differ_are_asked_about() -> None:
    found = with_skeins(fields(NO_WORDS), [skein("light"), skein("medium")])
    assert found.state is State.DOUBTFUL


def test_a_number_that_length_per_mass_speaks_against_may_be_misread() -> None:
    # *Spin Off* magazine, Yarn Standards handout: 400 m to 50 g are lace, far from 7, jumbo.
    found = with_skeins(fields(NO_WORDS, 400.0), [skein("jumbo")])
    assert found.state is State.DOUBTFUL
    assert "misread" in found.reason
    assert with_skeins(fields(NO_WORDS, 400.0), [skein("lace")]).state is State.SURE
