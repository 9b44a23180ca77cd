"""The pictures of tags, by the id of their tag: as they are kept, and small for pages that
show many."""

from __future__ import annotations

import io
import re
from functools import lru_cache
from pathlib import Path

import PIL.Image
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.pages import desk_of
from intake.pictures.keep import SPOILT

LONGEST_PX = 320
"""The longer side of a small picture: twice what the pages show, for fine screens."""

_TAG_ID = re.compile(r"t[0-9a-f]{15}")
_KEPT_S = 24 * 3600
_SMALL_KEPT = 4096


def is_tag_id(text: str) -> bool:
    """Whether ``text`` has the form of a tag's id.  Only such are looked for, so that no
    path leads out of the folder."""
    return _TAG_ID.fullmatch(text) is not None


def tag_picture(request: Request) -> Response:
    """The straightened picture of one tag (JPEG)."""
    return _answer(desk_of(request).cabinet.pictures.load(tag_id_of(request)))


def small_picture(request: Request) -> Response:
    """The picture of one tag (JPEG), at most :data:`LONGEST_PX` long."""
    path = desk_of(request).cabinet.pictures.path(tag_id_of(request))
    try:
        if path.is_file():
            return _answer(_small(path, path.stat().st_mtime_ns))
    except SPOILT as error:
        raise HTTPException(404) from error
    raise HTTPException(404)


def tag_id_of(request: Request) -> str:
    """The id in the path of ``request``; "not found" for a text that is none."""
    tag_id: str = request.path_params["tag_id"]
    if not is_tag_id(tag_id):
        raise HTTPException(404)
    return tag_id


def _answer(jpeg: bytes) -> Response:
    if not jpeg:
        raise HTTPException(404)
    headers = {"Cache-Control": f"private, max-age={_KEPT_S}"}
    return Response(jpeg, media_type="image/jpeg", headers=headers)


@lru_cache(maxsize=_SMALL_KEPT)
def _small(path: Path, changed_ns: int) -> bytes:
    """The picture at ``path``; ``changed_ns`` tells one that took its place from it."""
    out = io.BytesIO()
    with PIL.Image.open(path, formats=("JPEG",)) as picture:
        picture.draft("RGB", (LONGEST_PX, LONGEST_PX))
        picture.thumbnail((LONGEST_PX, LONGEST_PX))
        picture.save(out, "JPEG", quality=80)
    return out.getvalue()


routes = [
    Route("/tags/{tag_id}.jpg", tag_picture),
    Route("/tags/{tag_id}/small.jpg", small_picture),
]
