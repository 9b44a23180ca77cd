"""The command ``balltag``: thin over the functions that Python calls as well."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.errors import BalltagError, ExitCode, MissingProgram, NoPicture

if TYPE_CHECKING:
    from intake.report import Tally

    pass

app = typer.Typer(
    name="balltag",
    help="Read pictures of yarn-ball tags into a stash; ask where a reading is not sure.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
)

StashOption = Annotated[
    Path,
    typer.Option("--stash", envvar="BALLTAG_STASH", help="The stash file, .csv or .parquet."),
]
DEFAULT_STASH = Path("stash.csv")


def main() -> None:
    """Run the command; every failure is one line and an exit code of
    :class:`~intake.errors.ExitCode`."""
    try:
        app()
    except BalltagError as error:
        print(f"balltag: {error}", file=sys.stderr)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        print("balltag: stopped; what was filed stays filed, run it again to go on",
              file=sys.stderr)  # fmt: skip
        sys.exit(ExitCode.STOPPED)
    except BrokenPipeError:
        # The reader of our output has gone, as with "| head".
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(ExitCode.OK)


@app.command("intake")
def intake_command(
    pictures: Annotated[
        list[Path], typer.Argument(help="Pictures (JPEG, PNG, TIFF, WebP, HEIC, PDF) and folders.")
    ],
    stash: StashOption = DEFAULT_STASH,
    shade_card: Annotated[
        Path | None,
        typer.Option("--shade-card", help="CSV of known shades: maker, range, shade, shade_code."),
    ] = None,
    jobs: Annotated[
        int | None, typer.Option("--jobs", min=1, help="Worker processes; one a core by default.")
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print one line of JSON a tag instead of the table.")
    ] = False,
) -> None:
    """Read pictures of tags: file what is sure, queue the rest."""
    from intake.console import say, with_progress
    from intake.report import Tally, json_line
    from intake.run import intake, picture_count

    _warn_of_missing_reader()
    tally = Tally()
    results = intake(pictures, stash, shade_card=shade_card, jobs=jobs)
    for result in results if as_json else with_progress(results, picture_count(pictures)):
        tally.add(result)
        if as_json:
            print(json_line(result), flush=True)
    if not as_json:
        say(tally.table())
        _say_how_to_answer(tally, stash)
    raise typer.Exit(tally.exit_code)


@app.command()
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


@app.command()
def demo(
    jobs: Annotated[
        int | None, typer.Option("--jobs", min=1, help="Worker processes; one a core by default.")
    ] = None,
) -> None:
    """Read the demo pictures into a stash in a new folder and print the records."""
    from intake.console import say, with_progress
    from intake.filing.kinds import open_stash
    from intake.report import Tally, records_table
    from intake.run import intake, picture_count

    _warn_of_missing_reader()
    pictures = _demo_scans()
    stash = Path(tempfile.mkdtemp(prefix="balltag-demo-")) / "stash.csv"
    tally = Tally()
    for result in with_progress(intake([pictures], stash, jobs=jobs), picture_count([pictures])):
        tally.add(result)
    if stash.exists():
        say(records_table(open_stash(stash).read().records))
    say(tally.table())
    say(f"The stash is {stash}")
    _say_how_to_answer(tally, stash)
    raise typer.Exit(tally.exit_code)


@app.command()
def accuracy(
    folder: Annotated[Path, typer.Argument(help="The folder of the pictures.")],
    truth: Annotated[
        Path, typer.Argument(help="CSV of what the tags say: picture, tag, kind and fields.")
    ],
    jobs: Annotated[
        int | None, typer.Option("--jobs", min=1, help="Worker processes; one a core by default.")
    ] = None,
    shade_card: Annotated[
        Path | None,
        typer.Option("--shade-card", help="CSV of known shades: maker, range, shade, shade_code."),
    ] = None,
    baselines: Annotated[
        bool, typer.Option("--baselines", help="Read the pictures with less, too, and compare.")
    ] = False,
    out: Annotated[Path | None, typer.Option("--out", help="Write the figures as JSON.")] = None,
    plot: Annotated[
        Path | None, typer.Option("--plot", help="Draw confidence against frequency (.png).")
    ] = None,
    dump: Annotated[
        Path | None, typer.Option("--dump", help="Write every field and its evidence (.jsonl).")
    ] = None,
    keep_lines: Annotated[
        Path | None, typer.Option("--keep-lines", help="Keep what was read (.jsonl.gz).")
    ] = None,
    from_lines: Annotated[
        Path | None, typer.Option("--from-lines", help="Parse kept lines; read no picture.")
    ] = None,
) -> None:
    """Measure how well pictures are read whose truth you wrote down."""
    from intake.console import console

    try:
        from intake.accuracy.command import Files, measure_and_tell
    except ModuleNotFoundError as error:
        raise MissingProgram(
            f"the package {error.name} is not installed; install it with: "
            "pip install 'balltag[accuracy]'"
        ) from error

    _warn_of_missing_reader()
    measure_and_tell(
        folder,
        truth,
        console(),
        Files(out, plot, dump, keep_lines),
        from_lines=from_lines,
        baselines=baselines,
        shade_card=shade_card,
        jobs=jobs,
    )


def _say_how_to_answer(tally: Tally, stash: Path) -> None:
    from intake.console import say

    if tally.waiting:
        say(f"To answer what is asked: balltag review --terminal --stash {stash}")


def _demo_scans() -> Path:
    """The demo pictures: in the checkout beside the package, or installed within it."""
    here = Path(__file__).resolve().parent
    for folder in (here / "demo_scans", here.parent / "demo_scans"):
        if folder.is_dir():
            return folder
    raise NoPicture("the demo pictures are not there; install balltag from its source folder")


def _warn_of_missing_reader() -> None:
    from intake.reading.tesseract import HOW_TO_INSTALL, language_sets

    if not language_sets():
        print(f"balltag: {HOW_TO_INSTALL}", file=sys.stderr)
