"""Captions of several things in one, captions of co-operatives and importers, and what stands near
them and is none of their values."""

from __future__ import annotations

import pytest

from intake.fields.amounts.quantities import find_quantities
from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import line_from, lines_from, placed

MAKER = "Gale Orchard Spinners"
REST = ("50 g = 120 m", "100 % wool")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


@pytest.mark.parametrize(
    "caption",
    ["Colour + dye lot", "Farbe und Los", "Coloris et bain", "Color y baño", "Kleur en verfbad",
     "Färg + bad", "Farge og parti", "Shade & lot"],
)  # fmt: skip
@pytest.mark.parametrize("values", ["P7.4 / SV-9-54", "P7.4 + SV-9-54"])
def test_a_caption_for_shade_and_lot_shares_its_values_out(caption: str, values: str) -> None:
    found = parsed(MAKER, "Windfall", f"{caption}: {values}", *REST)
    assert (found["shade_code"].value, found["lot"].value) == ("P7.4", "SV-9-54")


def test_a_name_a_code_and_a_lot_behind_one_caption_are_told_apart() -> None:
    found = parsed(MAKER, "Windfall", "Farge + bad: Vasket Dongeri K7 + 54R69", *REST)
    assert (found["shade"].value, found["shade_code"].value) == ("Vasket Dongeri", "K7")
    assert (found["lot"].value, found["lot"].state) == ("54R69", State.SURE)


def test_two_codes_with_a_stroke_close_between_them_behind_a_name_are_asked_about() -> None:
    found = parsed(MAKER, "Windfall", "Kleur/partij: Kruisbes 965B/26-0379", *REST)
    assert (found["shade_code"].value, found["lot"].value) == ("965B", "26-0379")
    assert found["lot"].state is State.DOUBTFUL
    assert "965B/26-0379" in found["lot"].reason


def test_values_to_the_right_of_a_joined_caption_are_shared_out_over_their_pieces() -> None:
    lines = [
        *lines_from(MAKER, "Windfall", *REST),
        placed(line_from("Färg/Parti", 6), 0),
        placed(line_from("Fårgrå - 0501 / 04-158C", 6), 220),
    ]
    found = parse(lines, ())
    assert (found["shade_code"].value, found["lot"].value) == ("0501", "04-158C")


def test_a_lot_with_another_code_in_its_line_is_asked_about() -> None:
    lines = [
        *lines_from(MAKER, "Windfall", *REST),
        placed(line_from("partij", 7), 0),
        placed(line_from("764Y - 251-90", 8), 0),
    ]
    found = parse(lines, ())
    assert found["lot"].state is not State.SURE


@pytest.mark.parametrize(
    "caption",
    ["Lot de fabrication", "Lotto di produzione", "Lote de fabricación", "Tillverkningsparti",
     "Produksjonsparti", "Produktionsparti", "Dyebath", "Los"],
)  # fmt: skip
def test_a_lot_of_production_is_a_lot(caption: str) -> None:
    found = parsed(MAKER, "Windfall", f"{caption} L0993", *REST)
    assert (found["lot"].value, found["lot"].state) == ("L0993", State.SURE)


@pytest.mark.parametrize(
    "caption", ["NOM DE LA COULEUR", "NOMDELACOULEUR", "Färgens namn", "Variante", "Kleurstelling"]
)
def test_longer_captions_of_the_shade_are_no_part_of_it(caption: str) -> None:
    found = parsed(MAKER, "Windfall", f"{caption}: Rose Fanée", "Lot 88123", *REST)
    assert found["shade"].value == "Rose Fanée"


@pytest.mark.parametrize(
    "caption", ["Désignation", "Betegnelse", "Omschrijving", "Denominazione", "Bezeichnung"]
)
def test_what_a_yarn_is_called_is_its_range(caption: str) -> None:
    found = parsed(MAKER, f"{caption}: Windfall", "Shade 204 Heron", "Lot 88123", *REST)
    assert (found["range"].value, found["range"].state) == ("Windfall", State.SURE)


@pytest.mark.parametrize(
    ("line", "number"),
    [("Substances contrôlées, rapport ZQ 57.4809", "57.4809"), ("Club laine, colis 38", "38"),
     ("Club del filato, pacco 21", "21"), ("Free pattern: ribbed cap no. 46, see our site", "46"),
     ("Klantenservice: Tel. 01632 960821", "960821")],
)  # fmt: skip
def test_numbers_of_reports_parcels_patterns_and_helplines_are_no_codes(
    line: str, number: str
) -> None:
    found = parsed(MAKER, "Windfall", line, "0.72 Björk", "Lot 88123", *REST)
    values = {str(found[name].value) for name in ("shade", "shade_code", "lot", "range")}
    assert not any(number in value for value in values)
    assert found["shade"].value == "Björk"


@pytest.mark.parametrize("line", ["SPACCIO AZIENDALE", "FABRIKVERKAUF", "Liebe Strickerin",
                                  "Cara magliaia", "Dear knitter"])  # fmt: skip
def test_outlets_and_salutations_name_nobody(line: str) -> None:
    found = parsed(line, "La Capra Turchina", "Battiloro", "Shade 204 Heron", "Lot 88123", *REST)
    assert line not in (found["maker"].value, found["range"].value)
    assert line not in (*found["maker"].others, *found["range"].others)


def test_black_in_danish_stays_a_shade() -> None:
    found = parsed("Nøddebæk Uldspinderi", "Hverdag", "Farve: Sort", "Parti 88123", "50 g = 120 m")
    assert (found["shade"].value, found["shade"].state) == ("Sort", State.SURE)


def test_a_word_for_the_sort_of_yarn_is_no_sure_shade() -> None:
    found = parsed("Nøddebæk Uldspinderi", "Hverdag", "sort", "Farvenr. 204", "Parti 88123")
    assert found["shade"].value != "sort" or found["shade"].state is not State.SURE


def test_a_name_with_a_word_for_needles_is_whole() -> None:
    found = parsed("Breihuis De Korte Naald", "Kleur 204 Heide", "Verfbad 88123", "50 g = 120 m")
    assert found["maker"].value == "Breihuis De Korte Naald"


def test_a_name_with_an_apostrophe_at_a_words_end_is_a_name() -> None:
    found = parsed("Sallowby Growers' Co-operative", "Shade 204 Heron", "Lot 88123", *REST)
    assert found["maker"].value == "Sallowby Growers' Co-operative"


def test_curved_apostrophes_are_kept_as_straight_ones() -> None:
    found = parsed("par Le Grand Bazar d’Aumery", "Coloris 204 Héron", "Bain 88123", *REST)
    assert found["maker"].value == "Le Grand Bazar d'Aumery"


@pytest.mark.parametrize(
    ("text", "length_m"),
    [("m 155 circa ogni gomitolo da 100 g", 155.0), ("netto 100 g, metri 155", 155.0)],
)
def test_italian_lengths_with_their_unit_first_are_read(text: str, length_m: float) -> None:
    found = {one.name: one.value for one in find_quantities(lines_from(text))}
    assert found == {"length_m": length_m, "mass_g": 100.0}


def test_a_name_beside_the_code_in_its_row_is_a_rival_of_the_one_below_it() -> None:
    lines = [
        placed(line_from("Pastel", 1), 0),
        placed(line_from("D636", 1), 110),
        placed(line_from("Courant d'Air", 2), 0),
        *(line_from(text, 4 + at) for at, text in enumerate(("545.3", *REST))),
        line_from("par Filature du Haut-Vernois", 9),
    ]
    found = parse(lines, ())
    assert not all(found[name].state is State.SURE for name in ("shade", "range"))


@pytest.mark.parametrize("text", ["Matiz Vaquero Lavado", "Farve 0ld Gold - 397-48"])
def test_a_shade_that_may_be_longer_than_it_was_read_is_asked_about(text: str) -> None:
    found = parsed(MAKER, "Windfall", text, "Lote 88123", *REST)
    assert found["shade"].state is not State.SURE or found["shade"].value == "Vaquero Lavado"
