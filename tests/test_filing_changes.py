"""Filed records are corrected, withdrawn, merged and weighed; all of it can be undone."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pandas
import pytest
from filing_tags import doubtful, tag, waiting_tag

from intake.errors import BadStash, CannotUndo, NoAccess, NoSuchRecord
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.changes import Action
from intake.filing.kinds import open_stash
from intake.filing.queue import NotWaiting
from intake.filing.record import COLUMNS, Record
from intake.filing.same import REPEAT, SAME_TAG_AGAIN
from intake.records import Outcome


@pytest.fixture(params=["stash.csv", pytest.param("stash.parquet", marks=pytest.mark.slow)])
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    return tmp_path / str(request.param)


@pytest.fixture
def cabinet(path: Path) -> Cabinet:
    return open_cabinet(path)


def filed(cabinet: Cabinet, picture: str = "a.jpg", lot: str = "0012") -> Record:
    return cabinet.file(tag(picture, lot=lot))


def answered(cabinet: Cabinet, picture: str = "w.jpg", lot: str = "0031") -> Record:
    tag_id = cabinet.take(waiting_tag(picture, shade="Samphire")).id
    record = cabinet.resolve(tag_id, {"lot": lot})
    assert record is not None
    return record


def lots(cabinet: Cabinet) -> list[str]:
    """The lots in the file itself; both ways of asking for them agree."""
    read = [record.lot for record in open_stash(cabinet.stash.path).records()]
    assert [record.lot for record in cabinet.records()] == read
    return read


# Corrected


def test_a_correction_changes_the_columns_it_names_and_nothing_else(cabinet: Cabinet) -> None:
    first, second, third = (filed(cabinet, name) for name in ("a.jpg", "b.jpg", "c.jpg"))
    (change,) = cabinet.correct({second.id: {"lot": "00120", "length_m": "87.5"}})
    assert change.action is Action.CORRECTED
    assert change.record == second.id
    assert change.old == {"lot": "0012", "length_m": "210"}
    assert change.new == {"lot": "00120", "length_m": "87.5"}
    after = open_stash(cabinet.stash.path).records()
    assert [after[0], after[2]] == [first, third]
    assert (after[1].lot, after[1].length_m) == ("00120", 87.5)
    assert cabinet.record(second.id) == after[1]
    assert after[1].filed_at == second.filed_at


def test_lots_and_codes_stay_text_in_what_another_library_reads(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    record = filed(cabinet)
    cabinet.correct({record.id: {"lot": "007", "shade_code": "1E5", "barcode": "0400638133393"}})
    # pandas reads the file by its own CSV parser.
    table = pandas.read_csv(cabinet.stash.path, dtype=str, keep_default_na=False)
    assert table.loc[0, ["lot", "shade_code", "barcode"]].tolist() == [
        "007",
        "1E5",
        "0400638133393",
    ]


def test_corrections_of_many_records_are_one_stroke(cabinet: Cabinet) -> None:
    one, other = filed(cabinet, "a.jpg"), filed(cabinet, "b.jpg")
    changes = cabinet.correct({one.id: {"shade": "Kemp"}, other.id: {"shade": "Kemp"}})
    assert len({change.stroke for change in changes}) == 1
    cabinet.undo(changes[0].stroke)
    assert cabinet.records() == [one, other]


def test_a_correction_that_changes_nothing_is_no_change(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    assert cabinet.correct({record.id: {"lot": "0012", "length_m": "210.0"}}) == []
    assert cabinet.correct({}) == []
    assert cabinet.history.changes() == []


@pytest.mark.parametrize(
    "texts",
    [
        {"length_m": "abc"},
        {"mass_g": "-50"},
        {"mass_g": "inf"},
        {"fibre": "50% wool"},
        {"colour": "Kelp"},
        {"id": "t000000000000000"},
        {"filed_at": "never"},
    ],
)
def test_a_text_that_the_column_cannot_hold_changes_nothing_at_all(
    cabinet: Cabinet, texts: dict[str, str]
) -> None:
    one, other = filed(cabinet, "a.jpg"), filed(cabinet, "b.jpg")
    with pytest.raises(BadAnswer):
        cabinet.correct({one.id: {"lot": "0013"}, other.id: texts})
    assert cabinet.records() == [one, other]
    assert cabinet.history.changes() == []


def test_an_empty_text_says_that_the_tag_does_not_carry_it(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    cabinet.correct({record.id: {"length_m": "", "range": " "}})
    after = cabinet.record(record.id)
    assert (after.length_m, after.range) == (None, "")


def test_what_was_printed_goes_with_the_shade_that_was_refused(cabinet: Cabinet) -> None:
    shade = doubtful("shade", "Kelp")
    reading = tag("a.jpg", 1, shade)
    tag_id = cabinet.take(reading).id
    record = cabinet.resolve(tag_id, {})
    assert record is not None
    cabinet.stash.change([Record(**{**_columns(record), "shade_printed": "KE LP"})])
    (change,) = cabinet.correct({record.id: {"shade": "Kemp"}})
    assert change.old == {"shade": "Kelp", "shade_printed": "KE LP"}
    cabinet.undo(change.stroke)
    assert cabinet.record(record.id).shade_printed == "KE LP"


def _columns(record: Record) -> dict[str, object]:
    return {name: getattr(record, name) for name in COLUMNS}


def test_a_record_that_is_not_there_is_said_so(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    calls: list[Callable[[], object]] = [
        lambda: cabinet.record("t1"),
        lambda: cabinet.correct({record.id: {"lot": "1"}, "t1": {"lot": "1"}}),
        lambda: cabinet.withdraw([record.id, "t1"]),
        lambda: cabinet.merge(record.id, ["t1"]),
        lambda: cabinet.merge("t1", [record.id]),
        lambda: cabinet.weigh("t1", FIGURES),
    ]
    for call in calls:
        with pytest.raises(NoSuchRecord, match="t1"):
            call()
    assert cabinet.records() == [record]
    assert cabinet.history.changes() == []


def test_a_lot_near_to_a_known_one_is_a_doubt_that_can_be_asked_for(cabinet: Cabinet) -> None:
    record, other = filed(cabinet, "a.jpg", "0012"), filed(cabinet, "b.jpg", "7788")
    assert cabinet.correction_doubts({other.id: {"lot": "7799"}}) == {}
    (doubt,) = cabinet.correction_doubts({other.id: {"lot": "0O12"}})[other.id]
    assert doubt.field == "lot"
    assert "0012" in doubt.reason
    # Its own lot as it was is no lot of another ball.
    assert cabinet.correction_doubts({record.id: {"lot": "0O12"}}) == {}
    assert lots(cabinet) == ["0012", "7788"]


def test_a_correction_that_makes_a_repeat_is_a_doubt_that_can_be_asked_for(
    cabinet: Cabinet,
) -> None:
    filed(cabinet, "a.jpg", "0012")
    other = filed(cabinet, "b.jpg", "7788")
    (doubt,) = cabinet.correction_doubts({other.id: {"lot": "0012"}})[other.id]
    assert doubt.field == REPEAT


def test_a_corrected_record_is_known_by_its_new_print(cabinet: Cabinet) -> None:
    record = filed(cabinet, "a.jpg", "0012")
    cabinet.correct({record.id: {"lot": "7788"}})
    for again in (cabinet, open_cabinet(cabinet.stash.path)):
        assert again.correction_doubts({record.id: {"lot": "7789"}}) == {}
    taken = cabinet.take(tag("b.jpg", lot="7788"))
    assert [doubt.field for doubt in taken.doubts] == [REPEAT]


# Withdrawn and merged


def test_a_withdrawn_record_leaves_the_stash_and_keeps_its_picture(cabinet: Cabinet) -> None:
    one, other = filed(cabinet, "a.jpg", "1"), filed(cabinet, "b.jpg", "2")
    (change,) = cabinet.withdraw([one.id, one.id])
    assert change.action is Action.WITHDRAWN
    assert set(change.old) == set(COLUMNS)
    assert lots(cabinet) == ["2"]
    assert cabinet.pictures.load(one.id) == tag("a.jpg", lot="1").jpeg
    cabinet.undo(change.stroke)
    assert {record.id: record for record in cabinet.records()} == {one.id: one, other.id: other}


def test_a_withdrawn_record_does_not_come_back_with_the_next_run(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    (change,) = cabinet.withdraw([record.id])
    for again in (cabinet, open_cabinet(cabinet.stash.path)):
        taken = again.take(tag("a.jpg"))
        assert taken.outcome is Outcome.ALREADY
        assert taken.before is not None
        assert taken.before.how == "withdrawn before"
    cabinet.undo(change.stroke)
    assert cabinet.take(tag("a.jpg")).outcome is Outcome.ALREADY
    assert lots(cabinet) == ["0012"]


def test_merged_records_leave_and_say_into_which(cabinet: Cabinet) -> None:
    keep, *others = (filed(cabinet, name, name) for name in ("a.jpg", "b.jpg", "c.jpg"))
    changes = cabinet.merge(keep.id, [keep.id, *(record.id for record in others)])
    assert [change.action for change in changes] == [Action.MERGED] * 2
    assert {change.into for change in changes} == {keep.id}
    assert cabinet.records() == [keep]
    taken = cabinet.take(tag("b.jpg", lot="b.jpg"))
    assert taken.before is not None
    assert keep.id in taken.before.how
    cabinet.undo(changes[0].stroke)
    assert sorted(lots(cabinet)) == ["a.jpg", "b.jpg", "c.jpg"]


# Weighed

FIGURES = {
    "mass_g": "23.4",
    "mass_uncertainty_g": "0.1",
    "length_m": "98.3",
    "length_uncertainty_m": "2.1",
}


def test_a_weighing_leaves_the_record_as_it_is_and_can_be_taken_back(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    change = cabinet.weigh(record.id, {**FIGURES, "balance_g": "0.01"})
    assert change.action is Action.WEIGHED
    assert change.new == {**FIGURES, "balance_g": "0.01"}
    assert cabinet.records() == [record]
    assert cabinet.history.standing(record.id) == [change]
    (back,) = cabinet.undo(change.stroke)
    assert cabinet.history.standing(record.id) == []
    cabinet.undo(back.stroke)
    assert cabinet.history.standing(record.id) == [change]
    assert cabinet.records() == [record]


@pytest.mark.parametrize("name", FIGURES)
@pytest.mark.parametrize("text", ["", "-1", "nan", "inf", "much"])
def test_a_weighing_needs_its_figures(tmp_path: Path, name: str, text: str) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    record = filed(cabinet)
    with pytest.raises(BadAnswer, match=name):
        cabinet.weigh(record.id, {**FIGURES, name: text})


# Undone


def test_answers_are_in_the_history_with_the_whole_record(cabinet: Cabinet) -> None:
    record = answered(cabinet)
    (change,) = cabinet.history.changes(record.id)
    assert change.action is Action.ANSWERED
    assert change.old == {}
    assert {name: change.new[name] for name in ("id", "lot", "length_m")} == {
        "id": record.id,
        "lot": "0031",
        "length_m": "210",
    }


def test_a_review_can_go_back_any_number_of_steps_after_it_was_closed(path: Path) -> None:
    cabinet = open_cabinet(path)
    names = [f"{number}.jpg" for number in range(4)]
    waited = [cabinet.take(waiting_tag(name, shade=f"Tide {name}")).id for name in names]
    cabinet.resolve(waited[0], {"lot": "0031"})
    cabinet.discard(waited[1])
    cabinet.resolve(waited[2], {"lot": "0032", "shade": "Samphire"})
    cabinet.correct({waited[2]: {"lot": "0033"}})
    later = open_cabinet(path)
    while stroke := later.history.last_stroke():
        later.undo(stroke)
    assert lots(later) == []
    assert later.waiting() == waited
    assert later.get(waited[2]).reading == waiting_tag(names[2], shade=f"Tide {names[2]}")


def test_undoing_can_be_undone(cabinet: Cabinet) -> None:
    record = answered(cabinet)
    (change,) = cabinet.history.changes()
    (back,) = cabinet.undo(change.stroke)
    assert cabinet.waiting() == [record.id]
    (again,) = cabinet.undo(back.stroke)
    assert cabinet.records() == [record]
    assert cabinet.waiting() == []
    assert [one.action for one in cabinet.history.changes()] == [
        Action.ANSWERED,
        Action.UNDONE,
        Action.UNDONE,
    ]
    cabinet.undo(again.stroke)
    assert cabinet.waiting() == [record.id]


def test_a_discarded_tag_comes_back_and_goes_again(cabinet: Cabinet) -> None:
    tag_id = cabinet.take(waiting_tag()).id
    cabinet.discard(tag_id)
    (back,) = cabinet.undo(cabinet.history.last_stroke())
    assert cabinet.waiting() == [tag_id]
    cabinet.undo(back.stroke)
    assert cabinet.waiting() == []
    assert cabinet.queue.was_discarded(tag_id)


def test_the_same_tag_again_can_be_taken_back(cabinet: Cabinet) -> None:
    filed(cabinet, "a.jpg")
    tag_id = cabinet.take(tag("b.jpg")).id
    cabinet.resolve(tag_id, {REPEAT: SAME_TAG_AGAIN})
    cabinet.undo(cabinet.history.last_stroke())
    assert cabinet.waiting() == [tag_id]


def test_a_stroke_before_another_on_the_same_record_is_not_undone(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    (first,) = cabinet.correct({record.id: {"lot": "0013"}})
    (second,) = cabinet.correct({record.id: {"shade": "Kemp"}})
    with pytest.raises(CannotUndo, match=f"take back stroke {second.stroke} first"):
        cabinet.undo(first.stroke)
    assert lots(cabinet) == ["0013"]
    cabinet.undo(second.stroke)
    cabinet.undo(first.stroke)
    assert cabinet.records() == [record]


def test_a_stroke_is_undone_whole_or_not_at_all(cabinet: Cabinet) -> None:
    one, other = filed(cabinet, "a.jpg", "1"), filed(cabinet, "b.jpg", "2")
    changes = cabinet.correct({one.id: {"lot": "3"}, other.id: {"lot": "4"}})
    cabinet.withdraw([other.id])
    with pytest.raises(CannotUndo):
        cabinet.undo(changes[0].stroke)
    assert lots(cabinet) == ["3"]


def test_nothing_is_undone_twice_and_nothing_that_was_not_done(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    (change,) = cabinet.correct({record.id: {"lot": "0013"}})
    cabinet.undo(change.stroke)
    with pytest.raises(CannotUndo, match="already"):
        cabinet.undo(change.stroke)
    with pytest.raises(CannotUndo, match="no stroke"):
        cabinet.undo("99")


def test_what_another_program_wrote_into_the_stash_is_not_undone(tmp_path: Path) -> None:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    record = filed(cabinet)
    (change,) = cabinet.correct({record.id: {"lot": "0013"}})
    text = cabinet.stash.path.read_text()
    cabinet.stash.path.write_text(text.replace("0013", "0014"))
    with pytest.raises(CannotUndo, match="not as stroke"):
        cabinet.undo(change.stroke)
    assert lots(cabinet) == ["0014"]


def test_an_old_correction_is_not_done_again_over_a_newer_one(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    (change,) = cabinet.correct({record.id: {"lot": "0013"}})
    (back,) = cabinet.undo(change.stroke)
    cabinet.correct({record.id: {"lot": "0014"}})
    with pytest.raises(CannotUndo):
        cabinet.undo(back.stroke)
    assert lots(cabinet) == ["0014"]


def test_a_tag_whose_record_was_corrected_is_not_put_back_unsaid(cabinet: Cabinet) -> None:
    record = answered(cabinet)
    cabinet.correct({record.id: {"lot": "0032"}})
    with pytest.raises(CannotUndo):
        cabinet.put_back(record.id)
    assert lots(cabinet) == ["0032"]


def test_a_tag_that_is_put_back_is_in_the_history(cabinet: Cabinet) -> None:
    record = answered(cabinet)
    cabinet.put_back(record.id)
    assert [change.action for change in cabinet.history.changes(record.id)] == [
        Action.ANSWERED,
        Action.UNDONE,
    ]
    assert cabinet.history.standing() == []
    with pytest.raises(NotWaiting):
        cabinet.put_back(record.id)


def test_two_cabinets_of_one_stash_see_what_either_does(path: Path) -> None:
    one, other = open_cabinet(path), open_cabinet(path)
    record = filed(one)
    assert other.records() == [record]
    other.correct({record.id: {"lot": "0013"}})
    assert one.record(record.id).lot == "0013"
    one.undo(one.history.last_stroke())
    assert other.records() == [record]
    other.withdraw([record.id])
    with pytest.raises(NoSuchRecord):
        one.correct({record.id: {"lot": "0014"}})


# What cannot be written


def test_a_stash_that_cannot_be_written_leaves_no_trace_in_the_history(
    cabinet: Cabinet, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = filed(cabinet)
    cabinet.correct({record.id: {"shade": "Kemp"}})
    history = cabinet.history.path.read_bytes()
    # A folder where the new file must be written stands for a disk that is full.
    blocked = path.with_name(path.name + ".new")
    blocked.mkdir()
    with pytest.raises(NoAccess):
        cabinet.correct({record.id: {"lot": "0013"}})
    assert cabinet.history.path.read_bytes() == history
    assert lots(cabinet) == ["0012"]
    blocked.rmdir()
    cabinet.correct({record.id: {"lot": "0014"}})
    assert lots(cabinet) == ["0014"]


def test_an_answer_to_a_tag_that_was_taken_away_since_is_not_taken_back(cabinet: Cabinet) -> None:
    lot = doubtful("lot", "0O12", "0012")
    waits = cabinet.take(tag("w.jpg", 1, lot, doubtful("shade", "Kelq", "Kelp"))).id
    (change,) = cabinet.settle({waits: {"lot": "0012"}})
    (cabinet.queue.folder / f"{waits}.json").unlink()
    with pytest.raises(CannotUndo) as caught:
        cabinet.undo(change.stroke)
    assert str(caught.value) == (
        f"the tag {waits} does not wait any more; take its picture in again"
    )


def test_a_tag_whose_file_was_taken_away_since_does_not_wait_again(cabinet: Cabinet) -> None:
    record = answered(cabinet)
    (stroke,) = {change.stroke for change in cabinet.history.changes(record.id)}
    for file in cabinet.queue.folder.rglob(f"{record.id}.json"):
        file.unlink()
    with pytest.raises(CannotUndo) as caught:
        cabinet.undo(stroke)
    assert str(caught.value) == (
        f"the queue no longer has the tag {record.id} as stroke {stroke} left it; "
        "take its picture in again"
    )
    assert lots(cabinet) == [record.lot]


def test_a_history_that_lacks_what_was_taken_back_is_named(cabinet: Cabinet) -> None:
    record = filed(cabinet)
    (change,) = cabinet.correct({record.id: {"lot": "0013"}})
    (undone,) = cabinet.undo(change.stroke)
    lines = cabinet.history.path.read_text().splitlines(keepends=True)
    kept = [line for line in lines if '"0013"' not in line or f'"{undone.stroke}"' in line]
    cabinet.history.path.write_text("".join(kept))
    with pytest.raises(BadStash) as caught:
        open_cabinet(cabinet.stash.path).undo(undone.stroke)
    assert str(caught.value) == (
        f"{cabinet.history.path} lacks stroke {change.stroke}, which stroke {undone.stroke} took "
        "back; put its line back in"
    )
