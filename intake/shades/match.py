"""A shade as read against the shades already known.

A reading may be put right only where it was weak; where both readers saw a letter alike
it stands, and a known shade next to it is a question.  Only the shade is decided here:
lots and codes are never put right.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from intake.records import Field, Line, State, TagReading
from intake.shades.evidence import CodeWitness, ReadShade
from intake.shades.known import KnownShades, Near, ShadeGroup

RAISE = 0.25
"""Share of the missing confidence that being a known shade makes up for."""

MOST_CANDIDATES = 5


def match_shade(
    field: Field,
    maker: str | None,
    range_: str | None,
    shade_code: str | None,
    known: KnownShades,
    lines: Sequence[Line] = (),
) -> Field:
    """The shade field after a look at the known shades.

    ``maker``, ``range_`` and ``shade_code`` are those of the same tag.  ``lines`` are the
    lines that ``field.spans`` points into; without them all letters weigh alike.

    A known shade takes its known spelling, and a weak reading with one clear known shade
    behind it is put right; ``printed`` then holds the reading.  Several near shades, a
    code that does not fit, or a near shade although both readers agreed make the field
    doubtful, the candidates in ``others``.  A doubt that is not about letters, such as
    another place on the tag that may be the shade, stays.  A missing shade stays missing.
    """
    witness = CodeWitness(shade_code or "", known.range_group(maker, range_))
    if not isinstance(field.value, str) or not field.value.strip():
        return _offered_by_code(field, witness)
    tag = _Tag(field, ReadShade(field, lines), witness)
    for group in known.own_groups(maker, range_):
        near = group.near(field.value)
        if near:
            return tag.weighed(near, group)
    return tag.new(known.everything if maker else None)


def _offered_by_code(field: Field, witness: CodeWitness) -> Field:
    if len(witness.shades) != 1:
        return field
    (shade,) = witness.shades
    reason = f"no shade was read; code {witness.code} is {shade} in the stash"
    return replace(field, others=_merged([shade], field.others), reason=reason)


def with_known_shade(reading: TagReading, known: KnownShades) -> TagReading:
    """``reading`` with its shade matched against the shades already known."""

    def text(name: str) -> str | None:
        value = reading.fields.get(name, Field(name)).value
        return value if isinstance(value, str) else None

    shade = match_shade(
        reading.fields["shade"],
        text("maker"),
        text("range"),
        text("shade_code"),
        known,
        reading.lines,
    )
    return replace(reading, fields={**reading.fields, "shade": shade})


@dataclass(frozen=True, slots=True)
class _Tag:
    """One shade as read, with its witnesses."""

    field: Field
    reading: ReadShade
    witness: CodeWitness

    def weighed(self, near: list[Near], group: ShadeGroup) -> Field:
        """The field where known shades are near, or the same."""
        possible = self._possible(near, group)
        if len(possible) > 1:
            return self._doubtful(possible, self._near_reason("near", possible))
        if possible:
            return self._one(possible[0])
        open_ones = [each for each in near if not self.witness.speaks_against(each.shade)]
        if open_ones:
            reason = self._near_reason("new, or a misreading of", open_ones, marked=False)
            return self._doubtful(open_ones, reason)
        return self.new(None)

    def new(self, foreign: ShadeGroup | None) -> Field:
        """The field where no known shade of the maker is near.

        Shades of other makers are offered where the field is doubtful anyway; they make
        no new shade doubtful.
        """
        conflict = self.witness.conflict(self.reading.text)
        if conflict:
            return self._doubtful([Near(shade, ()) for shade in self.witness.shades], conflict)
        if foreign is None or self.field.state is State.SURE:
            return self.field
        offered = [near.shade for near in foreign.near(self.reading.text)]
        return replace(self.field, others=_merged(offered, self.field.others, self.reading.text))

    def _possible(self, near: list[Near], group: ShadeGroup) -> list[Near]:
        """The known shades that the reading may stand for, best first."""
        same = _spelled_alike([each for each in near if each.is_same], self.reading.text)
        if same and self.field.state is State.SURE:
            return same
        weak = same + [each for each in near if not each.is_same and self.reading.could_be(each)]
        weak += self._read_elsewhere(weak, group)
        # A code may choose between shades, but not overrule a name read as it is known.
        picked = [each for each in same or weak if self.witness.picks(each.shade)]
        return picked or weak

    def _read_elsewhere(self, weak: list[Near], group: ShadeGroup) -> list[Near]:
        """Known shades that other readings of the field name outright."""
        listed = {each.shade for each in weak}
        named = {
            each.shade: each
            for other in (self.reading.other_texts if weak else ())
            for each in group.near(other)
            if each.is_same and each.shade not in listed
        }
        return list(named.values())

    def _one(self, winner: Near) -> Field:
        conflict = self.witness.conflict(winner.shade)
        if conflict:
            return self._doubtful([winner], conflict)
        if self.witness.picks(winner.shade) or self.reading.speaks_for(winner):
            return self._settled(winner.shade)
        return self._doubtful([winner], self._near_reason("perhaps", [winner]))

    def _settled(self, shade: str) -> Field:
        """The field with a known shade for its value; sure unless something else is amiss."""
        text = self.reading.text
        sure = self.field.state is State.SURE or self._doubt_is_of_letters
        put_right = shade.casefold() != text.casefold()
        note = f"{text!r} taken as the known shade {shade}" if put_right else ""
        return replace(
            self.field,
            value=shade,
            printed=self.field.printed or (text if shade != text else ""),
            confidence=self.field.confidence + RAISE * (1 - self.field.confidence),
            state=State.SURE if sure else self.field.state,
            others=tuple(other for other in self.field.others if other != shade),
            reason="" if sure else self.field.reason,
            note="; ".join(filter(None, (self.field.note, note))),
        )

    def _doubtful(self, candidates: list[Near], reason: str) -> Field:
        stays = self.field.state is State.DOUBTFUL and not self._doubt_is_of_letters
        kept = self.field.reason if stays else ""
        offered = [near.shade for near in candidates]
        return replace(
            self.field,
            state=State.DOUBTFUL,
            others=_merged(offered, self.field.others, self.reading.text),
            reason="; ".join(filter(None, (reason, kept))),
        )

    @property
    def _doubt_is_of_letters(self) -> bool:
        """Whether knowing what the letters are would leave nothing to ask."""
        return self.reading.is_weak and not self.reading.has_rival

    def _near_reason(self, words: str, candidates: list[Near], marked: bool = True) -> str:
        text = self.reading.marked(candidates) if marked else self.reading.text
        return f"reads {text!r}: {words} {_listed([near.shade for near in candidates])}"


def _spelled_alike(same: list[Near], text: str) -> list[Near]:
    """Of shades that differ in accents or spaces only, the one spelled as the reading."""
    return [each for each in same if each.shade.casefold() == text.casefold()] or same


def _listed(shades: Sequence[str]) -> str:
    """``Dusk``, ``both Dusk and Dust``, ``Dusk, Dust and Dune``."""
    if len(shades) == 1:
        return shades[0]
    shown = shades[:MOST_CANDIDATES]
    both = "both " if len(shown) == 2 else ""
    return f"{both}{', '.join(shown[:-1])} and {shown[-1]}"


def _merged(first: Iterable[str], then: Iterable[str], but: str = "") -> tuple[str, ...]:
    """Both in order, each text once, without the value itself."""
    found = dict.fromkeys([*list(first)[:MOST_CANDIDATES], *then])
    return tuple(text for text in found if text != but)
