"""Which letters readers take for one another, and how far apart that leaves two texts.

The costs are in letters: 1 is a letter that is simply another one.  They follow what
readers of print are known to mix up (common practice, no source); the distance that is
weighed with them is Levenshtein's, extended by pairs of letters that look like one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations

from rapidfuzz.distance import Levenshtein

from intake.shades.spelling import key

OTHER_LETTER = 1.0
"""Cost of a letter that does not look like the one it stands for."""

TWINS = 0.25
"""Cost of letters that some print cannot tell apart at all."""

ALIKE = 0.4
"""Cost of letters that a blot, a fold or a low resolution makes alike."""

THIN_SLIP = 0.5
"""Cost of a thin letter lost or made up, or of a letter doubled or merged with its twin:
readers of the usual kind join equal neighbours when the gap between them is not seen."""

SPELLING = 0.1
"""Cost of an accent, a capital, a space or a hyphen."""

CONFUSED_LETTERS: tuple[tuple[str, float], ...] = (
    ("o0qd", TWINS),
    ("il1|!", TWINS),
    ("s5", TWINS),
    ("b8", TWINS),
    ("z2", TWINS),
    ("g6", TWINS),
    (",.", TWINS),
    ("uv", ALIKE),
    ("ec", ALIKE),
    ("ao", ALIKE),
    ("g9", ALIKE),
)
"""Letters of one group are taken for one another.  In lower case, since a tag in
capitals is compared with a name that is not; accents are dealt with by the key."""

CONFUSED_PAIRS: tuple[tuple[str, str, float], ...] = (
    ("rn", "m", TWINS),
    ("cl", "d", TWINS),
    ("vv", "w", TWINS),
)
"""Two letters that together look like one."""

THIN = frozenset("il1|!jt.,:;'-")


def letter_costs() -> dict[tuple[str, str], float]:
    """Cost of each confused pair of single letters, either way round."""
    costs: dict[tuple[str, str], float] = {}
    for group, cost in CONFUSED_LETTERS:
        for pair in permutations(group, 2):
            costs[pair] = min(cost, costs.get(pair, cost))
    return costs


def one_look() -> dict[int, str]:
    """A translation that brings all letters that can be mixed up to one of them."""
    looks: list[set[str]] = []
    for group, _ in CONFUSED_LETTERS:
        joined = set(group).union(*(look for look in looks if look & set(group)))
        looks = [look for look in looks if not look & joined] + [joined]
    return {ord(letter): min(look) for look in looks for letter in look}


_LETTER_COSTS = letter_costs()
_PAIRS_FROM = {
    (seen[0], stands[0]): [(seen, stands, cost)]
    for two, one, cost in CONFUSED_PAIRS
    for seen, stands in ((two, one), (one, two))
}
_ONE_LOOK = one_look()


@dataclass(frozen=True, slots=True)
class Difference:
    """One place where a read key and a known key differ.

    ``start`` to ``end`` (exclusive) are letters of the read key; ``read`` and ``known``
    are what stands there in either; ``cost`` is in letters.
    """

    start: int
    end: int
    read: str
    known: str
    cost: float

    @property
    def is_confusion(self) -> bool:
        """Whether readers are known to slip this way."""
        return self.cost < OTHER_LETTER


@lru_cache(maxsize=1 << 16)
def look(text_key: str) -> str:
    """A key with all letters that can be mixed up brought to one form."""
    for two, one, _ in CONFUSED_PAIRS:
        text_key = text_key.replace(two, one)
    return text_key.translate(_ONE_LOOK)


def differences(read_key: str, known_key: str) -> tuple[Difference, ...]:
    """The cheapest set of differences between two keys, in reading order."""
    width = len(known_key) + 1
    size = (len(read_key) + 1) * width
    costs = [0.0] + [float("inf")] * (size - 1)
    steps: list[_Step] = [(0, 0, 0.0)] * size
    for place in range(size - 1):
        for step in _steps(read_key, known_key, *divmod(place, width)):
            letters_read, letters_known, cost = step
            target = place + letters_read * width + letters_known
            if costs[place] + cost < costs[target]:
                costs[target], steps[target] = costs[place] + cost, step
    return tuple(_walked_back(read_key, known_key, steps))[::-1]


_Step = tuple[int, int, float]
"""A move through both keys: letters of the read one, of the known one, cost."""


def _walked_back(read: str, known: str, steps: Sequence[_Step]) -> Iterator[Difference]:
    at_read, at_known = len(read), len(known)
    while at_read or at_known:
        letters_read, letters_known, cost = steps[at_read * (len(known) + 1) + at_known]
        end, known_end = at_read, at_known
        at_read, at_known = at_read - letters_read, at_known - letters_known
        if cost:
            yield Difference(at_read, end, read[at_read:end], known[at_known:known_end], cost)


def _steps(read: str, known: str, at_read: int, at_known: int) -> Iterator[_Step]:
    """All ways on from letter ``at_read`` of ``read`` and ``at_known`` of ``known``."""
    ours, theirs = read[at_read : at_read + 1], known[at_known : at_known + 1]
    if ours and theirs:
        yield 1, 1, 0.0 if ours == theirs else _LETTER_COSTS.get((ours, theirs), OTHER_LETTER)
        for seen, stands, cost in _PAIRS_FROM.get((ours, theirs), ()):
            if read.startswith(seen, at_read) and known.startswith(stands, at_known):
                yield len(seen), len(stands), cost
    if ours:
        yield 1, 0, _slip_cost(read, at_read)
    if theirs:
        yield 0, 1, _slip_cost(known, at_known)


def _slip_cost(text: str, at: int) -> float:
    """Cost of letter ``at`` of ``text`` having no partner in the other text."""
    doubled = text[at] in (text[at - 1 : at], text[at + 1 : at + 2])
    return THIN_SLIP if doubled or text[at] in THIN else OTHER_LETTER


def cost_of(found: tuple[Difference, ...]) -> float:
    """Sum of the costs, in letters."""
    return sum(difference.cost for difference in found)


def confusable(a: str, b: str) -> bool:
    """Whether a reader could have made one text of the other by one slip.

    True where the texts differ in exactly one place, by letters that are taken for one
    another, or by an accent, a capital, a separator, or a thin or doubled letter.
    """
    if a.casefold() == b.casefold():
        return Levenshtein.distance(a, b) == 1
    found = differences(key(a), key(b))
    places = len(found) + _spelling_places(a.casefold(), b.casefold())
    return places == 1 and all(difference.is_confusion for difference in found)


def similarity(a: str, b: str) -> float:
    """How alike two texts are, 0 to 100; the same way round for both.

    Levenshtein's similarity with the costs of this module: a confused letter counts less
    than another one; case, accents, spaces and hyphens count least.
    """
    if a == b:
        return 100.0
    keys = key(a), key(b)
    cost = cost_of(differences(*keys)) + SPELLING * _spelling_places(a, b)
    length = max(len(keys[0]), len(keys[1]), 1)
    return 100.0 * max(0.0, 1.0 - cost / length)


def _spelling_places(a: str, b: str) -> int:
    """In how many places the texts differ that their keys do not."""
    return max(0, Levenshtein.distance(a, b) - Levenshtein.distance(key(a), key(b)))


def slip_limit(length: int) -> float:
    """How many letters a reading of ``length`` letters may be off and still be near.

    One letter, or one in five of a longer name; names of one or two letters are all one
    letter off each other, so only a confused letter makes those near.
    """
    return max(OTHER_LETTER, length / 5) if length > 2 else THIN_SLIP
