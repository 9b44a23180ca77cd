"""The queue: tags that wait for an answer, one JSON file each.

A tag that was answered or discarded leaves the queue for a folder inside it, so that
the user can go back to it, and so that a discarded tag is not asked about again.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import BinaryIO

from intake.errors import BadStash, BalltagError, ExitCode
from intake.filing.judge import Doubt
from intake.filing.reading_json import PRINT, Json, reading_from_json, reading_to_json
from intake.filing.record import is_record_id, record_id
from intake.filing.safe_write import (
    cannot_read,
    keep_names,
    make_folder,
    may_write,
    move_file,
    replace_file,
)
from intake.filing.tag_pictures import TagPictures
from intake.records import TagReading

VERSION = 1
"""Version of the queue files' layout."""


class NotWaiting(BalltagError):
    """There is no such tag in the queue."""

    exit_code = ExitCode.USAGE


class Left(StrEnum):
    """How a tag left the queue; the name of its folder there."""

    DISCARDED = "discarded"
    ANSWERED = "answered"
    JOINED = "joined"


@dataclass(frozen=True, slots=True)
class Waiting:
    """One tag that waits, and what is to be asked about it."""

    id: str
    reading: TagReading
    doubts: tuple[Doubt, ...]


class Queue:
    """The queue in ``folder``.  Raises :class:`BadStash` for a file that is not of its
    making or of a newer layout, :class:`NoAccess` where it cannot write."""

    def __init__(self, folder: Path, pictures: TagPictures) -> None:
        self.folder = folder
        self._pictures = pictures

    def add(self, reading: TagReading, doubts: Sequence[Doubt]) -> str:
        """Let ``reading`` wait; its picture is in the folder of pictures first.
        Returns its id."""
        tag_id = record_id(reading.digest, reading.tag)
        text = _file_text(reading, doubts)
        self._pictures.save(tag_id, reading.jpeg)
        make_folder(self.folder)
        replace_file(self._path(tag_id), lambda file: file.write(text))
        return tag_id

    def ids(self) -> list[str]:
        """The ids of the tags that wait, those that came first at the head."""
        came = self.came()
        return sorted(came, key=lambda tag_id: (came[tag_id], tag_id))

    def came(self) -> dict[str, int]:
        """When each tag that waits came, in nanoseconds of the clock of files."""
        try:
            with os.scandir(self.folder) as entries:
                return dict(_times(entries))
        except FileNotFoundError:
            return {}
        except OSError as error:
            raise cannot_read(self.folder, error) from error

    def heads(self) -> Iterator[Waiting]:
        """The :meth:`head` of each tag that waits, in the order of :meth:`ids`."""
        for tag_id in self.ids():
            with suppress(NotWaiting):  # another process just answered it
                yield self.head(tag_id)

    def get(self, tag_id: str) -> Waiting:
        """One tag that waits.  Raises :class:`NotWaiting`."""
        data = self._json(tag_id, lambda file: file.read())
        return self._waiting(tag_id, data, self._pictures.load(tag_id))

    def head(self, tag_id: str) -> Waiting:
        """One tag that waits, its reading without the picture and the :data:`PRINT`: what
        is asked and what the fields are, at a small part of the cost of all.  Raises
        :class:`NotWaiting`."""
        data = self._json(tag_id, _read_head)
        reading = data.get("reading")
        if isinstance(reading, dict):
            reading.update(dict.fromkeys(PRINT, ()))
        return self._waiting(tag_id, data, b"")

    def _json(self, tag_id: str, read: Callable[[BinaryIO], bytes]) -> dict[str, Json]:
        path = self._path(tag_id)
        try:
            with path.open("rb") as file:
                data = json.loads(read(file))
        except FileNotFoundError as error:
            raise NotWaiting(
                f"no tag {tag_id} waits in {self.folder}; look again at what waits"
            ) from error
        except OSError as error:
            raise cannot_read(path, error) from error
        except ValueError as error:
            raise BadStash(f"{path} is no queue file; move it out of the queue") from error
        if not isinstance(data, dict):
            raise BadStash(f"{path} is no queue file; move it out of the queue")
        return data

    def remove(self, tag_id: str, left: Left = Left.ANSWERED) -> None:
        """Take a tag out of the queue.  Raises :class:`NotWaiting`."""
        self._move(self._path(tag_id), self._path(tag_id, left))

    def restore(self, tag_id: str) -> None:
        """Let a tag that left the queue wait again.  Raises :class:`NotWaiting`."""
        self._move(self._path(tag_id, self.left(tag_id) or Left.ANSWERED), self._path(tag_id))

    def place(self, places: Mapping[str, Left | None]) -> None:
        """Put each tag where those are that left so, or let it wait for ``None``, from
        wherever it is."""
        for left in filter(None, set(places.values())):
            make_folder(self.folder / left)
        with may_write(self.folder):
            moved = {folder for each in places.items() for folder in self._placed(*each)}
            for folder in moved:
                keep_names(folder)

    def _placed(self, tag_id: str, left: Left | None) -> Iterator[Path]:
        """Move a tag; the folders that changed by it."""
        target = self._path(tag_id, left)
        for source in (self._path(tag_id, place) for place in (None, *Left)):
            if source != target and source.exists():
                source.replace(target)
                yield from (source.parent, target.parent)

    def left(self, tag_id: str) -> Left | None:
        """How a tag left the queue; ``None`` where it waits or never did."""
        return next((left for left in Left if self._path(tag_id, left).exists()), None)

    def was_discarded(self, tag_id: str) -> bool:
        """Whether the user discarded this tag."""
        return self._path(tag_id, Left.DISCARDED).exists()

    def __contains__(self, tag_id: str) -> bool:
        return self._path(tag_id).exists()

    def _path(self, tag_id: str, left: Left | None = None) -> Path:
        return self.folder / (left or ".") / f"{tag_id}.json"

    def _move(self, source: Path, target: Path) -> None:
        if not source.exists():
            raise NotWaiting(f"no tag {source.stem} is in {source.parent}; see balltag check")
        move_file(source, target)

    def _waiting(self, tag_id: str, data: Json, jpeg: bytes) -> Waiting:
        path = self._path(tag_id)
        try:
            if data["version"] > VERSION:
                raise BadStash(
                    f"{path} has layout version {data['version']}; this balltag reads "
                    f"version {VERSION}: use the newer balltag"
                )
            doubts = (
                Doubt(field, reason, tuple(candidates))
                for field, reason, candidates in data["doubts"]
            )
            reading = reading_from_json(data["reading"], jpeg)
            return Waiting(tag_id, reading, tuple(doubts))
        except (KeyError, TypeError, ValueError, AttributeError) as error:
            raise BadStash(f"{path} is no queue file; move it out of the queue") from error


def _file_text(reading: TagReading, doubts: Sequence[Doubt]) -> bytes:
    """A queue file: JSON in two lines, the print in the second.  The first is JSON too once
    its last comma is made the end, see :func:`_read_head`."""
    tag = reading_to_json(reading)
    print_ = {name: tag.pop(name) for name in PRINT}
    asked = [[doubt.field, doubt.reason, doubt.candidates] for doubt in doubts]
    head = _text({"version": VERSION, "doubts": asked, "reading": tag})
    return (head.removesuffix("}}") + ",\n" + _text(print_).removeprefix("{") + "}").encode("ascii")


def _text(data: Json) -> str:
    # ASCII, for a path may hold bytes that are no UTF-8.
    return json.dumps(data, separators=(",", ":"))


def _read_head(file: BinaryIO) -> bytes:
    """A queue file's JSON without the print, where that has a line of its own."""
    line = file.readline()
    return line[:-2] + b"}}" if line.endswith(b",\n") else line + file.read()


def _times(entries: Iterable[os.DirEntry[str]]) -> Iterator[tuple[str, int]]:
    for entry in entries:
        tag_id = entry.name.removesuffix(".json")
        if tag_id != entry.name and is_record_id(tag_id):  # and no copy of a sync program's
            with suppress(FileNotFoundError):  # another process just answered it
                yield tag_id, entry.stat().st_mtime_ns
