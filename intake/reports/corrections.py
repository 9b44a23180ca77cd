"""What a spreadsheet that comes back would change, as tables for people."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rich.table import Table
from rich.text import Text

from intake.exports.corrections import Correction, Corrections, Refusal
from intake.filing.judge import Doubt

_EMPTY = "(empty)"


def correction_lines(corrections: Corrections) -> Iterator[Table | str]:
    """The changes, the rows that are refused, and the notes, each where there are any."""
    if corrections.made:
        yield _made_table(corrections.made)
    else:
        yield "Nothing changes."
    if corrections.refused:
        yield _refused_table(corrections.refused)
    for note in corrections.notes:
        yield f"Note: {note}."


def doubts_table(doubts: Mapping[str, Sequence[Doubt]]) -> Table:
    """What to look at twice before the changes are made."""
    table = Table(title="Look at these twice", title_justify="left")
    table.add_column("record")
    table.add_column("why", overflow="fold")
    for record, about in doubts.items():
        table.add_row(record, Text(reasons(about)))
    return table


def reasons(doubts: Sequence[Doubt]) -> str:
    """Doubts in one line."""
    return "; ".join(doubt.reason for doubt in doubts)


def _made_table(made: Sequence[Correction]) -> Table:
    table = Table(title="What changes", title_justify="left")
    table.add_column("row", justify="right")
    for heading in ("record", "column", "from", "to"):
        table.add_column(heading, overflow="fold")
    for one in made:
        texts = (one.record, one.column, one.old or _EMPTY, one.new or _EMPTY)
        table.add_row(str(one.row), *(Text(text) for text in texts))
    return table


def _refused_table(refused: Sequence[Refusal]) -> Table:
    table = Table(title="Rows that are not taken", title_justify="left")
    table.add_column("row", justify="right")
    table.add_column("record")
    table.add_column("why", overflow="fold")
    for one in refused:
        table.add_row(str(one.row), Text(one.record), Text(one.why))
    return table
