"""The same doubt on many waiting tags is answered once, seen before and taken back whole."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from filing_tags import doubtful, sure, tag

from intake.errors import BadStash, CannotUndo
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.changes import Action
from intake.filing.groups import Foreseen, Group, answer_group, foresee, group_answers, grouped
from intake.filing.knowledge import Knowledge
from intake.filing.offers import Offer, accept, offers
from intake.filing.queue import NotWaiting
from intake.filing.same import ANOTHER_BALL, REPEAT
from intake.records import Field, Value

SEEN_ALIKE = {"unanimous": 1.0, "witnessed": 1.0}


@pytest.fixture(params=["stash.csv", pytest.param("stash.parquet", marks=pytest.mark.slow)])
def cabinet(request: pytest.FixtureRequest, tmp_path: Path) -> Cabinet:
    return open_cabinet(tmp_path / str(request.param))


def wait(cabinet: Cabinet, picture: str, *fields: Field, **values: Value) -> str:
    """A tag of a lot of its own that waits for answers about ``fields``.  Its id."""
    reading = tag(picture, 1, *fields, **{"lot": f"lot of {picture}", **values})
    return cabinet.take(reading).id


def shade(value: str, *others: str) -> Field:
    return doubtful("shade", value, *others)


@pytest.fixture
def kelp(cabinet: Cabinet) -> list[str]:
    """Three tags whose shade is spelled three ways, and one with a lot to ask besides."""
    return [
        wait(cabinet, "a.jpg", shade("Sea Kelp", "Sea Help")),
        wait(cabinet, "b.jpg", shade("SEA KELP", "Sea Kemp")),
        wait(cabinet, "c.jpg", shade("Sea-Kelp", "Sea Kemp"), doubtful("lot", "7I", "71")),
    ]


def only(groups: list[Group]) -> Group:
    (group,) = groups
    return group


# Groups


def test_the_same_doubt_is_one_group_however_its_reading_is_spelled(
    cabinet: Cabinet, kelp: list[str]
) -> None:
    wait(cabinet, "d.jpg", shade("Samphire"))
    group = only(grouped(cabinet))
    assert (group.field, group.maker, list(group.tags)) == ("shade", "Quillstow Spinners", kelp)
    assert set(group.readings) == {"Sea Kelp", "SEA KELP", "Sea-Kelp"}
    assert "Sea Kemp" in group.candidates
    assert group.reasons == ("the two readers differ",)


def test_tags_of_other_makers_are_another_group(cabinet: Cabinet) -> None:
    for picture in ("a.jpg", "b.jpg"):
        wait(cabinet, picture, shade("Kelp"))
    for picture in ("c.jpg", "d.jpg", "e.jpg"):
        wait(cabinet, picture, shade("Kelp"), maker="Weirholt Mill")
    assert [(len(group.tags), group.maker) for group in grouped(cabinet)] == [
        (3, "Weirholt Mill"),
        (2, "Quillstow Spinners"),
    ]


def test_a_maker_never_seen_is_one_group_whatever_else_the_tags_say(cabinet: Cabinet) -> None:
    tags = [
        wait(cabinet, f"{number}.jpg", doubtful("maker", "Weirholt Mill"), shade=f"Tide {number}")
        for number in range(3)
    ]
    assert only(grouped(cabinet)).tags == tuple(tags)


@pytest.mark.parametrize("name", ["lot", "shade_code", "barcode"])
def test_lots_and_codes_are_never_grouped(cabinet: Cabinet, name: str) -> None:
    for number in range(3):
        wait(cabinet, f"{number}.jpg", doubtful(name, "0O12"), shade=f"Tide {number}")
    assert len(cabinet.waiting()) == 3
    assert grouped(cabinet) == []


def test_what_was_not_read_at_all_is_not_grouped(cabinet: Cabinet) -> None:
    for number in range(3):
        wait(cabinet, f"{number}.jpg", shade=None, shade_code=None)
    assert grouped(cabinet) == []


def test_numbers_are_the_same_reading_only_digit_by_digit(cabinet: Cabinet) -> None:
    for number, length_m in enumerate((87.5, 87.5, 875.0)):
        wait(cabinet, f"{number}.jpg", doubtful("length_m", length_m), shade=f"Tide {number}")
    group = only(grouped(cabinet))
    assert (group.readings, len(group.tags)) == (("87.5",), 2)


def test_a_group_keeps_its_id_while_tags_join_and_leave(cabinet: Cabinet, kelp: list[str]) -> None:
    before = only(grouped(cabinet))
    joined = wait(cabinet, "d.jpg", shade("sea kelp"))
    cabinet.discard(kelp[0])
    after = only(grouped(open_cabinet(cabinet.stash.path)))
    assert after.id == before.id
    assert after.tags == (kelp[1], kelp[2], joined)


# What an answer does


def test_an_answer_is_foreseen_tag_by_tag(cabinet: Cabinet, kelp: list[str]) -> None:
    group = only(grouped(cabinet))
    assert foresee(cabinet, group_answers(cabinet, group, "Kelp")) == [
        Foreseen(kelp[0], "shade", "Sea Kelp", "Kelp", files=True),
        Foreseen(kelp[1], "shade", "SEA KELP", "Kelp", files=True),
        Foreseen(kelp[2], "shade", "Sea-Kelp", "Kelp", files=False),
    ]
    assert cabinet.waiting() == kelp
    assert cabinet.history.changes() == []


def test_one_answer_files_what_has_no_other_doubt_and_settles_the_rest(
    cabinet: Cabinet, kelp: list[str]
) -> None:
    changes = answer_group(cabinet, only(grouped(cabinet)), "Kelp")
    assert [(change.record, change.action) for change in changes] == [
        (kelp[0], Action.ANSWERED),
        (kelp[1], Action.ANSWERED),
        (kelp[2], Action.SETTLED),
    ]
    assert len({change.stroke for change in changes}) == 1
    assert (changes[2].old, changes[2].new) == ({"shade": "Sea-Kelp"}, {"shade": "Kelp"})
    assert [record.shade for record in cabinet.records()] == ["Kelp", "Kelp"]
    for again in (cabinet, open_cabinet(cabinet.stash.path)):
        assert again.waiting() == [kelp[2]]
        assert [doubt.field for doubt in again.get(kelp[2]).doubts] == ["lot"]
        assert again.get(kelp[2]).reading.fields["shade"].value == "Kelp"
        assert grouped(again) == []
    record = cabinet.resolve(kelp[2], {"lot": "71"})
    assert record is not None
    assert (record.shade, record.lot) == ("Kelp", "71")


def test_an_answer_to_a_group_is_taken_back_whole(cabinet: Cabinet, kelp: list[str]) -> None:
    before = [cabinet.get(tag_id) for tag_id in kelp]
    group = only(grouped(cabinet))
    stroke = answer_group(cabinet, group, "Kelp")[0].stroke
    later = open_cabinet(cabinet.stash.path)
    back = later.undo(stroke)[0].stroke
    assert [later.get(tag_id) for tag_id in later.waiting()] == before
    assert later.records() == []
    assert grouped(cabinet) == [group]
    later.undo(back)
    assert cabinet.waiting() == [kelp[2]]
    assert cabinet.get(kelp[2]).reading.fields["shade"].value == "Kelp"


def test_an_answer_in_part_that_was_built_upon_is_not_taken_back(
    cabinet: Cabinet, kelp: list[str]
) -> None:
    stroke = answer_group(cabinet, only(grouped(cabinet)), "Kelp")[0].stroke
    cabinet.resolve(kelp[2], {"lot": "71"})
    with pytest.raises(CannotUndo, match="answered after"):
        cabinet.undo(stroke)
    cabinet.put_back(kelp[2])
    assert [doubt.field for doubt in cabinet.get(kelp[2]).doubts] == ["lot"]


def test_tags_that_were_answered_meanwhile_are_left_out(cabinet: Cabinet, kelp: list[str]) -> None:
    group = only(grouped(cabinet))
    open_cabinet(cabinet.stash.path).resolve(kelp[0], {"shade": "Kemp"})
    assert [change.record for change in answer_group(cabinet, group, "Kelp")] == kelp[1:]
    with pytest.raises(NotWaiting, match="meanwhile"):
        answer_group(cabinet, group, "Kelp")
    assert cabinet.record(kelp[0]).shade == "Kemp"


def test_an_answer_that_the_field_cannot_hold_changes_nothing(cabinet: Cabinet) -> None:
    tags = [
        wait(cabinet, f"{number}.jpg", doubtful("mass_g", 50.0), shade=f"Tide {number}")
        for number in range(2)
    ]
    group = only(grouped(cabinet))
    for act in (answer_group, lambda *args: foresee(args[0], group_answers(*args))):
        with pytest.raises(BadAnswer):
            act(cabinet, group, "half a pound")
    assert cabinet.waiting() == tags
    assert cabinet.history.changes() == []


def test_tags_that_one_answer_makes_repeats_are_asked_about(cabinet: Cabinet) -> None:
    tags = [wait(cabinet, picture, shade("Kelp"), lot="0012") for picture in ("a.jpg", "b.jpg")]
    assert [doubt.field for doubt in cabinet.get(tags[0]).doubts] == ["shade"]
    answer_group(cabinet, only(grouped(cabinet, least=1)[:1]), "Samphire")
    changes = cabinet.history.changes()
    filed = [change.record for change in changes if change.action is Action.ANSWERED]
    (left,) = set(tags) - set(filed)
    assert REPEAT in [doubt.field for doubt in cabinet.get(left).doubts]
    assert cabinet.resolve(left, {REPEAT: ANOTHER_BALL}) is not None
    assert [record.shade for record in cabinet.records()] == ["Samphire", "Samphire"]


def test_two_tags_that_become_the_same_at_one_stroke_are_not_both_filed(cabinet: Cabinet) -> None:
    tags = [
        wait(cabinet, "a.jpg", shade("Sea Kelp"), lot="0012"),
        wait(cabinet, "b.jpg", shade("Sea Help"), lot="0012"),
    ]
    changes = cabinet.settle({tag_id: {"shade": "Kelp"} for tag_id in tags})
    assert [change.action for change in changes] == [Action.ANSWERED, Action.SETTLED]
    assert cabinet.waiting() == tags[1:]
    assert [doubt.field for doubt in cabinet.get(tags[1]).doubts] == [REPEAT]


def test_what_one_window_answers_the_other_sees(cabinet: Cabinet, kelp: list[str]) -> None:
    other = open_cabinet(cabinet.stash.path)
    assert grouped(other) == grouped(cabinet)
    cabinet.settle({kelp[2]: {"shade": "Kelp"}})
    assert only(grouped(other)).tags == tuple(kelp[:2])
    other.undo(other.history.last_stroke())
    assert only(grouped(cabinet)).tags == tuple(kelp)


def test_neither_pictures_nor_print_are_read_to_know_what_is_asked(
    cabinet: Cabinet, kelp: list[str]
) -> None:
    for tag_id in kelp:
        picture = cabinet.pictures.path(tag_id)
        picture.unlink()
        picture.mkdir()  # reading it would fail
        file = cabinet.queue.folder / f"{tag_id}.json"
        head, _, _ = file.read_bytes().partition(b"\n")
        file.write_bytes(head + b"\n no JSON")
    again = open_cabinet(cabinet.stash.path)
    assert again.waiting() == kelp
    assert only(grouped(again)).tags == tuple(kelp)
    assert offers(again, known(again)) == []
    answer_group(again, only(grouped(again)), "Kelp")
    with pytest.raises(BadStash):
        again.get(kelp[2])


# Offers


def known(cabinet: Cabinet) -> Knowledge:
    knowledge = Knowledge(cabinet)
    knowledge.refresh()
    return knowledge


def test_a_shade_that_was_answered_is_offered_to_tags_that_read_alike(cabinet: Cabinet) -> None:
    first = wait(cabinet, "a.jpg", shade("Ke1p"))
    alike = wait(cabinet, "b.jpg", shade("KE1P"), shade_code=None)
    spelled = wait(cabinet, "c.jpg", shade("KELP"))
    wait(cabinet, "d.jpg", shade("Ke1p"), maker="Weirholt Mill")
    wait(cabinet, "e.jpg", shade("Kemp"))
    assert offers(cabinet, known(cabinet)) == []
    cabinet.resolve(first, {"shade": "Kelp"})
    assert offers(cabinet, known(cabinet)) == [
        Offer(alike, "shade", "KE1P", "Kelp", "'KE1P' was Kelp before"),
        Offer(spelled, "shade", "KELP", "Kelp", "a known shade of Quillstow Spinners"),
    ]
    accept(cabinet, offers(cabinet, known(cabinet)))
    assert [cabinet.record(tag_id).shade for tag_id in (alike, spelled)] == ["Kelp", "Kelp"]


def test_a_shade_is_not_offered_against_its_code(cabinet: Cabinet) -> None:
    cabinet.take(tag("a.jpg", shade="Kelp", shade_code="041"))
    wait(cabinet, "b.jpg", shade("KELP"), shade_code="042")
    assert offers(cabinet, known(cabinet)) == []


def test_a_maker_and_range_that_were_told_apart_are_offered_together(cabinet: Cabinet) -> None:
    def crossed(picture: str) -> str:
        maker, range_ = doubtful("maker", "Osier"), doubtful("range", "Weirholt Mill")
        fields = (replace(field, cues=SEEN_ALIKE) for field in (maker, range_))
        return wait(cabinet, picture, *fields)

    first, other = crossed("a.jpg"), crossed("b.jpg")
    cabinet.resolve(first, {"maker": "Weirholt Mill", "range": "Osier"})
    found = offers(cabinet, known(cabinet))
    assert {(offer.tag, offer.field, offer.old, offer.new) for offer in found} == {
        (other, "maker", "Osier", "Weirholt Mill"),
        (other, "range", "Weirholt Mill", "Osier"),
    }
    (change,) = accept(cabinet, found)
    assert (change.new["maker"], change.new["range"]) == ("Weirholt Mill", "Osier")


def test_the_sure_maker_of_a_tag_that_waits_is_offered_to_the_others(cabinet: Cabinet) -> None:
    maker = replace(doubtful("maker", "Weirholt Mill"), cues=SEEN_ALIKE)
    range_ = replace(sure("range", "Osier"), cues=SEEN_ALIKE)
    asked = wait(cabinet, "a.jpg", maker, range_)
    assert offers(cabinet, known(cabinet)) == []
    wait(cabinet, "b.jpg", doubtful("care", "hand wash"), maker="Weirholt Mill", range="Osier")
    (offer,) = offers(cabinet, known(cabinet))
    assert (offer.tag, offer.field, offer.new) == (asked, "maker", "Weirholt Mill")


def test_a_lot_is_never_offered(cabinet: Cabinet) -> None:
    first = wait(cabinet, "a.jpg", doubtful("lot", "0O12"))
    wait(cabinet, "b.jpg", doubtful("lot", "0O12"), shade="Samphire")
    cabinet.resolve(first, {"lot": "0012"})
    assert offers(cabinet, known(cabinet)) == []
