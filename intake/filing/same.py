"""Whether a tag has been here before, or something much like it."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from heapq import nsmallest
from sys import intern

from intake.filing.agreeing import Told, contradictions, one_lot, told
from intake.filing.hash_shelf import HashShelf
from intake.filing.judge import Doubt
from intake.filing.record import Record, record_from_reading
from intake.filing.sides import OtherSide, Side, other_side, side_of
from intake.pictures.keep import same_print, shape_of
from intake.pictures.same_tag import Verdict, verdict
from intake.records import TagReading
from intake.shades.confusion import confusable

REPEAT = "repeat"
"""The field of a doubt whether the tag as a whole has been here before."""

ANOTHER_BALL = "another ball"
SAME_TAG_AGAIN = "same tag again"
REPEAT_ANSWERS = (ANOTHER_BALL, SAME_TAG_AGAIN)
"""The answers to a :data:`REPEAT` doubt."""

NEAR_HASH_BITS = 48
"""Print hashes at most this far apart, of 256 bits, call for a look at the pictures
themselves.  Copies that are compressed anew, resized and cut out again stay below it."""

MOST_COMPARED = 12
"""With how many earlier tags of its shade and lot one is compared by picture, about a second
each; where there are more, the user is asked."""

RECENT = 64
"""Among so many tags that came last the other side of one is looked for."""

MOST_LOOKS = 4
"""How many earlier pictures are looked at for one tag; a look takes about a third of a
second, and the balls of one maker may all have hashes that are near."""

SAME_PRINT = 0.97
"""From this :func:`intake.pictures.keep.same_print` on, two pictures are one.  Scans of two
balls with the same print came up to 0.96 (drawn tags, flatbed scans); below the bound the
user is asked, so a bound that is too high costs a question and one too low costs a ball."""


@dataclass(frozen=True, slots=True)
class Before:
    """A tag that is kept already: its id, the picture it came from, and how it is
    known to be the same."""

    id: str
    picture: str
    how: str


@dataclass(frozen=True, slots=True)
class LookBack:
    """What looking back at earlier tags gave: the same tag, or else doubts."""

    before: Before | None = None
    doubts: tuple[Doubt, ...] = ()


@dataclass(frozen=True, slots=True)
class _Kept:
    """What is remembered of one tag: little, for there may be a million.

    ``file`` and ``shot`` are hash values that stand for the picture file and for the page of
    it that the tag was seen on; ``told`` is what its print says.
    """

    id: str
    picture: str
    file: int
    shot: int
    told: Told
    shades: tuple[str, ...]
    lot: str


class Past:
    """The tags that were filed or wait, to look back at.

    ``jpeg`` gives the kept picture of a tag by its id, no bytes where there is none.
    """

    def __init__(self, jpeg: Callable[[str], bytes]) -> None:
        self._jpeg = jpeg
        self._kept: dict[str, _Kept] = {}
        self._hashes = HashShelf()
        self._of_lot: defaultdict[str, list[str]] = defaultdict(list)
        self._lots: defaultdict[str, Counter[str]] = defaultdict(Counter)
        self._recent: dict[str, Side] = {}
        self._compared: dict[tuple[str, str], Verdict] = {}

    def __contains__(self, tag_id: str) -> bool:
        return tag_id in self._kept

    def remember(self, record: Record) -> None:
        """Take ``record`` in, in place of what was known under its id."""
        self.forget(record.id)
        kept = _kept(record)
        self._kept[kept.id] = kept
        self._hashes.put(kept.id, record.print_hash)
        self._recent[kept.id] = side_of(record)
        if len(self._recent) > RECENT:
            del self._recent[next(iter(self._recent))]
        if kept.lot and kept.shades:
            self._of_lot[kept.lot].append(kept.id)
            for shade in kept.shades:
                self._lots[shade][kept.lot] += 1

    def forget(self, tag_id: str) -> None:
        """Take a tag out again."""
        kept = self._kept.pop(tag_id, None)
        self._recent.pop(tag_id, None)
        self._hashes.drop(tag_id)
        if kept is not None and kept.lot and kept.shades:
            self._of_lot[kept.lot].remove(tag_id)
            for shade in kept.shades:
                self._lots[shade][kept.lot] -= 1

    def look_back(self, reading: TagReading) -> LookBack:
        """Whether ``reading`` is a tag that was here before, or what is doubtful about
        its being a new one."""
        tag = _kept(record_from_reading(reading))
        if tag.id in self._kept:
            known = self._kept[tag.id]
            return LookBack(Before(known.id, known.picture, "the same file"))
        copies = self._copies(tag, reading.print_hash, reading.jpeg)
        for copy in copies:
            if not contradictions(copy.told, tag.told):
                return LookBack(Before(copy.id, copy.picture, "a copy of the same picture"))
        if copies:
            return LookBack(doubts=(_unlike_copy(copies[0]), *self._near_lots(tag)))
        earlier, seen = self._seen_before(tag, lambda: reading.jpeg)
        if earlier is not None and seen is Verdict.SAME:
            return LookBack(Before(earlier.id, earlier.picture, "the same tag in another picture"))
        doubts = [] if earlier is None else [_repeat(earlier, seen)]
        return LookBack(doubts=(*doubts, *self._near_lots(tag)))

    def other_side(self, reading: TagReading) -> OtherSide | None:
        """The tag of those that came last that ``reading`` may be the other side of."""
        tag = side_of(record_from_reading(reading))
        return other_side(
            tag,
            self._recent.values(),
            lambda one: shape_of(reading.jpeg if one == tag.id else self._jpeg(one)),
        )

    def repeats(self, record: Record) -> list[Doubt]:
        """Whether a tag with the same print came from another picture."""
        earlier, seen = self._seen_before(_kept(record), lambda: self._jpeg(record.id))
        return [] if earlier is None else [_repeat(earlier, seen)]

    def second_thoughts(self, record: Record) -> list[Doubt]:
        """What is doubtful about a kept record becoming ``record``, which has its id."""
        return [*self.repeats(record), *self._near_lots(_kept(record))]

    def _copies(self, tag: _Kept, print_hash: str, jpeg: bytes) -> list[_Kept]:
        """Tags of other files whose picture is the same as this one's, those with the
        same print first."""
        near = (
            (kept, bits)
            for tag_id, bits in self._hashes.near(print_hash, NEAR_HASH_BITS)
            if (kept := self._kept[tag_id]).file != tag.file
        )
        nearest = nsmallest(
            MOST_LOOKS, near, key=lambda one: (bool(contradictions(one[0].told, tag.told)), one[1])
        )
        return [kept for kept, _ in nearest if _one_picture(self._jpeg(kept.id), jpeg)]

    def _seen_before(self, tag: _Kept, jpeg: Callable[[], bytes]) -> tuple[_Kept | None, Verdict]:
        """The earlier tag that this one may be, and what their pictures say: the one that it
        surely is, else the first that it cannot be told from.  None where it is another ball
        than all of them."""
        unsure: _Kept | None = None
        for place, earlier in enumerate(self._of_one_lot(tag)):
            seen = (
                self._verdict(earlier.id, tag.id, jpeg) if place < MOST_COMPARED else Verdict.UNSURE
            )
            if seen is Verdict.SAME:
                return earlier, seen
            if seen is Verdict.UNSURE:
                unsure = unsure or earlier
            if place == MOST_COMPARED:
                break
        return unsure, Verdict.UNSURE

    def _of_one_lot(self, tag: _Kept) -> Iterator[_Kept]:
        """The tags of other pictures that say the same of their ball, the last first."""
        for tag_id in reversed(self._of_lot.get(tag.lot, ()) if tag.lot and tag.shades else ()):
            earlier = self._kept[tag_id]
            is_other = earlier.shot != tag.shot and earlier.id != tag.id
            if is_other and one_lot(earlier.told, tag.told):
                yield earlier

    def _verdict(self, earlier_id: str, tag_id: str, jpeg: Callable[[], bytes]) -> Verdict:
        """What the pictures of two tags say; remembered, for the same is asked again while a
        tag is answered."""
        pair = (earlier_id, tag_id)
        if pair not in self._compared:
            self._compared[pair] = _seen_as(self._jpeg(earlier_id), jpeg())
        return self._compared[pair]

    def _near_lots(self, tag: _Kept) -> list[Doubt]:
        """Whether the lot could be a misread one of those known for this shade."""
        near = lot_neighbours(tag.lot, sorted(self._lots_of_others(tag)))
        if not near:
            return []
        reason = (
            f"lot {tag.lot} is one easily confused letter from lot {' and '.join(near)}, "
            "which an earlier tag of this shade has"
        )
        return [Doubt("lot", reason, (tag.lot, *near))]

    def _lots_of_others(self, tag: _Kept) -> set[str]:
        """The lots known for the shades of a tag, by other tags than itself."""
        kept = self._kept.get(tag.id)
        own = {(shade, kept.lot) for shade in kept.shades} if kept is not None else set()
        return {
            lot
            for shade in tag.shades
            for lot, balls in self._lots[shade].items()
            if balls > ((shade, lot) in own)
        }


def lot_neighbours(lot: str, lots: Iterable[str]) -> list[str]:
    """Those of ``lots`` that a reader could have taken for ``lot`` by one slip."""
    return [other for other in lots if lot and other != lot and confusable(lot, other)]


def _seen_as(one: bytes, other: bytes) -> Verdict:
    try:
        return verdict(one, other)
    except ValueError:  # someone took the kept picture away or spoilt it
        return Verdict.UNSURE


def _repeat(earlier: _Kept, seen: Verdict) -> Doubt:
    looks = "; the pictures look like one tag" if seen is Verdict.SAME else ""
    reason = (
        f"same shade and lot as record {earlier.id} from picture {earlier.picture}{looks}: "
        "another ball, or the same tag again?"
    )
    return Doubt(REPEAT, reason, REPEAT_ANSWERS)


def _one_picture(one: bytes, other: bytes) -> bool:
    try:
        return same_print(one, other) >= SAME_PRINT
    except ValueError:  # someone took the kept picture away or spoilt it
        return False


def _unlike_copy(copy: _Kept) -> Doubt:
    reason = (
        f"the picture looks the same as that of record {copy.id} from picture {copy.picture}, "
        "yet it reads differently: another ball, or the same tag again?"
    )
    return Doubt(REPEAT, reason, REPEAT_ANSWERS)


def _kept(record: Record) -> _Kept:
    shades = {"name": record.shade, "code": record.shade_code}
    return _Kept(
        id=record.id,
        picture=record.picture,
        file=hash(record.digest),
        shot=hash((record.digest, record.page)),
        told=told(record),
        shades=tuple(intern(f"{kind} {text.casefold()}") for kind, text in shades.items() if text),
        lot=intern(record.lot),
    )
