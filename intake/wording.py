"""Text forms of values: how a composition or care set stands in a CSV cell, and back."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.errors import quoted
from intake.records import FibrePart, Value

_PART = re.compile(r"\s*(\d+(?:\.\d+)?)\s*%\s*([^()]+?)\s*(?:\(([^()]*)\))?\s*")


def number_text(number: float) -> str:
    """``number`` without a needless point: ``50.0`` is ``50``, ``87.5`` stays."""
    return f"{number:.10g}"


MOST_NAMED = 5
"""So many things are told apart in one message."""


def first_named(texts: Sequence[str]) -> str:
    """The first of ``texts`` in one line, and how many more there are."""
    more = len(texts) - MOST_NAMED
    return "; ".join((*texts[:MOST_NAMED], f"and {more} more") if more > 0 else texts)


def fibre_text(parts: tuple[FibrePart, ...]) -> str:
    """A composition as ``75% wool (merino superwash); 25% polyamide``."""
    return "; ".join(
        f"{number_text(part.percent)}% {part.fibre}" + (f" ({part.kind})" if part.kind else "")
        for part in parts
    )


def fibre_parts(text: str) -> tuple[FibrePart, ...]:
    """The composition that :func:`fibre_text` wrote; ``ValueError`` where it is none."""
    parts = []
    for piece in text.split(";"):
        match = _PART.fullmatch(piece)
        if match is None:
            raise ValueError(
                f"not a fibre composition: {quoted(piece.strip())}; write it as '75% wool (merino)'"
            )
        parts.append(FibrePart(match[2], match[3] or "", float(match[1])))
    return tuple(parts)


def care_text(processes: tuple[str, ...]) -> str:
    """Care processes as ``hand wash; dry flat``."""
    return "; ".join(processes)


def care_processes(text: str) -> tuple[str, ...]:
    """The processes that :func:`care_text` wrote."""
    return tuple(piece.strip() for piece in text.split(";") if piece.strip())


def value_text(name: str, value: Value) -> str:
    """Any field's value as the text of one cell; empty for none."""
    if value is None:
        return ""
    if isinstance(value, int | float):
        return number_text(value)
    if isinstance(value, str):
        return value
    if name == "fibre":
        return fibre_text(tuple(part for part in value if isinstance(part, FibrePart)))
    return care_text(tuple(part for part in value if isinstance(part, str)))


def value_from_text(name: str, text: str) -> Value:
    """The value that :func:`value_text` wrote; ``ValueError`` where ``text`` is none."""
    if not text:
        return None
    if name in ("length_m", "mass_g", "balls"):
        return float(text)
    if name == "fibre":
        return fibre_parts(text)
    if name == "care":
        return care_processes(text)
    return text
