"""Letting a phone in: the machine's address on the home network, and the link as a code."""

from __future__ import annotations

import io
import ipaddress
import socket
from urllib.parse import urlencode

import segno

from intake.desk.security import KEY_PARAMETER
from intake.errors import NoAccess

_ELSEWHERE = ("192.0.2.1", 9)
"""An address that nobody has (TEST-NET-1 of RFC 5737).  Asking which way leads there sends
nothing."""

_LANDING = "/new"


def home_address() -> str:
    """This machine's address on the home network.  Raises :class:`NoAccess` where it is on
    none: an address that the whole world reaches is not served."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(_ELSEWHERE)
            found = ipaddress.ip_address(probe.getsockname()[0])
        except OSError as error:
            raise NoAccess("this machine is on no network; join your home network") from error
    if found.is_loopback or found.is_unspecified:
        raise NoAccess("this machine is on no network; join your home network")
    if not found.is_private:
        raise NoAccess(f"{found} is no address of a home network; join your home network")
    return str(found)


def phone_link(home_host: str, key: str) -> str:
    """What a phone opens to be let in: ``home_host`` is address and port."""
    return f"http://{home_host}{_LANDING}?{urlencode({KEY_PARAMETER: key})}"


def terminal_code(link: str) -> str:
    """``link`` as a QR code of text, and as itself below."""
    out = io.StringIO()
    segno.make(link, micro=False).terminal(out, compact=True)
    return f"{out.getvalue()}{link}"


def svg_code(link: str) -> bytes:
    """``link`` as a QR code: a picture (SVG), black on white whatever the page's colours,
    for not every camera reads the inverse."""
    out = io.BytesIO()
    segno.make(link, micro=False).save(
        out, kind="svg", scale=8, border=4, dark="#000", light="#fff", xmldecl=False
    )
    return out.getvalue()
