"""The page of the maker sheet: what holds where a tag says nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.forms import Form, see, submitted
from intake.desk.pages import at_cabinet, at_shelf, desk_of, page
from intake.errors import BadTable
from intake.filing.answers import BadAnswer
from intake.sums.maker_sheet import (
    SHEET_COLUMNS,
    MakerLine,
    maker_line,
    maker_sheet_path,
    read_maker_sheet,
    write_maker_sheet,
)

Cells = Mapping[str, str]

EMPTY_LINES = 2
"""So many lines stand ready to be filled."""


def makers_page(request: Request) -> Response:
    """The sheet as it is."""
    with at_cabinet(request) as cabinet:
        sheet = read_maker_sheet(cabinet.stash)
    return _page(request, [_cells(line) for line in sheet.lines])


def save(request: Request, form: Form) -> Response:
    """Put the lines of the form in place of the sheet.  Nothing is written where one of
    them cannot be; lines without any text are left out."""
    typed = _typed_lines(form)
    lines, troubles = [], {}
    for number, cells in enumerate(typed):
        try:
            lines.append(maker_line(cells))
        except BadAnswer as error:
            troubles[number] = str(error)
    if troubles:
        return _page(request, typed, troubles)
    try:
        with at_cabinet(request) as cabinet:
            write_maker_sheet(cabinet.stash, lines)
    except BadTable as error:
        return _page(request, typed, trouble=str(error))
    return see("/makers?saved=1")


def _typed_lines(form: Form) -> list[Cells]:
    columns = [form.column(name) for name in SHEET_COLUMNS]
    if len({len(column) for column in columns}) != 1:
        raise HTTPException(
            400, "the lines of the form do not have all columns; load the page anew"
        )
    rows = zip(*columns, strict=True)
    return [dict(zip(SHEET_COLUMNS, row, strict=True)) for row in rows if any(map(str.strip, row))]


def _cells(line: MakerLine) -> Cells:
    return {"maker": line.maker, "range": line.range, **line.says}


def _page(
    request: Request,
    lines: Sequence[Cells],
    troubles: Mapping[int, str] | None = None,
    trouble: str = "",
) -> Response:
    try:
        with at_shelf(request) as shelf:
            makers = shelf.makers
    except BadTable:  # the sheet that is about to be mended
        makers = []
    return page(
        request,
        "makers.html",
        status_code=422 if troubles or trouble else 200,
        columns=SHEET_COLUMNS,
        lines=[*lines, *({} for _ in range(EMPTY_LINES))],
        troubles=troubles or {},
        trouble=trouble,
        makers=makers,
        file=maker_sheet_path(desk_of(request).cabinet.stash.path).name,
        saved="saved" in request.query_params,
    )


routes = [
    Route("/makers", makers_page),
    Route("/makers/save", submitted(save), methods=["POST"]),
]
