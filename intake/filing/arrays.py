"""Arrow's columns as NumPy's arrays and back, without a copy.

pyarrow's own ways of doing so, and whatever makes an Arrow value of a Python object, import
pandas where it is installed: half a second, more than all else that a search takes.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
from numpy.typing import NDArray


def numbers(column: pa.Array | pa.ChunkedArray) -> NDArray[Any]:
    """A column of numbers without nulls."""
    return np.from_dlpack(_one_array(column))


def truths(column: pa.Array | pa.ChunkedArray) -> NDArray[np.bool_]:
    """A column of truth values without nulls."""
    return numbers(pc.cast(column, pa.uint8())).view(np.bool_)


def row_numbers(rows: NDArray[np.int64]) -> pa.Array:
    """Numbers of rows, to take these rows of a table."""
    whole = np.ascontiguousarray(rows, np.int64)
    return pa.Array.from_buffers(pa.int64(), len(whole), [None, pa.py_buffer(whole)])


def text_scalar(text: str) -> pa.StringScalar:
    """``text`` as a value of a text column, to compare a column with."""
    data = text.encode()
    ends = pa.py_buffer(np.array([0, len(data)], np.int32))
    return pa.StringArray.from_buffers(1, ends, pa.py_buffer(data))[0]


def _one_array(column: pa.Array | pa.ChunkedArray) -> pa.Array:
    return column.combine_chunks() if isinstance(column, pa.ChunkedArray) else column
