"""Work done in a process that meets a fault: killed, or refused, at a system call that writes.

strace does it from outside (``-e inject``); the work itself is the real thing.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from intake.errors import BalltagError

KILLED_AT = (
    "write", "pwrite64", "fsync", "ftruncate", "truncate", "rename", "mkdir", "unlink", "utimensat"
)  # fmt: skip
"""The system calls that change files, as the work makes them on Linux."""

REFUSED_AT = ("write", "fsync", "rename", "mkdir")
"""Those that a full disk or a folder that is gone refuses."""

FAULTY = 99
"""The exit code of work that failed otherwise than in one line."""

needs_strace = pytest.mark.skipif(shutil.which("strace") is None, reason="strace is not installed")

Work = Callable[[Callable[[str], None]], None]
"""Work that is given a function to report with."""


@dataclass(frozen=True)
class Outcome:
    """How work ended: its exit code (negative for a signal), what it reported, and what it
    said where it failed."""

    code: int
    reported: tuple[str, ...]
    said: str


def run(work: Work, *options: str) -> Outcome:
    """Do ``work`` in a process of its own, under strace with ``options``."""
    inward, outward = os.pipe()
    error_in, error_out = os.pipe()
    child = os.fork()
    if child == 0:
        os.kill(os.getpid(), signal.SIGSTOP)
        os._exit(_guarded(work, outward, error_out))
    os.close(outward)
    os.close(error_out)
    os.waitpid(child, os.WUNTRACED)
    tracer = subprocess.Popen(
        ["strace", "-p", str(child), *options], stderr=subprocess.PIPE, text=True
    )
    assert tracer.stderr is not None
    assert "attached" in tracer.stderr.readline()
    os.kill(child, signal.SIGCONT)
    with os.fdopen(inward) as reports, os.fdopen(error_in) as errors:
        reported, said = reports.read(), errors.read()
    _, status = os.waitpid(child, 0)
    tracer.communicate(timeout=30)
    return Outcome(os.waitstatus_to_exitcode(status), tuple(reported.split()), said)


def _guarded(work: Work, outward: int, error_out: int) -> int:
    try:
        work(lambda text: print(text, file=os.fdopen(os.dup(outward), "w"), flush=True))
    except BalltagError as error:
        os.write(error_out, str(error).encode())
        return int(error.exit_code)
    except BaseException:
        os.write(error_out, traceback.format_exc().encode())
        return FAULTY
    return 0


def calls_of(work: Work, log: Path) -> Counter[str]:
    """How often ``work`` makes each system call of :data:`KILLED_AT`."""
    outcome = run(work, "-o", str(log), "-e", f"trace={','.join(KILLED_AT)}")
    assert outcome.code == 0, outcome.said
    return Counter(re.findall(r"^(\w+)\(", log.read_text(), re.MULTILINE))


def killed(work: Work, call: str, number: int) -> Outcome:
    """``work`` killed as it enters its ``number``-th ``call``."""
    return run(
        work, "-o", "/dev/null", "-e", f"trace={call}",
        "-e", f"inject={call}:signal=SIGKILL:when={number}",
    )  # fmt: skip


def refused(work: Work, call: str, number: int, error: str) -> Outcome:
    """``work`` whose ``number``-th ``call`` and all after it fail with ``error``."""
    return run(
        work, "-o", "/dev/null", "-e", f"trace={call}",
        "-e", f"inject={call}:error={error}:when={number}+",
    )  # fmt: skip
