"""What tests share: examples that may take their time; the desk's stash, server and browser."""

from __future__ import annotations

import logging
import os
import signal
import socket
import tempfile
from collections.abc import Iterator
from pathlib import Path

import httpx
import hypothesis
import pytest
from browsing import chromium, window
from desk_pages import Served, served
from patience import LONG_S
from playwright.sync_api import Browser, Page

from intake.filing.cabinet import Cabinet, open_cabinet

hypothesis.settings.register_profile("any machine", deadline=None)  # a loaded one is slow at times
hypothesis.settings.load_profile("any machine")

# A shell starts what runs behind it deaf to Ctrl-C, and so would be what the tests start.
signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture
def stash(tmp_path: Path) -> Path:
    return tmp_path / "stash.csv"


@pytest.fixture
def plain_user() -> Iterator[None]:
    """A user whom a read-only folder stops, unlike the superuser."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    yield
    os.seteuid(0)


@pytest.fixture
def plain_folder(plain_user: None) -> Iterator[Path]:
    """A folder of the :func:`plain_user`, who cannot read what he takes his rights off."""
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


@pytest.fixture
def cabinet(stash: Path) -> Cabinet:
    return open_cabinet(stash)


@pytest.fixture
def desk(stash: Path) -> Iterator[Served]:
    with served(stash) as opened:
        yield opened


@pytest.fixture
def client(desk: Served) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as opened:
        yield opened


@pytest.fixture
def said(desk: Served, caplog: pytest.LogCaptureFixture) -> Iterator[pytest.LogCaptureFixture]:
    """What the desk says in the terminal."""
    server = logging.getLogger("uvicorn")  # hands nothing on by itself
    server.addHandler(caplog.handler)
    yield caplog
    server.removeHandler(caplog.handler)


@pytest.fixture
def free_port() -> int:
    with socket.create_server(("127.0.0.1", 0)) as listener:
        return int(listener.getsockname()[1])


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as opened:
        yield opened


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = window(browser)
    yield context.new_page()
    context.close()
