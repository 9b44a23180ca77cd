"""Any commands in any order, killed at any moment, with edits by hand in between: the stash
opens or says in one line why not, and no record is lost, doubled or changed unsaid."""

from __future__ import annotations

import csv
import os
import random
import re
import signal
import time
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout, suppress
from io import StringIO
from pathlib import Path

import pytest
from filing_tags import tag, waiting_tag

from intake.cli import app
from intake.errors import BadStash, BalltagError, ExitCode
from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.check import Check, told
from intake.filing.findings import Kind
from intake.filing.kinds import open_stash
from intake.filing.mend import mend
from intake.filing.record import COLUMNS, record_cells
from intake.filing.store import Store

OWN = "shelf"
LONGEST_LIFE_S = 0.4
KILLED, FAULT = -signal.SIGKILL, 99

Rows = dict[str, dict[str, str]]
"""The cells of records by their ids, with that of the user's own column."""


def rows_of(path: Path) -> Rows:
    """The rows of the stash, each id once."""
    found: Rows = {}
    for place, cells in open_stash(path).rows():
        assert cells["id"] not in found, f"{place} stands twice"
        found[cells["id"]] = cells
    return found


class Campaign:
    """One stash and what is known to have been done to it."""

    def __init__(self, path: Path, seed: int) -> None:
        self.path = path
        self.chance = random.Random(seed)
        self.filed = 0
        self.own: dict[str, str] = {}
        self.met: set[str] = set()
        self.log: list[str] = []
        cabinet = open_cabinet(path)
        for _ in range(6):
            self.take(cabinet)
        self.met |= set(rows_of(path))

    # What is done

    def take(self, cabinet: Cabinet) -> None:
        self.filed += 1
        kind = waiting_tag if self.chance.random() < 0.4 else tag
        name, lot = f"{self.filed}.jpg", f"{self.chance.randrange(10_000):05d}"
        values = {"shade": f"Tide {self.filed}", "balls": self.chance.choice([None, 5])}
        if kind is tag:
            values["lot"] = lot
        cabinet.take(kind(name, **values))

    def arguments(self, cabinet: Cabinet) -> list[str]:
        """A command with what it is given."""
        ids = [record.id for record in cabinet.records()] or ["t0"]
        one, other = self.chance.choice(ids), self.chance.choice(ids)
        lot = f"{self.chance.randrange(10_000):04d}"
        stroke = self.chance.choice([c.stroke for c in cabinet.history.changes()] or ["1"])
        sheet = str(self.path.with_name(f"out{self.chance.choice(['.csv', '.xlsx'])}"))
        return self.chance.choice(
            [
                ["correct", one, f"lot={lot}", "--yes"],
                ["correct", one, "note=wound by hand", f"shade=Weir {lot}", "--yes"],
                ["merge", one, other],
                ["withdraw", one],
                ["split", one, "--balls", "1"],
                ["undo"],
                ["undo"],
                ["undo", stroke],
                ["weigh", one, "37", "--humidity", "45"],
                ["export", sheet, "--no-pictures"],
                ["import", sheet, "--yes"],
                ["find", "tide"],
                ["history"],
                ["learnt"],
                ["cover", "--need", "300"],
                ["check"],
                ["check", "--mend", "--yes"],
            ]
        )

    def do(self) -> None:
        """Do one thing in this process, which may be killed meanwhile."""
        cabinet = open_cabinet(self.path)
        waiting, what = cabinet.waiting(), self.chance.random()
        if what < 0.15:
            self.take(cabinet)
        elif what < 0.3 and waiting:
            cabinet.resolve(self.chance.choice(waiting), {"lot": str(self.chance.random())})
        elif what < 0.35 and waiting:
            cabinet.settle({one: {"range": str(self.chance.random())} for one in waiting})
        elif what < 0.4 and waiting:
            cabinet.discard(self.chance.choice(waiting))
        elif what < 0.45 and (made := cabinet.history.standing()):
            cabinet.put_back(self.chance.choice(made).record)
        else:
            self.command(self.arguments(cabinet))

    def command(self, arguments: list[str]) -> None:
        self.log.append(" ".join(arguments))
        app([*arguments, "--stash", str(self.path)])

    def restore(self) -> None:
        backups = [one.name for one in open_stash(self.path).backups.all()] or ["none"]
        self.command(["check", "--restore", self.chance.choice(backups), "--yes"])

    def in_a_process(self, do: Callable[[], None], *, killed: bool) -> int:
        """Do one thing in a process of its own.  How it ended."""
        seed = self.chance.random()
        child = os.fork()
        if child == 0:
            os._exit(self._as_child(seed, do))
        if killed:
            time.sleep(self.chance.uniform(0, LONGEST_LIFE_S))
            with suppress(ProcessLookupError):
                os.kill(child, signal.SIGKILL)
        self.filed += 1  # as the child may have counted
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])

    def _as_child(self, seed: float, do: Callable[[], None]) -> int:
        self.chance = random.Random(seed)
        said = StringIO()
        try:
            with redirect_stdout(said), redirect_stderr(said):
                do()
        except BalltagError as error:
            return 0 if len(str(error).splitlines()) == 1 else FAULT
        except SystemExit as error:
            return int(error.code or 0)
        except BaseException as error:
            os.write(2, f"{self.log[-1:]}: {error!r}\n".encode())
            return FAULT
        return 0

    # Edits by hand

    def edit(self) -> str:
        with self.path.open(encoding="utf-8-sig", newline="") as file:
            text = file.read()
        delimiter = max(",;\t", key=text.splitlines()[0].count)
        header, *rows = csv.reader(StringIO(text, newline=""), delimiter=delimiter)
        if OWN not in header:
            header, rows = [*header, OWN], [[*row, ""] for row in rows]
        place, known = header.index(OWN), header.index("id")
        kind = self.chance.choice(["shelf", "shelf", "form", "note", "delete", "turn", "move"])
        if rows and kind == "shelf":
            row = self.chance.choice(rows)
            row[place] = self.own[row[known]] = f"place {self.chance.randrange(99)}"
        elif rows and kind == "note":
            self.chance.choice(rows)[header.index("note")] = "by the window"
        elif len(rows) > 3 and kind == "delete":
            rows.remove(row := self.chance.choice(rows))
            self.own.pop(row[known], None)  # it comes back as it was when balltag last saw it
        elif rows and kind == "turn":
            row = self.chance.choice(rows)
            row[header.index("lot")] = row[header.index("lot")].lstrip("0")
        elif kind == "move":
            order = self.chance.sample(range(len(header)), len(header))
            header, rows = [header[n] for n in order], [[row[n] for n in order] for row in rows]
        out = StringIO()
        delimiter = self.chance.choice(",;\t") if kind == "form" else ","
        csv.writer(out, delimiter=delimiter).writerows([header, *rows])
        self.path.write_text(out.getvalue(), "utf-8", newline="")
        return kind

    # What holds afterwards

    def holds(self) -> None:
        """Whatever was done: it opens or can be mended, and nothing is lost or doubled."""
        try:
            cabinet = open_cabinet(self.path)
            cabinet.records()
        except BadStash as error:
            if not re.search("looks turned into|no record", str(error)):
                raise
            self.mended()
            cabinet = open_cabinet(self.path)
        rows = rows_of(self.path)
        self.met |= rows.keys()
        store = Store(open_stash(self.path))
        gone = {one for one, cells in told(store).items() if cells is None}
        lost = {one.about for one in Check(store).findings() if one.kind is Kind.LOST}
        waits = set(cabinet.waiting())
        assert not rows.keys() & waits
        assert self.met <= rows.keys() | gone | lost | waits, "a record is gone unsaid"
        for one, cells in rows.items():
            if one in self.own and OWN in cells:
                assert cells[OWN] == self.own[one], one
        assert all(cabinet.pictures.path(one).exists() for one in {*rows, *waits})

    def mended(self) -> None:
        store = Store(open_stash(self.path))
        left = mend(store, Check(store).findings())
        assert not [one for one in left if one.kind is not Kind.NO_PICTURE], left
        again = Check(Store(open_stash(self.path))).findings()
        assert again == left
        assert {name for cells in rows_of(self.path).values() for name in cells} >= set(COLUMNS)


def campaign(path: Path, seed: int, steps: int, done: Callable[[str], None]) -> None:
    here = Campaign(path, seed)
    for _ in range(steps):
        what = here.chance.random()
        if what < 0.15 and path.suffix == ".csv":
            done(here.edit())
        elif what < 0.2:
            here.mended()
            done("mend")
        else:
            killed, restored = here.chance.random() < 0.6, here.chance.random() < 0.05
            code = here.in_a_process(here.restore if restored else here.do, killed=killed)
            if restored:
                here.own = {one: cells.get(OWN, "") for one, cells in rows_of(path).items()}
            assert code in (*ExitCode, KILLED), code
            assert code != ExitCode.OTHER
            done("killed" if code == KILLED else "done")
        here.holds()
    here.mended()
    assert [record_cells(one) for one in open_cabinet(path).records()]


@pytest.mark.slow
@pytest.mark.parametrize("ending", [".csv", ".parquet"])
@pytest.mark.parametrize("seed", range(4))
def test_any_commands_in_any_order_lose_nothing(tmp_path: Path, seed: int, ending: str) -> None:
    steps: list[str] = []
    campaign(tmp_path / f"stash{ending}", seed, 60, steps.append)
    assert "killed" in steps
    assert "done" in steps
