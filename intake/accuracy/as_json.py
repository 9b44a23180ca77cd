"""What was measured, as JSON."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict

from intake.accuracy.causes import Cause, causes
from intake.accuracy.compare import Verdict
from intake.accuracy.letter_errors import LetterErrors
from intake.accuracy.measure import Accuracy
from intake.accuracy.score import TagScore
from intake.accuracy.summary import (
    Calibration,
    FalseValue,
    Filed,
    Summary,
    at_most,
    by_kind,
    calibration,
    letter_errors_by_field,
    summary,
)
from intake.records import Outcome
from intake.wording import value_text

Json = dict[str, object]


def accuracy_json(accuracy: Accuracy) -> Json:
    """``{"all", "kinds": {KIND}, "causes": [...], "calibration": {"all", "fields": {FIELD}},
    "letter_errors": {KIND: {FIELD}}, "extra_tags", "baselines": {NAME: {"all", "kinds"}}}``."""
    tags = accuracy.tags
    names = tags[0].fields if tags else ()
    return {
        **_summaries(tags),
        "causes": [_cause(one) for one in causes(tags)],
        "calibration": {
            "all": _calibration(calibration(one for tag in tags for one in tag.fields.values())),
            "fields": {
                name: _calibration(calibration(tag.fields[name] for tag in tags)) for name in names
            },
        },
        "letter_errors": {
            kind: _letters(letter_errors_by_field(some)) for kind, some in by_kind(tags).items()
        },
        "extra_tags": {
            "read": len(accuracy.extra),
            "filed": sum(one.outcome is Outcome.FILED for one in accuracy.extra),
        },
        "baselines": {name: _summaries(some) for name, some in accuracy.baselines.items()},
    }


def _summaries(tags: Sequence[TagScore]) -> Json:
    kinds = {kind: _summary(summary(some)) for kind, some in by_kind(tags).items()}
    return {"all": _summary(summary(tags)), "kinds": kinds}


def _summary(one: Summary) -> Json:
    return {
        "tags": one.tags,
        "unread": one.unread,
        "all_right": one.all_right,
        "fields": {
            name: {verdict.value: counts[verdict] for verdict in Verdict}
            for name, counts in one.fields.items()
        },
        "outcomes": {outcome.value: one.outcomes[outcome] for outcome in Outcome},
        "queued_share": one.queued_share,
        "reasons": [
            {"field": field, "reason": reason, "tags": count}
            for (field, reason), count in one.reasons.most_common()
        ],
        "filed": _filed(one.filed),
        "symbols": None if one.symbols is None else asdict(one.symbols),
    }


def _cause(one: Cause) -> Json:
    return {
        "field": one.name,
        "cause": one.what,
        "tags": len(one.tags),
        "alone": one.alone,
        "right": one.needless,
        "pictures": [f"{tag.truth.picture} #{tag.truth.tag}" for tag in one.tags],
    }


def _filed(filed: Filed) -> Json:
    return {
        "tags": filed.tags,
        "values": filed.values,
        "false": len(filed.false),
        "false_rate": filed.false_rate,
        "lots": filed.lots,
        "false_lots": filed.false_lots,
        "false_lots_at_most": at_most(filed.false_lots, filed.lots),
        "lacking": filed.lacking,
        "false_values": [_false_value(one) for one in filed.false],
    }


def _false_value(one: FalseValue) -> Json:
    truth = one.tag.truth
    return {
        "picture": truth.picture,
        "tag": truth.tag,
        "field": one.name,
        "value": value_text(one.name, one.score.read.value),
        "truth": value_text(one.name, truth.values[one.name]),
        "confidence": one.score.read.confidence,
    }


def _calibration(one: Calibration) -> Json:
    return {
        "count": one.count,
        "brier": one.brier,
        "error": one.error,
        "bins": [asdict(each) for each in one.bins],
    }


def _letters(errors: Mapping[str, LetterErrors]) -> Json:
    return {name: {**asdict(one), "rate": one.rate} for name, one in errors.items()}
