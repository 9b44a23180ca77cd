"""The command ``balltag``: its commands by name, and what a failure tells the shell."""

from __future__ import annotations

import errno
import os
import sys
from typing import Any, NoReturn

import typer
from typer.core import TyperGroup

from intake.commands.accuracy import accuracy
from intake.commands.care import care_command
from intake.commands.change import correct, merge, split, withdraw
from intake.commands.check import check
from intake.commands.cover import cover_command
from intake.commands.export import export
from intake.commands.find import find_command
from intake.commands.history import history, undo
from intake.commands.import_sheet import import_sheet
from intake.commands.learnt import learnt, unlearn
from intake.commands.numbers import numbers
from intake.commands.plot import plot
from intake.commands.review import review
from intake.commands.tags import tags
from intake.commands.take_in import demo, intake_command
from intake.commands.watch import watch_command
from intake.commands.weigh import weigh_command
from intake.errors import BalltagError, ExitCode, NoAccess, NotAsked
from intake.start import TOLD

_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EIO})
"""A disk that is full or gone, a terminal that was closed."""


class Commands(TyperGroup):
    """The commands, each listed with what it does, which is broken into lines, not cut off."""

    def invoke(self, ctx: Any) -> Any:
        """Run one; Ctrl-C and the end of what is typed are told here, for typer would end
        without a word or with one of its own."""
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt:
            _tell_stopped()
        except typer.Abort as error:  # at a question
            print(file=sys.stderr)
            if not isinstance(error.__context__, EOFError):
                _tell_stopped()
            raise NotAsked(
                "nothing was changed, for the question was not answered; run it again"
            ) from error

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """Write the list of commands into the help."""
        with formatter.section("Commands"):
            formatter.write_dl(
                [(name, (one.help or "").split("\n\n")[0]) for name, one in self.commands.items()]
            )


app = typer.Typer(
    name="balltag",
    cls=Commands,
    help="Read pictures of yarn-ball tags into a stash; ask where a reading is not sure.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,  # plain help: rich would take longer to load than all else
)

app.command("intake")(intake_command)
app.command()(review)
app.command("watch")(watch_command)
app.command()(demo)
app.command()(accuracy)
app.command()(export)
app.command("import")(import_sheet)
app.command()(tags)
app.command()(plot)
app.command("find")(find_command)
app.command("weigh")(weigh_command)
app.command("cover")(cover_command)
app.command("care")(care_command)
app.command()(numbers)
app.command()(correct)
app.command()(merge)
app.command()(split)
app.command()(withdraw)
app.command()(history)
app.command()(undo)
app.command()(learnt)
app.command()(unlearn)
app.command()(check)


def main() -> None:
    """Run the command; every failure is one line and an exit code of
    :class:`~intake.errors.ExitCode`."""
    try:
        _run()
    except BalltagError as error:
        print(f"balltag: {error}", file=sys.stderr)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        _tell_stopped()
    except BrokenPipeError:
        # The reader of our output has gone, as with "| head".
        _print_nothing_more()
        sys.exit(ExitCode.OK)


def _run() -> None:
    try:
        try:
            app()
        except SystemExit:
            if sys.stdout is not None:  # it is where the output was closed
                sys.stdout.flush()  # else Python tells in its own words what cannot be written
            raise
    except OSError as error:
        if error.errno not in _FULL:
            raise
        _print_nothing_more()
        raise NoAccess(
            f"{error.filename or 'what is printed'} cannot be written ({error.strerror}); "
            "make room there; what was done stays done"
        ) from error


def _print_nothing_more() -> None:
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _tell_stopped() -> NoReturn:
    print(TOLD, file=sys.stderr)
    sys.exit(ExitCode.STOPPED)
