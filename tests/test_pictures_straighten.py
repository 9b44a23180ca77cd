"""A tag is cut out straight and at full resolution."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt
import pytest
from skimage.transform import ProjectiveTransform, warp

from intake.pictures.straighten import cut_out, moved_onto_cut

Pixels = npt.NDArray[np.uint8]


def checks(width_px: int, height_px: int) -> Pixels:
    """A chequered card whose four corners have colours of their own."""
    y, x = np.mgrid[0:height_px, 0:width_px]
    grey = np.where((x // 20 + y // 20) % 2, 210, 60).astype(np.uint8)
    card = np.repeat(grey[..., None], 3, axis=2)
    card[:20, :20] = (255, 0, 0)
    card[:20, -20:] = (0, 255, 0)
    card[-20:, -20:] = (0, 0, 255)
    return card


def seen_from_the_side(card: Pixels, quad: npt.NDArray[np.float32]) -> Pixels:
    """The card in perspective, drawn by scikit-image as an independent check."""
    height_px, width_px = card.shape[:2]
    corners = np.array([[0, 0], [width_px, 0], [width_px, height_px], [0, height_px]])
    back = ProjectiveTransform.from_estimate(quad, corners)
    picture = warp(card, back, output_shape=(500, 600), cval=0.5, preserve_range=False)
    return (picture * 255).astype(np.uint8)


def test_perspective_is_undone() -> None:
    card = checks(300, 200)
    quad = np.array([[120, 80], [430, 110], [460, 330], [100, 300]], np.float32)
    cut = cut_out(seen_from_the_side(card, quad), quad)
    rim_px = round(0.01 * max(np.linalg.norm(quad - np.roll(quad, -1, axis=0), axis=1)))
    inner = cut[rim_px:-rim_px, rim_px:-rim_px]
    assert np.abs(cv2.resize(inner, (300, 200)).astype(int) - card).mean() < 15
    for corner, colour in (((8, 8), 0), ((8, -8), 1), ((-8, -8), 2)):
        assert inner[corner].argmax() == colour


def test_resolution_is_kept() -> None:
    quad = np.array([[10, 10], [410, 30], [400, 330], [20, 300]], np.float32)
    height_px, width_px = cut_out(np.zeros((400, 500, 3), np.uint8), quad).shape[:2]
    assert width_px >= 400
    assert height_px >= 300


def test_an_upright_quad_is_cut_without_change() -> None:
    image = np.random.default_rng(0).integers(0, 256, (200, 300, 3), dtype=np.uint8)
    whole = np.array([[0, 0], [300, 0], [300, 200], [0, 200]], np.float32)
    assert np.array_equal(cut_out(image, whole), image)
    part = np.array([[50, 40], [150, 40], [150, 90], [50, 90]], np.float32)
    assert np.array_equal(cut_out(image, part), image[39:91, 49:151])


def test_print_in_the_corner_order_of_the_quad_stands_upright() -> None:
    card = checks(300, 200)
    upside_down = np.array([[300, 200], [0, 200], [0, 0], [300, 0]], np.float32)
    cut = cut_out(card, upside_down)
    assert cut[10, 10].argmax() == 2


def test_a_quad_without_area_is_refused() -> None:
    with pytest.raises(ValueError, match="no area"):
        cut_out(np.zeros((9, 9, 3), np.uint8), np.zeros((4, 2), np.float32))


def test_boxes_move_with_the_print_that_is_cut_out() -> None:
    image = np.zeros((200, 300, 3), np.uint8)
    image[80:90, 120:180] = 255
    box = np.array([[[120, 80], [180, 80], [180, 90], [120, 90]]], np.float32)
    for quad in (
        np.array([[60, 40], [260, 40], [260, 160], [60, 160]], np.float32),
        np.array([[60, 50], [250, 30], [270, 150], [70, 170]], np.float32),
    ):
        cut, moved = cut_out(image, quad), moved_onto_cut(box, quad)[0]
        middle = moved.mean(axis=0).round().astype(int)
        assert cut[middle[1], middle[0]].min() > 200
        outside = (moved[0] - 0.5 * (moved[2] - moved[0])).round().astype(int)
        assert cut[outside[1], outside[0]].max() < 50
