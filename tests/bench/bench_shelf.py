"""Speed of the stash page at 20,000 records, in a real browser.

    PYTHONPATH=.:tests python tests/bench/bench_shelf.py

A keystroke is counted from the key to the first frame that shows what was found.  The words
are typed letter by letter, so that short searches that find very many are counted, too.
"""

from __future__ import annotations

import os
import random
import statistics
import tempfile
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from browsing import chromium, window
from desk_pages import SHADES, lot_tag, served
from playwright.sync_api import Page

from intake.filing.cabinet import Cabinet, open_cabinet
from intake.filing.record import Record, record_from_reading

RECORDS = 20_000
TARGET_MS = 100
TYPED = ("sloe", "0412", "hollin drystone", "maker 17 peat", "wool 00", "heron 3 zz")

_WATCH = """() => {
  window.shown = [];
  let pressed = 0;
  document.addEventListener("keydown", () => { pressed = performance.now(); }, true);
  new MutationObserver(() => requestAnimationFrame(() => setTimeout(() => {
    window.shown.push(performance.now() - pressed);
  }))).observe(document.getElementById("found"), { childList: true });
}"""


def records() -> Iterator[Record]:
    """Balls of 60 makers: a few of each lot, some hundreds of shades a maker."""
    chance = random.Random(7)
    like = record_from_reading(lot_tag(1))
    for number in range(RECORDS):
        maker, shade = chance.randrange(60), chance.randrange(300)
        yield replace(
            like,
            id=f"t{number:015x}",
            tag_picture=f"t{number:015x}.jpg",
            maker=f"Maker {maker}" if maker else "Hollin Fold",
            range=f"Drystone {chance.randrange(4)}",
            shade=f"{SHADES[shade % len(SHADES)]} {shade}",
            shade_code=f"{shade:03}",
            lot=f"{chance.randrange(1000):04}",
        )


def fill(cabinet: Cabinet) -> None:
    """File the records, each with a tag picture; all pictures are one file."""
    cabinet.stash.append(list(records()))
    first = f"t{0:015x}"
    cabinet.pictures.save(first, lot_tag(1).jpeg)
    for number in range(1, RECORDS):
        os.link(cabinet.pictures.path(first), cabinet.pictures.path(f"t{number:015x}"))


def type_all(page: Page) -> list[float]:
    """Type the words; milliseconds from each key to its frame."""
    for words in TYPED:
        page.locator("#words").fill("")
        page.wait_for_timeout(400)
        for letter in words:
            before = page.evaluate("window.shown.length")
            page.keyboard.press("Space" if letter == " " else letter)
            page.wait_for_function("before => window.shown.length > before", arg=before)
    shown: list[float] = page.evaluate("window.shown.filter((ms) => ms < 5000)")
    return shown


def main() -> None:
    """Fill a stash, open the page, type, print the figures."""
    with tempfile.TemporaryDirectory() as folder:
        stash = Path(folder) / "stash.csv"
        cabinet = open_cabinet(stash)
        fill(cabinet)
        with served(stash) as desk, chromium() as browser:
            page = window(browser).new_page()
            for opening in ("first", "second"):
                start = time.perf_counter()
                page.goto(f"{desk.address}/shelf")
                page.wait_for_selector(".ball")
                print(f"{opening} opening: {1000 * (time.perf_counter() - start):.0f} ms")
            page.evaluate(_WATCH)
            page.locator("#words").focus()
            keys_ms = type_all(page)
            cabinet.correct({f"t{5:015x}": {"lot": "0412"}})
            start = time.perf_counter()
            page.goto(f"{desk.address}/shelf?words=0412")
            page.wait_for_selector(".ball")
            after_ms = 1000 * (time.perf_counter() - start)
    slow_ms = statistics.quantiles(keys_ms, n=20)[-1]
    print(f"{RECORDS} records, {len(keys_ms)} keys: median {statistics.median(keys_ms):.0f} ms")
    print(f"19 of 20 within {slow_ms:.0f} ms (target < {TARGET_MS}), worst {max(keys_ms):.0f} ms")
    print(f"opening after a correction (the shelf is built anew): {after_ms:.0f} ms")


if __name__ == "__main__":
    main()
