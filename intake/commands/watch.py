"""``balltag watch``: take in each picture that lands in a folder."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from threading import Event
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JobsOption, ShadeCardOption, StashOption
from intake.commands.take_in import is_new, warn_of_missing_reader
from intake.errors import one_line


def watch_command(
    folder: Annotated[Path, typer.Argument(help="The folder that your pictures are synced to.")],
    stash: StashOption = DEFAULT_STASH,
    shade_card: ShadeCardOption = None,
    jobs: JobsOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print one line of JSON a tag instead of words.")
    ] = False,
) -> None:
    """Take in the pictures of a folder and each that lands in it, until Ctrl-C."""
    told_to_end = _told_to_end()  # first: loading takes a while, and libraries swallow Ctrl-C

    from intake.reports.intake import Tally, json_line, tag_line
    from intake.watch import watch

    warn_of_missing_reader()
    tally = Tally()
    try:
        results = watch(folder, stash, shade_card=shade_card, jobs=jobs, stop=told_to_end)
        where = one_line(str(stash.absolute()))
        begins = f"; a new stash begins at {where}" if is_new(stash) else ""
        print(f"balltag: watching {folder}{begins}; Ctrl-C ends it", file=sys.stderr, flush=True)
        for result in results:
            tally.add(result)
            print(json_line(result) if as_json else tag_line(result), flush=True)
    except KeyboardInterrupt:
        pass
    print(f"balltag: ended; {tally.in_words()}", file=sys.stderr)


def _told_to_end() -> Event:
    """Set by Ctrl-C or SIGTERM: the picture at hand is finished first.  The second time
    nothing is waited for."""
    told = Event()

    def tell(*_: object) -> None:
        if told.is_set():
            raise KeyboardInterrupt
        told.set()

    signal.signal(signal.SIGINT, tell)
    signal.signal(signal.SIGTERM, tell)
    return told
