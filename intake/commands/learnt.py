"""``balltag learnt`` and ``balltag unlearn``: what answers taught, and taking it back."""

from __future__ import annotations

from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption


def learnt(stash: StashOption = DEFAULT_STASH, as_json: JsonOption = False) -> None:
    """List what your answers taught about makers, ranges and shades, newest first."""
    from intake.console import say
    from intake.filing.cabinet import open_cabinet
    from intake.reports.learnt import lesson_json, lessons_table

    lessons = open_cabinet(stash).learnt.lessons()
    if as_json:
        for lesson in reversed(lessons):
            print(lesson_json(lesson))
    elif lessons:
        say(lessons_table(lessons))
    else:
        say("Nothing was learnt yet: answers to doubtful tags teach.")


def unlearn(
    lessons: Annotated[list[str], typer.Argument(help="Numbers from balltag learnt.")],
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Take back what an answer taught; what it filed stays as it is."""
    from intake.console import say
    from intake.filing.cabinet import open_cabinet
    from intake.reports.learnt import lessons_table

    cabinet = open_cabinet(stash)
    say(lessons_table([cabinet.unlearn(lesson) for lesson in lessons], "No longer used"))
