"""A lot that a spreadsheet turned into a number, a power of ten or a date is found and named,
never taken for what the tag says."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path

import pandas
import pytest
from filing_tags import tag, waiting_tag

from intake.errors import BadStash, NoAccess
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.kinds import open_stash
from intake.filing.record import record_id
from intake.sums.catalogue import catalogue

LOT = tag("a.jpg", lot="0012", barcode="4006381333931", needle_mm="3-4", shade="Kelp")
OTHER = tag("b.jpg", lot="120000", shade="Dusk")
LOT_ID = record_id(LOT.digest, 1)


@pytest.fixture(params=[".csv", ".parquet"])
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    path = tmp_path / f"stash{request.param}"
    cabinet = open_cabinet(path)
    cabinet.file(LOT)
    cabinet.file(OTHER)
    return path


def edit(path: Path, record: str, column: str, text: str) -> None:
    """Put ``text`` into a cell as another program does, a moment later."""
    if path.suffix == ".csv":
        frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
    else:
        frame = pandas.read_parquet(path)
    frame.loc[frame["id"] == record, column] = text
    if path.suffix == ".csv":
        frame.to_csv(path, index=False)
    else:
        frame.to_parquet(path, index=False)
    status = path.stat()
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns + 1_000_000_000))


TURNED = [
    ("lot", "12", "a number"),
    ("lot", "12.0", "a number"),
    ("lot", "1.2E+01", "a power of ten"),
    ("lot", "1,2E+01", "a power of ten"),
    ("barcode", "4.00638E+12", "a power of ten"),
    ("needle_mm", "03.04.2026", "a date"),
    ("needle_mm", "3-Apr", "a date"),
    ("shade_code", "41", "a number"),
]


@pytest.mark.parametrize(("column", "text", "into"), TURNED)
def test_a_turned_cell_is_named_and_nothing_goes_on(
    path: Path, column: str, text: str, into: str
) -> None:
    open_before = open_cabinet(path)
    open_before.records()
    edit(path, LOT_ID, column, text)
    before = path.read_bytes()
    uses: list[Callable[[], object]] = [
        lambda: open_cabinet(path),
        open_before.records,
        lambda: open_before.take(tag("c.jpg")),
        lambda: open_before.correct({LOT_ID: {"range": "Weir"}}),
        lambda: catalogue(open_before),
    ]
    for use in uses:
        with pytest.raises(BadStash, match=f"looks turned into {into}") as caught:
            use()
        told = str(caught.value)
        assert f"{column} of {LOT_ID}" in told
        assert f"({text})" in told
        assert "balltag check" in told
        assert "\n" not in told
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("column", "text"), [("lot", "0013"), ("lot", ""), ("lot", "0012 B"), ("shade", "Kelp green"),
                         ("origin", "Quillstow"), ("needle_mm", "4"), ("weight_class", "3 ply"),
        ("weight_printed", "8 fold")],
)  # fmt: skip
def test_what_someone_may_have_typed_goes_on(path: Path, column: str, text: str) -> None:
    edit(path, LOT_ID, column, text)
    cabinet = open_cabinet(path)
    cabinet.file(tag("c.jpg"))
    assert getattr(open_cabinet(path).record(LOT_ID), column) == text


def test_a_lot_that_is_a_number_or_a_date_by_its_nature_is_none_of_it(path: Path) -> None:
    cabinet = open_cabinet(path)
    for number, lot in enumerate(["1E5", "12/05/21", "7", "1.2E+05"], start=1):
        cabinet.file(tag("d.jpg", number, lot=lot, shade=f"Tide {number}"))
    edit(path, LOT_ID, "origin", "Quillstow")  # another program wrote it anew
    assert [one.lot for one in open_cabinet(path).records()][2:] == [
        "1E5", "12/05/21", "7", "1.2E+05"
    ]  # fmt: skip


def test_a_correction_is_what_holds_from_then_on(path: Path) -> None:
    open_cabinet(path).correct({LOT_ID: {"lot": "12"}})
    edit(path, LOT_ID, "origin", "Quillstow")
    assert open_cabinet(path).record(LOT_ID).lot == "12"
    open_cabinet(path).correct({LOT_ID: {"lot": "00120"}})
    edit(path, LOT_ID, "lot", "120")
    with pytest.raises(BadStash, match="00120 looks turned into a number"):
        open_cabinet(path)


def test_an_edit_by_hand_is_what_holds_once_balltag_has_written(path: Path) -> None:
    edit(path, LOT_ID, "lot", "0077")
    open_cabinet(path).file(tag("c.jpg"))
    edit(path, LOT_ID, "lot", "77")
    with pytest.raises(BadStash, match="0077 looks turned into a number"):
        open_cabinet(path)


def test_answers_are_known_too(path: Path) -> None:
    cabinet = open_cabinet(path)
    waiting = cabinet.take(waiting_tag("e.jpg", shade="Fen"))
    cabinet.resolve(waiting.id, {"lot": "00990"})
    edit(path, waiting.id, "lot", "990")
    with pytest.raises(BadStash, match="00990"):
        open_cabinet(path)


def test_a_stash_from_before_is_known_from_its_first_change_on(path: Path) -> None:
    written = path.with_suffix(".written.jsonl")
    written.unlink()
    open_cabinet(path).correct({LOT_ID: {"range": "Weir"}})
    edit(path, record_id(OTHER.digest, 1), "lot", "1.2E+05")
    with pytest.raises(BadStash, match="120000"):
        open_cabinet(path)


def test_a_stash_that_only_balltag_wrote_is_not_compared_again(path: Path) -> None:
    """What was written need not even be readable then: it is not opened."""
    written = path.with_suffix(".written.jsonl")
    status = written.stat()
    written.write_bytes(b"no such file\n")
    os.utime(written, ns=(status.st_atime_ns, status.st_mtime_ns))
    assert len(open_cabinet(path).records()) == 2


def test_a_change_that_could_not_be_made_is_not_taken_for_made(path: Path) -> None:
    cabinet = open_cabinet(path)
    cabinet.records()
    path.with_name(path.name + ".new").mkdir()  # in the way of writing anew
    with pytest.raises(NoAccess, match="cannot be written"):
        cabinet.correct({LOT_ID: {"lot": "12"}})
    path.with_name(path.name + ".new").rmdir()
    edit(path, LOT_ID, "origin", "Quillstow")
    assert open_cabinet(path).record(LOT_ID).lot == "0012"


def test_a_line_that_a_kill_cut_short_is_passed_over(path: Path) -> None:
    written = path.with_suffix(".written.jsonl")
    whole = written.read_bytes()
    for end in range(len(whole) - 40, len(whole)):
        written.write_bytes(whole[:end])
        assert open_cabinet(path).record(LOT_ID).lot == "0012"
    cabinet = open_cabinet(path)
    cabinet.file(tag("c.jpg"))
    assert written.read_bytes().endswith(b"\n")
    assert all(json.loads(line) for line in written.read_bytes().splitlines())
    edit(path, LOT_ID, "lot", "12")
    with pytest.raises(BadStash, match="0012"):
        open_cabinet(path)


def test_a_newer_list_of_what_was_written_is_refused_untouched(path: Path) -> None:
    written = path.with_suffix(".written.jsonl")
    newer = written.read_bytes().replace(b'"version":1', b'"version":2', 1)
    written.write_bytes(newer)

    def refused(use: Callable[[], object]) -> None:
        with pytest.raises(BadStash, match=r"version 2.*newer balltag"):
            use()

    refused(lambda: open_cabinet(path))
    refused(lambda: Cabinet(open_stash(path)).file(tag("c.jpg")))
    assert written.read_bytes() == newer
