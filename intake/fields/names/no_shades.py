"""What stands where a shade does and is none: units, counts of threads, boxes, tongues, years and
words that only lead on, in nine languages (common practice, no source)."""

from __future__ import annotations

import re

from intake.fields.codes import Found
from intake.fields.fibre.print import KIND_WORDS
from intake.fields.letters import Folded

_COLOURED_KIND = "mulberry"
"""The one kind of fibre that shades are named after too."""

UNIT = re.compile(
    r"(?:yds?|yards?|met(?:er|re|ri|ros)s?|mts?|mtrs?|gr|gram(?:s|m|me|mes|mi|mos|os)?|oz|ounces?"
    r"|vgs?|verges?|lbs?|pounds?|libras?|livres?|libbr[ae]|pfund|pond|pund"
    r"|d?tex|nm|ca|circa|cirka|env|environ|aprox|approx|unos|unas|etwa|ungefahr|ungefar|ongeveer|omkring|omtrent"
    r"|sts?|stitches|maschen|mailles?|maglie|puntos|steken"
    r"|maskor|masker|rows?|reihen|rangs?|rgs?|ferri|vueltas|nld|naalden|varv|omganger|omgange?"
    r"|balls?|skeins?|hanks?|cones?|pieces?|knauel|strange?|docken?|spulen?|stuck|pelotes?"
    r"|echeveau|echeveaux?|bobines?|gomitol[oi]|matass[ae]|rocc[ah]e?|pezz[oi]|ovillos?|madejas?"
    r"|conos?|piezas?|bol(?:len)?|bolletjes?|streng(?:en)?|stuks?|nystan|harv(?:a|or)|noster?|hesper?"
    r"|nogler?|bundt(?:er)?|fed|stk)\.?"
)
"""A unit, "about", stitches and rows, or a word for a ball beside a number, which then is an amount
and no code."""

PLY = re.compile(
    r"\d{1,2}[- ]?(?:ply|plied|fach\w*|fadig\w*|draa?d\w*|tra[dt]\w*|fils?|brins?|bouts?"
    r"|cap[io]|cabos?|hebras?|strands?)\b.*"
)
"""Of how many threads a yarn is, perhaps with how it was made: "2-fädig gezwirnt"."""

UNDYED = re.compile(r"natur(?:al|ale|el|elle|ell|e)?")
"""A word of praise that is a shade's name, too."""

AND_MORE = re.compile(r"(?:and|und|et|ed|y|en|och|og) [^\W\d_]")
"""A sentence that goes on behind a caption: "Farb- und Partienummer angeben"."""

EVENT = re.compile(
    r"\b(?:schur|geschoren|scheren|schering|shorn|shearing|clip|tonte|tondu\w*|tosa\w+|esquila\w*"
    r"|klippning|klippt|klipping|klippet|klip|lammung|geb|geboren|born|nee?|nat[oa]|nacid[oa]"
    r"|fodd|fodt|\w*serie|edition|edizione|edicion|editie|utgava|utgave|udgave|auflage|oplage"
    r"|upplaga|opplag|oplag|jahrgang|ernte|harvest|vintage|recolte|annata|raccolto|cosecha|oogst"
    r"|skord|avling|host|spring|summer|autumn|fall|winter|fruhjahr|fruhling|sommer|herbst"
    r"|printemps|ete|automne|hiver|primavera|estate|autunno|inverno|verano|otono|invierno"
    r"|voorjaar|lente|zomer|herfst|var|sommar|vinter|forar|efterar"
    r"|january|february|march|april|may|june|july|august|september|october|november|december"
    r"|januar|februar|marz|mai|juni|juli|oktober|dezember|janvier|fevrier|mars|avril|juin|juillet"
    r"|aout|septembre|octobre|novembre|decembre|gennaio|febbraio|marzo|aprile|maggio|giugno"
    r"|luglio|agosto|settembre|ottobre|dicembre|enero|febrero|abril|mayo|junio|julio|septiembre"
    r"|octubre|noviembre|diciembre|januari|februari|maart|mei|augustus|augusti|maj|desember)\b"
)
"""What a year stands beside that is no shade: a shearing, a birth, an edition, a season."""

ONLY_LINKS = re.compile(
    r"(?:(?:at|by|with|for|from|when|bei|mit|fur|durch|beim|nach|avec|pour|chez|lors|con|per|presso"
    r"|para|por|bij|met|voor|door|vid|med|till|ved|til|hos|hvis|on|of|in|im|i|af|av|de|di|en"
    r"|and|und|et|ed?|y|och|og|or|oder|ou|o|of|eller)\b ?)+"
)
"""Words that only lead from one to the next."""

YEAR = re.compile(r"(?:19[5-9]|20[0-4])\d")
"""A year of a shearing or a vintage, "schering 2020"."""

NO_ENTRY = re.compile(
    r"\d{1,2} ?[x×] ?\D+|\D+ (?:19|20)\d\d"
    r"|\d{1,2}[- ](?:ply|fach|fädig\w*|draa?d\w*|trå[dt]\w*|fils?|cap[io]|cabos?|hebras?)\b.*"
    r"|(?:prov|prøve|probe|muster|sample|specimen|échantillon|campione|muestra|staal|monster)\b.*"
    r"|\D+ \d\d\.[A-Z]{2,3}\.\d{4,6}",
    re.IGNORECASE,
)
"""A number and a name that are no shade's: how many balls of a range a kit has, a year, and an
institute with the number of its certificate."""

_BOX = re.compile(
    r"(?:box|boks|kasse|kassa|lada|skuff|skuffe|byra|karton|carton|caja|cajon|boite|scatola|cassetto"
    r"|doos|lade|kiste|schachtel|schublade|fach|shelf|bin|drawer|reol|hylla|hylle|hylde)"
)

_COUNT = re.compile(
    r"(?:[1-9]/[1-9]\d?|[1-9]\d?/[1-9]|\d{1,2}-(?:tr|tradet|tradig|fach|fadig|draads|ply))\.?"
)
"""How a yarn is twisted: "Katoen 8/8", "Myrull 3-tr"."""

_TONGUE = re.compile(
    r"english|deutsch|francais|italiano|espanol|castellano|nederlands|svenska|norsk|dansk|suomi"
    r"|portugues|bokmal|nynorsk|catala|engelsk|engelska|englisch|anglais|inglese|ingles|engels"
)
"""Names of tongues, above what is said in them."""


def names_no_shade(code: Found | None, name: Found) -> bool:
    """Whether a name that no caption announces is that of a box or of a tongue, or stands before
    a count of threads."""
    folded = Folded(name.text).text
    counted = code is not None and _COUNT.fullmatch(Folded(code.text).text) is not None
    return counted or _BOX.fullmatch(folded) is not None or _TONGUE.fullmatch(folded) is not None


def is_kind(text: str) -> bool:
    """Whether ``text`` is a kind of fibre and no colour."""
    return KIND_WORDS.get(Folded(text).text, _COLOURED_KIND) != _COLOURED_KIND
