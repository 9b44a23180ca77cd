"""The review in a terminal: one waiting tag at a time, one question after another."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from enum import Enum
from typing import TextIO

from rich.console import Console
from rich.text import Text

from intake.errors import CannotUndo, one_line
from intake.filing.answers import BadAnswer, answer_value
from intake.filing.cabinet import Cabinet
from intake.filing.judge import Doubt, earlier_named, spoken
from intake.filing.queue import NotWaiting, Waiting
from intake.filing.same import REPEAT, REPEAT_ANSWERS, SAME_TAG_AGAIN
from intake.filing.sides import SIDE, SIDE_ANSWERS
from intake.records import FIELDS, Field, State
from intake.wording import value_text

HELP = """\
  Enter   keep what was read (or nothing, where nothing was read)
  1, 2…   take that answer
  text    type the value as the tag prints it
  =text   the same, where the text is a number of an answer or a letter below: =b, =2
  -       the tag does not carry it
  b       go back one question, also into the tag before
  s       skip this tag; it goes on waiting
  d       discard this tag; it will not be asked about again
  q       stop; what was answered stays filed
  ?       this help"""


_OF_TAG = {REPEAT: REPEAT_ANSWERS, SIDE: SIDE_ANSWERS}
"""Doubts about a tag as a whole, and their answers."""


class Command(Enum):
    """What can be typed instead of an answer."""

    BACK = "b"
    SKIP = "s"
    DISCARD = "d"
    QUIT = "q"
    HELP = "?"


@dataclass(frozen=True, slots=True)
class Summary:
    """What a review came to, in tags."""

    filed: int
    discarded: int
    waiting: int


class BadChoice(ValueError):
    """Typed text that is no answer; ``str`` is one line for the user."""


def review(cabinet: Cabinet, console: Console, lines: TextIO) -> Summary:
    """Go through the tags that wait, asking on ``console`` and reading from ``lines``.

    Each tag is filed as soon as its last question is answered, so stopping at any time
    (``q``, the end of ``lines``, a signal) loses only answers about the tag on show.
    Raises :class:`BalltagError` kinds of the cabinet.
    """
    return _Review(cabinet, console, lines).run()


def understand(typed: str, doubt: Doubt, read: str) -> str | Command | None:
    """What ``typed`` says about ``doubt``: a value (empty for none), a command, or
    ``None`` to keep ``read``, the value as read.  Raises :class:`BadChoice` or
    :class:`BadAnswer`."""
    if typed in {command.value for command in Command}:
        return Command(typed)
    if typed == "=":
        raise BadChoice("type a value after the =")
    if doubt.field in _OF_TAG:
        return _chosen(typed, _OF_TAG[doubt.field])
    answer = _value(typed, doubt, read)
    if answer == read:
        return None
    answer_value(doubt.field, answer)
    return answer


def _chosen(typed: str, choices: tuple[str, ...]) -> str:
    answers = dict(zip("12", choices, strict=True))
    answer = answers.get(typed, typed.removeprefix("="))
    if answer not in choices:
        raise BadChoice(" or ".join(f"{key} for {text!r}" for key, text in answers.items()))
    return answer


def _value(typed: str, doubt: Doubt, read: str) -> str:
    if not typed:
        return read
    if typed == "-":
        return ""
    if typed.startswith("="):
        return typed[1:].strip()
    if not (typed.isdecimal() and 1 <= int(typed) <= len(doubt.candidates)):
        return typed
    chosen = doubt.candidates[int(typed) - 1]
    if typed in doubt.candidates and typed != chosen:
        raise BadChoice(f"{typed} may be answer {typed} or a value; type ={chosen} or ={typed}")
    return chosen


class _Review:
    """One pass over the queue.

    ``given`` keeps, for each tag, what was answered to its fields in order of asking
    (``None`` where the value as read was kept), so that going back can take the
    latest answer away.
    """

    def __init__(self, cabinet: Cabinet, console: Console, lines: TextIO) -> None:
        self._cabinet = cabinet
        self._console = console
        self._lines = lines
        self._ids = cabinet.waiting()
        self._place = 0
        self._given: defaultdict[str, dict[str, str | None]] = defaultdict(dict)
        self._filed: set[str] = set()
        self._discarded: set[str] = set()

    def run(self) -> Summary:
        if self._ids:
            self._say("? shows what can be typed.")
        while self._step() is not Command.QUIT:
            pass
        return Summary(len(self._filed), len(self._discarded), len(self._cabinet.waiting()))

    def _step(self) -> Command | None:
        """Ask about one tag, or about ending, and move on or back."""
        if self._place >= len(self._ids):
            return self._ask_to_end() if self._ids else Command.QUIT
        tag_id = self._ids[self._place]
        try:
            command = self._ask_about(self._cabinet.get(tag_id))
            if command is Command.DISCARD:
                self._discard(tag_id)
            elif command is None:
                self._settle(tag_id)
        except NotWaiting as error:  # another review answered it meanwhile
            self._say(str(error))
            command = Command.SKIP
        if command is Command.BACK:
            self._go_back()
        elif command is not Command.QUIT:
            self._place += 1
        return command

    def _ask_to_end(self) -> Command:
        self._say("No more tags wait. Enter ends the review, b goes back.", style="bold")
        if self._read_line() == Command.BACK.value:
            self._go_back()
            return Command.BACK
        return Command.QUIT

    def _ask_about(self, item: Waiting) -> Command | None:
        """Ask all that is open about one tag; ``None`` when all is answered."""
        self._show(item)
        given = self._given[item.id]
        while (doubt := self._open_doubt(item)) is not None:
            answer = self._ask(item, doubt)
            if isinstance(answer, Command):
                if answer is not Command.BACK or not given:
                    return answer
                given.popitem()
            else:
                given[doubt.field] = answer
        return None

    def _open_doubt(self, item: Waiting) -> Doubt | None:
        """The next question about a tag: those it waits with, then those that its
        answers raise."""
        given = self._given[item.id]
        if given.get(REPEAT) == SAME_TAG_AGAIN:
            return None
        answered = {*given, *self._cabinet.from_other_side(item.id, self._answers(item.id))}
        for doubt in item.doubts:
            if doubt.field not in answered:
                return doubt
        further = self._cabinet.further_doubts(item.id, self._answers(item.id))
        return next((doubt for doubt in further if doubt.field not in given), None)

    def _answers(self, tag_id: str) -> dict[str, str]:
        given = self._given[tag_id]
        return {name: answer for name, answer in given.items() if answer is not None}

    def _ask(self, item: Waiting, doubt: Doubt) -> str | Command | None:
        """Ask one question until the answer can be used."""
        field = item.reading.fields.get(doubt.field) or Field(doubt.field)
        read = value_text(field.name, field.value)
        self._show_doubt(doubt, field)
        while True:
            try:
                answer = understand(self._read_line(), doubt, read)
            except (BadChoice, BadAnswer) as error:
                self._say(f"  {error}", style="red")
                continue
            if answer is not Command.HELP:
                break
            self._say(HELP)
        if not isinstance(answer, Command):
            kept = read if answer is None else answer
            self._say(f"  {spoken(doubt.field)}: {kept or 'none'}", style="green")
        return answer

    def _settle(self, tag_id: str) -> None:
        record = self._cabinet.resolve(tag_id, self._answers(tag_id))
        if record is None:
            self._discarded.add(tag_id)
            self._say("  left out: the same tag again")
        else:
            self._filed.add(tag_id)
            self._say(f"  filed as {record.id}")

    def _discard(self, tag_id: str) -> None:
        self._cabinet.discard(tag_id)
        self._discarded.add(tag_id)
        self._say("  discarded")

    def _go_back(self) -> None:
        """Into the tag before, which waits again if it was settled."""
        if self._place == 0:
            self._say("  this is the first question")
            return
        tag_id = self._ids[self._place - 1]
        if tag_id in self._filed | self._discarded:
            try:
                self._cabinet.put_back(tag_id)
            except CannotUndo as error:  # corrected meanwhile
                self._say(f"  {error}")
                return
            self._filed.discard(tag_id)
            self._discarded.discard(tag_id)
        self._place -= 1
        # A tag that was skipped or discarded is asked on from where it was left.
        given = self._given[tag_id]
        if given and self._open_doubt(self._cabinet.get(tag_id)) is None:
            given.popitem()

    def _show(self, item: Waiting) -> None:
        reading = item.reading
        self._say(f"\nTag {self._place + 1} of {len(self._ids)}", style="bold")
        self._say(f"  from {reading.picture}, page {reading.page}, tag {reading.tag}")
        self._say(f"  look at {self._cabinet.pictures.path(item.id)}")
        for note in reading.notes:
            self._say(f"  note: {note}")
        for name in FIELDS:
            field = reading.fields.get(name)
            if field is not None and field.state is State.SURE:
                self._say(f"  {spoken(name)}: {value_text(name, field.value)}")

    def _show_doubt(self, doubt: Doubt, field: Field) -> None:
        self._say(f"  {spoken(doubt.field)}? {doubt.reason}", style="yellow")
        earlier = earlier_named(doubt.reason) if doubt.field in _OF_TAG else ""
        if earlier:
            self._say(f"    compare {self._cabinet.pictures.path(earlier)}")
        if field.line:
            self._say(f"    printed: {field.line}")
        for number, candidate in enumerate(doubt.candidates, 1):
            self._say(f"    {number}  {candidate}")

    def _say(self, text: str, style: str = "") -> None:
        """Print ``text`` as it is: a tag may hold what looks like markup."""
        for line in text.split("\n"):
            self._console.print(Text(one_line(line), style), soft_wrap=True, highlight=False)

    def _read_line(self) -> str:
        """What the user typed; the end of the input ends the review."""
        self._console.print("  > ", end="", highlight=False)
        line = self._lines.readline()
        return line.strip() if line else Command.QUIT.value
