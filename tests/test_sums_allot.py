"""Allotting lots to garments: against every allotment there is, on small stashes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sums_balls import ball, weighed

from intake.sums.allot import Allotment, Need, Place, allot
from intake.sums.ball import Ball
from intake.sums.garments import Unit
from intake.sums.lots import lots
from intake.sums.piles import Pile, Yarn, yarns

Score = tuple[float, ...]
Draws = Mapping[tuple[int, Place], int]


def lot_of(shade: str, lot: str, wholes_m: Sequence[int], parts_m: Sequence[int]) -> list[Ball]:
    whole = [ball(float(metres), shade=shade, lot=lot, shade_code="") for metres in wholes_m]
    # A part ball counts at the lower end: the 5 m of the weighing's uncertainty come off.
    part = [
        ball(100.0, 50.0, weighed(10.0, metres + 5.0), shade=shade, lot=lot, shade_code="")
        for metres in parts_m
    ]
    return whole + part


def score(stock: Sequence[Yarn], metres: Mapping[tuple[int, Place], float]) -> Score:
    """An allotment's worth, goal by goal; the smaller the better."""
    uses = lots_used(metres)
    given_m: dict[Place, float] = {}
    for (_, place), drawn in metres.items():
        given_m[place] = given_m.get(place, 0.0) + drawn
    whole_m = {
        place: (drawn, pile_at(stock, place).amounts[Unit.METRES])
        for place, drawn in given_m.items()
        if pile_at(stock, place).whole
    }
    opened = {(yarn, lot) for _, yarn, lot in uses}
    held = sum(stock[yarn].lots[lot].total(Unit.METRES) for yarn, lot in opened)
    return (
        -len({need for need, _, _ in uses}),
        len(uses),
        sum(abs(drawn / each - round(drawn / each)) > 1e-4 for drawn, each in whole_m.values()),
        held - sum(given_m.values()),
    )


def lots_used(metres: Mapping[tuple[int, Place], float]) -> set[tuple[int, int, int]]:
    return {(need, place.yarn, place.lot) for (need, place), drawn in metres.items() if drawn > 0}


def part_m(stock: Sequence[Yarn], metres: Mapping[tuple[int, Place], float]) -> float:
    """Metres that are drawn from part balls."""
    return sum(drawn for (_, place), drawn in metres.items() if not pile_at(stock, place).whole)


def pile_at(stock: Sequence[Yarn], place: Place) -> Pile:
    return stock[place.yarn].lots[place.lot].piles[place.pile]


def every_allotment(needs: Sequence[Need], stock: Sequence[Yarn]) -> Iterator[Draws]:
    """Every way to give each need whole metres of one yarn, or nothing."""
    ways = [[*ways_to_cover(need, stock), {}] for need in needs]
    for chosen in product(*ways):
        metres = {
            (number, place): drawn
            for number, draws in enumerate(chosen)
            for place, drawn in draws.items()
        }
        if fits(stock, metres):
            yield metres


def ways_to_cover(need: Need, stock: Sequence[Yarn]) -> Iterator[dict[Place, int]]:
    for yarn, numbers in need.lots.items():
        places = [
            Place(yarn, lot, pile)
            for lot in numbers
            for pile in range(len(stock[yarn].lots[lot].piles))
        ]
        totals = [int(pile_at(stock, place).total(Unit.METRES)) for place in places]
        for drawn in product(*(range(total + 1) for total in totals)):
            if sum(drawn) == need.amount:
                yield {place: m for place, m in zip(places, drawn, strict=True) if m}


def fits(stock: Sequence[Yarn], metres: Draws) -> bool:
    given_m: dict[Place, int] = {}
    for (_, place), drawn in metres.items():
        given_m[place] = given_m.get(place, 0) + drawn
    return all(
        drawn <= pile_at(stock, place).total(Unit.METRES) for place, drawn in given_m.items()
    )


def drawn_metres(allotment: Allotment, stock: Sequence[Yarn]) -> dict[tuple[int, Place], float]:
    return {
        (number, place): balls * pile_at(stock, place).amounts[Unit.METRES]
        for number, draws in allotment.draws.items()
        for place, balls in draws.items()
    }


def some_lots(stock: Sequence[Yarn]) -> st.SearchStrategy[dict[int, frozenset[int]]]:
    some = {
        yarn: st.frozensets(st.sampled_from(range(len(stock[yarn].lots))), min_size=1)
        for yarn in range(len(stock))
    }
    return st.fixed_dictionaries({}, optional=some)


LOT = st.tuples(
    st.lists(st.integers(1, 3), max_size=2), st.lists(st.integers(1, 2), max_size=1)
).filter(any)
STOCK = st.lists(st.lists(LOT, min_size=1, max_size=2), min_size=1, max_size=2)
NEEDS = st.lists(st.integers(1, 6), min_size=1, max_size=3)


def test_a_programme_that_the_solver_simplifies_wrongly_is_solved_all_the_same() -> None:
    """HiGHS 1.12 took this one for infeasible."""
    kelp = [*lot_of("Shade A", "000", [1, 1], [2]), *lot_of("Shade B", "000", [1, 2], [1])]
    need = Need(1.0, Unit.METRES, {0: frozenset([0]), 1: frozenset([0])})
    assert allot([need], yarns(lots(kelp))).unproven == ()


@settings(max_examples=60, deadline=None)
@given(STOCK, NEEDS, st.data())
def test_no_allotment_is_better_than_the_one_that_is_found(
    shades: list[list[tuple[list[int], list[int]]]], amounts: list[int], data: st.DataObject
) -> None:
    balls = [
        one
        for shade, shade_lots in enumerate(shades)
        for lot, (wholes_m, parts_m) in enumerate(shade_lots)
        for one in lot_of(f"Shade {'AB'[shade]}", f"00{lot}", wholes_m, parts_m)
    ]
    stock = yarns(lots(balls))
    needs = [Need(float(amount), Unit.METRES, data.draw(some_lots(stock))) for amount in amounts]

    found = allot(needs, stock)

    drawn_m = drawn_metres(found, stock)
    best = min(score(stock, metres) for metres in every_allotment(needs, stock))
    assert found.unproven == ()
    assert score(stock, drawn_m) == pytest.approx(best, abs=1e-3)  # type: ignore[arg-type]
    as_good = [
        part_m(stock, metres)
        for metres in every_allotment(needs, stock)
        if lots_used(metres) == lots_used(drawn_m)
        and score(stock, metres) == pytest.approx(best, abs=1e-3)  # type: ignore[arg-type]
    ]
    assert part_m(stock, drawn_m) == pytest.approx(max(as_good), abs=1e-3)
