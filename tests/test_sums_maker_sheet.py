"""The maker sheet says what holds where a tag is silent, and nothing else."""

from __future__ import annotations

import csv
from dataclasses import replace
from pathlib import Path

import pandas
import pytest
from filing_tags import record
from hypothesis import given, settings
from hypothesis import strategies as st

from intake.errors import BadTable
from intake.filing.answers import BadAnswer
from intake.filing.kinds import open_stash
from intake.filing.record import Record
from intake.filing.stash import Stash
from intake.sums.ball import Ball
from intake.sums.maker_sheet import (
    SHEET_COLUMNS,
    UNSAID,
    MakerLine,
    MakerSheet,
    maker_line,
    maker_sheet_path,
    read_maker_sheet,
    write_maker_sheet,
)

MAKER = "Quillstow Spinners"

SHEET = """\
maker,range,fibre,care,origin,length_m,mass_g
Quillstow Spinners,,100% wool,hand wash; dry flat,England,,
Quillstow Spinners,Sluicegate,75% wool (merino); 25% polyamide,,,210,50
"""


@pytest.fixture
def stash(tmp_path: Path) -> Stash:
    return open_stash(tmp_path / "stash.csv")


def sheet_file(stash: Stash, text: str, encoding: str = "utf-8") -> None:
    maker_sheet_path(stash.path).write_text(text, encoding=encoding)


def silent(**texts: str) -> Record:
    """A record whose tag says neither what the yarn is nor how much there is of it."""
    bare = record(weight_class="", fibre="", care="", origin="", needle_mm="", tension="", **texts)
    return replace(bare, length_m=None, mass_g=None)


def test_without_a_sheet_nothing_is_assumed(stash: Stash) -> None:
    assert read_maker_sheet(stash).assumed(silent()) == {}


def test_a_silent_tag_takes_what_its_maker_says(stash: Stash) -> None:
    sheet_file(stash, SHEET)
    other_range = silent(range="Millrace")
    assert read_maker_sheet(stash).assumed(other_range) == {
        "fibre": "100% wool",
        "care": "hand wash; dry flat",
        "origin": "England",
    }


def test_the_line_for_the_range_wins_over_the_line_for_the_maker(stash: Stash) -> None:
    sheet_file(stash, SHEET)
    assumed = read_maker_sheet(stash).assumed(silent())
    assert assumed["fibre"] == "75% wool (merino); 25% polyamide"
    assert assumed["origin"] == "England"


def test_names_are_found_whatever_their_case_accents_and_hyphens(stash: Stash) -> None:
    sheet_file(stash, "maker,range,origin\nBRÅNÄS-ULL,Söder Fjärd,Sweden\n")
    tag = silent(maker="Branas Ull", range="soder-fjard")
    assert read_maker_sheet(stash).assumed(tag) == {"origin": "Sweden"}


def test_another_maker_is_never_spoken_of(stash: Stash) -> None:
    sheet_file(stash, SHEET)
    sheet = read_maker_sheet(stash)
    assert sheet.assumed(silent(maker="Quillstow Spinner")) == {}
    assert sheet.assumed(silent(maker="")) == {}


@settings(deadline=None)
@given(
    printed=st.sets(st.sampled_from(UNSAID)),
    said=st.sets(st.sampled_from(UNSAID)),
)
def test_what_the_tag_prints_is_never_assumed(printed: set[str], said: set[str]) -> None:
    texts = {"fibre": "100% linen", "length_m": "90", "mass_g": "25"}
    says = {column: texts.get(column, "said") for column in said}
    tag = silent()
    for column in printed:
        number = column in ("length_m", "mass_g")
        tag = replace(tag, **{column: 77.0 if number else "printed"})
    assumed = MakerSheet([MakerLine(MAKER, "", says)]).assumed(tag)
    ball = Ball(tag, assumed)
    assert not printed & assumed.keys()
    assert {column for column in UNSAID if ball.is_assumed(column)} == assumed.keys()
    assert all(ball.text(column) in ("printed", "77.0") for column in printed)


def test_length_and_mass_follow_the_mass_that_the_tag_prints(stash: Stash) -> None:
    sheet_file(stash, SHEET)
    hank = replace(silent(), mass_g=100.0)
    assert read_maker_sheet(stash).assumed(hank)["length_m"] == "420"
    assert Ball(hank, {"length_m": "420"}).left_m == 420


def test_length_and_mass_follow_the_length_that_the_tag_prints(stash: Stash) -> None:
    sheet_file(stash, SHEET)
    assert read_maker_sheet(stash).assumed(replace(silent(), length_m=105.0))["mass_g"] == "25"


def test_length_and_mass_come_from_one_line(stash: Stash) -> None:
    sheet_file(
        stash,
        "maker,range,length_m,mass_g\n"
        "Quillstow Spinners,,420,100\n"
        "Quillstow Spinners,Sluicegate,,50\n",
    )
    assert read_maker_sheet(stash).assumed(silent()) == {"mass_g": "50"}


def test_a_length_without_its_mass_is_refused(stash: Stash) -> None:
    sheet_file(stash, "maker,length_m\nQuillstow Spinners,210\n")
    with pytest.raises(BadTable, match=r"makers\.csv, line 2: .*give the mass_g"):
        read_maker_sheet(stash)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig"])
def test_a_byte_order_mark_makes_no_difference(stash: Stash, encoding: str) -> None:
    sheet_file(stash, SHEET, encoding)
    assert [line.range for line in read_maker_sheet(stash).lines] == ["", "Sluicegate"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "line 1: there is no maker; write a first line"),
        ("range,fibre\n", "line 1: there is no maker"),
        ("maker,fiber\n", "line 1: 'fiber' is no column"),
        ("maker range fibre\n", "parted by commas"),
        ("maker,fibre,fibre\n", "line 1: fibre stands twice"),
        ("maker,lot\n", "line 1: 'lot' is no column"),
        ("maker,fibre\nA,100% wool\nB,wool\n", "line 3: not a fibre composition: 'wool'; write it"),
        ("maker,fibre\nA,70% wool\n", "line 2: .*70%, not 100%; give each fibre its share"),
        ("maker,mass_g\n\nA,50 g\n", "line 3: '50 g' is no mass in grams; type a number"),
        ("maker,mass_g\nA,inf\n", "line 2: 'inf' is no mass in grams"),
        ("maker,origin\n,Norway\n", "line 2: the maker is empty; say whose yarn"),
        ("maker,origin\nA,Oslo, Norway\n", "line 2: 3 cells where the first line has 2; put"),
        ("maker,origin\nA,\"Norway\n", "line 2: no line of a CSV file .*; write it anew"),
        ("maker,range\nA,Ölfjord\nB,\na,OLFJORD\n", "line 4: a OLFJORD has line 2 already"),
    ],
)  # fmt: skip
def test_a_bad_sheet_says_which_line_and_what_to_do(stash: Stash, text: str, message: str) -> None:
    sheet_file(stash, text)
    with pytest.raises(BadTable, match=message) as caught:
        read_maker_sheet(stash)
    assert str(caught.value).startswith(str(maker_sheet_path(stash.path)))
    assert "\n" not in str(caught.value)


def test_a_sheet_that_is_not_in_utf8_says_how_to_save_it(stash: Stash) -> None:
    sheet_file(stash, "maker,origin\nBrånäs Ull,Sweden\n", "latin-1")
    with pytest.raises(BadTable, match="save the maker sheet as UTF-8 CSV"):
        read_maker_sheet(stash)


def test_a_folder_in_its_place_is_said(stash: Stash) -> None:
    maker_sheet_path(stash.path).mkdir()
    with pytest.raises(BadTable, match="cannot be read"):
        read_maker_sheet(stash)


says = st.fixed_dictionaries(
    {},
    optional={
        "fibre": st.sampled_from(["100% wool", "50% linen; 50% cotton"]),
        "care": st.sampled_from(["hand wash", "do not bleach; dry flat"]),
        "origin": st.sampled_from(['Éire, "west"', "=1+1", "0012"]),
        "mass_g": st.sampled_from(["50", "0.5", "100"]),
    },
)


@settings(deadline=None)
@given(names=st.dictionaries(st.sampled_from(["A", "Ø, & Co", 'B "x"']), says))
def test_a_written_sheet_reads_back(
    tmp_path_factory: pytest.TempPathFactory, names: dict[str, dict[str, str]]
) -> None:
    stash = open_stash(tmp_path_factory.mktemp("sheet") / "stash.csv")
    lines = [maker_line({"maker": name, **texts}) for name, texts in names.items()]
    write_maker_sheet(stash, lines)
    assert list(read_maker_sheet(stash).lines) == lines


def test_a_written_sheet_reads_in_other_programs(stash: Stash) -> None:
    """pandas and the standard library's csv read it with the same cells."""
    write_maker_sheet(stash, [maker_line({"maker": "Brånäs Ull", "origin": "Umeå, Sweden"})])
    path = maker_sheet_path(stash.path)
    frame = pandas.read_csv(path, dtype=str, keep_default_na=False)
    assert tuple(frame.columns) == SHEET_COLUMNS
    assert frame.loc[0, "origin"] == "Umeå, Sweden"
    with path.open(encoding="utf-8-sig", newline="") as file:
        assert next(csv.DictReader(file))["maker"] == "Brånäs Ull"


def test_two_lines_of_one_name_are_not_written(stash: Stash) -> None:
    write_maker_sheet(stash, [MakerLine(MAKER)])
    twins = [maker_line({"maker": MAKER, "origin": "England"}), MakerLine("quillstow-spinners")]
    with pytest.raises(BadTable, match="line 3"):
        write_maker_sheet(stash, twins)
    assert read_maker_sheet(stash).lines == (MakerLine(MAKER),)


def test_a_typed_line_is_judged_as_an_answer_is() -> None:
    line = maker_line({"maker": " Brånäs Ull\n", "range": "", "mass_g": "050.0", "care": " "})
    assert line == MakerLine("Brånäs Ull", "", {"mass_g": "50"})
    with pytest.raises(BadAnswer, match="there is no column 'lot'"):
        maker_line({"maker": "Brånäs Ull", "lot": "0012"})
