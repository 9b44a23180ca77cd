"""Text that a spreadsheet turned into something else on its way."""

from __future__ import annotations

from intake.exports.sheet_in import Held, SheetCell
from intake.filing.record import NUMBERS
from intake.filing.turned import turned_into


def mangling(column: str, known: str, cell: SheetCell) -> str:
    """Why ``cell`` cannot be taken for a value that someone typed into ``column``, as words
    about it; empty where it can.  ``known`` is the value that the stash holds."""
    if cell.held in (Held.FORMULA, Held.ERROR):
        return f"holds {cell.held} ({cell.text}); put its value there as text"
    if column in NUMBERS:
        wrong = cell.held in (Held.DATE, Held.TRUTH)
        return f"holds {cell.held} ({cell.text}), not a number" if wrong else ""
    if cell.text == known:
        return ""
    if cell.held in (Held.NUMBER, Held.DATE, Held.TRUTH):
        return f"was turned into {cell.held} ({cell.text}){_from(known)}; type it as text"
    # A cell of text may have been a number in between.
    turned = turned_into(known, cell.text)
    # Someone may mean it; then the record's own page is the place to say so.
    return turned and (
        f"looks turned into {turned} ({cell.text}){_from(known)}; "
        "if it is meant, correct the record in balltag itself"
    )


def _from(known: str) -> str:
    return f" from {known}" if known else ""
