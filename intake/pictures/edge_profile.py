"""Where a card ends by the whole change of colour across its edge.

The ground grows darker towards a card, by the card's own shadow, and the camera blurs both.  So
colour is steepest beside the edge: the further, the softer the picture and the deeper the shadow.
Here ground, shadow, blur and card are fitted together, and the edge is where one passes into the
other.
"""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.hue_edges import robust_line

Floats = npt.NDArray[np.float32]
Doubles = npt.NDArray[np.float64]

_OUT_PX, _IN_PX = 9, 6
"""Colour is looked at so far beyond an edge and so far within it, where print may begin."""

_GROUND_ORDER, _CARD_ORDER = 2, 1
"""The ground's colour bends towards the card, by the shadow; the card's hardly changes."""

_PARTS, _SAMPLES = 24, 30
"""An edge is measured in so many parts, of so many columns each."""

_ROUNDS = 2
_FARTHEST_PX, _STEP_PX = 2.0, 0.1
_BLURS_PX = (0.6, 0.8, 1.0, 1.25, 1.55, 1.9, 2.4, 3.0)
_PLACES_PX = np.linspace(-_FARTHEST_PX, _FARTHEST_PX, round(2 * _FARTHEST_PX / _STEP_PX) + 1)
"""An edge is looked for at so many places beside its line, and blurred by so much (deviation)."""

_MOST_LOST = 0.5
_HUE_COUNTS = 0.25
"""Hue is measured the finer, but JPEG smooths its noise away with its edges."""

_USUAL_PX = (1.0, 0.6, 0.4, 0.4)

_BLURRED_PX, _FAINT_PX, _SCATTERED = 0.045, 1.35, 0.75
"""How well an edge's height is known: by the square of the blur (px), by the blur over the step in
colour, and by how far its parts scatter.  Fitted to the edges of 54 drawn tags that were each taken
twice."""


class Profile(NamedTuple):
    """Heights (px) of an edge near both ends of its strip, the deviation of the picture's blur
    there, and by how much the mean of the edge's parts may stray as they scatter."""

    heights: tuple[float, float]
    blur_px: float
    scatter_px: float

    def error_px(self, step: float) -> float:
        """The deviation with which the height is known where colour makes such a ``step``."""
        blurred = _BLURRED_PX * self.blur_px**2
        faint = _FAINT_PX * self.blur_px / step
        return float(np.linalg.norm((blurred, faint, _SCATTERED * self.scatter_px)))


def edge_by_profile(strip: Floats, heights: tuple[float, float], ends: Doubles) -> Profile | None:
    """The edge near ``heights`` (px) at ``ends`` (columns of ``strip``, CIE L*a*b*); ``None`` where
    most of its parts show none there."""
    columns = np.linspace(float(ends[0]), float(ends[1]), _PARTS * _SAMPLES)
    middles = columns.reshape(_PARTS, _SAMPLES).mean(axis=1)
    line = np.polyfit(ends, heights, 1)
    for _ in range(_ROUNDS):
        away, blur_px = _edges_of_parts(_usual_colours(strip, line, columns))
        if (np.abs(away) > _FARTHEST_PX - _STEP_PX).mean() > _MOST_LOST:
            return None
        line = robust_line(middles, np.polyval(line, middles) + away, line, _USUAL_PX)
    off = away - np.polyval(np.polyfit(middles, away, 1), middles)
    scatter_px = 1.48 * float(np.median(np.abs(off - np.median(off)))) / _PARTS**0.5
    first, last = np.polyval(line, ends)
    return Profile((float(first), float(last)), blur_px, scatter_px)


def _usual_colours(strip: Floats, line: Doubles, columns: Doubles) -> Doubles:
    """The colours beside a line, part by part, of shape (across, part, 3); what is written on a few
    columns does not count."""
    across = np.arange(-_OUT_PX, _IN_PX + 1)[:, None]
    x = np.broadcast_to(columns, (len(across), len(columns))).astype(np.float32)
    y = (np.polyval(line, columns)[None] + across).astype(np.float32)
    seen = cv2.remap(strip, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
    each = np.sort(seen.reshape(len(across), _PARTS, _SAMPLES, 3), axis=2)
    middle = each[:, :, _SAMPLES // 4 : 3 * _SAMPLES // 4]
    return np.asarray(middle.mean(axis=2), np.float64)


def _edges_of_parts(colours: Doubles) -> tuple[Doubles, float]:
    """How far in from the line the edge lies, part by part, and the blur of lightness (px)."""
    left = _unexplained(colours)
    total = np.zeros((len(_PLACES_PX), _PARTS))
    blurs_px = []
    for channels, counts in ((np.s_[:1], 1.0), (np.s_[1:], _HUE_COUNTS)):
        kind = left[..., channels]
        which = int(np.median(kind.sum(axis=3).min(axis=1), axis=1).argmin())
        blurs_px.append(_BLURS_PX[which])
        noise = np.median(kind[which].min(axis=0), axis=0) + 1e-3
        total += counts * (kind[which] / noise).sum(axis=2)
    lowest = total.argmin(axis=0)
    away = [_PLACES_PX[at] + _STEP_PX * _offset(total[:, part], int(at))
            for part, at in enumerate(lowest)]  # fmt: skip
    return np.array(away), blurs_px[0]


def _unexplained(colours: Doubles) -> Doubles:
    """What an edge of each blur at each place leaves unexplained of ``colours`` (across, part,
    channel): squares, of shape (blur, place, part, channel)."""
    flat = (colours - colours.mean(axis=0)).reshape(len(colours), -1)
    explained = np.einsum("bpak,ac->bpkc", _bases(), flat, optimize=True)
    left = (flat**2).sum(axis=0) - (explained**2).sum(axis=2)
    return np.asarray(left.reshape(*left.shape[:2], *colours.shape[1:]), np.float64)


def _blurred_step(places: Doubles) -> Doubles:
    """How high a step from 0 to 1 is at ``places``, told in widths of its blur: the normal
    distribution."""
    return np.asarray([[math.erfc(-place / math.sqrt(2)) / 2 for place in row] for row in places])


@cache
def _bases() -> Doubles:
    """Orthonormal bases of all profiles that an edge of each blur at each place may have: shape
    (blur, place, across, term)."""
    across = np.arange(-_OUT_PX, _IN_PX + 1)
    from_edge = across - _PLACES_PX[:, None]
    bases = []
    for blur in _BLURS_PX:
        card = _blurred_step(from_edge / blur)
        terms = [(1 - card) * (from_edge / _OUT_PX) ** power for power in range(_GROUND_ORDER + 1)]
        terms += [card * (from_edge / _OUT_PX) ** power for power in range(_CARD_ORDER + 1)]
        bases.append(np.linalg.qr(np.stack(terms, axis=2))[0])
    return np.asarray(bases)


def _offset(values: Doubles, lowest: int) -> float:
    """How far beside ``lowest`` the least of ``values`` is, by the parabola through three."""
    if not 0 < lowest < len(values) - 1:
        return 0.0
    before, at, after = values[lowest - 1 : lowest + 2]
    bend = before - 2 * at + after
    return float(np.clip(0.5 * (before - after) / bend, -1, 1)) if bend > 0 else 0.0
