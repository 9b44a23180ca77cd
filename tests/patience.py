"""Waiting for what another thread or process does: as long as a loaded machine may need, and
no longer than it takes."""

from __future__ import annotations

import time
from collections.abc import Callable

LONG_S = 60.0
"""Only what never comes takes so long."""


def wait_until(is_so: Callable[[], object], what: str, within_s: float = LONG_S) -> None:
    """Wait until ``is_so``; where it does not come to pass, say ``what`` did not."""
    end_s = time.monotonic() + within_s
    while not is_so():
        if time.monotonic() > end_s:
            raise AssertionError(f"not in {within_s:g} s: {what}")
        time.sleep(0.02)
