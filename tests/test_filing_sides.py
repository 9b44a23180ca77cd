"""Front and back of one tag become one record: asked, unless the files are named so."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from filing_tags import doubtful, record, tag
from rich.console import Console

from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet, Taken, open_cabinet
from intake.filing.changes import Action
from intake.filing.neighbours import Nearness, are_named_sides, follow, nearness
from intake.filing.sides import OTHER_SIDE, SIDE, TAG_OF_ITS_OWN
from intake.records import Outcome, TagReading, Value
from intake.terminal_review import review


def front(picture: str = "IMG_0041.jpg", **values: Value) -> TagReading:
    """The side with the names: neither lot nor figures."""
    plain = dict.fromkeys(("lot", "fibre", "length_m", "mass_g", "care", "shade_code"))
    return tag(picture, **{**plain, **values})


def back(picture: str = "IMG_0042.jpg", **values: Value) -> TagReading:
    """The side with lot and figures: neither range nor shade."""
    plain = dict.fromkeys(("range", "shade", "shade_code", "weight_class"))
    return tag(picture, **{**plain, **values})


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    return open_cabinet(tmp_path / "stash.csv")


def asked(taken: Taken) -> list[str]:
    return [doubt.field for doubt in taken.doubts]


def both_asked(cabinet: Cabinet) -> tuple[str, str]:
    one, other = cabinet.take(front()), cabinet.take(back())
    assert asked(one) == ["lot"]
    assert asked(other) == [SIDE, "shade"]
    return one.id, other.id


def test_the_back_after_its_front_is_asked_about(cabinet: Cabinet) -> None:
    front_id, back_id = both_asked(cabinet)
    doubt = cabinet.get(back_id).doubts[0]
    assert f"record {front_id} from picture IMG_0041.jpg" in doubt.reason
    assert doubt.candidates == (OTHER_SIDE, TAG_OF_ITS_OWN)


def test_two_sides_become_one_record_with_what_both_say(cabinet: Cabinet) -> None:
    front_id, back_id = both_asked(cabinet)
    assert cabinet.further_doubts(back_id, {SIDE: OTHER_SIDE}) == []
    made = cabinet.resolve(back_id, {SIDE: OTHER_SIDE})
    assert made is not None
    assert (made.id, made.shade, made.range, made.weight_class) == (
        back_id, "Kelp", "Sluicegate", "4 ply",
    )  # fmt: skip
    assert (made.lot, made.length_m, made.mass_g) == ("0012", 210.0, 50.0)
    assert "other side: IMG_0041.jpg, page 1, tag 1" in made.note
    assert cabinet.waiting() == []
    assert cabinet.records() == [made]
    assert cabinet.pictures.load(front_id)
    assert cabinet.pictures.load(back_id)


def test_joining_can_be_taken_back_and_made_again(cabinet: Cabinet) -> None:
    front_id, back_id = both_asked(cabinet)
    made = cabinet.resolve(back_id, {SIDE: OTHER_SIDE})
    (stroke,) = {change.stroke for change in cabinet.history.changes()}
    undone = cabinet.undo(stroke)
    assert cabinet.records() == []
    assert cabinet.waiting() == [front_id, back_id]
    cabinet.undo(undone[0].stroke)
    assert cabinet.records() == [made]
    assert cabinet.waiting() == []


def test_putting_either_side_back_parts_them(cabinet: Cabinet) -> None:
    front_id, back_id = both_asked(cabinet)
    for side in (front_id, back_id):
        cabinet.resolve(back_id, {SIDE: OTHER_SIDE})
        cabinet.put_back(side)
        assert cabinet.waiting() == [front_id, back_id]
        assert cabinet.records() == []


def test_pictures_of_both_sides_add_nothing_again(cabinet: Cabinet) -> None:
    _, back_id = both_asked(cabinet)
    cabinet.resolve(back_id, {SIDE: OTHER_SIDE})
    again = cabinet.take(front())
    assert again.outcome is Outcome.ALREADY
    assert again.before is not None
    assert again.before.how == f"the other side of record {back_id}"
    assert cabinet.take(back()).outcome is Outcome.ALREADY
    reopened = open_cabinet(cabinet.stash.path)
    assert reopened.take(front()).outcome is Outcome.ALREADY


def test_a_tag_of_its_own_keeps_its_own_questions(cabinet: Cabinet) -> None:
    front_id, back_id = both_asked(cabinet)
    made = cabinet.resolve(back_id, {SIDE: TAG_OF_ITS_OWN, "shade": "Moss"})
    assert made is not None
    assert (made.shade, made.range) == ("Moss", "")
    assert cabinet.waiting() == [front_id]


def test_whether_it_is_the_other_side_must_be_answered(cabinet: Cabinet) -> None:
    _, back_id = both_asked(cabinet)
    with pytest.raises(BadAnswer, match="its other side"):
        cabinet.resolve(back_id, {"shade": "Kelp"})
    with pytest.raises(BadAnswer, match="its other side"):
        cabinet.resolve(back_id, {SIDE: "perhaps", "shade": "Kelp"})


def test_sides_that_say_otherwise_are_asked_about(cabinet: Cabinet) -> None:
    cabinet.take(front(weight_class="DK"))
    back_id = cabinet.take(back(weight_class="aran")).id
    answers = {SIDE: OTHER_SIDE}
    (doubt,) = cabinet.further_doubts(back_id, answers)
    assert (doubt.field, doubt.candidates) == ("weight_class", ("aran", "DK"))
    with pytest.raises(BadAnswer, match="one side of the tag says aran, the other DK"):
        cabinet.resolve(back_id, answers)
    made = cabinet.resolve(back_id, {**answers, "weight_class": "DK"})
    assert made is not None
    assert made.weight_class == "DK"


def test_a_doubtful_value_is_borne_out_by_the_other_side(cabinet: Cabinet) -> None:
    cabinet.take(front(maker="Quillstow Spinners"))
    unsure = tag(
        "IMG_0042.jpg", 1, doubtful("maker", "QUILLSTOW SPINNERS"),
        range=None, shade=None, shade_code=None, weight_class=None,
    )  # fmt: skip
    taken = cabinet.take(unsure)
    assert asked(taken) == [SIDE, "maker", "shade"]
    assert cabinet.further_doubts(taken.id, {SIDE: OTHER_SIDE}) == []
    assert cabinet.from_other_side(taken.id, {SIDE: OTHER_SIDE}).keys() >= {"maker", "shade"}


def test_the_other_side_of_a_filed_tag_fills_in_its_record(cabinet: Cabinet) -> None:
    filed = cabinet.take(back(shade="Kelp"))
    assert filed.record is not None
    taken = cabinet.take(front("IMG_0045.jpg"))
    assert asked(taken) == ["lot"]  # pictures that lie further apart are not two sides
    taken = cabinet.take(front("IMG_0041.jpg"))
    assert asked(taken)[0] == SIDE
    made = cabinet.resolve(taken.id, {SIDE: OTHER_SIDE})
    assert made is not None
    assert (made.id, made.range, made.lot) == (filed.id, "Sluicegate", "0012")
    assert [change.action for change in cabinet.history.changes()] == [
        Action.CORRECTED, Action.JOINED,
    ]  # fmt: skip
    cabinet.undo(cabinet.history.last_stroke())
    assert cabinet.record(filed.id) == filed.record
    assert taken.id in cabinet.waiting()


def test_files_that_are_named_as_sides_are_joined_unasked(cabinet: Cabinet) -> None:
    cabinet.take(front("kelp_front.jpg"))
    taken = cabinet.take(back("kelp_back.jpg"))
    assert taken.outcome is Outcome.FILED
    assert taken.record is not None
    assert (taken.record.shade, taken.record.lot) == ("Kelp", "0012")
    assert cabinet.waiting() == []
    cabinet.undo(cabinet.history.last_stroke())
    assert len(cabinet.waiting()) == 2


def test_named_sides_with_a_doubt_left_are_asked_about(cabinet: Cabinet) -> None:
    cabinet.take(front("kelp_front.jpg"))
    unsure = tag(
        "kelp_back.jpg", 1, doubtful("lot", "0O12", "0012"),
        range=None, shade=None, shade_code=None, weight_class=None,
    )  # fmt: skip
    assert asked(cabinet.take(unsure)) == [SIDE, "lot", "shade"]
    assert cabinet.records() == []


@pytest.mark.parametrize(
    "other",
    [
        back("IMG_0090.jpg"),  # far from it
        back("IMG_0042.jpg", maker="Wend Valley Mill"),  # says otherwise
        back("IMG_0042.jpg", lot=None),  # no lot on either
        tag("IMG_0042.jpg", shade=None, lot="0012"),
    ],
    ids=["far", "another maker", "no lot", "the same face"],
)
def test_what_cannot_be_the_other_side_is_not_asked_about(
    cabinet: Cabinet, other: TagReading
) -> None:
    cabinet.take(tag("IMG_0041.jpg", lot=None) if other.fields.get("range") else front())
    assert SIDE not in asked(cabinet.take(other))


def test_a_tag_with_two_sides_has_no_third(cabinet: Cabinet) -> None:
    _, back_id = both_asked(cabinet)
    cabinet.resolve(back_id, {SIDE: OTHER_SIDE})
    assert asked(cabinet.take(front("IMG_0043.jpg"))) == ["lot"]


def test_the_terminal_asks_for_the_other_side_and_nothing_it_tells(cabinet: Cabinet) -> None:
    front_id, _ = both_asked(cabinet)
    said = io.StringIO()
    console = Console(file=said, width=200)
    summary = review(cabinet, console, io.StringIO("s\n1\n\n"))
    assert summary.filed == 1
    assert str(cabinet.pictures.path(front_id)) in said.getvalue()
    (made,) = cabinet.records()
    assert (made.shade, made.lot) == ("Kelp", "0012")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("box/kelp_front.jpg", "box/kelp_back.jpg"),
        ("Scan 4 Rückseite.png", "Scan 4 Vorderseite.png"),
        ("12-recto.tif", "12-verso.tif"),
    ],
)
def test_names_of_sides_are_known(one: str, other: str) -> None:
    assert are_named_sides(one, other)
    assert nearness(one, "1", other, "1") is Nearness.NAMED


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("kelp_front.jpg", "moss_back.jpg"),
        ("a/kelp_front.jpg", "b/kelp_back.jpg"),
        ("frontier.jpg", "backier.jpg"),
        ("kelp_front.jpg", "kelp_front.jpg"),
    ],
)
def test_other_names_are_not_those_of_sides(one: str, other: str) -> None:
    assert not are_named_sides(one, other)


def test_files_follow_each_other_by_one_number() -> None:
    assert follow("IMG_0041.jpg", "IMG_0042.jpg")
    assert follow("IMG_0099.jpg", "IMG_0100.jpg")
    assert not follow("IMG_0041.jpg", "IMG_0043.jpg")
    assert not follow("a/IMG_0041.jpg", "b/IMG_0042.jpg")
    assert not follow("2024_0041.jpg", "2025_0042.jpg")


def test_a_record_of_another_picture_is_no_side(cabinet: Cabinet) -> None:
    assert record().note == ""
    assert nearness("a.pdf", "1", "a.pdf", "2") is Nearness.NEAR
    assert nearness("a.pdf", "1", "a.pdf", "4") is Nearness.FAR
