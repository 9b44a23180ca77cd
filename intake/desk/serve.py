"""Serving the desk on this machine and the home network, and opening it in the browser."""

from __future__ import annotations

import asyncio
import socket
import sys
import threading
import webbrowser
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from urllib.parse import urlencode

import uvicorn
from starlette.applications import Starlette

from intake.desk.app import desk_app
from intake.desk.patience import PatientProtocol
from intake.desk.phone import home_address, phone_link, terminal_code
from intake.desk.security import KEY_PARAMETER, Keys
from intake.errors import NoAccess
from intake.filing.cabinet import Cabinet

LOOPBACK = "127.0.0.1"

USUAL_PORT = 8417
"""Tried first, so that what a browser kept for the page is found again the next time."""

END_WITHIN_S = 10.0
"""So long a desk that ends waits for those who do not read their answer."""


def serve_desk(
    cabinet: Cabinet, port: int | None = None, *, browser: bool = True, phone: bool = False
) -> None:
    """Serve the desk until the user stops it, and open it in the ``browser``.

    Only this machine is served; with ``phone`` the home network is, too, and every browser
    must bring a key.  Raises :class:`NoAccess` where ``port`` is taken or there is no home
    network.
    """
    listener = listen(port)
    desk = _open_at_home(cabinet, listener) if phone else _open_here(cabinet, listener)
    when_open = (lambda: open_browser(desk.address)) if browser else None
    serve(desk.app, desk.listeners, when_open)


@dataclass(frozen=True, slots=True)
class _OpenDesk:
    """What is served where, and the ``address`` for this machine's browser."""

    app: Starlette
    listeners: Sequence[socket.socket]
    address: str


def _open_here(cabinet: Cabinet, listener: socket.socket) -> _OpenDesk:
    hosts = own_hosts(listener)
    desk = _OpenDesk(desk_app(cabinet, hosts), [listener], f"http://{hosts[0]}/")
    print(f"The desk is open at {desk.address} (Ctrl+C closes it)", flush=True)
    return desk


def _open_at_home(cabinet: Cabinet, listener: socket.socket) -> _OpenDesk:
    """The desk on the home network, too, at the same port."""
    at_home = listen(listener.getsockname()[1], home_address())
    home_host = ":".join(map(str, at_home.getsockname()[:2]))
    hosts = own_hosts(listener)
    keys = Keys()
    app = desk_app(cabinet, (*hosts, home_host), keys, home_host)
    address = f"http://{hosts[0]}/phone?{urlencode({KEY_PARAMETER: keys.issue()})}"
    print(f"The desk is open to your home network (Ctrl+C closes it). On this machine: {address}")
    print("On a phone, open the link of this code; it lets in one browser:")
    _print_code(phone_link(home_host, keys.issue()))
    return _OpenDesk(app, [listener, at_home], address)


def _print_code(link: str) -> None:
    """Print ``link``, and above it as a code where the terminal has the letters for one."""
    code = terminal_code(link)
    try:
        code.encode(sys.stdout.encoding)
    except UnicodeEncodeError:
        code = link
    print(code, flush=True)


def listen(port: int | None = None, address: str = LOOPBACK) -> socket.socket:
    """A socket at ``port``, or else at the usual one or any that is free.  Raises
    :class:`NoAccess` where ``port`` is given and taken."""
    tried = (USUAL_PORT, 0) if port is None else (port,)
    for each in tried:
        try:
            listener = socket.create_server((address, each))
        except OSError as error:
            failure = error
            continue
        # Connections inherit it.  Else an answer's body waits 40 ms for its head to be
        # acknowledged: asyncio sees to it only for sockets that it made itself.
        listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        return listener
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
    server = server_for(app)
    if when_open is not None:
        # The socket listens already, so a browser that is quicker than the server waits.
        threading.Thread(target=when_open, daemon=True).start()
    with suppress(KeyboardInterrupt):  # the user's way to close the desk
        server.run(sockets=list(listeners))


class EndingServer(uvicorn.Server):
    """A server that leaves no line open when it has ended: a browser would send its next
    request there and wait for ever."""

    end_within_s: float = END_WITHIN_S

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Wait for answers under way, and for those who read them no longer than set."""
        loop = asyncio.get_running_loop()
        losing_patience = loop.call_later(self.end_within_s, self._close_lines)
        await super().shutdown(sockets)
        losing_patience.cancel()
        self._close_lines()
        await asyncio.sleep(0)  # the loop closes them in its next round

    def _close_lines(self) -> None:
        """Also those that were opened too late to be asked to close."""
        for line in list(self.server_state.connections):
            line.transport.abort()


def server_for(app: Starlette) -> EndingServer:
    """A server of ``app`` that says nothing of what strangers send."""
    return EndingServer(
        uvicorn.Config(
            app,
            http=PatientProtocol,  # by h11, which lets through only what the standard has
            ws="none",
            proxy_headers=False,  # or a neighbour could say that he is another
            log_level="error",
            access_log=False,
            server_header=False,
        )
    )


def open_browser(address: str) -> None:
    """Show ``address`` in the user's browser, where there is one."""
    webbrowser.open(address)
