"""Readings kept in a file, so that a change to the fields is measured without reading
all pictures again.

One line of JSON a picture, gzipped where the name ends in ``.gz``.  Lines and barcodes
are kept, pictures are not: with kept lines no copy of a picture is recognised by its look.
"""

from __future__ import annotations

import gzip
import json
from collections.abc import Generator, Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any, TextIO, cast

from intake.errors import BalltagError, ExitCode, PictureError
from intake.filing.reading_json import reading_from_json, reading_to_json
from intake.records import PictureReading, TagReading
from intake.worker import tag_fields


class BadLines(BalltagError):
    """The file of kept lines cannot be used."""

    exit_code = ExitCode.USAGE


class LineKeeper:
    """Writes the lines of pictures to the file at ``path``; a context manager."""

    def __init__(self, path: Path) -> None:
        try:
            self._file = _opened(path, "wt")
        except OSError as error:
            raise BadLines(
                f"{path} cannot be written ({error.strerror}); give another file"
            ) from error

    def __enter__(self) -> LineKeeper:
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()

    def keep(self, picture: str, tags: Iterable[TagReading], error: Exception | None) -> None:
        """Keep what was read from one picture; ``error`` is where reading it failed."""
        data = {
            "picture": picture,
            "tags": [reading_to_json(replace(tag, fields={})) for tag in tags],
            "error": None if error is None else str(error),
        }
        json.dump(data, self._file, ensure_ascii=False, separators=(",", ":"))
        self._file.write("\n")


class KeptReadings:
    """Stands in for the workers of a run: parses kept lines instead of reading.

    ``names`` gives the name under which each picture was kept.  Raises
    :class:`BadLines`, also where a picture has no lines in the file.
    """

    def __init__(self, path: Path, names: dict[Path, str]) -> None:
        kept = dict(_kept(path))
        lacking = [name for name in names.values() if name not in kept]
        if lacking:
            raise BadLines(f"{path} has no lines of {lacking[0]}; keep them anew with --keep-lines")
        self._kept = {picture: kept[name] for picture, name in names.items()}

    def __iter__(self) -> Generator[PictureReading]:
        """The reading of each picture, in the order of the names."""
        for picture in self._kept:
            yield self._reading(picture)

    def _reading(self, picture: Path) -> PictureReading:
        data = json.loads(self._kept[picture])
        error = None if data["error"] is None else PictureError(data["error"])
        return PictureReading(str(picture), tuple(_parsed(tag) for tag in data["tags"]), error)


def kept_readings(path: Path) -> Iterator[tuple[str, list[TagReading]]]:
    """The name of each picture in the file at ``path``, and its tags without their fields.
    Raises :class:`BadLines`."""
    for picture, line in _kept(path):
        yield picture, [reading_from_json(tag, b"") for tag in json.loads(line)["tags"]]


def _kept(path: Path) -> Iterator[tuple[str, str]]:
    """The name of each picture in the file, and its line, still as text: parsed lines of
    thousands of pictures would not go into memory."""
    try:
        with _opened(path, "rt") as file:
            for line in file:
                yield json.loads(line)["picture"], line
    except OSError as error:
        raise BadLines(
            f"{path} cannot be read ({error.strerror or error}); check the path"
        ) from error
    except (ValueError, KeyError, TypeError, EOFError) as error:
        raise BadLines(f"{path} holds no kept lines; make it with --keep-lines") from error


def _parsed(data: dict[str, Any]) -> TagReading:
    reading = reading_from_json(data, b"")
    fields = tag_fields(reading.lines, reading.barcodes, reading.symbols)
    return replace(reading, fields=fields)


def _opened(path: Path, mode: str) -> TextIO:
    opener = gzip.open if path.suffix == ".gz" else open
    return cast(TextIO, opener(path, mode, encoding="utf-8"))
