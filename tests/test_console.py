"""A run shows how far it is: on a terminal as a bar, in a file as lines."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from pathlib import Path

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"
INTAKE = [sys.executable, "-m", "intake", "intake", str(DEMO / "scan_01.jpg"), "--jobs", "1"]


def test_a_terminal_shows_a_bar_that_fills_and_the_answer_stays_apart(tmp_path: Path) -> None:
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        INTAKE, cwd=tmp_path, stdout=subprocess.PIPE, stderr=theirs, text=True
    ) as run:
        os.close(theirs)
        shown = _all_of(ours)
        answer, _ = run.communicate()
    assert run.returncode == 0
    assert "reading" in shown
    assert "0/1" in shown
    assert "1/1" in shown
    assert "pictures, left:" in shown
    assert "1/1" not in answer
    assert "What became of the tags" in answer


def test_a_file_gets_lines_without_control_characters(tmp_path: Path) -> None:
    run = subprocess.run(INTAKE, cwd=tmp_path, capture_output=True, text=True, check=True)
    assert "balltag: reading 1 pictures" in run.stderr
    assert "balltag: 1 of 1 read" in run.stderr
    assert "\x1b" not in run.stderr + run.stdout


def _all_of(terminal: int) -> str:
    said = b""
    try:
        while some := os.read(terminal, 4096):
            said += some
    except OSError:  # the other end is closed
        pass
    finally:
        os.close(terminal)
    return said.decode()
