"""Invented stashes for the tests of exports: balls of the weaver's cellar in Quillstow."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from filing_tags import record, tag

from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.record import Record

TRICKY_LOTS = (
    "00412", "-12", "+4", "=1+2", "@SUM(A1)", "3-12", "1E5", "12/03/26", "B7", "TRUE", "'7",
    "0001234567890123456789", "Mar 5", "1,5", "9:30", "  x", "Ő-7 ğł", "007",
)  # fmt: skip
"""Lots that a spreadsheet would take for something else than text, and some that are plain."""

WEIGHED = {
    "mass_g": "14.8",
    "mass_uncertainty_g": "0.9",
    "length_m": "62.2",
    "length_uncertainty_m": "3.6",
}


def cabinet_with(folder: Path, *records: Record, pictures: bool = False) -> Cabinet:
    """The cabinet of a new stash in ``folder`` with ``records``, with tag pictures or not."""
    cabinet = open_cabinet(folder / "stash.csv")
    cabinet.stash.append(records)
    for one in records if pictures else ():
        cabinet.pictures.save(one.id, tag().jpeg)
    return cabinet


def balls_of_lots(*lots: str, **texts: str) -> list[Record]:
    """A record a lot, each of a picture of its own."""
    return [record(f"{place}.jpg", 1, lot=lot, **texts) for place, lot in enumerate(lots)]


def balltag(folder: Path, command: str, *arguments: object) -> subprocess.CompletedProcess[str]:
    """Run a command on the stash in ``folder``, as a user without a terminal does."""
    return subprocess.run(
        [sys.executable, "-m", "intake", command, *map(str, arguments), "--stash", "stash.csv"],
        cwd=folder, capture_output=True, text=True, check=False, stdin=subprocess.DEVNULL,
    )  # fmt: skip
