"""What all pages of the desk share: the cabinet behind it, the frame around each page, and
what a failure looks like."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import jinja2
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.templating import Jinja2Templates

from intake.desk.amounts import amount, count_of
from intake.desk.inbox import Inbox
from intake.desk.security import Keys
from intake.desk.shelf import FreshShelf, Shelf
from intake.errors import BalltagError, CannotUndo, NoSuchRecord, StashBusy
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet
from intake.filing.judge import spoken
from intake.filing.knowledge import Knowledge
from intake.filing.queue import NotWaiting

HERE = Path(__file__).resolve().parent

NAVIGATION = (
    ("/review", "Review"),
    ("/alike", "Alike"),
    ("/shelf", "Stash"),
    ("/new", "New pictures"),
    ("/history", "History"),
    ("/makers", "Makers"),
    ("/learnt", "Learnt"),
)
"""The pages that the navigation leads to: path and words."""

PHONE = ("/phone", "Phone")
"""Stands among them where phones are let in."""

_templates = Jinja2Templates(
    env=jinja2.Environment(
        loader=jinja2.FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
)
_templates.env.filters |= {"spoken": spoken, "amount": amount, "count_of": count_of}


@dataclass
class Desk:
    """What the pages work on.  Where phones are let in there are ``keys`` and the
    ``home_host`` (address and port) that they reach."""

    cabinet: Cabinet
    token: str
    keys: Keys | None = None
    home_host: str = ""
    turn: threading.RLock = field(default_factory=threading.RLock)
    shelf: FreshShelf = field(init=False)
    inbox: Inbox = field(init=False)
    knowledge: Knowledge = field(init=False)

    def __post_init__(self) -> None:
        self.shelf = FreshShelf(self.cabinet)
        self.inbox = Inbox(self.cabinet.stash.path)
        self.knowledge = Knowledge(self.cabinet)


def desk_of(request: Request) -> Desk:
    """The desk that ``request`` was sent to."""
    desk: Desk = request.app.state.desk
    return desk


@contextmanager
def at_cabinet(request: Request) -> Iterator[Cabinet]:
    """The cabinet, for one request at a time: endpoints run in several threads."""
    desk = desk_of(request)
    with desk.turn:
        yield desk.cabinet


@contextmanager
def at_shelf(request: Request) -> Iterator[Shelf]:
    """The balls of the cabinet as they are now, for one request at a time."""
    desk = desk_of(request)
    with desk.turn:
        yield desk.shelf.now()


def page(request: Request, template: str, status_code: int = 200, **context: object) -> Response:
    """A page made from ``template``, which gets ``context`` with the navigation, the path
    and the token for its forms."""
    desk = desk_of(request)
    frame = {
        "navigation": NAVIGATION if desk.keys is None else (*NAVIGATION, PHONE),
        "path": request.url.path,
        "token": desk.token,
    }
    return _templates.TemplateResponse(
        request, template, {**frame, **context}, status_code=status_code
    )


def tell_failure(request: Request, error: Exception) -> Response:
    """A failure that the user can act on: its line as JSON for a script, as a page for a
    browser, bare for others."""
    status, message, accepted = _status(error), _message(error), request.headers.get("accept", "")
    if "application/json" in accepted:
        kind = type(error).__name__
        return JSONResponse({"failure": kind, "message": message}, status_code=status)
    if "text/html" in accepted:
        return page(request, "failure.html", status, message=message)
    return PlainTextResponse(f"{message}\n", status_code=status)


def _message(error: Exception) -> str:
    if isinstance(error, HTTPException):
        return "there is no such page" if error.status_code == 404 else error.detail
    return str(error)


def _status(error: Exception) -> int:
    if isinstance(error, HTTPException):
        return error.status_code
    if isinstance(error, NoSuchRecord):
        return 404
    if isinstance(error, NotWaiting | CannotUndo):
        return 409
    if isinstance(error, StashBusy):
        return 503
    if isinstance(error, BadAnswer):
        return 422
    return 400 if isinstance(error, BalltagError) else 500
