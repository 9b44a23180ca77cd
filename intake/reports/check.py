"""What a check of the stash says to people and to scripts."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import asdict
from itertools import groupby

from rich.table import Table
from rich.text import Text

from intake.filing.findings import Finding, Kind

_BY_KIND = list(Kind)

_MOST_ROWS = 50
"""So many findings of one kind are shown; the others are counted."""


def by_kind(findings: Iterable[Finding]) -> Iterator[tuple[Kind, list[Finding]]]:
    """The findings of each kind, the kinds in their order."""
    ordered = sorted(findings, key=lambda one: _BY_KIND.index(one.kind))
    for kind, same in groupby(ordered, key=lambda one: one.kind):
        yield kind, list(same)


def findings_table(findings: Sequence[Finding]) -> Table:
    """What does not agree, and what mending would do."""
    table = Table(title="What does not agree", title_justify="left")
    table.add_column("kind")
    for heading in ("about", "what", "balltag check --mend would"):
        table.add_column(heading, overflow="fold")
    for kind, same in by_kind(findings):
        for one in same[:_MOST_ROWS]:
            table.add_row(kind, Text(one.about), Text(one.what), one.mend or "leave it to you")
        if same[_MOST_ROWS:]:
            table.add_row(kind, f"and {len(same) - _MOST_ROWS} more", "", "")
    return table


def finding_json(finding: Finding) -> str:
    """One finding as one line of JSON."""
    return json.dumps({**asdict(finding), "mend": finding.mend}, ensure_ascii=False)
