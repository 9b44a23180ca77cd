"""Maker and range: the names that a tag is headed with."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from intake.fields.amounts.weight import ends_with_weight, near_weight_word
from intake.fields.captions import Role, role_in_column
from intake.fields.clutter import stands_before_town, web_places
from intake.fields.linked import Link
from intake.fields.names.heading_pieces import MAKER_AND_RANGE, heading_pieces, maker_and_range
from intake.fields.names.headings import Headings, Pair, Surroundings, headings
from intake.fields.names.leads import is_not_maker
from intake.fields.names.maker_doubts import (
    RANGE_THEN_MAKER,
    TWO_NAMES,
    begins_another,
    for_another,
    in_one_line,
    in_two_lines,
    is_own_town,
    is_same_firm,
    may_be_a_saying,
    name_doubt,
    names_goods,
    numbered,
    seems_to_go_on,
    unbacked,
    word_apart,
)
from intake.fields.names.no_names import is_only_fibres, names_nothing, tells_of_box
from intake.fields.names.questions import may_be_either, may_be_range_or_maker
from intake.fields.names.sellers import with_seller
from intake.fields.names.split_names import WORD_GAP, with_scraps, with_split_names
from intake.fields.names.stacks import may_go_on
from intake.fields.names.trade_words import (
    has_firm_word,
    is_kind_of_yarn,
    is_named_like_a_firm,
    is_only_trade,
)
from intake.fields.pieces import Piece, gaps_beyond_usual, part_of
from intake.records import Candidate, Span

_YARN_THEN = re.compile(
    r"(?i:yarn|garn|garen|hilo|fil|filato|base|basis|lana|laine|wol|ull|uld)"
    r" (?P<name>[^\W\d_a-zà-ÿ].+)"
)
"""The word for yarn and a name with a capital: "Garn Daggry" names the range Daggry, as dyers'
"Base Écume" does Écume."""

_IN_TOWN = re.compile(
    r"(?P<name>[^\W\d_].+?) (?:in|i|à|a|zu|te|at|near|nær|på) (?P<town>[^\W\d_a-zà-ÿ].+)"
)
"""A firm and the town that it is in."""

_LARGEST_WORD_GAP = 0.9
"""Words of one name hardly ever stand further apart, in line heights beyond the usual gap between
letters (27 pairs on drawn tags, the widest 0.73)."""

_MORE_BEHIND = re.compile(r"\s*[-–—|/·,;]\s*(?P<more>[^\W\d_][^\d]{2,30})$")
"""Words behind a mark behind a name, to the end of the line."""

_MUCH_SMALLER = 0.67
"""Where all other names are smaller than this share of the largest, that is the maker's or the
range's (108 of 110 drawn tags)."""

_LARGER = 1.5
"""So many times the height of another name is larger print."""

_SMALL_WORD = re.compile(r"(?:[^\W\d_]['’])?(?=[a-zà-ÿ])[^\W\d_]+[,.]?")

_SENTENCE = 4
"""A line with so many words in small letters beside a name is part of a sentence."""

_NO_RANGE = 0.9
"""From this probability on a tag is taken to name no range."""

_SWAPPED = 0.01
"""From this probability on the range may be the maker where that is unsure."""


def find_maker(
    links: Sequence[Link],
    free: Sequence[Piece],
    around: Surroundings,
    scraps: Sequence[Piece] = (),
) -> list[Candidate]:
    """Possible makers and ranges (candidates of both names), best first.

    ``free`` are the pieces that nothing else accounts for, ``around`` what stands beside
    them, ``scraps`` all print that is left.  The cue ``role`` is the probability that the name
    is the maker's or the range's.
    """
    captioned = [
        Candidate("range", piece.text, piece.spans, {"caption": 1.0, "role": 1.0}, doubt=doubt)
        for one in links
        if one.caption.role is Role.RANGE
        and not names_nothing(one.piece.text)
        and role_in_column(one.piece.text) is not Role.RANGE  # "Garennaam / Produkt"
        for piece, cut in [_with_weight(one.piece, around)]
        for doubt in [
            cut or _goes_on_behind_mark(piece, around) or _going_on(piece) or _like_a_firm(one)
        ]
    ]
    captioned = captioned or _counted(around)
    names = heading_pieces(free, around)
    if not names:
        return [*_web_makers(around), *captioned]
    found = headings(names, around)
    pair, likely = _named(found, around)
    if not captioned and pair[1] is None and (elsewhere := _web_makers(around, found, pair[0])):
        return [*elsewhere, _range_without_maker(found, pair[0], around)]
    makers = _makers(found, pair, likely, bool(captioned), around)
    ranges = captioned or _ranges(found, pair, likely, around)
    goes_on = seems_to_go_on(str(makers[0].value)) or len(makers[0].spans) > 1
    goes_on = goes_on or any(two in makers[0].doubt for two in (TWO_NAMES, RANGE_THEN_MAKER))
    if makers[0].doubt and goes_on and not captioned:  # the range may be the rest of it
        ranges = [replace(one, doubt=one.doubt or makers[0].doubt) for one in ranges]
    if TWO_NAMES in makers[0].doubt and not ranges:
        makers, ranges = _in_two(makers, found.pieces[pair[0]], around)
    asked = with_split_names(with_seller([*makers, *ranges], around.lines), names, around)
    asked = with_scraps(asked, names, scraps, around.lines)
    swapped = _may_be_maker(likely, pair) >= _SWAPPED or names_goods(str(makers[0].value))
    swapped = swapped and asked[0].value == makers[0].value
    if captioned or not makers[0].doubt or not swapped:
        return asked
    ask = may_be_either(str(makers[0].value))
    return [replace(one, doubt=one.doubt or ask) if one.name == "range" else one for one in asked]


def _like_a_firm(one: Link) -> str:
    if one.closeness == 1 or not has_firm_word(one.piece.text):
        return ""
    return f"'{one.piece.text}' stands where the range should, but is named like a maker"


_COUNTED = re.compile(r"\d{1,2} ?[x×] (?P<name>[^\W\d_a-zà-ÿ][^\W\d_]+(?: [^\W\d_]+){0,3})")
"""So many balls of a range, as kits list them: "3 x Kestrel"."""


def _counted(around: Surroundings) -> list[Candidate]:
    """The range of which a line says how many balls there are, which is asked about."""
    found = []
    for number, line in enumerate(around.lines):
        match = _COUNTED.fullmatch(line.text.strip())
        if match is None or names_nothing(match["name"]) or is_only_fibres(match["name"]):
            continue
        start = line.text.index(match["name"])
        span = Span(number, start, start + len(match["name"]))
        doubt = f"'{line.text.strip()}' may name the range and how many balls of it there are"
        found.append(Candidate("range", match["name"], (span,), {"role": 0.95}, doubt=doubt))
    return found[:1]


def _named(found: Headings, around: Surroundings) -> tuple[Pair, dict[Pair, float]]:
    """The likeliest option and the probability of each; where one name is said to be whom the
    yarn is by, or else is the only one with an address, all others are none
    (but for one that a web address spells).  A name much larger
    than all others is one of the two."""
    said = [at for at, name in enumerate(found.names) if name["made_by"] >= 1]
    likely = found.best()[1]
    pair, likely = _apart(found, likely if len(said) == 1 else _of_firm(found, likely, around))
    if not said:
        said = _with_address(found, around)
        spelt = [at for at, name in enumerate(found.names) if name["web"] >= 1]
        if spelt and not set(spelt) & set(said):
            said = []
    if len(said) != 1:
        largest, *others = sorted(found.names, key=lambda name: -name["size"])
        at = found.names.index(largest)
        if others and others[0]["size"] < _MUCH_SMALLER and at not in pair:
            pair = max((one for one in likely if at in one), key=likely.__getitem__, default=pair)
        return pair, likely
    likely = _of_makers(likely, said)
    if not likely:
        return found.best()
    return _apart(found, likely)


def _of_makers(likely: Mapping[Pair, float], makers: Collection[int]) -> dict[Pair, float]:
    """``likely`` of the ``makers`` alone, made to come to 1 again; empty where it has none."""
    kept = {one: share for one, share in likely.items() if one[0] in makers}
    total = sum(kept.values())
    return {one: share / total for one, share in kept.items()} if total else {}


def _of_firm(
    found: Headings, likely: Mapping[Pair, float], around: Surroundings
) -> dict[Pair, float]:
    """``likely`` with the one name alone as the maker that has a word which only firms are named
    with, where there is one (2,905 of 2,912 drawn tags), made to come to 1 again; without names
    that are but fibres, kinds of yarn or words of the trade where there are others, which makes
    those no likelier."""
    firms = [
        at
        for at, piece in enumerate(found.pieces)
        if is_named_like_a_firm(piece.text) and not is_not_maker(around.lines, piece)
    ]
    names = [piece.text for piece in found.pieces]
    if firms and all(is_same_firm(names[firms[0]], names[at]) for at in firms):
        same = [at for at, name in enumerate(names) if is_same_firm(name, names[firms[0]])]
        return _of_makers(likely, same) or dict(likely)
    goods = {
        at
        for at, piece in enumerate(found.pieces)
        if is_only_fibres(piece.text) or is_only_trade(piece.text) or is_kind_of_yarn(piece.text)
    }
    return {one: share for one, share in likely.items() if one[0] not in goods} or dict(likely)


def _with_address(found: Headings, around: Surroundings) -> list[int]:
    """The names that have an address; in the place of each the same firm's name in larger print,
    without its legal form.  One that may be a part of the address is none."""
    larger = sorted(range(len(found.pieces)), key=lambda at: -found.pieces[at].height_px)
    firms = [
        next(
            other
            for other in larger
            if other == at or is_same_firm(found.pieces[other].text, found.pieces[at].text)
        )
        for at, name in enumerate(found.names)
        if name["heads_address"] >= 1 and not _may_be_in_address(found, at, around)
    ]
    return list(dict.fromkeys(firms))


def _may_be_in_address(found: Headings, at: int, around: Surroundings) -> bool:
    """Whether a name right before a post code may be that of a street or a farm, beside two names
    more or one that the address repeats: no other place, no word of the trade and no web address
    says that it is a firm's."""
    piece, name = found.pieces[at], found.names[at]
    backed = any(name[one] >= 1 for one in ("made_by", "web", "echo", "trade"))
    before = stands_before_town(around.lines[piece.span.line], piece.span)
    others = [other for other in found.names if other is not name]
    rivals = len(others) >= MAKER_AND_RANGE or any(other["echo"] for other in others)
    return before and not backed and rivals


def _apart(found: Headings, likely: Mapping[Pair, float]) -> tuple[Pair, dict[Pair, float]]:
    """The likeliest option, and ``likely`` without the pairs that are one name twice, "Wick" and
    "Wick Ltd", made to come to as much again."""
    names = [piece.text for piece in found.pieces]
    before = sum(likely.values())
    kept = {
        (maker, other): share
        for (maker, other), share in likely.items()
        if other is None or not is_same_firm(names[maker], names[other])
    }
    total = (sum(kept.values()) or 1.0) / (before or 1.0)
    kept = {one: share / total for one, share in kept.items()}
    return max(kept, key=kept.__getitem__), kept


_BACKING = ("made_by", "heads_address", "web", "echo", "trade")


def _web_makers(
    around: Surroundings, found: Headings | None = None, at: int = 0
) -> list[Candidate]:
    """The maker as the one web address of a tag names it, which is always asked about; none
    where something backs the name at ``at`` as the maker's."""
    names = found.names[at] if found else {}
    backed = any(
        names.get(one, 0.0) >= 1
        for one in _BACKING
        if one != "trade" or not names.get("yarn_first")
    )
    if len(around.web_names) != 1 or backed:
        return []
    (name,) = around.web_names
    spans = tuple(web_places(around.lines, name)[:1])
    doubt = f"only the web address names a maker, '{name}'"
    return [Candidate("maker", name.capitalize(), spans, {"role": 0.5}, doubt=doubt)]


def _range_without_maker(found: Headings, at: int, around: Surroundings) -> Candidate:
    doubt = may_be_range_or_maker(found.pieces[at].text)
    return replace(_range(found, at, 0.5, around), doubt=doubt)


def _may_be_maker(likely: Mapping[Pair, float], pair: Pair) -> float:
    """How likely the range of ``pair`` is the maker."""
    return sum(share for (maker, _), share in likely.items() if maker == pair[1])


def _makers(
    found: Headings,
    best: Pair,
    likely: Mapping[Pair, float],
    captioned: bool,
    around: Surroundings,
) -> list[Candidate]:
    roles = [0.0] * len(found.pieces)
    for (maker, _), share in likely.items():
        roles[maker] += share
    ranked = sorted(range(len(roles)), key=lambda at: (at != best[0], -roles[at]))
    makers = [_maker(found, at, roles[at], captioned, around) for at in ranked]
    if more := _below_maker(found, best) or _larger_than_who_made_it(found, best):
        makers[0] = replace(makers[0], doubt=makers[0].doubt or more)
    if captioned or best[1] is not None:
        return makers
    ask = in_one_line(found.pieces[best[0]], makers[0].cues)
    return [replace(makers[0], doubt=makers[0].doubt or ask), *makers[1:]]


def _below_maker(found: Headings, best: Pair) -> str:
    """What is asked of a maker below which one more word stands that is not the range."""
    maker = found.pieces[best[0]]
    for at, other in enumerate(found.pieces):
        if at not in best and may_go_on(maker, other):
            return f"the maker's name '{maker.text}' may go on in the next line, '{other.text}'"
    return ""


def _larger_than_who_made_it(found: Headings, best: Pair) -> str:
    """What is asked of who is said to have made the yarn where nothing else says that it is the
    house, and a larger name stands above, and another that may be the range: "Ullbyting", "Enkel",
    "handfärgat av Vendela Orresjö"; or a larger one with a word of the trade above a name with an
    address: "Cold Fell Farm"."""
    maker, name = found.pieces[best[0]], found.names[best[0]]
    backed = ("trade", "article", "web", "echo")
    said = name["made_by"] >= 1 or name["heads_address"] >= 1
    if not said or any(name[one] for one in backed):
        return ""
    others = [
        other
        for at, other in enumerate(found.pieces)
        if at != best[0]
        and not (other.is_quoted or found.names[at]["colour"])
        and (found.names[at]["trade"] or name["made_by"] >= 1)
    ]
    for other in others:
        above = other.frame.bottom <= maker.frame.top
        larger = other.height_px > _LARGER * maker.height_px
        if above and larger and (len(others) >= MAKER_AND_RANGE or name["made_by"] < 1):
            return f"'{maker.text}' made it, but the maker's name may be '{other.text}'"
    return ""


def _in_two(
    makers: Sequence[Candidate], piece: Piece, around: Surroundings
) -> tuple[list[Candidate], list[Candidate]]:
    """The makers, the first of which stands with a range in ``piece``, and that range."""
    halves = maker_and_range(piece, around.lines[piece.span.line])
    if halves is None:
        return list(makers), []
    first, (maker, other) = makers[0], halves
    told = replace(first, value=maker.text, spans=maker.spans)
    return [told, *makers[1:]], [replace(first, name="range", value=other.text, spans=other.spans)]


def _maker(
    found: Headings, at: int, role: float, captioned: bool, around: Surroundings
) -> Candidate:
    cues = {"role": role, **_kept(found, at)}
    piece, doubt = _without_town(found.pieces[at], cues, around)
    doubt = (
        doubt
        or numbered(piece)
        or name_doubt(piece.text, found.web_names)
        or word_apart(piece.text, found.web_names, around.lines)
        or begins_another(piece, found)
        or in_two_lines(piece, cues, beside=captioned or len(found.pieces) > 1)
        or for_another(piece, around.lines)
        or is_own_town(piece, around.lines)
        or _in_address(found, at, around)
        or unbacked(piece.text, cues, found, captioned)
    )
    return Candidate("maker", piece.text, piece.spans, cues, doubt=doubt)


def _in_address(found: Headings, at: int, around: Surroundings) -> str:
    if not _may_be_in_address(found, at, around):
        return ""
    return f"'{found.pieces[at].text}' before a post code may be the maker or a part of the address"


def _without_town(
    piece: Piece, cues: Mapping[str, float], around: Surroundings
) -> tuple[Piece, str]:
    """The name of whom a yarn is by, "Kveldsull i Lom", without where that is but for a firm's,
    "Garnskuret i Lom", and what is to be asked."""
    match = _IN_TOWN.fullmatch(piece.text)
    if match is None or not cues["made_by"] or piece.tail:
        return piece, ""
    span = Span(piece.span.line, piece.span.start, piece.span.start + match.end("name"))
    name = part_of(piece, around.lines[piece.span.line], span)
    doubt = f"'{match['town']}' behind '{name.text}' may be part of its name, or a town"
    return piece if is_named_like_a_firm(name.text) else name, doubt


def _ranges(
    found: Headings, best: Pair, likely: Mapping[Pair, float], around: Surroundings
) -> list[Candidate]:
    roles: dict[int | None, float] = {}
    for (_, other), share in likely.items():
        roles[other] = roles.get(other, 0.0) + share
    if roles.pop(None, 0.0) >= _NO_RANGE:
        return []
    ranked = sorted(
        (at for at in roles if at is not None and at != best[0]),
        key=lambda at: (at != best[1], -roles[at]),
    )
    return [_range(found, at, roles[at], around) for at in ranked]


def _range(found: Headings, at: int, role: float, around: Surroundings) -> Candidate:
    cues = {"role": role, **_kept(found, at)}
    piece, doubt = _with_weight(found.pieces[at], around)
    doubt = numbered(piece) or in_two_lines(piece, cues) or _other_words(piece, around) or doubt
    doubt = doubt or _above_box(piece, around)
    yarn = _YARN_THEN.fullmatch(piece.text)
    if yarn is not None:
        doubt = doubt or f"'{piece.text}' may be the range's whole name, or '{yarn['name']}'"
        span = Span(piece.span.line, piece.span.start + yarn.start("name"), piece.span.end)
        piece = part_of(piece, around.lines[piece.span.line], span)
    return Candidate("range", piece.text, piece.spans, cues, doubt=doubt)


def _other_words(piece: Piece, around: Surroundings) -> str:
    """What is asked of a range that may be a caption, or a word for a weight that was misread."""
    behind = around.lines[piece.span.line].text[piece.span.end :].lstrip()
    if behind.startswith(":"):
        return f"'{piece.text}' before a colon may be the range's name or a caption"
    if _is_in_sentence(around.lines[piece.span.line].text, piece):
        return f"'{piece.text}' stands in a sentence"
    if more := _going_on(piece) or may_be_a_saying(piece.text):
        return more
    if is_only_fibres(piece.text):
        return f"'{piece.text}' may be the range's name or a word about the fibre"
    if is_named_like_a_firm(piece.text):
        return f"'{piece.text}' stands where the range should, but is named like a maker"
    if ends_with_weight(piece.text):
        return f"'{piece.text.split()[-1]}' may be part of the range's name, or the weight alone"
    if near_weight_word(piece.text):
        return f"'{piece.text}' may be a word for the weight, misread"
    return ""


def _above_box(piece: Piece, around: Surroundings) -> str:
    """What is asked of a range above the line that tells what is in a box."""
    boxes = (line for line in around.lines if tells_of_box(line.text))
    if all(line.centre[1] < piece.frame.bottom for line in boxes):
        return ""
    return f"'{piece.text}' may be what the box is called, and its yarn another"


def _going_on(piece: Piece) -> str:
    """What is asked of a range whose name ends with a word that more follows."""
    return f"the range's name '{piece.text}' seems to go on" if seems_to_go_on(piece.text) else ""


def _is_in_sentence(line: str, piece: Piece) -> bool:
    """Whether many words in small letters stand in the ``line`` of a name, too."""
    rest = f"{line[: piece.span.start]} {line[piece.span.end :]}"
    return len([word for word in rest.split() if _SMALL_WORD.fullmatch(word)]) >= _SENTENCE


def _with_weight(piece: Piece, around: Surroundings) -> tuple[Piece, str]:
    """``piece`` with the word for a weight that ends or begins its line where that stands as near
    as the words of one name do ("Moor DK" and "Moor Aran" are two ranges, "Sock Parade" is one),
    and what is to be asked: whether it belongs to the name."""
    line = around.lines[piece.span.line]
    for span in around.weight_spans:
        if span.line != piece.span.line or piece.tail:
            continue
        first, last = sorted((piece.span, span), key=lambda one: one.start)
        rest = line.text[: span.start] if first is span else line.text[span.end :]
        if line.text[first.end : last.start] != " " or any(sign.isalnum() for sign in rest):
            continue
        gap = gaps_beyond_usual(line)[last.start]
        word = line.text[span.start : span.end]
        if gap < WORD_GAP:
            piece = part_of(piece, line, Span(span.line, first.start, last.end))
        if gap < _LARGEST_WORD_GAP:
            return piece, f"'{word}' may be part of the range's name, or the weight alone"
    return piece, ""


def _goes_on_behind_mark(piece: Piece, around: Surroundings) -> str:
    """What is asked of a range behind its caption that a mark parts from more words, where these
    are no shade, for that stands in another row."""
    behind = _MORE_BEHIND.match(around.lines[piece.span.line].text, piece.span.end)
    elsewhere = around.shades and all(
        piece.frame.overlap_y(frame) < piece.frame.height_px / 2 for frame in around.shades
    )
    return (
        f"'{behind['more']}' behind '{piece.text}' may be part of the range's name"
        if behind and elsewhere
        else ""
    )


def _kept(found: Headings, at: int) -> dict[str, float]:
    """The evidence about a name that its confidence is told from beside its role."""
    names = found.names[at]
    return {name: names[name] for name in ("web", "echo", "trade", "made_by", "heads_address")}
