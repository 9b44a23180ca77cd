"""A picture sent to a worker that may be on another machine, which need not see its file.

The file's bytes go with it, for a path may lead to another picture there, or to none.  So goes
what this machine reads with, and a worker that would read otherwise refuses.
"""

from __future__ import annotations

import hashlib
import socket
import tempfile
from concurrent.futures import Executor, Future
from dataclasses import replace
from functools import cache
from importlib.metadata import version
from pathlib import Path

from intake.errors import NoWorkers, PictureError, TooLarge
from intake.records import PictureReading
from intake.workers import Workers

MOST_SENT_BYTES = 500_000_000

Versions = dict[str, str]
"""What a reading depends on, by name."""

_PACKAGES = ("rapidocr", "onnxruntime", "opencv-python-headless", "pillow", "zxing-cpp")


def send(executor: Executor, file: Path) -> Future[PictureReading]:
    """What ``file`` gives, read by a worker of ``executor``.  Its future may bring a
    :class:`NoWorkers`, where that worker has another balltag."""
    from intake.pictures.load import file_bytes

    try:
        if file.is_file() and file.stat().st_size > MOST_SENT_BYTES:
            raise TooLarge(
                f"{file}: has more than {MOST_SENT_BYTES // 1_000_000} MB, too much to send to "
                "another machine; read it here"
            )
        content = file_bytes(file)
    except PictureError as error:
        here: Future[PictureReading] = Future()
        here.set_result(PictureReading(str(file), (), error))
        return here
    return executor.submit(read_sent, file, content, versions())


def read_sent(file: Path, content: bytes, wanted: Versions) -> PictureReading:
    """The worker's side: what the picture ``file`` of the bytes ``content`` gave."""
    refuse_others(wanted)
    with tempfile.TemporaryDirectory(prefix="balltag-") as folder:
        copy = Path(folder) / f"picture{file.suffix}"
        copy.write_bytes(content)
        return _as_of(file, copy, _workers().read(copy))


def refuse_others(wanted: Versions) -> None:
    """Raise :class:`NoWorkers` where this machine does not read as one of ``wanted`` does."""
    for name, ours in versions().items():
        if ours != wanted.get(name):
            raise NoWorkers(
                f"the worker on {socket.gethostname()} has {name} {ours} and this machine "
                f"{wanted.get(name, 'none')}; install the same on both"
            )


@cache
def versions() -> Versions:
    """What this machine reads with."""
    from intake.reading.second_reader import second_reader_version
    from intake.reading.tesseract_data import DANISH, knows, language_sets

    found = {"balltag": f"of the files {_own_files()}"}
    found |= {package: version(package) for package in _PACKAGES}
    sets = language_sets()
    languages = ", ".join((*sets, *filter(knows, (DANISH,))))
    return found | {"tesseract": second_reader_version(), "tesseract's languages": languages}


def _own_files() -> str:
    """A short sum over balltag's own files: between two releases the version says nothing."""
    package = Path(__file__).resolve().parent
    total = hashlib.sha256()
    for file in sorted(package.rglob("*")):
        if file.suffix in (".py", ".json", ".onnx"):
            total.update(file.relative_to(package).as_posix().encode() + file.read_bytes())
    return total.hexdigest()[:8]


@cache
def _workers() -> Workers:
    """Those of this process, wherever it is; as many as it is asked for pictures at once."""
    return Workers()


def _as_of(file: Path, copy: Path, reading: PictureReading) -> PictureReading:
    """``reading`` as one of ``file``, though ``copy`` was read."""
    name = str(file)
    error = reading.error
    if error is not None:
        error = type(error)(str(error).replace(str(copy), name))
    return PictureReading(name, tuple(replace(tag, picture=name) for tag in reading.tags), error)
