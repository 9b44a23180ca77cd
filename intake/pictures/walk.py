"""Which picture files a list of files and folders names, and in which order."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from intake.errors import NoPicture, Unreadable

SUFFIXES = frozenset({".jpg", ".jpeg", ".png", ".tif", ".tiff", ".webp", ".heic", ".heif", ".pdf"})
"""Suffixes, in lower case, by which pictures are known within a folder."""

STASH_FOLDER_SUFFIXES = (".tags", ".queue", ".inbox")
"""Folders that the stash keeps for itself; what lies in them was read before."""

Stamp = tuple[int, int]


def stamp_of(file: Path) -> Stamp | None:
    """What differs where a file was changed or another put in its place: its size in bytes and
    the moment of its last change in nanoseconds; ``None`` where it is not there."""
    try:
        status = file.stat()
    except OSError:
        return None
    return status.st_size, status.st_mtime_ns


def picture_files(paths: Iterable[Path]) -> list[Path]:
    """All picture files among ``paths``, each once.

    A file that is named itself is taken whatever its suffix.  A folder is searched to any
    depth for files with one of :data:`SUFFIXES`; hidden files and folders and the stash's
    own folders are left out.  The paths keep their order; within a folder files come in
    natural order of their path (``ball 2`` before ``ball 10``, large and small letters
    alike).  A path that does not exist is kept: reading it tells that it is not there, and
    the others go through.  :class:`NoPicture` where there is nothing to read,
    :class:`Unreadable` where a folder may not be looked into.
    """
    named = list(paths)
    found: dict[str, Path] = {}
    for path in named:
        for file in _files_at(path):
            found.setdefault(os.path.realpath(file), file)
    if not found:
        places = ", ".join(str(path) for path in named) or "no path"
        raise NoPicture(f"no picture in {places}; pictures end in {', '.join(sorted(SUFFIXES))}")
    return list(found.values())


def natural_key(path: Path) -> tuple[tuple[tuple[int, int, str], ...], str]:
    """Sort key by which numbers within names count as numbers."""
    return tuple(
        (0, int(piece), "") if piece.isdecimal() else (1, 0, piece)
        for part in path.parts
        for piece in (*re.findall(r"\d+|\D+", part.casefold()), "")
    ), str(path)


def pictures_within(folder: Path) -> list[Path]:
    """The picture files that :func:`picture_files` takes from ``folder``, none or more."""
    return sorted(_files_within(folder), key=natural_key)


def _files_at(path: Path) -> list[Path]:
    return pictures_within(path) if path.is_dir() else [path]


def _files_within(folder: Path) -> Iterator[Path]:
    if folder.name.endswith(STASH_FOLDER_SUFFIXES):
        return
    for place, folders, files in os.walk(folder, onerror=_refuse):
        folders[:] = [name for name in folders if _is_searched(name)]
        for name in files:
            if not name.startswith(".") and Path(name).suffix.lower() in SUFFIXES:
                yield Path(place) / name


def _is_searched(folder_name: str) -> bool:
    return not folder_name.startswith(".") and not folder_name.endswith(STASH_FOLDER_SUFFIXES)


def _refuse(error: OSError) -> None:
    if isinstance(error, FileNotFoundError):  # it went away meanwhile
        return
    reason = (error.strerror or "unreadable").lower()
    raise Unreadable(
        f"{error.filename}: the folder cannot be searched ({reason}); give read permission to it"
    ) from error
