"""The desk's pages for all: checked with axe-core, which stands for WCAG 2.2 A and AA
(https://www.w3.org/TR/WCAG22/), in both colour schemes and at both sizes.

axe-core is fetched from the npm registry into pytest's cache.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import tarfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from browsing import CHROMIUM, WHERE_TO_GET_IT, phone, window
from desk_pages import Served, hold, lot_tag, served, with_field
from filing_tags import doubtful
from playwright.sync_api import Browser, Page

from intake.filing.cabinet import open_cabinet
from intake.sums.maker_sheet import MakerLine, write_maker_sheet

pytestmark = pytest.mark.skipif(CHROMIUM is None, reason=WHERE_TO_GET_IT)

AXE = "axe-core@4"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.fixture(scope="module")
def axe(pytestconfig: pytest.Config) -> str:
    """The source of axe-core."""
    folder = pytestconfig.cache.mkdir("axe-core")
    script = folder / "axe.min.js"
    if not script.exists():
        _fetch(script)
    return script.read_text(encoding="utf-8")


def _fetch(script: Path) -> None:
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm is not installed, and axe-core is fetched with it")
    command = [npm, "pack", AXE, "--silent", "--pack-destination", str(script.parent)]
    packed = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    if packed.returncode:
        pytest.skip(f"npm could not fetch axe-core: {packed.stderr.strip()[-200:]}")
    with tarfile.open(script.parent / packed.stdout.split()[-1]) as package:
        source = package.extractfile("package/axe.min.js")
        assert source is not None
        script.write_bytes(source.read())


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    stash = tmp_path_factory.mktemp("desk") / "stash.csv"
    cabinet = open_cabinet(stash)
    cabinet.file(lot_tag(9))
    hold(cabinet, with_field(lot_tag(1), doubtful("shade", "Sloe", "Slow")), lot_tag(2))
    with served(stash) as opened:
        yield opened


def failings(page: Page, axe: str) -> list[str]:
    """What axe-core finds wrong, a line each."""
    page.evaluate(axe)  # the page's policy lets no script in; the debugger may still run one
    found: dict[str, Any] = json.loads(
        page.evaluate(
            """async (rules) => JSON.stringify(
                await axe.run(document, { runOnly: { type: "tag", values: rules } }))""",
            RULES,
        )
    )
    assert found["passes"], "axe-core checked nothing"
    return [
        f"{one['id']}: {one['help']}: {node['html'][:160]}"
        for one in found["violations"]
        for node in one["nodes"]
    ]


LOOKS = [
    pytest.param("desk", False, id="desk-light"),
    pytest.param("phone", True, id="phone-dark"),
    pytest.param("desk", True, id="desk-dark", marks=pytest.mark.slow),
    pytest.param("phone", False, id="phone-light", marks=pytest.mark.slow),
]
"""The sizes and colours of the page; each is seen once each time."""


@pytest.mark.parametrize(("size", "dark"), LOOKS)
def test_the_review_is_for_all(
    browser: Browser, desk: Served, axe: str, size: str, dark: bool
) -> None:
    context = phone(browser, dark=dark) if size == "phone" else window(browser, dark=dark)
    page = context.new_page()
    page.goto(f"{desk.address}/review")
    page.wait_for_selector("body[data-shown]")
    assert failings(page, axe) == []
    page.locator("#others").evaluate("node => { node.open = true; }")
    for slip, key in {"keys": "?", "split": "x", "join": "j"}.items():
        page.keyboard.press(key)
        page.wait_for_selector(f"#{slip}[open]")
        assert failings(page, axe) == [], slip
        page.keyboard.press("Escape")
    context.close()


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Served, list[str]]]:
    """A desk with a filed stash that something was done to, and the paths of its pages."""
    stash = tmp_path_factory.mktemp("shelf") / "stash.csv"
    cabinet = open_cabinet(stash)
    one, other, third = (cabinet.file(lot_tag(n, lot="00412")).id for n in (1, 2, 3))
    cabinet.correct({one: {"length_m": "", "mass_g": "", "lot": "0777"}})
    cabinet.withdraw([third])
    line = MakerLine("Hollin Fold", "", {"length_m": "200", "mass_g": "50"})
    write_maker_sheet(cabinet.stash, [line])
    paths = [
        "/shelf",
        "/shelf?words=nowhere",
        f"/records/{one}",
        f"/records/{third}",
        f"/records/{one}/merge?words=fold",
        f"/records/{one}/merge/{other}",
        "/history",
        "/makers",
        "/new",
    ]
    with served(stash) as opened:
        yield opened, paths


@pytest.mark.parametrize(("size", "dark"), LOOKS)
def test_the_stash_and_what_leads_from_it_are_for_all(
    browser: Browser, shelf: tuple[Served, list[str]], axe: str, size: str, dark: bool
) -> None:
    desk, paths = shelf
    context = phone(browser, dark=dark) if size == "phone" else window(browser, dark=dark)
    page = context.new_page()
    for path in paths:
        page.goto(desk.address + path)
        assert failings(page, axe) == [], path
    context.close()


@pytest.fixture(scope="module")
def alike(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A desk with doubts that are alike, and with something learnt about them."""
    stash = tmp_path_factory.mktemp("alike") / "stash.csv"
    cabinet = open_cabinet(stash)
    readings = (lot_tag(number, shade="Slo") for number in (1, 2, 3))
    first, *_ = hold(cabinet, *(with_field(each, doubtful("shade", "Slo")) for each in readings))
    cabinet.resolve(first, {"shade": "Sloe", "lot": "7"})
    with served(stash) as opened:
        yield opened


@pytest.mark.parametrize(("size", "dark"), LOOKS)
def test_doubts_that_are_alike_and_what_was_learnt_are_for_all(
    browser: Browser, alike: Served, axe: str, size: str, dark: bool
) -> None:
    context = phone(browser, dark=dark) if size == "phone" else window(browser, dark=dark)
    page = context.new_page()
    page.goto(f"{alike.address}/alike")
    assert page.locator(".stack").count() == 2
    group = page.locator(".stack form[action^='/alike/']").last.get_attribute("action")
    for path in ("/alike", f"{group}?answer=Sloe", "/learnt", "/alike/0123456789ab", "/nowhere"):
        page.goto(alike.address + path)
        assert failings(page, axe) == [], path
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0, path
    context.close()


def test_the_keyboard_meets_the_question_before_all_else_on_it(
    browser: Browser, desk: Served
) -> None:
    context = window(browser)
    page = context.new_page()
    page.goto(f"{desk.address}/review")
    page.wait_for_selector("body[data-shown]")
    focused = "document.activeElement.id || document.activeElement.textContent.trim()"
    assert page.evaluate(focused) == "asked"
    met = []
    for _ in range(4):
        page.keyboard.press("Tab")
        met.append(page.evaluate(focused).split()[0])
    assert met == ["1", "2", "typed", "Take"]
    context.close()
