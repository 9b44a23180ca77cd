"""Lots that are printed in groups or called by a word stay as they are printed, and are asked."""

from __future__ import annotations

import pytest

from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import line_from, lines_from

MAKER = "Gale Orchard Spinners"
REST = ("50 g = 120 m", "100 % wool")


def lot_of(*texts: str) -> Field:
    return parse(lines_from(MAKER, "Windfall", "Shade 12 Moss", *texts, *REST), ())["lot"]


@pytest.mark.parametrize(
    "lot", ["31 004", "K7C 0419", "F 21 06", "1 445 02", "31 07 B", "1 - 07 - 334", "2 / 2022"]
)
def test_a_lot_in_groups_is_offered_as_it_is_printed(lot: str) -> None:
    found = lot_of(f"Partie: {lot}")
    assert (found.value, found.state) == (lot, State.DOUBTFUL)
    assert lot.split()[0] in found.others


def test_a_gap_that_one_reader_did_not_see_is_first_offered_closed() -> None:
    lines = lines_from(MAKER, "Windfall", "Shade 12 Moss", *REST)
    lines.append(line_from("Lot: 31 0046", 5, "Lot: 31x0046"))
    assert parse(lines, ())["lot"].value == "310046"


def test_a_lot_with_gaps_between_all_its_digits_is_first_offered_closed() -> None:
    assert lot_of("Lot: 2 2 7 4").value == "2274"


def test_a_letter_apart_behind_a_lot_belongs_to_it() -> None:
    found = lot_of("Partita 1184 A")
    assert (found.value, found.state) == ("1184 A", State.SURE)


def test_a_letter_apart_behind_two_digits_is_asked_about() -> None:
    found = lot_of("Dye lot: 19 F")
    assert (found.value, found.state) == ("19 F", State.DOUBTFUL)
    assert "19" in found.reason


def test_a_word_and_a_number_behind_the_caption_of_a_lot_are_no_shade() -> None:
    found = parse(lines_from(MAKER, "Windfall", "Lot: march-3", *REST), ())
    assert (found["lot"].value, found["lot"].state) == ("march-3", State.DOUBTFUL)
    assert (found["shade"].value, found["shade_code"].value) == (None, None)
