"""What was measured, as tables to look at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from rich.table import Table
from rich.text import Text

from intake.accuracy.baselines import BASELINES
from intake.accuracy.causes import causes
from intake.accuracy.compare import Verdict
from intake.accuracy.drawn_symbols import SymbolCounts
from intake.accuracy.measure import Accuracy
from intake.accuracy.score import TagScore
from intake.accuracy.summary import (
    MAIN_FIELDS,
    Summary,
    at_most,
    by_kind,
    calibration,
    letter_errors_by_field,
    summary,
)
from intake.records import Outcome
from intake.wording import value_text

BALLTAG = "balltag"
ALL_KINDS = "all"
_MOST_CAUSES = 20
_PICTURES_NAMED = 3
_MOST_FALSE_VALUES = 20


def tables(accuracy: Accuracy) -> Iterator[Table]:
    """All tables, in the order in which they tell the story."""
    kinds = by_kind(accuracy.tags)
    sums = {kind: summary(tags) for kind, tags in kinds.items()}
    if len(sums) != 1:
        sums[ALL_KINDS] = summary(accuracy.tags)
    yield outcome_table(sums, accuracy)
    yield field_table(sums)
    if any(one.symbols for one in sums.values()):
        yield symbol_table(sums)
    yield cause_table(accuracy.tags)
    everything = sums.get(ALL_KINDS) or next(iter(sums.values()))
    if everything.filed.false:
        yield false_value_table(everything)
    yield calibration_table(accuracy.tags)
    yield letter_table(kinds)
    if accuracy.baselines:
        readers = {name: accuracy.baselines[name] for name in BASELINES}
        yield baseline_table({**readers, BALLTAG: accuracy.tags})


def outcome_table(sums: Mapping[str, Summary], accuracy: Accuracy) -> Table:
    """What became of the tags, and how much of what was filed is false."""
    table = _table("What became of the tags", "", *sums)
    if accuracy.extra:
        filed = sum(one.outcome is Outcome.FILED for one in accuracy.extra)
        table.caption = f"{len(accuracy.extra)} tags read where there are none, {filed} filed"
    rows = {
        "tags": [str(one.tags) for one in sums.values()],
        "not read": [str(one.unread) for one in sums.values()],
        "read before": [str(one.outcomes[Outcome.ALREADY]) for one in sums.values()],
        "all main fields right": [_share(one.all_right, one.tags) for one in sums.values()],
        "filed": [_share(one.filed.tags, one.tags) for one in sums.values()],
        "queued": [_share(one.outcomes[Outcome.QUEUED], one.tags) for one in sums.values()],
        "false values filed": [
            _share(len(one.filed.false), one.filed.values) for one in sums.values()
        ],
        "false lots filed": [_share(one.filed.false_lots, one.filed.lots) for one in sums.values()],
        "false lots, at most (95 %)": [
            _percent(at_most(one.filed.false_lots, one.filed.lots)) if one.filed.lots else "-"
            for one in sums.values()
        ],
        "values lacking in filed tags": [str(one.filed.lacking) for one in sums.values()],
    }
    for heading, cells in rows.items():
        table.add_row(heading, *cells)
    return table


def field_table(sums: Mapping[str, Summary]) -> Table:
    """Right, wrong, missing and invented values of each field before any review."""
    table = _table("Fields before review: right / wrong / missing / invented", "", *sums)
    shown = (Verdict.RIGHT, Verdict.WRONG, Verdict.MISSING, Verdict.INVENTED)
    for name in next(iter(sums.values())).fields:
        cells = []
        for one in sums.values():
            counts = one.fields[name]
            carried = counts.total() - counts[Verdict.INVENTED] - counts[Verdict.ABSENT]
            numbers = " / ".join(str(counts[verdict]) for verdict in shown)
            cells.append(f"{numbers}  {_percent(counts[Verdict.RIGHT] / max(1, carried))}")
        table.add_row(name, *cells)
    return table


def symbol_table(sums: Mapping[str, Summary]) -> Table:
    """How the drawn care symbols were read, where the truth tells them."""
    table = _table("Care symbols", "", *sums)
    counts = [one.symbols or SymbolCounts() for one in sums.values()]
    table.add_row("read right", *(_share(one.right, one.drawn) for one in counts))
    table.add_row("wrong or made up", *(str(one.wrong) for one in counts))
    table.add_row("sure and wrong", *(_share(one.sure_wrong, one.sure) for one in counts))
    return table


def cause_table(tags: Sequence[TagScore]) -> Table:
    """Failing and queued tags by cause, the commonest first, each with a few pictures."""
    headings = ("field", "cause", "such as", "tags", "alone", "right")
    table = _table("Failing and queued tags by cause", *headings, texts=3)
    every = causes(tags)
    for one in every[:_MOST_CAUSES]:
        pictures = dict.fromkeys(tag.truth.picture for tag in one.tags)
        named = Text(", ".join(list(pictures)[:_PICTURES_NAMED]))
        counts = (str(len(one.tags)), str(one.alone), str(one.needless))
        table.add_row(one.name, Text(one.what), named, *counts)
    table.caption = "alone: tags with no other cause; right: tags whose value was right"
    if len(every) > _MOST_CAUSES:
        table.caption += f"; and {len(every) - _MOST_CAUSES} rarer causes"
    return table


def false_value_table(one: Summary) -> Table:
    """False values that were filed without a question, lots first."""
    table = _table(
        "False values filed", "picture", "tag", "field", "value", "truth", "confidence", texts=5
    )
    false = sorted(one.filed.false, key=lambda each: each.name != "lot")
    for each in false[:_MOST_FALSE_VALUES]:
        truth, read = each.tag.truth, each.score.read
        texts = (value_text(each.name, read.value), value_text(each.name, truth.values[each.name]))
        where = (Text(truth.picture), str(truth.tag), each.name)
        table.add_row(*where, *map(Text, texts), f"{read.confidence:.4f}")
    if len(false) > _MOST_FALSE_VALUES:
        table.caption = f"and {len(false) - _MOST_FALSE_VALUES} more"
    return table


def calibration_table(tags: Sequence[TagScore]) -> Table:
    """How far each field's confidence can be believed."""
    table = _table("Confidence", "", "values", "Brier score", "calibration error")
    every = [score for tag in tags for score in tag.fields.values()]
    names = tags[0].fields if tags else ()
    by_name = {name: [tag.fields[name] for tag in tags] for name in names}
    for name, scores in {**by_name, ALL_KINDS: every}.items():
        one = calibration(scores)
        table.add_row(name, str(one.count), f"{one.brier:.4f}", f"{one.error:.4f}")
    table.add_section()
    for each in calibration(every).bins:
        said = f"said {each.confidence:.4f}"
        limits = f"{each.low:g} to {each.high:g}"
        table.add_row(limits, str(each.count), said, f"right {each.frequency:.4f}")
    return table


def letter_table(kinds: Mapping[str, Sequence[TagScore]]) -> Table:
    """Character error rates."""
    table = _table("Character error rate", "", *kinds)
    errors = [letter_errors_by_field(tags) for tags in kinds.values()]
    for name in errors[0] if errors else ():
        table.add_row(name, *(_percent(of_kind[name].rate) for of_kind in errors))
    return table


def baseline_table(readers: Mapping[str, Sequence[TagScore]]) -> Table:
    """Fields right before review, for balltag and each baseline."""
    table = _table("Against baselines: fields right before review", "", *readers)
    sums = [summary(tags) for tags in readers.values()]
    table.add_row("all main fields", *(_share(one.all_right, one.tags) for one in sums))
    for name in sums[0].fields:
        table.add_row(name, *(_share(one.correct(name), one.tags) for one in sums))
    for kind in by_kind(next(iter(readers.values()))):
        cells = []
        for tags in readers.values():
            some = by_kind(tags)[kind]
            cells.append(_share(sum(tag.are_correct(MAIN_FIELDS) for tag in some), len(some)))
        table.add_row(f"all main fields, {kind}", *cells)
    return table


def _table(title: str, *headings: str, texts: int = 1) -> Table:
    """A table whose first columns hold ``texts`` and whose others hold figures."""
    table = Table(title=title, title_justify="left", caption_justify="left")
    for at, heading in enumerate(headings):
        table.add_column(heading, justify="left" if at < texts else "right", overflow="fold")
    return table


def _share(count: int, total: int) -> str:
    return f"{count} of {total}  {_percent(count / total)}" if total else "-"


def _percent(share: float) -> str:
    return f"{100 * share:.1f} %"
