"""Heads of measures: what stands above, or before, a number and says what it measures.

In a table the unit may stand in the head and bare numbers below it; on cones the head tells
the gross mass from the net one.  The words are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from intake.fields.amounts.measures import Measure, step_of
from intake.fields.amounts.units import GRAMS, METRES, OUNCES, UNITS, YARDS
from intake.fields.letters import Folded, FoldedLines
from intake.fields.pieces import Frame, frame_of, wide_gaps
from intake.records import Line

_OF_MASS = r"(?:[ -]?(?:gewicht|weight|wt|vaegt|vekt|vikt))?"
"""What those words are grown together with: "Bruttovægt"."""

LABELS = {
    "gross": re.compile(
        rf"(?<![a-z])(?:gross|brutto|brut|poids brut|lordo|bruto){_OF_MASS}(?![a-z])"
    ),
    "tare": re.compile(rf"(?<![a-z])(?:tare|tara|tarra){_OF_MASS}(?![a-z])"),
    "net": re.compile(rf"(?<![a-z])(?:net|nett|netto|neto|netta|neta){_OF_MASS}(?![a-z])"),
}
"""Masses with the wrapping, of the wrapping, and without it."""

_UNIT_HEAD = re.compile(
    r"(?:(?:weight|gewicht|poids|peso|vikt|vekt|vaegt|mass\w*|masse|length|lange|lauflange|ll"
    r"|longueur|metrage|lunghezza|longitud|lengte|langd|lengde|laengde|net|netto|neto)[ .:/,]*)?"
    rf"[(\[]?(?P<unit>{METRES}|{GRAMS}|{YARDS}|{OUNCES})[)\].]{{0,2}}"
    r"(?:\s?/\s?(?:ball|knauel|pelote|gomitolo|ovillo|bol|nystan|noste|nogle))?"
)
_BARE = re.compile(r"(?<![\w.,/-])\d{2,4}(?:[.,]\d)?(?![\w.,/%°-]|\s?[°%]|\s?[^\W\d_]+)")

_REACH = 3.0
"""A head stands at most so many heights of its line above its number."""

_ASIDE = 1.0
"""A number begins or ends at most so many heights beside its head."""


@dataclass(frozen=True, slots=True)
class _Head:
    name: str
    line: int
    end: int
    frame: Frame


def labelled(
    lines: Sequence[Line], sheet: FoldedLines, measures: Sequence[Measure]
) -> list[Measure]:
    """``measures``, each mass with the label that stands before or above it."""
    heads = list(_label_heads(lines))
    if not heads:
        return list(measures)
    by_order = dict(_in_order(lines, sheet, measures, heads))
    return [
        replace(one, label=by_order.get(one) or _label_of(one, lines, sheet, heads))
        if one.sort == "mass"
        else one
        for one in measures
    ]


def _in_order(
    lines: Sequence[Line], sheet: FoldedLines, measures: Sequence[Measure], heads: Sequence[_Head]
) -> Iterator[tuple[Measure, str]]:
    """Labels of one line given in their order to as many masses in the line below."""
    rows: dict[int, list[Measure]] = {}
    for one in sorted(measures, key=lambda one: one.start):
        if one.sort == "mass":
            rows.setdefault(sheet.line_of(one.start), []).append(one)
    for number in {head.line for head in heads}:
        names = [
            head.name for head in sorted(heads, key=lambda one: one.end) if head.line == number
        ]
        for at, row in rows.items():
            below = lines[at].centre[1] > lines[number].centre[1]
            near = lines[at].quad[0][1] - lines[number].quad[2][1] < _REACH * lines[at].height_px
            if len(names) == len(row) > 1 and below and near:
                yield from zip(row, names, strict=True)


def sums_up(measures: Sequence[Measure]) -> bool:
    """Whether the masses with and without the wrapping and that of the wrapping agree, as far
    as all three are printed."""
    mass_g = {one.label: one.amount for one in measures if one.label}
    if not set(LABELS) <= set(mass_g):
        return True
    return abs(mass_g["gross"] - mass_g["tare"] - mass_g["net"]) <= 1.0


def without_next_heads(
    lines: Sequence[Line], sheet: FoldedLines, measures: Sequence[Measure]
) -> list[Measure]:
    """``measures`` without those whose unit stands in another line than their number and heads
    a number of its own: in a table read column by column, "225" and then "grams" above "100"."""
    heads = {head.line: head for head in _unit_heads(lines)}
    return [
        one
        for one in measures
        if not any(
            number != sheet.line_of(one.start)
            for head in [heads.get(sheet.line_of(one.end - 1))]
            if head is not None and head.line != sheet.line_of(one.start)
            for _, number, *_ in _numbers_below(head, lines)
        )
    ]


def headed(lines: Sequence[Line], sheet: FoldedLines, measures: Sequence[Measure]) -> list[Measure]:
    """Bare numbers below a head that is a unit, where they are of a sort that ``measures``
    lack: the length and the mass of one row."""
    have = {one.sort for one in measures}
    found: list[Measure] = []
    for head in _unit_heads(lines):
        sort, _, factor = next(each for each in UNITS if each[1].fullmatch(head.name))
        if sort in have or any(one.sort == sort for one in found):
            continue
        below = min(_numbers_below(head, lines), default=None)
        if below is None:
            continue
        _, number, start, end, text = below
        first, last = sheet.position_of(number, start), sheet.position_of(number, end - 1)
        if first is None or last is None:
            continue
        amount = float(text.replace(",", "."))
        found.append(
            Measure(
                sort,
                amount * factor,
                step_of(sort, text) * factor,
                first,
                last + 1,
                native=factor == 1.0,
                printed=f"{text} {head.name}",
            )
        )
    return found


def _label_heads(lines: Sequence[Line]) -> Iterator[_Head]:
    for number, line in enumerate(lines):
        folded = Folded(line.text)
        for name, pattern in LABELS.items():
            for match in pattern.finditer(folded.text):
                start, end = folded.span(*match.span())
                yield _Head(name, number, end, frame_of(line, start, end))


def _label_of(
    measure: Measure, lines: Sequence[Line], sheet: FoldedLines, heads: Sequence[_Head]
) -> str:
    span = sheet.spans(measure.start, measure.end)[0]
    frame = frame_of(lines[span.line], span.start, span.end)
    before = [
        head
        for head in heads
        if head.line == span.line
        and head.end <= span.start
        and not any(sign.isdigit() for sign in lines[span.line].text[head.end : span.start])
    ]
    if before:
        return max(before, key=lambda head: head.end).name
    above = [
        (gap, head.name)
        for head in heads
        if head.line != span.line
        and (gap := _gap_below(head.frame, frame)) is not None
        and not _has_digits_behind(lines[head.line], head)
    ]
    return min(above)[1] if above else ""


def _has_digits_behind(line: Line, head: _Head) -> bool:
    """Whether the head has a number of its own in its line."""
    return any(sign.isdigit() for sign in line.text[head.end : head.end + 3])


def _gap_below(head: Frame, value: Frame) -> float | None:
    """How far a value stands below its head, in heights of the head, and a little of how
    far aside; ``None`` where it is no head of it."""
    height_px = max(head.height_px, 1.0)
    gap = (value.top - head.bottom) / height_px
    aside = -head.overlap_x(value) / height_px
    if not -0.6 < gap < _REACH or aside > _ASIDE:
        return None
    centres_px = abs(head.left + head.right - value.left - value.right) / 2
    starts_px = abs(head.left - value.left)
    return gap + 0.1 * min(centres_px, starts_px) / height_px


def _unit_heads(lines: Sequence[Line]) -> Iterator[_Head]:
    """Units that stand by themselves, in a line without a digit."""
    for number, line in enumerate(lines):
        if any(sign.isdigit() for sign in line.text):
            continue
        gaps = [0, *wide_gaps(line), len(line.letters)]
        for start, end in pairwise(gaps):
            cell = line.text[start:end]
            match = _UNIT_HEAD.fullmatch(Folded(cell).text.strip(" .:|"))
            if match:
                left = start + len(cell) - len(cell.lstrip())
                right = start + len(cell.rstrip())
                yield _Head(match["unit"], number, right, frame_of(line, left, right))


def _numbers_below(
    head: _Head, lines: Sequence[Line]
) -> Iterator[tuple[float, int, int, int, str]]:
    for number, line in enumerate(lines):
        if number == head.line:
            continue
        for match in _BARE.finditer(line.text):
            gap = _gap_below(head.frame, frame_of(line, *match.span()))
            if gap is not None:
                yield gap, number, *match.span(), match[0]
