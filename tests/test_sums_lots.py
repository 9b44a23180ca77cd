"""Balls are counted together where they are of one lot, and only there."""

from __future__ import annotations

import random
from dataclasses import asdict

import pandas
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sums_balls import ball, weighed

from intake.sums.ball import Ball
from intake.sums.lots import Lot, lot_mates, lots, shades, short_lots, totals
from intake.sums.maker_sheet import MakerLine, MakerSheet

OTHER = "Tidemill & Daughters"


def counted(found: list[Lot]) -> list[tuple[str, str, int]]:
    return [(lot.name.text, lot.lot, len(lot.balls)) for lot in found]


def test_balls_of_one_lot_come_together() -> None:
    assert counted(lots([ball(), ball(), ball(lot="0013")])) == [
        ("Kelp 041", "0012", 2),
        ("Kelp 041", "0013", 1),
    ]


def test_one_shade_name_of_two_makers_is_two_shades() -> None:
    found = shades([ball(), ball(maker=OTHER)])
    assert [shade.name.maker for shade in found] == ["Quillstow Spinners", OTHER]


def test_one_shade_name_of_two_ranges_is_two_shades() -> None:
    assert len(shades([ball(), ball(range="Millrace")])) == 2


def test_one_lot_number_of_two_shades_is_two_lots() -> None:
    assert len(lots([ball(), ball(shade="Ember", shade_code="042")])) == 2


def test_leading_zeros_and_capitals_part_lots() -> None:
    found = lots([ball(lot="0012"), ball(lot="12"), ball(lot="A12"), ball(lot="a12")])
    assert [lot.lot for lot in found] == ["0012", "12", "A12", "a12"]


def test_spelling_habits_part_no_shades() -> None:
    found = shades([ball(shade="Sea Mist"), ball(shade="SEA-MIST"), ball(shade="Séa mist")])
    assert [shade.name.text for shade in found] == ["Sea Mist 041"]


def test_balls_without_a_lot_are_never_one_lot() -> None:
    found = lots([ball(lot=""), ball(), ball(lot="")])
    assert [(lot.lot, len(lot.balls)) for lot in found] == [("0012", 1), ("", 1), ("", 1)]


def test_a_name_alone_is_of_the_shade_with_the_only_code() -> None:
    assert counted(lots([ball(shade_code=""), ball()])) == [("Kelp 041", "0012", 2)]


def test_a_code_alone_is_of_the_shade_with_the_only_name() -> None:
    assert counted(lots([ball(shade=""), ball()])) == [("Kelp 041", "0012", 2)]


def test_a_name_alone_is_no_shade_of_two_codes() -> None:
    found = shades([ball(shade_code=""), ball(), ball(shade_code="051")])
    assert [shade.name.text for shade in found] == ["Kelp", "Kelp 041", "Kelp 051"]


def test_another_makers_code_tells_nothing() -> None:
    found = shades([ball(shade_code=""), ball(maker=OTHER)])
    assert [shade.name.text for shade in found] == ["Kelp", "Kelp 041"]


def test_the_order_of_filing_makes_no_difference() -> None:
    stash = [
        ball(shade_code=code, shade=shade, lot=lot)
        for code in ("", "041", "042")
        for shade in ("Kelp", "", "Ember")
        for lot in ("", "7")
    ]
    expected = {frozenset(each.record.id for each in lot.balls) for lot in lots(stash)}
    random.Random(3).shuffle(stash)
    assert {frozenset(each.record.id for each in lot.balls) for lot in lots(stash)} == expected


def test_a_part_ball_counts_as_last_weighed() -> None:
    total = totals([ball(), ball(weighing=weighed(20.0, 84.0))])
    assert (total.balls, total.left_m, total.left_g) == (2, 294.0, 70.0)


def test_unknown_metres_are_counted_and_not_guessed() -> None:
    total = totals([ball(), ball(length_m=None), ball(length_m=None, mass_g=None)])
    assert (total.left_m, total.unknown_m) == (210.0, 2)
    assert (total.left_g, total.unknown_g) == (100.0, 1)


def test_assumed_metres_are_told() -> None:
    sheet = MakerSheet([MakerLine("Quillstow Spinners", "", {"length_m": "420", "mass_g": "100"})])
    total = totals([ball(sheet=sheet), ball(length_m=None, sheet=sheet)])
    assert (total.left_m, total.assumed) == (420.0, 1)


def test_lots_with_less_than_a_garment_needs() -> None:
    found = lots([*(ball() for _ in range(5)), *(ball(lot="0013") for _ in range(4))])
    assert [lot.lot for lot in short_lots(found, 1050)] == ["0013"]
    assert short_lots(found, 840) == []


def test_a_lot_of_unknown_length_is_not_taken_for_a_garment() -> None:
    assert len(short_lots(lots([ball(length_m=None)]), 100)) == 1


def test_the_others_of_a_balls_lot() -> None:
    mine, mate, other, lone = ball(), ball(), ball(maker=OTHER), ball(lot="")
    stash = [mine, mate, other, lone]
    assert lot_mates(stash, mine.record.id) == (mate,)
    assert lot_mates(stash, lone.record.id) == ()
    assert lot_mates(stash, "t000000000000000") == ()


amounts = st.one_of(st.none(), st.sampled_from([25.0, 50.0, 100.0]))
some_balls = st.builds(
    ball,
    length_m=amounts,
    mass_g=amounts,
    maker=st.sampled_from(["Quillstow Spinners", OTHER]),
    range=st.sampled_from(["Sluicegate", ""]),
    shade=st.sampled_from(["Kelp", "Ember"]),
    shade_code=st.sampled_from(["041", "41"]),
    lot=st.sampled_from(["0012", "12", "x"]),
)


@settings(deadline=None)
@given(st.lists(some_balls, max_size=20))
def test_totals_are_those_of_pandas(stash: list[Ball]) -> None:
    """pandas' groupby, an independent library, groups and sums the same."""
    columns = ["maker", "range", "shade", "shade_code", "lot"]
    frame = pandas.DataFrame(
        [asdict(each.record) for each in stash],
        columns=[*columns, "length_m", "mass_g"],
    ).astype({"length_m": float, "mass_g": float})
    expected = {
        name: (len(group), group["length_m"].sum(), group["mass_g"].sum())
        for name, group in frame.groupby(columns)
    }
    found = {
        (lot.name.maker, lot.name.range, lot.name.shade, lot.name.shade_code, lot.lot): (
            lot.totals.balls,
            pytest.approx(lot.totals.left_m),
            pytest.approx(lot.totals.left_g),
        )
        for lot in lots(stash)
    }
    assert found == expected
    assert sum(shade.totals.balls for shade in shades(stash)) == len(stash)
