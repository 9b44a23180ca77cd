"""Large stashes of invented records for the benchmarks, with the files beside them."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.csv
import pyarrow.parquet
from matplotlib.colors import XKCD_COLORS

from intake.filing.columns import SCHEMA
from intake.filing.kinds import open_stash
from intake.filing.record import NUMBERS, VERSION
from intake.filing.store import Store
from intake.filing.written import VERSION as WRITTEN_VERSION

MAKERS = 60
SHADES = 20_000
LOTS_OF_A_SHADE = 12
_FIBRES = ("100% wool", "75% wool (merino); 25% polyamide", "50% cotton; 50% linen")
_AT_A_TIME = 50_000


def invented_table(count: int, seed: int = 1) -> pa.Table:
    """``count`` records by column.  Shades have names of the XKCD colour survey; each is of one
    of 60 makers and one of 7 ranges and has up to 12 lots of five or six digits."""
    chance = np.random.default_rng(seed)
    colours = np.array([name[5:].title() for name in XKCD_COLORS], dtype=object)
    kinds = min(SHADES, max(1, count // 20))
    shade = chance.integers(0, kinds, count)
    names = colours[chance.integers(0, len(colours), kinds)]
    lots = np.array([f"{lot:05}" for lot in chance.integers(0, 10**6, kinds * LOTS_OF_A_SHADE)])
    lot = lots[shade * LOTS_OF_A_SHADE + chance.integers(0, LOTS_OF_A_SHADE, count)]
    numbers = range(count)
    texts = {
        "id": [f"t{number:015x}" for number in numbers],
        "weight_class": np.array(["light", "fine", "medium"])[shade % 3],
        "shade": names[shade],
        "shade_code": [f"{one:05}" for one in shade],
        "lot": lot,
        "fibre": np.array(_FIBRES)[shade % 3],
        "care": ["hand wash; dry flat"] * count,
        "maker": [f"Maker {one}" for one in shade % MAKERS],
        "range": [f"Range {one}" for one in shade % 7],
        "picture": [f"scans/{number}.jpg" for number in numbers],
        "page": ["1"] * count,
        "tag": ["1"] * count,
        "digest": [f"{number:064x}" for number in numbers],
        "print_hash": [chance.bytes(32).hex() for _ in numbers],
        "tag_picture": [f"t{number:015x}.jpg" for number in numbers],
        "filed_at": ["2025-03-09T17:05:42Z"] * count,
        "version": [VERSION] * count,
    }
    amounts = {"length_m": [210.0] * count, "mass_g": [50.0] * count, "balls": [1] * count}
    blank = [""] * count
    columns = {name: {**texts, **amounts}.get(name, blank) for name in SCHEMA.names}
    return pa.table({name: pa.array(column) for name, column in columns.items()}).cast(SCHEMA)


def fill(path: Path, table: pa.Table) -> None:
    """Put the records of ``table`` where there is no stash yet, and what balltag keeps beside
    it, as if it had filed them."""
    store = Store(open_stash(path))
    if path.suffix == ".csv":
        options = pyarrow.csv.WriteOptions(quoting_style="needed")
        pyarrow.csv.write_csv(_as_text(table), path, options)
    else:
        pa.parquet.write_table(table, path)
    with store.written.path.open("wb") as file:
        file.write(b'{"version":%d}\n' % WRITTEN_VERSION)
        for part in _as_text(table).to_batches(max_chunksize=_AT_A_TIME):
            filled = [
                name for name, column in zip(part.schema.names, part.columns, strict=True)
                if column[0].as_py()
            ]  # fmt: skip
            lines = part.select(filled).to_pandas().to_json(orient="records", lines=True)
            file.write(lines.encode("ascii"))
    store.written.vouch(path)


def _as_text(table: pa.Table) -> pa.Table:
    """The cells as a CSV stash has them."""
    for name in NUMBERS:
        numbers = pc.cast(pc.cast(table[name], pa.int64()), pa.string())
        table = table.set_column(table.schema.names.index(name), name, numbers)
    return table
