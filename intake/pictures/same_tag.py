"""Whether two kept pictures with the same print show one tag or two.

Two tags of one printing differ in what no printer repeats: where the print lies on the card
that was cut from its sheet, and where shade and lot lie in the print, which come on it in a pass
of their own.  Both are measured after the pictures have been laid over each other by their
print, so light, scale and angle do not matter.
"""

from __future__ import annotations

import json
import math
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
_FINEST = 0.1
"""So many thousandths of the longer side can just be measured."""


@dataclass(frozen=True, slots=True)
class Likeness:
    """How two pictures of a print compare; lengths in thousandths of the longer side.

    ``edges_apart`` is how far the card's edges are from each other when the print lies on
    print: the median over the ``sides`` that both show, and ``worst_edge_apart`` the largest;
    ``print_apart`` how far some of the print has moved within the rest; ``bend`` how far the
    card is bent in one picture against the other; ``unlike`` the share of print that looks
    different.
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
        edges_apart=float(np.median(apart_px)) / unit if apart_px else 0.0,
        worst_edge_apart=max(apart_px, default=0.0) / unit,
        sides=len(apart_px),
        print_apart=cluster_shift_px(shifts.places, own) / unit,
        bend=float(np.percentile(np.hypot(*(smooth - smooth.mean(axis=0)).T), 90)) / unit,
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
    """For each edge of the other card how far its ends are from the nearest edge of the first."""
    edges = card_edges(over.image)
    apart = []
    for other in card_edges(over.other_image):
        ends = cv2.perspectiveTransform(other.points[None], matrix)[0]
        near = [float(np.abs(edge.distances_px(ends)).max()) for edge in edges]
        # An edge that only one picture shows is nearest to another side of the card.
        if near and min(near) < 0.05 * max(over.print.shape):
            apart.append(min(near))
    return apart


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
    """What a likeness says.  The model and its bounds are in ``same_tag.json`` beside this file;
    ``fixtures/fit_same_tag.py`` fits them on drawn pairs."""
    model = _model()
    if found.sides < model["fewest_sides"]:
        return Verdict.UNSURE
    same = probability(found, model["weights"])
    if same >= model["same_from"]:
        return Verdict.SAME
    return Verdict.ANOTHER if same <= model["another_to"] else Verdict.UNSURE


def probability(found: Likeness, weights: dict[str, float]) -> float:
    """Probability from 0 to 1 that both pictures show one tag."""
    total = weights["intercept"]
    total += sum(weights[name] * value for name, value in evidence(found).items())
    return 1 / (1 + math.exp(-max(-30.0, min(30.0, total))))


def evidence(found: Likeness) -> dict[str, float]:
    """A likeness as it enters the model: lengths on a logarithmic scale, from what can just be
    measured."""
    return {
        "edges_apart": math.log(found.edges_apart + _FINEST),
        "worst_edge_apart": math.log(found.worst_edge_apart + _FINEST),
        "print_apart": math.log(found.print_apart + _FINEST),
        "unlike": found.unlike,
    }


@cache
def _model() -> dict[str, Any]:
    text = resources.files("intake.pictures").joinpath("same_tag.json").read_text("utf-8")
    model: dict[str, Any] = json.loads(text)
    return model
