"""Older layouts of a stash, and how a row of each becomes one of the next.

A stash of an older layout is read through these steps and stays as it is; the next write
puts it into the present layout, after a backup.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from intake.errors import BadStash
from intake.filing.record import VERSION

Cells = dict[str, str]
"""A row's cell texts by column."""

Steps = Mapping[str, Callable[[Cells], Cells]]
"""By version: what makes a row's cells of that layout those of the next, its ``version``
among them."""

STEPS: Steps = {}
"""The steps there are.  Version 1 was the first, so there is none yet."""


def upgraded(cells: Cells, steps: Steps) -> Cells:
    """``cells`` in the newest layout that ``steps`` lead to."""
    while step := steps.get(cells.get("version", "")):
        cells = step(cells)
    return cells


def refuse_newer(path: Path, version: str) -> None:
    """Raise :class:`BadStash` where ``version`` is newer than this balltag."""
    if version.isdecimal() and int(version) > int(VERSION):
        raise BadStash(
            f"{path} has layout version {version}; this balltag reads version {VERSION}: "
            "use the newer balltag"
        )
