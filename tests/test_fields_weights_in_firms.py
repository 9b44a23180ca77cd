"""Words for weights in the names of firms, and weights with their number behind them."""

from __future__ import annotations

import pytest

from intake.fields.amounts.weight import find_weight
from tests.line_making import lines_from


@pytest.mark.parametrize(
    "texts",
    [
        ("THORNMERE WORSTED SPINNERS LTD",),
        ("Thornmere Worsted Mills",),
        ("Sluice Aran Wool Co.",),
        ("Sluice Chunky Yarns Ltd",),
        ("Lace Dyers Guild",),
        ("Thornmere Worsted", "Spinners Ltd"),
        ("THORNMERE WORSTED SPINNER5 LTD",),
    ],
)
def test_a_weight_word_before_a_word_of_a_firm_is_none(texts: tuple[str, ...]) -> None:
    assert not find_weight(lines_from(*texts))


@pytest.mark.parametrize(
    "texts",
    [
        ("Worsted Limited Edition",),
        ("Worsted weight yarn",),
        ("Aran knitting yarns",),
        ("Aran", "Mills of Sluice"),
        ("THORNMERE WORSTED SPINNERS LTD", "Aran"),
    ],
)
def test_other_words_behind_a_weight_leave_it_one(texts: tuple[str, ...]) -> None:
    assert find_weight(lines_from(*texts))[0].value == "medium"


@pytest.mark.parametrize(("text", "weight"), [("LIGHT 3", "light"), ("Bulky - 5", "bulky")])
def test_the_number_of_a_weight_stands_behind_its_name(text: str, weight: str) -> None:
    assert find_weight(lines_from(text))[0].value == weight


def test_another_number_behind_such_a_word_says_nothing() -> None:
    assert not find_weight(lines_from("Fine 7"))
