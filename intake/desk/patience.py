"""A line on which no request comes is closed: one who opens many would use up all that the
system allows."""

from __future__ import annotations

import asyncio

from uvicorn.protocols.http.h11_impl import H11Protocol

HEAD_S = 30.0
"""A browser sends the head of a request at once; so long is waited for the whole of it."""


class PatientProtocol(H11Protocol):
    """Speaks HTTP, but ends a line where a request's head does not come whole in time."""

    _ending: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """A line was opened; see :class:`asyncio.Protocol`."""
        super().connection_made(transport)
        self._mind()

    def data_received(self, data: bytes) -> None:
        """Something came."""
        super().data_received(data)
        self._mind()

    def on_response_complete(self) -> None:
        """A request was answered, and the next may come."""
        super().on_response_complete()
        self._mind()

    def connection_lost(self, exc: Exception | None) -> None:
        """The line is closed."""
        self._forget()
        super().connection_lost(exc)

    def _mind(self) -> None:
        if self.cycle is not None and not self.cycle.response_complete:
            self._forget()
        elif self._ending is None:
            self._ending = asyncio.get_running_loop().call_later(HEAD_S, self.transport.close)

    def _forget(self) -> None:
        if self._ending is not None:
            self._ending.cancel()
            self._ending = None
