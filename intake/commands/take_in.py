"""``balltag intake`` and ``balltag demo``: read pictures into a stash."""

from __future__ import annotations

import sys
import tempfile
from contextlib import AbstractContextManager, closing, nullcontext
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.check import warn_of_conflict_copies
from intake.commands.options import (
    DEFAULT_STASH,
    BallsOption,
    ClusterOption,
    JobsOption,
    ShadeCardOption,
    StashOption,
)
from intake.errors import NoPicture, one_line

if TYPE_CHECKING:
    from intake.cluster import Cluster
    from intake.reports.intake import Tally


def intake_command(
    pictures: Annotated[
        list[Path], typer.Argument(help="Pictures (JPEG, PNG, TIFF, WebP, HEIC, PDF) and folders.")
    ],
    stash: StashOption = DEFAULT_STASH,
    shade_card: ShadeCardOption = None,
    balls: BallsOption = None,
    jobs: JobsOption = None,
    cluster: ClusterOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print one line of JSON a tag instead of the table.")
    ] = False,
    with_profile: Annotated[
        bool,
        typer.Option(
            "--profile", help="Say in a table where the time went; of this machine's workers."
        ),
    ] = False,
) -> None:
    """Read pictures of tags: file what is sure, queue the rest."""
    from intake.console import say, with_progress
    from intake.profile import Profile
    from intake.reports.intake import Tally, json_line
    from intake.run import intake, picture_count
    from intake.stages import process_start_s

    warn_of_missing_reader()
    warn_of_conflict_copies(stash)
    begins = is_new(stash)
    tally = Tally()
    profile = Profile(process_start_s()) if with_profile else None
    with (
        _reached(cluster) as there,
        closing(
            intake(
                pictures,
                stash,
                shade_card=shade_card,
                balls=balls,
                jobs=jobs or (there.workers if there else None),
                executor=there.executor if there else None,
                profile=profile,
            )
        ) as results,
    ):
        for result in results if as_json else with_progress(results, picture_count(pictures)):
            tally.add(result)
            if as_json:
                print(json_line(result), flush=True)
    if not as_json:
        say(tally.table())
        if begins and not is_new(stash):
            say(f"A new stash begins with them: {one_line(str(stash.absolute()))}")
        _say_how_to_answer(tally, stash)
    if profile is not None:
        from rich.console import Console

        from intake.reports.profile import profile_table

        profile.end()
        Console(stderr=True, width=100).print(profile_table(profile))
    raise typer.Exit(tally.exit_code)


def _reached(address: str | None) -> AbstractContextManager[Cluster | None]:
    """The cluster at ``address``, if one is named."""
    if address is None:
        return nullcontext()
    from intake.cluster import connected

    return connected(address)


def demo(jobs: JobsOption = None) -> None:
    """Read the demo pictures into a stash in a new folder and print the records."""
    from intake.console import say, with_progress
    from intake.filing.kinds import open_stash
    from intake.reports.intake import Tally, records_table
    from intake.run import intake, picture_count

    warn_of_missing_reader()
    pictures = _demo_scans()
    stash = Path(tempfile.mkdtemp(prefix="balltag-demo-")) / "stash.csv"
    tally = Tally()
    with closing(intake([pictures], stash, jobs=jobs)) as results:
        for result in with_progress(results, picture_count([pictures])):
            tally.add(result)
    if stash.exists():
        say(records_table(open_stash(stash).read().records))
    say(tally.table())
    say(f"The stash is {stash}")
    _say_how_to_answer(tally, stash)
    raise typer.Exit(tally.exit_code)


def _say_how_to_answer(tally: Tally, stash: Path) -> None:
    from intake.console import say

    if tally.waiting:
        say(f"To answer what is asked: balltag review --stash {stash}")


def _demo_scans() -> Path:
    """The demo pictures: in the checkout beside the package, or installed within it."""
    here = Path(__file__).resolve().parent.parent
    for folder in (here / "demo_scans", here.parent / "demo_scans"):
        if folder.is_dir():
            return folder
    raise NoPicture("the demo pictures are not there; install balltag from its source folder")


def warn_of_missing_reader() -> None:
    """Say so where Tesseract or its languages are not installed."""
    from intake.reading.tesseract_data import HOW_TO_INSTALL, language_sets

    if not language_sets():
        print(f"balltag: {HOW_TO_INSTALL}", file=sys.stderr)


def is_new(stash: Path) -> bool:
    """Whether nothing was kept under this name.  It is said, for a name that was mistyped, or a
    disk that is not there, would begin a stash unseen."""
    return not stash.exists() and not stash.with_suffix(".queue").exists()
