"""The fuzzer of ``tests/fuzz`` finds nothing in a short time."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

RUN = Path(__file__).parent / "fuzz" / "run.py"


@pytest.mark.slow
@pytest.mark.parametrize(
    "target", ["pictures", "fields", "answers", "stash", "tables", "beside", "sheets"]
)
def test_a_fuzzer_finds_nothing_in_a_minute(target: str, tmp_path: Path) -> None:
    pytest.importorskip("atheris")
    command = [sys.executable, str(RUN), target, "--seconds", "60"]
    run = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr[-3000:]
    done = [line for line in run.stderr.splitlines() if line.startswith("Done ")]
    print(f"{target}: {done[-1]}")
