"""A real browser for the tests of pages, which can ask nobody but this machine."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager

from patience import LONG_S
from playwright.sync_api import Browser, BrowserContext, expect, sync_playwright

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

WHERE_TO_GET_IT = "Debian's package chromium is not installed"

DESK = {"width": 1280, "height": 800}
PHONE = {"width": 390, "height": 844}

_ARGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


expect.set_options(timeout=LONG_S * 1000)


@contextmanager
def chromium() -> Iterator[Browser]:
    """Chromium without a window."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(_ARGS))
        try:
            yield browser
        finally:
            browser.close()


def window(browser: Browser, *, dark: bool = False) -> BrowserContext:
    """A window on a desk: nothing kept from other windows."""
    return _patient(browser.new_context(viewport=DESK, color_scheme="dark" if dark else "light"))


def phone(browser: Browser, *, dark: bool = False) -> BrowserContext:
    """A phone that is touched."""
    return _patient(
        browser.new_context(
            viewport=PHONE, has_touch=True, is_mobile=True, color_scheme="dark" if dark else "light"
        )
    )


def _patient(context: BrowserContext) -> BrowserContext:
    context.set_default_timeout(LONG_S * 1000)
    return context
