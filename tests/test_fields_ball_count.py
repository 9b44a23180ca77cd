"""How many balls a tag is for: sure where its words leave no other meaning, else asked."""

from __future__ import annotations

from pathlib import Path

import PIL.Image
import PIL.ImageDraw
import PIL.ImageFont
import pytest
from line_making import lines_from

from intake.fields.parse import parse
from intake.records import Field, State
from intake.worker import read_picture

TAG = ("Quillstow Spinners", "Sluicegate", "75% wool 25% polyamide", "50 g = 210 m")


def balls_on(*texts: str, second: dict[int, str] | None = None) -> Field:
    return parse(lines_from(*texts, second=second), [])["balls"]


# Phrases as such packs are printed in nine languages; common practice, no source.
@pytest.mark.parametrize(
    ("text", "balls"),
    [
        ("Pack of 10", 10.0),
        ("10-pack", 10.0),
        ("Contains 3 skeins", 3.0),
        ("10er-Pack", 10.0),
        ("Inhalt: 10 Knäuel à 50 g", 10.0),
        ("Packung mit 5 Knäueln", 5.0),
        ("Lot de 10 pelotes", 10.0),
        ("Contenu: 5 pelotes", 5.0),
        ("Confezione da 10 gomitoli", 10.0),
        ("Contenuto 4 matasse", 4.0),
        ("Paquete de 10 ovillos", 10.0),
        ("Inhoud: 5 bollen", 5.0),
        ("Pak van 10 x 50 g", 10.0),
        ("Förpackning med 10 nystan", 10.0),
        ("Pakke med 10 nøster", 10.0),
        ("Indhold: 5 nøgler", 5.0),
        ("10 x 50 g = 500 g", 10.0),
        ("10 × 50 g = 500 g", 10.0),
    ],
)
def test_words_that_say_a_pack_are_sure(text: str, balls: float) -> None:
    read = balls_on(text, *TAG)
    assert (read.value, read.state) == (balls, State.SURE)


@pytest.mark.parametrize(
    ("text", "balls"),
    [
        ("x5", 5.0),
        ("× 5", 5.0),
        ("5x", 5.0),
        ("5 balls", 5.0),
        ("5 Knäuel", 5.0),
        ("5 pelotes", 5.0),
        ("5 gomitoli", 5.0),
        ("10 x 50 g", 10.0),
        ("10 x 50 g = 400 g", 10.0),
        ("Sold in packs of 10", 10.0),
        ("10 gomitoli per confezione", 10.0),
        ("im 10er-Pack", 10.0),
    ],
)
def test_words_that_may_mean_something_else_are_asked_about(text: str, balls: float) -> None:
    read = balls_on(*TAG, text)
    assert (read.value, read.state) == (balls, State.DOUBTFUL)
    assert text in read.reason or "may be what the tag is for" in read.reason
    assert "1" in read.others


@pytest.mark.parametrize(
    "text",
    [
        "50 g = 1 ball",
        "1 pelote de 50 g",
        "Pack of 100 g",
        "Packung 50 g",
        "Pullover Gr. 38: 10 Knäuel",
        "Sweater size 12 needs 9 balls",
        "6 x 4",
        "P.O. Box 10",
        "Quillstow 5",
        "x1",
        "x500",
        "4x4",
        "10 x 15 cm",
        "22 sts x 30 rows = 10 cm",
        "US 5",
    ],
)
def test_other_numbers_are_no_number_of_balls(text: str) -> None:
    read = balls_on(text, *TAG)
    assert (read.value, read.state) == (None, State.MISSING)
    assert not read.reason


def test_the_first_side_of_a_swatch_above_the_other_counts_no_balls() -> None:
    assert balls_on("10 x", "10 cm", *TAG) == Field("balls")
    assert balls_on("10 x", *TAG, "10 cm").state is State.DOUBTFUL


def test_a_tag_without_a_number_is_not_asked_about() -> None:
    assert balls_on(*TAG) == Field("balls")


@pytest.mark.parametrize(
    ("text", "other"), [("Pack of 10", "Pack of 16"), ("10 x 50 g = 500 g", "1O x 50 g = 500 g")]
)
def test_readers_that_differ_by_a_letter_are_asked_about(text: str, other: str) -> None:
    read = balls_on(text, *TAG, second={0: other})
    assert (read.value, read.state) == (10.0, State.DOUBTFUL)
    assert "readers differ" in read.reason


def test_two_numbers_are_asked_about() -> None:
    read = balls_on("Pack of 10", *TAG, "Contents: 5 balls")
    assert read.state is State.DOUBTFUL
    assert {"10", "5", "1"} <= {f"{read.value:g}", *read.others}


def test_the_same_number_in_two_languages_is_one() -> None:
    read = balls_on("Pack of 10", "Lot de 10 pelotes", *TAG)
    assert (read.value, read.state) == (10.0, State.SURE)


def test_grams_and_metres_stay_those_of_one_ball() -> None:
    fields = parse(lines_from("10 x 50 g = 500 g", *TAG), [])
    assert (fields["mass_g"].value, fields["length_m"].value) == (50.0, 210.0)


def test_the_lot_of_a_pack_is_not_the_number_behind_the_french_word_for_one() -> None:
    fields = parse(lines_from(*TAG, "Lot de 10 pelotes", "Bain 0012"), [])
    assert fields["lot"].value == "0012"
    assert fields["balls"].value == 10.0


@pytest.mark.parametrize("lot", ["X5", "5X"])
def test_a_lot_that_looks_like_a_number_of_balls_stays_a_lot(lot: str) -> None:
    fields = parse(lines_from(*TAG, "Lot", lot), [])
    assert fields["lot"].value == lot
    assert fields["balls"].state is State.MISSING


def test_a_number_written_behind_a_lot_is_never_filed_as_part_of_it() -> None:
    fields = parse(lines_from(*TAG, "Shade 041 Kelp", "Lot 0012 x5"), [])
    assert fields["lot"].state is not State.SURE or fields["lot"].value == "0012"


def test_a_number_at_the_end_of_one_line_counts_no_balls_of_the_next() -> None:
    assert balls_on("Lot 12", "Ball band", *TAG).state is State.MISSING


@pytest.mark.slow
@pytest.mark.parametrize(
    ("text", "state"), [("Lot de 10 pelotes", State.SURE), ("x10", State.DOUBTFUL)]
)
def test_a_number_is_read_from_a_picture(text: str, state: State, tmp_path: Path) -> None:
    image = PIL.Image.new("RGB", (1400, 1000), (120, 110, 100))
    pen = PIL.ImageDraw.Draw(image)
    pen.rectangle((100, 80, 1300, 920), fill=(250, 250, 245))
    font = PIL.ImageFont.load_default(46)
    for row, line in enumerate((*TAG, text, "Shade 041 Kelp", "Lot 0012")):
        pen.text((160, 130 + 95 * row), line, (20, 20, 30), font)
    image.save(tmp_path / "tag.png")
    (tag,) = read_picture(tmp_path / "tag.png").tags
    assert (tag.fields["balls"].value, tag.fields["balls"].state) == (10.0, state)
    assert tag.fields["lot"].value == "0012"
