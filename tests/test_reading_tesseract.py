"""The second reader: which data it reads with, and the two ways to run it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import PIL.Image
import pytest

from intake.reading.base import Image, Reader
from intake.reading.line_pictures import CODE_MANNERS, CODE_SIGNS, PLAIN, Manner
from intake.reading.lines import cut_lines
from intake.reading.rapid import RapidReader
from intake.reading.tesseract import TesseractProgram
from intake.reading.tesseract_data import (
    HOW_TO_INSTALL,
    installed_data,
    language_sets,
    listed_data,
)

pytest.importorskip("tesserocr")
from intake.reading.tesseract_inside import TesseractInside

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"

LISTED = """Warning: Parameter not found: some_setting
List of available languages in "/usr/share/tesseract-ocr/5/tessdata/" (4):
eng
osd
script/Latin
script/Latin_vert
"""


def test_the_data_for_whole_scripts_are_among_those_listed() -> None:
    data = listed_data(LISTED)
    assert data.names == {"eng", "osd", "script/Latin", "script/Latin_vert"}
    assert data.folder == Path("/usr/share/tesseract-ocr/5/tessdata/")


def test_a_list_of_an_older_tesseract_names_no_folder() -> None:
    data = listed_data("List of available languages (2):\neng\nLatin\n")
    assert data.names == {"eng", "Latin"}
    assert data.folder is None


def test_what_is_no_list_lists_nothing() -> None:
    assert not listed_data("Error opening data file eng.traineddata").names


@pytest.mark.parametrize("name", ["Latin", "script/Latin"])
def test_data_for_all_latin_letters_are_read_with_first_where_they_are(
    tmp_path: Path, name: str
) -> None:
    here = installed_data()
    latin = sorted(one for one in here.names if one.rpartition("/")[2] == "Latin")
    if here.folder is None or not latin or "deu" not in here.names:
        pytest.skip("Tesseract's data for Latin script and German are not installed")
    for there, data in ((name, latin[0]), ("deu", "deu")):
        place = tmp_path / f"{there}.traineddata"
        place.parent.mkdir(exist_ok=True)
        place.symlink_to((here.folder / f"{data}.traineddata").resolve())
    asked = "from intake.reading.tesseract_data import language_sets; print(language_sets())"
    said = subprocess.run(
        [sys.executable, "-c", asked],
        env={**os.environ, "TESSDATA_PREFIX": str(tmp_path)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert said.stdout.strip() == str((name, "deu"))


def test_data_for_all_latin_letters_come_first_here() -> None:
    there = installed_data().names & {"Latin", "script/Latin"}
    if not there:
        pytest.skip("Tesseract's data for Latin script are not installed")
    assert language_sets()[0] in there


# The two ways to run it


@pytest.fixture(scope="module")
def lines() -> list[Image]:
    """Lines of print cut from a drawn scan, which lies on its head."""
    with PIL.Image.open(DEMO / "scan_03.jpg") as picture:
        image = np.asarray(picture.convert("RGB").transpose(PIL.Image.Transpose.ROTATE_180))
    return cut_lines(image, RapidReader().find_lines(image))


def inside(manner: Manner = PLAIN) -> Reader:
    folder = installed_data().folder
    assert folder is not None
    return TesseractInside(language_sets()[0], folder, manner)


@pytest.mark.parametrize(
    "manner",
    [
        pytest.param(PLAIN, id="lines"),
        pytest.param(CODE_MANNERS[0], id="codes", marks=pytest.mark.slow),
    ],
)
def test_within_the_process_the_same_is_read_as_by_the_program(
    lines: list[Image], manner: Manner
) -> None:
    program = TesseractProgram(language_sets()[0], manner).read(lines)
    pairs = list(zip(inside(manner).read(lines), program, strict=True))
    alike = [(one, other) for one, other in pairs if one.text == other.text]
    # Not all: the library may be of another version than the program.
    assert len(alike) >= 0.8 * len(lines)
    assert sum(len(one.text) for one, _ in alike) > 40
    for one, other in alike:
        for ours, theirs in zip(one.letters, other.letters, strict=True):
            assert ours.left == pytest.approx(theirs.left, abs=0.05)
            assert ours.right == pytest.approx(theirs.right, abs=0.05)


def test_what_is_read_does_not_hang_on_what_was_read_before(lines: list[Image]) -> None:
    plain, codes = inside(), inside(CODE_MANNERS[0])
    first = plain.read(lines)
    codes.read(lines)
    assert [*reversed(plain.read(lines[::-1]))] == first


def test_only_the_signs_of_codes_are_seen_where_a_code_is_read(lines: list[Image]) -> None:
    for reader in (inside(CODE_MANNERS[0]), TesseractProgram(language_sets()[0], CODE_MANNERS[0])):
        seen = {letter.text for reading in reader.read(lines) for letter in reading.letters}
        assert seen - {" "} <= set(CODE_SIGNS)


def test_no_lines_give_no_readings() -> None:
    assert inside().read([]) == TesseractProgram(language_sets()[0]).read([]) == []


def test_where_the_library_is_missing_the_program_reads() -> None:
    chosen = (
        "import sys; sys.modules['tesserocr'] = None;"
        "from intake.reading.second_reader import second_reader, second_reader_version;"
        "print(type(second_reader()).__name__, second_reader_version())"
    )
    said = subprocess.run(
        [sys.executable, "-c", chosen], capture_output=True, text=True, check=True
    ).stdout
    program = subprocess.run(["tesseract", "--version"], capture_output=True, text=True, check=True)
    assert said.split() == ["TesseractProgram", program.stdout.split()[1]]


def test_without_tesseract_there_is_no_second_reader_and_it_is_told(tmp_path: Path) -> None:
    said = subprocess.run(
        [
            sys.executable, "-c",
            "from intake.errors import MissingProgram;"
            "from intake.reading.second_reader import second_reader, second_reader_version\n"
            "try: second_reader()\n"
            "except MissingProgram as error: print(second_reader_version(), error, sep='\\n')",
        ],
        capture_output=True, text=True, check=True, env={**os.environ, "PATH": str(tmp_path)},
    ).stdout  # fmt: skip
    assert said.splitlines() == ["not installed", HOW_TO_INSTALL]
    assert "; install it with: apt-get install tesseract-ocr" in HOW_TO_INSTALL
