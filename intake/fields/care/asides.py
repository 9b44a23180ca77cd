"""Phrases between words of care that say nothing of it, though their words may: "any solvent except
trichloroethylene", "with a clean towel", "press the water out", "if needed".

They are passed over wherever they stand.  Common practice, no source; all are folded.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache, lru_cache

from intake.fields.care.advice import DYED, others_in
from intake.fields.care.manners import EVEN_BY_HAND, OF_ONE_DOT

_WITH_CHLORINE = r"tri\w*"
"""The solvent that nothing is cleaned with; ISO 3758 lets P be all others (from memory)."""

_SOLVENTS = (
    rf"(?:(?:with|in|by) )?(?:any|all)(?: the)?(?: usual| common| normal)? solvents?,? "
    rf"(?:except|excluding|other than|but not)(?: for)? {_WITH_CHLORINE}",
    rf"(?:mit )?allen(?: \w*ublichen| gangigen)? losungsmitteln,? "
    rf"(?:ausser|ausgenommen|mit ausnahme von) {_WITH_CHLORINE}",
    rf"(?:avec )?tous(?: les)?(?: types de)? solvants(?: usuels| courants)?,? "
    rf"(?:sauf|excepte|hormis|hors|a l'exception du)(?: le| au)? {_WITH_CHLORINE}",
    rf"(?:con )?(?:tutti i|qualsiasi)(?: comuni| normali)? solvent[ei],? "
    rf"(?:tranne|eccetto|escluso|salvo|ad eccezione d\w+)(?: il| la)? {_WITH_CHLORINE}",
    rf"(?:con )?(?:cualquier|todos los|todo tipo de) disolventes?,? "
    rf"(?:excepto|salvo|menos)(?: el)? {_WITH_CHLORINE}",
    rf"(?:met )?alle(?: gebruikelijke| gangbare)? oplosmiddelen,? "
    rf"(?:behalve|uitgezonderd) {_WITH_CHLORINE}",
    rf"(?:med )?all[ea](?: \w*gaengse| vanlige| vanliga)? "
    rf"(?:oplosningsmidler|losemidler|losningsmidler|losningsmedel),? "
    rf"(?:undtagen|undtaget|bortset fra|unntatt|bortsett fra|utom|forutom) {_WITH_CHLORINE}",
)

_COLOURS = (
    r"(?:mit )?(?:gleich|hell|ahnlich)\w* farb\w*",
    r"(?:in )?light colou?rs",
    r"(?:d[ie]\w* |con |lo )*stesso colore",
    r"colore simile",
    r"(?:med )?lignende f\w{4,5}",
    r"(?:colou?r|farbe|couleur|colore|color|kleur|farve|farge|farg) fast",
    r"(?:grand|bon|petit) teint",
    r"(?:koch|licht|wasch|farb|reib|schweiss)echt(?:e[rsn]?)?",
    r"(?:licht|was|kleur|kook)echt",
    r"(?:lys|vaske|farve|farge|koke|koge)(?:ekte|aegte)",
    r"(?:ljus|tvatt|farg|kok)akta",
)

_CLEAN_OR_DRY_THINGS = (
    r"(?:clean|dry) (?:towels?|cloths?)",
    r"clean (?:water|sheet|surface)",
    r"trockene[nsmr]? (?:hand|frottier|bade|bugel)?tuch\w*",
    r"(?:panno|asciugamano|telo) (?:pulit|asciutt)o",
    r"acqua pulita",
    r"agua limpia",
    r"(?:pano|trapo) (?:limpio|seco)",
    r"toalla (?:limpia|seca)",
    r"(?:serviette|eponge) (?:seche|propre)",
    r"(?:linge|torchon) (?:sec|propre)",
    r"droge (?:hand)?doek\w*",
    r"torr?t? (?:handklaede|handklede|handkle|handduk|klede|klaede|tyg)",
)

_PRESSED_OUT = (
    r"press(?:ing)? (?:gently )?out(?: the| any| all| excess| surplus)*(?: water| moisture| suds)?",
    r"press(?:ing)?(?: the| excess| gently)* (?:water|moisture) out",
    r"press(?:ing)? (?:gently |lightly )?(?:in|into|between)(?: a| two| clean)* towels?",
    r"tirare (?:in|a) forma",
    r"(?:traek|traekkes|strekk|strekkes|strack|strackes) (?:godt )?i (?:facon|fasong|form)",
    r"press(?:es)? van[dn]et (?:godt )?u[dt]",
    r"(?:(?:skal|ma|far|ska) )?(?:ikke|ej|inte) press(?:es|as) (?:u[dt]|ur|hard?t)",
    r"(?<!sin )(?<!no )(?:escurr|exprim|estruj)\w+ (?:con (?:suavidad|cuidado|delicadeza)"
    r"|suavemente|delicadamente|ligeramente|cuidadosamente|un poco)",
    r"(?<!zonder )(?<!niet )(?:zacht(?:jes)?|voorzichtig|licht) uit(?:knijp|druk)\w+",
)

_SHAPED = (
    r"(?:(?:pat|pull|ease|coax|block|smooth|push|gently|back) )+into (?:its |the )?"
    r"(?:original |correct )?(?:shape|size|form)",
    r"into (?:its |the )?(?:original |correct )?(?:shape|size|form)",
)

_BARELY = tuple(
    rf"(?<={hand}, )(?:only |just |eau |acqua |agua )?(?:barely|hardly|kaum|a peine|appena|apenas"
    r"|nauwelijks|knappt) (?:warm|tepid|tiede|tiepid[oa]|tibi[oa]|lauw|lauwarm|ljummet)"
    for hand in ("hand", "main", "mano")
)
"""How hot water is that hands wash in, behind them and a comma."""

_WITH_WHAT = (
    r"(?:with|under|using|through)(?: a| the)?(?: damp| clean| moist| cotton)* press(?:ing)? cloth",
    r"press(?:ing)? cloth",
    r"\w*(?:waschmittel|wasmiddel|vaskemid|tvattmedel)\w*",
    r"wool (?:wash |washing )?(?:liquid|detergent|soap|agent)",
    r"superwash\w*",
    r"(?:uld|ull|woll?|lana)(?:saebe|sape|seife|zeep|tval|shampoo)\w*",
)

_IN_WATER = r"(?:(?:clear|clean|cold|cool|lukewarm|tepid|warm|fresh|plenty of|of|the same) )*water"

_RINSED = (
    rf"rins(?:e|ing|ed)(?: well| thoroughly)?(?: in| with)? {_IN_WATER}",
    r"(?:aus)?(?:ge)?spul(?:en|t)(?: gut)?(?: in| mit)? (?:klar|kalt|lauwarm|frisch)em wasser",
    r"(?:in|mit) (?:klar|kalt|lauwarm|kuhl|frisch)em wasser (?:gut )?(?:aus)?(?:ge)?spul(?:en|t)",
    r"rin(?:cer|cez|cage)(?: bien)?(?: a)?(?: l')?eau (?:claire|froide|tiede|fraiche)",
    r"(?:ri)?sciacqu\w+(?: bene)?(?: con| in)? acqua (?:fredda|pulita|tiepida|corrente|fresca)",
    r"(?:aclar|enjuag)\w+(?: bien)?(?: con| en)? agua (?:fria|limpia|tibia|templada|corriente)",
    r"(?:uit|na|ge)*spoel\w*(?: goed)?(?: in| met)? (?:koud|schoon|lauw|helder|fris)e? water",
    r"(?:ud|ut)?s?skyll?e?[srt]?(?: godt)?(?: i| med)? (?:koldt|kaldt|rent|lunkent|lunkne) van[dn]",
    r"skolj(?:as|a|s)?(?: val| noga)?(?: i| med)? (?:kallt|rent|ljummet|svalt) vatten",
)

_NO_HOT_WATER = (
    r"(?:do not use|never use|do not wash in|never in|not in|avoid|no) (?:hot|warm|boiling) water",
    r"(?:kein|nicht in|nie in|ohne|nicht mit) (?:heiss|warm|kochend)e[smn] wasser",
    r"(?:pas d'|ne pas utiliser d'|ne pas utiliser l'|sans |eviter l'|jamais d')"
    r"eau (?:tres )?(?:chaude|bouillante)",
    r"(?:non usare|non in|mai in|evitare|no|senza) (?:l')?acqua (?:calda|bollente)",
    r"(?:no usar|no utilizar|nunca en|evitar|sin|no) (?:el )?agua (?:caliente|hirviendo)",
    r"(?:geen|niet in|nooit in|vermijd) (?:heet|warm|kokend) water",
    r"(?:(?:bruk|brug|anvand) )?(?:ikke|aldrig?|ej|inte|undga|unnga|undvik) (?:i )?"
    r"(?:varmt|hett|kogende|kokende) (?:vann|vand|vatten)",
)

_IF_NEEDED = (
    r"(?:if|when|where|as) (?:needed|necessary|required|desired)",
    r"(?:falls|wenn|sofern) (?:notig|erforderlich|gewunscht)",
    r"bei bedarf",
    r"si (?:es )?(?:necessaire|besoin|necesario|fuera necesario)",
    r"au besoin|en cas de besoin|en caso necesario",
    r"se necessario|all'occorrenza|in caso di necessita",
    r"(?:indien|zo) nodig",
    r"(?:hvis|om) (?:det er )?nod\w*",
    r"(?:ved|vid) behov",
)

_NO_MORE = r"(?![\s,/&-]*(?:and|or|und|oder|et|ou|ni|e|o|ed|y|en|of|och|eller|og|nor|noch)\b)"
"""Not before what goes on: the sun, from which wool is kept too, is care."""

_FROM_HEAT = tuple(
    one + _NO_MORE
    for one in (
        r"(?:away|far|far away) from (?:any |all |direct |strong )*"
        r"(?:heat(?: sources?)?|sources? of heat|radiators?|heaters?|heating|stoves?)",
        r"(?:fern|entfernt|weg|abseits) von (?:direkten? |direkter |jeder |allen )?"
        r"(?:warmequellen?|hitzequellen?|heizung(?:en)?|heizkorpern?|ofen)",
        r"(?:loin|a l'ecart|eloignee?) (?:de |d'|des |du |de la |toute |tout |une )*"
        r"(?:sources? de chaleur|radiateurs?|chauffage|poele)",
        r"lontan[oaei] (?:da |dal |dai |dalla |dalle |ogni |qualsiasi )*"
        r"(?:fonti? di calore|termosifon[ei]|radiator[ei]|stufe?)",
        r"(?:lejos|alejad[oa]|apartad[oa]) (?:de |del |de la |las |los |toda |cualquier )*"
        r"(?:fuentes? de calor|radiador(?:es)?|estufas?|calefaccion)",
        r"(?:uit de buurt|weg|ver) van (?:de |een |elke )?"
        r"(?:warmtebron(?:nen)?|verwarming|radiator(?:en)?|kachel)",
        r"(?:bort|langt|borta|langt borta) fran (?:element(?:et)?|varmekall(?:a|or|an)|radiatorer)",
        r"(?:vekk|langt|borte|unna|vaek) fra (?:varmekilde[rn]?|radiator(?:er|en)?|ovn(?:en)?"
        r"|varmeovn(?:er|en)?)",
    )
)
"""That wool is to dry away from the heating, which no process tells of."""

_NOT_NEEDED = (
    r"(?:ironing|pressing) (?:is |should be |will be )?(?:not (?:usually |normally |really )?"
    r"(?:needed|necessary|required)|unnecessary)",
    r"(?:bugeln|das bugeln|ein bugeln) (?:ist |wird )?(?:meist |normalerweise )?"
    r"(?:nicht (?:notig|notwendig|erforderlich)|unnotig|uberflussig)",
    r"(?:le )?repassage (?:n'est |est )?(?:pas (?:necessaire|utile|requis)|inutile|superflu)",
    r"(?:la )?stiratura (?:non (?:e )?(?:necessaria|richiesta|occorre)|superflua)",
    r"non (?:e necessario|c'e bisogno di|richiede|serve|occorre) (?:la )?stir(?:are|atura)",
    r"(?:el )?(?:planchado|planchar) (?:no (?:es )?(?:necesario|preciso)|innecesario)",
    r"no (?:es necesario|hace falta|es preciso) plancha(?:r|do|rlo|rla)",
    r"strijken (?:is )?(?:niet (?:nodig|vereist|noodzakelijk)|overbodig|onnodig)",
    r"(?:strykning|stryking|strygning) (?:er |ar )?(?:(?:ej|inte|ikke) (?:nodvandig|nodvendigt?"
    r"|pakravd|pakrevd)t?|overflodigt?|onodigt?|unodvendigt?)",
)
"""What tells that no iron is needed, which forbids none."""

_WHEN = (
    r"(?:before|after)(?: the)?(?: first)? (?:use|wear|wearing|washing|wash|each wash)",
    r"(?:vor|nach) dem (?:ersten )?(?:tragen|waschen|gebrauch)",
    r"vor gebrauch",
    r"(?:avant|apres) (?:la )?(?:premiere utilisation|utilisation|premier lavage|le lavage|lavage)",
    r"(?:prima|dopo)(?: dell'uso| dell'utilizzo| il lavaggio| di indossarlo| del primo \w+)",
    r"(?:antes|despues) (?:del? )(?:primer )?(?:uso|usar|usarlo|lavado|lavar)",
    r"(?:voor|na) het (?:eerste )?(?:gebruik|dragen|wassen)",
    r"(?:for|fore|efter|etter) (?:forste |forsta )?(?:gangs |gang )?(?:bruk|brug|anvandning|vask"
    r"|tvatt)",
    r"(?:in|during|for) the first (?:few )?wash(?:es)?",
    r"(?:bei|in) den ersten wasche?n?",
    r"forst[ea] gang(?:en)?",
    r"until the water (?:runs|is) clear",
)

_HOW = r"(?![\s-](?:(?:a|a la|by|von|met de|med) )?(?:main|mano|hand|machine|maquina|lavatrice)\b)"
"""Not before what washes: "after washing by hand" tells that hands do."""

_SIDES = (
    r"(?:wash(?:ed)? |turned? |on )?inside ?out",
    r"(?:from|on)(?: the)? (?:wrong side|reverse(?: side)?|inside)",
    r"(?:auf|von) (?:links|der (?:linken seite|ruckseite))",
    r"sur l'envers|a l'envers",
    r"(?:a|al|da|sul) rovescio",
    r"(?:por el|del|al) reves",
    r"binnenstebuiten",
    r"(?:aan|op|langs) de (?:binnenkant|achterkant|binnenzijde|achterzijde)",
    r"(?:fran|pa) (?:avigan|avigsidan|baksidan|insidan)",
    r"(?:pa|fra) (?:vrangen|vrangsiden|bagsiden|innsiden|indersiden)",
    r"med (?:vrangen|avigan|vrangsiden) (?:ud|ut|utad|utover|udad)",
    r"vrangen (?:ud|ut)|avigan (?:ut|utat)|ut och in",
)

_SHADE_NUMBERS = (r"(?:in )?(?:the )?shade,?\x20(?:(?:no|nr|number)\.? )?[a-z]{0,3}\d[\w/]*",)
"""The English word that is a place to dry in and a colour: with a number in its line it is the
colour."""

_HEADINGS = (
    r"(?:lavado y cuidado|cuidado y lavado|wash(?:ing)? and care|waschen und pflegen)",
    r"(?:lavage et entretien|lavaggio e cura|wassen en verzorgen|tvatt och skotsel)",
    r"vask og (?:pleje|stell|vedlikehold)",
)

_SALE = (
    r"was ?[-:]? ?[£$€] ?\d[\d.,]*",
    r"(?:colou?r|shade|lot|batch|item|ref|article|style|farb|kleur|colore?) no\.",
)
"""A price that stood before, "was £12.00", and the caption of a number: neither is care."""

_INCHES = (r"\d{1,2}in(?:ch(?:es)?)?",)

_WHATEVER = (
    r"of (?:any|whatever|every) (?:kind|sort|type)s?(?: whatsoever| at all)?",
    r"under any circumstances?",
    r"whatsoever",
    r"(?:jeder|jedweder|jeglicher|irgendwelcher) art",
    r"de (?:toute|quelque) (?:sorte|nature)(?: que ce soit)?",
    r"de (?:tout|quelque) (?:type|genre)(?: que ce soit)?",
    r"quels?(?:le)?s? qu'(?:il|elle)s? soi(?:t|ent)",
    r"di (?:qualsiasi|qualunque|ogni) (?:tipo|genere|natura)",
    r"de (?:cualquier|todo) (?:tipo|clase|genero)",
    r"(?:van|in) (?:welke|elke|enige) (?:soort|aard|vorm)(?: dan)?(?: ook)?",
    r"onder (?:enige|welke) omstandighe(?:id|den)(?: dan)?(?: ook)?",
    r"a[vf] (?:nagot|nagon|noe|noen|nogen|noget|enhver|ethvert|alle) (?:slags?|art|typer?|sort)",
    r"under (?:nagra|nogen|noen) omst\w*",
    r"(?:pa|i) (?:nagot|nogen|noen|noe) (?:satt|vis|made|mate|form)",
)
"""How a label says that it means all of a kind, which no word allows or forbids."""

_NOTHING_ELSE = (
    r"(?:(?:and|but) )?nothing else",
    r"(?:und )?(?:sonst nichts|nichts (?:anderes|weiter|sonst))",
    r"(?:et )?(?:rien d'autre|rien de plus)",
    r"(?:e )?(?:nient'altro|niente altro|nulla di piu)",
    r"(?:y )?nada mas(?! que)",
    r"(?:en )?(?:niets anders|verder niets)",
    r"(?:och )?(?:inget|ingenting) (?:annat|mer)",
    r"(?:og )?(?:intet|ingenting) (?:annet|andet|annat)",
)
"""How a label says that it means just what stands before: "hand wash and nothing else"."""

_MILD_CLEANING = (
    r"(?<=\b[pf], )(?:very )?(?:mild|gentle|delicate|moderate) process",
    r"(?<=\b[pf], )(?:sehr )?(?:mild|schonend|sanft)es verfahren",
    r"(?<=\b[pf], )(?:procede|traitement) (?:tres )?(?:modere|doux|delicat)",
    r"(?<=\b[pf], )(?:processo|ciclo|trattamento) (?:molto )?(?:delicato|moderato)",
    r"(?<=\b[pf], )(?:proceso|ciclo|tratamiento) (?:muy )?(?:suave|delicado|moderado)",
    r"(?<=\b[pf], )(?:zeer )?(?:mild|zacht|voorzichtig)e? (?:proces|behandeling)",
    r"(?<=\b[pf], )(?:mycket |meget |veldig )?(?:mild|skonsam|skansom)t? pro(?:c|s)ess?",
)
"""How solvents clean gently, behind their letter: it tells of no programme of a machine."""

_FIRST_WASH = tuple(
    f"(?:{when}) (?:{first}) (?:{wash})"
    for when, first, wash in (
        ("(?:in|at|during|on|with)(?: the)?", "first(?: few)?", "wash(?:es)?"),
        ("bei der|bei den|beim|in der|wahrend der", "ersten", "waschen?|waschgang"),
        ("au|aux|lors du|lors des|pendant le", "premiers?", "lavages?"),
        ("al|ai|nel|nei|durante il|con il", "prim[oi]", "lavagg(?:io|i)"),
        ("al|en el|en los|durante el|con el", "primer(?:os)?", "lavados?"),
        ("bij de|in de|tijdens de", "eerste", "was|wasbeurt|wasbeurten|wasje"),
        ("i|vid|i den|under|vid den", "forsta", "tvatt|tvatten|tvattarna"),
        ("i|ved|i den|under|ved den", "forste", "vask|vasken"),
    )
)
"""When dye lets go, which tells of no washing of its own: "beim ersten Waschen"."""

_ALL = (
    *(one + _HOW for one in _FIRST_WASH),
    *_MILD_CLEANING,
    *_NOTHING_ELSE,
    *_HEADINGS,
    *_WHATEVER,
    *OF_ONE_DOT,
    *EVEN_BY_HAND,
    *_INCHES,
    *_SALE,
    *DYED,
    *_SHADE_NUMBERS,
    *_SOLVENTS,
    *_COLOURS,
    *_CLEAN_OR_DRY_THINGS,
    *_PRESSED_OUT,
    *_SHAPED,
    *_WITH_WHAT,
    *_BARELY,
    *_RINSED,
    *_NO_HOT_WATER,
    *_IF_NEEDED,
    *_NOT_NEEDED,
    *_FROM_HEAT,
    *(one + _HOW for one in _WHEN),
    *_SIDES,
)


@cache
def _aside() -> re.Pattern[str]:
    any_of_all = "|".join(f"(?:{one})" for one in _ALL).replace(" ", r"[\s-]")
    return re.compile(rf"(?<![a-z])(?:{any_of_all})(?![a-z])")


@lru_cache(maxsize=64)
def asides_in(text: str) -> Mapping[int, int]:
    """Start of every such phrase in folded ``text``, in order, to its end (exclusive), and of
    every sentence that speaks of other things."""
    found = dict(others_in(text))
    for match in _aside().finditer(text):
        if not any(low < match.end() and match.start() < high for low, high in found.items()):
            found[match.start()] = match.end()
    return dict(sorted(found.items()))
