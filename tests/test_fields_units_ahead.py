"""Amounts whose unit stands before the number or is lost, and amounts of money that are none."""

from __future__ import annotations

import pytest

from intake.fields.amounts.quantities import find_length_m, find_mass_g
from intake.fields.amounts.tension import find_tension
from intake.fields.parse import parse
from intake.records import State
from tests.line_making import lines_from


@pytest.mark.parametrize(
    "text",
    [
        "gr 50 (mt 150)",
        "gr. 50 (m 150)",
        "mt 150 (gr 50)",
        "g 50 [m 150]",
        "g 50, metri 150",
        "g 50 – m 150",
        "50 g (m 150)",
        "50 g, m 150",
    ],
)
def test_units_before_their_numbers_are_a_pair_in_any_bracket(text: str) -> None:
    lines = lines_from(text)
    (length, *_), (mass, *_) = find_length_m(lines), find_mass_g(lines)
    assert (length.value, mass.value, length.doubt, mass.doubt) == (150.0, 50.0, "", "")


def test_a_short_length_in_brackets_is_asked_about() -> None:
    assert find_length_m(lines_from("gr 25 (mt 8)"))[0].value == 8.0


@pytest.mark.parametrize(
    ("text", "length_m"),
    [
        ("Löpmeter 162", 162.0),
        ("Laufmeter: ca. 162", 162.0),
        ("metros por cono: 1620", 1620.0),
        ("Meter pro Knäuel: 162", 162.0),
        ("mètres par pelote : 162", 162.0),
        ("yards per skein: 100", 91.44),
        ("yardage 100", 91.44),
    ],
)
def test_a_word_for_the_length_has_its_unit(text: str, length_m: float) -> None:
    found = find_length_m(lines_from("100 g", text))
    assert found[0].value == pytest.approx(length_m, abs=0.05)


def test_kilograms_begin_a_line() -> None:
    assert find_mass_g(lines_from("Peso netto:", "kg 1,000"))[0].value == 1000.0


@pytest.mark.parametrize("price", ["$ 9.500", "€ 2,25", "kr 39"])
def test_the_price_in_the_next_line_is_no_price_per_mass(price: str) -> None:
    assert find_mass_g(lines_from("Peso: 750 g", price))[0].value == 750.0


@pytest.mark.parametrize("price", ["EVP 5,20 M", "Preis: 12,50 M"])
def test_marks_are_no_metres(price: str) -> None:
    assert not find_length_m(lines_from(price, "50 g"))


@pytest.mark.parametrize(
    "text", ["Gewicht 100 , looplengte 186 m", "Vekt: 100", "g 100 - lana 60%"]
)
def test_a_mass_without_a_unit_behind_it_is_asked_about(text: str) -> None:
    found = find_mass_g(lines_from(text))
    assert found[0].value == 100.0
    assert found[0].doubt


def test_stitches_over_a_stroke_are_no_metres() -> None:
    lines = lines_from("30 m / 10 cm")
    assert find_tension(lines)
    assert not find_length_m(lines)


NAMES = ("Quillstow Spinners", "Sluicegate", "80% wool 20% silk", "Lot 88123")


@pytest.mark.parametrize("text", ["gr 1.4 (mt 1", "Peso 1.200", "Lunghezza 1 5", "Bundle of three"])
def test_a_tag_that_seems_to_tell_no_amount_is_asked_for_its_mass(text: str) -> None:
    mass = parse(tuple(lines_from(*NAMES, text)), ())["mass_g"]
    assert mass.state is State.DOUBTFUL or mass.reason


def test_a_tag_that_tells_its_mass_alone_is_asked_for_the_length_as_before() -> None:
    fields = parse(tuple(lines_from(*NAMES, "50 g")), ())
    assert fields["mass_g"].state is State.SURE
    assert fields["length_m"].reason == "no length was found beside the mass"


def test_a_length_and_a_mass_behind_a_dash_are_no_span() -> None:
    assert not find_mass_g(lines_from("75m -100g"))[0].doubt
    assert find_mass_g(lines_from("75-100g"))[0].doubt


def test_metres_behind_their_word_are_no_stitches() -> None:
    lines = lines_from("13 m / 10 cm", "50 g", "Meter 58 m")
    assert [(one.value, one.doubt) for one in find_length_m(lines)] == [(58.0, "")]
