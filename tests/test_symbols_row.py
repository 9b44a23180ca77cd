"""Care symbols of a row are read together: each group of ISO 3758 once, in its order."""

from __future__ import annotations

import pytest

from intake.symbols.classify import Sense, Verdict
from intake.symbols.row import Told, read_together
from intake.symbols.vocabulary import NAMELESS, NO_SYMBOL, Look

LOOKS = {
    ("machine wash 30",): ("tub", Look("wash 30")),
    ("machine wash 40",): ("tub", Look("wash 40")),
    ("do not bleach",): ("triangle", Look("bleach", crossed=True)),
    ("tumble dry",): ("dryer", Look("tumble")),
    ("do not tumble dry",): ("dryer", Look("tumble", crossed=True)),
    ("dry flat",): ("square", Look("dry flat")),
    ("do not iron",): ("iron", Look("iron", crossed=True)),
    ("iron low",): ("iron", Look("iron low")),
    ("dry clean",): ("circle", Look("clean P")),
    ("do not dry clean",): ("circle", Look("clean", crossed=True)),
    ("do not wet clean",): ("circle", Look("wet clean W", crossed=True)),
    NAMELESS: ("tub", Look("wash 50")),
    ("wet clean",): ("circle", Look("wet clean W")),
    NO_SYMBOL: ("none", Look("none")),
}


def shown(**shares: float) -> Verdict:
    """A verdict on one drawing with the share of each meaning, ``_`` for a space."""
    senses = []
    for name, share in shares.items():
        meaning = (name.replace("_", " "),)
        base, look = LOOKS[meaning]
        senses.append(Sense(base, meaning, share, look))
    return Verdict(tuple(sorted(senses, key=lambda sense: -sense.share)))


WASH, BLEACH, FLAT, IRON, CLEAN = (
    shown(machine_wash_30=1.0),
    shown(do_not_bleach=1.0),
    shown(dry_flat=1.0),
    shown(iron_low=1.0),
    shown(dry_clean=1.0),
)


def meanings(told: list[Told]) -> list[str]:
    return [one.sense.meaning[0] for one in told]


def test_a_row_that_keeps_to_the_standard_is_read_as_each_symbol_looks() -> None:
    told = read_together([WASH, BLEACH, FLAT, IRON, CLEAN])
    assert meanings(told) == [
        "machine wash 30", "do not bleach", "dry flat", "iron low", "dry clean",
    ]  # fmt: skip
    assert all(one.confidence == pytest.approx(1.0) for one in told)


def test_what_looks_like_a_second_iron_before_the_iron_is_the_triangle() -> None:
    told = read_together([WASH, shown(do_not_iron=0.7, do_not_bleach=0.3), FLAT, IRON])
    assert meanings(told)[1] == "do not bleach"
    assert told[1].confidence > 0.9


def test_the_row_does_not_overrule_what_is_seen_clearly() -> None:
    twice = read_together([WASH, shown(do_not_iron=1.0), FLAT, IRON])
    assert meanings(twice)[1] == "do not iron"


def test_what_two_groups_could_be_stays_in_doubt_where_the_row_leaves_room_for_both() -> None:
    told = read_together([WASH, shown(do_not_bleach=0.6, do_not_tumble_dry=0.4), IRON])
    assert told[1].confidence < 0.8


@pytest.mark.parametrize("order", ["2012", "earlier"])
def test_either_edition_s_order_is_followed(order: str) -> None:
    unclear = shown(do_not_tumble_dry=0.5, do_not_iron=0.5)
    late = order == "earlier"
    row = [WASH, BLEACH, IRON, CLEAN, unclear] if late else [WASH, BLEACH, unclear, IRON, CLEAN]
    told = read_together(row)
    assert meanings(told)[4 if late else 2] == "do not tumble dry"


def test_dry_and_wet_cleaning_stand_side_by_side() -> None:
    told = read_together([WASH, BLEACH, CLEAN, shown(wet_clean=0.8, tumble_dry=0.2)])
    assert meanings(told)[3] == "wet clean"
    assert told[3].confidence > 0.85


def test_the_row_tells_nothing_of_which_number_stands_in_the_tub() -> None:
    told = read_together([shown(machine_wash_30=0.6, machine_wash_40=0.4), BLEACH, IRON])
    assert told[0].confidence == pytest.approx(0.6)


def test_a_ring_in_a_frame_at_the_end_of_a_framed_row_is_no_dryer() -> None:
    row = [WASH, BLEACH, shown(tumble_dry=1.0), IRON, shown(tumble_dry=1.0)]
    assert meanings(read_together(row, framed=[2, 4]))[-1] == "dry clean"
    assert meanings(read_together(row))[-1] == "tumble dry"


def test_a_dryer_that_was_seen_without_its_frame_is_no_ring() -> None:
    row = [WASH, BLEACH, shown(tumble_dry=1.0), FLAT, shown(do_not_iron=1.0)]
    assert read_together(row, framed=[2])[2].confidence < 0.99
    assert read_together(row)[2].confidence == pytest.approx(1.0)


def test_a_ring_where_the_row_has_its_next_symbol_is_hardly_a_letter() -> None:
    row = [WASH, BLEACH, IRON, shown(dry_clean=0.9, no_symbol=0.1)]
    assert read_together(row)[3].confidence == pytest.approx(0.9)
    assert read_together(row, placed=[3])[3].confidence > 0.99


def test_what_looks_like_no_symbol_is_none_where_the_row_has_a_place_too() -> None:
    row = [WASH, BLEACH, IRON, shown(dry_clean=0.02, no_symbol=0.98)]
    assert not read_together(row, placed=[3])[3].is_symbol


def test_an_emblem_in_the_row_is_no_symbol_and_puts_none_in_doubt() -> None:
    told = read_together(
        [WASH, BLEACH, Verdict((Sense("none", NO_SYMBOL, 1.0, Look("none")),)), IRON]
    )
    assert [one.is_symbol for one in told] == [True, True, False, True]
    assert told[3].confidence == pytest.approx(1.0)


def test_a_plain_square_gives_way_to_one_that_the_standard_has() -> None:
    square = Verdict(
        (
            Sense("square", NAMELESS, 0.6, Look("dry")),
            Sense("square", ("dry flat",), 0.4, Look("dry flat")),
        )
    )
    assert meanings(read_together([WASH, square, IRON]))[1] == "dry flat"


def test_a_chart_of_all_symbols_is_read_symbol_by_symbol() -> None:
    unclear = shown(machine_wash_30=0.6, do_not_bleach=0.4)
    told = read_together([WASH, unclear] * 5)
    assert meanings(told) == ["machine wash 30"] * 10
    assert told[1].confidence == 0.6


def test_wet_cleaning_alone_is_less_likely_than_dry_cleaning_alone() -> None:
    crossed = shown(do_not_dry_clean=0.8, do_not_wet_clean=0.2)
    told = read_together([WASH, crossed])
    assert meanings(told)[1] == "do not dry clean"
    assert told[1].confidence > 0.97
    beside = read_together([WASH, CLEAN, crossed])
    assert meanings(beside)[2] == "do not wet clean"


def test_a_tub_with_a_usual_number_is_likelier_than_one_without_a_process() -> None:
    told = read_together([shown(machine_wash_30=0.8, nameless=0.2), BLEACH])
    assert meanings(told)[0] == "machine wash 30"
    assert told[0].confidence > 0.97
    (seldom, _) = read_together([shown(machine_wash_30=0.02, nameless=0.98), BLEACH])
    assert seldom.sense.meaning == NAMELESS
