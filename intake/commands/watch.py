"""``balltag watch``: take in each picture that lands in a folder."""

from __future__ import annotations

import signal
import sys
from pathlib import Path
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JobsOption, ShadeCardOption, StashOption
from intake.commands.take_in import warn_of_missing_reader


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
    from intake.reports.intake import Tally, json_line, tag_line
    from intake.watch import watch

    warn_of_missing_reader()
    tally = Tally()
    # Being told to end is how a watch ends, whoever tells it.
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        results = watch(folder, stash, shade_card=shade_card, jobs=jobs)
        print(f"balltag: watching {folder}; Ctrl-C ends it", file=sys.stderr, flush=True)
        for result in results:
            tally.add(result)
            print(json_line(result) if as_json else tag_line(result), flush=True)
    except KeyboardInterrupt:
        print(f"balltag: ended; {tally.in_words()}", file=sys.stderr)
