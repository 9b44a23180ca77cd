"""What ``balltag cover`` answers: what to take and what to buy, JSON for scripts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict

from rich.table import Table
from rich.text import Text

from intake.reports.find import ASSUMED, ASSUMED_CAPTION, Json, Said
from intake.sums.ball import Ball
from intake.sums.cover import Cover, Part, Plan
from intake.sums.garments import Garment, Unit
from intake.sums.lots import ShadeName
from intake.sums.purchase import Purchase
from intake.sums.shelf import Take
from intake.wording import number_text

HOW_COUNTED = (
    "How it was counted: a ball that was never weighed as whole, at what its tag or the maker "
    "sheet says; a weighed one at the lower end of its plus-minus. A ball may be shared by "
    "garments."
)

_COLUMNS = {Unit.METRES: "length_m", Unit.GRAMS: "mass_g", Unit.BALLS: ""}
"""The column of a record that each unit is counted by."""

Sharers = Mapping[tuple[str, bool, int], Sequence[str]]
"""Names of the garments that take of a ball, by :attr:`Take.of`."""


def plan_said(plan: Plan) -> Iterator[Said]:
    """What each garment is made of, what is to be bought, and what to mind."""
    sharers = _sharers(plan)
    for cover in plan.covers:
        yield from _cover_said(cover, sharers)
        yield ""
    yield HOW_COUNTED
    if plan.unproven:
        yield (
            "Not proven the best there is, for time or for very many lots to choose from: "
            f"{', '.join(plan.unproven)}."
        )


def plan_json(plan: Plan) -> Json:
    """The plan as JSON; amounts are in each garment's unit."""
    return {
        "garments": [_cover_json(cover) for cover in plan.covers],
        "unproven": list(plan.unproven),
    }


def _cover_said(cover: Cover, sharers: Sharers) -> Iterator[Said]:
    yield f"{cover.garment.name}: {_needed(cover.garment)}"
    yield f"{_verdict(cover)}: {cover.why}."
    if cover.parts:
        yield _parts_table(cover, sharers)
    if cover.buy is not None:
        yield from _buy_said(cover.buy, cover.garment.unit)
    if cover.uncounted:
        ids = ", ".join(ball.record.id for ball in cover.uncounted)
        yield (
            f"Not counted, for nobody knows the {_counted_in(cover.garment.unit)}: {ids}. "
            "Fill it in on the record or the maker sheet."
        )
    for note in cover.notes:
        yield f"Mind: {note}."


def _needed(garment: Garment) -> str:
    unit = garment.unit
    needed = f"needs {unit.told(garment.need)}"
    if not garment.margin_pct:
        return f"{needed}, without a margin"
    margin = number_text(garment.margin_pct)
    return f"{needed} and a margin of {margin} %: {unit.told(garment.amount)}"


def _verdict(cover: Cover) -> str:
    if not cover.parts:
        return "NOT ENOUGH"
    if len(cover.parts) == 1:
        return "Enough, of one lot"
    return f"Enough, of {len(cover.parts)} lots"


def _parts_table(cover: Cover, sharers: Sharers) -> Table:
    assert cover.yarn is not None
    unit = cover.garment.unit
    yarn = _yarn_text(cover.yarn.name, cover.yarn.weight_class)
    table = Table(title=yarn, title_justify="left", caption_justify="left")
    table.add_column("lot")
    table.add_column("take", overflow="fold", ratio=1)
    table.add_column(unit.value, justify="right")
    if len(cover.parts) > 1:
        table.add_column("for", overflow="fold", ratio=1)
    table.add_column("left in the lot", justify="right")
    for part in cover.parts:
        takes = "; ".join(_takes_said(part, cover.garment, sharers))
        use = [part.use] if len(cover.parts) > 1 else []
        cells = [part.lot.lot or "not known", takes, unit.figure(part.amount), *use]
        table.add_row(*map(Text, (*cells, unit.figure(part.left))))
        if any(_is_assumed(take.ball, unit) for take in part.takes):
            table.caption = ASSUMED_CAPTION
    return table


def _takes_said(part: Part, garment: Garment, sharers: Sharers) -> Iterator[str]:
    """Part balls by their ids, whole balls by their number, the one broken into by its id."""
    unit = garment.unit
    for take in part.takes:
        if not take.is_whole:
            yield f"part ball {take.ball.record.id} ({_of_ball(take, unit)})" + _shared(
                take, garment, sharers
            )
    used_up = [take for take in part.takes if take.is_whole and take.share == 1]
    if used_up:
        mark = ASSUMED if any(_is_assumed(take.ball, unit) for take in used_up) else ""
        yield f"{len(used_up)} whole {'ball' if len(used_up) == 1 else 'balls'}{mark}"
    for take in part.takes:
        if take.is_whole and take.share < 1:
            yield f"of ball {take.ball.record.id} {_of_ball(take, unit)}" + _shared(
                take, garment, sharers
            )


def _of_ball(take: Take, unit: Unit) -> str:
    mark = ASSUMED if _is_assumed(take.ball, unit) else ""
    if take.share == 1:
        return f"all {unit.told(take.amount)}{mark}"
    return f"{unit.figure(take.amount)} of {unit.told(take.amount / take.share)}{mark}"


def _shared(take: Take, garment: Garment, sharers: Sharers) -> str:
    others = [name for name in sharers[take.of] if name != garment.name]
    return f", shared with {', '.join(others)}" if others else ""


def _buy_said(buy: Purchase, unit: Unit) -> Iterator[str]:
    yarn = _yarn_text(buy.name, buy.weight_class)
    lot = f"lot {buy.lot}, letter by letter" if buy.lot else "one lot for all of it"
    of_lot = f"{_balls(buy.balls_of_lot, buy.short_of_lot, unit)} of {yarn}; ask for {lot}"
    if buy.short < buy.short_of_lot:
        if buy.short:
            any_lot = _balls(buy.balls, buy.short, unit)
            yield f"Short by {unit.told(buy.short)} with all lots mixed: buy {any_lot}"
        yield f"For one lot throughout: buy {of_lot}"
    else:
        yield f"Short by {unit.told(buy.short)}: buy {of_lot}"


def _balls(balls: int | None, amount: float, unit: Unit) -> str:
    if balls is None:
        return f"{unit.told(amount)} (nobody knows what a ball holds)"
    return f"{balls} {'ball' if balls == 1 else 'balls'}"


def _yarn_text(name: ShadeName, weight_class: str) -> str:
    return ", ".join(filter(None, (name.yarn, name.text, weight_class))) or "a yarn without a name"


def _counted_in(unit: Unit) -> str:
    return {Unit.METRES: "metres", Unit.GRAMS: "grams", Unit.BALLS: "mass of a whole ball"}[unit]


def _is_assumed(ball: Ball, unit: Unit) -> bool:
    return ball.is_assumed(_COLUMNS[unit])


def _sharers(plan: Plan) -> Sharers:
    sharers: defaultdict[tuple[str, bool, int], list[str]] = defaultdict(list)
    for cover in plan.covers:
        for part in cover.parts:
            for take in part.takes:
                sharers[take.of].append(cover.garment.name)
    return sharers


def _cover_json(cover: Cover) -> Json:
    garment = cover.garment
    yarn = None
    if cover.yarn is not None:
        yarn = {**asdict(cover.yarn.name), "weight_class": cover.yarn.weight_class}
    return {
        "garment": garment.name,
        "need": garment.need,
        "unit": garment.unit.value,
        "margin_pct": garment.margin_pct,
        "amount": round(garment.amount, 3),
        "covered": cover.is_covered,
        "why": cover.why,
        "yarn": yarn,
        "lots": [_part_json(part, garment.unit) for part in cover.parts],
        "buy": None if cover.buy is None else _purchase_json(cover.buy),
        "not_counted": [ball.record.id for ball in cover.uncounted],
        "notes": list(cover.notes),
    }


def _part_json(part: Part, unit: Unit) -> Json:
    return {
        "lot": part.lot.lot,
        "amount": round(part.amount, 3),
        "left": round(part.left, 3),
        "use": part.use,
        "balls": [
            {
                "id": take.ball.record.id,
                "amount": round(take.amount, 3),
                "share": round(take.share, 5),
                "whole": take.is_whole,
                "assumed": _is_assumed(take.ball, unit),
            }
            for take in part.takes
        ],
    }


def _purchase_json(buy: Purchase) -> Json:
    return {
        **asdict(buy.name),
        "weight_class": buy.weight_class,
        "lot": buy.lot,
        "short": round(buy.short, 3),
        "balls": buy.balls,
        "short_of_lot": round(buy.short_of_lot, 3),
        "balls_of_lot": buy.balls_of_lot,
    }
