"""What small dyers and spinners print in place of a dye lot, and captions of undyed shades."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import lines_from

MAKER = "Gale Orchard Spinners"
REST = ("50 g = 120 m", "100 % wool")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(MAKER, "Windfall", *texts, *REST), ())


@pytest.mark.parametrize(
    "caption",
    ["Gryta nr", "Gryte", "Grydenr.:", "Kessel Nr.", "Farbtopf", "Dye pot nr.", "Dye pot #",
     "Kettle", "Chaudron n°", "Caldero nº", "Ketel", "Verfketel nr.", "Kok nr.:", "Farvekog:",
     "Fargekok", "Färgkok", "Sud", "Farvegang", "Färggång", "Fargegang", "Badje", "D/L",
     "Dye", "Bg.", "Pt:", "Tanda", "Teñido", "Tinte:"],
)  # fmt: skip
def test_a_number_of_what_a_yarn_was_dyed_in_is_the_lot(caption: str) -> None:
    found = parsed("Shade 12 Moss", f"{caption} 417")
    assert (found["lot"].value, found["lot"].state) == ("417", State.SURE)
    assert (found["shade"].value, found["shade_code"].value) == ("Moss", "12")


@pytest.mark.parametrize("name", ["Copper Kettle", "Ardesia Tinte", "Old Dye", "Brass Pot"])
def test_such_a_word_at_the_end_of_a_name_is_no_caption(name: str) -> None:
    found = parsed(f"{name} 417", "Lot 2200")
    assert (found["shade"].value, found["shade_code"].value) == (name, "417")
    assert (found["lot"].value, found["lot"].state) == ("2200", State.SURE)


def test_such_a_word_without_a_number_is_no_caption() -> None:
    found = parsed("Teñido a mano", "Color 12 Moss", "Lote 2200")
    assert (found["lot"].value, found["lot"].state) == ("2200", State.SURE)


@pytest.mark.parametrize(
    "caption",
    ["Naturton", "Tierfarbe", "Color natural", "Natural colour", "Couleur naturelle",
     "Colore naturale", "Natuurkleur", "Naturfärg", "Naturfarge", "Naturfarve"],
)  # fmt: skip
def test_a_caption_of_an_undyed_shade_announces_it(caption: str) -> None:
    found = parsed(f"{caption}: Canella", "Lot 2200", "Shearing 2019")
    assert (found["shade"].value, found["shade"].state) == ("Canella", State.SURE)


def test_an_undyed_shade_without_a_colon_is_its_own_name() -> None:
    found = parsed("Color natural 12", "Lote 2200")
    assert (found["shade"].value, found["shade_code"].value) == ("natural", "12")


def test_letters_that_hyphens_join_to_a_code_are_no_caption() -> None:
    found = parsed("Cod. prodotto FV-SOL-32", "colore GIADA", "lotto 2200")
    assert found["shade_code"].value is None


def test_a_caption_below_a_finished_request_for_one_lot_is_one() -> None:
    found = parsed("Alle nøster må ha samme nummer!", "Farge", "94 Moss", "Parti 2200")
    assert (found["shade_code"].value, found["shade"].value) == ("94", "Moss")


@pytest.mark.parametrize("length", ["Løbelængde", "Løbelengde"])
def test_a_danish_caption_of_the_length_is_no_shade(length: str) -> None:
    found = parsed(f"{length} / Length: 50 g = 175 m", "Farve", "1340", "Parti", "2200")
    assert (found["shade_code"].value, found["shade_code"].state) == ("1340", State.SURE)
