"""Where a tag's card ends, to a fraction of a pixel, seen in strips along its rim.

A strip runs along one side of the card and across its edge.  Two pictures of one print are cut
into strips by the same grid, so that edges can be compared by their height in the strip alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.edge_profile import edge_by_profile
from intake.pictures.hue_edges import edge_by_hue, hue_error_px, robust_line
from intake.pictures.load import Image
from intake.pictures.straighten import MARGIN

Floats = npt.NDArray[np.float32]
Doubles = npt.NDArray[np.float64]
Strips = list[Floats]

_WITHIN, _BEYOND = 0.035, 0.025
"""How far a strip reaches into and out of the picture, in its longer sides.  The card was cut out
with a rim of a hundredth; rules and coloured bands printed on it mostly lie further in."""

ENDS = (0.08, 0.92)
_PARTS, _BINS = 32, 3
"""An edge is looked for in so many parts of so many bins each between these shares of a side."""

_STEEPEST = 0.022
_RISE_PX = 1.0
"""How much an edge may lean against its side, in longer sides of the picture, and by how many
pixels of rise the leaning lines that are tried differ."""

_FAINTEST = 1.2
_SURE = 7.0
_LEAST_EVEN = 0.6
"""A step in CIE L*a*b* (8 bits) that an edge has at least, in colour and in deviations of its
mean, and on how many parts of the line it goes the same way.  Along a whole line even white card
on a white lid shows a step; print has one only here and there."""

_STATIONS = 80
_NEAR_PX = 3
_USUAL_PX = (1.0, 0.6, 0.4, 0.4)
"""A line is fitted through the peaks at so many places within so many pixels of it, those further
away than usual counting less."""

_SHARPEST_PX, _UNSURE_PX = 0.02, 3.0
"""How well the height of the clearest line is known, and that of one with a step of 1: by the
lines of 80 drawn tags that were each taken twice.  What the shadow at an edge moves it by counts
the less the more the card differs from the ground."""

_COUNT = (0.75, 0.25)
"""How much an edge's height by the whole change of colour counts, and the steepest place of it: one
errs by ground that is uneven, the other by the card's shadow."""

_OFF_PX = 4
_BLACK = np.array([0.0, 128.0, 128.0], np.float32)
_SHADOW, _NOISE = 8.0, 2.0
"""Card and ground are looked at so far beside an edge.  A shadow takes the ground's colour towards
black by about so much from one pixel to the next, and noise moves it by so much (L*a*b*)."""

_NEXT_TO_LARGEST = 0.25
_APART_PX = 2.5
_SOFT_PX = 5
_MOST_SEEN, _MOST = 8, 4
"""So many lines are looked at, and so many of those that may be edges are kept: each rule printed
along the rim makes two."""

_GROUND_DIFFERS = 1.5
_OF_STEP = 0.35
_BOLDEST_PX = 8
_BESIDE_PX = (4, _BOLDEST_PX)
"""By so much do the sides of an edge differ, in colour and in its step, next to it and beyond a
bold rule.  A printed rule has paper on either side, if in a light that changes across it."""

_SLOWER = 0.6
"""Nowhere beside an edge does colour go back by more of its step from one pixel to the next."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line along a strip where the card may end: its heights (px) near both ends of the strip,
    from the outside in, the deviation with which they are known, and its step in colour."""

    heights: tuple[float, float]
    strength: float
    error_px: float


def side_grids(size: tuple[int, ...], *, is_round: bool = False) -> list[Floats]:
    """The points of a picture of ``size`` (height, width) that its four strips show, each of
    shape (across, along, 2), x and y in pixels; of an oval card the strips are sectors."""
    return [
        (_sector if is_round else _straight)(size, side).astype(np.float32) for side in range(4)
    ]


def strips_of(image: Image, grids: list[Floats], matrix: Doubles) -> Strips:
    """The strips of ``image`` in CIE L*a*b* (8 bits); ``matrix`` (3 by 3) takes the points of
    ``grids`` to its pixels."""
    colours = cv2.cvtColor(image, cv2.COLOR_RGB2LAB)
    strips = []
    for grid in grids:
        x, y = _moved(grid, matrix)
        strip = cv2.remap(colours, x, y, cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)
        strips.append(np.asarray(strip, np.float32))
    return strips


def lines_along(strip: Floats, longest_px: int) -> list[Line]:
    """The lines in a strip that may be the card's edge, the outermost first; ``longest_px`` is the
    longer side of the picture."""
    height, width = strip.shape[:2]
    # Along the edge the picture may be smoothed, across it hardly.
    fine = np.asarray(cv2.GaussianBlur(strip, (0, 0), 0.7), np.float32)
    steps = np.zeros_like(fine)
    steps[1:-1] = fine[2:] - fine[:-2]
    steepest_px = max(4, round(_STEEPEST * longest_px / _RISE_PX)) * _RISE_PX
    rises = np.arange(-steepest_px, steepest_px + _RISE_PX / 2, _RISE_PX)
    inner = steps[:, round(ENDS[0] * width) : round(ENDS[1] * width)]
    size = (_BINS * _PARTS, height)
    bins = np.asarray(cv2.resize(inner, size, interpolation=cv2.INTER_AREA), np.float32)
    strength = np.stack([_seen_along(bins, rise) for rise in rises])
    lines = []
    for at_rise, row, value in _peaks(strength, rises):
        line = _line(fine, steps, (float(row), float(rises[at_rise])), value)
        if _parts_card_from_ground(fine, line):
            lines.append(line)
    faintest = _NEXT_TO_LARGEST * max((line.strength for line in lines), default=0.0)
    edges = [line for line in lines if line.strength >= faintest][:_MOST]
    return sorted(edges, key=lambda line: sum(line.heights))


# Strips


def _straight(size: tuple[int, ...], side: int) -> Doubles:
    height, width = size[:2]
    across = np.arange(-round(_BEYOND * max(size)), round(_WITHIN * max(size)))[:, None]
    along = np.arange(width if side % 2 == 0 else height)[None]
    across, along = np.broadcast_arrays(across, along)
    x, y = {
        0: (along, across),
        1: (width - 1 - across, along),
        2: (width - 1 - along, height - 1 - across),
        3: (across, height - 1 - along),
    }[side]
    return np.stack([x, y], axis=2).astype(np.float64)


def _sector(size: tuple[int, ...], side: int) -> Doubles:
    height, width = size[:2]
    middle = np.array([width - 1, height - 1]) / 2
    radii = np.array([width, height]) / 2 - MARGIN * max(size)
    across = np.arange(-round(_BEYOND * max(size)), round(_WITHIN * max(size)))[:, None, None]
    angles = np.linspace(-0.75, -0.25, round(0.75 * sum(radii))) * np.pi + side * np.pi / 2
    way = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    outward = way / radii
    outward /= np.linalg.norm(outward, axis=1)[:, None]
    return middle + way * radii - across * outward


def _moved(grid: Floats, matrix: Doubles) -> tuple[Floats, Floats]:
    points = cv2.perspectiveTransform(grid.reshape(1, -1, 2).astype(np.float64), matrix)
    x, y = points.reshape(-1, 2).T.reshape(2, *grid.shape[:2]).astype(np.float32)
    return x, y


# Lines in a strip


def _peaks(strength: Floats, rises: Doubles) -> Iterator[tuple[int, int, float]]:
    """The lines of most strength by rise, row and strength, the strongest first."""
    left = strength.copy()
    for _ in range(_MOST_SEEN):
        at_rise, row = (int(each) for each in np.unravel_index(int(left.argmax()), left.shape))
        value = float(left[at_rise, row])
        if value < _FAINTEST:
            return
        yield at_rise, row, value
        # What leans otherwise through the same place is the same line.
        for other, rise in enumerate(rises):
            reach = _APART_PX + abs(rise - rises[at_rise]) / 2
            left[other, max(0, int(row - reach)) : int(row + reach) + 1] = 0


def _seen_along(bins: Floats, rise_px: float) -> Floats:
    """For lines that rise by ``rise_px`` over the strip, by their height in the middle: the mean
    step in colour across them, 0 where not all of the line has it.  ``bins`` are the steps
    between :data:`ENDS`."""
    height, count = bins.shape[:2]
    columns = np.linspace(*ENDS, count) - 0.5
    heights = np.arange(height)[:, None] + columns * rise_px
    low = np.clip(np.floor(heights).astype(int), 0, height - 2)
    share = (heights - low)[..., None].clip(0, 1).astype(np.float32)
    each = np.arange(count)
    levelled = bins[low, each] * (1 - share) + bins[low + 1, each] * share
    parts = levelled.reshape(height, _PARTS, _BINS, 3).mean(axis=2)
    mean = np.median(parts, axis=1)
    size = np.linalg.norm(mean, axis=1)
    towards = mean / (size[:, None] + 1e-6)
    sharp = np.einsum("rc,rc->r", _sharp_part(mean), towards)
    strength = np.clip(np.minimum(sharp, size), 0, None)
    seen = strength >= _FAINTEST  # the rest need not be looked at
    along = np.einsum("rpc,rc->rp", parts[seen], towards[seen])
    scatter = np.median(np.abs(along - np.median(along, axis=1)[:, None]), axis=1)
    even = (along > 0.4 * strength[seen, None]).mean(axis=1)
    seen[seen] = (strength[seen] > _SURE * 1.48 * scatter / np.sqrt(_PARTS)) & (even > _LEAST_EVEN)
    return np.asarray(np.where(seen, strength, 0), np.float32)


def _sharp_part(steps: Floats) -> Floats:
    """What ``steps``, row by row, have more than the rows around: a shadow goes by slowly."""
    padded = np.pad(steps, [(_SOFT_PX, _SOFT_PX), (0, 0)], mode="edge")
    around = (padded[: -2 * _SOFT_PX] + padded[2 * _SOFT_PX :]) / 2
    return np.asarray(steps - around, np.float32)


def _line(strip: Floats, steps: Floats, rough: tuple[float, float], strength: float) -> Line:
    """The line near a ``rough`` one, given as for :func:`_refined`: by all colour across it and a
    little by where that is steepest, or, where the first shows no edge, by hue where that makes
    more of a step than lightness does."""
    heights = _refined(strip, steps, *rough)
    ends = np.array(ENDS) * strip.shape[1]
    profile = edge_by_profile(strip, heights, ends)
    if profile is not None:
        first, last = np.average([profile.heights, heights], axis=0, weights=_COUNT)
        return Line((float(first), float(last)), strength, profile.error_px(strength))
    by_hue = edge_by_hue(strip, heights, ends)
    if by_hue is not None and by_hue[1] > strength:
        return Line(by_hue[0], strength, hue_error_px(by_hue[1]))
    return Line(heights, strength, float(np.hypot(_SHARPEST_PX, _UNSURE_PX / strength)))


def _refined(strip: Floats, steps: Floats, middle: float, rise_px: float) -> tuple[float, float]:
    """Heights near both ends of the line through the steps' peaks near one of known height and
    rise; ``steps`` are those of ``strip``."""
    height, width = steps.shape[:2]
    ends = np.array(ENDS) * width
    columns = np.linspace(ends[0], ends[1], _STATIONS).astype(int)
    smooth = cv2.blur(steps, (9, 1))
    rough = middle + (columns / width - 0.5) * rise_px
    rows = np.round(rough).astype(int)[None] + np.arange(-_NEAR_PX, _NEAR_PX + 1)[:, None]
    seen = smooth[np.clip(rows, 0, height - 1), columns[None]]
    along = np.asarray(seen @ _unlike_shadow(strip, rough, columns), np.float32)
    peaks = along.argmax(axis=0)
    places = np.array(
        [rows[peak, at] + peak_offset(along[:, at], int(peak)) for at, peak in enumerate(peaks)]
    )
    fit = robust_line(columns, places, np.polyfit(columns, rough, 1), _USUAL_PX)
    first, last = np.polyval(fit, ends)
    return float(first), float(last)


def _unlike_shadow(strip: Floats, rows: Doubles, columns: Doubles) -> Floats:
    """The direction of colour, of length 1, in which card and ground beside a line differ most
    against noise and against the shadow that the card throws (Fisher's linear discriminant)."""
    ground, card = (_colour_along(strip, rows + away, columns) for away in (-_OFF_PX, _OFF_PX))
    differs = card - ground
    darker = (ground - _BLACK) / (np.linalg.norm(ground - _BLACK) + 1e-6)
    by_shadow = float(differs @ darker) * darker
    towards = differs - by_shadow * _SHADOW**2 / (_SHADOW**2 + _NOISE**2)
    return np.asarray(towards / (np.linalg.norm(towards) + 1e-6), np.float32)


def peak_offset(values: Floats, place: int) -> float:
    """How far beside ``place`` the peak of ``values`` is, by the parabola through three."""
    if not 0 < place < len(values) - 1:
        return 0.0
    before, at, after = (float(value) for value in values[place - 1 : place + 2])
    bend = before - 2 * at + after
    return float(np.clip(0.5 * (before - after) / bend, -1, 1)) if bend < 0 else 0.0


def _parts_card_from_ground(strip: Floats, line: Line) -> bool:
    """Whether a line is no printed rule: the card has another colour than the ground, or is told
    from it by a shadow, which comes slowly and ends at once."""
    columns = np.linspace(*ENDS, 8 * _PARTS) * strip.shape[1]
    rows = np.linspace(*line.heights, len(columns))
    if max(line.heights) + _BOLDEST_PX >= len(strip):
        return False  # too far in to be an edge
    across = np.arange(-_BOLDEST_PX, _BOLDEST_PX + 1)
    colours = np.stack([_colour_along(strip, rows + away, columns) for away in across])
    differs = min(
        float(np.abs(colours[_BOLDEST_PX + away] - colours[_BOLDEST_PX - away]).sum())
        for away in _BESIDE_PX
    )
    if differs > max(_GROUND_DIFFERS, _OF_STEP * line.strength):
        return True
    steps = colours[2:] - colours[:-2]
    beside = steps[_BOLDEST_PX - 2 : _BOLDEST_PX + 1]  # an edge may lie between two rows
    along = steps @ beside[np.linalg.norm(beside, axis=1).argmax()]
    return bool(-along.min() < _SLOWER * along.max())


def _colour_along(strip: Floats, rows: Doubles, columns: Doubles) -> Floats:
    places = np.clip(np.round(rows).astype(int), 0, len(strip) - 1)
    return np.asarray(np.median(strip[places, columns.astype(int)], axis=0), np.float32)
