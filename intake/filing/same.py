"""Whether a tag has been here before, or something much like it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from heapq import nsmallest

from intake.filing.agreeing import contradictions, one_lot
from intake.filing.hash_shelf import Nearness
from intake.filing.judge import Doubt
from intake.filing.kept_tags import KeptTag, KeptTags, kept_tag
from intake.filing.record import Record, record_from_reading
from intake.filing.sides import OtherSide, other_side, side_of
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

NEAR_HASHES = Nearness(bits=48, quarter_bits=20)
"""Print hashes at most this far apart call for a look at the pictures themselves.  Copies that
are compressed anew, resized and cut out again stay below it: 269 of 276 drawn ones in all
bits, and those in at most 13 of the quarter's."""

MOST_COMPARED = 12
"""With how many earlier tags of its shade and lot one is compared by picture, about two
seconds each; where there are more, the user is asked."""

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


class Past:
    """The tags that were filed or wait, to look back at.

    ``jpeg`` gives the kept picture of a tag by its id, no bytes where there is none; ``tags``
    are those that are known to begin with.
    """

    def __init__(self, jpeg: Callable[[str], bytes], tags: KeptTags | None = None) -> None:
        self._jpeg = jpeg
        self._tags = KeptTags() if tags is None else tags
        self._recent = {each.id: side_of(each) for each in self._tags.last()[-RECENT:]}
        self._compared: dict[tuple[str, str], Verdict] = {}

    def __contains__(self, tag_id: str) -> bool:
        return tag_id in self._tags

    def remember(self, record: Record) -> None:
        """Take ``record`` in, in place of what was known under its id."""
        self._tags.put(kept_tag(record), record.print_hash)
        self._recent.pop(record.id, None)
        self._recent[record.id] = side_of(record)
        if len(self._recent) > RECENT:
            del self._recent[next(iter(self._recent))]

    def forget(self, tag_id: str) -> None:
        """Take a tag out again."""
        self._tags.drop(tag_id)
        self._recent.pop(tag_id, None)

    def look_back(self, reading: TagReading) -> LookBack:
        """Whether ``reading`` is a tag that was here before, or what is doubtful about
        its being a new one."""
        tag = kept_tag(record_from_reading(reading))
        known = self._tags.get(tag.id)
        if known is not None:
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
        earlier, seen = self._seen_before(kept_tag(record), lambda: self._jpeg(record.id))
        return [] if earlier is None else [_repeat(earlier, seen)]

    def second_thoughts(self, record: Record) -> list[Doubt]:
        """What is doubtful about a kept record becoming ``record``, which has its id."""
        return [*self.repeats(record), *self._near_lots(kept_tag(record))]

    def _copies(self, tag: KeptTag, print_hash: str, jpeg: bytes) -> list[KeptTag]:
        """Tags of other files whose picture is the same as this one's, those with the
        same print first."""
        near = (
            (kept, bits)
            for kept, bits in self._tags.near(print_hash, NEAR_HASHES)
            if kept.digest != tag.digest
        )
        nearest = nsmallest(
            MOST_LOOKS, near, key=lambda one: (bool(contradictions(one[0].told, tag.told)), one[1])
        )
        return [kept for kept, _ in nearest if _one_picture(self._jpeg(kept.id), jpeg)]

    def _seen_before(
        self, tag: KeptTag, jpeg: Callable[[], bytes]
    ) -> tuple[KeptTag | None, Verdict]:
        """The earlier tag that this one may be, and what their pictures say: the one that it
        surely is, else the first that it cannot be told from.  None where it is another ball
        than all of them."""
        unsure: KeptTag | None = None
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

    def _of_one_lot(self, tag: KeptTag) -> Iterator[KeptTag]:
        """The tags of other pictures that say the same of their ball, the last first."""
        for earlier in reversed(self._tags.of_lot(tag.lot) if tag.shades else ()):
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

    def _near_lots(self, tag: KeptTag) -> list[Doubt]:
        """Whether the lot could be a misread one of those known for this shade."""
        near = lot_neighbours(tag.lot, sorted(self._lots_of_others(tag)))
        if not near:
            return []
        reason = (
            f"lot {tag.lot} is one easily confused letter from lot {' and '.join(near)}, "
            "which an earlier tag of this shade has"
        )
        return [Doubt("lot", reason, (tag.lot, *near))]

    def _lots_of_others(self, tag: KeptTag) -> set[str]:
        """The lots known for the shades of a tag, by other tags than itself."""
        kept = self._tags.get(tag.id)
        own = {(shade, kept.lot) for shade in kept.shades} if kept is not None else set()
        return {
            lot
            for shade in tag.shades
            for lot, balls in self._tags.lots(shade).items()
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


def _repeat(earlier: KeptTag, seen: Verdict) -> Doubt:
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


def _unlike_copy(copy: KeptTag) -> Doubt:
    reason = (
        f"the picture looks the same as that of record {copy.id} from picture {copy.picture}, "
        "yet it reads differently: another ball, or the same tag again?"
    )
    return Doubt(REPEAT, reason, REPEAT_ANSWERS)
