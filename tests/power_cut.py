"""What a power cut may leave on a disk, worked out from the system calls of real work.

strace records the work.  The model is the least that POSIX promises (fsync, rename):

- What is written to a file stays only if that file was pushed to the disk (fsync) afterwards.
- A name that was made, moved or taken away stays so only if its folder was pushed afterwards;
  a rename within one folder happens wholly or not at all.
- What was not pushed may stay or go, each file and each name by itself; of a file's writes and
  a folder's changes it is always the first ones that stay, and a write may be torn.

So a cut may come after each call, and for each there are several disks: with all that was not
pushed gone, with names kept and data gone, with data kept and names gone, and by chance.
"""

from __future__ import annotations

import os
import random
import re
import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from faults import Work, run

CALLS = (
    "openat", "close", "lseek", "write", "pwrite64", "sendfile", "copy_file_range", "fsync",
    "fdatasync", "ftruncate", "rename", "mkdir", "unlink", "rmdir", "link", "symlink",
)  # fmt: skip

_CALL = re.compile(r"^(\w+)\((.*)\)\s+= (-?\d+)")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"(\.\.\.)?')
_OFFSET = re.compile(r", (\d+)\)?$")


@dataclass(frozen=True)
class Call:
    """A system call that succeeded: its arguments as strace prints them, and its result."""

    name: str
    arguments: str
    result: int

    @property
    def texts(self) -> list[bytes]:
        """The texts among the arguments: paths, or what is written."""
        found = _TEXT.findall(self.arguments)
        assert not any(cut for _, cut in found), "strace has cut a text short"
        return [bytes.fromhex(text.replace("\\x", "")) for text, _ in found]

    @property
    def handle(self) -> int:
        return int(self.arguments.split(",")[0].split("<")[0])

    @property
    def last_number(self) -> int:
        return int(self.arguments.rpartition(",")[2])


def recorded(work: Work, log: Path) -> list[Call]:
    """The calls of ``work`` that change files, and its reports among them."""
    options = ("-xx", "-s", "100000000", "-e", f"trace={','.join(CALLS)}")
    outcome = run(work, "-o", str(log), *options)
    assert outcome.code == 0, outcome.said
    found = [_CALL.match(line) for line in log.read_text().splitlines()]
    calls = [Call(one[1], one[2], int(one[3])) for one in found if one is not None]
    return [call for call in calls if call.result >= 0]


@dataclass
class _File:
    """The bytes of a file: those that a cut leaves for sure, and the writes since then."""

    sure: bytes = b""
    since: list[tuple[int, bytes] | int] = field(default_factory=list)
    """Each what was written where, or the length it was cut to."""

    def content(self, kept: int | None = None, torn: float = 1.0) -> bytes:
        """The bytes with the first ``kept`` writes, of the last of which only a share stays."""
        data = bytearray(self.sure)
        writes = self.since[:kept]
        for number, change in enumerate(writes, start=1):
            if isinstance(change, int):
                del data[change:]
                data.extend(bytes(change - len(data)))
            else:
                place, piece = change
                if number == len(writes):
                    piece = piece[: int(torn * len(piece))]
                data.extend(bytes(max(0, place - len(data))))
                data[place : place + len(piece)] = piece
        return bytes(data)

    def push(self) -> None:
        self.sure, self.since = self.content(), []


Names = dict[str, "_File | _Folder"]
Change = Mapping[str, "_File | _Folder | None"]


@dataclass
class _Folder:
    """The names in a folder: those that a cut leaves for sure, and the changes since then."""

    sure: Names = field(default_factory=dict)
    since: list[Change] = field(default_factory=list)
    """Each the names that it sets, or takes away (``None``)."""

    def names(self, kept: int | None = None) -> Names:
        names = dict(self.sure)
        for change in self.since[:kept]:
            for name, what in change.items():
                if what is None:
                    names.pop(name, None)
                else:
                    names[name] = what
        return names

    def push(self) -> None:
        self.sure, self.since = self.names(), []


@dataclass
class _Open:
    file: _File | _Folder
    place: int = 0
    appends: bool = False


Keep = Callable[[int], int]
"""Of so many changes that were not pushed, how many stay."""


class Disk:
    """The folder ``top`` on a disk, which at first holds what ``start`` holds, pushed."""

    def __init__(self, start: Path, top: Path) -> None:
        self._root = _tree(start)
        self._top = top
        self._open: dict[int, _Open] = {}
        self.reported: list[str] = []

    def do(self, call: Call) -> bool:
        """Carry out ``call``; whether it matters to the disk or reports something."""
        what = getattr(self, f"_{call.name}", None)
        return bool(what and what(call))

    def cut(self, target: Path, names: Keep, data: Keep, torn: float = 1.0) -> None:
        """Make ``target`` what the disk holds after a power cut."""
        target.mkdir()
        self._leave(self._root, target, names, data, torn)

    def _leave(self, folder: _Folder, target: Path, names: Keep, data: Keep, torn: float) -> None:
        for name, what in folder.names(names(len(folder.since))).items():
            if isinstance(what, _Folder):
                (target / name).mkdir()
                self._leave(what, target / name, names, data, torn)
            else:
                content = what.content(data(len(what.since)), torn)
                (target / name).write_bytes(content)

    # The system calls

    def _openat(self, call: Call) -> bool:
        inside = self._inside(call.texts[0])
        if inside is None:
            return False
        folder, name = inside
        flags = call.arguments
        what = folder.names().get(name) if name else folder
        is_new = what is None
        if what is None:
            what = _File()
            folder.since.append({name: what})
        if "O_TRUNC" in flags and isinstance(what, _File):
            what.since.append(0)
        self._open[call.result] = _Open(what, appends="O_APPEND" in flags)
        return is_new or "O_TRUNC" in flags

    def _close(self, call: Call) -> bool:
        self._open.pop(call.handle, None)
        return False

    def _lseek(self, call: Call) -> bool:
        if call.handle in self._open:
            self._open[call.handle].place = call.result
        return False

    def _write(self, call: Call) -> bool:
        (written,) = call.texts
        return self._put(call.handle, written[: call.result])

    def _put(self, handle: int, written: bytes) -> bool:
        opened = self._open.get(handle)
        if opened is None:  # the pipe to which the work reports
            self.reported += written.decode(errors="replace").split()
            return True
        assert isinstance(opened.file, _File)
        place = len(opened.file.content()) if opened.appends else opened.place
        opened.file.since.append((place, written))
        opened.place = place + len(written)
        return True

    def _pwrite64(self, call: Call) -> bool:
        opened = self._open[call.handle]
        assert isinstance(opened.file, _File)
        opened.file.since.append((call.last_number, call.texts[0][: call.result]))
        return True

    def _sendfile(self, call: Call) -> bool:
        raise NotImplementedError("copying within the system is not followed")

    _copy_file_range = _link = _symlink = _sendfile

    def _fsync(self, call: Call) -> bool:
        if call.handle in self._open:
            self._open[call.handle].file.push()
        return call.handle in self._open

    _fdatasync = _fsync

    def _ftruncate(self, call: Call) -> bool:
        opened = self._open[call.handle]
        assert isinstance(opened.file, _File)
        if call.last_number != len(opened.file.content()):
            opened.file.since.append(call.last_number)
        return True

    def _rename(self, call: Call) -> bool:
        source, target = (self._inside(text) for text in call.texts)
        assert source is not None
        assert target is not None
        moved = source[0].names()[source[1]]
        if source[0] is target[0]:
            source[0].since.append({source[1]: None, target[1]: moved})
        else:
            target[0].since.append({target[1]: moved})
            source[0].since.append({source[1]: None})
        return True

    def _mkdir(self, call: Call) -> bool:
        inside = self._inside(call.texts[0])
        if inside is not None:
            inside[0].since.append({inside[1]: _Folder()})
        return inside is not None

    def _unlink(self, call: Call) -> bool:
        inside = self._inside(call.texts[0])
        if inside is not None:
            inside[0].since.append({inside[1]: None})
        return inside is not None

    _rmdir = _unlink

    def _inside(self, text: bytes) -> tuple[_Folder, str] | None:
        """The folder and name of a path on this disk."""
        path = Path(os.fsdecode(text))
        if not path.is_relative_to(self._top):
            return None
        parts = path.relative_to(self._top).parts
        folder = self._root
        for part in parts[:-1]:
            inner = folder.names()[part]
            assert isinstance(inner, _Folder)
            folder = inner
        if not parts:
            return folder, ""
        last = folder.names().get(parts[-1])
        return (last, "") if isinstance(last, _Folder) else (folder, parts[-1])


def _tree(folder: Path) -> _Folder:
    return _Folder(
        {
            path.name: _tree(path) if path.is_dir() else _File(path.read_bytes())
            for path in folder.iterdir()
        }
    )


def cuts(calls: list[Call], start: Path, target: Path, chances: int) -> Iterator[list[str]]:
    """For a power cut after each of ``calls``, made in the folder ``target`` that held what
    ``start`` holds, and before the first: make ``target`` each of the disks that it may leave,
    ``chances`` of them by chance.  Yields what was reported till then."""
    disk = Disk(start, target)
    chance = random.Random(7)
    yield from _disks(disk, target, chances, chance)
    for call in calls:
        if disk.do(call):
            yield from _disks(disk, target, chances, chance)


def _disks(disk: Disk, target: Path, chances: int, chance: random.Random) -> Iterator[list[str]]:
    def none(count: int) -> int:
        return 0

    def all_of(count: int) -> int:
        return count

    def some(count: int) -> int:
        return chance.randint(0, count)

    ways = [(none, none, 1.0), (all_of, none, 1.0), (none, all_of, 1.0)]
    ways += [(some, some, chance.random()) for _ in range(chances)]
    for names, data, torn in ways:
        shutil.rmtree(target, ignore_errors=True)
        disk.cut(target, names, data, torn)
        yield list(disk.reported)
