"""Fibres in letters, "60% WO 40% PA", as mills mark cones and their accounts.

The letters are those of ISO 2076 (man-made fibres) and DIN 60001-4 (natural ones), and a few that
the trade sets beside them (common practice, no source); all are entered from memory.  Some stand
for one fibre here and for another there: these are asked about.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.fibre.names import LISTERS
from intake.fields.letters import FoldedLines

CODES = {
    "wo": "wool",
    "wv": "wool",
    "wp": "alpaca",
    "wl": "llama",
    "wk": "camel",
    "ws": "cashmere",
    "wm": "mohair",
    "wa": "angora",
    "wg": "vicuna",
    "wu": "guanaco",
    "wy": "yak",
    "se": "silk",
    "co": "cotton",
    "li": "linen",
    "ju": "jute",
    "ra": "ramie",
    "si": "sisal",
    "cv": "viscose",
    "vi": "viscose",
    "cmd": "modal",
    "md": "modal",
    "clf": "chlorofibre",
    "cly": "lyocell",
    "cup": "cupro",
    "cta": "triacetate",
    "pan": "acrylic",
    "pc": "acrylic",
    "mac": "modacrylic",
    "pa": "polyamide",
    "ny": "polyamide",
    "pes": "polyester",
    "pl": "polyester",
    "pla": "polylactide",
    "pp": "polypropylene",
    "el": "elastane",
    "ea": "elastane",
    "mtf": "metal fibre",
    "af": "other fibres",
}
"""Letters to the one fibre that they stand for."""

TWO_WAYS = {
    "ha": ("hemp", "animal hair"),
    "ca": ("acetate", "hemp"),
    "ac": ("acetate", "acrylic"),
    "pe": ("polyethylene", "polyester"),
    "me": ("metal fibre", "other fibres"),
}
"""Letters to the fibres that they stand for with one and with another."""

_WORD = re.compile(r"[^\W\d_]+")
_SHARE = re.compile(r"\d ?%")


def places_of_codes(sheet: FoldedLines) -> dict[int, str]:
    """Where the letters of fibres begin on ``sheet``, and which these are: in lines with a share
    that hold no word but such letters, all of them capitals."""
    found: dict[int, str] = {}
    start = 0
    for text in sheet.text.split("\n"):
        words = [(start + match.start(), match[0]) for match in _WORD.finditer(text)]
        if _SHARE.search(text) and words and _are_codes(sheet, words):
            found.update((at, word) for at, word in words if word not in LISTERS)
        start += len(text) + 1
    return found


def _are_codes(sheet: FoldedLines, words: Sequence[tuple[int, str]]) -> bool:
    return all(
        word in LISTERS
        or (
            (word in CODES or word in TWO_WAYS)
            and sheet.printed(at, at + len(word)) == word.upper()
        )
        for at, word in words
    )
