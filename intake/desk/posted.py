"""Requests of the desk's scripts: JSON in, JSON out."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from intake.desk.body import pieces

Json = dict[str, Any]

MOST_BYTES = 1 << 18
"""More than any answer to a tag needs."""


def posted(work: Callable[[Request, Json], Json]) -> Callable[[Request], Awaitable[Response]]:
    """An endpoint that gives ``work`` the JSON object of the request and sends the one that
    it returns.  ``work`` runs in a thread, for it may wait for a disk or a lock."""

    async def endpoint(request: Request) -> Response:
        body = await _read_object(request)
        return JSONResponse(await run_in_threadpool(work, request, body))

    return endpoint


async def read_body(request: Request, most_bytes: int) -> bytes:
    """The body of ``request``; "too large" where it is longer than ``most_bytes``."""
    data = bytearray()
    async for piece in pieces(request):
        data += piece
        if len(data) > most_bytes:
            raise HTTPException(413, "that is more than the desk takes at once; send less")
    return bytes(data)


async def _read_object(request: Request) -> Json:
    try:
        body = json.loads(await read_body(request, MOST_BYTES) or b"{}")
    except ValueError as error:
        raise HTTPException(400, "the request is no JSON; load the page anew") from error
    if not isinstance(body, dict):
        raise HTTPException(400, "the request is no JSON object; load the page anew")
    return body
