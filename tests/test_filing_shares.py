"""A stash on a file system that can do less than a disk of this machine: a network share, a
stick."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from faults import needs_strace

from intake.filing.cabinet import open_cabinet
from intake.filing.check import Check
from intake.filing.kinds import open_stash
from intake.filing.store import Store

WORK = """
import sys
from filing_tags import tag, waiting_tag
from intake.filing.cabinet import open_cabinet
cabinet = open_cabinet(sys.argv[1])
record = cabinet.file(tag("a.jpg"))
waiting = cabinet.take(waiting_tag("w.jpg", shade="Weir")).id
cabinet.resolve(waiting, {"lot": "0990"})
cabinet.correct({record.id: {"lot": "0100"}})
"""


def work_on_a_share(path: Path, *options: str) -> subprocess.CompletedProcess[str]:
    """Do all that writes where the share refuses what ``options`` tell strace."""
    return subprocess.run(
        ["strace", "-f", "-o", os.devnull, *options, sys.executable, "-c", WORK, str(path)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        capture_output=True,
        text=True,
        check=False,
    )


def lots(path: Path) -> list[str]:
    return sorted(record.lot for record in open_cabinet(path).records())


@needs_strace
@pytest.mark.parametrize(
    ("ending", "error"),
    [
        (".csv", "EINVAL"),
        (".parquet", "EOPNOTSUPP"),
        pytest.param(".csv", "EOPNOTSUPP", marks=pytest.mark.slow),
        pytest.param(".parquet", "EINVAL", marks=pytest.mark.slow),
    ],
)
def test_a_share_whose_folders_cannot_be_pushed_holds_a_stash(
    tmp_path: Path, error: str, ending: str
) -> None:
    """fsync(2) of Linux: EINVAL where what is opened does not support synchronization."""
    path = tmp_path / f"stash{ending}"
    folders = [tmp_path, *(tmp_path / f"stash.{one}" for one in ("tags", "queue", "backups"))]
    only = [option for folder in folders for option in ("-P", str(folder))]
    inject = ["-e", "trace=fsync", "-e", f"inject=fsync:error={error}"]
    done = work_on_a_share(path, *only, *inject)
    assert done.returncode == 0, done.stderr
    assert lots(path) == ["0100", "0990"]
    assert not Check(Store(open_stash(path))).findings()


@needs_strace
def test_a_share_without_permissions_of_files_holds_a_stash(tmp_path: Path) -> None:
    path = tmp_path / "stash.csv"
    inject = ["-e", "trace=chmod,fchmod,fchmodat", "-e", "inject=chmod,fchmod,fchmodat:error=EPERM"]
    done = work_on_a_share(path, *inject)
    assert done.returncode == 0, done.stderr
    assert lots(path) == ["0100", "0990"]
