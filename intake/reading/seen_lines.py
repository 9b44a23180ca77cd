"""How large the line finder is shown pages and tags.

A page is looked at small first: that is enough to find one tag or a few.  Its lines tell how
large each tag must be shown, and serve a tag that would look just the same by itself.
"""

from __future__ import annotations

import numpy as np

from intake.pictures.quads import shares_inside
from intake.pictures.straighten import Corners, moved_onto_cut
from intake.reading.base import Image, LineFinder, Quads
from intake.reading.turn import text_angle_deg

PAGE_SIDE_PX = 960
"""Pages are shown at this size: on 46 photos of one tag the tags found were those found at
1600 pixels (drawn tags)."""

FEW_TAGS = 3
CROWDED_LINES = 40
"""A page with more tags or lines than these is shown once more, as large as is of use: of 90
tags on six crowded pages five were found otherwise at the smaller size."""

_HELD = 0.6
"""A line belongs to a tag when this share of it lies within."""

_LEGIBLE_PX = 26.0
"""So high are the smaller lines of a tag to be shown."""

_SMALLER = 20
"""Those which so many percent of the lines are smaller than."""

FEWEST_LINES = 4
"""Fewer lines tell nothing of the print that was not seen, on a page as on a tag."""

_LEAST_SIDE_PX = 800
"""A tag is not shown smaller than this."""

_LEVEL_DEG = 2.0


def lines_of_tag(page: Image, seen: Quads, tag: Corners, cut: Image, finder: LineFinder) -> Quads:
    """The lines of a tag, whose picture is ``cut`` out of ``page``, in its own pixels.

    ``seen`` are the lines that were found on the page at :data:`PAGE_SIDE_PX` or larger.
    """
    on_tag = seen[shares_inside(tag, seen) >= _HELD] if len(seen) else seen
    if len(on_tag) < FEWEST_LINES:
        return finder.find_lines(cut)
    edges_px = np.linalg.norm(on_tag - np.roll(on_tag, -1, axis=1), axis=2)
    height_px = float(np.percentile(edges_px.min(axis=1), _SMALLER))
    if max(page.shape[:2]) <= PAGE_SIDE_PX and _is_level(on_tag):
        return moved_onto_cut(on_tag, tag)
    wanted_px = max(cut.shape[:2]) * _LEGIBLE_PX / max(height_px, 1.0)
    return finder.find_lines(cut, max(_LEAST_SIDE_PX, round(wanted_px)))


def _is_level(quads: Quads) -> bool:
    """Whether the print lies level or upright, so that a tag is cut out as it is seen."""
    return abs((text_angle_deg(quads) + 45) % 90 - 45) < _LEVEL_DEG
