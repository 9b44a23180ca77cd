"""Every tag of a picture is found whole, and no print is lost.

Pictures are drawn, so the corners of each tag and of each line are known.  Most tests hand
the known lines over; the last ones use the real line finder.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image, ImageDraw, ImageFont
from rapidocr import RapidOCR

from fixtures import backgrounds, shooting
from intake.pictures.find import find_tags, in_reading_order

Points = npt.NDArray[np.float32]
Pixels = npt.NDArray[np.uint8]
Colour = tuple[int, int, int]

PAPER: Colour = (250, 246, 236)
INK: Colour = (30, 30, 50)
LINES = ("Ottermere Wools", "Sandling DK", "80 % wool, 20 % linen", "Shade 0417 Kelp", "Lot 00382")


@dataclass
class Drawn:
    """A drawn tag and the boxes of its lines, shape (n, 4, 2), in its own pixels."""

    tag: Image.Image
    lines: Points


@dataclass
class Scene:
    """A picture, the corners of its tags, and the boxes of the lines of each."""

    image: Pixels
    tags: list[Points]
    lines: list[Points]

    @property
    def all_lines(self) -> Points:
        return np.concatenate(self.lines)


def box(left: float, top: float, right: float, bottom: float) -> Points:
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom]], np.float32)


def write(
    card: Image.Image, texts: Sequence[str], left: int, top: int, size: int, ink: Colour
) -> list[Points]:
    pen = ImageDraw.Draw(card)
    font = ImageFont.load_default(size)
    boxes = []
    for row, text in enumerate(texts):
        at = (left, top + row * 1.6 * size)
        pen.text(at, text, font=font, fill=(*ink, 255))
        boxes.append(box(*pen.textbbox(at, text, font=font)))
    return boxes


def card(
    size: tuple[int, int] = (420, 300), paper: Colour = PAPER, ink: Colour = INK, text_px: int = 26
) -> Drawn:
    tag = Image.new("RGBA", size, (*paper, 255))
    return Drawn(tag, np.array(write(tag, LINES, 30, 30, text_px, ink)))


def stickered_card() -> Drawn:
    """A dark card with its own print, and a pale sticker with shade and lot."""
    tag = Image.new("RGBA", (420, 400), (40, 70, 60, 255))
    boxes = write(tag, LINES[:3], 30, 25, 28, (235, 235, 225))
    ImageDraw.Draw(tag).rectangle((40, 220, 330, 350), fill=(252, 252, 248, 255))
    boxes += write(tag, LINES[3:], 60, 240, 28, INK)
    return Drawn(tag, np.array(boxes))


def panelled_card() -> Drawn:
    """A card all of whose print stands in two panels."""
    tag = Image.new("RGBA", (640, 300), (120, 60, 50, 255))
    boxes = []
    for left, texts in ((30, LINES[:3]), (340, LINES[2:])):
        ImageDraw.Draw(tag).rectangle((left, 30, left + 270, 270), fill=(250, 248, 240, 255))
        boxes += write(tag, texts, left + 15, 60, 24, INK)
    return Drawn(tag, np.array(boxes))


def round_tag() -> Drawn:
    tag = Image.new("RGBA", (440, 440), (0, 0, 0, 0))
    ImageDraw.Draw(tag).ellipse((0, 0, 439, 439), fill=(*PAPER, 255))
    return Drawn(tag, np.array(write(tag, LINES, 95, 120, 24, INK)))


def laid(
    ground: backgrounds.Floats,
    placed: Sequence[tuple[Drawn, tuple[float, float], float]],
    tilt: tuple[float, float] = (0.0, 0.0),
) -> Scene:
    """Tags laid on a ground: each with its centre, its turn in degrees, and for all of
    them how far they lean away from the camera."""
    rng = np.random.default_rng(0)
    lean = np.eye(3, dtype=np.float32)
    lean[2, :2] = tilt
    tags, lines = [], []
    for drawn, centre, turn in placed:
        sheet = shooting.sheet_of(drawn.tag, 1.0)
        matrix = shooting.centred(sheet, lean @ shooting.spin(sheet, turn), centre)
        ground, corners = shooting.lay(ground, sheet, matrix, 0.3)
        tags.append(corners)
        lines.append(shooting.moved(drawn.lines.reshape(-1, 2), matrix).reshape(-1, 4, 2))
    picture = shooting.developed(shooting.grain(ground, 0.01, rng), 90)
    return Scene(np.asarray(picture), tags, lines)


def shift(x_px: float, y_px: float) -> Points:
    """What moves a matrix's target when added to it."""
    return np.array([[0, 0, x_px], [0, 0, y_px], [0, 0, 0]], np.float32)


def overlap(one: Points, other: Points) -> float:
    """Intersection over union of two convex quads."""
    shared, _ = cv2.intersectConvexConvex(one, other)
    return float(shared / (cv2.contourArea(one) + cv2.contourArea(other) - shared))


def holds(quad: Points, lines: Points) -> bool:
    return all(
        cv2.pointPolygonTest(quad, (float(x), float(y)), True) > -2 for x, y in lines.reshape(-1, 2)
    )


def check_found(scene: Scene, found: Sequence[Points], least_overlap: float = 0.9) -> None:
    assert len(found) == len(scene.tags)
    for quad, tag, lines in zip(found, scene.tags, scene.lines, strict=True):
        assert quad.shape == (4, 2)
        assert quad.dtype == np.float32
        assert overlap(quad, tag) > least_overlap
        assert holds(quad, lines)


Surface = Callable[[int, int, np.random.Generator], backgrounds.Floats]


@pytest.mark.parametrize("surface", backgrounds.SURFACES)
@pytest.mark.parametrize("turn", [7.0, 100.0, 215.0])
def test_a_tilted_card_is_found_on_any_ground(surface: Surface, turn: float) -> None:
    ground = surface(700, 900, np.random.default_rng(5))
    scene = laid(ground, [(card(), (430, 340), turn)], tilt=(3e-4, -2e-4))
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_light_print_on_a_dark_card_on_a_dark_table() -> None:
    ground = backgrounds.dark_table(700, 900, np.random.default_rng(2))
    dark = card(paper=(70, 45, 60), ink=(240, 235, 225))
    scene = laid(ground, [(dark, (430, 340), 20)])
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_a_white_card_on_a_white_lid() -> None:
    ground = np.full((700, 900, 3), 0.98, np.float32)
    scene = laid(ground, [(card(paper=(252, 252, 252)), (430, 340), 3)])
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_a_sticker_belongs_to_its_card() -> None:
    ground = backgrounds.woven(700, 900, np.random.default_rng(3))
    scene = laid(ground, [(stickered_card(), (430, 340), 12)])
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_panels_belong_to_their_card() -> None:
    ground = backgrounds.wood(700, 1000, np.random.default_rng(3))
    scene = laid(ground, [(panelled_card(), (480, 340), 9)], tilt=(1e-4, 1e-4))
    check_found(scene, find_tags(scene.image, scene.all_lines))


@pytest.mark.parametrize("drawn", [card(), stickered_card()])
def test_a_card_that_fills_the_picture_is_one_tag(drawn: Drawn) -> None:
    image = np.asarray(drawn.tag.convert("RGB"))
    (quad,) = find_tags(image, drawn.lines)
    assert holds(quad, drawn.lines)


def test_a_round_tag_is_framed_along_its_print() -> None:
    ground = backgrounds.knit(700, 900, np.random.default_rng(7))
    scene = laid(ground, [(round_tag(), (430, 340), 30)])
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_a_hard_shadow_across_card_and_ground() -> None:
    rng = np.random.default_rng(8)
    scene = laid(backgrounds.paper(700, 900, rng), [(card(), (430, 340), 15)])
    bright = scene.image.astype(np.float32) / 255
    shaded = shooting.hard_shadow(bright, scene.tags[0], 20, rng)
    image = np.asarray(shooting.developed(shaded, 90))
    check_found(scene, find_tags(image, scene.all_lines))


def test_separate_cards_come_in_rows_from_the_left() -> None:
    ground = backgrounds.knit(900, 1300, np.random.default_rng(4))
    places = [((300, 230), 5), ((920, 260), -8), ((320, 650), 11), ((900, 640), -3)]
    scene = laid(ground, [(card(), (float(x), float(y)), turn) for (x, y), turn in places])
    check_found(scene, find_tags(scene.image, scene.all_lines))


@pytest.mark.parametrize("count", [2, 4])
def test_cards_on_a_sheet_of_paper_are_separate(count: int) -> None:
    ground = backgrounds.wood(1100, 1500, np.random.default_rng(4))
    sheet = shooting.sheet_of(Image.new("RGBA", (1250, 900), (250, 250, 250, 255)), 1.0)
    ground, _ = shooting.lay(ground, sheet, shooting.spin(sheet, 1) + shift(750, 550), 0.3)
    coloured = card(paper=(210, 190, 120))
    places = [((450, 330), 5), ((1000, 340), -8), ((460, 740), 11), ((1010, 750), -3)]
    cards = [(coloured, (float(x), float(y)), float(turn)) for (x, y), turn in places]
    scene = laid(ground, cards[:count])
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_two_cards_side_by_side_are_not_taken_for_one() -> None:
    ground = np.full((600, 1100, 3), 0.06, np.float32)
    scene = laid(ground, [(card(), (320, 300), 1), (card(), (760, 300), -1)])
    check_found(scene, find_tags(scene.image, scene.all_lines))


def test_part_of_another_tag_at_the_edge_stays_out_of_the_tag() -> None:
    ground = backgrounds.wood(700, 1000, np.random.default_rng(6))
    scene = laid(ground, [(card(), (330, 340), 4), (card(), (960, 400), -5)])
    seen = scene.lines[1][scene.lines[1].max(axis=(1, 2)) < 1000]
    found = find_tags(scene.image, np.concatenate([scene.lines[0], seen]))
    assert overlap(found[0], scene.tags[0]) > 0.9
    assert holds(found[0], scene.lines[0])


def test_print_without_any_outline_is_kept_together() -> None:
    tag = card(paper=(255, 255, 255))
    image = np.full((700, 900, 3), 255, np.uint8)
    image[200:500, 240:660] = np.asarray(tag.tag.convert("RGB"))
    lines = tag.lines + np.float32([240, 200])
    (quad,) = find_tags(image, lines)
    assert holds(quad, lines)


def test_drawings_that_reach_beyond_the_print_stay_with_it_where_there_is_no_outline() -> None:
    tag = card(paper=(255, 255, 255))
    image = np.full((800, 1200, 3), 255, np.uint8)
    image[150:450, 400:820] = np.asarray(tag.tag.convert("RGB"))
    for x in range(120, 1100, 110):
        cv2.circle(image, (x, 520), 32, INK, 3, cv2.LINE_AA)
    (quad,) = find_tags(image, tag.lines + np.float32([400, 150]))
    assert holds(quad, box(88, 488, 1032, 552)[None])


def test_a_line_that_overshoots_the_card_is_not_cut() -> None:
    ground = backgrounds.knit(700, 900, np.random.default_rng(9))
    scene = laid(ground, [(card(), (430, 340), 0)])
    lines = scene.all_lines.copy()
    lines[2, 1:3, 0] = scene.tags[0][:, 0].max() + 25
    (quad,) = find_tags(scene.image, lines)
    assert holds(quad, lines)


def test_a_clear_card_is_found_though_its_print_was_missed() -> None:
    ground = backgrounds.knit(700, 900, np.random.default_rng(10))
    scene = laid(ground, [(card(), (430, 340), 25)])
    check_found(scene, find_tags(scene.image, np.empty((0, 4, 2), np.float32)))


def test_an_empty_table_holds_no_tag() -> None:
    ground = backgrounds.dark_table(700, 900, np.random.default_rng(1))
    image = (ground * 255).astype(np.uint8)
    assert find_tags(image, np.empty((0, 4, 2), np.float32)) == []


def test_a_blank_card_among_others_is_found() -> None:
    ground = backgrounds.wood(600, 1100, np.random.default_rng(11))
    scene = laid(ground, [(card(), (300, 300), 3), (card(), (800, 300), -6)])
    assert len(find_tags(scene.image, scene.lines[0])) == 2


@pytest.mark.parametrize("size_px", [(1, 1), (1, 400), (300, 2)])
def test_tiny_pictures_do_no_harm(size_px: tuple[int, int]) -> None:
    image = np.zeros((*size_px, 3), np.uint8)
    (quad,) = find_tags(image, np.float32([box(0, 0, 2, 2)]))
    assert np.isfinite(quad).all()


def test_boxes_without_area_are_passed_over() -> None:
    image = np.zeros((200, 300, 3), np.uint8)
    assert find_tags(image, np.full((2, 4, 2), 50, np.float32)) == []


def test_reading_order_goes_by_rows() -> None:
    places = [(50, 40), (200, 60), (400, 20), (40, 210), (230, 190)]
    quads = [box(x, y, x + 100, y + 100) for x, y in places]
    shuffled = [quads[at] for at in (3, 1, 4, 0, 2)]
    ordered = in_reading_order(shuffled)
    assert [tuple(quad[0]) for quad in ordered] == places


def test_a_large_photo_takes_little_time() -> None:
    ground = backgrounds.wood(750, 1000, np.random.default_rng(12))
    scene = laid(ground, [(card(), (480, 370), 14)])
    image = np.asarray(cv2.resize(scene.image, (4000, 3000)), np.uint8)
    scene.tags, scene.lines = [scene.tags[0] * 4], [scene.lines[0] * 4]
    start = time.process_time()
    found = find_tags(image, scene.all_lines)
    assert time.process_time() - start < 1.0
    check_found(scene, found)


def test_twenty_four_cards_come_in_reading_order() -> None:
    rng = np.random.default_rng(13)
    ground = np.full((1500, 1300, 3), 0.97, np.float32)
    papers: list[Colour] = [(252, 252, 252), (60, 50, 70), (220, 190, 120), (170, 200, 180)]
    cards = [
        card((280, 190), papers[n % 4], PAPER if n % 4 == 1 else INK, text_px=18) for n in range(24)
    ]
    places = [(170.0 + 310 * (n % 4), 130.0 + 245 * (n // 4)) for n in range(24)]
    turns = rng.uniform(-4, 4, size=24)
    scene = laid(ground, list(zip(cards, places, turns, strict=True)))
    check_found(scene, find_tags(scene.image, scene.all_lines))


# With the real line finder


@pytest.fixture(scope="module")
def find_lines() -> Callable[[Pixels], Points]:
    engine = RapidOCR(
        params={
            "Global.log_level": "error",
            "EngineConfig.onnxruntime.intra_op_num_threads": 1,
        }
    )

    def found(image: Pixels) -> Points:
        boxes = engine(np.ascontiguousarray(image[..., ::-1]), use_cls=False, use_rec=False).boxes
        return np.zeros((0, 4, 2), np.float32) if boxes is None else np.asarray(boxes, np.float32)

    return found


@pytest.mark.parametrize("shoot", [shooting.scan_shot, shooting.photo_shot])
@pytest.mark.parametrize("seed", [1, 2])
def test_shot_tags_are_found(
    find_lines: Callable[[Pixels], Points],
    shoot: Callable[[Image.Image, np.random.Generator], shooting.Shot],
    seed: int,
) -> None:
    shot = shoot(card(size=(600, 440), text_px=40).tag, np.random.default_rng(seed))
    image = np.asarray(shot.image)
    (quad,) = find_tags(image, find_lines(image))
    assert overlap(quad, shot.quads[0]) > 0.85


@pytest.mark.slow
def test_a_full_page_comes_in_reading_order(find_lines: Callable[[Pixels], Points]) -> None:
    rng = np.random.default_rng(3)
    papers: list[Colour] = [(250, 250, 250), (60, 50, 70), (220, 190, 120), (170, 200, 180)]
    tags = [
        card(size=(480, 330), paper=papers[n % 4], ink=INK if n % 4 != 1 else PAPER).tag
        for n in range(24)
    ]
    shot = shooting.flatbed_page_shot(tags, rng)
    image = np.asarray(shot.image)
    found = find_tags(image, find_lines(image))
    assert len(found) == 24
    assert all(overlap(quad, tag) > 0.9 for quad, tag in zip(found, shot.quads, strict=True))
