"""Compositions in one word, in shares before a bracket, and beside per cent of something else."""

from __future__ import annotations

import pytest

from intake.fields.fibre.shares import find_fibre
from intake.fields.fibre.strokes import find_fibre_in_strokes
from intake.fields.parse import parse
from intake.records import State
from intake.wording import value_text
from tests.line_making import lines_from


def fibre(*texts: str) -> str:
    return value_text("fibre", find_fibre(lines_from(*texts))[0].value)


@pytest.mark.parametrize(
    ("text", "composition"),
    [
        ("Helylle", "100% wool"),
        ("garanterat helylle", "100% wool"),
        ("Heluld", "100% wool"),
        ("Reinseide", "100% silk"),
        ("helbomull", "100% cotton"),
        ("Reinleinen", "100% linen"),
    ],
)
def test_one_word_says_that_it_is_all_of_one_fibre(text: str, composition: str) -> None:
    found = find_fibre(lines_from("Sluicegate", text))[0]
    assert value_text("fibre", found.value) == composition
    assert found.cues["whole"] > 0.9


def test_a_name_in_the_line_above_is_no_part_of_the_sentence() -> None:
    assert find_fibre(lines_from("Sluicegate", "Schurwolle"))[0].cues["whole"] > 0.9


@pytest.mark.parametrize("text", ["ripresa 18,25%", "taux de reprise 18,25 %", "regain 18.25%"])
def test_the_regain_of_wool_is_no_share(text: str) -> None:
    found = find_fibre(lines_from("Pura lana", f"50 g ({text})"))[0]
    assert (value_text("fibre", found.value), found.doubt) == ("100% wool", "")


def test_an_unknown_share_beside_pure_wool_is_asked_about() -> None:
    assert find_fibre(lines_from("Pura lana", "50 g", "Nerba 30%"))[0].doubt


def test_a_share_stands_right_behind_a_comma() -> None:
    assert fibre("92% KATOEN,8% ELASTAAN") == "92% cotton; 8% elastane"


@pytest.mark.parametrize(
    "text",
    [
        "75/25 merino, nylon",
        "75/25 (merino / nylon)",
        "merino/nylon\n75%/25%",
        "75/25: merino/nylon",
    ],
)
def test_shares_before_several_fibres_stand_by_any_mark(text: str) -> None:
    found = find_fibre_in_strokes(lines_from(*text.split("\n")))
    assert value_text("fibre", found[0].value) == "75% wool (merino); 25% polyamide"


def test_a_fibre_named_beside_an_amount_without_a_share_is_asked_about() -> None:
    fields = parse(tuple(lines_from("Sluicegate", "Balls of acrylic, 61 g", "Lot 88123")), ())
    assert fields["fibre"].state is State.MISSING
    assert fields["fibre"].reason.startswith("no composition was found")


def test_a_name_a_letter_off_such_a_word_is_no_composition() -> None:
    assert not find_fibre(lines_from("Helund", "50 g"))


def test_a_kind_that_may_be_the_weight_is_asked_about() -> None:
    assert find_fibre(lines_from("Super Fine Lana: 100 %"))[0].doubt
    assert not find_fibre(lines_from("100 % super fine wool"))[0].doubt


def test_letters_read_as_digits_in_a_fibre_are_no_difference_in_its_share() -> None:
    lines = lines_from("Sluicegate", "U11 75 % Acryl 25 %", second={1: "Ull 75 % Acryl 25 %"})
    assert "digits" not in parse(tuple(lines), ())["fibre"].reason
    lines = lines_from("Sluicegate", "U11 75 % Acryl 25 %", second={1: "U11 15 % Acryl 25 %"})
    assert "digits" in parse(tuple(lines), ())["fibre"].reason
