"""Who may ask the desk for anything: this machine's own pages, and a phone that was let in.

A page of another site could send requests to a server on this machine.  So each request
must name the desk as its host, come from the desk's own pages where the browser says
where it comes from, and carry the desk's token where it changes something.  Answers allow
no script or style but the desk's own files, and no request to anywhere else.
"""

from __future__ import annotations

import hmac
import secrets
import threading
from collections import Counter
from collections.abc import Collection, Iterable
from urllib.parse import urlencode

from starlette.datastructures import MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

TOKEN_HEADER = "x-desk-token"
TOKEN_PARAMETER = "token"
"""Where a request that changes something carries the token: scripts in the header, plain
forms in the query of their action."""

KEY_PARAMETER = "key"
_COOKIE = "desk_pass"

MOST_OPEN = 4
MOST_WRONG = 20
"""More than a phone with an old code and an old cookie brings; far from enough to guess."""

_HARMLESS = ("GET", "HEAD")

_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "connect-src 'self'",
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
    )
)

_HEADERS = {
    "Content-Security-Policy": _POLICY,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    # Under "no-referrer" a browser would not say where a form comes from.
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
}


class Keys:
    """The secret that lets in a browser on the home network.

    :meth:`issue` gives a key for one use; the browser that brings it gets a pass, kept in
    a cookie, and is let in from then on until the desk closes.  A device that brings
    wrong ones :data:`MOST_WRONG` times is let in no more.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._open: list[str] = []
        self._passes: list[str] = []
        self._wrong: Counter[str] = Counter()

    def issue(self) -> str:
        """A fresh key, good for one browser.  Of the keys that nobody brought only the
        last :data:`MOST_OPEN` stay good."""
        key = secrets.token_urlsafe(24)
        with self._lock:
            self._open = [*self._open, key][-MOST_OPEN:]
        return key

    def is_open(self, key: str) -> bool:
        """Whether ``key`` was issued and no browser has brought it yet."""
        with self._lock:
            return _is_among(key, self._open)

    def redeem(self, key: str) -> str | None:
        """The pass for an open ``key``, which then is spent; ``None`` for any other."""
        with self._lock:
            if not _is_among(key, self._open):
                return None
            self._open.remove(key)
            entry = secrets.token_urlsafe(24)
            self._passes.append(entry)
            return entry

    def admits(self, entry: str) -> bool:
        """Whether ``entry`` is a pass that was given out."""
        with self._lock:
            return _is_among(entry, self._passes)

    def note_wrong(self, device: str) -> None:
        """Remember that ``device`` (its network address) brought a wrong key or pass."""
        with self._lock:
            self._wrong[device] += 1

    def bars(self, device: str) -> bool:
        """Whether ``device`` brought too many wrong ones."""
        with self._lock:
            return self._wrong[device] >= MOST_WRONG


def _is_among(given: str, secrets_: Iterable[str]) -> bool:
    """Whether ``given`` is one of ``secrets_``.  How long it takes tells nothing of them."""
    return sum(hmac.compare_digest(given.encode(), each.encode()) for each in secrets_) > 0


class Guard:
    """Middleware that turns away every request the desk must not answer.

    ``hosts`` are the names the desk goes by, each with its port.  Where ``keys`` is given
    every request needs a pass as well.
    """

    def __init__(
        self, app: ASGIApp, hosts: Collection[str], token: str, keys: Keys | None = None
    ) -> None:
        self._app = app
        self._hosts = frozenset(hosts)
        self._token = token
        self._keys = keys

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, or answer it with a refusal."""
        if scope["type"] != "http":  # the desk speaks nothing else
            await self._app(scope, receive, send)
            return
        request = Request(scope)
        answer = self._refusal(request) or self._entry(request)
        await (answer or self._app)(scope, receive, _with_headers(send))

    def _refusal(self, request: Request) -> Response | None:
        if request.headers.get("host", "") not in self._hosts:
            return _refuse("this name is not the desk's; open the address that balltag printed")
        if not self._comes_from_here(request):
            return _refuse("another site may not use the desk")
        if request.method not in _HARMLESS and not self._has_token(request):
            return _refuse("the page is from an earlier desk; load it again", "token")
        return None

    def _comes_from_here(self, request: Request) -> bool:
        origin = request.headers.get("origin")
        if origin is not None:
            return origin in {f"{request.url.scheme}://{host}" for host in self._hosts}
        # Browsers tell it so for pictures and links; a link from elsewhere may open a page.
        site = request.headers.get("sec-fetch-site", "none")
        is_link = request.headers.get("sec-fetch-mode") == "navigate"
        return site in ("none", "same-origin") or (is_link and request.method in _HARMLESS)

    def _has_token(self, request: Request) -> bool:
        given = request.headers.get(TOKEN_HEADER) or request.query_params.get(TOKEN_PARAMETER, "")
        return hmac.compare_digest(given.encode(), self._token.encode())

    def _entry(self, request: Request) -> Response | None:
        """What a browser without a pass gets: a pass for its key, or nothing."""
        keys = self._keys
        given_pass = request.cookies.get(_COOKIE, "")
        device = request.client.host if request.client else ""
        if keys is None:
            return None
        if keys.bars(device):
            return _refuse("too many wrong codes came from this device; open the desk anew")
        if keys.admits(given_pass):
            return None
        given_key = request.query_params.get(KEY_PARAMETER, "")
        if request.headers.get("sec-fetch-site") == "cross-site":
            given_key = ""  # another site's link: it would use up what a device may get wrong
        entry = keys.redeem(given_key)
        if entry is None:
            if given_key or given_pass:
                keys.note_wrong(device)
            answer = _refuse("scan the code that the desk shows; each code lets in one browser")
            answer.delete_cookie(_COOKIE)  # that of an earlier desk is no guess at this one's
            return answer
        answer = RedirectResponse(_without_key(request), status_code=303)
        answer.set_cookie(_COOKIE, entry, httponly=True, samesite="strict")
        return answer


def _refuse(why: str, kind: str = "refused") -> Response:
    return PlainTextResponse(f"{why}\n", status_code=403, headers={"X-Desk-Refusal": kind})


def _without_key(request: Request) -> str:
    kept = [
        (name, text) for name, text in request.query_params.multi_items() if name != KEY_PARAMETER
    ]
    # Two slashes at the start would name another site.
    path = "/" + request.url.path.lstrip("/")
    return path + (f"?{urlencode(kept)}" if kept else "")


def _with_headers(send: Send) -> Send:
    async def send_with_headers(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, text in _HEADERS.items():
                headers[name] = text
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return send_with_headers
