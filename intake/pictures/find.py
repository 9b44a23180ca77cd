"""Which tags a picture holds.

Card-like outlines are matched with the lines of print that were found in the picture.  A
tag is the outermost outline around its print: a sticker belongs to its card.  Only a page
on which several separate cards lie is taken apart.  Print that lies in no outline is
gathered in regions of its own, so that none is lost, and no region cuts through a line.
Where print and outlines do not fit together, all of it makes one region: a tag with some
ground around it can be read, half a tag cannot.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

import cv2
import numpy as np

from intake.pictures.load import Image
from intake.pictures.loose_print import with_loose_print
from intake.pictures.outlines import Outline, card_outlines, ground_differs
from intake.pictures.quads import (
    Points,
    area_px,
    distance_px,
    grown_to_hold,
    rectangle_along,
    shares_inside,
    tilt_deg,
)
from intake.pictures.regions import LINES_OF_A_TAG, Lines, Region, lies_in
from intake.stages import stage

WORKING_SIDE_PX = 640
CROWDED_SIDE_PX = 1000
"""Outlines are sought in a copy of this size; the larger where much print lies close."""

_CROWDED_LINES = 40

_HELD = 0.6
_CUT = 0.25
"""A line is held by an outline when this share of it lies within, and cut when less does
but more than the second.  Boxes of lines overshoot the card when print is small."""

_LEAST_SCORE = 0.6
_PLAIN_SCORE = 0.9
_TRUE_QUAD = 0.93

_NEARLY_ALL = 0.9
_PANELS = 3
_PARALLEL_DEG = 1.5
_APART_PX = 1.5
"""Separate cards do not touch; the halves of a creased one do."""

_BORDER_PX = 3


@stage("find")
def find_tags(image: Image, text_quads: Points) -> list[Points]:
    """Corners of every tag in a picture, in rows from the top, each row from the left.

    ``image`` is RGB; ``text_quads``, shape (n, 4, 2) in its pixels, are the lines of
    print found in it.  Each tag is float32 of shape (4, 2), clockwise from the corner
    nearest the top left; corners can lie a little beyond the picture.

    A clear card is a tag even when no print was found on it, for small print is easily
    missed in a large picture; where it looks like one of several, or the only one.  Empty
    where there is neither print nor such a card.
    """
    text = np.array([quad for quad in text_quads if area_px(quad) >= 1], dtype=np.float32)
    text = text.reshape(-1, 4, 2)
    side_px = CROWDED_SIDE_PX if len(text) > _CROWDED_LINES else WORKING_SIDE_PX
    scale = min(1.0, side_px / max(image.shape[:2]))
    size = (max(1, round(image.shape[1] * scale)), max(1, round(image.shape[0] * scale)))
    small = np.asarray(cv2.resize(image, size, interpolation=cv2.INTER_AREA), np.uint8)
    quads = _tags(small, text * np.float32(scale))
    return in_reading_order([quad / np.float32(scale) for quad in quads])


def in_reading_order(quads: Sequence[Points]) -> list[Points]:
    """Quads in rows from the top, each row from the left.  A quad belongs to a row when
    its middle lies beside the row's first quad."""
    rows: list[list[Points]] = []
    for quad in sorted(quads, key=lambda quad: float(quad[:, 1].mean())):
        if rows and quad[:, 1].mean() < rows[-1][0][:, 1].max():
            rows[-1].append(quad)
        else:
            rows.append([quad])
    return [quad for row in rows for quad in sorted(row, key=lambda quad: float(quad[:, 0].mean()))]


def _tags(image: Image, text: Points) -> list[Points]:
    outlines = card_outlines(image, text)
    printed = _separate_cards(_cards(outlines, text), image)
    regions = with_loose_print(printed, text, image)
    quads = [_holding_its_print(region, text) for region in regions]
    whole = [outline for outline in outlines if _is_whole(outline, image)]
    return quads + _plain_cards(whole, quads, text)


# Cards: outlines that hold print


def _cards(outlines: Iterable[Outline], text: Points) -> list[Region]:
    """The best outline for every set of lines that some outline holds."""
    best: dict[Lines, tuple[float, Outline]] = {}
    for outline in outlines:
        shares = shares_inside(outline.hull, text)
        lines: Lines = frozenset(np.flatnonzero(shares >= _HELD).tolist())
        if not lines:
            continue
        cut = int(((shares > _CUT) & (shares < _HELD)).sum())
        score = outline.score * len(lines) / (len(lines) + cut)
        # A card is larger than what is printed on it, so size counts beside the score.
        rank = score**4 * outline.area_px**0.25
        if score >= _LEAST_SCORE and (lines not in best or rank > best[lines][0]):
            best[lines] = (rank, outline)
    return [Region(_corners(outline, text, lines), lines) for lines, (_, outline) in best.items()]


def _corners(outline: Outline, text: Points, lines: Lines) -> Points:
    """The outline's own corners where it has four, else a rectangle along its print."""
    if outline.four_sided >= _TRUE_QUAD:
        return outline.quad
    return rectangle_along(outline.hull, tilt_deg(text[sorted(lines)]))


def _separate_cards(cards: Sequence[Region], image: Image) -> list[Region]:
    """Cards that share no line: the outermost ones, but pages taken apart."""
    kept: list[Region] = []
    for card in sorted(cards, key=lambda card: -len(card.lines)):
        if any(card.lines & other.lines for other in kept):
            continue
        smaller = [other for other in cards if other.lines < card.lines and lies_in(other, card)]
        within = _separate_cards(smaller, image) if len(smaller) > 1 else []
        kept += within if _is_page(card, within, image) else [card]
    return kept


def _is_page(card: Region, within: Sequence[Region], image: Image) -> bool:
    """Whether an outline holds several cards rather than the panels or stickers of one."""
    held = sum(len(other.lines) for other in within)
    if len(within) < 2 or held < _NEARLY_ALL * len(card.lines):
        return False
    if any(distance_px(one.quad, other.quad) < _APART_PX for one, other in combinations(within, 2)):
        return False
    if not ground_differs(image, card.quad, [other.quad for other in within]):
        return True
    if len(within) > _PANELS:
        return True
    own_tilt = tilt_deg(card.quad[None])
    askew = [abs(tilt_deg(other.quad[None]) - own_tilt) > _PARALLEL_DEG for other in within]
    return any(askew) and all(len(other.lines) >= LINES_OF_A_TAG for other in within)


# Cards without print


def _holding_its_print(region: Region, text: Points) -> Points:
    return grown_to_hold(region.quad, text[sorted(region.lines)].reshape(-1, 2))


def _plain_cards(outlines: Sequence[Outline], tags: Sequence[Points], text: Points) -> list[Points]:
    """Clear cards on which no print was found: those as large as the other tags, or the
    clearest where there is no print at all."""
    clear = [
        outline
        for outline in outlines
        if outline.score >= _PLAIN_SCORE and not shares_inside(outline.hull, text).any()
    ]
    found: list[Points] = []
    for outline in sorted(clear, key=lambda outline: -outline.area_px):
        if tags and not _is_like(outline, tags):
            continue
        if all(distance_px(outline.quad, other) > 0 for other in (*tags, *found)):
            found.append(outline.quad)
    return found if tags else found[:1]


def _is_whole(outline: Outline, image: Image) -> bool:
    """Whether an outline stays clear of the picture's border."""
    size = (image.shape[1], image.shape[0])
    low, high = outline.hull.min(axis=0), outline.hull.max(axis=0)
    return bool((low > _BORDER_PX).all() and (high < np.array(size) - 1 - _BORDER_PX).all())


def _is_like(outline: Outline, tags: Sequence[Points]) -> bool:
    usual = float(np.median([area_px(tag) for tag in tags]))
    return 0.4 * usual < outline.area_px < 2.5 * usual
