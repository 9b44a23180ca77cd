"""Any request at all, given to the desk within this process as a server would give it.

What the desk opens, makes, renames or removes meanwhile is noted by Python's audit events
(https://docs.python.org/3/library/audit_events.html).
"""

from __future__ import annotations

import asyncio
import json
import os
import sys
from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

from hypothesis import strategies as st
from starlette.applications import Starlette

from intake.records import FIELDS
from intake.sums.maker_sheet import SHEET_COLUMNS

HOST = "127.0.0.1:8417"

TOKEN = b"<the desk's token>"
"""Stands for it in a request, for it is another one with each desk."""


@dataclass(frozen=True)
class Request:
    """A request as it stands on the line; where ``hangs_up`` its end never comes."""

    method: str
    path: str
    query: bytes = b""
    headers: tuple[tuple[bytes, bytes], ...] = ()
    pieces: tuple[bytes, ...] = (b"",)
    hangs_up: bool = False


@dataclass
class Answer:
    """What the desk sent back."""

    status: int = 0
    headers: dict[str, str] = field(default_factory=dict)
    body: bytes = b""


async def ask(app: Starlette, request: Request) -> Answer:
    """The answer to ``request``.  What the desk fails at is raised."""
    answer = Answer()
    pieces = [
        {"type": "http.request", "body": piece, "more_body": True} for piece in request.pieces
    ]
    if request.hangs_up:
        pieces.append({"type": "http.disconnect"})
    else:
        pieces[-1]["more_body"] = False
    coming: Iterator[dict[str, Any]] = iter(pieces)

    async def receive() -> dict[str, Any]:
        return next(coming, {"type": "http.disconnect"})

    async def send(message: Any) -> None:
        if message["type"] == "http.response.start":
            answer.status = message["status"]
            answer.headers = {
                name.decode("latin-1").lower(): text.decode("latin-1")
                for name, text in message["headers"]
            }
        else:
            answer.body += message.get("body", b"")

    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "scheme": "http",
        "method": request.method, "path": request.path,
        "raw_path": quote(request.path, errors="replace").encode(), "root_path": "",
        "query_string": request.query, "headers": list(request.headers),
        "client": ("127.0.0.1", 40000), "server": ("127.0.0.1", 8417), "state": {},
    }  # fmt: skip
    await app(scope, receive, send)
    return answer


def ask_all(app: Starlette, requests: Sequence[Request]) -> list[Answer]:
    """The answers to ``requests``, one after the other."""
    token: str = app.state.desk.token

    def headers(request: Request) -> tuple[tuple[bytes, bytes], ...]:
        return tuple((name, text.replace(TOKEN, token.encode())) for name, text in request.headers)

    async def each() -> list[Answer]:
        return [await ask(app, replace(request, headers=headers(request))) for request in requests]

    return asyncio.run(each())


# What is touched on the disk

_CHANGING = {"os.rename": 2, "os.remove": 1, "os.mkdir": 1, "os.rmdir": 1, "os.link": 2,
             "os.symlink": 2, "os.truncate": 1, "shutil.rmtree": 1}  # fmt: skip
"""Audit events that change files, and how many of their arguments are paths."""

_noted: ContextVar[list[Path] | None] = ContextVar("_noted", default=None)
"""Goes with a request into the thread that answers it, and into no other thread."""


def _note(event: str, arguments: tuple[Any, ...]) -> None:
    noted = _noted.get()
    if noted is None:
        return
    if event == "open":
        paths = arguments[:1] if isinstance(arguments[0], str | bytes | os.PathLike) else ()
    else:
        paths = arguments[: _CHANGING.get(event, 0)]
    noted.extend(Path(os.fsdecode(path)) for path in paths if not isinstance(path, int))


sys.addaudithook(_note)  # stays for good, so it does nothing outside of `touched`


@contextmanager
def touched() -> Iterator[list[Path]]:
    """The paths of all files that are opened or changed in the block."""
    paths: list[Path] = []
    before = _noted.set(paths)
    try:
        yield paths
    finally:
        _noted.reset(before)


# Requests

PATHS = (
    "/", "/token", "/review", "/review/tags", "/review/tags/{}", "/review/sides/{}",
    "/review/tags/{}/answers", "/review/tags/{}/discard", "/review/back", "/alike",
    "/alike/offer", "/alike/beyond", "/alike/settle", "/alike/{}", "/learnt", "/learnt/forget",
    "/tags/{}.jpg", "/tags/{}/small.jpg", "/shelf", "/shelf/found", "/records/{}",
    "/records/{}/correct", "/records/{}/split", "/records/{}/withdraw", "/records/{}/merge",
    "/records/{}/merge/{}", "/history", "/history/undo", "/makers", "/makers/save", "/new",
    "/new/pictures", "/phone", "/phone/{}/code.svg", "/phone/{}/state", "/static/{}",
)  # fmt: skip
"""The desk's own paths (`test_desk_fuzz.py` compares them with its routes)."""

_POSTED = ("answers", "discard", "back", "settle", "forget", "correct", "split", "withdraw", "undo",
           "save", "pictures")  # fmt: skip

CLIMBING = (
    "../secret.txt", "..%2fsecret.txt", "../../../../etc/passwd", "..\\secret.txt", "/etc/passwd",
    "%2e%2e/secret.txt", "....//secret.txt", "stash.csv", "stash", "\0", ".", "..", "C:\\secret",
)  # fmt: skip

NAMES = (
    *FIELDS, *(f"before.{name}" for name in FIELDS), *SHEET_COLUMNS, "name", "words", "page",
    "field", "old", "new", "answer", "answers", "tag", "tags", "joined", "more", "seen", "stroke",
    "lesson", "balls", "done", "saved", "key", "token", "from", "keep", "sort", "repeat", "side",
)  # fmt: skip
"""The fields of the desk's forms, queries and answers."""

texts = st.one_of(
    st.text(max_size=30),
    st.sampled_from((*CLIMBING, "", "0", "-1", "1e309", "nan", "00412", "<script>", "=1+1",
                     "9" * 400, "\ud800", "80% wool; 20% nylon", "\u202e", "x" * 5000)),
)  # fmt: skip

json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | texts,
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.sampled_from(NAMES) | texts, inner, max_size=5)
    ),
    max_leaves=12,
)


def requests(ids: Collection[str]) -> st.SearchStrategy[Request]:
    """Requests that mostly have what lets them in, so that they go far: ``ids`` are of
    records and tags.  :data:`TOKEN` stands for the desk's token."""
    return st.builds(
        _request,
        way=_ways(ids),
        query=st.one_of(st.just(b""), _forms(ids), _PRINTABLE),
        headers=_headers(),
        body=_bodies(ids),
        cut=st.floats(0, 1),
        hangs_up=st.sampled_from((False, False, False, True)),
    )


_PRINTABLE = st.text(st.characters(min_codepoint=0x21, max_codepoint=0x7E), max_size=60).map(
    str.encode
)
"""All that h11 lets through in a query, as RFC 9112, section 3.2, has it."""


def _request(
    way: tuple[str, str],
    query: bytes,
    headers: tuple[tuple[bytes, bytes], ...],
    body: bytes,
    cut: float,
    hangs_up: bool,
) -> Request:
    at = int(cut * len(body))
    return Request(*way, query, headers, (body[:at], body[at:]), hangs_up)


@st.composite
def _ways(draw: st.DrawFn, ids: Collection[str]) -> tuple[str, str]:
    """A method and a path, mostly such as belong together."""
    some = st.sampled_from(sorted(ids)) | texts
    odd = draw(st.integers(0, 9))
    path = "/" + draw(texts) if odd == 0 else draw(st.sampled_from(PATHS))
    usual = "POST" if path.rsplit("/", 1)[-1] in _POSTED else "GET"
    method = draw(st.sampled_from(("GET", "POST", "HEAD", "PUT", "BREW"))) if odd < 3 else usual
    while "{}" in path:
        path = path.replace("{}", draw(some).replace("{}", ""), 1)
    return method, path


@st.composite
def _headers(draw: st.DrawFn) -> tuple[tuple[bytes, bytes], ...]:
    headers = {b"host": HOST.encode(), b"x-desk-token": TOKEN}
    headers[b"accept"] = draw(st.sampled_from((b"text/html", b"application/json", b"*/*")))
    odd = st.sampled_from(
        (b"host", b"origin", b"cookie", b"content-length", b"content-type", b"range", b"accept",
         b"if-none-match", b"if-modified-since", b"x-desk-token", b"sec-fetch-site", b"referer",
         b"connection", b"transfer-encoding", b"expect", b"x-forwarded-host")
    )  # fmt: skip
    kinds = st.sampled_from(
        (b"bytes=0-", b"bytes=-1", b"bytes=5-1,9-", b"99999999999999999999", b"-1", b"null",
         b"text/html;q=x", b"multipart/form-data; boundary=x", b"chunked", b"same-origin",
         HOST.encode(), b"http://" + HOST.encode(), b"desk_pass=x; a=\xff", b"*", b"\xc3")
    )  # fmt: skip
    headers |= draw(st.dictionaries(odd, kinds | st.binary(max_size=20), max_size=2))
    return tuple(headers.items())


def _forms(ids: Collection[str]) -> st.SearchStrategy[bytes]:
    pairs = st.tuples(st.sampled_from(NAMES), texts | st.sampled_from(sorted(ids)))
    return st.lists(pairs, max_size=6).map(
        lambda form: urlencode(form, errors="surrogatepass").encode()
    )


def _bodies(ids: Collection[str]) -> st.SearchStrategy[bytes]:
    answers = st.dictionaries(st.sampled_from(NAMES), texts, max_size=3)
    objects = st.fixed_dictionaries(
        {}, optional={"answers": answers | json_values, "joined": texts | st.sampled_from(
            sorted(ids)), "more": json_values, "tag": texts | st.sampled_from(sorted(ids))},
    )  # fmt: skip
    return st.one_of(
        st.binary(max_size=200),
        (objects | json_values).map(lambda value: json.dumps(value).encode()),
        _forms(ids),
    )
