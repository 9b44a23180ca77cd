"""The page where waiting tags are answered, one at a time."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.pages import at_cabinet, page


def review_page(request: Request) -> Response:
    """The page, with the ids of all that waits."""
    with at_cabinet(request) as cabinet:
        waiting = cabinet.waiting()
    return page(request, "review.html", waiting=waiting)


routes = [Route("/review", review_page)]
