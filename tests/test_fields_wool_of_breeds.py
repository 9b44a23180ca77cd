"""Wool of named sheep, and fibre in its own colour: words that change nothing of a composition."""

from __future__ import annotations

import pytest

from intake.fields.fibre.shares import find_fibre
from intake.wording import value_text
from tests.line_making import lines_from


@pytest.mark.parametrize(
    "text",
    [
        "laine d'Ouessant 70 %, soie 30 %",
        "lana churra 70%, seda 30%",
        "lana bergamasca 70%, seta 30%",
        "Laine mérinos d'Arles 70 %, soie 30 %",
        "70% Herdwick wool 30% silk",
        "70% lana sin teñir 30% seda",
        "70 % ungefärbte Wolle 30 % Seide",
        "70 % ongeverfde wol 30 % zijde",
    ],
)
def test_a_breed_or_no_dye_beside_wool_is_no_doubt(text: str) -> None:
    found = find_fibre(lines_from(text))[0]
    assert value_text("fibre", found.value) in ("70% wool; 30% silk", "70% wool (merino); 30% silk")
    assert not found.doubt


def test_an_unknown_word_near_to_a_fibre_still_is_one() -> None:
    assert find_fibre(lines_from("100% wool sildk"))[0].doubt
