"""What readers confuse, and the similarity that is weighed with it."""

from __future__ import annotations

import random
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.colors import XKCD_COLORS
from rapidfuzz.distance import Levenshtein

from intake.shades.confusion import (
    CONFUSED_LETTERS,
    CONFUSED_PAIRS,
    confusable,
    cost_of,
    differences,
    look,
    similarity,
)
from intake.shades.spelling import key

COLOUR_NAMES = [name.removeprefix("xkcd:") for name in XKCD_COLORS]
"""The 949 names of the XKCD colour survey, as matplotlib carries them."""

TEXT = st.text(alphabet="oO0il1rnmcldaäeé -5s8b.,", max_size=9)


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("0412", "O412"),
        ("Nebel", "Nebe1"),
        ("Dusk", "Du5k"),
        ("Barn", "Bam"),
        ("Clay", "day"),
        ("Willow", "Wilow"),
        ("Mist", "Mst"),
        ("Weide", "VVeide"),
        ("Käfer", "Kafer"),
        ("Rosé", "Rose"),
        ("Sea Mist", "SeaMist"),
        ("Sea-Mist", "Sea Mist"),
        ("1,5", "1.5"),
        ("04-12", "0412"),
        ("Moos", "moos"),
        ("MOOS", "Mo0s"),
    ],
)
def test_one_slip_of_a_reader_is_confusable(a: str, b: str) -> None:
    # The last pair is one confused letter beside capitals, which count for nothing.
    assert confusable(a, b)
    assert confusable(b, a)


@pytest.mark.parametrize(
    ("a", "b"),
    [
        ("Dusk", "Dusk"),
        ("Dusk", "Dust"),
        ("0412", "0413"),
        ("0412", "O4I2"),
        ("Dusk", "Dus"),
        ("", ""),
        ("", "Dusk"),
        ("MOOS", "moos"),
        ("Sea Mist", "SeaM1st"),
    ],
)
def test_equal_texts_other_letters_and_two_slips_are_not(a: str, b: str) -> None:
    assert not confusable(a, b)


def test_each_row_of_the_table_is_confusable_and_looks_alike() -> None:
    rows = [pair for group, _ in CONFUSED_LETTERS for pair in combinations(group, 2)]
    rows += [(two, one) for two, one, _ in CONFUSED_PAIRS]
    for a, b in rows:
        assert confusable(f"x{a}k", f"x{b}k"), (a, b)
        assert look(f"x{a}k") == look(f"x{b}k"), (a, b)


def test_cheaper_slips_leave_texts_more_alike() -> None:
    slips = ["Dusk", "dusk", "Dvsk", "Dust", "Nebel"]
    scores = [similarity("Dusk", slip) for slip in slips]
    assert scores == sorted(scores, reverse=True)
    assert len(set(scores)) == len(scores)


def test_differences_tell_where_and_what() -> None:
    (found,) = differences(key("Bumt Oak"), key("Burnt Oak"))
    assert (found.start, found.end, found.read, found.known) == (2, 3, "m", "rn")
    assert found.is_confusion


@given(TEXT, TEXT)
def test_similarity_is_symmetric_and_within_bounds(a: str, b: str) -> None:
    assert similarity(a, b) == pytest.approx(similarity(b, a))
    assert 0 <= similarity(a, b) <= 100
    assert similarity(a, a) == 100
    assert confusable(a, b) == confusable(b, a)


@given(TEXT, TEXT)
def test_no_pair_costs_more_than_plain_levenshtein(a: str, b: str) -> None:
    # Source: rapidfuzz's Levenshtein; our costs only ever make an edit cheaper.
    found = differences(key(a), key(b))
    assert cost_of(found) <= Levenshtein.distance(key(a), key(b)) + 1e-9


def test_letters_that_no_reader_confuses_cost_what_levenshtein_says() -> None:
    # Source: rapidfuzz's Levenshtein.  No letter of this alphabet is confused or thin,
    # and no letter is doubled.
    rng = random.Random(11)
    for _ in range(500):
        a, b = ("".join(rng.sample("fhkmpwxy", rng.randint(1, 8))) for _ in range(2))
        assert cost_of(differences(a, b)) == Levenshtein.distance(a, b)


def test_unrelated_names_are_ordered_much_as_levenshtein_orders_them() -> None:
    # Source: rapidfuzz's normalized similarity, on names of the XKCD colour survey.
    rng = random.Random(5)
    agreeing = compared = 0
    for _ in range(1500):
        name, one, two = rng.sample(COLOUR_NAMES, 3)
        plain = [Levenshtein.normalized_similarity(name, other) for other in (one, two)]
        if abs(plain[0] - plain[1]) < 0.1:
            continue
        ours = [similarity(name, other) for other in (one, two)]
        compared += 1
        agreeing += (ours[0] > ours[1]) == (plain[0] > plain[1])
    assert compared > 500
    assert agreeing / compared > 0.9
