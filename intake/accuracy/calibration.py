"""Whether confidence means what it says: of all values with a confidence of 0.9, nine in
ten ought to be right.

Brier score: mean squared distance of confidence from what came true (G. W. Brier, 1950).
Expected calibration error: distance of mean confidence from frequency in each bin,
weighted by the bin's size (Naeini, Cooper and Hauskrecht, 2015).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

EDGES = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97, 0.99, 0.999, 1.0)
"""Limits of the bins; finer near 1, where it is decided what is filed unasked."""


@dataclass(frozen=True, slots=True)
class Bin:
    """Values whose confidence lies from ``low`` up to, not including, ``high`` (the last
    bin includes it): how many, their mean confidence, and how often they were right."""

    low: float
    high: float
    count: int
    confidence: float
    frequency: float


def brier_score(confidences: Sequence[float], right: Sequence[bool]) -> float:
    """0 for a perfect forecast, 1 for the worst; 0 where there are no values."""
    if not confidences:
        return 0.0
    distance = np.asarray(confidences, float) - np.asarray(right, float)
    return float(np.mean(distance**2))


def reliability(
    confidences: Sequence[float], right: Sequence[bool], edges: Sequence[float] = EDGES
) -> list[Bin]:
    """Confidence against frequency, in the bins that hold any value; ``edges`` go from 0
    to 1, ascending."""
    stated, true = np.asarray(confidences, float), np.asarray(right, float)
    place = np.digitize(stated, edges[1:-1])
    return [
        Bin(low, high, int(within.sum()), float(stated[within].mean()), float(true[within].mean()))
        for at, (low, high) in enumerate(pairwise(edges))
        for within in [place == at]
        if within.any()
    ]


def expected_calibration_error(bins: Sequence[Bin]) -> float:
    """From 0 for confidences that are frequencies, to 1; 0 where there are no bins."""
    total = sum(one.count for one in bins)
    off = sum(one.count * abs(one.confidence - one.frequency) for one in bins)
    return off / total if total else 0.0
