"""The page of one record: its tag, all that is filed of it, what became of it, and the ways
to correct it, to split balls off and to take it out."""

from __future__ import annotations

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.forms import Form, see, submitted
from intake.desk.pages import at_cabinet, desk_of, page
from intake.desk.past import strokes
from intake.errors import NoSuchRecord
from intake.filing.answers import BadAnswer, answer_cell
from intake.filing.cabinet import Cabinet
from intake.filing.record import record_cells
from intake.records import FIELDS

BESIDE = (
    "shade_printed",
    "note",
    "picture",
    "page",
    "tag",
    "filed_at",
    "id",
    "tag_picture",
    "digest",
    "print_hash",
    "version",
)
"""The columns that say where a record came from; they are not corrected."""

BEFORE = "before."
"""Put before a field's name it names the form's field for what the page showed there."""


def record_page(request: Request) -> Response:
    """The record, or what became of it where it has left the stash."""
    return _page(request, request.path_params["record_id"])


def correct(request: Request, form: Form) -> Response:
    """Set the fields that were changed on the page.

    Nothing is changed where a value cannot be, where somebody else changed the same field
    since the page was loaded, or before a doubt about the new values has been seen.
    """
    record_id = request.path_params["record_id"]
    edits = {
        name: form.text(name)
        for name in FIELDS
        if name in form and form.text(name).strip() != form.text(BEFORE + name)
    }
    with at_cabinet(request) as cabinet:
        troubles = _troubles(cabinet, record_id, edits, form)
        if troubles:
            return _page(request, record_id, edits, troubles=troubles)
        doubts = cabinet.correction_doubts({record_id: edits}).get(record_id, [])
        asked = "; ".join(doubt.reason for doubt in doubts)
        if asked != form.text("seen"):
            return _page(request, record_id, edits, asked=asked)
        cabinet.correct({record_id: edits})
    return see(f"/records/{record_id}")


def split(request: Request, form: Form) -> Response:
    """Give some of the balls that the record stands for a record of their own, and show that."""
    record_id, balls = request.path_params["record_id"], form.text("balls").strip()
    with at_cabinet(request) as cabinet:
        try:
            fresh = cabinet.split(record_id, int(answer_cell("balls", balls)))[-1].record
        except BadAnswer as error:
            return _page(request, record_id, not_split=str(error))
    return see(f"/records/{fresh}")


def withdraw(request: Request, form: Form) -> Response:
    """Take the record out of the stash."""
    record_id = request.path_params["record_id"]
    with at_cabinet(request) as cabinet:
        cabinet.withdraw([record_id])
    return see(f"/records/{record_id}")


def _troubles(
    cabinet: Cabinet, record_id: str, edits: Mapping[str, str], form: Form
) -> dict[str, str]:
    """Why fields cannot be set to what was typed, by field."""
    now = record_cells(cabinet.record(record_id))
    troubles = {}
    for name, text in edits.items():
        try:
            wanted = answer_cell(name, text)
        except BadAnswer as error:
            troubles[name] = str(error)
            continue
        if now[name] not in (form.text(BEFORE + name), wanted):
            troubles[name] = f"changed to {now[name]!r} meanwhile; save again to put yours in place"
    return troubles


def _page(
    request: Request,
    record_id: str,
    typed: Mapping[str, str] | None = None,
    *,
    troubles: Mapping[str, str] | None = None,
    asked: str = "",
    not_split: str = "",
) -> Response:
    with at_cabinet(request) as cabinet:
        past = strokes(cabinet, cabinet.history.changes(record_id))
        try:
            cells = record_cells(cabinet.record(record_id))
            sides = cabinet.other_sides(record_id)
        except NoSuchRecord:
            if not past:
                raise
            return page(request, "record_gone.html", record_id=record_id, past=past)
        ball = desk_of(request).shelf.now().ball(record_id)
    return page(
        request,
        "record.html",
        status_code=422 if troubles or not_split else 200,
        ball=ball,
        cells=cells,
        sides=sides,
        typed=cells | dict(typed or {}),
        troubles=troubles or {},
        asked=asked,
        not_split=not_split,
        fields=FIELDS,
        beside=[name for name in BESIDE if cells[name]],
        past=past,
    )


routes = [
    Route("/records/{record_id}", record_page),
    Route("/records/{record_id}/correct", submitted(correct), methods=["POST"]),
    Route("/records/{record_id}/split", submitted(split), methods=["POST"]),
    Route("/records/{record_id}/withdraw", submitted(withdraw), methods=["POST"]),
]
