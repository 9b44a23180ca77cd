"""Maker and range told apart: the model of discrete choice, and what it makes of tags."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from sklearn.linear_model import LogisticRegression  # type: ignore[import-untyped]

from fixtures.fit_headings import (
    Choice,
    choices_of,
    features_of,
    fit,
    options_of,
    pack,
    true_option,
    unpack,
)
from intake.accuracy.truth import TrueTag
from intake.fields.names.trade_words import goes_on_behind, has_trade_word, is_only_trade
from intake.fields.parse import heading_options, parse
from intake.records import State
from tests.line_making import lines_from

TAG = ("Kieselhorst", "Garnhof Lerchengrund GmbH", "50 g / 120 m", "Partie 00412")


def truth(maker: str, range_name: str | None) -> TrueTag:
    path = Path("shelf.jpg")
    return TrueTag(path.name, path, 1, "scan", {"maker": maker, "range": range_name})


def test_probabilities_of_all_options_make_one() -> None:
    best, likely = heading_options(lines_from(*TAG), []).best()
    assert sum(likely.values()) == pytest.approx(1.0)
    assert likely[best] == max(likely.values())


def test_every_name_may_be_the_maker_with_every_other_as_the_range_or_none() -> None:
    found = heading_options(lines_from(*TAG), [])
    assert set(found.pairs) == {(0, 1), (0, None), (1, 0), (1, None)}


def test_a_word_of_the_trade_outweighs_the_place_on_top() -> None:
    fields = parse(lines_from(*TAG), [])
    assert fields["maker"].value == "Garnhof Lerchengrund GmbH"
    assert fields["range"].value == "Kieselhorst"


def test_a_name_in_the_web_address_is_the_makers() -> None:
    lines = lines_from("Morwenstide", "Tolgarrow", "50 g / 120 m", "www.tolgarrow.example")
    assert parse(lines, [])["maker"].value == "Tolgarrow"


def test_two_names_that_nothing_tells_apart_are_asked_about() -> None:
    assert parse(lines_from("Tolgarrow", "Morwenstide"), [])["maker"].state is State.DOUBTFUL


def test_a_heading_cut_short_is_asked_about_where_the_web_address_tells() -> None:
    lines = lines_from("Hilos Pradit", "Cerrosol", "50 g / 120 m", "www.hilospraditejar.example")
    maker = parse(lines, [])["maker"]
    assert maker.state is State.DOUBTFUL
    assert "hilospraditejar" in maker.reason


def test_a_web_address_with_a_word_of_the_trade_more_casts_no_doubt() -> None:
    lines = lines_from("Tolgarrow", "Morwenstide", "50 g / 120 m", "www.tolgarrowyarns.example")
    assert "web address" not in parse(lines, [])["maker"].reason


def test_two_names_in_one_line_are_asked_about() -> None:
    maker = parse(lines_from("Kieselhorst Garne Lerchenfeld", "50 g / 120 m"), [])["maker"]
    assert maker.state is State.DOUBTFUL


@pytest.mark.parametrize("sign", ["®", "™"])
def test_a_registered_name_is_a_name(sign: str) -> None:
    lines = lines_from(f"Kieselhorst Garne{sign}", "Lerchenfeld", "50 g / 120 m")
    assert parse(lines, [])["maker"].value == "Kieselhorst Garne"


@pytest.mark.parametrize("text", ["Old Ferry Yarn Works", "Garnhuset Klitlund", "Tolgarrow Wool"])
def test_names_of_makers_do_not_go_on(text: str) -> None:
    assert has_trade_word(text)
    assert not goes_on_behind(text)


def test_words_of_the_trade_alone_are_no_whole_name() -> None:
    assert is_only_trade("Lanas")
    assert is_only_trade("The Yarn Company")
    assert not is_only_trade("Märzwolle")


def test_the_true_option_is_found_though_a_letter_was_misread() -> None:
    found = heading_options(lines_from("Kieselhorst", "Garnhof Lerchengrvnd GmbH"), [])
    assert true_option(found, truth("Garnhof Lerchengrund GmbH", "Kieselhorst")) == list(
        found.pairs
    ).index((1, 0))
    assert true_option(found, truth("Somebody Else", "Kieselhorst")) is None


def test_weights_for_two_options_are_those_of_scikit_learn() -> None:
    """Between two options a conditional logit is a logistic regression on the difference of
    their evidence, without an intercept."""
    chance = np.random.default_rng(3)
    evidence = chance.normal(size=(400, 2, 3))
    gap = evidence[:, 0] - evidence[:, 1]
    first = chance.random(400) < 1 / (1 + np.exp(-gap @ np.array([1.0, -0.5, 0.0])))
    ours = fit(
        [Choice(one, 0 if is_first else 1) for one, is_first in zip(evidence, first, strict=True)]
    )
    theirs = LogisticRegression(C=1.0, fit_intercept=False, tol=1e-8).fit(gap, first)
    assert ours.tolist() == pytest.approx(theirs.coef_[0].tolist(), abs=2e-3)


def test_options_survive_packing(tmp_path: Path) -> None:
    found = heading_options(lines_from(*TAG), [])
    tags = [(found, 2, "swing")]
    packed = features_of(tags)
    pack(packed, choices_of(tags, packed), tmp_path / "rows.json.gz")
    features, (choice,) = unpack(tmp_path / "rows.json.gz")
    assert (choice.true, choice.layout) == (2, "swing")
    assert choice.options == pytest.approx(options_of(found, features), abs=0.006)
