"""Small pictures of tags, for pages that show many."""

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

LONGEST_PX = 320
"""The longer side: twice what the pages show, for screens with fine pixels."""

_KEPT = 4096
_KEPT_S = 24 * 3600
_TAG_ID = re.compile(r"t[0-9a-f]{15}")


def small_picture(request: Request) -> Response:
    """The picture of one tag (JPEG), at most :data:`LONGEST_PX` long."""
    tag_id = request.path_params["tag_id"]
    if not _TAG_ID.fullmatch(tag_id):
        raise HTTPException(404)
    path = desk_of(request).cabinet.pictures.path(tag_id)
    try:
        jpeg = _small(path, path.stat().st_mtime_ns)
    except OSError as error:  # someone took the picture away or spoilt it
        raise HTTPException(404) from error
    headers = {"Cache-Control": f"private, max-age={_KEPT_S}"}
    return Response(jpeg, media_type="image/jpeg", headers=headers)


@lru_cache(maxsize=_KEPT)
def _small(path: Path, changed_ns: int) -> bytes:
    """The picture at ``path``; ``changed_ns`` tells one that took its place from it."""
    out = io.BytesIO()
    with PIL.Image.open(path) as picture:
        picture.draft("RGB", (LONGEST_PX, LONGEST_PX))
        picture.thumbnail((LONGEST_PX, LONGEST_PX))
        picture.save(out, "JPEG", quality=80)
    return out.getvalue()


routes = [Route("/tags/{tag_id}/small.jpg", small_picture)]
