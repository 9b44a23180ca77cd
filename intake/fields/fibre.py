"""Fibre composition: shares in percent and the fibres they belong to."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from intake.fields.fibre_names import (
    ANIMAL_HAIRS,
    FIBRES,
    FILLERS,
    HAIR,
    IMPLIED,
    KINDS,
    LISTERS,
    PURE,
    words_of,
)
from intake.fields.letters import FoldedLines, Words, listed, number_in
from intake.records import Candidate, FibrePart, Line, Span
from intake.wording import fibre_text, number_text

FIBRE_WORDS = words_of(FIBRES)
KIND_WORDS = words_of(KINDS)
PHRASES = FIBRE_WORDS.keys() | KIND_WORDS.keys()
SINGLE_WORDS = {word for phrase in PHRASES for word in re.split(r"[ ']", phrase)}


def meaning_of(word: str) -> object:
    """What a printed word stands for: words of one meaning may be mixed up freely."""
    return FIBRE_WORDS.get(word) or KIND_WORDS.get(word) or word


COLOURS = listed("marino; marine; marina")
"""Words that are no fibres but near to one: they stay as they are."""

VOCABULARY = Words({word for word in SINGLE_WORDS if len(word) > 2} | COLOURS, meaning_of)

GAP = r"[\s'-]{1,2}"
PHRASE = "|".join(
    GAP.join(map(re.escape, re.split(r"[ ']", phrase)))
    for phrase in sorted(PHRASES, key=len, reverse=True)
)
LOST_SIGN = r"96(?=\s*(?:[(]|[a-z]{3}))"
"""A percent sign read as digits: a word must follow."""

PERCENT = rf"(?P<sign>%|(?P<odd>9/0|[°o0]/[°o0]|{LOST_SIGN}))"
SHARE_NUMBER = r"(?:(?<=\n\.)|(?<![\d.,]))(?<!\d[.,/])(?:100|\d{1,2}(?:[.,]\d{1,2})?)"
NUMBER = r"(?:(?<=\n\.)|(?<![\d.,/]))(?<!\d[.,])(?:100|\d{1,2}(?:[.,]\d{1,2})?)"
ODD_NUMBER = r"(?<![\w.,/])(?=[oli|]{0,2}\d)[\doli|]{2,3}"
UNIT = (
    r"(?!\s?(?:[gm]\b|gr|mm|cm|mtr|met|yd|yard|oz|°|x\b|c\b|ply|fach|fold|/\s?\d))(?![\d.,/:x%-])"
)
TOKEN = re.compile(
    rf"(?P<share>(?:{SHARE_NUMBER})\s?(?={PERCENT})|{ODD_NUMBER}\s?(?=%))"
    rf"|(?P<percent>%|9/0(?=\s*[a-z])|[°o0]/[°o0]|(?<=\d){LOST_SIGN}|(?<=\d ){LOST_SIGN})"
    rf"|(?P<phrase>(?<![a-z])(?:{PHRASE})(?![a-z]))"
    rf"|(?P<bare>{NUMBER}(?!\d){UNIT})"
    r"|(?P<word>[^\W\d_]+(?:-\n[^\W\d_]+)?)"
    r"|(?P<other>\d+|[^\s])"
)
"""Everything a composition is written with; shares before all else."""

JOINERS = frozenset("()[]'-")
"""Signs that may stand within a fibre's name."""

STAND_ALONE = listed("superwash; superfine; baby; royal; shetland; highland; jacob")
"""Kinds that mean something else on a line of their own: the wool's treatment wherever
that is printed, a weight, a range."""

PART_LETTERS = 3
"""Shortest word that a run of letters without spaces is taken apart into."""

WHOLE = 100.0
ROUNDING = 0.11
"""Thirds printed with one decimal miss the whole by a tenth."""


@dataclass(frozen=True)
class Share:
    """A number that says how much; ``clean`` is how well it can be read, 0 to 1."""

    percent: float
    start: int
    end: int
    clean: float
    signed: bool


@dataclass(frozen=True)
class Named:
    """A fibre's name with its kinds; ``pure`` where the words say it stands alone."""

    fibre: str
    kinds: tuple[str, ...]
    start: int
    end: int
    clean: float
    pure: bool = False
    kind_only: bool = False


@dataclass(frozen=True)
class Token:
    """One token with its meanings: a phrase may be several words written as one."""

    sort: str
    text: str
    start: int
    end: int
    words: tuple[str, ...] = ()


@dataclass(frozen=True)
class Part:
    """A share and the fibre it belongs to, with what speaks against the pair."""

    share: Share
    named: Named
    doubt: str = ""


def find_fibre(lines: Sequence[Line]) -> list[Candidate]:
    """Fibre compositions printed on the tag, the likeliest first.

    A composition is a tuple of :class:`~intake.records.FibrePart` in printed order.  The
    same content in several languages must agree.  A composition whose shares miss 100 %,
    or that another one on the tag contradicts, carries its doubt.
    """
    sheet = FoldedLines(lines).mended(VOCABULARY)
    items = list(items_of(sheet))
    shares = [item for item in items if isinstance(item, Share)]
    if not shares:
        return pure_fibre(sheet, items)
    parts, dangling = linked(sheet, items)
    if not parts:
        return []
    found = compositions(sheet, parts)
    doubt = doubt_about(found, dangling)
    candidates = [candidate_of(sheet, items, block, doubt) for block in found]
    if len(candidates) == 1:
        candidates += repeats(sheet, candidates[0], blocks_of(parts))
    return candidates


# Reading: from letters to shares and names


def items_of(sheet: FoldedLines) -> Iterator[Share | Named | Token]:
    """Shares, fibre names and the words and signs between them, in reading order."""
    run: list[Token] = []
    for token in tokens_of(sheet.text):
        if run and not continues(sheet.text, run[-1], token):
            yield from names_in(sheet, run)
            run = []
        if token.sort == "phrase":
            run.append(token)
            continue
        if token.sort == "percent":
            continue
        share = share_of(sheet, token) if token.sort in ("share", "bare") else None
        yield share or token
    yield from names_in(sheet, run)


def tokens_of(text: str) -> Iterator[Token]:
    """The text's tokens; words that are fibre words without spaces become phrases."""
    for match in TOKEN.finditer(text):
        sort = str(match.lastgroup) if match.lastgroup not in ("sign", "odd") else "share"
        printed = match[0]
        if printed in JOINERS:
            continue
        if sort == "phrase":
            yield Token(sort, printed, *match.span(), (re.sub(GAP, " ", printed),))
            continue
        if sort == "word":
            words = words_without_spaces(printed.replace("-\n", ""))
            if words:
                yield Token("phrase", printed, *match.span(), words)
                continue
        yield Token(sort, printed, *match.span())


@lru_cache(maxsize=1024)
def words_without_spaces(run: str) -> tuple[str, ...]:
    """The known words that ``run`` is made of without a rest; longest first word wins."""
    if run in PHRASES or run in FILLERS or run in HAIR:
        return (run,)
    for end in range(len(run) - 1, PART_LETTERS - 1, -1):
        head = run[:end]
        if head in PHRASES or head in FILLERS or head in HAIR:
            for skip in ("", "en", "n", "s"):
                rest = run[end:]
                if rest.startswith(skip) and len(rest) - len(skip) >= PART_LETTERS:
                    tail = words_without_spaces(rest[len(skip) :])
                    if tail:
                        return (head, *tail)
    return ()


def continues(text: str, last: Token, token: Token) -> bool:
    """Whether ``token`` goes on with the fibre name that ``last`` belongs to.

    A name goes on in the next line only between a kind and its fibre, and only where that
    line does not give a share of its own: "17 % wool" above "(merino)".
    """
    between = text[last.end : token.start]
    if token.sort != "phrase":
        return False
    if re.fullmatch(r"[ '()\[\]]*|-", between):
        return True
    rest = text[token.end :].partition("\n")[0]
    has_share = any(letter.isdigit() for letter in rest)
    if has_share or re.fullmatch(r"[ '()\[\]]*\n[ '()\[\]]*", between) is None:
        return False
    if _only_kinds(last) and any(word in FIBRE_WORDS for word in token.words):
        return True  # "30 % mulberry" above "silk"
    before = text[: token.start]
    bracketed = any(before.rfind(opens) > before.rfind(shuts) for opens, shuts in ("()", "[]"))
    kinds = {KIND_WORDS.get(word, "") for word in token.words}
    return _only_kinds(token) and (bracketed or not kinds & STAND_ALONE)


def _only_kinds(token: Token) -> bool:
    return bool(token.words) and all(word in KIND_WORDS for word in token.words)


def share_of(sheet: FoldedLines, token: Token) -> Share | None:
    """The share that a token spells; ``None`` where it is out of bounds."""
    number = number_in(token.text)
    if number is None or not 0 < number[0] <= WHOLE:
        return None
    value, all_digits = number
    digits = len(token.text.rstrip())
    signed = token.sort == "share"
    plain_sign = sheet.text[token.end : token.end + 1] == "%"
    clean = 0.4 if not all_digits else 1.0 if plain_sign else 0.8
    return Share(value, token.start, token.start + digits, clean, signed)


def names_in(sheet: FoldedLines, run: Sequence[Token]) -> Iterator[Named]:
    """The fibres that a run of words names: one, unless it names several in a row."""
    fibres: list[tuple[str, Token]] = []
    kinds: list[tuple[str, Token]] = []
    pure = False
    for token in run:
        for word in token.words:
            pure = pure or word in PURE
            if word in FIBRE_WORDS:
                fibres.append((FIBRE_WORDS[word], token))
            elif word in KIND_WORDS:
                kinds.append((KIND_WORDS[word], token))
    fibres = without_hair_words(fibres)
    if not fibres and not kinds:
        return
    kind_names = tuple(dict.fromkeys(kind for kind, _ in kinds))
    if len({fibre for fibre, _ in fibres}) <= 1:
        fibre = (
            fibres[0][0]
            if fibres
            else next((IMPLIED[kind] for kind in kind_names if kind in IMPLIED), "")
        )
        tokens = [token for _, token in fibres + kinds]
        yield named(sheet, fibre, kind_names, tokens, pure, kind_only=not fibres)
        return
    yield from names_in_a_row(sheet, run)


def names_in_a_row(sheet: FoldedLines, run: Sequence[Token]) -> Iterator[Named]:
    """Several fibres named one after the other, each with the kinds before it."""
    pending: list[Token] = []
    for token in run:
        pending.append(token)
        if any(word in FIBRE_WORDS for word in token.words):
            words = [word for each in pending for word in each.words]
            fibre = next(FIBRE_WORDS[word] for word in words if word in FIBRE_WORDS)
            kinds = tuple(KIND_WORDS[word] for word in words if word in KIND_WORDS)
            yield named(sheet, fibre, kinds, pending, pure=False)
            pending = []


def without_hair_words(fibres: list[tuple[str, Token]]) -> list[tuple[str, Token]]:
    """``alpaca wool`` is alpaca: wool after an animal's name is its hair."""
    if any(fibre in ANIMAL_HAIRS for fibre, _ in fibres):
        return [(fibre, token) for fibre, token in fibres if fibre != "wool"]
    return fibres


def named(
    sheet: FoldedLines,
    fibre: str,
    kinds: tuple[str, ...],
    tokens: Sequence[Token],
    pure: bool,
    kind_only: bool = False,
) -> Named:
    """A name over the letters of its tokens."""
    start, end = min(t.start for t in tokens), max(t.end for t in tokens)
    clean = 0.8 if sheet.is_mended(start, end) else 1.0
    return Named(fibre, kinds, start, end, clean, pure, kind_only)


# Linking: which share belongs to which name


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
    parts = [part for part in nearer_elsewhere(sheet, best, other) if part is not None]
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
    sheet: FoldedLines, links: Sequence[Link], others: Sequence[Link]
) -> list[Part | None]:
    """The parts of ``links``, with a doubt at those whose name stands in another line than
    their share, while one that belongs to no share stands in its line on the side of
    ``others``."""
    taken = {part.named.start for part, _ in links if part is not None}
    beside = {share.start: part for part, share in others}
    found: list[Part | None] = []
    for part, share in links:
        near, line = beside.get(share.start), sheet.line_of(share.start)
        if (
            part is not None
            and near is not None
            and near.named.fibre != part.named.fibre
            and near.named.start not in taken
            and sheet.line_of(near.named.start) == line != sheet.line_of(part.named.start)
        ):
            doubt = f"'{sheet.printed(share.start, share.end)}' may belong to {near.named.fibre}"
            part = replace(part, doubt=part.doubt or doubt)
        found.append(part)
    return found


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
                part = Part(share, item, doubt)
    return part


def is_unread(token: Token) -> bool:
    """Whether a token is a word of no known meaning."""
    return token.sort == "word" and len(token.text) > 2 and token.text not in LISTERS


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
    if part.doubt or re.search(r"[,;/|]", between):
        return 0.0
    return 1.0 if "\n" in between else 2.0


# Composing: from parts to compositions


def is_whole(parts: Sequence[Part]) -> bool:
    """Whether the parts are different ones and their shares come to 100 %."""
    names = {(part.named.fibre, part.named.kinds) for part in parts}
    return len(names) == len(parts) and abs(sum_of(parts) - WHOLE) <= ROUNDING


def sum_of(parts: Sequence[Part]) -> float:
    """Sum of the shares in percent."""
    return sum(part.share.percent for part in parts)


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


# Judging: doubts and candidates


def doubt_about(found: Sequence[Sequence[Part]], dangling: Sequence[Share]) -> str:
    """Why the compositions cannot be filed unasked; empty where nothing speaks against."""
    best = found[0]
    total = sum_of(best)
    if len(found) > 1:
        texts = " and ".join(fibre_text(values(block)) for block in found[:2])
        return f"the tag gives different compositions: {texts}"
    if abs(total - WHOLE) > ROUNDING:
        return f"the shares come to {number_text(round(total, 2))} %, not to 100 %"
    if not is_whole(best):
        return "one fibre is given two shares"
    for share in dangling:
        if share.percent != WHOLE:
            return f"a share of {number_text(share.percent)} % stands without a fibre"
    if any(part.share.clean < 0.5 for part in best):
        return "a share has letters among its digits"
    return next((part.doubt for part in best if part.doubt), "")


def candidate_of(
    sheet: FoldedLines, items: Sequence[Share | Named | Token], block: Sequence[Part], doubt: str
) -> Candidate:
    """A composition as a candidate."""
    parts, extra = with_superwash(sheet, items, list(block))
    spans = tuple(span for part in parts for span in spans_of(sheet, part))
    cues = {
        "whole": 1.0 if is_whole(parts) else 0.0,
        "shape": min(min(part.share.clean, part.named.clean) for part in parts),
        "sign": 1.0 if all(part.share.signed for part in parts) else 0.7,
    }
    return Candidate("fibre", values(parts), spans + extra, cues, note_on(parts), doubt)


def repeats(
    sheet: FoldedLines, candidate: Candidate, blocks: Sequence[Sequence[Part]]
) -> Iterator[Candidate]:
    """The same composition over the letters of each further block that prints it."""
    for block in blocks:
        spans = tuple(span for part in block for span in spans_of(sheet, part))
        if values(block) == candidate.value and spans != candidate.spans:
            yield replace(candidate, spans=spans)


def values(parts: Sequence[Part]) -> tuple[FibrePart, ...]:
    """The parts as the stash keeps them."""
    return tuple(
        FibrePart(part.named.fibre, kind_text(part.named.kinds), part.share.percent)
        for part in parts
    )


def kind_text(kinds: Sequence[str]) -> str:
    """Kinds in printed order, but the treatment ``superwash`` last: English prints it
    first, other languages behind, and both mean one thing."""
    return " ".join(sorted(dict.fromkeys(kinds), key=lambda kind: kind == "superwash"))


def spans_of(sheet: FoldedLines, part: Part) -> tuple[Span, ...]:
    """The letters of the share and of the name."""
    share, named = part.share, part.named
    return sheet.spans(share.start, share.end) + sheet.spans(named.start, named.end)


def note_on(parts: Sequence[Part]) -> str:
    """What the user should know of a composition that is kept."""
    for part in parts:
        if part.named.kind_only and "bamboo" in part.named.kinds:
            return "bamboo is printed without a fibre name and kept as viscose from bamboo"
    return ""


def with_superwash(
    sheet: FoldedLines, items: Sequence[Share | Named | Token], parts: list[Part]
) -> tuple[list[Part], tuple[Span, ...]]:
    """Parts with a ``superwash`` printed behind their wool, or behind the composition, given to
    that wool: it is a treatment of nothing else."""
    wool = [place for place, part in enumerate(parts) if part.named.fibre == "wool"]
    if len(wool) != 1 or "superwash" in parts[wool[0]].named.kinds:
        return parts, ()
    end = max(parts[wool[0]].share.end, parts[wool[0]].named.end)
    for before, item in pairwise(items):
        if not isinstance(item, Named) or item.start < end or item.kinds != ("superwash",):
            continue
        if isinstance(before, Token) and before.text in ("not", "non", "no", "nicht", "kein"):
            continue
        part = parts[wool[0]]
        kinds = (*part.named.kinds, "superwash")
        parts[wool[0]] = replace(part, named=replace(part.named, kinds=kinds))
        return parts, sheet.spans(item.start, item.end)
    return parts, ()


def pure_fibre(sheet: FoldedLines, items: Sequence[Share | Named | Token]) -> list[Candidate]:
    """``pure new wool`` without a number: all of it is wool."""
    names = [item for item in items if isinstance(item, Named) and item.fibre]
    pure = [item for item in names if item.pure]
    if not pure:
        return []
    first = pure[0]
    kinds = max((item.kinds for item in pure if item.fibre == first.fibre), key=len)
    doubt = ""
    others = {item.fibre for item in names} - {first.fibre}
    if others:
        doubt = f"pure {first.fibre} is printed, but {sorted(others)[0]} is named as well"
    value = (FibrePart(first.fibre, " ".join(kinds), WHOLE),)
    cues = {"whole": 0.7, "shape": first.clean, "sign": 0.7}
    note = f"no share is printed; pure {first.fibre} is taken as 100 %"
    return [Candidate("fibre", value, sheet.spans(first.start, first.end), cues, note, doubt)]
