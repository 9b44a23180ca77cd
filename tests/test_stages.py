"""Where the time goes: stages add up to what went by."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from intake.profile import STAGES, Profile
from intake.run import intake
from intake.stages import OTHER, StageClock

DEMO = Path(__file__).resolve().parent.parent / "demo_scans"


def test_a_stage_within_another_stops_the_outer_clock() -> None:
    moments = iter([0.0, 1.0, 3.0, 6.0, 10.0, 15.0])
    clock = StageClock(lambda: next(moments))
    with clock.stage("file"), clock.stage("match"):
        pass
    assert clock.taken() == {OTHER: 1.0 + 5.0, "file": 2.0 + 4.0, "match": 3.0}
    moments = iter([16.0])
    assert clock.taken() == {OTHER: 1.0}


def test_a_stage_that_fails_is_left() -> None:
    moments = iter([0.0, 1.0, 3.0, 6.0])
    clock = StageClock(lambda: next(moments))
    with pytest.raises(ValueError, match="torn"), clock.stage("load"):
        raise ValueError("torn")
    assert clock.taken() == {OTHER: 1.0 + 3.0, "load": 2.0}


def test_the_stages_of_a_run_add_up_to_its_wall_time(tmp_path: Path) -> None:
    profile, stash = Profile(), tmp_path / "stash.csv"
    pictures = [DEMO / "scan_01.jpg", DEMO / "scan_06.webp"]
    assert len(list(intake(pictures, stash, jobs=2, profile=profile))) == 2
    profile.end()
    assert profile.workers == 2
    assert profile.to_account_for_s == pytest.approx(3 * profile.wall_s)
    assert profile.accounted_for_s == pytest.approx(profile.to_account_for_s, rel=0.05)
    # The process that files adds up alone, too, and nearly all is known by name.
    assert sum(profile.here.values()) == pytest.approx(profile.wall_s, rel=0.05)
    assert profile.here["file"] > 0
    for name in ("start", "load", "detect", "recognise", "second reader", "parse"):
        assert profile.there[name] > 0, name
    assert profile.there[OTHER] < 0.05 * sum(profile.there.values())
    assert {*profile.here, *profile.there} <= set(STAGES)

    command = (sys.executable, "-m", "intake", "intake", *pictures, "--stash", stash, "--profile")
    again = subprocess.run(command, capture_output=True, text=True, check=True)
    assert "0 workers and the process that files" in again.stderr
