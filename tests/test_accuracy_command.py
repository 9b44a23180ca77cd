"""``balltag accuracy`` as a user runs it, on kept lines and on drawn pictures."""

from __future__ import annotations

import gzip
import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import PIL.Image
import pytest
from line_making import lines_from

from intake.accuracy.kept_lines import BadLines, LineKeeper
from intake.accuracy.measure import Accuracy, measure
from intake.accuracy.truth import read_truth
from intake.errors import NoTag
from intake.fields.parse import parse
from intake.records import TagReading

TAG = ("Cable Ferry Spinnery", "Far Bank", "DK", "80% wool 20% silk", "50 g / 120 m",
       "Shade: 014 Fern", "Lot: 0072", "Hand wash. Dry flat.")  # fmt: skip

TRUTH = (
    "picture,kind,shade,shade_code,lot,length_m,mass_g,layout\n"
    "a.jpg,scan,Fern,014,0072,120,50,card\n"
    "b.jpg,photo,Fern,014,0099,120,50,card\n"
    "c.jpg,photo,Fern,014,0099,120,50,card\n"
)


def reading(picture: str, *texts: str) -> TagReading:
    lines = tuple(lines_from(*texts))
    seen = format(abs(hash(picture)) % 2**64, "016x")
    return TagReading(picture, 1, 1, picture.ljust(64, "0"), seen, b"", lines, (), parse(lines, ()))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Three named pictures with their truth, and what was read from them: one tag as it
    is, one with another lot, and one picture that failed."""
    for name in ("a.jpg", "b.jpg", "c.jpg"):
        PIL.Image.new("RGB", (8, 8)).save(tmp_path / name)
    (tmp_path / "truth.csv").write_text(TRUTH, encoding="utf-8")
    with LineKeeper(tmp_path / "lines.jsonl.gz") as keeper:
        keeper.keep("a.jpg", [reading("a", *TAG)], None)
        keeper.keep("b.jpg", [reading("b", *TAG[:6], "Lot: 0098", TAG[7])], None)
        keeper.keep("c.jpg", [], NoTag("c.jpg: no print was found"))
    return tmp_path


def balltag(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "intake", "accuracy", str(folder), str(folder / "truth.csv")]
    return subprocess.run([*command, *arguments], capture_output=True, text=True, check=False)


def test_kept_lines_are_scored_without_reading(folder: Path) -> None:
    truth = read_truth(folder / "truth.csv", folder)
    accuracy = Accuracy()
    for one in measure(truth, from_lines=folder / "lines.jsonl.gz"):
        accuracy.add(one)
    lots = [tag.fields["lot"].verdict.value for tag in accuracy.tags]
    assert lots == ["right", "wrong", "missing"]
    assert [tag.read is None for tag in accuracy.tags] == [False, False, True]


@pytest.mark.parametrize("reviewed", [False, True])
def test_a_maker_that_was_answered_is_known_on_the_next_picture(
    folder: Path, reviewed: bool
) -> None:
    (folder / "truth.csv").write_text(
        "picture,maker,range,shade,shade_code,lot\n"
        "a.jpg,Quillmere,Far Bank,Fern,014,0072\n"
        "b.jpg,Quillmere,Far Bank,Rush,020,0081\n",
        encoding="utf-8",
    )
    with LineKeeper(folder / "two.jsonl") as keeper:
        for picture, shade, lot in (("a.jpg", "014 Fern", "0072"), ("b.jpg", "020 Rush", "0081")):
            texts = ("Quillmere", *TAG[1:5], f"Shade: {shade}", f"Lot: {lot}", TAG[7])
            keeper.keep(picture, [reading(picture, *texts)], None)
    truth = read_truth(folder / "truth.csv", folder)
    accuracy = Accuracy()
    for one in measure(truth, from_lines=folder / "two.jsonl", reviewed=reviewed):
        accuracy.add(one)
    assert [tag.is_queued for tag in accuracy.tags] == [True, not reviewed]


def test_kept_lines_give_the_fields_they_gave_when_they_were_read(folder: Path) -> None:
    truth = read_truth(folder / "truth.csv", folder)
    first = next(iter(measure(truth, from_lines=folder / "lines.jsonl.gz"))).score
    assert first is not None
    assert first.tags[0].read is not None
    read, before = first.tags[0].read.fields, reading("a", *TAG).fields
    assert {name: replace(field, cues=dict(field.cues)) for name, field in read.items()} == {
        name: replace(field, cues=dict(field.cues)) for name, field in before.items()
    }


def test_lines_can_be_kept_from_kept_lines(folder: Path) -> None:
    truth = read_truth(folder / "truth.csv", folder)
    kept, again = folder / "lines.jsonl.gz", folder / "again.jsonl.gz"
    assert len(list(measure(truth, from_lines=kept, keep_lines=again))) == 3
    before, after = (
        [json.loads(line) for line in gzip.decompress(path.read_bytes()).splitlines()]
        for path in (kept, again)
    )
    assert [one["error"] for one in before] == [one["error"] for one in after]
    lines = [[[tag["lines"] for tag in one["tags"]] for one in some] for some in (before, after)]
    assert lines[0] == lines[1]


def test_a_picture_that_has_no_kept_lines_is_named(folder: Path) -> None:
    with LineKeeper(folder / "few.jsonl") as keeper:
        keeper.keep("a.jpg", [], None)
    truth = read_truth(folder / "truth.csv", folder)
    with pytest.raises(BadLines, match=r"no lines of b\.jpg"):
        list(measure(truth, from_lines=folder / "few.jsonl"))


@pytest.mark.parametrize("name", ["none.jsonl", "none.jsonl.gz", "truth.csv", "a.jpg"])
def test_a_file_that_holds_no_lines_gets_one_line(folder: Path, name: str) -> None:
    (folder / "empty.gz").write_bytes(b"")
    truth = read_truth(folder / "truth.csv", folder)
    with pytest.raises(BadLines) as failure:
        list(measure(truth, from_lines=folder / name))
    assert "\n" not in str(failure.value)


def test_a_gzip_file_that_is_none_gets_one_line(folder: Path) -> None:
    (folder / "plain.gz").write_text("{}\n")
    truth = read_truth(folder / "truth.csv", folder)
    with pytest.raises(BadLines):
        list(measure(truth, from_lines=folder / "plain.gz"))


def test_the_command_prints_tables_and_writes_figures_plot_and_evidence(folder: Path) -> None:
    out, plot, dump = folder / "out.json", folder / "plot.png", folder / "dump.jsonl"
    done = balltag(
        folder, "--from-lines", str(folder / "lines.jsonl.gz"), "--out", str(out),
        "--plot", str(plot), "--dump", str(dump),
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "What became of the tags" in done.stdout
    figures = json.loads(out.read_text(encoding="utf-8"))
    assert list(figures["kinds"]) == ["scan", "photo"]
    assert figures["all"]["fields"]["lot"] == {
        "right": 1, "wrong": 1, "missing": 1, "invented": 0, "absent": 0,
    }  # fmt: skip
    assert figures["all"]["unread"] == 1
    assert figures["letter_errors"]["photo"]["lot"]["rate"] == pytest.approx(5 / 8)
    with PIL.Image.open(plot) as picture:
        assert picture.size[0] > 600
    rows = [json.loads(line) for line in dump.read_text(encoding="utf-8").splitlines()]
    assert len(rows) == 3 * 5
    lot = next(row for row in rows if (row["picture"], row["field"]) == ("b.jpg", "lot"))
    assert (lot["value"], lot["truth"], lot["right"]) == ("0098", "0099", False)
    assert lot["about"] == {"layout": "card"}
    assert 0 < lot["evidence"]["weakest"] <= 1


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("--from-lines", "none.jsonl"), 2, "none.jsonl cannot be read"),
        (("--out", "nowhere/out.json"), 6, "nowhere/out.json cannot be written"),
    ],
)
def test_what_cannot_be_done_is_said_in_one_line_before_any_reading(
    folder: Path, arguments: tuple[str, ...], code: int, words: str
) -> None:
    done = balltag(folder, *arguments)
    assert done.returncode == code
    (line,) = [line for line in done.stderr.splitlines() if "not installed" not in line]
    assert line.startswith("balltag: ")
    assert words in line


@pytest.mark.parametrize(
    ("option", "name", "words"),
    [
        ("--out", "out.json", "cannot be written (No such file or directory); give another file"),
        ("--keep-lines", "kept.jsonl", "cannot be written (No such file or directory); give anot"),
        *(
            pytest.param(*one, marks=pytest.mark.slow)
            for one in (
                ("--plot", "plot.png", "cannot be drawn (No such file or directory); give another"),
                ("--dump", "dump.jsonl", "cannot be written (No such file or directory); give"),
                ("--plot", "plot.png/", "cannot be written; name a file in a folder that can be"),
                ("--plot", "plot.xyz", "is no picture by its name; end it with .png or .svg"),
            )
        ),
    ],
)
def test_a_file_that_cannot_be_written_is_named_in_one_line(
    folder: Path, option: str, name: str, words: str
) -> None:
    """A link into a folder that is gone, or a folder where the file should be."""
    if name.endswith("/"):
        (folder / name).mkdir()
    else:
        (folder / name).symlink_to(folder / "gone" / name)
    done = balltag(
        folder, "--from-lines", str(folder / "lines.jsonl.gz"), option, f"{folder}/{name}"
    )
    assert done.returncode == (2 if words.startswith("is no") or option == "--keep-lines" else 6)
    (line,) = [line for line in done.stderr.splitlines() if "not installed" not in line]
    assert line.startswith(f"balltag: {folder / name} {words}")


@pytest.mark.slow
def test_drawn_tags_are_read_and_measured_against_baselines(tmp_path: Path) -> None:
    draw = [sys.executable, "-m", "fixtures.draw", str(tmp_path), "--count", "3", "--seed", "2"]
    subprocess.run([*draw, "--split", "unseen", "--kinds", "scan"], check=True)
    out = tmp_path / "out.json"
    done = balltag(tmp_path, "--baselines", "--out", str(out))
    assert done.returncode == 0, done.stderr
    figures = json.loads(out.read_text(encoding="utf-8"))
    assert figures["all"]["tags"] == 3
    assert figures["all"]["fields"]["lot"]["right"] >= 2
    assert len(figures["baselines"]) == 3
    plain = figures["baselines"]["tesseract, plain patterns"]["all"]["fields"]
    ours = figures["all"]["fields"]
    right = [sum(field["right"] for field in some.values()) for some in (ours, plain)]
    assert right[0] > right[1]
