"""Captions of shade and lot one under the other, above values one under the other."""

from __future__ import annotations

import pytest

from intake.fields.lot_advice import advises_on_lots
from intake.fields.parse import parse
from intake.records import State
from tests.line_making import line_from, placed

ABOUT = ("Hollin Fold", "100% wool", "50 g = 120 m")


@pytest.mark.parametrize("captions", [("Farve / Col", "Parti / Lot"), ("Coloris", "Bain")])
@pytest.mark.parametrize("values", [("79", "255.26"), ("774Y", "32/428"), ("0412", "05")])
def test_values_below_two_captions_go_in_order_and_are_asked_about(
    captions: tuple[str, str], values: tuple[str, str]
) -> None:
    texts = (*captions, *values)
    lines = [
        *(line_from(text, number) for number, text in enumerate(ABOUT)),
        *(placed(line_from(text, number), 400) for number, text in enumerate(texts)),
    ]
    fields = parse(lines, ())
    assert (fields["shade_code"].value, fields["lot"].value) == values
    assert fields["lot"].state is State.DOUBTFUL


def test_each_caption_right_above_its_own_value_is_not_asked_about() -> None:
    texts = ("Coloris", "774Y", "Bain", "32/428")
    lines = [
        *(line_from(text, number) for number, text in enumerate(ABOUT)),
        *(placed(line_from(text, number), 400) for number, text in enumerate(texts)),
    ]
    fields = parse(lines, ())
    assert (fields["shade_code"].value, fields["lot"].value) == ("774Y", "32/428")
    assert fields["lot"].state is State.SURE


@pytest.mark.parametrize(
    "line",
    [
        "Always knit from one dye lot.",
        "Nur Knäuel derselben Partie",
        "Vérifiez le bain avant de commencer",
        "Non mischiare bagni diversi.",
        "No mezcle baños distintos.",
        "Controleer het verfbad voor u begint.",
        "Blanda inte olika färgbad.",
        "Tjek partinummeret, før du begynder",
        "Bland ikke ulike partier.",
    ],
)
def test_advice_on_lots_names_no_shade(line: str) -> None:
    assert advises_on_lots(line)
    fields = parse(
        [line_from(text, at) for at, text in enumerate((*ABOUT, "Lot 0412", "774Y", line))], ()
    )
    assert fields["shade"].value is None
    assert line.split()[0] not in fields["shade"].reason


@pytest.mark.parametrize("line", ["Lot 0412", "Dye lot: same as 7", "Partij van de dag", "Bain"])
def test_what_tells_a_lot_is_no_advice(line: str) -> None:
    assert not advises_on_lots(line)
