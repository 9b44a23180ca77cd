"""Speed of the review page with thousands waiting, and keys a tag, in a real browser.

    PYTHONPATH=.:tests python tests/bench/bench_desk.py

A turn is counted from the key that answers to the first frame that shows the next question
with its picture; it includes filing the tag on the disk.  The scripted pass knows what each
tag says and presses the fewest keys that say so.  How often a reader is right, second-best
or wrong is an assumption, stated below.
"""

from __future__ import annotations

import io
import random
import statistics
import tempfile
import time
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import PIL.Image
from browsing import chromium, window
from desk_pages import hold, lot_tag, served, with_field
from filing_tags import doubtful
from playwright.sync_api import Page

from intake.filing.cabinet import open_cabinet
from intake.records import TagReading

WAITING = 5_000
ANSWERED = 100
TARGET_TURN_MS = 100
TARGET_KEYS = 2

FIRST_RIGHT, SECOND_RIGHT = 0.6, 0.3
"""How often the value as read is right, and the other candidate; else it is typed."""
TWO_DOUBTS = 0.2
"""How many tags have a doubtful shade besides the lot."""

_WATCH_TURNS = """() => {
  window.turns = [];
  let pressed = 0;
  document.addEventListener("keydown", () => { pressed = performance.now(); }, true);
  new MutationObserver(() => requestAnimationFrame(() => setTimeout(() => {
    window.turns.push(performance.now() - pressed);
  }))).observe(document.body, { attributes: true, attributeFilter: ["data-shown"] });
}"""


@dataclass(frozen=True)
class Case:
    """A waiting tag and what it truly says."""

    reading: TagReading
    truth: dict[str, str]


def make_case(number: int, chance: random.Random) -> Case:
    """A tag as a flatbed scan keeps it, 1600 pixels wide, whose lot is doubtful."""
    digits = f"{chance.randrange(100_000):05}"
    wrong = digits.replace("0", "O", 1) if "0" in digits else digits.replace("1", "7", 1)
    read, other = (digits, wrong) if chance.random() < 0.5 else (wrong, digits)
    reading = lot_tag(number, lot=read, second=other)
    luck = chance.random()
    truth = (
        read if luck < FIRST_RIGHT else other if luck < FIRST_RIGHT + SECOND_RIGHT else digits[1:]
    )
    says = {"lot": truth}
    if chance.random() < TWO_DOUBTS:
        shade = str(reading.fields["shade"].value)
        reading = with_field(reading, doubtful("shade", shade, f"{shade}s"))
        says["shade"] = shade
    return Case(reading, says)


def with_paper_grain(reading: TagReading, chance: np.random.Generator) -> TagReading:
    """The tag in the size and with the grain of a real scan: its picture is heavy."""
    with PIL.Image.open(io.BytesIO(reading.jpeg)) as drawn:
        large = np.asarray(drawn.resize((1600, 1018)), dtype=np.float32)
    grain = chance.normal(0, 6, large.shape[:2])[..., None]
    data = io.BytesIO()
    pixels = np.clip(large + grain, 0, 255).astype(np.uint8)
    PIL.Image.fromarray(pixels).save(data, "JPEG", quality=88)
    return replace(reading, jpeg=data.getvalue())


def keys_for(page: Page, truth: str) -> list[str]:
    """The fewest keys that answer the question on show with ``truth``."""
    if page.locator("#typed").input_value() == truth:
        return ["Enter"]
    choices = page.locator("#choices .print").all_text_contents()
    if truth in choices:
        return [str(choices.index(truth) + 1)]
    return ["t", *truth, "Enter"]


def answer_tag(page: Page, tag_id: str, truth: dict[str, str]) -> int:
    """Answer all that is asked about a tag; how many keys that took."""
    pressed = 0
    while (shown := page.locator("body").get_attribute("data-shown") or "").startswith(tag_id):
        for key in keys_for(page, truth[shown.split("/")[1]]):
            page.keyboard.press(key)
            pressed += 1
        page.wait_for_function("shown => document.body.dataset.shown !== shown", arg=shown)
    return pressed


def main() -> None:
    """Set the queue up, go through a part of it, print the figures."""
    chance, grain = random.Random(4), np.random.default_rng(4)
    with tempfile.TemporaryDirectory() as folder:
        stash = Path(folder) / "stash.csv"
        cabinet = open_cabinet(stash)
        cabinet.file(lot_tag(WAITING))
        start = time.perf_counter()
        cases: dict[str, Case] = {}
        for number in range(WAITING):
            case = make_case(number, chance)
            if number < ANSWERED + 5:
                case = replace(case, reading=with_paper_grain(case.reading, grain))
            cases[hold(cabinet, case.reading)[0]] = case
        print(f"{WAITING} tags wait (set up in {time.perf_counter() - start:.0f} s)")
        with served(stash) as desk, chromium() as browser:
            page = window(browser).new_page()
            start = time.perf_counter()
            page.goto(f"{desk.address}/review")
            page.wait_for_selector("body[data-shown]")
            print(f"page open after {1000 * (time.perf_counter() - start):.0f} ms")
            page.evaluate(_WATCH_TURNS)
            keys = [answer_tag(page, tag_id, cases[tag_id].truth) for tag_id in [*cases][:ANSWERED]]
            turns_ms: list[float] = page.evaluate("window.turns")
        filed = {record.id: record for record in cabinet.records()}
    answered = [tag_id for tag_id in filed if tag_id in cases]
    wrong = sum(filed[tag_id].lot != cases[tag_id].truth["lot"] for tag_id in answered)
    slow_ms = statistics.quantiles(turns_ms, n=20)[-1]
    print(f"{len(answered)} tags answered, {wrong} filed otherwise than answered")
    print(
        f"turn: median {statistics.median(turns_ms):.0f} ms (target < {TARGET_TURN_MS}), ", end=""
    )
    print(f"19 of 20 within {slow_ms:.0f} ms, {len(turns_ms)} turns")
    print(f"keys a tag: median {statistics.median(keys):g} (target <= {TARGET_KEYS}), ", end="")
    print(f"mean {statistics.mean(keys):.2f}, most {max(keys)}")


if __name__ == "__main__":
    main()
