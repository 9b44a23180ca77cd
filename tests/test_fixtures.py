"""The invented tags: wide enough, split cleanly, and truthful about what they print."""

from __future__ import annotations

import csv
import subprocess
import sys
from collections import Counter
from itertools import combinations, pairwise
from pathlib import Path

import numpy as np
import pytest
import stdnum.ean
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from fixtures import sentences
from fixtures.barcodes import grouped, linear, square
from fixtures.care_words import CARE_ORDER, CARE_WORDS
from fixtures.catalogue import Ball, catalogue, pick_ball
from fixtures.codes import barcode_number
from fixtures.draw import composed_tag, main, on_white, tag_of
from fixtures.faces import FACES, Face, MissingFace, by_role, file_of
from fixtures.fibre_words import FIBRE_WORDS
from fixtures.languages import LANGUAGES
from fixtures.layouts import IN_ORDER, LAYOUTS, DrawnTag
from fixtures.measure_printed import report, score
from fixtures.press import Press
from fixtures.printed_lines import as_printed, printed_tag
from fixtures.shade_names import SHADE_NAMES
from fixtures.split import SPLITS, UNSEEN_FACES, UNSEEN_LAYOUTS, Split, faces_of, layouts_of
from intake.records import REPORTED_FIELDS
from intake.wording import value_from_text, value_text
from tests.line_making import lines_from

ROOT = Path(__file__).resolve().parent.parent
DEMO_PICTURES = ROOT / "demo_scans"
DEMO_TRUTH = ROOT / "fixtures" / "demo_truth.csv"
ROLES = ("body", "display", "stamp")
CODES_OF_TAGS = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ-/."
LETTERS_OF_NAMES = "".join(
    sorted({letter for names in SHADE_NAMES.values() for name in names for letter in name})
)
WRITTEN_ON_TAGS = CODES_OF_TAGS + LETTERS_OF_NAMES
TEXT_OF_TAGS = "°½¾·–ºß©" + LETTERS_OF_NAMES


def rng_of(seed: int) -> np.random.Generator:
    return np.random.default_rng(seed)


def balls(count: int) -> list[Ball]:
    return [pick_ball(rng_of(seed)) for seed in range(count)]


@pytest.fixture(scope="module")
def drawn() -> list[DrawnTag]:
    """Every layout of both splits, once, and some that are laid out at random."""
    try:
        by_hand = [
            tag_of(split, index, rng_of(index))
            for split in SPLITS
            for index in range(len(layouts_of(split)))
        ]
        return by_hand + [composed_tag(rng_of(seed)) for seed in range(30)]
    except MissingFace as missing:
        pytest.skip(str(missing))


def test_there_are_at_least_forty_layouts_forty_faces_and_sixty_makers() -> None:
    assert len(LAYOUTS) >= 40
    assert len(FACES) == len({face.name for face in FACES}) >= 40
    assert len({maker.name for maker in catalogue()}) >= 60
    assert len({name for names in SHADE_NAMES.values() for name in names}) >= 300


def test_the_catalogue_is_the_same_whenever_it_is_built() -> None:
    first = catalogue()
    catalogue.cache_clear()
    assert catalogue() == first


def test_the_split_leaves_no_layout_and_no_face_on_both_sides() -> None:
    assert set(LAYOUTS) >= UNSEEN_LAYOUTS
    assert {face.name for face in FACES} >= UNSEEN_FACES
    for part in (
        [{entry.name for entry in layouts_of(split)} for split in SPLITS],
        [{face.name for role in ROLES for face in faces_of(split, role)} for split in SPLITS],
    ):
        assert all(part)
        assert not any(one & other for one, other in combinations(part, 2))


@pytest.mark.parametrize("split", SPLITS)
def test_each_split_has_every_role_and_bare_and_dark_layouts(split: Split) -> None:
    assert all(faces_of(split, role) for role in ROLES)
    assert any(entry.bare for entry in layouts_of(split))
    assert any(entry.dark for entry in layouts_of(split))


def test_composed_tags_are_laid_out_each_in_its_own_way(drawn: list[DrawnTag]) -> None:
    composed = [tag for tag in drawn if tag.layout == "composed"]
    assert len({tag.image.size for tag in composed}) == len(composed)
    assert {tag.captioned for tag in composed} == {True, False}
    assert any("range" not in tag.truth for tag in composed)


def test_composed_tags_use_faces_of_the_tuning_split_alone(drawn: list[DrawnTag]) -> None:
    assert not {tag.face for tag in drawn if tag.layout == "composed"} & UNSEEN_FACES


def test_most_composed_tags_have_a_name_that_is_in_no_list(drawn: list[DrawnTag]) -> None:
    listed = {maker.name.casefold() for maker in catalogue()}
    composed = [tag for tag in drawn if tag.layout == "composed"]
    assert sum(tag.truth["maker"].casefold() not in listed for tag in composed) > len(composed) / 3


def test_composed_tags_are_refused_for_the_unseen_split(tmp_path: Path) -> None:
    with pytest.raises(SystemExit):
        main([str(tmp_path / "out"), "--split", "unseen", "--composed", "0.5"])


@pytest.mark.parametrize("symbology", ["EAN-13", "EAN-8", "UPC-A"])
@given(seed=st.integers(0, 2**32))
def test_barcode_numbers_have_a_check_digit_that_python_stdnum_accepts(
    symbology: str, seed: int
) -> None:
    assert stdnum.ean.is_valid(barcode_number(symbology, rng_of(seed)))


@pytest.mark.parametrize("symbology", ["EAN-13", "EAN-8", "UPC-A"])
def test_a_drawn_barcode_is_read_back_by_zxing(symbology: str) -> None:
    number = barcode_number(symbology, rng_of(5))
    try:
        block = linear(symbology, number, 10, by_role("body")[0])
    except MissingFace as missing:
        pytest.skip(str(missing))
    (found,) = zxingcpp.read_barcodes(np.array(on_white(block)))
    assert found.text.zfill(13) == number.zfill(13)
    assert grouped(symbology, number).replace(" ", "") == number


def test_a_drawn_qr_code_is_read_back_by_zxing() -> None:
    (found,) = zxingcpp.read_barcodes(np.array(on_white(square("https://tranvik.example/813"))))
    assert found.text == "https://tranvik.example/813"


def letters_of(file: str) -> set[int]:
    """The letters that the first face of a file has, as fontconfig tells them."""
    command = ["fc-query", "--index", "0", "--format", "%{charset}", file]
    listed = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    ranges = [[int(end, 16) for end in one.split("-")] for one in listed.split()]
    return {letter for one in ranges for letter in range(one[0], one[-1] + 1)}


@pytest.mark.parametrize("face", FACES, ids=lambda face: face.name)
def test_every_face_has_the_letters_it_must_print(face: Face) -> None:
    needed = {"stamp": CODES_OF_TAGS, "hand": WRITTEN_ON_TAGS}.get(face.role, TEXT_OF_TAGS)
    for bold in (False, True):
        try:
            letters = letters_of(file_of(face, bold))
        except MissingFace as missing:
            pytest.skip(str(missing))
        assert not [letter for letter in needed if ord(letter) not in letters]


def test_fibre_and_care_words_cover_every_language_and_every_range() -> None:
    for words in (*FIBRE_WORDS.values(), *CARE_WORDS.values()):
        assert set(words) == set(LANGUAGES)
    for maker in catalogue():
        for made in maker.ranges:
            assert sum(part.percent for part in made.fibre) == 100
            assert all((part.fibre, part.kind) in FIBRE_WORDS for part in made.fibre)
            assert all(process in CARE_WORDS for process in made.care)


def test_care_stands_in_the_order_of_the_truth_file() -> None:
    for ball in balls(50):
        said = value_from_text("care", sentences.care(ball, ("en",), rng_of(1)).truth["care"])
        assert isinstance(said, tuple)
        places = [CARE_ORDER.index(str(process)) for process in said]
        assert all(one < other for one, other in pairwise(places))


def test_the_truth_survives_the_way_through_the_text_form(drawn: list[DrawnTag]) -> None:
    for tag in drawn:
        assert set(tag.truth) <= set(REPORTED_FIELDS)
        for name, text in tag.truth.items():
            assert value_text(name, value_from_text(name, text)) == text


def test_yards_and_ounces_alone_become_metres_and_grams() -> None:
    """1 yd = 0.9144 m and 1 oz = 28.349523125 g: international agreement of 1959."""
    american = next(ball for ball in balls(2000) if ball.maker.country == "USA")
    metric = (str(american.range.length_m), str(american.range.mass_g))
    seen_imperial = False
    for seed in range(60):
        wording = sentences.measure(american, ("en",), rng_of(seed))
        line = " ".join(wording.lines).replace(sentences.TIE, " ")
        values = (wording.truth["length_m"], wording.truth["mass_g"])
        if " m" in line or "m/" in line:
            assert values == metric
            continue
        seen_imperial = True
        yards = next(float(word) for word in line.split() if word.isdigit() and int(word) > 12)
        assert float(values[0]) == pytest.approx(yards * 0.9144, abs=0.05)
        assert float(values[1]) == pytest.approx(american.range.mass_g, rel=0.03)
    assert seen_imperial


WITHOUT_LOT_AT_TIMES = (
    "tarn_band_unstamped",
    "tarn_tag_pasture",
    "heath_band_blank",
    "heath_tag_farm",
    "alp_band_unstamped",
    "alp_tag_farm",
    "grove_band_blank",
    "grove_tag_farm",
    "fen_band_unlotted",
    "fen_tag_farm",
    "cove_band_unmarked",
    "cove_tag_farm",
)
"""A box that nobody stamped, and wool that nobody dyed."""


def test_a_tag_always_says_lot_shade_and_who_made_it_or_what_it_is(drawn: list[DrawnTag]) -> None:
    for tag in drawn:
        assert tag.truth.get("maker") or tag.truth.get("range")
        assert tag.truth.get("lot") or tag.layout in WITHOUT_LOT_AT_TIMES
        assert tag.truth.get("shade") or tag.truth.get("shade_code")
        if not tag.captioned:
            assert tag.truth["shade"]
            assert tag.truth["shade_code"] != tag.truth["lot"]


def test_print_keeps_clear_of_the_edge(drawn: list[DrawnTag]) -> None:
    """A value that runs off the card would make the truth a lie."""
    for tag in drawn:
        pixels = np.array(tag.image)
        edge = np.concatenate([pixels[2, 20:-20], pixels[-3, 20:-20]])
        visible = edge[edge[:, 3] > 0][:, :3].astype(int)
        assert not len(visible) or np.ptp(visible, axis=0).max() <= 25, tag.layout


def test_the_order_of_layouts_does_not_hang_on_what_was_imported_first() -> None:
    shown = (
        "from fixtures.split import layouts_of; print([one.name for one in layouts_of('tuning')])"
    )
    orders = {
        subprocess.run(
            [sys.executable, "-c", first + shown], capture_output=True, text=True, check=True
        ).stdout
        for first in ("", "import fixtures.layouts_ware_tags, fixtures.layouts_boxes; ")
    }
    assert len(orders) == 1
    assert sorted(IN_ORDER) == sorted(LAYOUTS)


def test_the_same_seed_draws_the_same_tag() -> None:
    try:
        one, other = (tag_of("tuning", 3, rng_of(8)) for _ in range(2))
    except MissingFace as missing:
        pytest.skip(str(missing))
    assert one.truth == other.truth
    assert one.image.tobytes() == other.image.tobytes()


def demo_rows() -> list[dict[str, str]]:
    with DEMO_TRUTH.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_the_demo_has_a_truth_for_every_picture_and_stays_small() -> None:
    files = [path for path in DEMO_PICTURES.iterdir() if path.is_file()]
    assert {path.name for path in files} == {row["picture"] for row in demo_rows()}
    assert len(files) >= 24
    assert {path.suffix for path in files} >= {".jpg", ".png", ".webp", ".heic", ".tif", ".pdf"}
    assert sum(path.stat().st_size for path in files) < 6_000_000


def test_the_demo_speaks_all_nine_languages_and_has_a_page_of_twelve() -> None:
    rows = demo_rows()
    assert {row["languages"].split()[0] for row in rows} == set(LANGUAGES)
    assert Counter(row["picture"] for row in rows)["twelve_tags.jpg"] == 12


def test_barcodes_of_demo_scans_are_those_of_the_truth() -> None:
    """Read by zxing-cpp, which knows nothing of the truth file."""
    with_code = [row for row in demo_rows() if row["barcode"] and row["picture"].startswith("scan")]
    assert with_code
    for row in with_code:
        picture = Image.open(DEMO_PICTURES / row["picture"]).convert("RGB")
        (found,) = zxingcpp.read_barcodes(np.array(picture))
        assert found.text.zfill(13) == row["barcode"].zfill(13)


def test_lines_as_printed_lie_where_the_tag_prints_them() -> None:
    """Each line found by its colour has ink under it on the same tag printed in type."""
    for index in range(4):
        drawn, lines = printed_tag(np.random.default_rng([17, index]), index, 0.5)
        printed = as_printed(np.random.default_rng([17, index]), index, 0.5, Press)
        assert printed.image.size == drawn.image.size
        assert printed.truth == drawn.truth
        grey = np.asarray(printed.image.convert("L"), np.float32)
        assert len(lines) > 4
        for line in lines:
            xs, ys = zip(*line.quad, strict=True)
            under = grey[round(min(ys)) : round(max(ys)), round(min(xs)) : round(max(xs))]
            assert under.max() - under.min() > 50, line.text
        print_ = " ".join(line.text for line in lines).casefold()
        assert drawn.truth["maker"].casefold() in print_


def test_a_tag_that_is_not_read_is_scored_by_what_is_right_asked_and_sure() -> None:
    truth = {"maker": "Larkum Mills", "range": "Dew", "shade": "Heron", "lot": "88123"}
    said = ("Larkum Mills", "Range: Dew", "Shade Heron", "Lot 88123")
    right = score("swing", truth, lines_from(*said))
    assert right.right
    assert not right.sure_and_wrong
    wrong = score("swing", truth | {"lot": "88128"}, lines_from(*said))
    assert wrong.sure_and_wrong == (("lot", "88123", "88128"),)
    assert "wrong and sure, swing: lot '88123' for '88128'" in list(report([wrong], show=True))
