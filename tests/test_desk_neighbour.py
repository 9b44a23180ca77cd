"""A neighbour on the network who floods the desk, stalls it or sends it rubbish: it goes on
answering, lets nobody in and says nothing of it in the terminal."""

from __future__ import annotations

import errno
import socket
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack, suppress
from pathlib import Path

import httpx
import psutil
import pytest
from desk_pages import Served, hold, lot_tag, served
from patience import LONG_S
from starlette.applications import Starlette
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.security import Keys
from intake.desk.serve import listen, server_for
from intake.filing.cabinet import Cabinet

RUBBISH = {
    "a greeting of TLS": bytes.fromhex("16030100a5010000a10303") + bytes(150),
    "no words of HTTP": b"\x00\xff\xfe\r\n\r\n",
    "another protocol": b"SSH-2.0-OpenSSH_9.6\r\n",
    "a version to come": b"GET / HTTP/9.9\r\n\r\n",
    "no host": b"GET /review HTTP/1.1\r\n\r\n",
    "two hosts": b"GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n",
    "a head without end": b"GET / HTTP/1.1\r\nHost: a\r\nX: " + b"x" * 200_000,
    "two lengths": b"POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 9\r\n\r\n",
    "a length below zero": b"POST / HTTP/1.1\r\nHost: a\r\nContent-Length: -1\r\n\r\n",
    "an upgrade": b"GET / HTTP/1.1\r\nHost: a\r\nConnection: upgrade\r\nUpgrade: websocket\r\n\r\n",
}


CLOSED = (errno.ENOTCONN, errno.ECONNRESET, errno.EPIPE)
"""The desk closed the line before all was sent."""


def line_to(desk: Served) -> socket.socket:
    url = httpx.URL(desk.address)
    assert url.port is not None
    return socket.create_connection((url.host, url.port), timeout=LONG_S)


@pytest.mark.parametrize("kind", RUBBISH)
def test_rubbish_is_refused_and_not_told(
    desk: Served, said: pytest.LogCaptureFixture, kind: str
) -> None:
    answer = b""
    with line_to(desk) as line:
        try:
            line.sendall(RUBBISH[kind])
            line.shutdown(socket.SHUT_WR)
            answer = line.recv(65536)
        except OSError as error:
            if error.errno not in CLOSED:
                raise
    assert answer.startswith((b"HTTP/1.1 400 ", b"HTTP/1.1 403 ")) or not answer
    assert said.messages == []


def test_requests_that_never_end_do_not_stop_the_desk(desk: Served, client: httpx.Client) -> None:
    with ExitStack() as lines:
        for number in range(200):
            line = lines.enter_context(line_to(desk))
            method = "GET" if number % 2 else "POST"
            line.sendall(
                f"{method} /new/pictures HTTP/1.1\r\nHost: {desk.address[7:]}\r\n".encode()
            )
            if number % 4 == 0:
                line.sendall(b"Content-Length: 1000000\r\n\r\nsome")
        assert client.get("/review").status_code == 200
    assert client.get("/shelf").status_code == 200


def test_a_line_on_which_no_request_comes_is_closed(
    desk: Served, client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("intake.desk.patience.HEAD_S", 0.3)
    begun = b"GET /review HTTP/1.1\r\nHost: "
    whole = begun + desk.address[7:].encode() + b"\r\n\r\n"
    for sent in (b"", begun, whole + begun):
        with line_to(desk) as line:
            line.sendall(sent)
            answer = b"".join(iter(lambda: line.recv(65536), b""))  # to its end
        assert answer.count(b"HTTP/1.1 200 OK") == sent.count(b"\r\n\r\n")
    assert client.get("/review").status_code == 200


def test_a_line_with_a_request_under_way_is_not_closed(
    desk: Served, client: httpx.Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("intake.desk.patience.HEAD_S", 0.2)
    token = client.get("/token").json()["token"]
    with line_to(desk) as line:
        line.sendall(
            f"POST /new/pictures?token={token} HTTP/1.1\r\nHost: {desk.address[7:]}\r\n"
            "Content-Length: 4\r\n\r\nno".encode()
        )
        time.sleep(0.6)
        line.sendall(b"ne")
        assert line.recv(65536).startswith(b"HTTP/1.1 4")  # it is no picture


def test_a_desk_that_ends_closes_the_lines_of_those_who_read_no_answer(
    said: pytest.LogCaptureFixture,
) -> None:
    listener = listen(0)
    server = server_for(Starlette(routes=[Route("/", lambda _: Response(bytes(64_000_000)))]))
    server.end_within_s = 0.5
    serving = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    serving.start()
    with socket.create_connection(listener.getsockname(), timeout=LONG_S) as line:
        line.sendall(b"GET / HTTP/1.1\r\nHost: a\r\n\r\n")
        assert line.recv(12) == b"HTTP/1.1 200"
        server.should_exit = True
        serving.join(LONG_S)
        assert not serving.is_alive()
        with suppress(ConnectionResetError):
            while line.recv(1_000_000):  # what was on its way, then the end
                pass
    assert said.messages == []


def guesses(desk: Served, count: int) -> Counter[int]:
    """What is answered to so many requests of all kinds, with secrets that were made up."""
    answers: Counter[int] = Counter()
    with httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as neighbour:
        for number in range(count):
            neighbour.cookies.clear()
            method = ("GET", "POST", "PUT", "DELETE")[number % 4]
            path = ("/review/tags", "/new/pictures", "/records/t000000000000000/withdraw")[
                number % 3
            ]
            given = {"key": f"guess{number}", "token": f"guess{number}"}
            cookie = {"Cookie": f"desk_pass=guess{number}"}
            answers[neighbour.request(method, path, params=given, headers=cookie).status_code] += 1
    return answers


def is_shut_to_guesses(desk: Served, cabinet: Cabinet, count: int) -> None:
    waiting = hold(cabinet, lot_tag(1))
    assert guesses(desk, count // 2) == {403: count // 2}
    before = psutil.Process().memory_info().rss
    assert guesses(desk, count // 2) == {403: count // 2}
    assert psutil.Process().memory_info().rss - before < 30_000_000
    assert cabinet.waiting() == waiting
    assert not cabinet.stash.path.with_suffix(".inbox").exists()


@pytest.fixture
def locked(stash: Path) -> Iterator[Served]:
    """A desk for phones, that wants a secret of every browser."""
    with served(stash, Keys()) as opened:
        yield opened


def test_guessed_secrets_open_nothing(locked: Served, cabinet: Cabinet) -> None:
    is_shut_to_guesses(locked, cabinet, 200)


@pytest.mark.slow
def test_ten_thousand_guessed_secrets_open_nothing(locked: Served, cabinet: Cabinet) -> None:
    is_shut_to_guesses(locked, cabinet, 10_000)
