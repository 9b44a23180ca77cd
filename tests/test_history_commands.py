"""The commands that change filed records and take it back say what they did."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from filing_tags import tag
from typer.testing import CliRunner, Result

from intake.cli import app
from intake.errors import CannotUndo, NoSuchRecord
from intake.filing.answers import BadAnswer
from intake.filing.cabinet import Cabinet, open_cabinet


@pytest.fixture
def cabinet(tmp_path: Path) -> Cabinet:
    cabinet = open_cabinet(tmp_path / "stash.csv")
    for picture, lot in (("a.jpg", "0012"), ("b.jpg", "7788")):
        cabinet.file(tag(picture, lot=lot))
    return cabinet


def run(cabinet: Cabinet, *words: str) -> Result:
    return CliRunner().invoke(app, [*words, "--stash", str(cabinet.stash.path)])


def test_a_correction_is_shown_kept_and_taken_back(cabinet: Cabinet) -> None:
    first, second = cabinet.records()
    done = run(cabinet, "correct", second.id, "lot=00990", "length_m=87.5")
    assert "lot: 7788 → 00990; length_m: 210 → 87.5" in " ".join(done.output.split())
    assert cabinet.record(second.id).lot == "00990"
    assert second.id in run(cabinet, "history").output
    assert "Took back stroke 1" in run(cabinet, "undo").output
    assert cabinet.records() == [first, second]
    assert "taken back" in run(cabinet, "history").output


def test_a_doubtful_lot_is_corrected_only_when_it_is_said_twice(cabinet: Cabinet) -> None:
    record = cabinet.records()[1]
    refused = run(cabinet, "correct", record.id, "lot=0O12")
    assert isinstance(refused.exception, BadAnswer)
    assert "0012" in str(refused.exception)
    assert cabinet.record(record.id) == record
    run(cabinet, "correct", record.id, "lot=0O12", "--yes")
    assert cabinet.record(record.id).lot == "0O12"


def test_merging_and_withdrawing_take_records_out_until_undone(cabinet: Cabinet) -> None:
    first, second = cabinet.records()
    run(cabinet, "merge", first.id, second.id)
    assert cabinet.records() == [first]
    run(cabinet, "withdraw", first.id)
    assert cabinet.records() == []
    run(cabinet, "undo")
    run(cabinet, "undo")
    assert {record.id for record in cabinet.records()} == {first.id, second.id}
    run(cabinet, "undo", "4")
    assert cabinet.records() == [first]


def test_the_history_of_one_record_comes_as_json(cabinet: Cabinet) -> None:
    first, second = cabinet.records()
    cabinet.correct({first.id: {"lot": "1"}, second.id: {"lot": "2"}})
    cabinet.correct({first.id: {"lot": "3"}})
    lines = run(cabinet, "history", "--record", first.id, "--json").output.splitlines()
    newest, oldest = map(json.loads, lines)
    assert (newest["old"], newest["new"]) == ({"lot": "1"}, {"lot": "3"})
    assert (oldest["stroke"], oldest["stands"]) == ("1", True)


def test_what_cannot_be_done_is_said_in_one_line(cabinet: Cabinet) -> None:
    record = cabinet.records()[0]
    assert "Nothing was changed yet" in run(cabinet, "history").output
    for words, failure in [
        (("undo",), CannotUndo),
        (("undo", "7"), CannotUndo),
        (("withdraw", "t1"), NoSuchRecord),
        (("merge", "t1", record.id), NoSuchRecord),
        (("correct", "t1", "lot=1"), NoSuchRecord),
        (("correct", record.id, "lot"), BadAnswer),
        (("correct", record.id, "lots=1"), BadAnswer),
    ]:
        error = run(cabinet, *words).exception
        assert isinstance(error, failure), words
        assert "\n" not in str(error)
