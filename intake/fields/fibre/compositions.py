"""Compositions: from parts, which several languages of a tag repeat, to the ones it tells of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from intake.fields.fibre.parts import ROUNDING, Part, is_whole, sum_of
from intake.fields.fibre.print import WHOLE
from intake.fields.letters import FoldedLines


def compositions(sheet: FoldedLines, parts: Sequence[Part]) -> list[list[Part]]:
    """The different compositions that the parts tell of, the fullest first.

    Blocks that each come to 100 % and agree, as tags in several languages print them,
    are one composition; so are languages in two columns, where parts alternate.
    """
    blocks = blocks_of(parts)
    if all(is_whole(block) for block in blocks):
        found = different(blocks)
        return [in_printed_order(sheet, found[0], parts)] if len(found) == 1 else found
    merged = merged_parts(parts)
    if is_whole(merged):
        return [in_printed_order(sheet, merged, parts)]
    whole = [block for block in blocks if is_whole(block)]
    rest = [part for block in blocks if not is_whole(block) for part in block]
    if whole and all(is_told_by(whole[0], part) for part in rest):
        return different(whole)
    return [*different(whole), rest] if whole else [merged]


def blocks_of(parts: Sequence[Part]) -> list[list[Part]]:
    """Parts in runs that end when their shares reach 100 %."""
    blocks: list[list[Part]] = [[]]
    for part in parts:
        if sum_of(blocks[-1]) >= WHOLE - ROUNDING:
            blocks.append([])
        blocks[-1].append(part)
    return blocks


def different(blocks: Sequence[list[Part]]) -> list[list[Part]]:
    """The blocks without repeats; of two that agree the one that tells more is kept."""
    found: list[list[Part]] = []
    for block in blocks:
        for place, other in enumerate(found):
            union = agreement(other, block)
            if union is not None:
                found[place] = union
                break
        else:
            found.append(block)
    return found


def agreement(first: Sequence[Part], second: Sequence[Part]) -> list[Part] | None:
    """Two blocks as one where they tell the same; ``None`` where they contradict."""
    if len(first) != len(second):
        return None
    left, union = list(second), []
    for part in first:
        match = next((other for other in left if is_same(part, other)), None)
        if match is None:
            return None
        left.remove(match)
        union.append(with_kinds(part, match))
    return union


def is_same(first: Part, second: Part) -> bool:
    """Whether two parts can be the same one, told with more or fewer kinds."""
    kinds, others = set(first.named.kinds), set(second.named.kinds)
    return (
        first.named.fibre == second.named.fibre
        and first.share.percent == second.share.percent
        and (kinds <= others or others <= kinds)
    )


def with_kinds(part: Part, other: Part) -> Part:
    """The part with the kinds of whichever tells more."""
    kinds = max(part.named.kinds, other.named.kinds, key=len)
    doubt = part.doubt if other.doubt else ""
    return replace(part, named=replace(part.named, kinds=kinds), doubt=doubt)


def merged_parts(parts: Sequence[Part]) -> list[Part]:
    """Parts without those that repeat an earlier one."""
    merged: list[Part] = []
    for part in parts:
        for place, other in enumerate(merged):
            if is_same(other, part):
                merged[place] = with_kinds(other, part)
                break
        else:
            merged.append(part)
    return merged


def in_printed_order(
    sheet: FoldedLines, merged: Sequence[Part], parts: Sequence[Part]
) -> list[Part]:
    """Merged parts in the order of a line that gives all of them, if there is one: a
    share that was lost in the first language would else come last."""
    for first in range(len(parts) - len(merged) + 1):
        block = parts[first : first + len(merged)]
        lines = {sheet.line_of(part.share.start) for part in block}
        order = [next((m for m in merged if is_same(m, part)), None) for part in block]
        found = [part for part in order if part is not None]
        if len(lines) == 1 and len(found) == len(merged) and is_whole(found):
            return found
    return list(merged)


def is_told_by(block: Sequence[Part], part: Part) -> bool:
    """Whether a part of a block that was not read in full repeats one of ``block``."""
    return any(is_same(other, part) for other in block)
