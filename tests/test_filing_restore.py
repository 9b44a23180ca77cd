"""A backup that is put back: whatever else lies beside the stash, it opens, and what does not
agree with it is said."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from filing_tags import tag, waiting_tag
from typer.testing import CliRunner

from intake.cli import app
from intake.errors import BadStash, CannotUndo, ExitCode
from intake.filing.cabinet import open_cabinet
from intake.filing.findings import Kind
from intake.filing.kinds import open_stash

FILED_LATER = tag("later.jpg", shade="Marram", lot="0055")


@pytest.fixture(params=[".csv", ".parquet"])
def path(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A stash with one backup; since then one of its lots was corrected, one record withdrawn,
    one filed and one answered."""
    path = tmp_path / f"stash{request.param}"
    cabinet = open_cabinet(path)
    kelp = cabinet.file(tag("a.jpg", shade="Kelp", lot="0412")).id
    tarn = cabinet.file(tag("b.jpg", shade="Tarn", lot="0044")).id
    waits = cabinet.take(waiting_tag("w.jpg", shade="Weir")).id
    cabinet.correct({kelp: {"lot": "00412"}})  # the backup is of before
    cabinet.withdraw([tarn])
    cabinet.take(FILED_LATER)
    cabinet.resolve(waits, {"lot": "0071"})
    return path


def restored(path: Path, *options: str) -> tuple[int, str]:
    first = open_stash(path).backups.all()[0].name
    done = CliRunner().invoke(
        app, ["check", "--restore", first, "--yes", "--json", "--stash", str(path), *options]
    )
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done.exit_code, done.output


def lots(path: Path) -> dict[str, str]:
    return {one.shade: one.lot for one in open_cabinet(path).records()}


BACKED_UP = {"Kelp": "0412", "Tarn": "0044"}


def test_all_that_came_after_it_is_said(path: Path) -> None:
    code, said = restored(path)
    assert code == ExitCode.NOT_AGREED
    assert lots(path) == BACKED_UP  # an older lot is not taken for a turned one
    for kind in (Kind.EDITED, Kind.LOST, Kind.RISEN):
        assert f'"{kind}"' in said
    assert Kind.TURNED not in said
    assert "Marram" in said
    assert "Weir" in said


def test_it_can_be_brought_up_to_what_came_after_it(path: Path) -> None:
    restored(path, "--mend")
    assert lots(path) == {"Kelp": "0412", "Marram": "0055", "Weir": "0071"}
    assert open_cabinet(path).waiting() == []
    done = CliRunner().invoke(app, ["check", "--stash", str(path)])
    assert done.exit_code == ExitCode.OK
    cabinet = open_cabinet(path)
    cabinet.undo(cabinet.history.last_stroke())  # the lot that went back with the backup
    assert lots(path)["Kelp"] == "00412"


def test_a_stroke_that_it_undid_is_not_taken_back_twice(path: Path) -> None:
    restored(path)
    cabinet = open_cabinet(path)
    with pytest.raises(CannotUndo, match="not as stroke 1 left it"):
        cabinet.undo("1")
    with pytest.raises(CannotUndo, match="not as stroke 2 left it"):
        cabinet.undo("2")
    assert lots(path) == BACKED_UP


@pytest.mark.parametrize("left", ["nothing", "the stash"])
def test_it_goes_back_where_little_or_nothing_else_is_left(path: Path, left: str) -> None:
    kept = {f"{path.stem}.backups", path.name if left == "the stash" else ""}
    for one in path.parent.iterdir():
        if one.name not in kept:
            shutil.rmtree(one) if one.is_dir() else one.unlink()
    code, said = restored(path)
    assert lots(path) == BACKED_UP
    assert code == ExitCode.NOT_AGREED
    assert said.count(str(Kind.NO_PICTURE)) == len(said.splitlines()) == 2


def test_what_is_no_stash_or_a_newer_one_is_refused(path: Path) -> None:
    before = path.read_bytes()
    backup = open_stash(path).backups.all()[0]
    whole = backup.read_bytes()
    newer = whole.replace(b",2\n", b",99\n")
    for data in (b"junk", newer if path.suffix == ".csv" else whole[: len(whole) // 2]):
        backup.write_bytes(data)
        with pytest.raises(BadStash):
            restored(path)
        assert path.read_bytes() == before
    assert open_cabinet(path).records()[0].lot == "00412"
