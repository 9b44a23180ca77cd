"""The page where new pictures are brought in: dropped, chosen, or from a phone's camera."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from intake.desk.body import pieces
from intake.desk.inbox import MOST_BYTES, Coming, InboxFull, Sent
from intake.desk.pages import desk_of, page, tell_failure
from intake.errors import BalltagError, EmptyFile, NoAccess, NotAPicture, TooLarge
from intake.pictures.walk import SUFFIXES

_STATUS = {TooLarge: 413, NotAPicture: 415, EmptyFile: 415, InboxFull: 503}


def new_page(request: Request) -> Response:
    """The page; its script sends the pictures and asks what became of them."""
    return page(
        request,
        "new.html",
        most_bytes=MOST_BYTES,
        accept=",".join(("image/*", *sorted(SUFFIXES))),
    )


def pictures(request: Request) -> Response:
    """What became of the pictures that were sent, the last one first."""
    return JSONResponse({"pictures": [_view(sent) for sent in desk_of(request).inbox.all_sent()]})


async def send(request: Request) -> Response:
    """Take in one picture: the body of the request is the file, ``name`` what its sender
    calls it."""
    try:
        return JSONResponse(_view(await _taken_in(request)))
    except BalltagError as error:
        answer = tell_failure(request, error)
        answer.status_code = _STATUS.get(type(error), answer.status_code)
        return answer


async def _taken_in(request: Request) -> Sent:
    inbox = desk_of(request).inbox
    coming = await run_in_threadpool(inbox.receive, request.query_params.get("name", ""))
    try:
        await _fill(request, coming)
        return await run_in_threadpool(inbox.add, coming)
    except BaseException:  # also where the desk is closed meanwhile: no half picture stays
        coming.drop()
        raise


async def _fill(request: Request, coming: Coming) -> None:
    """Write the request's body.  What follows after it is known to be no picture, or the
    disk to be full, is taken from the line and let go: a browser that cannot send all of it
    hears no answer."""
    failure: NotAPicture | NoAccess | None = None
    length = request.headers.get("content-length", "")
    coming.expect(int(length) if length.isdecimal() else 0)
    async for piece in pieces(request):
        try:
            if failure is None:
                coming.write(piece)
        except (NotAPicture, NoAccess) as error:
            failure = error
    if failure is not None:
        raise failure


def _view(sent: Sent) -> dict[str, object]:
    return {
        "id": sent.id,
        "name": sent.name,
        "stage": sent.stage,
        "failure": sent.failure,
        "results": [
            {"outcome": told.outcome, "id": told.id, "words": told.words} for told in sent.results
        ],
    }


routes = [
    Route("/new", new_page),
    Route("/new/pictures", pictures),
    Route("/new/pictures", send, methods=["POST"]),
]
