"""Pictures for tests are made as they are meant to be."""

from __future__ import annotations

from collections.abc import Callable

import cv2
import numpy as np
import pytest
from PIL import Image

from fixtures import shooting
from fixtures.shooting import Shot

Shoot = Callable[[Image.Image, np.random.Generator], Shot]

SHOOTS: list[Shoot] = [shooting.scan_shot, shooting.photo_shot, shooting.hard_photo_shot]


def tag() -> Image.Image:
    """A small tag with three lines of print."""
    return shooting.plain_card(24, np.random.default_rng(1)).crop((0, 0, 500, 420))


@pytest.mark.parametrize("shoot", SHOOTS)
def test_a_seed_fixes_the_picture(shoot: Shoot) -> None:
    one, again = (shoot(tag(), np.random.default_rng(7)) for _ in range(2))
    assert np.array_equal(np.asarray(one.image), np.asarray(again.image))
    other = shoot(tag(), np.random.default_rng(8))
    assert one.image.size != other.image.size or not np.array_equal(
        np.asarray(one.image), np.asarray(other.image)
    )


@pytest.mark.parametrize("seed", range(3))
def test_a_photographed_tag_lies_within_its_frame(seed: int) -> None:
    shot = shooting.photo_shot(tag(), np.random.default_rng(seed))
    width_px, height_px = shot.image.size
    low, high = shot.quads[0].min(axis=0), shot.quads[0].max(axis=0)
    assert (low >= -1).all()
    assert (high <= (width_px + 1, height_px + 1)).all()
    assert 0.34 < ((high - low) / (width_px, height_px)).max() < 0.96


def test_corners_start_at_the_top_left_of_the_print() -> None:
    # The upper third of this tag is blue, so the first two corners must lie in blue.
    flag = Image.new("RGBA", (600, 450), (240, 230, 200, 255))
    flag.paste((20, 40, 200, 255), (0, 0, 600, 150))
    for seed in range(4):
        shot = shooting.photo_shot(flag, np.random.default_rng(seed))
        image, quad = np.asarray(shot.image).astype(int), shot.quads[0]
        centre = quad.mean(axis=0)
        x, y = np.round(quad + 0.15 * (centre - quad)).astype(int).T
        blueness = image[y, x, 2] - image[y, x, 0]
        assert blueness[:2].min() > blueness[2:].max()


@pytest.mark.parametrize("seed", range(3))
def test_a_hard_photo_has_two_or_three_faults_of_different_families(seed: int) -> None:
    faults = shooting.hard_photo_shot(tag(), np.random.default_rng(seed)).faults
    assert len(faults) in (2, 3)
    for family in shooting.FAULT_FAMILIES:
        assert len(set(faults) & set(family)) <= 1


def test_tags_on_a_page_do_not_touch_and_stand_in_rows() -> None:
    tags = [tag().resize((300 + 20 * n, 260)) for n in range(9)]
    shot = shooting.flatbed_page_shot(tags, np.random.default_rng(2))
    assert len(shot.quads) == 9
    for at, one in enumerate(shot.quads):
        for other in shot.quads[at + 1 :]:
            assert cv2.intersectConvexConvex(one, other)[0] == 0
            one_centre, other_centre = one.mean(axis=0), other.mean(axis=0)
            is_below = other[:, 1].min() > one_centre[1]
            assert is_below or other_centre[0] > one_centre[0]


@pytest.mark.parametrize("count", [0, 25])
def test_a_page_holds_1_to_24_tags(count: int) -> None:
    with pytest.raises(ValueError, match="1 to 24 tags"):
        shooting.flatbed_page_shot([tag()] * count, np.random.default_rng(0))


def test_tags_too_large_for_any_page_are_refused() -> None:
    huge = Image.new("RGBA", (9000, 200), "white")
    with pytest.raises(ValueError, match="do not fit"):
        shooting.flatbed_page_shot([huge], np.random.default_rng(0), px_per_mm=12)
