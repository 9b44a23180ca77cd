"""Symbols on a tag: found among other print, told apart, placed and in order."""

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
from intake.records import Line, State, Symbol, SymbolKind
from intake.symbols.boxes import bounds, quad_of
from intake.symbols.classify import Sense, classify
from intake.symbols.drawings import find_drawings
from intake.symbols.patch import Pixels
from intake.symbols.read import is_sure, read_symbols, without_symbols
from intake.symbols.row import Told
from intake.symbols.row_ends import pitch_of, stands_beside
from intake.symbols.squares import is_knitting
from intake.symbols.turned import read_both_ways
from intake.symbols.vocabulary import NO_SYMBOL, Look, meaning_of, processes_of
from tests.line_making import line_from

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


def test_an_iron_whose_handle_stands_apart_is_one_drawing() -> None:
    image = np.full((300, 500, 3), 240, np.uint8)
    sole = np.array([(200, 182), (216, 152), (276, 148), (290, 182)])
    cv2.fillPoly(image, [sole], (30, 30, 30))
    handle = np.array([(230, 140), (236, 124), (290, 124), (298, 156)])
    cv2.polylines(image, [handle], False, (30, 30, 30), 3)
    boxes = [one.box for one in find_drawings(image, ())]
    assert boxes == [pytest.approx((200, 122, 300, 183), abs=2)]


def test_a_small_iron_is_a_drawing_though_it_is_flat() -> None:
    image = np.full((200, 300, 3), 240, np.uint8)
    sole = np.array([(100, 113), (108, 100), (126, 98), (131, 113)])
    cv2.fillPoly(image, [sole], (30, 30, 30))
    boxes = [one.box for one in find_drawings(image, ())]
    assert boxes == [pytest.approx((100, 98, 132, 114), abs=2)]


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
    pairs = [(one, meaning_of(look)) for one, (_, look) in zip(verdicts, drawn, strict=True)]
    symbols = [(one, meant) for one, meant in pairs if meant != NO_SYMBOL]
    clutter = [one for one, meant in pairs if meant == NO_SYMBOL]
    assert np.mean([one.meaning == meant for one, meant in symbols]) >= 0.87
    assert np.mean([one.meaning == NO_SYMBOL for one in clutter]) >= 0.9


def skeins(symbols: Sequence[Symbol]) -> list[str]:
    return [one.weight_class for one in symbols if one.kind is SymbolKind.WEIGHT]


@pytest.mark.parametrize("manner", ["capsule", "banded", "twist", "oval", "loops"])
def test_the_number_in_a_skein_is_a_weight_class(manner: str) -> None:
    style = plain_style()
    style = replace(style, manners={**style.manners, "skein": manner})
    read = read_symbols(tag_with((Look("weight 4"),), style, 90), ())
    assert skeins(read) == ["medium"]


def test_a_skein_stands_beside_care_symbols() -> None:
    read = read_symbols(tag_with((*ROW, Look("weight 3")), plain_style(), 64), ())
    assert [one.processes for one in read if one.kind is SymbolKind.CARE] == MEANT
    assert skeins(read) == ["light"]


@pytest.mark.parametrize("text", ["4", "No. 4", "(4)"])
def test_a_number_without_a_skein_is_no_weight_class(text: str) -> None:
    image = np.full((300, 400, 3), 240, np.uint8)
    cv2.putText(image, text, (120, 170), cv2.FONT_HERSHEY_SIMPLEX, 2.0, (30, 30, 30), 4)
    assert skeins(read_symbols(image, ())) == []
    cv2.circle(image, (150, 150), 60, (30, 30, 30), 4)
    assert skeins(read_symbols(image, ())) == []


def swatch_tag(side_px: int) -> tuple[Pixels, list[Line]]:
    """A square on a card, and lines for a number below it and one far off."""
    image = np.full((500, 500, 3), 240, np.uint8)
    cv2.rectangle(image, (150, 150), (150 + side_px, 150 + side_px), (40, 40, 40), 3)
    x, y = 150 + side_px / 2, 150 + side_px + 25
    quad = ((x - 15, y - 10), (x + 15, y - 10), (x + 15, y + 10), (x - 15, y + 10))
    return image, [replace(line_from("22"), quad=quad)]


def test_a_square_with_a_number_beside_it_may_be_a_swatch() -> None:
    image, lines = swatch_tag(140)
    (square,) = read_symbols(image, lines)
    assert square.kind is SymbolKind.TENSION
    assert np.allclose(square.quad[0], (150, 150), atol=4)
    assert without_symbols(lines, [square]) == tuple(lines)


def test_a_square_beside_the_mass_of_the_ball_is_no_swatch() -> None:
    image, (number,) = swatch_tag(140)
    mass = replace(line_from("50 g / 120 m"), quad=number.quad)
    assert read_symbols(image, [mass]) == ()


def test_a_square_without_a_number_beside_it_is_none() -> None:
    image, _ = swatch_tag(140)
    assert read_symbols(image, ()) == ()


@pytest.mark.parametrize(("text", "kept"), [("XaP", False), ("Lot 0420 XaP", True)])
def test_letters_that_a_row_of_symbols_was_read_for_are_no_words(text: str, kept: bool) -> None:
    """The symbols stand apart, so that they cover less than half of the line."""
    symbols = [
        Symbol(("iron low",), 1.0, State.SURE, quad_of((left, 10.0, left + 40.0, 50.0)))
        for left in (300.0, 370.0, 440.0)
    ]
    left = 20.0 if kept else 290.0
    line = replace(line_from(text), quad=quad_of((left, 0.0, 490.0, 60.0)))
    assert bool(without_symbols([line], symbols)) is kept


def test_of_two_symbols_of_one_shape_none_is_sure() -> None:
    twice = (*ROW, Look("iron", crossed=True))
    read = read_symbols(tag_with(twice, plain_style(), 64), ())
    irons = [one for one in read if any("iron" in process for process in one.processes)]
    assert len(irons) == 2
    assert all(one.state is State.DOUBTFUL for one in irons)


def test_a_row_in_which_one_was_missed_between_two_is_not_sure() -> None:
    image = tag_with(ROW, plain_style(), 64)
    whole = read_symbols(image, ())
    (left, top), (right, bottom) = (whole[2].quad[at] for at in (0, 2))
    image[int(top) - 8 : int(bottom) + 8, int(left) - 8 : int(right) + 8] = image[4, 4]
    rest = read_symbols(image, ())
    assert [one.processes for one in rest] == [*MEANT[:2], *MEANT[3:]]
    assert not any(one.state is State.SURE for one in rest)
    assert any(one.state is State.SURE for one in whole)


def test_two_symbols_are_a_whole_row_unless_one_between_them_was_missed() -> None:
    pair = read_symbols(tag_with(ROW[:2], plain_style(), 64), ())
    assert [(one.processes, one.state) for one in pair] == [(one, State.SURE) for one in MEANT[:2]]
    image = tag_with(ROW[:3], plain_style(), 64)
    (left, top), (right, bottom) = (read_symbols(image, ())[1].quad[at] for at in (0, 2))
    image[int(top) - 8 : int(bottom) + 8, int(left) - 8 : int(right) + 8] = image[4, 4]
    assert not any(one.state is State.SURE for one in read_symbols(image, ()))


def with_second_row(image: Pixels, look: Look, frame: str, *, aside_px: int = 0) -> Pixels:
    """``image``, whose symbols are 64 pixels large, with one more below the first of its row."""
    alone = tag_with([look], plain_style(frame=frame), 64)
    image = image.copy()
    first = image[4 * 64 + 52 : 4 * 64 + 152, 2 * 64 - 30 + aside_px :][:, :160]
    first[:] = alone[4 * 64 - 50 : 4 * 64 + 50, 2 * 64 - 30 : 2 * 64 + 130]
    return image


@pytest.mark.parametrize("frame", ["", "tile"])
def test_one_symbol_that_is_left_for_a_second_row_is_sure_below_a_whole_one(frame: str) -> None:
    above = tag_with(ROW[:4], plain_style(frame=frame), 64)
    read = read_symbols(with_second_row(above, ROW[4], frame), ())
    assert [one.processes for one in read] == MEANT[:5]
    assert all(one.state is State.SURE for one in read)
    aside = read_symbols(with_second_row(above, ROW[4], frame, aside_px=50), ())
    assert aside[-1].state is State.DOUBTFUL


def test_a_square_of_tension_above_a_row_leaves_the_row_as_it_is() -> None:
    image = tag_with(ROW, plain_style(), 64)
    image = np.concatenate([np.full((200, image.shape[1], 3), image[4, 4], np.uint8), image])
    alone = read_symbols(image, ())
    cv2.rectangle(image, (128, 290), (258, 400), (35, 35, 35), 4)
    beside = read_symbols(image, ())
    assert [one.processes for one in beside] == [one.processes for one in alone] == MEANT
    assert [one.state for one in beside] == [one.state for one in alone]


def test_a_box_between_symbols_as_large_is_no_swatch_for_the_number_below_it() -> None:
    image = tag_with(ROW, plain_style(), 64)
    places = [bounds(one.quad) for one in read_symbols(image, ())]
    left, top, right, bottom = (round(side) for side in places[2])
    image[top - 4 : bottom + 5, left - 4 : right + 5] = image[4, 4]
    cv2.rectangle(image, (left, top), (left + bottom - top, bottom), (35, 35, 35), 4)
    cv2.putText(image, "%", (left + 10, bottom - 12), 0, 1.2, (35, 35, 35), 3)
    x, y = (left + right) / 2, bottom + 24
    quad = ((x - 15, y - 10), (x + 15, y - 10), (x + 15, y + 10), (x - 15, y + 10))
    found = read_symbols(image, [replace(line_from("0227"), quad=quad)])
    assert len(found) == len(ROW)
    assert all(one.kind is SymbolKind.CARE for one in found)
    assert found[2].state is State.DOUBTFUL


def test_knitting_is_part_of_its_square_and_a_framed_symbol_is_none() -> None:
    square = (112.0, 405.0, 277.0, 570.0)
    assert is_knitting((175.0, 453.0, 215.0, 496.0), square)
    assert not is_knitting((137.0, 430.0, 252.0, 545.0), square)
    assert not is_knitting((290.0, 453.0, 330.0, 496.0), square)


def test_a_heart_at_the_end_of_a_row_is_no_symbol() -> None:
    image = tag_with(ROW, plain_style(), 64)
    (_, top), (right, bottom) = (read_symbols(image, ())[-1].quad[at] for at in (0, 2))
    turn = np.linspace(0, 2 * np.pi, 60)
    x = 16 * np.sin(turn) ** 3
    y = 13 * np.cos(turn) - 5 * np.cos(2 * turn) - 2 * np.cos(3 * turn) - np.cos(4 * turn)
    middle = (int(right) + 55, int(top + bottom) // 2)
    heart = np.stack([middle[0] + 1.9 * x, middle[1] - 1.9 * y], axis=1).astype(np.int32)
    cv2.fillPoly(image, [heart], (35, 35, 35), cv2.LINE_AA)
    assert [one.processes for one in read_symbols(image, ())] == MEANT


def half_cut(image: Pixels, *, left: bool) -> Pixels:
    """``image`` without what lies beyond the middle of its first symbol or of its last; a
    little blank card stands in for what was cut off, as where a picture was turned."""
    seen = read_symbols(image, ())[0 if left else -1]
    middle = int(seen.quad[0][0] + seen.quad[1][0]) // 2
    kept = (image[:, middle:] if left else image[:, :middle]).copy()
    blank = np.s_[:, :5] if left else np.s_[:, -5:]
    kept[blank] = 242
    return kept


@pytest.mark.parametrize("left", [True, False])
@pytest.mark.parametrize("frame", ["", "tile"])
def test_a_row_that_goes_on_beyond_the_picture_is_not_sure(frame: str, left: bool) -> None:
    image = tag_with(ROW, plain_style(frame=frame), 64)
    assert all(one.state is State.SURE for one in read_symbols(image, ()))
    cut = read_symbols(half_cut(image, left=left), ())
    assert len(cut) >= 4
    assert not any(one.state is State.SURE for one in cut)


@pytest.mark.parametrize("left", [True, False])
def test_a_drawing_in_the_next_place_of_a_row_is_seen_though_it_was_not_taken_for_one(
    left: bool,
) -> None:
    image = tag_with(ROW, plain_style(), 64)
    boxes = [bounds(one.quad) for one in read_symbols(image, ())]
    rest, missed = (boxes[1:], boxes[0]) if left else (boxes[:-1], boxes[-1])
    assert stands_beside(image, rest, [], pitch_of(boxes))
    assert not stands_beside(image, rest, [missed], pitch_of(boxes))
    assert not stands_beside(image, boxes, [], pitch_of(boxes))


def test_the_ground_beside_a_card_cuts_no_row_off() -> None:
    image = tag_with(ROW, plain_style(), 64)
    right = int(read_symbols(image, ())[-1].quad[1][0]) + 40
    on_cloth = image[:, : right + 8].copy()
    weave = 110 + 50 * (np.indices(on_cloth[:, right:].shape[:2]).sum(axis=0) % 5 == 0)
    on_cloth[:, right:] = weave[..., None].astype(np.uint8)
    read = read_symbols(on_cloth, ())
    assert [one.processes for one in read] == MEANT
    assert all(one.state is State.SURE for one in read)


@pytest.mark.parametrize("frame", ["round box", "tile", "round tile"])
def test_a_dryer_that_is_seen_whole_in_its_frame_is_no_ring(frame: str) -> None:
    looks = (*ROW[:2], Look("tumble", crossed=True), Look("dry flat"), Look("iron", crossed=True))
    read = read_symbols(tag_with(looks, plain_style(frame=frame), 64), ())
    assert [one.processes for one in read] == [processes_of(look) for look in looks]
    assert all(one.state is State.SURE for one in read)


@pytest.mark.parametrize("frame", ["tile", "round tile"])
@pytest.mark.parametrize("side_px", [24, 32, 64])
def test_a_plain_ring_on_a_tile_is_never_surely_a_dryer(side_px: int, frame: str) -> None:
    looks = (Look("wash 30"), Look("oxygen bleach"), Look("clean"), Look("wet clean W"))
    read = read_symbols(tag_with(looks, plain_style(frame=frame), side_px), ())
    assert len(read) == 4
    assert not [one for one in read if "tumble dry" in one.processes and one.state is State.SURE]


@pytest.mark.parametrize(("seed", "side_px"), [(2, 34), (6, 40), (9, 40), (13, 34)])
def test_a_row_on_small_tiles_is_read_to_its_end(seed: int, side_px: int) -> None:
    style = replace(style_of("tuning", np.random.default_rng(seed)), solid=False, wobble=0.0)
    style = replace(style, manners={**style.manners, "frame": "tile"})
    assert len(read_symbols(tag_with(ROW, style, side_px), ())) == len(ROW)


@pytest.mark.parametrize(
    ("look", "confidence", "sure"),
    [
        (Look("iron low"), 0.98, True),
        (Look("iron low"), 0.96, False),
        (Look("wash", crossed=True), 0.995, False),
        (Look("wash", crossed=True), 0.9999, True),
        (Look("hand wash"), 0.993, False),
        (Look("hand wash"), 0.996, True),
        (Look("tumble low"), 0.98, False),
        (Look("tumble low", crossed=True), 0.98, True),
    ],
)
def test_tubs_and_dryers_that_bad_print_makes_of_others_ask_for_more_confidence(
    look: Look, confidence: float, sure: bool
) -> None:
    assert is_sure(Told(Sense("tub", processes_of(look), confidence, look), confidence)) is sure


def test_a_vat_drawn_for_the_dye_lot_is_no_tub_of_care() -> None:
    row, alone = tag_with(ROW, plain_style(), 64), tag_with([Look("hand wash")], plain_style(), 64)
    wide = np.full((alone.shape[0], row.shape[1], 3), 242, np.uint8)
    wide[:, : alone.shape[1]] = alone[:, : row.shape[1]]
    read = read_symbols(np.concatenate([row, wide]), ())
    assert [one.processes for one in read] == MEANT
    assert all(one.state is State.SURE for one in read)
    (vat,) = read_symbols(alone, ())
    assert vat.processes == ("hand wash",)


@pytest.mark.parametrize("on_its_head", [True, False])
def test_symbols_that_stand_on_their_head_beside_such_print_are_read(on_its_head: bool) -> None:
    image = tag_with(ROW, plain_style(), 64)
    shown = np.ascontiguousarray(image[::-1, ::-1])
    quad = ((200.0, 30.0), (60.0, 30.0), (60.0, 10.0), (200.0, 10.0))
    level = (quad[2], quad[3], quad[0], quad[1])
    lines = [replace(line_from("Partij 7020"), quad=quad if on_its_head else level)]
    found = read_both_ways(shown, lines)
    sure = [one.processes for one in found if one.state is State.SURE]
    assert (sorted(sure) == sorted(MEANT)) == on_its_head
    if on_its_head:
        (left, top), (right, bottom) = found[0].quad[0], found[0].quad[2]
        assert left > right > 0
        assert top > bottom > 0
