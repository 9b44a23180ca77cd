"""The page of the whole history, where any stroke can be taken back."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.forms import Form, see, submitted
from intake.desk.pages import at_cabinet, page
from intake.desk.past import strokes
from intake.desk.tag_pictures import is_tag_id

PAGE_CHANGES = 200


def history_page(request: Request) -> Response:
    """The changes, the last one first, so many a page."""
    asked = request.query_params.get("before", "")
    with at_cabinet(request) as cabinet:
        changes = cabinet.history.changes()
        end = min(int(asked), len(changes)) if asked.isdecimal() else len(changes)
        start = _start_of_stroke([change.stroke for change in changes[:end]], end - PAGE_CHANGES)
        past = strokes(cabinet, changes[start:end])
    return page(request, "history.html", past=past, earlier=start, count=len(changes))


def undo(request: Request, form: Form) -> Response:
    """Take a stroke back; the browser goes on to the record that it came from, if any."""
    record_id = form.text("record")
    with at_cabinet(request) as cabinet:
        cabinet.undo(form.text("stroke"))
    return see(f"/records/{record_id}" if is_tag_id(record_id) else "/history")


def _start_of_stroke(strokes_before: list[str], start: int) -> int:
    """``start``, or where the stroke begins that it falls into."""
    start = max(0, start)
    while 0 < start < len(strokes_before) and strokes_before[start - 1] == strokes_before[start]:
        start -= 1
    return start


routes = [
    Route("/history", history_page),
    Route("/history/undo", submitted(undo), methods=["POST"]),
]
