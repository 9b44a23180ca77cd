"""The desk as one application: its pages, its pictures and the guard in front of them."""

from __future__ import annotations

import os
import secrets
from collections.abc import AsyncIterator, Collection
from contextlib import asynccontextmanager

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from intake.desk import (
    alike_page,
    history_page,
    learnt_page,
    makers_page,
    merge_page,
    new_page,
    phone_page,
    record_page,
    review_page,
    shelf_page,
    tag_pictures,
)
from intake.desk.body import hung_up
from intake.desk.pages import HERE, Desk, desk_of, tell_failure
from intake.desk.security import Guard, Keys
from intake.errors import BalltagError
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet


def desk_app(
    cabinet: Cabinet, hosts: Collection[str], keys: Keys | None = None, home_host: str = ""
) -> Starlette:
    """The application that serves ``cabinet``.

    ``hosts`` are the names it goes by, each with its port (``127.0.0.1:8417``).  Where
    ``keys`` is given, every browser must bring one of them first; ``home_host`` is the
    one of ``hosts`` that a phone reaches.
    """
    desk = Desk(cabinet, secrets.token_urlsafe(24), keys, home_host)
    app = Starlette(
        routes=[
            Route("/", _first_page),
            Route("/token", _token),
            *review_page.routes,
            *alike_page.routes,
            *learnt_page.routes,
            *tag_pictures.routes,
            *shelf_page.routes,
            *record_page.routes,
            *merge_page.routes,
            *history_page.routes,
            *makers_page.routes,
            *new_page.routes,
            *phone_page.routes,
            Mount("/static", _OwnFiles(directory=HERE / "static")),
        ],
        middleware=[Middleware(Guard, hosts=hosts, token=desk.token, keys=keys)],
        exception_handlers={
            BalltagError: tell_failure,
            BadAnswer: tell_failure,
            HTTPException: tell_failure,
            ClientDisconnect: hung_up,
        },
        lifespan=_with_inbox,
    )
    app.state.desk = desk
    return app


@asynccontextmanager
async def _with_inbox(app: Starlette) -> AsyncIterator[None]:
    """Read what was sent to the desk, as long as it is open."""
    inbox = app.state.desk.inbox
    await run_in_threadpool(inbox.resume)
    yield
    await run_in_threadpool(inbox.close)


class _OwnFiles(StaticFiles):
    """The desk's scripts and styles: kept by the browser, but asked about each time, so that
    a newer balltag is not seen through an older one's."""

    def file_response(
        self,
        full_path: str | os.PathLike[str],
        stat_result: os.stat_result,
        scope: Scope,
        status_code: int = 200,
    ) -> Response:
        answer = super().file_response(full_path, stat_result, scope, status_code)
        answer.headers["Cache-Control"] = "no-cache"
        return answer


def _token(request: Request) -> Response:
    """The token, for a page that was loaded before this desk was opened."""
    return JSONResponse({"token": desk_of(request).token})


def _first_page(request: Request) -> Response:
    return RedirectResponse("/review")
