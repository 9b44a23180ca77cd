"""``balltag find``: what is in the stash, and whether a tag in a shop is of it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption
from intake.errors import BadQuery

if TYPE_CHECKING:
    from intake.filing.cabinet import Cabinet
    from intake.reports.find import Json, Said
    from intake.sums.find import Query


def find_command(
    words: Annotated[
        list[str] | None, typer.Argument(help="Words that stand anywhere on the tags.")
    ] = None,
    shade: Annotated[str, typer.Option("--shade", help="A shade's name or code.")] = "",
    lot: Annotated[str, typer.Option("--lot", help="A lot, letter by letter.")] = "",
    maker: Annotated[str, typer.Option("--maker", help="A maker.")] = "",
    weight_class: Annotated[
        str, typer.Option("--class", help="A weight class: light, 3, DK, 8 ply.")
    ] = "",
    fibre: Annotated[str, typer.Option("--fibre", help="Fibres or their kinds.")] = "",
    metres: Annotated[
        str, typer.Option("--metres", help="Metres left in one lot: 200.. or ..400 or 200..400.")
    ] = "",
    like: Annotated[
        str, typer.Option("--like", metavar="ID", help="Yarns near that of this record.")
    ] = "",
    picture: Annotated[
        Path | None, typer.Option("--picture", help="A tag in a shop: do I own its lot?")
    ] = None,
    stash: StashOption = DEFAULT_STASH,
    as_json: JsonOption = False,
) -> None:
    """Find balls by what their tags say; what is near a yarn; whether a lot is owned."""
    from intake.filing.cabinet import open_cabinet
    from intake.sums.find import Query
    from intake.sums.find import metres as metres_of

    query = Query(
        words=tuple(words or ()),
        shade=shade,
        lot=lot,
        maker=maker,
        weight_class=weight_class,
        fibre=fibre,
        metres=metres_of(metres) if metres else None,
    )
    cabinet = open_cabinet(stash)
    if picture is not None:
        if like or query != Query():
            raise BadQuery("a picture asks for what is on it; give --picture without other terms")
        _ask_about(picture, cabinet, as_json)
    elif like:
        _find_near(like, query, cabinet, as_json)
    else:
        _find(query, cabinet, as_json)


def _find(query: Query, cabinet: Cabinet, as_json: bool) -> None:
    from intake.reports.find import found_json, found_said
    from intake.sums.catalogue import catalogue
    from intake.sums.find import find

    found = find(catalogue(cabinet), query)
    _answer(found_said(found), found_json(found), as_json)


def _find_near(like: str, query: Query, cabinet: Cabinet, as_json: bool) -> None:
    """Yarns near that of the record ``like``, of those that ``query`` means."""
    from intake.reports.find import stand_ins_json, stand_ins_said
    from intake.sums.catalogue import catalogue
    from intake.sums.find import find
    from intake.sums.stand_in import stand_ins

    balls = catalogue(cabinet)
    wanted = cabinet.record(like).id
    (yarn,) = balls.balls(balls.exactly("id", wanted))
    found = stand_ins(yarn, find(balls, query).lots)
    _answer(stand_ins_said(yarn, found), stand_ins_json(found), as_json)


def _ask_about(picture: Path, cabinet: Cabinet, as_json: bool) -> None:
    """Whether the tags on a picture are of lots that are owned; the stash is only read."""
    from intake.commands.take_in import warn_of_missing_reader
    from intake.reports.find import owned_json, owned_said
    from intake.shades.known import KnownShades
    from intake.shades.match import with_known_shade
    from intake.sums.catalogue import catalogue
    from intake.sums.owned import owned, shop_tag
    from intake.worker import read_picture

    warn_of_missing_reader()
    balls, known = catalogue(cabinet), KnownShades(cabinet.records())
    reading = read_picture(picture)
    for tag in reading.tags:
        answer = owned(balls, shop_tag(with_known_shade(tag, known)))
        _answer(owned_said(answer), owned_json(answer), as_json)
    if reading.error is not None:
        raise reading.error


def _answer(said: Iterable[Said], found: Json, as_json: bool) -> None:
    from intake.console import say

    if as_json:
        print(json.dumps(found, ensure_ascii=False))
        return
    for one in said:
        say(one)
