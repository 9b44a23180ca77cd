"""``balltag tags``: small tags on paper for part balls."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from intake.commands.options import DEFAULT_STASH, StashOption
from intake.errors import BadQuery
from intake.exports.paper import Paper

if TYPE_CHECKING:
    from intake.filing.cabinet import Cabinet
    from intake.sums.ball import Ball


def tags(
    out: Annotated[Path, typer.Argument(help="The PDF to write.")],
    wanted: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[BALL]...",
            help="Balls by their record's id, their lot, or words of their tag "
            '("kelp 041"); without any, all that were weighed.',
        ),
    ] = None,
    paper: Annotated[Paper, typer.Option("--paper", help="The paper in the printer.")] = Paper.A4,
    stash: StashOption = DEFAULT_STASH,
) -> None:
    """Print tags to cut out and tie to part balls; intake knows them again by their code."""
    from intake.console import say
    from intake.exports.small_tags import write_small_tags
    from intake.filing.cabinet import open_cabinet

    if out.suffix.lower() != ".pdf":
        raise BadQuery(f"{out} is no PDF by its name; give the file first and end it with .pdf")
    cabinet = open_cabinet(stash)
    found = _named(cabinet, wanted) if wanted else _weighed(cabinet)
    write_small_tags(found, out, paper)
    say(f"{len(found)} tags are in {out}; print it at full size")


def _weighed(cabinet: Cabinet) -> list[Ball]:
    from intake.sums.balls import balls

    found = [ball for ball in balls(cabinet) if ball.weighing is not None]
    if not found:
        raise BadQuery("no ball was weighed yet; weigh one with balltag weigh, or name balls")
    return found


def _named(cabinet: Cabinet, wanted: list[str]) -> list[Ball]:
    """The balls that any of ``wanted`` means, each once, lot by lot.  Raises
    :class:`BadQuery`."""
    from intake.sums.catalogue import catalogue
    from intake.sums.find import Query, find

    every = catalogue(cabinet)
    found: dict[str, Ball] = {}
    for text in wanted:
        lots = find(every, Query(words=tuple(text.split()))).lots
        if not lots:
            raise BadQuery(f"no ball goes by {text!r}; balltag find shows what there is")
        found |= {ball.record.id: ball for lot in lots for ball in lot.balls}
    return list(found.values())
