"""Bytes that a fuzzer makes up, led by what code they reach, for whatever reads what it did not
write: ``python tests/fuzz/run.py fields --seconds 60``.

Needs ``atheris``.  What fails is kept as a file in the folder where it is run; give that file in
place of ``--seconds`` to see it fail again.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path
from zipfile import ZipFile

import atheris

TESTS = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(TESTS.parent), str(TESTS)]

with atheris.instrument_imports(include=["intake"]):
    from filing_tags import tag, use_cabinet, waiting_tag
    from line_making import lines_from
    from test_broken_files import PICTURES

    from intake.errors import BalltagError
    from intake.exports.kinds import exporter_for
    from intake.exports.reading_back import read_back
    from intake.exports.workbook import stash_sheets
    from intake.fields.parse import parse
    from intake.filing.answers import answer_cell
    from intake.filing.cabinet import open_cabinet
    from intake.filing.check import Check
    from intake.filing.kinds import open_stash
    from intake.filing.store import Store
    from intake.pictures.load import pages
    from intake.records import FIELDS
    from intake.shades.known import read_card
    from intake.sums.balls import balls
    from intake.sums.garments import read_plan
    from intake.watched import Watched

LONGEST_S = 20
MOST_MB = 1_500

_folder = Path(tempfile.mkdtemp(prefix="fuzz-"))


def _file(data: bytes, suffix: str) -> Path:
    path = _folder / f"made_up{suffix}"
    path.write_bytes(data)
    return path


def load_picture(data: bytes) -> None:
    for page in pages(_file(data, "")):
        assert page.image.ndim == 3


def parse_fields(data: bytes) -> None:
    found = parse(lines_from(*data.decode(errors="replace").split("\n")[:12]), [])
    assert set(found) == set(FIELDS)


def take_answer(data: bytes) -> None:
    text = data[1:].decode(errors="replace")
    answer_cell(FIELDS[data[0] % len(FIELDS)], text) if data else None


def read_stash(data: bytes) -> None:
    path = _file(data, ".csv")
    list(open_stash(path).rows())
    open_stash(path).records()


def read_tables(data: bytes) -> None:
    path = _file(data, ".csv")
    for read in (read_back, read_card, read_plan):
        try:
            read(path)
        except BalltagError as error:
            _one_line(error)


def _sound_stash() -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        cabinet = open_cabinet(Path(folder) / "stash.csv")
        cabinet.file(tag("a.jpg"))
        return cabinet.stash.path.read_bytes()


def read_beside(data: bytes) -> None:
    """A file beside a stash; the first byte tells which."""
    stash, files = _whole_stash()
    name, *_ = [*files][data[0] % len(files) :] if data else files
    file = stash.parent / name
    file.write_bytes(data[1:])
    os.utime(stash)  # as another program does that changed it
    try:
        for read in (use_cabinet, _check, _watched):
            try:
                read(stash)
            except BalltagError as error:
                _one_line(error)
        assert file.read_bytes() == data[1:], "what only looks changes nothing"
    finally:
        file.write_bytes(files[name])


def _check(stash: Path) -> None:
    for one in Check(Store(open_stash(stash))).findings():
        assert len(one.what) < 10_000, one


def _watched(stash: Path) -> None:
    Watched(open_cabinet(stash)).has(stash)


@cache
def _whole_stash() -> tuple[Path, dict[str, bytes]]:
    """A stash with files beside it, each as it should be."""
    stash = _folder / "whole" / "stash.csv"
    stash.parent.mkdir()
    cabinet = open_cabinet(stash)
    record = cabinet.file(tag("a.jpg"))
    one, _ = (cabinet.take(waiting_tag(f"{it}.jpg", shade=f"Fen {it}")).id for it in "xy")
    cabinet.resolve(one, {"lot": "0990", "maker": "Quillstow Mill"})
    cabinet.correct({record.id: {"lot": "0100"}})
    Watched(cabinet).add("0" * 64, [record.id])
    beside = [*stash.parent.glob("stash.*.jsonl"), *stash.with_suffix(".queue").glob("*.json")]
    return stash, {str(one.relative_to(stash.parent)): one.read_bytes() for one in sorted(beside)}


def _sound_beside() -> list[bytes]:
    return [bytes([at]) + data for at, data in enumerate(_whole_stash()[1].values())]


_IN_BOOKS = {".xlsx": "xl/worksheets/sheet1.xml", ".ods": "content.xml"}
"""Where the cells stand within a spreadsheet, which is an archive of parts."""


def read_sheet(data: bytes) -> None:
    """The cells of a spreadsheet; the first byte tells of which kind."""
    ending = [*_IN_BOOKS][data[0] % 2] if data else ".ods"
    path = _file(b"", ending)
    with ZipFile(path, "w") as book:
        for name, part in {**_sound_book(ending), _IN_BOOKS[ending]: data[1:]}.items():
            book.writestr(name, part)
    read_back(path)


@cache
def _sound_book(ending: str) -> dict[str, bytes]:
    cabinet = open_cabinet(_whole_stash()[0])
    path = _folder / f"sound{ending}"
    exporter_for(path).write(stash_sheets(balls(cabinet), "0", None), path)
    with ZipFile(path) as book:
        return {name: book.read(name) for name in book.namelist()}


def _sound_sheets() -> list[bytes]:
    cells = [_sound_book(ending)[part] for ending, part in _IN_BOOKS.items()]
    return [bytes([at]) + part for at, part in enumerate(cells)]


TARGETS: dict[str, tuple[Callable[[bytes], None], Callable[[], list[bytes]]]] = {
    "pictures": (
        load_picture,
        lambda: [draw() for draw in PICTURES.values()],
    ),
    "fields": (
        parse_fields,
        lambda: [
            b"HOLLIN FOLD\nDrystone 4 ply\nShade Sloe 071 Lot 00412\n80% wool 20% nylon",
            "50 g = 200 m\n22 M x 30 R = 10 cm\nNr. 4\n30°".encode(),
        ],
    ),
    "answers": (take_answer, lambda: [bytes([at]) + b"80% wool; 20% nylon" for at in range(12)]),
    "stash": (read_stash, lambda: [_sound_stash()]),
    "tables": (
        read_tables,
        lambda: [_sound_stash(), b"maker,range,shade,shade_code\nHollin Fold,Drystone,Sloe,071\n",
                 b"garment,need,unit\nhat,120,m\n"],
    ),
    "beside": (read_beside, _sound_beside),
    "sheets": (read_sheet, _sound_sheets),
}  # fmt: skip


def _one_line(error: BalltagError) -> None:
    assert len(str(error).splitlines()) == 1, error
    assert len(str(error)) < 2000, error


def _tried(target: Callable[[bytes], None]) -> Callable[[bytes], None]:
    def once(data: bytes) -> None:
        try:
            target(data)
        except BalltagError as error:
            _one_line(error)

    return once


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("target", choices=TARGETS)
    asked.add_argument("--seconds", type=int, default=60)
    asked.add_argument("file", nargs="?", help="one that failed before")
    given = asked.parse_args()
    target, sound = TARGETS[given.target]
    corpus = _folder / "corpus"
    corpus.mkdir()
    for number, data in enumerate(sound()):
        (corpus / str(number)).write_bytes(data)
    limits = [f"-timeout={LONGEST_S}", f"-rss_limit_mb={MOST_MB}", "-max_len=400000"]
    work = [given.file] if given.file else [f"-max_total_time={given.seconds}", str(corpus)]
    atheris.Setup([sys.argv[0], *limits, *work], _tried(target))
    atheris.Fuzz()


if __name__ == "__main__":
    main()
