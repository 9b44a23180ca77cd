"""The page where waiting tags are answered, one at a time.

The page keeps what was typed until the desk has confirmed it.  Each answer is sent at
once with those before it: a value that its field cannot hold is said so beside it, and the
tag is filed with the last answer.
"""

from __future__ import annotations

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from intake.desk.pages import at_cabinet, page
from intake.desk.posted import Json, posted
from intake.desk.question import doubt_views, tag_view
from intake.desk.tag_pictures import is_tag_id, tag_id_of
from intake.errors import quoted
from intake.filing.answers import BadAnswer, answer_value
from intake.filing.cabinet import Cabinet
from intake.filing.changes import Action, Change
from intake.filing.queue import NotWaiting, Waiting
from intake.filing.same import REPEAT, SAME_TAG_AGAIN
from intake.filing.sides import SIDE
from intake.records import FIELDS
from intake.wording import value_text

_SETTLED = (Action.ANSWERED, Action.SETTLED, Action.DISCARDED, Action.JOINED)


def review_page(request: Request) -> Response:
    """The page; its script asks for the tags."""
    return page(request, "review.html")


def waiting_ids(request: Request) -> Response:
    """The ids of the tags that wait, those that came first at the head."""
    with at_cabinet(request) as cabinet:
        return JSONResponse({"ids": cabinet.waiting()})


def waiting_tag(request: Request) -> Response:
    """One tag that waits, as :func:`tag_view` shows it."""
    with at_cabinet(request) as cabinet:
        return JSONResponse(tag_view(cabinet.get(tag_id_of(request))))


def side(request: Request) -> Response:
    """A waiting tag or a record as the other side of a tag."""
    with at_cabinet(request) as cabinet:
        return JSONResponse(tag_view(cabinet.side(tag_id_of(request))))


def answer(request: Request, body: Json) -> Json:
    """Take the answers to a tag that were given so far.

    ``answers`` maps fields to text, empty for what the tag does not carry; ``more`` tells
    that the page still has a question of its own; ``joined`` names another waiting tag, or a
    record, that is the other side of this one.

    Returns ``state``: ``refused`` with ``field`` and ``message`` for a value that its field
    cannot hold, ``open`` while a doubt is unanswered, ``asked`` with the ``doubts`` that only
    these answers raise, ``filed`` or ``left out`` with what is to be ``said``.
    """
    given = _given(body)
    joined = str(body.get("joined") or "")
    if joined and not is_tag_id(joined):
        raise BadAnswer(f"{quoted(joined)} is no tag; load the page anew and choose again")
    with at_cabinet(request) as cabinet:
        item = cabinet.get(tag_id_of(request))
        texts = _without_kept(item, given)
        refused = _refusal(texts)
        if refused is not None:
            return refused
        if not _is_settled(item, given, bool(body.get("more"))):
            return {"state": "open"}
        told = ""
        if joined and not _is_there(cabinet, joined):
            joined, told = "", "; its other side was answered by itself meanwhile"
        doubts = cabinet.further_doubts(item.id, texts, joined)
        further = [doubt for doubt in doubts if doubt.field not in given]
        if further:
            return {"state": "asked", "doubts": doubt_views(further, item.reading)}
        return _file(cabinet, item.id, texts, joined, told)


def discard(request: Request, body: Json) -> Json:
    """Take a tag out of the queue for good."""
    with at_cabinet(request) as cabinet:
        cabinet.discard(tag_id_of(request))
    return {"state": "discarded"}


def back(request: Request, body: Json) -> Json:
    """Take back what settled ``tag`` last, or where that is not given the last answer or
    discarding of all.  Returns the ``tags`` that wait again, each with the values that
    its fields had been ``given``; none where there is nothing to take back."""
    wanted = str(body.get("tag") or "")
    with at_cabinet(request) as cabinet:
        last = _last_settled(cabinet.history.standing(), wanted)
        if last is None:
            return {"tags": {}}
        cabinet.undo(last.stroke)
        stroke = cabinet.history.stroke(last.stroke)
        waiting = [change for change in stroke if change.record in cabinet.queue]
        return {"tags": {change.record: _values(change) for change in waiting}}


def _given(body: Json) -> dict[str, str]:
    answers = body.get("answers")
    if not isinstance(answers, dict):
        raise BadAnswer("the answers must be an object of field and text; load the page anew")
    return {str(name): str(text) for name, text in answers.items()}


def _without_kept(item: Waiting, given: Mapping[str, str]) -> dict[str, str]:
    """``given`` without values as read that nobody could type, such as fibres that do not
    sum to 100: a tag may say so, and the user confirms that it does."""
    read = {name: value_text(name, field.value) for name, field in item.reading.fields.items()}
    return {
        name: text
        for name, text in given.items()
        if text != read.get(name) or _can_be_typed(name, text)
    }


def _can_be_typed(name: str, text: str) -> bool:
    try:
        answer_value(name, text)
    except BadAnswer:
        return False
    return True


def _refusal(texts: Mapping[str, str]) -> Json | None:
    """The first of ``texts`` that its field cannot hold, and why."""
    for name, text in texts.items():
        try:
            if name not in (REPEAT, SIDE):
                answer_value(name, text)
        except BadAnswer as error:
            return {"state": "refused", "field": name, "message": str(error)}
    return None


def _is_settled(item: Waiting, given: Mapping[str, str], more: bool) -> bool:
    """Whether nothing else is to be asked before filing; a tag that was here before needs
    no other answer."""
    if given.get(REPEAT) == SAME_TAG_AGAIN:
        return True
    return not more and all(doubt.field in given for doubt in item.doubts)


def _is_there(cabinet: Cabinet, tag_id: str) -> bool:
    try:
        cabinet.side(tag_id)
    except NotWaiting:
        return False
    return True


def _file(
    cabinet: Cabinet, tag_id: str, answers: Mapping[str, str], joined: str, told: str
) -> Json:
    record = cabinet.resolve(tag_id, answers, joined)
    if record is None:
        return {"state": "left out", "said": "Left out: the same tag again"}
    named = ", ".join(filter(None, (record.shade or record.shade_code, f"lot {record.lot or '–'}")))
    done = "Filed" if record.id == tag_id else "Joined to the record of its other side"
    return {"state": "filed", "said": f"{done}: {named}{told}"}


def _last_settled(standing: list[Change], wanted: str) -> Change | None:
    for change in reversed(standing):
        if change.action in _SETTLED and wanted in ("", change.record):
            return change
    return None


def _values(change: Change) -> dict[str, str]:
    return {name: text for name, text in change.new.items() if name in FIELDS}


routes = [
    Route("/review", review_page),
    Route("/review/tags", waiting_ids),
    Route("/review/tags/{tag_id}", waiting_tag),
    Route("/review/sides/{tag_id}", side),
    Route("/review/tags/{tag_id}/answers", posted(answer), methods=["POST"]),
    Route("/review/tags/{tag_id}/discard", posted(discard), methods=["POST"]),
    Route("/review/back", posted(back), methods=["POST"]),
]
