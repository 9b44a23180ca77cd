"""Python's collector of cycles, held back while very many lasting objects are made."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def paused_collector() -> Iterator[None]:
    """Let the block make objects that last and form no cycles: the collector would walk all of
    them again and again, half of the time that a hundred thousand balls take."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
