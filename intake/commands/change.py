"""``balltag correct``, ``merge``, ``split`` and ``withdraw``: change what is filed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption

if TYPE_CHECKING:
    from intake.filing.cabinet import Cabinet
    from intake.filing.changes import Change

RecordArgument = Annotated[str, typer.Argument(help="The id of the record.")]


def correct(
    record: RecordArgument,
    values: Annotated[
        list[str], typer.Argument(help="What the tag says: column=value, column= for none.")
    ],
    stash: StashOption = DEFAULT_STASH,
    yes: Annotated[
        bool, typer.Option("--yes", help="Correct it although the new value is doubtful.")
    ] = False,
) -> None:
    """Set columns of a filed record: balltag correct ID lot=0012 mass_g=50."""
    from intake.filing.answers import BadAnswer
    from intake.filing.cabinet import open_cabinet

    cabinet = open_cabinet(stash)
    edits = {record: dict(map(_column_and_value, values))}
    doubts = [] if yes else cabinet.correction_doubts(edits).get(record, [])
    if doubts:
        reasons = "; ".join(doubt.reason for doubt in doubts)
        raise BadAnswer(f"{reasons}; if it is right as you typed it, say so with --yes")
    _say_what_was_done(cabinet, cabinet.correct(edits))


def withdraw(
    records: Annotated[list[str], typer.Argument(help="The ids of the records.")],
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Take records out of the stash; their tag pictures and their history stay."""
    from intake.filing.cabinet import open_cabinet

    cabinet = open_cabinet(stash)
    _say_what_was_done(cabinet, cabinet.withdraw(records))


def merge(
    keep: Annotated[str, typer.Argument(help="The id of the record that stays, as it is.")],
    others: Annotated[list[str], typer.Argument(help="The ids of those that leave.")],
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Say that records are of one ball: the first one stays, the others leave the stash."""
    from intake.filing.cabinet import open_cabinet

    cabinet = open_cabinet(stash)
    _say_what_was_done(cabinet, cabinet.merge(keep, others))


def split(
    record: RecordArgument,
    balls: Annotated[int, typer.Option("--balls", min=1, help="How many balls go.")] = 1,
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Give some of the balls that a record stands for a record of their own."""
    from intake.filing.cabinet import open_cabinet

    cabinet = open_cabinet(stash)
    _say_what_was_done(cabinet, cabinet.split(record, balls))


def _column_and_value(text: str) -> tuple[str, str]:
    from intake.filing.answers import BadAnswer

    column, equals, value = text.partition("=")
    if not equals:
        raise BadAnswer(f"{text!r} sets nothing; write column=value, such as lot=0012")
    return column.strip(), value


def _say_what_was_done(cabinet: Cabinet, changes: Sequence[Change]) -> None:
    from intake.console import say
    from intake.reports.history import changes_table

    if not changes:
        say("Nothing to change: the stash says so already.")
        return
    stroke = changes[0].stroke
    say(changes_table(changes, cabinet.history, f"Done; balltag undo {stroke} takes it back"))
