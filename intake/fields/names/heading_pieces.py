"""The pieces of free print that may be headings: parted where one holds two names, joined where
one name stands in two lines."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations
from statistics import median

from intake.fields.captions import has_own_label
from intake.fields.clutter import COUNTRY, behind_copyright, heads_address, web_letters
from intake.fields.codes import CODE_BEHIND_WORD, code_and_name, whole_name
from intake.fields.fibre.print import KIND_WORDS
from intake.fields.letters import Folded
from intake.fields.names.headings import Surroundings
from intake.fields.names.house_words import BY_WORDS
from intake.fields.names.leads import (
    ASKS_MAKER,
    DONE,
    FOR_HOUSE,
    GOODS,
    LEADS_ON,
    NOT_MAKER,
    OF_NAMES,
    PRESENTS,
    house_made_for,
    is_by,
    made_for,
    says_for_whom,
)
from intake.fields.names.no_names import is_care, names_kit, names_nothing
from intake.fields.names.stacks import ONE_SIZE, is_set_alike, is_stacked
from intake.fields.names.trade_words import (
    asks_kindly,
    has_firm_word,
    has_trade_word,
    is_legal_form,
    is_named_like_a_firm,
    is_only_trade,
    is_word_of_trade,
)
from intake.fields.pieces import (
    Piece,
    ends_line,
    gap_in_heights,
    is_next_line,
    joined,
    meet,
    opens_line,
    part_of,
)
from intake.records import Line, Span

_LARGE = 0.8
"""Print of at least this share of the tallest names is large."""

_RIGHT_BELOW = 0.8
"""The name of a shade stands at most so many heights of its code below that."""

_LARGER_THAN_PRINT = 1.4
"""Small letters of so many times the usual height of a tag's lines may be a name's."""

_CAPITAL = re.compile(r"(?:['’][tns] )?[^\W\d_a-zß-ÿ]")

_HALF = 0.5
"""The same in small letters on a tag whose tallest name is in small letters, too."""

_SIZED = re.compile(
    r"(?<![a-z])(?:talla|taglia|taille|grosse|size|maat|storlek|storrelse|strl?|gr)\.? \d{2}(?!\d)"
)
"""What a garment takes: "Jersey talla 40: 9 ovillos"."""

_SAYING = 3
"""So many words and a full stop are a saying."""

_WIDE_SPACE = 0.45
"""Words of one line further apart than this, as :func:`gap_in_heights` measures, are no one name,
whatever the space of their typeface."""

MAKER_AND_RANGE = 2
"""Most tags are headed with so many names."""

OF_WORDS = "de|du|des|di|del|della|of|von|van|and|und|et|y|e|og|och|&"
"""Words that hold a name together, and with which the second line of one begins."""

ARTICLES = "the|het|det|den|der|die|das|l[aeo]|les|el|los|las|il|gli"
"""Articles, but for those that are words for "of" as well."""

_OF = re.compile(rf"(?:{OF_WORDS})\s")

BY = re.compile(rf"(?:^|(?<=\w) )(?P<by>{BY_WORDS}) (?!hand\b)(?=\S)")
"""A word for "by" before a name, with nothing or a name before it; "by hand" is by nobody."""

_DONE = re.compile(DONE)

_SOLD = re.compile(
    r"(?:[^\W\d_]+ |\d+/\d+ )?(?:[\w-]*(?:yarn|wool|garn|wolle|garen|wol|ull|uld|bomuld|bomull"
    r"|katoen|lin|hor|streng|muster)|laine|lana|filato|hilo|fil)(?: [^\W\d_]+){0,2}"
)
"""What a firm sells, before "from" and its name: "8/4 bomuld fra Bomuldskompagniet"."""

_WORK = re.compile(rf" {DONE}(?: {GOODS.pattern})?$")
"""What a maker does, behind its name: "Sjölyckan handfärgat garn"."""

PARTING = frozenset("-–—·•|/")
"""Marks that part a name from what stands behind it."""

_NUMBERED = re.compile(r"[^\W\d_]{2,}[^\d]*[ -]\d{1,4}(?:/\d{1,2}|(?: |-)[^\d]+)?")
_NUMBER = re.compile(r"[ -]\d{1,4}(?:/\d{1,2})?")

_QUOTED = re.compile(r"([^\W\d_][^\"“”„«»]{2,}?)\s+[\"“„«]\s?([^\"“”„«»]{3,}?)\s?[\"”“»]\s*")
"""A maker's name and a range's in quotes behind it."""

_LEADS_ON = re.compile(
    r".*\b(?:in|im|i|a|en|al|au|aux|nel|nella|till|til|med|mit|with|avec|con|met|per|pr|pro|for|fur"
    r"|pour|para|voor|from|fran|fra|von|vom|by|the|der|die|das|het|den|det|le|la|el|il)"
)
"""What ends so leads on to something and names nothing: "Dyed in" before "lot"."""

_ASKS_NUMBER = re.compile(r"\w*(?:nr|nummer|numero|number)\.?")
"""A word that asks for a number, "Varunr"."""

_LINKS_ON = re.compile(r" (?:&|and|und|et|y|e|en|og|och)$")
"""A line of a name that ends so is broken before its last part."""

_IN_COUNTRY = re.compile(rf"(?:,|\s*[·•|/–—-])\s*{COUNTRY}\W*$")
"""Behind a town, to the end of its line."""

_FINISHES = frozenset(
    {
        "superwash",
        "baby",
        "kid",
        "superkid",
        "organic",
        "recycled",
        "mercerised",
        "combed",
        "extrafine",
    }
)
"""Kinds of fibre that alone name no yarn."""


def heading_pieces(free: Sequence[Piece], around: Surroundings) -> list[Piece]:
    """Those of the ``free`` pieces that may name the maker or the range; "Drystone by
    Hollin Fold" is two."""
    told = bool(around.shades or around.shade_codes)
    coded = {
        piece.span.line
        for piece in free
        if code_and_name(piece.text)[0] is not None and not (told and has_number(piece))
    }
    before_shade = [piece for piece in free if _is_before_shade(piece, free, around)]
    parted = [
        part
        for piece in _wrapped(
            _with_trade_beside(
                [
                    one
                    for one in free
                    if one.span.line not in coded or one in before_shade or _is_of_firm(one, around)
                    if not (has_own_label(one.text) or CODE_BEHIND_WORD.fullmatch(one.text))
                ],
                around,
            ),
            around,
        )
        for one in _parted_at_quotes(_before_aside(piece, around), around)
        for part in _parted_at_by(one, around)
    ]
    parted = _with_forms_below(parted, around)
    tallest_px = max((piece.height_px for piece in parted), default=0.0)
    all_small = any(piece.text.islower() for piece in parted if piece.height_px == tallest_px)
    small_px = (_HALF if all_small else _LARGE) * tallest_px
    named = [
        piece
        for piece in parted
        if not (_is_town(piece, around) or is_saying(piece, around.lines[piece.span.line]))
        and not asks_kindly(around.lines[piece.span.line].text)
        and not _SIZED.search(Folded(around.lines[piece.span.line].text).text)
        and not names_kit(around.lines[piece.span.line].text)
        and _is_heading(
            piece,
            small=piece.height_px >= small_px
            or _is_of_firm(piece, around)
            or _is_in_small_letters(piece, around),
            numbered=told,
        )
    ]
    apart = [piece for piece in named if not _is_below_code(piece, around)]
    named = apart if len(apart) >= MAKER_AND_RANGE else named
    return _stacked_names(_whole_web_names(named, around), around)


def _with_forms_below(pieces: Sequence[Piece], around: Surroundings) -> list[Piece]:
    """``pieces`` without those that are nothing but a legal form, each joined to the name that ends
    the line above it: "Anton Graswander" and "GmbH"."""
    forms = [one for one in pieces if is_legal_form(one.text)]
    rest = [one for one in pieces if one not in forms]
    for form in forms:
        below = around.lines[form.span.line]
        for at, one in enumerate(rest):
            line = around.lines[one.span.line]
            alike = line.height_px < ONE_SIZE * below.height_px
            if ends_line(line, one) and alike and not one.tail and is_next_line(line, below):
                rest[at] = joined(one, form)
                break
    return rest


def _is_below_code(piece: Piece, around: Surroundings) -> bool:
    """Whether a name stands right below the code of a shade that a caption announces, in no larger
    print: the name of that shade."""
    return any(
        -0.3 * frame.height_px < piece.frame.top - frame.bottom < _RIGHT_BELOW * frame.height_px
        and frame.aside_px(piece.frame) < frame.height_px
        and piece.height_px < ONE_SIZE * frame.height_px
        for frame in around.shade_codes
    )


def _with_trade_beside(pieces: list[Piece], around: Surroundings) -> list[Piece]:
    """``pieces``, those made one of which a comma parts a word of the trade that ends their line,
    "Flaxner & Sohn, Spinnerei", or a wide space one that begins it, "Filatura  Cannetorto"."""
    for one, other in permutations(pieces, 2):
        line = around.lines[one.span.line]
        is_next = one.span.line == other.span.line and one.span.end < other.span.start
        between = line.text[one.span.end : other.span.start].strip()
        before = not between and is_only_trade(one.text) and opens_line(line, one)
        if (
            is_next
            and ends_line(line, other)
            and (before or (between == "," and is_only_trade(other.text)))
            and (not before or gap_in_heights(one, other) < _WIDE_SPACE)
        ):
            rest = [piece for piece in pieces if piece is not one and piece is not other]
            whole = part_of(one, line, Span(one.span.line, one.span.start, other.span.end))
            return _with_trade_beside([whole, *rest], around)
    return pieces


def _joined_as_printed(one: Piece, other: Piece, around: Surroundings) -> Piece:
    """Two pieces that are one, with the comma that is printed behind the first."""
    whole = joined(one, other)
    last = one.spans[-1]
    behind = around.lines[last.line].text[last.end :].lstrip()
    return replace(whole, text=f"{one.text}, {other.text}") if behind[:1] == "," else whole


def is_saying(piece: Piece, line: Line) -> bool:
    """Whether words, most in small letters, end their ``line`` with a stop: "Soft as a Sunday."."""
    words = piece.text.split()
    stop = line.text[piece.span.end :].strip()
    return len(words) >= _SAYING and stop == "." and any(word[0].islower() for word in words[1:])


def _wrapped(pieces: list[Piece], around: Surroundings) -> list[Piece]:
    """``pieces``, those joined that are one name in two lines: one of its lines is nothing but
    a word of the trade, or its second begins with "of", "and" or the like, or its first ends with
    "and"."""
    for one, other in permutations(pieces, 2):
        named_below = has_trade_word(other.text) and is_only_trade(other.text)
        broken = ends_line(around.lines[one.span.line], one)
        linked = _LINKS_ON.search(Folded(one.text).text) is not None
        is_one = named_below or (
            broken and (is_only_trade(one.text) or _is_of(other.text) or linked)
        )
        if is_one and _goes_on_below(one, other) and (linked or not one.tail):
            rest = [piece for piece in pieces if piece is not one and piece is not other]
            return _wrapped([_joined_as_printed(one, other, around), *rest], around)
    return pieces


def _is_of_firm(piece: Piece, around: Surroundings) -> bool:
    """Whether a piece is the name before an address or behind a sign of copyright, or begins its
    line and is named like a firm: the number in its line is that of a street, a town or a
    telephone."""
    line = around.lines[piece.span.line]
    named = has_firm_word(piece.text) and opens_line(line, piece) and " " in piece.text
    return named or heads_address(line, piece.span) or behind_copyright(line, piece.span)


def _is_in_small_letters(piece: Piece, around: Surroundings) -> bool:
    """Whether small letters that are all of their line may be a name's: it has a word of the trade,
    or is larger than the print of the tag."""
    line = around.lines[piece.span.line]
    if not (opens_line(line, piece) and ends_line(line, piece) and piece.text.islower()):
        return False
    usual_px = median([each.height_px for each in around.lines])
    large = piece.height_px > _LARGER_THAN_PRINT * usual_px
    return large or (" " in piece.text and has_firm_word(piece.text))


def _is_town(piece: Piece, around: Surroundings) -> bool:
    """Whether a piece is the town before a country: "Olmetti, Italia"."""
    line = around.lines[piece.span.line]
    behind = Folded(line.text[piece.span.end :]).text
    return (
        opens_line(line, piece)
        and _IN_COUNTRY.match(behind) is not None
        and not has_trade_word(piece.text)
    )


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


def _whole_web_names(pieces: list[Piece], around: Surroundings) -> list[Piece]:
    """``pieces``, those joined that spell a web address's name together: a maker's name set
    in two lines."""
    for one, other in permutations(pieces, 2):
        if web_letters(Folded(one.text + other.text).text) in around.web_names:
            rest = [piece for piece in pieces if piece is not one and piece is not other]
            return [_joined_as_printed(one, other, around), *rest]
    return pieces


def _stacked_names(pieces: list[Piece], around: Surroundings) -> list[Piece]:
    """``pieces``, those joined that are a name in two lines of large print.  If the tag has no
    further name, the lines may be the maker's and the range's, and stay two."""
    usual_px = median([line.height_px for line in around.lines] or [1.0])
    large = [piece for piece in pieces if piece.height_px > ONE_SIZE * usual_px]
    pairs = [pair for pair in permutations(large, 2) if is_in_two_lines(*pair, around)]
    ends = [id(piece) for pair in pairs for piece in pair]
    found = [pair for pair in pairs if all(ends.count(id(piece)) == 1 for piece in pair)]
    if len(pieces) - len(found) < MAKER_AND_RANGE:
        return pieces
    apart = [piece for piece in pieces if all(piece not in pair for pair in found)]
    return [*(joined(*pair) for pair in found), *apart]


def is_in_two_lines(upper: Piece, lower: Piece, around: Surroundings) -> bool:
    """Whether two pieces may be one name that was broken where its line was full; one that alone
    is spelt in a web address is whole."""
    if any(web_letters(Folded(one.text).text) in around.web_names for one in (upper, lower)):
        return False
    behind = around.lines[upper.span.line].text[upper.span.end :]
    ends = not any(sign.isalnum() for sign in behind)
    return ends and is_stacked(upper, lower) and may_be_one_name(upper, lower)


def _before_aside(piece: Piece, around: Surroundings) -> Piece:
    """``piece`` without what is said of its name in brackets: "Chalk Yarns (a division of ...)"."""
    at = piece.text.find(" (")
    if at < 0 or piece.tail:
        return piece
    span = Span(piece.span.line, piece.span.start, piece.span.start + at)
    return part_of(piece, around.lines[piece.span.line], span)


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
    if (verb := PRESENTS.search(folded.text)) is not None:
        return _around(piece, folded, verb, around)
    work = _WORK.search(folded.text)
    if work is not None and piece.text[slice(*folded.span(*work.span()))].islower():
        return _around(piece, folded, work, around)
    for match in BY.finditer(folded.text):
        before, behind = folded.text[: match.start()], folded.text[match.end() :]
        backed = web_letters(behind) in around.web_names
        first, last = folded.span(*match.span("by"))
        in_a_name = match["by"] in OF_NAMES and (before or not piece.text[first:last].islower())
        house = made_for(f"{before} {match['by']} ")
        start, _ = folded.span(match.end(), len(folded.text))
        sells = _SOLD.fullmatch(before) is not None
        backed = backed or (sells and is_named_like_a_firm(piece.text[start:]))
        if not house and (NOT_MAKER.search(before) or (in_a_name and not backed)):
            continue
        if in_a_name and is_only_trade(before):
            continue  # "SPINNERIJ DE RIETKRAAG"
        sold = sells and not before[:1].isupper()
        if house or sold or _DONE.fullmatch(before.strip()) or GOODS.fullmatch(before.strip()):
            before = ""
        _, end = folded.span(0, match.start()) if before else (0, 0)
        line = around.lines[piece.span.line]
        spans = [Span(piece.span.line, piece.span.start, piece.span.start + end)] if before else []
        stop = piece.span.end if before else _before_house(piece, start)
        spans.append(Span(piece.span.line, piece.span.start + start, stop))
        parts = [part_of(piece, line, span) for span in spans]
        if all(part.text[:1].isupper() for part in parts):
            return parts
    return [piece]


def _around(piece: Piece, folded: Folded, verb: re.Match[str], around: Surroundings) -> list[Piece]:
    """The names in ``piece`` before and behind a word that parts them."""
    line = around.lines[piece.span.line]
    ends = ((0, verb.start()), (verb.end() + 1, len(folded.text)))
    first = piece.span.start
    spans = [
        Span(piece.span.line, *(first + at for at in folded.span(start, end)))
        for start, end in ends
        if start < end
    ]
    return [part_of(piece, line, span) for span in spans]


_CAPITAL_ARTICLE = re.compile(rf"(?<=\s)(?=[A-Z])(?i:{ARTICLES})\s+$")
"""An article that a name begins with, "La Huppe"."""


def _led_to(piece: Piece, folded: Folded, around: Surroundings) -> Piece | None:
    """The name in ``piece`` that words for the maker lead up to: "une laine de la Filature des
    Aulnes", "Hersteller: Garnhof Lerchengrund"."""
    line = around.lines[piece.span.line]
    if (start := house_made_for(line, piece)) is not None:
        return part_of(piece, line, Span(piece.span.line, start, piece.span.end))
    for lead in (LEADS_ON.match(folded.text), ASKS_MAKER.match(folded.text)):
        if lead is None or lead.end() >= len(folded.text):
            continue
        start, _ = folded.span(lead.end(), len(folded.text))
        if article := _CAPITAL_ARTICLE.search(piece.text, 0, start):
            start = article.start()
        span = Span(piece.span.line, piece.span.start + start, _before_house(piece, start))
        name = part_of(piece, line, span)
        if name.text[:1].isupper() and whole_name(name.text):
            return name
    return None


def _before_house(piece: Piece, start: int) -> int:
    """Where the maker's name that begins with letter ``start`` of ``piece`` ends: before
    the house for which it was made, or with the piece."""
    house = FOR_HOUSE.search(piece.text, start)
    return piece.span.start + house.start() if house else piece.span.end


_IS_ARTICLE = re.compile(rf"{ARTICLES}|de")


def maker_and_range(piece: Piece, line: Line) -> tuple[Piece, Piece] | None:
    """The likeliest two names in a piece that may be both in one line: the word of the trade with
    the word before it, or behind it where it opens the line, and the rest; ``None`` where the rest
    is on both sides, or an article tells not how much goes with it."""
    words = [Span(piece.span.line, *match.span()) for match in re.finditer(r"\S+", line.text)]
    words = [word for word in words if meet(word, piece.span)]
    trade = [
        at for at, word in enumerate(words) if is_word_of_trade(line.text[word.start : word.end])
    ]
    if piece.tail or not trade:
        return None
    first = max(trade[0] - 1, 0)
    maker, before, behind = words[first : first + 2], words[:first], words[first + 2 :]
    rest = before or behind
    if not rest or (before and behind):
        return None
    if _IS_ARTICLE.fullmatch(Folded(line.text[maker[-1].start : maker[-1].end]).text):
        return None
    parts = (Span(piece.span.line, part[0].start, part[-1].end) for part in (maker, rest))
    one, other = (part_of(piece, line, span) for span in parts)
    return one, other


def may_be_one_name(piece: Piece, other: Piece) -> bool:
    """Whether two pieces are set in one size and one case and neither is plainly a whole
    name, as a word of the trade with another word is."""
    whole = any(has_trade_word(one.text) and " " in one.text for one in (piece, other))
    return is_set_alike(piece, other) and not whole


def _is_before_shade(piece: Piece, free: Sequence[Piece], around: Surroundings) -> bool:
    """Whether a mark parts a name from the code and the name of a shade behind it in its line:
    "Flockenzart - 09 Nebel"."""
    text = around.lines[piece.span.line].text
    return any(
        other.span.line == piece.span.line
        and other.span.start > piece.span.end
        and text[piece.span.end : other.span.start].strip() in PARTING
        and all(code_and_name(other.text))
        for other in free
    )


def has_number(piece: Piece) -> bool:
    """Whether ``piece`` may be a name with a number in it or behind it: "Merino 400 Lace"."""
    return (
        _NUMBERED.fullmatch(piece.text) is not None
        and whole_name(_NUMBER.sub("", piece.text)) is not None
    )


def _is_heading(piece: Piece, *, small: bool, numbered: bool) -> bool:
    """Whether a piece may be a heading; in small letters only where ``small`` allows it, with a
    number only where ``numbered`` does."""
    plain = piece.text.replace(", ", " ")  # before a word of the trade
    named = whole_name(plain) is not None or (numbered and small and has_number(piece))
    return (
        named
        and (_CAPITAL.match(piece.text) or (small and piece.text.islower()))
        and not names_nothing(piece.text)
        and KIND_WORDS.get(Folded(piece.text).text) not in _FINISHES
        and not is_by(piece.text)
        and not says_for_whom(piece.text)
        and not is_care(piece.text)
        and not _ASKS_NUMBER.fullmatch(Folded(piece.text).text)
        and not (" " in piece.text and _LEADS_ON.fullmatch(Folded(piece.text).text))
    )
