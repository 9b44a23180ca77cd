"""Copies that a program which keeps folders alike on two machines made of a file that was
changed on both: a record may stand in one of them only."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from intake.errors import BadStash
from intake.filing.kinds import open_stash
from intake.filing.safe_write import cannot_read

_COPY = re.compile(
    r".+(?:conflic|conflit|konflikt|_conf\(\d+\)|\s\(\d+\)|\s-\s(?:cop|kop)).*", re.IGNORECASE
)
"""How such programs name copies: ``stash (conflicted copy 2025-03-09).csv``, also in other
languages, ``stash.sync-conflict-20250309-170542.csv``, ``stash_conf(1).csv``,
``stash (1).csv``, ``stash - Copy.csv`` (common practice, no source)."""

_MAY_BE_COPY = re.compile(r"(?:\.\w+)?[\s_-].+")
"""Others only add a number or the name of the machine: ``stash 2.csv``, ``stash-attic.csv``.
So may the user call another stash, which then begins with another record."""


def conflict_copies(stash: Path) -> list[Path]:
    """The copies of the stash and of what lies beside it.  Raises :class:`BadStash`."""
    try:
        return sorted(_copies(stash))
    except OSError as error:
        raise cannot_read(stash.parent, error) from error


def _copies(stash: Path) -> Iterator[Path]:
    if not stash.parent.is_dir():
        return
    for beside in stash.parent.iterdir():
        if not beside.name.startswith(stash.stem):
            continue
        if _COPY.fullmatch(beside.name.removeprefix(stash.stem).rjust(len(beside.name))):
            yield beside
        elif _MAY_BE_COPY.fullmatch(beside.name.removeprefix(stash.stem)) and beside.is_file():
            if (begin := _first_row(beside)) and begin == _first_row(_of_copy(stash, beside)):
                yield beside
        elif beside.is_dir():
            yield from (one for one in beside.rglob("*") if _COPY.fullmatch(one.name))


def _of_copy(stash: Path, copy: Path) -> Path:
    """The file that ``copy`` would be one of."""
    kind = re.match(r"\.\w+", copy.name.removeprefix(stash.stem))
    return stash.with_name(f"{stash.stem}{kind[0] if kind else ''}{copy.suffix}")


def _first_row(path: Path) -> object:
    """What a stash or a file of lines begins with, after what all such files begin with."""
    with suppress(BadStash, OSError):
        if path.suffix == ".jsonl":
            with path.open("rb") as file:
                file.readline()
                return file.readline()
        return next(iter(open_stash(path).read().records), None)
    return None
