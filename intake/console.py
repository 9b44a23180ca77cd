"""What goes to the terminal: one console for tables, one bar for a run."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from functools import cache
from typing import TYPE_CHECKING

from rich.console import Console
from rich.progress import (
    BarColumn,
    MofNCompleteColumn,
    Progress,
    TextColumn,
    TimeElapsedColumn,
    TimeRemainingColumn,
)

if TYPE_CHECKING:  # the readers of print are not loaded to print a line
    from intake.run import TagResult

_FILE_WIDTH = 160
"""A pipe or a file has no width of its own; its lines are broken here and not at 80."""

_LINES_OF_PROGRESS = 10
"""So often a run says how far it is where no bar can be drawn."""


@cache
def console() -> Console:
    """The console for what a command answers."""
    out = Console()
    return out if out.is_terminal else Console(width=_FILE_WIDTH)


def say(what: object) -> None:
    """Print a table, or a line that is not broken."""
    console().print(what, soft_wrap=isinstance(what, str), markup=False)


def with_progress(results: Iterable[TagResult], total: int) -> Iterator[TagResult]:
    """The results as they come; ``total`` pictures are counted on the error stream, under
    a bar with the time left, or a line now and then where that is no terminal."""
    errors = Console(stderr=True)
    counted = (
        _with_bar(results, total, errors) if errors.is_terminal else _with_lines(results, total)
    )
    yield from counted


def _with_bar(results: Iterable[TagResult], total: int, errors: Console) -> Iterator[TagResult]:
    columns = (
        TextColumn("reading"),
        BarColumn(),
        MofNCompleteColumn(),
        TextColumn("pictures, left:"),
        TimeRemainingColumn(),
        TextColumn("so far:"),
        TimeElapsedColumn(),
    )
    seen: set[str] = set()
    with Progress(*columns, console=errors) as bar:
        task = bar.add_task("", total=total)
        for result in results:
            seen.add(result.picture)
            bar.update(task, completed=len(seen))
            yield result


def _with_lines(results: Iterable[TagResult], total: int) -> Iterator[TagResult]:
    print(f"balltag: reading {total} pictures", file=sys.stderr, flush=True)
    step = max(1, total // _LINES_OF_PROGRESS)
    seen: set[str] = set()
    for result in results:
        if result.picture not in seen:
            seen.add(result.picture)
            if len(seen) % step == 0:
                print(f"balltag: {len(seen)} of {total} read", file=sys.stderr, flush=True)
        yield result
