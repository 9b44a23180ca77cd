"""Failing and queued tags, grouped by cause."""

from __future__ import annotations

from accuracy_tags import read_tag, scored, true_tag

from intake.accuracy.causes import causes
from intake.accuracy.score import TagScore
from intake.filing.judge import Doubt
from intake.records import Outcome


def asked(name: str, reason: str, **values: str | None) -> TagScore:
    doubts = (Doubt(name, reason),)
    return scored(true_tag(), read_tag(outcome=Outcome.QUEUED, doubts=doubts, **values))


def test_a_tag_that_is_right_and_filed_has_no_cause() -> None:
    assert causes([scored(true_tag(), read_tag())]) == []


def test_like_questions_are_one_cause_and_needless_ones_are_counted() -> None:
    tags = [
        asked("lot", "the readers differ on the lot '0072' or '0O72'"),
        asked("lot", "the readers differ on the lot '0077' or '0072'", lot="0077"),
    ]
    (cause,) = causes(tags)
    assert (cause.name, len(cause.tags), cause.alone, cause.needless) == ("lot", 2, 2, 1)
    assert cause.what == "asked: the readers differ on the lot … or …"


def test_a_false_value_that_was_filed_stands_out() -> None:
    (cause,) = causes([scored(true_tag(), read_tag(lot="1"))])
    assert (cause.name, cause.what, cause.needless) == ("lot", "FILED wrong", 0)


def test_a_main_field_that_failed_without_being_asked_is_a_cause_beside_the_question() -> None:
    doubts = (Doubt("maker", "the maker may be 'a' or 'b'"),)
    read = read_tag(outcome=Outcome.QUEUED, doubts=doubts, care=None)
    found = {(one.name, one.what): one.alone for one in causes([scored(true_tag(), read)])}
    assert found == {
        ("maker", "asked: the maker may be … or …"): 0,
        ("care", "missing, not asked"): 0,
    }


def test_a_tag_that_was_not_read_is_a_cause_of_its_own() -> None:
    (cause,) = causes([scored(true_tag(), None)])
    assert (cause.name, cause.what, cause.alone) == ("tag", "not read at all", 1)


def test_the_commonest_cause_comes_first() -> None:
    less = ({"care": None}, {"shade": None}, {"shade": None})
    tags = [scored(true_tag(), read_tag(outcome=Outcome.QUEUED, **one)) for one in less]
    assert [(cause.name, len(cause.tags)) for cause in causes(tags)] == [("shade", 2), ("care", 1)]
