"""Words that stand where names do and name nothing: what is in the ball, what a box is called,
words of praise, of checking and of other fields, in nine languages, folded (common practice, no
source)."""

from __future__ import annotations

import re
from collections.abc import Sequence

from intake.fields.amounts.garment_rows import WHO
from intake.fields.care.events import VOCABULARY as CARE_WORDS
from intake.fields.fibre.names import FILLERS, LANDS
from intake.fields.fibre.print import FIBRE_WORDS, KIND_WORDS, words_without_spaces
from intake.fields.letters import WORD, Folded, listed

_KNITTED = (
    r"(?:hand[ -]?)?(?:knitting|strick|haekel|hakel|crochet"
    r"|tricot(?:er|age|ages|s)?|maglia|punto|breien|brei"
    r"|strikk\w*|stick\w*|virk\w*)[ -]?(?:yarns?|wool|garne?|wolle|garen)?",
    r"fil a tricoter|laine a tricoter|filato(?: per maglia)?|hilo(?: para tejer)?",
    r"yarn|garn|wolle|wool|laine|lana|wol|ull|uld",
)
"""The goods themselves."""

_FROM = (
    rf"(?:{'|'.join(sorted(LANDS))}) (?:yarns?|wools?|garne?|wolle|garens?|wol)",
    rf"(?:laines?|fils?|lan[ae]|filat[oi]|hilos?|lanas?) (?:{'|'.join(sorted(LANDS))})",
)
"""The goods and the land that they come from."""

_CALLED = (
    r"t(?:el|lf|fn)|tele(?:fon|phone|phono|foon)|telefono|fax|mobil|mobile|movil|e-?mail|mtrl|matr"
    r"|kvalit[ae]te?t?|qualit(?:y|at|aet|e|a)|calidad|kwaliteit|quality",
    r"kul[oø]r|kuler|farg|farge|farve|farbe|kleur|colou?r|couleur|coloris|colore|color|tinturaria",
    r"(?:name|nom|nome|nombre|naam|namn|navn|number|numero|nummer)(?: d[ei])?",
    r"rif(?:erimento)?|ref(?:eren\w+)?|sku|ean|gtin|upc|isbn",
    r"type|tipo|garen?typ\w*",
    r"(?:garn|garen|yarn|fil|filato|hilo)[ -]?(?:klasse?|class|kategori\w*|categor\w*|sort\w*"
    r"|st[ae]+rke|tykk\w*|tjocklek|dikte|weight|thickness)",
    r"produk\w*|product\w*|prodott[oi]|produits?",
)
"""What asks for a name or a number."""

_ASKED = (
    r"(?:please )?ask for|(?:bitte )?fragen sie nach|(?:demander|chiedere|richiedere|pedir|pida)"
    r"(?: (?:le|la|il|el))?|vraag(?: bij bij\w+)?(?: naar)?|fraga efter|spor(?:g)? (?:etter|efter)"
    r"|bei(?:m)? nach\w+(?: nach)?|pour un reassort|per altri gomitoli|para mas ovillos",
    r"(?:when|when you|if you|if) (?:buy|buying|need|order|ordering) more"
    r"|(?:(?:nar )?(?:du )?)(?:koper|kjoper|kober) mer[ae]?",
    r"which|what|who|how|quel(?:le)?s?|welche[rsn]?|was|wer|wie|qual[ei]|cual(?:es)?|que|quien|welke"
    r"|wat|hvilke[nt]|hva[d]?|hvem|vilke[nt]|vad|vem",
    r"(?:il |la )?(?:our|your|unsere?|notre|votre|nostr[oa]|nuestr[oa]|ons|onze|vart?|vores)",
    r"hersteller|fabri[ck]ante?|produttore|fabrikant|tillverkare|produsent|producent|maker"
    r"|manufacturer",
)
"""Words that ask, or lead to what follows."""

_SEALED = (
    r".+ std(?: [i\d]{1,3})?",
    r"(?:merket|maerket|markningen|keurmerk|label|siegel|marchio|sello|certificat\w*"
    r"|zertifikat) .+",
    r".+ (?:seal|siegel|merket|maerket|keurmerk)|[^\W\d_]+[ -](?:proof|tested|gepruft|approved)",
)
"""The name of a seal."""

_IN_BOX = (
    r"(?:nella|in (?:der|dieser|de|deze|the|this)|dans (?:la|cette)|en (?:la|esta)|i|i denne"
    r"|i den har) (?:confezione|scatola|packung|schachtel|dose|verpakking|doos|boite|caja|pakken"
    r"|paketet|asken|aesken|esken|boksen|box|kit|pack|set|satsen|settet)"
)
_PACKED = (
    r"(?:this|dies(?:er|es)|ce|questo|este|deze?|detta|denna|dette|denne)"
    r" (?:kit|set|sett?|sats|pakke)\b.*"
    r"|kit\b.*|.* kit|.* zum selber\w+|confezione .+|pret[ -]a[ -](?:tricoter|crocheter)\b.*",
    r"\w*(?:pak(?:ke|ket|et)|sats)\b.*|.* (?:pakke|paket|pakket)",
    r"(?:strick|hakel|haekel|brei|haak|strikke?|hekle?|haekle?|stick|virk)-?(?:set|kit|pack)\b.*",
    r"(?:kit|set|lot|pack) (?:de|di|da|para|pour|per|fur|for|voor|till|til) .*",
    _IN_BOX,
    r"contents|contains|indeholder|inneholder|innehaller|enthalt|contient|contiene|bevat|inhalt"
    r"|inhoud|contenu|contenuto|contenido|innhold|innehall|indhold",
    r"(?:the |das |le |il |el |de |het )?(?:kit\w*|sats\w*|pak\w*|set|[^\W\d_]{3,}) "
    r"(?:contents|contains|indeholder|inneholder|innehaller|enthalt|contient|contiene|bevat)",
    r"gomitolo|knauel|pelote|ovillo|bol|nystan|noste|nogle|ball|skein|strang|echeveau|matassa|madeja",
)
"""Packs and kits, balls and hanks."""

_SOLD_AND_WOUND = (
    r"(?:distribu\w+|vertrieb\w*|verkauft?|sold|vendu|vendid[oa]|vendut[oa]|verkocht|saelges|selges"
    r"|solgt|saljs|sald)(?: (?:by|par|por|da|durch|von|door|av|af|hos)(?: .+)?)?",
    r"r\.?r\.?p|u\.?v\.?p|p\.?v\.?p|rest(?:e)?salg|liquidation|liquidacion|liquidazione"
    r"|clearance",
    r"(?:gewickelt|bobine|winded|wound|gespult) (?:am|le|on)|(?:farg|farve|farge)dat(?:um|o)"
    r"|(?:fecha de )?(?:envasado|embalaje|empaquetado)|(?:data di )?confezionamento"
    r"|(?:date d')?emballage|packed(?: on)?"
    r"|pac?k(?:dat(?:um|o)|edag|edato|nings?dat(?:um|o)|ningsdag)"
    r"|(?:ein|ver|ab)?pack(?:tag|datum)|verpakt(?: op)?|inpakdatum|verpakkingsdatum"
    r"|use|usar",
    r"(?:spun|gesponnen|filee?|hilad[oa]|filat[oa]|spunnet)"
    r" (?:where|wo|ou|donde|dove|waar|der|dar) .+",
)
"""Who sells the yarn, at what price, and when it was wound."""

_PRAISED = (
    r"fin de|new|neu|nouveau|nuovo|nuevo|ny|premium|quality|hand dyed|handgefaerbt",
    r"free|small|limite[ae]?|limitad[ao]|limitat[ao]|vegetale?s?|naturale?s?",
    r"thank you|handmade|made with love",
    r"(?:knit|crochet|make) it yourself|do it yourself|zum selber(?:stricken|machen|hakeln)"
    r"|selbst gestrickt|a (?:tricoter|faire) soi-meme|da fare a maglia|fai da te|para tejer"
    r"|hazlo tu mism[oa]|zelf (?:breien|haken|maken)|sticka sjalv|strikk? selv|gor det selv",
    r"(?:samm[ae]|same|gleichen?|meme|stesso|mismo|zelfde|selben?)(?: [^\W\d_]+)?",
)
"""What is said of the goods."""

_DONE_BY_HAND = (
    r"(?:hand|hand )(?:dyed|spun|painted|made|gefarbte?s?|gesponnene?s?|gemacht|geverfde?"
    r"|fargat|fargad|spunnet|spunnen|malat|farget|farvet|spundet|malet|laget|lavet)"
    r"(?: (?:yarns?|wool|garn|wolle|garen|wol|ullgarn|uldgarn|ull|uld))?"
    r"|teinte?s?(?: a la)? main|files?(?: a la)? main|tint[oaie] a mano|filat[oaie] a mano"
    r"|tenid[oa]s? a mano|hilad[oa]s? a mano|hech[oa]s? a mano",
)
"""How it was made."""

_WORN = (
    r"(?:wrist|hand|leg|arm) ?warmers?|pulsvarmere?|pulsvant(?:er|ar)|pulsw(?:ae|a)rmer"
    r"|handledsvarmare|muddar|polswarmers|mitaines?|manicott[oi]|calentadores|manguitos|fisker(?:lue|hue)\w*",
    r"(?:topp?|tip|zipfel)?(?:huer?|luer?|mossa|mossor|mutze)|pantofole|pantofler?|tofflor"
    r"|toffels?|tofler|hausschuhe|pantuflas|chaussons|slippers|vantar|votter|vanter|handschuhe"
    r"|guanti|guantes|gants|wanten|mittens|gloves",
    r"cardigans?|sweaters?|jumpers?|pullovers?|pull|gilets?|jackets?|jacken?|jacke|strickjacken?"
    r"|mutzen?|hats?|beanies?|scar(?:f|ves)|schals?|shawls?|chaquetas?|jersey(?:es)?"
    r"|gorros?|bufandas?|maglion[ei]|maglia|giacc(?:a|he)|berrett[oi]|sciarp[ae]"
    r"|(?:bonnets?|gorros?|berrett[oi]|mutze|muts|mossa|lue|hue|hat) "
    r"(?:a|con|mit|met|med|with|de|di|da) [^\W\d_]+"
    r"|(?:calze|calzini|calcetines|chaussettes|socken|sokken|sockor|sokker|socks) "
    r"(?:de|da|di|pour|per|para|til|till) [^\W\d_]+"
    r"|bonnets?|echarpes?|vest(?:e|en)?|trui(?:en)?|mutsen?|sjaals?|trojor?|koftor?|mossor?"
    r"|halsdukar?|gensere?|jakker?|luer?|skjerf|trojer?|huer?|halstorklaeder?",
)
"""What is knitted of it, but for socks, which ranges are named after."""

_FOR_WHOM = (rf"(?:{WHO}(?: |$))+",)
"""For whom it is knitted, with how many balls that takes."""

_SOLD = (
    r"(?:pr\.?|per|pro|par|por) (?:noste|nogle|nystan|bol|knot|knauel|strang|pelote|ball|skein|hank"
    r"|gomitolo|matassa|ovillo|madeja|fed|harva|hespe)|spar",
    r"(?:the |die |les |gli |los |de |las |le )?(?:last|letzten?|dernier(?:e|es|s)?|ultim[oaei]s?"
    r"|laatste|sista|siste|sidste) (?:balls?|skeins?|hanks?|knauel|strange?|pelotes?|echeveaux?"
    r"|gomitol[oi]|matass[ae]|ovillos?|madejas?|bol(?:len)?|strengen|nystan\w*|harv\w*|noste\w*"
    r"|hespe\w*|nogle\w*|fed)|rest(?:posten|partier?|parti|e|er|jes)?|remnants?|fins? de serie",
    r"(?:(?:\w+ )?(?:auf|von|aus|fran|fra|op|pa|de|su|from|on|off|van|af|da) )?"
    r"(?:kone|kon|cones?|conos?|con[oi]|konus|rocc[ah]e?"
    r"|spulen?|spole[nr]?|spoel|bobin[ae]s?|konen|conen)",
    r"(?:instead of|was|statt|anstatt|vorher|au lieu de|avant|anziche|prima|en vez de|antes"
    r"|in plaats van|van|istallet for|forr|i stedet for|istedenfor|for)",
    r"(?:[^\W\d_]+ ?)?(?:prijs|preis|pris)|prix(?: (?:ttc|public|conseille|de vente))?|last few"
    r"|prezzo(?: al pubblico)?|precio(?: de venta)?|ultimi pezzi|last pieces|ultimas piezas",
    r"afgeprijsd|nedsatt?|reduziert|herabgesetzt|ribassat[oi]|rebajad[oa]s?|reduced|en solde"
    r"|scontat[oi]",
    r"rabatt?|rebajas?|soldes?|saldi|sconto|sale|ausverkauf|aktion|aanbieding|uitverkoop|korting"
    r"|udsalg|utsalg|salg|rea|tilbud|ofertas?|offert[ae]|descuento|promo\w*|angebot|special offer",
)
"""What a shop says of its price."""

_PLIED = (r"\w*fadig|\w*trad(?:ig|et)|ply|draads|(?:a )?(?:capi|cabos|fils|brins)",)
"""How many strands."""

_LOTS = (
    r"partien?|partij(?:en)?|lots?|bains?|bagn[io]|banos|bade(?:n|ne)?|partier|partidas?|lotes",
)
"""What lots are called, at the end of a line in which a sentence is told of them."""

_ADVISED = (
    r"veil(?:edende)?|empf(?:ohlen\w*)?|rec(?:ommended)?",
    r"knits on|pins|se tricote en|si lavora con ferri|se teje con agujas"
    r"|passer til (?:pinner|pinde)|stricken mit nadeln?|lampliga stickor"
    r"|anbefal(?:te|ede) (?:pinner|pinde)"
    r"|aig\w* conseillees",
    r"(?:brei|strick|strikke?)?na(?:a?ld|del)\w*|aghi|agujas|aiguilles|needles?"
    r"|pinn?e(?:r|storrelse)|pinde(?:storrelse)?|stickor",
)
"""With which needles."""

_CHECKED = (
    r"(?:packed|in?gepakt|verpakt|emballee?|confezionato|verpackt|gepackt|pak(?:ke|ka)t|packa[dt]"
    r"|envasado) (?:by|door|par|da|von|av|af|por)",
    r"licen[cs]e|licens|licen(?:za|cia|tie)|lisens|lizenz|animal welfare.*",
    r"kontroll?e?n?|control|controle|controllo|inspect(?:ed|ion|or)|prufer(?:in)?|gepruft|geprueft",
    r"service|servizio|packed on|checked|abgepackt am|kontroll(?:iert|erat|ert|eret)"
    r"|conditionne le|verifie le|confezionato il|controllato il|envasado el|revisado el|verpakt op"
    r"|gecontroleerd|packat den|pak(?:ke|ka)t den",
)
"""When and by whom it was packed and checked."""

_CARED_FOR = (
    r"(?:normal\w*|mild\w*|gentle|skansom\w*|schonend\w*|delicat\w*) "
    r"(?:process?|prosess|proces\w*|cycle|programm?e?)|(?:processo|proceso|processus) \w+",
    r"cura del capo|(?:conseils d')?entretien|manutenzione|pflege\w*|skotsel\w*|cuidados?"
    r"|\w*voorschrift\w*|(?:care|washing) (?:instructions|guide)|vaskeanvisning\w*"
    r"|wastips|vasketips|pflegetipps",
)
"""What stands above care."""

_MADE_OF = (
    r"teneur en fibres|mat(?:iere|erial|eriale|eria)s?|\w*zusammensetzung|samenstelling"
    r"|fib(?:er|re)\w*(?:hold|hall)|composi\w+",
)
"""What stands above a composition."""

_DAYS = (
    r"(?:(?:mon|tues?|wednes|thurs?|fri|satur|sun)days?|(?:mon|diens|donners|frei|sams|sonn)tags?"
    r"|mittwochs?|lun(?:di|edi|es)|mar(?:di|tedi|tes)|jeudi|giovedi|jueves|vendredi|venerdi|viernes"
    r"|samedi|sabato|sabado|dimanche|domenica|domingo)"
)
_OPENED = (
    r"visites? .+|besuch\w* .+|(?:ge)?offnungszeiten.*|geoffnet.*|openingstijden.*|oppettider.*"
    r"|apningstider.*|abningstider.*|orari\w*(?: .+)?|horaires?(?: .+)?|horarios?(?: .+)?"
    r"|(?:ouvert|aperto|abierto|aabent|abent|apent|oppet) .+"
    r"|farm shop|hofladen|gards?butik\w*|boerderijwinkel|vente a la ferme|spaccio",
    rf"(?:open |from |von )?{_DAYS} (?:to|till?|bis|au|a|al|tot|and|und|et|e|y|en|og|och) {_DAYS}",
    r"(?:livello|level|niveau|niva|nivel|schwierigkeit\w*|difficult\w*)"
    r" (?:principianti|principiante|beginners?|easy|facile?|leicht|anfanger|begynder|let|lett|latt"
    r"|makkelijk|medi[oa]|moyen|debutants?|nybegynner|nyborjare)"
    r"|(?:per|pour|para|fur|for|voor)"
    r" (?:principianti|debutants?|principiantes|anfanger|beginners?)",
    r"se efter|se etter|(?:see|voir|siehe|vedi|ver|zie|se)"
    r" (?:over|overleaf|inside|back|dos|au dos|retro|ruckseite|innen\w*|dentro|reverso|achterzijde"
    r"|binnenzijde|baksid\w+|bagsid\w+|innsid\w+|insid\w+)",
)
"""When a shop is open, how hard a pattern is, and where more is told."""

_LOOSE = (
    r"los(?:e|vaegt|vekt|vikt)?|sfus[oa]|a peso|au poids|al peso|per gewicht|gewogen|weighed"
    r"|(?:mill|fag) ends?(?: .+)?|rest[oei]?s? (?:de|av|af|van|von|di|of) .+|restje(?:s)?(?: .+)?"
    r"|overskuds\w*(?: .+)?|overskotts\w*(?: .+)?|overskudd?s\w*|konenware|konuswaren?"
    r"|.+ (?:en cono|auf kone|op conus|op kon|pa kon|pa kone|su cono|sur cone|on cone|cones?)",
    r"industria (?:nacional|argentina|peruana|chilena|uruguaya|colombiana|mexicana|brasileira)",
)
"""What is sold by weight, off the cone or as a rest."""

_SAMPLED = (
    r"samples?|samplers?|muster(?: ohne wert)?"
    r"|\w*(?:muster|proef(?:streng|strengen)?|prov|prove|proever?)"
    r"|echantillons?|campion[ei]|muestras?|proefstreng(?:en)?|(?:vare|farg|farge|farve)prov[er]?",
    r"(?:not for (?:re)?sale|(?:un|nicht ver)verkauflich|nicht zum verkauf|pas a vendre"
    r"|ne pas vendre|non in vendita|no (?:se )?vende\w*|niet (?:voor de|te) (?:verkoop|koop)"
    r"|ej till (?:forsaljning|salu)|ikke til salgs?|ma ikke (?:saelges|selges))",
    r"auslauf\w*|discontinued(?: .+)?|utga(?:r|ende)(?: .+)?|udga(?:r|et)(?: .+)?|uitlopend(?: .+)?"
    r"|fin de gamme|fuori produzione|descatalogad[oa]",
    r"umtausch \w+|kein umtausch|no (?:returns|refunds|exchanges?)(?: .+)?|ni repris ni echange"
    r"|(?:offre|oferta|offerta|erbjudande) (?:speciale?|especial)|specialtilbud|sonderaktion",
    r"(?:avd|abt|dept|dep|rep)\. .+|(?:abteilung|department|departement|avdeling(?:en)?|afdeling)"
    r"(?: .+)?",
    r"(?:(?:pour|to|per|para|zum|zur|fur|voor|om|for|att|til|till) )?(?:commander|order|ordinare"
    r"|pedir|nachbestellen|bestellen|bestellung|bestelling|bestilling|bestille|bestalla)"
    r"|pour|per|para|fur|for|voor|til|till|with|mit|avec|con|met|med",
    r"(?:bestill?(?:ning)?|bestelling|bestellung|orders?|commandes?|pedidos?|ordini|ordre?) "
    r"(?:pa|on|at|op|bei|a|via|hos)",
    r"(?:agte|aegte|ekte|akta|fast|echte|licht- und waschechte?) (?:farver?|farger|farben|colou?rs)"
    r"|(?:lys|ljus|licht)- (?:og|och|en|und) .+"
    r"|.+ (?:kleur|farb|farve|farge)(?:echt|aegte|ekte|akta)",
    r"(?:tosa|tonte|tosatura|schur|clip(?: of)?|esquila|klipp(?:ing|t)?|scheerseizoen|scheerjaar)"
    r"(?: [^\W\d_]+)?(?: \d{4})|scheerseizoen|scheerjaar",
    r"(?:wol|wool|wolle|laine|lana|ull|uld|fleece)"
    r" (?:van|of|from|von|vom|de|du|di|della?|av|af|fra|fran)"
    r" .*(?:schaap|schapen|sheep|schaf\w*|mouton\w*|brebis|pecor[ae]|oveja\w*|far|far\w*n|lamm?)",
)
"""Samples, what shops do not take back, and what is told of colours and shearing."""

_PLACED = (
    r"(?:pol\. ?ind\.|poligono(?: industrial)?|zona (?:ind\.|industrial\w?|artigianale)"
    r"|zone (?:artisanale|industrielle|d'activites?)|parc d'activites?|industri(?:e?omrade|egebiet"
    r"|epark|eterrein)|gewerbe(?:gebiet|park)|bedrijven(?:terrein|park)|business park"
    r"|(?:industrial|trading) estate)(?: .+)?|.+ (?:industrial|trading) estate",
)
"""Parts of a town where works stand."""

_POINTED_AT = (
    r"(?:this|our|each|every|dies(?:e[srn]?)?|jede[rs]?|cett?e?|chaque|quest[oa]|ogni|est[ea]|cada"
    r"|dit|deze|elke?|detta|denna|varje|dette|denne|hver[t]?) "
    r"(?:ball|skein|hank|yarn|knauel|strang|garn|wolle|pelote|echeveau|fil|laine|gomitolo|matassa"
    r"|filato|ovillo|madeja|hilo|bol|knot|streng|garen|nystan\w*|harva\w*|noste\w*|hespe\w*|nogle\w*"
    r"|fed\w*)",
)
"""What a sentence about the ball begins with."""

_COUNTED = (
    r"quantity|qty|menge|anzahl|quantite|qte|quantita|cantidad|hoeveelheid|aantal|antall?|mangde"
    r"|mengde|maengde|amount|grams?|gramm[aie]?|gramos|grammes?|mass[ae]?|poids|peso|vikt|vekt|vaegt"
    r"|gewicht|weight",
    r"con circa|ca|approx|circa|env|environ|aprox|met(?:er|re|ri|ros)s?",
    r"front|back|net|brut|neto|bruto|tara|tare",
)
"""What stands beside an amount."""

_NO_NAME = re.compile(
    "|".join(
        (
            *_KNITTED,
            *_FROM,
            *_CALLED,
            *_ASKED,
            *_SEALED,
            *_PACKED,
            *_PRAISED,
            *_SOLD_AND_WOUND,
            *_DONE_BY_HAND,
            *_WORN,
            *_FOR_WHOM,
            *_SOLD,
            *_PLIED,
            *_LOTS,
            *_ADVISED,
            *_CHECKED,
            *_CARED_FOR,
            *_MADE_OF,
            *_OPENED,
            *_LOOSE,
            *_SAMPLED,
            *_PLACED,
            *_POINTED_AT,
            *_COUNTED,
        )
    )
)

_FROM_WORDS = listed(
    "from; of; out; aus; vom; von; de; du; des; depuis; da; dal; dalla; dallo; del; della; dello"
    "; dei; uit; van; fra; fran; ur; av; af; in; im; i; en; dans; nel; nella; till; til"
)
_WHO = listed("i; ik; ich; jeg; jag")
_LINKING_WORDS = _FROM_WORDS | listed(
    "the; a; an; der; die; das; dem; den; det; le; la; les; il; lo; el; los; las; het; een; ein"
    "; une; un; una; ett; et; ik; ich; je; jeg; jag; io; yo; it; es; esso; hij; den; and; und; e"
    "; ed; y"
    "; og; och; am; is; are; bin; ist; sind; suis; est; sono; soy; ben; er; ar; come; comes; came"
    "; komme; kommt; stamme; stammt; viens; vient; proviens; provient; vengo; viene; provengo"
    "; proviene; kom; komt; stam; stamt; kommer; stammer; stammar; harstammar"
    "; sors; sali; salgo; esco"
)
"""Words that lead from one value of a sentence to the next, "I come from"."""

_SHORT_WORD = 2
"""Words of so few letters say nothing by themselves."""


def names_nothing(text: str) -> bool:
    """Whether ``text`` is as a whole words that stand where names do and name nothing."""
    folded = Folded(text).text
    return _NO_NAME.fullmatch(folded) is not None or _leads_on(folded.split())


def _leads_on(words: Sequence[str]) -> bool:
    """Whether folded ``words`` only lead from one value to the next."""
    told = _FROM_WORDS | (_WHO if len(words) > 1 else _WHO - {"i"})
    return _LINKING_WORDS.issuperset(words) and not told.isdisjoint(words)


_KIT = re.compile(
    r".+ (?:kit|kits)|kit \S.*|(?:garen|garn|woll?|strikke?|strick|brei|haak|hekle?)-?"
    r"(?:pak(?:ke|ket|et)|packung|set|kit)\b.*|confezione \S.*|pret[ -]a[ -]tricoter\b.*"
)


def names_kit(line: str) -> bool:
    """Whether a whole ``line`` names a kit and what is made of it: "Ski sock kit"."""
    return _KIT.fullmatch(Folded(line).text.strip(" .!:")) is not None


_BOXED = re.compile(rf"{_IN_BOX}(?: .*)?")


def tells_of_box(line: str) -> bool:
    """Whether a whole ``line`` tells what is in a box: "In this box:"."""
    return _BOXED.fullmatch(Folded(line).text.strip(" .!:")) is not None


def is_care(text: str) -> bool:
    """Whether ``text`` is several words of care and no other."""
    words = [match[0] for match in WORD.finditer(Folded(text).text)]
    long = [word for word in words if len(word) > _SHORT_WORD]
    return len(words) > 1 and bool(long) and all(word in CARE_WORDS for word in long)


def is_only_fibres(text: str) -> bool:
    """Whether ``text`` is nothing but fibres, their kinds and words between them, perhaps
    letter-spaced or in one word: "Merinould", "M E R I N O"."""
    folded = Folded(text).text
    if folded.replace(" ", "") in FIBRE_WORDS:
        return True
    parts = [part for word in folded.split() for part in words_without_spaces(word) or (word,)]
    named = [part in FIBRE_WORDS or part in KIND_WORDS for part in parts]
    return any(named) and all(
        is_named or part in FILLERS for part, is_named in zip(parts, named, strict=True)
    )
