"""Care in words: which processes of ISO 3758 a tag allows or forbids.

A negation that is lost turns a phrase into its opposite, so a phrase that allows
something counts only where nothing unread stands before it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field, replace

from intake.fields.care.clauses import with_clauses
from intake.fields.care.concepts import meanings_of
from intake.fields.care.doubts import by_line, doubts_of
from intake.fields.care.events import MENDED, Event, events_of
from intake.fields.care.meaning import HOTTEST_BY_HAND_C, iron_heat, tumbling_heat
from intake.fields.care.nearby import tells
from intake.fields.care.order import by_columns
from intake.fields.care.phrases import PROCESSES
from intake.fields.care.slashes import doubts_of_slashes
from intake.fields.care.spelling import spelled_out
from intake.fields.letters import WORD, Folded, FoldedLines
from intake.records import Candidate, Line, Span

_ANSWERS = frozenset({"not", "allow", "low", "medium", "high", "mild"})
"""What the cells of a table of care say."""


_DRYERS = {"tumble dry": "normal", "tumble dry low": "low"}
"""Dryers that are allowed, to their heat."""

_WASHINGS = frozenset({"machine", "machine word", "mild", "wash", "no machine"})
"""Kinds of events that tell of washing, beside those that are processes."""


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
    :data:`~intake.fields.care.phrases.PROCESSES`, in their order.  Languages must agree;
    processes that contradict each other, a washing without its temperature and words
    before a phrase that could not be read make a doubt.  Where one is left, the lines are read
    column by column as well, which may tell that what stands between them is no care.
    """
    found = _care_of(lines)
    if not found or not found[0].doubt:
        return found
    order = by_columns(lines)
    if order == sorted(order) or any(is_answer_alone(line.text) for line in lines):
        return found
    other = _care_of([lines[at] for at in order])
    said = [set(one.value) if isinstance(one.value, tuple) else set() for one in (*found, *other)]
    if not other or other[0].doubt or not said[0] <= said[1]:
        return found
    spans = tuple(replace(span, line=order[span.line]) for span in other[0].spans)
    return [replace(other[0], spans=spans)]


def is_answer_alone(text: str) -> bool:
    """Whether a line only says yes or no or how hot, as the cells of a table do that are read row
    by row."""
    words = tuple(WORD.findall(Folded(text).text))
    return bool(_ANSWERS & set(meanings_of(words)))


def _care_of(lines: Sequence[Line]) -> list[Candidate]:
    """The care of ``lines`` read in their order."""
    sheet = spelled_out(FoldedLines(lines)).mended(MENDED)
    events = with_clauses(sheet.text, list(events_of(sheet.text)))
    findings = Findings()
    add_plain_processes(findings, events)
    add_ironing(findings, events)
    findings.doubts += doubts_of_dryers(events)
    add_washing(findings, events)
    findings.doubts += doubts_of_slashes(sheet.text, events)
    findings.doubts += doubts_of(sheet, events, findings.said)
    if not findings.said and not findings.doubts:
        return []
    return [candidate_of(sheet, findings)]


def lines_of_care(lines: Sequence[Line]) -> set[int]:
    """Numbers of the lines that speak of care, in whatever language."""
    sheet = spelled_out(FoldedLines(lines)).mended(MENDED)
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


def doubts_of_dryers(events: Sequence[Event]) -> Iterator[str]:
    """What is asked about dryers whose heat is printed in degrees and is not the one that was
    read."""
    for place, event in enumerate(events):
        if event.composed or event.kind not in _DRYERS:
            continue
        behind = list(clause_from(events, place))
        if any(one.kind in _WASHINGS for one in behind):
            continue  # the degrees are those of the washing
        at = next((one.celsius for one in behind if one.kind in ("temperature", "number")), 0)
        if at and tumbling_heat(at) != _DRYERS[event.kind]:
            yield f"'{event.kind}' and drying at {at} °C are printed together"


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
    machine = [washing for washing in washings if washing.by_machine]
    if "hand wash" in findings.said and any(not washing.has("or") for washing in machine):
        findings.doubts.append("both hand wash and machine wash are printed")
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
        elif event.kind not in ("harmless", "other") and not is_stray(event):
            yield washing
            washing = Washing()
        after_tumbling = event.kind.startswith("tumble") or (
            after_tumbling and event.kind == "harmless"
        )
    yield washing


def is_stray(event: Event) -> bool:
    """Whether an event is one unread letter, as print leaves behind a temperature: "40 °v"."""
    return event.kind == "unread" and event.end - event.start == 1


def begins_anew(washing: Washing, event: Event) -> bool:
    """Whether ``event`` opens another washing: it repeats what was said already."""
    if washing.has("or"):
        return False
    if event.kind == "mild" and washing.has("mild") and not washing.has("hand wash"):
        return washing.has("machine") and bool(washing.temperatures)
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
