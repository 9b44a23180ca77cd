"""What is asked of a name that may be the maker's or the range's."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from itertools import product

from rapidfuzz.distance import Levenshtein

from intake.fields.clutter import web_letters, web_spellings
from intake.fields.fibre.print import FIBRE_WORDS
from intake.fields.letters import Folded
from intake.fields.names.heading_pieces import ARTICLES, BY, OF_WORDS, has_number
from intake.fields.names.headings import Headings
from intake.fields.names.leads import FOR_HOUSE, made_for
from intake.fields.names.no_names import is_only_fibres
from intake.fields.names.questions import PLACE_ONLY
from intake.fields.names.trade_words import (
    goes_on_behind,
    has_firm_word,
    has_trade_word,
    is_compound_of_goods,
    is_kind_of_yarn,
    is_legal_form,
    is_named_for_goods,
    is_named_like_a_house,
    is_only_trade,
    is_word_of_trade,
    lacks_a_name,
)
from intake.fields.pieces import Piece
from intake.records import Line

TWO_NAMES = "may be the names of the maker and of the range in one line"
RANGE_THEN_MAKER = "may be the names of a range and of its maker in one line"

_ALIKE = 0.7
"""From this likeness on a name and that of a web address are meant to be the same."""

_PLACE_ENOUGH = 0.99
"""From this probability on the place of a name is enough: on layouts that the model was not fitted
on 1 of 1,591 headings was wrong from here on, but 5 of 2,010 from 0.97 on."""

_YARN_FIRST = re.compile(r"(?:yarn|garn|garen|fil|hilo|filato) \w.*")
"""The word for yarn before a name: a range's or a shade's as often as a maker's."""

_GOES_ON = re.compile(
    rf".*\b(?:{OF_WORDS}|der|the|all?|dell?|dall|nell|sull|al|alla|con|mit|med|with|met|avec|aux?)"
)
"""A name that ends so was cut off."""

_ONE_WORD_OF_GOODS = re.compile(r"\w{2,}(?:garn|garens?)")
"""Yarns are called so as often as firms: "Egnsgarn"."""

_LIKE_A_SAYING = re.compile(
    r"(?:aus|mit|fur|von|vom|im|from|with|for|in|til|till|med|fran|fra|for|pour|avec|per|con|para"
    r"|voor|met|uit|naturally|simply|pure|just) "
)
"""Sayings begin so, "Aus gutem Hause", and makers' names hardly ever."""

_SAYING = 3
_OPENS_SAYING = re.compile(
    r"(?:aus|mit|fur|von|from|with|for|till|til|med|fra|fran|pour|avec|per|con|para|voor|met|uit) "
)

_FORM = re.compile(r"(?:gmbh|ltd|inc|llc|srl|spa|sarl|sas|slu?|sa|bv|aps|as|ab|e[gkv]|kg|ag|co)")
"""Legal forms, which web addresses leave out."""

_LONG_ENOUGH = 9
"""Names of web addresses are cut off in so many letters or more."""

_ODD_FORM = re.compile(r"\bco\.? (?P<form>(?!ltd|kg|ohg|kgaa)[a-z]{2,4})\.?$")
"""Behind "Co." stands "Ltd.", "KG" or nothing."""

_ARTICLE = re.compile(rf"\s(?:{ARTICLES}) ")
"""Within a name of the trade it says the same: "Coöperatie Het Schaap"."""

_DUTCH_ARTICLE = re.compile(r"\w+(?:ij|huis|fabriek|winkel|atelier|molen) de")

_TRADE_AND_NAME = 3
"""A word of the trade and names of so many words together may be a maker's and a range's."""

_BY_OR_OF = re.compile(r"(?:van|von|de|di|da|del|della|des|du|av|af|fra|från) ")
"""What begins the second line of a name, or says whom a range is by: "Bakenlicht" above "van
Draadlust"."""

_HELD = re.compile(rf"\s(?:{OF_WORDS})\s")
"""Within a name of two lines it says that they are one."""


def unbacked(name: str, cues: Mapping[str, float], found: Headings, captioned: bool) -> str:
    """What is asked of a name that stands where makers' do and has nothing else for it: no
    web address, no second place on the tag, no "by" before it, no postal address behind it,
    no word of the trade but for yarn itself beside a range's name, which may be ``captioned``, no
    word that only houses are named with.  A place that hardly any other name could have taken is
    enough beside another name, but not for a name of goods, nor for what begins like a saying."""
    goods_or_fibre = names_goods(name) or _ends_with_fibre(name)
    plain = not (goods_or_fibre or _LIKE_A_SAYING.match(Folded(name).text))
    if cues["role"] >= _PLACE_ENOUGH and len(found.pieces) > 1 and plain:
        return ""
    backed = any(cues[name] >= 1 for name in ("made_by", "heads_address", "web", "echo"))
    beside = captioned or len(found.pieces) > 1 or is_named_like_a_house(name)
    goods = is_named_for_goods(name) or _ends_with_goods(name)
    if backed or (cues["trade"] and beside and not goods):
        return ""
    return f"{PLACE_ONLY} '{name}' is the maker"


def names_goods(name: str) -> bool:
    """Whether a name is one word of goods, or ends with what its firm makes."""
    one_word = is_compound_of_goods(name) or is_kind_of_yarn(name)
    one_word = one_word or _ONE_WORD_OF_GOODS.fullmatch(Folded(name).text) is not None
    return one_word or _ends_with_goods(name)


def _ends_with_fibre(name: str) -> bool:
    """Whether a name ends with a fibre's: "Elleraner Alpaka"."""
    return Folded(name).text.split()[-1] in FIBRE_WORDS


def _ends_with_goods(name: str) -> bool:
    """Whether a word of the trade in small letters ends a name, as what it makes, and none of a
    firm: "Kaardvlies en garens"."""
    last = name.split()[-1]
    return (
        last.islower() and not name.islower() and has_trade_word(last) and not has_firm_word(name)
    )


def in_two_lines(piece: Piece, cues: Mapping[str, float], *, beside: bool = False) -> str:
    """What is asked of a name that was put together of two lines; nothing where the first is but a
    word for a firm and another name stands ``beside``."""
    if not piece.tail or cues["web"]:
        return ""
    if _HELD.search(Folded(piece.text).text) and not _BY_OR_OF.match(piece.text, _break(piece)):
        return ""
    first = piece.text[: _break(piece)]
    if beside and has_firm_word(first) and is_only_trade(first):
        return ""  # "Textielfabriek" above "Noordhaver"
    if is_legal_form(piece.text[_break(piece) :]):
        return ""
    return f"'{piece.text}' stands in two lines: is it one name?"


def _break(piece: Piece) -> int:
    """Where the second line of a name begins in its text."""
    return piece.span.end - piece.span.start + 1


def in_one_line(piece: Piece, cues: Mapping[str, float]) -> str:
    """What is asked of a long name on a tag without a range, of which no web address and no second
    place says that it is one: "Spinnerei Marsbach Lunetto Terra", "Marsby Uldspind Lunetto
    Terra"."""
    plain = Folded(piece.text).text.replace(".", "").replace(",", "")
    words = [word for word in plain.split() if not _FORM.fullmatch(word)]
    backed = any(cues[name] >= 1 for name in ("web", "echo", "made_by"))
    held = _is_held(piece.text, words)
    if piece.tail or backed or held:
        return ""
    first = len(words) >= _TRADE_AND_NAME and is_word_of_trade(words[0])
    last = len(words) > _TRADE_AND_NAME and is_word_of_trade(words[-1])
    within = len(words) > _TRADE_AND_NAME and any(has_firm_word(word) for word in words[1:-1])
    if not (first or last or within):
        return ""
    return f"'{piece.text}' {TWO_NAMES}"


def _is_held(name: str, words: Sequence[str]) -> bool:
    """Whether a word within ``name``, of the folded ``words``, says that it is one; an article
    holds no more than the word behind it: "Wolspinnerij De Grutto Weidevogel"."""
    folded = Folded(name).text
    begun = " ".join(words[:2])
    if len(words) > _TRADE_AND_NAME and (
        _ARTICLE.match(f" {words[1]} ") or _DUTCH_ARTICLE.fullmatch(begun)
    ):
        folded = " ".join(words[2:])
    return bool(_HELD.search(f" {folded} ") or _ARTICLE.search(folded))


_SHOP = re.compile(
    r"\b(?:(?:wool|yarn|knitting|craft|thrift|charity) (?:shop|store)|winkeltje"
    r"|(?:wol|garen|brei|handwerk|stoffen|hobby)\w*winkel"
    r"|papeleria|papeterie|tienda|negozio|destockage|outlet|bazar"
    r"|kramladen|wollladen|handarbeitsladen|drogerie|loppis|kringloop\w*|ressourcerie)\b"
)
"""Words of shops that sell what others made."""

_KIN_OF = re.compile(
    r"(?:yarns?|wools?|mills?|hilaturas?|hilados|lanas|lanificio|filatura|filati|filature|laines"
    r"|spinnerei|wolle|garne?|spinnerij|garens|spinneri\w*|spinderi\w*) "
    r"(?:hermanos|hermanas|fratelli|sorelle|freres|soeurs|gebroeders|gebr|gebruder|geschwister"
    r"|brodrene|broderna|systrarna|sostrene|brothers|sisters)$"
)
"""A house and whose kin it is of, without a name."""

_WITH = re.compile(
    r"\w+ (?:mit|with|con|avec|met|med|ohne|without|senza|sin|sans|zonder|utan|uden) \w"
)
"""What is said of yarn, "Garne mit Charakter": firms are hardly named so."""


_KNITTING_YARNS = re.compile(
    r"(?:hand ?)?(?:knitting|strick|haakel|hakel|brei|strikke?|stick)-?\s?"
    r"(?:yarns?|wools?|garne?n?|wolle|garens?) "
    r"(?:of|for|fur|mit|from|aus|voor|van|til|till|av|af) \w"
)
"""Yarns that are told of: "Knitting yarns of character"."""


def may_be_a_saying(name: str) -> str:
    """What is asked of a range that begins with a small word, as sayings do."""
    if len(name.split()) < _SAYING or not _OPENS_SAYING.match(Folded(name).text):
        return ""
    return f"'{name}' may be the range's name or a saying"


def is_own_town(piece: Piece, lines: Sequence[Line]) -> str:
    """What is asked of a name that is also the town behind a post code, below another line of one
    name perhaps: "Schafzuchtverein" above "Hademoor" above "D-99999 Hademoor"."""
    town = re.compile(rf"(?<!\d)\d{{4,6}} {re.escape(Folded(piece.text).text)}(?!\w)")
    others = [line for number, line in enumerate(lines) if number != piece.span.line]
    if any(town.search(Folded(line.text).text) for line in others):
        return f"'{piece.text}' is the town too: is it the maker's whole name?"
    return ""


def begins_another(piece: Piece, found: Headings) -> str:
    """What is asked of a name with which another one begins, and goes on: "Quillerby" before its
    post code, below "Quillerby & Thorne"."""
    start = f"{Folded(piece.text).text} "
    longer = [other.text for other in found.pieces if Folded(other.text).text.startswith(start)]
    return f"'{longer[0]}' may be the whole name of '{piece.text}'" if longer else ""


def for_another(piece: Piece, lines: Sequence[Line]) -> str:
    """What is asked of who made a yarn for another house: "Spun for Hotel Seeblick by", "Spun by
    Kempfold for Reed & Home"."""
    text = lines[piece.span.line].text
    house = made_for(text[: piece.span.start])
    if behind := FOR_HOUSE.match(text, piece.span.end):
        house = behind["house"]
    return f"'{piece.text}' made it for '{house}': whose yarn is it?" if house else ""


def numbered(piece: Piece) -> str:
    """What is asked of a name with a number, which may be that of something else."""
    return f"'{piece.text}' has a number: is it part of the name?" if has_number(piece) else ""


def is_same_firm(name: str, other: str) -> bool:
    """Whether one of two names is the other with nothing but its legal form or words of the trade
    more."""
    shorter, longer = sorted((Folded(name).text, Folded(other).text), key=len)
    more = longer.removeprefix(shorter).strip(" .,").split()
    while more and _FORM.fullmatch(web_letters(more[-1])):
        more.pop()
    return longer.startswith(shorter) and (not more or is_only_trade(" ".join(more)))


def seems_to_go_on(name: str) -> bool:
    """Whether a name ends with a word that more of it follows: "Dugg og"."""
    return _GOES_ON.fullmatch(Folded(name).text) is not None


def name_doubt(name: str, web_names: Collection[str]) -> str:
    """Why ``name`` may not be the maker's whole name and no more."""
    folded = Folded(name).text
    spelled = web_spellings(name)
    if _YARN_FIRST.fullmatch(folded):
        return f"'{name}' may be the name of a yarn and not of its maker"
    if seems_to_go_on(name) or _KIN_OF.search(folded):
        return f"the maker's name '{name}' seems to go on"
    by = BY.search(folded)
    if name.islower() and len(name.split()) >= _SAYING and "&" not in name:
        return f"'{name}' in small letters may be words and no name"
    if _SHOP.search(folded):
        return f"'{name}' may be the shop that sold it and not the maker"
    if by is not None and by.start() and has_trade_word(folded[by.end() :].split()[0]):
        return f"'{name}' {RANGE_THEN_MAKER}"
    if is_only_fibres(name):
        return f"'{name}' names a fibre and hardly a maker"
    if odd := _ODD_FORM.search(folded):
        return f"'{odd['form']}' at the end of '{name}' may be its legal form, misread"
    if _WITH.match(folded) or _KNITTING_YARNS.match(folded):
        return f"'{name}' may be a saying and no maker"
    if is_only_trade(name) or lacks_a_name(name):
        return f"'{name}' alone is hardly the maker's whole name"
    if goes_on_behind(name):
        return f"'{name}' {TWO_NAMES}"
    if _has_more_before(folded, spelled, web_names):
        return f"'{name}' {TWO_NAMES}"
    likeness = {web: max(_likeness(plain, web) for plain in spelled) for web in web_names}
    like = [
        web for web in web_names if any(one in web for one in spelled) or likeness[web] >= _ALIKE
    ]
    if like and all(likeness[web] < 1 and not _is_cut_off(web, folded) for web in like):
        return f"the maker's name '{name}' is not that of the web address, '{like[0]}'"
    return ""


def _is_cut_off(web: str, folded: str) -> bool:
    """Whether the name of a web address is how a maker's begins and ends within a word of it:
    "garenhuislamme" for "Garenhuis Lammerzoet"."""
    words = folded.split()
    begun = [web_letters(" ".join(words[:count])) for count in range(1, len(words) + 1)]
    long_enough = len(web) >= _LONG_ENOUGH and begun[-1].startswith(web)
    return long_enough and not set(begun) & web_spellings(web)


def _has_more_before(folded: str, spelled: Collection[str], web_names: Collection[str]) -> bool:
    """Whether the last words of a name are the whole of a web address's name, and those before them
    no words of the trade: "Lodenfein Fadenwerk Zirbel" beside fadenwerk-zirbel."""
    words = folded.split()
    halves = [(" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words))]
    return not set(spelled) & set(web_names) and any(
        web_spellings(behind) & set(web_names)
        and not (has_firm_word(before) or is_only_trade(before) or seems_to_go_on(before))
        for before, behind in halves
    )


def word_apart(name: str, web_names: Collection[str], lines: Sequence[Line]) -> str:
    """What is asked of a name to which the web address adds a word of the trade that stands in a
    line of its own."""
    for word in (line.text for line in lines if is_only_trade(line.text)):
        for plain, more in product(web_spellings(name), web_spellings(word)):
            if {plain + more, more + plain} & set(web_names):
                return f"'{word}' may belong to the maker's name '{name}'"
    return ""


def _likeness(plain: str, web: str) -> float:
    """How alike a name and that of a web address are; 1 where one of them only has a word
    of the trade, an article or its legal form more."""
    shorter, longer = sorted((plain, web), key=len)
    more = longer.replace(shorter, "", 1)
    named_so = is_only_trade(more) or (longer == plain and _FORM.fullmatch(more))
    if (longer.startswith(shorter) or longer.endswith(shorter)) and named_so:
        return 1.0
    return Levenshtein.normalized_similarity(plain, web)
