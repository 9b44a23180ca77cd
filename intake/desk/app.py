"""The desk as one application: its pages, its pictures and the guard in front of them."""

from __future__ import annotations

import secrets
from collections.abc import Collection

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from intake.desk import review_page, tag_pictures
from intake.desk.pages import HERE, Desk, tell_failure
from intake.desk.security import Guard, Keys
from intake.errors import BalltagError
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet


def desk_app(cabinet: Cabinet, hosts: Collection[str], keys: Keys | None = None) -> Starlette:
    """The application that serves ``cabinet``.

    ``hosts`` are the names it goes by, each with its port (``127.0.0.1:8417``).  Where
    ``keys`` is given, every browser must bring one of them first.
    """
    desk = Desk(cabinet, secrets.token_urlsafe(24), keys)
    app = Starlette(
        routes=[
            Route("/", _first_page),
            *review_page.routes,
            *tag_pictures.routes,
            Mount("/static", StaticFiles(directory=HERE / "static")),
        ],
        middleware=[Middleware(Guard, hosts=hosts, token=desk.token, keys=keys)],
        exception_handlers={BalltagError: tell_failure, BadAnswer: tell_failure},
    )
    app.state.desk = desk
    return app


def _first_page(request: Request) -> Response:
    return RedirectResponse("/review")
