"""What one worker does: a picture file becomes the readings of all tags on it, the whole
way from pixels to fields."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path

from intake.errors import NoTag, PictureError
from intake.fields.drawn import with_drawings
from intake.fields.parse import parse
from intake.pictures.find import find_tags
from intake.pictures.keep import kept_scale, print_hash, tag_jpeg
from intake.pictures.load import Image, Page, digest, pages
from intake.pictures.panels import around_both
from intake.pictures.quads import area_px
from intake.pictures.straighten import Corners, cut_out
from intake.pictures.walk import stamp_of
from intake.reading.barcodes import find_barcodes
from intake.reading.base import Quads, Reader
from intake.reading.line_pictures import CODE_MANNERS
from intake.reading.rapid import RapidReader
from intake.reading.read import Readers, read_tag, righted_lines
from intake.reading.second_reader import second_reader
from intake.reading.seen_lines import (
    CROWDED_LINES,
    FEW_TAGS,
    FEWEST_LINES,
    PAGE_SIDE_PX,
    lines_of_tag,
)
from intake.reading.tesseract_data import DANISH, knows, language_sets
from intake.records import Barcode, Field, Line, PictureReading, Quad, State, Symbol, TagReading
from intake.stages import each_in_stage, stage
from intake.symbols.read import without_symbols
from intake.symbols.turned import read_both_ways

_TELLING = ("lot", "fibre", "length_m", "mass_g", "care", "weight_class")
_NAMED, _AMOUNTS = ("lot", "shade"), ("fibre", "length_m", "mass_g")
_WHOLE_TELLS = 3
_SCRAP_TELLS = 1
"""A tag that tells at least so many of these fields is whole; one that tells no more than
this and reaches the picture's edge is a scrap of a tag that was not meant."""

_MOST_OF_PAGE = 0.5
"""From this share of a page's area on a tag takes most of it."""

_RIM = 0.01
"""Share of the picture's longer side that counts as its edge."""


@cache
def worker_readers() -> Readers:
    """The readers of this process, loaded once."""
    rapid = RapidReader()
    looks = tuple(second_reader(languages) for languages in language_sets())
    danish = second_reader(DANISH) if looks and knows(DANISH) else None
    plain = "eng" if knows("eng") else None
    codes = tuple(second_reader(plain, manner) for manner in CODE_MANNERS if looks)
    return Readers(rapid, rapid, looks, danish, codes)


def read_picture(path: Path, step: Callable[[], None] = lambda: None) -> PictureReading:
    """Read every tag of the picture at ``path``.  Never raises for a bad picture: the error
    is part of the answer, beside the tags that were read before it.  ``step`` is called
    before each page and each tag, so that whoever waits knows that it goes on."""
    tags: list[TagReading] = []
    error: PictureError | None = None
    before = stamp_of(path)
    try:
        for tag in _tags(path, worker_readers(), step):
            tags.append(tag)
    except PictureError as caught:
        error = caught
    if stamp_of(path) != before:  # its tags may be of one picture and its digest of another
        changed = PictureError(f"{path}: was changed while it was read; run it again")
        return PictureReading(str(path), (), changed)
    if not tags and error is None:
        error = NoTag(f"{path}: no print was found; take the picture closer and in focus")
    return PictureReading(str(path), tuple(tags), error)


def _tags(path: Path, readers: Readers, step: Callable[[], None]) -> Iterator[TagReading]:
    """The tags of a picture, numbered from 1 through all of its pages."""
    with stage("load"):
        file_digest = digest(path)
    number = 0
    for page in each_in_stage("load", pages(path)):
        step()
        for reading in _tags_of_page(path, file_digest, page, readers, step):
            number += 1
            yield replace(reading, tag=number)


def _tags_of_page(
    path: Path, file_digest: str, page: Page, readers: Readers, step: Callable[[], None]
) -> list[TagReading]:
    """The tags of one page, not numbered yet."""
    seen, quads = seen_on(page, readers)

    def read(quad: Corners) -> TagReading | None:
        step()
        cut = cut_out(page.image, quad)
        image, lines = read_tag(
            cut, readers, lines_of_tag(page.image, seen, quad, cut, readers.finder)
        )
        return _reading(path, file_digest, page, image, lines, readers.first) if lines else None

    found = [(quad, reading) for quad in quads if (reading := read(quad)) is not None]
    return _without_scraps(
        [(reading, _is_at_the_edge(quad, page)) for quad, reading in _with_panels(found, read)]
    )


def _reading(
    path: Path, file_digest: str, page: Page, image: Image, lines: Sequence[Line], reader: Reader
) -> TagReading:
    """What a straightened tag tells, of which the ``lines`` were read; ``reader`` sees numbers in
    its symbols."""
    with stage("barcodes"):
        barcodes = tuple(find_barcodes(image))
    with stage("symbols"):
        symbols = read_both_ways(image, lines, reader)
        lines = without_symbols(lines, symbols)
    with stage("parse"):
        fields = tag_fields(lines, barcodes, symbols)
    with stage("keep"):
        print_, jpeg = print_hash(image), tag_jpeg(image)
    reading = TagReading(
        picture=str(path),
        page=page.number,
        tag=0,
        digest=file_digest,
        print_hash=print_,
        jpeg=jpeg,
        lines=tuple(lines),
        barcodes=barcodes,
        fields=fields,
        symbols=symbols,
    )
    return _on_kept_picture(reading, kept_scale(image))


_Cut = tuple[Corners, TagReading]
"""Where a tag was cut out of its page, and what it tells."""


def _with_panels(found: list[_Cut], read: Callable[[Corners], TagReading | None]) -> list[_Cut]:
    """``found``, two parts that lie edge to edge and complete each other read as one tag, which
    is asked about: they may be the front of one tag and the back of another."""
    for (one, first), (other, second) in combinations(found, 2):
        whole = around_both(one, other)
        if whole is None or not _complete_each_other(first, second):
            continue
        joined = read(whole)
        if joined is not None:
            rest = [cut for cut in found if cut[1] is not first and cut[1] is not second]
            return _with_panels([*rest, (whole, _asked_as_one(joined))], read)
    return found


def _complete_each_other(one: TagReading, other: TagReading) -> bool:
    """Whether no amount and no composition was read on both of two tags, nor a lot or a shade for
    sure."""
    tags = (one, other)
    named = (all(each.fields[name].state is State.SURE for each in tags) for name in _NAMED)
    told = (all(each.fields[name].value is not None for each in tags) for name in _AMOUNTS)
    return not (any(named) or any(told))


def _asked_as_one(reading: TagReading) -> TagReading:
    lot = reading.fields["lot"]
    reason = lot.reason or "the tag was seen in two parts: do both belong to one ball?"
    return replace(
        reading,
        fields={**reading.fields, "lot": replace(lot, state=State.DOUBTFUL, reason=reason)},
    )


def seen_on(page: Page, readers: Readers) -> tuple[Quads, list[Corners]]:
    """The lines that were seen on a page, and the corners of its tags.  A tag that is small in its
    picture is lost where hardly a line and no card was seen."""
    seen = readers.finder.find_lines(page.image, PAGE_SIDE_PX)
    quads = find_tags(page.image, seen)
    lost = len(seen) < FEWEST_LINES and any(_takes_the_page(quad, page) for quad in quads)
    if len(quads) > FEW_TAGS or len(seen) > CROWDED_LINES or not quads or lost:
        seen = readers.finder.find_lines(page.image)
        quads = find_tags(page.image, seen)
    return seen, quads


def _takes_the_page(quad: Corners, page: Page) -> bool:
    """Whether a tag takes most of a page, which is larger than it was shown."""
    height_px, width_px = page.image.shape[:2]
    if max(height_px, width_px) <= PAGE_SIDE_PX:
        return False
    return bool(area_px(quad) > _MOST_OF_PAGE * height_px * width_px)


def tag_fields(
    lines: Sequence[Line], barcodes: Sequence[Barcode], symbols: Sequence[Symbol]
) -> dict[str, Field]:
    """All that words, barcodes and symbols tell."""
    return with_drawings(parse(righted_lines(lines), barcodes), lines, symbols)


def _on_kept_picture(reading: TagReading, scale: float) -> TagReading:
    """``reading`` with the places of its print on the picture that is kept of the tag, which
    for a large tag is a smaller one than was read."""
    if scale == 1:
        return reading
    return replace(
        reading,
        lines=tuple(replace(line, quad=_scaled(line.quad, scale)) for line in reading.lines),
        barcodes=tuple(replace(code, quad=_scaled(code.quad, scale)) for code in reading.barcodes),
        symbols=tuple(replace(one, quad=_scaled(one.quad, scale)) for one in reading.symbols),
    )


def _scaled(quad: Quad, scale: float) -> Quad:
    a, b, c, d = ((x * scale, y * scale) for x, y in quad)
    return a, b, c, d


def _without_scraps(found: list[tuple[TagReading, bool]]) -> list[TagReading]:
    """The tags without what shows of others at the picture's edge beside a whole one: print
    that tells next to nothing.  ``found`` says of each whether it reaches the edge."""
    whole = any(_told(reading) >= _WHOLE_TELLS for reading, _ in found)
    return [
        reading
        for reading, at_the_edge in found
        if not (whole and at_the_edge and _told(reading) <= _SCRAP_TELLS)
    ]


def _told(reading: TagReading) -> int:
    return sum(reading.fields[name].value is not None for name in _TELLING)


def _is_at_the_edge(quad: Corners, page: Page) -> bool:
    height_px, width_px = page.image.shape[:2]
    rim_px = _RIM * max(height_px, width_px)
    low, high = quad.min(axis=0), quad.max(axis=0)
    return bool(min(low) < rim_px or high[0] > width_px - rim_px or high[1] > height_px - rim_px)
