"""Words that makers of yarn have in their names, in nine languages (common practice, no
source)."""

from __future__ import annotations

import re

from intake.fields.letters import Folded
from intake.fields.names.house_words import HOUSE_WORDS

_AND_KIN = (
    r"(?:&|and|und|et|e|y|en|och|og) (?:sons?|daughters?|sisters?|brothers|sohne?|tochter|fils"
    r"|filles|figli[oae]?|hij[oa]s?|zonen|zoon|dochters?|soner|sonn(?:er)?|dottrar|dotre)"
)
"""How houses are named after a family: "Marlpit & Daughters"."""

_FORM_BEHIND = (
    r"(?<=\w )(?:a\.?g|a\.?/?b|a\.?/?s|a\.?p\.?s|i/s|b\.?v|n\.?v|ug|kg|ohg|gbr"
    r"|e\.? ?[kg]|s\.?l|s\.?a"
    r"|s\.?a\.?s|s\.?a\.?r\.?l|s\.?p\.?a|s\.?n\.?c|h\.?b)\.?$"
)
"""Legal forms of firms, which end their names (the registers of their countries, from memory)."""

_YARN_AND_HOUSE = (
    r"(?:garn|garen|woll?e?n?|uld|ull|strick|strikke?|stick|brei|haak|hakel|haekle?|virk|masken?|maschen"
    r"|nadel|nogle|noste|nystan?|knauel|spulen|spindel|faden|draad|vav|vev|vaev"
    r"|fa?erbe?|farbe|farge?|farve|verf|katoen|baumwoll|bomulls?|bomulds?"
    r"|linnen|leinen|handarbei[td]s|handarbets|handarbejds|handwerks?|hantverks?|sau[ed]?|fare?|schaf|schapen|lamm?e?|alpaka|ziegen|geite?n?"
    r"|gede|sy|tuch|fiber|perlen?|kralen|spinn|spind|kam(?:ull|uld|garns?)|kammgarn|hor|silke|seiden?|zijde|kanin(?:chen)?|angora|hamp|hanf|mohair)"
    r"(?:e|s|-)?(?:atelier|skrin(?:et)?|works?|stub[ea]n?|stu[ae]n?|stuga?n?|stova|haus|hus(?:et)?|huis"
    r"|hallen?|kammer(?:et)?|kammaren?"
    r"|loft(?:et)?|laden|ladchen|bua|bod(?:en|a)?|boet|buti[kq]\w*|magasin(?:et)?|kontor(?:et)?"
    r"|krok(?:en)?|hjornet?|hornan?|ecke?|hoek|winkel|zolder|schuur|scheune|speicher|truhe|kiste"
    r"|schmiede|smedjan?|smi[ea]n?|werkstatt|verksted(?:et)?|verkstad(?:en)?|vaerksted(?:et)?"
    r"|werkplaats|lager(?:et)?|lagret|skur(?:et)?|skjulet|naust(?:et)?|brygga|bryggen|kjelleren|kaelderen|keller|garten|garden|gard(?:en)?|hof|hoeve"
    r"|muhle|molen|molle[rn]?|kvarn(?:en)?|spind|spinn|kompagni(?:et)?|kompani(?:et)?|handel(?:en)?"
    r"|mester(?:en)?|meister)"
)
"""One word of yarn or its tools and of a house or a trade: "Nøglehuset", "Garnloftet"."""

_HOUSE_OF = r"(?:casa|haus|huis|huset|maison|house of) (?=[^\W\d_]{3})"
"""How the names of houses begin: "Haus Tammerlin"."""

_TRADE = re.compile(
    rf"^{_HOUSE_OF}|(?<!\w)(?:{_YARN_AND_HOUSE}|worsteds|\w+ificio|lainages?|crafts|bonneterie|tejedor(?:a|as|es)?"
    r"|yarns?|wools?|woollens|spinners|spinning|mills?|fib(?:re|er)s?|threads|textiles?"
    r"|knits|knitwear|handknits|studio|atelier|workshop|works|dyers?|dyeworks|company"
    r"|garne?|wolle|woll(?!weiss)\w*|\w+wolle|strickgarne|spinnerei|manufaktur|wollwerk|faerberei|farberei"
    r"|laines?|maison|filature|fils|tricots?|lainerie|filat[oi]|filatura|lanificio|maglieria"
    r"|(?<!\w )lane|bottega|lanas|hilos|hilados|hilaturas|hilatura|tejidos|ovillos|wol"
    r"|\w*garen\w*|spinnerij"
    r"|fil|brins|pelotes?|gomitol[oi]|madejas?|kluwen\w*|wolhuis|breigoed|ull\w*|uld\w*|\w*garn"
    r"|\w*garner"
    # spinning, twisting, dyeing, weaving, carding
    r"|dye ?house|dye ?works|dyery|\w*spinnery|yarnery|woolery|woolworks|weavers|weaving|carders"
    r"|kammerei|(?:faden|garn|woll)werk|strickgut|wollgut|laner[ao]s?|sedera|hilanderos|filatures|lineras?"
    r"|tricoterie|lainiere|cotonniere|\w*(?:spinn|farb|faerb|web|zwirn|strahn|strick|kammgarn)erei|\w*kontor|\w*werkstatte?n?"
    r"|wollstube|garnstube|\w*strickstube|farbkuche|schaferei|manufacture"
    r"|retorderie|moulinage|teinturerie|tissage|carderie|bergerie|mercerie|fuseaux?|rouet|comptoir"
    r"|torcitura|tintoria|cardatura|tessitura|opificio|merceria|matasse"
    r"|torcidos|tintoreria|hilanderia|laneria|taller(?:es)?|telares|rueca|estambres|fabrica"
    r"|\w*(?:twijnd|spinn|verv|wev|boerd)erij|\w*wolwinkel|wolhandel"
    r"|\w*(?:tvinn|tvind|farg|farv|spinn|spind|vav|kard)eri\w*"
    r"|harvbod\w*|garnbod\w*|ullbod\w*|hespel\w*|garnfed\w*|husflid\w*|verksted\w*|verkstad\w*"
    # holdings that sell their own wool
    r"|farms?|croft|smallholding|ranch|\w*(?:farbe?|faerbe|woll|schaf|garn|spinn|alpaka|ziegen)hof|ferme|fattoria|masseria|granja|finca"
    r"|\w*hoeve"
    r"|garn\w*|& co|co\.|gmbh|ltd|s\.?r\.?l|bv|aps|ab|as"
    r"|\w+fabri(?:ek|k|kk|ken))"
    r"(?!\w)"
)
_WHAT_FOR = (
    r"vardags?|hverdags|dagligs|alltags?|sock|sokke?|socken|strump|strumpf|strikk?e?|stick|strick"
    r"|hekle|haekle|virk|hakel|bomulls?|bomuld|baby|raggsock|lace|tweed|sommar|sommer|vinter|winter"
    r"|monster|effekt"
)
_KIND_OF_YARN = re.compile(rf"\b(?:{_WHAT_FOR}|stromp\w*)garn(?!\w)")
"""What a yarn is for: the name of a range more often than of a maker."""

_KINDS_OF_YARN = re.compile(
    rf"(?:{_WHAT_FOR}|so[ck]k?e?n?|strompe|haak|brei|kinder|barne?|borne|ragge|zomer|glitter"
    r"|web|vav|vaev|vev|kam|kamm|halvkam"
    r"|streich|kard|karde|kart|zefyr|zephyr|conus|konen?|visser?s|hemslojds|husflids|trachten|sport"
    r"|schul|handarbe[ij]ts?|handarbets|hand|linnen|leinen|lin|hor|silke|seiden|mohair|alpa[kc]k?a"
    r"|angora|kid|merino|bomulds|katoen|baumwoll|acryl|akryl|genbrugs|gjenbruks|atervinnings"
    r"|rest|luksus|lyx|luxus|kvalitets|qualitats|kwaliteits|dun|filt|filz|tovings|tove)"
    r"-?(?:garne?n?|garens?|wolle|wol|ullgarn|uldgarn)"
)
"""The same as one word alone."""

_GOODS_FIRST = (
    r"(?:garn|woll|wol|uld|ull)(?!\w*(?:bod|butik|hus|haus|huis|stub|werk|verk|vaerk|hof|kontor"
    r"|laden|winkel|handel|fabri|muhle|molen|kompani|erei|erij|eri\b|co\b))\w{2,}"
)
"""Words that begin with one for yarn and name no house or shop: "Uldtop"."""

_GOODS = re.compile(
    r"\b(?:yarn|wool|\w*garn|\w*wolle|laine|lana|\w*wol|\w*ull|\w*uld|fil|hilo|filato|\w*garen"
    rf"|{_GOODS_FIRST})(?!\w)"
)

_FIRM = re.compile(
    rf"(?<!\w)(?:{_YARN_AND_HOUSE}|worsteds|\w+ificio|lainages|bonneterie|tejedor(?:a|as|es)"
    r"|spinners|woollens|mills?|spinnerei|manufaktur|wollwerk|filatures?|lainerie|filatura"
    r"|kammerei|fadenwerk|tricoterie|lainiere|hilanderos"
    r"|lanificio|maglieria|hilatura\w*|hilanderia|hilados|tejidos|torcidos|spinnerij|company"
    r"|\w*(?:spinn|farb|faerb|web|zwirn|strahn)erei|dye ?house|dye ?works|retorderie|teinturerie"
    r"|torcitura|tintoria|tintoreria|\w*(?:twijnd|spinn|verv|wev)erij"
    r"|\w*(?:tvinn|tvind|farg|farv|spinn|spind|vav)eri\w*"
    r"|azienda|filande|tejeduria|schaapskooi|schapenkooi|schaferei|schafzucht|schafweide|bergerie|\w*boerderij|(?:schaap|schapen)skudde"
    r"|(?:saue?|faare?|fare?|geite?|alpakk?a)(?:bruk(?:et)?|ho(?:ld|lderi)|avl(?:en)?|gard(?:en)?)"
    r"|stiftung|stichting|fondation|fondazione|fundacion|stiftelsen?|fonden"
    r"|\w*(?:wol|garen|garn|woll?|uld|ull|tex\w*|strick|strikke)fabri(?:ek|k|kk|ken)"
    r"|\w*(?:garn|woll?|farb|spinn)(?:werke?|haus|hof|muhle)"
    r"|manufactur(?:e|as?|ing)|manifattura|cotonificio|setificio|linificio|wool(?:len)? factory"
    r"|textil(?:e|es|i|ien)?|tekstil(?:er)?|cooperativ\w*|co-?operative|kooperativ\w*|coop(?:erati(?:e|ve))?"
    r"|genossenschaft|andelslag|societe|etablissements|ets|uldvarefabrik\w*|ullvare\w*"
    rf"|gmbh|ltd|limited|inc|llc|s\.?r\.?l|{_FORM_BEHIND}|& co|{_AND_KIN})(?!\w)"
)
_HOUSE = re.compile(
    rf"^{_HOUSE_OF}"
    r"|\b(?:yarns|wools|laines|lanas|filati|hilos|(?<!\w )lane|garens|garne|maison|atelier|bottega"
    r"|taller|studio|workshop|co\.)(?!\w)"
)
"""Words that houses have in their names and yarns hardly ever: what they make, in the plural, or
where (common practice, no source)."""

_ONLY = re.compile(
    r"(?:(?:manufactur(?:e|as?)|manifattura|cotonificio|setificio|linificio|textil(?:e|es|ien)?"
    r"|tekstil|coop\w*|kooperativ\w*|genossenschaft|societe|etablissements|ets|[a-z]*fabri(?:ek|k|kk)"
    r"|yarns?|wools?|wooll?ens?|worsteds|spinners|spinning|mills?|studio|atelier|company|co\.?|works"
    r"|garne?|wolle"
    r"|spinnerei|manufaktur|laines?|maison|filature|fils|filat[oi]|filatura|lane|lanificio|bottega"
    r"|lanas|hilos|hilados|hilaturas?|tejidos|ovillos|wol|garens?|garenhuis|spinnerij|wolhuis"
    r"|breigoed|ull|uld|(?:spinn|spind|tvinn|tvind|farg|farv|vav)eri\w*|garn|garner|garnhuset|garnverket|garnvaerket"
    r"|\w*(?:spinn|farb|faerb|web|zwirn|strahn)erei|wollstube|dye ?house|dye ?works|retorderie"
    r"|teinturerie|torcitura|tintoria|tintoreria|torcidos|hilanderia"
    r"|\w*(?:twijnd|spinn|verv|wev)erij|harvbod\w*|hespel\w*|garnfed\w*"
    r"|(?:hand|yarn|wool|indie|fibre|fiber) ?(?:dyers?|spinners?)|dyers?|fib(?:re|er)s?|threads?"
    r"|(?:hand)?(?:verf|farbe?|farve|farge?|woll|wol|garn|garen|strick|strikke|stick|brei|haak)-?"
    r"(?:atelier|manufaktur|werkstatt|studio|kuche|verkstad|verksted|vaerksted)|l['’]"
    r"|the|of|and|&|et|e|y|og|och|und|van|de|des|du|del|les|la|le|el)\s*)+"
)


_IN_THE_MIDDLE = re.compile(
    r"(?!.* (?:and|&|und|et|e|y|en|og|och) (?:yarns?|wools?|garne?|wolle|wol|ull|uld) )"
    r"\w.* (?:yarns?|wools?|spinners|mills?|garne?|wolle|wol|ull|uld|spinneri|spinderi|garens)"
    r" (?!(?:ltd|inc|llc|gmbh|co\b|company|works|depot|store|shop|house|barn|room|market"
    r"|warehouse|loft|mills?|spinners|dyers?|merchants|studio|and|&|und|og|och))\w{3,}.*"
)


_SERVICE = re.compile(
    r"(?:sort(?:er\w*|ier\w*| (?:as|with|como|come)) |recy[ck]\w*|recicl\w*|ricicl\w*|trier "
    r"|pensez au tri|raccolta |entsorg\w*|altpapier|oud papier|bij het oud papier"
    r"|papier (?:recycle\w*|a trier)"
    r"|\w*feucht(?:e|igkeit)|(?:legal|relative) humidity|\w*humidite"
    r"|\w*abweichungen |(?:dye ?)?lots? (?:may|can|might|vary)|colou?rs? (?:may|can|might|vary)"
    r"|(?:les )?(?:bains|coloris|couleurs) (?:peuvent|varient)"
    r"|(?:i )?(?:bagni|lotti|colori) (?:possono|varia\w*)"
    r"|(?:los )?(?:lotes|banos|colores|tonos) (?:pueden|varian)|(?:verf)?baden kunnen"
    r"|kleuren kunnen"
    r"|(?:farg)?(?:bad|partier|kulorer) kan|(?:farge|farve)r? kan|partier? kan"
    r"|(?:dye ?)?lots (?:differ|vary)"
    r"|knits? (?:as|up|to)\b"
    r"|(?:buy|use|check|choose|purchase|reserve) |achete[rz] |utilise[rz] "
    r"|comprare |acquistare |comprar |compre |utilice |koop |gebruik |kop (?:till|nog|all)\w*|kjop "
    r"|kob (?:nok|alt)|anvand |bruk (?:bare|kun|samme)|brug (?:kun|samme)|label|tag|etiquette"
    r"|etiketten?|etichetta|etiqueta|etiket|etikett|banderole|banderola"
    r"|keep|aufheben|aufbewahren|conserv\w+|guard\w+|bewaar|bewaren|spara|gem|ta vare"
    r"|mill shop|factory shop|fabrikverkauf|werksverkauf|magasin d'usine|spaccio aziendale"
    r"|tienda de fabrica|fabrieksverkoop|fabriksbutik|fabrikkutsalg|fabriksudsalg|utforsaljning"
    r"|ends of line|restvarer|restpartij|fin de serie"
    r"|dear|liebe[rs]?(?= [a-z]*strick)|chere?s? (?=tricot)|car[oaie] (?=magl)"
    r"|querid[oa]s? (?=tejed)|beste (?=brei)|kara (?=stick)|kjaere (?=strik)|kaere (?=strik)"
    r"|last balls|reduced|clearance|restposten|sonderangebot|angebot|fin de serie|soldes?"
    r"|fine serie|saldi|offerta|rebajas|oferta|restant\w*|uitverkoop|restparti|restlager|salg"
    r"|udsalg|tilbud|thank you|danke|merci|grazie|gracias|bedankt|tack|takk|tak)\b.*"
)


_BY_WHOM = re.compile(r"(?:by|von|van|par|di|da|de|från|fra|av|af|por|door) (?=[^\W\d_a-zà-ÿ])")

BY_HAND = "by hand|von hand|a la main|a mano|met de hand|for hand|i hand"
"""How tags say that something was done by hand (common practice, no source)."""

_SPEAKS = re.compile(
    r"(?:i (?:am|come|was|belong|like)|we (?:are|come|were)|ich|wir|je|j'ai|nous|yo|vengo"
    r"|vengono|ik|wij|jag|jeg|vi (?:ar|er|kommer)|for|fur|pour|per|para|voor|til|till|with|mit"
    r"|avec|con|met|med|your|dein|ihr)\b.+"
    r"|(?:hand[ -]?)?(?:spun|dyed|made|knit|gesponnen|gefarbt|gemacht|file|teint|fait|filato|tinto"
    r"|fatto|hilado|tenido|hecho|gesponnen|geverfd|gemaakt|spunnet|spunnen|fargat|fargad|farget"
    r"|laget|spundet|farvet|lavet) (?:with|mit|avec|con|met|med|in|en|i|au)\b.+"
    r"|(?:from our|aus unser\w*|de nos|dai nostri|dalle nostre|de nuestr[oa]s|van onze|fran vara"
    r"|fra vare|fra vores)\b.+"
    rf"|.*\b(?:{BY_HAND}|fur hand)"
    r"(?: [^\W\d_]+)?$"
    r"|fleeces? (?:from|of) .+"
    r"|(?:ready|lista?|pronta|pronto|prete?|fertig|klaar|redo|klart?)"
    r" (?:to|for|para|per|a|zum?|om|att|til)\b.*"
    r"|(?:\S+ ){3,}(?:siblings|sisters|geschwistern?|soeurs|freres et soeurs|sorelle|hermanas"
    r"|zusjes|zussen|syskon|sosken|soskende)"
)
"""How sentences begin that name nobody: "I come from bath 12 with my sisters", "for young and
old"."""


_PRAISE = re.compile(
    r"(?:each|every|jede[rsn]?|chaque|ogni|cada|elke|varje|hvert?) .+"
    r"|.+ (?:nodig|needed|required|benotigt|erforderlich|necessaires?|necesari[ao]s?"
    r"|necessari[aeo]?|behovs|kravs|trengs|nodvendig\w*)"
    r"|.+ (?:is|are|may|can|ist|sind|kann|konnen|est|sont|peut|kan) .+"
    r"|.+ (?:our|unser\w*|nos|notre|nostr[aeio]|nuestr[ao]s?|onze|vara|vare|vores) .+"
    r"|\w+(?:garne?|wolle|garen|ullgarn) (?:for|fur|pour|per|para|voor|till|til) .+"
    r"|.* aus gut(?:em|er) hau?se?"
    r"|(?:perfect|suitable|ideal|great|geeignet|ideale?|adatt[ao]|perfect[ao]|geschikt|lampligt?"
    r"|egnet|passer|passar) (?:for|fur|pour|per|para|voor|till|til) .+"
    r"|(?:follow|tag|find|visit|join) us|share your .+"
    r"|(?:limited|limitierte|limiterad|begrenset|begraenset) (?:edition|auflage|upplaga|utgave)"
    r"|(?:edition|serie|edizione|edicion|oplage) limi\w+|(?:small|limited) batch(?:es)?"
    r"|one of a kind|ooak|unikate?|einzelstucke?|pieces? uniques?|pezz[oi] unic[oi]|piezas? unicas?"
    r"|uniek (?:exemplaar|stuk)|unikt? (?:exemplar|eksemplar)"
    r"|(?:non |sans |senza |sin |ohne )?mules\w+(?:[ -](?:free|frei))?"
    r"|(?:printed|gedruckt|imprimee?|stampat[oa]|impres[oa]|gedrukt|tryckt|trykt) (?:in|en|i|au) .+"
    r"|(?:yarn|wool|garn|garen|wol|wolle|laine|fil|filato|lana|hilo|ull|uld)"
    r" (?:for|fur|pour|per|para|voor|till|til) .+"
    r"|(?:skann?|scan\w*|escane\w*) .+|www"
    r"|(?:so|sa|slik|sadan|how to|comment|come|como|zo) (?:pflegen|waschen|skoter|tvattar"
    r"|vasker|steller|plejer|care|wash|look after|entretenir|laver|lavare|curare|lavar|cuidar|was"
    r"|wast|verzorg)(?!\w).*"
    # made in, the space perhaps lost
    r"|(?:made|hergestellt|fabriquee?|prodott[oa]|hech[oa]|fabricad[oa]|gemaakt|geproduceerd"
    r"|tillverka[dt]|produsert|produceret|fremstillet|laget|lavet|gjord) ?(?:in|en|i|au) ?[a-z].+"
    r"|(?:naturally dyed|designed|milled|grown|reared) (?:with|in|by hand).*"
    r"|faite?s? (?:a la )?main.*|cruelty[ -]free|vegan(?: \w+)?|fair ?trade|special offer"
    r"|pattern (?:inside|on .+)"
    r"|gift wrap.*|mill ends?|seconds|remnants?|sale"
    r"|(?:plant|natural|naturally|pflanzen|natur|vaxt|plante|kettle|solar)[ -]?"
    r"(?:dyed|gefarbt|fargat|farget|farvet)|(?:solar|wind) powered|plantaardig geverfd"
    r"|(?:teintures?|tint[ei]s?|tintur[ae]) (?:vegetal\w*|natural\w*)"
    r"|(?:viel (?:freude|spass)|bon tricot|buon lavoro|veel (?:brei|haak)?plezier|lycka till"
    r"|god (?:strikke\w*|fornojelse)|happy (?:knitting|crocheting|making))(?: .+)?"
    r"|(?:extra|super|lekker|kuschel)[ -]?(?:soft|weich|doux|douce|morbid[ao]|suave|zacht|mjukt?)"
    r"|(?:soft|weich|doux|douce|morbid[ao]|suave|zacht|mjukt?|myk|blod)"
    r" (?:and|und|et|e|y|en|och|og) (?:warm|chaude?|cald[ao]|calid[ao]|varmt?|lun)"
)
"""How a tag praises its yarn, tells how it was made or wishes joy of it (common practice, no
source)."""


def is_service_text(text: str) -> bool:
    """Whether ``text`` is what a tag asks or wishes its buyer, what it says in praise of its yarn,
    or a shop's word for what it sells off, and no name: "keep this label"."""
    folded = Folded(text).text
    words = folded.split()
    asked = (
        _SERVICE.match(folded)
        or _SPEAKS.match(folded)
        or _PRAISE.fullmatch(folded)
        or (len(words) > 1 and _SERVICE.fullmatch(words[-1]))
        or asks_kindly(text)
    )
    about = {"label", "tag", "banderole", "etiquette", "etichetta", "etiqueta", "etiket"}
    return bool(asked) or (len(words) > 1 and bool(about & set(words)))


_ASKS_KINDLY = re.compile(
    r"\b(?:bitte|please|per favore|por favor|svp|s'il vous plait|vennligst|venligst|alstublieft)\b"
)


def asks_kindly(text: str) -> bool:
    """Whether ``text`` asks its reader for something: "Bitte auf gleiche Farbpartie achten"."""
    return _ASKS_KINDLY.search(Folded(text).text) is not None


_PLACE = re.compile(
    r"(?:england|scotland|wales|united kingdom|great britain|uk|usa|australia|new zealand"
    r"|deutschland|germany|schweiz|suisse|svizzera|switzerland|austria|osterreich|france"
    r"|belgique|belgie|belgium|italia|italy|espana|spain|nederland|the netherlands|netherlands"
    r"|sverige|sweden|norge|norway|danmark|denmark|portugal|suomi|finland|iceland|ireland"
    r"|canada|kanada|peru|turkiye|bolivia|uruguay|argentina|mexico|chile|china|india|japan)"
)


def is_place(text: str) -> bool:
    """Whether ``text`` is a country's name and nothing else (a cañada is a glen)."""
    return _PLACE.fullmatch(Folded(text).text) is not None and text.casefold() != "cañada"


def goes_on_behind(text: str) -> bool:
    """Whether ``text`` goes on behind a word of the trade that ends makers' names: another
    name may follow in the same line."""
    return _IN_THE_MIDDLE.fullmatch(Folded(text).text) is not None


def has_trade_word(text: str) -> bool:
    """Whether a word of the yarn trade stands in a name, as in most makers' names."""
    folded = _KIND_OF_YARN.sub("", Folded(text).text)
    return _TRADE.search(folded) is not None or has_firm_word(folded)


def is_named_for_goods(text: str) -> bool:
    """Whether the only word of the trade in a name is one for yarn: "Wellie Wool" and "Uldtop" are
    names of ranges as often as of makers."""
    rest = _GOODS.sub("", Folded(text).text)
    return has_trade_word(text) and not (has_firm_word(text) or has_trade_word(rest))


def is_kind_of_yarn(text: str) -> bool:
    """Whether ``text`` is one word for what a yarn is for or made of: "Webgarn", "Kinderwolle"."""
    return _KINDS_OF_YARN.fullmatch(Folded(text).text) is not None


def is_compound_of_goods(text: str) -> bool:
    """Whether ``text`` is one word that begins with one for yarn and names no house."""
    return re.fullmatch(_GOODS_FIRST, Folded(text).text) is not None


def has_firm_word(text: str) -> bool:
    """Whether a word stands in ``text`` that only firms have in their names."""
    folded = Folded(text).text
    return bool(_FIRM.search(folded) or HOUSE_WORDS.search(folded))


def is_named_like_a_firm(text: str) -> bool:
    """Whether ``text`` has, in words that begin with capitals, one that only firms have in their
    names, and other words: "Cône récupéré en usine" has none."""
    words = [word for word in text.split() if not word[0].islower()]
    named = " ".join(words)
    return has_firm_word(named) and not is_only_trade(named) and not lacks_a_name(text)


def lacks_a_name(text: str) -> bool:
    """Whether ``text`` has several words, and those with capitals are all words of the trade: what
    a house is and not what it is called, "Tejeduría casera"."""
    words = text.split()
    capitals = [word for word in words if not word[0].islower()]
    trade = [word for word in capitals if has_firm_word(word) or is_only_trade(word)]
    return 1 <= len(capitals) < len(words) and len(trade) == len(capitals)


_LEGAL_FORM = re.compile(
    r"(?:& co\.? ?)?(?:kg|ohg|gmbh|ltd|limited|inc|llc|s\.? ?r\.? ?l|s\.? ?p\.? ?a"
    r"|s\.? ?a\.? ?r\.? ?l|b\.? ?v|a/?s|aps|ab|s\.? ?l|s\.? ?a|s\.? ?a\.? ?s)\.?"
)


_LEGAL_FORM_BEHIND = re.compile(rf"(?<=\w),? {_LEGAL_FORM.pattern}$")


def is_legal_form(text: str) -> bool:
    """Whether ``text`` is nothing but the legal form of a firm."""
    return _LEGAL_FORM.fullmatch(Folded(text).text) is not None


def says_by_whom(text: str) -> bool:
    """Whether ``text`` begins with a word for "by", in small letters, and a name behind it."""
    return _BY_WHOM.match(text) is not None


def is_named_like_a_house(text: str) -> bool:
    """Whether ``text`` has a word that houses have in their names and yarns hardly ever."""
    folded = Folded(text).text
    return has_firm_word(text) or _HOUSE.search(folded) is not None


def is_word_of_trade(word: str) -> bool:
    """Whether one word alone is one of the trade or of a firm, and no article."""
    return has_firm_word(word) or (is_only_trade(word) and has_trade_word(word))


def is_only_trade(text: str) -> bool:
    """Whether ``text`` is nothing but words of the trade: hardly a maker's whole name."""
    plain = _LEGAL_FORM_BEHIND.sub("", HOUSE_WORDS.sub("works", Folded(text).text))
    return _ONLY.fullmatch(plain) is not None
