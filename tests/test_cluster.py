"""A cluster reads, this machine files: nothing lost, nothing twice, whoever dies."""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import psutil
import pytest
from distributed import LocalCluster

from intake.cluster import connected
from intake.errors import ExitCode, NoWorkers
from intake.filing.cabinet import open_cabinet
from intake.run import TagResult, intake
from intake.sending import versions

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_scans"


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    """Two worker processes that cannot see this machine's paths better than any other's."""
    with LocalCluster(
        n_workers=2,
        threads_per_worker=1,
        processes=True,
        host="127.0.0.1",
        dashboard_address="127.0.0.1:0",
        silence_logs=50,
    ) as started:
        yield started


def balltag(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "intake", *map(str, arguments)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=300,
        check=False,
    )


def kept(stash: Path) -> tuple[list[str], list[str]]:
    """The ids of the records and of the waiting tags, each list as it is, with doubles."""
    cabinet = open_cabinet(stash)
    return sorted(one.id for one in cabinet.records()), sorted(cabinet.waiting())


def told(results: list[TagResult]) -> list[tuple[str, int, str, str]]:
    return [(one.picture, one.tag, one.outcome, one.reason) for one in results]


def test_an_address_where_nothing_answers_is_told(tmp_path: Path) -> None:
    with socket.socket() as nobody:
        nobody.bind(("127.0.0.1", 0))  # and does not listen
        address = f"127.0.0.1:{nobody.getsockname()[1]}"
        with pytest.raises(NoWorkers, match=f"no cluster answers at '{address}'"):
            enter(address)


@pytest.mark.parametrize("address", ["", "nonsense", "gopher://127.0.0.1:70"])
def test_what_is_no_address_is_told_at_once(address: str) -> None:
    with pytest.raises(NoWorkers, match=f"no cluster answers at '{address}'"):
        enter(address)


def test_the_command_ends_with_a_code_of_its_own(tmp_path: Path) -> None:
    run = balltag("intake", DEMO, "--cluster", "nonsense", "--stash", tmp_path / "stash.csv")
    assert run.returncode == ExitCode.NO_WORKERS
    (line,) = [one for one in run.stderr.splitlines() if "reading" not in one]
    assert line.startswith("balltag: no cluster answers at 'nonsense'; start one")


def test_without_the_extra_it_is_told_what_to_install(tmp_path: Path) -> None:
    run = subprocess.run(
        [
            sys.executable, "-c",
            "import sys; sys.modules['dask'] = None; sys.modules['distributed'] = None\n"
            f"sys.argv = ['balltag', 'intake', {str(DEMO)!r}, '--cluster', '127.0.0.1:1',"
            f" '--stash', {str(tmp_path / 'stash.csv')!r}]\n"
            "from intake.cli import main; main()",
        ],
        capture_output=True, text=True, cwd=ROOT, check=False,
    )  # fmt: skip
    assert run.returncode == ExitCode.MISSING_PROGRAM, run.stderr
    assert "pip install 'balltag[cluster]'" in run.stderr.splitlines()[-1]


def test_a_cluster_that_reads_with_something_else_is_refused(
    cluster: LocalCluster, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("intake.cluster.versions", lambda: {**versions(), "tesseract": "3.02"})
    with pytest.raises(NoWorkers, match=r"has tesseract .* and this machine 3\.02; install"):
        enter(cluster.scheduler_address)


def test_a_cluster_without_workers_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("intake.cluster.ANSWER_S", 1.0)
    with LocalCluster(
        n_workers=0, host="127.0.0.1", dashboard_address="127.0.0.1:0"
    ) as idle, pytest.raises(NoWorkers) as caught:  # fmt: skip
        enter(idle.scheduler_address)
    assert str(caught.value) == (
        f"the cluster at {idle.scheduler_address} has no workers; start one on each machine with "
        f"'dask worker {idle.scheduler_address}'"
    )


def test_workers_without_balltag_are_told(tmp_path: Path) -> None:
    (tmp_path / "without.py").write_text("import sys; sys.modules['intake'] = None\n")
    with LocalCluster(n_workers=0, host="127.0.0.1", dashboard_address="127.0.0.1:0") as bare:
        worker = subprocess.Popen(
            [
                sys.executable, "-m", "distributed.cli.dask_worker", bare.scheduler_address,
                "--no-nanny", "--no-dashboard", "--preload", tmp_path / "without.py",
            ],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            with pytest.raises(NoWorkers) as caught:
                enter(bare.scheduler_address)
        finally:
            worker.terminate()
            worker.wait()
    (line,) = str(caught.value).splitlines()
    assert line.startswith(f"the workers at {bare.scheduler_address} cannot run balltag (")
    assert "install it as here, with the extra [cluster], on each machine of the cluster" in line


def test_pictures_read_by_a_cluster_are_filed_here(cluster: LocalCluster, tmp_path: Path) -> None:
    box = tmp_path / "box"
    box.mkdir()
    shutil.copy(DEMO / "scan_01.jpg", box)
    (box / "torn.png").write_bytes((DEMO / "scan_04.png").read_bytes()[:2000])
    stash = tmp_path / "stash.csv"
    address = cluster.scheduler_address
    run = balltag("intake", box, "--cluster", address, "--stash", stash, "--json")
    assert run.returncode == ExitCode.SOME_FAILED, run.stderr
    read, torn = map(json.loads, run.stdout.splitlines())
    assert read["picture"] == str(box / "scan_01.jpg")
    assert read["fields"]["lot"]["value"] == "81-50-7"
    assert torn["reason"].startswith(f"{box / 'torn.png'}: is damaged or cut short")
    assert sum(map(len, kept(stash))) == 1


@pytest.mark.slow
def test_nothing_is_lost_and_nothing_twice_when_workers_are_killed(
    cluster: LocalCluster, tmp_path: Path
) -> None:
    pictures = [DEMO / f"scan_{number:02}.jpg" for number in (1, 2, 3, 5, 7, 8, 9, 10)]
    pictures.append(tmp_path / "empty.jpg")
    pictures[-1].touch()
    plain, clustered = tmp_path / "plain.csv", tmp_path / "clustered.csv"
    by_hand = list(intake(pictures, plain))
    with connected(cluster.scheduler_address) as there:
        results = intake(pictures, clustered, executor=there.executor, jobs=there.workers)
        by_cluster = [next(results)]
        kill(dask_workers()[0])  # the worker of the cluster itself, with what it is reading
        by_cluster.append(next(results))
        kill(reading_processes()[0])  # the process in which another one reads
        by_cluster += results
    assert told(by_cluster) == told(by_hand)
    assert kept(clustered) == kept(plain)
    assert len(set(kept(plain)[0] + kept(plain)[1])) == len(pictures) - 1


@pytest.mark.slow
def test_a_cluster_that_goes_away_ends_the_run_and_the_next_one_goes_on(tmp_path: Path) -> None:
    pictures = [DEMO / f"scan_{number:02}.jpg" for number in (1, 2, 3, 5)]
    stash = tmp_path / "stash.csv"
    with LocalCluster(
        n_workers=1, threads_per_worker=1, host="127.0.0.1", dashboard_address="127.0.0.1:0"
    ) as mortal, connected(mortal.scheduler_address) as there:  # fmt: skip
        results = intake(pictures, stash, executor=there.executor, jobs=1)
        first = next(results)
        mortal.close()
        with pytest.raises(NoWorkers, match="run it again to go on"):
            list(results)
    again = list(intake(pictures, stash))
    assert told(again)[0] == (first.picture, 1, "already", "this file was taken in before")
    assert len(again) == len(set(kept(stash)[0] + kept(stash)[1])) == len(pictures)


def enter(address: str) -> None:
    with connected(address):
        raise AssertionError("a cluster was found")


def dask_workers() -> list[psutil.Process]:
    """The processes of the cluster that take pictures."""
    return [one.parent() or one for one in reading_processes()]


def reading_processes() -> list[psutil.Process]:
    end_s = time.monotonic() + 60
    while time.monotonic() < end_s:
        children = psutil.Process(os.getpid()).children(recursive=True)
        found = [one for one in children if one.is_running() and "intake.guarded" in one.cmdline()]
        if found:
            return found
        time.sleep(0.05)
    raise AssertionError("no worker reads")


def kill(process: psutil.Process) -> None:
    process.kill()
