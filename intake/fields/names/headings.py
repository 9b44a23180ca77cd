"""Headings: which of a tag's free names is the maker's, and which the range's.

Every pair of names is an option, and every name as the maker without a range.  Each
option is weighed by what is known of its names (size, place, words of the trade, the web
address) in a conditional logistic regression, a model of discrete choice (D. McFadden,
"Conditional logit analysis of qualitative choice behavior", 1974; from memory).  Its
figures are in ``headings.json`` beside this file; ``fixtures/fit_headings.py`` fits them on
drawn tags with known truth.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from itertools import product
from statistics import median

from intake.fields.care.events import VOCABULARY as CARE_WORDS
from intake.fields.clutter import (
    begins_with_postal_address,
    behind_copyright,
    heads_address,
    web_spellings,
)
from intake.fields.fibre.print import FIBRE_WORDS, KIND_WORDS
from intake.fields.letters import WORD, Folded
from intake.fields.names.colour_words import has_colour_word
from intake.fields.names.house_words import BY_WORDS
from intake.fields.names.trade_words import (
    BY_HAND,
    has_firm_word,
    has_trade_word,
    is_named_like_a_firm,
    is_only_trade,
)
from intake.fields.pieces import Frame, Piece, is_letter_spaced
from intake.records import Line, Span

Features = dict[str, float]
"""Named evidence about a name or a pair of names, each between -1 and 1."""

Pair = tuple[int, int | None]
"""An option: the number of the maker's name, and of the range's if there is one."""

_REACH = 4.0
"""Beyond this distance, in heights of the smaller print, two names stand apart."""

_TABLE_REACH = 8.0
"""A name stands at most so many heights behind its caption in a table."""

_NEXT_LINE = 0.6
"""The lines of a firm's name and of its address are at most so many heights of the smaller one
apart."""

_LARGER = 1.6
"""A name is set in at most so many times the size of the address below it; a larger one may be
the range's as well."""

_ECHO_LETTERS = 5
"""A word of so many letters that stands elsewhere on the tag too is an echo."""

_QUALITY = re.compile(
    r"\b(?:soft|fine|tweed|merino|baby|cotton|silk\w*|alpaca|mohair|sock\w*|fino|fina|extra|super"
    r"|classic|natur\w*|organic|bio|deluxe|light|lana|lino|coton|algodon|seta|soie|seide|i{1,3})\b"
)
"""Words that ranges are named with (common practice, no source)."""


_FIBRES = FIBRE_WORDS.keys() | KIND_WORDS.keys()

OF_NAMES = frozenset({"vom", "di", "da", "van", "de"})

_WEAK = OF_NAMES | {"from", "fran", "fra"}
"""Those and the ones before a place or an animal as often: "Fleece from Dolly"."""

_DID = (
    r"(?:made|spun|dyed|handspun|handdyed|handmade|produced|manufactured|created|bred|shorn"
    r"|hergestellt|gesponnen|gefarbt|handgefarbt|gemacht|produziert|gezwirnt"
    r"|filee?|teinte?|fabriquee?|produite?|faite?|retordue?|creee?"
    r"|prodott[oa]|filat[oa]|tint[oa]|fatt[oa]|torcit[oa]|realizzat[oa]"
    r"|hilad[oa]|tenid[oa]|hech[oa]|fabricad[oa]|torcid[oa]|producid[oa]"
    r"|geverfd|handgeverfd|gemaakt|getwijnd|geproduceerd"
    r"|spunn(?:en|et)|fargad|fargat|handfarg\w+|tillverkad|tillverkat|gjord|tvinn\w+"
    r"|farget|laget|produsert|spundet|farvet|handfarv\w+|fremstillet|lavet|produceret"
    # the work itself
    r"|dyeing|hand-?dyeing|(?:hand)?farbung|herstellung|fertigung|produktion|fabrication|filage"
    r"|teinture|tintura|produzione|lavorazione|produccion|fabricacion|elaboracion|verving|productie"
    r"|fargning|infargning|tillverkning|produksjon|farging|farvning|indfarvning)"
)
_AND = r"(?: ?(?:&|,|·|and|und|et|e|y|en|och|og) ?)"
DONE = rf"(?:hand[ -]|solar[ -]|naturally )?{_DID}(?:{_AND}(?:hand[ -])?{_DID})*(?: (?:{BY_HAND}))?"
"""What a maker did to the yarn, before a word for "by" (common practice, no source)."""

_BY = re.compile(rf"(?:^|\s)(?:{BY_WORDS})(?:\s?:)?\s+$")
_A = r"(?:(?:an?|the|our|une?|le|la|notre|ein|eine|unser|een|ons|en|et|ett|uno|una|un|el) )"
_GOODS = (
    r"(?:yarns?|wool|laine|fil|garn|wolle|garen|wol|filato|lana|hilo|ull|uld|ullgarn|uldgarn"
    r"|(?:registered )?(?:trademark|brand)|marque(?: deposee)?|marke|eingetragene marke|marchio"
    r"|marca(?: registrada)?|merk|varumarke|merkevare|varemaerke|range|product|produit|produkt"
    r"|prodotto|producto)"
)
_AT = (
    r"(?:from the house of|aus dem haus(?:e|e der)?|aus der|by|from|of|at|von der|von|vom|der|bei"
    r"|in der|par la|par les|par|de la|de chez|de|du|des|di|della|del|dalla|dal|da|por|van de"
    r"|van het|van|door|uit de|uit|op|av|af|fran|fra|pa|hos|ved)"
)
_SOMEWHERE = (
    r"(?: (?:in|en|i|a|au|aux|nel|nella|im|pa|op)"
    r" (?:(?:the|der|dem|la|le|el|il|de|het) )?[^\W\d_]+)?"
)
"""Where it was done: "geverfd in Friesland door", "hecho en el taller de"."""

LEADS = re.compile(rf"(?:{DONE}{_SOMEWHERE}|{_A}{_GOODS}|marque deposee|marca registrada) {_AT}")
"""Words that lead up to a maker's name: "spun at", "une laine de la"."""

GOODS = re.compile(_GOODS)
"""What a maker makes, before a word for "by"."""

_CALLED_YARN = (
    r"(?:(?:an?|ein|une?|uno?|een|ett?|en) )(?:[a-z]+[ -])?"
    r"(?:[a-z]*(?:yarn|wool|garn|wolle|garen|wol|ull|uld)|laine|lana|filato|hilo|fil|skein|hank|fed"
    r"|noste|nogle|nystan|knauel|strang|bol|streng|pelote|echeveau|gomitolo|matassa|ovillo|madeja)"
    r" (?:from|by|von|aus der|par|de chez|dalla|dal|por|uit de|van|fran|av|fra|af)"
)
"""What a ball is called, and of whom: "et sommergarn fra"."""

_BRAND_OF = (
    r"(?:(?:marke|marque|marca|brand|merk|merke|marke|maerke)"
    r" (?:der|des|de|du|von|of|van|di|del|della|av|af)"
    r"|(?:(?:an?|ein|une?|uno?|een|ett?|en) )?"
    r"(?:produit|produkt|product|prodotto|producto|erzeugnis)"
    r"(?: (?:der|des|de|du|von|of|van|di|del|della|av|af|from|fra|fran))?)"
)
"""Whose goods they are: "Marke der", "un produit"."""

_PEOPLE = (
    r"(?:by|von|par|da|por|door|av|af) (?:the )?(?:artisans?|artigian[ei]|artesan[oa]s|tejedor[ae]s"
    r"|hilander[ao]s|women|mujeres|femmes|donne|spinners|weavers|dyers)"
    r" (?:of the|of|from|de la|del|de|du|della|dei|di)"
)
"""Who of a house made it: "por artesanas de la"."""

LEADS_ON = re.compile(
    rf"(?:(?:{DONE} )?{_PEOPLE}|{LEADS.pattern}|{_CALLED_YARN}|{_BRAND_OF}) (?=\S)"
)
"""The same with something behind them."""


def leads_to_name(text: str) -> bool:
    """Whether ``text`` is words that lead up to a maker, with a name behind them: "handgefärbt in
    der Färberei Lohse"."""
    folded = Folded(text)
    lead = LEADS_ON.match(folded.text) or ASKS_MAKER.match(folded.text)
    if lead is None or folded.text[lead.end() :] in ("", "hand", "main", "mano"):
        return False
    start, _ = folded.span(lead.end(), len(folded.text))
    return text[start : start + 1].isupper()


PRESENTS = re.compile(
    r" (?:presents|presenta|prasentiert|presente(?:ert|rar|rer)?|praesenterer)(?!\w)"
)
"""Behind a maker's name, "Ovillo Feliz presenta", and perhaps before a range's."""

_SAYS_WHOM = re.compile(rf"(?:.*\W)?(?P<by>{BY_WORDS}) \S.*,\s*")


def is_town_of_maker(line: Line, piece: Piece) -> bool:
    """Whether a comma parts a name from the maker's before it in its line: "hand-dyed by Hollin
    Fold, Wexcombe", "Garnhof Lerche GmbH, Ennsau"."""
    before = line.text[: piece.span.start]
    if not before.rstrip().endswith(",") or any(letter.isdigit() for letter in piece.text):
        return False
    if is_named_like_a_firm(before.partition(",")[0]) and not has_trade_word(piece.text):
        return True
    said = _SAYS_WHOM.fullmatch(Folded(before).text)
    return leads_to_name(before) or (said is not None and said["by"] not in OF_NAMES)


_MAKER_WORD = (
    r"(?:maker|manufacturer|producer|production|produced|mill|spinner|dyer|brand|hersteller|produzent"
    r"|marke|fabricant|fabrication|producteur|marque|produttore|fabbricante|marchio|fabricante"
    r"|productor|marca|fabrikant|producent|merk|tillverkare|varumarke|produsent|merke|fabrikant"
    r"|maerke|leverandor)"
)
_SHORT_MAKER_WORD = (
    r"(?:fabri?[ck]?|fabri[ck]at[oe]?|ditta|empresa|foretag|firma|bedrijf|entreprise|unternehmen|firm|company|fabr|fabbr|tillv|tilv|herst|prod|producc|mfr|mfd|mfg|fabrica|fabrique|fabbrica"
    r"|fabrik)\.?"
)
"""Shortened or beside what they tell they count with a colon only: "Fabr.: Vrånge"."""

_ONLY_CAPTION = (
    r"(?:hersteller|produzent|manufacturer|producer|fabricant|producteur|produttore|fabbricante"
    r"|marca(?! registrada)|foretag"
    r"|fabricante|productor|fabrikant|producent|tillverkare|varumarke|produsent|leverandor)"
)
"""Those of them that begin no name."""

ASKS_MAKER = re.compile(
    rf"(?:.*\W)?(?:(?:{_MAKER_WORD}|{_SHORT_MAKER_WORD})\s*:|{_ONLY_CAPTION}(?!\w))\s*"
)
"""A caption of the maker's name, which counts only with its colon if a name may begin so."""

_FOR = "for|pour|per|para|voor|till|til"
"""Words before the house that a yarn was made for, but for those with dots."""

NOT_MAKER = re.compile(
    r"\b(?:(?:net+o?)?(?:gewicht|weight|poids|peso|\w*vikt|\w*vekt|\w*vaegt)"
    r"|design\w*|entw\w*|muster|anleitung|pattern|modele?|modell\w*|photo|foto|import\w*"
    r"|distribu\w*|distrib\w*|vertrie\w*|sold|sells|verkauf\w*|vendu\w*|vendid\w*|venduto|knit\w*"
    r"|tested|gepruft|certif\w*|zertif\w*|printed|gedruckt|forhandl\w*|salg\w*|saljs"
    r"|verkocht|verkoop|saelges|selges|solgt|sald|vendita|venta|vente"
    rf"|{_DID} (?:{_FOR}|fur))\b"
)
"""Before "by" these words name who drew the pattern, sold the yarn, tested it, or made it for
the house whose name it bears."""

FOR_HOUSE = re.compile(rf"\s+(?:{_FOR}|für|för)\s+(?P<house>[^\W\d_a-zß-ÿ].*)")
"""Behind who made a yarn: "for Reed & Home"."""

_MADE_FOR = re.compile(rf"{DONE} (?:{_FOR}|fur) (?P<house>\S.*)")


def made_for(before: str) -> str:
    """The folded name of whom a yarn was made for, where that and a word for "by" stand ``before``
    who made it: "Spun for Hotel Seeblick by"."""
    folded = Folded(before).text
    by = _BY.search(folded)
    match = by and _MADE_FOR.fullmatch(folded[: by.start()])
    return match["house"] if match else ""


def says_for_whom(text: str) -> bool:
    """Whether ``text`` tells for whom a yarn was made and nothing else: "Spun for Hotel Seeblick",
    which another name follows."""
    return _MADE_FOR.fullmatch(Folded(text).text) is not None


_MADE_IN_FOR = re.compile(
    rf"\W*(?:(?:[^,;.]* (?:is|are|ist|wird|est|e|es|ar|er|wordt) )?(?:{DONE})"
    rf" (?:in|en|i|au|aux|a) [^\W\d_]+(?: [^\W\d_]+){{0,2}}"
    rf"|(?:tillv|tilv|herst|fabr|prod|mfd)\.) (?:{_FOR}|fur) "
)
"""Whose yarn it is, made by others elsewhere: "Made in Peru for"."""


def house_made_for(line: Line, piece: Piece) -> int | None:
    """Where in ``line`` the name of the house begins for which the yarn was made elsewhere, if that
    is in ``piece``."""
    folded = Folded(line.text)
    lead = _MADE_IN_FOR.match(folded.text)
    if lead is None or lead.end() >= len(folded.text):
        return None
    start, _ = folded.span(lead.end(), len(folded.text))
    inside = piece.span.start <= start < piece.span.end
    return start if inside and line.text[start].isupper() else None


_ONLY_BY = re.compile(rf"(?:{DONE} )?(?:{BY_WORDS})|{LEADS.pattern}|{_MAKER_WORD}\s*:?")

_YARN_FIRST = re.compile(r"(?:yarn|garn|garen|fil|hilo|filato) \w.*")

_ARTICLE = re.compile(
    r"(?:the|la|le|les|il|el|los|las|lo|gli|i|de|het|den|det|aux?|chez|die|der|das|zum|zur|bei)\s.+|l'.+"
)
"""Names that begin so are a house's more often than a yarn's (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What stands on a tag beside its free names: the frames of weight words and where they
    stand in their lines; the frames of composition, length and mass, of free codes, and of
    addresses; the names in web addresses (folded); all lines, and the numbers of those with an
    address; and the frames of what captions announce as the shade, as the lot, and as nothing but
    the shade's code."""

    weights: Sequence[Frame]
    weight_spans: Sequence[Span]
    facts: Sequence[Frame]
    codes: Sequence[Frame]
    addresses: Sequence[Frame]
    web_names: Collection[str]
    lines: Sequence[Line]
    addressed: Collection[int] = ()
    shades: Sequence[Frame] = ()
    lots: Sequence[Frame] = ()
    shade_codes: Sequence[Frame] = ()


@dataclass(frozen=True, slots=True)
class Headings:
    """All options of one tag: its names, and the evidence for each as the maker or the
    range, and for each pair; and the names in its web addresses."""

    pieces: Sequence[Piece]
    names: Sequence[Features]
    pairs: Mapping[Pair, Features]
    web_names: Collection[str] = ()

    def best(self) -> tuple[Pair, dict[Pair, float]]:
        """The likeliest option, and the probability of each."""
        scores = {pair: _score(self, pair) for pair in self.pairs}
        top = max(scores.values())
        weights = {pair: math.exp(score - top) for pair, score in scores.items()}
        total = sum(weights.values())
        likely = {pair: weight / total for pair, weight in weights.items()}
        return max(likely, key=likely.__getitem__), likely


def headings(pieces: Sequence[Piece], around: Surroundings) -> Headings:
    """All options for ``pieces``, which may name the maker or the range."""
    tallest_px = max((piece.height_px for piece in pieces), default=1.0)
    usual_px = median([line.height_px for line in around.lines] or [1.0])
    first = _first(pieces)
    tops = [piece.frame.top for piece in pieces]
    lowest = max((line.centre[1] for line in around.lines), default=1.0)
    folded = [Folded(line.text).text for line in around.lines]
    names = [
        {
            "size": piece.height_px / tallest_px,
            "large": min(1.0, max(-1.0, math.log2(piece.height_px / usual_px) / 2)),
            "first": float(piece is first),
            "down": min(1.0, max(0.0, piece.frame.top / max(1.0, lowest))),
            "lowest": float(len(pieces) > 1 and piece.frame.top == max(tops)),
            **_wording(piece, around),
            "echo": float(_is_echoed(piece, folded, around.addressed)),
            **_company(piece, around),
        }
        for piece in pieces
    ]
    numbers = range(len(pieces))
    pairs = {
        (maker, other): _pair(pieces, maker, other, around)
        for maker, other in product(numbers, (*numbers, None))
        if maker != other
    }
    return Headings(pieces, names, pairs, around.web_names)


def _first(pieces: Sequence[Piece]) -> Piece | None:
    """The name that is read first: the topmost, of several in its row the leftmost."""
    top = min(pieces, key=lambda piece: piece.frame.top, default=None)
    if top is None:
        return None
    row = [piece for piece in pieces if piece.frame.top - top.frame.top < top.height_px / 2]
    return min(row, key=lambda piece: piece.frame.left)


def _wording(piece: Piece, around: Surroundings) -> Features:
    """What the name itself says."""
    folded = Folded(piece.text).text
    words = piece.text.split()
    line = around.lines[piece.span.line]
    agreed = line.agreed[piece.span.start : piece.span.end]
    return {
        "trade": float(has_trade_word(piece.text)),
        "firm": float(has_firm_word(piece.text)),
        "only_trade": float(is_only_trade(piece.text)),
        "and": float("&" in words or "and" in words or "et" in words or "y" in words),
        "quality": float(_QUALITY.search(folded) is not None),
        "capitals": float(piece.text.isupper()),
        "words": min(1.0, (len(words) - 1) / 2),
        "small_words": float(any(word[0].islower() and len(word) > 2 for word in words)),
        "short": float(len(piece.text) < _ECHO_LETTERS),
        "agreed": sum(agreed) / max(1, len(agreed)),
        "made_by": made_by(around.lines, piece),
        "heads_address": float(
            heads_address(line, piece.span) or stands_over_address(around.lines, piece)
        ),
        "web": float(_is_web_name(piece.text, around.web_names)),
        "colour": float(has_colour_word(piece.text)),
        "yarn_first": float(_YARN_FIRST.fullmatch(folded) is not None),
        "article": float(_ARTICLE.fullmatch(folded) is not None),
        "quoted": float(piece.is_quoted),
        "spaced": float(is_letter_spaced(line.text)),
        "opens_line": float(opens_line(line, piece) and not ends_line(line, piece)),
        "ends_line": float(ends_line(line, piece) and not opens_line(line, piece)),
    }


def opens_line(line: Line, piece: Piece) -> bool:
    """Whether nothing but marks stands in ``line`` before ``piece``."""
    return not any(sign.isalnum() for sign in line.text[: piece.span.start])


def ends_line(line: Line, piece: Piece) -> bool:
    """Whether nothing but marks stands in ``line`` behind ``piece``."""
    return not any(sign.isalnum() for sign in line.text[piece.span.end :])


def made_by(lines: Sequence[Line], piece: Piece) -> float:
    """Whether a word for "by" or a sign of copyright stands before the name, in its line or its
    row of a table, or ends the words right above it: 1, or 0.5 for a word that stands within
    names as well; 0 where there is none."""
    line = lines[piece.span.line]
    before = Folded(line.text[: piece.span.start]).text
    if behind_copyright(line, piece.span) or PRESENTS.match(
        Folded(line.text[piece.span.end :]).text
    ):
        return 1.0
    if _MADE_IN_FOR.fullmatch(before):
        return 1.0
    if before.strip():
        if (house := made_for(line.text[: piece.span.start])) and not any(
            house in Folded(other.text).text for other in lines if other is not line
        ):
            return 1.0
        if NOT_MAKER.search(before):
            return 0.0
        if LEADS.fullmatch(before.strip()) or ASKS_MAKER.fullmatch(before):
            return 1.0
        if before.strip() in _WEAK and ends_line(line, piece):
            return 0.0 if _goes_on_from(line, lines) else 1.0  # "van Wilgenspoel" in its own line
        found = _BY.search(before)
        return 0.0 if found is None else 0.5 if found[0].strip() in _WEAK else 1.0
    return float(
        any(
            is_by(other.text)
            and not any(_counts_beside(number, other) for number in lines)
            and (
                0 < _below_px(other, line) < 1.2 * max(line.height_px, other.height_px)
                or _is_right_of(other, line)
            )
            for other in lines
        )
    )


def is_not_maker(lines: Sequence[Line], piece: Piece) -> bool:
    """Whether the words before a name, or its own first ones, say that it sold the yarn, or made it
    for another house."""
    line = lines[piece.span.line]
    return NOT_MAKER.search(Folded(line.text[: piece.span.end]).text) is not None


_WORD_APART = 1.0
"""Words of one name stand no further apart, in heights of their line, nor overlap by more."""


def _goes_on_from(line: Line, lines: Sequence[Line]) -> bool:
    """Whether ``line`` stands no further than words do behind another in its row, in print of one
    size: "Pan" and "de Tierra", which the line finder parted."""
    return any(
        abs(line.quad[0][0] - other.quad[1][0]) < _WORD_APART * line.height_px
        and abs(other.centre[1] - line.centre[1]) < line.height_px / 2
        and other.height_px < _LARGER * line.height_px < _LARGER**2 * other.height_px
        for other in lines
        if other is not line
    )


def stands_over_address(lines: Sequence[Line], piece: Piece) -> bool:
    """Whether a name, alone in its line, stands right above a line that begins with a postal
    address, flush with it or centred, as a firm's name does."""
    line = lines[piece.span.line]
    rest = line.text[: piece.span.start] + line.text[piece.span.end :]
    return not any(sign.isalnum() for sign in rest) and any(
        abs(other.quad[0][1] - line.quad[3][1]) < _NEXT_LINE * min(line.height_px, other.height_px)
        and _aside_px(line, other) < min(line.height_px, other.height_px)
        and line.height_px < _LARGER * other.height_px
        and begins_with_postal_address(other)
        for other in lines
    )


def _aside_px(line: Line, other: Line) -> float:
    """How far the left ends of two lines are apart, or their middles if these are nearer."""
    return min(abs(line.quad[0][0] - other.quad[0][0]), abs(line.centre[0] - other.centre[0]))


def is_by(text: str) -> bool:
    """Whether ``text`` only announces whom a yarn is by: "hand-dyed by"."""
    return _ONLY_BY.fullmatch(Folded(text).text.strip(" .:-")) is not None


def _counts_beside(number: Line, word: Line) -> bool:
    """Whether a number alone stands in the row of a word: "3 POR 2"."""
    small_px = min(number.height_px, word.height_px)
    in_row = abs(number.centre[1] - word.centre[1]) < small_px / 2
    return number.text.strip().isdigit() and in_row


def _is_right_of(left: Line, right: Line) -> bool:
    """Whether a line stands in the row of another, behind it, as in a table."""
    height_px = min(left.height_px, right.height_px)
    gap_px = right.quad[0][0] - left.quad[1][0]
    in_row = abs(left.centre[1] - right.centre[1]) < height_px / 2
    return in_row and -height_px / 2 < gap_px < _TABLE_REACH * height_px


def _below_px(upper: Line, lower: Line) -> float:
    """How far the top of one line is below the top of another that it lies under; 0 where it
    is not."""
    (left, top), (right, _) = upper.quad[0], upper.quad[1]
    (first, down), (last, _) = lower.quad[0], lower.quad[1]
    return down - top - upper.height_px / 2 if first < right and left < last else 0.0


def _company(piece: Piece, around: Surroundings) -> Features:
    """What stands near the name."""
    return {
        "by_weight": _nearness(piece, around.weights),
        "by_facts": _nearness(piece, around.facts),
        "by_code": _nearness(piece, around.codes),
        "by_address": _nearness(piece, around.addresses),
        "by_shade": _nearness(piece, around.shades),
        "by_lot": _nearness(piece, around.lots),
    }


def _pair(pieces: Sequence[Piece], maker: int, other: int | None, around: Surroundings) -> Features:
    """What two names are to each other, and what they leave over."""
    rest = [piece for at, piece in enumerate(pieces) if at not in (maker, other)]
    untold = float(not around.shades)
    left = {
        "leaves_colour": untold * float(any(has_colour_word(piece.text) for piece in rest)),
        "leaves_one": untold * float(len(rest) == 1),
        "leaves_none": untold * float(not rest),
    }
    if other is None:
        return {"none": 1.0, "none_alone": float(len(pieces) == 1), **left}
    one, two = pieces[maker], pieces[other]
    between = [
        piece
        for piece in pieces
        if piece is not one and piece is not two and _stands_between(piece.frame, one, two)
    ]
    return {
        "near": _nearness(two, [one.frame]),
        "below": float(two.frame.top >= one.frame.top),
        "larger": min(1.0, max(-1.0, math.log2(two.height_px / one.height_px))),
        "one_case": float(one.text.isupper() == two.text.isupper()),
        "between": float(bool(between)),
        "column": float(one.frame.overlap_x(two.frame) > 0),
        "one_line": float(one.span.line == two.span.line),
        **left,
    }


def _stands_between(frame: Frame, one: Piece, two: Piece) -> bool:
    top, bottom = sorted((one.frame.top, two.frame.top))
    left = min(one.frame.left, two.frame.left)
    right = max(one.frame.right, two.frame.right)
    return top < frame.top < bottom and frame.left < right and frame.right > left


def _nearness(piece: Piece, frames: Sequence[Frame]) -> float:
    """1 where the nearest of ``frames`` touches ``piece``, 0 where all are out of reach."""
    return max((_near(piece, frame) for frame in frames), default=0.0)


def _near(piece: Piece, frame: Frame) -> float:
    height_px = max(1.0, min(piece.height_px, frame.height_px))
    apart_px = max(-piece.frame.overlap_x(frame), -piece.frame.overlap_y(frame), 0.0)
    return max(0.0, 1 - apart_px / (_REACH * height_px))


def _is_web_name(text: str, web_names: Collection[str]) -> bool:
    return any(
        spelled in name or name in spelled
        for spelled in web_spellings(text)
        for name in web_names
        if min(len(name), len(spelled)) > 3
    )


def _is_echoed(piece: Piece, lines: Sequence[str], addressed: Collection[int]) -> bool:
    """Whether a long word of the name, no fibre's and none of care, stands in another of the folded
    lines too, or begins a word of an address, which those ``addressed`` hold by their numbers."""
    words = [word[0] for word in WORD.finditer(Folded(piece.text).text)]
    words = [
        word
        for word in words
        if len(word) >= _ECHO_LETTERS
        and not (is_only_trade(word) or word in _FIBRES or word in CARE_WORDS)
    ]
    return any(
        re.search(rf"\b{word}" + ("" if at in addressed else r"\b"), line)
        for word in words
        for at, line in enumerate(lines)
        if at != piece.span.line
    )


@cache
def _weights() -> dict[str, dict[str, float]]:
    text = resources.files("intake.fields.names").joinpath("headings.json").read_text("utf-8")
    weights: dict[str, dict[str, float]] = json.loads(text)["weights"]
    return weights


def _score(found: Headings, pair: Pair) -> float:
    weights = _weights()
    maker, other = pair
    score = _weighed(weights["maker"], found.names[maker])
    score += _weighed(weights["pair"], found.pairs[pair])
    return score + (_weighed(weights["range"], found.names[other]) if other is not None else 0.0)


def _weighed(weights: Mapping[str, float], features: Features) -> float:
    return sum(weights.get(name, 0.0) * value for name, value in features.items())
