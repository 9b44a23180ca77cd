"""What may stand in for a yarn is near it in what its tag says, and said why."""

from __future__ import annotations

import math
from pathlib import Path

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sums_balls import ball, weighed

from intake.sums.ball import Ball
from intake.sums.lots import lots
from intake.sums.maker_sheet import MakerLine, MakerSheet
from intake.sums.stand_in import (
    CLASS_POINTS,
    FIBRE_POINTS,
    KIND_POINTS,
    NO_DIFFERENCE,
    THICKNESS_STEP,
    UNKNOWN_POINTS,
    StandIn,
    stand_ins,
    yarn_differences,
)

TIDEMILL = "Tidemill & Daughters"

UNITS = pint.UnitRegistry()


def points(yarn: Ball, other: Ball) -> float:
    return sum(each for each, _ in yarn_differences(yarn, other))


def reasons(yarn: Ball, other: Ball) -> str:
    return "; ".join(words for _, words in yarn_differences(yarn, other))


def test_what_no_tag_tells_apart_is_never_called_the_same() -> None:
    (one,) = stand_ins(ball(), lots([ball(maker=TIDEMILL, shade="Ember")]))
    assert one.distance == 0
    assert one.reasons == (NO_DIFFERENCE,)
    assert "same" not in NO_DIFFERENCE


def test_a_yarn_a_tenth_heavier_per_metre_is_a_point_away() -> None:
    yarn, other = ball(length_m=220.0, mass_g=50.0), ball(length_m=200.0, mass_g=50.0)
    assert points(yarn, other) == pytest.approx(1.0)
    assert reasons(yarn, other) == "10% heavier per metre: 400 m per 100 g against 440"
    assert reasons(other, yarn) == "9% lighter per metre: 440 m per 100 g against 400"


def test_the_ball_sizes_make_no_difference() -> None:
    assert points(ball(length_m=210.0, mass_g=50.0), ball(length_m=420.0, mass_g=100.0)) == 0


def test_a_part_ball_is_as_thick_as_a_whole_one() -> None:
    assert points(ball(), ball(weighing=weighed(20.0, 90.0))) == 0


lengths = st.floats(20.0, 900.0)


@settings(deadline=None)
@given(lengths, lengths)
def test_thickness_is_as_far_apart_as_pint_says(ours_m: float, theirs_m: float) -> None:
    """pint, an independent library of units, has tex and counts both yarns in it."""
    tex = [(50 * UNITS.gram / (each * UNITS.metre)).to(UNITS.tex).m for each in (ours_m, theirs_m)]
    expected = abs(math.log(tex[0] / tex[1], THICKNESS_STEP))
    if round(100 * abs(tex[1] / tex[0] - 1)):
        found = points(ball(length_m=ours_m), ball(length_m=theirs_m))
        assert found == pytest.approx(expected)


def test_each_weight_class_between_is_a_point() -> None:
    """Craft Yarn Council, Standard Yarn Weight System: the order of its categories."""
    rows = (Path(__file__).parent / "data/weight_system.csv").read_text().splitlines()[1:]
    names = [row.split(",")[1] for row in rows]
    for place, name in enumerate(names):
        yarn, other = ball(weight_class=names[0]), ball(weight_class=name)
        assert points(yarn, other) == CLASS_POINTS * place


@pytest.mark.parametrize(
    ("ours", "theirs", "expected"),
    [
        ("100% wool", "100% silk", FIBRE_POINTS),
        ("75% wool; 25% polyamide", "100% wool", FIBRE_POINTS / 4),
        ("75% wool; 25% polyamide", "80% wool; 20% silk", FIBRE_POINTS / 4),
        ("100% wool (merino)", "100% wool (shetland)", KIND_POINTS),
        ("50% wool (merino); 50% wool", "100% wool", KIND_POINTS),
        ("33% wool; 33% silk; 33% linen", "33% wool; 33% silk; 34% linen", 0),
    ],
)
def test_fibres_count_by_their_parts(ours: str, theirs: str, expected: float) -> None:
    assert points(ball(fibre=ours), ball(fibre=theirs)) == pytest.approx(expected, abs=0.05)


def test_superwash_said_of_one_only_is_a_caution() -> None:
    found = reasons(ball(fibre="100% wool"), ball(fibre="100% wool (superwash)"))
    assert "superwash is said of only one of them" in found


def test_what_is_not_known_is_said_and_kept_away() -> None:
    yarn, other = ball(), ball(length_m=None, fibre="", weight_class="")
    assert points(yarn, other) == 3 * UNKNOWN_POINTS
    assert "length per mass not known of it" in reasons(yarn, other)
    assert "weight class not known of it" in reasons(yarn, other)
    assert "fibre not known of it" in reasons(yarn, other)
    assert "fibre not known of this yarn" in reasons(other, yarn)
    assert "fibre not known of either" in reasons(other, other)


def test_a_class_that_length_per_mass_speaks_for_is_not_missed() -> None:
    assert points(ball(), ball(weight_class="")) == 0


def test_a_fibre_that_was_spoilt_by_hand_is_not_known() -> None:
    assert "fibre not known of it" in reasons(ball(), ball(fibre="woolly"))


def test_what_is_assumed_is_marked() -> None:
    says = {"fibre": "100% silk", "length_m": "100", "mass_g": "50"}
    sheet = MakerSheet([MakerLine(TIDEMILL, "", says)])
    other = ball(length_m=None, fibre="", maker=TIDEMILL, sheet=sheet)
    differences = [words for each, words in yarn_differences(ball(), other) if each]
    assert len(differences) == 2
    assert all(words.endswith("(assumed)") for words in differences)


def test_the_nearest_come_first_and_the_longer_first_of_equals() -> None:
    yarn = ball()
    far, near = ball(lot="far", length_m=150.0), ball(lot="near", length_m=200.0)
    short, long = ball(lot="short", maker=TIDEMILL), [ball(lot="long", maker=TIDEMILL)] * 3
    found = stand_ins(yarn, lots([yarn, far, near, short, *long]))
    assert [one.lot.lot for one in found] == ["long", "short", "near", "far"]


def test_a_yarns_own_lot_does_not_stand_in_for_it() -> None:
    yarn, mate, other = ball(), ball(), ball(lot="0013")
    assert [one.lot.lot for one in stand_ins(yarn, lots([yarn, mate, other]))] == ["0013"]


def test_no_more_than_asked_for_are_given() -> None:
    stash = lots([ball(lot=str(number)) for number in range(30)])
    assert len(stand_ins(ball(), stash)) == 10
    assert len(stand_ins(ball(), stash, most=3)) == 3


some_balls = st.builds(
    ball,
    length_m=st.one_of(st.none(), lengths),
    weight_class=st.sampled_from(["", "light", "4 ply", "unheard of"]),
    fibre=st.sampled_from(["", "100% wool", "60% silk; 40% wool (merino)"]),
    lot=st.sampled_from("abcdef"),
)


@settings(deadline=None)
@given(some_balls, st.lists(some_balls, max_size=6))
def test_distances_are_finite_sorted_and_alike_both_ways(yarn: Ball, stash: list[Ball]) -> None:
    found: list[StandIn] = stand_ins(yarn, lots(stash))
    distances = [one.distance for one in found]
    assert distances == sorted(distances)
    assert all(math.isfinite(each) and each >= 0 for each in distances)
    for one in found:
        assert points(one.lot.balls[0], yarn) == pytest.approx(one.distance, abs=0.1)
        assert one.reasons
        assert not any("same" in words for words in one.reasons)
