"""What speaks against the care that was read: words left over, lost heats, contradictions."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from intake.fields.amounts.weight import is_weight_word
from intake.fields.captions import SINGLE_WORDS
from intake.fields.care.clauses import HANGING
from intake.fields.care.concepts import FILLERS, STRONG, is_made_of_care, meanings_of
from intake.fields.care.events import FIRST_WORDS, VOCABULARY, Event, is_nearly_negation
from intake.fields.care.handling import CLEANERS
from intake.fields.care.lists import choices_behind_a_negation
from intake.fields.care.lost import beside, lost_words, said_by
from intake.fields.care.meaning import iron_heat
from intake.fields.care.nearby import (
    goes_on_below,
    heats_of_care,
    is_beside_care,
    is_heat,
    is_share,
    tells,
)
from intake.fields.care.phrases import PHRASES, PROCESSES
from intake.fields.letters import WORD, FoldedLines

SHORTEST_MISREAD = 6
"""Letters of a word that can be told to be a misread word of care."""

SHORTEST_UNREAD = 4
"""Letters of a word that may be a misread part of a care phrase."""

LEADING_ON = frozenset(("on", "at", "bei", "auf", "mit", "op", "pa", "ved", "vid", "con", "with"))
"""Words behind "tumble dry" or "iron" that the heat follows."""

_HEATED = ("tumble", "iron", "machine")
"""How the kinds begin of what a heat is told for."""

_TELLING = STRONG | {"flat", "hang", "shade"}
"""Meanings of words that care cannot do without."""

_DRIED = frozenset({"dry", "flat", "hang", "shade"})
"""Meanings of words for drying, which are asked about however short they are, if they are no
names: "Dry Ditch"."""

_GOING_ON = frozenset({"temperature", "mild"})
"""What a line may go on with that ends with "iron at" or "machine wash on"."""

_LETTER_SHORT = frozenset({"consigliato", "consigliata"})
"""Words that recommend and are a letter short of ones that advise against."""

OPPOSITES = (
    ("do not wash", ("hand wash", "machine wash")),
    ("do not bleach", ("any bleach", "oxygen bleach only")),
    ("any bleach", ("oxygen bleach only",)),
    ("drip line dry", ("line dry",)),
    ("do not tumble dry", ("tumble dry",)),
    ("tumble dry low", ("tumble dry",)),
    ("do not iron", ("iron high", "iron medium", "iron low")),
    ("iron high", ("iron medium", "iron low")),
    ("iron medium", ("iron low",)),
    ("do not dry clean", ("dry clean",)),
    ("do not wet clean", ("wet clean",)),
)
"""Processes that cannot both be meant; a name counts for all that begin with it."""

ALLOWING = frozenset(
    kind
    for kind in PHRASES
    if kind == "machine"
    or kind.startswith(("any", "oxygen", "tumble", "iron", "dry clean", "wet clean"))
)
"""Phrases whose opposite is printed too, one negation away."""

_CLOSED = re.compile(r"[^\w\s°'’]|\d")
"""What stands between words of which one does not go on with the other: a sign or a number."""

SHORTEST_NEGATION = 3
"""Letters of a word that may turn what is allowed into its opposite."""

_GOES_ON = frozenset("-,;/·+&*")
"""Signs that part what a tag lists, and end no list."""

_NEEDLES = re.compile(
    r"(?:[a-z]{6,} )?(?:ferri|pinde|pinner|stickor|naalden|breinaalden|nadeln|stricknadeln|agujas"
    r"|aiguilles|needles?|hooks?|uncinetto|naald|pind|nadel)(?: [a-z]{6,})?\s?[:.]?\s?"
    r"\d[\d.,/ -]{0,8}(?:mm)?"
)
"""A line that only tells how thick needles are."""

_NO = frozenset({"no", "non", "nein", "nee", "nej", "nei"})
"""What a cell of a table says that forbids."""

_OPEN_END = re.compile(r",\s?(?P<way>[a-z]+)\n(?P<below>[a-z]+)")

_QUESTION = re.compile(r"[^.,;:|!?\n]{0,24}\?")
"""The rest of a clause that ends as a question."""


def doubts_of(
    sheet: FoldedLines, events: Sequence[Event], said: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """All doubts about ``events`` and the processes that they ``said``; the first is shown."""
    yield from unread_words(sheet, events)
    yield from unread_clauses(sheet, events, said)
    yield from unclear_clauses(sheet, events)
    yield from cut_off_phrases(sheet, events)
    yield from open_lists(sheet, events)
    yield from answers_below(sheet, events)
    yield from questions(sheet, events)
    yield from open_gentleness(sheet, events)
    care = {sheet.line_of(event.start) for event in events if tells(event)}
    yield from lost_words(sheet, events, said, care)
    yield from contradictions(said)


def unread_words(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about phrases with a lone negation or an unread word beside them."""
    for before, event in pairwise(events):
        same_line = sheet.line_of(before.start) == sheet.line_of(event.start)
        lone = before.kind == "not" or (before.kind == "unread" and same_line)
        if lone and event.kind in ALLOWING:
            yield beside(sheet, before, event)
        elif before.kind in ALLOWING and event.kind in ("not", "unread") and same_line:
            yield beside(sheet, event, before)
    for before, between, event in zip(events, events[1:], events[2:], strict=False):
        if between.kind == "or" and before.kind.startswith("do not") and event.kind in ALLOWING:
            yield beside(sheet, before, event)
    yield from loose_ends(sheet, events)
    yield from near_negations(sheet, events)
    for negation, choice in choices_behind_a_negation(events, sheet.line_of):
        yield beside(sheet, negation, choice)


def loose_ends(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about an unread word, or one of what wool suffers, that its sentence goes on with
    behind what is allowed, be harmless words between or the end of the line: "the tumble dryer /
    will ruin it", "shrinks in the dryer"."""
    allowed: Event | None = None
    suffered: Event | None = None
    short = False
    for event in events:
        harms = meanings_of((sheet.text[event.start : event.end],)) == ("harm",)
        if event.kind in ALLOWING:
            if suffered and not _CLOSED.search(sheet.text[suffered.end : event.start]):
                yield beside(sheet, suffered, event)
            allowed, suffered, short = event, None, False
        elif harms:
            suffered = event
            if allowed and not _CLOSED.search(sheet.text[allowed.end : event.start]):
                yield beside(sheet, event, allowed)
        elif allowed and event.kind in ("unread", "harmless", "not"):
            gap = sheet.text[allowed.end : event.start]
            broken = "\n" in gap
            if _CLOSED.search(gap) or (broken and not goes_on_below(sheet, gap, event)):
                allowed = None
            elif (event.kind == "not" and broken and short) or (
                event.kind == "unread" and event.end - event.start >= SHORTEST_NEGATION
            ):
                yield beside(sheet, event, allowed)
                allowed = None
            elif event.kind == "not":
                allowed = None
            else:
                short |= event.kind == "unread"
        else:
            allowed = None


def near_negations(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about a short word that may be a misread negation, in the line of what is allowed and
    with nothing but harmless words between: "ma ike i torretumbler", "bleaching: mo"."""
    unread: Event | None = None
    allowed: Event | None = None
    for event in events:
        word = sheet.text[event.start : event.end]
        if (event.kind == "unread" and is_nearly_negation(word)) or word in _LETTER_SHORT:
            if allowed and sheet.line_of(allowed.start) == sheet.line_of(event.start):
                yield beside(sheet, event, allowed)
            unread, allowed = event, None
        elif event.kind in ALLOWING:
            if unread and sheet.line_of(unread.start) == sheet.line_of(event.start):
                yield beside(sheet, unread, event)
            unread, allowed = None, event
        elif event.kind == "stop" and sheet.text[event.start] == ":":
            unread = None
        elif event.kind == "not" and allowed and is_answer(sheet.text, allowed, event):
            yield beside(sheet, event, allowed)
            allowed = None
        elif event.kind != "harmless":
            unread = allowed = None


def is_answer(text: str, head: Event, event: Event) -> bool:
    """Whether only a colon stands between a heading and an event."""
    return text[head.end : event.start].strip() == ":"


def unread_clauses(
    sheet: FoldedLines, events: Sequence[Event], told: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """Doubts about words of care that could not be read: they may forbid something.

    They may lie in a line that speaks of care or right beside one.  A line that only repeats what
    was read in full elsewhere needs no doubt.
    """
    lines = by_line(sheet, events)
    care = {
        number
        for event in events
        if tells(event)
        for number in range(sheet.line_of(event.start), sheet.line_of(event.end - 1) + 1)
    }
    care |= {sheet.line_of(event.start) for process in told.values() for event in process}
    care |= {sheet.line_of(heat.start) for heat in heats_of_care(events)}
    full = said_in_full(lines)
    for number, said in lines.items():
        neighbours = {number - 1, number + 1} & care
        forbids = any(event.kind == "not" for event in said)
        for event in said:
            word = sheet.text[event.start : event.end]
            known = (
                word in SINGLE_WORDS or is_weight_word(word) or meanings_of((word,)) == ("other",)
            )
            small = sheet.printed(event.start, event.end)[:1].islower()
            dries = small and _DRIED & set(meanings_of((word,)))
            known = known or bool(number not in care and _is_of_needles(sheet.text, event))
            short = len(word) < SHORTEST_UNREAD and not dries
            if event.kind != "unread" or short or known or is_share(sheet.text, event):
                continue
            if word in FILLERS and holds_off(sheet, event, events):
                continue
            if number not in care and names_a_firm(sheet, event, said):
                continue
            strong = _TELLING & set(meanings_of((word,))) or word in HANGING | CLEANERS
            strong = strong or (small and number - 1 in care and is_heat(word))
            near = (neighbours and (len(neighbours) == 2 or forbids)) or (
                (strong or is_misread(word)) and is_beside_care(lines, number, care)
            )
            if (number in care and not processes_in(said) & full) or (number not in care and near):
                yield f"'{said_by(sheet, event)}' among the care words is unread"


def _is_of_needles(text: str, event: Event) -> bool:
    """Whether a word says which needles are recommended: "ferri consigliati: 4 mm"."""
    line = text[text.rfind("\n", 0, event.start) + 1 :].partition("\n")[0]
    return _NEEDLES.fullmatch(line) is not None


def names_a_firm(sheet: FoldedLines, event: Event, said: Sequence[Event]) -> bool:
    """Whether a word for cleaners opens a name, as dyers bear one: both words begin large and go on
    small, and the second one is nothing like a word of care."""
    behind = next((one for one in said if one.start >= event.end), None)
    if behind is None or behind.kind != "unread":
        return False
    words = [sheet.printed(one.start, one.end) for one in (event, behind)]
    named = all(word[:1].isupper() and word[1:].islower() for word in words)
    name = sheet.text[behind.start : behind.end]
    cleaner = sheet.text[event.start : event.end] in CLEANERS
    strange = not meanings_of((name,)) and not is_misread(name) and not is_nearly_negation(name)
    return (
        cleaner and named and strange and not _CLOSED.search(sheet.text[event.end : behind.start])
    )


def holds_off(sheet: FoldedLines, held: Event, events: Sequence[Event]) -> bool:
    """Whether a word at the end of a line holds off what the next line keeps the yarn from, which
    was read with all it says: "hold / unna blekemidler"."""
    behind = next((event for event in events if event.start >= held.end), None)
    words = WORD.findall(sheet.text[behind.start : behind.end]) if behind else ()
    return bool(
        behind and behind.composed and any(meanings_of((word,)) == ("far",) for word in words)
    )


def unclear_clauses(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about clauses that speak of care and are not understood."""
    for event in events:
        if event.kind == "unclear" and not ends_above_a_name(sheet, event, events):
            yield f"it is not clear what '{said_by(sheet, event)}' asks for"


def ends_above_a_name(sheet: FoldedLines, event: Event, events: Sequence[Event]) -> bool:
    """Whether all of a first line was read as one process and the next one opens with a name: large
    and like no word of care."""
    end = (sheet.text + "\n").index("\n", event.start)
    whole = any((e.start, e.end) == (event.start, end) and e.kind in PROCESSES for e in events)
    word = WORD.match(sheet.text, end + 1)
    if not whole or word is None:
        return False
    known = meanings_of((word[0],)) or word[0] in FILLERS
    strange = not known and not is_misread(word[0]) and not is_nearly_negation(word[0])
    return strange and sheet.printed(*word.span())[:1].isupper()


def cut_off_phrases(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about a line of care that ends with the first word of a phrase: the rest stands
    where it is not read on, and says what is to be done."""
    lines = by_line(sheet, events)
    for number, said in lines.items():
        last = said[-1]
        word = sheet.text[last.start : last.end]
        at_the_end = sheet.text[last.end :].partition("\n")[0].strip() == ""
        heated = len(said) > 1 and said[-2].kind.startswith(_HEATED) and said[-2].kind in ALLOWING
        leads_on = word in LEADING_ON and heated
        next_line = [event.kind for event in lines.get(number + 1, ())]
        goes_on = next((kind for kind in next_line if kind != "harmless"), "") in _GOING_ON
        if leads_on and at_the_end and not goes_on:
            yield f"'{sheet.printed(said[-2].start, last.end)}' at the end of a line goes on"
        loose = last.kind in ("unread", "harmless", "wash", "not")
        read_on = bool(next_line) and next_line[0] in {"harmless", *PROCESSES}
        if word in FILLERS and last.kind != "not" and read_on:
            continue  # "Faire / sécher à plat", read from its second word on
        if loose and at_the_end and word in FIRST_WORDS and any(tells(event) for event in said):
            yield f"'{sheet.printed(last.start, last.end)}' at the end of the care words goes on"


def open_lists(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about the last line of care where it ends with a sign that something else stands
    behind: "wash by hand -" is the beginning of a list of which the rest was not read.  Behind an
    iron those are its degrees, where they are printed below."""
    told = [event for event in events if tells(event)]
    if not told:
        return
    last = max(told, key=lambda event: event.end)
    rest = sheet.text[last.end :].partition("\n")[0].strip()
    if all(word in FILLERS for word in WORD.findall(rest)):
        rest = rest.lstrip("abcdefghijklmnopqrstuvwxyz' ")
    degrees = any(event.start > last.end and iron_heat(event.celsius) for event in events)
    below = sheet.line_of(last.end - 1) + 1
    known = [e.kind for e in events if e.start >= last.end and sheet.line_of(e.start) == below]
    read_on = rest == "," and known[:1] in (["harmless"], ["temperature"], ["wash"])
    if rest in _GOES_ON and not read_on and not (last.kind.startswith("iron") and degrees):
        yield f"'{said_by(sheet, last)}' ends with '{rest}' as if more stood behind"


def answers_below(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about a line that only says no, right below what is allowed: a table was read row by
    row, and the no may belong to the row above as well as to the line below."""
    starts = (at + 1 for at, sign in enumerate(sheet.text) if sign == "\n")
    telling = [event for event in events if event.kind not in ("harmless", "stop")]
    for start in starts:
        word = sheet.text[start:].partition("\n")[0].strip(" .,;:!-")
        above = next((event for event in telling[::-1] if event.end <= start), None)
        if word not in _NO or above is None or above.kind not in ALLOWING:
            continue
        if "\n" not in sheet.text[above.end : start - 1]:
            yield f"'{word}' below '{said_by(sheet, above)}' may change what it says"


def is_misread(word: str) -> bool:
    """Whether a word looks like one of care that was not read rightly, or is made of one."""
    if len(word) < SHORTEST_MISREAD:
        return False
    return is_made_of_care(word) or (word not in VOCABULARY and VOCABULARY.resembles(word))


def by_line(sheet: FoldedLines, events: Sequence[Event]) -> dict[int, list[Event]]:
    """Events by the line they begin in."""
    lines: dict[int, list[Event]] = {}
    for event in events:
        lines.setdefault(sheet.line_of(event.start), []).append(event)
    return lines


def processes_in(events: Sequence[Event]) -> set[str]:
    """What the events say of care, whatever its temperature."""
    return {event.kind for event in events if tells(event)}


def said_in_full(lines: dict[int, list[Event]]) -> set[str]:
    """All that is said of care, if adjoining lines without an unread word say all of it."""
    everything = set().union(*(processes_in(said) for said in lines.values()))
    run: set[str] = set()
    for number in sorted(lines):
        clear = not any(is_unclear(event) for event in lines[number])
        run = (
            run | processes_in(lines[number])
            if clear and number - 1 in lines
            else (processes_in(lines[number]) if clear else set())
        )
        if run == everything:
            return everything
    return set()


def is_unclear(event: Event) -> bool:
    """Whether an event is a word that may be a lost part of a phrase."""
    long = event.end - event.start >= SHORTEST_UNREAD
    return event.kind == "not" or (event.kind == "unread" and long)


def questions(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about what is asked and not said: "Tumble dry? No." """
    for event in events:
        asked = _QUESTION.match(sheet.text, event.end)
        if asked and tells(event):
            said = " ".join(sheet.printed(event.start, asked.end()).split())
            yield f"'{said}' is a question; what is the answer?"


def open_gentleness(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about a gentleness that stands alone between a washing's heat and the end of the line,
    with something below that may be gentle too: "machine wash 30, gentle / tumble dry"."""
    heats = {event.end for event in events if event.kind in ("temperature", "number")}
    for open_end in _OPEN_END.finditer(sheet.text):
        behind_heat = any(open_end.start() - 1 <= end <= open_end.start() for end in heats)
        gentle = meanings_of((open_end["way"],)) == ("mild",)
        below = set(meanings_of((open_end["below"],))) & {"tumble", "iron"}
        if behind_heat and gentle and below:
            said = " ".join(sheet.printed(*open_end.span("way")).split())
            yield f"'{said}' may belong to the washing or to what stands below it"


def contradictions(said: Mapping[str, Sequence[Event]]) -> Iterator[str]:
    """Doubts about processes that cannot both be meant."""
    for process, others in OPPOSITES:
        for other in said:
            if process in said and other != process and other.startswith(others):
                yield f"both '{process}' and '{other}' are printed"
    washes = [process for process in said if process.startswith("machine wash")]
    if len(washes) > 1:
        yield f"both '{washes[0]}' and '{washes[1]}' are printed"
