"""Answers teach makers, ranges and shades, never lots; what they taught can be taken back."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import doubtful, tag, waiting_tag
from typer.testing import CliRunner, Result

from intake.cli import app
from intake.errors import BadStash, CannotUndo
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.knowledge import Knowledge
from intake.filing.learnt import Kind, Learnt, is_slip
from intake.filing.record import Record
from intake.records import Field, Outcome, PictureReading, State, TagReading, Value
from intake.run import Filing

SEEN_ALIKE = {"unanimous": 1.0, "witnessed": 1.0}


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    return open_cabinet(tmp_path / "stash.csv")


def unsure(name: str, value: str, *others: str) -> Field:
    return replace(doubtful(name, value, *others), cues=SEEN_ALIKE)


def answered(cabinet: Cabinet, reading: TagReading, **answers: str) -> Record:
    record = cabinet.resolve(cabinet.take(reading).id, answers)
    assert record is not None
    return record


def taught(cabinet: Cabinet) -> set[tuple[str, ...]]:
    return {
        (lesson.kind.value, lesson.field, lesson.read, lesson.meant)
        for lesson in cabinet.learnt.lessons()
    }


def known(cabinet: Cabinet) -> Knowledge:
    knowledge = Knowledge(open_cabinet(cabinet.stash.path))
    knowledge.refresh()
    return knowledge


# What is learnt


def test_an_answer_that_differs_teaches_the_name_and_the_slip(cabinet: Cabinet) -> None:
    record = answered(cabinet, tag("a.jpg", 1, unsure("shade", "Ke1p")), shade="Kelp")
    assert taught(cabinet) == {("name", "shade", "", "Kelp"), ("slip", "shade", "Ke1p", "Kelp")}
    name = cabinet.learnt.lessons()[0]
    assert (name.maker, name.range, name.shade_code) == ("Quillstow Spinners", "Sluicegate", "041")
    assert name.record == record.id


def test_an_answer_that_confirms_teaches_the_name_alone(cabinet: Cabinet) -> None:
    answered(cabinet, tag("a.jpg", 1, unsure("maker", "Weirholt Mill"), unsure("range", "Osier")))
    assert taught(cabinet) == {
        ("name", "maker", "", "Weirholt Mill"),
        ("name", "range", "", "Osier"),
    }


def test_another_text_of_the_tag_is_no_slip(cabinet: Cabinet) -> None:
    reading = tag("a.jpg", 1, unsure("maker", "Osier"), unsure("range", "Weirholt Mill"))
    answered(cabinet, reading, maker="Weirholt Mill", range="Osier")
    assert {kind for kind, *_ in taught(cabinet)} == {"name"}


def test_what_was_sure_or_is_not_there_teaches_nothing(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg"))
    answered(cabinet, waiting_tag("b.jpg", shade="Samphire"), lot="0031")
    answered(cabinet, tag("c.jpg", 1, unsure("range", "Osier"), shade="Teasel"), range="")
    assert taught(cabinet) == set()


LOTS_AND_CODES = [("lot", "0O12", "0012"), ("shade_code", "O41", "041"), ("barcode", "4", "40")]


@pytest.mark.parametrize(("name", "read", "meant"), LOTS_AND_CODES)
def test_lots_and_codes_are_never_learnt(
    cabinet: Cabinet, name: str, read: str, meant: str
) -> None:
    record = answered(cabinet, tag("a.jpg", 1, unsure(name, read)), **{name: meant})
    cabinet.correct({record.id: {name: "77"}})
    assert taught(cabinet) == set()
    again = tag("b.jpg", 1, Field(name, read, 0.99, State.SURE, cues=SEEN_ALIKE))
    assert known(cabinet).applied(again).fields[name] == again.fields[name]


def test_a_correction_teaches_as_an_answer_does(cabinet: Cabinet) -> None:
    record = cabinet.file(tag("a.jpg", shade="Ke1p"))
    cabinet.correct({record.id: {"shade": "Kelp"}})
    assert taught(cabinet) == {("name", "shade", "", "Kelp"), ("slip", "shade", "Ke1p", "Kelp")}


def test_the_same_lesson_is_kept_once(cabinet: Cabinet) -> None:
    for number in range(1, 4):
        reading = tag("a.jpg", number, unsure("shade", "Ke1p"), lot=f"00{number}")
        answered(cabinet, reading, shade="Kelp")
    assert len(cabinet.learnt.lessons()) == 2


def test_answers_in_part_teach_too(cabinet: Cabinet) -> None:
    reading = tag("a.jpg", 1, unsure("shade", "Ke1p"), doubtful("lot", "0O12", "0012"))
    tag_id = cabinet.take(reading).id
    cabinet.settle({tag_id: {"shade": "Kelp"}})
    assert ("slip", "shade", "Ke1p", "Kelp") in taught(cabinet)
    assert tag_id in cabinet.waiting()


@pytest.mark.parametrize(
    ("read", "meant", "expected"),
    [
        ("Ke1p", "Kelp", True),
        ("Kclp", "Kelp", True),
        ("KELP", "Kelp", False),
        ("", "Kelp", False),
        ("Quillstow Spinners", "Kelp", False),
    ],
)
def test_a_slip_is_a_misreading_of_the_same_print(read: str, meant: str, expected: bool) -> None:
    assert is_slip(read, meant) is expected


# What lessons do


def sure(name: str, value: Value) -> Field:
    return Field(name, value, 0.98, State.SURE, cues=SEEN_ALIKE)


def test_a_maker_and_range_that_were_confirmed_are_not_asked_about_again(cabinet: Cabinet) -> None:
    def reading(picture: str) -> TagReading:
        maker, range_ = unsure("maker", "Osier"), unsure("range", "Weirholt Mill")
        return tag(picture, 1, maker, range_, lot=picture)

    answered(cabinet, reading("a.jpg"), maker="Weirholt Mill", range="Osier")
    applied = known(cabinet).applied(reading("b.jpg"))
    taken = cabinet.take(applied)
    assert taken.record is not None
    assert (taken.record.maker, taken.record.range) == ("Weirholt Mill", "Osier")
    assert "known" in taken.record.note


def test_a_run_uses_what_was_answered_while_it_goes_on(cabinet: Cabinet) -> None:
    def picture(name: str) -> PictureReading:
        fields = unsure("maker", "Weirholt Mill"), unsure("range", "Osier")
        return PictureReading(name, (tag(name, 1, *fields, lot=name),), None)

    filing = Filing(cabinet.stash.path)
    first, second = (next(filing.file(picture(name))) for name in ("a.jpg", "b.jpg"))
    assert [first.outcome, second.outcome] == [Outcome.QUEUED, Outcome.QUEUED]
    cabinet.resolve(first.id, {})
    filing.learn_shades()
    assert next(filing.file(picture("c.jpg"))).outcome is Outcome.FILED
    cabinet.unlearn("1")
    cabinet.undo("1")
    filing.learn_shades()
    cabinet.withdraw([record.id for record in cabinet.records()])
    filing.learn_shades()
    assert next(filing.file(picture("d.jpg"))).outcome is Outcome.QUEUED


def test_a_run_knows_the_sure_maker_of_a_tag_that_waits_for_another_reason(
    cabinet: Cabinet,
) -> None:
    def file(picture: str, *fields: Field) -> Outcome:
        reading = PictureReading(picture, (tag(picture, 1, *fields, lot=picture),), None)
        return next(filing.file(reading)).outcome

    filing = Filing(cabinet.stash.path)
    told = sure("maker", "Weirholt Mill"), sure("range", "Osier")
    asked = unsure("maker", "Weirholt Mill"), sure("range", "Osier")
    assert file("a.jpg", *asked) is Outcome.QUEUED
    assert file("b.jpg", *told, unsure("care", "hand wash")) is Outcome.QUEUED
    assert file("c.jpg", *asked) is Outcome.FILED


def test_a_shade_that_was_answered_is_put_right_in_the_next_run(cabinet: Cabinet) -> None:
    answered(cabinet, tag("a.jpg", 1, unsure("shade", "Ke1p")), shade="Kelp")
    cabinet.withdraw([cabinet.records()[0].id])
    field = known(cabinet).applied(tag("b.jpg", 1, sure("shade", "Ke1p"))).fields["shade"]
    assert (field.value, field.state) == ("Kelp", State.SURE)


def test_what_a_shade_card_knows_is_known_with_all_else(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg"))
    knowledge = known(cabinet)
    assert knowledge.shades.everything.same("KELP") == ("Kelp",)
    assert knowledge.names.pair("quillstow spinners", "sluicegate") is not None


def test_knowledge_follows_what_is_filed_corrected_and_unlearnt(cabinet: Cabinet) -> None:
    knowledge = Knowledge(cabinet)
    knowledge.refresh()
    assert knowledge.names.maker("Weirholt Mill") == ""
    record = answered(cabinet, tag("a.jpg", 1, unsure("maker", "Weirholt Mi11")), maker="W Mill")
    knowledge.refresh()
    assert knowledge.names.maker("W Mill") == "W Mill"
    cabinet.correct({record.id: {"maker": "Weirholt Mill"}})
    knowledge.refresh()
    assert knowledge.names.maker("W Mill") == ""
    assert knowledge.names.maker("Weirholt Mill") == "Weirholt Mill"
    cabinet.withdraw([record.id])
    for lesson in cabinet.learnt.lessons():
        cabinet.unlearn(lesson.id)
    knowledge.refresh()
    assert knowledge.names.maker("Weirholt Mill") == ""


# Taken back


def test_a_lesson_that_is_taken_back_is_gone_for_all(cabinet: Cabinet) -> None:
    record = answered(cabinet, tag("a.jpg", 1, unsure("shade", "Ke1p")), shade="Kelp")
    slip = next(one for one in cabinet.learnt.lessons() if one.kind is Kind.SLIP)
    assert cabinet.unlearn(slip.id) == slip
    for again in (cabinet, open_cabinet(cabinet.stash.path)):
        assert taught(again) == {("name", "shade", "", "Kelp")}
        with pytest.raises(CannotUndo, match="no lesson"):
            again.unlearn(slip.id)
    assert cabinet.records() == [record]


def test_a_lesson_goes_and_comes_with_the_answer_that_taught_it(cabinet: Cabinet) -> None:
    answered(cabinet, tag("a.jpg", 1, unsure("shade", "Ke1p")), shade="Kelp")
    lessons = taught(cabinet)
    (back,) = cabinet.undo(cabinet.history.last_stroke())
    assert taught(cabinet) == set()
    cabinet.undo(back.stroke)
    assert taught(cabinet) == lessons


def test_a_lesson_that_was_corrected_since_does_not_hold(cabinet: Cabinet) -> None:
    record = answered(cabinet, tag("a.jpg", 1, unsure("shade", "Ke1p")), shade="Kemp")
    cabinet.correct({record.id: {"shade": "Kelp"}})
    assert ("name", "shade", "", "Kemp") not in taught(cabinet)
    assert ("slip", "shade", "Ke1p", "Kemp") not in taught(cabinet)
    assert ("name", "shade", "", "Kelp") in taught(cabinet)


def test_what_was_taken_back_can_be_learnt_anew(cabinet: Cabinet) -> None:
    for number in (1, 2):
        reading = tag("a.jpg", number, unsure("shade", "Ke1p"), lot=f"00{number}")
        answered(cabinet, reading, shade="Kelp")
        assert len(taught(cabinet)) == 2
        for lesson in cabinet.learnt.lessons():
            cabinet.unlearn(lesson.id)
        assert taught(cabinet) == set()


def test_a_file_that_is_no_list_of_lessons_is_said_so(cabinet: Cabinet) -> None:
    path = cabinet.stash.path.with_suffix(".learnt.jsonl")
    for text in ("diary\n", '{"version":1}\n{"song":"1"}\n', '{"version":1}\n{"forgotten":"1"}\n'):
        path.write_text(text)
        with pytest.raises(BadStash, match="list of lessons"):
            Learnt(path, cabinet.history).lessons()


def test_an_answer_is_filed_though_its_lesson_cannot_be_written(cabinet: Cabinet) -> None:
    # A folder in the place of the file: nothing can be written there.
    cabinet.stash.path.with_suffix(".learnt.jsonl").mkdir()
    tag_id = cabinet.take(tag("a.jpg", 1, unsure("shade", "Ke1p"))).id
    record = cabinet.resolve(tag_id, {"shade": "Kelp"})
    assert cabinet.records() == [record]


# The commands


def run(cabinet: Cabinet, *words: str) -> Result:
    return CliRunner().invoke(app, [*words, "--stash", str(cabinet.stash.path)])


def test_lessons_are_listed_and_taken_back_by_command(cabinet: Cabinet) -> None:
    assert "Nothing was learnt yet" in run(cabinet, "learnt").output
    answered(cabinet, tag("a.jpg", 1, unsure("shade", "Ke1p")), shade="Kelp")
    listed = " ".join(run(cabinet, "learnt").output.split())
    assert "shade Kelp with code 041" in listed
    assert "shade read as 'Ke1p' is Kelp" in listed
    lines = [json.loads(line) for line in run(cabinet, "learnt", "--json").output.splitlines()]
    assert [line["kind"] for line in lines] == ["slip", "name"]
    assert "No longer used" in run(cabinet, "unlearn", *(line["id"] for line in lines)).output
    assert taught(cabinet) == set()
    assert isinstance(run(cabinet, "unlearn", "7").exception, CannotUndo)
