"""``balltag care``: the mildest care that all yarns of a garment bear."""

from __future__ import annotations

import json
from typing import Annotated

import typer

from intake.commands.options import DEFAULT_STASH, JsonOption, StashOption


def care_command(
    yarns: Annotated[
        list[str],
        typer.Argument(
            metavar="YARN...",
            help="Each yarn of the garment: a record's id, or words of its tag in quotes.",
        ),
    ],
    stash: StashOption = DEFAULT_STASH,
    as_json: JsonOption = False,
) -> None:
    """Care for a yarn, or for all yarns of one garment, and what to beware of."""
    from intake.console import say
    from intake.filing.cabinet import open_cabinet
    from intake.reports.care import care_json, care_said
    from intake.sums.catalogue import catalogue
    from intake.sums.common_care import common_care
    from intake.sums.which_yarn import the_yarn

    balls = catalogue(open_cabinet(stash))
    care = common_care(ball for wanted in yarns for ball in the_yarn(balls, wanted))
    if as_json:
        print(json.dumps(care_json(care), ensure_ascii=False))
        return
    for one in care_said(care):
        say(one)
