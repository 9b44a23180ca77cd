"""The table of a stash holds what its records hold, cell by cell."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pandas
import pytest
from filing_tags import record
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_filing_stash import rows

from intake.errors import BadStash
from intake.filing.columns import SCHEMA, records_of, table_of, table_of_csv
from intake.filing.kinds import open_stash
from intake.filing.record import NUMBERS, Record
from intake.filing.stash import Stash


@pytest.fixture(params=[".csv", ".parquet"])
def stash(request: pytest.FixtureRequest, tmp_path: Path) -> Stash:
    return open_stash(tmp_path / f"stash{request.param}")


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(filed=st.lists(rows, min_size=1, max_size=4))
def test_the_table_holds_the_records(
    ending: str, filed: list[Record], tmp_path_factory: pytest.TempPathFactory
) -> None:
    stash = open_stash(tmp_path_factory.mktemp("columns") / f"stash{ending}")
    stash.append(filed)
    assert list(records_of(stash.table())) == filed
    assert stash.table().schema == SCHEMA


def test_the_table_of_a_csv_file_is_the_one_that_pandas_reads(tmp_path: Path) -> None:
    """pandas reads the same cells as text, an independent reader of CSV."""
    path = tmp_path / "stash.csv"
    stash = open_stash(path)
    stash.append([record(), record(number=2, lot="NA", note='said "one, two"')])
    frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
    table = stash.table()
    for name in table.schema.names:
        if name not in NUMBERS:
            assert table[name].to_pylist() == frame[name].tolist()
        else:
            assert table[name].to_pylist() == [float(cell) for cell in frame[name]]


def test_no_file_and_no_rows_make_an_empty_table(stash: Stash) -> None:
    assert stash.table().num_rows == 0
    stash.append([record()])
    stash.remove([record().id])
    assert stash.table().num_rows == 0
    assert stash.table().schema == SCHEMA


def test_a_torn_line_is_passed_over(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    stash = open_stash(path)
    stash.append([record(), record(number=2)])
    path.write_bytes(path.read_bytes()[:-40])
    assert list(records_of(stash.table())) == [record()]


def test_a_mark_and_other_line_ends_change_nothing(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    stash = open_stash(path)
    stash.append([record()])
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert list(records_of(stash.table())) == [record()]


@pytest.mark.parametrize(
    ("old", "new"),
    [(b",50,", b",fifty,"), (b",50,", b",nan,"), (b",50,", b",inf,"), (b",2\n", b",\n"),
     (b",0012,", b",00,12,"), (b",0012,", b",\xff,")],
)  # fmt: skip
def test_a_bad_line_is_said_as_the_rows_say_it(tmp_path: Path, old: bytes, new: bytes) -> None:
    path = tmp_path / "stash.csv"
    stash = open_stash(path)
    stash.append([record(), record(number=2), record(number=3)])
    head, first, second, third = path.read_bytes().splitlines(keepends=True)
    path.write_bytes(head + first + second.replace(old, new) + third)
    with pytest.raises(BadStash) as by_rows:
        stash.records()
    with pytest.raises(BadStash) as by_table:
        stash.table()
    assert str(by_table.value) == str(by_rows.value)


def test_what_arrow_alone_would_refuse_is_still_read(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    stash = open_stash(path)
    stash.append([record()])
    path.write_bytes(path.read_bytes().replace(b",50,", b",5_0,"))
    assert table_of_csv(path.read_bytes()) is None
    assert list(records_of(stash.table())) == [replace(record(), mass_g=50.0)]


def test_a_table_of_records_leaves_unknown_numbers_out() -> None:
    table = table_of([replace(record(), length_m=None)])
    assert table["length_m"].null_count == 1
