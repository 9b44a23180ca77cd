"""The stash keeps every text as text and can always be opened."""

from __future__ import annotations

import csv
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pandas
import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from filelock import FileLock
from filing_tags import record, tag
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from intake.errors import BadStash, NoAccess, StashBusy
from intake.filing.cabinet import open_cabinet
from intake.filing.kinds import open_stash
from intake.filing.record import (
    AMOUNTS,
    COLUMNS,
    MOST_BALLS,
    NUMBERS,
    VERSION,
    Record,
    one_line,
)
from intake.filing.stash import Stash
from intake.wording import number_text

NASTY = ["0012", "1E5", "=1+1", "NA", "nan", "null", "None", "-", "'7", ' a "b", c ', "#N/A", ""]

texts = st.one_of(
    st.sampled_from(NASTY),
    st.text(st.characters(exclude_categories=("Cs",)), max_size=12).map(one_line),
)
numbers = st.one_of(
    st.none(),
    st.floats(0.001, 1e6).map(lambda number: float(number_text(number))),
)
ids = st.from_regex(r"t[0-9a-f]{15}", fullmatch=True)
rows = st.builds(
    Record,
    **{name: texts for name in COLUMNS if name not in (*NUMBERS, "id", "version")},
    **dict.fromkeys(AMOUNTS, numbers),
    balls=st.integers(1, MOST_BALLS),
    id=ids,
    version=st.just(VERSION),
)

both_kinds = pytest.mark.parametrize("ending", [".csv", ".parquet"])


@pytest.fixture(params=[".csv", ".parquet"])
def stash(request: pytest.FixtureRequest, tmp_path: Path) -> Stash:
    return open_stash(tmp_path / f"stash{request.param}")


@both_kinds
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(first=st.lists(rows, max_size=4), second=st.lists(rows, max_size=4))
def test_records_come_back_as_they_were(
    ending: str, first: list[Record], second: list[Record]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        stash = open_stash(Path(folder) / f"stash{ending}")
        stash.append(first)
        stash.append(second)
        assert stash.records() == first + second


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(kept=st.lists(rows, min_size=1, max_size=4))
def test_pandas_reads_the_csv_as_documented(kept: list[Record]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "stash.csv"
        open_stash(path).append(kept)
        frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
    assert tuple(frame.columns) == COLUMNS
    for name in COLUMNS:
        if name not in NUMBERS:
            assert list(frame[name]) == [getattr(each, name) for each in kept]


def test_pandas_reads_the_parquet_with_text_as_text(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    kept = [record(number=place, lot=lot) for place, lot in enumerate(NASTY, 1)]
    open_stash(path).append(kept)
    frame = pandas.read_parquet(path)
    assert tuple(frame.columns) == COLUMNS
    assert list(frame["lot"]) == NASTY
    assert frame["length_m"].dtype == "float64"
    assert set(map(type, frame["barcode"])) == {str}


def test_the_csv_is_utf_8_with_one_line_for_each_record(tmp_path: Path) -> None:
    # RFC 4180: one record per line, one header line, fields with commas or quotes quoted.
    path = tmp_path / "stash.csv"
    open_stash(path).append([record(note='said "Flußgrün", twice\nover'.replace("\n", " "))])
    header, row, end = path.read_bytes().decode("utf-8").split("\n")
    assert header == ",".join(COLUMNS)
    assert '"said ""Flußgrün"", twice over"' in row
    assert end == ""


def test_a_stash_that_does_not_exist_holds_nothing(stash: Stash) -> None:
    assert stash.records() == []
    assert not stash.path.exists()


def test_removing_takes_out_those_records_only(stash: Stash) -> None:
    kept = [record(number=number) for number in range(1, 5)]
    stash.append(kept)
    stash.remove([kept[1].id, kept[3].id])
    assert stash.records() == [kept[0], kept[2]]


def test_reading_on_from_a_mark_gives_what_came_after_it(stash: Stash) -> None:
    first, second, third = (record(number=number) for number in (1, 2, 3))
    mark = stash.append([first])
    assert list(stash.read(mark).records) == []
    open_stash(stash.path).append([second])
    news = stash.read(mark)
    assert list(news.records) == ([first, second] if news.whole else [second])
    open_stash(stash.path).remove([first.id])
    stash.append([third])
    changed = stash.read(news.mark)
    assert changed.whole
    assert list(changed.records) == [second, third]


def test_a_csv_only_reads_on_what_was_added(tmp_path: Path) -> None:
    stash = open_stash(tmp_path / "stash.csv")
    mark = stash.append([record(number=1)])
    stash.append([record(number=2)])
    assert not stash.read(mark).whole


@pytest.mark.parametrize("name", ["stash", "stash.txt", "stash.xlsx"])
def test_another_ending_is_refused(name: str) -> None:
    with pytest.raises(BadStash, match=r"\.csv or \.parquet"):
        open_stash(name)


def test_a_capital_ending_will_do(tmp_path: Path) -> None:
    stash = open_stash(tmp_path / "STASH.CSV")
    stash.append([record()])
    assert stash.records() == [record()]


# Torn files


def test_a_csv_cut_anywhere_in_its_last_line_opens_and_goes_on(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    kept = [record(number=number, note='wound "twice", by hand') for number in (1, 2, 3)]
    open_stash(path).append(kept[:2])
    whole = path.stat().st_size
    open_stash(path).append(kept[2:])
    data = path.read_bytes()
    for end in range(whole, len(data) + 1):
        path.write_bytes(data[:end])
        there = 3 if end >= len(data) - 1 else 2  # only the line feed is missing
        assert open_stash(path).records() == kept[:there]
        if end % 7 == 0 or end >= len(data) - 1:
            open_stash(path).append([record("attic.jpg")])
            assert open_stash(path).records() == [*kept[:there], record("attic.jpg")]


def test_a_last_line_that_balltag_did_not_write_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    open_stash(path).append([record()])
    foreign = path.read_bytes() + b"my own remark"
    path.write_bytes(foreign)
    for use in (lambda: open_stash(path).records(), lambda: open_stash(path).append([record()])):
        with pytest.raises(BadStash, match="last line"):
            use()
    assert path.read_bytes() == foreign


def test_an_editor_may_drop_the_last_line_feed_and_use_crlf(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    open_stash(path).append([record(number=1), record(number=2)])
    edited = path.read_bytes().replace(b"\n", b"\r\n").removesuffix(b"\r\n")
    path.write_bytes(b"\xef\xbb\xbf" + edited)
    stash = open_stash(path)
    stash.append([record(number=3)])
    assert stash.records() == [record(number=number) for number in (1, 2, 3)]


def test_an_empty_file_is_an_empty_stash(stash: Stash) -> None:
    stash.path.touch()
    assert stash.records() == []
    stash.append([record()])
    assert stash.records() == [record()]


# Foreign files


def write_table(path: Path, columns: dict[str, list[str]]) -> None:
    if path.suffix == ".csv":
        with path.open("w", newline="") as file:
            csv.writer(file).writerows([columns, *zip(*columns.values(), strict=True)])
    else:
        pq.write_table(pa.table(columns), path)


def refuse(path: Path, match: str) -> None:
    before = path.read_bytes()
    for use in (
        lambda: open_stash(path).records(),
        lambda: open_stash(path).append([record()]),
        lambda: open_stash(path).remove(["t0"]),
    ):
        with pytest.raises(BadStash, match=match) as caught:
            use()
        assert "\n" not in str(caught.value)
    assert path.read_bytes() == before
    assert not path.with_name(path.name + ".new").exists()


@both_kinds
def test_foreign_columns_are_named(ending: str, tmp_path: Path) -> None:
    path = tmp_path / f"birds{ending}"
    columns = {name: ["x"] for name in COLUMNS if name != "lot"} | {"plumage": ["grey"]}
    write_table(path, columns)
    refuse(path, r"has 'plumage' and lacks 'lot'")


def test_a_parquet_with_columns_in_another_order_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    write_table(path, {name: [VERSION] for name in reversed(COLUMNS)})
    refuse(path, "another order")


@both_kinds
def test_a_newer_layout_is_refused_by_its_version(ending: str, tmp_path: Path) -> None:
    path = tmp_path / f"stash{ending}"
    write_table(path, {name: ["x"] for name in COLUMNS} | {"twist": ["Z"], "version": ["3"]})
    refuse(path, "version 3.*newer balltag")


@both_kinds
def test_bytes_of_another_kind_are_refused(ending: str, tmp_path: Path) -> None:
    path = tmp_path / f"stash{ending}"
    path.write_bytes(b"\x89PNG\r\n\x1a\n\xff\xfe\x00 not a table")
    refuse(path, str(path))


def test_a_damaged_row_is_named_by_its_line(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    open_stash(path).append([record(number=1), replace(record(number=2), length_m=87.5)])
    path.write_text(path.read_text().replace("87.5", "eighty", 1))
    with pytest.raises(BadStash, match=r"line 3 .*'eighty' is no number"):
        open_stash(path).records()


@pytest.mark.parametrize("start", ["\ufeff", "x" * (csv.field_size_limit() + 1) + "\n"])
def test_a_file_without_a_first_line_of_cells_is_refused(start: str, tmp_path: Path) -> None:
    """Nothing but the mark of UTF-8, and a cell longer than Python's csv takes."""
    path = tmp_path / "stash.csv"
    path.write_text(start, encoding="utf-8")
    refuse(path, "is no CSV file; give another file")


def test_a_row_with_a_quote_amiss_is_named_by_its_line(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    open_stash(path).append([record(number=1), record(number=2, shade="Marram")])
    path.write_text(path.read_text().replace("Marram", '"Mar"ram', 1))
    with pytest.raises(BadStash, match=r"line 3 of .* is no record: .*; correct that line, or see"):
        open_stash(path).records()


def test_a_parquet_of_no_known_layout_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    open_stash(path).append([record()])
    frame = pandas.read_parquet(path)
    frame.assign(version="0").to_parquet(path, index=False)
    refuse(path, f"has rows without layout version {VERSION}; correct them or give another file")


def test_a_parquet_whose_lots_became_numbers_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    open_stash(path).append([record()])
    frame = pandas.read_parquet(path)
    frame["lot"] = frame["lot"].astype("int64")
    frame.to_parquet(path, index=False)
    refuse(path, "'lot'.*int64")


def test_a_parquet_rewritten_by_pandas_still_opens(tmp_path: Path) -> None:
    path = tmp_path / "stash.parquet"
    kept = [record(number=1, lot="0012"), record(number=2, lot="NA", barcode="")]
    open_stash(path).append(kept)
    frame = pandas.read_parquet(path)
    frame["barcode"] = frame["barcode"].replace("", None)
    frame.to_parquet(path, index=False)
    assert open_stash(path).records() == kept


@both_kinds
def test_a_folder_in_place_of_the_file_is_refused(ending: str, tmp_path: Path) -> None:
    path = tmp_path / f"stash{ending}"
    path.mkdir()
    with pytest.raises(BadStash, match="cannot be read"):
        open_stash(path).records()


# Folders, locks, other processes


@pytest.fixture
def read_only_folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for ending in (".csv", ".parquet"):
            open_stash(folder / f"stash{ending}").append([record()])
            (folder / f"stash{ending}.lock").unlink()
        folder.chmod(0o555)
        yield folder
        folder.chmod(0o755)


@both_kinds
@pytest.mark.usefixtures("plain_user")
def test_a_read_only_folder_can_be_read_but_not_written(
    read_only_folder: Path, ending: str
) -> None:
    stash = open_stash(read_only_folder / f"stash{ending}")
    assert stash.records() == [record()]
    with pytest.raises(NoAccess, match="cannot be written"):
        stash.append([record()])


@both_kinds
@pytest.mark.usefixtures("plain_user")
def test_a_read_only_file_is_not_written_over(plain_folder: Path, ending: str) -> None:
    path = plain_folder / f"stash{ending}"
    cabinet = open_cabinet(path)
    filed = cabinet.file(tag())
    path.chmod(0o444)
    before = path.read_bytes()
    with pytest.raises(NoAccess, match=f"stash{ending} cannot be written"):
        cabinet.correct({filed.id: {"lot": "0100"}})
    assert path.read_bytes() == before
    assert not open_cabinet(path).history.changes()
    path.chmod(0o644)
    assert open_cabinet(path).correct({filed.id: {"lot": "0100"}})


def test_a_missing_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(NoAccess, match=r"there is no folder .*nowhere"):
        open_stash(tmp_path / "nowhere" / "stash.csv").append([record()])


def test_a_held_stash_is_busy_after_the_wait(stash: Stash) -> None:
    with FileLock(f"{stash.path}.lock"), pytest.raises(StashBusy, match="another balltag"):
        open_stash(stash.path, wait_s=0.05).append([record()])
    assert stash.records() == []


def test_a_link_to_the_stash_stays_a_link(stash: Stash, tmp_path: Path) -> None:
    link = tmp_path / f"link{stash.path.suffix}"
    link.symlink_to(stash.path)
    open_stash(link).append([record(number=1)])
    open_stash(link).append([record(number=2)])
    open_stash(link).remove([record(number=1).id])
    assert link.is_symlink()
    assert stash.records() == [record(number=2)]


def test_the_file_keeps_its_permissions(stash: Stash) -> None:
    stash.append([record(number=1)])
    stash.path.chmod(0o640)
    stash.remove([record(number=1).id])
    assert stash.path.stat().st_mode & 0o777 == 0o640


APPEND_MANY = """
import sys
from filing_tags import record, tag
from intake.filing.kinds import open_stash
stash = open_stash(sys.argv[1])
for number in range(1, int(sys.argv[3]) + 1):
    stash.append([record(sys.argv[2], number)])
"""


def test_two_processes_append_at_once(stash: Stash) -> None:
    many = 25
    processes = [
        subprocess.Popen(
            [sys.executable, "-c", APPEND_MANY, str(stash.path), picture, str(many)],
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        )
        for picture in ("left.jpg", "right.jpg")
    ]
    assert [process.wait(60) for process in processes] == [0, 0]
    expected = {
        record(picture, number)
        for picture in ("left.jpg", "right.jpg")
        for number in range(1, many + 1)
    }
    assert len(stash.records()) == 2 * many
    assert set(stash.records()) == expected


def test_appending_to_a_long_csv_writes_only_what_is_new(tmp_path: Path) -> None:
    stash = open_stash(tmp_path / "stash.csv")
    stash.append([record(number=number) for number in range(1, 2001)])
    inode, size = stash.path.stat().st_ino, stash.path.stat().st_size
    stash.append([record(number=2001)])
    assert stash.path.stat().st_ino == inode
    assert 0 < stash.path.stat().st_size - size < 2000
