"""The page of the stash: its balls by shade and lot, searched as one types."""

from __future__ import annotations

from dataclasses import asdict
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.pages import at_shelf, page
from intake.desk.shelf import Sought


def shelf_page(request: Request) -> Response:
    """The page, with what the query asks for."""
    return _answer(request, "shelf.html")


def found(request: Request) -> Response:
    """Only what was found, for the page's script."""
    return _answer(request, "shelf_found.html")


def _answer(request: Request, template: str) -> Response:
    query = request.query_params
    sought = Sought(**{name: query.get(name, "") for name in Sought.__slots__})
    with at_shelf(request) as shelf:
        return page(
            request,
            template,
            sought=sought,
            found=shelf.find(sought, _number(query.get("start", ""))),
            query=urlencode({name: text for name, text in asdict(sought).items() if text}),
            size=len(shelf),
            makers=shelf.makers,
            weight_classes=shelf.weight_classes,
        )


def _number(text: str) -> int:
    return int(text) if text.isdecimal() and len(text) < 9 else 0


routes = [Route("/shelf", shelf_page), Route("/shelf/found", found)]
