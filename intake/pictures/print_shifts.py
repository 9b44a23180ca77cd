"""How far each bit of print lies from its place when two pictures of a print are laid over
each other.

A bent card moves its print smoothly; shade and lot, which are printed in a pass of their own,
move by themselves.
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from intake.pictures.card_edges import peak_offset
from intake.pictures.laid_over import Doubles, Floats, Overlay

_BLOCK_PX = (56, 28)
_STEP_PX = (28, 20)
_REACH_PX = 14
_LEAST_PRINT = 0.6
_ALIKE = 0.75
_ALONE = 0.12
"""A block's best place must be this much more alike than any other, or its print runs on along
a line or comes again."""

_SMOOTHED_PX = 1.5
_LEAST_ACROSS = 0.05
"""A block's print must change along its weaker direction by this share (of squares) of what it does
along the other.  A rule by itself, which does not tell where along it a block belongs, stays below
0.02, and letters above 0.1: by the blocks of nine drawn pairs.  Else what lies across the rule on
one of the pictures would tell."""

_PEAK_PX = 4
_ROUNDS = 12
_SOFTEST_PX = 0.15

_AT_PLACE_PX = 0.8
_FLAT_PX = 0.4
_DRAWS = 3000
_SURE = 0.9999
"""A flat card is found by so many draws of four blocks that have others within so many pixels.
Print that moved as one would pull it askew if it were let count as hardly moved."""

_TOGETHER = 4
_AROUND = 6
_AS_MANY = 0.95
"""A flat card is believed when it, with a piece of print that moved as one, puts nearly as many
blocks in their place as a bent one."""


@dataclass(frozen=True, slots=True)
class Shifts:
    """Blocks of print that both pictures show: their ``places`` on the first, and by how much
    the other's print lies beside it (``by_px``), both of shape (n, 2); ``unlike`` is the share
    of printed blocks that look like nothing near them on the other picture."""

    places: Doubles
    by_px: Doubles
    unlike: float


def print_shifts(over: Overlay) -> Shifts:
    """The shifts of all print on two pictures laid over each other."""
    height, width = over.print.shape
    places, shifts = [], []
    printed = unlike = 0
    changes = _changes(over.print)
    for top in range(_REACH_PX, height - _BLOCK_PX[1] - _REACH_PX, _STEP_PX[1]):
        for left in range(_REACH_PX, width - _BLOCK_PX[0] - _REACH_PX, _STEP_PX[0]):
            around = np.s_[
                top - _REACH_PX : top + _BLOCK_PX[1] + _REACH_PX,
                left - _REACH_PX : left + _BLOCK_PX[0] + _REACH_PX,
            ]
            if not over.seen[around].all():
                continue
            block = over.print[top : top + _BLOCK_PX[1], left : left + _BLOCK_PX[0]]
            steps = changes[top : top + _BLOCK_PX[1], left : left + _BLOCK_PX[0]]
            if block.std() < _LEAST_PRINT or not _has_one_place(steps):
                continue
            printed += 1
            alike = cv2.matchTemplate(over.other_print[around], block, cv2.TM_CCOEFF_NORMED)
            if alike.max() < _ALIKE:
                unlike += 1
            elif (shift := _only_peak(np.asarray(alike, np.float32))) is not None:
                places.append((left + _BLOCK_PX[0] / 2, top + _BLOCK_PX[1] / 2))
                shifts.append(shift)
    return Shifts(
        np.array(places, float).reshape(-1, 2),
        np.array(shifts, float).reshape(-1, 2),
        unlike / max(printed, 1),
    )


def _changes(print_: Floats) -> Floats:
    """How print changes from pixel to pixel: the squares of its steps to the right and down, and
    their product, of shape (height, width, 3)."""
    smooth = cv2.GaussianBlur(print_, (0, 0), _SMOOTHED_PX)
    right, down = cv2.Sobel(smooth, cv2.CV_32F, 1, 0), cv2.Sobel(smooth, cv2.CV_32F, 0, 1)
    return np.asarray(np.dstack([right * right, down * down, right * down]), np.float32)


def _has_one_place(changes: Floats) -> bool:
    """Whether print that changes so tells its place along every direction (the structure tensor's
    smaller eigenvalue)."""
    right, down, both = changes.reshape(-1, 3).sum(axis=0)
    least, most = np.linalg.eigvalsh([[right, both], [both, down]])
    return bool(least > _LEAST_ACROSS * most)


@dataclass(frozen=True, slots=True)
class Parts:
    """Shifts parted into what laying over and bending did and what the print did by itself.

    ``own`` of shape (n, 2) is how far each block moved by itself; ``bend`` (px) how far half of the
    print was moved because the card is bent in one picture against the other, 0 for flat cards.
    """

    own: Doubles
    bend: float


def parted(shifts: Shifts, size: tuple[int, ...]) -> Parts:
    """Shifts of a bent card, or of a flat one some of whose print moved as one: whichever
    explains clearly more of the blocks."""
    flat = _beside_flat(shifts)
    if flat is not None:
        away = np.hypot(*flat.T)
        moved = _moved_as_one(shifts.places[away > _AT_PLACE_PX], flat[away > _AT_PLACE_PX])
        explained = int((away <= _AT_PLACE_PX).sum()) + moved
    smooth = smooth_part(shifts, size)
    own = shifts.by_px - smooth
    by_bend = int((np.hypot(*own.T) <= _AT_PLACE_PX).sum())
    if flat is not None and explained >= _AS_MANY * by_bend:
        return Parts(_jumped(shifts, flat), 0.0)
    bend = float(np.median(np.hypot(*(smooth - np.median(smooth, axis=0)).T)))
    return Parts(_jumped(shifts, own), bend)


def smooth_part(shifts: Shifts, size: tuple[int, ...]) -> Doubles:
    """The part of the shifts that a bent card makes: a surface of the third order (of a lower
    one for few blocks) through most of them."""
    count = len(shifts.places)
    order = 3 if count > 60 else 2 if count > 25 else 1
    height, width = size
    u, v = (shifts.places / (width, height) * 2 - 1).T
    powers = [u**i * v**j for i in range(order + 1) for j in range(order + 1 - i)]
    terms = np.stack(powers, axis=1)
    weights = np.ones((count, 1))
    fitted = np.zeros_like(shifts.by_px)
    for _ in range(_ROUNDS):
        root = np.sqrt(weights)
        factors = np.linalg.lstsq(terms * root, shifts.by_px * root, rcond=None)[0]
        fitted = terms @ factors
        away = np.hypot(*(shifts.by_px - fitted).T)
        usual = 1.48 * float(np.median(away)) + _SOFTEST_PX
        weights = (1 / (1 + (away / (1.5 * usual)) ** 2) ** 2)[:, None]
    return np.asarray(fitted)


def _beside_flat(shifts: Shifts) -> Doubles | None:
    """How far each block lies from where the flat card that most of them show would have it."""
    there = shifts.places + shifts.by_px
    matrix, _ = cv2.findHomography(
        there, shifts.places, cv2.RANSAC, _FLAT_PX, maxIters=_DRAWS, confidence=_SURE
    )
    if matrix is None:
        return None
    return np.asarray(cv2.perspectiveTransform(there[None], matrix)[0] - shifts.places)


def _moved_as_one(places: Doubles, by_px: Doubles) -> int:
    """How many of the blocks moved as one stiff piece."""
    if len(places) < _TOGETHER:
        return 0
    _, taken = cv2.estimateAffinePartial2D(
        places, places + by_px, method=cv2.RANSAC, ransacReprojThreshold=_AT_PLACE_PX
    )
    count = 0 if taken is None else int(taken.sum())
    return count if count >= _TOGETHER else 0


def _jumped(shifts: Shifts, own: Doubles) -> Doubles:
    """``own``, where a block did not only go along with those around it that stayed."""
    still = np.hypot(*own.T) <= _AT_PLACE_PX
    if still.sum() < _AROUND:
        return own
    places, by_px = shifts.places[still], shifts.by_px[still]
    distances = np.linalg.norm(shifts.places[:, None] - places[None], axis=2)
    nearest = np.argsort(distances, axis=1)[:, :_AROUND]
    jump = np.hypot(*(shifts.by_px - np.median(by_px[nearest], axis=1)).T)
    share = np.minimum(1, jump / (np.hypot(*own.T) + 1e-6))
    return np.asarray(own * share[:, None])


def _only_peak(alike: Floats) -> tuple[float, float] | None:
    """Where the peak of ``alike`` lies from its middle; ``None`` for one at the rim, and where
    another is nearly as high."""
    _, best, _, (x, y) = cv2.minMaxLoc(alike)
    height, width = alike.shape
    if not (0 < x < width - 1 and 0 < y < height - 1):
        return None
    others = alike.copy()
    others[max(0, y - _PEAK_PX) : y + _PEAK_PX + 1, max(0, x - _PEAK_PX) : x + _PEAK_PX + 1] = -1
    if best - float(others.max()) < _ALONE:
        return None
    return (
        x - _REACH_PX + peak_offset(alike[y], x),
        y - _REACH_PX + peak_offset(np.ascontiguousarray(alike[:, x]), y),
    )


def cluster_shift_px(places: Doubles, by_px: Doubles, together: int = _TOGETHER) -> float:
    """How far the ``together`` neighbouring blocks that moved most have moved, by the median of
    each such group; the second largest group, for one may be chance."""
    if len(places) < together:
        return 0.0
    distances: npt.NDArray[np.float64] = np.linalg.norm(places[:, None] - places[None], axis=2)
    nearest = np.argsort(distances, axis=1)[:, :together]
    moved = np.hypot(*np.median(by_px[nearest], axis=1).T)
    return float(np.sort(moved)[-2])
