"""Where the number of a shade stands, and numbers and words beside names that are none of one."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import larger, line_from, lines_from, placed

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
@pytest.mark.parametrize("shade", ["23 / Kiezelpad", "23 Kiezelpad"])
def test_a_caption_for_number_and_name_announces_both(caption: str, shade: str) -> None:
    found = parsed(caption, shade, "Lot 2200")
    assert (found["shade_code"].value, found["shade"].value) == ("23", "Kiezelpad")


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
    found = parsed("Alderwick Heather", "Box 71, Route 4, Tarn Notch")
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


@pytest.mark.parametrize(
    "line", ["No: 63", "Nr. 63", "Nº 63", "Núm. 63", "Código 63", "Cód. 63", "Clave: 63",
             "Kode: 63", "Codice 63"],
)  # fmt: skip
def test_a_number_below_a_shades_name_is_asked_about(line: str) -> None:
    found = parsed("Color: Coral", line, "Lote 2200")
    assert (found["shade_code"].value, found["shade_code"].state) == ("63", State.DOUBTFUL)
    assert (found["shade"].value, found["shade"].state) == ("Coral", State.SURE)


def test_a_code_that_begins_like_a_caption_is_whole_behind_its_own() -> None:
    assert parsed("Color: Coral", "Código LL-03", "Lote 2200")["shade_code"].value == "LL-03"


def test_a_code_apart_from_the_shades_name_is_the_articles() -> None:
    found = parse(lines_from("Código 63", MAKER, "Windfall", *REST, "Color: Coral", "Lote 8"), ())
    assert found["shade_code"].value is None


def test_a_letter_before_a_code_beside_the_shade_may_announce_the_lot() -> None:
    found = parsed("Kleur: 66 Coral", "P: 1307")
    assert (found["lot"].value, found["lot"].state) == ("1307", State.DOUBTFUL)
    assert "P: 1307" in found["lot"].reason


def test_a_letter_before_a_code_beside_the_lot_may_announce_the_shade() -> None:
    found = parsed("F. 318", "Parti 2200")
    assert (found["shade_code"].value, found["shade_code"].state) == ("318", State.DOUBTFUL)


def test_a_letter_before_a_code_says_nothing_where_shade_and_lot_have_captions() -> None:
    found = parsed("Kleur: 66 Coral", "P: 1307", "Verfbad 2200")
    assert (found["lot"].value, found["lot"].state) == ("2200", State.SURE)


@pytest.mark.parametrize("name", ["Blanc cassé", "Lys grå", "Halmgul", "Dark blue", "Undyed"])
def test_a_colour_apart_from_its_number_is_the_shade_and_no_range(name: str) -> None:
    lines = [larger(line_from(MAKER, 0), 2.5), *lines_from("", "", "", name, "", "", *REST)]
    found = parse([*lines, line_from("Shade 41", 9), line_from("Lot 2200", 10)], ())
    assert (found["shade"].value, found["shade"].state) == (name, State.DOUBTFUL)
    assert found["range"].value != name
