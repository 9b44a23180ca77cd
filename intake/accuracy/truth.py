"""The truth file: what the tags on the pictures say, one row a tag."""

from __future__ import annotations

import csv
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from intake.accuracy.drawn_symbols import Drawn, drawn_from_text
from intake.errors import BalltagError, ExitCode
from intake.records import FIELDS, Value
from intake.wording import value_from_text

OTHER_COLUMNS = ("picture", "tag", "kind", "text", "symbols")
"""Columns beside the fields: only ``picture`` must be there."""

NO_KIND = "picture"
"""The kind of a tag whose row names none."""


class BadTruth(BalltagError):
    """The truth file cannot be used."""

    exit_code = ExitCode.USAGE


@dataclass(frozen=True, slots=True)
class TrueTag:
    """What one tag says.

    ``picture`` is as the file names it, ``path`` (without links) where it lies, ``tag``
    counts from 1 within the picture, ``kind`` is the file's word for what sort of picture
    it is.
    ``values`` has all fields that the file has columns for, ``None`` where the tag does
    not carry one; ``text`` is all its print, ``symbols`` its drawn care symbols, ``None`` where
    the file does not tell.
    ``about`` is what the file's other columns say.
    """

    picture: str
    path: Path
    tag: int
    kind: str
    values: Mapping[str, Value]
    text: str | None = None
    symbols: Drawn | None = None
    about: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Truth:
    """All tags of a truth file, by picture, in the file's order."""

    pictures: Mapping[Path, tuple[TrueTag, ...]]

    @property
    def fields(self) -> tuple[str, ...]:
        """The fields that can be compared."""
        first = next(iter(self.pictures.values()))[0]
        return tuple(name for name in FIELDS if name in first.values)

    @property
    def tag_count(self) -> int:
        """How many tags there are on all pictures."""
        return sum(len(tags) for tags in self.pictures.values())


def read_truth(path: Path, folder: Path) -> Truth:
    """The truth in the CSV file at ``path`` (UTF-8) about the pictures in ``folder``.

    Columns: ``picture`` (relative to ``folder`` or to the file), optionally ``tag``
    (from 1), ``kind``, ``text`` and ``symbols`` (as
    :func:`~intake.accuracy.drawn_symbols.drawn_from_text` takes them), and any of
    :data:`~intake.records.FIELDS` in the forms of :mod:`intake.wording`; an empty cell
    says that the tag carries no such thing.  What other columns say is only
    kept along.  Raises :class:`BadTruth`.
    """
    columns, rows = _table(path)
    fields = [name for name in FIELDS if name in columns]
    if "picture" not in columns:
        raise BadTruth(f"{path} has no column 'picture'; name each tag's picture file there")
    if not fields:
        raise BadTruth(f"{path} has no column to compare; give some of {', '.join(FIELDS)}")
    if not rows:
        raise BadTruth(f"{path} names no picture; write one row a tag")
    pictures: dict[Path, list[TrueTag]] = {}
    for where, row in _described(path, rows):
        picture = _picture(where, row["picture"], (folder, path.parent))
        before = pictures.setdefault(picture, [])
        before.append(_tag(where, row, picture, before, fields))
    return Truth({picture: tuple(tags) for picture, tags in pictures.items()})


def _table(path: Path) -> tuple[Sequence[str], list[dict[str, str]]]:
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            reader = csv.DictReader(file, restkey="", restval="", strict=True)
            rows = [{name: cell for name, cell in row.items() if name} for row in reader]
            return reader.fieldnames or (), rows
    except OSError as error:
        raise BadTruth(f"{path} cannot be read ({error.strerror}); check the path") from error
    except (UnicodeDecodeError, csv.Error) as error:
        raise BadTruth(f"{path} is no CSV file in UTF-8 ({error}); save it as one") from error


def _described(
    path: Path, rows: Sequence[Mapping[str, str]]
) -> Iterator[tuple[str, dict[str, str]]]:
    """Each row with the words that say which one it is; the heading is row 1."""
    for number, row in enumerate(rows, 2):
        yield f"{path} row {number}", {name: cell.strip() for name, cell in row.items()}


def _picture(where: str, name: str, folders: Sequence[Path]) -> Path:
    if not name:
        raise BadTruth(f"{where} names no picture; fill in its column 'picture'")
    for folder in folders:
        if (folder / name).is_file():
            return (folder / name).resolve()
    places = " or ".join(dict.fromkeys(str(folder) for folder in folders))
    raise BadTruth(
        f"{where}: there is no picture {name} in {places}; correct the row or the folder"
    )


def _tag(
    where: str,
    row: Mapping[str, str],
    picture: Path,
    before: Sequence[TrueTag],
    fields: Sequence[str],
) -> TrueTag:
    number = _number(where, row.get("tag") or str(len(before) + 1))
    if any(tag.tag == number for tag in before):
        raise BadTruth(
            f"{where}: tag {number} of {row['picture']} has a row already; number it anew"
        )
    return TrueTag(
        picture=row["picture"],
        path=picture,
        tag=number,
        kind=row.get("kind") or NO_KIND,
        values={name: _value(where, name, row[name]) for name in fields},
        text=row.get("text"),
        symbols=_symbols(where, row["symbols"]) if "symbols" in row else None,
        about={name: cell for name, cell in row.items() if name not in (*OTHER_COLUMNS, *fields)},
    )


def _number(where: str, text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text) > 0):
        raise BadTruth(f"{where}: tag {text!r} is no number from 1 on; count the picture's tags")
    return int(text)


def _symbols(where: str, text: str) -> Drawn:
    try:
        return drawn_from_text(text)
    except ValueError as error:
        raise BadTruth(
            f"{where}, symbols: {error}; part symbols by ; and the processes of one by +"
        ) from error


def _value(where: str, name: str, text: str) -> Value:
    try:
        value = value_from_text(name, text)
    except ValueError as error:
        why = str(error) if name == "fibre" else f"{text!r} is no number"
        raise BadTruth(f"{where}, {name}: {why}") from error
    if isinstance(value, float) and not (math.isfinite(value) and value > 0):
        raise BadTruth(f"{where}, {name}: {text!r} must be above 0; leave it empty for none")
    return value
