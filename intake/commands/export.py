"""``balltag export``: the stash as a spreadsheet."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption
from intake.errors import BadSheet

SinceOption = Annotated[
    str | None,
    typer.Option("--since", metavar="DAY", help="Balls filed on this day (UTC) or later."),
]
WhereOption = Annotated[
    list[str] | None,
    typer.Option(
        "--where",
        metavar="COLUMN=TEXT",
        help="Balls whose column holds this text; may be repeated.",
    ),
]


def export(
    out: Annotated[Path, typer.Argument(help="The spreadsheet to write: .xlsx, .ods or .csv.")],
    stash: StashOption = DEFAULT_STASH,
    since: SinceOption = None,
    where: WhereOption = None,
    garment_m: Annotated[
        float,
        typer.Option("--garment-m", min=1, help="Metres in a garment, for the lots under it."),
    ] = 1200.0,
    no_pictures: Annotated[
        bool, typer.Option("--no-pictures", help="Leave the small pictures of the tags out.")
    ] = False,
) -> None:
    """Write the stash as a spreadsheet: balls, shades, lots, and lots too small for a garment."""
    from intake.console import say
    from intake.exports.as_of import last_stroke
    from intake.exports.choice import chosen, condition, day
    from intake.exports.kinds import exporter_for
    from intake.exports.workbook import stash_sheets
    from intake.filing.cabinet import open_cabinet
    from intake.filing.kinds import KINDS
    from intake.sums.balls import balls
    from intake.sums.maker_sheet import maker_sheet_path

    exporter = exporter_for(out)
    conditions = [condition(written) for written in where or ()]
    since_day = day(since) if since else None
    cabinet = open_cabinet(stash)
    place = Path(os.path.realpath(out))
    own = [cabinet.stash.path.with_suffix(ending) for ending in KINDS]
    if place in (*own, maker_sheet_path(cabinet.stash.path)):
        raise BadSheet(f"{out} belongs to the stash itself; give another file to export to")
    as_of = last_stroke(cabinet.history)
    every = balls(cabinet)
    found = chosen(every, conditions, since_day)
    picture = None if no_pictures else cabinet.pictures.path
    exporter.write(stash_sheets(found, as_of, picture, garment_m), out)
    exported, all_there = (sum(ball.count for ball in those) for those in (found, every))
    say(f"{exported} of {all_there} balls are in {out}")
