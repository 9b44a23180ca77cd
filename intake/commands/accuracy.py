"""``balltag accuracy``: measure how well pictures are read."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from intake.commands.options import JobsOption, ShadeCardOption
from intake.commands.take_in import warn_of_missing_reader


def accuracy(
    folder: Annotated[Path, typer.Argument(help="The folder of the pictures.")],
    truth: Annotated[
        Path, typer.Argument(help="CSV of what the tags say: picture, tag, kind and fields.")
    ],
    jobs: JobsOption = None,
    shade_card: ShadeCardOption = None,
    baselines: Annotated[
        bool, typer.Option("--baselines", help="Read the pictures with less, too, and compare.")
    ] = False,
    reviewed: Annotated[
        bool,
        typer.Option(
            "--reviewed", help="Answer what is asked from the truth before the next picture."
        ),
    ] = False,
    out: Annotated[Path | None, typer.Option("--out", help="Write the figures as JSON.")] = None,
    plot: Annotated[
        Path | None, typer.Option("--plot", help="Draw confidence against frequency (.png).")
    ] = None,
    dump: Annotated[
        Path | None, typer.Option("--dump", help="Write every field and its evidence (.jsonl).")
    ] = None,
    keep_lines: Annotated[
        Path | None, typer.Option("--keep-lines", help="Keep what was read (.jsonl.gz).")
    ] = None,
    from_lines: Annotated[
        Path | None, typer.Option("--from-lines", help="Parse kept lines; read no picture.")
    ] = None,
) -> None:
    """Measure how well pictures are read whose truth you wrote down."""
    from intake.accuracy.command import Files, measure_and_tell
    from intake.console import console

    warn_of_missing_reader()
    measure_and_tell(
        folder,
        truth,
        console(),
        Files(out, plot, dump, keep_lines),
        from_lines=from_lines,
        baselines=baselines,
        reviewed=reviewed,
        shade_card=shade_card,
        jobs=jobs,
    )
