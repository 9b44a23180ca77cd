"""Labels that are written as text: how they are laid out, and that their truth is what they say."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from fixtures.measure_labels import FIELDS, report, score
from fixtures.written_labels import FOLDER, WrittenLabel, lines_of, read_labels
from intake.fields.care.phrases import PROCESSES
from intake.fields.parse import parse
from intake.reading.read import righted_lines
from intake.records import FibrePart
from intake.wording import value_from_text

FILES = sorted(FOLDER.glob("*.txt"))

TEXT = """
@ en-01
# Moleside Spinners
+ Silverthistle | - 4 ply
Shade | Lot
0412 Heron | 88713
= {"maker": "Moleside Spinners", "range": "Silverthistle", "lot": "88713", "shade_code": "0412"}
"""


@pytest.fixture
def label(tmp_path: Path) -> WrittenLabel:
    path = tmp_path / "labels.txt"
    path.write_text(TEXT, encoding="utf-8")
    (one,) = read_labels(path)
    return one


def test_a_label_is_read_with_its_rows_and_its_truth(label: WrittenLabel) -> None:
    assert label.name == "en-01"
    assert label.rows[0] == "# Moleside Spinners"
    assert label.truth["lot"] == "88713"


def test_rows_lie_below_one_another_and_parts_side_by_side(label: WrittenLabel) -> None:
    lines = {line.text: line for line in lines_of(label)}
    assert list(lines) == [
        *("Moleside Spinners", "Silverthistle", "4 ply", "Shade", "Lot", "0412 Heron", "88713"),
    ]
    assert lines["Moleside Spinners"].height_px > lines["Silverthistle"].height_px
    assert lines["4 ply"].height_px < lines["Shade"].height_px
    assert lines["Lot"].quad[0][0] == lines["88713"].quad[0][0] > lines["0412 Heron"].quad[1][0]
    bottoms_px = [lines[text].quad[3][1] for text in ("Moleside Spinners", "Shade", "88713")]
    assert bottoms_px == sorted(bottoms_px)


def test_print_is_centred_in_its_column(label: WrittenLabel) -> None:
    lines = {line.text: line for line in lines_of(label, centred=True)}
    assert lines["Lot"].centre[0] == pytest.approx(lines["88713"].centre[0])


@pytest.mark.parametrize("text", ["50 g\n", '@ a\nLot 5\n= ["lot"]\n'])
def test_what_is_no_label_is_refused(text: str, tmp_path: Path) -> None:
    path = tmp_path / "labels.txt"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=r"labels\.txt, line"):
        list(read_labels(path))


def test_a_score_tells_right_fields_from_false_ones(label: WrittenLabel) -> None:
    told = score(label, centred=False)
    assert told.outcomes["lot"] == "right, sure"
    assert "shade" not in told.outcomes, "the truth names none"
    label.truth["lot"] = "88718"
    wrong = score(label, centred=False)
    assert wrong.outcomes["lot"] == "false, sure"
    assert ("lot", "false, sure", "88713", "88718") in wrong.faults
    lines = list(report([told, wrong], show=True))
    assert lines[0].startswith("2 labels, ")
    assert lines[-1] == "en-01 lot, false, sure: '88713' for '88718'"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_truth_of_every_label_stands_in_its_print(path: Path) -> None:
    labels = list(read_labels(path))
    assert len({label.name for label in labels}) == len(labels) > 100
    for label in labels:
        print_ = " ".join(line.text for line in lines_of(label)).casefold()
        assert label.truth.keys() <= set(FIELDS), label.name
        for name in ("maker", "range", "shade", "shade_code", "lot"):
            words = label.truth.get(name, "").casefold().split()
            assert all(word in print_ for word in words), (label.name, name)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_truth_of_every_label_is_in_words_of_the_stash(path: Path) -> None:
    for label in read_labels(path):
        values = {name: value_from_text(name, text) for name, text in label.truth.items()}
        assert set(values.get("care") or ()) <= set(PROCESSES), label.name  # type: ignore[arg-type]
        parts = values.get("fibre") or ()
        assert isinstance(parts, tuple)
        shares = [part.percent for part in parts if isinstance(part, FibrePart)]
        assert not shares or sum(shares) == pytest.approx(100, abs=1), label.name


def mixtures(count: int, seed: int) -> Iterator[WrittenLabel]:
    """Labels of which rows were left out, mixed with those of others, shuffled or set in another
    size."""
    labels = [label for path in FILES for label in read_labels(path)]
    rng = random.Random(seed)
    for _ in range(count):
        one, other = rng.sample(labels, 2)
        rows = [row for row in one.rows if rng.random() > 0.25]
        rows += [row for row in other.rows if rng.random() < 0.3]
        if rng.random() < 0.5:
            rng.shuffle(rows)
        sizes = [rng.choice(["# ", "+ ", "- ", ""]) if rng.random() < 0.3 else None for _ in rows]
        resized = (
            row if size is None else size + row.lstrip("#+- ")
            for size, row in zip(sizes, rows, strict=True)
        )
        yield WrittenLabel(one.name, tuple(resized) or one.rows, {})


def test_no_mixture_of_print_breaks_the_parser() -> None:
    for label in mixtures(150, seed=7):
        fields = parse(righted_lines(lines_of(label, centred=bool(len(label.rows) % 2))), ())
        assert all(0 <= field.confidence <= 1 for field in fields.values()), label.rows
