"""Words that lead up to a maker's name, "une laine de la", "made in Peru for", and those that tell
whom a yarn was sold or made by and not whose it is, in nine languages (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.clutter import behind_copyright
from intake.fields.letters import Folded
from intake.fields.names.house_words import BY_WORDS
from intake.fields.names.trade_words import BY_HAND, has_trade_word, is_named_like_a_firm
from intake.fields.pieces import Piece, ends_line
from intake.records import Line

_TABLE_REACH = 8.0
"""A name stands at most so many heights behind its caption in a table."""

_LARGER = 1.6
"""Print of one name is at most so many times as large in one place as in another."""

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

_ONE = r"(?:an?|ein|une?|uno?|een|ett?|en) "
_OF = r"der|des|de|du|von|of|van|di|del|della|av|af"

_CALLED_YARN = (
    rf"{_ONE}(?:[a-z]+[ -])?"
    r"(?:[a-z]*(?:yarn|wool|garn|wolle|garen|wol|ull|uld)|laine|lana|filato|hilo|fil|skein|hank|fed"
    r"|noste|nogle|nystan|knauel|strang|bol|streng|pelote|echeveau|gomitolo|matassa|ovillo|madeja)"
    r" (?:from|by|von|aus der|par|de chez|dalla|dal|por|uit de|van|fran|av|fra|af)"
)
"""What a ball is called, and of whom: "et sommergarn fra"."""

_BRAND_OF = (
    rf"(?:(?:marke|marque|marca|brand|merke?|maerke) (?:{_OF})"
    rf"|(?:{_ONE})?(?:produit|produkt|product|prodotto|producto|erzeugnis)"
    rf"(?: (?:{_OF}|from|fra|fran))?)"
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


def is_by(text: str) -> bool:
    """Whether ``text`` only announces whom a yarn is by: "hand-dyed by"."""
    return _ONLY_BY.fullmatch(Folded(text).text.strip(" .:-")) is not None


def is_not_maker(lines: Sequence[Line], piece: Piece) -> bool:
    """Whether the words before a name, or its own first ones, say that it sold the yarn, or made it
    for another house."""
    line = lines[piece.span.line]
    return NOT_MAKER.search(Folded(line.text[: piece.span.end]).text) is not None


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
