"""The shades that are already known, by maker and range."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

import numpy as np
from rapidfuzz import process
from rapidfuzz.distance import Levenshtein

from intake.hand_table import HandTable
from intake.shades.confusion import Difference, cost_of, differences, look, slip_limit
from intake.shades.spelling import key

CARD_COLUMNS = ("maker", "range", "shade", "shade_code")

_CARD = HandTable("shade card", CARD_COLUMNS, needed=CARD_COLUMNS, may_have_others=True)

_BATCH = 256
"""Readings that are compared in one matrix: 25 MB against 100,000 shades."""


class ShadeRecord(Protocol):
    """Anything that names a shade, such as a row of the stash."""

    @property
    def maker(self) -> str | None: ...
    @property
    def range(self) -> str | None: ...
    @property
    def shade(self) -> str | None: ...
    @property
    def shade_code(self) -> str | None: ...


@dataclass(frozen=True, slots=True)
class KnownShade:
    """One shade of one maker and range.  Empty text where a part is not known."""

    maker: str
    range: str
    shade: str
    shade_code: str = ""


@dataclass(frozen=True, slots=True)
class Near:
    """A known shade near to a reading, and where the two differ; no place if the same."""

    shade: str
    differences: tuple[Difference, ...]

    @property
    def cost(self) -> float:
        """How far off the reading is, in letters."""
        return cost_of(self.differences)

    @property
    def is_same(self) -> bool:
        """Whether only the spelling habits differ."""
        return not self.differences


class ShadeGroup:
    """Shades that belong together, such as those of one range.

    What was added is looked at when the group is first asked for something: of very many
    groups most never are.
    """

    def __init__(self) -> None:
        self._added: dict[tuple[str, str], None] = {}
        self._names: dict[str, int] = {}
        self._spellings: list[str] = []
        self._keys: list[str] = []
        self._spelled: dict[str, list[str]] = {}
        self._looks: list[str] = []
        self._codes: list[dict[str, None]] = []
        self._shades_of_code: dict[str, dict[str, None]] = {}

    def __len__(self) -> int:
        self._take_in()
        return len(self._spellings)

    def add(self, shade: str, code: str = "") -> None:
        """Take in a shade.  The spelling that came first stays the known one."""
        self._added[shade, code] = None

    def _take_in(self) -> None:
        for shade, code in self._added:
            self._take(shade, code)
        self._added.clear()

    def _take(self, shade: str, code: str) -> None:
        at = self._names.setdefault(shade.casefold(), len(self._spellings))
        if at == len(self._spellings):
            self._spellings.append(shade)
            self._keys.append(key(shade))
            self._spelled.setdefault(self._keys[-1], []).append(shade)
            self._looks.append(look(self._keys[-1]))
            self._codes.append({})
        if code:
            self._codes[at][code] = None
            self._shades_of_code.setdefault(code, {})[self._spellings[at]] = None

    def same(self, text: str) -> tuple[str, ...]:
        """The known shades that ``text`` spells, spelling habits aside."""
        self._take_in()
        return tuple(self._spelled.get(key(text), ()))

    def codes_of(self, shade: str) -> tuple[str, ...]:
        """The codes that known ``shade`` has been seen with."""
        self._take_in()
        at = self._names.get(shade.casefold())
        return () if at is None else tuple(self._codes[at])

    def shades_of(self, code: str) -> tuple[str, ...]:
        """The shades that have been seen with ``code``."""
        self._take_in()
        return tuple(self._shades_of_code.get(code, ()))

    def near(self, text: str) -> list[Near]:
        """The known shades that ``text`` may be a reading of, nearest first."""
        return next(self.near_each([text]))

    def near_each(self, texts: Sequence[str]) -> Iterator[list[Near]]:
        """:meth:`near` for each of ``texts``.

        Looks are compared with all letters that can be mixed up made one, which leaves
        few shades to weigh letter by letter.  A shade that is near only by several lost
        thin letters is not found, which is a question more and never a wrong shade.
        """
        self._take_in()
        keys = [key(text) for text in texts]
        for start in range(0, len(keys), _BATCH):
            yield from self._near_batch(keys[start : start + _BATCH])

    def _near_batch(self, keys: Sequence[str]) -> Iterator[list[Near]]:
        limits = np.array([int(slip_limit(len(read))) for read in keys], np.uint8)
        apart = process.cdist(
            [look(read) for read in keys],
            self._looks,
            scorer=Levenshtein.distance,
            score_cutoff=int(limits.max()),
            dtype=np.uint8,
        )
        for read, distances, limit in zip(keys, apart, limits, strict=True):
            close = np.flatnonzero(distances <= limit).tolist()
            yield self._weighed(read, close)

    def _weighed(self, read: str, close: Iterable[int]) -> list[Near]:
        found = [Near(self._spellings[at], differences(read, self._keys[at])) for at in close]
        limit = slip_limit(len(read))
        return sorted((near for near in found if near.cost <= limit), key=lambda near: near.cost)


class KnownShades:
    """All known shades, looked up first by maker and range, then by maker.

    Of very many makers a run meets few: a maker's shades go into its groups when these are
    asked for.
    """

    def __init__(self, records: Iterable[ShadeRecord] = ()) -> None:
        self.everything = ShadeGroup()
        self._added: defaultdict[str, dict[tuple[str, str, str], None]] = defaultdict(dict)
        self._keys: dict[str, str] = {}
        self._makers: defaultdict[str, ShadeGroup] = defaultdict(ShadeGroup)
        self._ranges: defaultdict[tuple[str, str], ShadeGroup] = defaultdict(ShadeGroup)
        for record in records:
            self.add(record)

    def add(self, record: ShadeRecord) -> None:
        """Take in the shade of a record; a record without a shade teaches nothing."""
        if not record.shade:
            return
        code = record.shade_code or ""
        self.everything.add(record.shade, code)
        maker = self._key(record.maker or "")
        if maker:
            self._added[maker][record.range or "", record.shade, code] = None

    def _take_in(self, maker: str) -> None:
        """Put what was added of a maker into its groups."""
        for range_, shade, code in self._added.pop(maker, ()):
            self._makers[maker].add(shade, code)
            if self._key(range_):
                self._ranges[maker, self._key(range_)].add(shade, code)

    def _key(self, name: str) -> str:
        """The key of a maker or range: few bear very many shades."""
        if name not in self._keys:
            self._keys[name] = key(name)
        return self._keys[name]

    def add_card(self, path: Path) -> None:
        """Take in a shade card, see :func:`read_card`."""
        for shade in read_card(path):
            self.add(shade)

    def range_group(self, maker: str | None, range_: str | None) -> ShadeGroup | None:
        """The shades of a maker's range; of the whole maker where the tag names no range."""
        name = key(maker or "")
        self._take_in(name)
        return self._ranges.get((name, key(range_))) if range_ else self._makers.get(name)

    def own_groups(self, maker: str | None, range_: str | None) -> list[ShadeGroup]:
        """Where a tag's shade may be known, closest first: its range, then its maker.

        All shades where the tag names no maker; nothing where the maker is a new one.
        """
        if not maker:
            return [self.everything]
        groups = [self.range_group(maker, range_), self._makers.get(key(maker))]
        return [group for group in dict.fromkeys(groups) if group is not None]


def read_card(path: Path) -> list[KnownShade]:
    """The shades of a shade card, a table of :data:`CARD_COLUMNS`; other columns are passed over.
    Raises :class:`~intake.errors.BadTable`."""
    return [KnownShade(**cells) for _, cells in _CARD.read(path)]
