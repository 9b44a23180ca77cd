"""Care whose programme, hands or bleach are named in other ways than right beside the washing."""

from __future__ import annotations

import pytest

from intake.fields.care.words import find_care
from tests.care_reading import best
from tests.line_making import lines_from


@pytest.mark.parametrize(
    ("line", "washing"),
    [
        ("Machine wash 30, mild; no bleach", "machine wash 30 mild"),
        ("Wassen op 30 graden, voorzichtig; niet bleken", "machine wash 30 mild"),
        ("Lavage à 40 °C, cycle normal ; blanchiment interdit", "machine wash 40"),
        ("Waschen bei 40 °C, normales Programm. Nicht bleichen", "machine wash 40"),
    ],
)
def test_a_programme_may_stand_behind_a_comma(line: str, washing: str) -> None:
    found = best(line)
    assert (found.value, found.doubt) == ((washing, "do not bleach"), "")


@pytest.mark.parametrize(
    "line",
    [
        "Machine wash 30 °C, bleach without chlorine",
        "Maschinenwäsche 30 °C, bleichen ohne Chlor",
        "Machinewas 30 °C, bleken zonder chloor",
        "Maskintvätt 30 °C, blekning utan klor",
        "Maskinvask 30 °C, bleking uten klor",
        "Maskinvask 30 °C, blegning uden klor",
    ],
)
def test_bleach_without_chlorine_is_allowed(line: str) -> None:
    found = best(line)
    assert (found.value, found.doubt) == (("machine wash 30", "oxygen bleach only"), "")


@pytest.mark.parametrize("line", ["Uldvask i hånden", "Ullvask for hånd 30 grader"])
def test_wool_washed_by_hand_is_washed_by_no_machine(line: str) -> None:
    found = best(line)
    assert (found.value, found.doubt) == (("hand wash",), "")


def test_languages_may_set_the_programme_before_the_machine_and_behind_it() -> None:
    found = best("Maskinvask 30° skånsom", "Skonsam maskintvätt 30°", "Skånsom maskinvask 30°")
    assert (found.value, found.doubt) == (("machine wash 30 mild",), "")


@pytest.mark.parametrize(
    "line",
    [
        "Overskuddsfarge kan slippe i første vask",
        "Überschüssige Farbe kann sich beim ersten Waschen lösen",
        "Il colore in eccesso può scaricare al primo lavaggio",
        "El exceso de tinte puede soltarse en el primer lavado",
        "Overtollige verf kan loslaten bij de eerste was",
        "Överskottsfärg kan släppa i första tvätten",
        "Overskydende farve kan afgives ved første vask",
    ],
)
def test_dye_that_lets_go_in_the_first_wash_tells_of_no_care(line: str) -> None:
    assert find_care(lines_from(line)) == []


@pytest.mark.parametrize(
    "lines", ["Lavaggio a secco: sì / Ferri consigliati: 4 mm", "Håndvask / Anbefalede pinde: 3,5"]
)
def test_needles_below_care_are_none_of_it(lines: str) -> None:
    assert best(*lines.split(" / ")).doubt == ""


def test_a_gentleness_between_two_things_is_asked_about() -> None:
    assert best("Machine wash 30, gentle", "tumble dry").doubt
    assert not best("Machine wash 30, gentle", "Dry flat").doubt
