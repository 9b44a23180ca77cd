"""What the stash held when a sheet was written, told by the strokes of its history."""

from __future__ import annotations

from collections import defaultdict

from intake.exports.records_sheet import record_text
from intake.filing.changes import Action, Change
from intake.filing.history import History
from intake.filing.record import Record


def last_stroke(history: History) -> str:
    """The stroke made last, a taking back too; ``0`` where there is none."""
    return max((change.stroke for change in history.changes()), key=int, default="0")


class PastCells:
    """The cells of records as they were after an earlier stroke."""

    def __init__(self, history: History) -> None:
        self._changes: defaultdict[str, list[Change]] = defaultdict(list)
        for change in history.changes():
            # A weighing has figures of its own, which are no cells of the record.
            if history.origin(change)[0].action is not Action.WEIGHED:
                self._changes[change.record].append(change)

    def text(self, record: Record, column: str, stroke: int | None) -> str:
        """What a cell held after ``stroke``; what it holds now for ``None``."""
        for change in self._changes.get(record.id, ()):
            since = stroke is not None and int(change.stroke) > stroke
            if since and column in {*change.old, *change.new}:
                return change.old.get(column, "")
        return record_text(record, column)
