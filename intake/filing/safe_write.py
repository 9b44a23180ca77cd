"""Writing that a crash cannot leave half done, and failures said in one line."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from intake.errors import BadStash, NoAccess, NotConfirmed

_CANNOT_BE_PUSHED = frozenset({errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP})
"""What a file system says that has no way to push a folder's names, as network shares may
(fsync(2) of Linux: EINVAL where what is opened does not support synchronization)."""


def cannot_read(path: Path, error: OSError) -> BadStash:
    """What to raise where ``error`` keeps ``path`` from being read."""
    return BadStash(
        f"{path} cannot be read ({error.strerror}); see what stands there, and that you may read it"
    )


@contextmanager
def may_write(path: Path) -> Iterator[None]:
    """Turn an ``OSError`` inside the block into :class:`NoAccess` about ``path``."""
    if not path.parent.is_dir():
        raise NoAccess(f"there is no folder {path.parent}; make it first")
    try:
        yield
    except OSError as error:
        raise NoAccess(
            f"{path} cannot be written ({error.strerror}); free it or give another place"
        ) from error


def replace_file(path: Path, write: Callable[[BinaryIO], object]) -> None:
    """Let ``write`` fill a new file that then takes the place of ``path`` at one stroke.

    After a crash at any moment ``path`` holds the old bytes or the new, never a mix.
    The new file has a fixed name, so a crash leaves at most one behind and the next
    write takes it over; callers hold the stash's lock.  Raises :class:`NoAccess` where
    ``path`` is as it was, :class:`NotConfirmed` where it is written all the same.
    """
    fresh = path.with_name(path.name + ".new")
    with may_write(path):
        try:
            with fresh.open("wb") as file:
                write(file)
                file.flush()
                os.fsync(file.fileno())
            if path.exists():
                path.open("r+b").close()  # a rename asks nobody about a file that is read-only
                _keep_mode(path, fresh)
            fresh.replace(path)
        except BaseException:
            fresh.unlink(missing_ok=True)
            raise
    try:
        keep_names(path.parent)
    except OSError as error:
        raise NotConfirmed(
            f"{path} is written, but the disk did not confirm it ({error.strerror}); look after "
            "the disk, then run balltag check"
        ) from error


def _keep_mode(path: Path, fresh: Path) -> None:
    """Give ``fresh`` the permissions of ``path``; file systems that have none refuse that."""
    mode = stat.S_IMODE(path.stat().st_mode)
    if mode != stat.S_IMODE(fresh.stat().st_mode):
        fresh.chmod(mode)


def move_file(source: Path, target: Path) -> None:
    """Move within one file system at one stroke, kept over a power cut.  Raises
    :class:`NoAccess`."""
    make_folder(target.parent)
    with may_write(target):
        source.replace(target)
        keep_names(target.parent)
        keep_names(source.parent)


def make_folder(folder: Path) -> None:
    """Make ``folder`` inside a folder that exists, kept over a power cut: what is pushed to
    the disk within it would go with its name.  Raises :class:`NoAccess`."""
    if folder.is_dir():
        return
    with may_write(folder):
        folder.mkdir(exist_ok=True)
        keep_names(folder.parent)


def keep_names(folder: Path) -> None:
    """Push a folder's names to the disk, where its file system can; a rename alone may wait in
    memory."""
    if os.name == "nt":  # a folder cannot be opened there, and renames are written through
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in _CANNOT_BE_PUSHED:
            raise
    finally:
        os.close(handle)
