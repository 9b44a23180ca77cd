"""The stash as a pandas data frame, for whoever goes on in Python or a notebook."""

from __future__ import annotations

import os
from pathlib import Path

import pandas as pd

from intake.errors import BadStash
from intake.filing.kinds import open_stash
from intake.filing.record import AMOUNTS, COLUMNS


def stash_frame(path: str | os.PathLike[str]) -> pd.DataFrame:
    """The records of the stash at ``path`` (CSV or Parquet), one a row in the order of filing.

    The columns are those of :class:`~intake.filing.record.Record`: ``length_m`` in metres and
    ``mass_g`` in grams of one ball as ``float64`` (NaN where a tag has none), ``balls`` as
    ``int64``, and all else as text, so that lots, codes and barcodes keep their leading
    zeros.  Raises :class:`BadStash` where there is no stash, or none that can be read.
    """
    if not Path(path).exists():
        raise BadStash(f"{path} is not there; name the stash that balltag keeps")
    records = open_stash(path).records()
    kinds = dict.fromkeys(COLUMNS, "string") | dict.fromkeys(AMOUNTS, "float64")
    kinds["balls"] = "int64"
    return pd.DataFrame(
        {
            name: pd.Series([getattr(record, name) for record in records], dtype=kind)
            for name, kind in kinds.items()
        }
    )
