"""Stashes of older layouts open, and the next write puts them into the present one.

``data/layout_1`` holds what the balltag of layout 1 wrote itself, all but the tag pictures:
three records (a fourth was withdrawn, one corrected, one weighed) and a tag that waits.
"""

from __future__ import annotations

import csv
import shutil
from pathlib import Path

import pandas
import pyarrow.parquet as pq
import pytest
from filing_tags import record

from intake.errors import BadStash
from intake.filing.cabinet import open_cabinet
from intake.filing.changes import Action
from intake.filing.check import Check
from intake.filing.columns import SCHEMA
from intake.filing.findings import Kind
from intake.filing.kinds import open_stash
from intake.filing.layouts import upgraded, version_of_columns
from intake.filing.record import COLUMNS, VERSION
from intake.filing.store import Store
from intake.sums.balls import balls

OF_1 = Path(__file__).parent / "data/layout_1"

LOTS = ["0013", "NA", "1E5"]


@pytest.fixture(params=["csv", "parquet"])
def older(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    shutil.copytree(OF_1 / request.param, tmp_path / "cupboard")
    return tmp_path / f"cupboard/stash.{request.param}"


@pytest.fixture
def older_csv(tmp_path: Path) -> Path:
    shutil.copytree(OF_1 / "csv", tmp_path / "cupboard")
    return tmp_path / "cupboard/stash.csv"


def test_it_opens_with_one_ball_a_record_and_is_not_touched(older: Path) -> None:
    before = older.read_bytes()
    cabinet = open_cabinet(older)
    assert [one.lot for one in cabinet.records()] == LOTS
    assert {(one.balls, one.stitches_per_10cm, one.version) for one in cabinet.records()} == {
        (1, "", VERSION)
    }
    assert cabinet.table().schema == SCHEMA
    assert [ball.left_m for ball in balls(cabinet)] == [210.0, 62.2, 210.0]
    assert older.read_bytes() == before


def test_the_next_write_puts_it_into_the_present_layout_after_a_backup(older: Path) -> None:
    before = older.read_bytes()
    cabinet = open_cabinet(older)
    first = cabinet.records()[0]
    cabinet.correct({first.id: {"balls": "5"}})
    (backup,) = open_stash(older).backups.all()
    assert backup.read_bytes() == before
    if older.suffix == ".csv":
        frame = pandas.read_csv(older, dtype=str, keep_default_na=False)
    else:
        frame = pandas.read_parquet(older)
    assert list(frame.columns) == list(COLUMNS)
    assert list(frame["lot"]) == LOTS
    assert [int(cell) for cell in frame["balls"]] == [5, 1, 1]
    assert set(frame["version"]) == {VERSION}


def test_a_check_finds_nothing_amiss_before_and_after(older: Path) -> None:
    def amiss() -> list[Kind]:
        findings = Check(Store(open_stash(older))).findings()
        return [one.kind for one in findings if one.kind is not Kind.NO_PICTURE]

    assert amiss() == []
    cabinet = open_cabinet(older)
    cabinet.correct({cabinet.records()[0].id: {"balls": "5"}})
    assert amiss() == []


def test_what_was_done_in_the_older_layout_can_be_taken_back(older: Path) -> None:
    cabinet = open_cabinet(older)
    strokes = {change.action: change.stroke for change in cabinet.history.changes()}
    cabinet.undo(strokes[Action.WITHDRAWN])
    assert sorted(one.lot for one in cabinet.records()) == sorted([*LOTS, "007"])
    cabinet.undo(strokes[Action.CORRECTED])
    assert {one.lot for one in cabinet.records()} == {"0012", "007", "NA", "1E5"}
    assert {one.balls for one in open_cabinet(older).records()} == {1}


def test_a_tag_that_waited_is_answered(older: Path) -> None:
    cabinet = open_cabinet(older)
    (waiting,) = cabinet.waiting()
    filed = cabinet.resolve(waiting, {"lot": "0012", "balls": "5"})
    assert filed is not None
    assert (filed.lot, filed.balls) == ("0012", 5)


def test_a_csv_stash_of_which_only_the_header_is_left(older_csv: Path) -> None:
    older_csv.write_text(older_csv.read_text().splitlines(keepends=True)[0])
    assert open_stash(older_csv).records() == []
    open_stash(older_csv).append([record()])
    assert open_stash(older_csv).records() == [record()]


def test_a_parquet_stash_without_rows(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    pq.write_table(pq.read_table(OF_1 / "parquet/stash.parquet").slice(0, 0), path)
    assert open_stash(path).records() == []
    open_stash(path).append([record()])
    assert open_stash(path).records() == [record()]


@pytest.mark.parametrize(
    ("column", "why"), [("length_m", "'eighty' is no number"), ("lot", "'lot'")]
)
def test_an_older_parquet_stash_that_is_not_whole_is_refused(
    column: str, why: str, tmp_path: Path
) -> None:
    """A cell that is no number, and a column that is not there."""
    path = tmp_path / "stash.parquet"
    frame = pandas.read_parquet(OF_1 / "parquet/stash.parquet")
    frame = frame.assign(length_m="eighty") if column == "length_m" else frame.drop(columns=column)
    frame.to_parquet(path, index=False)
    before = path.read_bytes()
    for use in (open_stash(path).records, lambda: open_stash(path).append([record()])):
        with pytest.raises(BadStash) as caught:
            use()
        assert why in str(caught.value)
        assert str(caught.value).endswith("; correct it or give another file")
    assert path.read_bytes() == before


def test_a_last_line_that_a_kill_cut_short_is_passed_over(older_csv: Path) -> None:
    whole = older_csv.read_bytes()
    last = whole.splitlines(keepends=True)[-1]
    for cut in range(2, len(last), 23):
        older_csv.write_bytes(whole[:-cut])
        assert [one.lot for one in open_stash(older_csv).records()] == LOTS[:-1]
    open_stash(older_csv).append([record()])
    assert [one.lot for one in open_stash(older_csv).records()] == [*LOTS[:-1], "0012"]


def test_a_last_line_without_a_line_feed_is_read(older_csv: Path) -> None:
    older_csv.write_bytes(older_csv.read_bytes()[:-1])
    assert [one.lot for one in open_stash(older_csv).records()] == LOTS


@pytest.mark.parametrize("delimiter", [",", ";"])
def test_a_column_of_the_users_own_by_a_new_name_is_kept_and_not_taken_for_it(
    older_csv: Path, delimiter: str
) -> None:
    rows = list(csv.reader(older_csv.read_text().splitlines()))
    own = ["balls", "two left", "7", ""]
    with older_csv.open("w", newline="") as file:
        csv.writer(file, delimiter=delimiter).writerows(
            [*row[:3], cell, *row[3:]] for row, cell in zip(rows, own, strict=True)
        )
    stash = open_stash(older_csv)
    assert [one.balls for one in stash.records()] == [1, 1, 1]
    stash.append([record()])
    frame = pandas.read_csv(older_csv, dtype=str, keep_default_na=False)
    assert list(frame["own_balls"]) == ["two left", "7", "", ""]
    assert list(frame["balls"]) == ["1"] * 4
    assert [one.lot for one in open_stash(older_csv).records()] == [*LOTS, "0012"]


def test_a_parquet_stash_with_a_column_of_anothers_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    frame = pandas.read_parquet(OF_1 / "parquet/stash.parquet")
    frame.assign(plumage="grey").to_parquet(path, index=False)
    with pytest.raises(BadStash, match="has 'plumage'"):
        open_stash(path).records()


def test_no_column_of_the_users_own_is_written_over() -> None:
    cells = upgraded({"balls": "five", "own_balls": "old ones", "version": "1"})
    assert cells["own_own_balls"] == "five"
    assert cells["own_balls"] == "old ones"
    assert cells["balls"] == "1"


def test_columns_tell_the_layout_of_a_stash_without_rows() -> None:
    new = {"balls", "stitches_per_10cm", "rows_per_10cm"}
    assert version_of_columns([name for name in COLUMNS if name not in new]) == "1"
    assert version_of_columns(COLUMNS) == VERSION
    assert version_of_columns(["plumage"]) == VERSION
