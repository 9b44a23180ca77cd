"""Fitting the classifier: patches cut out and seen anew, and the same model from the same seed."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pytest

from fixtures import symbol_samples
from fixtures.distort import distorted
from fixtures.symbol_patches import draw_patches
from fixtures.symbol_samples import samples
from intake.inference import Inference
from intake.records import Line
from intake.symbols.boxes import Box
from intake.symbols.drawings import Drawing, find_drawings
from intake.symbols.patch import MARKS_PX, PATCH_PX, Patch, Pixels, patch_of


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


def test_about_half_of_what_is_shown_is_cut_out_where_the_finder_sees_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    found: list[Box] = []
    cut: list[Box] = []

    def find(image: Pixels, lines: Sequence[Line]) -> list[Drawing]:
        drawings = find_drawings(image, lines)
        found.extend(drawing.box for drawing in drawings)
        return drawings

    def cut_out(image: Pixels, box: Box) -> Patch:
        cut.append(box)
        return patch_of(image, box)

    monkeypatch.setattr(symbol_samples, "find_drawings", find)
    monkeypatch.setattr(symbol_samples, "patch_of", cut_out)
    for number in range(6):
        symbol_samples.samples("tuning", np.random.default_rng([2, number]))
    where_found = [any(np.allclose(box, one) for one in found) for box in cut]
    assert 0.3 < np.mean(where_found) < 0.8


def test_kept_patches_are_those_that_would_be_drawn(tmp_path: Path) -> None:
    drawn = draw_patches("tuning", 3, 2)
    for _ in range(2):
        kept = draw_patches("tuning", 3, 2, kept=tmp_path)
        assert all(np.array_equal(*arrays) for arrays in zip(drawn, kept, strict=True))
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.slow
def test_the_same_seed_makes_the_same_model_byte_for_byte_in_one_go_or_two(tmp_path: Path) -> None:
    pytest.importorskip("torch")
    from fixtures.fit_symbols import main

    made = []
    for name in ("one", "other", "from first"):
        first, path = tmp_path / f"{name != 'one'}.pt", tmp_path / f"{name}.onnx"
        main(["--share", "0.003", "--first", str(first), "--out", str(path)])
        made.append(path.read_bytes())
    assert made[0] == made[1] == made[2]


@pytest.mark.slow
def test_the_file_says_what_the_network_says() -> None:
    torch = pytest.importorskip("torch")
    from fixtures.symbol_network import Network, as_onnx

    torch.manual_seed(5)
    network = Network()
    patches = np.stack([patch for patch, _ in samples("tuning", np.random.default_rng(6))])[:, None]
    seen = torch.from_numpy(patches)
    wholes, marks = seen[..., :PATCH_PX], seen[:, :, :MARKS_PX, PATCH_PX:]
    with torch.no_grad():
        for _ in range(20):  # so that there is something to fold
            network(wholes, marks)
        told = network.eval()(wholes, marks).numpy()
    for temperature in (1.0, 1.5):
        model = Inference(as_onnx(network, temperature).SerializeToString())
        (scores,) = model.run(patches=patches)
        assert np.allclose(scores, told / temperature, atol=0.02)
    assert told.std() > 0.1


@pytest.mark.slow
def test_a_network_that_is_taken_back_from_its_file_says_the_same_and_can_be_fitted_on() -> None:
    torch = pytest.importorskip("torch")
    from fixtures.symbol_network import Convolution, Network, as_onnx, from_onnx

    torch.manual_seed(5)
    network = Network()
    patches = np.concatenate(
        [
            np.stack([patch for patch, _ in samples("tuning", np.random.default_rng(seed))])
            for seed in range(6)
        ]
    )[:, None]
    seen = torch.from_numpy(patches)
    wholes, marks = seen[..., :PATCH_PX], seen[:, :, :MARKS_PX, PATCH_PX:]
    with torch.no_grad():
        for _ in range(60):  # so that there is something to fold
            network(wholes, marks)
        told = network.eval()(wholes, marks)
        again = from_onnx(as_onnx(network), wholes, marks)
        assert torch.allclose(again(wholes, marks), told, atol=0.02)
        again.drop.p = 0.0
        as_fitted = again.train()(wholes, marks)
    assert torch.allclose(as_fitted, told, atol=0.05)
    assert told.std() > 0.1
    norms = [one.norm for one in again.modules() if isinstance(one, Convolution)]
    assert all(float(one.running_var.std()) > 0 for one in norms)


@pytest.mark.slow
def test_a_model_in_8_bits_scores_as_it_did_and_can_be_fitted_on() -> None:
    torch = pytest.importorskip("torch")

    from fixtures.symbol_network import Network, as_onnx, in_8_bits, in_half_precision
    from intake.inference import Inference
    from intake.symbols.patch import MARKS_PX, PATCH_PX

    torch.manual_seed(7)
    model = as_onnx(Network().eval())
    small = in_8_bits(model)
    assert small.ByteSize() < 0.6 * model.ByteSize()
    patches = np.random.default_rng(3).random((4, 1, PATCH_PX, PATCH_PX + MARKS_PX), np.float32)
    scores = [
        Inference(one.SerializeToString()).run(patches=patches)[0]
        for one in (model, small, in_half_precision(small))
    ]
    assert np.abs(scores[0]).max() > 0.05
    assert np.allclose(scores[0], scores[1], atol=0.05 * np.abs(scores[0]).max())
    assert np.allclose(scores[1], scores[2], atol=0.01 * np.abs(scores[0]).max())


@pytest.mark.slow
def test_the_mean_of_two_models_has_the_mean_of_their_weights() -> None:
    torch = pytest.importorskip("torch")
    from onnx import numpy_helper

    from fixtures.symbol_network import Network, as_onnx, mean_of

    models = []
    for seed in (5, 6):
        torch.manual_seed(seed)
        models.append(as_onnx(Network().eval()))
    weights = [
        {one.name: numpy_helper.to_array(one) for one in model.graph.initializer}
        for model in (*models, mean_of(*models))
    ]
    for name in ("hidden.weight.half", "scores.bias", "whole.near.weight.half"):
        first, second, mean = (arrays[name].astype(np.float32) for arrays in weights)
        assert not np.allclose(first, second, atol=1e-3)
        assert np.allclose(mean, (first + second) / 2, atol=1e-3)
    assert np.array_equal(weights[0]["axes"], weights[2]["axes"])
