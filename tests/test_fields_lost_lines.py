"""Tags of which a line went unseen: what is left is taken for no other field unasked."""

from __future__ import annotations

import pytest
from line_making import lines_from

from intake.fields.parse import parse
from intake.records import Field, State

NAMES = ("Quillstow Spinners", "Sluicegate", "80% wool 20% silk", "Lot 88123")


def fields_of(*texts: str) -> dict[str, Field]:
    return parse(tuple(lines_from(*NAMES, *texts)), ())


@pytest.mark.parametrize("area", ["10cm = 4in", "10 x 10 cm", "10 cm"])
def test_metres_beside_the_area_of_a_swatch_may_be_stitches(area: str) -> None:
    field = fields_of("100 g / 3.5 oz", "33 m", area)["length_m"]
    assert field.state is State.DOUBTFUL
    assert field.reason == "'33 m' may be the stitches of a swatch"


@pytest.mark.parametrize(
    "texts", [("100 g", "135 m", "10 x 10 cm"), ("100 g = 33 m", "10 x 10 cm"), ("100 g", "33 m")]
)
def test_metres_that_are_many_or_go_with_grams_are_none(texts: tuple[str, ...]) -> None:
    assert "stitches" not in fields_of(*texts)["length_m"].reason


def test_stitches_beside_metres_put_the_length_in_no_doubt() -> None:
    field = fields_of("50 g / 215 m", "32 m", "10 cm")["length_m"]
    assert (field.value, field.state) == (215, State.SURE)


@pytest.mark.parametrize("rows", ["29 nld", "33 rgs", "31 varv", "24 steken"])
def test_rows_are_no_shade(rows: str) -> None:
    fields = fields_of("50 g / 215 m", rows, "10 x 10 cm")
    assert fields["shade"].value is None
    assert fields["shade_code"].value is None


def test_an_institute_with_the_number_of_its_certificate_is_no_shade() -> None:
    fields = fields_of("50 g / 215 m", "Textilinstitut 14.HB.19656")
    assert fields["shade"].value is None
    assert fields["shade_code"].value is None
