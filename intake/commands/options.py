"""Options that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

StashOption = Annotated[
    Path,
    typer.Option("--stash", envvar="BALLTAG_STASH", help="The stash file, .csv or .parquet."),
]
DEFAULT_STASH = Path("stash.csv")

JobsOption = Annotated[
    int | None, typer.Option("--jobs", min=1, help="Worker processes; one a core by default.")
]

ClusterOption = Annotated[
    str | None,
    typer.Option(
        "--cluster",
        metavar="ADDRESS",
        help="Read with the workers of the dask cluster at this address, not with this machine's.",
    ),
]

BallsOption = Annotated[
    int | None,
    typer.Option("--balls", min=1, help="How many balls each of the tags stands for."),
]

ShadeCardOption = Annotated[
    Path | None,
    typer.Option("--shade-card", help="CSV of known shades: maker, range, shade, shade_code."),
]

JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON instead of the table.")]
