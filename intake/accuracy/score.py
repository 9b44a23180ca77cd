"""Scoring: the tags read from a picture against the tags that are on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import linear_sum_assignment

from intake.accuracy.compare import Verdict, verdict
from intake.accuracy.drawn_symbols import SymbolCounts, symbol_counts
from intake.accuracy.truth import TrueTag
from intake.filing.judge import Doubt
from intake.records import Field, Outcome, Symbol


@dataclass(frozen=True, slots=True)
class ReadTag:
    """What is scored of one tag that was read.  ``number`` counts from 1 within the
    picture, ``text`` is all print that was seen, ``symbols`` all that is drawn, ``outcome`` and
    ``doubts`` are what the run made of it."""

    number: int
    fields: Mapping[str, Field]
    text: str = ""
    outcome: Outcome | None = None
    doubts: tuple[Doubt, ...] = ()
    symbols: tuple[Symbol, ...] = ()


@dataclass(frozen=True, slots=True)
class FieldScore:
    """One field of one tag as read, and what became of it."""

    read: Field
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class TagScore:
    """One true tag, with the tag that was read for it; ``None`` where none was."""

    truth: TrueTag
    read: ReadTag | None
    fields: Mapping[str, FieldScore]

    @property
    def is_filed(self) -> bool:
        """Whether the run filed it without a question."""
        return self.read is not None and self.read.outcome is Outcome.FILED

    @property
    def is_queued(self) -> bool:
        """Whether the run let it wait for answers."""
        return self.read is not None and self.read.outcome is Outcome.QUEUED

    @property
    def symbols(self) -> SymbolCounts | None:
        """How its care symbols were read; ``None`` where the truth does not tell them."""
        if self.truth.symbols is None:
            return None
        return symbol_counts(self.truth.symbols, self.read.symbols if self.read else ())

    def are_correct(self, names: Sequence[str]) -> bool:
        """Whether all fields ``names`` that the truth tells of are as they should be."""
        return all(self.fields[name].verdict.is_correct for name in names if name in self.fields)


@dataclass(frozen=True, slots=True)
class PictureScore:
    """The true tags of one picture, and tags that were read where there are none."""

    tags: tuple[TagScore, ...]
    extra: tuple[ReadTag, ...] = ()


def score_picture(truth: Sequence[TrueTag], read: Sequence[ReadTag]) -> PictureScore:
    """Score the tags ``read`` from a picture that carries ``truth``.

    Which is which is decided for all at once, so that as many fields as possible are
    right.
    """
    partner = _partners(truth, read)
    tags = tuple(score_tag(tag, partner.get(at)) for at, tag in enumerate(truth))
    used = {id(one) for one in partner.values()}
    return PictureScore(tags, tuple(one for one in read if id(one) not in used))


def score_tag(truth: TrueTag, read: ReadTag | None) -> TagScore:
    """Score one tag; ``None`` stands for one that was not read at all."""
    found = read.fields if read else {}
    fields = {}
    for name, value in truth.values.items():
        field = found.get(name) or Field(name)
        fields[name] = FieldScore(field, verdict(name, field.value, value))
    return TagScore(truth, read, fields)


_SAME_NUMBER = 0.01
"""What the same place within the picture counts beside a right field: it breaks ties."""


def _partners(truth: Sequence[TrueTag], read: Sequence[ReadTag]) -> dict[int, ReadTag]:
    """For each place in ``truth`` the tag that was read there."""
    if not truth or not read:
        return {}
    worth = np.array([[_worth(tag, one) for one in read] for tag in truth])
    rows, columns = linear_sum_assignment(worth, maximize=True)
    return {row: read[column] for row, column in zip(rows.tolist(), columns.tolist(), strict=True)}


def _worth(tag: TrueTag, read: ReadTag) -> float:
    scores = score_tag(tag, read).fields.values()
    right = sum(score.verdict is Verdict.RIGHT for score in scores)
    return right + _SAME_NUMBER * (tag.tag == read.number)
