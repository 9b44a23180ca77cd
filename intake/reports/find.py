"""What ``balltag find`` answers: tables and words for people, JSON for scripts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from rich.table import Table
from rich.text import Text

from intake.filing.judge import spoken
from intake.records import REPORTED_FIELDS
from intake.sums.ball import Ball
from intake.sums.find import Found
from intake.sums.lots import Lot, ShadeName
from intake.sums.owned import Owned, Verdict
from intake.sums.stand_in import StandIn
from intake.sums.which_ball import ball_words
from intake.wording import number_text

Json = dict[str, object]
Said = Table | str

NOTHING_FOUND = "nothing found"

ASSUMED = "*"
"""The mark of what the maker sheet says and no tag."""

ASSUMED_CAPTION = f"{ASSUMED} assumed: the tag is silent, and the maker sheet says so"

_VERDICTS = {
    Verdict.THIS_LOT: "You own this lot.",
    Verdict.LOOK_AGAIN: "Look again before you rely on it.",
    Verdict.OTHER_LOTS: "You own the shade in other lots, not in this one.",
    Verdict.NOT_AT_ALL: "You do not own it.",
}

_Columns = dict[str, Callable[[Lot], str]]

_WHICH: _Columns = {
    "maker and range": lambda lot: lot.name.yarn,
    "shade": lambda lot: lot.name.text,
    "lot": lambda lot: lot.lot or "not known",
    "balls": lambda lot: _balls(lot),
    "metres left": lambda lot: _left(lot, "length_m"),
}
_WHAT: _Columns = {
    "grams left": lambda lot: _left(lot, "mass_g"),
    "weight class": lambda lot: _each(lot, "weight_class"),
    "fibre": lambda lot: _each(lot, "fibre"),
}
_NUMBERS = ("balls", "metres left", "grams left", "points apart")


def found_said(found: Found) -> Iterator[Said]:
    """What was found, and what is to be known about it."""
    for term, names in found.taken_as.items():
        yield f"{term!r} is nowhere in the stash; taken as {_listed(names)}"
    yield lots_table("Found", found.lots) if found.lots else NOTHING_FOUND
    if found.near:
        yield lots_table("Near, look again: not this lot, but easily taken for it", found.near)
    if found.other_lots:
        yield lots_table("All fits but the lot", found.other_lots)
    if found.unmeasured:
        yield lots_table("Perhaps: not all metres are known", found.unmeasured)


def stand_ins_said(yarn: Ball, found: Sequence[StandIn]) -> Iterator[Said]:
    """What may stand in for ``yarn``, nearest first."""
    if not found:
        yield NOTHING_FOUND
        return
    columns = {
        **_cells(_WHICH, [one.lot for one in found]),
        "points apart": [number_text(one.distance) for one in found],
        "in what": ["; ".join(one.reasons) for one in found],
    }
    yield _table(f"Near {ball_words(yarn)}, whatever the colour", columns)


def owned_said(owned: Owned) -> Iterator[Said]:
    """Whether a tag in a shop is of a lot that is owned."""
    tag = owned.tag
    lot = f"lot {tag.lot}" if tag.lot else "no lot was read"
    yield f"On the tag: {' '.join(filter(None, (tag.name.yarn, tag.name.text)))}, {lot}"
    yield _VERDICTS[owned.verdict]
    for doubt in tag.doubts:
        yield f"Doubtful, the {spoken(doubt.field)}: {doubt.reason}"
    for title, lots in (
        ("You own of this lot", owned.this_lot),
        ("You own, near, look again: lots easily taken for this one", owned.near),
        ("You own the shade in other lots", owned.other_lots),
        ("The number of the lot, but another yarn", owned.other_yarns),
    ):
        if lots:
            yield lots_table(title, lots)


def lots_table(title: str, lots: Sequence[Lot]) -> Table:
    """Lots as a table to look at, with the id of each one's first record."""
    records = {"record": [lot.balls[0].record.id for lot in lots]}
    return _table(title, _cells(_WHICH | _WHAT, lots) | records)


def found_json(found: Found) -> Json:
    """What was found, as JSON."""
    return {
        "lots": _lots_json(found.lots),
        "near": _lots_json(found.near),
        "other_lots": _lots_json(found.other_lots),
        "unmeasured": _lots_json(found.unmeasured),
        "taken_as": {term: list(names) for term, names in found.taken_as.items()},
    }


def stand_ins_json(found: Iterable[StandIn]) -> Json:
    """What may stand in for a yarn, as JSON."""
    return {
        "stand_ins": [
            {**lot_json(one.lot), "points_apart": one.distance, "reasons": list(one.reasons)}
            for one in found
        ]
    }


def owned_json(owned: Owned) -> Json:
    """Whether a tag in a shop is of a lot that is owned, as JSON."""
    return {
        "tag": {**_name_json(owned.tag.name), "lot": owned.tag.lot},
        "verdict": owned.verdict.value,
        "doubts": [
            {"field": doubt.field, "reason": doubt.reason, "candidates": list(doubt.candidates)}
            for doubt in owned.tag.doubts
        ],
        "this_lot": _lots_json(owned.this_lot),
        "near": _lots_json(owned.near),
        "other_lots": _lots_json(owned.other_lots),
        "other_yarns": _lots_json(owned.other_yarns),
    }


def lot_json(lot: Lot) -> Json:
    """A lot and its records; each says how many balls it stands for, what is left on all of
    them, and which of its columns are assumed."""
    total = lot.totals
    return {
        **_name_json(lot.name),
        "lot": lot.lot,
        "balls": total.balls,
        "left_m": round(total.left_m, 1),
        "left_g": round(total.left_g, 1),
        "balls_of_unknown_m": total.unknown_m,
        "balls_of_unknown_g": total.unknown_g,
        "records": [_ball_json(ball) for ball in lot.balls],
    }


def _cells(columns: _Columns, lots: Sequence[Lot]) -> dict[str, list[str]]:
    return {name: [cell(lot) for lot in lots] for name, cell in columns.items()}


def _table(title: str, columns: Mapping[str, Sequence[str]]) -> Table:
    table = Table(title=title, title_justify="left", caption_justify="left")
    for name in columns:
        table.add_column(name, justify="right" if name in _NUMBERS else "left", overflow="fold")
    for row in zip(*columns.values(), strict=True):
        table.add_row(*(Text(cell) for cell in row))
    if any(cell.endswith(ASSUMED) for cells in columns.values() for cell in cells):
        table.caption = ASSUMED_CAPTION
    return table


def _lots_json(lots: Iterable[Lot]) -> list[Json]:
    return [lot_json(lot) for lot in lots]


def _name_json(name: ShadeName) -> Json:
    return {
        "maker": name.maker,
        "range": name.range,
        "shade": name.shade,
        "shade_code": name.shade_code,
    }


def _ball_json(ball: Ball) -> Json:
    return {
        "id": ball.record.id,
        "balls": ball.count,
        "left_m": ball.left_m,
        "left_g": ball.left_g,
        "weighed_at": ball.weighing.at if ball.weighing else None,
        "fields": {name: ball.text(name) for name in REPORTED_FIELDS},
        "assumed": sorted(ball.assumed),
    }


def _balls(lot: Lot) -> str:
    weighed = sum(ball.weighing is not None for ball in lot.balls)
    return f"{lot.totals.balls}" + (f" ({weighed} weighed)" if weighed else "")


def _left(lot: Lot, column: str) -> str:
    """Metres or grams that are left, and on how many balls that is not known."""
    total = lot.totals
    left, unknown = (
        (total.left_m, total.unknown_m) if column == "length_m" else (total.left_g, total.unknown_g)
    )
    if unknown == total.balls:
        return "not known"
    mark = ASSUMED if any(ball.is_assumed(column) for ball in lot.balls) else ""
    return f"{left:.0f}{mark}" + (f" and {unknown} not known" if unknown else "")


def _each(lot: Lot, column: str) -> str:
    """What the lot's balls say in a column, each text once."""
    texts = (ball.text(column) + (ASSUMED if ball.is_assumed(column) else "") for ball in lot.balls)
    return " / ".join(dict.fromkeys(filter(None, texts)))


def _listed(names: Iterable[str]) -> str:
    return " or ".join(names)
