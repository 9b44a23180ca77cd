"""Wool that is hung up without being wrung drips; what is said of wringing elsewhere is no process.

Written from general knowledge of how care is worded (common practice, no source).
"""

from __future__ import annotations

from textwrap import wrap

import pytest

from tests.care_reading import best


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Hand wash. Hang to dry without wringing.", "hand wash; drip line dry"),
        ("Hand wash. Hang without wringing or twisting.", "hand wash; drip line dry"),
        ("Hand wash. Line dry without spinning.", "hand wash; drip line dry"),
        (
            "Hand wash. Without wringing, hang in the shade.",
            "hand wash; drip line dry; dry in shade",
        ),
        ("Hand wash. Hang up wet.", "hand wash; drip line dry"),
        ("Hand wash. Hang to dry / without wringing.", "hand wash; drip line dry"),
        ("Handwäsche. Ohne auszuwringen auf der Leine trocknen.", "hand wash; drip line dry"),
        ("Handwäsche. Hängend trocknen ohne Auswringen.", "hand wash; drip line dry"),
        ("Handwäsche. Ungewrungen aufhängen.", "hand wash; drip line dry"),
        ("Handwäsche. Nass aufhängen.", "hand wash; drip line dry"),
        ("Handwäsche. Zum Trocknen aufhängen, / ohne zu schleudern.", "hand wash; drip line dry"),
        ("Lavage à la main. Sécher sur fil sans essorage.", "hand wash; drip line dry"),
        ("Lavage à la main. Faire sécher suspendu / sans l'essorer.", "hand wash; drip line dry"),
        (
            "Lavage à la main. Sans essorer, suspendre à l'ombre.",
            "hand wash; drip line dry; dry in shade",
        ),
        ("Lavage à la main. Étendre sans tordre.", "hand wash; drip line dry"),
        ("Lavare a mano. Asciugare appeso senza centrifugare.", "hand wash; drip line dry"),
        ("Lavare a mano. Far asciugare appeso / senza strizzarlo.", "hand wash; drip line dry"),
        ("Lavare a mano. Stendere senza torcere né strizzare.", "hand wash; drip line dry"),
        ("Lavare a mano. Appendere bagnato.", "hand wash; drip line dry"),
        ("Lavar a mano. Secar colgado sin retorcer.", "hand wash; drip line dry"),
        ("Lavar a mano. Colgar sin exprimir ni centrifugar.", "hand wash; drip line dry"),
        ("Lavar a mano. Colgar mojado.", "hand wash; drip line dry"),
        ("Lavar a mano. Secar tendido / sin centrifugar.", "hand wash; drip line dry"),
        ("Handwas. Ophangen zonder uitwringen.", "hand wash; drip line dry"),
        ("Handwas. Zonder te wringen ophangen.", "hand wash; drip line dry"),
        ("Handwas. Hangend drogen zonder centrifugeren.", "hand wash; drip line dry"),
        ("Handwas. Aan de lijn drogen / zonder te centrifugeren.", "hand wash; drip line dry"),
        ("Handwas. Lijndrogen zonder te wringen.", "hand wash; drip line dry"),
        ("Handtvätt. Hängtorkas utan centrifugering.", "hand wash; drip line dry"),
        ("Handtvätt. Hängs upp utan att vridas.", "hand wash; drip line dry"),
        ("Handtvätt. Hängtorka utan att vrida ur.", "hand wash; drip line dry"),
        ("Handtvätt. Hängs våt.", "hand wash; drip line dry"),
        ("Håndvask. Heng opp uten å vri.", "hand wash; drip line dry"),
        ("Håndvask. Hengetørkes uten sentrifugering.", "hand wash; drip line dry"),
        ("Håndvask. Henges til tørk uten vridning.", "hand wash; drip line dry"),
        ("Håndvask. Hænges op uden at vride.", "hand wash; drip line dry"),
        ("Håndvask. Hængetørres uden centrifugering.", "hand wash; drip line dry"),
        ("Håndvask. Uden vridning hænges til tørre.", "hand wash; drip line dry"),
        ("Håndvask. Hænges vådt op.", "hand wash; drip line dry"),
        ("Handwäsche. Ungeschleudert aufhängen.", "hand wash; drip line dry"),
        ("Nass aufhängen. Handwäsche.", "hand wash; drip line dry"),
        ("Lavare a mano / senza strizzare / asciugare appeso", "hand wash; drip line dry"),
        ("Laver à la main, sans essorer, sécher suspendu", "hand wash; drip line dry"),
    ],
)
def test_what_is_hung_without_wringing_is_drip_dried(lines: str, care: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "text",
    [
        "Hand wash. Hang to dry without wringing.",
        "Handwäsche. Hängend trocknen ohne Auswringen.",
        "Lavage à la main. Faire sécher suspendu sans l'essorer.",
        "Lavare a mano. Asciugare appeso senza strizzare.",
        "Lavar a mano. Secar colgado sin retorcer.",
        "Handwas. Hangend drogen zonder te centrifugeren.",
        "Handtvätt. Hängtorkas utan centrifugering.",
        "Håndvask. Henges til tørk uten vridning.",
        "Håndvask. Hængetørres uden centrifugering.",
        "Hand wash. Hang up wet.",
        "Håndvask. Hænges vådt op.",
    ],
)
@pytest.mark.parametrize("width", [18, 24, 32])
def test_it_drips_however_its_lines_are_broken(text: str, width: int) -> None:
    found = best(*wrap(text, width))
    assert (found.value, found.doubt) == (("hand wash", "drip line dry"), "")


@pytest.mark.parametrize(
    ("lines", "care"),
    [
        ("Handwäsche ohne Reiben und Wringen. Aufhängen.", "hand wash; line dry"),
        (
            "Lavage à la main à l'eau froide sans essorer ni tordre. Sécher à plat.",
            "hand wash; dry flat",
        ),
        ("Handwas zonder wringen. Plat drogen.", "hand wash; dry flat"),
        ("Handtvätt utan att vrida. Plantorkas.", "hand wash; dry flat"),
        ("Håndvask uten å vri. Tørkes flatt.", "hand wash; dry flat"),
        ("Håndvask uden at vride. Liggetørres.", "hand wash; dry flat"),
    ],
)
def test_wringing_told_of_a_washing_or_of_what_lies_flat_says_nothing(
    lines: str, care: str
) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (tuple(care.split("; ")), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Hand wash. Do not wring. Hang to dry.",
        "Handwäsche. Nicht wringen, hängend trocknen.",
        "Hand wash. Reshape while wet and hang to dry.",
        "Handwäsche ohne Reiben und Wringen. Aufhängen.",
        "Hand wash without wringing / hang to dry",
    ],
)
def test_what_is_only_not_wrung_by_hand_or_shaped_wet_is_line_dried(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert (found.value, found.doubt) == (("hand wash", "line dry"), "")


@pytest.mark.parametrize(
    "lines",
    [
        "Hand wash. Do not hang wet.",
        "Handwäsche. Nicht nass aufhängen.",
        "Lavage main. Ne pas suspendre mouillé.",
        "Handwäsche. Nicht ohne Wringen aufhängen.",
    ],
)
def test_hanging_that_is_forbidden_is_never_told_as_dripping(lines: str) -> None:
    assert "drip line dry" not in (best(lines).value or ())


@pytest.mark.parametrize(
    "lines",
    [
        "Maskintvätt 30 °C / ullprogram utan / centrifugering.",
        "Machine wash 30 °C / wool cycle without / spinning.",
        "Lavage en machine 30 °C / programme laine sans / essorage.",
        "Maskinvask 30 °C / ullprogram uten / sentrifugering.",
    ],
)
def test_a_mild_programme_stays_mild_with_what_is_said_of_spinning_behind_it(lines: str) -> None:
    found = best(*lines.split(" / "))
    assert found.value == ("machine wash 30 mild",)


@pytest.mark.parametrize(
    "lines",
    [
        "Waschen bei 30 °C ohne zu schleudern. Liegend trocknen.",
        "Lavage à 30 °C sans essorage. Sécher à plat.",
        "Wash at 30 °C, short spin. Dry flat.",
    ],
)
def test_a_washing_that_names_neither_hand_nor_machine_stays_asked(lines: str) -> None:
    found = best(lines)
    assert (found.value, bool(found.doubt)) == (("dry flat",), True)


@pytest.mark.parametrize(
    "lines",
    [
        "Machine wash 30 °C short spin. Dry flat.",
        "Machine wash 30 °C, short / spin. Dry flat.",
        "Maschinenwäsche 30 °C, kurz schleudern. Liegend trocknen.",
        "Lavage machine 30 °C, essorage court. Sécher à plat.",
    ],
)
def test_a_short_spin_may_ask_for_a_mild_programme(lines: str) -> None:
    assert "mild programme" in best(*lines.split(" / ")).doubt
