"""What the history says to people and to scripts."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict

from rich.table import Table
from rich.text import Text

from intake.filing.changes import Action, Change
from intake.filing.history import History

_NAMING = ("maker", "range", "shade", "shade_code", "lot")
"""The columns by which a whole record is named in one line."""


def changes_table(changes: Iterable[Change], history: History, title: str = "History") -> Table:
    """``changes``, the newest first: which stroke, when, what was done to which record."""
    table = Table(title=title, title_justify="left")
    table.add_column("stroke", justify="right")
    for heading in ("when (UTC)", "done", "record"):
        table.add_column(heading)
    table.add_column("what changed", overflow="fold", ratio=1)
    for change in reversed(list(changes)):
        taken_back = "" if history.stands(change) else ", taken back"
        cells = (change.stroke, change.at, f"{change.action}{taken_back}", change.record)
        table.add_row(*map(Text, (*cells, change_text(change))))
    return table


def change_text(change: Change) -> str:
    """What a change changed, in one line."""
    if "id" in change.new:
        text = f"now in the stash: {_named(change.new)}"
    elif "id" in change.old:
        text = f"no longer in the stash: {_named(change.old)}"
    elif change.action is Action.WEIGHED:
        text = "; ".join(f"{name} {figure}" for name, figure in change.new.items())
    else:
        names = dict.fromkeys((*change.old, *change.new))
        text = "; ".join(
            f"{name}: {change.old.get(name) or 'none'} → {change.new.get(name) or 'none'}"
            for name in names
        )
    further = [f"into {change.into}"] if change.into else []
    further += [f"takes back stroke {change.undoes}"] if change.undoes else []
    return "; ".join(filter(None, (text, *further)))


def change_json(change: Change, history: History) -> str:
    """One change as one line of JSON: its parts by name, and whether it ``stands``."""
    return json.dumps({**asdict(change), "stands": history.stands(change)}, ensure_ascii=False)


def _named(cells: Mapping[str, str]) -> str:
    lot = f"lot {cells['lot']}" if cells["lot"] else "no lot"
    return " ".join([*filter(None, (cells[name] for name in _NAMING[:-1])), lot])
