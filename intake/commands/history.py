"""``balltag history`` and ``balltag undo``: what was changed, and taking it back."""

from __future__ import annotations

from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption


def history(
    stash: StashOption = DEFAULT_STASH,
    record: Annotated[str, typer.Option("--record", help="Only this record's changes.")] = "",
    as_json: JsonOption = False,
) -> None:
    """List what was answered, corrected, merged, withdrawn and weighed, newest first."""
    from intake.console import say
    from intake.filing.cabinet import open_cabinet
    from intake.reports.history import change_json, changes_table

    kept = open_cabinet(stash).history
    changes = kept.changes(record)
    if as_json:
        for change in reversed(changes):
            print(change_json(change, kept))
    elif changes:
        say(changes_table(changes, kept))
    else:
        say(f"Nothing was changed{f' on {record}' if record else ''} yet.")


def undo(
    stroke: Annotated[
        str | None, typer.Argument(help="The stroke to take back; by default the last one.")
    ] = None,
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Take back what was done at one stroke.  This can itself be taken back, by its number."""
    from intake.console import say
    from intake.errors import CannotUndo
    from intake.filing.cabinet import open_cabinet
    from intake.reports.history import changes_table

    cabinet = open_cabinet(stash)
    stroke = stroke or cabinet.history.last_stroke()
    if not stroke:
        raise CannotUndo(f"nothing was changed in {stash} that could be taken back")
    say(changes_table(cabinet.undo(stroke), cabinet.history, f"Took back stroke {stroke}"))
