"""Who the desk answers: requests over a real connection, with headers that a browser would
send for a page of another site."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx
import pytest
from desk_pages import Served, hold, lot_tag, served
from patience import LONG_S
from PIL import Image

from intake.desk.security import Keys
from intake.exports.thumbnails import thumbnail
from intake.filing.cabinet import Cabinet


def token(client: httpx.Client) -> str:
    return str(client.get("/token").json()["token"])


# Host


@pytest.mark.parametrize(
    "host", ["tags.example", "127.0.0.1", "127.0.0.1:1", "localhost.tags.example:80", ""]
)
def test_another_host_is_turned_away(client: httpx.Client, host: str) -> None:
    """A name that an attacker points at this machine (DNS rebinding)."""
    assert client.get("/review", headers={"Host": host}).status_code == 403


def test_both_names_of_this_machine_are_good(desk: Served, client: httpx.Client) -> None:
    port = httpx.URL(desk.address).port
    for name in ("127.0.0.1", "localhost"):
        assert client.get("/review", headers={"Host": f"{name}:{port}"}).status_code == 200


# Origin


@pytest.mark.parametrize("origin", ["http://tags.example", "https://127.0.0.1", "null", ""])
def test_another_origin_is_turned_away(client: httpx.Client, cabinet: Cabinet, origin: str) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    headers = {"Origin": origin, "X-Desk-Token": token(client)}
    answer = client.post(f"/review/tags/{tag_id}/discard", headers=headers)
    assert answer.status_code == 403
    assert cabinet.waiting() == [tag_id]
    assert client.get("/token", headers={"Origin": origin}).status_code == 403


def test_another_site_cannot_show_our_pictures_but_may_link_here(client: httpx.Client) -> None:
    """Fetch metadata, W3C: https://www.w3.org/TR/fetch-metadata/"""
    inside = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}
    link = {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate"}
    assert client.get("/static/icon.svg", headers=inside).status_code == 403
    assert client.get("/review", headers=link).status_code == 200


# Token


@pytest.mark.parametrize("given", [None, "", "wrong", "ключ"])
def test_nothing_changes_without_the_token(
    client: httpx.Client, cabinet: Cabinet, given: str | None
) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    headers = {} if given is None else {b"X-Desk-Token": given.encode()}
    answer = client.post(f"/review/tags/{tag_id}/discard", headers=headers)
    assert answer.status_code == 403
    assert answer.headers["X-Desk-Refusal"] == "token"
    assert cabinet.waiting() == [tag_id]


def test_the_token_is_another_one_each_time_the_desk_opens(
    desk: Served, client: httpx.Client, cabinet: Cabinet
) -> None:
    before = token(client)
    desk.close()
    desk.open()
    assert token(client) != before
    (tag_id,) = hold(cabinet, lot_tag(1))
    path = f"/review/tags/{tag_id}/discard"
    assert client.post(path, headers={"X-Desk-Token": before}).status_code == 403
    assert client.post(path, params={"token": token(client)}).status_code == 200


# Headers, paths, bodies


@pytest.mark.parametrize("path", ["/review", "/static/desk.css", "/review/tags", "/nowhere"])
def test_every_answer_has_the_strict_policy(client: httpx.Client, path: str) -> None:
    """Content Security Policy Level 3, W3C: https://www.w3.org/TR/CSP3/"""
    headers = client.get(path).headers
    rules = dict(rule.split(" ", 1) for rule in headers["Content-Security-Policy"].split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["script-src"] == rules["style-src"] == rules["connect-src"] == "'self'"
    assert "unsafe" not in headers["Content-Security-Policy"]
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"


@pytest.mark.parametrize("page", ["/review"])
def test_pages_have_no_script_or_style_within(client: httpx.Client, page: str) -> None:
    text = client.get(page).text
    assert "<style" not in text
    assert " style=" not in text
    assert " onclick" not in text
    assert text.count("<script") == text.count('<script type="module" src=')


@pytest.mark.parametrize(
    "path",
    [
        "/tags/../stash.csv",
        "/tags/..%2fstash.csv",
        "/tags/%2e%2e/stash.csv.jpg",
        "/tags/..%2f..%2fetc%2fpasswd.jpg",
        "/tags/t0123456789abcde.jpg",
        "/tags/stash.jpg",
        "/static/../app.py",
        "/static/..%2fapp.py",
        "/static/%2e%2e%2f%2e%2e%2fcli.py",
    ],
)
def test_no_path_leaves_the_folders(desk: Served, cabinet: Cabinet, path: str) -> None:
    cabinet.file(lot_tag(1))
    with httpx.Client(trust_env=False, timeout=LONG_S) as client:
        request = client.build_request("GET", desk.address)
        request.url = request.url.copy_with(raw_path=path.encode())
        assert client.send(request).status_code == 404


def test_the_picture_of_a_tag_is_served_as_a_picture(
    client: httpx.Client, cabinet: Cabinet
) -> None:
    record = cabinet.file(lot_tag(1))
    answer = client.get(f"/tags/{record.id}.jpg")
    assert answer.headers["Content-Type"] == "image/jpeg"
    assert answer.content == cabinet.pictures.load(record.id)


def link_elsewhere(path: Path) -> None:
    other = path.with_name("private.txt")
    other.write_text("nobody's business")
    path.symlink_to(other)


PUT_THERE: dict[str, Callable[[Path], object]] = {
    "a link to another file": link_elsewhere,
    "a pipe": os.mkfifo,
    "a folder": Path.mkdir,
    "a giant of another format": lambda path: Image.new("1", (20_000, 20_000)).save(path, "PNG"),
    "a picture cut short": lambda path: path.write_bytes(lot_tag(1).jpeg[:300]),
}


@pytest.mark.parametrize("kind", PUT_THERE)
def test_what_somebody_put_in_place_of_a_picture_is_not_served(
    client: httpx.Client, cabinet: Cabinet, said: pytest.LogCaptureFixture, kind: str
) -> None:
    """A synced folder is filled by others, too."""
    record = cabinet.file(lot_tag(1))
    path = cabinet.pictures.path(record.id)
    path.unlink()
    PUT_THERE[kind](path)
    assert client.get(f"/tags/{record.id}/small.jpg").status_code == 404
    answer = client.get(f"/tags/{record.id}.jpg")
    assert (answer.status_code == 200) == (kind == "a picture cut short")
    assert client.get(f"/records/{record.id}").status_code == 200
    assert thumbnail(path) is None
    assert said.messages == []


@pytest.mark.parametrize(
    ("body", "status"),
    [(b"no json", 400), (b"[]", 400), (b'{"answers": 3}', 422), (b'"' + b"x" * 300_000, 413)],
)
def test_a_body_that_is_none_is_refused(
    client: httpx.Client, cabinet: Cabinet, body: bytes, status: int
) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    headers = {"X-Desk-Token": token(client), "Accept": "application/json"}
    answer = client.post(f"/review/tags/{tag_id}/answers", content=body, headers=headers)
    assert answer.status_code == status
    assert cabinet.waiting() == [tag_id]


@pytest.mark.parametrize("path", ["stash", "..%5C..%5Cstash", "t0123456789abcdef0", "%2e%2e"])
def test_only_an_id_names_a_waiting_tag(client: httpx.Client, path: str) -> None:
    headers = {"X-Desk-Token": token(client)}
    assert client.get(f"/review/tags/{path}").status_code == 404
    assert client.post(f"/review/tags/{path}/discard", headers=headers).status_code == 404


def test_only_an_id_names_the_other_side(client: httpx.Client, cabinet: Cabinet) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    headers = {"X-Desk-Token": token(client)}
    body = {"answers": {"lot": "1"}, "joined": "..\\stash"}
    answer = client.post(f"/review/tags/{tag_id}/answers", json=body, headers=headers)
    assert answer.status_code == 422
    assert cabinet.waiting() == [tag_id]


def test_an_unknown_field_is_refused(client: httpx.Client, cabinet: Cabinet) -> None:
    (tag_id,) = hold(cabinet, lot_tag(1))
    headers = {"X-Desk-Token": token(client)}
    body = {"answers": {"lot": "1", "digest": "x"}}
    answer = client.post(f"/review/tags/{tag_id}/answers", json=body, headers=headers).json()
    assert (answer["state"], answer["field"]) == ("refused", "digest")
    assert cabinet.waiting() == [tag_id]


# The secret for a phone


@pytest.fixture
def keys() -> Keys:
    return Keys()


@pytest.fixture
def locked(stash: Path, keys: Keys) -> Iterator[Served]:
    with served(stash, keys) as opened:
        yield opened


@pytest.mark.parametrize("path", ["/review", "/static/desk.css", "/token", "/review?key=wrong"])
def test_with_keys_nothing_is_answered_without_one(locked: Served, path: str) -> None:
    assert httpx.get(locked.address + path, trust_env=False, timeout=LONG_S).status_code == 403


def test_a_key_lets_one_browser_in_and_is_not_left_in_the_address(
    locked: Served, keys: Keys
) -> None:
    key = keys.issue()
    with httpx.Client(base_url=locked.address, trust_env=False, timeout=LONG_S) as phone:
        first = phone.get("/review", params={"key": key, "from": "code"})
        assert first.status_code == 303
        assert first.headers["Location"] == "/review?from=code"
        cookie = first.headers["Set-Cookie"].lower()
        assert "httponly" in cookie
        assert "samesite=strict" in cookie
        assert key not in cookie
        assert phone.get("/review").status_code == 200
    with httpx.Client(base_url=locked.address, trust_env=False, timeout=LONG_S) as another:
        assert another.get("/review", params={"key": key}).status_code == 403
    assert not keys.is_open(key)


def test_a_cookie_that_was_made_up_does_not_let_in(locked: Served, keys: Keys) -> None:
    keys.issue()
    cookies = {"desk_pass": "made-up"}
    answer = httpx.get(f"{locked.address}/review", cookies=cookies, trust_env=False, timeout=LONG_S)
    assert answer.status_code == 403
