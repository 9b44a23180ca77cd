"""Phones on the home network: let in by a code of one use, and nobody else.  The neighbour's
view: what someone on the same network gets who was not let in."""

from __future__ import annotations

import ipaddress
import re
import shlex
import shutil
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import cv2
import httpx
import numpy as np
import pytest
import zxingcpp
from browsing import CHROMIUM, WHERE_TO_GET_IT, phone, window
from desk_pages import hold, lot_tag, served
from patience import LONG_S
from playwright.sync_api import Browser, expect

from intake.desk.phone import home_address, phone_link, terminal_code
from intake.desk.security import MOST_OPEN, MOST_WRONG, Keys
from intake.errors import ExitCode, NoAccess
from intake.filing.cabinet import open_cabinet

KEY = re.compile(r"key=([\w-]{32,})")


def on_a_home_network() -> bool:
    try:
        home_address()
    except NoAccess:
        return False
    return True


needs_network = pytest.mark.skipif(not on_a_home_network(), reason="not on a home network")
needs_browser = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)


# Keys


def test_a_key_is_spent_by_its_first_use() -> None:
    keys = Keys()
    key = keys.issue()
    entry = keys.redeem(key)
    assert entry is not None
    assert keys.admits(entry)
    assert keys.redeem(key) is None
    assert not keys.admits(key)


def test_keys_and_passes_are_long_and_never_the_same() -> None:
    """At least 128 bits, as OWASP's Session Management Cheat Sheet asks of session ids at the
    least 64: 32 letters of base64 are 192."""
    keys = Keys()
    made = [keys.issue() for _ in range(200)]
    assert len(set(made)) == 200
    assert all(len(key) >= 32 for key in made)


def test_only_the_last_keys_stay_good() -> None:
    keys = Keys()
    made = [keys.issue() for _ in range(MOST_OPEN + 2)]
    assert [keys.is_open(key) for key in made] == [False] * 2 + [True] * MOST_OPEN


@pytest.mark.parametrize("given", ["", "x", "schlüssel", "key"])
def test_what_is_no_key_lets_nobody_in(given: str) -> None:
    keys = Keys()
    keys.issue()
    assert keys.redeem(given) is None
    assert not keys.admits(given)


def test_a_device_that_guesses_is_let_in_no_more_and_others_are(tmp_path: Path) -> None:
    keys = Keys()
    with served(tmp_path / "stash.csv", keys) as desk:
        statuses = {
            httpx.get(
                f"{desk.address}/new?key=guess{n}", trust_env=False, timeout=LONG_S
            ).status_code
            for n in range(MOST_WRONG)
        }
        assert statuses == {403}
        answer = httpx.get(
            f"{desk.address}/new?key={keys.issue()}", trust_env=False, timeout=LONG_S
        )
        assert answer.status_code == 403
        assert "too many" in answer.text
        assert not keys.bars("192.0.2.77")


def test_a_guess_counts_against_its_sender_whoever_he_says_he_is(tmp_path: Path) -> None:
    with served(tmp_path / "stash.csv", Keys()) as desk:
        answers = [
            httpx.get(
                f"{desk.address}/new?key=guess",
                headers={"X-Forwarded-For": f"192.0.2.{n}", "Forwarded": f"for=192.0.2.{n}"},
                trust_env=False,
                timeout=LONG_S,
            )
            for n in range(MOST_WRONG + 1)
        ]
        assert "too many" in answers[-1].text


def test_links_of_another_site_do_not_shut_a_phone_out(tmp_path: Path) -> None:
    keys = Keys()
    link = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}
    with served(tmp_path / "stash.csv", keys) as desk:
        url = f"{desk.address}/new?key="
        for n in range(MOST_WRONG + 1):
            httpx.get(f"{url}guess{n}", headers=link, trust_env=False, timeout=LONG_S)
        key = keys.issue()
        answer = httpx.get(f"{url}{key}", headers=link, trust_env=False, timeout=LONG_S)
        assert answer.status_code == 403  # else it could guess as often as it likes
        answer = httpx.get(f"{url}{key}", trust_env=False, timeout=LONG_S)
        assert answer.status_code == 303


def test_an_old_cookie_is_taken_away_so_that_it_is_no_guess(tmp_path: Path) -> None:
    keys = Keys()
    with (
        served(tmp_path / "stash.csv", keys) as desk,
        httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as client,
    ):
        client.cookies.set("desk_pass", "of-yesterday", domain="127.0.0.1")
        for _ in range(2 * MOST_WRONG):
            assert client.get("/new").status_code == 403
        assert client.get("/new", params={"key": keys.issue()}).status_code == 303


def test_a_link_with_a_key_leads_to_no_other_site(tmp_path: Path) -> None:
    keys = Keys()
    with served(tmp_path / "stash.csv", keys) as desk:
        answer = httpx.get(
            f"{desk.address}//tags.example/x?key={keys.issue()}", trust_env=False, timeout=LONG_S
        )
        assert answer.headers["Location"] == "/tags.example/x"


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/"),
        ("GET", "/shelf"),
        ("GET", "/token"),
        ("GET", "/phone"),
        ("GET", "/static/desk.css"),
        ("GET", "/tags/t0123456789abcde.jpg"),
        ("GET", "/tags/..%2fstash.csv/small.jpg"),
        ("POST", "/new/pictures?name=a.jpg"),
        ("POST", "/history/undo"),
        ("DELETE", "/shelf"),
    ],
)
def test_a_neighbour_without_a_key_gets_nothing(tmp_path: Path, method: str, path: str) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    (tag_id,) = hold(cabinet, lot_tag(1))
    with served(tmp_path / "stash.csv", Keys()) as desk:
        answer = httpx.request(
            method, desk.address + path, content=b"x", trust_env=False, timeout=LONG_S
        )
    assert answer.status_code == 403
    assert tag_id not in answer.text
    assert not (tmp_path / "stash.inbox").exists()


# The code


def test_the_code_in_the_terminal_says_the_link() -> None:
    """Read back by zxing-cpp, which knows nothing of how it was made."""
    link = phone_link("192.168.7.31:8417", Keys().issue())
    lines = terminal_code(link).splitlines()
    assert lines[-1] == link
    halves = {"█": (1, 1), "▀": (1, 0), "▄": (0, 1), " ": (0, 0), "\xa0": (0, 0)}
    columns = [[halves[letter] for letter in line] for line in lines[:-1]]
    pixels = np.array([[half[row] for half in line] for line in columns for row in (0, 1)])
    (found,) = zxingcpp.read_barcodes(np.kron(pixels, np.full((6, 6), 255)).astype(np.uint8))
    assert found.text == link


def test_the_page_shows_no_code_of_a_key_that_is_spent(tmp_path: Path) -> None:
    keys = Keys()
    key = keys.issue()
    with (
        served(tmp_path / "stash.csv", keys) as desk,
        httpx.Client(base_url=desk.address, trust_env=False, timeout=LONG_S) as client,
    ):
        assert client.get("/new", params={"key": key}).status_code == 303
        assert client.get("/phone/none/code.svg").status_code == 404
        assert client.get(f"/phone/{key}/code.svg").status_code == 404
        assert client.get(f"/phone/{keys.issue()}/code.svg").status_code == 200


NAMESPACE = ("unshare", "--map-root-user", "--net", "sh", "-c")
"""Runs a shell command on a network of its own, on which there is nothing."""


def can_have_its_own_network() -> bool:
    if shutil.which("unshare") is None or shutil.which("ip") is None:
        return False
    return subprocess.run([*NAMESPACE, "ip link"], capture_output=True, check=False).returncode == 0


@pytest.mark.skipif(not can_have_its_own_network(), reason="no network namespaces (Linux)")
@pytest.mark.parametrize(
    ("network", "why"),
    [
        ("true", "this machine is on no network"),
        ("ip link set lo up && ip route add default dev lo", "this machine is on no network"),
        (  # an address that is not private by RFC 1918; nothing is sent to it
            "ip link set lo up && ip address add 11.0.0.1/8 dev lo"
            " && ip route add default dev lo src 11.0.0.1",
            "11.0.0.1 is no address of a home network",
        ),
    ],
    ids=["no network", "only itself", "the whole world"],
)
def test_without_a_home_network_no_phone_is_let_in(network: str, why: str, tmp_path: Path) -> None:
    desk = shlex.join(
        [sys.executable, "-m", "intake", "review", "--phone", "--no-browser", "--stash",
         str(tmp_path / "stash.csv")]
    )  # fmt: skip
    done = subprocess.run(
        [*NAMESPACE, f"{network} && exec {desk}"],
        capture_output=True, text=True, timeout=LONG_S, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (ExitCode.NO_ACCESS, "")
    assert done.stderr == f"balltag: {why}; join your home network\n"


@needs_network
def test_only_an_address_of_a_home_network_is_served() -> None:
    """Private addresses, RFC 1918 and RFC 6890, as Python's ipaddress knows them."""
    found = ipaddress.ip_address(home_address())
    assert found.is_private
    assert not found.is_loopback


# The whole way


@pytest.fixture
def said(tmp_path: Path, free_port: int) -> Iterator[str]:
    """What ``balltag review --phone`` says, while it runs."""
    command = [sys.executable, "-m", "intake", "review", "--phone", "--no-browser"]
    command += ["--stash", str(tmp_path / "stash.csv"), "--port", str(free_port)]
    process = subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        env={"PYTHONIOENCODING": "utf-8", "PATH": "/usr/bin:/bin"},
    )
    assert process.stdout is not None
    lines: list[str] = []
    for line in process.stdout:
        lines.append(line)
        if "/new?key=" in line:
            break
    yield "".join(lines)
    process.send_signal(signal.SIGINT)
    _, errors = process.communicate(timeout=LONG_S)
    assert (process.returncode, errors) == (ExitCode.OK, "")


@needs_network
@needs_browser
def test_a_phone_comes_in_by_the_code_on_the_page(
    said: str, browser: Browser, tmp_path: Path
) -> None:
    here = re.search(r"http://127\S+", said)
    assert here is not None
    desk = window(browser).new_page()
    desk.goto(here[0])
    expect(desk.locator("#waits")).to_be_visible()
    shown = desk.locator("#code img").screenshot()
    pixels = cv2.imdecode(np.frombuffer(shown, np.uint8), cv2.IMREAD_GRAYSCALE)
    assert pixels is not None
    (code,) = zxingcpp.read_barcodes(pixels)
    assert code.text == desk.locator(".link").text_content()

    pocket = phone(browser).new_page()
    pocket.goto(code.text)
    expect(pocket.locator("h1")).to_have_text("New pictures")
    assert "key=" not in pocket.url
    (cookie,) = pocket.context.cookies()
    assert (cookie["httpOnly"], cookie["sameSite"]) == (True, "Strict")
    expect(desk.locator("#came")).to_be_visible()

    neighbour = window(browser).new_page()
    answer = neighbour.goto(code.text)
    assert answer is not None
    assert answer.status == 403


@needs_network
def test_the_home_network_is_served_under_its_own_name_only(said: str) -> None:
    keys = KEY.findall(said)
    link = re.search(r"http://(\S+:\d+)/new", said)
    assert link is not None
    host = link[1]
    assert len(set(keys)) == 2
    with httpx.Client(base_url=f"http://{host}", trust_env=False, timeout=LONG_S) as client:
        assert client.get("/new").status_code == 403
        assert client.get("/new", headers={"Host": "tags.example"}).status_code == 403
        assert client.get("/new", params={"key": keys[1]}).status_code == 303
        assert client.get("/new").status_code == 200
        stolen = client.get("/new", headers={"Host": "tags.example"})
        assert stolen.status_code == 403
        elsewhere = client.get("/token", headers={"Origin": "http://tags.example"})
        assert elsewhere.status_code == 403


@needs_network
def test_without_the_option_only_this_machine_is_served(tmp_path: Path) -> None:
    with served(tmp_path / "stash.csv") as desk:
        port = httpx.URL(desk.address).port
        assert port is not None
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection((home_address(), port), timeout=2)


def test_without_the_option_there_is_no_page_for_a_phone(tmp_path: Path) -> None:
    with served(tmp_path / "stash.csv") as desk:
        for path in ("/phone", "/phone/x/code.svg", "/phone/x/state"):
            assert (
                httpx.get(desk.address + path, trust_env=False, timeout=LONG_S).status_code == 404
            )
        assert (
            "/phone" not in httpx.get(f"{desk.address}/shelf", trust_env=False, timeout=LONG_S).text
        )
