"""What the symbols of a tag add to its words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from intake.fields.amounts.swatches import drawn_counts
from intake.fields.amounts.tension import with_counts
from intake.fields.amounts.weight_symbols import with_skeins
from intake.fields.care.symbols import with_symbols
from intake.records import Field, Line, Symbol, SymbolKind


def with_drawings(
    fields: Mapping[str, Field], lines: Sequence[Line], symbols: Sequence[Symbol]
) -> dict[str, Field]:
    """``fields`` as read from ``lines``, with care, weight class and tension as the symbols
    tell them too."""
    care = [symbol for symbol in symbols if symbol.kind is SymbolKind.CARE]
    told = {
        **fields,
        "care": with_symbols(fields["care"], care),
        "weight_class": with_skeins(fields, symbols),
    }
    return with_counts(told, lines, drawn_counts(lines, symbols))
