"""How large pages and tags are shown to the line finder."""

from __future__ import annotations

import numpy as np

from intake.reading.base import Image, LineFinder, Quads
from intake.reading.seen_lines import PAGE_SIDE_PX, lines_of_tag

TAG = np.array([[100, 100], [1700, 100], [1700, 900], [100, 900]], np.float32)


class Told(LineFinder):
    """Notes at which size it was asked to look."""

    def __init__(self) -> None:
        self.asked: list[int | None] = []

    def find_lines(self, image: Image, longest_side_px: int | None = None) -> Quads:
        self.asked.append(longest_side_px)
        return rows(3, 20)


def rows(count: int, height_px: float, left_px: float = 200, top_px: float = 150) -> Quads:
    tops = top_px + 2 * height_px * np.arange(count)
    return np.array(
        [
            [
                [left_px, top],
                [left_px + 9 * height_px, top],
                [left_px + 9 * height_px, top + height_px],
                [left_px, top + height_px],
            ]
            for top in tops
        ],
        np.float32,
    )


def asked_for(page_px: tuple[int, int], seen: Quads, tag: Quads = TAG) -> list[int | None]:
    finder = Told()
    page, cut = np.zeros((*page_px, 3), np.uint8), np.zeros((816, 1632, 3), np.uint8)
    lines_of_tag(page, seen, tag, cut, finder)
    return finder.asked


def test_a_tag_of_large_print_is_shown_smaller_than_one_of_small_print() -> None:
    (large,) = asked_for((3000, 4000), rows(6, 40))
    (small,) = asked_for((3000, 4000), rows(6, 24))
    assert large is not None
    assert small is not None
    assert PAGE_SIDE_PX - 100 < large < small


def test_a_tag_of_which_little_was_seen_is_shown_as_large_as_is_of_use() -> None:
    assert asked_for((3000, 4000), rows(2, 40)) == [None]
    assert asked_for((3000, 4000), rows(0, 40)) == [None]


def test_a_small_level_page_is_not_looked_at_twice() -> None:
    finder = Told()
    tag = np.array([[20, 10], [620, 10], [620, 410], [20, 410]], np.float32)
    seen = rows(5, 20, left_px=60, top_px=50)
    found = lines_of_tag(
        np.zeros((450, 700, 3), np.uint8), seen, tag, np.zeros((412, 612, 3), np.uint8), finder
    )
    assert finder.asked == []
    assert np.allclose(found - seen, found[0, 0] - seen[0, 0])
    assert np.allclose(found[0, 0], [60 - (20 - 6), 50 - (10 - 6)])
