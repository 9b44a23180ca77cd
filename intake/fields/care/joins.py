"""Which lines of a clause make sense together, and which stand by themselves."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.care.concepts import STRONG
from intake.fields.care.events import BEHIND, TEMPERATURE
from intake.fields.care.forms import worded
from intake.fields.care.subjects import SUBJECT_OF
from intake.fields.care.tokens import (
    FEWEST,
    HEATS,
    UNREAD,
    VAGUE,
    WORD,
    Clause,
    Place,
    Token,
    hangs_together,
    is_whole,
    kinds_in,
    subjects_of,
    tokens_of,
)

_WATER = re.compile(r"\b(?:water|wasser|eau|acqua|agua|vatten|vann|vand)\b")
"""What things are washed in, and neither dried nor ironed."""

_CODE = re.compile(r"\d{3}|\d[a-z]\d|\b[a-z]\d")
"""Part of a code, which no care has but the heat of an iron."""

_DRYLY = worded(
    """
    a sec secco en seco dry clean cleaned cleaning chemisch reinigen gereinigt reinigbar trocken
    kemisk kjemisk stomen
    """
)
"""Words that tell how something is not washed, and are not said by themselves."""

_MOST_LINES = 4
"""A clause goes on over at most so many lines."""


def lines_with_sense(text: str, lines: Sequence[Place]) -> int:
    """How many of the first ``lines`` make sense together; 0 where they make none."""
    size = next(
        (
            n
            for n in range(1, min(_MOST_LINES, len(lines)) + 1)
            if not _lacks_something(text, lines, n) and _has_sense(text, lines[:n])
        ),
        0,
    )
    if size > 1 and not _goes_on(text, lines[: size - 1], lines[size - 1]):
        return 0
    # "Tumble dry" makes sense, and so does "low" behind it.
    while 0 < size < len(lines):
        more = tokens_of(text, *lines[size])
        at_end = size + 1 == len(lines)
        strange = any(one.is_unread for one in more) or (
            any(_forbids_ahead(text, one) for one in more) and not (at_end and _only_forbids(more))
        )
        if strange or _has_sense(text, [lines[size]]) or not _has_sense(text, lines[: size + 1]):
            break
        hot = [token for token in tokens_of(text, *lines[size - 1]) if token.meanings][-1:]
        fibre = {name for token in more for name in token.meanings} == {"wool"}
        if (fibre and hot and hot[0].celsius) or is_whole(more):
            break
        if _opens_another(text, lines, size) or _turns(text, lines[:size], lines[size]):
            break
        said = tokens_of(text, lines[0][0], lines[size - 1][1])
        if _WATER.search(text, *lines[size]) and "washing" not in subjects_of(said):
            break
        size += 1
    return size


def _lacks_something(text: str, lines: Sequence[Place], size: int) -> bool:
    """Whether the first ``size`` of ``lines`` end with "without", and what it is without stands in
    the next one: "seche-linge sans / restriction"."""
    last = tokens_of(text, *lines[size - 1])[-1:] if size < len(lines) else []
    return bool(last) and last[0].meanings == ("without",)


def _opens_another(text: str, lines: Sequence[Place], size: int) -> bool:
    """Whether the line behind the first ``size`` adds nothing to what they say, and says something
    else with the next one: "nada de secadora / dar forma y secar en / plano"."""
    if len(lines) < size + 2:
        return False
    below = lines[size : size + 2]
    one, both, other = (
        kinds_in(tokens_of(text, part[0][0], part[-1][1]))
        for part in (lines[:size], lines[: size + 1], below)
    )
    about, next_about = ({SUBJECT_OF.get(kind, "") for kind in part} for part in (one, other))
    return one == both and _has_sense(text, below) and not about & next_about


def _turns(text: str, lines: Sequence[Place], last: Place) -> bool:
    """Whether ``last`` would turn a washing that ``lines`` forbid into a cleaning that they forbid,
    and is more than what such a sentence ends with, "ne pas laver / à sec": "non lavable / confier
    au pressing"."""
    one = kinds_in(tokens_of(text, lines[0][0], lines[-1][1]))
    both = kinds_in(tokens_of(text, lines[0][0], last[1]))
    words = [word for word in WORD.findall(text, *last) if word not in _DRYLY]
    return one == ("do not wash",) and both == ("do not dry clean",) and bool(words)


def _goes_on(text: str, lines: Sequence[Place], last: Place) -> bool:
    """Whether ``last`` may go on with ``lines`` that make no sense without it: it says nothing by
    itself, or no more than with them, or they forbid what it says, or tell how hot or gentle."""
    tokens, more = tokens_of(text, lines[0][0], lines[-1][1]), tokens_of(text, *last)
    said = {name for token in tokens for name in token.meanings}
    if not is_whole(more) or said & {"not", "without"}:
        return True
    if "drip line dry" in kinds_in(tokens_of(text, lines[0][0], last[1])):
        return True  # "without wringing / hang to dry"
    about = {name for token in more for name in token.meanings}
    if about & {"tumble", "iron"} and said <= {*HEATS.values(), "heat", "mild", "allow"}:
        return True
    if "wash" in about and said <= {"mild", "allow", *({"low"} if "hand" in about else ())}:
        return True
    places = {"flat", "hang", "spread", "shade", "drip", "allow"}
    if said <= ({*places, "dry"} if "dry" in about else {"allow"}):
        return True
    alike = kinds_in(tokens_of(text, lines[0][0], last[1])) == kinds_in(more)
    return alike and said <= {*about, *STRONG, "allow"}


def _only_forbids(tokens: Clause) -> bool:
    """Whether a line only says that what stands before it is forbidden: "niet toegestaan"."""
    return all(set(token.meanings) <= {"not", "allow"} for token in tokens)


def _forbids_ahead(text: str, token: Token) -> bool:
    """Whether a word forbids what is said behind it, so that it cannot end a clause: all
    such words but those of the north, "torktumlas ej"."""
    forbids = bool({"not", "without"} & set(token.meanings))
    return forbids and text[token.start : token.end] not in BEHIND


def _has_sense(text: str, lines: Sequence[Place]) -> bool:
    tokens = tokens_of(text, lines[0][0], lines[-1][1])
    strange = sum(token.is_unread and token.end - token.start >= UNREAD for token in tokens)
    telling = sum(bool(token.meanings) for token in tokens)
    known = [token for token in tokens if not token.is_unread]
    each = all(
        any(token.start < end and start < token.end for token in known) for start, end in lines
    )
    if len(lines) > 1:
        opens = any(token.meanings and not token.celsius for token in tokens_of(text, *lines[0]))
        coded = any(_CODE.search(TEMPERATURE.sub(" ", text[low:high])) for low, high in lines)
        if strange or not opens or coded:
            return False
    sound = strange <= telling / 2 and hangs_together(tokens)
    return each and telling >= FEWEST and sound and kinds_in(tokens) not in ((), VAGUE)


def unclear_lines(text: str, lines: Sequence[Place]) -> int:
    """How many of the first ``lines`` of a clause that make no sense are about care all the
    same, the first alone or with the next one; 0 where they are not."""
    if speaks_of_care(tokens_of(text, *lines[0])):
        return 1
    both = [tokens_of(text, *line) for line in lines[:2]]
    told = all(any(one.meanings and not one.celsius for one in tokens) for tokens in both)
    if len(both) == 2 and _is_washing_below_heading(*both):
        return 0
    goes_on = len(both) == 2 and told and not lines_with_sense(text, lines[1:])
    return 2 if goes_on and speaks_of_care([*both[0], *both[1]]) else 0


def _is_washing_below_heading(one: Clause, other: Clause) -> bool:
    """Whether ``one`` only names washing and one word of ``other`` says how: "how to wash? /
    machine programme"."""
    said = {name for token in one for name in token.meanings}
    return said == {"wash"} and "washing" in [SUBJECT_OF.get(kind) for kind in kinds_in(other)]


def speaks_of_care(tokens: Clause) -> bool:
    """Whether words that make no sense are about care all the same."""
    strange = sum(token.is_unread and token.end - token.start >= UNREAD for token in tokens)
    telling = [token for token in tokens if token.meanings]
    said = {name for token in telling for name in token.meanings}
    if said <= {"wash", "heat"} and not strange:
        return False  # whether by hand is asked for where nothing else tells it
    strong = any(STRONG & set(token.meanings) for token in telling)
    return strong and len(telling) >= FEWEST and strange <= len(telling)
