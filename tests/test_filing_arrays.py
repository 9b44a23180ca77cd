"""Arrow's columns as arrays, checked against pyarrow's own ways of making them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
import pytest

from intake.filing.arrays import numbers, row_numbers, text_scalar, truths

_SEARCH = """
import sys
from pathlib import Path
from intake.filing.cabinet import open_cabinet
from intake.sums.catalogue import catalogue
from intake.sums.find import Query, find

found = find(catalogue(open_cabinet(Path(sys.argv[1]))), Query(words=("kelp",), lot="0412"))
print(len(found.lots), "pandas" in sys.modules)
"""


@pytest.mark.parametrize("kind", [pa.int32(), pa.uint64(), pa.float64()])
def test_numbers_are_what_pyarrow_makes_of_them(kind: pa.DataType) -> None:
    whole = pa.array([7, 0, 3, 2, 9], kind)
    for column in (whole, whole[2:], whole[:0], pa.chunked_array([whole[:2], whole[3:]])):
        expected = column.to_numpy()
        assert numbers(column).dtype == expected.dtype
        assert numbers(column).tolist() == expected.tolist()


def test_truth_values_are_what_pyarrow_makes_of_them() -> None:
    column = pa.chunked_array([[True, False] * 5, [True]])
    assert truths(column).tolist() == column.to_numpy().tolist()
    assert truths(column[3:]).dtype == np.bool_


@pytest.mark.parametrize("text", ["", "0012", "Grün", "a\x00b"])
def test_a_text_is_found_in_a_column(text: str) -> None:
    column = pa.array(["0012", "", "Grün", "12", "a\x00b"])
    assert text_scalar(text) == pa.scalar(text)
    assert pc.equal(column, text_scalar(text)).to_pylist() == [
        each == text for each in column.to_pylist()
    ]


def test_rows_are_taken_by_their_numbers() -> None:
    table = pa.table({"lot": ["0012", "0013", "0014", "0015"]})
    taken = table.take(row_numbers(np.flatnonzero([True, False, False, True])))
    assert taken["lot"].to_pylist() == ["0012", "0015"]


def test_a_search_does_not_wait_for_pandas(tmp_path: Path) -> None:
    from filing_tags import tag

    from intake.filing.cabinet import open_cabinet

    stash = tmp_path / "stash.csv"
    open_cabinet(stash).file(tag("a.jpg", shade="Kelp", lot="0412"))
    told = subprocess.run(
        [sys.executable, "-c", _SEARCH, str(stash)], check=True, capture_output=True, text=True
    )
    assert told.stdout.split() == ["1", "False"]
