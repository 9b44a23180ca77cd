"""The body of a request, as it comes over the line: a phone may send slowly, or go away."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

STALLED_S = 30.0
"""A sender of whom nothing came for so long has gone: a phone that leaves the network says
no goodbye."""


async def pieces(request: Request) -> AsyncIterator[bytes]:
    """The body of ``request`` in pieces.

    Raises an :class:`HTTPException` of status 408 where nothing came for :data:`STALLED_S`
    seconds, and :class:`~starlette.requests.ClientDisconnect` where the sender hung up.
    """
    stream = aiter(request.stream())
    while True:
        try:
            async with asyncio.timeout(STALLED_S):
                piece = await anext(stream)
        except StopAsyncIteration:
            return
        except TimeoutError as error:
            raise HTTPException(408, "it stopped coming half way; send it again") from error
        yield piece


def hung_up(request: Request, error: Exception) -> Response:
    """For a sender that hung up: nobody hears the answer, and nobody need be told."""
    return Response()
