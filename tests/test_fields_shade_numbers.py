"""Where the number of a shade stands, and numbers and words beside names that are none of one."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"
REST = ("50 g = 120 m", "100 % wool")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(MAKER, "Windfall", *texts, *REST), ())


def in_columns(*rows: tuple[str, ...]) -> dict[str, Field]:
    lines = lines_from(MAKER, "Windfall", *REST)
    lines += [
        placed(line_from(text, 6 + number), 240 * column)
        for number, row in enumerate(rows)
        for column, text in enumerate(row)
    ]
    return parse(lines, ())


@pytest.mark.parametrize(
    ("heads", "values"),
    [
        (("Color", "Nº", "Tintada"), ("Coral", "63", "0175")),
        (("Nr.", "Farve", "Parti"), ("63", "Coral", "0175")),
        (("Lot", "Colour", "No."), ("0175", "Coral", "63")),
    ],
)
def test_a_column_of_numbers_next_to_that_of_the_shade_holds_its_code(
    heads: tuple[str, ...], values: tuple[str, ...]
) -> None:
    found = in_columns(heads, values)
    assert found["shade_code"].value == "63"
    assert (found["shade"].value, found["lot"].value) == ("Coral", "0175")


def test_a_column_of_numbers_next_to_another_is_not_the_shades() -> None:
    found = in_columns(("Colour", "Lot", "No."), ("Coral", "0175", "63"))
    assert (found["shade_code"].value, found["lot"].value) == (None, "0175")


@pytest.mark.parametrize(
    "caption", ["Kleur-nr./naam", "Farbnr. + Name", "Colour name / no.", "Colour no. and name"]
)
@pytest.mark.parametrize("shade", ["23 / Vuurtoren", "23 Vuurtoren"])
def test_a_caption_for_number_and_name_announces_both(caption: str, shade: str) -> None:
    found = parsed(caption, shade, "Lot 2200")
    assert (found["shade_code"].value, found["shade"].value) == ("23", "Vuurtoren")


@pytest.mark.parametrize("line", ["Fv.nr. 31", "Farve 31"])
def test_a_shortened_word_for_colour_before_that_for_the_lot_belongs_to_it(line: str) -> None:
    found = parsed(line, "Fv.bad 2206")
    assert (found["shade_code"].value, found["shade_code"].state) == ("31", State.SURE)
    assert (found["lot"].value, found["lot"].state) == ("2206", State.SURE)


@pytest.mark.parametrize(
    "line",
    ["Schur 2022", "Geschoren juni 2020", "Kleinserie 2019", "Tonte 2021", "Esquila 2020",
     "Klippt 2019", "Summer 2021"],
)  # fmt: skip
def test_a_year_of_a_shearing_or_an_edition_is_no_code(line: str) -> None:
    found = parsed(line, "Lot 2200")
    assert (found["shade"].value, found["shade_code"].value) == (None, None)


def test_a_road_of_an_address_is_no_shade() -> None:
    found = parsed("Juniper Heather", "Box 88, Route 9, Harlan Notch")
    assert found["shade"].value != "Route"
    assert found["shade_code"].value is None


@pytest.mark.parametrize(
    "line", ["Medium 4", "1 libra", "1-trådet vævegarn", "4-ply", "Prov nr 12", "106 vg"]
)
def test_an_amount_or_a_class_beside_a_shade_is_no_other_shade(line: str) -> None:
    found = parsed("Shade: 17 Moss", line, "Lot 2200")
    assert (found["shade"].value, found["shade"].state) == ("Moss", State.SURE)
    assert (found["shade_code"].value, found["shade_code"].state) == ("17", State.SURE)


def test_a_request_that_names_two_numbers_is_no_shade() -> None:
    found = parsed("FARBE 29", "FÄRBUNG 1126", "Bitte Farb- und Färbungsnummer angeben")
    assert (found["shade"].value, found["shade_code"].value) == (None, "29")


def test_a_price_in_pence_is_no_lot() -> None:
    assert parsed("Moss", "75p")["lot"].value is None
