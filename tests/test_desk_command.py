"""``balltag review`` as a process: it serves the page to this machine, and stops when told."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from desk_pages import hold, lot_tag
from patience import LONG_S

from intake.desk.serve import USUAL_PORT, listen
from intake.errors import ExitCode, NoAccess
from intake.filing.cabinet import open_cabinet


def start(stash: Path, *options: str) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "intake", "review", "--stash", str(stash), *options]
    return subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, bufsize=1
    )


@pytest.fixture
def process(tmp_path: Path, free_port: int) -> Iterator[subprocess.Popen[str]]:
    hold(open_cabinet(tmp_path / "stash.csv"), lot_tag(1))
    started = start(tmp_path / "stash.csv", "--no-browser", "--port", str(free_port))
    yield started
    started.kill()
    started.communicate()


def test_the_page_is_served_until_it_is_stopped(
    process: subprocess.Popen[str], free_port: int
) -> None:
    assert process.stdout is not None
    said = process.stdout.readline() or process.communicate()[1]
    assert f"http://127.0.0.1:{free_port}/" in said
    transport = httpx.HTTPTransport(retries=20)
    with httpx.Client(transport=transport, trust_env=False, timeout=LONG_S) as client:
        answer = client.get(f"http://127.0.0.1:{free_port}/review/tags")
    assert len(answer.json()["ids"]) == 1
    process.send_signal(signal.SIGINT)
    _, errors = process.communicate(timeout=LONG_S)
    assert process.returncode == ExitCode.OK
    assert errors == ""


def test_a_port_that_is_taken_is_told_in_one_line(tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        process = start(tmp_path / "stash.csv", "--no-browser", "--port", str(port))
        _, errors = process.communicate(timeout=LONG_S)
    assert process.returncode == ExitCode.NO_ACCESS
    assert errors.startswith(f"balltag: port {port} cannot be used")
    assert errors.count("\n") == 1


def test_the_usual_port_gives_way_where_it_is_taken() -> None:
    with listen() as first, listen() as second:
        ports = {first.getsockname()[1], second.getsockname()[1]}
        assert len(ports) == 2
        assert first.getsockname()[0] == second.getsockname()[0] == "127.0.0.1"
        with pytest.raises(NoAccess):
            listen(first.getsockname()[1])
    assert USUAL_PORT > 1024  # a port that needs no rights
