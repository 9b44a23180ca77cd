"""The symbols drawn for fitting and measuring: each manner is one of its own, and can be read."""

from __future__ import annotations

from dataclasses import replace

import cv2
import numpy as np
import pytest

from fixtures.care_symbols import DRAWN_PX, draw_symbol
from fixtures.symbol_clutter import _polygon
from fixtures.symbol_flaws import flawed
from fixtures.symbol_line_hands import LINE_HANDS
from fixtures.symbol_pen import Ink, Pen
from fixtures.symbol_samples import bare_look, hand_look, marked_look
from fixtures.symbol_styles import MANNERS, SymbolStyle, style_of
from intake.symbols.vocabulary import BASE_OF, Look

SIDE_PX = 80

LOOKS = (
    Look("wash 60"),
    Look("hand wash"),
    Look("oxygen bleach"),
    Look("iron medium"),
    Look("tumble high"),
    Look("line dry", shade=True),
    Look("drip line dry"),
    Look("clean P"),
    Look("iron", crossed=True),
    Look("weight 4"),
)


def style_with(thing: str, manner: str) -> SymbolStyle:
    """A style whose other manners are the first of each thing; dripping is told by three lines
    or so only where clothes hang in an arc."""
    style = style_of("tuning", np.random.default_rng(11))
    manners = {name: parts["tuning"][0] for name, parts in MANNERS.items()}
    if thing == "dripping":
        manners["hanging"] = "arc"
    return replace(style, manners=manners | {thing: manner}, solid=False, letter=1.0)


def drawings(style: SymbolStyle) -> list[Ink]:
    """All looks in ``style``, each from the same seed."""
    return [draw_symbol(look, style, SIDE_PX, np.random.default_rng(3)) for look in LOOKS]


@pytest.mark.parametrize("thing", [name for name in MANNERS if name != "degrees"])
def test_every_manner_is_drawn_otherwise_than_the_others(thing: str) -> None:
    manners = sorted(set(MANNERS[thing]["tuning"]))
    seen = {b"".join(ink.tobytes() for ink in drawings(style_with(thing, one))) for one in manners}
    assert len(seen) == len(manners)


@pytest.mark.parametrize("thing", ["hand", "print"])
def test_a_seed_draws_every_manner_alike(thing: str) -> None:
    for manner in MANNERS[thing]["tuning"]:
        style = style_with(thing, manner)
        for one, other in zip(drawings(style), drawings(style), strict=True):
            assert np.array_equal(one, other)


@pytest.mark.parametrize("manner", sorted(set(MANNERS["hand"]["tuning"]) | set(LINE_HANDS)))
@pytest.mark.parametrize("seed", range(4))
def test_a_hand_is_more_than_the_tub_it_reaches_into(manner: str, seed: int) -> None:
    style = replace(style_with("hand", manner), stroke=0.04)
    with_hand, tub = (
        draw_symbol(Look(kind), style, 160, np.random.default_rng(seed)).astype(int).sum()
        for kind in ("hand wash", "wash")
    )
    assert with_hand > 1.15 * tub


@pytest.mark.parametrize("flaw", ["spread", "worn", "broken"])
@pytest.mark.parametrize("look", LOOKS, ids=str)
def test_a_flawed_print_keeps_most_of_its_ink_and_leaves_paper(flaw: str, look: Look) -> None:
    ink = draw_symbol(look, style_with("print", ""), SIDE_PX, np.random.default_rng(3))
    spoilt = flawed(ink, flaw, np.random.default_rng(5))
    assert 0.5 * ink.mean() * ink.size < spoilt.mean() * spoilt.size < 2.5 * ink.mean() * ink.size
    assert (spoilt < 40).mean() > 0.2


def test_no_polygon_among_clutter_is_as_round_as_a_ring() -> None:
    style = replace(style_with("ring", "round"), rounding=0.0, wobble=0.0, widening=1.0)
    for seed in range(60):
        rng = np.random.default_rng(seed)
        pen = Pen(DRAWN_PX, style, rng)
        _polygon(pen, rng)
        outlines, _ = cv2.findContours(pen.ink, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
        (outline,) = outlines
        _, radius = cv2.minEnclosingCircle(outline)
        assert cv2.contourArea(outline) < 0.9 * np.pi * radius**2


def test_marked_looks_are_told_by_small_marks_or_by_their_absence_under_a_cross() -> None:
    rng = np.random.default_rng(8)
    looks = [marked_look(rng) for _ in range(400)]
    unmarked = [look for look in looks if look.kind in ("wash", "hand wash", "iron", "tumble")]
    assert not unmarked
    rings = [look for look in looks if look.kind.startswith(("clean", "wet"))]
    assert all(look.crossed for look in rings if look.kind == "clean")
    assert {look.kind for look in rings if look.crossed} >= {"clean", "clean P", "wet clean W"}


def test_bare_looks_bear_no_marks_that_tell_a_number_dots_or_a_letter() -> None:
    rng = np.random.default_rng(8)
    looks = [bare_look(rng) for _ in range(400)]
    bases = {BASE_OF[look.kind] for look in looks}
    assert bases == {"circle", "dryer", "triangle", "square", "iron"}
    assert {look.kind for look in looks if BASE_OF[look.kind] != "square"} == {
        "clean", "tumble", "bleach", "iron",
    }  # fmt: skip
    assert any(look.crossed for look in looks)
    assert not any(look.bars for look in looks if look.crossed or look.kind != "clean")


def test_looks_with_hands_are_as_often_such_as_are_taken_for_hands() -> None:
    rng = np.random.default_rng(8)
    looks = [hand_look(rng) for _ in range(400)]
    assert {BASE_OF[look.kind] for look in looks} == {"tub"}
    by_hand = [look for look in looks if look.kind == "hand wash" and not look.crossed]
    crossed = [look for look in looks if look.crossed]
    assert 0.35 < len(by_hand) / len(looks) < 0.6
    assert 0.2 < len(crossed) / len(looks) < 0.5
    assert {"wash", "hand wash"} < {look.kind for look in crossed}


@pytest.mark.parametrize("manner", LINE_HANDS)
def test_a_hand_in_lines_is_held_otherwise_each_time_and_begins_above_the_rim(manner: str) -> None:
    style = replace(style_with("hand", manner), stroke=0.03)
    inks = [
        draw_symbol(Look("hand wash"), style, SIDE_PX, np.random.default_rng(seed))
        for seed in range(8)
    ]
    assert len({ink.tobytes() for ink in inks}) == len(inks)
    tub = draw_symbol(Look("wash"), style, SIDE_PX, np.random.default_rng(0))
    assert sum(ink.shape[0] > 1.05 * tub.shape[0] for ink in inks) >= 6
