"""Parts of a composition: which share belongs to which fibre."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from intake.fields.fibre.names import BREEDS, LISTERS, UNDYED
from intake.fields.fibre.print import VOCABULARY, WHOLE, Named, Share, Token
from intake.fields.letters import FoldedLines
from intake.wording import number_text

_KNOWN = LISTERS | BREEDS | UNDYED
"""Words beside a fibre that change nothing."""

ROUNDING = 0.11
"""Thirds printed with one decimal miss the whole by a tenth."""


@dataclass(frozen=True)
class Part:
    """A share and the fibre it belongs to, with what speaks against the pair."""

    share: Share
    named: Named
    doubt: str = ""


def linked(
    sheet: FoldedLines, items: Sequence[Share | Named | Token]
) -> tuple[list[Part], list[Share]]:
    """Parts in printed order, and the shares that no name belongs to.

    Tags print either every share before its name or every share after it; the reading
    that links the shares more closely is taken.
    """
    signed = any(isinstance(item, Share) and item.signed for item in items)
    kept = [item for item in items if not isinstance(item, Share) or item.signed or not signed]
    forward = link_all(sheet, kept)
    backward = link_all(sheet, kept[::-1])
    best = max((forward, backward), key=lambda links: closeness(sheet, links))
    other = backward if best is forward else forward
    nearer = nearer_elsewhere(sheet, best, other, wraps=best is forward)
    parts = [_with_colon(sheet, part) for part in nearer if part is not None]
    if best is backward:
        parts.reverse()
    dangling = [
        share for part, share in best if part is None and share.signed and share.clean == 1.0
    ]
    if signed:
        return parts, dangling
    return (parts, []) if is_whole(parts) else ([], [])


Link = tuple[Part | None, Share]


def nearer_elsewhere(
    sheet: FoldedLines, links: Sequence[Link], others: Sequence[Link], *, wraps: bool
) -> list[Part | None]:
    """The parts of ``links``, with a doubt at those whose name stands in another line than
    their share, or behind a mark, while one stands right by it on the side of ``others``: one that
    belongs to no share where a share at the end of its line may have its name in the next
    (``wraps``), else any, for "72% mohair 28%" below "silk" begins with the share of mohair."""
    taken = {part.named.start for part, _ in links if part is not None and wraps}
    beside = {share.start: part for part, share in others}
    found: list[Part | None] = []
    for part, share in links:
        near, line = beside.get(share.start), sheet.line_of(share.start)
        if part is None or near is None or near.named.fibre == part.named.fibre:
            found.append(part)
            continue
        in_line = sheet.line_of(near.named.start) == line
        elsewhere = sheet.line_of(part.named.start) != line and near.named.start not in taken
        if in_line and (elsewhere or (_is_parted(sheet, part) and not _is_parted(sheet, near))):
            doubt = f"'{sheet.printed(share.start, share.end)}' may belong to {near.named.fibre}"
            part = replace(part, doubt=part.doubt or doubt)
        found.append(part)
    return found


_MARK = re.compile(r"[,;|·•]|/(?!\d)")
"""What parts fibres; "9/0" is a sign of per cent, misread."""

_SHARE_BEHIND_COLON = re.compile(r"[^\n:%,;/|]{0,24}:\s?\d")


def _with_colon(sheet: FoldedLines, part: Part) -> Part:
    """``part``, with a doubt where its name has another share behind a colon: "alpaca (baby): 70%"
    below a share that was printed elsewhere."""
    if part.share.start > part.named.start or part.doubt:
        return part
    if not _SHARE_BEHIND_COLON.match(sheet.text, part.named.end):
        return part
    return replace(part, doubt=f"behind {part.named.fibre} stands a colon and another share")


def _is_parted(sheet: FoldedLines, part: Part) -> bool:
    """Whether a mark stands between a share and its name."""
    share, named = part.share, part.named
    between = sheet.text[min(share.end, named.end) : max(share.start, named.start)]
    return _MARK.search(between) is not None


def link_all(sheet: FoldedLines, items: Sequence[Share | Named | Token]) -> list[Link]:
    """Each share with the names that follow it in ``items`` before the next share."""
    places = [place for place, item in enumerate(items) if isinstance(item, Share)]
    ends = [*places[1:], len(items)]
    links: list[Link] = []
    for place, end in zip(places, ends, strict=True):
        share = items[place]
        assert isinstance(share, Share)
        links.append((link(sheet, share, items[place + 1 : end]), share))
    return links


def link(
    sheet: FoldedLines, share: Share, following: Sequence[Share | Named | Token]
) -> Part | None:
    """The share with the fibre named nearest to it; ``None`` where none is near."""
    line = sheet.line_of(share.start)
    part: Part | None = None
    unread = ""
    for item in following:
        same_line = sheet.line_of(item.start) == line
        if isinstance(item, Token):
            if not is_unread(item):
                continue
            unread = unread or sheet.printed(item.start, item.end)
            if part and same_line and not part.doubt and VOCABULARY.resembles(item.text):
                part = replace(part, doubt=f"'{unread}' by {part.named.fibre} is unread")
        elif isinstance(item, Named):
            if part is not None:
                part = with_other_name(part, item, same_line)
            elif item.fibre and (same_line or not unread):
                doubt = f"'{unread}' by {item.fibre} is unread" if unread else ""
                part = Part(share, item, item.doubt or doubt)
    return part


def is_unread(token: Token) -> bool:
    """Whether a token is a word of no known meaning."""
    return token.sort == "word" and len(token.text) > 2 and token.text not in _KNOWN


def with_other_name(part: Part, other: Named, same_line: bool) -> Part:
    """The part after another name by the same share: a repeat, a kind, or a conflict."""
    named = part.named
    if other.kind_only:
        if not same_line or other.fibre not in ("", named.fibre):
            return part
        kinds = tuple(dict.fromkeys(named.kinds + other.kinds))
        return replace(part, named=replace(named, kinds=kinds))
    if other.fibre == named.fibre:
        kinds = max(named.kinds, other.kinds, key=len)
        return replace(part, named=replace(named, kinds=kinds))
    if same_line and other.fibre and not part.doubt:
        share = number_text(part.share.percent)
        doubt = f"{share} % may belong to {named.fibre} or to {other.fibre}"
        return replace(part, doubt=doubt)
    return part


def closeness(sheet: FoldedLines, links: Sequence[Link]) -> tuple[float, bool]:
    """How well a reading links its shares; between equals the whole one wins."""
    parts = [part for part, _ in links if part is not None]
    score = sum(nearness(sheet, part) if part is not None else -3.0 for part, _ in links)
    return score, is_whole(parts)


def nearness(sheet: FoldedLines, part: Part) -> float:
    """2 for a name right by its share, 1 on the next line, 0 behind a comma or a word."""
    share, named = part.share, part.named
    between = sheet.text[min(share.end, named.end) : max(share.start, named.start)]
    if part.doubt or _MARK.search(between):
        return 0.0
    return 1.0 if "\n" in between else 2.0


def is_whole(parts: Sequence[Part]) -> bool:
    """Whether the parts are different ones and their shares come to 100 %."""
    names = {(part.named.fibre, part.named.kinds) for part in parts}
    return len(names) == len(parts) and abs(sum_of(parts) - WHOLE) <= ROUNDING


def sum_of(parts: Sequence[Part]) -> float:
    """Sum of the shares in percent."""
    return sum(part.share.percent for part in parts)
