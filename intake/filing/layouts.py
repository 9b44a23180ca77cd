"""Older layouts of a stash, and how a row of each becomes one of the next.

A stash of an older layout is read through these steps and stays as it is; the next write
puts it into the present layout, after a backup.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from intake.errors import BadStash
from intake.filing.record import COLUMNS, VERSION

Cells = dict[str, str]
"""A row's cell texts by column."""

Steps = Mapping[str, Callable[[Cells], Cells]]
"""By version: what makes a row's cells of that layout those of the next, its ``version``
among them."""

_NEW_IN_2 = {"balls": "1", "stitches_per_10cm": "", "rows_per_10cm": ""}


def _from_1(cells: Cells) -> Cells:
    """In version 1 every record was one ball.  A column of the user's own that bore the name
    of one that is new is kept under another: what it says is not known."""
    return {**_renamed(cells, _NEW_IN_2), **_NEW_IN_2, "version": "2"}


def _renamed(cells: Cells, taken: Mapping[str, str]) -> Cells:
    """``cells`` with other names for the columns whose names are ``taken``."""
    names = dict.fromkeys(cells)
    for name in taken:
        if name in names:
            other = f"own_{name}"
            while other in names:
                other = f"own_{other}"
            names[name] = other
    return {names[name] or name: text for name, text in cells.items()}


STEPS: Steps = {"1": _from_1}
"""The steps there are."""


def upgraded(cells: Cells, steps: Steps = STEPS) -> Cells:
    """``cells`` in the newest layout that ``steps`` lead to.  Cells without a version, such
    as those that a correction changed, stay as they are."""
    while step := steps.get(cells.get("version", "")):
        cells = step(cells)
    return cells


def version_of_columns(columns: Sequence[str], steps: Steps = STEPS) -> str:
    """The version of the layout that has ``columns``, for a stash without rows; the present
    one where no layout is known to have them."""
    for version in steps if set(COLUMNS) - set(columns) else ():
        with suppress(KeyError):  # a step may look for a column that is not there
            cells = upgraded({**dict.fromkeys(columns, ""), "version": version}, steps)
            if set(COLUMNS) <= set(cells):
                return version
    return VERSION


def refuse_newer(path: Path, version: str) -> None:
    """Raise :class:`BadStash` where ``version`` is newer than this balltag."""
    if version.isdecimal() and int(version) > int(VERSION):
        raise BadStash(
            f"{path} has layout version {version}; this balltag reads version {VERSION}: "
            "use the newer balltag"
        )
