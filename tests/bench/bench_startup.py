"""How long `balltag --help` takes on top of a bare start of Python, in one run.

    python tests/bench/bench_startup.py

Both are started in turn and the medians compared, so that what else the machine does meets
both alike.
"""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import time

TIMES = 21
TARGET_S = 0.3

BARE = (sys.executable, "-c", "pass")
ASKED = {
    "balltag --help": (sys.executable, "-m", "intake", "--help"),
    "balltag find --help": (sys.executable, "-m", "intake", "find", "--help"),
}


def started_s(command: tuple[str, ...]) -> tuple[float, float]:
    """Seconds from start to end of a command, and of those on a processor."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    wall_s = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall_s, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    """Print the medians, what they are on top of the bare start, and the ratios."""
    commands = {"python -c pass": BARE, **ASKED}
    runs = [{name: started_s(each) for name, each in commands.items()} for _ in range(TIMES)]
    walls = {name: statistics.median(run[name][0] for run in runs) for name in commands}
    busy = {name: statistics.median(run[name][1] for run in runs) for name in commands}
    bare_s = walls["python -c pass"]
    for name, wall_s in walls.items():
        print(
            f"{name:20} {wall_s:6.3f} s, of a processor {busy[name]:6.3f} s: "
            f"{wall_s - bare_s:6.3f} s on top (target < {TARGET_S} s), ratio {wall_s / bare_s:4.1f}"
        )


if __name__ == "__main__":
    main()
