"""What speaks for a shade as read, and for a known one in its place.

Two witnesses: the letters (how sure the readers were of each, and whether they agreed)
and the shade code printed on the same tag.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from intake.fields.letters import fold_letter
from intake.records import Field, Letter, Line, State
from intake.shades.confusion import Difference, confusable, similarity
from intake.shades.known import Near, ShadeGroup
from intake.shades.spelling import key, key_letters

LOW_CONFIDENCE = 0.75
"""Below this score a letter may be another one although both readers saw it alike."""

HIGH_CONFIDENCE = 0.9
"""From this score on, a reader's own letter is not put right on its look alone."""

SAME_PLACE = 50.0
"""Similarity from which another text considered is taken for the same print read
otherwise; below it, it is from another place on the tag."""


@dataclass(frozen=True, slots=True)
class SeenLetter:
    """One letter of a shade as read: the first reader's score, and what the second saw.

    ``second`` is ``None`` where only the name as a whole is known, not its letters.
    """

    confidence: float
    agreed: bool
    second: str | None

    @property
    def is_weak(self) -> bool:
        """Whether this letter may well be another one."""
        return not self.agreed or self.confidence < LOW_CONFIDENCE

    @property
    def is_clear(self) -> bool:
        """Whether the first reader was sure of this letter."""
        return self.confidence >= HIGH_CONFIDENCE

    @property
    def is_disputed(self) -> bool:
        """Whether the second reader saw another letter here."""
        return not self.agreed and bool(self.second)


class ReadShade:
    """A shade as read, with what is known of each of its letters."""

    def __init__(self, field: Field, lines: Sequence[Line]) -> None:
        self.text = str(field.value)
        self._letters = key_letters(self.text)
        self._seen = _from_lines(field, lines, key(self.text)) or [_from_field(field)] * len(
            self._letters
        )
        self.other_texts = (*field.others, _join(letter.second for letter in self._seen))
        """Other readings that were considered, the second reader's among them."""
        self._others = {key(other) for other in self.other_texts}
        self.has_rival = any(similarity(self.text, other) < SAME_PLACE for other in field.others)
        """Whether another text of the tag, not these letters read otherwise, may be the
        shade."""

    @cached_property
    def is_weak(self) -> bool:
        """Whether any letter may well be another one."""
        return any(letter.is_weak for letter in self._seen)

    def could_be(self, near: Near) -> bool:
        """Whether all letters that differ from a known shade are weak ones."""
        return all(self._is_weak_at(difference) for difference in near.differences)

    def speaks_for(self, near: Near) -> bool:
        """Whether more than nearness makes this a misreading of a known shade: the other
        reader saw the known letters, or an unsure reader took look-alikes for them.

        A digit for another digit needs a witness outside the letters, for numbered
        shades stand next to one another; and that the second reader saw nothing is no
        witness against a letter that the first saw clearly.
        """
        if any(map(_is_digit_swap, near.differences)) or any(map(self._adds, near.differences)):
            return False
        return key(near.shade) in self._others or all(
            self._second_saw(difference) or self._is_unsure_look(difference)
            for difference in near.differences
        )

    def marked(self, candidates: Iterable[Near]) -> str:
        """The text with a question mark for each letter that the candidates differ in."""
        marked = list(self.text)
        for near in candidates:
            for difference in near.differences:
                for _, at in self._letters[difference.start : difference.end]:
                    marked[at] = "?"
        return "".join(marked)

    def _places(self, difference: Difference) -> list[SeenLetter]:
        """The letters that a difference lies on; those around it for a lost letter."""
        if difference.start < difference.end:
            return self._seen[difference.start : difference.end]
        return self._seen[max(0, difference.start - 1) : difference.start + 1]

    def _is_weak_at(self, difference: Difference) -> bool:
        return any(letter.is_weak for letter in self._places(difference))

    def _second_saw(self, difference: Difference) -> bool:
        """Whether the second reader saw what a known shade has there."""
        if difference.start < difference.end:
            seen = [place.second for place in self._places(difference)]
            return None not in seen and _join(seen) == difference.known
        # What only the second reader saw is told at the letter before the gap.
        before = max(0, difference.start - 1)
        return self._seen[before].second == self._letters[before][0] + difference.known

    def _adds(self, difference: Difference) -> bool:
        """Whether the first reader clearly saw a letter that a known shade lacks."""
        return not difference.known and any(place.is_clear for place in self._places(difference))

    def _is_unsure_look(self, difference: Difference) -> bool:
        return difference.is_confusion and all(
            place.is_weak and not place.is_clear and not place.is_disputed
            for place in self._places(difference)
        )


def _join(seen: Iterable[str | None]) -> str:
    return "".join(text or "" for text in seen)


def _from_field(field: Field) -> SeenLetter:
    """Every letter of a shade of which only the field as a whole is known.

    A doubtful field that was read well, and in one way only, is doubtful for another
    reason than its letters.
    """
    read_well = field.confidence >= HIGH_CONFIDENCE and not field.others
    agreed = field.state is State.SURE or read_well
    return SeenLetter(1.0 if agreed else field.confidence, agreed, None)


def _from_lines(field: Field, lines: Sequence[Line], expected: str) -> list[SeenLetter]:
    """The letters behind the field's spans; none where they do not spell ``expected``."""
    places = [
        (line.letters[at], line.agreed[at], line.others[at])
        for span in field.spans
        if span.line < len(lines)
        for line in [lines[span.line]]
        for at in range(span.start, min(span.end, len(line.letters)))
    ]
    text, origin = _joined([letter for letter, _, _ in places])
    spelled = key_letters(text)
    if "".join(sign for sign, _ in spelled) != expected:
        return []
    seconds = _shared_out(
        [agreed for _, agreed, _ in places],
        ["".join(map(fold_letter, other)) for _, _, other in places],
    )
    return [
        SeenLetter(letter.confidence, agreed, sign if agreed else seconds[number])
        for sign, at in spelled
        for number in [origin[at]]
        for letter, agreed, _ in [places[number]]
    ]


def _shared_out(agreed: Sequence[bool], others: Sequence[str]) -> list[str]:
    """What the second reader saw, letter by letter.

    A line tells a whole run of other letters at the run's start; where the second reader
    saw as many as the first, each belongs to the letter in its place.
    """
    shared = list(others)
    for both, numbers in groupby(range(len(agreed)), key=agreed.__getitem__):
        run = list(numbers)
        seen = "".join(others[number] for number in run)
        if not both and len(seen) == len(run):
            shared[run[0] : run[-1] + 1] = seen
    return shared


def _joined(letters: Sequence[Letter]) -> tuple[str, list[int]]:
    """The letters as one text, and for each of its signs the number of its letter."""
    origin = [number for number, letter in enumerate(letters) for _ in letter.text]
    return "".join(letter.text for letter in letters), origin


def _is_digit_swap(difference: Difference) -> bool:
    return (difference.read + difference.known).isdigit()


@dataclass(frozen=True, slots=True)
class CodeWitness:
    """The shade code of the same tag, and the shades of the range that have codes."""

    code: str
    group: ShadeGroup | None

    @property
    def shades(self) -> tuple[str, ...]:
        """The known shades of the range that have this code."""
        return self.group.shades_of(self.code) if self.group and self.code else ()

    def picks(self, shade: str) -> bool:
        """Whether the code is known for this one shade alone."""
        return self.shades == (shade,)

    def speaks_against(self, shade: str) -> bool:
        """Whether the shade is known by other codes, none a likely misreading of this."""
        codes = self._codes_of(shade)
        return bool(codes) and not any(
            self.code == code or confusable(self.code, code) for code in codes
        )

    def conflict(self, shade: str) -> str:
        """Why code and shade do not go together, in words; empty where they may."""
        if self.shades and shade not in self.shades:
            known = " or ".join(self.shades)
            return f"code {self.code} is {known} in the stash, this tag reads {shade}"
        codes = self._codes_of(shade)
        if codes and self.code not in codes:
            known = " or ".join(codes)
            return f"{shade} has code {known} in the stash, this tag reads {self.code}"
        return ""

    def _codes_of(self, shade: str) -> tuple[str, ...]:
        return self.group.codes_of(shade) if self.group and self.code else ()
