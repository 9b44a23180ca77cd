"""The pictures of tags, by the id of their tag."""

from __future__ import annotations

import re

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from intake.desk.pages import desk_of

_TAG_ID = re.compile(r"t[0-9a-f]{15}")
"""Only what is an id is looked for, so that no path leads out of the folder."""

_KEPT_S = 24 * 3600


def tag_picture(request: Request) -> Response:
    """The straightened picture of one tag (JPEG)."""
    tag_id = request.path_params["tag_id"]
    if not _TAG_ID.fullmatch(tag_id):
        raise HTTPException(404)
    jpeg = desk_of(request).cabinet.pictures.load(tag_id)
    if not jpeg:
        raise HTTPException(404)
    headers = {"Cache-Control": f"private, max-age={_KEPT_S}"}
    return Response(jpeg, media_type="image/jpeg", headers=headers)


routes = [Route("/tags/{tag_id}.jpg", tag_picture)]
