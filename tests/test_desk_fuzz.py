"""The desk answers any request with a page or one line: it fails at none, touches no file but
the stash's own, and changes nothing for a stranger."""

from __future__ import annotations

import mimetypes
import re
import shutil
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from desk_pages import hold, lot_tag, with_field
from desk_requests import HOST, PATHS, Request, ask_all, requests, touched
from filing_tags import doubtful
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.applications import Starlette
from starlette.routing import Mount, Route

from intake.desk.app import desk_app
from intake.desk.pages import HERE
from intake.filing.cabinet import open_cabinet
from intake.sums.maker_sheet import MakerLine, write_maker_sheet

_HERE = (
    Path(sys.prefix), Path(sys.base_prefix), HERE.parent, *map(Path, mimetypes.knownfiles)
)  # fmt: skip


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A stash with records, tags that wait, a history, lessons and a maker sheet."""
    path = tmp_path_factory.mktemp("whole") / "stash.csv"
    cabinet = open_cabinet(path)
    first, _, third = (cabinet.file(lot_tag(n, lot="00412")).id for n in (1, 2, 3))
    cabinet.correct({first: {"lot": "0777"}})
    cabinet.withdraw([third])
    tags = hold(
        cabinet,
        *(with_field(lot_tag(n, shade="Slo"), doubtful("shade", "Slo")) for n in (4, 5, 6)),
        lot_tag(7),
    )
    cabinet.resolve(tags[0], {"shade": "Sloe", "lot": "7"})
    line = MakerLine("Hollin Fold", "", {"length_m": "200", "mass_g": "50"})
    write_maker_sheet(cabinet.stash, [line])
    return path


def ids_of(stash: Path) -> list[str]:
    """The ids of all records and tags, of lessons, strokes and groups."""
    cabinet = open_cabinet(stash)
    changes = list(cabinet.history.changes())
    return sorted(
        {
            *(one.id for one in cabinet.records()),
            *cabinet.waiting(),
            *(change.record for change in changes),
            *(change.stroke for change in changes),
            *(lesson.id for lesson in cabinet.learnt.lessons()),
            "desk.css",
        }
    )


def desk_of_copy(whole: Path, folder: Path) -> Starlette:
    """A desk of a fresh copy of the stash, in the folder ``here`` of ``folder``."""
    here = folder / "here"
    shutil.rmtree(here, ignore_errors=True)
    shutil.copytree(whole.parent, here)
    (folder / "secret.txt").write_text("nobody's business")
    return desk_app(open_cabinet(here / "stash.csv"), [HOST])


def contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def answers_all(whole: Path, folder: Path, asked: Sequence[Request]) -> None:
    app = desk_of_copy(whole, folder)
    with touched() as paths:
        answers = ask_all(app, asked)
    app.state.desk.inbox.close()
    for request, answer in zip(asked, answers, strict=True):
        assert 200 <= answer.status < 500 or answer.status in (501, 503), (request, answer)
        assert b"Traceback" not in answer.body
        assert b"nobody's business" not in answer.body
        assert "default-src 'none'" in answer.headers["content-security-policy"]
    # Loading a module late opens its file; the time zone's and the kinds of files are the
    # machine's.
    outside = {
        path
        for path in (path.absolute() for path in paths)
        if not any(map(path.is_relative_to, (folder / "here", *_HERE, Path("/usr"), Path("/dev"))))
    }
    assert not outside
    assert set(contents(folder)) - {"secret.txt"} == {
        f"here/{name}" for name in contents(folder / "here")
    }
    open_cabinet(folder / "here/stash.csv").records()


few = settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
many = settings(max_examples=2000, suppress_health_check=[HealthCheck.too_slow])


@few
@given(data=st.data())
def test_any_request_is_answered(
    whole: Path, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    asked = data.draw(st.lists(requests(ids_of(whole)), min_size=1, max_size=5))
    answers_all(whole, tmp_path_factory.getbasetemp() / "few", asked)


@pytest.mark.slow
@many
@given(data=st.data())
def test_very_many_requests_are_answered(
    whole: Path, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    asked = data.draw(st.lists(requests(ids_of(whole)), min_size=1, max_size=5))
    answers_all(whole, tmp_path_factory.getbasetemp() / "many", asked)


def as_a_stranger(request: Request, without: str) -> Request:
    """``request`` without what lets it in: another host or origin, or no token."""
    headers = dict(request.headers)
    headers[b"host"] = HOST.encode()
    match without:
        case "host":
            headers[b"host"] = b"tags.example:8417"
        case "origin":
            headers[b"origin"] = b"http://tags.example"
        case _:
            headers[b"x-desk-token"] = b"guessed"
    query = re.sub(rb"token=[^&]*", b"", request.query)
    return replace(request, headers=tuple(headers.items()), query=query)


@few
@given(data=st.data(), without=st.sampled_from(("host", "origin", "token")))
def test_a_stranger_changes_nothing(
    whole: Path, tmp_path_factory: pytest.TempPathFactory, data: st.DataObject, without: str
) -> None:
    asked = [
        as_a_stranger(request, without)
        for request in data.draw(st.lists(requests(ids_of(whole)), min_size=1, max_size=5))
    ]
    folder = tmp_path_factory.getbasetemp() / "stranger"
    app = desk_of_copy(whole, folder)
    before = contents(folder)
    answers = ask_all(app, asked)
    app.state.desk.inbox.close()
    for request, answer in zip(asked, answers, strict=True):
        if without != "token" or request.method not in ("GET", "HEAD"):
            assert answer.status == 403, request
    assert contents(folder) == before


def test_the_paths_that_are_asked_for_are_those_of_the_desk(whole: Path, tmp_path: Path) -> None:
    app = desk_of_copy(whole, tmp_path)
    known = {
        re.sub(r"\{\w+\}", "{}", route.path) for route in app.routes if isinstance(route, Route)
    }
    mounted = {f"{route.path}/{{}}" for route in app.routes if isinstance(route, Mount)}
    assert known | mounted == set(PATHS)
