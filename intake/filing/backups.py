"""Copies of a file, made before it is written anew.

Those of ``stash.csv`` lie in ``stash.backups``, named by the moment in UTC.  Kept are the
last :data:`LAST`, and the last one of each of the last :data:`DAYS` days that have any, as
long as they take no more than :data:`MOST_BYTES` together; the newest is always kept.  One of a
moment that is still to come, by a clock that was wrong or was set back, counts as old: else a
new one would be the first to go.
"""

from __future__ import annotations

import fnmatch
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from intake.errors import BadStash
from intake.filing.safe_write import cannot_read, make_folder, may_write, replace_file

LAST = 10
DAYS = 30
MOST_BYTES = 1 << 30

_MOMENT = "%Y-%m-%d_%H-%M-%S_%f"
_MOMENTS = "[0-9]*-[0-9]*-[0-9]*_[0-9]*"
_DAY_LETTERS = len("2025-03-09")


class Backups:
    """The backups of the file at ``path``."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.folder = path.with_suffix(".backups")

    def all(self) -> list[Path]:
        """The backups, oldest first.  Raises :class:`BadStash`."""
        try:  # a glob would pass over a folder that may not be read
            names = [one.name for one in self.folder.iterdir()]
        except FileNotFoundError:
            return []
        except OSError as error:
            raise cannot_read(self.folder, error) from error
        now = _now()
        ours = fnmatch.filter(names, f"{_MOMENTS}{self.path.suffix}")
        ours.sort(key=lambda name: (Path(name).stem <= now, name))
        return [self.folder / name for name in ours]

    def keep(self) -> None:
        """Copy the file as it stands, unless it is empty or not there, and delete what the
        rule does not keep.  For holders of its lock.  Raises :class:`NoAccess`."""
        if not self.path.exists() or self.path.stat().st_size == 0:
            return
        make_folder(self.folder)
        self._copy(self.path, self.folder / f"{_now()}{self.path.suffix}")
        kept = set(kept_backups(self.all()))
        with may_write(self.folder):
            for backup in self.all():
                if backup not in kept:
                    backup.unlink(missing_ok=True)

    def named(self, name: str) -> Path:
        """The backup of that file name.  Raises :class:`BadStash`."""
        backup = self.folder / Path(name).name
        if not backup.is_file():
            raise BadStash(f"there is no backup {backup}; {self.folder} holds what there is")
        return backup

    def restore(self, backup: Path) -> None:
        """Put ``backup`` in place of the file, after a backup of that.  For holders of its
        lock.  Raises :class:`NoAccess`."""
        with may_write(self.path):
            data = backup.read_bytes()  # first, for the rule may delete it now
        self.keep()
        replace_file(self.path, lambda file: file.write(data))

    def _copy(self, source: Path, target: Path) -> None:
        with may_write(target), source.open("rb") as file:
            replace_file(target, lambda copy: shutil.copyfileobj(file, copy))


def _now() -> str:
    return datetime.now(UTC).strftime(_MOMENT)


def kept_backups(backups: list[Path]) -> Iterator[Path]:
    """Those of ``backups``, oldest first, that the rule keeps, newest first."""
    days: set[str] = set()
    room = MOST_BYTES
    for number, backup in enumerate(reversed(backups)):
        day = backup.name[:_DAY_LETTERS]
        is_last_of_day = day not in days and len(days) < DAYS
        days.add(day)
        room -= backup.stat().st_size
        if number == 0 or ((number < LAST or is_last_of_day) and room >= 0):
            yield backup
