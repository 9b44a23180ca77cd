"""What was there before a file is written anew is kept, by a rule that is stated."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from filing_tags import record

from intake.errors import BadStash
from intake.filing import backups
from intake.filing.backups import DAYS, LAST, Backups, kept_backups
from intake.filing.kinds import open_stash
from intake.filing.stash import Stash
from intake.sums.maker_sheet import MakerLine, maker_sheet_path, write_maker_sheet


@pytest.fixture(params=[".csv", ".parquet"])
def stash(request: pytest.FixtureRequest, tmp_path: Path) -> Stash:
    return open_stash(tmp_path / f"stash{request.param}")


def test_adding_makes_no_backup(stash: Stash) -> None:
    stash.append([record(number=1)])
    stash.append([record(number=2)])
    assert stash.backups.all() == []
    assert not stash.backups.folder.exists()


def test_each_rewrite_keeps_what_was_there(stash: Stash) -> None:
    stash.append([record(number=1), record(number=2)])
    states = []
    for number in (1, 2):
        states.append(stash.path.read_bytes())
        stash.remove([record(number=number).id])
    assert [backup.read_bytes() for backup in stash.backups.all()] == states


def test_a_backup_opens_as_a_stash(stash: Stash) -> None:
    stash.append([record(number=1), record(number=2)])
    stash.remove([record(number=1).id])
    (backup,) = stash.backups.all()
    assert open_stash(backup).records() == [record(number=1), record(number=2)]


def test_restoring_can_itself_be_taken_back(stash: Stash) -> None:
    stash.append([record(number=1)])
    stash.remove([record(number=1).id])
    (backup,) = stash.backups.all()
    stash.backups.restore(backup)
    assert stash.records() == [record(number=1)]
    stash.backups.restore(stash.backups.all()[-1])
    assert stash.records() == []


def test_a_backup_that_is_not_there_is_named(stash: Stash) -> None:
    with pytest.raises(BadStash, match="there is no backup"):
        stash.backups.named("2025-03-09_00-00-00_000000.csv")


def test_a_folder_of_backups_that_cannot_be_read_is_named(stash: Stash) -> None:
    """Else a check would say that there is no backup."""
    stash.append([record()])
    stash.backups.folder.write_text("no folder")
    with pytest.raises(BadStash) as caught:
        stash.backups.all()
    assert str(caught.value) == (
        f"{stash.backups.folder} cannot be read (Not a directory); "
        "see what stands there, and that you may read it"
    )


def test_only_the_last_ones_of_a_day_stay(stash: Stash) -> None:
    stash.append([record(number=number) for number in range(LAST + 5)])
    for number in range(LAST + 4):
        stash.remove([record(number=number).id])
    sizes = [len(open_stash(backup).records()) for backup in stash.backups.all()]
    assert sizes == list(range(LAST + 1, 1, -1))


def backups_of_days(folder: Path, days: int, size: int = 1) -> list[Path]:
    """Three backups on each of ``days`` days, oldest first."""
    first = datetime(2025, 3, 9, 6, 0, tzinfo=UTC)
    made = []
    for day in range(days):
        for hour in range(3):
            moment = first + timedelta(days=day, hours=hour)
            made.append(folder / f"{moment:%Y-%m-%d_%H-%M-%S_%f}.csv")
            made[-1].write_bytes(b"x" * size)
    return made


def test_one_a_day_stays_for_thirty_days(tmp_path: Path) -> None:
    made = backups_of_days(tmp_path, 60)
    kept = sorted(kept_backups(made))
    assert kept[-LAST:] == made[-LAST:]
    last_of_days = [backup for backup in made if "_08-" in backup.name]
    assert [one for one in kept if "_08-" in one.name] == last_of_days[-DAYS:]
    assert len(kept) == DAYS + LAST - len([one for one in made[-LAST:] if "_08-" in one.name])


def test_a_clock_that_was_set_back_costs_no_new_backup(stash: Stash) -> None:
    stash.append([record(number=number) for number in range(LAST + 3)])
    stash.backups.folder.mkdir()
    year = datetime.now(UTC).year + 1
    for day in range(1, 29):
        for month in (1, 2):
            name = f"{year}-{month:02}-{day:02}_06-00-00_000000{stash.path.suffix}"
            (stash.backups.folder / name).write_bytes(stash.path.read_bytes())
    for number in range(LAST):
        stash.remove([record(number=number).id])
    made = [one for one in stash.backups.all() if one.name < str(year)]
    assert made == stash.backups.all()[-LAST:]
    assert [len(open_stash(one).records()) for one in made] == list(range(LAST + 3, 3, -1))
    assert len(stash.backups.all()) == LAST + DAYS - 1, "those of the days to come count as old"


def test_the_newest_stays_however_large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = backups_of_days(tmp_path, 5, size=100)
    monkeypatch.setattr(backups, "MOST_BYTES", 250)
    assert sorted(kept_backups(made)) == made[-2:]
    monkeypatch.setattr(backups, "MOST_BYTES", 50)
    assert sorted(kept_backups(made)) == made[-1:]


def test_files_of_others_in_the_folder_stay(stash: Stash) -> None:
    stash.append([record(number=number) for number in range(LAST + 5)])
    stash.remove([record(number=0).id])
    mine = stash.backups.folder / f"mine{stash.path.suffix}"
    mine.write_bytes(b"keep me")
    for number in range(1, LAST + 4):
        stash.remove([record(number=number).id])
    assert mine.exists()
    assert mine not in Backups(stash.path).all()


def test_a_maker_sheet_is_backed_up_too(stash: Stash) -> None:
    path = maker_sheet_path(stash.path)
    path.write_text("maker,fibre\nQuillstow Spinners,100% wool\n", "utf-8")
    by_hand = path.read_bytes()
    write_maker_sheet(stash, [MakerLine("Quillstow Mill")])
    assert [backup.read_bytes() for backup in Backups(path).all()] == [by_hand]
