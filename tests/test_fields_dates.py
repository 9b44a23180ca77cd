"""Days on which a ball was dyed, wound or packed, beside the lot."""

from __future__ import annotations

import pytest
from line_making import lines_from

from intake.fields.parse import parse
from intake.records import Field, State

TAG = ("Cable Ferry Spinnery", "50 g / 120 m", "80% wool 20% silk", "Shade: 014 Fern")


def lot_of(text: str) -> Field:
    return parse(tuple(lines_from(*TAG, text)), ())["lot"]


@pytest.mark.parametrize(
    ("text", "lot"),
    [
        ("Parti nr 2484/95 Farvedato 20-12-2026", "2484/95"),
        ("Lot: 5331/99 Dyed: 08-04-2025", "5331/99"),
        ("Col. 94.9 | Lot number: 482786 | Wound: 23-11-2027", "482786"),
        ("Partie-Nr. 4567/15 Färbetag 22-04-2023", "4567/15"),
        ("Bain 4567 date de teinture 22-04-2023", "4567"),
        ("Bagno 0417 tinto il 3.4.2024", "0417"),
        ("Färgbad 0417 packdatum 2024-04-03", "0417"),
    ],
)
def test_a_date_with_a_caption_of_its_own_is_no_part_of_the_lot_before_it(
    text: str, lot: str
) -> None:
    field = lot_of(text)
    assert field.value == lot
    assert field.state is State.SURE


@pytest.mark.parametrize("text", ["Lot 0417 Nordhag 7", "Lot 0417 Nordhag 12-04-2023"])
def test_a_word_that_announces_no_date_may_be_more_of_the_lot(text: str) -> None:
    assert lot_of(text).state is State.DOUBTFUL


@pytest.mark.parametrize("text", ["Lot Dyed: 08-04-2025", "Lot date: 08-04-2025"])
def test_the_date_of_a_lot_is_no_lot(text: str) -> None:
    assert lot_of(text).value is None


def test_the_caption_of_a_date_is_no_name_of_a_shade() -> None:
    text = "Farvebad 7472/3 - Farvenr. 788T - Farvet den 14/10/26"
    fields = parse(tuple(lines_from(*TAG[:3], text)), ())
    assert fields["shade"].value is None
    assert (fields["lot"].value, fields["lot"].state) == ("7472/3", State.SURE)
    stamped = parse(tuple(lines_from(*TAG[:3], "Kleurnr. 788", "Verfbad 7472", "Geverfd op")), ())
    assert stamped["shade"].state is State.MISSING
