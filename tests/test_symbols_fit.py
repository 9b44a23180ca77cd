"""Fitting the classifier: patches seen anew, and the same model from the same seed."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from fixtures.distort import distorted
from fixtures.symbol_samples import samples
from intake.inference import Inference
from intake.symbols.patch import PATCH_PX


def wholes() -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    """Whole drawings of one strip, as bytes."""
    drawn = samples("tuning", np.random.default_rng(4))
    return np.array([np.round(patch[:, :PATCH_PX] * 255) for patch, _ in drawn], np.uint8)


def test_a_distorted_patch_is_another_picture_of_the_same_drawing() -> None:
    patches = wholes()
    seen = distorted(patches, np.random.default_rng(1))
    assert seen.shape == patches.shape
    assert 0 <= seen.min() <= seen.max() <= 1
    changes = np.abs(patches / 255 - seen).mean(axis=(1, 2))
    assert changes.min() > 0.02
    assert changes.mean() < 0.2


def test_a_seed_distorts_alike() -> None:
    one, other = (distorted(wholes(), np.random.default_rng(1)) for _ in range(2))
    assert np.array_equal(one, other)


@pytest.mark.slow
def test_the_same_seed_makes_the_same_model_byte_for_byte(tmp_path: Path) -> None:
    pytest.importorskip("jax")
    from fixtures.fit_symbols import main

    paths = [tmp_path / "one.onnx", tmp_path / "other.onnx"]
    for path in paths:
        main(["--share", "0.003", "--out", str(path)])
    one, other = (path.read_bytes() for path in paths)
    assert one == other


@pytest.mark.slow
def test_a_network_that_is_not_fitted_anew_stays_as_it_is(tmp_path: Path) -> None:
    pytest.importorskip("jax")
    from fixtures.fit_symbols import MODEL_PATH, main
    from fixtures.symbol_network import AGAIN, MARKS, WHOLE, kept_weights

    path = tmp_path / "model.onnx"
    path.write_bytes(MODEL_PATH.read_bytes())
    main(["--only", "marks", "--share", "0.003", "--out", str(path)])
    for network in (WHOLE, AGAIN):
        before, after = kept_weights(network, MODEL_PATH), kept_weights(network, path)
        assert all(np.array_equal(before[name], after[name]) for name in before)
    marks = kept_weights(MARKS, path)
    assert not np.array_equal(marks["out.bias"], np.zeros_like(marks["out.bias"]))


@pytest.mark.slow
def test_both_networks_have_their_say_on_the_whole_drawing(tmp_path: Path) -> None:
    pytest.importorskip("jax")
    from fixtures.fit_symbols import MODEL_PATH
    from fixtures.symbol_network import AGAIN, MARKS, WHOLE, as_onnx, kept_weights

    patches = np.stack([patch for patch, _ in samples("tuning", np.random.default_rng(6))])[:, None]
    kept = {network: kept_weights(network, MODEL_PATH) for network in (WHOLE, AGAIN, MARKS)}
    scores = []
    for first, second in ((WHOLE, AGAIN), (WHOLE, WHOLE), (AGAIN, AGAIN)):
        weights = {WHOLE: kept[first], AGAIN: kept[second], MARKS: kept[MARKS]}
        model = Inference(as_onnx(weights).SerializeToString())
        scores.append(np.asarray(model.run(patches=patches)[0]))
    both, one, other = scores
    assert np.abs(one - other).max() > 0.1
    assert np.allclose(both, (one + other) / 2, atol=0.01)
