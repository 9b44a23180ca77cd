"""Shortened captions of shade and lot, and captions that a shade's name or code was taken from."""

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
    ["DL", "D-Lot", "DLOT", "Bd.", "Vb.", "Lt.", "Fbd.", "Kb:", "Anfärbung", "Einfärbung:",
     "Verfnummer", "Verfnr.", "Omgång", "Omgang nr.", "Ansatz", "Brew", "Brygd nr", "Bgo."],
)  # fmt: skip
def test_a_shortened_caption_of_a_lot_is_known(caption: str) -> None:
    found = parsed("Shade 12 Moss", f"{caption} 417")
    assert (found["lot"].value, found["lot"].state) == ("417", State.SURE)
    assert (found["shade"].value, found["shade_code"].value) == ("Moss", "12")
    assert found["shade"].state is State.SURE


@pytest.mark.parametrize("text", ["12 Bd Kestrel", "Bryg te", "Vb"])
def test_such_a_caption_without_a_number_announces_none(text: str) -> None:
    found = parsed("Shade 12 Moss", text, "Lot 2200")
    assert (found["lot"].value, found["lot"].state) == ("2200", State.SURE)


@pytest.mark.parametrize("caption", ["Shd.", "Shd:", "Shd", "Colr.", "CW", "Tom:"])
def test_a_shortened_caption_of_a_shade_is_no_name_of_one(caption: str) -> None:
    found = parsed(f"{caption} 9461", "Lot 2200")
    assert (found["shade_code"].value, found["shade_code"].state) == ("9461", State.SURE)
    assert found["shade"].state is State.MISSING


@pytest.mark.parametrize(
    "caption", ["Hauptfarbe", "Hoofdkleur", "Huvudfärg", "Hovedfarge", "Hovedfarve", "Main colour"]
)
def test_the_first_colour_of_a_kit_is_its_shade(caption: str) -> None:
    found = parsed(f"{caption}: Canella", "Lot 2200")
    assert (found["shade"].value, found["shade"].state) == ("Canella", State.SURE)


def test_a_caption_in_spanish_and_portuguese_is_one() -> None:
    found = parsed("Tono/Tom: Canella", "Código de tono/Código do tom: N3", "Lote/Lote: 00871")
    assert (found["shade"].value, found["shade_code"].value) == ("Canella", "N3")
    assert found["shade_code"].state is State.SURE


@pytest.mark.parametrize(
    "text", ["Verpackt am: 09/2026", "Emballé le 09/2026", "Verpakt op: 09/2026"]
)
def test_when_a_tag_was_packed_is_no_shade(text: str) -> None:
    found = parsed("Lot 2200", text)
    assert found["shade"].value is None
    assert found["shade_code"].value is None


@pytest.mark.parametrize("word", ["Knäuelgewicht", "Bolgewicht", "Nystvikt", "Nøstevekt"])
def test_the_weight_of_a_ball_is_no_name_of_a_shade(word: str) -> None:
    found = parsed("Shade 03", "Lot 2200", word)
    assert (found["shade"].value, found["shade"].state) == (None, State.MISSING)
