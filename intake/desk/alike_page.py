"""Grouped work: the same doubt about many waiting tags, answered once, and what was learnt
since they were read.  What an answer will change is shown before it does."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from intake.desk.forms import Form, see, submitted
from intake.desk.pages import at_cabinet, desk_of, page
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet
from intake.filing.changes import Action, Change
from intake.filing.groups import ASKED_ALONE, Group, foresee, group_answers, grouped
from intake.filing.judge import spoken
from intake.filing.offers import Offer, offers
from intake.filing.queue import NotWaiting
from intake.records import FIELDS


@dataclass(frozen=True, slots=True)
class OfferedTogether:
    """The same offer for many tags."""

    field: str
    old: str
    new: str
    why: str
    tags: tuple[str, ...]


def alike_page(request: Request) -> Response:
    """All groups, the largest first, below what was learnt since the tags were read."""
    with at_cabinet(request) as cabinet:
        groups = grouped(cabinet)
        offered = _together(_offers(request))
        done = cabinet.history.stroke(request.query_params.get("done", ""))
    return page(request, "alike.html", groups=groups, offered=offered, done=_told(done))


def preview_group(request: Request) -> Response:
    """What an answer to a group would change."""
    answer = request.query_params.get("answer", "").strip()
    with at_cabinet(request) as cabinet:
        group = _group(cabinet, request.path_params["group_id"])
        tags = group_answers(cabinet, group, answer)
        return _preview(request, cabinet, group.field, answer, tags)


def preview_offer(request: Request) -> Response:
    """What taking an offer would change."""
    asked = {name: request.query_params.get(name, "") for name in ("field", "old", "new")}
    with at_cabinet(request) as cabinet:
        tags = [
            offer.tag
            for offer in _offers(request)
            if asked == {"field": offer.field, "old": offer.old, "new": offer.new}
        ]
        return _preview(request, cabinet, asked["field"], asked["new"], tags)


def settle(request: Request, form: Form) -> Response:
    """Answer ``field`` of the tags that are still ticked, at one stroke.  A tag that was
    answered meanwhile is left as it is."""
    field, answer = form.text("field"), form.text("answer")
    if field not in FIELDS or field in ASKED_ALONE:
        raise BadAnswer(f"the {spoken(field)} is asked about tag by tag; answer it at each")
    with at_cabinet(request) as cabinet:
        asked = cabinet.asked()
        tags = [tag for tag in form.column("tag") if tag in asked and asked[tag].is_asked(field)]
        if not tags:
            raise NotWaiting("none of these tags is asked about that any more; look again")
        made = cabinet.settle({tag: {field: answer} for tag in tags})
    return see(f"/alike?{urlencode({'done': made[0].stroke})}")


def beyond_one_tag(request: Request) -> Response:
    """For the review: ``offers`` by tag and field, and the ``groups`` whose doubt a tag
    shares with others."""
    by_tag: defaultdict[str, dict[str, dict[str, str]]] = defaultdict(dict)
    with at_cabinet(request) as cabinet:
        for offer in _offers(request):
            by_tag[offer.tag][offer.field] = {"new": offer.new, "why": offer.why}
        groups = [
            {"id": group.id, "field": group.field, "tags": group.tags} for group in grouped(cabinet)
        ]
    return JSONResponse({"offers": by_tag, "groups": groups})


def _preview(
    request: Request, cabinet: Cabinet, field: str, answer: str, tags: Iterable[str]
) -> Response:
    foreseen = foresee(cabinet, {tag: {field: answer} for tag in tags})
    return page(request, "alike_preview.html", field=field, answer=answer, foreseen=foreseen)


def _group(cabinet: Cabinet, group_id: str) -> Group:
    for group in grouped(cabinet, least=1):
        if group.id == group_id:
            return group
    raise NotWaiting("these tags were answered meanwhile; look at what is alike again")


def _offers(request: Request) -> list[Offer]:
    """All offers of this moment.  For holders of the desk's turn."""
    desk = desk_of(request)
    desk.knowledge.refresh()
    return offers(desk.cabinet, desk.knowledge)


def _together(single: Iterable[Offer]) -> list[OfferedTogether]:
    tags: defaultdict[tuple[str, str, str], list[str]] = defaultdict(list)
    why: dict[tuple[str, str, str], str] = {}
    for offer in single:
        same = (offer.field, offer.old, offer.new)
        tags[same].append(offer.tag)
        why.setdefault(same, offer.why)
    gathered = [OfferedTogether(*same, why[same], tuple(found)) for same, found in tags.items()]
    return sorted(gathered, key=lambda each: -len(each.tags))


def _told(made: list[Change]) -> dict[str, object] | None:
    """What a stroke came to."""
    if not made:
        return None
    filed = sum(change.action is Action.ANSWERED for change in made)
    return {"stroke": made[0].stroke, "answered": len(made), "filed": filed}


routes = [
    Route("/alike", alike_page),
    Route("/alike/offer", preview_offer),
    Route("/alike/beyond", beyond_one_tag),
    Route("/alike/settle", submitted(settle), methods=["POST"]),
    Route("/alike/{group_id}", preview_group),
]
