"""Drawn care symbols are scored where the truth tells them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from accuracy_tags import read_tag, scored, true_tag
from rich.console import Console

from intake.accuracy.as_json import accuracy_json
from intake.accuracy.drawn_symbols import SymbolCounts, drawn_from_text, drawn_text, symbol_counts
from intake.accuracy.measure import Accuracy
from intake.accuracy.tables import tables
from intake.accuracy.truth import BadTruth, read_truth
from intake.records import State, Symbol, SymbolKind

QUAD = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
DRAWN = (("hand wash",), ("do not bleach",), ("line dry", "dry in shade"), ("iron low",))


def symbol(*processes: str, state: State = State.SURE) -> Symbol:
    return Symbol(processes, 0.9, state, QUAD)


@pytest.mark.parametrize(
    ("read", "counts"),
    [
        ([symbol(*one) for one in DRAWN], SymbolCounts(4, 4, 0, 4, 0)),
        ([], SymbolCounts(4, 0, 0, 0, 0)),
        # One missed, one taken for another and doubted, one found and not told.
        (
            [symbol("do not bleach"), symbol("line dry", state=State.DOUBTFUL), symbol()],
            SymbolCounts(4, 1, 1, 1, 0),
        ),
        ([symbol("iron high"), symbol("iron low")], SymbolCounts(4, 1, 1, 2, 1)),
    ],
)
def test_symbols_are_set_side_by_side_in_order(read: list[Symbol], counts: SymbolCounts) -> None:
    skein = replace(symbol(), kind=SymbolKind.WEIGHT, weight_class="fine")
    assert symbol_counts(DRAWN, [*read, skein]) == counts


def test_symbols_in_a_cell_are_read_as_they_are_written() -> None:
    assert drawn_from_text(drawn_text(DRAWN)) == DRAWN
    assert drawn_from_text(" hand wash ;line dry + dry in shade") == (DRAWN[0], DRAWN[2])
    assert drawn_from_text("") == ()


def test_a_process_that_there_is_not_is_told_with_its_row(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").touch()
    file = tmp_path / "truth.csv"
    file.write_text("picture,care,symbols\na.jpg,hand wash,hand wsh\n", encoding="utf-8")
    with pytest.raises(BadTruth, match="row 2, symbols: 'hand wsh' is no care process"):
        read_truth(file, tmp_path)


def test_the_line_of_symbols_is_there_only_where_the_truth_tells_them() -> None:
    truth = true_tag(kind="photo")
    read = replace(read_tag(), symbols=(symbol("hand wash"), symbol("iron high")))
    told = Accuracy([scored(replace(truth, symbols=DRAWN), read)])
    untold = Accuracy([scored(truth, read)])
    kinds = accuracy_json(told)["kinds"]
    assert isinstance(kinds, dict)
    assert kinds["photo"]["symbols"] == {
        "drawn": 4, "right": 1, "wrong": 1, "sure": 2, "sure_wrong": 1,
    }  # fmt: skip
    assert "1 of 4  25.0 %" in printed(told)
    assert "Care symbols" not in printed(untold)


def printed(accuracy: Accuracy) -> str:
    console = Console(width=160)
    with console.capture() as capture:
        for table in tables(accuracy):
            console.print(table)
    return capture.get()
