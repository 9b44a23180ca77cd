"""Killed or refused at any system call that writes, work leaves a stash that opens, with all it
reported, and doing it again ends as if nothing had happened."""

from __future__ import annotations

import csv
import io
import shutil
import subprocess
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout, suppress
from functools import partial
from pathlib import Path

import pytest
import typer
from faults import FAULTY, KILLED_AT, REFUSED_AT, calls_of, killed, needs_strace, refused
from filing_tags import tag, waiting_tag
from power_cut import cuts, recorded

from intake.commands.import_sheet import import_sheet
from intake.errors import BadStash, NoAccess
from intake.filing import store as store_room
from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.findings import Kind
from intake.filing.kinds import open_stash
from intake.filing.mend import mend
from intake.filing.record import record_cells, record_id
from intake.filing.store import Store

pytestmark = pytest.mark.slow
"""A campaign of its own: the work is forked, which wants a process without threads."""


@pytest.fixture(autouse=True)
def few_make_an_index(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two records more make an index, so that it is written, too, while the work is killed."""
    monkeypatch.setattr(store_room, "INDEX_EVERY", 2)


BALLS = [tag(f"{letter}.jpg", shade=f"Tide {letter}") for letter in "abc"]
IDS = [record_id(ball.digest, 1) for ball in BALLS]
NEW = [tag("n.jpg", shade="Fen"), waiting_tag("o.jpg", shade="Rush"), tag("p.jpg", shade="Reed")]
WAITING = waiting_tag("w.jpg", shade="Weir")

Report = Callable[[str], None]

HARMLESS = {Kind.LEFT_OVER, Kind.TORN, Kind.STRAY_PICTURE, Kind.LOST}
"""What a kill may leave: nothing of it was reported, and mending takes it away or ends it."""


def take_in(path: Path, report: Report) -> None:
    cabinet = open_cabinet(path)
    for reading in NEW:
        report(cabinet.take(reading).id)


def correct(path: Path, report: Report) -> None:
    cabinet = open_cabinet(path)
    cabinet.correct({one: {"lot": f"00{place}", "range": "Weir"} for place, one in enumerate(IDS)})
    for one in IDS:
        report(one)


def answer(path: Path, report: Report) -> None:
    cabinet = open_cabinet(path)
    for waiting in cabinet.waiting():
        cabinet.resolve(waiting, {"lot": "0990", "shade": "Otter"})
        report(waiting)


def withdraw(path: Path, report: Report) -> None:
    cabinet = open_cabinet(path)
    if IDS[0] in {one.id for one in cabinet.records()}:
        cabinet.withdraw([IDS[0]])


def bring_in_a_sheet(path: Path, report: Report) -> None:
    sheet = path.with_name("sheet.csv")
    with suppress(typer.Exit), redirect_stdout(io.StringIO()):
        import_sheet(sheet, path, yes=True)
    report(IDS[1])


def take_into_an_edited_stash(path: Path, report: Report) -> None:
    take_in(path, report)


def begin_a_stash(path: Path, report: Report) -> None:
    take_in(path, report)


WORKS: dict[str, Callable[[Path, Report], None]] = {
    "intake": take_in,
    "correct": correct,
    "answer": answer,
    "withdraw": withdraw,
    "import": bring_in_a_sheet,
    "edited": take_into_an_edited_stash,
    "first": begin_a_stash,
}


def start(folder: Path, name: str) -> Path:
    """A small stash with a tag that waits, for the work of this name; none for the first."""
    path = folder / "stash.csv"
    if name == "first":
        return path
    cabinet = open_cabinet(path)
    for ball in BALLS:
        cabinet.file(ball)
    cabinet.take(WAITING)
    with path.with_name("sheet.csv").open("w", newline="") as sheet:
        csv.writer(sheet).writerows([("id", "lot"), (IDS[1], "7 B")])
    if name == "edited":
        rows = list(csv.reader(path.open(encoding="utf-8", newline="")))
        with path.open("w", encoding="utf-16", newline="") as file:
            csv.writer(file, delimiter=";").writerows([*row, "shelf"] for row in rows)
    return path


def rows_of(path: Path) -> dict[str, dict[str, str]]:
    return {one.id: {**record_cells(one), "filed_at": ""} for one in open_cabinet(path).records()}


def kinds_of(path: Path) -> set[Kind]:
    return {one.kind for one in Check(Store(open_stash(path))).findings()}


class Campaign:
    """One kind of work, done again and again on copies of one start."""

    def __init__(self, folder: Path, name: str) -> None:
        self.name = name
        self.folder = folder
        (folder / "start").mkdir()
        self.start = start(folder / "start", name)
        ended = self.copy()
        self.calls = calls_of(partial(WORKS[name], ended), folder / "calls")
        self.end, self.waiting = rows_of(ended), open_cabinet(ended).waiting()
        assert kinds_of(ended) == set()

    def copy(self) -> Path:
        shutil.rmtree(self.folder / "run", ignore_errors=True)
        shutil.copytree(self.start.parent, self.folder / "run")
        return self.folder / "run" / "stash.csv"

    def places(self, calls: tuple[str, ...], step: int) -> Iterator[tuple[str, int]]:
        every = [(call, number) for call in calls for number in range(1, self.calls[call] + 1)]
        yield from every[::step]

    def check(self, path: Path, reported: tuple[str, ...]) -> None:
        assert kinds_of(path) <= HARMLESS | {Kind.UNFINISHED, Kind.FILED_WAITS}
        cabinet = open_cabinet(path)
        there = [one.id for one in cabinet.records()]
        assert len(there) == len(set(there))
        assert set(reported) <= {*there, *cabinet.waiting()}
        assert kinds_of(path) <= HARMLESS
        assert mend(Store(open_stash(path)), Check(Store(open_stash(path))).findings()) == []
        WORKS[self.name](path, lambda _: None)
        assert rows_of(path) == self.end
        assert open_cabinet(path).waiting() == self.waiting
        assert kinds_of(path) == set()


def kill_everywhere(folder: Path, name: str, step: int) -> int:
    campaign = Campaign(folder, name)
    kills = 0
    for call, number in campaign.places(KILLED_AT, step):
        path = campaign.copy()
        outcome = killed(partial(WORKS[name], path), call, number)
        assert outcome.code == -9, (call, number, outcome)
        campaign.check(path, outcome.reported)
        kills += 1
    return kills


def refuse_everywhere(folder: Path, name: str, error: str, step: int) -> int:
    campaign = Campaign(folder, name)
    failures = 0
    for call, number in campaign.places(REFUSED_AT, step):
        path = campaign.copy()
        outcome = refused(partial(WORKS[name], path), call, number, error)
        assert outcome.code != FAULTY, (call, number, outcome.said)
        assert "\n" not in outcome.said
        campaign.check(path, outcome.reported)
        failures += outcome.code != 0
    return failures


@needs_strace
def test_killed_at_some_writing_calls_nothing_is_lost(tmp_path: Path) -> None:
    assert kill_everywhere(tmp_path, "intake", step=6) >= 5


@needs_strace
def test_a_disk_that_fills_up_at_some_writing_calls_loses_nothing(tmp_path: Path) -> None:
    assert refuse_everywhere(tmp_path, "correct", "ENOSPC", step=4) >= 2


@needs_strace
@pytest.mark.slow
@pytest.mark.parametrize("name", WORKS)
def test_killed_at_every_writing_call_nothing_is_lost(tmp_path: Path, name: str) -> None:
    print(f"{name}: {kill_everywhere(tmp_path, name, step=1)} kills")


@needs_strace
@pytest.mark.slow
@pytest.mark.parametrize("error", ["ENOSPC", "EIO"])
@pytest.mark.parametrize("name", WORKS)
def test_refused_at_every_writing_call_nothing_is_lost(
    tmp_path: Path, name: str, error: str
) -> None:
    print(f"{name}, {error}: {refuse_everywhere(tmp_path, name, error, step=1)} failures")


def cut_everywhere(folder: Path, name: str, chances: int) -> int:
    """Cut the power after every call, with what was not pushed to the disk gone.  How many
    disks that left."""
    campaign = Campaign(folder, name)
    path = campaign.copy()
    calls = recorded(partial(WORKS[name], path), folder / "recorded")
    disks = 0
    for reported in cuts(calls, campaign.start.parent, path.parent, chances):
        campaign.check(path, tuple(reported))
        disks += 1
    return disks


@needs_strace
@pytest.mark.parametrize("name", WORKS)
def test_a_power_cut_after_any_call_loses_nothing_that_was_reported(
    tmp_path: Path, name: str
) -> None:
    print(f"{name}: {cut_everywhere(tmp_path, name, chances=3)} disks")


# Real file systems


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A file system of 400 kB."""
    folder = tmp_path / "stick"
    folder.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=400k", "none", str(folder)], capture_output=True
    )
    if mounted.returncode:
        pytest.skip("no file system can be mounted here")
    yield folder
    subprocess.run(["umount", "-l", str(folder)], check=True)


def test_a_disk_that_fills_up_keeps_all_that_was_reported(small_disk: Path) -> None:
    path = small_disk / "stash.csv"
    cabinet = open_cabinet(path)
    filed: list[str] = []

    def fill_up() -> None:
        for number in range(1, 200):
            filed.append(cabinet.take(tag("roll.jpg", number, shade=f"Tide {number}")).id)

    with pytest.raises(NoAccess, match="No space left") as caught:
        fill_up()
    assert "\n" not in str(caught.value)
    assert filed
    assert [one.id for one in open_cabinet(path).records()] == filed
    with suppress(OSError), (small_disk / "filler").open("wb", buffering=0) as filler:
        while filler.write(b"x" * 512):
            pass
    with pytest.raises(NoAccess):
        open_cabinet(path).correct({filed[0]: {"lot": "0100" * 900}})
    assert [one.id for one in open_cabinet(path).records()] == filed
    assert open_cabinet(path).record(filed[0]).lot == "0012"
    assert open_cabinet(path).history.changes() == []
    assert kinds_of(path) <= HARMLESS


def test_a_stick_that_is_pulled_is_said_in_one_line(small_disk: Path, tmp_path: Path) -> None:
    path = small_disk / "stash.csv"
    cabinet = open_cabinet(path)
    cabinet.take(BALLS[0])
    shutil.copytree(small_disk, tmp_path / "copy")
    subprocess.run(["umount", "-l", str(small_disk)], check=True)
    shutil.rmtree(small_disk)
    with pytest.raises((NoAccess, BadStash)) as caught:
        cabinet.take(BALLS[1])
    assert "\n" not in str(caught.value)
    shutil.copytree(tmp_path / "copy", small_disk)  # and put back
    subprocess.run(["mount", "--bind", str(small_disk), str(small_disk)], check=True)
    assert cabinet.take(BALLS[0]).record is None
    assert cabinet.take(BALLS[1]).record is not None
    assert [one.id for one in open_cabinet(path).records()] == IDS[:2]


def test_a_folder_of_the_stash_that_vanishes_takes_no_record_with_it(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    cabinet = open_cabinet(path)
    cabinet.take(BALLS[0])
    cabinet.take(WAITING)
    for folder in (cabinet.pictures.folder, cabinet.queue.folder):
        shutil.rmtree(folder)
    assert cabinet.take(tag("b.jpg", shade="Reed", lot="7744")).record is not None
    assert [one.id for one in open_cabinet(path).records()] == IDS[:2]
    assert kinds_of(path) == {Kind.NO_PICTURE}


@needs_strace
def test_the_name_of_a_new_file_is_on_the_disk_before_it_counts(tmp_path: Path) -> None:
    """A power cut after a rename may lose the name unless the folder was synchronised
    (POSIX.1-2017 leaves that to fsync): each rename is followed by one."""
    log = tmp_path / "calls"
    path = start(tmp_path, "correct")
    calls_of(partial(correct, path), log)
    calls = [line.partition("(")[0] for line in log.read_text().splitlines()]
    renames = [place for place, call in enumerate(calls) if call == "rename"]
    assert renames
    for place in renames:
        assert calls[place - 1] == "fsync"
        assert calls[place + 1] == "fsync"
