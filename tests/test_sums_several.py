"""One tag kept for several balls counts as so many, in every sum."""

from __future__ import annotations

from dataclasses import replace
from io import StringIO
from pathlib import Path

import pandas
import pytest
from exports_stash import WEIGHED, cabinet_with
from filing_tags import record
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console
from sums_balls import ball, weighed
from test_sums_cover import catalogue_of, covered, need
from typer.testing import CliRunner

from intake.cli import app
from intake.exports.choice import chosen, condition
from intake.exports.kinds import exporter_for
from intake.exports.plots import metres_by_class
from intake.exports.tag_words import tag_words
from intake.exports.workbook import stash_sheets
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet
from intake.filing.record import Record
from intake.reports.cover import plan_json, plan_said
from intake.reports.find import lot_json
from intake.sums.ball import Ball, Weighing
from intake.sums.balls import balls
from intake.sums.cover import cover
from intake.sums.find import Metres, Query, find
from intake.sums.garments import Unit
from intake.sums.lots import lots, totals
from intake.sums.stand_in import stand_ins


def several(
    count: int,
    length_m: float | None = 210.0,
    mass_g: float | None = 50.0,
    weighing: Weighing | None = None,
    **texts: str,
) -> Ball:
    """A tag of :func:`sums_balls.ball` that stands for ``count`` balls."""
    one = ball(length_m, mass_g, weighing, **texts)
    return replace(one, record=replace(one.record, balls=count))


# Totals


def test_one_tag_kept_for_five_balls_is_five() -> None:
    total = totals([several(5)])
    assert (total.balls, total.left_m, total.left_g) == (5, 1050.0, 250.0)


def test_a_tag_says_what_one_ball_holds_and_what_is_left_on_all() -> None:
    five = several(5)
    assert (five.length_m, five.mass_g) == (210.0, 50.0)
    assert (five.left_m, five.left_g) == (1050.0, 250.0)


def test_a_weighing_is_of_one_of_them() -> None:
    five = several(5, weighing=weighed(20.0, 84.0))
    assert (five.left_m, five.left_g) == (4 * 210.0 + 84.0, 4 * 50.0 + 20.0)
    total = totals([five])
    assert (total.balls, total.left_m) == (5, 924.0)


def test_what_is_not_known_is_not_known_of_each() -> None:
    five = several(5, length_m=None, weighing=weighed(20.0, 84.0))
    total = totals([five])
    assert (total.balls, total.left_m, total.unknown_m, total.unknown_g) == (5, 84.0, 4, 0)
    assert five.left_m is None
    assert totals([several(3, None, None)]).unknown_m == 3


@given(
    st.lists(
        st.tuples(
            st.integers(1, 12),
            st.sampled_from([None, 85.0, 210.0]),
            st.sampled_from(["0012", "007"]),
            st.booleans(),
        ),
        min_size=1,
        max_size=12,
    )
)
def test_totals_are_those_of_as_many_tags_of_one_ball(
    tags: list[tuple[int, float | None, str, bool]],
) -> None:
    def weighing(is_begun: bool) -> Weighing | None:
        return weighed(20.0, 42.0) if is_begun else None

    together = [several(n, m, weighing=weighing(begun), lot=lot) for n, m, lot, begun in tags]
    apart = [
        ball(m, weighing=weighing(begun and at == 0), lot=lot)
        for n, m, lot, begun in tags
        for at in range(n)
    ]
    assert [(lot.lot, lot.totals) for lot in lots(together)] == [
        (lot.lot, lot.totals) for lot in lots(apart)
    ]


# Finding


def test_metres_of_a_lot_are_those_of_all_its_balls() -> None:
    found = find(catalogue_of(several(5)), Query(shade="Kelp", metres=Metres(1000)))
    assert [lot.totals.balls for lot in found.lots] == [5]
    assert not find(catalogue_of(ball()), Query(shade="Kelp", metres=Metres(1000))).lots


def test_json_tells_balls_and_what_is_left_on_them() -> None:
    (lot,) = lots([several(5), ball()])
    told = lot_json(lot)
    assert (told["balls"], told["left_m"]) == (6, 1260.0)
    assert [one["balls"] for one in told["records"]] == [5, 1]  # type: ignore[attr-defined]


def test_a_stand_in_is_no_nearer_for_being_many() -> None:
    yarn = ball(shade="Ember", shade_code="042")
    one, five = stand_ins(yarn, lots([ball(), several(5, lot="0013")]))
    assert one.distance == five.distance
    assert one.lot.lot == "0013"  # of two as near the longer comes first


# Enough for a garment


def test_five_balls_of_one_tag_are_enough_where_one_is_not() -> None:
    one = covered([several(5)], need(1000))
    assert one.is_covered
    assert one.buy is None
    assert one.parts[0].left == pytest.approx(50)
    assert not covered([ball()], need(1000)).is_covered


def test_balls_grams_and_metres_are_counted_each() -> None:
    for unit, amount in ((Unit.BALLS, 5), (Unit.GRAMS, 250), (Unit.METRES, 1050)):
        assert covered([several(5)], need(amount, unit.value)).is_covered
        short = covered([several(5)], need(amount * 1.2, unit.value))
        assert not short.is_covered
        assert short.buy is not None
        assert short.buy.balls == 1


def test_a_part_ball_of_a_tag_for_several_goes_first() -> None:
    five = several(5, weighing=weighed(25.0, 105.0))  # 105 m ± 5 m
    (part,) = covered([five], need(310)).parts
    assert [(take.is_whole, round(take.amount)) for take in part.takes] == [
        (False, 100), (True, 210)
    ]  # fmt: skip
    assert part.left == pytest.approx(3 * 210)


def test_balls_of_one_tag_without_a_lot_are_never_one_lot() -> None:
    one = covered([several(4, lot="")], need(600))
    assert len(one.parts) == 3
    assert any("3 balls without a lot" in note for note in one.notes)


def test_a_ball_is_shared_only_where_two_garments_take_of_it() -> None:
    plan = cover(
        catalogue_of(several(2)),
        [need(210, name="hat"), need(100, name="mitts")],
    )
    console = Console(file=StringIO(), width=200)
    console.print(*plan_said(plan))
    assert isinstance(console.file, StringIO)
    assert "1 whole ball" in console.file.getvalue()
    assert "shared with" not in console.file.getvalue()
    told = plan_json(plan)
    assert [one["covered"] for one in told["garments"]] == [True, True]  # type: ignore[attr-defined]


def test_balls_that_nobody_can_count_are_named_once() -> None:
    one = covered([several(5, length_m=None)], need(100))
    assert len(one.uncounted) == 1


# Exports


@pytest.fixture
def kept() -> list[Record]:
    return [
        replace(record("a.jpg", lot="0012"), balls=5),
        record("b.jpg", lot="0012"),
        replace(record("c.jpg", lot="007"), balls=3, length_m=85.0),
    ]


@pytest.fixture
def cabinet(tmp_path: Path, kept: list[Record]) -> Cabinet:
    cabinet = cabinet_with(tmp_path, *kept)
    cabinet.weigh(kept[2].id, WEIGHED)
    return cabinet


@pytest.mark.parametrize("name", ["out.xlsx", "out.ods"])
def test_pandas_counts_the_exported_records_as_the_sheet_of_lots_does(
    name: str, cabinet: Cabinet
) -> None:
    """pandas groups the rows of one sheet, an independent way to the figures of the other."""
    path = cabinet.stash.path.with_name(name)
    exporter_for(path).write(stash_sheets(balls(cabinet), "", None), path)
    records = pandas.read_excel(path, sheet_name="records", dtype={"lot": str})
    counted = records.groupby("lot")[["balls", "left_m", "left_g"]].sum()
    told = pandas.read_excel(path, sheet_name="lots", dtype={"lot": str}).set_index("lot")
    for column in counted.columns:
        assert counted[column].to_dict() == pytest.approx(told[column].to_dict())
    assert counted["balls"].to_dict() == {"0012": 6, "007": 3}
    whole = records[records["lot"] == "0012"]
    assert (whole["balls"] * whole["length_m"]).tolist() == whole["left_m"].tolist()
    assert counted["left_m"]["007"] == pytest.approx(2 * 85 + 62.2)


def test_balls_choose_what_is_exported(cabinet: Cabinet) -> None:
    assert [one.count for one in chosen(balls(cabinet), [condition("balls=5")])] == [5]
    assert [one.count for one in chosen(balls(cabinet), [condition("balls=1.0")])] == [1]


def test_a_plot_has_the_metres_of_all_balls() -> None:
    assert metres_by_class([several(5), ball()]) == {
        "super fine": {"Kelp 041, Quillstow Spinners Sluicegate": 1260.0}
    }


@pytest.mark.parametrize(
    ("of_tag", "words"),
    [
        (several(5), "5 whole balls of 210 m"),
        (several(5, length_m=None), "5 balls, metres not known"),
        (ball(), "210 m, whole ball"),
        (ball(length_m=None), "metres not known"),
        (
            several(5, weighing=weighed(20.0, 84.0)),
            "84 m ± 5 m left, 2025-04-01; 4 whole balls of 210 m",
        ),
        (
            several(2, weighing=weighed(20.0, 84.0)),
            "84 m ± 5 m left, 2025-04-01; 210 m, whole ball",
        ),
    ],
)
def test_a_printed_tag_says_how_many_balls_it_is_for(of_tag: Ball, words: str) -> None:
    assert tag_words(of_tag).left.text == words


# Splitting balls off, and weighing one


def balltag(cabinet: Cabinet, *arguments: str) -> str:
    done = CliRunner().invoke(app, [*arguments, "--stash", str(cabinet.stash.path)])
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done.output


def counts(cabinet: Cabinet) -> list[int]:
    return [one.balls for one in cabinet.records()]


def test_balls_are_split_off_and_put_together_again(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, replace(record(), balls=5), pictures=True)
    (whole,) = cabinet.records()
    *_, made = cabinet.split(whole.id, 2)
    first, second = cabinet.records()
    assert (first, second.id) == (replace(whole, balls=3), made.record)
    assert second == replace(
        whole, id=second.id, balls=2, tag_picture=f"{second.id}.jpg", note=f"split off {whole.id}"
    )
    assert cabinet.pictures.load(second.id) == cabinet.pictures.load(whole.id)
    cabinet.undo(made.stroke)
    assert cabinet.records() == [whole]
    *_, again = cabinet.split(whole.id)
    assert again.record != made.record  # which has a history of its own


@pytest.mark.parametrize("balls_off", [0, 5, 6, -1])
def test_one_ball_must_stay_and_one_must_go(balls_off: int, tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, replace(record(), balls=5))
    with pytest.raises(BadAnswer, match="at least one"):
        cabinet.split(record().id, balls_off)
    assert counts(cabinet) == [5]


def test_a_weighed_ball_of_several_gets_a_record_of_its_own(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, replace(record(), balls=5))
    said = balltag(cabinet, "weigh", record().id, "20", "--room", "living room")
    assert f"{record().id} stands for 5 balls" in " ".join(said.split())
    four, one = balls(cabinet)
    assert (four.count, four.weighing, four.left_m) == (4, None, 840.0)
    assert one.count == 1
    assert one.weighing is not None
    assert one.left_m == pytest.approx(84, abs=5)


def test_a_dry_run_splits_nothing(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, replace(record(), balls=5))
    balltag(cabinet, "weigh", record().id, "20", "--dry-run")
    assert counts(cabinet) == [5]


def test_all_balls_on_the_scale_at_once_are_no_part_ball(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, replace(record(), balls=5))
    with pytest.raises(Exception, match="more than the 210 m of a whole ball"):
        balltag(cabinet, "weigh", record().id, "250")
    assert counts(cabinet) == [5]


def test_which_of_two_begun_balls_is_weighed_is_never_guessed(tmp_path: Path) -> None:
    cabinet = cabinet_with(tmp_path, record())
    cabinet.weigh(record().id, WEIGHED)
    cabinet.correct({record().id: {"balls": "5"}})
    with pytest.raises(Exception, match="was weighed before") as caught:
        balltag(cabinet, "weigh", record().id, "20")
    assert f"balltag split {record().id} --balls 4" in str(caught.value)
    balltag(cabinet, "split", record().id, "--balls", "4")
    begun, others = balls(cabinet)
    assert (begun.count, begun.left_m) == (1, 62.2)
    assert (others.count, others.weighing, others.left_m) == (4, None, 840.0)
