"""Scores of hand-made readings: several tags a picture, lost tags, and what is summed up.

The upper limits of rates are checked against scipy's own exact test, and against the rule
of three (J. A. Hanley and A. Lippman-Hand, JAMA 1983; from memory).
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from accuracy_tags import SAYS, read_tag, scored, true_tag
from scipy.stats import binomtest

from intake.accuracy.compare import Verdict
from intake.accuracy.score import ReadTag, score_picture
from intake.accuracy.summary import MAIN_FIELDS, at_most, by_kind, summary, without_values
from intake.accuracy.truth import TrueTag
from intake.filing.judge import Doubt
from intake.records import Field, Outcome


def test_tags_are_matched_by_what_they_say_not_by_their_order() -> None:
    truth = [true_tag(1, lot="0072"), true_tag(2, lot="0555", shade="Sluice")]
    read = [read_tag(1, lot="0555", shade="Sluice"), read_tag(2, lot="0072")]
    score = score_picture(truth, read)
    assert [tag.read and tag.read.number for tag in score.tags] == [2, 1]
    assert all(tag.are_correct(MAIN_FIELDS) for tag in score.tags)
    assert score.extra == ()


def test_the_match_is_the_best_for_all_tags_together() -> None:
    # Greedily, the first reading would take the first tag (shade and lot alike), and the
    # second would be left with nothing alike.
    def says(number: int, **values: str) -> TrueTag:
        return replace(true_tag(number), values=values)

    def reads(number: int, **values: str) -> ReadTag:
        return ReadTag(number, {name: Field(name, value) for name, value in values.items()})

    truth = [
        says(1, shade="Fog", lot="1", shade_code="5"),
        says(2, shade="Fog", lot="2", shade_code="6"),
    ]
    read = [reads(1, shade="Fog", lot="1", shade_code="6"), reads(2, lot="1", shade_code="5")]
    score = score_picture(truth, read)
    assert [tag.read and tag.read.number for tag in score.tags] == [2, 1]
    verdicts = [one.verdict for tag in score.tags for one in tag.fields.values()]
    assert verdicts.count(Verdict.RIGHT) == 4


def test_tags_alike_in_nothing_are_matched_by_their_place() -> None:
    truth = [true_tag(1, lot="1"), true_tag(2, lot="2")]
    read = [read_tag(2, lot="x"), read_tag(1, lot="y")]
    assert [tag.read and tag.read.number for tag in score_picture(truth, read).tags] == [1, 2]


def test_a_tag_that_was_not_read_lacks_all_that_it_carries() -> None:
    score = scored(true_tag(care=None), None)
    assert score.fields["lot"].verdict is Verdict.MISSING
    assert score.fields["care"].verdict is Verdict.ABSENT
    assert not score.are_correct(MAIN_FIELDS)


def test_a_tag_read_where_there_is_none_is_told_apart() -> None:
    truth, read = [true_tag()], [read_tag(1, lot="junk", shade=None), read_tag(2)]
    score = score_picture(truth, read)
    assert [one.number for one in score.extra] == [1]
    assert score.tags[0].are_correct(MAIN_FIELDS)


def test_all_main_fields_count_whatever_is_sure_and_only_where_the_truth_tells_them() -> None:
    wrong_maker = scored(true_tag(), read_tag(maker="Table Ferry"))
    wrong_lot = scored(true_tag(), read_tag(lot="0012"))
    invented = scored(true_tag(care=None), read_tag())
    assert wrong_maker.are_correct(MAIN_FIELDS)
    assert not wrong_lot.are_correct(MAIN_FIELDS)
    assert not invented.are_correct(MAIN_FIELDS)
    assert summary([wrong_maker, wrong_lot, invented]).all_right == 1


def test_false_values_count_only_where_they_were_filed() -> None:
    filed = scored(true_tag(), read_tag(lot="0012", mass_g=100.0))
    asked = scored(true_tag(), read_tag(outcome=Outcome.QUEUED, lot="0012"))
    good = scored(true_tag(range=None), read_tag(range=None, length_m=None))
    result = summary([filed, asked, good]).filed
    assert result.tags == 2
    assert result.values == 2 * len(SAYS) - 2
    assert {one.name for one in result.false} == {"lot", "mass_g"}
    assert (result.lots, result.false_lots) == (2, 1)
    assert result.false_rate == pytest.approx(2 / result.values)
    assert result.lacking == 1


def test_invented_values_that_were_filed_are_false() -> None:
    result = summary([scored(true_tag(lot=None), read_tag())]).filed
    assert (result.lots, result.false_lots) == (1, 1)


def test_verdicts_are_counted_field_by_field() -> None:
    tags = [
        scored(true_tag(), read_tag()),
        scored(true_tag(), read_tag(lot="1")),
        scored(true_tag(), read_tag(lot=None)),
        scored(true_tag(lot=None), read_tag()),
        scored(true_tag(), None),
    ]
    result = summary(tags)
    assert result.fields["lot"] == {
        Verdict.RIGHT: 1,
        Verdict.WRONG: 1,
        Verdict.MISSING: 2,
        Verdict.INVENTED: 1,
    }
    assert (result.tags, result.unread) == (5, 1)
    assert result.correct("lot") == 1


def test_kinds_are_kept_apart_in_the_order_of_the_truth() -> None:
    tags = [scored(true_tag(kind=kind), None) for kind in ("photo", "scan", "photo")]
    assert {kind: len(some) for kind, some in by_kind(tags).items()} == {"photo": 2, "scan": 1}
    assert list(by_kind(tags)) == ["photo", "scan"]


def test_reasons_for_asking_are_counted_once_a_tag_without_their_values() -> None:
    def queued(lot: str) -> Doubt:
        return Doubt("lot", f"the readers differ on the lot '{lot}' or 'x'")

    tags = [
        scored(true_tag(), read_tag(outcome=Outcome.QUEUED, doubts=(queued("1"), queued("2")))),
        scored(true_tag(), read_tag(outcome=Outcome.QUEUED, doubts=(queued("3"),))),
        scored(true_tag(), read_tag()),
    ]
    result = summary(tags)
    assert result.reasons == {("lot", "the readers differ on the lot … or …"): 2}
    assert result.queued_share == pytest.approx(2 / 3)


def test_values_are_left_out_of_a_reason() -> None:
    reason = "lot 0072 is one easily confused letter from lot 0012 and 'Fern'"
    assert without_values(reason) == "lot … is one easily confused letter from lot … and …"


@pytest.mark.parametrize(("events", "trials"), [(0, 10), (0, 600), (3, 250), (9, 10)])
def test_what_a_rate_may_be_at_most_agrees_with_the_exact_test(events: int, trials: int) -> None:
    exact = binomtest(events, trials).proportion_ci(confidence_level=0.9, method="exact")
    assert at_most(events, trials) == pytest.approx(exact.high)


def test_no_event_in_many_trials_allows_three_over_their_number() -> None:
    assert at_most(0, 1000) == pytest.approx(3 / 1000, rel=0.01)


def test_nothing_tried_allows_everything() -> None:
    assert at_most(0, 0) == 1.0
