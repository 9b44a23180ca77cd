"""The page that shows a phone the way in."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from intake.desk.pages import desk_of, page
from intake.desk.phone import phone_link, svg_code
from intake.desk.security import KEY_PARAMETER, Keys


def phone_page(request: Request) -> Response:
    """A fresh code; each time the page is loaded it is another one."""
    key = _keys(request).issue()
    return page(request, "phone.html", key=key, link=phone_link(desk_of(request).home_host, key))


def code(request: Request) -> Response:
    """The code of an open key as a picture (SVG)."""
    link = phone_link(desk_of(request).home_host, _open_key(request))
    return Response(svg_code(link), media_type="image/svg+xml")


def state(request: Request) -> Response:
    """Whether the code still waits for its phone."""
    is_open = _keys(request).is_open(request.path_params[KEY_PARAMETER])
    return JSONResponse({"open": is_open})


def _keys(request: Request) -> Keys:
    keys = desk_of(request).keys
    if keys is None:  # phones are not let in
        raise HTTPException(404)
    return keys


def _open_key(request: Request) -> str:
    key: str = request.path_params[KEY_PARAMETER]
    if not _keys(request).is_open(key):
        raise HTTPException(404)
    return key


routes = [
    Route("/phone", phone_page),
    Route("/phone/{key}/code.svg", code),
    Route("/phone/{key}/state", state),
]
