"""Clutter: numbers and words on a tag that look like a lot, a code or a name and are none.

Dates, telephone numbers, web addresses, postal addresses, digits under a barcode,
register numbers, prices and measures.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from intake.fields.letters import Folded
from intake.fields.names.trade_words import has_trade_word
from intake.fields.pieces import is_next_line
from intake.reading.barcodes import check_digit_ok
from intake.records import Barcode, Line, Span

_UNIT = (
    r"(?:mm|cm|m|g|gr|kg|oz|yds?|yards?|metres?|meters?|mtr|in|inch|°\s*[cf]|%|sts?|r|rows?)"
    r"(?![a-z])"
)
_STREET = (
    r"(?:str\.|strasse|gasse|weg|platz|gatan|vagen|vegen|veien|vej|gade|gata|grand|stigen|straat|laan|kade"
    r"|singel|steeg|gracht)"
)
_ROAD = r"(?:(?:rural|state|county|star) )?(?:route|rte|road|highway|hwy|r\.?r\.?) ?\d{1,4}[a-z]?"
COUNTRY = (
    r"(?:espana|spain|italia|italy|france|deutschland|germany|osterreich|austria|schweiz|suisse"
    r"|switzerland|nederland|belgie|belgique|belgium|sverige|sweden|norge|norway|danmark|denmark"
    r"|england|scotland|wales|u\.?k\.?|u\.?s\.?a\.?|ireland|suomi|finland|portugal|australia"
    r"|new zealand|canada|iceland|island|argentina|uruguay|chile|peru)(?![a-z])"
)


_BRITISH = r"\b[a-z]{1,2}\d{1,2}[a-z]?\s[\do][a-z]{2}\b"
"""A post code as Britain writes it, behind its town (BS 7666-5 gives the form; from memory)."""


def _compiled(*patterns: str) -> tuple[re.Pattern[str], ...]:
    return tuple(re.compile(pattern) for pattern in patterns)


_BY_WIRE = _compiled(
    r"\S+@\S+",
    r"(?:https?:?//|www\.)\S+",
    r"\b[a-z0-9-]+(?:\.[a-z0-9-]+)*\.(?:example|com|net|org|eu|de|fr|it|es|nl|se|no|dk|uk|at|ch|be)\b\S*",
    r"(?:tel|fon|phone|fax|tlf|t\.|ph)\b[.:\w]*\s*[+(\d][\d ()/.-]{5,}\d",
    r"\+\d{1,3}[ (\d][\d ()/.-]{5,}\d",
    r"\b0\d{2,5}\s*[/-]\s*\d{2,4}[ -]?\d{2,5}(?:[ -]?\d{2,4})+",
)
_POSTAL = _compiled(
    r"\b(?:d|a|ch|f|i|e|nl|b|dk|s|se|n|no|l)\s?-\s?\d{4,5}\b(?:\s+[a-z]+(?![a-z]|\.\w))*",
    rf"(?:(?<![a-z,] )(?<![a-z])[a-z]+(?:[ -][a-z]+)? )?{_BRITISH}",
    r"\b\d{4}\s?[a-z]{2}\s+[a-z]{3,}",
    r"\b(?:p\.?o\.? box|postfach|postbus|boite postale|b\.p\.|apartado|apdo\.?|casella postale"
    r"|postboks|boks|box)\s*\d+\b",
    r"\b(?:bp|pb\.?)\s*\d+(?=,? \d{4,5} [a-z])",
    # on the road: "Box 71, Route 4, Tarn Notch"
    rf"\b{_ROAD}(?=,)",
    rf"(?<=, ){_ROAD}\b",
    rf"\b[a-z]+{_STREET}\s*\d+\s?[a-z]?\b",
    r"\b(?:via|viale|vicolo|corso|rue|calle|camino|paseo|avenida|piazza|plaza|av\.)"
    r"\s+[a-z' .]+\s*,?\s*\d+\b",
    r"(?:^|(?<=, ))[a-z][a-z' .-]+, ?\d{1,4}[a-z]?, ?(?:[a-z]{1,2}-)?\d{4,6} (?=[a-z]{3})",
    r"\b\d{1,4}(?: ?(?:bis|ter))?,?\s+(?:rue|avenue|boulevard|chemin|impasse|allee|quai)"
    r"\s[a-z' -]+",
    # A town with its code before or behind, and the country.
    rf"\b(?:[a-z]{{1,3}}[- ])?\d{{3,6}}(?:\s\d\d|\s?[a-z]{{2}})?\s+[a-z][a-z .'-]*,\s*{COUNTRY}",
    rf"\b[a-z][a-z '-]*\s\d{{4,6}},\s*{COUNTRY}",
    # The same behind a name, the country perhaps in the next line.
    r"(?<=[a-z.], )\d{4,6}(?:\s?[a-z]{2})?\s[a-z]{3,}(?:[ '-][a-z]+)*,?\s*$",
    r"\b\d{1,4}\s+[a-z']+(?:\s[a-z']+)?\s+(?:street|st|road|rd|lane|mill|avenue|close|row"
    r"|drove|drive|terrace|court|place|crescent|wharf)\b",
)
_ADDRESSES = (*_BY_WIRE, *_POSTAL)
_TOWN = re.compile(
    rf"\s*(?P<town>[a-z]+(?:[ -][a-z]+)?),\s{_BRITISH}(?=\s*(?:$|[,.]\s*(?:$|{COUNTRY})))"
)
_WEB_NAME = re.compile(
    r"(?:www\.|@|//)(?:www\.)?(?P<named>[a-z0-9-]+)\."
    r"|(?<![\w.@/-])(?P<bare>[a-z][a-z0-9-]{3,})"
    r"\.(?:example|com|net|org|eu|de|fr|it|es|nl|se|no|dk|at|ch|be|co\.uk|shop|yarn|wool)(?![\w-])"
)
_ANDS = ("and", "und", "et", "e", "y", "en", "og", "och")
_DONE = (
    r"\b(?:packed|wound|dyed|spun|abgepackt|verpackt|gefarbt|gewickelt|gekocht|emballee?"
    r"|conditionnee?|teinte?|confezionat[oa]|tint[oa]|envasad[oa]|embalad[oa]|tenid[oa]|verpakt"
    r"|geverfd|packad|packat|fargad|fargat|pakket|farvet|pakkt|pakka|farget)"
)
"""What is done to a ball on a day."""

_ON = r"(?:on|in|am|im|le|en|il|nel|el|op|den|i)"
_DATE = r"\b(?:\d{1,2}[./-]\d{1,2}[./-](?:19|20)\d\d|(?:19|20)\d\d-\d\d-\d\d)\b"
_SHORT_DATE = r"\b\d{1,2}[./-]\d{1,2}[./-]\d\d\b(?![./-])"
_DATED = (
    rf"(?:{_DONE}(?: {_ON})?"
    r"|\b(?:(?:dye|pack|spin)(?:n?ing)? )?[a-z]{0,12}(?:dato|datum|date|tag)"
    rf"|\b(?:date|data|fecha)(?: d[ei])?(?: [a-z]{{5,13}})?)[ .:]{{1,3}}(?:{_DATE}|{_SHORT_DATE})"
)
"""A date behind its caption: "Farvedato 20-12-2026", "Dyed: 20.12.2026"."""

_OTHERS = _compiled(
    # Dates; 03/24 is left alone, it may be a lot.
    _DATE,
    r"^\s*(?:0?[1-9]|[12]\d|3[01])\.\s?(?:0?[1-9]|1[012])\.\s*$",
    r"(?:©|\(c\)|copyright)\s*\d{4}",
    r"\b(?:since|founded|est\.?|seit|depuis|dal|desde|sinds|sedan|siden)\s+(?:1[5-9]|20)\d\d\b",
    # money
    r"(?<![a-z])(?:€|£|\$|eur|gbp|usd|chf|sek|nok|dkk|kr)\s*\d+(?:[.,]\d{2}|,-)?",
    r"\b\d+[.,]\d{2}\s*(?:€|£|eur|gbp|usd|chf|sek|nok|dkk|kr)",
    r"^(?:instead of|was|now|ord|ordinarie|normalpris|listino|statt|anstatt|vorher|jetzt"
    r"|au lieu de|avant|anziche|prima|ora"
    r"|en vez de|antes|ahora|i\.?p\.?v\.?|in plaats van|van|nu|istallet for|forr|i stedet for"
    r"|istedenfor|for)"
    r"\W{1,3}[a-z]{0,3}[.-]?\s?\d[\d.,-]*(?:\W{0,2}(?:€|£|eur|gbp|usd|chf|sek|nok|dkk|kr)\.?)?$",
    # when it was dyed or packed
    rf"{_DONE} {_ON}(?: the)? \d{{1,2}}[./-](?:\d{{1,2}}[./-])?\d{{2,4}}",
    rf"^\W*{_DONE} {_ON}\W*$",
    # registers and standards
    r"\b[\w-]+ standard\b[.,:]? *(?:n[ro°º.]*\s*)?\d{2}[-.]\d{3,}",
    r"\b(?:iso|din|oeko-?tex|gots|rn|vat|cif|siret|siren|hrb|cvr|cert|zert)\b"
    r"[ .:-]*(?:nr|no)?[ .:-]*[a-z]{0,3}\d[\w./-]*",
    r"[a-z][a-z &-]{2,30} \d{2}\.[a-z]{2,3}\.\d{4,6}",
    r"\bstd\.?(?: [i\d]{1,3})?[ .:·-]+\d{4,}",
    r"\b\d+\s*[¼½¾]",
    # how far a ball goes
    r"\b[1-9] (?:pairs?|paar|paires?|pai[oa]|pares|par (?=calcet|strum|sok|strom))[a-z' ]*\d{0,2}",
    # three for two
    r"(?<!\d)\d (?:for|pour|por|per|voor|fur|til) \d(?!\d)",
    # packaging, Commission Decision 97/129/EC
    r"(?<![a-z])(?:c ?/ ?)?(?:pap|pp|pet|pe-?hd|pe-?ld|hdpe|ldpe|ps|pvc|alu|fe|tex|for|gl)"
    r" ?(?:0?[1-7]|2[0-2]|4[01]|5[01]|6[01]|7[0-2]|8[0-9]|9[0-8])(?![\w./-])",
)
_CAPTIONED_DATES = _compiled(_DATED)
_ABOUT_OTHERS = _compiled(
    r"^(?:free|gratis|kostenlose?) (?:pattern|anleitung|patroon|monster|oppskrift|opskrift)\b.*$",
    r"^(?:gratisanleitung|modele offert|modello gratuito|patron gratis)\b.*$",
    r"^(?:customer (?:line|service|care)|kundendienst|kundenservice|service clients?"
    r"|servizio clienti|atencion al cliente|klantenservice|kundtjanst|kundeservice"
    r"|hotline|helpline)\b.*$",
    r"^.*\b(?:report|(?:pruf)?bericht|rapporto?|informe)\s+"
    r"(?:n[ro°º.]*\s*)?[a-z]{0,3} ?\d[\w./-]*$",
    r"^.*\b(?:parcel|paket|colis|pacco|paquete|pakket|pakke)\s+(?:n[ro°º.]*\s*)?\d+$",
    r"^\D*\b(?:re[kc]lama\w+|complaints?|klachten?)\b\D*$",
    r"^(?:complaints?|reklamation\w*|reclamations?|reclami|reclamaciones|klachten|reklamasjon\w*)"
    r"\b.*$",
    # "Let op gelijke verfbadnummers"
    r"^\D*\b(?:same|identical|gleiche\w*|identi\w+|gelijke?|hetzelfde|samm[ae]|stess[aoi]|memes?"
    r"|mism[ao]s?)\b\D*\b(?:dye ?)?(?:lots?|baths?|partien?\w*|\w*bad(?:en|et)?|\w*badnum\w+|bains?"
    r"|bagn[oi]|banos?|parti\w*|tintadas?)\b\D*$",
    # "Inspected by no. 12", "Eindcontrole tafel 22", "Verpackt an Tisch 4"
    r"^(?:(?:final|end|eind|slut|slutt)[- ]?)?(?:[ck]ontrol\w*|check(?:ed)?|inspect\w*|gepruft"
    r"|endkontrolle|inspeccion\w*|ispezion\w*|verifi\w*|revisad[oa]|gecontroleerd|granskad)"
    r"(?: [^\W\d_]+\.?'?){0,4} ?(?:n[ro°º.']*\s*)?\d{1,3}$",
    # "The shade varies from bath to bath"
    r"^.*\b(?:var(?:y|ies|ia|ie|iert|ierar|ierer|iano|ian|ieren)|differs?|verschil(?:t|len)"
    r"|skift(?:ar|er)|wechsel[tn]|cambia[n]?o?|change(?:nt|s)?)\b.*\b(?:baths?|lots?|bad|baden|badet|bains?"
    r"|bagn[oi]|banos?|partie?n?|partija?|partit[ae]|lotes?|lott[oi])\b.*$",
)
"""Lines about a pattern, a telephone line, a laboratory's report, a club's parcel, complaints, who
checked the ball, and that shades vary."""

_COPYRIGHT = re.compile(r"(?:©|\([cC]\))\s*(?:\d{4}(?:\s*[-–]\s*\d{4})?)?")
_COPYRIGHT_YEAR = re.compile(r"(?:©|\(c\)) ?[^\d\W][^\d\n]{2,40}?(?P<year>(?:19|20)\d\d)(?!\w)")
_MEASURE = re.compile(rf"\b\d+(?:[.,]\d+)?\s*(?:[x-]\s*\d+(?:[.,]\d+)?\s*)?{_UNIT}")
_CODE = re.compile(r"\d[\d./-]*[A-Z]")
_FIRM = re.compile(r"\b(?:gmbh|ltd|s\.?r\.?l|s\.?p\.?a|sarl|bv|aps|inc|kg)\b")
_POST_CODE_TOWN = re.compile(
    r"(?<!©)(?<!© )(?<!\(c\) )\b(?:\d{4,6}|\d{3} \d\d)\s+[a-z]{3,}(?:[ -][a-z]+)*"
)
_ENDS_WITH_POST_CODE = re.compile(
    r"[^\W\d].*,\s(?:[A-Z]{1,3}-)?(?:\d{3} \d\d|\d{4,6})(?: [A-Z]{2})?\W*$"
)
_BEFORE_COUNTRY = re.compile(rf",\s{COUNTRY}\W*$")
_TOWN_SIZE = 1.3

_TOWN_NEXT = re.compile(
    r"\s*[,·|–—-]?\s*(?:(?:[A-Z]{1,3}[- ])?\d{4,6}(?: [A-Z]{2})?\s+[^\W\d_]"
    r"|[A-Z]{1,2}\d{1,2}[A-Z]?\s\d[A-Z]{2}\b)"
)
_HALF = re.compile(r"(?<![\w./-])\d{6,7}(?![\w./-])")
"""What a barcode's guard bars part its digits into."""

_DIGITS = re.compile(r"\d(?:[ ]{0,2}\d){6,13}")


def find_clutter(lines: Sequence[Line], barcodes: Sequence[Barcode]) -> list[Span]:
    """Stretches of ``lines`` that no lot, code or name may be taken from."""
    known = {barcode.text for barcode in barcodes}
    folded = [Folded(line.text) for line in lines]
    addresses = [_address_spans(text) for text in folded]
    found = _streets_above_towns(lines)
    for number, text in enumerate(folded):
        spans = addresses[number] + _matches(text, _OTHERS) + _barcode_digits(text, known)
        spans += [text.span(*one.span("year")) for one in _COPYRIGHT_YEAR.finditer(text.text)]
        spans += [span for span in _matches(text, (_MEASURE,)) if not _is_code(text, span)]
        near_address = any(addresses[max(0, number - 1) : number + 2])
        if near_address or _FIRM.search(text.text):
            spans += _matches(text, (_POST_CODE_TOWN,))
        found += [Span(number, start, end) for start, end in spans]
    return [*found, *about_other_things(lines)]


def find_dates(lines: Sequence[Line]) -> list[Span]:
    """Dates that have captions of their own, with these."""
    return [
        Span(number, start, end)
        for number, line in enumerate(lines)
        for start, end in _matches(Folded(line.text), _CAPTIONED_DATES)
    ]


def about_other_things(lines: Sequence[Line]) -> list[Span]:
    """Print about a free pattern, a helpline, a laboratory's report, a parcel, complaints and the
    like, with the lines in which a sentence of it goes on."""
    found: list[Span] = []
    for number, line in enumerate(lines):
        goes_on = bool(found) and found[-1].line == number - 1 and _goes_on(lines[number - 1], line)
        if goes_on:
            found.append(Span(number, 0, len(line.text)))
        else:
            spans = _matches(Folded(line.text), _ABOUT_OTHERS)
            found += [Span(number, start, end) for start, end in spans]
    return found


def _goes_on(line: Line, below: Line) -> bool:
    """Whether the sentence that fills ``line`` goes on in the line right ``below`` it."""
    runs_on = line.text.rstrip()[-1:].isalpha() and below.text[:1].islower()
    return runs_on and is_next_line(line, below)


def is_town_below(lines: Sequence[Line], span: Span) -> bool:
    """Whether ``span`` fills a line right below one that ends with a post code, or stands before a
    country: the town of an address."""
    line = lines[span.line]
    if _BEFORE_COUNTRY.match(Folded(line.text[span.end :]).text):
        return True
    rest = line.text[: span.start] + line.text[span.end :]
    return not any(sign.isalnum() for sign in rest) and any(
        is_next_line(other, line)
        and _ENDS_WITH_POST_CODE.search(other.text) is not None
        and other.height_px < _TOWN_SIZE * line.height_px
        for other in lines
    )


def find_addresses(lines: Sequence[Line]) -> list[Span]:
    """Postal, web and mail addresses and telephone numbers among ``lines``."""
    found = [
        Span(number, start, end)
        for number, line in enumerate(lines)
        for start, end in _address_spans(Folded(line.text))
    ]
    return found + _streets_above_towns(lines)


_STREET_AT_END = re.compile(r"(?:^|(?<=, ))[a-z][a-z .'-]+ \d{1,4} ?[a-z]?\s*,\s*$")


def _streets_above_towns(lines: Sequence[Line]) -> list[Span]:
    """Streets and their numbers that end a line with a comma, right above one that begins with the
    town: "Am Siel 84," above "D-51830 Sielwarden"."""
    found = []
    for number, line in enumerate(lines):
        folded = Folded(line.text)
        street = _STREET_AT_END.search(folded.text)
        if street is not None and any(
            is_next_line(line, other) and begins_with_postal_address(other) for other in lines
        ):
            found.append(Span(number, *folded.span(*street.span())))
    return found


def heads_address(line: Line, span: Span) -> bool:
    """Whether the print at ``span`` of ``line`` begins a line that goes on with an address,
    as a firm's name does: "© Hollin Fold, ZZ7 4LB Hollin"."""
    before = _COPYRIGHT.sub("", line.text[: span.start])
    begins = not any(sign.isalnum() for sign in before)
    return begins and any(one.start >= span.end for one in find_addresses([line]))


def stands_before_town(line: Line, span: Span) -> bool:
    """Whether right behind the print at ``span`` of ``line`` stands a post code and its town: the
    name of a firm may stand there, and as well that of a street or a farm."""
    return _TOWN_NEXT.match(line.text, span.end) is not None


def begins_with_postal_address(line: Line) -> bool:
    """Whether ``line`` holds a postal address and nothing before it."""
    folded = Folded(line.text)
    starts = [start for start, _ in _matches(folded, _POSTAL) + _towns(folded)]
    return bool(starts) and not any(sign.isalnum() for sign in line.text[: min(starts)])


def behind_copyright(line: Line, span: Span) -> bool:
    """Whether nothing but a sign of copyright, and perhaps its year, stands in ``line`` before
    the print at ``span``: "© 2021 Hollin Fold"."""
    return _COPYRIGHT.fullmatch(line.text[: span.start].strip()) is not None


def web_names(lines: Sequence[Line]) -> set[str]:
    """Names in the web and mail addresses on a tag, folded, without dots and endings."""
    names = set()
    for line in lines:
        for match in _WEB_NAME.finditer(Folded(line.text).text):
            names.add((match["named"] or match["bare"]).replace("-", ""))
    return names


def web_spellings(name: str) -> set[str]:
    """All ways in which web addresses spell ``name``: "&" may be a word, "ä" two letters."""
    long = name.casefold()
    for letter, pair in (("ä", "ae"), ("ö", "oe"), ("ü", "ue"), ("å", "aa"), ("ø", "oe")):
        long = long.replace(letter, pair)
    return {
        web_letters(Folded(text.replace("&", word)).text)
        for text in (name, long)
        for word in (("", *_ANDS) if "&" in text else ("",))
    }


def web_letters(folded: str) -> str:
    """A folded name with only the letters and digits that web addresses have."""
    return re.sub(r"[^a-z0-9]", "", folded)


def web_places(lines: Sequence[Line], name: str) -> list[Span]:
    """Where the web or mail addresses among ``lines`` hold ``name``."""
    return [
        Span(number, *folded.span(*match.span()))
        for number, line in enumerate(lines)
        for folded in (Folded(line.text),)
        for match in _WEB_NAME.finditer(folded.text)
        if (match["named"] or match["bare"]).replace("-", "") == name
    ]


def _address_spans(folded: Folded) -> list[tuple[int, int]]:
    """Addresses in a line."""
    return _matches(folded, _ADDRESSES) + _towns(folded)


def _towns(folded: Folded) -> list[tuple[int, int]]:
    """The town that begins a line before its code: "Nantbrook, ZZ40 5KN, Wales"."""
    town = _TOWN.match(folded.text)
    return [folded.span(*town.span())] if town and not has_trade_word(town["town"]) else []


def _matches(folded: Folded, patterns: Iterable[re.Pattern[str]]) -> list[tuple[int, int]]:
    return [
        folded.span(*match.span())
        for pattern in patterns
        for match in pattern.finditer(folded.text)
    ]


def _is_code(text: Folded, span: tuple[int, int]) -> bool:
    """Whether a measure is rather a code with a capital behind it: units are set small, or
    apart from their number."""
    return _CODE.fullmatch(text.original[span[0] : span[1]]) is not None


def _barcode_digits(folded: Folded, known: set[str]) -> list[tuple[int, int]]:
    """Digits printed under a barcode, spaced or not: those of a barcode that was read, or
    of the right number with the right check digit.  Half of a barcode's may stand alone."""
    found = []
    for match in _DIGITS.finditer(folded.text):
        digits = match[0].replace(" ", "")
        of_barcode = any(digits in code or code in digits for code in known)
        checked = len(digits) in (12, 13) and check_digit_ok(digits)
        if of_barcode or checked or len(digits) >= 12:
            found.append(folded.span(*match.span()))
    halves = [match for match in _HALF.finditer(folded.text) if not found]
    found += [
        folded.span(*match.span()) for match in halves if any(match[0] in code for code in known)
    ]
    return found
