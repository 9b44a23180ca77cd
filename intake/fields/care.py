"""Care in words: which processes of ISO 3758 a tag allows or forbids.

A negation that is lost turns a phrase into its opposite, so a phrase that allows
something counts only where nothing unread stands before it.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from intake.fields.captions import SINGLE_WORDS
from intake.fields.care_clauses import HANGING, with_clauses
from intake.fields.care_concepts import FILLERS, STRONG, is_made_of_care, meanings_of
from intake.fields.care_events import FIRST_WORDS, MENDED, VOCABULARY, Event, events_of
from intake.fields.care_lists import choices_behind_a_negation
from intake.fields.care_meaning import HOTTEST_BY_HAND_C, iron_heat
from intake.fields.care_phrases import PHRASES, PROCESSES
from intake.fields.letters import FoldedLines
from intake.fields.weight import is_weight_word
from intake.records import Candidate, Line, Span

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

_GOING_ON = frozenset({"temperature", "mild"})
"""What a line may go on with that ends with "iron at" or "machine wash on"."""

OPPOSITES = (
    ("do not wash", ("hand wash", "machine wash")),
    ("do not bleach", ("any bleach", "oxygen bleach only")),
    ("any bleach", ("oxygen bleach only",)),
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

_QUESTION = re.compile(r"[^.,;:|!?\n]{0,24}\?")
"""The rest of a clause that ends as a question."""


_IRON_OR_NEEDLE = re.compile(
    r"(?<![a-z])(fers?|ferro)(?![a-z])(?!\s*(?:n|nr|no|num)?[.°:]?\s*\d{1,2}(?:[.,]\d+)?"
    r"(?:\s*(?:-|/|mm|us|$)|\s*\n))"
)
"""An iron in French or Italian, unless the size of a needle stands behind it."""


@dataclass
class Washing:
    """One washing instruction: what its words say together."""

    events: list[Event] = field(default_factory=list)

    def has(self, *kinds: str) -> bool:
        """Whether any of ``kinds`` was said."""
        return any(event.kind in kinds for event in self.events)

    @property
    def temperatures(self) -> list[Event]:
        """Temperatures that were said."""
        return [event for event in self.events if event.kind == "temperature"]

    @property
    def by_machine(self) -> bool:
        """Whether a machine is meant: it is named, or a programme of it is."""
        named = self.has("machine", "mild")
        return named or (self.has("machine word") and bool(self.temperatures))


@dataclass
class Findings:
    """Processes with the events that say them, and the doubts met on the way."""

    said: dict[str, list[Event]] = field(default_factory=dict)
    doubts: list[str] = field(default_factory=list)

    @property
    def tell_washing(self) -> bool:
        """Whether a way of washing was found, or that there is none."""
        return any("wash" in process for process in self.said)

    def add(self, process: str, events: Sequence[Event]) -> None:
        """Keep a process with the first events that say it."""
        self.said.setdefault(process, list(events))


def find_care(lines: Sequence[Line]) -> list[Candidate]:
    """Care processes printed in words, as one candidate; empty where there are none.

    The value is a tuple of names out of
    :data:`~intake.fields.care_phrases.PROCESSES`, in their order.  Languages must agree;
    processes that contradict each other, a washing without its temperature and words
    before a phrase that could not be read make a doubt.
    """
    sheet = FoldedLines(lines).mended(MENDED)
    events = with_clauses(sheet.text, list(events_of(sheet.text)))
    findings = Findings()
    add_plain_processes(findings, events)
    add_ironing(findings, events)
    add_washing(findings, events)
    findings.doubts += unread_words(sheet, events)
    findings.doubts += unread_clauses(sheet, events)
    findings.doubts += unclear_clauses(sheet, events)
    findings.doubts += cut_off_phrases(sheet, events)
    findings.doubts += questions(sheet, events)
    findings.doubts += lone_heats(sheet, events)
    findings.doubts += lost_irons(sheet, events, findings.said)
    findings.doubts += lone_wool(sheet, events, findings.said)
    findings.doubts += lost_heats(sheet, events, findings.said)
    findings.doubts += contradictions(findings.said)
    if not findings.said and not findings.doubts:
        return []
    return [candidate_of(sheet, findings)]


def lines_of_care(lines: Sequence[Line]) -> set[int]:
    """Numbers of the lines that speak of care, in whatever language."""
    sheet = FoldedLines(lines).mended(MENDED)
    return {
        number
        for number, said in by_line(sheet, list(events_of(sheet.text))).items()
        if any(tells(event) for event in said)
    }


def candidate_of(sheet: FoldedLines, findings: Findings) -> Candidate:
    """The findings as a candidate over the letters of the first event for each process."""
    value = tuple(process for process in PROCESSES if process in findings.said)
    events = [event for process in value for event in findings.said[process]]
    spans = tuple(span for event in events for span in event_spans(sheet, event))
    clean = all(event.clean and not sheet.is_mended(event.start, event.end) for event in events)
    return Candidate(
        "care",
        value,
        tuple(dict.fromkeys(spans)),
        {"shape": 1.0 if clean else 0.8, "composed": float(any(e.composed for e in events))},
        doubt=findings.doubts[0] if findings.doubts else "",
    )


def event_spans(sheet: FoldedLines, event: Event) -> tuple[Span, ...]:
    """Letters of an event."""
    return sheet.spans(event.start, event.end)


# Composing: from events to processes


def add_plain_processes(findings: Findings, events: Sequence[Event]) -> None:
    """Processes that one phrase says in full."""
    for event in events:
        if event.kind in PROCESSES and event.kind != "hand wash":
            findings.add(event.kind, [event])


def add_ironing(findings: Findings, events: Sequence[Event]) -> None:
    """Ironing whose heat is a temperature; ironing without one is asked for."""
    bare: list[Event] = []
    for place, event in enumerate(events):
        if not event.kind.startswith("iron"):
            continue
        heat = next((e for e in clause_from(events, place) if iron_heat(e.celsius)), None)
        if event.kind != "iron":
            if heat and f"iron {iron_heat(heat.celsius)}" != event.kind:
                findings.doubts.append(
                    f"'{event.kind}' and ironing at {heat.celsius} °C are printed together"
                )
            continue
        if heat is None:
            bare.append(event)
        else:
            findings.add(f"iron {iron_heat(heat.celsius)}", [event, heat])
    if bare and not any(
        process.endswith("iron") or process.startswith("iron") for process in findings.said
    ):
        findings.doubts.append("ironing is printed without its heat: high, medium or low?")


def clause_from(events: Sequence[Event], place: int) -> Iterator[Event]:
    """Events after ``place`` up to the next stop or process."""
    for event in events[place + 1 :]:
        if event.kind == "stop" or event.kind in PROCESSES:
            return
        yield event


def add_washing(findings: Findings, events: Sequence[Event]) -> None:
    """Hand and machine washing with the temperatures that belong to them."""
    washings = [washing for washing in washings_of(events) if washing.events]
    orphans = [
        w for w in washings if not w.has("hand wash", "machine", "mild", "wash", "no machine")
    ]
    for washing in washings:
        if washing.has("hand wash"):
            hand = [event for event in washing.events if event.kind == "hand wash"]
            findings.add("hand wash", hand[:1])
            if washing.by_machine and not washing.has("or"):
                findings.doubts.append("both hand wash and machine wash are printed")
    machine = [washing for washing in washings if washing.by_machine]
    no_machine = any(washing.has("no machine") for washing in washings)
    if machine and no_machine:
        findings.doubts.append("machine wash is both allowed and forbidden")
    elif no_machine and not findings.tell_washing:
        findings.doubts.append("machine wash is forbidden, but not what is allowed instead")
    add_machine_wash(findings, machine, orphans)
    add_vague_washing(findings, washings)


def add_vague_washing(findings: Findings, washings: Sequence[Washing]) -> None:
    """Washing of which it cannot be read whether by hand or how hot: it is asked for."""
    if findings.tell_washing or any(w.by_machine for w in washings):
        return
    vague = [washing for washing in washings if washing.has("wash")]
    hot = [w for w in vague if any(e.celsius > HOTTEST_BY_HAND_C for e in w.temperatures)]
    if hot:
        add_machine_wash(findings, hot, ())
        return
    warm = next((w.temperatures[0].celsius for w in vague if w.temperatures), None)
    if warm is not None:
        findings.doubts.append(f"washing at {warm} °C is printed, but not whether by hand")
    elif vague and findings.said:
        findings.doubts.append("washing is printed, but how could not be read")


def add_machine_wash(
    findings: Findings, washings: Sequence[Washing], orphans: Sequence[Washing]
) -> None:
    """Machine washing; a temperature that stands alone completes one without any."""
    told = [washing for washing in washings if washing.temperatures]
    alone = [event for washing in orphans for event in washing.temperatures]
    if washings and not told and len({event.celsius for event in alone}) == 1:
        washings[0].events.append(alone[0])
        told = [washings[0]]
    clear = {event.celsius for washing in told for event in washing.temperatures if event.clean}
    clear |= {event.celsius for event in alone if event.clean}
    for washing in told:
        add_one_machine_wash(findings, washing, clear)
    if washings and not told:
        findings.doubts.append("machine wash is printed without a temperature: which one?")


def add_one_machine_wash(findings: Findings, washing: Washing, clear: Collection[int]) -> None:
    """One machine washing with its temperature; those that are ``clear`` stand somewhere on the
    tag without a letter among their digits."""
    degrees = sorted({event.celsius for event in washing.temperatures})
    if len(degrees) > 1:
        findings.doubts.append(
            f"two washing temperatures are printed: {degrees[0]} and {degrees[-1]} °C"
        )
    temperature = washing.temperatures[0]
    mild = " mild" if washing.has("mild") else ""
    process = f"machine wash {temperature.celsius}{mild}"
    if process not in PROCESSES:
        findings.doubts.append(f"{process.replace(' mild', ' °C mild')} is no usual washing")
        return
    if not temperature.clean and temperature.celsius not in clear:
        findings.doubts.append("a washing temperature has letters among its digits")
    words = [e for e in washing.events if e.kind in ("machine", "machine word", "mild")]
    findings.add(process, [*words, temperature])


WASH_KINDS = frozenset(
    ("hand wash", "machine", "machine word", "mild", "wash", "no machine", "temperature", "number")
)


def washings_of(events: Sequence[Event]) -> Iterator[Washing]:
    """Runs of events that speak of one washing."""
    washing = Washing()
    after_tumbling = stopped = False
    for event in events:
        if stopped and event.kind != "harmless":
            stopped = False
            if event.kind != "mild":
                yield washing
                washing = Washing()
        if event.kind in WASH_KINDS and not (after_tumbling and event.kind == "temperature"):
            if begins_anew(washing, event):
                yield washing
                washing = Washing()
            add_to(washing, event)
        elif event.kind == "or" and washing.events:
            washing.events.append(event)
        elif event.kind == "stop" and washing.by_machine and not washing.has("mild"):
            stopped = True  # a programme may be named in a sentence of its own
        elif event.kind != "harmless":
            yield washing
            washing = Washing()
        after_tumbling = event.kind.startswith("tumble") or (
            after_tumbling and event.kind == "harmless"
        )
    yield washing


def begins_anew(washing: Washing, event: Event) -> bool:
    """Whether ``event`` opens another washing: it repeats what was said already."""
    if washing.has("or"):
        return False
    if event.kind == "machine":
        return washing.by_machine and bool(washing.temperatures)
    if event.kind == "hand wash":
        return washing.has("hand wash")
    return False


def add_to(washing: Washing, event: Event) -> None:
    """Add an event; a number counts as a temperature right after washing words."""
    if event.kind == "number":
        if not washing.has("machine", "mild", "wash") or washing.temperatures:
            return
        event = Event("temperature", event.start, event.end, event.celsius)
    if event.kind == "temperature" and not 20 <= event.celsius <= 95:
        return
    washing.events.append(event)


# Judging


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
    for negation, choice in choices_behind_a_negation(events, sheet.line_of):
        yield beside(sheet, negation, choice)


def unread_clauses(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about words of care that could not be read: they may forbid something.

    They may lie in a line that speaks of care or right beside one.  A line that only
    repeats in another language what was read in full elsewhere needs no doubt.
    """
    lines = by_line(sheet, events)
    care = {
        number
        for event in events
        if tells(event)
        for number in range(sheet.line_of(event.start), sheet.line_of(event.end - 1) + 1)
    }
    full = said_in_full(lines)
    for number, said in lines.items():
        neighbours = {number - 1, number + 1} & care
        forbids = any(event.kind == "not" for event in said)
        for event in said:
            word = sheet.text[event.start : event.end]
            known = (
                word in SINGLE_WORDS or is_weight_word(word) or meanings_of((word,)) == ("other",)
            )
            if event.kind != "unread" or len(word) < SHORTEST_UNREAD or known:
                continue
            strong = _TELLING & set(meanings_of((word,))) or word in HANGING
            near = neighbours and (len(neighbours) == 2 or forbids or strong or is_misread(word))
            if (number in care and not processes_in(said) & full) or (number not in care and near):
                yield f"'{sheet.printed(event.start, event.end)}' among the care words is unread"


def unclear_clauses(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about clauses that speak of care and are not understood."""
    for event in events:
        if event.kind == "unclear":
            said = " ".join(sheet.printed(event.start, event.end).split())
            yield f"it is not clear what '{said}' asks for"


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


def tells(event: Event) -> bool:
    """Whether an event shows that its line speaks of care."""
    return event.kind in PROCESSES or event.kind in ("machine", "mild", "no machine", "other")


def beside(sheet: FoldedLines, word: Event, phrase: Event) -> str:
    """The doubt that a word beside a phrase may turn it into its opposite."""
    said = " ".join(sheet.printed(phrase.start, phrase.end).split())
    return f"'{sheet.printed(word.start, word.end)}' beside '{said}' may change what it says"


def lost_heats(
    sheet: FoldedLines, events: Sequence[Event], said: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """Doubts about the heat of an iron that nothing of what was said of ironing holds."""
    if any("iron" in process for process in said):
        return
    for event in events:
        if event.kind == "temperature" and iron_heat(event.celsius):
            yield f"{sheet.printed(event.start, event.end).strip()} is printed, but not what for"


def lone_heats(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about a low heat that stands behind a dryer without being told of it, or is taken for
    that of an iron in the next line: "tumble dry, low / iron"."""
    dryer: Event | None = None
    for event in events:
        words = sheet.text[event.start : event.end].split("\n")
        low = "low" in meanings_of((words[0].strip(),))
        if dryer and low and (event.kind == "harmless" or len(words) > 1):
            yield beside(sheet, replace(event, end=event.start + len(words[0])), dryer)
        if event.kind == "tumble dry":
            dryer = event
        elif event.kind not in ("harmless", "stop", "unread"):
            dryer = None


def lost_irons(
    sheet: FoldedLines, events: Sequence[Event], said: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """Doubts about an iron by the word that needles go by too, "fer" or "ferro", within or right
    beside lines of care, of which nothing was read: its heat may be misread."""
    if not said or any("iron" in process for process in said):
        return
    care = {sheet.line_of(event.start) for event in events if tells(event)}
    for match in _IRON_OR_NEEDLE.finditer(sheet.text):
        at = sheet.line_of(match.start())
        inside = any(event.start <= match.start() < event.end for event in events if tells(event))
        if care & {at - 1, at, at + 1} and not inside:
            yield f"'{sheet.printed(*match.span(1))}' is printed among the care words, but no heat"


def lone_wool(
    sheet: FoldedLines, events: Sequence[Event], said: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """Doubts about wool that begins the line below a washing's heat and ends with a stop: it may
    be the programme, "machine wash 30° / wool." """
    if any("mild" in process for process in said):
        return
    for heat, wool, stop in zip(events, events[1:], events[2:], strict=False):
        gap = sheet.text[heat.end - 1 : wool.start]
        word = sheet.text[wool.start : wool.end]
        below = heat.kind == "temperature" and "\n" in gap and not gap.strip(" \n°c")
        if below and stop.kind == "stop" and meanings_of((word,)) == ("wool",):
            yield f"'{sheet.printed(wool.start, wool.end)}' may be the programme of the washing"


def questions(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about what is asked and not said: "Tumble dry? No." """
    for event in events:
        asked = _QUESTION.match(sheet.text, event.end)
        if asked and tells(event):
            said = " ".join(sheet.printed(event.start, asked.end()).split())
            yield f"'{said}' is a question; what is the answer?"


def contradictions(said: dict[str, list[Event]]) -> Iterator[str]:
    """Doubts about processes that cannot both be meant."""
    for process, others in OPPOSITES:
        for other in said:
            if process in said and other != process and other.startswith(others):
                yield f"both '{process}' and '{other}' are printed"
    washes = [process for process in said if process.startswith("machine wash")]
    if len(washes) > 1:
        yield f"both '{washes[0]}' and '{washes[1]}' are printed"
