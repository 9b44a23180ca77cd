"""Where a tag's card ends on its kept picture, to a fraction of a pixel."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.load import Image

Floats = npt.NDArray[np.float32]

_BAND = 0.03
"""Share of the picture's longer side within which the card must end: it was cut out with a rim
of a hundredth.  Rules and coloured bands that are printed on it mostly lie further in."""

_STATIONS = 60
_FEWEST_STATIONS = 20
_ENDS = (0.08, 0.92)
"""An edge is looked for at so many places between these shares of a side."""

_LEAST_STEP = 8.0
_OUTERMOST = 0.5
_SHADOW = 0.007
"""The edge is the outermost step in colour that is at least this share of the largest, or a
larger one within this share of the longer side: a card's shadow ends a little outside of it."""

_GROUND_DIFFERS = 6.0
"""By so much of CIE L*a*b* (8 bits) do the sides of an edge differ.  A printed rule has paper on
either side."""

_WITHIN_PX = 1.2
_LEAST_STRAIGHT = 0.65
_DRAWS = 150


@dataclass(frozen=True, slots=True)
class Edge:
    """One straight edge of a card: two points of it, float64 of shape (2, 2), x and y in
    pixels."""

    points: npt.NDArray[np.float64]

    def distances_px(self, points: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """How far each of ``points``, shape (n, 2), lies from the edge's line, with sign."""
        along = self.points[1] - self.points[0]
        across = np.array([-along[1], along[0]]) / np.hypot(*along)
        return np.asarray((points - self.points[0]) @ across)


def card_edges(image: Image) -> list[Edge]:
    """The straight edges of the card that ``image`` was cut out to show, at most four."""
    colours = cv2.cvtColor(image, cv2.COLOR_RGB2LAB).astype(np.float32)
    edges = (_upper_edge(np.rot90(colours, turns)) for turns in range(4))
    return [
        Edge(_turned_back(points, turns, colours.shape[:2]))
        for turns, points in enumerate(edges)
        if points is not None
    ]


def _upper_edge(colours: Floats) -> npt.NDArray[np.float64] | None:
    """Two points of the edge at the top; ``None`` where there is no straight one."""
    height, width = colours.shape[:2]
    band_px = round(_BAND * max(height, width))
    # Along the edge the picture may be smoothed, across it hardly.
    fine = cv2.GaussianBlur(np.ascontiguousarray(colours[: 2 * band_px]), (0, 0), 0.7)
    strip = np.asarray(cv2.blur(fine, (9, 1)), np.float32)
    steps = np.abs(strip[2 : band_px + 4] - strip[: band_px + 2]).sum(axis=2)
    columns = np.linspace(_ENDS[0] * width, _ENDS[1] * width, _STATIONS).astype(int)
    shadow_px = round(_SHADOW * max(height, width))
    rows = np.array([_outermost(steps[:, column], shadow_px) for column in columns])
    found = np.isfinite(rows)
    if found.sum() < _FEWEST_STATIONS:
        return None
    line = _straight(columns[found].astype(float), rows[found])
    if line is None or not _parts_card_from_ground(strip, line, columns):
        return None
    ends = np.array(_ENDS) * width
    return np.stack([ends, line[0] * ends + line[1]], axis=1)


def _outermost(steps: Floats, shadow_px: int) -> float:
    """The row of the outermost large step; NaN where all are small."""
    largest = float(steps.max())
    if largest < _LEAST_STEP:
        return float("nan")
    first = int(np.argmax(steps > _OUTERMOST * largest))
    row = first + int(np.argmax(steps[first : first + shadow_px + 1]))
    return row + 1 + peak_offset(steps, row)


def peak_offset(values: Floats, place: int) -> float:
    """How far beside ``place`` the peak of ``values`` is, by the parabola through three."""
    if not 0 < place < len(values) - 1:
        return 0.0
    before, at, after = (float(value) for value in values[place - 1 : place + 2])
    bend = before - 2 * at + after
    return 0.5 * (before - after) / bend if bend < 0 else 0.0


def _straight(x: npt.NDArray[np.float64], y: npt.NDArray[np.float64]) -> tuple[float, float] | None:
    """Slope and height at 0 of the line that most of the points lie on."""
    rng = np.random.default_rng(0)
    best = np.zeros(len(x), bool)
    for _ in range(_DRAWS):
        one, other = rng.choice(len(x), 2, replace=False)
        slope = (y[other] - y[one]) / (x[other] - x[one])
        near = np.abs(y - y[one] - slope * (x - x[one])) < _WITHIN_PX
        if near.sum() > best.sum():
            best = near
    if best.sum() < _LEAST_STRAIGHT * _STATIONS:
        return None
    slope, start = np.polyfit(x[best], y[best], 1)
    return float(slope), float(start)


def _parts_card_from_ground(
    strip: Floats, line: tuple[float, float], columns: npt.NDArray[np.int_]
) -> bool:
    rows = np.asarray(line[0] * columns + line[1], np.float64)
    inside, outside = (_colour_along(strip, rows + away, columns) for away in (4, -4))
    return bool(np.abs(inside - outside).sum() > _GROUND_DIFFERS)


def _colour_along(
    strip: Floats, rows: npt.NDArray[np.float64], columns: npt.NDArray[np.int_]
) -> Floats:
    places = np.clip(np.round(rows).astype(int), 0, len(strip) - 1)
    return np.asarray(np.median(strip[places, columns], axis=0), np.float32)


def _turned_back(
    points: npt.NDArray[np.float64], quarter_turns: int, size: tuple[int, ...]
) -> npt.NDArray[np.float64]:
    """``points`` on a picture that ``np.rot90`` turned, on the picture of ``size`` before."""
    height, width = size
    x, y = points.T
    places = {
        0: (x, y),
        1: (width - 1 - y, x),
        2: (width - 1 - x, height - 1 - y),
        3: (y, height - 1 - x),
    }
    return np.stack(places[quarter_turns], axis=1)
