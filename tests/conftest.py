"""What the tests of the desk share: a stash, the desk that shows it, and a browser."""

from __future__ import annotations

import socket
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
from browsing import chromium, window
from desk_pages import Served, served
from playwright.sync_api import Browser, Page

from intake.filing.cabinet import Cabinet, open_cabinet


@pytest.fixture
def stash(tmp_path: Path) -> Path:
    return tmp_path / "stash.csv"


@pytest.fixture
def cabinet(stash: Path) -> Cabinet:
    return open_cabinet(stash)


@pytest.fixture
def desk(stash: Path) -> Iterator[Served]:
    with served(stash) as opened:
        yield opened


@pytest.fixture
def client(desk: Served) -> Iterator[httpx.Client]:
    with httpx.Client(base_url=desk.address, trust_env=False) as opened:
        yield opened


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
