"""``balltag plot``: pictures of the stash."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption
from intake.exports.plot_kinds import Plot


def plot(
    out: Annotated[Path, typer.Argument(help="The picture to draw: .png or .svg.")],
    of: Annotated[
        Plot,
        typer.Option("--of", help="metres by weight class and shade, or lots per shade over time."),
    ] = Plot.METRES,
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Draw what is in the stash."""
    from intake.console import say
    from intake.exports.plots import draw
    from intake.filing.cabinet import open_cabinet
    from intake.sums.balls import balls

    draw(balls(open_cabinet(stash)), of, out)
    say(f"The plot is {out}")
