"""One tag in two pictures is told from two balls of its lot by how it was cut and printed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import cv2
import numpy as np
import pytest
from scipy import integrate, stats

from fixtures import shooting
from fixtures.fit_same_tag import recut
from fixtures.pairs import as_kept
from fixtures.prints import Run, run_of, tag_of_run
from intake.pictures.card_edges import Line, lines_along, side_grids, strips_of
from intake.pictures.cut_odds import Ends, cut_once_log_odds
from intake.pictures.edge_profile import Profile, edge_by_profile
from intake.pictures.hue_edges import edge_by_hue
from intake.pictures.keep import kept_pixels, tag_jpeg
from intake.pictures.laid_over import Overlay
from intake.pictures.print_shifts import Shifts, parted, print_shifts
from intake.pictures.same_tag import (
    Edge,
    Likeness,
    Verdict,
    _edges,
    judged,
    likeness,
    verdict,
)

Colour = tuple[float, float, float]


def cut_apart(*edges: float) -> dict[str, Any]:
    """A likeness whose edges are so far apart, from the top one clockwise."""
    ends = [Ends(each, each) for each in edges]
    return {"edges": tuple(Edge(side, each, each) for side, each in enumerate(ends))}


FLAT = Likeness(
    **cut_apart(0.05, 0.05, 0.1, 0.1), size=(1000, 600), print_apart=0.05, bend=0.0, unlike=0.0
)
"""As one flat tag compares in two good scans: thousandths of its longer side."""


@pytest.fixture(scope="module")
def run() -> Run:
    """A printing whose shade and lot come in a pass of their own."""
    drawn = run_of("tuning", 3, np.random.default_rng(5))
    return replace(drawn, one_pass=False, tight=False, clean=False)


def scanned(run: Run, tag: int, shot: int) -> bytes:
    """Scan ``shot`` of tag number ``tag`` of the run, as it is kept."""
    image = tag_of_run(run, np.random.default_rng([5, tag]))
    rng = np.random.default_rng([5, tag, shot])
    return as_kept(shooting.scan_shot(image, rng), False, rng)


def photographed(run: Run, tag: int, shot: int) -> bytes:
    image = tag_of_run(run, np.random.default_rng([5, tag]))
    rng = np.random.default_rng([5, tag, shot])
    return as_kept(shooting.photo_shot(image, rng, (0.8, 0.95)), False, rng)


@pytest.fixture(scope="module")
def scan(run: Run) -> bytes:
    return scanned(run, 1, 1)


def test_the_same_tag_in_another_light_is_one_tag(run: Run, scan: bytes) -> None:
    assert verdict(scan, photographed(run, 1, 2)) is Verdict.SAME


def test_the_same_tag_turned_or_half_hidden_is_no_other_ball(run: Run, scan: bytes) -> None:
    again = kept_pixels(scanned(run, 1, 2), "RGB")
    hidden = again.copy()
    hidden[:, hidden.shape[1] // 2 :] = (205, 160, 135)
    assert verdict(scan, tag_jpeg(np.ascontiguousarray(np.rot90(again)))) is not Verdict.ANOTHER
    assert verdict(scan, tag_jpeg(hidden)) is not Verdict.ANOTHER


def test_another_ball_of_the_lot_is_another_tag(run: Run, scan: bytes) -> None:
    other = scanned(run, 2, 1)
    found = likeness(scan, other)
    assert found is not None
    assert np.median(np.abs([edge.nearest for edge in found.edges])) > 1
    assert judged(found) is Verdict.ANOTHER


def test_pictures_of_other_print_cannot_be_compared(run: Run, scan: bytes) -> None:
    other = run_of("tuning", 8, np.random.default_rng(6))
    assert likeness(scan, scanned(other, 1, 1)) is None
    assert verdict(scan, scanned(other, 1, 1)) is Verdict.UNSURE


def test_what_is_no_picture_is_told() -> None:
    with pytest.raises(ValueError, match="not a JPEG picture"):
        verdict(b"", b"no picture")


def lines_on_sides(image: np.ndarray) -> list[list[Line]]:
    """The lines that may be edges, for each side of a picture."""
    grids = side_grids(image.shape[:2])
    return [lines_along(strip, max(image.shape)) for strip in strips_of(image, grids, np.eye(3))]


def depths_px(image: np.ndarray) -> list[list[float]]:
    """How far in from each side of a picture they lie."""
    reach = round(0.025 * max(image.shape))  # how far strips begin outside of the picture
    return [[sum(line.heights) / 2 - reach for line in side] for side in lines_on_sides(image)]


def test_a_card_that_ends_within_its_picture_has_four_edges() -> None:
    image = np.full((600, 900, 3), 240, np.uint8)
    image[8:590, 10:888] = (150, 120, 90)
    image[20:26] = image[8:590, 20:26] = 30  # rules are no edges
    found = depths_px(image)
    for side, depth in zip(found, (8, 12, 10, 10), strict=True):
        assert any(abs(each - (depth - 0.5)) < 0.5 for each in side)
    assert len(found[1]) == len(found[2]) == 1


def test_a_frame_printed_along_the_rim_is_no_edge_however_bold_or_unevenly_lit() -> None:
    image = np.full((600, 900, 3), 228.0)
    image[8:592, 10:890] = 240  # the card hardly differs from its ground
    image[20:580, 22:878] = 20
    image[23:577, 25:875] = 240
    image *= np.linspace(0.7, 1, 900)[None, :, None]
    found = depths_px(image.astype(np.uint8))
    for side, depth in zip(found, (8, 10, 8, 10), strict=True):
        assert len(side) == 1
        assert abs(side[0] - (depth - 0.5)) < 0.5


@pytest.mark.parametrize(("inset", "sides"), [((0, 0), 4), ((6, -6), 4), ((12, 12), 2)])
def test_a_card_that_seems_larger_was_not_cut_otherwise(inset: tuple[int, int], sides: int) -> None:
    """What lies further out on both of two opposite sides is another line than the card's edge:
    1.3 % of the longer side each, when a cut that strays moves both the same way."""
    top, bottom = inset
    one, other = (np.full((600, 900, 3), 60, np.uint8) for _ in range(2))
    one[8:592, 10:890] = other[8 + top : 592 - bottom, 10:890] = 240
    over = Overlay(one, other, np.eye(3), *(np.zeros((600, 900), np.float32),) * 2, one[..., 0] > 0)
    assert len(_edges(over, np.eye(3))) == sides


def test_the_edge_of_white_card_on_a_white_lid_is_seen_in_the_noise() -> None:
    rng = np.random.default_rng(3)
    image = np.full((500, 900, 3), 246.0)
    image[12:488, 14:886] = 243
    image += rng.normal(0, 3, image.shape)
    found = depths_px(np.clip(image, 0, 255).astype(np.uint8))
    for side, depth in zip(found, (12, 14, 12, 14), strict=True):
        assert [each for each in side if abs(each - (depth - 0.5)) < 1]


def test_an_even_picture_has_no_edges() -> None:
    noise = np.random.default_rng(4).normal(200, 3, (500, 900, 3))
    assert lines_on_sides(noise.astype(np.uint8)) == [[], [], [], []]


def test_a_piece_of_print_that_moved_on_a_flat_card_is_no_bend() -> None:
    places = np.array([(x, y) for x in range(40, 900, 40) for y in range(30, 500, 30)], float)
    by_px = np.random.default_rng(2).normal(0, 0.1, places.shape)
    over = (places[:, 0] > 600) & (places[:, 1] > 250)
    by_px[over] += (4.0, -3.0)
    parts = parted(Shifts(places, by_px, 0.0), (500, 900))
    assert parts.bend == 0.0
    assert np.hypot(*parts.own[over].T).min() > 4
    assert np.hypot(*parts.own[~over].T).max() < 1


def test_much_print_that_moved_leaves_a_flat_card_flat() -> None:
    """Pictures are laid over each other by all their print: where a third of it moved and turned
    by itself, none lies in its place."""
    places = np.array([(x, y) for x in range(40, 900, 30) for y in range(30, 560, 30)], float)
    by_px = np.random.default_rng(2).normal(0, 0.08, places.shape)
    over = places[:, 1] > 380
    x, y = places[over].T
    by_px[over] += np.stack([3.0 - (y - 450) / 60, 2.5 + (x - 450) / 60], axis=1)
    laid, _ = cv2.findHomography(places + by_px, places, 0)
    by_px = cv2.perspectiveTransform((places + by_px)[None], laid)[0] - places
    assert np.hypot(*by_px[~over].T).max() > 1
    parts = parted(Shifts(places, by_px, 0.0), (600, 930))
    assert parts.bend == 0.0
    assert np.median(np.hypot(*parts.own[over].T)) > 2
    assert np.hypot(*parts.own[~over].T).max() < 0.5


def test_a_thread_across_a_rule_moves_no_print() -> None:
    """Where print is a straight rule alone nothing tells how far along it a piece belongs but what
    lies across it."""
    rule, word = np.zeros((300, 500), np.float32), np.zeros((300, 500), np.uint8)
    rule[:, 100:104] = -3
    cv2.putText(word, "Lot 4471", (230, 160), cv2.FONT_HERSHEY_SIMPLEX, 1.5, 3, 4)
    print_ = rule - word
    with_thread = print_.copy()
    cv2.line(with_thread, (0, 60), (200, 130), -3.0, 3)
    noise = np.random.default_rng(7).normal(0, 0.3, (2, 300, 500)).astype(np.float32)
    picture = np.zeros((300, 500, 3), np.uint8)
    seen = np.ones((300, 500), bool)
    over = Overlay(picture, picture, print_ + noise[0], with_thread + noise[1], np.eye(3), seen)
    shifts = print_shifts(over)
    assert shifts.places[:, 0].min() > 200
    assert np.hypot(*shifts.by_px.T).max() < 0.5


def test_print_on_a_bent_card_has_not_moved() -> None:
    places = np.array([(x, y) for x in range(40, 900, 40) for y in range(30, 500, 30)], float)
    away = (places[:, 0] - 450) / 450
    by_px = np.stack([3 * away**3, 4 * away**2], axis=1)
    parts = parted(Shifts(places, by_px, 0.0), (500, 900))
    assert parts.bend > 0.5
    assert np.hypot(*parts.own.T).max() < 1


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({}, Verdict.SAME),
        (cut_apart(0.05, 0.1, 0.1), Verdict.SAME),
        (cut_apart(0.05, 0.1, 0.1, 22.0), Verdict.UNSURE),
        (cut_apart(3.0, 4.0, 6.0, 8.0), Verdict.ANOTHER),
        (cut_apart(0.1, 0.2, 3.0, 4.0), Verdict.UNSURE),
        (cut_apart(0.7, 0.8, 0.8, 1.0), Verdict.UNSURE),
        (cut_apart(3.0) | {"print_apart": 6.0}, Verdict.UNSURE),
        (cut_apart(3.0, 4.0, 6.0, 8.0) | {"print_apart": 6.0}, Verdict.ANOTHER),
        ({"print_apart": 6.0}, Verdict.UNSURE),
        (cut_apart(8.0, 8.0, 9.0, 15.0) | {"bend": 3.0}, Verdict.UNSURE),
        ({"bend": 3.0}, Verdict.UNSURE),
        (cut_apart(), Verdict.UNSURE),
        (cut_apart(0.05, 0.05), Verdict.UNSURE),
    ],
    ids=[
        "alike",
        "three edges alike",
        "one edge mistaken",
        "cut otherwise",
        "half of it cut otherwise",
        "hardly otherwise",
        "an edge and print otherwise",
        "cut and printed otherwise",
        "printed otherwise",
        "bent, cut otherwise",
        "bent, cut alike",
        "edges unseen",
        "two edges",
    ],
)
def test_the_cut_of_the_card_tells(changed: dict[str, Any], said: Verdict) -> None:
    assert judged(replace(FLAT, **changed)) is said


def moved_as_one(right: float, down: float, turned: float) -> dict[str, Any]:
    """A likeness of cards in whose cut the print lies so much further: thousandths and, at the
    corners of the longer sides, what a turn makes."""
    height, width = 0.6 * turned, turned
    ends = (
        Ends(down - width, down + width),
        Ends(-right - height, -right + height),
        Ends(-down - width, -down + width),
        Ends(right - height, right + height),
    )
    return {"edges": tuple(Edge(side, each, each) for side, each in enumerate(ends))}


@pytest.mark.parametrize("moved", [(0.7, 0.0, 0.0), (0.0, 0.7, 0.0), (0.0, 0.0, 0.7)])
def test_print_that_lies_a_little_otherwise_in_its_cut_is_asked_about(
    moved: tuple[float, float, float],
) -> None:
    """0.07 mm on a tag of 10 cm: half the deviation of the best cutters, twice (common practice
    among printers, from memory, no source)."""
    assert judged(replace(FLAT, **moved_as_one(*moved))) is not Verdict.SAME


def test_an_edge_with_a_nick_at_one_end_is_still_alike() -> None:
    nicked = Ends(0.41, -0.77)
    edges = (*FLAT.edges[:3], Edge(3, nicked, nicked))
    assert judged(replace(FLAT, edges=edges)) is Verdict.SAME


def test_odds_are_those_of_the_densities_of_students_t() -> None:
    """Against scipy's densities and quadrature, for a side alone, which may have moved and turned:
    the same model written down anew."""
    ends, width = Ends(0.3, 0.5, error=0.1), 1000.0
    height, tilt = 0.4, 0.1
    moves, turns = np.linspace(-5, 5, 801)[:, None], np.linspace(-0.008, 0.008, 801)
    shares = stats.norm.pdf(moves, scale=1.2) * stats.norm.pdf(turns, scale=0.002)

    def strayed(high: float, tilted: float) -> float:
        return float(np.prod(stats.t.pdf((height, tilt), 3, scale=(high, tilted))))

    spoilt = 0.05 * strayed(0.4, 0.35) + 0.02 * strayed(2.0, 1.5)
    once = moved = 0.0
    for error, share in {0.05: 0.25, 0.1: 0.5, 0.2: 0.25}.items():
        high, tilted = stats.t(3, scale=0.8 * error).pdf, stats.t(3, scale=0.6 * error).pdf
        grown = np.linspace(-2.5, 2.5, 201) * 0.6 * error  # all edges seem further out, or in
        of_grown = stats.norm.pdf(grown, scale=0.6 * error)
        of_grown /= integrate.simpson(of_grown, grown)

        def of_card(
            away: np.ndarray, high: Any = high, grown: Any = grown, of_grown: Any = of_grown
        ) -> np.ndarray:
            return integrate.simpson(high(away[..., None] - grown) * of_grown, grown)

        once += share * (0.93 * of_card(np.array(height)) * tilted(tilt) + spoilt)
        turned = 0.93 * tilted(tilt - turns * width * 0.42)
        there = of_card(height - moves[:, 0])[:, None] * turned + spoilt
        moved += share * integrate.simpson(integrate.simpson(there * shares, turns), moves[:, 0])
    loose = 0.15 * strayed(2.5, 1.2) + 0.15 * strayed(7.0, 2.5)
    expected = np.log(once / (0.7 * moved + loose))
    assert cut_once_log_odds([(0, ends)], (width, 600.0)) == pytest.approx(expected, abs=0.03)


def test_a_card_that_seems_larger_on_all_sides_was_seen_otherwise_not_cut_so() -> None:
    """A softer or a brighter picture moves all edges out, a cut that strays opposite ones alike."""
    larger, moved = (
        [(side, Ends(by, by)) for side, by in enumerate(heights)]
        for heights in ((0.25, 0.25, 0.25, 0.25), (0.25, 0.25, -0.25, -0.25))
    )
    size = (1000.0, 600.0)
    assert cut_once_log_odds(larger, size) > 3 + cut_once_log_odds(moved, size)


def test_edges_that_are_hardly_seen_make_no_ball() -> None:
    """White card on a white lid, as its shadow falls: a tag taken twice was seen so."""
    edges = (Ends(1.6, 1.5), Ends(0.4, 0.1), Ends(-2.7, -2.4), Ends(1.6, 1.6))
    seen, hardly = (
        replace(FLAT, edges=tuple(Edge(side, *(end._replace(error=error),) * 2)
                                  for side, end in enumerate(edges)))
        for error in (0.06, 0.6)
    )  # fmt: skip
    assert judged(seen) is Verdict.ANOTHER
    assert judged(hardly) is Verdict.UNSURE


def on_ground(
    ground: Colour, card: Colour, shadow: float, softness_px: float, blur_px: float = 0.8
) -> np.ndarray:
    """A card of 880 by 580 px on ground that it darkens around itself, a little further in than
    its own edges at ten pixels."""
    inside = np.zeros((600, 900), np.float32)
    inside[10:590, 10:890] = 1
    dark = shadow * cv2.GaussianBlur(inside, (0, 0), softness_px)[..., None]
    image = np.float32(ground) * (1 - dark) * (1 - inside[..., None])
    image = image + np.float32(card) * inside[..., None]
    noise = np.random.default_rng(6).normal(0, 2, image.shape)
    return np.clip(cv2.GaussianBlur(image, (0, 0), blur_px) + noise, 0, 255).astype(np.uint8)


def test_a_card_as_bright_as_its_ground_ends_where_its_shadow_begins() -> None:
    for side in depths_px(on_ground((225, 225, 225), (225, 225, 225), 0.5, 4.0)):
        assert side == [pytest.approx(9.5, abs=0.5)]


def test_the_edge_of_a_coloured_card_is_seen_past_its_shadow() -> None:
    bare, shaded = (
        on_ground((150, 190, 150), (190, 165, 120), shadow, 3.0) for shadow in (0.0, 0.6)
    )
    for side, other in zip(depths_px(bare), depths_px(shaded), strict=True):
        assert min(abs(depth - each) for depth in side for each in other) < 0.15


@pytest.mark.parametrize(("blur_px", "by_px"), [(0.8, 0.1), (1.2, 0.1), (1.8, 0.25)])
def test_a_shadow_takes_no_edge_with_it_however_soft_the_picture(
    blur_px: float, by_px: float
) -> None:
    """The steepest place lies 0.2, 0.3 and 0.4 px further out."""
    bare, shaded = (
        on_ground((150, 150, 150), (170, 170, 170), shadow, 3.0, blur_px) for shadow in (0.0, 0.3)
    )
    for side, other in zip(depths_px(bare), depths_px(shaded), strict=True):
        assert min(abs(depth - each) for depth in side for each in other) < by_px


@pytest.mark.parametrize("blur_px", [0.8, 1.2, 1.8])
def test_an_edge_is_seen_to_a_fraction_of_a_pixel_and_how_soft_it_is(blur_px: float) -> None:
    image = on_ground((150, 150, 150), (190, 190, 190), 0.0, 4.0, blur_px)
    reach = round(0.025 * max(image.shape))
    for strip in strips_of(image, side_grids(image.shape[:2]), np.eye(3)):
        ends = np.array([0.08, 0.92]) * strip.shape[1]
        found = edge_by_profile(strip, (reach + 8.5, reach + 9.0), ends)
        assert found is not None
        assert found.heights == pytest.approx((reach + 9.5, reach + 9.5), abs=0.1 * blur_px)
        assert found.blur_px == pytest.approx(blur_px, rel=0.35)


def test_an_edge_is_known_the_less_the_softer_and_the_fainter_it_is() -> None:
    clear = Profile((0.0, 0.0), blur_px=0.8, scatter_px=0.02)
    assert clear.error_px(60) < 0.06
    assert clear._replace(blur_px=1.9).error_px(60) > 3 * clear.error_px(60)
    assert clear.error_px(6) > 3 * clear.error_px(60)
    assert clear._replace(scatter_px=0.2).error_px(60) > 3 * clear.error_px(60)


def test_an_edge_that_lies_elsewhere_is_none_there() -> None:
    image = on_ground((150, 150, 150), (190, 190, 190), 0.0, 4.0)
    strip = strips_of(image, side_grids(image.shape[:2]), np.eye(3))[0]
    reach = round(0.025 * max(image.shape))
    assert edge_by_profile(strip, (reach + 5.0, reach + 5.0), np.array([72.0, 828.0])) is None


def test_hue_tells_an_edge_that_a_shadow_hides() -> None:
    image = on_ground((150, 190, 150), (142, 120, 95), 0.45, 3.0)
    strip = strips_of(image, side_grids(image.shape[:2]), np.eye(3))[0]
    reach = round(0.025 * max(image.shape))
    found = edge_by_hue(strip, (reach + 7.5, reach + 11.0), np.array([72.0, 828.0]))
    assert found is not None
    assert found[0] == pytest.approx((reach + 9.5, reach + 9.5), abs=0.2)


def test_grey_on_grey_has_no_hue() -> None:
    image = on_ground((200, 200, 200), (120, 120, 120), 0.4, 3.0)
    strip = strips_of(image, side_grids(image.shape[:2]), np.eye(3))[0]
    assert edge_by_hue(strip, (31.5, 31.5), np.array([72.0, 828.0])) is None


def test_a_tag_cut_again_has_moved_in_its_cut_and_is_not_seen_worse() -> None:
    again = recut(FLAT, np.random.default_rng(1))
    top, right, bottom, left = (
        (edge.nearest.first + edge.nearest.last - was.nearest.first - was.nearest.last) / 2
        for edge, was in zip(again.edges, FLAT.edges, strict=True)
    )
    assert (top, right) == pytest.approx((-bottom, -left))
    assert abs(top) > 0.05 or abs(right) > 0.05
    assert [edge.nearest.error for edge in again.edges] == [
        edge.nearest.error for edge in FLAT.edges
    ]
    assert judged(again) is not Verdict.SAME
