"""Manners of wording care that a language has for itself: what suits, a gentle treatment, a reduced
heat, a shaded place, and no washing even by hand.

Written from general knowledge of how care is worded (common practice, no source).
"""

from __future__ import annotations

import pytest

from intake.fields.care.words import find_care
from intake.records import Candidate
from tests.line_making import lines_from


def best(lines: str) -> Candidate:
    found = find_care(lines_from(*lines.split(" / ")))
    assert len(found) == 1, f"care of {lines}: {found}"
    return found[0]


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Egner sig ikke til / tørretumbler. Håndvask", "hand wash; do not tumble dry"),
        ("Håndvask. Egner seg / ikke for tørketrommel", "hand wash; do not tumble dry"),
        ("Håndvask. Egner seg godt for / tørketrommel", "hand wash; tumble dry"),
        ("Handtvätt. Lämpar sig inte för / torktumlare", "hand wash; do not tumble dry"),
        ("Handwas. Leent zich niet voor / de droger", "hand wash; do not tumble dry"),
        ("Lavage main. Ne se prête pas / au sèche-linge", "hand wash; do not tumble dry"),
        ("Hand wash. Not suited to / the tumble dryer", "hand wash; do not tumble dry"),
        ("Lavare a mano. Non adatto / allo stiro", "hand wash; do not iron"),
        ("Der Trockner eignet sich nicht. / Handwäsche", "hand wash; do not tumble dry"),
    ],
)
def test_what_suits_and_what_does_not(lines: str, care: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Machine, mild movement, 30 °C",
        "Maschine, reduzierte Bewegung, 30 °C",
        "Machine, action modérée, 30 °C",
        "Macchina, azione moderata, 30 °C",
        "Máquina, acción moderada, 30 °C",
        "Machine, milde behandeling, 30 °C",
        "Maskin, reducerad bearbetning, 30 °C",
        "Maskin, redusert bevegelse, 30 °C",
        "Maskine, reduceret bevægelse, 30 °C",
    ],
)
def test_a_gentle_treatment_is_a_mild_programme(lines: str) -> None:
    found = best(lines + ". / Do not iron.")
    assert (found.value, found.doubt) == (("machine wash 30 mild", "do not iron"), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Handwäsche. Trockner bei reduzierter Hitze",
        "Handtvätt. Torktumling med reducerad / värme",
        "Håndvask. Tørketrommel med redusert varme",
        "Håndvask. Kan / tørretumbles ved reduceret varme",
        "Handwas. Droger, verminderde warmte",
        "Handwas. Droger op verlaagde temperatuur",
    ],
)
def test_a_reduced_heat_is_a_low_one(lines: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (("hand wash", "tumble dry low"), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Hand wash. No drying in the sun, use a shaded place",
        "Handwäsche. An einem schattigen Platz / trocknen",
        "Lavage main. Séchage dans un lieu ombragé",
        "Lavare a mano. Asciugatura in luogo ombreggiato",
        "Lavado a mano. Secado en un lugar sombreado",
        "Handwas. Drogen op een beschaduwde plaats",
        "Handtvätt. Torkning på skuggig plats",
        "Håndvask. Tørking på skyggefull plass",
        "Håndvask. Tørring på skyggefuldt sted",
    ],
)
def test_a_shaded_place(lines: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (("hand wash", "dry in shade"), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Do not wash, not even by hand. Dry clean",
        "Keine Wäsche, auch nicht / von Hand. Chemische Reinigung",
        "Aucun lavage, même à la main. Nettoyage à sec",
        "Nessun lavaggio, nemmeno / a mano. Pulitura a secco",
        "Ningún lavado, ni siquiera a mano. Limpieza en seco",
        "Geen enkele was, ook geen handwas. Chemisch reinigen",
        "Ingen tvätt, inte heller handtvätt. Kemtvätt",
        "Ingen vask, heller ikke for hånd. Kjemisk rens",
        "Ingen vask, heller ikke i hånden. Kemisk rens",
    ],
)
def test_no_washing_even_by_hand(lines: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (("do not wash", "dry clean"), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Handwas. Wassen zonder enig / bleekmiddel", "hand wash; do not bleach"),
        ("Lavage main. Laver sans aucun agent de / blanchiment", "hand wash; do not bleach"),
        ("Lavare a mano. Ogni / candeggio è escluso", "hand wash; do not bleach"),
        ("Lavado a mano. Queda excluido el / blanqueo", "hand wash; do not bleach"),
        ("Machinebestendig tot 30 °C. Niet bleken", "machine wash 30; do not bleach"),
        ("Maskinvask, normalprogram 40 °C. Ikke bleges", "machine wash 40; do not bleach"),
        ("Lavare a mano. Stiro a un punto, debole", "hand wash; iron low"),
        ("Lavado a mano. Planchado a un punto, suave", "hand wash; iron low"),
        ("Programa delicado 30 °C. Colgar / chorreando", "machine wash 30 mild; drip line dry"),
    ],
)
def test_words_that_one_language_has_for_itself(lines: str, care: str) -> None:
    found = best(lines)
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Handwas. Bleekmiddelen mogen / Wollenzang / niet worden gebruikt",
        "Handwäsche. Chlorbleiche darf / Ofenbankweich / nicht verwendet werden",
    ],
)
def test_a_verb_that_ends_a_line_waits_for_the_word_that_forbids(lines: str) -> None:
    assert "may go on elsewhere" in best(lines).doubt
