"""Which pictures were taken in wholly, so that a watch that starts or a run that goes on does
not read them again.

For ``stash.csv`` it is ``stash.watched.jsonl``: a line a picture with the SHA-256 of its
file, the ids of its tags, and how many tags it has.  It saves time and decides nothing: a
picture counts as taken in only as long as the cabinet knows all of its tags, and one that is
missing here is read again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from intake.errors import PictureError
from intake.filing.cabinet import Cabinet
from intake.filing.journal import Journal, Json
from intake.pictures.load import digest


@dataclass(frozen=True, slots=True)
class _Taken:
    """One picture: the ids of its own tags, and how many tags it has in all."""

    tags: tuple[str, ...]
    count: int


class Watched(Journal):
    """The pictures taken into ``cabinet``.  Raises
    :class:`~intake.errors.BadStash` where their file is none."""

    version = 1
    name = "list of watched pictures"

    def __init__(self, cabinet: Cabinet) -> None:
        super().__init__(cabinet.stash.path.with_suffix(".watched.jsonl"))
        self._cabinet = cabinet

    def has(self, file: Path) -> bool:
        """Whether the picture in ``file`` was taken in, and its tags are still known."""
        return self.count(file) is not None

    def count(self, file: Path) -> int | None:
        """How many tags the picture in ``file`` has, where it was taken in and they are still
        known."""
        self._read_on()
        if not self._taken:
            return None
        try:
            taken = self._taken.get(digest(file))
        except PictureError:
            return None
        if taken is None or not all(map(self._cabinet.has_met, taken.tags)):
            return None
        return taken.count

    def add(self, file_digest: str, tags: Sequence[str]) -> None:
        """Remember that all tags of a picture were taken in; those that were here before
        by another picture are that picture's.  Raises :class:`~intake.errors.NoAccess`
        and :class:`~intake.errors.StashBusy`."""
        own = [tag for tag in tags if self._cabinet.has_met(tag)]
        with self._cabinet.stash.locked():
            self._read_on()
            self._add({"digest": file_digest, "tags": own, "count": len(tags)})

    def _clear(self) -> None:
        self._taken: dict[str, _Taken] = {}

    def _take(self, data: Json) -> None:
        tags = tuple(data["tags"])
        count = int(data.get("count", len(tags) or 1))  # lines of older versions have none
        self._taken[data["digest"]] = _Taken(tags, count)
