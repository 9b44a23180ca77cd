"""Speed of the shade lookup against difflib, in one run.

    python tests/bench/bench_shades.py

Ours compares 10,000 readings with 100,000 known shades.  difflib, of the standard
library, would take hours for that, so it gets a sample whose time is scaled up.
"""

from __future__ import annotations

import difflib
import random
import time

from matplotlib.colors import XKCD_COLORS

from intake.shades.known import ShadeGroup

READ = 10_000
KNOWN = 100_000
DIFFLIB_READ = 50
DIFFLIB_KNOWN = 10_000


def invented_names(rng: random.Random, count: int) -> list[str]:
    """``count`` names of two or three words of the XKCD colour survey."""
    words = sorted({word for name in XKCD_COLORS for word in name[5:].split()})
    names: dict[str, None] = {}
    while len(names) < count:
        names[" ".join(rng.sample(words, rng.choice((2, 2, 3))))] = None
    return list(names)


def misread(rng: random.Random, name: str) -> str:
    """``name`` with one letter changed."""
    at = rng.randrange(len(name))
    return name[:at] + rng.choice("abcdefghijklmnopqrstuvwxyz01") + name[at + 1 :]


def ours_s(reads: list[str], known: list[str]) -> tuple[float, int]:
    """Seconds for all lookups, and how many readings were near a known shade."""
    group = ShadeGroup()
    for name in known:
        group.add(name)
    start = time.perf_counter()
    found = sum(bool(near) for near in group.near_each(reads))
    return time.perf_counter() - start, found


def difflib_s(reads: list[str], known: list[str]) -> float:
    """Seconds for difflib to look ``reads`` up in ``known``."""
    start = time.perf_counter()
    for read in reads:
        difflib.get_close_matches(read, known, n=5, cutoff=0.8)
    return time.perf_counter() - start


def main() -> None:
    """Print both times and their ratio."""
    rng = random.Random(1)
    known = invented_names(rng, KNOWN)
    reads = [misread(rng, name) for name in rng.choices(known, k=READ)]
    ours, found = ours_s(reads, known)
    sample = difflib_s(reads[:DIFFLIB_READ], known[:DIFFLIB_KNOWN])
    scaled = sample * (READ / DIFFLIB_READ) * (KNOWN / DIFFLIB_KNOWN)
    print(f"{READ} readings against {KNOWN} known shades")
    print(f"ours     {ours:10.1f} s measured, {found} readings near a known shade")
    print(
        f"difflib  {scaled:10.1f} s, scaled from {sample:.2f} s for "
        f"{DIFFLIB_READ} readings against {DIFFLIB_KNOWN} shades"
    )
    print(f"ratio    {scaled / ours:10.1f} times as fast as difflib (scaled)")


if __name__ == "__main__":
    main()
