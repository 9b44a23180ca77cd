"""A tag's reading as JSON, and back without loss.

The straightened picture is not part of it: it lies beside, as a picture file.
"""

from __future__ import annotations

from typing import Any

from intake.records import (
    Barcode,
    FibrePart,
    Field,
    Letter,
    Line,
    Quad,
    Reading,
    Span,
    State,
    Symbol,
    SymbolKind,
    TagReading,
    Value,
)

Json = Any
"""What :mod:`json` reads and writes."""

PRINT = ("lines", "barcodes")
"""What makes nearly all of a reading's JSON, and comes last in it."""


def reading_to_json(reading: TagReading) -> dict[str, Json]:
    """``reading`` without its ``jpeg``."""
    return {
        "picture": reading.picture,
        "page": reading.page,
        "tag": reading.tag,
        "digest": reading.digest,
        "print_hash": reading.print_hash,
        "fields": {name: _field_to_json(field) for name, field in reading.fields.items()},
        "notes": reading.notes,
        "symbols": [
            {
                "processes": symbol.processes,
                "confidence": symbol.confidence,
                "state": symbol.state.value,
                "quad": symbol.quad,
                "kind": symbol.kind.value,
                "weight_class": symbol.weight_class,
            }
            for symbol in reading.symbols
        ],
        "lines": [_line_to_json(line) for line in reading.lines],
        "barcodes": [
            {"symbology": code.symbology, "text": code.text, "quad": code.quad}
            for code in reading.barcodes
        ],
    }


def reading_from_json(data: dict[str, Json], jpeg: bytes) -> TagReading:
    """The reading that :func:`reading_to_json` wrote, with its picture.  Raises
    ``KeyError``, ``TypeError``, ``ValueError`` or ``AttributeError`` where ``data`` is none."""
    return TagReading(
        picture=data["picture"],
        page=data["page"],
        tag=data["tag"],
        digest=data["digest"],
        print_hash=data["print_hash"],
        jpeg=jpeg,
        lines=tuple(_line_from_json(line) for line in data["lines"]),
        barcodes=tuple(
            Barcode(code["symbology"], code["text"], _quad(code["quad"]))
            for code in data["barcodes"]
        ),
        fields={name: _field_from_json(field) for name, field in data["fields"].items()},
        notes=tuple(data["notes"]),
        symbols=tuple(_symbol_from_json(symbol) for symbol in data.get("symbols", ())),
    )


def _symbol_from_json(data: dict[str, Json]) -> Symbol:
    return Symbol(
        tuple(data["processes"]),
        data["confidence"],
        State(data["state"]),
        _quad(data["quad"]),
        SymbolKind(data.get("kind", SymbolKind.CARE)),
        data.get("weight_class", ""),
    )


def _line_to_json(line: Line) -> dict[str, Json]:
    return {
        "quad": line.quad,
        "letters": [_letter_to_json(letter) for letter in line.letters],
        "agreed": line.agreed,
        "others": line.others,
        "readings": [
            {
                "reader": reading.reader,
                "letters": [_letter_to_json(letter) for letter in reading.letters],
            }
            for reading in line.readings
        ],
    }


def _line_from_json(data: dict[str, Json]) -> Line:
    return Line(
        quad=_quad(data["quad"]),
        letters=tuple(Letter(*letter) for letter in data["letters"]),
        agreed=tuple(data["agreed"]),
        others=tuple(data["others"]),
        readings=tuple(
            Reading(reading["reader"], tuple(Letter(*letter) for letter in reading["letters"]))
            for reading in data["readings"]
        ),
    )


def _letter_to_json(letter: Letter) -> list[Json]:
    """A bare list: a tag has hundreds of letters."""
    return [letter.text, letter.confidence, letter.left, letter.right]


def _quad(data: Json) -> Quad:
    top_left, top_right, bottom_right, bottom_left = ((x, y) for x, y in data)
    return (top_left, top_right, bottom_right, bottom_left)


def _field_to_json(field: Field) -> dict[str, Json]:
    return {
        "value": _value_to_json(field.value),
        "confidence": field.confidence,
        "state": field.state.value,
        "line": field.line,
        "spans": [[span.line, span.start, span.end] for span in field.spans],
        "others": field.others,
        "reason": field.reason,
        "printed": field.printed,
        "note": field.note,
        "cues": dict(field.cues),
        "name": field.name,
    }


def _field_from_json(data: dict[str, Json]) -> Field:
    return Field(
        name=data["name"],
        value=_value_from_json(data["value"]),
        confidence=data["confidence"],
        state=State(data["state"]),
        line=data["line"],
        spans=tuple(Span(*span) for span in data["spans"]),
        others=tuple(data["others"]),
        reason=data["reason"],
        printed=data["printed"],
        note=data["note"],
        cues=dict(data["cues"]),
    )


def _value_to_json(value: Value) -> Json:
    """Text, a number or nothing as they are; a list of texts or of fibre parts."""
    if not isinstance(value, tuple):
        return value
    return [
        [part.fibre, part.kind, part.percent] if isinstance(part, FibrePart) else part
        for part in value
    ]


def _value_from_json(data: Json) -> Value:
    if not isinstance(data, list):
        return data  # type: ignore[no-any-return]
    if all(isinstance(part, str) for part in data):
        return tuple(data)
    return tuple(FibrePart(*part) for part in data)
