"""Panels: two cut-outs that lie edge to edge may be the parts of one tag, such as a coloured
panel and a white one on a white bed."""

from __future__ import annotations

import numpy as np

from intake.pictures.quads import Points, area_px, hull_of, rectangle_along, tilt_deg

_TILED = 0.8
"""Two parts fill at least this share of the rectangle around both."""

_OVERLAP = 1.15
"""Together they are at most so many times as large as it: they lie beside each other."""


def around_both(one: Points, other: Points) -> Points | None:
    """The rectangle around two quads, (4, 2) in pixels, that lie edge to edge and are as long there
    as each other; ``None`` where they do not."""
    larger = max((one, other), key=area_px)
    hull = hull_of(np.concatenate([one, other]))
    rectangle = rectangle_along(hull, tilt_deg(larger[None]))
    share = (area_px(one) + area_px(other)) / max(1.0, area_px(rectangle))
    return rectangle if _TILED <= share <= _OVERLAP else None
