"""Families of wording: what is accepted, mild heats, cleaning in water, the sun and the heating.

Written from general knowledge of how care is worded (common practice, no source).
"""

from __future__ import annotations

import pytest

from tests.care_reading import best


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Lavage main. Nettoyage à sec accepté.", "hand wash; dry clean"),
        ("Lavage main. Nettoyage à sec non accepté.", "hand wash; do not dry clean"),
        ("Lavar a mano. Limpieza en seco admitida.", "hand wash; dry clean"),
        ("Lavar a mano. Limpieza en seco no admitida.", "hand wash; do not dry clean"),
        ("Lavare a mano. Lavaggio a secco accettato.", "hand wash; dry clean"),
        ("Lavare a mano. Lavabile a secco, solventi usuali.", "hand wash; dry clean"),
        ("Lavage main. Nettoyage à sec pas accepté.", "hand wash; do not dry clean"),
        ("Lavage main. Séchage en machine non accepté.", "hand wash; do not tumble dry"),
        ("Håndvask. Tørretumbling tåles ikke.", "hand wash; do not tumble dry"),
        ("Lavage main. Sèche-linge accepté.", "hand wash; tumble dry"),
        ("Lavage main. Sèche-linge: jamais accepté.", "hand wash; do not tumble dry"),
        ("Lavar a mano. Secadora no admitida.", "hand wash; do not tumble dry"),
        ("Lavar a mano. No aceptada la secadora.", "hand wash; do not tumble dry"),
        ("Lavar a mano. Lavadora no admitida.", "hand wash"),
        ("Lavado en máquina no aceptado. Lavar a mano.", "hand wash"),
        ("Not approved for tumble drying. Hand wash.", "hand wash; do not tumble dry"),
        ("Lavadora 40 °C. Tintorería permitida.", "machine wash 40; dry clean"),
        ("Lavar a mano. Tintorería no permitida.", "hand wash; do not dry clean"),
        ("Lavage main. Pressing non autorisé.", "hand wash; do not dry clean"),
        ("Hand wash. Solvent cleaning not recommended.", "hand wash; do not dry clean"),
        ("Lavage main. Résistant au sèche-linge.", "hand wash; tumble dry"),
        ("Lavare a mano. Non resistente all'asciugatrice.", "hand wash; do not tumble dry"),
        ("Handwäsche. Nicht chlorbar.", "hand wash; do not bleach"),
    ],
)
def test_what_is_accepted_is_told_from_what_is_not(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        (
            "Machine à 40 °C. Séchage en machine, / basse température. Fer moyen.",
            "machine wash 40; tumble dry low; iron medium",
        ),
        (
            "Lavado a máquina 40 °C. Secado en secadora, temperatura suave.",
            "machine wash 40; tumble dry low",
        ),
        ("Handwas. Matig heet strijken.", "hand wash; iron medium"),
        ("Handwäsche. Bügeln nicht über 110 °C.", "hand wash; iron low"),
        ("Iron not above 150 °C. Hand wash.", "hand wash; iron medium"),
        ("Handwas. Niet heter dan 110 °C strijken.", "hand wash; iron low"),
        ("Lavage main. Séchage en tambour modéré.", "hand wash; tumble dry low"),
        ("Alleen handwas, koel water. Plat drogen.", "hand wash; dry flat"),
        ("Handwäsche, kühles Wasser. Liegend trocknen.", "hand wash; dry flat"),
        ("Maskinvask 30 °C, skånsom syklus. Tørkes flatt.", "machine wash 30 mild; dry flat"),
    ],
)
def test_a_heat_is_told_however_it_is_worded(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        (
            "Lavare a 30 °C in lavatrice. Pulitura professionale ad acqua.",
            "machine wash 30; wet clean",
        ),
        ("Maskintvätt 30 °C. Professionell vattentvätt.", "machine wash 30; wet clean"),
        ("Non lavare. Non pulire ad acqua.", "do not wash; do not wet clean"),
        ("Ej professionell vattentvätt. Handtvätt.", "hand wash; do not wet clean"),
        ("Lavare a mano. Pulitura ad acqua vietata.", "hand wash; do not wet clean"),
        ("Lavar a máquina a 30 °C. Limpieza profesional en húmedo.", "machine wash 30; wet clean"),
    ],
)
def test_cleaning_in_water_is_neither_washing_nor_dry_cleaning(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("No lavar nunca en seco. Lavar a mano.", "hand wash; do not dry clean"),
        ("Non lavare mai a secco. Lavare a mano.", "hand wash; do not dry clean"),
        ("Non lavare mai a secco, lavare a mano.", "hand wash; do not dry clean"),
        ("No lavar nunca, limpiar en seco.", "do not wash; dry clean"),
        ("Non lavare mai. Pulitura a secco.", "do not wash; dry clean"),
    ],
)
def test_a_washing_that_is_never_dry_is_told_from_one_that_is_never_done(
    lines: str, care: str
) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Håndvask. Tørkes flatt. Tørkes i skygge, ikke sol.", "hand wash; dry flat; dry in shade"),
        ("Lavage main. Sécher à l'ombre, jamais au soleil.", "hand wash; dry in shade"),
        ("Lavar a mano. Secar a la sombra, nunca al sol.", "hand wash; dry in shade"),
        ("Lavare a mano. Asciugare all'ombra, mai al sole.", "hand wash; dry in shade"),
        ("Handwäsche. Im Schatten trocknen, nie in der Sonne.", "hand wash; dry in shade"),
    ],
)
def test_sun_that_is_forbidden_behind_shade_adds_nothing(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Hand wash. Dry flat, away from heat.", "hand wash; dry flat"),
        ("Lavar a mano. Secar en plano, lejos de fuentes de calor.", "hand wash; dry flat"),
        ("Hand wash. Keep away from heat sources. Dry flat.", "hand wash; dry flat"),
        ("Hand wash. Dry flat away from heat and sunlight.", "hand wash; dry flat; dry in shade"),
        (
            "Lavage main. Sécher à plat, loin des radiateurs et du soleil.",
            "hand wash; dry flat; dry in shade",
        ),
    ],
)
def test_the_heating_is_passed_over_and_the_sun_is_not(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Handwäsche. Bügeln ist nicht notwendig.", "hand wash"),
        ("Håndvask. Stryking er ikke nødvendig.", "hand wash"),
        ("Hand wash. Ironing is not necessary.", "hand wash"),
        ("Lavare a mano. Stiratura non necessaria.", "hand wash"),
    ],
)
def test_an_iron_that_is_not_needed_is_not_forbidden(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Lavage main. Séchage en suspension.", "hand wash; line dry"),
        ("Handwäsche. Aufhängen.", "hand wash; line dry"),
        ("Handwäsche, aufhängen, nicht bügeln.", "hand wash; line dry; do not iron"),
        ("Lavage main. Suspendre. Ne pas repasser.", "hand wash; line dry; do not iron"),
        ("Lavar a mano, colgar, no planchar.", "hand wash; line dry; do not iron"),
        ("Handtvätt. Bleks ej.", "hand wash; do not bleach"),
        ("Machinewas 30 °C. Lijndrogen.", "machine wash 30; line dry"),
        ("Lavage main. Séchage à l'air, étendu sur un fil.", "hand wash; line dry"),
        ("Far sgocciolare appeso. Lavare a mano.", "hand wash; drip line dry"),
        ("Håndvask. Dryptørres uden sol.", "hand wash; drip line dry; dry in shade"),
    ],
)
def test_hanging_and_bleaching_are_told_in_one_word(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Lavage à la main. Sécher à / plat / Teinturerie Brovalune", "hand wash; dry flat"),
        (
            "Lavar a mano, agua tibia / Secado en plano / de Tintorería Valdesombra",
            "hand wash; dry flat",
        ),
        (
            "Lavage à la main. Sécher à plat / Teinturerie Interdite",
            "hand wash; dry flat; do not dry clean",
        ),
        ("Maskintvätt 30 °C, skonsam / Kemtvätt / Brovik Fin", "machine wash 30 mild; dry clean"),
    ],
)
def test_a_dyer_who_is_named_after_the_care_asks_for_nothing(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Hand wash. Dry flat away from heat, direct sunlight.",
        "Lavar a mano / Secado en plano / Tintorería no",
        "Lavadora admitida. Secar en plano.",
        "Handwas. Niet matig heet strijken.",
        "Håndvask. Tørretumbling tåles dårligt.",
        "Håndvask. Må ikke dryptørres.",
        "Machine wash, cool water. Dry flat.",
        "Maskintvätt 30 °C / Kemtvätt / ejj fin",
    ],
)
def test_what_these_words_leave_open_is_asked(lines: str) -> None:
    assert best(*lines.split(" / ")).doubt
