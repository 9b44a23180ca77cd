"""Whether memory stays flat over a long run.

    python tests/bench/bench_long_run.py [PICTURES] [JOBS]

Draws small tags of many sizes (2,000 unless told otherwise), takes them all in in one go, and
prints the memory of each worker and of the process that files, in MB, on the way: the largest
since the line before, and the present one.
"""

from __future__ import annotations

import random
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import psutil
from PIL import Image, ImageDraw, ImageFont

from intake import intake

PICTURES = 2_000
LOOKS = 20
MAKERS = ("Quillstow Spinners", "Ebb & Harrow", "Tolvermoor Mill")
SHADES = ("Kelp", "Ember", "Weir", "Sluice", "Marram", "Tarn")
FIBRES = ("100% wool", "75% wool 25% polyamide", "100% cotton", "60% linen 40% cotton")
CARES = ("Hand wash", "Machine wash 30°C", "Do not tumble dry", "Dry flat")


def main() -> None:
    pictures = int(sys.argv[1]) if len(sys.argv) > 1 else PICTURES
    jobs = int(sys.argv[2]) if len(sys.argv) > 2 else 2
    with tempfile.TemporaryDirectory(prefix="long-run-") as name:
        folder = Path(name)
        box = folder / "box"
        box.mkdir()
        for number in range(pictures):
            draw_tag(number).save(box / f"{number:05d}.png")
        report(box, folder / "stash.csv", pictures, jobs)


def draw_tag(number: int) -> Image.Image:
    """A tag of its own lot, in a size and with a number of lines that only it has."""
    chance = random.Random(number)
    lines = [
        chance.choice(MAKERS),
        f"Shade {chance.choice(SHADES)}",
        f"Lot {number:06d}",
        f"{chance.choice((25, 50, 100))} g = {chance.randrange(60, 420)} m",
        chance.choice(FIBRES),
        *chance.sample(CARES, chance.randrange(3)),
    ]
    letter_px = chance.randrange(22, 44)
    font = ImageFont.load_default(letter_px)
    width_px = int(max(font.getlength(line) for line in lines)) + 2 * chance.randrange(20, 120)
    picture = Image.new("RGB", (width_px, int(1.6 * letter_px * (len(lines) + 1))), "white")
    pen = ImageDraw.Draw(picture)
    for at, line in enumerate(lines):
        pen.text((20, int(1.6 * letter_px * (at + 0.5))), line, "black", font)
    return picture


class Peaks:
    """The memory of this process and its workers, looked at ten times a second."""

    def __init__(self) -> None:
        self._most: dict[int, int] = {}
        threading.Thread(target=self._look, daemon=True).start()

    def _look(self) -> None:
        while True:
            for pid, size in memory_bytes():
                self._most[pid] = max(size, self._most.get(pid, 0))
            time.sleep(0.1)

    def since_last(self) -> str:
        """The largest since the last call and the present memory of each process, in MB."""
        most, self._most = self._most, {}
        return "   ".join(
            f"{max(size, most.get(pid, 0)) / 1e6:5.0f} {size / 1e6:5.0f}"
            for pid, size in memory_bytes()
        )


def memory_bytes() -> Iterator[tuple[int, int]]:
    here = psutil.Process()
    for process in (here, *here.children()):
        with suppress(psutil.NoSuchProcess):  # one that is just ending
            if process == here or "intake.guarded" in process.cmdline():
                yield process.pid, process.memory_info().rss


def report(box: Path, stash: Path, pictures: int, jobs: int) -> None:
    step = max(1, pictures // LOOKS)
    peaks, start_s = Peaks(), time.monotonic()
    print(f"{'pictures':>8} {'seconds':>8}   filing (largest, now)   each worker (largest, now)")
    for number, _ in enumerate(intake([box], stash, jobs=jobs), start=1):
        if number % step == 0 or number == 100:
            took_s = time.monotonic() - start_s
            print(f"{number:8} {took_s:8.0f}   {peaks.since_last()}", flush=True)


if __name__ == "__main__":
    main()
