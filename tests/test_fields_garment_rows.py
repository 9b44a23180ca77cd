"""Rows that tell how much a garment takes tell nothing of the ball."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Line, State
from tests.line_making import line_from, lines_from, placed

BALL = ("Kelderhof Spinnerij", "705 m", "100 % wool")


def in_a_row(texts: tuple[str, ...], row: float) -> list[Line]:
    return [placed(line_from(text, row), 180.0 * at) for at, text in enumerate(texts)]


@pytest.mark.parametrize("as_one_line", [True, False])
def test_masses_for_garments_are_not_the_balls(as_one_line: bool) -> None:
    rows = (("Bébé", "Enfant", "Dame"), ("200g", "350g", "500g"))
    table = [
        line
        for at, row in enumerate(rows)
        for line in ([line_from(" ".join(row), 6 + at)] if as_one_line else in_a_row(row, 6 + at))
    ]
    found = parse([*lines_from(*BALL), *table, line_from("100 g", 9)], ())
    assert found["mass_g"].value == 100
    assert found["mass_g"].state is State.SURE
    assert found["weight_class"].value is None
    assert found["fibre"].state is State.SURE


def test_masses_in_a_row_without_words_for_whom_are_asked_about() -> None:
    table = in_a_row(("200g", "350g", "500g"), 6)
    found = parse([*lines_from(*BALL), *table, line_from("100 g", 9)], ())
    assert found["mass_g"].state is State.DOUBTFUL
