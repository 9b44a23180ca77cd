"""Scores summed up: what was right, what was filed, what was asked, what confidence means."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from scipy.stats import beta

from intake.accuracy.calibration import (
    Bin,
    brier_score,
    expected_calibration_error,
    reliability,
)
from intake.accuracy.compare import Verdict, comparable_text
from intake.accuracy.drawn_symbols import SymbolCounts
from intake.accuracy.letter_errors import LetterErrors, letter_errors, one_line
from intake.accuracy.score import FieldScore, TagScore
from intake.records import Outcome
from intake.wording import value_text

MAIN_FIELDS = (
    "weight_class",
    "shade",
    "shade_code",
    "lot",
    "fibre",
    "length_m",
    "mass_g",
    "care",
)
"""What a tag is read for: a tag counts as all right where these are."""

SPELLED = ("lot", "shade_code", "shade", "maker", "range")
"""Fields whose letters are counted one by one."""

Reason = tuple[str, str]
"""A field's name and why it is asked about, values left out."""


@dataclass(frozen=True, slots=True)
class FalseValue:
    """A value that was filed without a question and is not so."""

    tag: TagScore
    name: str
    score: FieldScore


@dataclass(frozen=True, slots=True)
class Filed:
    """What went into the stash unasked.  ``values`` counts the filed values that the truth
    tells of, ``lacking`` those that a filed tag carries and its record does not have."""

    tags: int
    values: int
    lots: int
    false: tuple[FalseValue, ...]
    lacking: int

    @property
    def false_lots(self) -> int:
        """How many filed lots are not so: the defect that counts most."""
        return sum(one.name == "lot" for one in self.false)

    @property
    def false_rate(self) -> float:
        """Share of the filed values that are not so."""
        return len(self.false) / self.values if self.values else 0.0


@dataclass(frozen=True, slots=True)
class Summary:
    """A set of tags, summed up.  ``outcomes`` does not count tags that were not read;
    ``reasons`` counts each at most once a tag; ``symbols`` are the care symbols of the tags
    whose truth tells them, ``None`` where none does."""

    tags: int
    unread: int
    fields: Mapping[str, Counter[Verdict]]
    all_right: int
    outcomes: Counter[Outcome]
    reasons: Counter[Reason]
    filed: Filed
    symbols: SymbolCounts | None = None

    def correct(self, name: str) -> int:
        """How many tags have the field ``name`` as it should be, rightly empty included."""
        return sum(self.fields[name][verdict] for verdict in Verdict if verdict.is_correct)

    @property
    def queued_share(self) -> float:
        """Share of all tags that wait for an answer."""
        return self.outcomes[Outcome.QUEUED] / self.tags if self.tags else 0.0


@dataclass(frozen=True, slots=True)
class Calibration:
    """How well the confidences of ``count`` values fit what came true."""

    count: int
    brier: float
    error: float
    bins: Sequence[Bin]


def summary(tags: Sequence[TagScore]) -> Summary:
    """All that is counted over ``tags``."""
    read = [tag.read for tag in tags if tag.read is not None]
    names = tags[0].fields if tags else ()
    return Summary(
        tags=len(tags),
        unread=len(tags) - len(read),
        fields={name: Counter(tag.fields[name].verdict for tag in tags) for name in names},
        all_right=sum(tag.are_correct(MAIN_FIELDS) for tag in tags),
        outcomes=Counter(one.outcome for one in read if one.outcome is not None),
        reasons=Counter(reason for tag in tags for reason in _reasons(tag)),
        filed=_filed([tag for tag in tags if tag.is_filed]),
        symbols=_symbols(tags),
    )


def by_kind(tags: Sequence[TagScore]) -> dict[str, list[TagScore]]:
    """The tags of each kind of picture, kinds in the order of the truth."""
    kinds: dict[str, list[TagScore]] = {}
    for tag in tags:
        kinds.setdefault(tag.truth.kind, []).append(tag)
    return kinds


def calibration(scores: Iterable[FieldScore]) -> Calibration:
    """Confidence against what came true, over all fields that were read."""
    read = [score for score in scores if score.read.value is not None]
    confidences = [score.read.confidence for score in read]
    right = [score.verdict is Verdict.RIGHT for score in read]
    bins = reliability(confidences, right)
    error = expected_calibration_error(bins)
    return Calibration(len(read), brier_score(confidences, right), error, bins)


def letter_errors_by_field(tags: Sequence[TagScore]) -> dict[str, LetterErrors]:
    """Character errors of the fields in :data:`SPELLED`, where the tag carries them, and
    of all print (``text``) where the truth tells it.  A value that was not read counts as
    all its letters lost."""
    names = [name for name in SPELLED if tags and name in tags[0].fields]
    errors = {name: letter_errors(_spelled(tags, name)) for name in names}
    printed = [(tag.read.text if tag.read else "", tag.truth.text) for tag in tags]
    texts = [(one_line(read), one_line(text)) for read, text in printed if text is not None]
    return {**errors, "text": letter_errors(texts)} if texts else errors


def at_most(events: int, trials: int, certainty: float = 0.95) -> float:
    """The rate that a count of ``events`` in ``trials`` still allows: one-sided upper
    limit of Clopper and Pearson (1934).  1 where nothing was tried."""
    if events >= trials:
        return 1.0
    return float(beta.ppf(certainty, events + 1, trials - events))


def _spelled(tags: Sequence[TagScore], name: str) -> Iterable[tuple[str, str]]:
    for tag in tags:
        truth = tag.truth.values[name]
        if isinstance(truth, str):
            read = value_text(name, tag.fields[name].read.value)
            yield comparable_text(name, read), comparable_text(name, truth)


def _filed(tags: Sequence[TagScore]) -> Filed:
    scores = [(tag, name, score) for tag in tags for name, score in tag.fields.items()]
    values = [(tag, name, score) for tag, name, score in scores if score.read.value is not None]
    return Filed(
        tags=len(tags),
        values=len(values),
        lots=sum(name == "lot" for _, name, _ in values),
        false=tuple(FalseValue(*one) for one in values if one[2].verdict.is_false),
        lacking=sum(score.verdict is Verdict.MISSING for _, _, score in scores),
    )


def _symbols(tags: Iterable[TagScore]) -> SymbolCounts | None:
    told = [counts for tag in tags if (counts := tag.symbols) is not None]
    return sum(told, SymbolCounts()) if told else None


def _reasons(tag: TagScore) -> Iterable[Reason]:
    if not tag.is_queued or tag.read is None:
        return ()
    return dict.fromkeys((one.field, without_values(one.reason)) for one in tag.read.doubts)


_VALUES = re.compile(r"'[^']*'|\"[^\"]*\"|\S*\d\S*")


def without_values(reason: str) -> str:
    """``reason`` with ``…`` for quoted values and numbers, so that like reasons count as
    one."""
    return _VALUES.sub("…", reason)
