"""Baselines: the same pictures read with less, so that what each part earns is seen.

- ``tesseract, plain patterns``: the whole picture through Tesseract as it comes, its text
  through :mod:`intake.accuracy.plain_patterns`.
- ``rapidocr, whole picture``: the first reader alone on the whole picture, as if it were
  one straightened tag, its lines through balltag's own fields.
- ``rapidocr, cut-out tags``: the first reader alone on the tags that balltag cut out and
  straightened.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

import pytesseract

from intake.accuracy.plain_patterns import plain_fields
from intake.accuracy.score import ReadTag
from intake.errors import PictureError
from intake.fields.parse import parse
from intake.pictures.load import Page, pages
from intake.reading.lines import merge
from intake.reading.read import Readers, read_tag
from intake.reading.tesseract_data import language_sets
from intake.records import Line, TagReading
from intake.worker import worker_readers

PLAIN = "tesseract, plain patterns"
WHOLE_PICTURE = "rapidocr, whole picture"
FIRST_READER = "rapidocr, cut-out tags"
BASELINES = (PLAIN, WHOLE_PICTURE, FIRST_READER)

Baselines = Mapping[str, Sequence[ReadTag]]
"""For some of :data:`BASELINES` the tags it read from one picture."""


def whole_picture_baselines(paths: Sequence[Path], jobs: int | None = None) -> Iterator[Baselines]:
    """:data:`PLAIN` and :data:`WHOLE_PICTURE` for each picture; no tags where it cannot be
    read."""
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        yield from pool.map(_read_whole, paths)


def first_reader_baseline(readings: Iterable[TagReading]) -> list[ReadTag]:
    """:data:`FIRST_READER` for the tags of one picture, from what was read of them."""
    return [
        ReadTag(reading.tag, parse([_first_only(line) for line in reading.lines], reading.barcodes))
        for reading in readings
    ]


def _first_only(line: Line) -> Line:
    return merge(line.quad, line.readings[0], None)


def _read_whole(path: Path) -> Baselines:
    try:
        whole = list(pages(path))
    except PictureError:
        return {PLAIN: (), WHOLE_PICTURE: ()}
    return {
        PLAIN: [ReadTag(page.number, plain_fields(_plain_text(page))) for page in whole],
        WHOLE_PICTURE: [_as_one_tag(page) for page in whole],
    }


def _plain_text(page: Page) -> str:
    return str(pytesseract.image_to_string(page.image, lang=language_sets()[0]))


def _as_one_tag(page: Page) -> ReadTag:
    both = worker_readers()
    _, lines = read_tag(page.image, Readers(both.finder, both.first, ()))
    return ReadTag(page.number, parse(lines, ()))
