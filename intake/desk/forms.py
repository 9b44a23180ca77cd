"""Plain forms of the desk's pages."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from urllib.parse import parse_qs

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from intake.desk.posted import read_body

MOST_BYTES = 1 << 20
MOST_FIELDS = 20_000
"""Enough for a maker sheet of two thousand lines."""


class Form:
    """What a form holds: each field's texts, in the order of the page."""

    def __init__(self, texts: dict[str, list[str]]) -> None:
        self._texts = texts

    def __contains__(self, name: str) -> bool:
        return name in self._texts

    def text(self, name: str) -> str:
        """The text of a field; empty where the form has none of that name."""
        return self._texts.get(name, [""])[-1]

    def column(self, name: str) -> list[str]:
        """The texts of a field that stands on every line of a table."""
        return self._texts.get(name, [])


def submitted(
    work: Callable[[Request, Form], Response],
) -> Callable[[Request], Awaitable[Response]]:
    """An endpoint that gives ``work`` the form of the request.  ``work`` runs in a thread,
    for it may wait for a disk or a lock."""

    async def endpoint(request: Request) -> Response:
        return await run_in_threadpool(work, request, await _read_form(request))

    return endpoint


def see(path: str) -> Response:
    """Send the browser on to ``path``, so that loading again repeats nothing."""
    return RedirectResponse(path, status_code=303)


async def _read_form(request: Request) -> Form:
    data = await read_body(request, MOST_BYTES)
    try:
        texts = parse_qs(
            data.decode(), keep_blank_values=True, errors="strict", max_num_fields=MOST_FIELDS
        )
    except ValueError as error:
        raise HTTPException(400, "the form cannot be read; load the page anew") from error
    return Form(texts)
