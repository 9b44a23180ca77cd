"""The whole way: pictures into a stash and a queue, by the command and from Python."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pandas as pd
import pytest

from intake import intake
from intake.errors import ExitCode
from intake.filing.cabinet import open_cabinet
from intake.records import REPORTED_FIELDS, Outcome

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_scans"


def balltag(*arguments: str | Path, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "intake", *map(str, arguments)],
        capture_output=True,
        text=True,
        env={**os.environ, **environment},
        cwd=ROOT,
        check=False,
    )


def json_lines(text: str) -> list[dict[str, object]]:
    return [json.loads(line) for line in text.splitlines()]


def test_a_run_prints_one_line_of_json_a_tag_in_the_promised_form(tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    picture = DEMO / "scan_01.jpg"
    first = balltag("intake", picture, "--stash", stash, "--json")
    assert first.returncode == ExitCode.OK, first.stderr
    (line,) = json_lines(first.stdout)
    assert list(line) == ["picture", "tag", "state", "reason", "fields"]
    assert line["picture"] == str(picture)
    assert line["tag"] == 1
    assert line["state"] in ("filed", "queued")
    fields = line["fields"]
    assert isinstance(fields, dict)
    assert tuple(fields) == REPORTED_FIELDS
    for field in fields.values():
        assert list(field) == ["value", "confidence", "state"]
        assert 0 <= field["confidence"] <= 1
        assert field["state"] in ("sure", "doubtful", "missing")
    assert fields["lot"]["value"] == "81-50-7"
    assert fields["length_m"]["value"] == 475
    assert fields["fibre"]["value"] == [{"fibre": "linen", "kind": None, "percent": 100.0}]

    again = balltag("intake", picture, "--stash", stash, "--json")
    (repeated,) = json_lines(again.stdout)
    assert repeated["state"] == "already"


def test_a_bad_picture_is_one_line_and_the_others_go_through(tmp_path: Path) -> None:
    pictures = tmp_path / "pictures"
    pictures.mkdir()
    shutil.copy(DEMO / "scan_01.jpg", pictures / "b.jpg")
    (pictures / "a.jpg").write_bytes(b"")
    (pictures / "c.png").write_bytes((DEMO / "scan_04.png").read_bytes()[:2000])
    stash = tmp_path / "stash.csv"
    run = balltag("intake", pictures, tmp_path / "nowhere.jpg", "--stash", stash, "--json")
    assert run.returncode == ExitCode.SOME_FAILED
    states = {Path(str(one["picture"])).name: one["state"] for one in json_lines(run.stdout)}
    assert states["a.jpg"] == states["c.png"] == states["nowhere.jpg"] == "failed"
    assert states["b.jpg"] in ("filed", "queued")
    reasons = [str(one["reason"]) for one in json_lines(run.stdout) if one["state"] == "failed"]
    assert all(reason and "\n" not in reason for reason in reasons)


ODD_NAMES = [b"new\nline.png", b"esc\x1b[31m\x1b]0;title\x07.png", b"cr\rover.png", b"bad \xff.png"]


def test_an_odd_name_is_one_line_and_commands_no_terminal(tmp_path: Path) -> None:
    """ESC begins what a terminal obeys (ECMA-48, 5.3); names on Linux are any bytes but / and
    NUL."""
    pictures = tmp_path / "pictures"
    pictures.mkdir()
    for name in ODD_NAMES:
        (pictures / os.fsdecode(name)).write_bytes(b"no picture")
    stash = tmp_path / "stash.csv"
    strict = {"PYTHONIOENCODING": "utf-8:strict"}
    run = balltag("intake", pictures, "--stash", stash, **strict)
    assert run.returncode == ExitCode.NO_PICTURE
    said = run.stdout + run.stderr
    assert not set(said) & {"\x1b", "\x07", "\r"}
    assert said.count("PDF") == 4  # with which the reason of each ends, wherever it is broken
    assert "Traceback" not in said
    run = balltag("intake", pictures, "--stash", stash, "--json", **strict)
    names = {os.fsencode(Path(str(one["picture"])).name) for one in json_lines(run.stdout)}
    assert names == set(ODD_NAMES)
    run = balltag("intake", pictures, "--stash", tmp_path / "esc\x1b[31m\n.txt", **strict)
    assert run.returncode == ExitCode.BAD_STASH
    (told,) = run.stderr.splitlines()
    assert "\x1b" not in told


def test_a_folder_without_pictures_says_so(tmp_path: Path) -> None:
    run = balltag("intake", tmp_path, "--stash", tmp_path / "stash.csv")
    assert run.returncode == ExitCode.NO_PICTURE
    assert len(run.stderr.strip().splitlines()) == 1
    assert "no picture" in run.stderr


def test_a_foreign_stash_is_refused_before_anything_is_read(tmp_path: Path) -> None:
    stash = tmp_path / "stash.csv"
    stash.write_text("name,amount\nx,1\n")
    run = balltag("intake", DEMO / "scan_01.jpg", "--stash", stash)
    assert run.returncode == ExitCode.BAD_STASH
    assert len(run.stderr.strip().splitlines()) == 1
    assert stash.read_text() == "name,amount\nx,1\n"


def test_a_stash_in_a_folder_that_is_not_there_is_refused_before_anything_is_read(
    tmp_path: Path,
) -> None:
    run = balltag("intake", DEMO / "scan_01.jpg", "--stash", tmp_path / "no" / "stash.csv")
    assert run.returncode == ExitCode.NO_ACCESS
    assert len(run.stderr.strip().splitlines()) == 1


def demo_of(folder: Path) -> subprocess.CompletedProcess[str]:
    """``balltag demo`` of the package as it lies in ``folder``."""
    shutil.copytree(
        ROOT / "intake", folder / "intake", ignore=shutil.ignore_patterns("__pycache__")
    )
    return subprocess.run(
        [sys.executable, "-m", "intake", "demo", "--jobs", "1"],
        capture_output=True, text=True, cwd=folder, timeout=300, check=False,
        env={**os.environ, "PYTHONPATH": str(folder), "TMPDIR": str(folder), "COLUMNS": "200"},
    )  # fmt: skip


def test_the_demo_reads_the_pictures_beside_the_package_into_a_new_stash(tmp_path: Path) -> None:
    (tmp_path / "demo_scans").mkdir()
    shutil.copy(ROOT / "demo_scans" / "scan_01.jpg", tmp_path / "demo_scans")
    done = demo_of(tmp_path)
    assert done.returncode == ExitCode.OK, done.stderr
    (folder,) = tmp_path.glob("balltag-demo-*")
    assert f"The stash is {folder / 'stash.csv'}" in done.stdout
    kept = open_cabinet(folder / "stash.csv")
    assert len(kept.records()) + len(kept.waiting()) == 1


def test_a_demo_without_its_pictures_is_told(tmp_path: Path) -> None:
    done = demo_of(tmp_path)
    assert (done.returncode, done.stdout) == (ExitCode.NO_PICTURE, "")
    assert done.stderr.splitlines()[-1] == (
        "balltag: the demo pictures are not there; install balltag from its source folder"
    )


def test_a_run_says_when_it_begins_a_stash_which_the_environment_may_name(tmp_path: Path) -> None:
    """A name that was mistyped, or a disk that is not there, would begin one unseen."""
    stash = tmp_path / "named.parquet"
    named = {"BALLTAG_STASH": str(stash), "COLUMNS": "200"}
    first, again = (balltag("intake", DEMO / "scan_01.jpg", **named) for _ in range(2))
    assert stash.exists() or (tmp_path / "named.queue").exists()
    assert f"A new stash begins with them: {stash}" in first.stdout
    assert again.returncode == ExitCode.OK
    assert "new stash" not in again.stdout
    (tmp_path / "empty").mkdir()
    nothing = balltag("intake", tmp_path / "empty", "--stash", tmp_path / "other.csv")
    assert "new stash" not in nothing.stdout


def test_without_tesseract_one_reader_goes_on_and_everything_is_asked(tmp_path: Path) -> None:
    empty = tmp_path / "bin"
    empty.mkdir()
    run = balltag(
        "intake", DEMO / "scan_01.jpg", "--stash", tmp_path / "stash.csv", "--json", PATH=str(empty)
    )
    assert run.returncode == ExitCode.OK, run.stderr
    assert len(run.stderr.strip().splitlines()) == 1
    assert "tesseract is not installed" in run.stderr
    (line,) = json_lines(run.stdout)
    assert line["state"] == "queued"
    assert "only one reader saw" in str(line["reason"])


@pytest.mark.parametrize("ending", ["csv", pytest.param("parquet", marks=pytest.mark.slow)])
def test_python_gets_the_same_results_and_a_stash_of_text(tmp_path: Path, ending: str) -> None:
    stash = tmp_path / f"stash.{ending}"
    results = list(intake([DEMO / "scan_01.jpg", DEMO / "scan_06.webp"], stash, jobs=1))
    assert [result.tag for result in results] == [1, 1]
    filed = [result for result in results if result.outcome is Outcome.FILED]
    assert filed, [result.reason for result in results]
    table = pd.read_csv(stash, dtype=str) if ending == "csv" else pd.read_parquet(stash)
    lots = {one.reading.fields["lot"].value for one in filed if one.reading}
    assert set(table["lot"]) == lots
