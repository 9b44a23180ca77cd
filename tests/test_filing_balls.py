"""How many balls a tag stands for, as the stash keeps it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pandas
import pytest
from filing_tags import doubtful, record, tag, waiting_tag

from intake.errors import BadStash
from intake.filing.answers import BadAnswer, answer_cell, answered
from intake.filing.cabinet import open_cabinet
from intake.filing.columns import SCHEMA
from intake.filing.judge import judge
from intake.filing.kinds import open_stash
from intake.filing.reading_json import reading_from_json, reading_to_json
from intake.filing.record import MOST_BALLS, Record, record_from_reading
from intake.records import State

both_kinds = pytest.mark.parametrize("ending", [".csv", ".parquet"])


def of_balls(number: int, balls: int) -> Record:
    return replace(record(number=number), balls=balls)


def test_a_tag_that_says_no_number_is_one_ball() -> None:
    assert record_from_reading(tag()).balls == 1
    assert judge(tag()) == []


def test_a_number_read_is_the_records() -> None:
    assert record_from_reading(tag(balls=5.0)).balls == 5


def test_a_number_that_is_not_sure_is_asked_about() -> None:
    (doubt,) = judge(tag("cellar.jpg", 1, doubtful("balls", 5.0)))
    assert (doubt.field, doubt.candidates) == ("balls", ("5",))


def test_a_reading_keeps_its_number_in_the_queue() -> None:
    reading = waiting_tag(balls=5.0)
    assert reading_from_json(reading_to_json(reading), reading.jpeg) == reading


@both_kinds
def test_it_comes_back_as_a_whole_number(ending: str, tmp_path: Path) -> None:
    stash = open_stash(tmp_path / f"stash{ending}")
    stash.append([of_balls(1, 5), of_balls(2, 1), of_balls(3, MOST_BALLS)])
    assert [one.balls for one in stash.records()] == [5, 1, MOST_BALLS]
    assert stash.table()["balls"].to_pylist() == [5, 1, MOST_BALLS]
    assert stash.table().schema == SCHEMA


def test_pandas_reads_it_as_a_whole_number(tmp_path: Path) -> None:
    open_stash(tmp_path / "stash.csv").append([of_balls(1, 5), of_balls(2, 1)])
    open_stash(tmp_path / "stash.parquet").append([of_balls(1, 5), of_balls(2, 1)])
    for frame in (
        pandas.read_csv(tmp_path / "stash.csv"),
        pandas.read_parquet(tmp_path / "stash.parquet"),
    ):
        assert frame["balls"].dtype == "int64"
        assert frame["balls"].sum() == 6


@pytest.mark.parametrize(("cell", "balls"), [("", 1), ("5.0", 5), ("7", 7)])
def test_a_cell_that_a_spreadsheet_left_reads_as_meant(
    cell: str, balls: int, tmp_path: Path
) -> None:
    path = tmp_path / "stash.csv"
    open_stash(path).append([of_balls(1, 23)])
    path.write_text(path.read_text().replace(",23,", f",{cell},", 1))
    assert [one.balls for one in open_stash(path).records()] == [balls]
    assert open_stash(path).table()["balls"].to_pylist() == [balls]


@pytest.mark.parametrize("cell", ["0", "-2", "2.5", "five", str(MOST_BALLS + 1), "nan"])
def test_a_cell_that_is_no_number_of_balls_is_named(cell: str, tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    open_stash(path).append([of_balls(1, 23)])
    path.write_text(path.read_text().replace(",23,", f",{cell},", 1))
    for use in (open_stash(path).records, open_stash(path).table):
        with pytest.raises(BadStash, match=r"line 2 .*no number"):
            use()


def test_a_parquet_file_with_none_or_too_few_balls(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    open_stash(path).append([of_balls(1, 5), of_balls(2, 4)])
    frame = pandas.read_parquet(path).astype({"balls": "Int64"})
    frame.loc[0, "balls"] = pandas.NA
    frame.to_parquet(path, index=False)
    assert [one.balls for one in open_stash(path).records()] == [1, 4]
    frame.loc[0, "balls"] = 0
    frame.to_parquet(path, index=False)
    with pytest.raises(BadStash, match=r"'balls'.*whole number from 1"):
        open_stash(path).records()


def test_it_is_typed_as_a_whole_number() -> None:
    for text in (" 5 ", "x5", "X 5", "5x", "×5", "5 ×"):
        assert answer_cell("balls", text) == "5"
    assert answer_cell("balls", "") == "1"
    for text in ("0", "2.5", "a few", "9781234567897", "x", "4x5", "x5x5", "xx5"):
        with pytest.raises(BadAnswer, match="type a whole number from 1"):
            answer_cell("balls", text)


def test_an_empty_answer_to_a_doubtful_number_says_one() -> None:
    reading = answered(tag("cellar.jpg", 1, doubtful("balls", 5.0)), {"balls": ""})
    assert record_from_reading(reading).balls == 1
    assert reading.fields["balls"].state is State.SURE


def test_a_correction_is_kept_in_the_history_and_taken_back(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    cabinet.file(tag())
    (one,) = cabinet.records()
    (change,) = cabinet.correct({one.id: {"balls": "5"}})
    assert (change.old, change.new) == ({"balls": "1"}, {"balls": "5"})
    assert cabinet.record(one.id).balls == 5
    (change,) = cabinet.correct({one.id: {"balls": ""}})
    assert cabinet.record(one.id).balls == 1
    cabinet.undo(change.stroke)
    assert cabinet.record(one.id).balls == 5
