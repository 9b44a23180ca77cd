"""Shade and lot told in sentences: the words between them are no names."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.amounts.quantities import find_length_m
from intake.fields.codes import leading_code
from intake.fields.names.no_names import names_nothing
from intake.fields.parse import parse
from intake.records import Line, State
from tests.line_making import larger, line_from, lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m")


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (("Per altri gomitoli chiedere il colore", "28-903 del bagno 71519."), "28-903"),
        (("When buying more, ask for shade", "VB86 from dye lot 71519."), "VB86"),
        (("farve BC36. Jeg kommer fra", "parti 71519."), "BC36"),
        (("kleur BC36. Ik kom uit", "verfbad 71519."), "BC36"),
    ],
)
def test_words_between_code_and_lot_are_no_shade(lines: tuple[str, ...], code: str) -> None:
    found = parse(lines_from("Kelderhof Spinnerij", *lines, *FACTS), ())
    assert found["shade_code"].value == code
    assert found["lot"].value == "71519"
    assert found["shade"].value is None
    assert found["shade"].state is State.MISSING


@pytest.mark.parametrize("text", ["from", "del", "Ik kom uit", "I come from", "Vengo dal"])
def test_words_that_lead_on_name_nothing(text: str) -> None:
    assert names_nothing(text)


@pytest.mark.parametrize("text", ["Den", "Le Lin", "De Grutto", "Aus der Tiefe"])
def test_a_name_with_such_words_is_one(text: str) -> None:
    assert not names_nothing(text)


def test_a_name_behind_a_small_word_is_asked_about() -> None:
    told = ("Ik ben Veldkiem, in Parelgrijs,", "kleur BC36. Ik kom uit", "verfbad 75308-1.")
    found = parse(lines_from(*told, *FACTS, "Kelderhof Spinnerij", "www.kelderhof.example"), ())
    assert found["shade"].state is State.DOUBTFUL
    assert found["shade_code"].value == "BC36"


def test_what_a_box_is_called_is_not_surely_the_range() -> None:
    boxed = ("In deze doos:", "3 bollen", "Veldkiem", *FACTS, "Kleur: Mos", "Verfbad: 82-800")
    lines = lines_from("Textielfabriek Kelderhof BV", "", "Bergmuts", "", *boxed)
    lines = [larger(line, 2) if line.text == "Bergmuts" else line for line in lines if line.text]
    found = parse(lines, ())
    assert found["range"].state is State.DOUBTFUL
    assert "what the box is called" in found["range"].reason


def with_wide_space(line: Line, heights: float) -> Line:
    """``line`` with each space wider by so many heights."""
    gap = heights * line.height_px / line.width_px
    letters, moved = [], 0.0
    for letter in line.letters:
        more = gap if letter.text == " " else 0.0
        letters.append(replace(letter, left=letter.left + moved, right=letter.right + moved + more))
        moved += more
    whole = 1 + moved
    scaled = [replace(one, left=one.left / whole, right=one.right / whole) for one in letters]
    (left, top), (right, _), (_, low), _ = line.quad
    end = left + (right - left) * whole
    return replace(
        line,
        quad=((left, top), (end, top), (end, low), (left, low)),
        letters=tuple(scaled),
    )


def test_a_name_after_a_wide_space_stays_with_the_word_of_the_trade_before_it() -> None:
    head, range_ = lines_from("Filatura Cannetaia", "Lucciola di Marna")
    found = parse([with_wide_space(head, 0.5), range_, *lines_from(*FACTS)], ())
    assert found["maker"].value == "Filatura Cannetaia"
    assert found["range"].value == "Lucciola di Marna"


def test_lone_numbers_without_captions_are_asked_about() -> None:
    """Shade's code and lot may have changed places, and the name below be the maker's."""
    lines = lines_from("Lege Fuik", "Avondsloot", "49.469", "55 % acryl 45 % scheerwol")
    lines += [placed(line, 0, 300) for line in lines_from("50 g = 670 m", "AZ903", "De Roerdam")]
    found = parse(lines, ())
    for name in ("lot", "shade_code", "shade"):
        assert found[name].state is not State.SURE


def test_a_street_above_its_town_is_no_shade() -> None:
    lines = lines_from(
        "Art.N-2655 Fb.W752 Part.84446",
        "Gebr. Sielmann Garne, Am Siel 84,",
        "D-51830 Sielwarden",
        *FACTS,
    )
    found = parse(lines, ())
    assert found["shade_code"].value == "W752"
    assert found["shade"].value is None


def test_a_heat_is_no_code() -> None:
    assert leading_code("200 °C au plus") is None


def test_a_caption_glued_to_its_value_is_no_shade() -> None:
    found = parse(lines_from("Art.25155 Kl.2 BadK.5776", *FACTS), ())
    assert found["shade"].value is None


def test_a_name_in_two_boxes_of_one_row_is_not_surely_a_maker() -> None:
    one = larger(line_from("Pan"), 2.5)
    two = placed(larger(line_from("de Turba"), 2.5), 140)
    told = lines_from("Baño 1813727", "Color Gris", *FACTS, "www.juncolana.example")
    found = parse([one, two, *(placed(line, 0, 140) for line in told)], ())
    assert not (found["maker"].state is State.SURE and found["maker"].value == "Turba")


@pytest.mark.parametrize(
    "text",
    ["Neonato", "Bébé Enfant Dame", "AFGEPRIJSD", "Nedsatt", "Ingepakt door", "licence",
     "Animal welfare checked"],
)  # fmt: skip
def test_words_for_whom_at_what_price_and_by_whom_packed_name_nothing(text: str) -> None:
    assert names_nothing(text)


def test_a_saying_with_a_full_stop_is_asked_about_no_more() -> None:
    lines = lines_from("Kelderhof Spinnerij BV", "Kleur : N45", "Charge : D70-532", *FACTS)
    range_, said = larger(line_from("Hazelnacht", -3), 2), "Varmt selv i støvregn"
    for text, reason in ((f"{said}.", ""), (said, f"'{said}' may be the name")):
        left = parse([range_, *lines, placed(line_from(text, 1), 300)], ())["shade"]
        assert left.value is None
        assert left.reason.startswith(reason)
        assert (left.state is State.MISSING) == (not reason)


@pytest.mark.parametrize("other", ["108 Pump House Drove", "licence 64459"])
def test_what_is_no_shade_is_no_second_entry_of_a_list(other: str) -> None:
    lines = lines_from("Kelderhof Spinnerij BV", "Kleur: 293T IJsvogel", "Partij: 70-532", *FACTS)
    found = parse([*lines, placed(line_from(other, 8), 200)], ())
    assert found["shade"].value == "IJsvogel"
    assert found["shade"].state is State.SURE


@pytest.mark.parametrize("text", ["Hilado a 1620 m s.n.m.", "Gesponnen auf 1620 m ü. d. M."])
def test_how_high_a_place_lies_is_no_length(text: str) -> None:
    assert find_length_m(lines_from(text)) == []


def test_a_word_that_is_a_caption_beside_a_lone_code_is_one() -> None:
    """ "Los" is an article in Spanish; behind values "Farbe" and "Col." are captions elsewhere."""
    lines = lines_from("Bergspinnerei Gamsen GmbH", *FACTS)
    told = (("Dünnes Eis", "Farbe"), ("X0918", "Col."), ("1856432", "Los"))
    for row, (value, caption) in enumerate(told):
        number = placed(line_from(value, 6 + 1.6 * row), 600)
        lines += [number, placed(line_from(caption, 6 + 1.6 * row), 610 + 15 * len(value))]
    found = parse(lines, ())
    assert found["lot"].value == "1856432"
    assert found["shade_code"].value == "X0918"


@pytest.mark.parametrize("text", ["Gorro de monte", "Bonnet de montagne", "SKU", "Skin-Proof"])
def test_garments_seals_and_words_for_numbers_name_nothing(text: str) -> None:
    assert names_nothing(text)
