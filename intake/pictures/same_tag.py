"""Whether two kept pictures with the same print show one tag or two.

Two tags of one printing differ in what no printer repeats: where the print lies on the card
that was cut from its sheet, and where shade and lot lie in the print, which come on it in a pass
of their own.  Both are measured after the pictures have been laid over each other by their
print, so light, scale and angle do not matter.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources
from typing import Any

import cv2
import numpy as np

from intake.pictures.card_edges import card_edges
from intake.pictures.laid_over import Doubles, Overlay, laid_over
from intake.pictures.print_shifts import cluster_shift_px, print_shifts, smooth_part

_FEWEST_BLOCKS = 12
_PER_MILLE = 1000.0
_STRAY = 2.5
_FARTHEST = 0.025
"""No cut strays by more of the longer side: 2 mm on a tag of 80 mm, when one and a half is much
(common practice among printers, from memory, no source)."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """How two pictures of a print compare; lengths in thousandths of the longer side.

    ``edges_apart`` is how far the card's edges are from each other when the print lies on
    print: the (lower) median over the ``sides`` that both show, so that an edge or two that were
    mistaken do not make two tags of one, and ``worst_edge_apart`` the largest;
    ``print_apart`` how far some of the print has moved within the rest; ``bend`` how far half of
    it has where the card is bent in one picture against the other; ``unlike`` the share of print
    that looks different.
    """

    edges_apart: float
    worst_edge_apart: float
    sides: int
    print_apart: float
    bend: float
    unlike: float


def likeness(one_jpeg: bytes, other_jpeg: bytes) -> Likeness | None:
    """How two kept pictures compare; ``None`` where they cannot be laid over each other.
    ``ValueError`` where either is no picture."""
    over = laid_over(one_jpeg, other_jpeg)
    if over is None:
        return None
    shifts = print_shifts(over)
    if len(shifts.places) < _FEWEST_BLOCKS:
        return None
    size = over.print.shape
    unit = max(size) / _PER_MILLE
    smooth = smooth_part(shifts, size)
    own = shifts.by_px - smooth
    apart_px = _edges_apart_px(over, _flat_matrix(over, shifts.places, shifts.by_px, own))
    return Likeness(
        edges_apart=apart_px[(len(apart_px) - 1) // 2] / unit if apart_px else 0.0,
        worst_edge_apart=apart_px[-1] / unit if apart_px else 0.0,
        sides=len(apart_px),
        print_apart=cluster_shift_px(shifts.places, own) / unit,
        bend=float(np.median(np.hypot(*(smooth - np.median(smooth, axis=0)).T))) / unit,
        unlike=shifts.unlike,
    )


def _flat_matrix(over: Overlay, places: Doubles, by_px: Doubles, own: Doubles) -> Doubles:
    """The overlay's matrix, refined by all print that did not move by itself."""
    away = np.hypot(*own.T)
    still = away < _STRAY * (1.48 * np.median(away) + 0.15)
    back = np.linalg.inv(over.matrix)
    source = cv2.perspectiveTransform((places + by_px)[still][None], back)[0]
    refined, _ = cv2.findHomography(source, places[still], 0)
    return over.matrix if refined is None else np.asarray(refined, np.float64)


def _edges_apart_px(over: Overlay, matrix: Doubles) -> list[float]:
    """For each edge of the other card how far its ends are from the nearest edge of the first,
    the nearest first."""
    edges = card_edges(over.image)
    apart = []
    for other in card_edges(over.other_image):
        ends = cv2.perspectiveTransform(other.points[None], matrix)[0]
        near = [float(np.abs(edge.distances_px(ends)).max()) for edge in edges]
        # What is further away is no cut that strayed but something else that was seen.
        if near and min(near) < _FARTHEST * max(over.print.shape):
            apart.append(min(near))
    return sorted(apart)


class Verdict(StrEnum):
    """What two pictures say of the tags on them."""

    SAME = "one tag"
    ANOTHER = "two tags"
    UNSURE = "cannot be told"


def verdict(one_jpeg: bytes, other_jpeg: bytes) -> Verdict:
    """Whether two kept pictures with the same print show one tag.  ``ValueError`` where either
    is no picture."""
    found = likeness(one_jpeg, other_jpeg)
    return Verdict.UNSURE if found is None else judged(found)


def judged(found: Likeness) -> Verdict:
    """What a likeness says.  Its bounds are in ``same_tag.json`` beside this file, and
    ``fixtures/fit_same_tag.py`` finds them on drawn pairs.

    Two tags are said only where the card was cut otherwise and the print moved as well: an edge
    alone may be mistaken for another.
    """
    bounds = _bounds()
    if found.sides < bounds["fewest_sides"] or found.bend > bounds["flat_to"]:
        return Verdict.UNSURE
    if all(getattr(found, name) <= most for name, most in bounds["one_tag_most"].items()):
        return Verdict.SAME
    if all(getattr(found, name) >= least for name, least in bounds["two_tags_least"].items()):
        return Verdict.ANOTHER
    return Verdict.UNSURE


@cache
def _bounds() -> dict[str, Any]:
    text = resources.files("intake.pictures").joinpath("same_tag.json").read_text("utf-8")
    bounds: dict[str, Any] = json.loads(text)
    return bounds
