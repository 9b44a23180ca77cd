"""Where the yarn was made."""

from __future__ import annotations

import pytest

from intake.fields.origin import find_origin
from tests.line_making import lines_from


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("Made in Italy", "Italy"),
        ("Spun in Yorkshire", "Yorkshire"),
        ("Spun and dyed in Scotland", "Scotland"),
        ("Made in the Netherlands, www.sneeuwgors.example", "the Netherlands"),
        ("Made in U.K.", "U.K."),
        ("Made in Italy by Filatura Lontra", "Italy"),
        ("Made in Italy 50 g", "Italy"),
        ("Product of New Zealand", "New Zealand"),
        ("Hergestellt in Österreich", "Österreich"),
        ("Gesponnen in der Schweiz", "Schweiz"),
        ("HERGESTELLT IN DEUTSCHLAND", "DEUTSCHLAND"),
        ("Fabriqué en France", "France"),
        ("Filé en Belgique", "Belgique"),
        ("Prodotto in Italia da Filati Lontra", "Italia"),
        ("Hecho en España", "España"),
        ("Gemaakt in Nederland", "Nederland"),
        ("Tillverkad i Sverige.", "Sverige"),
        ("Produsert i Norge", "Norge"),
        ("Fremstillet i Danmark", "Danmark"),
        ("MadeinItaly", "Italy"),
        ("Fabrique en France", "France"),
        ("Hergeste1lt in Deutschland", "Deutschland"),
    ],
)
def test_reads_the_place_without_its_phrase(text: str, place: str) -> None:
    (found,) = find_origin(lines_from(text))
    assert found.value == place
    assert found.doubt == ""
    assert [text[span.start : span.end] for span in found.spans] == [place]


def test_reads_a_place_on_the_next_line() -> None:
    (found,) = find_origin(lines_from("Made in", "Norway"))
    assert found.value == "Norway"


def test_languages_of_one_tag_name_one_place() -> None:
    texts = ("Hergestellt in Italien", "Made in Italy", "Fabriqué en Italie")
    assert [each.value for each in find_origin(lines_from(*texts))] == ["Italy"]


def test_two_places_in_one_language_are_asked_for() -> None:
    found = find_origin(lines_from("Made in Italy", "Made in Peru"))
    assert [each.value for each in found] == ["Italy", "Peru"]
    assert all("different places" in each.doubt for each in found)


@pytest.mark.parametrize("text", ["made with love", "Italy", "Made in 2020", "Handmade", ""])
def test_no_place_without_phrase_and_name(text: str) -> None:
    assert find_origin(lines_from(text)) == []


@pytest.mark.parametrize(
    "text", ["Filé à la main par Solène", "A product of Belmoor Mills", "Fatto a mano"]
)
def test_neither_hands_nor_a_firm_are_a_place(text: str) -> None:
    assert find_origin(lines_from(text)) == []
