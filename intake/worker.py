"""What one worker does: a picture file becomes the readings of all tags on it, the whole
way from pixels to fields."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from intake.errors import BalltagError, NoTag, PictureError
from intake.fields.parse import parse
from intake.pictures.find import find_tags
from intake.pictures.keep import print_hash, tag_jpeg
from intake.pictures.load import Page, digest, pages
from intake.pictures.straighten import cut_out
from intake.reading.barcodes import find_barcodes
from intake.reading.rapid import RapidReader
from intake.reading.read import Readers, read_tag
from intake.reading.tesseract import TesseractReader, language_sets
from intake.records import TagReading


@dataclass(frozen=True, slots=True)
class PictureReading:
    """What one picture gave: its tags, and where it failed (wholly, or from some page on)
    the error."""

    picture: str
    tags: tuple[TagReading, ...]
    error: BalltagError | None = None


@cache
def worker_readers() -> Readers:
    """The readers of this process, loaded once."""
    rapid = RapidReader()
    looks = tuple(TesseractReader(languages) for languages in language_sets())
    return Readers(rapid, rapid, looks)


def read_picture(path: Path) -> PictureReading:
    """Read every tag of the picture at ``path``.  Never raises for a bad picture: the error
    is part of the answer, beside the tags that were read before it."""
    tags: list[TagReading] = []
    try:
        for tag in _tags(path, worker_readers()):
            tags.append(tag)
    except PictureError as error:
        return PictureReading(str(path), tuple(tags), error)
    if not tags:
        no_tag = NoTag(f"{path}: no print was found; take the picture closer and in focus")
        return PictureReading(str(path), (), no_tag)
    return PictureReading(str(path), tuple(tags))


def _tags(path: Path, readers: Readers) -> Iterator[TagReading]:
    file_digest = digest(path)
    number = 0
    for page in pages(path):
        for reading in _tags_of_page(path, file_digest, page, readers, number):
            number = reading.tag
            yield reading


def _tags_of_page(
    path: Path, file_digest: str, page: Page, readers: Readers, before: int
) -> Iterator[TagReading]:
    """The tags of one page, numbered on from ``before``."""
    number = before
    for quad in find_tags(page.image, readers.finder.find_lines(page.image)):
        image, lines = read_tag(cut_out(page.image, quad), readers)
        if not lines:
            continue
        number += 1
        barcodes = tuple(find_barcodes(image))
        yield TagReading(
            picture=str(path),
            page=page.number,
            tag=number,
            digest=file_digest,
            print_hash=print_hash(image),
            jpeg=tag_jpeg(image),
            lines=lines,
            barcodes=barcodes,
            fields=parse(lines, barcodes),
        )
