"""The page of what answers taught, where any of it can be taken back."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.forms import Form, see, submitted
from intake.desk.pages import at_cabinet, page

MOST_SHOWN = 500


def learnt_page(request: Request) -> Response:
    """The lessons, the last one first; those about ``words`` where they are given."""
    words = request.query_params.get("words", "").strip().casefold()
    with at_cabinet(request) as cabinet:
        lessons = [
            lesson
            for lesson in reversed(cabinet.learnt.lessons())
            if words in f"{lesson.meant} {lesson.read} {lesson.maker} {lesson.range}".casefold()
        ]
    return page(
        request,
        "learnt.html",
        lessons=lessons[:MOST_SHOWN],
        more=len(lessons[MOST_SHOWN:]),
        words=request.query_params.get("words", ""),
    )


def forget(request: Request, form: Form) -> Response:
    """Take a lesson back; the answer that taught it stays."""
    with at_cabinet(request) as cabinet:
        cabinet.unlearn(form.text("lesson"))
    return see("/learnt")


routes = [
    Route("/learnt", learnt_page),
    Route("/learnt/forget", submitted(forget), methods=["POST"]),
]
