"""One tag in two pictures is told from two balls of its lot by how it was cut and printed."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from fixtures import shooting
from fixtures.pairs import as_kept
from fixtures.prints import Run, run_of, tag_of_run
from intake.pictures.card_edges import card_edges
from intake.pictures.same_tag import Likeness, Verdict, judged, likeness, verdict

FLAT = Likeness(0.05, 0.1, 4, 0.05, 0.02, 0.0)
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


def test_another_ball_of_the_lot_is_another_tag(run: Run, scan: bytes) -> None:
    other = scanned(run, 2, 1)
    found = likeness(scan, other)
    assert found is not None
    assert found.edges_apart > 10 * FLAT.edges_apart
    assert judged(found) is Verdict.ANOTHER


def test_pictures_of_other_print_cannot_be_compared(run: Run, scan: bytes) -> None:
    other = run_of("tuning", 8, np.random.default_rng(6))
    assert likeness(scan, scanned(other, 1, 1)) is None
    assert verdict(scan, scanned(other, 1, 1)) is Verdict.UNSURE


def test_what_is_no_picture_is_told() -> None:
    with pytest.raises(ValueError, match="not a JPEG picture"):
        verdict(b"", b"no picture")


def test_a_card_that_ends_within_its_picture_has_four_edges() -> None:
    image = np.full((600, 900, 3), 240, np.uint8)
    image[8:590, 10:888] = (150, 120, 90)
    image[20:26] = image[8:590, 20:26] = 30  # rules are no edges
    edges = card_edges(image)
    assert len(edges) == 4
    corners = np.array([[10.0, 8.0], [888.0, 590.0]])
    for edge in edges:
        assert np.abs(edge.distances_px(corners)).min() < 1.0


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({}, Verdict.SAME),
        ({"edges_apart": 8.0, "worst_edge_apart": 12.0}, Verdict.UNSURE),
        ({"edges_apart": 8.0, "worst_edge_apart": 12.0, "print_apart": 6.0}, Verdict.ANOTHER),
        ({"edges_apart": 0.6, "worst_edge_apart": 0.8}, Verdict.UNSURE),
        ({"print_apart": 6.0}, Verdict.UNSURE),
        ({"bend": 3.0, "edges_apart": 15.0, "worst_edge_apart": 16.0}, Verdict.UNSURE),
        ({"sides": 0, "edges_apart": 0.0, "worst_edge_apart": 0.0}, Verdict.UNSURE),
    ],
    ids=[
        "alike",
        "cut otherwise",
        "cut and printed otherwise",
        "hardly otherwise",
        "printed otherwise",
        "bent",
        "edges unseen",
    ],
)
def test_the_cut_of_the_card_tells(changed: dict[str, float], said: Verdict) -> None:
    assert judged(replace(FLAT, **changed)) is said  # type: ignore[arg-type]
