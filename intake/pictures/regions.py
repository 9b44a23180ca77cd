"""Parts of a picture that hold print, while it is worked out which of them are tags."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from intake.pictures.quads import Points, area_px, grown_to_hold, shares_inside

Lines = frozenset[int]
"""Lines of print, by their index among all of the picture."""

LINES_OF_A_TAG = 4
"""A part with fewer lines is rather a sticker or a panel than a tag."""

_MOSTLY = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Region:
    """A part of the picture: its corners and the lines of print in it, by index."""

    quad: Points
    lines: Lines


def lies_in(one: Region, other: Region) -> bool:
    """Whether most of ``one`` lies within ``other``."""
    return bool(shares_inside(other.quad, one.quad[None])[0] > _MOSTLY)


def merged(regions: Sequence[Region]) -> Region:
    """One region for all; its sides run as those of the first."""
    quad = grown_to_hold(regions[0].quad, np.concatenate([region.quad for region in regions]))
    return Region(quad, regions[0].lines.union(*(region.lines for region in regions)))


def without_overlap(regions: Sequence[Region]) -> list[Region]:
    """Regions of which none lies mostly within another."""
    kept: list[Region] = []
    for region in sorted(regions, key=lambda region: -area_px(region.quad)):
        around = [other for other in kept if lies_in(region, other)]
        kept = [other for other in kept if other not in around]
        kept.append(merged([*around, region]))
    return kept
