"""The one ball that is meant."""

from __future__ import annotations

import pytest

from intake.errors import ExitCode, WhichBall
from intake.filing.columns import table_of
from intake.filing.record import Record
from intake.sums.ball import Ball
from intake.sums.catalogue import Catalogue
from intake.sums.maker_sheet import MakerSheet
from intake.sums.which_ball import ball_words, the_ball
from intake.wording import MOST_NAMED
from tests.filing_tags import record

KELP = record("a.jpg", lot="0012")
TWIN = record("b.jpg", lot="0012")
ROUND = record("c.jpg", lot="O013")
GORSE = record("d.jpg", shade="Gorse", shade_code="7", lot="88")
NUMBERED = record("e.jpg", shade="88", shade_code="", lot="A-5")
ALL = [KELP, TWIN, ROUND, GORSE, NUMBERED]


def meant(wanted: str, *records: Record) -> Record:
    return the_ball(Catalogue(table_of(records or ALL), MakerSheet()), wanted).record


@pytest.mark.parametrize("ball", ALL, ids=lambda ball: ball.picture)
def test_an_id_names_its_ball_though_another_is_like_it(ball: Record) -> None:
    assert meant(ball.id) == ball


@pytest.mark.parametrize(("typed", "ball"), [("88", GORSE), ("A–5", NUMBERED), ("O013", ROUND)])
def test_a_lot_names_its_only_ball_before_any_word_does(typed: str, ball: Record) -> None:
    assert meant(typed) == ball


@pytest.mark.parametrize("typed", ["gorse", "GORSE 7", "quillstow gorse"])
def test_words_name_the_only_ball_that_has_them_all(typed: str) -> None:
    assert meant(typed) == GORSE


@pytest.mark.parametrize("typed", ["0012", "Kelp", "kelp 041 0012", ""])
def test_more_than_one_ball_is_asked_about(typed: str) -> None:
    with pytest.raises(WhichBall, match="balls go by") as caught:
        meant(typed)
    assert caught.value.exit_code is ExitCode.USAGE
    assert KELP.id in str(caught.value)
    assert TWIN.id in str(caught.value)
    assert "lot 0012, 210 m left" in str(caught.value)


def test_a_lot_that_looks_alike_is_shown_and_not_taken() -> None:
    with pytest.raises(WhichBall, match=f"no ball goes by '0013'; near it: .*{ROUND.id}"):
        meant("0013")


def test_a_misspelt_word_is_asked_about_though_it_fits_one_ball() -> None:
    with pytest.raises(WhichBall, match=f"no ball goes by 'gorze'; near it: {GORSE.id}"):
        meant("gorze")


def test_what_nothing_goes_by_is_said() -> None:
    with pytest.raises(WhichBall, match="give the id of its record"):
        meant("heather")


def test_many_balls_are_not_all_listed() -> None:
    many = [record("f.jpg", number) for number in range(1, MOST_NAMED + 4)]
    with pytest.raises(WhichBall, match="and 3 more"):
        meant("Kelp", *many)


def test_a_ball_is_told_by_maker_shade_and_lot() -> None:
    assert ball_words(Ball(KELP)) == "Quillstow Spinners Sluicegate, Kelp 041, lot 0012"
    bare = record(maker="", range="", shade="", shade_code="", lot="")
    assert ball_words(Ball(bare)) == bare.id
