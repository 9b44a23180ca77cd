"""Which pictures a watch has taken in, so that it does not read them again when it starts.

For ``stash.csv`` it is ``stash.watched.jsonl``: a line a picture with the SHA-256 of its
file and the ids of its tags.  It saves time and decides nothing: a picture counts as taken
in only as long as the cabinet knows all of its tags, and one that is missing here is read
again.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from intake.errors import PictureError
from intake.filing.cabinet import Cabinet
from intake.filing.journal import Journal, Json
from intake.pictures.load import digest


class Watched(Journal):
    """The pictures taken into ``cabinet`` by watching.  Raises
    :class:`~intake.errors.BadStash` where their file is none."""

    version = 1
    name = "list of watched pictures"

    def __init__(self, cabinet: Cabinet) -> None:
        super().__init__(cabinet.stash.path.with_suffix(".watched.jsonl"))
        self._cabinet = cabinet

    def has(self, file: Path) -> bool:
        """Whether the picture in ``file`` was taken in, and its tags are still known."""
        self._read_on()
        if not self._tags:
            return False
        try:
            tags = self._tags.get(digest(file))
        except PictureError:
            return False
        return tags is not None and all(map(self._cabinet.has_met, tags))

    def add(self, file_digest: str, tags: Iterable[str]) -> None:
        """Remember that all tags of a picture were taken in; those that were here before
        by another picture are that picture's.  Raises :class:`~intake.errors.NoAccess`
        and :class:`~intake.errors.StashBusy`."""
        own = [tag for tag in tags if self._cabinet.has_met(tag)]
        with self._cabinet.stash.locked():
            self._read_on()
            self._add({"digest": file_digest, "tags": own})

    def _clear(self) -> None:
        self._tags: dict[str, tuple[str, ...]] = {}

    def _take(self, data: Json) -> None:
        self._tags[data["digest"]] = tuple(data["tags"])
