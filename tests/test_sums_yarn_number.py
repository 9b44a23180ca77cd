"""Yarn numbers: against pint's units and the published categories."""

from __future__ import annotations

import csv
from pathlib import Path

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.errors import BadAmount
from intake.sums.yarn_number import YarnNumber, yarn_number

DATA = Path(__file__).parent / "data"
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
LENGTHS_M, MASSES_G = st.floats(1.0, 5000.0), st.floats(1.0, 1000.0)


@given(LENGTHS_M, MASSES_G)
def test_numbers_are_what_pint_makes_of_length_and_mass(length_m: float, mass_g: float) -> None:
    # pint's own definitions of tex, yard, ounce and pound.
    ours = yarn_number(length_m, mass_g)
    per_mass = UNITS.Quantity(length_m, "metre") / UNITS.Quantity(mass_g, "gram")
    for value, unit in (
        (ours.metric_number, "metre/gram"),
        (ours.yards_per_ounce, "yard/ounce"),
        (ours.yards_per_pound, "yard/pound"),
        (ours.metres_per_100_g / 100, "metre/gram"),
    ):
        assert value == pytest.approx(per_mass.to(unit).magnitude)
    assert ours.tex == pytest.approx((1 / per_mass).to("tex").magnitude)


def categories() -> list[tuple[str, float]]:
    """*Spin Off* magazine, Yarn Standards handout: a number of yards per pound within each."""
    with (DATA / "yards_per_pound.csv").open(encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    bounds = [
        (row["category"], float(row[f"yards_per_pound_{end}"]))
        for row in rows
        for end in ("low", "high")
        if row[f"yards_per_pound_{end}"]
    ]
    assert len(bounds) == 12
    return bounds


@pytest.mark.parametrize(("category", "yards_per_pound"), categories())
def test_the_likely_class_is_the_handouts(category: str, yards_per_pound: float) -> None:
    length_m = UNITS.Quantity(yards_per_pound, "yard").to("metre").magnitude
    mass_g = UNITS.Quantity(1, "pound").to("gram").magnitude
    assert yarn_number(length_m, mass_g).likely_weight_class == category


@pytest.mark.parametrize(
    ("yards_per_pound", "fewest", "most"),
    [
        # Spinners' usual wraps per inch at each category's middle, from memory: common
        # practice, no source.
        (2150, 14, 24),  # super fine
        (1550, 12, 18),  # fine
        (1050, 11, 15),  # light
        (750, 8, 12),  # medium
        (500, 7, 10),  # bulky
    ],
)
def test_estimated_wraps_meet_what_spinners_count(
    yards_per_pound: float, fewest: float, most: float
) -> None:
    tex = UNITS.Quantity(1 / yards_per_pound, "pound/yard").to("tex").magnitude
    number = YarnNumber(tex)
    assert fewest <= number.estimated_wraps_per_inch <= most
    assert number.wraps_range[0] < number.estimated_wraps_per_inch < number.wraps_range[1]


def test_yarn_four_times_as_long_for_its_mass_is_half_as_thick() -> None:
    # Geometry: the same fibre packed alike in a round section.
    thick, thin = yarn_number(100, 100), yarn_number(400, 100)
    assert thin.estimated_wraps_per_inch == pytest.approx(2 * thick.estimated_wraps_per_inch)


@pytest.mark.parametrize(("length_m", "mass_g"), [(0, 50), (210, 0), (-1, 50), (210, float("nan")),
                                                  (float("inf"), 50)])  # fmt: skip
def test_amounts_that_cannot_be_are_refused(length_m: float, mass_g: float) -> None:
    with pytest.raises(BadAmount, match="give one above 0"):
        yarn_number(length_m, mass_g)


@pytest.mark.parametrize("tex", [0.0, -250.0, float("nan"), float("inf")])
def test_yarn_without_mass_is_refused(tex: float) -> None:
    with pytest.raises(BadAmount, match="give one above 0"):
        YarnNumber(tex)
