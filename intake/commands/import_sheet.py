"""``balltag import``: a corrected spreadsheet comes back into the stash."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption
from intake.errors import ExitCode, NotAsked, StashBusy

if TYPE_CHECKING:
    from intake.exports.corrections import Corrections
    from intake.exports.sheet_in import SheetIn
    from intake.filing.cabinet import Cabinet


def import_sheet(
    sheet: Annotated[
        Path, typer.Argument(help="A spreadsheet of balltag export, corrected: .xlsx, .ods, .csv.")
    ],
    stash: StashOption = DEFAULT_STASH,
    yes: Annotated[
        bool, typer.Option("--yes", help="Do not ask; what is doubtful is then left out.")
    ] = False,
) -> None:
    """Show what a corrected spreadsheet changes in the stash, ask, and change it."""
    from intake.console import say
    from intake.exports.reading_back import read_back
    from intake.filing.cabinet import open_cabinet
    from intake.reports.corrections import correction_lines, doubts_table, reasons

    cabinet, came = open_cabinet(stash), read_back(sheet)
    found = _corrections(cabinet, came)
    doubts = cabinet.correction_doubts(found.edits())
    wanted = found
    if yes:
        wanted = found.without({one: reasons(about) for one, about in doubts.items()})
    for line in correction_lines(wanted):
        say(line)
    if doubts and not yes:
        say(doubts_table(doubts))
    if wanted.made and (yes or _is_agreed()):
        if _corrections(cabinet, came) != found:
            raise StashBusy(f"{stash} was changed meanwhile; run it again and look once more")
        cabinet.correct(wanted.edits())
        say(f"Changed cells in {stash}: {len(wanted.made)}")
    raise typer.Exit(ExitCode.SOME_FAILED if wanted.refused else ExitCode.OK)


def _corrections(cabinet: Cabinet, came: SheetIn) -> Corrections:
    from intake.exports.as_of import PastCells
    from intake.exports.corrections import find_corrections
    from intake.sums.balls import balls

    return find_corrections(came, balls(cabinet), PastCells(cabinet.history))


def _is_agreed() -> bool:
    """Whether the user wants the changes.  Raises :class:`NotAsked` where nobody is there."""
    if not sys.stdin.isatty():
        raise NotAsked("nothing was changed; run it in a terminal to be asked, or add --yes")
    return typer.confirm("Make these changes?")
