"""Doubts about words of care that were read and that no process holds: a heat, an iron, wool, a
hand, a programme."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from intake.fields.care.asides import asides_in
from intake.fields.care.concepts import BESIDE, FILLERS, WHOLE, meanings_of
from intake.fields.care.ends import clauses_of
from intake.fields.care.events import Event
from intake.fields.care.forms import worded
from intake.fields.care.handling import LAYING, ROLLING, SUPPORTS
from intake.fields.care.manners import MODALS
from intake.fields.care.meaning import iron_heat
from intake.fields.care.subjects import SUBJECT_OF
from intake.fields.letters import WORD as ANY_WORD
from intake.fields.letters import FoldedLines, Words

_IRON_OR_NEEDLE = re.compile(
    r"(?<![a-z])(fers?|ferro|jarn|jern|ijzer)(?![a-z])(?!\s*(?:n|nr|no|num)?[.°:]?\s*\d{1,2}(?:[.,]\d+)?"
    r"(?:\s*(?:-|/|mm|us|$)|\s*\n))"
)
"""An iron in French or Italian, unless the size of a needle stands behind it."""


_SILENT = frozenset({"unread", "harmless", "not", "or", "stop", "iron"})

_WASHING_HEATS_C = (30, 40, 60, 95)

_PROGRAMME = re.compile(
    r"(?<![a-z])(?:programm?[ae]?s?|programmi|ciclos?|cycles?|waschgang|wasprogramma"
    r"|(?:vaske|tvatt)program)(?![a-z])(?: (?:de|para|per|pour|for|fur|til|till|la|le|il))* "
    r"(?P<name>[a-z]+)"
)
"""A programme and the word behind it, which may name it."""

_ANY_PROGRAMME = worded(
    """
    normal normale normaal normalt standard coton cotton cotone algodon katoen bomull bomuld
    baumwolle couleur color colour max maxi maximum et and und y e og och en a at bis
    """
)
"""Names of programmes that are not mild, and words that name none."""

_SHORT_SPIN = re.compile(
    r"(?<![a-z])(?:(?:short|brief)\sspin|spin\sbriefly|kurz(?:e[rs]?)?\s(?:an)?schleuder"
    r"|essorage\s(?:court|bref)|essorer\sbrievement|centrifug[a-z]*\s(?:breve|cort[ao])"
    r"|korte?\s(?:centrifuger|sentrifuger|slyng))"
)
"""How a label asks for little spinning, as the programmes for wool have it."""

_FELTED = re.compile(
    r"(?<![a-z])(?<!non )(?<!non-)(?<!not )(?<!anti )(?<!anti-)"
    r"(?:felting|(?:to|will|for) felt|felted|filzen"
    r"|zum verfilzen|feutrage|a feutrer|pour feutrer|feltratura|infeltrire|da feltrare|fieltrar"
    r"|afieltrar|fieltrado|vilten|filtning|filtas?|toving|tov(?:es|ning)|filtes?)(?![a-z])"
)
"""How wool is felted, which is no way to wash what was knitted."""

_CUT_HAND = re.compile(r"(?<![a-z])(?:la|lavage|laver) mai(?![a-z])")

_NEAR = 3
"""Print is near lines of care within so many lines of them."""

_SHORTEST_LOST = 3
_LONGEST_LOST = 4

_ALLOWED = ("any", "oxygen", "tumble", "iron", "dry clean", "wet clean")
"""How the kinds of events begin that allow what may be forbidden."""

_SHORT = Words(
    words[0]
    for words, said in WHOLE.items()
    if len(words) == 1
    and _SHORTEST_LOST <= len(words[0]) <= _LONGEST_LOST
    and {"wash", "dry", "iron", "bleach", "flat", "hang", "hand", "sun", "wool"} & set(said)
)
"""Short words that care cannot do without."""


def lost_words(
    sheet: FoldedLines,
    events: Sequence[Event],
    said: Mapping[str, Sequence[Event]],
    care: Collection[int],
) -> Iterator[str]:
    """All doubts about words that none of the processes ``said`` holds; ``care`` are the numbers
    of the lines that tell of care."""
    yield from cut_verdicts(sheet, events)
    yield from lone_heats(sheet, events)
    yield from lost_irons(sheet, events, said, care)
    yield from lone_wool(sheet, events, said)
    yield from lost_heats(sheet, events, said)
    yield from lost_hands(sheet, said, care)
    yield from lost_machines(sheet, events, said, care)
    yield from cut_hands(sheet)
    yield from short_spins(sheet, said)
    yield from feltings(sheet, said)
    yield from lost_layings(sheet, said, care)
    yield from lost_programmes(sheet, said, care)
    yield from short_words(sheet, events, care)


def lost_heats(
    sheet: FoldedLines, events: Sequence[Event], said: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """Doubts about the heat of an iron or a washing where nothing was said of it."""
    irons = any("iron" in process for process in said)
    washes = not said or any("wash" in process for process in said)
    for event in events:
        lost = (not irons and iron_heat(event.celsius)) or (
            not washes and event.celsius in _WASHING_HEATS_C
        )
        if event.kind == "temperature" and lost:
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
        elif event.kind not in ("harmless", "stop", "unread", "or"):
            dryer = None


def lost_irons(
    sheet: FoldedLines,
    events: Sequence[Event],
    said: Mapping[str, Sequence[Event]],
    care: Collection[int],
) -> Iterator[str]:
    """Doubts about an iron by the word that needles go by too, "fer" or "ferro", within or right
    beside lines of care, of which nothing was read: its heat may be misread."""
    if not said or any("iron" in process for process in said):
        return
    for match in _IRON_OR_NEEDLE.finditer(sheet.text):
        at = sheet.line_of(match.start())
        inside = any(
            event.start <= match.start() < event.end
            for event in events
            if event.kind not in _SILENT
        )
        if {at - 1, at, at + 1} & set(care) and not inside:
            yield f"'{sheet.printed(*match.span(1))}' is printed among the care words, but no heat"


def lone_wool(
    sheet: FoldedLines, events: Sequence[Event], said: Mapping[str, Sequence[Event]]
) -> Iterator[str]:
    """Doubts about wool that begins the line below a washing's heat and ends with a stop, or stands
    in brackets behind it: it may be the programme, "machine wash 30° / wool." """
    if any("mild" in process for process in said):
        return
    for heat, wool, stop in zip(events, events[1:], events[2:], strict=False):
        gap = sheet.text[heat.end - 1 : wool.start]
        word = sheet.text[wool.start : wool.end]
        near = heat.kind == "temperature" and not gap.strip(" \n°c,(")
        ends = stop.kind == "stop" or ("(" in gap and sheet.text[wool.end :].startswith(")"))
        if near and ends and meanings_of((word,)) == ("wool",):
            yield f"'{sheet.printed(wool.start, wool.end)}' may be the programme of the washing"


def lost_hands(
    sheet: FoldedLines, said: Mapping[str, Sequence[Event]], care: Collection[int]
) -> Iterator[str]:
    """Doubts about a hand in a line of care where no washing was read."""
    if not said or any("wash" in process for process in said):
        return
    asides = asides_in(sheet.text).items()
    for match in ANY_WORD.finditer(sheet.text):
        if any(low <= match.start() < high for low, high in asides):
            continue
        if meanings_of((match[0],)) == ("hand",) and sheet.line_of(match.start()) in care:
            yield f"'{sheet.printed(*match.span())}' is printed, but no washing was read"


def lost_machines(
    sheet: FoldedLines,
    events: Sequence[Event],
    said: Mapping[str, Sequence[Event]],
    care: Collection[int],
) -> Iterator[str]:
    """Doubts about a machine within or near lines of care where no washing was read."""
    if not said or any("wash" in process for process in said):
        return
    for event in events:
        at = sheet.line_of(event.start)
        if event.kind == "machine word" and any(abs(at - line) <= _NEAR for line in care):
            yield f"'{said_by(sheet, event)}' is printed, but no washing was read"


def cut_verdicts(sheet: FoldedLines, events: Sequence[Event]) -> Iterator[str]:
    """Doubts about what is allowed by a line that ends with the verb for it, another line of care
    standing between it and its rest: "bleekmiddelen mogen", and elsewhere the rest."""
    for event in events:
        if not event.kind.startswith(_ALLOWED):
            continue
        start = max(event.start, sheet.text.rfind("\n", 0, event.end) + 1)
        line = sheet.text[start:].partition("\n")[0].rstrip()
        rest = sheet.text[event.end : start + len(line)]
        below = ANY_WORD.match(sheet.text, start + len(line) + 1)
        goes_on = below and below[0] in FILLERS and "not" not in meanings_of((below[0],))
        words = ANY_WORD.findall(line)
        ends = words and words[-1] in MODALS and line.endswith(words[-1]) and not goes_on
        parted = rest.strip(" abcdefghijklmnopqrstuvwxyz")
        if ends and not parted and all(one in MODALS for one in ANY_WORD.findall(rest)):
            yield f"'{sheet.printed(start, start + len(line))}' may go on elsewhere"


def cut_hands(sheet: FoldedLines) -> Iterator[str]:
    """Doubts about French hands that have lost a letter: "lavage mai" is no Italian never."""
    for match in _CUT_HAND.finditer(sheet.text):
        yield f"'{sheet.printed(*match.span())}' among the care words may be cut off"


def short_spins(sheet: FoldedLines, said: Mapping[str, Sequence[Event]]) -> Iterator[str]:
    """Doubts about a machine that is to spin briefly where no mild programme was read: its drum may
    be meant to be gentle all the time."""
    if not any(process.startswith("machine wash") and "mild" not in process for process in said):
        return
    for match in _SHORT_SPIN.finditer(sheet.text):
        yield f"'{' '.join(sheet.printed(*match.span()).split())}' may ask for a mild programme"


def feltings(sheet: FoldedLines, said: Mapping[str, Sequence[Event]]) -> Iterator[str]:
    """Doubts about a machine wash in a line that tells of felting: "for felting: 60 °C"."""
    washed = [e for name, told in said.items() if name.startswith("machine wash") for e in told]
    lines = {sheet.line_of(event.start) for event in washed}
    for match in _FELTED.finditer(sheet.text):
        if sheet.line_of(match.start()) in lines:
            yield f"'{sheet.printed(*match.span())}' beside the washing may tell how wool is felted"


def lost_layings(
    sheet: FoldedLines, said: Mapping[str, Sequence[Event]], care: Collection[int]
) -> Iterator[str]:
    """Doubts about wool that is laid on something, within or right beside lines of care, where no
    drying was read: the words around may tell of it."""
    if not said or any(SUBJECT_OF.get(process) == "natural drying" for process in said):
        return
    near = {at + step for at in care for step in (-1, 0, 1)}
    if not LAYING & set(ANY_WORD.findall(sheet.text)):
        return
    for start, end in clauses_of(sheet.text):
        words = list(ANY_WORD.finditer(sheet.text, start, end))
        laid = next((match for match in words if match[0] in LAYING), None)
        on = any(match[0] in SUPPORTS for match in words)
        other = any(
            ROLLING.match(match[0]) or "iron" in meanings_of((match[0],)) for match in words
        )
        if laid and on and not other and sheet.line_of(laid.start()) in near:
            yield f"'{sheet.printed(*laid.span())}' is printed, but no drying was read"


def lost_programmes(
    sheet: FoldedLines, said: Mapping[str, Sequence[Event]], care: Collection[int]
) -> Iterator[str]:
    """Doubts about a programme of the machine whose name was not understood: it may be mild."""
    if not any(process.startswith("machine wash") and "mild" not in process for process in said):
        return
    for match in _PROGRAMME.finditer(sheet.text):
        name = match["name"]
        if sheet.line_of(match.start()) in care and not (
            name in _ANY_PROGRAMME or name in BESIDE or meanings_of((name,))
        ):
            yield f"the programme '{sheet.printed(*match.span())}' is not understood"


def short_words(
    sheet: FoldedLines, events: Sequence[Event], care: Collection[int]
) -> Iterator[str]:
    """Doubts about a short unread word in a line of care that is nearly one of care: "cool irn"."""
    for event in events:
        word = sheet.text[event.start : event.end]
        if (
            event.kind == "unread"
            and len(word) == _SHORTEST_LOST
            and sheet.line_of(event.start) in care
            and word not in FILLERS
            and not meanings_of((word,))
            and _SHORT.resembles(word)
        ):
            yield f"'{said_by(sheet, event)}' among the care words is unread"


def beside(sheet: FoldedLines, word: Event, phrase: Event) -> str:
    """The doubt that a word beside a phrase may turn it into its opposite."""
    return f"'{said_by(sheet, word)}' beside '{said_by(sheet, phrase)}' may change what it says"


def said_by(sheet: FoldedLines, event: Event) -> str:
    """The print behind an event, in one line."""
    return " ".join(sheet.printed(event.start, event.end).split())
