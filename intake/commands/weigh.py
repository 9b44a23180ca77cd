"""``balltag weigh``: a part ball on a kitchen scale becomes metres left."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption
from intake.errors import BadAmount

if TYPE_CHECKING:
    from intake.filing.cabinet import Cabinet
    from intake.sums.air import Air
    from intake.sums.ball import Ball


def weigh_command(
    ball: Annotated[
        str, typer.Argument(help="The ball: its record's id, its lot, or words of its tag.")
    ],
    balance_g: Annotated[
        float, typer.Argument(metavar="GRAMS", help="What the scale shows, in grams.")
    ],
    humidity: Annotated[
        float | None, typer.Option("--humidity", help="The air's relative humidity, percent.")
    ] = None,
    room: Annotated[
        str,
        typer.Option(
            "--room",
            help="Where the ball lay: dry radiator, living room, bathroom, standard air.",
        ),
    ] = "",
    within: Annotated[
        float | None,
        typer.Option("--within", help="How far --humidity may be off, percent; 5 if not given."),
    ] = None,
    step_g: Annotated[float, typer.Option("--step", help="The scale's step, grams.")] = 1.0,
    tare_g: Annotated[
        float, typer.Option("--tare", help="What is not yarn (core, tag), grams.")
    ] = 0.0,
    winding_pct: Annotated[
        float, typer.Option("--winding", help="How far the maker's metres may be off, percent.")
    ] = 5.0,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Say it and keep nothing.")] = False,
    anyway: Annotated[
        bool, typer.Option("--anyway", help="Keep it even if it is more than a whole ball.")
    ] = False,
    stash: StashOption = DEFAULT_STASH,
    as_json: JsonOption = False,
) -> None:
    """Weigh what is left of a ball: metres, give or take, kept beside the tag's data."""
    from intake.console import say
    from intake.filing.cabinet import open_cabinet
    from intake.reports.weighing import budget_table, weighing_json, weighing_lines
    from intake.sums.catalogue import catalogue
    from intake.sums.weigh import refuse_second, weigh
    from intake.sums.which_ball import the_ball

    air = _air(humidity, room, within)
    cabinet = open_cabinet(stash)
    meant = the_ball(catalogue(cabinet), ball)
    refuse_second(meant)
    weighed = weigh(
        meant, balance_g, air=air, step_g=step_g, tare_g=tare_g, winding_pct=winding_pct
    )
    if weighed.too_much and not (anyway or dry_run):
        raise BadAmount(
            f"{weighed.too_much}, so nothing was kept; take off what is not yarn with --tare, "
            "name the right ball, or add --anyway"
        )
    if not dry_run:
        meant = _alone(cabinet, meant)
        cabinet.weigh(meant.record.id, weighed.figures)
    if as_json:
        print(weighing_json(meant, weighed, kept=not dry_run))
        return
    for line in weighing_lines(meant, weighed, kept=not dry_run):
        say(line)
    say(budget_table(weighed))


def _alone(cabinet: Cabinet, ball: Ball) -> Ball:
    """``ball``, or one of those that its record stands for, split off: what is left of one
    must not become what is left of all."""
    if ball.count == 1:
        return ball
    fresh = cabinet.split(ball.record.id)[-1].record
    return replace(ball, record=cabinet.record(fresh))


def _air(humidity_pct: float | None, room_name: str, within_pct: float | None) -> Air:
    """The air that the options describe.  Raises :class:`~intake.errors.BadAmount`."""
    from intake.sums.air import ANY_ROOM, HYGROMETER_WITHIN_PCT, Air, room

    if humidity_pct is not None and room_name:
        raise BadAmount("give --humidity or --room, not both")
    if humidity_pct is not None:
        return Air(humidity_pct, HYGROMETER_WITHIN_PCT if within_pct is None else within_pct)
    if within_pct is not None:
        raise BadAmount("--within says how far --humidity may be off; give both")
    return room(room_name) if room_name else ANY_ROOM
