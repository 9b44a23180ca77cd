"""A number of balls that the user gives: for a run, or in the name of a picture."""

from __future__ import annotations

from pathlib import Path

import pytest
from filing_tags import doubtful, sure, tag

from intake.errors import BalltagError
from intake.filing.given_balls import with_given_balls
from intake.filing.record import record_from_reading
from intake.records import Field, Outcome, PictureReading, State, TagReading
from intake.run import Filing


def balls_of(reading: TagReading, for_run: int | None = None, *, is_alone: bool = True) -> Field:
    found = with_given_balls(reading, for_run, name=reading.picture, is_alone=is_alone)
    return found.fields.get("balls") or Field("balls")


@pytest.mark.parametrize("name", ["IMG_0412 x5.jpg", "shoebox/Kelp X5.png", "kelp ×5.jpeg"])
def test_a_number_behind_a_space_at_the_end_of_a_name_is_the_number_of_balls(name: str) -> None:
    found = balls_of(tag(name))
    assert (found.value, found.state) == (5.0, State.SURE)


@pytest.mark.parametrize(
    "name",
    [
        "scan_4x5.jpg", "10x15.jpg", "kelp 10x15.jpg", "x5.jpg", "box5.jpg", "kelp x5 front.jpg",
        "lotx5.jpg", "kelp x0.jpg", "kelp x500.jpg", "IMG_0412.x5.jpg", "kelp x5/scan.jpg",
    ],
)  # fmt: skip
def test_other_names_give_no_number(name: str) -> None:
    reading = tag(name)
    assert with_given_balls(reading, name=name) is reading


@pytest.mark.parametrize("name", ["IMG_0412_x5.jpg", "IMG_0412-x2.jpg"])
def test_a_name_that_a_program_may_have_made_is_asked_about(name: str) -> None:
    found = balls_of(tag(name))
    assert found.state is State.DOUBTFUL
    assert "enlarged" in found.reason
    assert found.others == ("1",)


def test_a_name_is_asked_about_where_the_picture_has_other_tags() -> None:
    found = balls_of(tag("sheet x5.jpg"), is_alone=False)
    assert found.state is State.DOUBTFUL
    assert "other tags" in found.reason


@pytest.mark.parametrize("name", ["a.jpg", "a x5.jpg"])
@pytest.mark.parametrize("is_alone", [True, False])
def test_what_is_given_for_a_run_is_sure(name: str, is_alone: bool) -> None:
    found = balls_of(tag(name), 5, is_alone=is_alone)
    assert (found.value, found.state) == (5.0, State.SURE)


def test_what_is_given_settles_a_doubt_that_it_bears_out() -> None:
    found = balls_of(tag("a x5.jpg", 1, doubtful("balls", 5.0, "1")))
    assert (found.value, found.state) == (5.0, State.SURE)


@pytest.mark.parametrize(
    ("reading", "for_run", "numbers"),
    [
        (tag("a.jpg", 1, sure("balls", 10.0)), 5, {"5", "10", "1"}),
        (tag("a x5.jpg", 1, sure("balls", 10.0)), None, {"5", "10", "1"}),
        (tag("a x4.jpg"), 5, {"5", "4", "1"}),
        (tag("a.jpg", 1, doubtful("balls", 10.0, "1")), 1, {"1", "10"}),
    ],
)
def test_what_is_given_against_the_tag_is_asked_about(
    reading: TagReading, for_run: int | None, numbers: set[str]
) -> None:
    found = balls_of(reading, for_run)
    assert found.state is State.DOUBTFUL
    assert {f"{found.value:g}", *found.others} == numbers


def test_nothing_given_changes_nothing() -> None:
    reading = tag("a.jpg", 1, sure("balls", 10.0))
    assert with_given_balls(reading, name="a.jpg") is reading


def test_a_run_files_as_many_balls_as_were_given(tmp_path: Path) -> None:
    filing = Filing(tmp_path / "stash.csv", balls=5)
    results = list(filing.file_all([PictureReading("a.jpg", (tag("a.jpg"),))]))
    assert [result.outcome for result in results] == [Outcome.FILED]
    (record,) = filing.cabinet.records()
    assert record.balls == 5
    assert "number of balls was given" in record.note


def test_a_picture_that_was_sent_counts_by_the_name_that_its_sender_gives(tmp_path: Path) -> None:
    filing = Filing(tmp_path / "stash.csv")
    list(filing.file(PictureReading("0a1b.jpg", (tag("0a1b.jpg"),)), "IMG_0412 x5.jpg"))
    assert [record.balls for record in filing.cabinet.records()] == [5]


def test_a_picture_with_two_tags_and_a_number_in_its_name_waits(tmp_path: Path) -> None:
    filing = Filing(tmp_path / "stash.csv")
    name = "sheet x5.jpg"
    tags = (tag(name, 1), tag(name, 2, shade="Ember", lot="77"))
    results = list(filing.file_all([PictureReading(name, tags)]))
    assert [result.outcome for result in results] == [Outcome.QUEUED] * 2
    filed = filing.cabinet.resolve(results[0].id, {"balls": "1"})
    assert filed is not None
    assert filed.balls == 1


@pytest.mark.parametrize("balls", [0, -1, 5000])
def test_no_such_number_can_be_given(balls: int, tmp_path: Path) -> None:
    with pytest.raises(BalltagError, match="type a whole number from 1"):
        Filing(tmp_path / "stash.csv", balls=balls)


def test_a_reading_without_the_field_takes_a_number() -> None:
    assert record_from_reading(with_given_balls(tag("a.jpg"), 7, name="a.jpg")).balls == 7
