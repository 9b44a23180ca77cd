"""Care symbols on a tag: found among other print, told apart, placed and in order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import cv2
import numpy as np
import pytest
from PIL import Image, ImageDraw, ImageFont

from fixtures.care_symbols import draw_symbol
from fixtures.symbol_samples import samples
from fixtures.symbol_styles import SymbolStyle, style_of
from intake.records import State
from intake.symbols.classify import classify
from intake.symbols.patch import Pixels
from intake.symbols.read import read_symbols
from intake.symbols.vocabulary import NO_SYMBOL, Look, processes_of

ROW = (
    Look("wash 30", bars=1),
    Look("bleach", crossed=True),
    Look("tumble", crossed=True),
    Look("dry flat"),
    Look("iron low"),
    Look("clean P"),
)
MEANT = [processes_of(look) for look in ROW]


def plain_style(seed: int = 7, frame: str = "", solid: bool = False) -> SymbolStyle:
    """A style drawn with a steady hand, in a typeface that the classifier never saw."""
    style = style_of("unseen", np.random.default_rng(seed))
    manners = {**style.manners, "frame": frame}
    return replace(style, manners=manners, solid=solid, wobble=0.0, stroke=0.055)


def tag_with(
    looks: Sequence[Look], style: SymbolStyle, side_px: int, *, dark: bool = False
) -> Pixels:
    """A tag of three lines of words with the symbols in a row between them."""
    rng = np.random.default_rng(5)
    inks = [draw_symbol(look, style, side_px, rng) for look in looks]
    gap_px = side_px // 3
    width = sum(ink.shape[1] + gap_px for ink in inks) + 4 * side_px
    mask = np.zeros((8 * side_px, max(width, 12 * side_px)), np.uint8)
    x = 2 * side_px
    for ink in inks:
        y = 4 * side_px - ink.shape[0] // 2
        mask[y : y + ink.shape[0], x : x + ink.shape[1]] = ink
        x += ink.shape[1] + gap_px
    words = Image.fromarray(mask)
    type_ = ImageFont.load_default(max(10, side_px // 3))
    for line, text in ((1, "Invented wool for a test"), (2, "100 g = 210 m"), (6, "Lot 0420")):
        ImageDraw.Draw(words).text((2 * side_px, line * side_px), text, font=type_, fill=255)
    paper, ink_level = (40, 240) if dark else (242, 35)
    share = np.asarray(words, np.float32)[..., None] / 255
    grey = paper * (1 - share) + ink_level * share
    noise = np.random.default_rng(1).normal(0, 3, grey.shape)
    blurred = cv2.GaussianBlur(np.repeat(grey + noise, 3, axis=2), (0, 0), 0.6)
    return np.clip(blurred, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("side_px", [20, 32, 60, 120, 220])
def test_a_row_is_read_at_any_size_from_20_pixels(side_px: int) -> None:
    read = read_symbols(tag_with(ROW, plain_style(), side_px), ())
    assert [one.processes for one in read] == MEANT


@pytest.mark.parametrize("frame", ["box", "round box", "tile", "round tile"])
def test_framed_symbols_are_read(frame: str) -> None:
    read = read_symbols(tag_with(ROW, plain_style(frame=frame), 64), ())
    assert [one.processes for one in read] == MEANT


def test_solid_symbols_are_read() -> None:
    read = read_symbols(tag_with(ROW, plain_style(solid=True), 64), ())
    assert [one.processes for one in read] == MEANT


def test_light_symbols_on_a_dark_card_are_read() -> None:
    read = read_symbols(tag_with(ROW, plain_style(), 64, dark=True), ())
    assert [one.processes for one in read] == MEANT


def test_symbols_are_placed_where_they_are_drawn() -> None:
    side_px = 60
    for one in read_symbols(tag_with(ROW, plain_style(), side_px), ()):
        (left, top), (right, bottom) = one.quad[0], one.quad[2]
        assert 0.6 * side_px < right - left < 1.5 * side_px
        assert top < 4 * side_px < bottom


def test_a_tag_without_symbols_has_none() -> None:
    assert read_symbols(tag_with((), plain_style(), 60), ()) == ()


def test_a_blank_card_has_none() -> None:
    assert read_symbols(np.full((300, 400, 3), 230, np.uint8), ()) == ()


def test_a_symbol_on_its_own_is_never_sure() -> None:
    read = read_symbols(tag_with(ROW[:1], plain_style(), 60), ())
    assert all(one.state is not State.SURE for one in read)


def test_symbols_in_styles_that_were_never_shown_are_told_apart() -> None:
    """These are spoilt worse than scans are and start at 20 pixels: 90 of 100 were right."""
    generators = (np.random.default_rng([7, number]) for number in range(40))
    drawn = [pair for rng in generators for pair in samples("unseen", rng)]
    verdicts = classify([patch for patch, _ in drawn])
    pairs = [(one, processes_of(look)) for one, (_, look) in zip(verdicts, drawn, strict=True)]
    symbols = [(one, meant) for one, meant in pairs if meant != NO_SYMBOL]
    clutter = [one for one, meant in pairs if meant == NO_SYMBOL]
    assert np.mean([one.processes == meant for one, meant in symbols]) >= 0.87
    assert np.mean([one.processes == NO_SYMBOL for one in clutter]) >= 0.9
