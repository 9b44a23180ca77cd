"""Serving the desk on this machine, and opening it in the browser."""

from __future__ import annotations

import socket
import threading
import webbrowser
from collections.abc import Callable

import uvicorn
from starlette.applications import Starlette

from intake.errors import NoAccess

LOOPBACK = "127.0.0.1"

USUAL_PORT = 8417
"""Tried first, so that what a browser kept for the page is found again the next time."""


def listen(port: int | None = None, address: str = LOOPBACK) -> socket.socket:
    """A socket at ``port``, or else at the usual one or any that is free.  Raises
    :class:`NoAccess` where ``port`` is given and taken."""
    tried = (USUAL_PORT, 0) if port is None else (port,)
    for each in tried:
        try:
            return socket.create_server((address, each))
        except OSError as error:
            failure = error
    raise NoAccess(
        f"port {port} cannot be used ({failure.strerror}); give another with --port"
    ) from failure


def own_hosts(listener: socket.socket) -> tuple[str, ...]:
    """The names by which this machine's own browser knows the server."""
    port = listener.getsockname()[1]
    return (f"{LOOPBACK}:{port}", f"localhost:{port}")


def serve(
    app: Starlette, listener: socket.socket, when_open: Callable[[], object] | None = None
) -> None:
    """Answer requests on ``listener`` until the process is told to stop; call
    ``when_open`` in a thread of its own as soon as requests are answered."""
    server = uvicorn.Server(
        uvicorn.Config(app, log_level="warning", access_log=False, server_header=False)
    )
    if when_open is not None:
        # The socket listens already, so a browser that is quicker than the server waits.
        threading.Thread(target=when_open, daemon=True).start()
    server.run(sockets=[listener])


def open_browser(address: str) -> None:
    """Show ``address`` in the user's browser, where there is one."""
    webbrowser.open(address)
