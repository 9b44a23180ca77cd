"""Captions that stand behind their values, and words that look like captions and are none."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.captions import Role, find_captions
from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import line_from, lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m")


def parsed(*texts: str) -> dict[str, Field]:
    return parse(lines_from(*texts), ())


def is_sure(field: Field, value: object) -> bool:
    return field.value == value and field.state is State.SURE


@pytest.mark.parametrize(
    ("shade", "lot"),
    [
        ("28-435 - Lysegrå Fargenavn", "2207/4 Farging"),
        ("28-435 Lysegrå Kleur", "2207/4 Partij"),
        ("28-435 · Lysegrå Farvenavn", "2207/4 Farveparti"),
    ],
)
def test_captions_that_end_their_lines_belong_to_what_stands_before_them(
    shade: str, lot: str
) -> None:
    found = parsed("Garnwerk Lindenau", shade, lot, *FACTS)
    assert is_sure(found["shade"], "Lysegrå")
    assert is_sure(found["shade_code"], "28-435")
    assert is_sure(found["lot"], "2207/4")


def test_one_caption_behind_a_code_is_asked_about() -> None:
    found = parsed("Garnwerk Lindenau", "NJ76 Azul Noche Nombre de color", "MORRENA", *FACTS)
    assert not is_sure(found["shade"], "MORRENA")


@pytest.mark.parametrize("line", ["Bergerie du Col Gris", "Chaque marmite a un ton un peu autre"])
def test_a_pass_and_a_tone_within_a_line_announce_no_shade(line: str) -> None:
    assert not [one for one in find_captions(lines_from(line)) if one.role is Role.SHADE]
    assert [one for one in find_captions(lines_from("Col. 204")) if one.role is Role.SHADE]


def test_a_code_is_no_falling_range_of_needles() -> None:
    lines = [*lines_from("Shade no."), placed(line_from("Use needles"), 400)]
    lines += [line_from("19-5", 1), placed(line_from("2.5 mm", 1), 400)]
    found = parse(lines, ())
    assert found["shade_code"].value == "19-5"
    assert found["needle_mm"].value == "2.5"


def test_a_code_whose_end_lies_in_the_box_beside_it_is_asked_about() -> None:
    caption = line_from("PARTIJNUMMER")
    apart, meeting = (placed(line_from("23125"), right) for right in (260.0, 160.0))
    rest = [placed(line, 0, 60) for line in lines_from("Wolhuis Linde", "Kleur 7 Heide", *FACTS)]
    assert is_sure(parse([caption, apart, *rest], ())["lot"], "23125")
    assert parse([caption, meeting, *rest], ())["lot"].state is State.DOUBTFUL


def test_a_legal_form_in_the_next_line_is_a_part_of_the_firms_name() -> None:
    found = parsed("Halbmond", *FACTS, "Gesponnen von Anton Graswander", "GmbH")
    assert is_sure(found["maker"], "Anton Graswander GmbH")


def test_who_spun_a_yarn_for_a_house_is_asked_about() -> None:
    found = parsed("Halbmond", *FACTS, "Spun for Hotel Seespitz by Pike Yarns Ltd")
    assert found["maker"].value == "Pike Yarns Ltd"
    assert found["maker"].state is State.DOUBTFUL
    assert found["range"].value == "Halbmond"


@pytest.mark.parametrize("kit", ["Ski sock kit", "Confezione berretto", "Garenpakket muts"])
def test_a_kit_is_no_name_and_no_weight(kit: str) -> None:
    found = parsed("Pike Yarns Ltd", kit, "3 x Snowbridge", *FACTS)
    assert found["range"].value == "Snowbridge"
    assert found["range"].state is State.DOUBTFUL
    assert found["weight_class"].value is None


def test_a_caption_of_a_range_that_was_not_found_is_asked_about() -> None:
    found = parsed("Pike Yarns Ltd", "Quality", "27568", *FACTS, "Shade 204 Heron", "Lot 88123")
    assert found["range"].state is State.DOUBTFUL


def test_a_roman_two_right_behind_a_letter_is_asked_about() -> None:
    found = parsed("Pike Yarns Ltd", "Istappen UII", *FACTS, "Shade 204 Heron", "Lot 88123")
    assert found["range"].state is State.DOUBTFUL


def test_the_number_of_an_entry_in_a_list_is_no_value() -> None:
    found = parsed("Pike Yarns Ltd", "3. Lotnummer", "88123", "4. Kleurnummer", "932B", *FACTS)
    assert (found["lot"].value, found["shade_code"].value) == ("88123", "932B")


def test_a_date_without_a_caption_is_no_sure_code() -> None:
    found = parsed("Pike Yarns Ltd", "Halbmond", "Bobiné le 20.11.23", "Bain 182147", *FACTS)
    assert not is_sure(found["shade_code"], "20.11.23")


def test_a_legal_form_belongs_to_no_heading_above_it() -> None:
    name, form = line_from("Seerose"), placed(line_from("GmbH"), 0, 40)
    large = replace(name, quad=((0.0, -60.0), (300.0, -60.0), (300.0, 30.0), (0.0, 30.0)))
    rest = [placed(line, 0, 120) for line in lines_from("Farbe 204", "Partie 88123", *FACTS)]
    assert parse([large, form, *rest], ())["maker"].value != "Seerose GmbH"


def test_captions_for_the_shade_in_other_languages_are_answered_by_its_code() -> None:
    lines = [line_from("Farbe"), placed(line_from("Kleur"), 200), placed(line_from("Farve"), 400)]
    lines += [
        placed(line_from("204"), 0, 40),
        *(placed(line, 0, 120) for line in lines_from("Pike Yarns Ltd", "Lot 88123", *FACTS)),
    ]
    found = parse(lines, ())
    assert is_sure(found["shade_code"], "204")
    assert found["shade"].state is State.MISSING


@pytest.mark.parametrize(
    "words",
    ["Distribué par Sjöbo Agentur", "Gewickelt am", "Restsalg", "Use", "CLEARBROOK STD II·575782"],
)
def test_who_sells_a_yarn_and_when_it_was_wound_is_no_name(words: str) -> None:
    found = parsed("Pike Yarns Ltd", "Halbmond", "Shade no. 204", "Lot 88123", words, *FACTS)
    assert found["range"].value == "Halbmond"
    assert found["shade"].state is State.MISSING
