"""Brier score, reliability and calibration error, checked against scikit-learn's
``brier_score_loss`` and ``calibration_curve``."""

from __future__ import annotations

import numpy as np
import pytest
from accuracy_tags import read_tag, scored, true_tag
from sklearn.calibration import calibration_curve  # type: ignore[import-untyped]
from sklearn.metrics import brier_score_loss  # type: ignore[import-untyped]

from intake.accuracy.calibration import (
    EDGES,
    Bin,
    brier_score,
    expected_calibration_error,
    reliability,
)
from intake.accuracy.summary import calibration

TENTHS = [each / 10 for each in range(11)]


def forecasts(seed: int, count: int = 500) -> tuple[list[float], list[bool]]:
    """Random confidences, and what came true: less often than they say."""
    chance = np.random.default_rng(seed)
    confidences = chance.random(count)
    return confidences.tolist(), (chance.random(count) < confidences**2).tolist()


@pytest.mark.parametrize("seed", range(3))
def test_brier_score_is_that_of_scikit_learn(seed: int) -> None:
    confidences, right = forecasts(seed)
    assert brier_score(confidences, right) == pytest.approx(brier_score_loss(right, confidences))


@pytest.mark.parametrize("seed", range(3))
def test_reliability_is_the_calibration_curve_of_scikit_learn(seed: int) -> None:
    confidences, right = forecasts(seed, 60)
    frequency, stated = calibration_curve(right, confidences, n_bins=10)
    bins = reliability(confidences, right, TENTHS)
    assert [one.frequency for one in bins] == pytest.approx(frequency.tolist())
    assert [one.confidence for one in bins] == pytest.approx(stated.tolist())


def test_calibration_error_weighs_the_bins_of_scikit_learn_by_their_size() -> None:
    confidences, right = forecasts(7)
    frequency, stated = calibration_curve(right, confidences, n_bins=10)
    sizes, _ = np.histogram(confidences, TENTHS)
    expected = float(np.sum(sizes * np.abs(frequency - stated)) / len(right))
    bins = reliability(confidences, right, TENTHS)
    assert expected_calibration_error(bins) == pytest.approx(expected)


def test_bins_hold_their_lower_limit_and_the_last_holds_one() -> None:
    bins = reliability([0.0, 0.97, 1.0], [True] * 3)
    assert [(one.low, one.high, one.count) for one in bins] == [
        (0.0, 0.1, 1),
        (0.97, 0.99, 1),
        (0.999, 1.0, 1),
    ]


def test_limits_of_bins_ascend_from_0_to_1() -> None:
    assert (EDGES[0], EDGES[-1]) == (0.0, 1.0)
    assert list(EDGES) == sorted(set(EDGES))


def test_confidences_that_are_frequencies_have_no_calibration_error() -> None:
    bins = reliability([0.75] * 4, [True, True, True, False])
    assert bins == [Bin(0.7, 0.8, 4, 0.75, 0.75)]
    assert expected_calibration_error(bins) == 0.0


def test_no_values_have_no_error() -> None:
    assert brier_score([], []) == 0.0
    assert reliability([], []) == []
    assert expected_calibration_error([]) == 0.0


def test_only_fields_that_were_read_have_a_confidence_to_judge() -> None:
    tags = [
        scored(true_tag(), read_tag(confidence=0.8)),
        scored(true_tag(), read_tag(confidence=0.8, lot="1")),
        scored(true_tag(), read_tag(lot=None)),
        scored(true_tag(lot=None), read_tag(confidence=0.8)),
        scored(true_tag(), None),
    ]
    found = calibration(tag.fields["lot"] for tag in tags)
    assert found.count == 3
    assert found.bins[0].frequency == pytest.approx(1 / 3)
    assert found.brier == pytest.approx((0.04 + 0.64 + 0.64) / 3)
