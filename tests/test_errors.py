"""Each failure has one line, an exit code and a place in the guide's table; each exit code is
reached by the command itself."""

from __future__ import annotations

import ast
import errno
import importlib
import json
import os
import pkgutil
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from filelock import FileLock
from filing_tags import tag, waiting_tag
from messages import by_failure, guide, places, unreached
from PIL import Image

import intake
from intake import errors
from intake.errors import BalltagError, ExitCode, NotConfirmed
from intake.filing.cabinet import open_cabinet
from intake.filing.safe_write import replace_file
from intake.reading.tesseract_data import HOW_TO_INSTALL

GUIDE = Path(__file__).parent.parent / "DEVELOPERS.md"
_PROGRESS = re.compile(r"balltag: (?:reading \d+ pictures|\d+ of \d+ read)")
_ROW = re.compile(r"\| (\d+) \| `(\w+)` \| (.+) \|")


def all_failures() -> list[type[BalltagError]]:
    for module in pkgutil.walk_packages(intake.__path__, "intake."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)
    return sorted(_below(BalltagError), key=lambda one: (int(one.exit_code), one.__name__))


def _below(failure: type[BalltagError]) -> Iterator[type[BalltagError]]:
    for one in failure.__subclasses__():
        if one.__module__.startswith("intake."):
            yield one
        yield from _below(one)


def meaning(failure: type[BalltagError]) -> str:
    """The first paragraph of its docstring, as plain words."""
    words = " ".join((failure.__doc__ or "").split("\n\n")[0].split())
    return re.sub(r"``(.*?)``", r"`\1`", words)


def table() -> list[str]:
    """The rows of the guide's table, made from the docstrings."""
    each = {one.__name__: one for one in all_failures()}.values()
    return [f"| {int(one.exit_code)} | `{one.__name__}` | {meaning(one)} |" for one in each]


def test_the_guide_lists_every_failure() -> None:
    told = [line for line in GUIDE.read_text("utf-8").splitlines() if _ROW.fullmatch(line)]
    assert told == table(), "put these rows into DEVELOPERS.md:\n" + "\n".join(table())


def test_the_guide_lists_every_message() -> None:
    told = GUIDE.read_text("utf-8")
    assert told.endswith(f"\n```\n\n{guide()}\n"), (
        "put what python tests/messages.py prints at the end of DEVELOPERS.md"
    )


def test_every_message_says_what_to_do() -> None:
    """Behind a semicolon, or as its only sentence; one that hands on another (``…, line …: …``)
    leaves it to that."""
    to_do = re.compile(r".+; .+|(?:give|say) .+|.+: …")
    silent = [
        text for texts in by_failure().values() for text in texts if not to_do.fullmatch(text)
    ]
    assert silent == []


def test_the_messages_are_found_however_they_are_made() -> None:
    """In the call, by a condition, in a name of the function or of a module, by a function or
    method that makes the failure."""
    found = by_failure()
    for failure, text in (
        (errors.EmptyFile, "…: the file is empty; scan or copy it again"),
        (errors.CutShort, "…: is damaged or cut short; copy or scan it again"),
        (errors.MissingProgram, HOW_TO_INSTALL),
        (errors.BadStash, "line … of … tells of no row; correct it, or move the file away"),
    ):
        assert text in found[failure]
    assert set(all_failures()) - set(found) == set()


def test_what_a_coverage_run_did_not_reach_is_listed(tmp_path: Path) -> None:
    (shown, *others) = [one for one in places() if one.file == "intake/pictures/walk.py"]
    lines = [one.line for one in others]
    report = {"files": {shown.file: {"executed_lines": lines}}}
    (tmp_path / "coverage.json").write_text(json.dumps(report), encoding="utf-8")
    (listed,) = [one for one in unreached(tmp_path / "coverage.json") if one.startswith(shown.file)]
    assert listed == f"{shown.file} {shown.line} {shown.failure.__name__}: {shown.texts[0]}"


def test_every_failure_says_what_it_is() -> None:
    assert all(meaning(one).endswith(".") or ";" in meaning(one) for one in all_failures())


def named_in_tests() -> set[str]:
    """All names that are used within the tests' functions, not only imported."""
    trees = [ast.parse(file.read_text("utf-8")) for file in Path(__file__).parent.glob("test_*.py")]
    nodes = [node for tree in trees for node in ast.walk(tree)]
    return {node.id for node in nodes if isinstance(node, ast.Name)} | {
        node.attr for node in nodes if isinstance(node, ast.Attribute)
    }


def test_every_failure_is_shown_by_a_test() -> None:
    """By its class, or by an exit code that no other has."""
    codes = Counter(one.exit_code for one in all_failures())
    named = named_in_tests()
    assert [
        one.__name__
        for one in all_failures()
        if not ({one.__name__} | ({one.exit_code.name} if codes[one.exit_code] == 1 else set()))
        & named
    ] == []


def test_a_file_that_the_disk_did_not_confirm_is_there_and_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(folder: Path) -> None:
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    monkeypatch.setattr("intake.filing.safe_write.keep_names", refuse)
    with pytest.raises(NotConfirmed, match=r"a\.txt is written, but .*; look after the disk"):
        replace_file(tmp_path / "a.txt", lambda file: file.write(b"x"))
    assert (tmp_path / "a.txt").read_bytes() == b"x"


# Exit codes by the command itself


def balltag(*arguments: str | Path, **variables: str) -> tuple[int, str]:
    """The exit code of the command and what it said on its error stream."""
    done = subprocess.run(
        [sys.executable, "-m", "intake", *map(str, arguments)],
        capture_output=True, text=True, timeout=120, stdin=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), **variables},
    )  # fmt: skip
    assert "Traceback" not in done.stderr
    return done.returncode, done.stderr


@pytest.fixture
def stash(tmp_path: Path) -> Path:
    path = tmp_path / "stash.csv"
    cabinet = open_cabinet(path)
    cabinet.file(tag())
    cabinet.take(waiting_tag("w.jpg", shade="Weir"))
    return path


def newer(stash: Path) -> None:
    stash.write_bytes(stash.read_bytes()[:-2] + b"99\n")


def turned(stash: Path) -> None:
    later_ns = stash.stat().st_mtime_ns + 1_000_000_000
    stash.write_bytes(stash.read_bytes().replace(b",0012,", b",12,"))
    os.utime(stash, ns=(later_ns, later_ns))


SITUATIONS: list[tuple[ExitCode, str, Callable[[Path], object], list[str]]] = [
    (ExitCode.OK, "", lambda stash: None, ["check"]),
    (ExitCode.USAGE, "no record 't1'", lambda stash: None, ["withdraw", "t1"]),
    (ExitCode.USAGE, "no stroke '7'", lambda stash: None, ["undo", "7"]),
    (ExitCode.NO_PICTURE, "", lambda stash: None, ["intake", "nowhere"]),
    (ExitCode.BAD_STASH, "newer balltag", newer, ["history"]),
    (ExitCode.BAD_STASH, "looks turned into a number (12)", turned, ["find", "shade=Kelp"]),
    (ExitCode.BAD_STASH, "line 1", lambda stash: stash.with_suffix(".makers.csv").write_text("x\n"),
     ["find", "shade=Kelp"]),
    (ExitCode.NO_ACCESS, "no folder",
     lambda stash: None, ["withdraw", "t1", "--stash", "nowhere/stash.csv"]),
    (ExitCode.NOT_ASKED, "nothing was mended", turned, ["check", "--mend"]),
    (ExitCode.NOT_AGREED, "", turned, ["check"]),
]  # fmt: skip


@pytest.mark.parametrize(("code", "said", "befall", "command"), SITUATIONS)
def test_a_situation_ends_with_its_code_and_one_line(
    stash: Path, code: ExitCode, said: str, befall: Callable[[Path], object], command: list[str]
) -> None:
    befall(stash)
    ended, told = balltag(*command, BALLTAG_STASH=str(stash))
    assert (ended, said in told) == (code, True), told
    complaints = [line for line in told.splitlines() if not _PROGRESS.fullmatch(line)]
    assert len(complaints) <= 1


@pytest.mark.slow
def test_a_stash_that_another_holds_is_busy(stash: Path) -> None:
    with FileLock(f"{stash}.lock"):
        code, told = balltag("undo", BALLTAG_STASH=str(stash))
        assert code == ExitCode.USAGE  # nothing to undo: that needs no lock
        record = open_cabinet(stash).records()[0].id
        code, told = balltag("correct", record, "lot=77", BALLTAG_STASH=str(stash))
    assert code == ExitCode.BUSY
    assert "held by another balltag" in told


@pytest.mark.slow
def test_pictures_that_cannot_be_read_end_with_their_code(stash: Path, tmp_path: Path) -> None:
    box = tmp_path / "box"
    box.mkdir()
    (box / "a.jpg").write_bytes(b"")
    code, _ = balltag("intake", box, BALLTAG_STASH=str(stash))
    assert code == ExitCode.NO_PICTURE
    Image.new("RGB", (900, 600), "white").save(box / "b.png")
    code, _ = balltag("intake", box, BALLTAG_STASH=str(stash))
    assert code in (ExitCode.SOME_FAILED, ExitCode.NO_PICTURE)
