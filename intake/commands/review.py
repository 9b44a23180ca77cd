"""``balltag review``: answer what is doubtful."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption


def review(
    stash: StashOption = DEFAULT_STASH,
    terminal: Annotated[bool, typer.Option("--terminal", help="Ask here in the terminal.")] = False,
) -> None:
    """Answer what is doubtful about the tags that wait in the queue."""
    from intake.console import console
    from intake.filing.cabinet import open_cabinet
    from intake.terminal_review import review as review_in_terminal

    if not terminal:
        raise typer.BadParameter("give --terminal: the review runs in the terminal")
    review_in_terminal(open_cabinet(stash), console(), sys.stdin)
