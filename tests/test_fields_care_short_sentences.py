"""Care in short sentences: what is added, the sole of the iron, the dryer's degrees, slashes."""

from __future__ import annotations

import pytest

from tests.care_reading import best


@pytest.mark.parametrize(
    "lines",
    [
        ("Hand wash. Do not add", "bleach. Dry flat."),
        ("Handwäsche. Keine Bleiche", "zusetzen. Flach trocknen."),
        ("Handwäsche. Kein Bleichmittel", "hinzufügen. Flach trocknen."),
        ("Lavage à la main. Ne pas", "ajouter d'agent blanchissant. Séchage à plat."),
        ("Lavare a mano. Non aggiungere", "candeggianti. Asciugare in piano."),
        ("Lavar a mano. No añadir", "blanqueador. Secar en plano."),
        ("Handwas. Geen bleekmiddel", "toevoegen. Plat drogen."),
        ("Handtvätt. Blekmedel får ej", "tillsättas. Torkas plant."),
        ("Håndvask. Ikke tilsett", "blekemiddel. Tørkes flatt."),
        ("Håndvask. Tilsæt ikke", "blegemiddel. Tørres fladt."),
    ],
)
def test_bleach_that_is_not_to_be_added_is_forbidden(lines: tuple[str, ...]) -> None:
    """Common practice, no source."""
    found = best(*lines)
    assert found.value == ("hand wash", "do not bleach", "dry flat")
    assert found.doubt == ""


@pytest.mark.parametrize(
    "lines",
    [
        ("Handwäsche. Bügelsohle", "höchstens 150 °C."),
        ("Handwas. Strijkzool hoogstens", "150 °C."),
        ("Handtvätt. Strykjärnets sula", "högst 150 °C."),
        ("Håndvask. Strykejernets såle", "høyst 150 °C."),
        ("Håndvask. Strygejernets", "sål højst 150 °C."),
    ],
)
def test_the_sole_of_an_iron_tells_its_heat(lines: tuple[str, ...]) -> None:
    found = best(*lines)
    assert (found.value, found.doubt) == (("hand wash", "iron medium"), "")


@pytest.mark.parametrize(
    "dryer",
    [
        "Tumble dry, 60 °C at most",
        "Tumble dry, not hotter than 60 °C",
        "Do not tumble dry above 60 °C",
        "Trommeltrocknen bis 60 °C",
        "Sèche-linge, 60 °C maximum",
        "Asciugatrice, massimo 60 °C",
        "Secadora, máximo 60 °C",
        "Droger, hoogstens 60 °C",
        "Torktumling, högst 60 °C",
        "Tørketrommel, høyst 60 °C",
        "Tørretumbling, højst 60 °C",
    ],
)
def test_a_dryer_at_60_degrees_is_the_lower_one(dryer: str) -> None:
    """ISO 3758, from memory: 60 °C is the lower heat of a dryer and 80 °C the normal one."""
    low = best("Machine wash 40 °C.", f"{dryer}.")
    assert (low.value, low.doubt) == (("machine wash 40", "tumble dry low"), "")
    normal = best("Machine wash 40 °C.", f"{dryer.replace('60', '80')}.")
    assert (normal.value, normal.doubt) == (("machine wash 40", "tumble dry"), "")


@pytest.mark.parametrize("dryer", ["Tumble dry at 50 °C", "Tumble dry max 60", "Tumble dry 70 °C"])
def test_a_dryer_at_other_degrees_is_asked_about(dryer: str) -> None:
    assert best("Machine wash 40 °C.", f"{dryer}.").doubt


@pytest.mark.parametrize(
    "limit", ["Iron, no hotter than 150 °C", "Bügeln, nicht heißer als 150 °C"]
)
def test_a_limit_behind_a_comma_forbids_no_iron(limit: str) -> None:
    found = best("Hand wash.", f"{limit}.")
    assert (found.value, found.doubt) == (("hand wash", "iron medium"), "")


@pytest.mark.parametrize(
    "lines",
    [
        ("Hand wash. Dry flat. Shade drying.",),
        ("Hand wash. Flat", "drying. Shade", "drying."),
        ("Hand wash / Flat drying / Shade", "drying"),
    ],
)
def test_shade_drying_is_read(lines: tuple[str, ...]) -> None:
    found = best(*lines)
    assert (found.value, found.doubt) == (("hand wash", "dry flat", "dry in shade"), "")


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("Lavage à la main et rien d'autre. Ne", "pas javelliser."), ("do not bleach",)),
        (("Hand wash and nothing else.", "Do not iron."), ("do not iron",)),
        (("Nur Handwäsche, sonst nichts.", "Nicht bügeln."), ("do not iron",)),
    ],
)
def test_nothing_else_forbids_nothing(lines: tuple[str, ...], said: tuple[str, ...]) -> None:
    found = best(*lines)
    assert (found.value, found.doubt) == (("hand wash", *said), "")


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ("Lavage à la main. Nettoyage à sec P, procédé", "normal."),
            ("hand wash", "dry clean"),
        ),
        (("Wasmachine 30 °C, normale cyclus. Plat drogen.",), ("machine wash 30", "dry flat")),
        (
            ("Lavable en machine à 30 °C, Suspendre à une corde pour sécher",),
            ("machine wash 30", "line dry"),
        ),
        (
            ("Lavage à la main, Séchage", "horizontal, bien à plat", "20 quai du Brochet"),
            ("hand wash", "dry flat"),
        ),
        (("Hand wash. Dry on a level", "surface."), ("hand wash", "dry flat")),
        (("Handwäsche. Auf einer ebenen Unterlage trocknen.",), ("hand wash", "dry flat")),
    ],
)
def test_courses_lines_and_surfaces_are_read(lines: tuple[str, ...], said: tuple[str, ...]) -> None:
    """Common practice, no source."""
    found = best(*lines)
    assert (found.value, found.doubt) == (said, "")


def test_a_slash_that_lost_a_space_parts_sentences() -> None:
    found = best(
        "Hand wash, 40 °C at most/ Bleaching is not possible / Do", "not iron /Flat drying"
    )
    assert found.value == ("hand wash", "do not bleach", "dry flat", "do not iron")
    assert found.doubt == ""


@pytest.mark.parametrize(
    "list_of_two",
    ["No bleach/tumble dry", "Do not tumble dry/dry clean", "Do not tumble dry/ dry clean"],
)
def test_what_a_close_slash_may_forbid_is_asked_about(list_of_two: str) -> None:
    assert best("Hand wash.", list_of_two).doubt


@pytest.mark.parametrize(
    "lines",
    [
        (
            "Bleichmittel nicht zulässig. Handwäsche",
            "bei 30 °C. Auf einer glatten",
            "Bank trocknen",
        ),
        ("Máquina, 40 °C, ciclo normal. Secadora,", "80 °C a lo sumo. Nada"),
        ("Machine wash 30 °C (wool). No bleach.",),
    ],
)
def test_care_that_was_not_read_beside_a_washing_is_asked_about(lines: tuple[str, ...]) -> None:
    assert best(*lines).doubt


@pytest.mark.parametrize(
    "cleaning",
    [
        "Dry clean F, mild process",
        "Chemisch reinigen P, schonendes Verfahren",
        "Nettoyage à sec P, procédé modéré",
        "Lavaggio a secco P, ciclo delicato",
        "Limpieza en seco P, proceso suave",
        "Chemisch reinigen P, mild proces",
        "Kemtvätt P, skonsam process",
        "Kjemisk rens P, skånsom prosess",
        "Kemisk rens P, skånsom proces",
    ],
)
def test_a_gentle_cleaning_is_no_programme_of_a_machine(cleaning: str) -> None:
    found = best("Hand wash.", f"{cleaning}.")
    assert (found.value, found.doubt) == (("hand wash", "dry clean"), "")
