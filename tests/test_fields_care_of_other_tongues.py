"""Care as it is worded where a language has more than one norm, and in the sentences of small
firms: the other Norwegian, the Spanish of the south, French overseas, labels that speak."""

from __future__ import annotations

import pytest

from intake.fields.care.words import find_care
from tests.line_making import lines_from


def care(*texts: str) -> tuple[tuple[str, ...], str]:
    found = find_care(lines_from(*texts))
    if not found:
        return (), ""
    value = found[0].value
    return tuple(str(one) for one in value) if isinstance(value, tuple) else (), found[0].doubt


@pytest.mark.parametrize(
    ("text", "processes"),
    [
        (
            "Vaskast for hand. Tørkast flatt. Ikkje stryk.",
            ("hand wash", "dry flat", "do not iron"),
        ),
        ("Maskinvask 30°, skånsamt", ("machine wash 30 mild",)),
        ("Tåler ikkje tørketrommel", ("do not tumble dry",)),
        ("Skal ikkje bleikast. Strykast lunka", ("do not bleach", "iron low")),
        ("Kjemisk reinsing", ("dry clean",)),
        ("Toler ikkje reins", ("do not dry clean",)),
        ("kokevask 95°", ("machine wash 95",)),
        ("Séchage par culbutage : non", ("do not tumble dry",)),
        ("Sécher par culbutage à basse température", ("tumble dry low",)),
        ("Lavar en lavarropas a 30°", ("machine wash 30",)),
        ("Trockenreinigung", ("dry clean",)),
        ("Trocken reinigen oder Handwäsche", ("hand wash", "dry clean")),
        ("Nicht trocken reinigen", ("do not dry clean",)),
        ("Vi rekommenderar handtvätt och plantorkning", ("hand wash", "dry flat")),
        ("Grand teint - lavable en machine à 60°", ("machine wash 60",)),
        ("Lanolinhaltig. Von Hand waschen.", ("hand wash",)),
    ],
)
def test_care_is_read_in_the_words_of_a_region(text: str, processes: tuple[str, ...]) -> None:
    assert care(text) == (processes, "")


@pytest.mark.parametrize(
    "text",
    [
        "Wash in cold water, by hand",
        "Mit kaltem Wasser waschen, von Hand",
        "Laver à l'eau froide, à la main",
        "Lavare in acqua fredda, a mano",
        "Lavar con agua fría, a mano",
        "In koud water wassen, met de hand",
        "Tvätta i kallt vatten, för hand",
        "Vask i koldt vand, i hånden",
    ],
)
def test_a_hand_behind_a_comma_tells_how_to_wash(text: str) -> None:
    assert care(text) == (("hand wash",), "")


@pytest.mark.parametrize(
    "text", ["Do not wash in hot water, by hand", "Machine wash cold, by hand", "Dry flat, by hand"]
)
def test_a_hand_behind_another_thing_is_no_washing(text: str) -> None:
    processes, doubt = care(text)
    assert "hand wash" not in processes or doubt


@pytest.mark.parametrize(
    "texts",
    [
        ("Marelle", "Laver à la main et faire sécher à plat loin du soleil"),
        ("Laver à la main et faire sécher à plat loin du soleil", "Marelle"),
    ],
)
def test_two_things_in_one_sentence_are_read_beside_a_name(texts: tuple[str, ...]) -> None:
    assert care(*texts) == (("hand wash", "dry flat", "dry in shade"), "")


def test_a_label_may_speak_of_itself() -> None:
    found = care("Vask meg for hånd og tørk meg flatt", "Åsheim Garn")
    assert found == (("hand wash", "dry flat"), "")


@pytest.mark.parametrize(
    "texts",
    [
        ("Råvare", "100% ull"),
        ("Fecha de teñido: 02/11", "Lavar a mano"),
        ("Vaskes for hånd", "Strikk annenhver omgang fra to hesper"),
        ("Machine Washable Babywool", "at 40 °C"),
    ],
)
def test_words_for_yarn_and_knitting_are_no_misread_care(texts: tuple[str, ...]) -> None:
    assert care(*texts)[1] == ""


@pytest.mark.parametrize(
    ("text", "processes"),
    [
        ("Maskintvätt ull 30°", ("machine wash 30 mild",)),
        ("Machine wash wool 30°", ("machine wash 30 mild",)),
        ("Hand- oder Maschinenwäsche 30° Wollgang", ("hand wash", "machine wash 30 mild")),
        ("Non lavare in lavatrice, solo a mano", ("hand wash",)),
        ("Ne pas laver en machine, à la main uniquement", ("hand wash",)),
        ("Tåler maskinvask 60 grader og tørketrommel", ("machine wash 60", "tumble dry")),
        ("Tål maskintvätt 60 grader och torktumling", ("machine wash 60", "tumble dry")),
        ("Lávame a mano con cariño", ("hand wash",)),
        ("Boil wash 95", ("machine wash 95",)),
    ],
)
def test_both_ways_of_washing_and_the_programme_are_read(
    text: str, processes: tuple[str, ...]
) -> None:
    assert care(text) == (processes, "")


@pytest.mark.parametrize(
    "text",
    [
        "For felting: wash at 60° in machine",
        "Zum Filzen: 40° Maschinenwäsche",
        "Filtas i maskin 60°",
    ],
)
def test_how_wool_is_felted_is_asked_about(text: str) -> None:
    assert care(text)[1]


@pytest.mark.parametrize("text", ["Non-felting, machine wash 40°", "Maschinenwäsche 40°, filzfrei"])
def test_wool_that_does_not_felt_is_not(text: str) -> None:
    assert care(text) == (("machine wash 40",), "")


@pytest.mark.parametrize("text", ["Må ikkevaskes", "Må ikkevaskes i vand. Skal ikkebleges."])
def test_a_negation_glued_to_its_word_is_no_other_word(text: str) -> None:
    (found, *_) = find_care(lines_from(text))
    assert isinstance(found.value, tuple)
    assert found.value[:1] == ("do not wash",)
