"""Tension that is printed about a drawn square."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.fields.amounts.swatches import drawn_counts
from intake.records import Line, Quad, State, Symbol, SymbolKind
from tests.line_making import line_from


def quad(left: float, top: float, right: float, bottom: float) -> Quad:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


SQUARE = Symbol((), 1.0, State.SURE, quad(200, 200, 400, 400), SymbolKind.TENSION)
PLACES = {
    "below": (300, 440),
    "above": (300, 160),
    "left": (150, 300),
    "right": (450, 300),
    "inside": (300, 300),
    "under all": (300, 480),
    "far off": (800, 800),
}


def at(place: str, text: str, second: str | None = None) -> Line:
    """A line of ``text`` about a place of the square."""
    x, y = PLACES[place]
    return replace(line_from(text, 0, second), quad=quad(x - 30, y - 15, x + 30, y + 15))


def told(*lines: Line, symbol: Symbol = SQUARE) -> dict[str, object]:
    return {field.name: field.value for field in drawn_counts(lines, [symbol])}


BOTH = {"stitches_per_10cm": "22", "rows_per_10cm": "30"}


@pytest.mark.parametrize("stitches", ["below", "above"])
@pytest.mark.parametrize("rows", ["left", "right"])
def test_bare_counts_about_a_square_of_10_cm_are_told_by_their_place(
    stitches: str, rows: str
) -> None:
    lines = (at(stitches, "22"), at(rows, "30"), at("inside", "10 × 10 cm"))
    assert told(*lines) == BOTH


@pytest.mark.parametrize(
    ("stitches", "rows"),
    [("22 M", "30 R"), ("22 sts", "30 rows"), ("22 m", "30 rgs"), ("22 p.", "30 v.")],
)
def test_counts_with_their_words_need_no_area(stitches: str, rows: str) -> None:
    assert told(at("below", stitches), at("right", rows)) == BOTH


def test_4_inches_are_an_area_too() -> None:
    assert told(at("below", "22"), at("left", "30"), at("under all", "4 in")) == BOTH


def test_stitches_alone_are_told() -> None:
    assert told(at("below", "22"), at("inside", "10 cm")) == {"stitches_per_10cm": "22"}


def test_numbers_about_a_square_without_an_area_are_something_else() -> None:
    assert told(at("below", "22"), at("left", "30")) == {}


def test_an_area_on_the_other_side_of_the_tag_is_not_the_squares() -> None:
    assert told(at("below", "22"), at("left", "30"), at("far off", "10 x 10 cm")) == {}


def test_two_numbers_on_one_side_leave_it_open() -> None:
    assert told(at("below", "22"), at("above", "20"), at("inside", "10 cm")) == {}


def test_fewer_rows_than_stitches_may_be_the_other_way_round() -> None:
    assert told(at("below", "30"), at("left", "26"), at("inside", "10 cm")) == {}


def test_a_count_on_which_the_readers_differ_is_left_blank() -> None:
    lines = (at("below", "22"), at("left", "30", "36"), at("inside", "10 cm"))
    assert told(*lines) == {"stitches_per_10cm": "22"}


def test_a_care_symbol_is_no_swatch() -> None:
    lines = (at("below", "22"), at("left", "30"), at("inside", "10 cm"))
    assert told(*lines, symbol=replace(SQUARE, kind=SymbolKind.CARE)) == {}


def test_a_count_says_where_it_stands() -> None:
    lines = (at("inside", "10 cm"), at("below", "22 M"))
    (field,) = drawn_counts(lines, [SQUARE])
    assert (field.line, field.spans[0].line, field.state) == ("22 M", 1, State.SURE)
