"""What a weighing says: sentences and a small budget for people, JSON for scripts."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator

from rich.table import Table

from intake.sums.air import ANY_ROOM
from intake.sums.ball import Ball
from intake.sums.plus_minus import COVERAGE_FACTOR
from intake.sums.weigh import Weighed
from intake.sums.which_ball import ball_words
from intake.wording import number_text

CHANCE = "95 times in 100"
"""What :data:`COVERAGE_FACTOR` comes to."""


def weighing_lines(ball: Ball, weighed: Weighed, *, kept: bool) -> Iterator[str]:
    """A weighing in plain words, a line each."""
    found, whole = weighed.weighing, weighed.whole
    yield f"{ball_words(ball)} ({ball.record.id})"
    yield (
        f"{give_or_take(found.length_m, found.length_uncertainty_m, 'm')} left of "
        f"{number_text(whole.length_m)} m: "
        f"{give_or_take(found.mass_g, found.mass_uncertainty_g, 'g')} of "
        f"{number_text(whole.mass_g)} g at standard air (within this {CHANCE})"
    )
    if weighed.air is ANY_ROOM:
        yield "The humidity was not given; --humidity or --room narrows the plus-minus."
    if weighed.too_much:
        yield f"Look again: {weighed.too_much}."
    for remark in weighed.remarks:
        yield f"Mind: {remark}."
    yield "Kept as a weighing; the tag's data stay as they are." if kept else "Nothing was kept."


def give_or_take(amount: float, plus_minus: float, unit: str) -> str:
    """An amount as ``152 m ± 11 m``: two digits of plus-minus are all that count (GUM 7.2.6);
    one that loses its tenths is rounded up."""
    if plus_minus >= 10:
        return f"{amount:.0f} {unit} ± {math.ceil(plus_minus)} {unit}"
    return f"{amount:.1f} {unit} ± {plus_minus:.1f} {unit}"


def budget_table(weighed: Weighed) -> Table:
    """Where the plus-minus comes from, each source as it counts in it."""
    table = Table(title="Where the plus-minus comes from", title_justify="left")
    table.add_column("source", overflow="fold")
    table.add_column("± m", justify="right")
    table.add_column("± g", justify="right")
    for share in weighed.budget:
        if share.length_m > 0:
            table.add_row(
                share.words,
                f"{COVERAGE_FACTOR * share.length_m:.1f}",
                f"{COVERAGE_FACTOR * share.mass_g:.1f}",
            )
    table.add_section()
    table.add_row(
        "together (the root of their squares)",
        f"{weighed.weighing.length_uncertainty_m:.1f}",
        f"{weighed.weighing.mass_uncertainty_g:.1f}",
    )
    return table


def weighing_json(ball: Ball, weighed: Weighed, *, kept: bool) -> str:
    """A weighing as one line of JSON: numbers, each with its unit in its name; the shares of
    ``budget`` are standard uncertainties."""
    return json.dumps(
        {
            "record": ball.record.id,
            "ball": ball_words(ball),
            "at": weighed.weighing.at,
            **{name: float(text) for name, text in weighed.figures.items()},
            "room": weighed.air.name or None,
            "whole_length_m": weighed.whole.length_m,
            "whole_mass_g": weighed.whole.mass_g,
            "budget": [
                {
                    "source": share.source,
                    "words": share.words,
                    "mass_g": round(share.mass_g, 3),
                    "length_m": round(share.length_m, 3),
                }
                for share in weighed.budget
            ],
            "remarks": list(weighed.remarks),
            "too_much": weighed.too_much or None,
            "kept": kept,
        },
        ensure_ascii=False,
    )
