"""``balltag cover``: is there enough for a garment, and of one lot?"""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption
from intake.errors import BadAmount

if TYPE_CHECKING:
    from intake.sums.garments import Garment


def cover_command(
    words: Annotated[
        list[str] | None, typer.Argument(help="Words on the tags of the yarn that is wanted.")
    ] = None,
    need: Annotated[
        float | None, typer.Option("--need", help="How much the garment needs.")
    ] = None,
    unit: Annotated[
        str, typer.Option("--unit", help="What the need is counted in: m, g or balls.")
    ] = "m",
    shade: Annotated[str, typer.Option("--shade", help="A shade's name or code.")] = "",
    maker: Annotated[str, typer.Option("--maker", help="A maker.")] = "",
    weight_class: Annotated[
        str, typer.Option("--class", help="A weight class: light, 3, DK, 8 ply.")
    ] = "",
    fibre: Annotated[str, typer.Option("--fibre", help="Fibres or their kinds.")] = "",
    margin_pct: Annotated[
        float | None,
        typer.Option(
            "--margin", help="Percent on top of the need; 10 if not given, none on balls."
        ),
    ] = None,
    plan: Annotated[
        Path | None,
        typer.Option(
            "--plan",
            help="CSV of several garments: garment, need, unit, margin, words, shade, maker, "
            "class, fibre.",
        ),
    ] = None,
    stash: StashOption = DEFAULT_STASH,
    as_json: JsonOption = False,
) -> None:
    """Cover a garment, or a plan of several, from the stash: which lots, and what to buy."""
    from intake.console import say
    from intake.filing.cabinet import open_cabinet
    from intake.reports.cover import plan_json, plan_said
    from intake.sums.catalogue import catalogue
    from intake.sums.cover import cover
    from intake.sums.find import Query
    from intake.sums.garments import garment, read_plan

    wanted = Query(
        words=tuple(words or ()),
        shade=shade,
        maker=maker,
        weight_class=weight_class,
        fibre=fibre,
    )
    garments: list[Garment]
    if plan is not None:
        if need is not None or wanted != Query():
            raise BadAmount("a plan says all itself; give --plan without --need and other terms")
        garments = read_plan(plan)
    elif need is None:
        raise BadAmount("say how much is needed with --need, or give a --plan")
    else:
        garments = [garment("The garment", need, unit, wanted, margin_pct)]
    found = cover(catalogue(open_cabinet(stash)), garments)
    if as_json:
        print(json.dumps(plan_json(found), ensure_ascii=False))
        return
    for one in plan_said(found):
        say(one)
