"""What a plain script would make of a tag's text: a handful of patterns, nothing more.

This is no part of how balltag reads; it is what balltag is measured against.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from intake.records import FibrePart, Field, Value

_LOT = re.compile(r"(?:dye ?lot|lot|partie|bain|bagno|baño|lote|parti)\b[\s.:#n°º]*(\S+)", re.I)
_SHADE = re.compile(
    r"(?:shade|colou?r|farbe|couleur|coloris|colore|kleur|färg|farve)\b[\s.:#n°º]*(.+)", re.I
)
_CODE = re.compile(r"\b[A-Z]{0,2}\d[\d./-]*\b")
_LENGTH = re.compile(r"(\d+(?:[.,]\d+)?) ?m(?:et(?:er|re)s?)?\b", re.I)
_MASS = re.compile(r"(\d+(?:[.,]\d+)?) ?g(?:r|rams?)?\b", re.I)
_PART = re.compile(r"(\d+(?:[.,]\d+)?) ?% ?([^\W\d_]+)")

_FIBRES = {
    "wool": "wool", "wolle": "wool", "laine": "wool", "lana": "wool", "merino": "wool",
    "cotton": "cotton", "baumwolle": "cotton", "coton": "cotton", "cotone": "cotton",
    "algodón": "cotton", "nylon": "polyamide", "polyamide": "polyamide", "polyamid": "polyamide",
    "acrylic": "acrylic", "acryl": "acrylic", "polyacryl": "acrylic", "silk": "silk",
    "seide": "silk", "soie": "silk", "alpaca": "alpaca", "alpaka": "alpaca", "mohair": "mohair",
    "linen": "linen", "leinen": "linen", "lin": "linen", "viscose": "viscose",
}  # fmt: skip

_WEIGHTS = {
    "lace": "lace", "fingering": "super fine", "sock": "super fine", "4 ply": "super fine",
    "sport": "fine", "dk": "light", "double knitting": "light", "aran": "medium",
    "worsted": "medium", "super chunky": "super bulky", "chunky": "bulky", "bulky": "bulky",
}  # fmt: skip

_CARE = (
    "hand wash", "do not wash", "do not bleach", "do not tumble dry", "dry flat", "line dry",
    "do not iron", "do not dry clean", "dry clean",
)  # fmt: skip


def plain_fields(text: str) -> dict[str, Field]:
    """The fields that simple patterns find in all the text of a picture."""
    found = {name: find(text) for name, find in _FINDERS.items()}
    return {name: Field(name, value) for name, value in found.items() if value}


def _shade(text: str) -> Value:
    match = _SHADE.search(text)
    return _CODE.sub("", match[1]).strip(" -–:()") if match else None


def _shade_code(text: str) -> Value:
    match = _SHADE.search(text)
    code = _CODE.search(match[1]) if match else None
    return code[0] if code else None


def _first(pattern: re.Pattern[str]) -> Callable[[str], Value]:
    def find(text: str) -> Value:
        match = pattern.search(text)
        return match[1] if match else None

    return find


def _amount(pattern: re.Pattern[str]) -> Callable[[str], Value]:
    def find(text: str) -> Value:
        match = pattern.search(text)
        return float(match[1].replace(",", ".")) if match else None

    return find


def _fibre(text: str) -> Value:
    parts = [(float(pct.replace(",", ".")), word.casefold()) for pct, word in _PART.findall(text)]
    return tuple(FibrePart(_FIBRES[word], "", pct) for pct, word in parts if word in _FIBRES)


def _weight_class(text: str) -> Value:
    lower = text.casefold()
    named = (kind for word, kind in _WEIGHTS.items() if re.search(rf"\b{word}\b", lower))
    return next(named, None)


def _care(text: str) -> Value:
    lower = " ".join(text.casefold().split())
    return tuple(process for process in _CARE if process in lower)


def _line(number: int) -> Callable[[str], Value]:
    def find(text: str) -> Value:
        lines = [line.strip() for line in text.splitlines() if line.strip()]
        return lines[number] if len(lines) > number else None

    return find


_FINDERS: dict[str, Callable[[str], Value]] = {
    "weight_class": _weight_class,
    "shade": _shade,
    "shade_code": _shade_code,
    "lot": _first(_LOT),
    "fibre": _fibre,
    "length_m": _amount(_LENGTH),
    "mass_g": _amount(_MASS),
    "care": _care,
    "maker": _line(0),
    "range": _line(1),
}
