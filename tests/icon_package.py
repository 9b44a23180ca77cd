"""Symbols that are not ours: a general-purpose icon package of the npm registry, fetched when
the tests run and drawn by Chromium."""

from __future__ import annotations

import io
import shutil
import subprocess
import tarfile
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import PIL.Image
import pytest

from intake.symbols.patch import Pixels
from tests.browsing import CHROMIUM, WHERE_TO_GET_IT, chromium

PACKAGE = "@tabler/icons@3.52.0"
"""Licensed MIT; its laundry icons follow the care symbols of ISO 3758 and ASTM D5489."""

FOLDER = "package/icons/outline"
WHOLE_SECONDS = 180

Box = tuple[float, float, float, float]

_SQUARES = """all => all.map(one => {
    const box = one.getBoundingClientRect();
    return [box.left, box.top, box.right, box.bottom];
})"""


def fetched(cache: Path) -> Path:
    """The package's file, fetched into ``cache`` unless it is there; skips the test where it
    cannot be had."""
    archive = cache / "tabler-icons-3.52.0.tgz"
    if archive.exists():
        return archive
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm is not installed, so no icon package can be fetched")
    cache.mkdir(parents=True, exist_ok=True)
    fetch = [npm, "pack", PACKAGE, "--silent", "--pack-destination", str(cache)]
    try:
        subprocess.run(fetch, check=True, capture_output=True, timeout=WHOLE_SECONDS, cwd=cache)
    except (subprocess.SubprocessError, OSError) as error:
        pytest.skip(f"npm could not fetch {PACKAGE}: {error}")
    return archive


def drawings(archive: Path, names: Sequence[str]) -> dict[str, str]:
    """The SVG of each icon."""
    with tarfile.open(archive) as package:
        return {
            name: svg.read().decode()
            for name in names
            if (svg := package.extractfile(f"{FOLDER}/{name}.svg")) is not None
        }


def rows_of_icons(svgs: Sequence[str], side_px: int) -> tuple[Pixels, list[Box]]:
    """Icons side by side in rows, as a browser draws them, and the square of each."""
    if CHROMIUM is None:
        pytest.skip(WHERE_TO_GET_IT)
    cell = (
        f"<style>body{{margin:{side_px}px;width:{12 * side_px}px}}"
        f"svg{{width:{side_px}px;height:{side_px}px;margin:{side_px // 4}px}}</style>"
    )
    with chromium() as browser:
        page = browser.new_page(viewport={"width": 14 * side_px, "height": 200})
        page.set_content(cell + "".join(svgs))
        picture = page.screenshot(full_page=True)
        squares = page.eval_on_selector_all("svg", _SQUARES)
        page.close()
    image = np.asarray(PIL.Image.open(io.BytesIO(picture)).convert("RGB"), np.uint8)
    return image, [(left, top, right, bottom) for left, top, right, bottom in squares]
