"""What stands where a shade does, with or without a number, and is none."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import State
from tests.line_making import lines_from

FACTS = ("Hollin Fold Spinners", "Silverthistle", "100 % wool", "50 g = 120 m")


@pytest.mark.parametrize(
    "text", ["Katoen 8/8", "Myrull 3-tr", "scatola 3", "Låda 12", "SVENSKA", "NORSK", "Boks 4"]
)
def test_boxes_tongues_and_counts_of_threads_are_no_shades(text: str) -> None:
    found = parse(lines_from(*FACTS, text), ())
    sure = found["shade"].state is State.SURE or found["shade_code"].state is State.SURE
    assert not sure


@pytest.mark.parametrize(
    "text", ["farget 11.1988", "Farget 03.09.2022 av Marte", "gefärbt 12.2019"]
)
def test_when_a_yarn_was_dyed_is_no_shades_code(text: str) -> None:
    found = parse(lines_from(*FACTS, "Farge blåsvart", text), ())
    assert found["shade"].value == "blåsvart"
    assert found["shade_code"].value is None or found["shade_code"].state is State.DOUBTFUL


def test_iron_grey_is_a_colour_and_no_needle() -> None:
    found = parse(lines_from(*FACTS, "Tinta 9 grigio ferro", "Partita 3310"), ())
    assert (found["shade"].value, found["shade_code"].value) == ("grigio ferro", "9")
