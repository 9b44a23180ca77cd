"""Which data Tesseract reads with."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from intake.reading.tesseract_data import installed_data, language_sets, listed_data

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
