"""What is kept in memory of each tag, so that a new one can be compared with all of them.

Of most tags nothing need be in memory where an :class:`~intake.filing.index.Index` knows
them: only those that came or changed since it was written are, and those that wait.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from sys import intern

from intake.filing.agreeing import Told, told
from intake.filing.hash_shelf import HashShelf, Nearness
from intake.filing.index import Index, shade_keys
from intake.filing.record import Record


@dataclass(frozen=True, slots=True)
class KeptTag:
    """What is remembered of one tag: little, for there may be a million.

    ``digest`` and ``page`` tell the picture file and the page of it that the tag was seen
    on; ``told`` is what its print says.
    """

    id: str
    picture: str
    digest: str
    page: str
    told: Told
    shades: tuple[str, ...]
    lot: str

    @property
    def shot(self) -> tuple[str, str]:
        """The picture that the tag was seen on."""
        return self.digest, self.page


def kept_tag(record: Record) -> KeptTag:
    """What is remembered of a record."""
    return KeptTag(
        id=record.id,
        picture=record.picture,
        digest=record.digest,
        page=record.page,
        told=told(record),
        shades=shade_keys(record.shade, record.shade_code),
        lot=intern(record.lot),
    )


class KeptTags:
    """The tags that are known: those of ``index``, and those that were put here since."""

    def __init__(self, index: Index | None = None) -> None:
        self._index = index
        self._out: set[str] = set()  # of the index: forgotten, or put here anew
        self._tags: dict[str, KeptTag] = {}
        self._hashes = HashShelf()
        self._of_lot: defaultdict[str, list[str]] = defaultdict(list)
        self._lots: defaultdict[str, Counter[str]] = defaultdict(Counter)

    def __contains__(self, tag_id: str) -> bool:
        return tag_id in self._tags or self._is_indexed(tag_id)

    def get(self, tag_id: str) -> KeptTag | None:
        """A tag; ``None`` where it is not known."""
        return self._tags.get(tag_id) or self._of_index(tag_id)

    def put(self, tag: KeptTag, print_hash: str) -> None:
        """Take a tag in, in place of what was known under its id."""
        self.drop(tag.id)
        self._tags[tag.id] = tag
        self._hashes.put(tag.id, print_hash)
        self._count(tag, 1)
        if tag.lot and tag.shades:
            self._of_lot[tag.lot].append(tag.id)

    def drop(self, tag_id: str) -> None:
        """Take a tag out again."""
        tag = self._tags.pop(tag_id, None)
        if tag is not None:
            self._hashes.drop(tag_id)
            self._count(tag, -1)
            if tag.lot and tag.shades:
                self._of_lot[tag.lot].remove(tag_id)
        elif (indexed := self._of_index(tag_id)) is not None:
            self._out.add(tag_id)
            self._count(indexed, -1)

    def last(self) -> list[Record]:
        """The records of the index that were filed last, in the order of the stash."""
        return self._index.last() if self._index else []

    def of_lot(self, lot: str) -> list[KeptTag]:
        """The tags of a lot that name a shade, oldest first."""
        indexed = map(self._at, self._index.of_lot(lot) if self._index else ())
        fresh = (self._tags[tag_id] for tag_id in self._of_lot.get(lot, ()))
        known = (tag for tag in indexed if tag.id not in self._out and tag.shades)
        return [*known, *fresh] if lot else []

    def lots(self, shade: str) -> Counter[str]:
        """How many tags of each lot there are of a shade, see :func:`shade_keys`."""
        found = Counter(self._index.lots(shade) if self._index else {})
        if shade in self._lots:
            found.update(self._lots[shade])
        return found

    def near(self, print_hash: str, nearness: Nearness) -> Iterator[tuple[KeptTag, int]]:
        """The tags whose hash is near, and in how many bits it differs."""
        for row, bits in self._index.near(print_hash, nearness) if self._index else ():
            tag = self._at(row)
            if tag.id not in self._out:
                yield tag, bits
        for tag_id, bits in self._hashes.near(print_hash, nearness):
            yield self._tags[tag_id], bits

    def _count(self, tag: KeptTag, balls: int) -> None:
        for shade in tag.shades if tag.lot else ():
            self._lots[shade][tag.lot] += balls

    def _is_indexed(self, tag_id: str) -> bool:
        return self._index is not None and tag_id not in self._out and tag_id in self._index

    def _of_index(self, tag_id: str) -> KeptTag | None:
        row = self._index.row(tag_id) if self._index and tag_id not in self._out else None
        return None if row is None else self._at(row)

    def _at(self, row: int) -> KeptTag:
        assert self._index is not None
        return kept_tag(self._index.record(row))
