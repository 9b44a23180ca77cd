"""Merging: two records that are one ball become one, after both pictures were seen."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.forms import Form, see, submitted
from intake.desk.pages import at_cabinet, at_shelf, page
from intake.desk.shelf import Sought
from intake.filing.record import record_cells
from intake.records import FIELDS


def choose(request: Request) -> Response:
    """The page where the other record is looked for; at first among the balls of its lot."""
    record_id = request.path_params["record_id"]
    words = request.query_params.get("words")
    with at_cabinet(request) as cabinet:
        record = cabinet.record(record_id)
    sought = Sought(lot_of=record_id) if words is None else Sought(words)
    with at_shelf(request) as shelf:
        found = shelf.find(sought)
    shown = [ball for shade in found.shades for lot in shade.lots for ball in lot.shown]
    return page(
        request,
        "merge_choose.html",
        record=record,
        words=words or "",
        balls=[ball for ball in shown if ball.record.id != record_id],
        more=found.totals.balls - sum(ball.count for ball in shown),
    )


def compare(request: Request) -> Response:
    """Both records side by side; the user says which one stays."""
    with at_cabinet(request) as cabinet:
        pair = [cabinet.record(request.path_params[name]) for name in ("record_id", "other_id")]
    one, other = map(record_cells, pair)
    columns = [name for name in FIELDS if one[name] or other[name]]
    return page(request, "merge.html", pair=(one, other), columns=columns)


def merge(request: Request, form: Form) -> Response:
    """Take the other record out of the stash; the one of the path stays."""
    keep, other = request.path_params["record_id"], request.path_params["other_id"]
    with at_cabinet(request) as cabinet:
        cabinet.merge(keep, [other])
    return see(f"/records/{keep}")


routes = [
    Route("/records/{record_id}/merge", choose),
    Route("/records/{record_id}/merge/{other_id}", compare),
    Route("/records/{record_id}/merge/{other_id}", submitted(merge), methods=["POST"]),
]
