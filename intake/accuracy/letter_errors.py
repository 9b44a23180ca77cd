"""Character error rate: how many letters must be changed, added or taken out to make the
truth of a reading, for each letter of the truth (Levenshtein distance)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rapidfuzz.distance import Levenshtein


@dataclass(frozen=True, slots=True)
class LetterErrors:
    """Edits against letters; both add up over texts."""

    edits: int = 0
    letters: int = 0

    @property
    def rate(self) -> float:
        """The character error rate; 0 where there are no letters."""
        return self.edits / self.letters if self.letters else 0.0


def letter_errors(pairs: Iterable[tuple[str, str]]) -> LetterErrors:
    """The errors of all ``pairs`` of reading and truth, taken together."""
    counts = [(Levenshtein.distance(read, truth), len(truth)) for read, truth in pairs]
    return LetterErrors(sum(edits for edits, _ in counts), sum(letters for _, letters in counts))


def one_line(text: str) -> str:
    """``text`` with every run of spaces and line breaks as one space: how print is broken
    into lines is no matter of its letters."""
    return " ".join(text.split())
