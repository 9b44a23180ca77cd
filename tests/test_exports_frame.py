"""The stash as a pandas data frame."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pandas as pd
import pytest
from exports_stash import TRICKY_LOTS, balls_of_lots

from intake import BalltagError, stash_frame
from intake.filing.kinds import open_stash
from intake.filing.record import COLUMNS


@pytest.mark.parametrize("ending", [".csv", ".parquet"])
def test_a_frame_keeps_lots_as_text_and_amounts_as_numbers(tmp_path: Path, ending: str) -> None:
    records = balls_of_lots(*(lot.strip() for lot in TRICKY_LOTS))
    records[0] = replace(records[0], length_m=None, balls=5)
    path = tmp_path / f"stash{ending}"
    open_stash(path).append(records)

    frame = stash_frame(path)

    assert list(frame.columns) == list(COLUMNS)
    assert frame["lot"].to_list() == [one.lot for one in records]
    assert frame["balls"].sum() == len(records) + 4
    assert frame["length_m"].isna().to_list() == [True] + [False] * (len(records) - 1)
    # pandas' own reader of the file, told to guess nothing, sees the same text.
    plain = pd.read_csv(path, dtype=str, keep_default_na=False) if ending == ".csv" else None
    if plain is not None:
        assert frame["lot"].to_list() == plain["lot"].to_list()


def test_a_stash_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(BalltagError, match=r"stash\.csv is not there"):
        stash_frame(tmp_path / "stash.csv")
