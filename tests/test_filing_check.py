"""A check finds whatever does not agree, changes nothing, and mends what can be mended."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

import pandas
import pytest
from filing_tags import record, tag, waiting_tag
from test_filing_turned import edit
from typer.testing import CliRunner

from intake.cli import app
from intake.commands.check import warn_of_conflict_copies
from intake.errors import BadStash, ExitCode, NotAsked
from intake.filing.cabinet import open_cabinet
from intake.filing.changes import Action
from intake.filing.check import Check
from intake.filing.conflict_copies import conflict_copies
from intake.filing.findings import MENDS, Finding, Kind
from intake.filing.kinds import open_stash
from intake.filing.mend import mend
from intake.filing.record import record_id
from intake.filing.store import Store

BALLS = [tag(f"{letter}.jpg", lot=f"00{place}7", shade=f"Tide {letter}")
         for place, letter in enumerate("abcd")]  # fmt: skip
IDS = [record_id(ball.digest, 1) for ball in BALLS]


@pytest.fixture(params=[".csv", ".parquet"])
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A stash with four balls, one corrected and one withdrawn, and a tag that waits, one
    answered and one discarded."""
    path = tmp_path / f"stash{request.param}"
    cabinet = open_cabinet(path)
    for ball in BALLS:
        cabinet.file(ball)
    waiting = [cabinet.take(waiting_tag(f"{one}.jpg", shade=f"Fen {one}")).id for one in "xyz"]
    cabinet.resolve(waiting[0], {"lot": "0990"})
    cabinet.discard(waiting[1])
    cabinet.correct({IDS[1]: {"lot": "0100", "shade": "Tarn"}})
    cabinet.withdraw([IDS[3]])
    return path


def store_of(path: Path) -> Store:
    return Store(open_stash(path))


def check(path: Path) -> list[Finding]:
    """The findings; looking for them changes no file."""
    before = {one: one.read_bytes() for one in path.parent.rglob("*") if one.is_file()}
    found = Check(store_of(path)).findings()
    assert before == {one: one.read_bytes() for one in path.parent.rglob("*") if one.is_file()}
    return found


def kinds(found: list[Finding]) -> list[Kind]:
    return [one.kind for one in found]


def mended(path: Path) -> list[Finding]:
    """What is left when all is mended that can be."""
    left = mend(store_of(path), check(path))
    assert left == check(path)
    open_cabinet(path).records()
    return left


def lots(path: Path) -> dict[str, str]:
    return {one.id: one.lot for one in open_cabinet(path).records()}


def without_row(path: Path, row: str) -> None:
    if path.suffix == ".csv":
        frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
        frame[frame["id"] != row].to_csv(path, index=False)
    else:
        frame = pandas.read_parquet(path)
        frame[frame["id"] != row].to_parquet(path, index=False)


def test_nothing_is_found_where_all_agree(path: Path) -> None:
    assert check(path) == []


def test_a_turned_lot_is_put_back(path: Path) -> None:
    edit(path, IDS[1], "lot", "100")
    (found,) = check(path)
    assert found.kind is Kind.TURNED
    assert "lot: 100 → 0100" in found.what
    assert mended(path) == []
    assert lots(path)[IDS[1]] == "0100"


def test_an_edit_is_written_into_the_history_and_can_be_taken_back(path: Path) -> None:
    edit(path, IDS[0], "lot", "0555")
    (found,) = check(path)
    assert found.kind is Kind.EDITED
    assert "lot: 0007 → 0555" in found.what
    assert mended(path) == []
    cabinet = open_cabinet(path)
    last = cabinet.history.changes()[-1]
    assert (last.action, last.old, last.new) == (
        Action.CORRECTED, {"lot": "0007"}, {"lot": "0555"}
    )  # fmt: skip
    cabinet.undo(last.stroke)
    assert lots(path)[IDS[0]] == "0007"
    assert check(path) == []


def test_an_edit_is_found_though_balltag_wrote_since(path: Path) -> None:
    edit(path, IDS[0], "lot", "0555")
    open_cabinet(path).file(tag("e.jpg"))
    edit(path, IDS[0], "lot", "0556")
    (found,) = check(path)
    assert (found.old, found.new) == ({"lot": "0007"}, {"lot": "0556"})
    assert mended(path) == []


def test_a_row_that_was_taken_out_is_put_back(path: Path) -> None:
    before = open_cabinet(path).record(IDS[1])
    without_row(path, IDS[1])
    (found,) = check(path)
    assert (found.kind, found.about) == (Kind.LOST, IDS[1])
    assert mended(path) == []
    assert open_cabinet(path).record(IDS[1]) == before


def test_a_stash_that_is_gone_is_made_again(path: Path) -> None:
    before = open_cabinet(path).records()
    path.unlink()
    assert kinds(check(path)) == [Kind.LOST] * len(before)
    assert mended(path) == []
    assert open_cabinet(path).records() == before


def test_a_row_that_the_history_took_out_leaves_again(path: Path) -> None:
    store = store_of(path)
    withdrawn = next(one for one in store.history.changes() if one.action is Action.WITHDRAWN)
    open_stash(path).append([record("d.jpg", lot=withdrawn.old["lot"])])
    assert set(kinds(check(path))) == {Kind.RISEN, Kind.FOUND}
    assert mended(path) == []
    assert withdrawn.record not in lots(path)


def test_rows_of_others_are_taken_as_they_stand_and_what_looks_turned_is_left(path: Path) -> None:
    new = [record("p.jpg", lot="0044"), record("q.jpg", lot="1.2E+05")]
    open_stash(path).append(new)
    found = check(path)
    assert set(kinds(found)) == {Kind.FOUND, Kind.SUSPECT, Kind.NO_PICTURE}
    (suspect,) = [one for one in found if one.kind is Kind.SUSPECT]
    assert "1.2E+05 looks like a power of ten" in suspect.what
    assert suspect.mend == ""
    assert kinds(mended(path)) == [Kind.NO_PICTURE] * 2
    edit(path, new[0].id, "lot", "44")
    with pytest.raises(BadStash, match="0044"):
        open_cabinet(path)


def test_a_missing_and_a_short_picture_are_named(path: Path) -> None:
    pictures = store_of(path).pictures
    pictures.path(IDS[0]).unlink()
    pictures.path(IDS[1]).write_bytes(pictures.path(IDS[1]).read_bytes()[:-500])
    assert kinds(check(path)) == [Kind.NO_PICTURE, Kind.CUT_PICTURE]
    assert kinds(mended(path)) == [Kind.NO_PICTURE, Kind.CUT_PICTURE]


def test_a_picture_of_no_tag_is_moved_aside(path: Path) -> None:
    folder = store_of(path).pictures.folder
    (folder / "t0123456789abcde.jpg").write_bytes(tag().jpeg)
    assert kinds(check(path)) == [Kind.STRAY_PICTURE]
    assert mended(path) == []
    assert (folder / "strays" / "t0123456789abcde.jpg").read_bytes() == tag().jpeg


def test_a_tag_that_is_filed_leaves_the_queue(path: Path) -> None:
    cabinet = open_cabinet(path)
    (waiting,) = cabinet.waiting()
    store = store_of(path)
    with store.held():
        store.file(cabinet.record(IDS[0]), b"")
    with store.written.noting([one := record("z.jpg", lot="0012")]):
        open_stash(path).append([one])
    assert one.id == waiting
    assert kinds(check(path)) == [Kind.FILED_WAITS]
    assert mended(path) == []
    assert open_cabinet(path).waiting() == []


def test_torn_lines_are_cut_off(path: Path) -> None:
    for ending in ("history", "learnt", "written"):
        with path.with_suffix(f".{ending}.jsonl").open("ab") as file:
            file.write(b'{"stroke":"9')
    if path.suffix == ".csv":
        with path.open("ab") as file:
            file.write(b"t0123456789abcde,4 ply")
    before = lots(path)
    assert set(kinds(check(path))) == {Kind.TORN}
    assert mended(path) == []
    assert lots(path) == before


def test_a_folder_in_the_place_of_a_file_of_lines_is_named(path: Path) -> None:
    path.with_suffix(".watched.jsonl").mkdir()
    (found,) = check(path)
    assert found.kind is Kind.UNREADABLE
    assert "stash.watched.jsonl cannot be read (Is a directory); see what stands" in found.what


def test_a_damaged_row_that_is_left_stops_the_others_from_being_mended(path: Path) -> None:
    if path.suffix == ".parquet":
        pytest.skip("its cells cannot hold what is no number")
    edit(path, IDS[0], "length_m", "eighty")
    edit(path, IDS[1], "lot", "100")
    before = path.read_bytes()
    turned = [one for one in check(path) if one.kind is Kind.TURNED]
    with pytest.raises(BadStash) as caught:
        mend(store_of(path), turned)
    assert str(caught.value) == (
        f"line 2 of {path} is no record: 'eighty' is no number; correct it in the file first, or "
        "put a backup back with balltag check --restore"
    )
    assert path.read_bytes() == before


def test_files_that_a_kill_left_behind_are_deleted(path: Path) -> None:
    store = store_of(path)
    left = [path.with_name(path.name + ".new"), store.pictures.folder / "t1.jpg.new",
            store.queue.folder / "t1.json.new"]  # fmt: skip
    for one in left:
        one.write_bytes(b"half")
    assert kinds(check(path)) == [Kind.LEFT_OVER] * 3
    assert mended(path) == []
    assert not any(one.exists() for one in left)


def test_a_stroke_that_was_begun_is_carried_out(path: Path) -> None:
    store = store_of(path)
    corrected = next(one for one in store.history.changes() if one.action is Action.CORRECTED)
    change = type(corrected)("", "", "", Action.CORRECTED, IDS[0], {"lot": "0007"}, {"lot": "7"})
    store.history.intend([change])
    assert kinds(check(path)) == [Kind.UNFINISHED]
    assert mended(path) == []
    assert lots(path)[IDS[0]] == "7"


def test_a_row_that_stands_twice_is_kept_once(path: Path) -> None:
    twin = open_cabinet(path).record(IDS[0])
    open_stash(path).append([twin])
    assert kinds(check(path)) == [Kind.TWICE]
    assert mended(path) == []
    assert [one.id for one in open_stash(path).records()].count(IDS[0]) == 1


def test_two_rows_of_one_id_that_differ_are_left_to_the_user(path: Path) -> None:
    open_stash(path).append([record("a.jpg", lot="0999")])
    found = [one for one in check(path) if one.kind is Kind.TWICE]
    assert [one.can_mend for one in found] == [False]
    assert Kind.TWICE in kinds(mended(path))
    assert [one.id for one in open_stash(path).records()].count(IDS[0]) == 2


@pytest.mark.parametrize("path", [".csv"], indirect=True)
def test_a_number_that_became_a_date_is_put_back(path: Path) -> None:
    edit(path, IDS[0], "length_m", "12. Mai")
    (found,) = check(path)
    assert found.kind is Kind.DAMAGED
    assert "length_m was 210" in found.what
    assert mended(path) == []
    assert open_cabinet(path).record(IDS[0]).length_m == 210


@pytest.mark.parametrize("path", [".csv"], indirect=True)
def test_all_of_a_bad_afternoon_at_once_is_mended(path: Path) -> None:
    """A spreadsheet guesses every cell, a row is deleted, another typed over."""
    before = lots(path)
    frame = pandas.read_csv(path)  # guesses types, as spreadsheets do
    frame.loc[frame["id"] == IDS[2], "shade"] = "Heron"
    frame[frame["id"] != IDS[1]].to_csv(path, sep=";", index=False, encoding="utf-16")
    assert {Kind.TURNED, Kind.EDITED, Kind.LOST} == set(kinds(check(path)))
    assert mended(path) == []
    assert lots(path) == before
    assert open_cabinet(path).record(IDS[2]).shade == "Heron"
    (backup, *_) = open_stash(path).backups.all()[-1:]
    assert backup.read_bytes().startswith(b"\xff\xfe")


NEWER: dict[str, Callable[[Path], Path]] = {
    "history": lambda path: path.with_suffix(".history.jsonl"),
    "learnt": lambda path: path.with_suffix(".learnt.jsonl"),
    "written": lambda path: path.with_suffix(".written.jsonl"),
    "queue": lambda path: next(path.with_suffix(".queue").glob("*.json")),
}


@pytest.mark.parametrize("part", NEWER)
def test_a_part_of_a_newer_layout_is_named_and_left_alone(path: Path, part: str) -> None:
    file = NEWER[part](path)
    file.write_bytes(file.read_bytes().replace(b'"version":1', b'"version":2', 1))
    newer = file.read_bytes()
    found = check(path)
    (told,) = [one for one in found if one.kind is Kind.UNREADABLE]
    assert "version 2" in told.what
    assert "newer balltag" in told.what
    assert file.read_bytes() == newer


@pytest.mark.parametrize("path", [".csv"], indirect=True)
def test_a_copy_with_a_plain_name_is_known_by_what_it_begins_with(path: Path) -> None:
    """Some programs add no more than a number or the machine's name."""
    other = path.with_name("stash-wool.csv")  # another stash of the user's
    open_stash(other).append([record("p.jpg")])
    path.with_name("stash-notes.csv").write_text("a,b\n1,2\n")
    path.with_name("stash 3.csv").mkdir()
    assert conflict_copies(path) == []
    names = ["stash 2.csv", "stash-attic.csv", "stash.history-attic.jsonl"]
    for name in names:
        source = path if name.endswith(".csv") else path.with_suffix(".history.jsonl")
        shutil.copyfile(source, path.with_name(name))
    assert [one.name for one in conflict_copies(path)] == sorted(names)


def test_a_conflict_copy_is_named_with_what_it_holds(path: Path) -> None:
    copy = path.with_name(f"stash (conflicted copy 2025-03-09){path.suffix}")
    shutil.copyfile(path, copy)
    open_stash(copy).append([record("p.jpg")])
    Path(f"{copy}.lock").unlink()
    (found,) = check(path)
    assert found.kind is Kind.CONFLICT
    assert "1 of its records are not in the stash and 0 are others" in found.what


@pytest.mark.parametrize(
    "name",
    ["stash.sync-conflict-20250309-170542.csv", "stash (1).csv", "stash_conflict.history.jsonl",
     "stash.history (1).jsonl", "stash.queue/t0123456789abcde (1).json",
     "stash.tags/t0123456789abcde (conflicted copy).jpg", "stash_conf(1).csv", "stash - Kopie.csv",
     "stash (In Konflikt stehende Kopie 2025-03-09).csv", "stash (Copie en conflit).csv"],
)  # fmt: skip
@pytest.mark.parametrize("path", [".csv"], indirect=True)
def test_conflict_copies_are_noticed_by_intake_too(
    path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    warn_of_conflict_copies(path)
    assert capsys.readouterr().err == ""
    (path.parent / name).write_bytes(b"x")
    warn_of_conflict_copies(path)
    (line,) = capsys.readouterr().err.splitlines()
    assert Path(name).name in line
    assert "balltag check" in line


def test_a_copy_of_a_waiting_tag_does_not_wait_itself(path: Path) -> None:
    queue = store_of(path).queue
    (waiting,) = queue.ids()
    shutil.copyfile(queue.folder / f"{waiting}.json", queue.folder / f"{waiting} (1).json")
    assert open_cabinet(path).waiting() == [waiting]
    assert kinds(check(path)) == [Kind.CONFLICT]


def test_each_kind_that_can_be_mended_says_how() -> None:
    assert {kind for kind in Kind if kind not in MENDS} == {
        Kind.UNREADABLE, Kind.CONFLICT, Kind.SUSPECT, Kind.NO_PICTURE, Kind.CUT_PICTURE
    }  # fmt: skip


# The command


def run(*arguments: str | Path) -> tuple[int, str]:
    result = CliRunner().invoke(app, ["check", *map(str, arguments)])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result.exit_code, result.output


def test_the_command_tells_by_its_exit_code(path: Path) -> None:
    assert run("--stash", path)[0] == ExitCode.OK
    edit(path, IDS[1], "lot", "100")
    code, out = run("--stash", path)
    assert code == ExitCode.NOT_AGREED
    assert "0100" in out
    code, out = run("--stash", path, "--mend", "--yes")
    assert (code, out.splitlines()[-1]) == (ExitCode.OK, "Mended.")
    assert run("--stash", path)[0] == ExitCode.OK


def test_the_command_mends_nothing_unasked(path: Path) -> None:
    edit(path, IDS[1], "lot", "100")
    before = path.read_bytes()
    assert not sys.stdin.isatty()
    with pytest.raises(Exception, match="nothing was mended"):
        run("--stash", path, "--mend")
    assert path.read_bytes() == before


def test_the_command_puts_a_backup_back(path: Path) -> None:
    before = path.read_bytes()
    open_cabinet(path).withdraw([IDS[0]])
    backup = open_stash(path).backups.all()[-1]
    assert backup.read_bytes() == before
    run("--stash", path, "--restore", backup.name, "--yes")
    assert path.read_bytes() == before


def test_a_stash_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadStash, match="there is no stash"):
        run("--stash", tmp_path / "stash.csv")


def test_the_command_puts_no_backup_back_unasked(path: Path) -> None:
    open_cabinet(path).withdraw([IDS[0]])
    before = path.read_bytes()
    with pytest.raises(NotAsked, match="nothing was put back; run it in a terminal to be asked, o"):
        run("--stash", path, "--restore", open_stash(path).backups.all()[-1].name)
    assert path.read_bytes() == before


def test_a_folder_whose_names_may_not_be_listed_is_named(plain_folder: Path) -> None:
    path = plain_folder / "stash.csv"
    open_cabinet(path).file(BALLS[0])
    plain_folder.chmod(0o311)
    try:
        with pytest.raises(BadStash) as caught:
            conflict_copies(path)
    finally:
        plain_folder.chmod(0o755)
    assert str(caught.value) == (
        f"{plain_folder} cannot be read (Permission denied); "
        "see what stands there, and that you may read it"
    )


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser can become another user")
def test_a_folder_that_may_only_be_read_can_be_checked(path: Path) -> None:
    path.parent.chmod(0o555)
    for one in path.parent.rglob("*"):
        one.chmod(0o755 if one.is_dir() else 0o644)
    for folder in path.parent.parents:
        if folder.stat().st_uid == 0 and folder.name.startswith(("pytest", "popen")):
            folder.chmod(0o755)
    Path(f"{path}.lock").unlink()
    os.seteuid(65534)
    try:
        assert run("--stash", path)[0] == ExitCode.OK
    finally:
        os.seteuid(0)
        path.parent.chmod(0o755)
