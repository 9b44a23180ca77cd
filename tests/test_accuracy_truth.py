"""The truth file: what it may hold, and what is said about one that cannot be used."""

from __future__ import annotations

from pathlib import Path

import pytest

from intake.accuracy.truth import NO_KIND, BadTruth, Truth, read_truth
from intake.errors import ExitCode
from intake.records import FibrePart


def truth_of(folder: Path, text: str, *pictures: str) -> Truth:
    for picture in pictures or ("a.jpg",):
        (folder / picture).touch()
    file = folder / "truth.csv"
    file.write_text(text, encoding="utf-8")
    return read_truth(file, folder)


def test_values_are_read_in_the_forms_of_a_stash_and_lots_stay_text(tmp_path: Path) -> None:
    truth = truth_of(
        tmp_path,
        "picture,kind,lot,fibre,length_m,care\n"
        "a.jpg,photo,007,75% wool (merino); 25% silk,87.5,hand wash; dry flat\n",
    )
    ((tag,),) = truth.pictures.values()
    assert tag.kind == "photo"
    assert tag.values == {
        "lot": "007",
        "fibre": (FibrePart("wool", "merino", 75.0), FibrePart("silk", "", 25.0)),
        "length_m": 87.5,
        "care": ("hand wash", "dry flat"),
    }
    assert truth.fields == ("lot", "fibre", "length_m", "care")


def test_an_empty_cell_says_that_the_tag_carries_no_such_thing(tmp_path: Path) -> None:
    ((tag,),) = truth_of(tmp_path, "picture,lot,mass_g\na.jpg,,\n").pictures.values()
    assert tag.values == {"lot": None, "mass_g": None}
    assert tag.kind == NO_KIND


def test_other_columns_are_kept_along_and_not_compared(tmp_path: Path) -> None:
    truth = truth_of(tmp_path, "picture,lot,layout\na.jpg,7,sticker\n")
    ((tag,),) = truth.pictures.values()
    assert tag.about == {"layout": "sticker"}
    assert truth.fields == ("lot",)


def test_tags_without_a_number_are_counted_picture_by_picture(tmp_path: Path) -> None:
    truth = truth_of(tmp_path, "picture,lot\na.jpg,1\nb.jpg,2\na.jpg,3\n", "a.jpg", "b.jpg")
    numbers = {path.name: [tag.tag for tag in tags] for path, tags in truth.pictures.items()}
    assert numbers == {"a.jpg": [1, 2], "b.jpg": [1]}
    assert truth.tag_count == 3


def test_a_file_saved_by_a_spreadsheet_is_read(tmp_path: Path) -> None:
    truth = truth_of(tmp_path, "\ufeffpicture,lot\r\n a.jpg , 0072 \r\n")
    ((tag,),) = truth.pictures.values()
    assert tag.values["lot"] == "0072"


def test_pictures_are_found_beside_the_truth_file_too(tmp_path: Path) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    (tmp_path / "a.jpg").touch()
    file = tmp_path / "truth.csv"
    file.write_text("picture,lot\na.jpg,1\n", encoding="utf-8")
    assert [path.name for path in read_truth(file, empty).pictures] == ["a.jpg"]


@pytest.mark.parametrize(
    ("text", "what_is_wrong"),
    [
        ("", "no column 'picture'"),
        ("file,lot\na.jpg,1\n", "no column 'picture'"),
        ("picture,notes\na.jpg,x\n", "no column to compare"),
        ("picture,lot\n", "names no picture"),
        ("picture,lot\n,1\n", "row 2 names no picture"),
        ("picture,lot\nb.jpg,1\n", "row 2: there is no picture b.jpg"),
        ("picture,lot\n.,1\n", "there is no picture ."),
        ("picture,tag,lot\na.jpg,first,1\n", "row 2: tag 'first' is no number"),
        ("picture,tag,lot\na.jpg,0,1\n", "tag '0' is no number from 1 on"),
        ("picture,tag,lot\na.jpg,1,1\na.jpg,1,2\n", "row 3: tag 1 of a.jpg has a row already"),
        ("picture,mass_g\na.jpg,50 g\n", "row 2, mass_g: '50 g' is no number"),
        ("picture,mass_g\na.jpg,nan\n", "mass_g: 'nan' must be above 0"),
        ("picture,length_m\na.jpg,0\n", "length_m: '0' must be above 0"),
        ("picture,fibre\na.jpg,pure wool\n", "fibre: not a fibre composition: 'pure wool'"),
        ('picture,lot\na.jpg,"1\n', "no CSV file in UTF-8"),
    ],
)
def test_a_bad_truth_file_gets_one_line(tmp_path: Path, text: str, what_is_wrong: str) -> None:
    with pytest.raises(BadTruth) as failure:
        truth_of(tmp_path, text)
    assert what_is_wrong in str(failure.value)
    assert "\n" not in str(failure.value)
    assert failure.value.exit_code is ExitCode.USAGE


def test_a_file_that_is_not_text_gets_one_line(tmp_path: Path) -> None:
    file = tmp_path / "truth.csv"
    file.write_bytes(b"picture,lot\n\xff\xfe,1\n")
    with pytest.raises(BadTruth, match="no CSV file in UTF-8"):
        read_truth(file, tmp_path)


def test_a_file_that_is_not_there_gets_one_line(tmp_path: Path) -> None:
    with pytest.raises(BadTruth, match="cannot be read"):
        read_truth(tmp_path / "none.csv", tmp_path)
