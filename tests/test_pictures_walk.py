"""Which files are pictures, and in which order they come."""

from __future__ import annotations

from pathlib import Path

import pytest

from intake.errors import NoPicture, Unreadable
from intake.pictures.walk import picture_files


def touch(folder: Path, *names: str) -> None:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(b"x")


def names_in(folder: Path) -> list[str]:
    return [file.relative_to(folder).as_posix() for file in picture_files([folder])]


def test_numbers_in_names_count_as_numbers(tmp_path: Path) -> None:
    touch(tmp_path, "ball 10.jpg", "ball 2.jpg", "Ball 1.JPG", "b/ball 3.png")
    assert names_in(tmp_path) == ["b/ball 3.png", "Ball 1.JPG", "ball 2.jpg", "ball 10.jpg"]


def test_only_known_suffixes_are_taken_from_a_folder(tmp_path: Path) -> None:
    known = ["a.jpg", "b.jpeg", "c.png", "d.tif", "e.tiff", "f.webp", "g.heic", "h.heif", "i.pdf"]
    touch(tmp_path, *known, "stash.csv", "notes.txt", "noending", "jpg")
    assert names_in(tmp_path) == known


def test_hidden_files_and_folders_are_left_out(tmp_path: Path) -> None:
    touch(tmp_path, "seen.jpg", ".hidden.jpg", ".thumbnails/small.jpg", "._seen.jpg")
    assert names_in(tmp_path) == ["seen.jpg"]


def test_the_stashs_own_folders_are_left_out(tmp_path: Path) -> None:
    touch(tmp_path, "seen.jpg", "wool.csv.tags/tag 1.jpg", "wool.csv.queue/deep/tag 2.jpg")
    assert names_in(tmp_path) == ["seen.jpg"]


def test_the_stashs_own_folder_holds_no_picture_to_read(tmp_path: Path) -> None:
    touch(tmp_path, "wool.csv.tags/tag 1.jpg")
    with pytest.raises(NoPicture):
        picture_files([tmp_path / "wool.csv.tags"])


def test_paths_keep_the_order_they_were_given_in_and_each_file_comes_once(tmp_path: Path) -> None:
    touch(tmp_path, "b/1.jpg", "a/2.jpg")
    files = picture_files([tmp_path / "b", tmp_path, tmp_path / "a" / "2.jpg"])
    assert files == [tmp_path / "b" / "1.jpg", tmp_path / "a" / "2.jpg"]


def test_a_file_named_itself_is_taken_whatever_its_suffix(tmp_path: Path) -> None:
    touch(tmp_path, "scan.dat")
    assert picture_files([tmp_path / "scan.dat"]) == [tmp_path / "scan.dat"]


def test_a_missing_path_is_kept_to_be_told_by_its_reading(tmp_path: Path) -> None:
    touch(tmp_path, "a.jpg")
    found = picture_files([tmp_path, tmp_path / "nowhere"])
    assert found == [tmp_path / "a.jpg", tmp_path / "nowhere"]


def test_links_that_lead_round_are_kept_to_be_told_by_their_reading(tmp_path: Path) -> None:
    touch(tmp_path, "seen.jpg")
    for link, to in (("a.jpg", "b.jpg"), ("b.jpg", "a.jpg"), ("c.jpg", "c.jpg"), ("self", ".")):
        (tmp_path / link).symlink_to(to)
    assert names_in(tmp_path) == ["a.jpg", "b.jpg", "c.jpg", "seen.jpg"]


def test_a_folder_without_pictures_is_named(tmp_path: Path) -> None:
    touch(tmp_path, "notes.txt")
    with pytest.raises(NoPicture, match="no picture in ") as caught:
        picture_files([tmp_path])
    assert str(tmp_path) in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_folder_that_may_not_be_searched_is_named(plain_folder: Path) -> None:
    touch(plain_folder, "a.jpg", "locked/b.jpg")
    (plain_folder / "locked").chmod(0)
    with pytest.raises(Unreadable) as caught:
        picture_files([plain_folder])
    assert str(caught.value) == (
        f"{plain_folder / 'locked'}: the folder cannot be searched (permission denied); "
        "give read permission to it"
    )
