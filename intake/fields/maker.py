"""Maker and range: the names that a tag is headed with."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from itertools import permutations
from statistics import median

from rapidfuzz.distance import Levenshtein

from intake.fields.captions import Role
from intake.fields.clutter import web_places, web_spellings
from intake.fields.codes import code_and_name, whole_name
from intake.fields.headings import (
    ASKS_MAKER,
    BY_WORDS,
    DONE,
    LEADS,
    NOT_MAKER,
    OF_NAMES,
    Headings,
    Pair,
    Surroundings,
    headings,
    is_by,
)
from intake.fields.letters import Folded
from intake.fields.linked import Link
from intake.fields.pieces import Piece, joined, part_of, wide_gaps
from intake.fields.stacks import ONE_SIZE, is_set_alike, is_stacked
from intake.fields.trade_words import goes_on_behind, has_trade_word, is_only_trade
from intake.records import Candidate, Line, Span

_SIDE_REACH = 1.5
_SIDE_REACH_OF_BOXES = 1.0
"""Names nearer than this in one row, in line heights, may be one name; the second where the
line finder parted them too (on drawn tags all 12 such pairs from 1.0 on were two names)."""

_MARKS = "-–—·•|/,;:*"
"""Marks that part two names in one line."""

_LARGE = 0.8
"""Print of at least this share of the tallest names is large."""

_HALF = 0.5
"""The same in small letters on a tag whose tallest name is in small letters, too."""

_MAKER_AND_RANGE = 2
"""Most tags are headed with so many names."""

_ALIKE = 0.7
"""From this likeness on a name and that of a web address are meant to be the same."""

_YARN_FIRST = re.compile(r"(?:yarn|garn|garen|fil|hilo|filato) \w.*")
"""The word for yarn before a name: a range's or a shade's as often as a maker's."""

_YARN_THEN = re.compile(r"(?i:yarn|garn|garen|hilo|filato) (?P<name>[^\W\d_a-zà-ÿ].+)")
"""The word for yarn and a name with a capital: "Garn Daggry" names the range Daggry."""

_GOES_ON = re.compile(r".*\b(?:de|di|du|des|del|della|of|von|van|der|the|and|und|et|y|e|og|och|&)")
"""A name that ends so was cut off."""

_OF = re.compile(r"(?:de|du|des|di|del|della|of|von|van|and|und|et|y|e|og|och|&)\s")
"""Words with which the second line of a name begins."""

_HELD = re.compile(r"\s(?:de|du|des|di|del|della|of|von|van|and|und|et|y|e|og|och|&)\s")
"""The same within a name that is held together by them."""

_BY = re.compile(rf"(?:^|(?<=\w) )(?P<by>{BY_WORDS}) (?=\S)")
_DONE = re.compile(DONE)
_LED = re.compile(rf"{LEADS.pattern} (?=\S)")
_QUOTED = re.compile(r"([^\W\d_][^\"“”„«»]{2,}?)\s+[\"“„«]\s?([^\"“”„«»]{3,}?)\s?[\"”“»]\s*")
"""A maker's name and a range's in quotes behind it."""

_NO_RANGE = 0.9
"""From this probability on a tag is taken to name no range."""

_SWAPPED = 0.01
"""From this probability on an unsure maker and a range may have changed places."""

_GENERIC = re.compile(
    r"(?:hand[ -]?)?(?:knitting|strick|haekel|hakel|crochet|tricot\w*|maglia|punto|breien|brei|"
    r"strikk\w*|"
    r"stick\w*|virk\w*)[ -]?(?:yarns?|wool|garne?|wolle|garen)?|fil a tricoter|laine a tricoter|"
    r"filato(?: per maglia)?|hilo(?: para tejer)?|yarn|garn|wolle|wool|laine|lana|wol|ull|uld|"
    r"(?:name|nom|nome|nombre|naam|namn|navn|number|numero|nummer)(?: d[ei])?|"
    r"kit\b.*|.* kit|.* zum selber\w+|\w*(?:pak(?:ke|ket|et)|sats)\b.*|.* (?:pakke|paket|pakket)|"
    r"new|neu|nouveau|nuovo|nuevo|ny|premium|quality|hand dyed|handgefaerbt|"
    r"front|back|net|brut|neto|bruto|tara|tare|thank you|handmade|approx|circa"
    r"|environ|aprox|gomitolo|knauel|pelote|ovillo|"
    r"bol|nystan|noste|nogle|ball|skein|strang|echeveau|matassa|madeja|made with love"
)


def find_maker(
    links: Sequence[Link], free: Sequence[Piece], around: Surroundings
) -> list[Candidate]:
    """Possible makers and ranges (candidates of both names), best first.

    ``free`` are the pieces that nothing else accounts for, ``around`` what stands beside
    them.  The cue ``role`` is the probability that the name is the maker's or the range's.
    """
    captioned = [
        Candidate("range", piece.text, piece.spans, {"caption": 1.0, "role": 1.0})
        for one in links
        if one.caption.role is Role.RANGE and not _GENERIC.fullmatch(Folded(one.piece.text).text)
        for piece in [_with_weight(one.piece, around)]
    ]
    names = heading_pieces(free, around)
    if not names:
        return [*_web_makers(around), *captioned]
    found = headings(names, around)
    pair, likely = _named(found)
    if not captioned and pair[1] is None and (elsewhere := _web_makers(around, found, pair[0])):
        return [*elsewhere, _range_without_maker(found, pair[0])]
    makers = _makers(found, pair, likely, bool(captioned))
    ranges = captioned or _ranges(found, pair, likely, around)
    if makers[0].doubt and len(makers[0].spans) > 1:  # else the range may be its second line
        ranges = [replace(one, doubt=one.doubt or makers[0].doubt) for one in ranges]
    asked = _with_split_names([*makers, *ranges], names, around)
    if captioned or not makers[0].doubt or _swapped(likely, pair) < _SWAPPED:
        return asked
    ask = f"'{makers[0].value}' may be the range as well as the maker"
    return [replace(one, doubt=one.doubt or ask) if one.name == "range" else one for one in asked]


def _named(found: Headings) -> tuple[Pair, dict[Pair, float]]:
    """The likeliest option and the probability of each; where one name is said to be whom the
    yarn is by, all others are none."""
    pair, likely = found.best()
    said = [at for at, name in enumerate(found.names) if name["made_by"] >= 1]
    if len(said) != 1 or pair[0] == said[0]:
        return pair, likely
    likely = {one: share for one, share in likely.items() if one[0] == said[0]}
    total = sum(likely.values())
    if not total:
        return found.best()
    likely = {one: share / total for one, share in likely.items()}
    return max(likely, key=likely.__getitem__), likely


_BACKING = ("made_by", "heads_address", "web", "echo", "trade")


def _web_makers(
    around: Surroundings, found: Headings | None = None, at: int = 0
) -> list[Candidate]:
    """The maker as the one web address of a tag names it, which is always asked about; none
    where something backs the name at ``at`` as the maker's."""
    if len(around.web_names) != 1 or (found and any(found.names[at][one] >= 1 for one in _BACKING)):
        return []
    (name,) = around.web_names
    spans = tuple(web_places(around.lines, name)[:1])
    doubt = f"only the web address names a maker, '{name}'"
    return [Candidate("maker", name.capitalize(), spans, {"role": 0.5}, doubt=doubt)]


def _range_without_maker(found: Headings, at: int) -> Candidate:
    piece = found.pieces[at]
    doubt = f"'{piece.text}' may be the name of the range or of the maker"
    return Candidate(
        "range", piece.text, piece.spans, {"role": 0.5, **_kept(found, at)}, doubt=doubt
    )


def heading_pieces(free: Sequence[Piece], around: Surroundings) -> list[Piece]:
    """Those of the ``free`` pieces that may name the maker or the range; "Drystone by
    Hollin Fold" is two."""
    coded = {piece.span.line for piece in free if code_and_name(piece.text)[0] is not None}
    parted = [
        part
        for piece in _wrapped([one for one in free if one.span.line not in coded])
        for one in _parted_at_quotes(piece, around)
        for part in _parted_at_by(one, around)
    ]
    tallest_px = max((piece.height_px for piece in parted), default=0.0)
    all_small = any(piece.text.islower() for piece in parted if piece.height_px == tallest_px)
    small_px = (_HALF if all_small else _LARGE) * tallest_px
    named = [piece for piece in parted if _is_heading(piece, small=piece.height_px >= small_px)]
    return _stacked_names(_whole_web_names(named, around.web_names), around)


def _wrapped(pieces: list[Piece]) -> list[Piece]:
    """``pieces``, those joined that are one name in two lines: its first line is nothing but a
    word of the trade, or its second begins with "of", "and" or the like."""
    for one, other in permutations(pieces, 2):
        is_one = is_only_trade(one.text) or _is_of(other.text)
        if is_one and _goes_on_below(one, other) and not one.tail:
            rest = [piece for piece in pieces if piece is not one and piece is not other]
            return [joined(one, other), *rest]
    return pieces


def _is_of(text: str) -> bool:
    return text[:1].islower() and _OF.match(Folded(text).text) is not None


def _goes_on_below(one: Piece, other: Piece) -> bool:
    """Whether ``other`` is set as the next line of ``one``: close below, in its size and case,
    at its margin or on its axis."""
    small = min(one.height_px, other.height_px)
    gap_px = other.frame.top - one.frame.bottom
    at_margin = abs(one.frame.left - other.frame.left) < small
    on_axis = abs(one.frame.left + one.frame.right - other.frame.left - other.frame.right) < small
    return (
        is_set_alike(one, other) and -0.6 * small < gap_px < 0.8 * small and (at_margin or on_axis)
    )


def _whole_web_names(pieces: list[Piece], web_names: Collection[str]) -> list[Piece]:
    """``pieces``, those joined that spell a web address's name together: a maker's name set
    in two lines."""
    for one, other in permutations(pieces, 2):
        if _letters_of(Folded(one.text + other.text).text) in web_names:
            rest = [piece for piece in pieces if piece is not one and piece is not other]
            return [joined(one, other), *rest]
    return pieces


def _stacked_names(pieces: list[Piece], around: Surroundings) -> list[Piece]:
    """``pieces``, those joined that are a name in two lines of large print.  If the tag has no
    further name, the lines may be the maker's and the range's, and stay two."""
    usual_px = median([line.height_px for line in around.lines] or [1.0])
    large = [piece for piece in pieces if piece.height_px > ONE_SIZE * usual_px]
    pairs = [pair for pair in permutations(large, 2) if _is_in_two_lines(*pair, around)]
    ends = [id(piece) for pair in pairs for piece in pair]
    found = [pair for pair in pairs if all(ends.count(id(piece)) == 1 for piece in pair)]
    if len(pieces) - len(found) < _MAKER_AND_RANGE:
        return pieces
    apart = [piece for piece in pieces if all(piece not in pair for pair in found)]
    return [*(joined(*pair) for pair in found), *apart]


def _is_in_two_lines(upper: Piece, lower: Piece, around: Surroundings) -> bool:
    """Whether two pieces may be one name that was broken where its line was full."""
    behind = around.lines[upper.span.line].text[upper.span.end :]
    ends = not any(sign.isalnum() for sign in behind)
    return ends and is_stacked(upper, lower) and _may_be_one_name(upper, lower)


def _parted_at_quotes(piece: Piece, around: Surroundings) -> list[Piece]:
    """The names before and within quotes in ``piece``; the piece itself where it has none."""
    match = _QUOTED.fullmatch(around.lines[piece.span.line].text, piece.span.start)
    if match is None:
        return [piece]
    line = around.lines[piece.span.line]
    return [part_of(piece, line, Span(piece.span.line, *match.span(n))) for n in (1, 2)]


def _parted_at_by(piece: Piece, around: Surroundings) -> list[Piece]:
    """The names before and behind a word for "by" in ``piece``; the piece itself where it
    has none, or one that may belong to a name."""
    folded = Folded(piece.text)
    if name := _led_to(piece, folded, around):
        return [name]
    for match in _BY.finditer(folded.text):
        before, behind = folded.text[: match.start()], folded.text[match.end() :]
        backed = _letters_of(behind) in around.web_names
        first, last = folded.span(*match.span("by"))
        in_a_name = match["by"] in OF_NAMES and (before or not piece.text[first:last].islower())
        if NOT_MAKER.search(before) or (in_a_name and not backed):
            continue
        if _DONE.fullmatch(before.strip()):
            before = ""
        start, _ = folded.span(match.end(), len(folded.text))
        _, end = folded.span(0, match.start()) if before else (0, 0)
        line = around.lines[piece.span.line]
        spans = [Span(piece.span.line, piece.span.start, piece.span.start + end)] if before else []
        spans.append(Span(piece.span.line, piece.span.start + start, piece.span.end))
        parts = [part_of(piece, line, span) for span in spans]
        if all(part.text[:1].isupper() for part in parts):
            return parts
    return [piece]


def _led_to(piece: Piece, folded: Folded, around: Surroundings) -> Piece | None:
    """The name in ``piece`` that words for the maker lead up to: "une laine de la Filature des
    Aulnes", "Hersteller: Garnhof Lerchengrund"."""
    for lead in (_LED.match(folded.text), ASKS_MAKER.match(folded.text)):
        if lead is None or lead.end() >= len(folded.text):
            continue
        start, _ = folded.span(lead.end(), len(folded.text))
        span = Span(piece.span.line, piece.span.start + start, piece.span.end)
        name = part_of(piece, around.lines[piece.span.line], span)
        if name.text[:1].isupper() and whole_name(name.text):
            return name
    return None


def _swapped(likely: Mapping[Pair, float], pair: Pair) -> float:
    """How likely the maker of ``pair`` is the range, and its range the maker."""
    maker, other = pair
    return 0.0 if other is None else likely.get((other, maker), 0.0)


def _makers(
    found: Headings, best: Pair, likely: Mapping[Pair, float], captioned: bool
) -> list[Candidate]:
    roles = [0.0] * len(found.pieces)
    for (maker, _), share in likely.items():
        roles[maker] += share
    ranked = sorted(range(len(roles)), key=lambda at: (at != best[0], -roles[at]))
    return [_maker(found, at, roles[at], captioned) for at in ranked]


def _maker(found: Headings, at: int, role: float, captioned: bool) -> Candidate:
    piece = found.pieces[at]
    cues = {"role": role, **_kept(found, at)}
    doubt = (
        _doubt(piece.text, found.web_names)
        or _in_two_lines(piece, cues)
        or _unbacked(piece.text, cues, found, captioned)
    )
    return Candidate("maker", piece.text, piece.spans, cues, doubt=doubt)


def _unbacked(name: str, cues: Mapping[str, float], found: Headings, captioned: bool) -> str:
    """What is asked of a name that stands where makers' do and has nothing else for it: no
    web address, no second place on the tag, no "by" before it, no postal address behind it,
    no word of the trade beside a range's name, which may be ``captioned``."""
    backed = any(cues[name] >= 1 for name in ("made_by", "heads_address", "web", "echo"))
    if backed or (cues["trade"] and (captioned or len(found.pieces) > 1)):
        return ""
    return f"nothing but its place says that '{name}' is the maker"


def _in_two_lines(piece: Piece, cues: Mapping[str, float]) -> str:
    """What is asked of a name that was put together of two lines."""
    if not piece.tail or cues["web"] or _HELD.search(Folded(piece.text).text):
        return ""
    return f"'{piece.text}' stands in two lines: is it one name?"


def _doubt(name: str, web_names: Collection[str]) -> str:
    """Why ``name`` may not be the maker's whole name and no more."""
    folded = Folded(name).text
    spelled = web_spellings(name)
    if _YARN_FIRST.fullmatch(folded):
        return f"'{name}' may be the name of a yarn and not of its maker"
    if _GOES_ON.fullmatch(folded):
        return f"the maker's name '{name}' seems to go on"
    by = _BY.search(folded)
    if by is not None and by.start() and has_trade_word(folded[by.end() :].split()[0]):
        return f"'{name}' may be the names of a range and of its maker in one line"
    if is_only_trade(name):
        return f"'{name}' alone is hardly the maker's whole name"
    if goes_on_behind(name):
        return f"'{name}' may be the names of the maker and of the range in one line"
    likeness = {web: max(_likeness(plain, web) for plain in spelled) for web in web_names}
    like = [
        web for web in web_names if any(one in web for one in spelled) or likeness[web] >= _ALIKE
    ]
    if like and all(likeness[web] < 1 for web in like):
        return f"the maker's name '{name}' is not that of the web address, '{like[0]}'"
    return ""


def _letters_of(folded: str) -> str:
    """A folded name as web addresses spell it."""
    return re.sub(r"[^a-z0-9]", "", folded)


def _likeness(plain: str, web: str) -> float:
    """How alike a name and that of a web address are; 1 where one of them only has a word
    of the trade more."""
    shorter, longer = sorted((plain, web), key=len)
    if longer.startswith(shorter) and is_only_trade(longer[len(shorter) :]):
        return 1.0
    return Levenshtein.normalized_similarity(plain, web)


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
    piece, cues = _with_weight(found.pieces[at], around), {"role": role, **_kept(found, at)}
    doubt = _in_two_lines(piece, cues)
    yarn = _YARN_THEN.fullmatch(piece.text)
    if yarn is not None:
        doubt = doubt or f"'{piece.text}' may be the range's whole name, or '{yarn['name']}'"
        span = Span(piece.span.line, piece.span.start + yarn.start("name"), piece.span.end)
        piece = part_of(piece, around.lines[piece.span.line], span)
    return Candidate("range", piece.text, piece.spans, cues, doubt=doubt)


def _with_weight(piece: Piece, around: Surroundings) -> Piece:
    """``piece`` with the word for a weight that ends its line and belongs to its name: "Moor
    DK" and "Moor Aran" are two ranges."""
    line = around.lines[piece.span.line]
    for span in around.weight_spans:
        between = line.text[piece.span.end : span.start]
        ends = not any(sign.isalnum() for sign in line.text[span.end :])
        near = between == " " and span.start not in wide_gaps(line)
        if span.line == piece.span.line and near and ends and not piece.tail:
            return part_of(piece, line, Span(span.line, piece.span.start, span.end))
    return piece


def _kept(found: Headings, at: int) -> dict[str, float]:
    """The evidence about a name that its confidence is told from beside its role."""
    names = found.names[at]
    return {name: names[name] for name in ("web", "echo", "trade", "made_by", "heads_address")}


def _with_split_names(
    candidates: Sequence[Candidate], names: Sequence[Piece], around: Surroundings
) -> list[Candidate]:
    """Asks where a heading has another name right beside it, or alike below it: the gap
    between them may be one within a name.  Maker and range may stand side by side if they are
    set unlike."""
    best = {one.name: one for one in reversed(candidates)}
    taken = [one.spans[0] for one in best.values()]
    places = {piece.span: piece for piece in names}
    asked = []
    for one in candidates:
        piece = places.get(one.spans[0])
        if piece is not None and one is best[one.name]:
            beside = [
                other
                for other in names
                if other is not piece
                and _is_beside(piece, other)
                and not _are_parted(piece, other, around.lines)
                and (other.span not in taken or _may_be_one_name(piece, other))
            ]
            beside += [
                other
                for other in names
                if _is_in_two_lines(piece, other, around) or _is_in_two_lines(other, piece, around)
            ]
            if beside:
                doubt = f"'{beside[0].text}' beside '{one.value}' may belong to its name"
                one = replace(one, doubt=one.doubt or doubt)
        asked.append(one)
    return asked


def _are_parted(piece: Piece, other: Piece, lines: Sequence[Line]) -> bool:
    """Whether a printed mark, seen by both readers, stands between two names in one line."""
    if piece.span.line != other.span.line:
        return False
    line = lines[piece.span.line]
    first, last = sorted((piece.span, other.span), key=lambda one: one.start)
    return any(line.text[at] in _MARKS and line.agreed[at] for at in range(first.end, last.start))


def _is_beside(piece: Piece, other: Piece) -> bool:
    height_px = min(piece.height_px, other.height_px)
    in_row = piece.frame.overlap_y(other.frame) > 0.5 * height_px
    one_line = piece.span.line == other.span.line
    reach = _SIDE_REACH if one_line else _SIDE_REACH_OF_BOXES
    return in_row and -piece.frame.overlap_x(other.frame) < reach * height_px


def _may_be_one_name(piece: Piece, other: Piece) -> bool:
    """Whether two pieces are set in one size and one case and neither is plainly a whole
    name, as a word of the trade with another word is."""
    whole = any(has_trade_word(one.text) and " " in one.text for one in (piece, other))
    return is_set_alike(piece, other) and not whole


def _is_heading(piece: Piece, *, small: bool) -> bool:
    """Whether a piece may be a heading; in small letters only where ``small`` allows it."""
    name = whole_name(piece.text)
    return (
        name is not None
        and (piece.text[0].isupper() or (small and piece.text.islower()))
        and not _GENERIC.fullmatch(Folded(piece.text).text)
        and not is_by(piece.text)
    )
