"""Lengths and masses that are told in other words than a number and its unit: thousands behind a
space, hectograms and pounds, units before their numbers, and what lies between two numbers."""

from __future__ import annotations

import pytest

from intake.fields.amounts.ball_count import find_packs
from intake.fields.amounts.quantities import find_length_m, find_mass_g
from intake.fields.amounts.weight import find_weight
from intake.records import Candidate
from tests.line_making import lines_from


def length(*texts: str) -> Candidate:
    return find_length_m(lines_from(*texts))[0]


def mass(*texts: str) -> Candidate:
    return find_mass_g(lines_from(*texts))[0]


@pytest.mark.parametrize(
    "text",
    ["2'300 m", "ca 2 300 m", "Ca. 2 300 m", "circa 2 300 m", "omtrent 2 300 m", "min. 2 300 m"],
)
def test_thousands_stand_apart_behind_a_word_for_about(text: str) -> None:
    found = length("250 g", text)
    assert (found.value, found.doubt) == (2300.0, "")


def test_a_number_behind_an_unknown_word_may_be_the_thousands() -> None:
    assert length("Kjegle med 1 550 m", "100 g").doubt == "1550 m may be printed, or 550 m"


@pytest.mark.parametrize("text", ["Shade 12 125 m", "Farbe 1 125 m", "Lot nr. 2 125 m"])
def test_a_number_behind_its_caption_is_no_thousands(text: str) -> None:
    found = length(text, "50 g")
    assert (found.value, found.doubt) == (125.0, "")


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("Vikt: 1 hg", 100.0),
        ("Vekt ½ hg", 50.0),
        ("2 hekto", 200.0),
        ("1 etto", 100.0),
        ("Peso netto kg 1", 1000.0),
        ("Rocca da kg 1,5", 1500.0),
        ("Gomitolo g. 100", 100.0),
        ("gomitolo di g 20", 20.0),
        ("Grams: 50", 50.0),
        ("1 lb", 453.6),
        ("1/2 lb", 226.8),
        ("10 dkg", 100.0),
        ("Je 50-g-Knäuel", 50.0),
    ],
)
def test_grams_are_told_in_other_units_or_behind_theirs(text: str, grams: float) -> None:
    assert mass(text).value == grams


@pytest.mark.parametrize("text", ["Metri 200", "Meter: 200", "Mètres : 200", "Metros 200"])
def test_metres_in_full_may_stand_before_their_number(text: str) -> None:
    found = length("100 g", text)
    assert (found.value, found.doubt) == (200.0, "")


def test_metres_behind_their_number_are_none_of_the_next() -> None:
    assert length("50 g", "125 Meter 3 Nadeln").value == 125.0


@pytest.mark.parametrize(
    ("texts", "metres"),
    [(("1450 yds/lb", "8 oz"), 663.0), (("3200 m/kg", "Netto 250 g"), 800.0)],
)
def test_a_length_for_a_pound_or_kilogram_is_reckoned_and_asked(
    texts: tuple[str, ...], metres: float
) -> None:
    found = length(*texts)
    assert found.value == metres
    assert "is reckoned" in found.doubt
    assert not mass(*texts).doubt


@pytest.mark.parametrize(
    "texts", [("Bruttovægt 1.020 g", "Nettovægt 960 g"), ("Bruttogewicht 540 g", "Netto 500 g")]
)
def test_the_gross_mass_is_known_in_one_word(texts: tuple[str, ...]) -> None:
    found = mass(*texts)
    assert found.value in (960.0, 500.0)
    assert not found.doubt


@pytest.mark.parametrize("text", ["90-110 g", "90–110 g", "fra 90 til 110 g", "de 90 a 110 g"])
def test_a_mass_between_two_is_asked_about(text: str) -> None:
    assert mass(text).doubt == "90 to 110 g are printed"


def test_a_code_before_a_dash_is_no_lesser_number() -> None:
    assert not mass("Art. 45 - 50 g").doubt


def test_a_mass_behind_several_balls_may_be_that_of_all() -> None:
    assert "of one ball or of all" in mass("Contenu : 2 pelotes Brisette 100 g").doubt
    assert "of one ball or of all" in mass("150 g (3 nøster)").doubt
    assert not mass("Innehåll: 2 nystan à 50 g").doubt
    assert not mass("2 balls Brisette, 50 g each").doubt


@pytest.mark.parametrize(
    ("text", "number"),
    [("five 20 g minis", 5.0), ("5 Ministränge je 20 g", 5.0), ("drei Knäuel", 3.0)],
)
def test_small_balls_and_numbers_in_words_are_counted_and_asked(text: str, number: float) -> None:
    (found,) = find_packs(lines_from(text))
    assert found.value == number
    assert found.doubt


@pytest.mark.parametrize(("grams", "metres"), [("800 g", "100 m"), ("85 g", "250 m")])
def test_rolls_of_jersey_and_odd_skeins_are_not_asked_about(grams: str, metres: str) -> None:
    assert not mass(grams, metres).doubt
    assert not length(grams, metres).doubt


@pytest.mark.parametrize("text", ["DK - Ligero", "DK - 100 g"])
def test_a_dash_behind_a_weight_makes_no_country_of_it(text: str) -> None:
    assert find_weight(lines_from(text))[0].value == "light"


def test_denmark_is_no_weight() -> None:
    assert not find_weight(lines_from("DK-5000 Odense"))


def test_the_skein_is_told_from_the_mass_that_a_length_is_for() -> None:
    found = length("Løbelængde 400 m/100 g, fed 50 g")
    assert (found.value, found.doubt) == (200.0, "")
