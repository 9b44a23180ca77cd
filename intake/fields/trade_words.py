"""Words that makers of yarn have in their names, in nine languages (common practice, no
source)."""

from __future__ import annotations

import re

from intake.fields.letters import Folded

_TRADE = re.compile(
    r"\b(?:yarns?|wools?|woollens|spinners|spinning|mills?|fib(?:re|er)s?|threads|textiles?"
    r"|knits|knitwear|handknits|studio|atelier|workshop|works|dyers?|dyeworks|company"
    r"|garne?|wolle|woll\w*|\w+wolle|strickgarne|spinnerei|manufaktur|wollwerk|faerberei|farberei"
    r"|laines?|maison|filature|fils|tricots?|lainerie|filat[oi]|filatura|lane|lanificio|maglieria"
    r"|bottega|lanas|hilos|hilados|hilaturas|hilatura|tejidos|ovillos|wol|\w*garen\w*|spinnerij"
    r"|fil|brins|pelotes?|gomitol[oi]|madejas?|kluwen\w*|wolhuis|breigoed|ull\w*|uld\w*|spinneri\w*|spinderi\w*|\w*garn|\w*garner|\w*spinneri"
    r"|garn\w*|& co|co\.|gmbh|ltd|s\.?r\.?l|bv|aps|ab|as"
    r"|and (?:sons|daughters)|& sohne?|& fils|et fils|e figli|y hijos|fratelli|hermanos|freres)"
    r"(?!\w)"
)
_FIRM = re.compile(
    r"\b(?:spinners|woollens|mills?|spinnerei|manufaktur|wollwerk|filature|lainerie|filatura"
    r"|lanificio|maglieria|hilatura\w*|hilados|tejidos|spinnerij|\w*spinneri\w*|spinderi\w*|company"
    r"|gmbh|ltd|s\.?r\.?l|& co|& sohne?|& fils|et fils|e figli|y hijos)(?!\w)"
)
_ONLY = re.compile(
    r"(?:(?:yarns?|wools?|spinners|spinning|mills?|studio|atelier|company|co\.?|works|garne?|wolle"
    r"|spinnerei|manufaktur|laines?|maison|filature|fils|filat[oi]|filatura|lane|lanificio|bottega"
    r"|lanas|hilos|hilados|hilaturas?|tejidos|ovillos|wol|garens?|garenhuis|spinnerij|wolhuis"
    r"|breigoed|ull|uld|spinner[i]\w*|spinderi\w*|garn|garner|garnhuset|garnverket|garnvaerket"
    r"|the|of|and|&|et|e|y|og|och|und|van|de|des|du|del|les|la|le|el)\s*)+"
)


_IN_THE_MIDDLE = re.compile(
    r"\w.* (?:yarns?|wools?|spinners|mills?|garne?|wolle|wol|ull|uld|spinneri|spinderi|garens)"
    r" (?!(?:co\b|company|works|mills?|spinners|studio|and|&|und|og|och))\w{3,}.*"
)


_SERVICE = re.compile(
    r"(?:label|tag|etiquette|etiketten?|etichetta|etiqueta|etiket|etikett|banderole|banderola"
    r"|keep|aufheben|aufbewahren|conserv\w+|guard\w+|bewaar|bewaren|spara|gem|ta vare"
    r"|last balls|reduced|clearance|restposten|sonderangebot|angebot|fin de serie|soldes?"
    r"|fine serie|saldi|offerta|rebajas|oferta|restant\w*|uitverkoop|restparti|restlager|salg"
    r"|udsalg|tilbud|thank you|danke|merci|grazie|gracias|bedankt|tack|takk|tak)\b.*"
)


def is_service_text(text: str) -> bool:
    """Whether ``text`` is what a tag asks or wishes its buyer, or a shop's word for what it sells
    off, and no name: "keep this label"."""
    folded = Folded(text).text
    words = folded.split()
    asked = _SERVICE.match(folded) or (len(words) > 1 and _SERVICE.fullmatch(words[-1]))
    about = {"label", "tag", "banderole", "etiquette", "etichetta", "etiqueta", "etiket"}
    return bool(asked) or (len(words) > 1 and bool(about & set(words)))


def goes_on_behind(text: str) -> bool:
    """Whether ``text`` goes on behind a word of the trade that ends makers' names: another
    name may follow in the same line."""
    return _IN_THE_MIDDLE.fullmatch(Folded(text).text) is not None


def has_trade_word(text: str) -> bool:
    """Whether a word of the yarn trade stands in a name, as in most makers' names."""
    return _TRADE.search(Folded(text).text) is not None


def has_firm_word(text: str) -> bool:
    """Whether a word stands in ``text`` that only firms have in their names."""
    return _FIRM.search(Folded(text).text) is not None


def is_only_trade(text: str) -> bool:
    """Whether ``text`` is nothing but words of the trade: hardly a maker's whole name."""
    return _ONLY.fullmatch(Folded(text).text) is not None
