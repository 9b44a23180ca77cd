"""Sentences beside care that speak of balls, lots and where the yarn was made: "please check that
all balls carry the same number", "made in the EU".

Each is passed over as a whole, but none that may tell of care: no word of it is one of care, nearly
one, or a negation.  Common practice, no source; all words are folded.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from intake.fields.care.concepts import FILLERS, STRONG, WHOLE, is_made_of_care, meanings_of
from intake.fields.care.forms import worded
from intake.fields.care.phrases import PHRASES
from intake.fields.letters import Words, listed
from intake.fields.origin import PHRASES as MADE_IN

_TRADE = worded(
    """
    ball balls skein skeins hank hanks batch batches lot lots dyelot dyelots label labels band
    knauel strang strange partie partien charge chargen farbpartie farbpartien banderole
    pelote pelotes echeveau echeveaux bain bains etiquette
    gomitolo gomitoli matassa matasse bagno bagni lotto lotti partita fascetta
    ovillo ovillos madeja madejas lote lotes partida bano banos etiqueta
    bol bollen knot knotten streng strengen verfbad verfbaden kleurbad kleurbaden partij banderol
    nystan nystanet harva harvor fargbad farge fargparti parti partier banderoll
    partienummer partienummern badnummer lotnummer partijnummer partinummer fargbadsnummer
    fargebadnummer farvebadsnummer fargebadsnummer
    noste noster nostet nostene fargebad innfarging fargeparti banderole
    nogle nogler noglet noglerne farvebad farveparti
    """
)
"""What yarn is sold in, and what tells one dyeing from another."""

_BUYING = worded(
    """
    buy purchase order kaufen kauft acheter achetez acquistare acquistate comprate
    comprar compre kopen koop kop kopa kjop kjope kob kobe
    """
)
"""What a tag asks for that wants no other lot beside its own."""

ADVICE = (
    worded(
        """
        small kleinen kleine petits petites piccoli piccole pequenos pequenas sma
        please check that all the same carry carries number numbers before you begin begins
        beginning start starting knitting crochet crocheting work working project slight
        variation variations differences colour color shade may occur enough yarn once complete
        together keep with from for match matching ensure sure bitte vor arbeitsbeginn beginn
        gleiche gleichen gleicher auf achten darauf dass tragen nummer prufen genug genugend
        garn menge einmal farbabweichungen abweichungen strickbeginn verifiez verifier controlez
        controler que toutes portent meme memes numero avant commencer ouvrage suffisamment
        quantite fil laine ensemble conserver einen eines controllare verificare controllate
        verificate
        tutti tutte abbiano stesso stessa portino prima iniziare lavoro sufficiente quantita
        filato insieme conservare compruebe comprobar verifique verificar todos todas lleven
        mismo misma antes empezar comenzar labor suficiente cantidad hilo una vez conservar
        controleer controleren let op alle hetzelfde dezelfde dragen hebben voor begint beginnen
        genoeg garen keer een bewaar kontrollera att samma nummer innan borjar borja arbetet
        tillrackligt garn samtidigt spara kontroller samme har baerer inden starter arbeidet
        arbejdet nok en gang behold gem for du
        """
    )
    | _TRADE
    | _BUYING
)
"""Words of such sentences, which are no misread words of care."""

_SEALS = worded(
    """
    certificate certified zertifikat zertifiziert certificat certifie certifiee certificato
    certificata certificado certificada certificaat gecertificeerd certifikat certifierad
    certifierat sertifikat sertifisert certificeret
    """
)
"""What a seal is told with: it says nothing of one ball."""

_NONE_OF_THEM = re.compile(
    r"(?<![a-z])(?:no|keine?|aucune?|nessuna?|ningun[ao]?|geen|inget|ingen|inga)"
    r"(?: (?:two|zwei|deux|due|dos|twee|tva|to))? (?="
    + "|".join(sorted(_TRADE, key=lambda one: (-len(one), one)))
    + r")(?![a-z]*\s?[:\d])"
)
"""What forbids nothing: "no two skeins are alike"."""

_SHORTEST_MISREAD = 5

_CARE = Words(
    words[0]
    for words, said in WHOLE.items()
    if len(words) == 1
    and len(words[0]) >= _SHORTEST_MISREAD
    and (STRONG | {"flat", "hang", "shade", "machine", "hand", "not"}) & set(said)
)

_NEGATIONS = listed(PHRASES["not"])

_BEGINNING = re.compile(r"\n|[.;:!?·]\s+|(?<=\s[pf])\s(?=[a-z]{3})")
"""What stands before a sentence: a stop, or the letter of a solvent that has lost its stop."""

_STOP = re.compile(r"[.;:!?·](?=\s|$)")
_LINE_END = re.compile(r"\n|\Z")

_MOST_LINES = 3
"""A sentence goes over at most so many lines."""

DYED = (
    r"(?:dyed|painted|spun|knitted) by hand",
    r"hand ?(?:dyed|painted|spun|gefarbt|bemalt|gesponnen|geverfd|farga[dt]|farget|farvet)\w*",
    r"(?:von|per) hand (?:gefarbt|bemalt|gesponnen)\w*",
    r"(?:teint|peint|file)e?s? (?:a la )?main",
    r"(?:tint|dipint|filat)[oaie] a mano",
    r"(?:tenid|pintad|hilad)[oa]s? a mano",
    r"(?:met de hand|handmatig) (?:geverfd|gesponnen)\w*",
    r"(?:fargad|malad|spunnet|spunnen|farget|spundet|farvet)\w* (?:for|med) hand\w*",
)
"""How the yarn was made, by hands that wash nothing."""

_BY_HAND = re.compile("|".join(f"(?<![a-z]){one}(?![a-z])" for one in DYED))

_WORD = re.compile(r"[^\W\d_]+")

_DOTS = listed(
    "dot; dots; punkt; punkte; punkten; point; points; punto; punti; puntos; punt; punten; stip;"
    " stippen; prick; prickar; prikk; prikker; prik"
)
"""The last word of an iron's heat, "two / dots", which opens no sentence."""

_SAYS_NOTHING = frozenset({"allow", "wool"})

_ADDRESS = re.compile(
    r"@[\w.-]+|(?<![a-z])(?:www\.[ ]?[\w.-]+|[\w.-]+@[\w.-]+"
    r"|[\w-]+\.(?:example|com|org|net|eu)(?![a-z]))"
)
"""Names by which firms are found on the web: "@garnladen"."""

_ORIGIN = re.compile(
    r"(?<![a-z])(?:" + "|".join(f"(?:{one})" for one in MADE_IN.values()) + r")"
    r" (?:(?:the|de|la|le|den|der) |l')?(?P<place>[a-z]+)(?![a-z])"
)


@lru_cache(maxsize=64)
def others_in(text: str) -> Mapping[int, int]:
    """Start of every such sentence or address in folded ``text``, in order, to its end
    (exclusive)."""
    found = dict(_sentences(text))
    for match in _ORIGIN.finditer(text):
        inside = any(low < match.end() and match.start() < high for low, high in found.items())
        if not inside and not meanings_of((match["place"],)) and match["place"] not in FILLERS:
            found[match.start()] = match.end()
    for match in _ADDRESS.finditer(text):
        if not any(low < match.end() and match.start() < high for low, high in found.items()):
            found[match.start()] = match.end()
    return dict(sorted(found.items()))


def _sentences(text: str) -> Iterator[tuple[int, int]]:
    starts = {0, *(match.end() for match in _BEGINNING.finditer(text))}
    done = 0
    for start in sorted(starts):
        if start < done:
            continue
        for end in _ends(text, start):
            if end > start and _is_advice(text[start:end]):
                done = end
                yield start, end
                break


def _ends(text: str, start: int) -> Iterator[int]:
    """Where a sentence may end that begins at ``start``: at its stop, if that is in the third line
    at the latest, or at the end of its line."""
    breaks = [match.start() for match in _LINE_END.finditer(text, start)][:_MOST_LINES]
    if stop := _STOP.search(text, start, breaks[-1]):
        yield stop.start()
    yield breaks[0]


def _is_advice(sentence: str) -> bool:
    words = _WORD.findall(_NONE_OF_THEM.sub(" ", _BY_HAND.sub(" ", sentence)))
    return bool((_TRADE | _BUYING | _SEALS) & set(words)) and not any(
        _may_be_care(word) for word in words
    )


def _may_be_care(word: str) -> bool:
    if word in _NEGATIONS or word in _DOTS or set(meanings_of((word,))) - _SAYS_NOTHING:
        return True
    if word in ADVICE or word in FILLERS or len(word) < _SHORTEST_MISREAD:
        return False
    return is_made_of_care(word) or _CARE.resembles(word)
