"""Known makers and ranges wherever they are printed on a tag.

The headings of a tag are judged by size and place, which fails where a maker signs in small
print or only with its web address.  A name that is known already needs no such judgement:
it is looked for in all lines.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from intake.fields.clutter import web_names
from intake.fields.letters import Folded
from intake.fields.names.house_words import BY_WORDS
from intake.fields.names.questions import PLACE_ONLY, may_be_either
from intake.fields.pieces import meet
from intake.records import Field, Line, Span, State, TagReading
from intake.shades.names import KnownNames, asked, beside_known_maker, other_marks
from intake.shades.spelling import key, same_marks

_LONGEST_WORDS = 6
_SHORTEST_LETTERS = 4
"""A shorter name is found by chance within other print."""

_CONFIDENCE = 0.98
"""Of a known name that both readers saw alike, set apart from other print."""

_BEFORE = re.compile(rf"(?:^|[^\w\s]|(?:^|\s)(?:{BY_WORDS}))\s*$")
_BEHIND = re.compile(r"\s*(?:$|[^\w\s&+'’-])")
"""What may stand before and behind a whole name: nothing, a mark, or a word for "by"."""

_TOLD = ("shade", "shade_code", "lot")


@dataclass(frozen=True, slots=True)
class Sighting:
    """A stretch of print that may be a name: its text and where it stands; no span for the
    name of a web address."""

    text: str
    span: Span | None


def with_printed_names(reading: TagReading, known: KnownNames) -> TagReading:
    """``reading`` with its maker, and its range, where one known maker is printed anywhere
    on the tag and the headings left a doubt.  Sure fields stay."""
    maker, range_ = (reading.fields.get(name) or Field(name) for name in ("maker", "range"))
    if maker.state is State.SURE:
        return reading
    seen = list(sightings(reading, known))
    makers = {name: one for one in seen if (name := known.maker(one.text))}
    if len(makers) != 1:
        return reading
    ((name, sighting),) = makers.items()
    if known.begins_another(name):
        return reading
    found = {"maker": _found("maker", name, sighting, maker)}
    ranges = {
        names.range: one
        for one in seen
        if one is not sighting and (names := known.pair(name, one.text)) is not None
    }
    if len(ranges) == 1 and range_.state is not State.SURE:
        ((text, place),) = ranges.items()
        found["range"] = _found("range", text, place, range_)
    elif key(str(range_.value or "")) == key(name):
        range_ = _asked_anew(range_, maker, found["maker"])
    if "range" not in found:
        found["range"] = beside_known_maker(found["maker"], range_, known, reading.lines)
    return replace(reading, fields={**reading.fields, **found})


def sightings(reading: TagReading, known: KnownNames) -> Iterator[Sighting]:
    """The known names on a tag that stand apart from other print and that both readers saw
    alike, the longest at each place; and the names of its web addresses."""
    told = [span for name in _TOLD for span in _sure_spans(reading.fields, name)]
    for number, line in enumerate(reading.lines):
        end = 0
        for span in _stretches(number, line):
            text = line.text[span.start : span.end]
            if span.start < end or len(key(text)) < _SHORTEST_LETTERS:
                continue
            if known.is_known(text) and not any(meet(span, other) for other in told):
                end = span.end
                if _stands_apart(line, span):
                    yield Sighting(text, span)
    for name in sorted(web_names(reading.lines)):
        if known.is_known(name):
            yield Sighting(name, None)


def _sure_spans(fields: Mapping[str, Field], name: str) -> Sequence[Span]:
    field = fields.get(name)
    return field.spans if field is not None and field.state is State.SURE else ()


def _stretches(number: int, line: Line) -> Iterator[Span]:
    """Runs of words that both readers saw alike, at each word the longest first."""
    words = [match.span() for match in re.finditer(r"\S+", line.text)]
    for at, (start, _) in enumerate(words):
        for _, end in reversed(words[at : at + _LONGEST_WORDS]):
            while end > start and not line.text[end - 1].isalnum():
                end -= 1
            if all(line.agreed[start:end]):
                yield Span(number, start, end)


def _stands_apart(line: Line, span: Span) -> bool:
    before = Folded(line.text[: span.start]).text
    return bool(_BEFORE.search(before) and _BEHIND.match(line.text, span.end))


def _found(name: str, value: str, sighting: Sighting, before: Field) -> Field:
    """The field with a known name, seen at ``sighting``; asked about where that has other
    accents."""
    others = [str(before.value), *before.others] if before.value else [*before.others]
    read = sighting.text
    if sighting.span is None:  # web addresses have no accents
        read = str(before.value) if key(str(before.value or "")) == key(value) else value
    if not same_marks(read, value):
        spans = (sighting.span,) if sighting.span else before.spans
        return asked(
            replace(before, name=name, value=read, spans=spans),
            (value, *(other for other in others if key(other) != key(value))),
            other_marks(read, value),
        )
    where = "" if sighting.span else " in the web address"
    return Field(
        name,
        value,
        _CONFIDENCE,
        State.SURE,
        line=before.line,
        spans=(sighting.span,) if sighting.span else (),
        others=tuple(dict.fromkeys(other for other in others if key(other) != key(value))),
        printed=sighting.text if sighting.text != value else "",
        note=f"the {name} {value}, as known, was found{where}",
        cues={"unanimous": 1.0, "witnessed": 1.0},
    )


def _asked_anew(range_: Field, maker: Field, known: Field) -> Field:
    """The range of a tag whose maker, now ``known``, was taken for it: the name taken for the maker
    may be the range instead."""
    if not isinstance(maker.value, str):
        return Field("range", others=range_.others)
    by_place = PLACE_ONLY in maker.reason or maker.reason.startswith("the maker may be")
    either = may_be_either(known.printed or str(known.value))
    return replace(
        maker,
        name="range",
        state=State.DOUBTFUL,
        others=tuple(other for other in maker.others if other != range_.value),
        reason=either if by_place else f"the range may be '{maker.value}'",
    )
