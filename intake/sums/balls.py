"""The balls of a stash: its records with what the maker sheet assumes and what was weighed."""

from __future__ import annotations

from collections.abc import Iterable

from intake.collector import paused_collector
from intake.filing.cabinet import Cabinet
from intake.filing.changes import Action, Change
from intake.sums.ball import Ball, Weighing
from intake.sums.maker_sheet import MakerSheet, read_maker_sheet


@paused_collector()
def balls(cabinet: Cabinet, maker_sheet: MakerSheet | None = None) -> list[Ball]:
    """Every ball of the stash, in the order of filing.

    ``maker_sheet`` is the one beside the stash unless it is given.  Raises
    :class:`~intake.errors.BadStash` and :class:`~intake.errors.BadTable`.
    """
    sheet = read_maker_sheet(cabinet.stash) if maker_sheet is None else maker_sheet
    weighed = last_weighings(cabinet.history.standing())
    return [
        Ball(record, sheet.assumed(record), weighed.get(record.id)) for record in cabinet.records()
    ]


def last_weighings(standing: Iterable[Change]) -> dict[str, Weighing]:
    """The last weighing of each record, by its id; ``standing`` are the changes that were
    not undone, in the order they were made."""
    return {
        change.record: _weighing(change) for change in standing if change.action is Action.WEIGHED
    }


def _weighing(change: Change) -> Weighing:
    figures = change.new
    return Weighing(
        at=change.at,
        mass_g=float(figures["mass_g"]),
        mass_uncertainty_g=float(figures["mass_uncertainty_g"]),
        length_m=float(figures["length_m"]),
        length_uncertainty_m=float(figures["length_uncertainty_m"]),
    )
