"""Intake against the two loops that one would write instead, over the same pictures.

    python tests/bench/bench_intake.py [--count 60] [--folder PICTURES]

Draws scans, phone photos of 12 million pixels and flatbed pages of several tags at 300 dpi, in
layouts that the reader does not know, unless a folder of pictures is given.  Over the same
pictures in the same call, each started anew and alone:

- ``balltag intake`` as it comes: both readers, parsing and filing, a worker a core;
- a loop of pytesseract over whole pictures, which uses the cores as Tesseract's own threads do;
- a loop of rapidocr over whole pictures, which uses the cores as onnxruntime's threads do.

Prints seconds, how many times as long as each loop intake takes, and the most memory that one
process took, by kind of picture and in all.  Each kind pays the start of each side once.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import psutil
from PIL import Image

from intake.pictures.walk import picture_files

sys.path.insert(0, str(Path(__file__).resolve().parent.parent.parent))

PHOTO_PX = (4032, 3024)
"""What phones commonly take: 12 million pixels."""

TAGS_OF_A_PAGE = 6
SHARES = {"scan": 0.5, "photo": 0.4, "page": 0.1}
"""Of the pictures; a page holds several tags."""

TARGETS = {"pytesseract": 0.6, "rapidocr": 0.7}

PYTESSERACT = """
import sys, PIL.Image, pytesseract
for name in sys.argv[1:]:
    with PIL.Image.open(name) as picture:
        print(pytesseract.image_to_string(picture))
"""
RAPIDOCR = """
import sys
from rapidocr import RapidOCR
engine = RapidOCR()
for name in sys.argv[1:]:
    print(engine(name).txts)
"""


@dataclass(frozen=True, slots=True)
class Took:
    """Wall time, time of all processors, and the most memory of one process."""

    wall_s: float
    busy_s: float
    most_bytes: int


def draw(folder: Path, count: int, seed: int) -> dict[str, list[Path]]:
    """Pictures by kind, at the sizes that users have."""
    from fixtures.draw import JPEG_QUALITY, picture_of, tag_of

    found: dict[str, list[Path]] = {}
    index = 0
    for kind, share in SHARES.items():
        for number in range(max(1, round(share * count))):
            rng = np.random.default_rng([seed, index])
            tags = [
                tag_of("unseen", index + place, rng).image
                for place in range(TAGS_OF_A_PAGE if kind == "page" else 1)
            ]
            index += len(tags)
            picture = picture_of(kind, tags, rng)
            if kind == "photo":
                picture = as_a_phone_takes_it(picture)
            path = folder / f"{kind}_{number:03d}.jpg"
            picture.save(path, quality=JPEG_QUALITY)
            found.setdefault(kind, []).append(path)
    return found


def as_a_phone_takes_it(picture: Image.Image) -> Image.Image:
    """``picture`` enlarged to the pixels of a phone's camera, in its own proportions."""
    scale = (PHOTO_PX[0] * PHOTO_PX[1] / (picture.width * picture.height)) ** 0.5
    size = (round(picture.width * scale), round(picture.height * scale))
    return picture.resize(size, Image.Resampling.BICUBIC)


def run(command: Sequence[str | Path]) -> Took:
    """``command`` to its end, with nothing but its own threads and processes."""
    start, busy_s = time.perf_counter(), _busy_s()
    free = {name: value for name, value in os.environ.items() if not name.startswith("OMP_")}
    process = psutil.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=free)
    most, over = [0], threading.Event()

    def look() -> None:
        while not over.wait(0.05):
            with suppress(psutil.NoSuchProcess):
                for each in (process, *process.children(recursive=True)):
                    with suppress(psutil.NoSuchProcess):
                        most[0] = max(most[0], each.memory_info().rss)

    looking = threading.Thread(target=look)
    looking.start()
    _, said = process.communicate()
    over.set()
    looking.join()
    if process.returncode not in (0, 3):  # 3: some pictures could not be read
        raise SystemExit(said.decode())
    return Took(time.perf_counter() - start, _busy_s() - busy_s, most[0])


def _busy_s() -> float:
    """Seconds of processors that commands took which are over, with all that they started and
    waited for, however short it was there."""
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def compare(pictures: Sequence[Path], scratch: Path) -> dict[str, Took]:
    """All three sides over ``pictures``."""
    stash = scratch / f"{pictures[0].stem}.csv"
    python = sys.executable
    return {
        "intake": run([python, "-m", "intake", "intake", *pictures, "--stash", stash]),
        "pytesseract": run([python, "-c", PYTESSERACT, *pictures]),
        "rapidocr": run([python, "-c", RAPIDOCR, *pictures]),
    }


def tell(kind: str, pictures: Sequence[Path], took: dict[str, Took]) -> None:
    """Print one kind's figures."""
    pixels = []
    for path in pictures:
        with suppress(OSError), Image.open(path) as picture:
            pixels.append(picture.width * picture.height)
    size = f", {sum(pixels) / len(pixels) / 1e6:.1f} million pixels each" if pixels else ""
    print(f"{kind}: {len(pictures)} pictures{size}")
    ours = took["intake"]
    for side, one in took.items():
        line = f"  {side:12} {one.wall_s:7.1f} s, of processors {one.busy_s:7.1f} s"
        line += f", at most {one.most_bytes / 1e6:5.0f} MB a process"
        if side in TARGETS:
            line += f": intake takes {ours.wall_s / one.wall_s:.2f} of it"
            line += f" (target {TARGETS[side]}), of processors {ours.busy_s / one.busy_s:.2f}"
        print(line, flush=True)


def total(parts: Sequence[dict[str, Took]]) -> dict[str, Took]:
    """The sum of several comparisons."""
    return {
        side: Took(
            sum(part[side].wall_s for part in parts),
            sum(part[side].busy_s for part in parts),
            max(part[side].most_bytes for part in parts),
        )
        for side in parts[0]
    }


def main() -> None:
    """Command line."""
    parser = argparse.ArgumentParser(description="Time intake against two plain loops.")
    parser.add_argument("--count", type=int, default=60, help="pictures in all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folder", type=Path, help="take these pictures and draw none")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="bench-intake-") as name:
        scratch = Path(name)
        if chosen.folder:
            kinds = {"given": picture_files([chosen.folder])}
        else:
            kinds = draw(scratch, chosen.count, chosen.seed)
        parts = []
        for kind, pictures in kinds.items():
            parts.append(compare(pictures, scratch))
            tell(kind, pictures, parts[-1])
        tell("all", [one for pictures in kinds.values() for one in pictures], total(parts))


if __name__ == "__main__":
    main()
