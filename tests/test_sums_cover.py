"""Enough for a garment, and of one lot: never a lot that is not known to be one."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Sequence
from itertools import chain, combinations
from pathlib import Path

import numpy as np
import pytest
from filing_tags import tag
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment
from sums_balls import ball, weighed
from typer.testing import CliRunner

from intake.cli import app
from intake.errors import BadAmount, BadTable
from intake.filing.cabinet import open_cabinet
from intake.filing.columns import table_of
from intake.reports.cover import plan_json
from intake.sums.ball import Ball
from intake.sums.catalogue import Catalogue
from intake.sums.cover import MAIN_PART, RIBS, SLEEVES, THROUGHOUT, Cover, Plan, cover, places_for
from intake.sums.find import Query
from intake.sums.garments import Garment, Unit, garment, read_plan
from intake.sums.maker_sheet import MakerLine, MakerSheet, maker_line, write_maker_sheet
from intake.sums.shelf import hand_out

KELP = Query(shade="Kelp")
TIDEMILL = "Tidemill & Daughters"


def catalogue_of(*stash: Ball, sheet: MakerSheet | None = None) -> Catalogue:
    weighings = {each.record.id: each.weighing for each in stash if each.weighing}
    return Catalogue(table_of([each.record for each in stash]), sheet or MakerSheet(), weighings)


def need(
    amount: float,
    unit: str = "m",
    wanted: Query = KELP,
    margin_pct: float | None = 0.0,
    name: str = "cardigan",
) -> Garment:
    return garment(name, amount, unit, wanted, margin_pct)


def covered(stash: Sequence[Ball], garment: Garment, sheet: MakerSheet | None = None) -> Cover:
    (only,) = cover(catalogue_of(*stash, sheet=sheet), [garment]).covers
    return only


def lots_used(one: Cover) -> list[str]:
    return [part.lot.lot for part in one.parts]


def balls_of(lot: str, lengths_m: Sequence[float]) -> list[Ball]:
    return [ball(length_m, lot=lot) for length_m in lengths_m]


# One lot


def test_one_lot_covers_where_one_is_enough() -> None:
    stash = [*balls_of("0012", [210.0] * 3), *balls_of("0013", [210.0] * 6)]
    one = covered(stash, need(1200))
    assert lots_used(one) == ["0013"]
    assert one.buy is None
    assert one.parts[0].amount == pytest.approx(1200)
    assert one.parts[0].left == pytest.approx(60)


def test_of_lots_that_are_enough_the_one_with_least_left_over_is_taken() -> None:
    stash = [*balls_of("0012", [210.0] * 9), *balls_of("0013", [210.0] * 6)]
    one = covered(stash, need(1200))
    assert lots_used(one) == ["0013"]
    assert "of 2 lots that are enough" in one.why
    assert "1 whole ball broken into, 60 m left" in one.why


def test_part_balls_go_first_and_no_whole_ball_is_broken_into_for_nothing() -> None:
    part = ball(210.0, 50.0, weighed(25.0, 105.0), lot="0012")
    stash = [*balls_of("0012", [210.0] * 3), part]
    (one,) = covered(stash, need(500)).parts
    first, *rest = one.takes
    assert first.ball.record.id == part.record.id
    assert first.amount == pytest.approx(80)  # the rest of 500 m beside two whole balls
    assert [take.share for take in rest] == [1.0, 1.0]


def test_a_part_ball_is_used_up_before_a_whole_one_is_broken_into() -> None:
    part = ball(210.0, 50.0, weighed(12.0, 45.0), lot="0012")
    (one,) = covered([*balls_of("0012", [210.0] * 3), part], need(500)).parts
    assert [round(take.amount) for take in one.takes] == [40, 210, 210, 40]


def test_a_weighed_ball_counts_at_the_lower_end_of_its_plus_minus() -> None:
    part = ball(210.0, 50.0, weighed(25.0, 105.0))  # 105 m ± 5 m
    assert covered([part], need(100)).is_covered
    short = covered([part], need(101))
    assert not short.is_covered
    assert short.buy is not None
    assert short.buy.short == pytest.approx(1)


def test_a_shortage_of_rounding_is_none() -> None:
    stash = balls_of("0012", [70.1] * 3)
    assert covered(stash, need(210.3)).is_covered


# What is one lot, and what is not


def test_balls_without_a_lot_are_never_one_lot() -> None:
    stash = [ball(lot="") for _ in range(4)]
    one = covered(stash, need(600))
    assert len(one.parts) == 3
    assert any("without a lot" in note for note in one.notes)
    assert one.buy is not None
    assert (one.buy.lot, one.buy.balls_of_lot) == ("", 3)


@pytest.mark.parametrize(
    "other",
    [
        {"maker": TIDEMILL},
        {"range": "Wherry"},
        {"shade": "Ember", "shade_code": "042"},
        {"shade_code": "141"},
        {"weight_class": "light"},
    ],
)
def test_one_lot_number_of_different_yarns_is_not_one_lot(other: dict[str, str]) -> None:
    stash = [ball(lot="0012"), ball(lot="0012", **other)]
    assert not covered(stash, need(400, wanted=Query())).is_covered
    assert covered(stash, need(200, wanted=Query())).is_covered


def test_yarns_of_one_shade_name_are_told_apart() -> None:
    one = covered([ball(), ball(maker=TIDEMILL)], need(400))
    assert any("2 yarns go by 'Kelp'" in note and TIDEMILL in note for note in one.notes)


def test_a_tag_without_a_weight_class_goes_with_the_only_one_there_is() -> None:
    assert covered([ball(), ball(weight_class="")], need(400)).is_covered
    stash = [ball(), ball(weight_class="light"), ball(weight_class="")]
    assert not covered(stash, need(400)).is_covered


def test_lots_keep_their_leading_zeros_apart() -> None:
    one = covered([ball(lot="0012"), ball(lot="12")], need(400))
    assert sorted(lots_used(one)) == ["0012", "12"]
    assert any("easily taken for each other" in note for note in one.notes)


def test_a_shade_of_the_very_name_goes_before_one_that_has_it_in_its_name() -> None:
    stash = [ball(shade="Dark Kelp", shade_code="044"), ball(shade="Dark Kelp", shade_code="044")]
    assert covered(stash, need(400)).is_covered
    assert not covered([*stash, ball()], need(400)).is_covered


def test_a_misspelt_shade_is_said_to_be_taken_for_another() -> None:
    one = covered([ball()], need(200, wanted=Query(shade="Klep")))
    assert any("'Klep' is nowhere in the stash" in note for note in one.notes)


def test_a_word_that_is_a_lot_draws_on_that_lot_alone() -> None:
    stash = [ball(lot="0012"), ball(lot="0013"), ball(lot="0013")]
    assert not covered(stash, need(400, wanted=Query(words=("0012",)))).is_covered


# Several lots


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.lists(st.integers(20, 400), min_size=1, max_size=3), min_size=1, max_size=5),
    st.integers(20, 2000),
)
def test_fewest_lots_against_all_sets_of_lots(lengths_m: list[list[int]], amount_m: int) -> None:
    stash = [
        one
        for lot, of_lot in enumerate(lengths_m)
        for one in balls_of(f"L{lot}", [float(length_m) for length_m in of_lot])
    ]
    one = covered(stash, need(amount_m))
    totals = [sum(of_lot) for of_lot in lengths_m]
    sets = chain.from_iterable(combinations(totals, size) for size in range(1, len(totals) + 1))
    fewest = min((len(lots) for lots in sets if sum(lots) >= amount_m), default=0)
    assert len(one.parts) == fewest
    assert sum(part.amount for part in one.parts) == pytest.approx(amount_m if fewest else 0)
    if not fewest:
        assert one.buy is not None
        assert one.buy.short == pytest.approx(amount_m - sum(totals))
        assert one.buy.short_of_lot == pytest.approx(amount_m - max(totals))


def test_the_odd_lot_is_the_small_one_and_is_told_its_place() -> None:
    stash = [*balls_of("0012", [210.0] * 5), *balls_of("0013", [210.0] * 3)]
    one = covered(stash, need(1200))
    assert lots_used(one) == ["0012", "0013"]
    assert [part.amount for part in one.parts] == pytest.approx([1050, 150])
    assert [part.use for part in one.parts] == [MAIN_PART, RIBS]
    assert any("every two rows" in note for note in one.notes)


@pytest.mark.parametrize(
    ("amounts", "places"),
    [
        ([90, 10], [MAIN_PART, RIBS]),
        ([70, 30], [MAIN_PART, SLEEVES]),
        ([55, 45], [MAIN_PART, THROUGHOUT]),
        ([60, 30, 10], [MAIN_PART, SLEEVES, RIBS]),
        ([40, 30, 30], [MAIN_PART, THROUGHOUT, SLEEVES]),
        ([80, 10, 10], [MAIN_PART, SLEEVES, RIBS]),  # together too much for ribs
    ],
)
def test_odd_lots_go_where_they_show_least(amounts: list[float], places: list[str]) -> None:
    # Common practice, no source.
    assert places_for(amounts) == places


# What to buy


def test_what_to_buy_and_which_lot_to_ask_for() -> None:
    # 630 m and 420 m; 1320 m wanted: 270 m short in all, 690 m of lot 0012, at 210 m a ball.
    stash = [*balls_of("0012", [210.0] * 3), *balls_of("0013", [210.0] * 2)]
    one = covered(stash, need(1200, margin_pct=10))
    assert not one.is_covered
    assert one.buy is not None
    assert one.buy.short == pytest.approx(270)
    assert one.buy.balls == 2
    assert one.buy.lot == "0012"
    assert one.buy.short_of_lot == pytest.approx(690)
    assert one.buy.balls_of_lot == 4


def test_mixed_lots_are_told_what_would_make_them_one() -> None:
    stash = [*balls_of("0012", [210.0] * 3), *balls_of("0013", [210.0] * 2)]
    one = covered(stash, need(800))
    assert one.buy is not None
    assert (one.buy.short, one.buy.balls) == (0, 0)
    assert (one.buy.lot, one.buy.balls_of_lot) == ("0012", 1)


def test_what_other_garments_take_is_not_there_to_be_bought_on() -> None:
    stash = balls_of("0012", [210.0] * 4)
    first, second = cover(catalogue_of(*stash), [need(600), need(600, name="hat")]).covers
    (kept,) = [one for one in (first, second) if one.is_covered]
    (short,) = [one for one in (first, second) if not one.is_covered]
    assert kept.parts[0].left == pytest.approx(240)
    assert short.buy is not None
    assert short.buy.short == pytest.approx(360)
    assert "besides what other garments take" in short.why


def test_balls_to_buy_are_counted_only_where_a_ball_is_known() -> None:
    one = covered([ball(None)], need(300))
    assert [each.record.lot for each in one.uncounted] == ["0012"]
    assert one.buy is not None
    assert one.buy.balls is None


def test_where_no_ball_fits_nothing_is_made_up() -> None:
    one = covered([ball(maker=TIDEMILL)], need(100, wanted=Query(shade="041x")))
    assert (one.yarn, one.buy, one.parts) == (None, None, ())


# Units and margins


def test_the_margin_is_ten_percent_but_none_on_balls() -> None:
    # Common practice, no source.
    assert garment("hat", 200, "m", KELP).amount == pytest.approx(220)
    assert garment("hat", 100, "g", KELP).amount == pytest.approx(110)
    assert garment("hat", 3, "balls", KELP).amount == 3
    assert covered(balls_of("0012", [210.0] * 3), garment("hat", 3, "balls", KELP)).is_covered


def test_grams_and_balls_count_part_balls_as_parts() -> None:
    stash = [ball(), ball(210.0, 50.0, weighed(26.0, 105.0))]  # 26 g ± 1 g: half a ball
    assert covered(stash, need(75, "g")).is_covered
    assert not covered(stash, need(76, "g")).is_covered
    assert covered(stash, need(1.5, "balls")).is_covered
    assert not covered(stash, need(1.6, "balls")).is_covered


def test_garments_in_different_units_draw_on_the_same_balls() -> None:
    stash = balls_of("0012", [210.0] * 4)  # 50 g each
    plan = cover(
        catalogue_of(*stash),
        [need(315), need(75, "g", name="hat"), need(1, "balls", name="scarf")],
    )
    assert all(one.is_covered for one in plan.covers)
    assert sum(shares(plan).values()) == pytest.approx(4)


def test_assumed_lengths_count_and_are_marked() -> None:
    sheet = MakerSheet([MakerLine("Quillstow Spinners", says={"mass_g": "50", "length_m": "210"})])
    one = covered([ball(None), ball()], need(400), sheet)
    (cover_json,) = plan_json(Plan((one,), ()))["garments"]  # type: ignore[misc]
    (lot,) = cover_json["lots"]
    assert sorted(each["assumed"] for each in lot["balls"]) == [False, True]


@pytest.mark.parametrize(
    ("amount", "unit", "margin_pct", "said"),
    [
        (0, "m", None, "above 0"),
        (float("nan"), "m", None, "above 0"),
        (float("inf"), "m", None, "above 0"),
        (100, "yd", None, "one of m, g, balls"),
        (100, "m", -1, "0 to 100"),
        (100, "m", float("nan"), "0 to 100"),
    ],
)
def test_needs_that_cannot_be_are_refused(
    amount: float, unit: str, margin_pct: float | None, said: str
) -> None:
    with pytest.raises(BadAmount, match=said):
        garment("hat", amount, unit, KELP, margin_pct)


# Several garments


def shares(plan: Plan) -> dict[str, float]:
    """How much of each ball is given out, by its id."""
    given: defaultdict[str, float] = defaultdict(float)
    for one in plan.covers:
        for part in one.parts:
            for take in part.takes:
                given[take.ball.record.id] += take.share
    return dict(given)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 3), st.integers(50, 250)), min_size=1, max_size=12),
    st.lists(st.integers(50, 600), min_size=1, max_size=4),
    st.sampled_from(list(Unit)),
)
def test_no_ball_is_given_out_twice_and_every_need_is_met_in_full(
    balls: list[tuple[int, int]], needs: list[int], unit: Unit
) -> None:
    stash = [ball(float(length_m), lot=f"L{lot}") for lot, length_m in balls]
    amounts = {Unit.METRES: 1.0, Unit.GRAMS: 0.25, Unit.BALLS: 0.005}
    garments = [
        need(amount * amounts[unit], unit, name=f"hat {number}")
        for number, amount in enumerate(needs)
    ]
    plan = cover(catalogue_of(*stash), garments)
    assert all(share <= 1 + 1e-4 for share in shares(plan).values())
    for one in plan.covers:
        if one.is_covered:
            given = sum(take.amount for part in one.parts for take in part.takes)
            assert given == pytest.approx(one.garment.amount, rel=1e-4)


def test_garments_find_the_lots_that_an_assignment_gives_them() -> None:
    # Outside check: scipy's linear_sum_assignment (a shortest augmenting path method, no
    # part of the mixed-integer solver), where a lot is enough for at most one garment.
    chance = np.random.default_rng(12)
    needs_m = chance.uniform(500, 900, 6)
    lots_m = chance.uniform(500, 990, 9)
    stash = [ball(float(length_m), lot=f"L{lot}") for lot, length_m in enumerate(lots_m)]
    garments = [need(float(amount), name=f"hat {at}") for at, amount in enumerate(needs_m)]
    left_m = lots_m[None, :] - needs_m[:, None]
    rows, columns = linear_sum_assignment(np.where(left_m >= 0, left_m, 1e6))
    assert (left_m[rows, columns] >= 0).all()
    plan = cover(catalogue_of(*stash), garments)
    assert [len(one.parts) for one in plan.covers] == [1] * 6
    found_m = sum(part.left for one in plan.covers for part in one.parts)
    assert found_m == pytest.approx(left_m[rows, columns].sum())


def test_a_lot_that_both_could_have_goes_where_more_garments_are_covered() -> None:
    stash = [
        *balls_of("0012", [210.0] * 5),
        *(ball(shade="Ember", shade_code="042", lot="7") for _ in range(5)),
    ]
    any_yarn = need(1000, wanted=Query(maker="Quillstow Spinners"), name="any")
    plan = cover(catalogue_of(*stash), [any_yarn, need(1000)])
    assert [lots_used(one) for one in plan.covers] == [["7"], ["0012"]]


def test_lots_are_mixed_rather_than_a_garment_left_out() -> None:
    stash = [*balls_of("0012", [210.0] * 5), *balls_of("0013", [210.0] * 3)]
    plan = cover(catalogue_of(*stash), [need(840), need(800, name="hat")])
    assert sorted(len(one.parts) for one in plan.covers) == [1, 2]


@given(st.lists(st.floats(0.1, 5), min_size=1, max_size=5))
def test_balls_are_handed_out_whole_as_far_as_can_be(counts: list[float]) -> None:
    handed = hand_out(dict(enumerate(counts)))
    given: defaultdict[int, float] = defaultdict(float)
    for number, slices in handed.items():
        assert sum(share for _, share in slices) == pytest.approx(counts[number], abs=1e-3)
        assert sum(share == 1.0 for _, share in slices) >= int(counts[number])
        for at, share in slices:
            given[at] += share
    assert all(share <= 1 + 1e-3 for share in given.values())
    assert len(given) <= np.ceil(sum(counts) + 1e-3)


def test_what_the_time_did_not_prove_is_named() -> None:
    chance = np.random.default_rng(3)
    stash = [
        ball(float(length_m), lot=f"L{at % 40}")
        for at, length_m in enumerate(chance.uniform(50, 400, 160))
    ]
    garments = [need(float(m), name=f"hat {m}") for m in chance.uniform(300, 1500, 12)]
    plan = cover(catalogue_of(*stash), garments, seconds=0.01)
    assert plan.unproven


def test_of_very_many_lots_a_part_is_looked_at_and_that_is_said() -> None:
    stash = [ball(700.0 + at, lot=f"L{at:03}") for at in range(120)]
    plan = cover(catalogue_of(*stash), [need(600), need(650, name="hat")])
    assert [len(one.parts) for one in plan.covers] == [1, 1]
    assert set(plan.unproven) == {"balls broken into", "left over"}
    one = cover(catalogue_of(*stash), [need(600)])
    assert one.unproven == ()
    assert one.covers[0].parts[0].left == pytest.approx(100)


# The plan file


def test_a_plan_lists_garments(tmp_path: Path) -> None:
    path = tmp_path / "plan.csv"
    path.write_text(
        "Garment,need,unit,margin,shade,class,words\n"
        '"Hat, small",150,,,Kelp,,\n'
        "\n"
        "Gansey,600,g,5,,4 ply,quillstow 0012\n",
        encoding="utf-8-sig",
    )
    hat, gansey = read_plan(path)
    assert hat == garment("Hat, small", 150, "m", KELP)
    words = Query(words=("quillstow", "0012"), weight_class="4 ply")
    assert gansey == garment("Gansey", 600, "g", words, 5.0)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "line 1: .*garment"),
        ("garment,shade\nHat,Kelp\n", "line 1: there is no need"),
        ("garment,need,colour\nHat,1,red\n", "line 1: 'colour' is no column"),
        ("garment,need,need\nHat,1,1\n", "line 1: need stands twice"),
        ("garment,need\n", "lists no garment"),
        ("garment,need\nHat,some\n", "line 2: 'some' is no number"),
        ("garment,need\nHat,100\nHat,200\n", "line 3: 'Hat' stands twice"),
        ("garment,need\n,100\n", "line 2: the garment is empty"),
        ("garment,need\nHat,1,2\n", "line 2: 3 cells"),
        ("garment,need,unit\nHat,100,miles\n", "line 2: 'miles' is no unit"),
        ('garment,need\n"Hat,1\n', "line 2: "),
    ],
)
def test_a_plan_that_cannot_be_read_says_where(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "plan.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(BadTable, match=said):
        read_plan(path)


def test_a_plan_that_is_not_there_or_no_text_says_so(tmp_path: Path) -> None:
    with pytest.raises(BadTable, match="cannot be read"):
        read_plan(tmp_path / "none.csv")
    path = tmp_path / "plan.csv"
    path.write_bytes("garment,need\nMütze,100\n".encode("latin-1"))
    with pytest.raises(BadTable, match="UTF-8"):
        read_plan(path)


# The command


@pytest.fixture
def stash(tmp_path: Path) -> Path:
    """Four balls of lot 0012, of which one is a part ball, and one of lot 0013."""
    path = tmp_path / "stash.csv"
    cabinet = open_cabinet(path)
    for number in range(1, 6):
        lot = "0013" if number == 5 else "0012"
        cabinet.file(tag(f"shelf{number}.jpg", number, lot=lot))
    figures = {"mass_g": 20, "mass_uncertainty_g": 1, "length_m": 84, "length_uncertainty_m": 4}
    first = cabinet.records()[0]
    cabinet.weigh(first.id, {name: str(figure) for name, figure in figures.items()})
    return path


def answer(*words: str | Path) -> str:
    """What the command prints on a terminal that is wide enough not to break lines."""
    wide = CliRunner(env={"COLUMNS": "200"})
    result = wide.invoke(app, ["cover", *map(str, words)], catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return result.output


def test_the_command_answers_with_a_table(stash: Path) -> None:
    said = answer("--need", "600", "--shade", "Kelp", "--stash", stash)
    assert "Enough, of one lot" in said
    assert "660 m" in said
    assert "0012" in said
    assert "3 whole balls" in said
    assert "part ball" in said


def test_the_command_says_what_to_buy(stash: Path) -> None:
    said = answer("--need", "1000", "--shade", "Kelp", "--stash", stash)
    assert "NOT ENOUGH" in said
    assert "ask for lot 0012" in said


def test_the_command_says_which_lot_goes_where(stash: Path) -> None:
    said = " ".join(answer("--need", "720", "--shade", "Kelp", "--stash", stash).split())
    assert "Enough, of 2 lots" in said
    assert "the body" in said
    assert "alternate them every two rows" in said
    assert "For one lot throughout: buy 1 ball" in said


def test_the_command_says_how_much_is_short_with_all_lots_and_with_one(stash: Path) -> None:
    said = " ".join(answer("--need", "1000", "--shade", "Kelp", "--stash", stash).split())
    assert "NOT ENOUGH: the stash has 920 m of it in 2 lots" in said
    assert "Short by 180 m with all lots mixed: buy 1 ball" in said
    assert "For one lot throughout: buy 2 balls" in said


def test_the_command_counts_balls_in_tenths(stash: Path) -> None:
    said = answer("--need", "6", "--unit", "balls", "--shade", "Kelp", "--stash", stash)
    assert "needs 6 balls, without a margin" in said
    assert "the stash has 4.4 balls of it in 2 lots" in said


def test_the_command_names_the_balls_that_it_cannot_count(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    cabinet.stash.append([ball(length_m=None, lot="").record])
    said = " ".join(answer("--need", "9", "--shade", "Kelp", "--stash", cabinet.stash.path).split())
    assert f"nobody knows the metres: {cabinet.records()[0].id}" in said
    assert "buy 9.9 m" not in said
    assert "buy 10 m (nobody knows what a ball holds)" in said
    assert "1 ball without a lot: each counts as a lot of its own" in said


def test_the_command_says_who_shares_a_ball_and_what_is_assumed(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    cabinet.stash.append([ball(length_m=None).record])
    line = {"maker": "Quillstow Spinners", "length_m": "210", "mass_g": "50"}
    write_maker_sheet(cabinet.stash, [maker_line(line)])
    plan = tmp_path / "plan.csv"
    plan.write_text("garment,need,shade\nhat,90,Kelp\ncuffs,60,Kelp\n", encoding="utf-8")
    said = " ".join(answer("--plan", plan, "--stash", cabinet.stash.path).split())
    assert "99 of 210 m*, shared with cuffs" in said
    assert "* assumed: the tag is silent, and the maker sheet says so" in said


def test_the_command_answers_as_json_from_a_plan(stash: Path, tmp_path: Path) -> None:
    plan = tmp_path / "plan.csv"
    plan.write_text("garment,need,shade\nhat,150,Kelp\nvest,600,Kelp\n", encoding="utf-8")
    said = json.loads(answer("--plan", plan, "--stash", stash, "--json"))
    assert said["unproven"] == []
    hat, vest = said["garments"]
    assert hat["amount"] == 165
    assert [lot["lot"] for lot in hat["lots"]] == ["0013"]
    assert [lot["lot"] for lot in vest["lots"]] == ["0012"]
    assert vest["lots"][0]["amount"] == 660
    assert len(vest["lots"][0]["balls"]) == 4


@pytest.mark.parametrize(
    "words",
    [[], ["--plan", "plan.csv", "--need", "3"], ["--plan", "plan.csv", "--shade", "Kelp"]],
)
def test_the_command_wants_a_need_or_a_plan(stash: Path, words: list[str]) -> None:
    result = CliRunner().invoke(app, ["cover", *words, "--stash", str(stash)])
    assert isinstance(result.exception, BadAmount)
