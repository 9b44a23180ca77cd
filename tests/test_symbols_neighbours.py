"""Drawings that stand beside each other: gaps in a row, and what has no room in it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from intake.symbols.classify import Sense, Verdict
from intake.symbols.look import Seen
from intake.symbols.neighbours import (
    has_gap,
    holds_symbols,
    is_between,
    stands_as_next,
    stands_below,
)
from intake.symbols.vocabulary import NO_SYMBOL, Look, processes_of


def seen(left: float, width: float = 100.0, top: float = 50.0, height: float = 100.0) -> Seen:
    sense = Sense("none", NO_SYMBOL, 1.0, Look("none"))
    return Seen((left, top, left + width, top + height), Verdict((sense,)))


def crossed_tub(left: float, confidence: float = 0.9999) -> Seen:
    look = Look("wash", crossed=True)
    sense = Sense("tub", processes_of(look), confidence, look)
    return replace(seen(left), verdict=Verdict((sense,)))


def row(*lefts: float) -> list[Seen]:
    return [seen(left) for left in lefts]


@pytest.mark.parametrize("width", [40.0, 25.0])
def test_what_is_seen_of_the_card_between_two_tiles_has_no_room_for_a_symbol(width: float) -> None:
    tiles = row(0, 140, 280, 420)
    assert is_between(seen(260 - width / 2, width), [tiles])


def test_what_stands_in_the_place_of_a_symbol_that_was_not_read_has_room() -> None:
    assert not is_between(seen(280), [row(0, 140, 420, 560)])


def test_where_every_second_symbol_was_not_read_each_has_room() -> None:
    assert not is_between(seen(140), [row(0, 280, 560)])


def test_what_stands_above_a_row_or_at_its_end_is_not_between() -> None:
    tiles = row(0, 140, 280, 420)
    assert not is_between(seen(245, 30, top=-60), [tiles])
    assert not is_between(seen(525, 30), [tiles])


def test_of_a_pair_nothing_tells_how_much_room_is_usual() -> None:
    assert not is_between(seen(105, 30), [row(0, 140)])


def test_what_is_seen_of_the_card_between_two_rows_has_no_room_for_a_symbol() -> None:
    rows = [row(0, 140, 280), [seen(0, top=200)]]
    assert is_between(seen(10, 80, top=152, height=46), rows)
    assert not is_between(seen(150, 80, top=152, height=46), rows)


def test_where_a_third_row_has_room_between_two_what_stands_there_may_be_a_symbol() -> None:
    assert not is_between(seen(0, top=190), [row(0, 140, 280), [seen(0, top=330)]])


@pytest.mark.parametrize(
    ("one", "next_to_it"),
    [
        (seen(140), True),
        (seen(140, 250, height=250), False),
        (seen(0, top=180), True),
        (seen(60, top=180), True),
        (seen(0, top=290), False),
        (seen(-90, top=180), False),
    ],
)
def test_what_looks_like_no_symbol_may_be_one_in_the_places_of_a_row_or_the_next(
    one: Seen, next_to_it: bool
) -> None:
    assert stands_as_next(one, seen(0), 2.2) is next_to_it


@pytest.mark.parametrize(
    ("left", "top", "below"), [(0, 200, True), (140, 200, True), (70, 200, False), (0, 300, False)]
)
def test_a_symbol_that_is_all_of_a_second_row_stands_below_the_first_or_the_middle(
    left: float, top: float, below: bool
) -> None:
    assert stands_below(seen(left, top=top), row(0, 140, 280)) is below


@pytest.mark.parametrize(("second", "parted"), [(118, False), (165, False), (240, True)])
def test_two_symbols_with_the_room_of_a_third_between_them_have_a_gap(
    second: float, parted: bool
) -> None:
    assert has_gap(row(0, second)) is parted


@pytest.mark.parametrize(("last", "parted"), [(280, False), (420, True)])
def test_a_row_with_one_distance_much_longer_than_another_has_a_gap(
    last: float, parted: bool
) -> None:
    assert has_gap(row(0, 140, last)) is parted


CORNER = (-20.0, 0.0, 280.0, 300.0)
"""A square about the first two places of a row."""


def test_the_corner_of_a_card_with_two_symbols_in_it_is_no_square_of_tension() -> None:
    assert holds_symbols(CORNER, [crossed_tub(0), crossed_tub(140), crossed_tub(280)])


def test_a_square_with_a_symbol_in_it_and_the_next_beside_it_is_none_of_tension() -> None:
    assert holds_symbols((-60.0, -40.0, 160.0, 180.0), [crossed_tub(0), crossed_tub(140)])


@pytest.mark.parametrize(
    "knitting", [[crossed_tub(100)], [crossed_tub(0, 0.97), crossed_tub(140, 0.97)], row(0, 140)]
)
def test_knitting_that_looks_a_little_like_a_symbol_leaves_its_square(knitting: list[Seen]) -> None:
    assert not holds_symbols(CORNER, knitting)


def test_a_row_beside_a_square_leaves_it() -> None:
    assert not holds_symbols((-400.0, 0.0, -100.0, 300.0), [crossed_tub(0), crossed_tub(140)])
