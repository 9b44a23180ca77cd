"""``balltag review``: answer what is doubtful, on a page or in the terminal."""

from __future__ import annotations

import sys
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption


def review(
    stash: StashOption = DEFAULT_STASH,
    terminal: Annotated[bool, typer.Option("--terminal", help="Ask here in the terminal.")] = False,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help="Open the page in the browser.")
    ] = True,
    port: Annotated[
        int | None, typer.Option("--port", min=1, max=65535, help="Where the page is served.")
    ] = None,
    phone: Annotated[
        bool, typer.Option("--phone", help="Let in phones on the home network, by a code.")
    ] = False,
) -> None:
    """Answer what is doubtful about the tags that wait in the queue, and look at the stash."""
    from intake.filing.cabinet import open_cabinet

    cabinet = open_cabinet(stash)
    if terminal:
        from intake.console import console
        from intake.terminal_review import review as review_in_terminal

        review_in_terminal(cabinet, console(), sys.stdin)
    else:
        from intake.desk.serve import serve_desk

        serve_desk(cabinet, port, browser=browser, phone=phone)
