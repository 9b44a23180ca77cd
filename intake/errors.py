"""What can go wrong, each with its one line for the user and its exit code."""

from __future__ import annotations

import re
from enum import IntEnum

_LONGEST_QUOTED = 40

_BREAKS = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029]+")
_UNDECODABLE = re.compile(r"[\ud800-\udfff]")


def one_line(text: str) -> str:
    """``text`` without control characters, line breaks and bytes that are no text, so
    that a record is one line of a CSV file and of a terminal."""
    return _UNDECODABLE.sub("\ufffd", _BREAKS.sub(" ", text))


def quoted(text: str) -> str:
    """``text`` in quotes, for a message: of a long one the beginning, for a broken file may
    hold anything."""
    return repr(text if len(text) <= _LONGEST_QUOTED else f"{text[:_LONGEST_QUOTED]}…")


def said_by(error: Exception) -> str:
    """What a library's error says, for a message: some break their lines, others say nothing."""
    return " ".join(str(error).split()) or type(error).__name__


class ExitCode(IntEnum):
    """Exit codes of the ``balltag`` command.  A queue is normal and is no error."""

    OK = 0
    """All went through."""
    OTHER = 1
    """A fault of balltag's own."""
    USAGE = 2
    """The command line could not be understood."""
    SOME_FAILED = 3
    """Some pictures or rows could not be read; the others went through."""
    NO_PICTURE = 4
    """No picture was found at all, or none could be read."""
    BAD_STASH = 5
    """The stash, queue or shade card cannot be read or has foreign columns."""
    NO_ACCESS = 6
    """A folder or file that must be written cannot be."""
    BUSY = 7
    """Another balltag holds the stash and did not let go in time."""
    MISSING_PROGRAM = 8
    """A program or package that is needed is not installed."""
    NOT_ASKED = 9
    """What would change was shown only, for nobody could be asked."""
    NOT_AGREED = 10
    """The stash and what lies beside it do not agree."""
    NO_WORKERS = 11
    """No worker reads the pictures: the cluster cannot be reached or may not be used."""
    STOPPED = 130
    """Stopped by the user; what was filed stays filed."""


class BalltagError(Exception):
    """A failure that the user can act on.  ``str(error)`` is one line: what is wrong
    and what to do."""

    exit_code = ExitCode.OTHER

    def __str__(self) -> str:
        """One line, also where the name of a file would break it or command the terminal."""
        return one_line(super().__str__())


class PictureError(BalltagError):
    """One picture cannot be read; the others go on."""

    exit_code = ExitCode.SOME_FAILED


class NotAPicture(PictureError):
    """The file is of no format that can be read."""


class EmptyFile(PictureError):
    """The file has no bytes."""


class CutShort(PictureError):
    """The file ends before its picture does."""


class TooLarge(PictureError):
    """The picture would take more memory than it may (a decompression bomb)."""


class TooSlow(PictureError):
    """Reading the picture took longer than it may; its worker was ended."""


class LockedPdf(PictureError):
    """The PDF wants a password."""


class Unreadable(PictureError):
    """The file may not be opened."""


class NoTag(PictureError):
    """No print was found in the picture."""


class NoPicture(BalltagError):
    """Nothing to read among the paths that were given."""

    exit_code = ExitCode.NO_PICTURE


class BadStash(BalltagError):
    """The stash cannot be read as one."""

    exit_code = ExitCode.BAD_STASH


class BadTable(BalltagError):
    """A maker sheet, a plan or a shade card cannot be read as one."""

    exit_code = ExitCode.BAD_STASH


class BadSheet(BalltagError):
    """A spreadsheet cannot be written or read as one of the stash."""

    exit_code = ExitCode.BAD_STASH


class BadPlot(BalltagError):
    """There is nothing to draw, or nothing to draw it into."""

    exit_code = ExitCode.USAGE


class NotAsked(BalltagError):
    """Nothing was changed, for it must be asked first and nobody is there to answer."""

    exit_code = ExitCode.NOT_ASKED


class BadQuery(BalltagError):
    """What is looked for cannot be understood."""

    exit_code = ExitCode.USAGE


class NoAccess(BalltagError):
    """A place that must be written cannot be."""

    exit_code = ExitCode.NO_ACCESS


class NotConfirmed(NoAccess):
    """A file is written and in its place, but the disk did not confirm it: a power cut now
    may bring the old one back."""


class StashBusy(BalltagError):
    """The stash is locked by another process."""

    exit_code = ExitCode.BUSY


class NoSuchRecord(BalltagError):
    """No record of the stash has that id."""

    exit_code = ExitCode.USAGE


class CannotUndo(BalltagError):
    """A change cannot be taken back as things stand."""

    exit_code = ExitCode.USAGE


class WhichBall(BalltagError):
    """No ball, or more than one, goes by what was given."""

    exit_code = ExitCode.USAGE


class BadAmount(BalltagError):
    """A length, mass or humidity that cannot be."""

    exit_code = ExitCode.USAGE


class NotWeighable(BalltagError):
    """A ball of which too little is known to make metres of grams."""

    exit_code = ExitCode.USAGE


class MissingProgram(BalltagError):
    """Something that balltag needs is not installed."""

    exit_code = ExitCode.MISSING_PROGRAM


class NoWorkers(BalltagError):
    """The cluster does not answer, has no workers or another balltag, or went away."""

    exit_code = ExitCode.NO_WORKERS
