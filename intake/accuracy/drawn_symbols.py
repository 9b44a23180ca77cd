"""Care symbols as drawn against care symbols as read."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from difflib import SequenceMatcher

from intake.fields.care.phrases import PROCESSES
from intake.records import State, Symbol, SymbolKind

Drawn = tuple[tuple[str, ...], ...]
"""The care symbols of a tag in reading order, each as the processes that it stands for."""


@dataclass(frozen=True, slots=True)
class SymbolCounts:
    """Care symbols drawn, and of those that were read: right, wrong (another one, or where there
    is none), sure, and sure though wrong.  A symbol that was found but not told counts as not
    read."""

    drawn: int = 0
    right: int = 0
    wrong: int = 0
    sure: int = 0
    sure_wrong: int = 0

    def __add__(self, other: SymbolCounts) -> SymbolCounts:
        names = [each.name for each in fields(self)]
        return SymbolCounts(*(getattr(self, name) + getattr(other, name) for name in names))


def symbol_counts(drawn: Drawn, symbols: Iterable[Symbol]) -> SymbolCounts:
    """How the care symbols among ``symbols`` agree with those ``drawn``, set side by side in
    order: one that was missed shifts none of the others."""
    told = [one for one in symbols if one.kind is SymbolKind.CARE and one.processes]
    read = [one.processes for one in told]
    blocks = SequenceMatcher(None, drawn, read, autojunk=False).get_matching_blocks()
    matched = {block.b + at for block in blocks for at in range(block.size)}
    sure = {at for at, one in enumerate(told) if one.state is State.SURE}
    return SymbolCounts(
        drawn=len(drawn),
        right=len(matched),
        wrong=len(read) - len(matched),
        sure=len(sure),
        sure_wrong=len(sure - matched),
    )


def drawn_from_text(text: str) -> Drawn:
    """Care symbols from a truth file's cell: symbols parted by ``;``, the processes of one by
    ``+``.  ``ValueError`` names the process that is unknown."""
    symbols = [part.strip() for part in text.split(";") if part.strip()]
    drawn = tuple(tuple(one.strip() for one in symbol.split("+")) for symbol in symbols)
    for process in (one for symbol in drawn for one in symbol):
        if process not in PROCESSES:
            raise ValueError(f"{process!r} is no care process")
    return drawn


def drawn_text(drawn: Sequence[Sequence[str]]) -> str:
    """Care symbols as :func:`drawn_from_text` takes them."""
    return "; ".join("+".join(symbol) for symbol in drawn)
