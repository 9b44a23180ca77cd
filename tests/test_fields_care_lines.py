"""Care over several lines: each its own, or one sentence broken where the paper ends.

The wordings are those of the tags drawn for tuning and some made up; common practice, no source.
"""

from __future__ import annotations

import pytest

from intake.fields.care.words import find_care
from tests.care_reading import best
from tests.line_making import lines_from


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            "Torktumling ej tillåten / Hängtorkning / Strykning ej tillåten",
            "do not tumble dry; line dry; do not iron",
        ),
        (
            "Bleichen nicht erlaubt / Für den Trockner geeignet / Nicht in der Sonne trocknen",
            "do not bleach; tumble dry; dry in shade",
        ),
        (
            "Maschinenwäsche 40°, Wollprogramm / Bleichen verboten / Bügeln verboten",
            "machine wash 40 mild; do not bleach; do not iron",
        ),
        (
            "Uitsluitend handwas / Niet chemisch laten reinigen",
            "hand wash; do not dry clean",
        ),
        (
            "Maskinvask på 40 grader / Blekes ikke / Tørketrommel ved lav temperatur",
            "machine wash 40; do not bleach; tumble dry low",
        ),
        (
            "Vaskes ikke / Bleges ikke / Tørretumbles ikke / Tåler rensning",
            "do not wash; do not bleach; do not tumble dry; dry clean",
        ),
        (
            "Use no bleach / Tumble dry, low setting / Line drying",
            "do not bleach; tumble dry low; line dry",
        ),
        (
            "Ingen blegning / Tørretumbler, lav varme / Kemisk rens ikke tilladt",
            "do not bleach; tumble dry low; do not dry clean",
        ),
        (
            "Easy care / Machine washable at 40 degrees / may be tumble dried on a low heat",
            "machine wash 40; tumble dry low",
        ),
        (
            "Washing: by hand / Drying: flat / Bleaching: no",
            "hand wash; do not bleach; dry flat",
        ),
        (
            "Dry flat / Never machine dry / Felts in hot water! Hand wash cold",
            "hand wash; do not tumble dry; dry flat",
        ),
        ("Tumble dry gently on low / Iron up to 200°", "tumble dry low; iron high"),
        ("Machine wash 30 / Not suitable for tumble drying", "machine wash 30; do not tumble dry"),
        (
            "Wash 40 wool cycle / bleach no / iron one dot",
            "machine wash 40 mild; do not bleach; iron low",
        ),
        (
            "Torktumling på låg värme / Torkas på streck / Får kemtvättas",
            "tumble dry low; line dry; dry clean",
        ),
    ],
)
def test_what_stands_in_a_line_of_its_own_is_told_by_itself(lines: str, expected: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(expected.split("; ")), "")


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ("Tumble / dry, low setting, hand wash", "hand wash; tumble dry low"),
        ("Tumble dry, low / Hand wash", "hand wash; tumble dry low"),
        ("Handwas. Strijken max. / 150 °C", "hand wash; iron medium"),
        ("Lavare a mano. Ferro max 110 / °C.", "hand wash; iron low"),
        ("In model trekken en plat / drogen. Handwas.", "hand wash; dry flat"),
        ("Gentle / hand wash. Dry flat.", "hand wash; dry flat"),
        ("Machine wash on / wool programme, 40°", "machine wash 40 mild"),
        ("Lavage main. Faire / sécher sur un fil.", "hand wash; line dry"),
        ("Handwas. Aan / de waslijn drogen.", "hand wash; line dry"),
    ],
)
def test_a_sentence_goes_on_in_the_next_line(lines: str, expected: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(expected.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Tumble dry, low / Iron",
        "Hand wash. Tumble dry – low",
        "Tumble dry. Low. Hand wash",
        "Lejía prohibida / Tender / Se puede limpiar en seco / No planchar",
    ],
)
def test_a_heat_or_a_place_that_may_belong_to_the_line_before_is_asked_about(lines: str) -> None:
    assert best(*lines.split(" / ")).doubt


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Lavar a mano, tender, no planchar", "hand wash; line dry; do not iron"),
        ("Spread flat to dry. Hand wash.", "hand wash; dry flat"),
        ("No debe lavarse. Admite limpieza en seco.", "do not wash; dry clean"),
        ("Peut être nettoyé à sec. Lavage main.", "hand wash; dry clean"),
        ("Stirare a 110 °C max. Candeggio vietato.", "do not bleach; iron low"),
        ("Wash at 30 on a wool cycle", "machine wash 30 mild"),
        ("Machine wash at 40 on wool, no bleach", "machine wash 40 mild; do not bleach"),
        (
            "No meter en la lavadora ni en la secadora. Lavar a mano.",
            "hand wash; do not tumble dry",
        ),
    ],
)
def test_words_between_others_leave_no_question(text: str, expected: str) -> None:
    found = best(text)
    assert (found.value, found.doubt) == (tuple(expected.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Lavare a mano. / Ferro max 15O",
        "Lavage main · Fer à 2O0 maximvm · Pas de chlore",
        "Hand wash / Tumbler",
        "Craxnt le sèche-linge. / Lavage à la main.",
        "Maskinvask 30° / uld. / Tørres liggende.",
    ],
)
def test_a_word_of_care_that_tells_nothing_is_asked_about(lines: str) -> None:
    assert best(*lines.split(" / ")).doubt


@pytest.mark.parametrize("needle", ["Ferro n° 4", "Ferro 4,5 mm", "Ferri 4"])
def test_a_needle_that_is_called_as_an_iron_is_not_asked_about(needle: str) -> None:
    assert best("Lavare a mano.", needle).doubt == ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Wash by hand and dry flat", "hand wash; dry flat"),
        ("Tvättas för hand och plantorkas ej i solen", ""),
        ("Do not bleach and dry flat", "do not bleach; dry flat"),
        ("Nicht für Trockner und Reinigung geeignet. Handwäsche.",
         "hand wash; do not tumble dry; do not dry clean"),
        ("Maskinvask 30° uld. Tørres liggende.", "machine wash 30 mild; dry flat"),
        ("Machine washable wool, 30°, line dry", "machine wash 30; line dry"),
    ],
)  # fmt: skip
def test_what_and_joins_is_read_in_full_or_asked_about(text: str, expected: str) -> None:
    found = best(text)
    if expected:
        assert (found.value, found.doubt) == (tuple(expected.split("; ")), "")
    else:
        assert found.doubt


def test_a_word_for_hanging_says_nothing_without_care_beside_it() -> None:
    assert all(not one.value for one in find_care(lines_from("Tender, soft, warm")))
