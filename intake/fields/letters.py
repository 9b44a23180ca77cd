"""Letters made fit for matching, and the way back to the letters of the print.

Parsers search in folded text (lower case, no diacritics, plain punctuation) because a
reader loses accents, swaps look-alike letters and drops spaces.  What they find must be
weighed by the letters that carry it, so every folded letter knows where it came from.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache

from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from intake.records import Line, Span

PLAIN = {
    "ß": "ss",
    "æ": "ae",
    "œ": "oe",
    "ø": "o",
    "ł": "l",
    "đ": "d",
    "ð": "d",
    "ı": "i",
    "℃": "°c",
    "º": "°",
    "˚": "°",
    "×": "x",
    "⁄": "/",
    "✕": "x",
    "‐": "-",
    "‑": "-",
    "‒": "-",
    "–": "-",
    "—": "-",
    "−": "-",
    "’": "'",
    "‘": "'",
    "´": "'",
    "`": "'",
    "“": '"',
    "”": '"',
    "•": "·",
    "∙": "·",
    "⋅": "·",
}
"""Letters whose plain form Unicode's own decomposition does not give."""

ALIKE = (("rn", "m"), ("vv", "w"), ("ii", "u"))
ALIKE_LETTERS = str.maketrans("01ij|!58q9", "olllllsbgg")
"""Letters that readers take for one another, each brought to one form."""

DIGIT_LETTERS = str.maketrans("oli|!sbz", "01111582")
"""The digit that stands behind a letter in the middle of a number."""

WORD = re.compile(r"[^\W_]+(?:\|[^\W_]+)*")


def listed(words: str) -> frozenset[str]:
    """The entries of a word list that is written with ``;`` between them."""
    return frozenset(words.split("; "))


@lru_cache(maxsize=4096)
def fold_letter(letter: str) -> str:
    """One letter in lower case without diacritics; may be several letters, or none."""
    folded = PLAIN.get(letter.lower())
    if folded is not None:
        return folded
    if letter.isspace():
        return " "
    # Compatibility forms are wanted for full-width letters only: they would turn
    # a printed fraction into three letters and a raised 2 into a digit.
    full_width = "\uff00" <= letter <= "\uffef"
    parts = unicodedata.normalize("NFKD" if full_width else "NFD", letter)
    plain = "".join(part for part in parts if not unicodedata.combining(part))
    return "".join(PLAIN.get(c, c) for c in plain.casefold())


class Folded:
    """Text folded for matching, with the way back.

    ``text`` is the folded text; :meth:`span` gives the letters of the original that a
    stretch of it came from.
    """

    def __init__(self, original: str) -> None:
        pieces = [(position, fold_letter(letter)) for position, letter in enumerate(original)]
        self.original = original
        self.text = "".join(piece for _, piece in pieces)
        self.origin = [position for position, piece in pieces for _ in piece]

    def span(self, start: int, end: int) -> tuple[int, int]:
        """Start and end (exclusive) in the original of folded letters start to end."""
        if start >= end:
            return (self.origin[start] if start < len(self.origin) else len(self.original),) * 2
        return self.origin[start], self.origin[end - 1] + 1


Respelling = tuple[int, int, str]
"""Start and end (exclusive) of folded letters, and what is to stand in their place."""


class FoldedLines:
    """All lines of a tag folded into one text, a line break between two.

    ``original`` is the same text unfolded.  :meth:`mended` gives a copy in which misread
    words of a vocabulary are put right; its spans still lead to the letters as read.
    """

    def __init__(self, lines: Sequence[Line]) -> None:
        text = "\n".join(line.text.replace("\n", " ") for line in lines)
        folded = Folded(text)
        self.original = text
        # Folding turns the line breaks into spaces; they are put back here.
        self.text = "".join(
            "\n" if text[position] == "\n" else letter
            for letter, position in zip(folded.text, folded.origin, strict=True)
        )
        self.bounds = [(position, position + 1) for position in folded.origin]
        self.mends: tuple[tuple[int, int], ...] = ()
        self._places = [
            (number, letter)
            for number, line in enumerate(lines)
            for letter in range(len(line.text) + 1)
        ]

    def printed(self, start: int, end: int) -> str:
        """The letters of the print behind folded letters ``start`` to ``end``."""
        if start >= end:
            return ""
        return self.original[self.bounds[start][0] : self.bounds[end - 1][1]]

    def spans(self, start: int, end: int) -> tuple[Span, ...]:
        """Where folded letters ``start`` to ``end`` stand, one span a line, no outer blanks."""
        found: list[Span] = []
        for position in self._solid(start, end):
            line, letter = self._places[position]
            if found and found[-1].line == line:
                found[-1] = Span(line, found[-1].start, letter + 1)
            else:
                found.append(Span(line, letter, letter + 1))
        return tuple(found)

    def _solid(self, start: int, end: int) -> list[int]:
        if start >= end:
            return []
        first, last = self.bounds[start][0], self.bounds[end - 1][1]
        return [at for at in range(first, last) if not self.original[at].isspace()]

    def line_of(self, position: int) -> int:
        """Number of the line that folded letter ``position`` stands in."""
        at = min(self.bounds[position][0], len(self._places) - 1)
        return self._places[at][0]

    def position_of(self, line: int, letter: int) -> int | None:
        """The folded letter that ``letter`` of line number ``line`` became; ``None`` where
        folding left nothing of it."""
        at = self._places.index((line, letter))
        return next((n for n, bounds in enumerate(self.bounds) if bounds[0] == at), None)

    def is_mended(self, start: int, end: int) -> bool:
        """Whether a word between ``start`` and ``end`` was put right."""
        return any(left < end and start < right for left, right in self.mends)

    def mended(self, vocabulary: Words) -> FoldedLines:
        """A copy with words near to one of the vocabulary put right."""
        places = [
            (start, end, word)
            for start, end in _word_places(self.text, vocabulary)
            if (word := vocabulary.nearest(self.text[start:end])) is not None
            and word != self.text[start:end]
        ]
        copy = self.respelled(places)
        shift = 0
        mends: list[tuple[int, int]] = []
        for start, end, word in places:
            mends.append((start + shift, start + shift + len(word)))
            shift += len(word) - (end - start)
        copy.mends = tuple(mends)
        return copy

    def respelled(self, places: Sequence[Respelling]) -> FoldedLines:
        """A copy with other letters at ``places``, which come in order and do not overlap; each of
        the new letters stands for all that were there."""
        copy = object.__new__(FoldedLines)
        copy.original, copy._places, copy.mends = self.original, self._places, ()
        text, done = "", 0
        bounds: list[tuple[int, int]] = []
        for start, end, word in places:
            text, bounds = text + self.text[done:start], bounds + self.bounds[done:start]
            whole = (self.bounds[start][0], self.bounds[end - 1][1])
            text, bounds, done = text + word, bounds + [whole] * len(word), end
        copy.text, copy.bounds = text + self.text[done:], bounds + self.bounds[done:]
        return copy


def _word_places(text: str, vocabulary: Words) -> Iterator[tuple[int, int]]:
    """Where words stand: digits at a word's ends are a number glued to it, unless they
    are read for look-alike letters of a known word."""
    for match in WORD.finditer(text):
        word = match[0]
        if vocabulary.looks_like(word):
            yield match.span()
        elif core := re.search(r"\D.*\D|\D", word):
            yield match.start() + core.start(), match.start() + core.end()


def alike(word: str) -> str:
    """``word`` with look-alike letters brought to one form."""
    for pair, single in ALIKE:
        word = word.replace(pair, single)
    return word.translate(ALIKE_LETTERS)


def tolerance(length: int) -> int:
    """How many misread letters a word of ``length`` letters may have.

    Short words become each other too easily (``lana`` is wool, ``lama`` is llama), so
    they must be read in full but for look-alikes.
    """
    return 0 if length < 6 else 1 if length < 10 else 2


class Words:
    """A vocabulary that misread words are looked up in.

    ``meaning`` tells which words are as good as each other: a misread word that is
    equally near to two meanings stays unread.  ``kept`` are known words that none is taken for:
    what is nearest to one of them stays unread too.
    """

    def __init__(
        self,
        words: Iterable[str],
        meaning: Callable[[str], object] = str,
        kept: Iterable[str] = (),
    ) -> None:
        taken = frozenset(words)
        self._kept = frozenset(kept) - taken
        self.words = taken | self._kept
        self._meaning = meaning
        self._alike: dict[str, list[str]] = {}
        for word in sorted(self.words):
            self._alike.setdefault(alike(word), []).append(word)
        self._by_length: dict[int, list[str]] = {}
        for form in self._alike:
            self._by_length.setdefault(len(form), []).append(form)

    def __contains__(self, word: str) -> bool:
        return word in self.words

    def looks_like(self, word: str) -> bool:
        """Whether ``word`` is a known word but for look-alike letters."""
        return word in self.words or alike(word) in self._alike

    def nearest(self, word: str) -> str | None:
        """The word that folded ``word`` stands for; ``None`` where none or several fit."""
        if word in self.words:
            return word
        if not any(letter.isalpha() for letter in word):
            return None
        form = alike(word)
        return self._only(self._alike.get(form, [])) or self._only(self._near(form))

    def resembles(self, word: str) -> bool:
        """Whether ``word`` is within a letter of a known one, or two if it is long: too
        far to be read as it, too near to be passed over."""
        form, most = alike(word), 1 if len(word) < 8 else 2
        return bool(self._within(form, most, most))

    def _near(self, form: str) -> list[str]:
        best = tolerance(len(form))
        found: list[str] = []
        if best == 0:
            return []
        for known, distance in self._within(form, best, 1):  # two letters more may be a "no"
            if distance > min(best, tolerance(len(known))):
                continue
            if distance < best:
                best, found = distance, []
            found += self._alike[known]
        return found

    def _within(self, form: str, most: int, longer: int) -> list[tuple[str, int]]:
        """The known forms that ``form`` is within ``most`` letters of, in order, each with that
        distance; those that are more than ``longer`` letters longer or shorter are left out."""
        lengths = range(len(form) - longer, len(form) + longer + 1)
        known = [one for length in lengths for one in self._by_length.get(length, ())]
        near = process.extract(
            form, known, scorer=Levenshtein.distance, score_cutoff=most, limit=None
        )
        return sorted((word, int(distance)) for word, distance, _ in near)

    def _only(self, words: list[str]) -> str | None:
        alone = len({self._meaning(word) for word in words}) == 1
        return words[0] if alone and words[0] not in self._kept else None


def number_in(text: str) -> tuple[float, bool] | None:
    """The number that folded ``text`` spells, and whether all its letters are digits.

    A decimal comma counts as a point.  ``l25`` is 125 with odd letters; text without
    one true digit is no number.
    """
    plain = text.strip().replace(",", ".")
    if not any(letter.isdigit() for letter in plain):
        return None
    digits = plain.translate(DIGIT_LETTERS)
    if not re.fullmatch(r"\d+(\.\d+)?", digits):
        return None
    return float(digits), digits == plain
