"""The history keeps every change, in order, whatever befalls its file."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from intake.errors import BadStash, NoAccess
from intake.filing.changes import Action, Change
from intake.filing.history import History


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "stash.history.jsonl"


@pytest.fixture
def history(path: Path) -> History:
    return History(path)


def corrected(record: str, old: str, new: str) -> Change:
    return Change("", "", "", Action.CORRECTED, record, {"lot": old}, {"lot": new})


def undone(change: Change) -> Change:
    return Change(
        "", "", "", Action.UNDONE, change.record, change.new, change.old, undoes=change.stroke
    )


def made(history: History, *changes: Change) -> list[Change]:
    written = history.intend(changes)
    history.end()
    return written


def test_there_is_no_file_before_the_first_change(history: History, path: Path) -> None:
    assert history.changes() == history.standing() == history.unfinished() == []
    assert history.last_stroke() == ""
    assert not path.exists()


def test_changes_come_back_as_they_were_written(history: History, path: Path) -> None:
    first = made(history, corrected("t1", "0012", "0013"), corrected("t2", "a", ""))
    (second,) = made(history, corrected("t1", "0013", "0014"))
    for again in (history, History(path)):
        assert again.changes() == [*first, second]
        assert again.changes("t1") == [first[0], second]
        assert again.stroke(second.stroke) == [second]
        assert again.last_stroke() == second.stroke
    assert first[0].stroke == first[1].stroke != second.stroke
    assert len({change.id for change in history.changes()}) == 3


def test_a_moment_is_given_in_utc_as_iso_8601(history: History) -> None:
    before = datetime.now(UTC)
    (change,) = made(history, corrected("t1", "1", "2"))
    # Python's own parser of ISO 8601; the Z is RFC 3339's sign for UTC, section 5.6.
    assert change.at.endswith("Z")
    moment = datetime.fromisoformat(change.at)
    assert timedelta(seconds=-1) < moment - before < timedelta(minutes=1)


def test_every_line_of_the_file_is_json_and_the_first_tells_the_version(
    history: History, path: Path
) -> None:
    made(history, corrected("t1", "grün", "\udce9 bytes that are no text"))
    lines = [json.loads(line) for line in path.read_bytes().splitlines()]
    assert lines[0] == {"version": 1}
    assert lines[1]["changes"][0]["new"] == {"lot": "\udce9 bytes that are no text"}


def test_what_was_taken_back_does_not_stand_and_stands_when_that_is_taken_back(
    history: History,
) -> None:
    (change,) = made(history, corrected("t1", "1", "2"))
    (back,) = made(history, undone(change))
    assert history.standing() == []
    assert history.last_stroke() == ""
    (again,) = made(history, undone(back))
    assert history.standing() == [change]
    assert history.origin(again) == (change, True)
    assert history.origin(back) == (change, False)
    made(history, undone(again))
    assert history.standing() == []


def test_one_of_the_changes_of_a_stroke_can_be_taken_back(history: History) -> None:
    one, other = made(history, corrected("t1", "1", "2"), corrected("t2", "1", "2"))
    made(history, undone(one))
    assert history.standing() == [other]


def test_two_readers_of_one_file_see_what_either_writes(history: History, path: Path) -> None:
    other = History(path)
    assert other.changes() == []
    first = made(history, corrected("t1", "1", "2"))
    second = made(other, corrected("t1", "2", "3"))
    assert history.changes() == [*first, *second]
    assert [change.stroke for change in history.changes()] == ["1", "2"]


def test_a_stroke_without_its_end_is_unfinished(history: History, path: Path) -> None:
    changes = history.intend([corrected("t1", "1", "2")])
    assert History(path).unfinished() == changes
    history.end()
    assert History(path).unfinished() == []


def test_a_stroke_called_off_was_never_there(history: History, path: Path) -> None:
    kept = made(history, corrected("t1", "1", "2"))
    whole = path.read_bytes()
    history.intend([corrected("t1", "2", "3")])
    history.call_off()
    assert path.read_bytes() == whole
    assert history.changes() == kept
    assert history.unfinished() == []


def test_a_stroke_called_off_is_forgotten_by_those_who_saw_it(history: History, path: Path) -> None:
    (kept,) = made(history, corrected("t1", "1", "2"))
    other = History(path)
    for record in ("t3", "a record with a long id"):
        history.intend([corrected("t2", "1", "2")])
        assert [change.record for change in other.unfinished()] == ["t2"]
        history.call_off()
        (written,) = made(history, corrected(record, "1", "2"))
        assert other.changes()[-1] == written
    assert other.changes() == history.changes()
    assert other.changes()[0] == kept


def test_a_file_torn_anywhere_gives_all_whole_strokes_and_goes_on(path: Path) -> None:
    made(History(path), corrected("t1", "1", "2"))
    one = len(path.read_bytes())
    made(History(path), corrected("t2", "1", "2"))
    whole = path.read_bytes()
    for end in (*range(0, len(whole), 9), one - 1, one, one + 1, len(whole) - 1):
        path.write_bytes(whole[:end])
        torn = History(path)
        records = [change.record for change in torn.changes()]
        assert records == ["t1", "t2"][: len(records)]
        assert end < one or records[0] == "t1"
        made(torn, corrected("t3", "1", "2"))
        assert [change.record for change in History(path).changes()] == [*records, "t3"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('{"version":2}\n', "use the newer balltag"),
        ("diary of a weaver\n", "line 1"),
        ('{"version":1}\n{"stroke":"1"}\n', "line 2"),
        ('{"version":1}\n{"stroke":"1","at":"","changes":[{"action":"sung"}]}\n', "line 2"),
        ('{"version":1}\n[]\n', "line 2"),
    ],
)
def test_a_file_that_is_no_history_is_refused_and_left_alone(
    path: Path, text: str, words: str
) -> None:
    path.write_text(text)
    for _ in range(2):
        with pytest.raises(BadStash, match=words):
            History(path).changes()
    with pytest.raises(BadStash, match=words):
        History(path).intend([corrected("t1", "1", "2")])
    assert path.read_text() == text


def test_a_history_in_a_folder_that_is_gone_cannot_be_written(tmp_path: Path) -> None:
    with pytest.raises(NoAccess, match="make it first"):
        History(tmp_path / "none" / "stash.history.jsonl").intend([corrected("t1", "1", "2")])
