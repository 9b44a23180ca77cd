"""Makers' names of many words, most of which only link the others, and what else is left over."""

from __future__ import annotations

import pytest
from line_making import LETTER_WIDTH_PX, line_from, lines_from, placed

from intake.fields.codes import whole_name
from intake.fields.names.accents import odd_accent
from intake.fields.parse import parse
from intake.records import Field, State

AMOUNTS = ("50 g = 305 m", "60 % coton 40 % lin", "Coloris 3588", "Bain 8407")


def fields_of(*texts: str) -> dict[str, Field]:
    return parse(tuple(lines_from(*texts)), ())


@pytest.mark.parametrize(
    "name",
    [
        "Filature de la Lande Rase",
        "Viuda de Ondarraga e Hijos",
        "filature de la lande rase",
        "FILATURE DE LA LANDE RASE",
        "Wolhuis van de Oude Heide",
        "F.lli Mazzaligo",
        "F.Ili Mazzaligo",
    ],
)
def test_words_that_link_others_make_no_name_too_long(name: str) -> None:
    assert whole_name(name) is not None


@pytest.mark.parametrize(
    "text",
    [
        "keep it out of the dryer",
        "Wash it by hand in cool water",
        "The wool of our own sheep",
        "the of and la de",
        "Colline de la Lande Rase et des Dunes",
    ],
)
def test_a_sentence_is_no_name(text: str) -> None:
    assert whole_name(text) is None


@pytest.mark.parametrize("maker", ["Filature de la Lande Rase", "Viuda de Ondarraga e Hijos"])
def test_a_maker_of_many_words_is_not_passed_over_for_the_range(maker: str) -> None:
    fields = fields_of(maker, "Pinède", *AMOUNTS)
    assert fields["maker"].value == maker
    assert fields["range"].value == "Pinède"


@pytest.mark.parametrize(
    ("text", "maker"),
    [
        ("Spundet af Revlinge for Hede & Hjem", "Revlinge"),
        ("Filé par La Huppe Distraite pour Lande & Maison", "La Huppe Distraite"),
        ("Spunnet av Den Tankspridda Vipan för Heidemuseum", "Den Tankspridda Vipan"),
    ],
)
def test_a_maker_that_made_the_yarn_for_another_house_is_asked_about(text: str, maker: str) -> None:
    fields = fields_of("Bistadet", *AMOUNTS[:2], "Farve 410", "Parti 9133/0", text)
    assert (fields["maker"].value, fields["maker"].state) == (maker, State.DOUBTFUL)
    assert "whose yarn is it?" in fields["maker"].reason


@pytest.mark.parametrize(
    ("maker", "range_"),
    [("kamgarenfabriek de zandhaas", "Bremstruik"), ("Brugalina", "ZIO ORESTE")],
)
def test_a_maker_in_small_letters_is_no_less_one(maker: str, range_: str) -> None:
    fields = fields_of(maker, range_, *AMOUNTS)
    assert fields["maker"].value == maker


def test_lots_at_the_end_of_a_line_are_no_maker() -> None:
    fields = fields_of("Bickbeere", *AMOUNTS[:2], "Farbe 63", "Partie 19/4",
                       "Menge auf einmal kaufen, Partien", "können abweichen")  # fmt: skip
    assert fields["maker"].value != "Partien"


@pytest.mark.parametrize(
    "texts",
    [
        ("HarmloFlock Standard, 22-6838",),
        ("Bifoga etiketten vid reklamation.",),
        ("En cas de réclamation, joindre cette étiquette.",),
        ("Let op gelijke verfbadnummers.",),
        ("Prix TTC",),
        ("Winkelprijs",),
        ("ULTIMI PEZZI",),
        ("Filature Pinède, 29740 Arenillas del", "Brezo, España"),
        ("Filature Pinède, Heidestraße", "34, D-72940 Tiefensand"),
        ("Bratthylla·Norge",),
        ("Nedre Lid Sverige",),
        ("Kontroll",),
        ("Strikk selv",),
    ],
)
def test_what_else_a_tag_prints_is_left_for_no_shade(texts: tuple[str, ...]) -> None:
    fields = fields_of("Filature Pinède", "Ajonc d'Or", *AMOUNTS, *texts)
    assert fields["shade"].state is State.MISSING
    assert fields["shade_code"].value == "3588"


def test_a_name_that_is_left_is_still_asked_about() -> None:
    fields = fields_of("Filature Pinède", "Ajonc d'Or", *AMOUNTS, "Bruyère")
    assert fields["shade"].state is State.DOUBTFUL


@pytest.mark.parametrize(
    ("name", "lines", "meant"),
    [
        ("Gebræders Wuustman", ("Kleur 5", "Verfbad 77"), "Gebroeders Wuustman"),
        ("Blåbær", ("Farge 5", "Innfarging 7"), ""),
        ("Cœur", ("Coloris 5", "Bain 7"), ""),
        ("Garnboden i Älvik", ("Färg 5", "Färgbad 7"), "Garnboden i Ålvik"),
        ("Wollhaus Ährenfeld", ("Farbe 5", "Partie 7"), ""),
    ],
)
def test_letters_that_are_seen_as_others_are_asked_about_where_the_language_may_have_those(
    name: str, lines: tuple[str, ...], meant: str
) -> None:
    assert odd_accent(name, lines_from(*lines)) == meant


@pytest.mark.parametrize(("apart_px", "shade"), [(5, "Bruyère"), (40, None)])
def test_a_name_far_from_the_code_of_the_shade_is_only_left_over(
    apart_px: float, shade: str | None
) -> None:
    texts = ("Filature Pinède", "Ajonc d'Or", *AMOUNTS[:2], "Bain 2923", "Coloris 4423/6")
    behind_px = LETTER_WIDTH_PX * len(texts[-1]) + apart_px
    name = placed(line_from("Bruyère", len(texts) - 1), right_px=behind_px)
    field = parse((*lines_from(*texts), name), ())["shade"]
    assert (field.value, field.state) == (shade, State.DOUBTFUL)
    assert ("nothing" in field.reason or "has none" in field.reason) is (shade is None)
