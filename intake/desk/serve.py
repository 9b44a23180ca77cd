"""Serving the desk on this machine and the home network, and opening it in the browser."""

from __future__ import annotations

import socket
import threading
import webbrowser
from collections.abc import Callable, Sequence
from contextlib import suppress

import uvicorn
from starlette.applications import Starlette

from intake.desk.app import desk_app
from intake.desk.phone import home_address, phone_link, terminal_code
from intake.desk.security import KEY_PARAMETER, Keys
from intake.errors import NoAccess
from intake.filing.cabinet import Cabinet

LOOPBACK = "127.0.0.1"

USUAL_PORT = 8417
"""Tried first, so that what a browser kept for the page is found again the next time."""


def serve_desk(
    cabinet: Cabinet, port: int | None = None, *, browser: bool = True, phone: bool = False
) -> None:
    """Serve the desk until the user stops it, and open it in the ``browser``.

    Only this machine is served; with ``phone`` the home network is, too, and every browser
    must bring a key.  Raises :class:`NoAccess` where ``port`` is taken or there is no home
    network.
    """
    listener = listen(port)
    hosts = own_hosts(listener)
    if not phone:
        address = f"http://{hosts[0]}/"
        app, listeners = desk_app(cabinet, hosts), [listener]
        print(f"The desk is open at {address} (Ctrl+C closes it)", flush=True)
    else:
        keys = Keys()
        at_home = listen(listener.getsockname()[1], home_address())
        home_host = ":".join(map(str, at_home.getsockname()[:2]))
        app = desk_app(cabinet, (*hosts, home_host), keys, home_host)
        listeners = [listener, at_home]
        address = f"http://{hosts[0]}/phone?{KEY_PARAMETER}={keys.issue()}"
        print(f"The desk is open to your home network.  On this machine: {address}")
        print("On a phone, scan this code; it lets in one browser (Ctrl+C closes the desk):")
        print(terminal_code(phone_link(home_host, keys.issue())), flush=True)
    serve(app, listeners, (lambda: open_browser(address)) if browser else None)


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
    app: Starlette,
    listeners: Sequence[socket.socket],
    when_open: Callable[[], object] | None = None,
) -> None:
    """Answer requests on ``listeners`` until the user stops the process; call ``when_open``
    in a thread of its own meanwhile."""
    server = uvicorn.Server(
        uvicorn.Config(app, log_level="warning", access_log=False, server_header=False)
    )
    if when_open is not None:
        # The socket listens already, so a browser that is quicker than the server waits.
        threading.Thread(target=when_open, daemon=True).start()
    with suppress(KeyboardInterrupt):  # the user's way to close the desk
        server.run(sockets=list(listeners))


def open_browser(address: str) -> None:
    """Show ``address`` in the user's browser, where there is one."""
    webbrowser.open(address)
