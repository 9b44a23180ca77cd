"""Where the clauses of a text end, and where a stop or a comma ends none."""

from __future__ import annotations

import re
from collections.abc import Iterator

from intake.fields.care.concepts import STRONG
from intake.fields.care.events import LEANING_SLASH, NO_ABBREVIATION
from intake.fields.care.forms import worded
from intake.fields.care.lists import AND
from intake.fields.care.tokens import (
    FEWEST,
    HEATS,
    UNREAD,
    WORD,
    Clause,
    Place,
    is_whole,
    kinds_in,
    subjects_of,
    tokens_of,
)

END = re.compile(
    NO_ABBREVIATION
    + r"(?<!temp)[.;:|!,]+(?=\s|[a-z]{3}|[a-z]{2}\s|$)|[·()]|\s[/*+-]\s|^[*+-]\s|\s[/*+-]$"
    + rf"|{LEANING_SLASH}",
    re.MULTILINE,
)
"""What ends a clause."""

LINE = re.compile(r"\S[^\n]*")

_WHERE = frozenset({"dry", "flat", "hang", "spread", "shade", "away", "far", "sun", "allow"})
"""What a clause says that tells of drying and where."""

_UNTIL = worded("until til till tills indtil inntil bis tot hasta fino finche jusqu")

_NEVER = worded("never nie niemals jamais mai nunca jamas nooit aldrig aldri")
"""Words that forbid and belong, alone behind a comma, to what stands before it."""

_LOOSE_ENDS = frozenset({",", ":", "("})


def clauses_of(text: str) -> Iterator[Place]:
    """Where the clauses of ``text`` stand.  A heat behind a comma belongs to the iron or the dryer
    before it: "iron, low heat"."""
    start = 0
    ends = list(END.finditer(text))
    for at, match in enumerate(ends):
        until = ends[at + 1].start() if at + 1 < len(ends) else len(text)
        head_end = len(text[: match.start()].rstrip())  # a colon may open the next line
        before = tokens_of(text, max(start, text.rfind("\n", 0, head_end)), match.start())
        behind = tokens_of(text, match.end(), until)
        ways = [before] if is_whole(before) else [before, _two_lines(text, start, match.start())]
        if match[0].strip() in _LOOSE_ENDS and any(
            _is_heated(one, behind) or _ends_heated(text, one, match.end(), until) for one in ways
        ):
            continue
        if match[0].strip() == "," and any(
            _is_placed(one, other)
            for one in (before, tokens_of(text, start, match.start()))
            for other in (behind, _first_line(text, match.end(), until))
        ):
            continue
        if match[0].strip() == "," and _is_by_hand_in_water(text, before, behind):
            continue
        if match[0].strip() == "," and any(
            _is_programmed(before, one) for one in (behind, _first_line(text, match.end(), until))
        ):
            continue
        if match[0].strip() == "," and _is_until_dry(text, before, behind):
            continue
        if match[0].strip() == "," and _is_refused(text, before, match.end(), until):
            continue
        line = LINE.search(text, match.end(), until)
        told = (behind, tokens_of(text, *line.span()) if line else [])
        if match[0].strip() == ":" and any(_is_heading(before, one) for one in told):
            continue
        yield from _parted(text, start, match.start())
        start = match.end()
    yield from _parted(text, start, len(text))


def _parted(text: str, start: int, end: int) -> Iterator[Place]:
    """A clause, or its two halves where each says something of its own: "wash by hand and dry
    flat".  A negation in the first half may forbid the second, so such a clause stays whole."""
    for match in WORD.finditer(text, start, end):
        if match[0] not in AND:
            continue
        low, high = _without_strangers(text, start, end, match.start())
        one, other = tokens_of(text, low, match.start()), tokens_of(text, match.end(), high)
        about = [subjects_of(part) for part in (one, other)]
        forbids = any({"not", "without", "or"} & set(token.meanings) for token in one)
        if all(about) and not set(about[0]) & set(about[1]) and not forbids:
            yield start, match.start()
            start = match.end()
    yield start, end


def _without_strangers(text: str, start: int, end: int, at: int) -> Place:
    """The part from ``start`` to ``end`` without lines before and behind the one of ``at`` that
    tell of no care: a maker's name above and below."""
    low = max(start, text.rfind("\n", start, at) + 1)
    high = text.find("\n", at, end)
    above = any(token.meanings for token in tokens_of(text, start, low))
    below = high < 0 or any(token.meanings for token in tokens_of(text, high, end))
    return (start if above else low), (end if below else high)


def _first_line(text: str, start: int, end: int) -> Clause:
    """The words of the line that ``start`` stands in, none from ``end`` on."""
    line = LINE.search(text, start, end)
    return tokens_of(text, *line.span()) if line else []


def _two_lines(text: str, start: int, end: int) -> Clause:
    """The words of the last two lines before ``end``, none before ``start``."""
    last = text.rfind("\n", 0, end)
    return tokens_of(text, max(start, text.rfind("\n", 0, max(last, 0))), end)


def _is_placed(one: Clause, other: Clause) -> bool:
    """Whether ``one`` tells of drying and ``other`` only where: "dry in the shade, flat"."""
    said, place = ({name for token in part for name in token.meanings} for part in (one, other))
    strange = any(token.is_unread for token in (*one, *other))
    dries = bool({"dry", "hang"} & said) and said <= _WHERE
    return (
        dries
        and bool(place)
        and place <= {"flat", "hang", "spread", "shade", "drip"}
        and not strange
    )


def _is_by_hand_in_water(text: str, one: Clause, other: Clause) -> bool:
    """Whether ``one`` names only the hand and ``other`` with it is a washing: "by hand only, in
    cool water"."""
    said = {name for token in one for name in token.meanings}
    if said != {"hand"} or not other:
        return False
    return kinds_in(tokens_of(text, one[0].start, other[-1].end)) == ("hand wash",)


def _is_programmed(one: Clause, other: Clause) -> bool:
    """Whether ``one`` tells how hot to wash and ``other`` only that it is done gently or as usual:
    "machine wash 30, mild"."""
    said, way = ({name for token in part for name in token.meanings} for part in (one, other))
    heated = any(token.celsius for token in one) and "wash" in said and "hand" not in said
    strange = any(token.is_unread for token in (*one, *other))
    return heated and way in ({"mild"}, {"normal"}) and "mild" not in said and not strange


def _is_until_dry(text: str, one: Clause, other: Clause) -> bool:
    """Whether ``one`` only says that wool lies and ``other`` until when: "flat, until dry"."""
    said, until = ([token.meanings for token in part if token.meanings] for part in (one, other))
    strange = any(token.is_unread and token.end - token.start >= UNREAD for token in (*one, *other))
    lies = bool(said) and all(meanings == ("flat",) for meanings in said)
    opens = bool(other) and text[other[0].start : other[0].end] in _UNTIL
    return lies and until == [("dry",)] and opens and not strange


def _is_refused(text: str, one: Clause, start: int, end: int) -> bool:
    """Whether ``one`` only names a thing and all that stands behind its comma is that it is never
    done, the next line telling something by itself: "lejía, nunca"."""
    line = LINE.search(text, start, end)
    if line is None or not _is_heading(one, tokens_of(text, *line.span())):
        return False
    below = LINE.search(text, line.end(), end)
    never = WORD.findall(text, *line.span())
    more = tokens_of(text, *below.span()) if below else []
    told = {name for token in more for name in token.meanings}
    ends = is_whole(more) or not told & {*STRONG, *HEATS.values(), "heat"}
    return len(never) == 1 and never[0] in _NEVER and ends


def _is_heated(one: Clause, other: Clause) -> bool:
    """Whether ``one`` names an iron or a dryer and ``other`` only a heat."""
    said, heat = ({name for token in part for name in token.meanings} for part in (one, other))
    unread = any(token.is_unread for token in other)
    named = said & {*HEATS.values(), "heat"}
    if {"dry", "machine"} <= said and "wash" not in said:
        said.add("tumble")
    wants_heat = said & {"iron", "tumble"} and "not" not in said and named <= heat
    told = heat & {*HEATS.values(), "heat"}
    if {"not", "above"} <= heat and any(token.celsius for token in other):
        heat -= {"not", "above"}  # "no hotter than 60 °C"
    return bool(wants_heat and told) and heat <= {*told, "program", "mild"} and not unread


def _ends_heated(text: str, one: Clause, start: int, end: int) -> bool:
    """Whether the line behind ``start`` gives ``one`` a heat, by its name and not only as one word
    ("low heat") where the next may take it, and the next line says something by itself, or nothing
    of care."""
    line = LINE.search(text, start, end)
    if line is None:
        return False
    below = LINE.search(text, line.end(), end)
    other, more = tokens_of(text, *line.span()), tokens_of(text, *below.span()) if below else []
    takes_heat = {"iron", "tumble"} & {name for token in more for name in token.meanings}
    named = len(other) >= FEWEST or not takes_heat
    ends = is_whole(more) or not any(token.meanings for token in more)
    return named and ends and _is_heated(one, other)


def _is_heading(one: Clause, other: Clause) -> bool:
    """Whether ``one`` only names what ``other`` tells about: "drying: flat", "Bleichen: nein"."""
    heads, told = ({name for token in part for name in token.meanings} for part in (one, other))
    unread = any(token.is_unread for token in (*one, *other))
    heads -= {"dry"} if heads & {"tumble", "clean"} else set()
    heads -= {"machine"} if "wash" in heads else set()
    names_it = not told & STRONG or told == heads
    is_head = len(heads & STRONG) <= 1 and heads <= {*STRONG, "machine", "mild"} and bool(heads)
    return is_head and bool(told) and names_it and not unread
