"""Care as headings with short answers: what a no or a heat answers, wherever the lines break."""

from __future__ import annotations

import pytest

from tests.care_reading import best

WASHED = "machine wash 40"


@pytest.mark.parametrize(
    ("lines", "process"),
    [
        ("Machine wash 40 °C / Drying: flat. Tumble drying: no. Easy to knit", "do not tumble dry"),
        ("Maschinenwäsche 40 °C / Trocknen im Tumbler – nein / Liegend trocknen",
         "do not tumble dry"),
        ("Lavage en machine 40 °C / Séchage en tambour – non / Sécher à plat",
         "do not tumble dry"),
        ("Lavabile in lavatrice a 40 °C / Pulizia a secco: no / Asciugare in piano",
         "do not dry clean"),
        ("Lavar a máquina 40 °C. Limpieza profesional en / húmedo: no. Secar en plano.",
         "do not wet clean"),
        ("Machinewas 40 °C / Chemisch reinigen – nee / Liggend drogen", "do not dry clean"),
        ("Maskintvätt 40 °C / Plantorkas / Tumling: nej", "do not tumble dry"),
        ("Maskinvask 40 °C. Profesjonell våtrens: / nei. Tørkes flatt.", "do not wet clean"),
        ("Maskinvask 40 °C / Tørring i tumbler – nej / Tørres fladt", "do not tumble dry"),
    ],
)  # fmt: skip
def test_a_no_behind_a_heading_forbids_it(lines: str, process: str) -> None:
    found = best(*lines.split(" / "))
    assert set(found.value) == {WASHED, "dry flat", process}
    assert found.doubt == ""


def test_a_no_is_no_part_of_the_heading_in_the_next_line() -> None:
    found = best("Handwäsche", "Lejía: no", "Secadora: no", "Plancha: baja")
    wanted = ("hand wash", "do not bleach", "do not tumble dry", "iron low")
    assert (found.value, found.doubt) == (wanted, "")


@pytest.mark.parametrize(
    "lines",
    [
        "Lavage : machine, 40 °C, Sèche-linge : oui, doux, Repassage : moyen, / 150 °C",
        "Lavatrice 40 °C. Asciugatrice: sì, bassa temperatura. Stiratura: media, / 150 °C.",
        "Maskinvask 40 °C / Tørretumbling: ja, lav temperatur, Strygning: / mellem, 150 °C",
        "Vask: maskin, 40 °C / Tørketrommel: ja, lav temperatur / Stryking / : middels, 150 °C",
    ],
)
def test_a_yes_or_a_heat_belongs_to_the_heading_before_it(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == ((WASHED, "tumble dry low", "iron medium"), "")


@pytest.mark.parametrize(
    "line",
    [
        "Hand wash. Hot iron: no.",
        "Hand wash. Oxygen bleach: no.",
        "Hand wash. Tumble dry, iron: no.",
        "Hand wash. Line drying: no. Dry flat.",
    ],
)
def test_a_no_that_may_forbid_more_or_less_than_its_heading_is_asked_about(line: str) -> None:
    found = best(line)
    assert found.doubt
    assert not {"iron high", "oxygen bleach only", "tumble dry", "line dry"} & set(found.value)


def test_a_colon_may_open_the_line_below_its_heading() -> None:
    found = best("Lavage à la main, sécher bien à plat, Séchage", ": à l'ombre")
    assert (found.value, found.doubt) == (("hand wash", "dry flat", "dry in shade"), "")
