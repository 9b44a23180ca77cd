"""Labels that forbid in more words than one, say that something cannot be done, or tell what dries
without hanging, in nine languages.

``data/care_refusals.csv`` is written from general knowledge of how care is worded (common practice,
no source), each label with its truth before it was first read.  Of 62 written before the words of
:mod:`intake.fields.care.refusals` were, 21 were right and unasked without them; of 54 more, 26
without them and 42 when first read with them.  It holds those whose meaning is beyond doubt.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from tests.care_reading import best

with (Path(__file__).parent / "data" / "care_refusals.csv").open(encoding="utf-8") as file:
    LABELS = [(row["lines"], row["care"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("line", "care"), LABELS)
def test_a_label_is_read_without_a_question(line: str, care: str) -> None:
    found = best(line)
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Under no circumstances / tumble dry. Hand wash.",
        "Under no / circumstances tumble dry. Hand wash.",
        "Under / no circumstances tumble dry. Hand wash.",
        "Unter / keinen Umständen in den Trockner. Handwäsche.",
        "Unter keinen / Umständen in den Trockner. Handwäsche.",
        "Keinesfalls / in den Trockner / Handwäsche",
        "Handwäsche. Trockner / unmöglich",
        "En aucun / cas de sèche-linge. Lavage à la main.",
        "In nessun / caso asciugatrice. Lavare a mano.",
        "Lavar a mano. Secadora en / ningún caso.",
        "Onder geen / beding in de droger. Handwas.",
        "Under inga / omständigheter torktumlas. Handtvätt.",
        "Under ingen / omstændigheder tørretumbles. Håndvask.",
        "Under ingen / omstendigheter tørketrommel. Håndvask.",
    ],
)
def test_words_that_forbid_together_do_so_over_the_end_of_a_line(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (("hand wash", "do not tumble dry"), "")


@pytest.mark.parametrize(
    ("line", "process"),
    [
        ("Tumble drying impossible. Hand wash.", "do not tumble dry"),
        ("Chemische Reinigung unmöglich. Handwäsche.", "do not dry clean"),
        ("Nettoyage à sec impossible. Lavage à la main.", "do not dry clean"),
        ("Sèche-linge impossible. Lavage à la main.", "do not tumble dry"),
        ("Lavaggio a secco impossibile. Lavare a mano.", "do not dry clean"),
        ("Secadora imposible. Lavar a mano.", "do not tumble dry"),
        ("Lejía de ningún tipo. Lavar a mano.", "do not bleach"),
        ("Secadora de ningún tipo. Lavar a mano.", "do not tumble dry"),
        ("Chemisch reinigen onmogelijk. Handwas.", "do not dry clean"),
        ("Torktumling inte under några omständigheter. Handtvätt.", "do not tumble dry"),
        ("Kemtvätt omöjlig. Handtvätt.", "do not dry clean"),
        ("Tørretumbles ikke under nogen omstændigheder. Håndvask.", "do not tumble dry"),
        ("Kjemisk rensing umulig. Håndvask.", "do not dry clean"),
    ],
)
def test_what_cannot_be_done_is_forbidden(line: str, process: str) -> None:
    found = best(line)
    assert (set(found.value), found.doubt) == ({"hand wash", process}, "")


@pytest.mark.parametrize(
    "lines",
    [
        "Umständen in den Trockner. Handwäsche.",
        "Cas de sèche-linge. Lavage à la main.",
        "Circumstances tumble dry. Hand wash.",
        "Tørketrommel er umlig. Håndvask.",
        "Omständigheter torktumlas. Handtvätt.",
        "Dry without laying flat. Hand wash.",
        "Asciugare senza appendere né stendere. Lavare a mano.",
    ],
)
def test_a_part_of_such_words_is_asked_about(lines: str) -> None:
    assert best(lines).doubt


@pytest.mark.parametrize(
    "lines",
    [
        "Lavar a mano. Secar en plano, sin colgar.",
        "Lavar a mano. Secar en plano, sin / colgar",
        "Lavare a mano. Asciugare in piano, senza / appendere",
        "Laver à la main. Sécher à plat, sans / suspendre",
        "Handwäsche. Liegend trocknen, ohne / aufzuhängen",
        "Handwas. Plat drogen, zonder op te / hangen",
    ],
)
def test_what_is_not_hung_lies(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (("hand wash", "dry flat"), "")


@pytest.mark.parametrize(
    ("line", "process"),
    [
        ("Machine wash warm, up to 60 °C", "machine wash 60"),
        ("Machine wash warm, up to 30 °C", "machine wash 30"),
        ("Machine wash warm (40 °C)", "machine wash 40"),
        ("Machine wash warm", "machine wash 40"),
    ],
)
def test_degrees_behind_warm_tell_how_warm(line: str, process: str) -> None:
    found = best(line)
    assert (found.value, found.doubt) == ((process,), "")


def test_cold_and_degrees_that_are_not_are_asked_about() -> None:
    assert "two washing temperatures" in best("Machine wash cold, up to 60 °C").doubt


@pytest.mark.parametrize(
    "line",
    [
        "Handwäsche. Dampfbügeln.",
        "Handwäsche. Nicht dampfbügeln.",
        "Handtvätt. Ångstryks.",
    ],
)
def test_an_iron_with_steam_and_no_heat_is_asked_about(line: str) -> None:
    found = best(line)
    assert found.value == ("hand wash",)
    assert found.doubt


@pytest.mark.parametrize(
    "line",
    [
        "Handtvätt. Ej ångstryks på hög värme.",
        "Handwäsche. Nicht dampfbügeln mit niedriger Temperatur.",
        "Handwas. Niet stoomstrijken op lage temperatuur.",
        "Håndvask. Må ikke dampstryges ved lav varme.",
    ],
)
def test_an_iron_with_steam_that_is_forbidden_allows_none(line: str) -> None:
    found = best(line)
    assert not any(process.startswith("iron") for process in found.value)
    assert found.doubt


@pytest.mark.parametrize(
    "line",
    [
        "Under no circumstances bleach, tumble dry or iron. Hand wash.",
        "In keinem Fall bleichen, in den Trockner geben oder bügeln. Handwäsche.",
        "En aucun cas javelliser, sécher en machine ou repasser. Lavage à la main.",
        "In nessun caso candeggiare, asciugare in asciugatrice o stirare. Lavare a mano.",
        "En ningún caso usar lejía, secadora o plancha. Lavar a mano.",
        "In geen geval bleken, drogen in de droger of strijken. Handwas.",
        "Under inga omständigheter blekas, torktumlas eller strykas. Handtvätt.",
        "Under ingen omstændigheder bleges, tørretumbles eller stryges. Håndvask.",
        "Under ingen omstendigheter blekes, tørketromles eller strykes. Håndvask.",
    ],
)
def test_words_that_forbid_together_forbid_all_of_a_list(line: str) -> None:
    found = best(line)
    forbidden = ("do not bleach", "do not tumble dry", "do not iron")
    assert (found.value, found.doubt) == (("hand wash", *forbidden), "")
