"""The shade: its name and its code, which stand together."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations

from intake.fields.amounts.weight import is_weight_word
from intake.fields.captions import (
    Caption,
    Role,
    ends_with_number_word,
    is_caption,
    may_begin_with_caption,
)
from intake.fields.codes import CODE_BEHIND_WORD, Found, code_and_name
from intake.fields.letters import Folded
from intake.fields.linked import Link
from intake.fields.names.colour_words import has_colour_word
from intake.fields.names.heading_pieces import PARTING, is_saying
from intake.fields.names.no_names import is_care, is_only_fibres, names_nothing
from intake.fields.names.no_shades import (
    AND_MORE,
    EVENT,
    NO_ENTRY,
    ONLY_LINKS,
    PLY,
    UNDYED,
    UNIT,
    YEAR,
    is_kind,
    names_no_shade,
)
from intake.fields.names.shade_doubts import (
    asks_to_order,
    doubt_of,
    in_small_letters,
    is_other_matter,
    leads_to_caption,
    may_be_several,
    that_may_go_on,
)
from intake.fields.names.stacks import is_set_alike
from intake.fields.names.trade_words import has_trade_word, says_by_whom
from intake.fields.pieces import Piece, frame_of, gap_in_heights, is_next_line, meet, part_of
from intake.records import Candidate, Line, Span

_NEIGHBOUR_REACH = 2.5
"""How far a code and its name may stand apart, in heights of their lines."""


_QUOTED = 0.5
"""How plainly a name in quotes is a shade's, against one with its code beside it: dyers quote
the names of their shades (common practice, no source)."""

LEFT = "left"
"""The cue of a name that is nothing but left over on a tag that has its shade's code elsewhere."""

_PARTED = 0.5
"""The same of a name behind the range in its line."""

_UNCLEAR = "the tag has a caption for the shade, but it is unclear what stands beside it"

_TOWN = re.compile(r"\d{4,6} [^\W\d_a-zà-ÿ][^\W\d_]+(?:[ -][^\W\d_]+)*")
"""A town with its post code in front has the form of a shade with its code in front."""

_NUMBER_OF = re.compile(r"\b(?:no|nr|n|num)[.°º]?\s", re.IGNORECASE)
"""Between a name and a number: "Rainfall No. 3"."""

_CLAUSE_THEN = re.compile(r"\s*,\s+[a-zà-ÿ]+ [a-zà-ÿ]+(?! *\d)")
"""How a sentence goes on behind its first clause: "When buying more, ask for"."""

_SHORT_NAME = 2

_NEAR_ENOUGH = 0.38
"""A name that stands less together than this with the code of the shade is only left over: on 1,560
drawn tags 28 names stood more together, all of them the shade's, and 12 less, none of them."""

_LARGEST = 1.2
"""The largest print is larger than all other by at least so much."""

_LIST_REACH = 12.0
"""The entries of a list stand no further apart than so many heights."""

_SENTENCE = 4
"""A line that has so many words beside a name is a sentence."""

_NOT_ASKED_FOR = 0.3
"""How well a name does behind a caption that asks for a number, a code the other way, and a
code with more behind it than a name."""


def shade_fit(text: str, caption: Caption) -> float:
    """How well ``text`` would do behind a shade's ``caption``, 0 to 1."""
    if says_by_whom(text) or ends_with_number_word(text):
        return 0.0
    if ONLY_LINKS.fullmatch(Folded(text).text):
        return 0.0
    code, name = code_and_name(text)
    if code is None and name is None:
        return 0.0
    if (code is None and caption.asks_number) or (name is None and caption.asks_name):
        return _NOT_ASKED_FOR
    if code is None:
        return 1.0
    return code.shape if name is not None or code.alone else _NOT_ASKED_FOR


def find_shade(
    links: Sequence[Link],
    free: Sequence[Piece],
    *,
    lines: Sequence[Line],
    captioned: bool = False,
    range_: Candidate | None = None,
) -> list[Candidate]:
    """Possible shade names and shade codes (candidates of both names), best first.

    ``links`` are all captions with what they announce; ``free`` the pieces that nothing
    accounts for, without those that name the maker or the range.  Where the tag has a
    caption for the shade (``captioned``) that announces nothing, all else is doubtful.
    ``range_`` is the range among ``lines``: a name behind a mark in its line is the shade's.
    """
    found: list[Candidate] = []
    coded = any(
        one.caption.role is Role.SHADE and _halves(one.piece)[0] is not None for one in links
    )
    shared = [one.caption for one in links]
    for one in links:
        if one.caption.role is Role.SHADE:
            parted = float(shared.count(one.caption) > 1)
            told = _announced(one, coded and range_ is not None, parted)
            told += _coded_behind(one, told, parted, lines)
            told = [that_may_go_on(half, one, lines) for half in told]
            told = [in_small_letters(half, one, lines) for half in told]
            told = may_be_several(told, one, lines)
            found += [replace(half, doubt=half.doubt or one.doubt) for half in told]
    found = _asked_of_list(found, [one.piece for one in links], free)
    have = {candidate.name for candidate in found}
    if "shade" in have and "shade_code" in have:
        return _best_first(found)
    if found:
        missing = "shade" if "shade_code" in have else "shade_code"
        announced = [one.piece for one in links if one.caption.role is Role.SHADE]
        captions = [one.caption for one in links]
        named = [piece for piece in free if not leads_to_caption(piece, captions, lines)]
        beside = _beside(announced, named, missing, lines)
        if missing == "shade_code":
            beside += _coded_beside(announced, links, lines)
        if not beside and missing == "shade":
            beside = _behind_range(free, lines, range_) or _names_left(named, lines)
        return _best_first(found + beside)
    loose = _uncaptioned(free, lines)
    if captioned:
        loose = [replace(one, doubt=one.doubt or _UNCLEAR) for one in loose]
    return _best_first(loose)


def _asked_of_list(
    found: Sequence[Candidate], announced: Sequence[Piece], free: Sequence[Piece]
) -> list[Candidate]:
    """``found``, asked about where the tag lists more shades with their codes in the same size near
    them, of which one may be ticked."""
    entries = [
        piece
        for piece in free
        if all(_halves(piece))
        and not NO_ENTRY.fullmatch(piece.text)
        and not _is_of_weight(piece.text)
    ]
    asked = []
    for one in found:
        piece = next((piece for piece in announced if meet(piece.span, one.spans[0])), None)
        if piece is not None and all(_halves(piece)):
            small = piece.text.islower()
            others = [
                other.text
                for other in entries
                if _are_listed(piece, other) and (small or not _is_in_small_letters(other))
            ]
            listed = f"'{piece.text}' and '{others[0]}'" if others else ""
            ask = f"the tag lists {listed}: which is the shade of this ball?" if listed else ""
            one = replace(one, doubt=one.doubt or ask)
        asked.append(one)
    return asked


def _is_in_small_letters(piece: Piece) -> bool:
    """Whether the name of ``piece`` is in small letters: "11 sheep on a cliff"."""
    name = _halves(piece)[1]
    return name is not None and name.text.islower()


def _is_of_weight(text: str) -> bool:
    """Whether ``text`` is a class of weight with its number: "Medium 4"."""
    return bool(is_weight_word(text.strip(" 0123456789().:-–—")))


def _are_listed(piece: Piece, other: Piece) -> bool:
    near = piece.frame.gap_px(other.frame) < _LIST_REACH * piece.height_px
    return near and is_set_alike(piece, other)


def _announced(one: Link, told: bool, parted: float) -> list[Candidate]:
    """What a caption announces, ``parted`` 1 where its code and its name are two pieces.  A name
    by itself in another line than a caption that asks for a number is none that it vouches for,
    unless it names a colour; what the tag calls by a name is the shade's where its code and the
    range are ``told`` elsewhere."""
    found = _in_piece(one.piece, one.closeness, parted)
    ask, asks_number = "", one.caption.asks_number and one.piece.span.line != one.caption.line
    if one.caption.any_name and not told:
        ask = "is called by a name that may be the shade's or the yarn's"
    elif asks_number and len(found) == 1 and not has_colour_word(one.piece.text):
        ask = "stands beside a caption that asks for a number"
    return [
        replace(half, doubt=half.doubt or f"'{half.value}' {ask}")
        if ask and half.name == "shade"
        else half
        for half in found
    ]


def _in_piece(piece: Piece, closeness: float, parted: float = 0.0) -> list[Candidate]:
    code, name = _halves(piece, announced=closeness > 0)
    together = max(parted, float(code is not None and name is not None))
    found = []
    if name is not None:
        found.append(_candidate("shade", piece, name, closeness, together))
    if code is not None:
        found.append(_candidate("shade_code", piece, code, closeness, together))
    if closeness > 0 and code is not None and name is None:
        found += _short_name(piece, code, closeness)
    if closeness == 0 and code and name and _NUMBER_OF.search(piece.text[: code.start]):
        ask = f"'{piece.text}' may be one name with its number, and no shade"
        return [replace(one, doubt=one.doubt or ask) for one in found]
    is_year = closeness == 0 and code is not None and YEAR.fullmatch(code.text) is not None
    if is_year and name is not None and EVENT.search(Folded(name.text).text):
        return []
    if is_year and code and name:
        ask = f"'{code.text}' beside '{name.text}' may be a year, and no shade's code"
        return [replace(one, doubt=one.doubt or ask) for one in found]
    if closeness == 0 and code and name and ":" in piece.text[name.end : code.start]:
        ask = f"'{name.text}:' may be a caption, and '{code.text}' no shade's code"
        return [replace(one, doubt=one.doubt or ask) for one in found]
    return found


_IN_BRACKETS = re.compile(r"\s?\((?P<code>(?!(?:19|20)\d\d\))[A-Z]{0,3}\d[\w./-]*)\)")


def _coded_behind(
    one: Link, told: Sequence[Candidate], parted: float, lines: Sequence[Line]
) -> list[Candidate]:
    """The code in brackets right behind the name that a caption announces, before more of a
    sentence: "Kestrel (D369). Simmer"."""
    span = one.piece.span
    line = lines[span.line] if span.line < len(lines) else None
    behind = _IN_BRACKETS.match(line.text, span.end) if line is not None else None
    if line is None or behind is None or [half.name for half in told] != ["shade"]:
        return []
    place = Span(span.line, behind.start("code"), behind.end("code"))
    code = Found(0, len(behind["code"]), behind["code"], 1.0, False)
    piece = part_of(one.piece, line, place)
    return [_candidate("shade_code", piece, code, one.closeness, max(parted, 1.0))]


def _short_name(piece: Piece, code: Found, closeness: float) -> list[Candidate]:
    """Two letters behind a code, which may be a shade's name, "Is", and are asked about."""
    rest = piece.text[code.end :]
    name = rest.strip(" -–—·/")
    if len(name) != _SHORT_NAME or not name.isalpha() or not name[0].isupper():
        return []
    start = code.end + rest.index(name)
    found = Found(start, start + len(name), name, 0.5, False)
    one = _candidate("shade", piece, found, closeness, 1.0)
    return [replace(one, doubt=f"'{name}' is short for a shade's name")]


def _halves(piece: Piece, *, announced: bool = False) -> tuple[Found | None, Found | None]:
    """Code and name in a piece; neither a caption that was missed nor words of care, nor a
    kind of fibre by itself, are a shade's name.  What a caption announces is hardly another that
    was misread: "Paille" is a letter off "Taille"."""
    code, name = code_and_name(piece.text)
    if name is not None and UNIT.fullmatch(Folded(name.text).text):
        return None, None
    if not announced and code is not None and PLY.fullmatch(Folded(piece.text).text):
        return None, None
    if name is not None and (
        is_caption(name.text, misread=not announced)
        or is_care(name.text)
        or AND_MORE.match(name.text)
        or asks_to_order(name.text)
        or ONLY_LINKS.fullmatch(Folded(name.text).text)
        or is_kind(name.text)
        or (not announced and names_no_shade(code, name))
        or (
            names_nothing(name.text.strip(" ."))
            and not (announced and UNDYED.fullmatch(Folded(name.text).text))
        )
    ):
        return code, None
    return code, name


def _candidate(
    name: str, piece: Piece, found: Found, closeness: float, together: float
) -> Candidate:
    span = Span(piece.span.line, piece.span.start + found.start, piece.span.start + found.end)
    cues = {
        "caption": float(closeness > 0),
        "closeness": closeness,
        "shape": found.shape,
        "together": together,
        "paired": float(together > 0),
        "colour": float(name == "shade" and has_colour_word(found.text)),
    }
    doubt = doubt_of(name, found, piece)
    loose = closeness == 0 and (together < 1 or " " in found.text)
    if not doubt and name == "shade_code" and closeness == 0 and may_begin_with_caption(found.text):
        doubt = f"'{found.text}' may be the code as a whole, or begin with a caption"
    if not doubt and name == "shade" and loose and is_only_fibres(found.text):
        doubt = f"'{found.text}' may be the shade or a word about the fibre"
    return Candidate(name, found.text, (span,), cues, doubt=doubt)


def _beside(
    announced: Sequence[Piece], free: Sequence[Piece], missing: str, lines: Sequence[Line]
) -> list[Candidate]:
    """The other half of a shade of which a caption announces one half: the nearest free
    piece of the right form.  The clause that opens a sentence is no name."""
    found = _numbered_beside(free) if missing == "shade_code" else []
    for piece in free:
        distance = min((gap_in_heights(piece, other) for other in announced), default=99.0)
        code, name = _halves(piece, announced=_is_right_behind(piece, announced, lines))
        value = name if missing == "shade" else code
        if value is None or (code is not None and name is not None):
            continue
        if missing == "shade" and _CLAUSE_THEN.match(lines[piece.span.line].text, piece.span.end):
            continue
        if distance <= _NEIGHBOUR_REACH:
            nearness = 1 - distance / _NEIGHBOUR_REACH
            one = _candidate(missing, piece, value, 0.0, 0.5 * nearness)
            if piece.is_quoted and all(piece.span.line != other.span.line for other in announced):
                ask = f"'{value.text}' in quotes may be the shade's name or the yarn's"
                one = replace(one, doubt=one.doubt or ask)
            if missing == "shade" and not one.cues["colour"]:
                ask = _asked_in_stack(piece, announced, lines)
                one = replace(one, doubt=one.doubt or ask)
            far = missing == "shade" and one.cues["together"] < _NEAR_ENOUGH
            found.append(_left(one) if far and not one.cues["colour"] else one)
    return found


def _is_right_behind(piece: Piece, announced: Sequence[Piece], lines: Sequence[Line]) -> bool:
    """Whether nothing but a mark parts ``piece`` from one of ``announced`` in its line: "Natural"
    is the shade behind "Shade 03,"."""
    text = lines[piece.span.line].text
    return any(
        one.span.line == piece.span.line
        and one.span.end < piece.span.start
        and text[one.span.end : piece.span.start].strip() in _PARTS_HALVES
        for one in announced
    )


_PARTS_HALVES = frozenset((",", "-", "–", "/", "·"))

_ALIKE = 1.3


def _asked_in_stack(piece: Piece, announced: Sequence[Piece], lines: Sequence[Line]) -> str:
    """What is asked of a name right above the line of the shade's code where another name is set
    alike right above it: it may be that of the maker or the range; empty elsewhere."""
    at = piece.span.line
    own = lines[at]
    if not any(is_next_line(own, lines[one.span.line]) for one in announced):
        return ""
    for above in lines:
        low_px, high_px = sorted((above.height_px, own.height_px))
        named = _halves_of(above.text)
        if named and above is not own and is_next_line(above, own) and high_px < _ALIKE * low_px:
            return f"'{piece.text}' may be the shade, or a name like '{above.text}' above it"
    return ""


def _halves_of(text: str) -> bool:
    code, name = code_and_name(text.strip())
    return name is not None and code is None


_CODE_WORD = re.compile(r"(?:cod|code|codice|codigo|kod|kode|clave)[\W_]*")

_CODE_REACH = 1.5


def _coded_beside(
    announced: Sequence[Piece], links: Sequence[Link], lines: Sequence[Line]
) -> list[Candidate]:
    """Codes behind a bare word for one right beside or below a shade's name, "Código LL-03" below
    "Color: Café claro": asked about, for it may be the article's."""
    found = []
    for one in links:
        said = lines[one.caption.line].text[one.caption.start : one.caption.end]
        own = frame_of(lines[one.caption.line], one.caption.start, one.piece.span.end)
        near = one.caption.line == one.piece.span.line and any(
            own.gap_px(frame_of(lines[other.span.line], 0, len(lines[other.span.line].letters)))
            <= _CODE_REACH * other.height_px
            for other in announced
        )
        code, name = _halves(one.piece)
        is_bare = one.caption.role is Role.NUMBER and _CODE_WORD.fullmatch(Folded(said).text)
        if is_bare and near and code is not None and name is None and code.alone:
            half = _candidate("shade_code", one.piece, code, 0.0, 0.1)
            ask = f"'{said.strip()} {code.text}' may be the code of the shade or of the article"
            found.append(replace(half, doubt=half.doubt or ask))
    return found


def _numbered_beside(free: Sequence[Piece]) -> list[Candidate]:
    """Codes behind a word for a number, "number 26" in the sentence of a shade: asked about, for
    they may be anything's."""
    found = []
    for piece in free:
        match = CODE_BEHIND_WORD.fullmatch(piece.text)
        if match is not None:
            code = Found(match.start("code"), match.end("code"), match["code"], 0.5, False)
            one = _candidate("shade_code", piece, code, 0.0, 0.1)
            found.append(replace(one, doubt=f"'{piece.text}' may be the shade's number"))
    return found


def _behind_range(
    free: Sequence[Piece], lines: Sequence[Line], range_: Candidate | None
) -> list[Candidate]:
    """The name that a printed mark parts from the range before it in its line: "Sonnhalde -
    Kornblume"."""
    if range_ is None:
        return []
    place, found = range_.spans[-1], []
    for piece in free:
        code, name = _halves(piece)
        between = lines[place.line].text[place.end : piece.span.start].strip()
        is_next = piece.span.line == place.line and piece.span.start > place.end
        if is_next and between in PARTING and name is not None and code is None:
            found.append(_candidate("shade", piece, name, 0.0, _PARTED))
    return found[:1]


def _names_left(free: Sequence[Piece], lines: Sequence[Line]) -> list[Candidate]:
    """Names that are neither the maker's nor the range's, on a tag that has the shade's code
    elsewhere: perhaps its name, and always asked about.  A few small words, or part of a sentence,
    are none."""
    names = [
        (piece, name)
        for piece in free
        for code, name in [_halves(piece)]
        if name is not None and code is None
        if not (_is_in_sentence(piece, lines) or is_saying(piece, lines[piece.span.line]))
    ]
    return [
        _left(_candidate("shade", piece, name, 0.0, 0.0))
        for piece, name in names
        if not (
            has_trade_word(name.text) or is_only_fibres(name.text) or is_other_matter(name.text)
        )
        and (name.text[0].isupper() or all(other.text.islower() for _, other in names))
    ]


def _is_in_sentence(piece: Piece, lines: Sequence[Line]) -> bool:
    """Whether the line of ``piece`` has many words more."""
    line = lines[piece.span.line].text if piece.span.line < len(lines) else ""
    return len(line.split()) - len(piece.text.split()) >= _SENTENCE


def _left(one: Candidate) -> Candidate:
    ask = f"nothing says that '{one.value}' is the shade"
    return replace(one, cues={**one.cues, LEFT: 1.0}, doubt=one.doubt or ask)


_Halves = tuple[Piece, Found | None, Found | None]


def _uncaptioned(free: Sequence[Piece], lines: Sequence[Line]) -> list[Candidate]:
    """A shade without captions: a code and a name in one piece, or side by side."""
    found: list[Candidate] = []
    halves: list[_Halves] = []
    split = [(piece, *_halves(piece)) for piece in free]
    for piece, code, name in split:
        if name is not None and (is_other_matter(name.text) or has_trade_word(name.text)):
            continue
        if code is not None and name is not None:
            found += _asked_of_largest(_in_piece(piece, 0.0), piece, lines)
        elif name is not None and piece.is_quoted:
            found.append(_candidate("shade", piece, name, 0.0, _QUOTED))
        elif code is not None or name is not None:
            halves.append((piece, code, name))
    if found:
        found = _with_town_doubt(found, halves, split)
        return found + _parted_by_mark(halves, lines)
    found = _numbered(halves) + _side_by_side(halves)
    coded = any(one.name == "shade_code" for one in found)
    return found if coded or not found else found + _numbered_beside(free)


def _asked_of_largest(
    found: Sequence[Candidate], piece: Piece, lines: Sequence[Line]
) -> list[Candidate]:
    """``found`` in ``piece`` without a caption, asked about where it is the largest print of the
    tag: "Pastora 4" may be the range with its number."""
    others = [line.height_px for at, line in enumerate(lines) if at != piece.span.line]
    if not others or piece.height_px < _LARGEST * max(others):
        return list(found)
    ask = f"'{piece.text}' is the largest print: is it the range with its number?"
    return [replace(one, doubt=one.doubt or ask) for one in found]


def _with_town_doubt(
    found: Sequence[Candidate], halves: Sequence[_Halves], split: Sequence[_Halves]
) -> list[Candidate]:
    """``found`` with a doubt at what may be a town behind its post code, where another name that
    is left may be the shade's."""
    towns = [piece for piece, _, _ in split if _TOWN.fullmatch(piece.text)]
    others = [name.text for _, code, name in halves if name is not None and code is None]
    if not others:
        return list(found)
    return [
        replace(one, doubt=one.doubt or f"'{town.text}' may be a town, and '{others[0]}' the shade")
        if (town := next((each for each in towns if meet(each.span, one.spans[0])), None))
        else one
        for one in found
    ]


def _parted_by_mark(halves: Sequence[_Halves], lines: Sequence[Line]) -> list[Candidate]:
    """Codes and names that only a mark parts in one line, "M60 - Lichen": rivals of a code and a
    name that stand together elsewhere."""
    found: list[Candidate] = []
    for (one, code, _), (other, _, name) in permutations(halves, 2):
        first, last = sorted((one.span, other.span), key=lambda span: span.start)
        if code is not None and name is not None and first.line == last.line:
            between = lines[first.line].text[first.end : last.start].strip()
            if between in PARTING:
                found.append(_candidate("shade", other, name, 0.0, _PARTED))
                found.append(_candidate("shade_code", one, code, 0.0, _PARTED))
    return found


def _side_by_side(halves: Sequence[_Halves]) -> list[Candidate]:
    """Names, each with the nearest code."""
    found: list[Candidate] = []
    for piece, _, name in halves:
        if name is None:
            continue
        partners = [
            (gap_in_heights(piece, other), other, code)
            for other, code, _ in halves
            if code is not None and gap_in_heights(piece, other) <= _NEIGHBOUR_REACH
        ]
        nearest = min(
            partners, key=lambda one: (one[1].span.line != piece.span.line, one[0]), default=None
        )
        if nearest is None:
            found.append(_candidate("shade", piece, name, 0.0, 0.0))
            continue
        distance, other, code = nearest
        together = 0.8 * (1 - distance / _NEIGHBOUR_REACH)
        found.append(_candidate("shade", piece, name, 0.0, together))
        if code is not None:
            rival = next((one.text for _, one, _ in partners if one is not other), "")
            ask = f"'{other.text}' or '{rival}' beside '{piece.text}' may be the shade's code"
            one = _candidate("shade_code", other, code, 0.0, together)
            found.append(replace(one, doubt=one.doubt or ask) if rival else one)
    return found


def _numbered(halves: Sequence[_Halves]) -> list[Candidate]:
    """Codes behind a number sign, which tags set before a colour's number; asked about, for
    it stands before other numbers too (common practice, no source)."""
    return [
        replace(
            _candidate("shade_code", piece, code, 0.0, 0.0),
            doubt=f"nothing but its sign says that '{piece.text}' is the shade's code",
        )
        for piece, code, _ in halves
        if code is not None and piece.text.startswith("#")
    ]


def _best_first(found: Sequence[Candidate]) -> list[Candidate]:
    return sorted(found, key=lambda one: (-one.cues["closeness"], -one.cues["together"]))
