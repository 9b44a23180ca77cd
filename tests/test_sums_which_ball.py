"""The one ball that is meant."""

from __future__ import annotations

import pytest

from intake.errors import ExitCode, WhichBall
from intake.sums.ball import Ball
from intake.sums.which_ball import MOST_NAMED, ball_words, the_ball
from tests.filing_tags import record

KELP = Ball(record("a.jpg", lot="0012"))
TWIN = Ball(record("b.jpg", lot="0012"))
ROUND = Ball(record("c.jpg", lot="0O12"))
GORSE = Ball(record("d.jpg", shade="Gorse", shade_code="7", lot="88"))
UNLIKE = Ball(record("e.jpg", shade="0088", shade_code="", lot="5"))
ALL = [KELP, TWIN, ROUND, GORSE, UNLIKE]


@pytest.mark.parametrize("ball", ALL)
def test_an_id_names_its_ball_though_another_is_like_it(ball: Ball) -> None:
    assert the_ball(ALL, ball.record.id) is ball


def test_a_lot_names_its_only_ball() -> None:
    assert the_ball(ALL, "88") is GORSE


@pytest.mark.parametrize("wanted", ["0012", "Kelp", "kelp 041 0012", ""])
def test_two_balls_are_asked_about(wanted: str) -> None:
    with pytest.raises(WhichBall) as caught:
        the_ball(ALL, wanted)
    assert caught.value.exit_code is ExitCode.USAGE
    if wanted == "0012":
        assert KELP.record.id in str(caught.value)
        assert TWIN.record.id in str(caught.value)
        assert "210 m left" in str(caught.value)


def test_a_lot_is_compared_letter_by_letter() -> None:
    assert the_ball(ALL, "0O12") is ROUND
    with pytest.raises(WhichBall, match="no ball goes by '12'"):
        the_ball(ALL, "12")


@pytest.mark.parametrize("wanted", ["gorse", "GORSE 7", "quillstow gorse", "lot"])
def test_words_of_the_tag_name_the_only_ball_that_has_them_all(wanted: str) -> None:
    if wanted == "lot":
        with pytest.raises(WhichBall, match="no ball"):
            the_ball(ALL, wanted)
    else:
        assert the_ball(ALL, wanted) is GORSE


def test_many_balls_are_not_all_listed() -> None:
    many = [Ball(record("f.jpg", number)) for number in range(1, MOST_NAMED + 4)]
    with pytest.raises(WhichBall, match="and 3 more"):
        the_ball(many, "Kelp")


def test_a_ball_is_told_by_maker_shade_and_lot() -> None:
    assert ball_words(KELP) == "Quillstow Spinners Sluicegate, Kelp 041, lot 0012"
    bare = record(maker="", range="", shade="", shade_code="", lot="")
    assert ball_words(Ball(bare)) == bare.id
