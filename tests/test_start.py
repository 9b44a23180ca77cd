"""Ctrl-C ends the command without a traceback from its first moment on."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
import time
import tomllib
from contextlib import suppress
from pathlib import Path

import pytest
from filing_tags import tag

from intake.errors import ExitCode
from intake.filing.cabinet import open_cabinet
from intake.start import STOPPED, TOLD

ROOT = Path(__file__).resolve().parent.parent
_LOADED = "import time:"
"""How Python begins the lines that tell what it has loaded (-X importtime)."""


def started(*options: str, command: tuple[str, ...] = ("history",)) -> subprocess.Popen[str]:
    """The command as the installed script runs it."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    module, name = project["scripts"]["balltag"].split(":")
    code = f"import sys; from {module} import {name}; sys.exit({name}())"
    return subprocess.Popen(
        [sys.executable, *options, "-c", code, *command],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )


@pytest.mark.parametrize("module", ["signal", "intake.commands.options"])
def test_ctrl_c_while_it_loads_is_one_line(module: str) -> None:
    run = started("-X", "importtime")
    assert run.stderr is not None
    for line in run.stderr:
        if line.rpartition("|")[2].strip() == module:
            break
    run.send_signal(signal.SIGINT)
    told = [line for line in run.stderr if not line.startswith(_LOADED)]
    assert run.wait(timeout=60) == ExitCode.STOPPED
    assert told == [f"{TOLD}\n"]


@pytest.mark.slow
def test_ctrl_c_at_any_moment_of_a_short_command_is_one_line(tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    open_cabinet(stash).file(tag())
    stopped = 0
    for moment_ms in range(0, 1500, 10):
        run = started(command=("check", "--stash", str(stash)))
        time.sleep(moment_ms / 1000)
        run.send_signal(signal.SIGINT)
        _, told = run.communicate(timeout=60)
        if "intake" not in told and run.returncode in (-signal.SIGINT, 1):
            continue  # Python itself was not up, and says so: nothing of ours had run
        assert run.returncode in (ExitCode.STOPPED, ExitCode.OK), (moment_ms, told)
        assert told.splitlines() in ([], [TOLD]), moment_ms
        stopped += run.returncode == ExitCode.STOPPED
    assert stopped >= 10


@pytest.mark.parametrize(("typed", "code"), [("\x03", STOPPED), ("\x04", ExitCode.NOT_ASKED)])
def test_a_question_may_be_left_without_an_answer(
    tmp_path: Path, typed: str, code: ExitCode
) -> None:
    stash = tmp_path / "stash.csv"
    open_cabinet(stash).file(tag())
    stash.with_suffix(".queue").mkdir(exist_ok=True)
    (stash.with_suffix(".queue") / "x.json.new").touch()  # there is something to mend
    ours, theirs = pty.openpty()
    run = subprocess.Popen(
        [sys.executable, "-m", "intake", "check", "--mend", "--stash", str(stash)],
        stdin=theirs, stdout=theirs, stderr=subprocess.PIPE, text=True,
        cwd=ROOT, start_new_session=True,
        preexec_fn=lambda: os.close(os.open(os.ttyname(0), os.O_RDWR)),  # its own terminal
    )  # fmt: skip
    os.close(theirs)
    shown = b""
    while b"?" not in shown:
        shown += os.read(ours, 4096)
    while run.poll() is None:  # what is typed before the question waits for it may be lost
        os.write(ours, typed.encode())
        with suppress(subprocess.TimeoutExpired):
            run.wait(timeout=2)
    assert run.stderr is not None
    told = run.stderr.read().strip().splitlines()
    assert run.wait(timeout=60) == code
    assert len(told) == 1
    assert told[0].startswith("balltag: ")
    os.close(ours)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no full device")
@pytest.mark.parametrize("command", [("check",), ("find", "shade=Kelp"), ("--help",)])
def test_output_that_cannot_be_written_is_one_line(
    tmp_path: Path, command: tuple[str, ...]
) -> None:
    stash = tmp_path / "stash.csv"
    open_cabinet(stash).file(tag())
    with Path("/dev/full").open("w") as full:
        run = subprocess.run(
            [sys.executable, "-m", "intake", *command],
            stdout=full, stderr=subprocess.PIPE, text=True, timeout=60, cwd=ROOT,
            env={**os.environ, "BALLTAG_STASH": str(stash)},
        )  # fmt: skip
    assert run.returncode == ExitCode.NO_ACCESS
    (told,) = run.stderr.splitlines()
    assert told.startswith("balltag: what is printed cannot be written (")


def test_pictures_are_read_where_the_standard_files_are_closed(tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    command = [sys.executable, "-m", "intake", "intake", str(ROOT / "demo_scans" / "scan_03.jpg")]
    closing = ["sh", "-c", 'exec "$@" <&- >&- 2>&-', "sh"]
    run = subprocess.run([*closing, *command, "--stash", str(stash)], timeout=120, cwd=ROOT)
    assert run.returncode == ExitCode.OK
    cabinet = open_cabinet(stash)
    assert len(cabinet.records()) + len(cabinet.waiting()) == 1


def test_the_code_is_that_of_the_table() -> None:
    assert STOPPED == ExitCode.STOPPED
