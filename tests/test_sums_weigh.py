"""Part balls on a scale: metres left and their plus-minus."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.errors import BadAmount, ExitCode, NotWeighable
from intake.sums.air import ANY_ROOM, ROOMS, STANDARD_AIR, Air
from intake.sums.ball import Ball
from intake.sums.plus_minus import COVERAGE_FACTOR
from intake.sums.regain import HISTORY_WITHIN, SWING_WITHIN
from intake.sums.weigh import Weighed, weigh
from tests.filing_tags import record

DRY = Air(35.0, 5.0)


def ball(fibre: str = "100% wool", length_m: float | None = 200.0,
         mass_g: float | None = 100.0) -> Ball:  # fmt: skip
    return Ball(replace(record(fibre=fibre), length_m=length_m, mass_g=mass_g))


def by_source(weighed: Weighed) -> dict[str, float]:
    return {share.source: share.length_m for share in weighed.budget}


def test_a_ball_at_standard_air_has_metres_in_step_with_its_mass() -> None:
    weighed = weigh(ball(), 40.0, air=STANDARD_AIR).weighing
    assert (weighed.mass_g, weighed.length_m) == (40.0, 80.0)


def test_a_dry_ball_has_more_metres_and_a_damp_one_fewer_than_it_seems() -> None:
    dry = weigh(ball(), 40.0, air=DRY).weighing
    damp = weigh(ball(), 40.0, air=ROOMS["bathroom"]).weighing
    assert damp.length_m < 80.0 < dry.length_m


@pytest.mark.parametrize(("name", "balance_g"), [("dry radiator", 94.0), ("bathroom", 110.0)])
def test_a_whole_wool_ball_is_whole_wherever_it_lay(name: str, balance_g: float) -> None:
    # A ball of 100 g comes to 94 g on a radiator and 110 g in a steamy bathroom: common
    # practice, no source.
    weighed = weigh(ball(), balance_g, air=ROOMS[name])
    assert weighed.weighing.mass_g == pytest.approx(100.0, abs=0.5)
    assert not weighed.too_much


def test_polyester_hardly_minds_the_air() -> None:
    weighed = weigh(ball("100% polyester"), 40.0, air=DRY)
    assert weighed.weighing.mass_g == pytest.approx(40.0, abs=0.15)
    assert (
        by_source(weighed)["humidity"] < 0.1 < by_source(weigh(ball(), 40.0, air=DRY))["humidity"]
    )


def test_shares_add_up_in_quadrature() -> None:
    # JCGM 100:2008, 5.1.2: independent contributions.
    weighed = weigh(ball(), 40.0, air=DRY, tare_g=2.0)
    assert by_source(weighed).keys() == {
        "scale", "tare", "humidity", "regain", "curve", "history", "winding"
    }  # fmt: skip
    for shares, plus_minus in (
        ([each.length_m for each in weighed.budget], weighed.weighing.length_uncertainty_m),
        ([each.mass_g for each in weighed.budget], weighed.weighing.mass_uncertainty_g),
    ):
        assert COVERAGE_FACTOR * np.hypot.reduce(shares) == pytest.approx(plus_minus, abs=0.1)


@pytest.mark.parametrize(
    ("balance_g", "step_g", "winding_pct"), [(42.0, 1.0, 5.0), (12.0, 2.0, 0.5)]
)
@pytest.mark.parametrize("air", [DRY, STANDARD_AIR, ROOMS["bathroom"], ANY_ROOM],
                         ids=lambda air: air.words)  # fmt: skip
def test_the_plus_minus_is_what_chance_gives(
    air: Air, balance_g: float, step_g: float, winding_pct: float
) -> None:
    # JCGM 101:2008 (GUM supplement 1): distributions propagated by drawing, with the model
    # written out anew; wool's 14 to 18 % after Morton & Hearle.
    draw = np.random.default_rng(65)
    count = 200_000

    def either_side(half_width: float) -> np.ndarray:
        return draw.uniform(-half_width, half_width, count)

    def held(phi: np.ndarray | float) -> np.ndarray | float:
        return phi / (0.321 + phi) + phi / (1.262 - phi)

    phi = air.humidity_pct / 100 + either_side(air.within_pct / 100)
    standard = 0.16 + either_side(0.02)
    swing = (held(phi) / held(0.65) - 1) * (1 + either_side(SWING_WITHIN))
    here = standard * (1 + swing) * (1 + either_side(HISTORY_WITHIN))
    rounded = sum(either_side(step_g / 2) for _ in ("zero", "reading", "tare"))
    net_g = balance_g - 2.0 + rounded
    metres = net_g * (1 + standard) / (1 + here) * 2.0 * (1 + either_side(winding_pct / 100))

    weighed = weigh(ball(), balance_g, air=air, tare_g=2.0, step_g=step_g, winding_pct=winding_pct)
    found = weighed.weighing
    assert found.length_m == pytest.approx(metres.mean(), abs=0.4)
    assert found.length_uncertainty_m == pytest.approx(2 * metres.std(), rel=0.05)
    inside = np.abs(metres - found.length_m) <= found.length_uncertainty_m
    assert inside.mean() == pytest.approx(0.95, abs=0.04)


@given(st.floats(5.0, 400.0), st.floats(1.5, 4.0))
def test_metres_scale_with_the_yarn_and_with_its_stated_length(grams: float, times: float) -> None:
    once = weigh(ball(), grams, air=DRY).weighing
    assert weigh(ball(), times * grams, air=DRY).weighing.length_m == pytest.approx(
        times * once.length_m, abs=0.1 * (times + 1)
    )
    assert weigh(ball(length_m=200.0 * times), grams, air=DRY).weighing.length_m == pytest.approx(
        times * once.length_m, abs=0.1 * (times + 1)
    )


@given(st.floats(1.0, 98.0), st.floats(0.5, 20.0))
def test_worse_tools_give_a_wider_plus_minus(humidity_pct: float, more_pct: float) -> None:
    fine = weigh(ball(), 40.0, air=Air(humidity_pct, 2.0)).weighing
    for coarse in (
        weigh(ball(), 40.0, air=Air(humidity_pct, 2.0 + more_pct)),
        weigh(ball(), 40.0, air=Air(humidity_pct, 2.0), step_g=5.0),
        weigh(ball(), 40.0, air=Air(humidity_pct, 2.0), winding_pct=5.0 + more_pct),
    ):
        assert coarse.weighing.length_m == pytest.approx(fine.length_m)
        assert coarse.weighing.length_uncertainty_m >= fine.length_uncertainty_m


def test_a_tare_is_taken_off() -> None:
    plain = weigh(ball(), 40.0, air=DRY)
    tared = weigh(ball(), 43.0, air=DRY, tare_g=3.0)
    assert tared.weighing.length_m == plain.weighing.length_m
    assert "tare" not in by_source(plain)
    assert by_source(tared)["tare"] > 0


@pytest.mark.parametrize(
    ("fibre", "length_m", "mass_g", "missing"),
    [
        ("", 200.0, 100.0, "the fibre of"),
        ("100% wool", None, 100.0, "the length of"),
        ("", None, None, "the fibre and the length and the mass of"),
    ],
)
def test_what_is_missing_is_asked_for(
    fibre: str, length_m: float | None, mass_g: float | None, missing: str
) -> None:
    with pytest.raises(NotWeighable, match=missing) as caught:
        weigh(ball(fibre, length_m, mass_g), 40.0, air=DRY)
    assert caught.value.exit_code is ExitCode.USAGE
    assert "correct the record" in str(caught.value)


@pytest.mark.parametrize(
    ("fibre", "length_m", "words"),
    [
        ("wool and more", 200.0, "; correct the record"),
        ("100% wool", -5.0, "says -5 m and 100 g; correct the record: both must be above 0"),
    ],
)
def test_what_a_record_says_that_cannot_be_is_named(
    fibre: str, length_m: float, words: str
) -> None:
    with pytest.raises(NotWeighable) as caught:
        weigh(ball(fibre, length_m), 40.0, air=DRY)
    assert ball().record.id in str(caught.value)
    assert str(caught.value).endswith(words)


def test_what_the_maker_sheet_assumes_is_used_and_said() -> None:
    silent = Ball(ball("", 200.0, 100.0).record, {"fibre": "100% wool"})
    weighed = weigh(silent, 40.0, air=DRY)
    assert weighed.weighing.length_m == weigh(ball(), 40.0, air=DRY).weighing.length_m
    assert weighed.remarks == ("the tag does not say the fibre; the maker sheet does",)


def test_a_fibre_without_figures_is_said_and_widens_the_plus_minus() -> None:
    known = weigh(ball("80% wool; 20% polyamide"), 40.0, air=DRY)
    unknown = weigh(ball("80% wool; 20% other fibres"), 40.0, air=DRY)
    assert by_source(unknown)["regain"] > by_source(known)["regain"]
    assert "other fibres" in unknown.remarks[0]


def test_more_than_a_whole_ball_is_said() -> None:
    assert not weigh(ball(), 101.0, air=STANDARD_AIR).too_much
    heavy = weigh(ball(), 115.0, air=STANDARD_AIR)
    assert "more than the 200 m of a whole ball" in heavy.too_much


def test_so_little_that_the_scale_cannot_tell_is_said() -> None:
    weighed = weigh(ball(), 1.0, air=DRY, step_g=2.0)
    assert "cannot tell it from nothing" in weighed.remarks[0]
    assert not weigh(ball(), 1.0, air=DRY, step_g=0.1).remarks


@pytest.mark.parametrize(
    ("balance_g", "tare_g", "step_g", "winding_pct"),
    [
        (0.0, 0.0, 1.0, 5.0),
        (-3.0, 0.0, 1.0, 5.0),
        (5.0, 5.0, 1.0, 5.0),
        (5.0, 6.0, 1.0, 5.0),
        (float("nan"), 0.0, 1.0, 5.0),
        (float("inf"), 0.0, 1.0, 5.0),
        (40.0, -1.0, 1.0, 5.0),
        (40.0, 0.0, 0.0, 5.0),
        (40.0, 0.0, 1.0, -5.0),
        (40.0, 0.0, 1.0, 80.0),
    ],
)
def test_weighings_that_cannot_be_are_refused(
    balance_g: float, tare_g: float, step_g: float, winding_pct: float
) -> None:
    with pytest.raises(BadAmount):
        weigh(ball(), balance_g, air=DRY, tare_g=tare_g, step_g=step_g, winding_pct=winding_pct)


def test_the_history_gets_the_figures_as_text() -> None:
    weighed = weigh(ball(), 42.5, air=DRY, tare_g=2.0, step_g=0.5)
    figures = weighed.figures
    assert float(figures["length_m"]) == weighed.weighing.length_m
    assert float(figures["length_uncertainty_m"]) == weighed.weighing.length_uncertainty_m
    assert float(figures["mass_g"]) == weighed.weighing.mass_g
    assert float(figures["mass_uncertainty_g"]) == weighed.weighing.mass_uncertainty_g
    assert (figures["balance_g"], figures["tare_g"], figures["step_g"]) == ("42.5", "2", "0.5")
    assert (figures["humidity_pct"], figures["humidity_within_pct"]) == ("35", "5")
