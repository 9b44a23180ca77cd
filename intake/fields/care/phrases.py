"""Phrases of care as tags print them, in nine languages.

The processes are those of ISO 3758:2012 in plain English; the phrases are common
practice, no source.  All are folded; alternatives are parted by ``;``, ``*`` stands for
any ending and ``_`` for a space within one line.
"""

from __future__ import annotations

from intake.fields.care.neutral import NEUTRAL
from intake.fields.care.refusals import REFUSALS, UNPRESSED
from intake.fields.letters import listed

PROCESSES = (
    "hand wash",
    "machine wash 30",
    "machine wash 40",
    "machine wash 60",
    "machine wash 95",
    "machine wash 30 mild",
    "machine wash 40 mild",
    "machine wash 60 mild",
    "do not wash",
    "any bleach",
    "oxygen bleach only",
    "do not bleach",
    "tumble dry",
    "tumble dry low",
    "do not tumble dry",
    "line dry",
    "drip line dry",
    "dry flat",
    "dry in shade",
    "iron high",
    "iron medium",
    "iron low",
    "do not iron",
    "dry clean",
    "do not dry clean",
    "wet clean",
    "do not wet clean",
)
"""Every process that a tag can be filed with, in the order they are kept in."""

WET_CLEANING = sorted(
    {
        f"{cleaning} {told}"
        for cleanings, ways, professionally in (
            ("pulitura;pulizia;pulire", "ad acqua;in acqua;a umido;ad umido", "professionale;"),
            ("limpieza;limpiar;limpiado", "en humedo;en mojado;con agua", "profesional;"),
            ("nettoyage;nettoyer;nettoyable", "a l'eau;en milieu humide;humide", "professionnel;"),
        )
        for cleaning in cleanings.split(";")
        for way in ways.split(";")
        for one in professionally.split(";")
        for told in {f"{one} {way}".strip(), f"{way} {one}".strip()}
    }
)
"""Cleaning in water, which is no washing, in the languages that word it so."""

PHRASES = {
    "hand wash": "hand wash*; hand washable; hand washing; wash by hand; wash gently by hand;"
    " handwasche; handwasch*; von hand waschen; mit der hand waschen; per hand waschen;"
    " lavage a la main; lavage main; laver a la main; lavable a la main; lavare a mano;"
    " lavaggio a mano; lavare mano; lavabile a mano; lavar a mano; lavado a mano; lavable a mano;"
    " handwas; handwassen; met de hand wassen; op de hand wassen; handtvatt*; handtvattas;"
    " tvattas for hand; tvatta for hand; tvatt for hand; handvask*; handvaskes; vaskes for hand;"
    " vask for hand; vaskes i hand*; vask i hand*",
    "do not wash": "do not wash; not washable; non lavare ad acqua; non lavare in acqua;"
    " nicht waschen; nicht waschbar; ne pas laver;"
    " non lavare; no lavar; niet wassen; far ej tvattas; ej tvatt*; tvattas ej; tal ej tvatt;"
    " ej vattentvatt*; tal ej vattentvatt; skal ikke vaskes; ma ikke vaskes; ikke vask;"
    " tal ikke vask; taler ikke vask",
    "no machine": "do not machine wash; not machine washable; do not wash in machine;"
    " nicht maschinenwaschbar; keine maschinenwasche; nicht in der waschmaschine waschen;"
    " nicht in der maschine waschen; ne pas laver en machine; non lavare in lavatrice;"
    " no lavar a maquina; no lavar en lavadora; niet in de wasmachine*;"
    " niet in de machine wassen; ej maskintvatt*; far ej maskintvattas;"
    " ma ikke maskinvaskes; ikke maskinvask; ma ikke vaskes i maskin",
    "machine": "maschinengang; maschinenprogramm; maskinprogram; maskinprogrammet;"
    " machineprogramma; machine cycle; machine program; machine programme; buntwasche;"
    " buntwaschgang; normalwaschgang; kulortvatt; kulortvask; bonte was;"
    " machine wash*; machine washable; machine washing; wash in machine;"
    " wash in washing machine; maschinenwasche; maschinenwasch*; maschinenwaschbar*;"
    " in der waschmaschine waschen; in der waschmaschine; waschmaschine;"
    " in der maschine waschen; waschmaschinenfest; maschinenfest; lavage en machine;"
    " lavage machine; lavage a la machine; lavable en machine; lavable machine;"
    " lavable a la machine; laver en machine; laver a la machine; lavabile in lavatrice;"
    " lavare in lavatrice; lavaggio in lavatrice; lavatrice; lavar a maquina;"
    " lavar en lavadora; lavado a maquina; lavadora; lavable a maquina; machinewas*;"
    " wasmachine; machine wassen; wassen in de machine; in de wasmachine wassen;"
    " in de wasmachine; in de machine wassen; maskintvatt*; maskinvask*; tvattas i maskin;"
    " tvatt i maskin; vaskes i maskin; vask i maskin; vaskemaskin*",
    "machine word": "machine; maschine; maskin; maskine; maquina; macchina",
    "mild": "mildes programm; mildem programm; schonprogramm; sanftes programm; mild program;"
    " mild programme; programme modere; programma mite; programa suave; mild programma;"
    " zacht programma; voorzichtig programma; milt program; mildt program; skonsamt program;"
    " skansomt program; naensomt program; traitement modere; traitement tres modere; action"
    " reduite; azione ridotta;"
    " accion reducida; proceso suave; proceso moderado; reduced action; mild treatment; ylletvatt;"
    " ylleprogram; wool cycle; wool wash cycle; wool_wash; wool program; wool programme;"
    " gentle cycle; gentle wash; gentle program; gentle programme; gentle; delicate cycle;"
    " delicate wash; delicate program; delicate programme; delicates; delicate; mild cycle;"
    " mild process; hand wash cycle; hand wash program; hand wash programme;"
    " wollwaschgang; wollwaschprogramm; wollprogramm; wollwasche; wollgang; schonwaschgang;"
    " schonwasche; schonwaschprogramm; schongang; schonprogramm; schonend*; feinwasche;"
    " feinwaschgang; feinwaschprogramm; pflegeleicht; handwaschprogramm; handwaschgang;"
    " programme laine; machine laine; cycle laine; lavage laine; programme delicat; cycle delicat;"
    " linge delicat; lavage delicat; programme doux; cycle doux; programma lana; ciclo lana;"
    " ciclo delicato; programma delicato; lavaggio delicato; capi delicati; delicati;"
    " programa lana; programa de lana; programa para lana; ciclo de lana; ciclo delicado;"
    " programa delicado; lavado delicado; ropa delicada; prendas delicadas; wolprogramma;"
    " wolwasprogramma;"
    " wolwas; fijne was; fijnwas; fijnwasprogramma; handwasprogramma; ullprogram; ulltvatt;"
    " ulltvattprogram; ullvask; ullvaskeprogram; fintvatt; skonsam; skontvatt; skonsamt;"
    " finvask; finvaskeprogram; skansom; skansomt; skaneprogram; skanevask; uldprogram;"
    " uldvask; uldvaskeprogram; skanevaskeprogram; handtvattprogram; handvaskprogram",
    "wash": "vattentvatt; waschtemperatur; wastemperatuur; tvattemperatur; vasketemperatur;"
    " washing temperature; wash; wash at; waschen; waschbar; waschbar bis; waschen bei; laver;"
    " lavage;"
    " lavare; lavaggio; lavar; lavado; wassen; wasbaar; tvattas; tvatt; vaskes; vask; washable;"
    " lavable; lavabile; wasche",
    "any bleach": "bleach as needed; bleach when needed; bleach if needed; any bleach; any bleach"
    " allowed; bleach allowed; bleaching allowed; bleichen erlaubt; blanchiment autorise; tout"
    " blanchiment autorise; candeggio consentito; se puede usar lejia; lejia permitida; bleken"
    " toegestaan; far blekas; kan blekes; taler blegning",
    "oxygen bleach only": "oxygen bleach only; only oxygen bleach; oxygen bleach;"
    " non-chlorine bleach only; only non-chlorine bleach; non-chlorine bleach;"
    " nur sauerstoffbleiche; sauerstoffbleiche; blanchiment a l'oxygene;"
    " uniquement agents oxygenes; solo candeggio all'ossigeno; candeggio con ossigeno;"
    " candeggiare solo con ossigeno; solo blanqueador oxigenado; blanqueo con oxigeno;"
    " alleen zuurstofbleek; zuurstofbleek; endast syreblekmedel; syreblekning;"
    " kun oksygenblekemiddel; kun iltblegemiddel; zuurstofbleekmiddel*; sauerstoffbleichmittel*;"
    " syreblekmedel; oksygenblekemid*; oksygenbleking; iltblegemid*; iltblegning; agents oxygenes;"
    " agent de blanchiment oxygene; blanqueador con oxigeno; candeggiante all'ossigeno",
    "do not bleach": "do not bleach; do not use bleach; no bleach; not bleach; nicht bleichen;"
    " nicht bleichbar; kein bleichmittel; keine bleichmittel; bleichen nicht erlaubt;"
    " ne pas blanchir; pas de blanchiment; blanchiment interdit; pas de javel; ne pas javelliser;"
    " pas de chlore; ne pas chlorer; chlorage interdit; non candeggiare; non usare candeggina;"
    " no candeggio; niente candeggina; no usar lejia; no blanquear; sin lejia; no lejia;"
    " no utilizar lejia; no usar blanqueador; niet bleken; geen bleekmiddel; geen bleek;"
    " blek aldrig; blek inte; blek aldri; blek ikke; bleg aldrig; bleg ikke; leave out bleach;"
    " leave bleach out; blek ej; ej blekning; far ej blekas; blekas ej; tal ej blekning;"
    " ej blekmedel; ma ikke blekes; ikke blek*; skal ikke blekes; taler ikke bleking; ikke klor;"
    " tal ikke bleking; ma ikke bleges; taler ikke blegning; tal ikke blegning; ikke bleg*;"
    " ingen blegning; ingen bleking",
    "tumble dry": "tumble dry medium; tumble dry on medium; tumble dry medium heat; tumble dry on"
    " medium heat; tumble dry at medium heat; trockner normal; tumbler normal; tumble dry normal;"
    " seche-linge normal; asciugatrice normale; secadora normal; droger normaal; tumble dry; may"
    " be tumble dried; can be tumble dried; tumble drying; trocknergeeignet; im trockner"
    " trocknen; trockner geeignet; waschetrockner geeignet; maschinentrocknung; seche-linge"
    " autorise; sechage en machine; sechage en tambour; asciugatura in tamburo consentita;"
    " asciugatura in tamburo; asciugare in asciugatrice; apto para secadora; secar en secadora;"
    " secadora permitida; geschikt voor de droger; geschikt voor droger; drogen in de droger;"
    " droogtrommel toegestaan; tal torktumling; far torktumlas; torktumlas; torktumling; kan"
    " torkes i trommel; torkes i trommel; tal torketrommel; taler torketrommel; taler"
    " torretumbling; torretumbles; kan torretumbles; torretumbling; tal torretumbling",
    "tumble dry low": "asciugatrice moderata; asciugatrice a temperatura moderata; secadora"
    " moderada; seche-linge modere; trockner massig; sechage en tambour modere;"
    " sechage tambour modere; asciugatura in tamburo moderata; sechage modere en machine;"
    " sechage en tambour a temperature moderee; sechage en machine a temperature moderee;"
    " seche-linge a temperature moderee; asciugatura in tamburo a temperatura moderata;"
    " asciugare in tamburo a temperatura moderata; secadora a temperatura moderada;"
    " secar en secadora a temperatura moderada; tumble dry low; tumble dry on low;"
    " tumble dry low heat; tumble dry on low heat;"
    " tumble dry at low heat; tumble dry cool; tumble dry gentle; tumble dry at low temperature;"
    " tumble dry on gentle; low tumble dry; trockner auf niedriger stufe; trockner niedrig;"
    " trockner schonend; im trockner bei niedriger temperatur; trockner bei niedriger temperatur;"
    " bei niedriger temperatur im trockner trocknen; seche-linge a basse temperature; sechage en"
    " machine a basse temperature; sechage en tambour a basse temperature; seche-linge doux;"
    " asciugatrice a bassa temperatura; asciugatura in tamburo a bassa temperatura; secadora a"
    " baja temperatura; secar en secadora a baja temperatura; droger op lage temperatuur; droger"
    " lage temperatuur; torktumlas pa lag temperatur; torktumling lag temperatur; torktumling pa"
    " lag temperatur; torktumlas vid lag temperatur; torketrommel pa lav temperatur; torketrommel"
    " lav temperatur; torkes i trommel pa lav temperatur; torretumbles ved lav temperatur;"
    " torretumbling ved lav temperatur",
    "do not tumble dry": "do not tumble dry; do not tumble; no tumble dry; no tumble drying;"
    " not tumble dry; nicht in den trockner*; nicht im trockner trocknen; kein trockner;"
    " nicht trocknergeeignet; nicht trockner geeignet; trockner nicht geeignet;"
    " nicht im waschetrockner trocknen; nicht fur den trockner geeignet; nicht tumblern;"
    " nicht im trockner; nicht im tumbler trocknen; keinen trockner verwenden;"
    " nicht maschinell trocknen; nicht in waschetrockner; nicht in den waschetrockner*;"
    " pas de seche-linge; ne pas secher en machine; ne pas mettre au seche-linge;"
    " seche-linge interdit; ne pas secher au seche-linge; ne pas secher en tambour;"
    " pas de sechage en machine; pas de sechage en tambour; ne pas utiliser de seche-linge;"
    " ne pas utiliser le seche-linge; non asciugare in tamburo; non usare l'asciugatrice;"
    " non asciugare in asciugatrice; non asciugare a macchina; no asciugatrice;"
    " non centrifugare in asciugatrice; non utilizzare asciugatrice; no usar secadora;"
    " no secar en secadora; no secadora; no secar a maquina; no secar en tambor;"
    " no utilizar secadora; no meter en secadora; niet in de droger; geen droger;"
    " niet in de wasdroger; niet drogen in de droger; niet in de droogtrommel;"
    " niet in de droogautomaat; niet in droger; geen droogtrommel; niet machinaal drogen;"
    " niet geschikt voor de droger; torktumlas ej; far ej torktumlas; ej torktumling;"
    " ej torktumlas; tal ej torktumling; torktumla ej; ma ikke torkes i trommel; ikke torketrommel;"
    " ma ikke torketromles; skal ikke torkes i trommel; tal ikke torketrommel; ikke i torketrommel;"
    " taler ikke torketrommel; ma ikke torretumbles; taler ikke torretumbling; ikke torretumbl*;"
    " tal ikke torretumbling; ingen torretumbling",
    "line dry": "line dry; hang to dry; hang dry; dry on line; dry on a line; line drying;"
    " auf der leine trocknen; hangend trocknen; aufhangen zum trocknen; leinentrocknung;"
    " secher sur fil; sechage sur fil; faire secher suspendu; secher suspendu;"
    " asciugare appeso; asciugare all'aria appeso; asciugare steso; secar colgado;"
    " secar tendido; tender para secar; aan de lijn drogen; hangend drogen; drogen aan de lijn;"
    " ophangend drogen; hangtork*; hangtorkas; hangtorka; torkas hangande; henges til tork;"
    " hengetork*; hengetorkes; heng til tork;"
    " hang til torre; haengetorr*; haengetorres; hangetorr*; torres haengende; haenges til torre",
    "drip line dry": "dryppetork*; dryppetorr*; drip line dry; drip dry; tropfnass aufhangen;"
    " tropfnass trocknen;"
    " tropfnass; secher sans essorer; sechage sur fil sans essorage; secher en egouttant;"
    " asciugare gocciolante; asciugare appeso gocciolante; secar colgado sin escurrir;"
    " secar escurriendo; druipdrogen; druipend drogen; nat ophangen; nat aan de lijn;"
    " nat aan de lijn hangen; hang vatt; hang vatt pa lina*; dropptork*; dropptorkas; drypptork*;"
    " dryptorr*; drypptorr*; dryppes torr*",
    "dry flat": "dry flat; lay flat to dry; dry lying flat; lay flat; dry on flat surface;"
    " dry on a flat surface; flat dry; flat drying; drip dry flat; liegend trocknen;"
    " flach trocknen;"
    " liegend trocknen lassen; flach liegend trocknen; trocknen liegend; trocknen im liegen;"
    " flach ausgebreitet trocknen; flach hinlegen; secher a plat; sechage a plat;"
    " faire secher a plat; seche a plat; asciugare in piano; asciugare in plano; stendere in piano;"
    " far asciugare in piano; ligge torres; legges flatt; torkes liggende flatt;"
    " laegges fladt til torre; laegg plant; tendre a plat; dejar secar en plano;"
    " plat te drogen leggen; asciugare disteso;"
    " asciugare in orizzontale; asciugare orizzontalmente; asciugatura in piano;"
    " asciugare su superficie piana; secar en plano; secar en piano; secar en horizontal;"
    " secar horizontal; secar sobre superficie plana; secar en superficie plana;"
    " secar sobre una superficie plana;"
    " secar extendido; secado en plano; secar plano; secado horizontal; liggend drogen;"
    " plat drogen; plat laten drogen; vlak drogen; liggend laten drogen; plantork*; plantorkas;"
    " torkas plant;"
    " torkas liggande; torka plant; torka liggande; torkes flatt; flattork*; flattorkes;"
    " liggetork*; liggetorkes;"
    " torkes liggende; tork flatt; liggetorr*; liggetorres; torres fladt; torres liggende;"
    " plantorr*;"
    " fladtorr*; fladtorres; tor fladt",
    "dry in shade": "schattentrock*; skyggetork*; skuggtork*; skyggetorr*; dry in shade; dry in"
    " the shade; dry away from sunlight; in shade; in the shade; im schatten trocknen; trocknen"
    " im schatten; im schatten; secher a l'ombre; sechage a l'ombre; a l'ombre; asciugare"
    " all'ombra; asciugatura all'ombra; all'ombra; secar a la sombra; secado a la sombra; a la"
    " sombra; in de schaduw drogen; drogen in de schaduw; in de schaduw; torkas i skugga*; torka"
    " i skugga*; i skuggan; torkes i skygge*; torres i skygge*; i skyggen",
    "iron high": "hot iron; iron hot; iron high; iron on high; iron on high heat;"
    " iron at high heat;"
    " high iron; heiss bugeln; repassage a haute temperature; repasser a haute temperature;"
    " fer chaud; stirare ad alta temperatura; ferro caldo; planchar a alta temperatura;"
    " plancha caliente; heet strijken; strijken op hoge temperatuur; stryks pa hog varme;"
    " stryks pa hog temperatur; strykes pa hoy varme; strykes pa hoy temperatur;"
    " stryges ved hoj varme; stryges ved hoj temperatur",
    "iron medium": "medium iron; warm iron; iron medium; iron warm; iron on medium;"
    " iron on medium heat; iron at medium heat; massig heiss bugeln; mittelheiss bugeln;"
    " warm bugeln; bugeln bei mittlerer temperatur; bei mittlerer temperatur bugeln;"
    " mittlere temperatur bugeln; repassage a temperature moyenne;"
    " repasser a temperature moyenne; fer moyen; fer chaud moyen; fer moyennement chaud;"
    " stirare a media temperatura;"
    " stirare a temperatura media; planchar a temperatura media;"
    " plancha media; strijken op gemiddelde temperatuur; warm strijken;"
    " strijken op middelmatige temperatuur; stryks pa medelvarme; stryks pa medeltemperatur;"
    " strykes pa middels varme; strykes pa middels temperatur; stryges ved middel varme;"
    " stryges ved middel temperatur; stryges ved middelvarme",
    "iron low": "just warm iron; iron just warm; cool iron; iron cool; low iron; iron low;"
    " iron on low; iron on low heat;"
    " iron at low heat; iron on low temperature; iron at low temperature; nicht heiss bugeln;"
    " lauwarm bugeln; kalt bugeln; bugeln bei niedriger temperatur;"
    " bei niedriger temperatur bugeln; bugeln auf niedriger stufe; leicht bugeln;"
    " schwach bugeln; repassage a basse temperature; repasser a basse temperature;"
    " repassage doux; fer doux; fer tiede; stirare a bassa temperatura; ferro a bassa temperatura;"
    " planchar a baja temperatura; plancha tibia; plancha fria; ferro tiepido;"
    " strijken op lage temperatuur; lauw strijken; koel strijken; niet heet strijken;"
    " stryks pa lag varme; stryks pa lag temperatur; strykes pa lav varme;"
    " strykes pa lav temperatur;"
    " stryges ved lav varme; stryges ved lav temperatur",
    "do not iron": "pressing not advised; pressing not recommended; pressing not advisable; no"
    " pressing; do not press; do not iron; no iron; no ironing; not iron; nicht bugeln; kein"
    " bugeln; ne pas repasser; pas de repassage; repassage interdit; non stirare; no stiro; no"
    " planchar; niet strijken; far ej strykas; stryk ej; strykes ikke; ej strykning; strykas ej;"
    " stryks ej; ma ikke strykes; skal ikke strykes; ikke strykes; taler ikke stryking; ma ikke"
    " stryges; stryges ikke; taler ikke strygning; ikke strygning; tal ikke strygning;" + UNPRESSED,
    "iron": "iron; ironing; strykning; stryking; stryges; strykejern; strykjarn; strygejern;"
    " plancha; strijkijzer; bugeleisen; bugeln; repasser; repassage; stirare; planchar; planchado;"
    " strijken;"
    " stryks; strykes; strykas; strygning; stiratura",
    "dry clean": "trocken reinigen; trocken gereinigt; trockenreinig*;"
    " professionell reinigen; professionell gereinigt; professionell reinigen lassen;"
    " pressing possible; pressing autorise; pressing conseille; kun renses; kun rens; kun kemisk"
    " rens*; kun kjemisk rens*; endast kemtvatt*; bara kemtvatt*; dry clean; dry cleaning; dry"
    " cleanable; may be dry cleaned; can be dry cleaned; dry clean only; chemische reinigung;"
    " chemisch reinigen; chemisch reinigbar; professionelle reinigung; reinigung moglich;"
    " nettoyage a sec; nettoyer a sec; lavaggio a secco; lavare a secco; pulitura a secco; lavar"
    " en seco; limpieza en seco; limpiar en seco; lavado en seco; chemische reiniging; stomen;"
    " take to a dry cleaner; take to the dry cleaner; take it to the dry cleaner;"
    " in die reinigung geben; zur reinigung geben; zur reinigung bringen; confier au pressing;"
    " donner au pressing; porter au pressing; portare in tintoria; portare in lavanderia;"
    " llevar a la tintoreria; naar de stomerij brengen; naar de stomerij; lamnas till kemtvatt;"
    " leveres til rensing; leveres til kjemisk rensing; indleveres til rensning;"
    " kemtvatt; kemtvattas; kan kjemisk renses; kjemisk rens*; renses kjemisk; kemisk rens*;"
    " renses kemisk; kan renses; kan kemisk renses; taler kemisk rensning",
    "do not dry clean": "nicht trocken reinigen; keine trockenreinigung;"
    " do not dry clean; no dry clean; no dry cleaning; not dry clean;"
    " nicht chemisch reinigen; keine chemische reinigung; nicht reinigen;"
    " chemische reinigung nicht moglich; nicht chemisch reinigbar; keine chemischreinigung;"
    " pressing interdit; pas de pressing; ne pas nettoyer a sec; pas de nettoyage a sec;"
    " nettoyage a sec interdit;"
    " nettoyage interdit;"
    " non lavare a secco; no lavaggio a secco; non pulire a secco;"
    " no lavar en seco; no limpiar en seco; no limpieza en seco; niet chemisch reinigen;"
    " niet stomen; geen chemische reiniging; niet laten stomen; far ej kemtvattas; ej kemtvatt*;"
    " kemtvattas ej; tal ej kemtvatt; ma ikke renses; ma ikke kjemisk renses; ikke kjemisk rens*;"
    " taler ikke kjemisk rens*; tal ikke kjemisk rens*; ma ikke kemisk renses;"
    " taler ikke kemisk rens*; ikke kemisk rens*; ingen kemisk rens*; skal ikke renses",
    "wet clean": "wet clean; wet cleaning; professional wet clean; professional wet cleaning;"
    " nassreinigung; professionelle nassreinigung; nass reinigen; nettoyage a l'eau;"
    " nettoyage professionnel a l'eau; lavaggio ad acqua professionale;"
    " lavaggio professionale ad acqua; limpieza en humedo; limpieza humeda profesional;"
    " limpieza profesional en humedo; pulitura ad acqua; natreiniging; professionele natreiniging;"
    " nat reinigen; professioneel nat reinigen;"
    " vattvatt; vatrens; vadrens; professionell vattentvatt; professionell vattvatt;"
    " vatrensning; vadrensning; profesjonell vatvask; professionel vadvask; "
    + "; ".join(WET_CLEANING),
    "do not wet clean": "do not wet clean; no wet cleaning; no wet clean; not wet clean;"
    " nicht nassreinigen; keine nassreinigung; nicht nass reinigen; ne pas nettoyer a l'eau;"
    " pas de nettoyage a l'eau; no lavaggio ad acqua;"
    " no limpiar en humedo; no limpieza en humedo; niet nat reinigen; geen natreiniging;"
    " ej vattvatt; ikke vatrens; ikke vadrens; ma ikke vadrenses; ma ikke vatrenses",
    # Dyed so, which is no care:
    "dyed": "dyed in shade; dyed in the shade; tintoria a mano; tintorie a mano",
    "or": "or; oder; ou; o; of; eller",
    "not": "cannot; avoid; vermeiden; eviter; evitez; evitare; evitar; vermijd; vermijden;"
    " undvik; unnga; undga; prohibido; prohibida; vietato; vietata; divieto; interdit; interdite;"
    " verboden; verboten; forbudt; forbjudet; exclu; exclue; weder; hverken; verken; varken; not;"
    " no; don't; dont; never; nicht; kein; keine; keinen; ne; pas; non; sin; niente; niet; geen;"
    " ej; inte; ikke; ingen; aldrig; " + "; ".join(sorted(REFUSALS)),
    "other": "dampfen erlaubt; dampfen moglich; not superwash; with wool wash; little wool wash;"
    " halbe trommel; halbe fullung; half load; reduced load; demi charge; media carga;"
    " mezzo carico; fabric conditioner; no fabric conditioner;"
    " needs no ironing; need no ironing; no ironing needed; no ironing required; no need to iron;"
    " no ironing necessary; requires no ironing; ironing not needed; ironing not required;"
    " ironing not necessary; ironing unnecessary; does not need ironing; need not be ironed;"
    " bugeln nicht notig; bugeln nicht erforderlich; bugeln unnotig; muss nicht gebugelt werden;"
    " repassage inutile; repassage non necessaire; repassage pas necessaire; repassage superflu;"
    " pas besoin de repasser; aucun repassage necessaire; non necessita di stiratura;"
    " stiratura non necessaria; non occorre stirare; non serve stirare; no necesita plancha;"
    " no necesita planchado; no necesita planchar; no requiere plancha; no requiere planchado;"
    " planchado no necesario; planchado innecesario; strijken niet nodig; strijken onnodig;"
    " hoeft niet gestreken te worden; strygning unodvendig; strygning ikke nodvendig;"
    " behover ikke stryges; behover ikke strygning; behover ikke strykes;"
    " stryking unodvendig; stryking ikke nodvendig; trenger ikke stryking; trenger ikke a strykes;"
    " strykning onodig; strykning ej nodvandig; behover ej strykas; behover inte strykas;"
    " sans essorer; sans essorage; ohne schleudern; senza centrifugare; senza strizzare;"
    " sin escurrir; sin centrifugar; sin exprimir; zonder centrifugeren;"
    " steam block; steam lightly; lightly steam; steam gently; gently steam;"
    " do not wring; do not soak; do not rub; do not spin; do not twist; do not steam;"
    " no steam; without steam; nicht dampfen; ohne dampf; sans vapeur; senza vapore; sin vapor;"
    " zonder stoom; utan anga; uten damp; uden damp;"
    " do not use fabric softener; no fabric softener; do not use softener; no softener;"
    " nicht wringen; nicht auswringen; nicht einweichen; nicht reiben; nicht schleudern;"
    " kein weichspuler; keinen weichspuler verwenden; kein weichspuler verwenden;"
    " ne pas tordre; ne pas frotter; ne pas tremper; ne pas essorer; sans adoucissant;"
    " pas d'adoucissant; non torcere; non strizzare; non usare ammorbidente; non centrifugare;"
    " no retorcer; no escurrir; no usar suavizante; niet wringen; geen wasverzachter;"
    " vrid ej; anvand ej skoljmedel; ej skoljmedel; ikke vri; ma ikke vris; ikke skyllemiddel;"
    " brug ikke skyllemiddel; mild detergent; mild soap; mildes waschmittel; mildem waschmittel;"
    " feinwaschmittel; wollwaschmittel; lessive douce; lessive laine; detersivo delicato;"
    " detergente delicato; detergente neutro; fijnwasmiddel; wolwasmiddel; mildt vaskemiddel;"
    " milt tvattmedel; ulltvattmedel; ullvaskemiddel; uldvaskemiddel; gentle detergent;"
    " use wool wash detergent; wool detergent; do not wash above; nicht uber; not above",
}
"""Process, or part of one, to the phrases that print it.

Parts: ``machine``, ``mild`` and ``wash`` go together with a temperature, ``no machine``
forbids the machine alone, ``iron`` wants a heat, ``not`` is a negation that belongs to
no phrase, ``or`` offers a choice, ``other`` is care that has no symbol.
"""

HARMLESS = NEUTRAL | listed(
    "conseil; conseils; aftercare; consigli; istruzioni; manutenzione; instrucciones; cuidados;"
    " conservacion; skotselrad; tvattrad; vaskeanvisning; plejeanvisning; wasvoorschrift;"
    " masche; maschen; reihen; fria; frio; fredda; froide; koud; kaltem;"
    " only; please; nur; bitte; solo; seulement; uniquement; alleen; endast; kun; bara;"
    " may; be; can; towel; handtuch; serviette; asciugamano; toalla; handdoek; handduk; handkle;"
    " handklaede; while; still; damp; moist; excess; squeeze; squeezed; roll; rolled; pat; blot;"
    " block;"
    " feucht; feuchtem; feuchten; ausdrucken; einrollen; humide; enrouler; umido; umida;"
    " arrotolare;"
    " tamponare; humedo; humeda; enrollar; vochtig; vochtige; oprollen; uitdrukken; fuktig;"
    " fuktigt;"
    " rulla; krama; rull; klem; fugtig; fugtigt; rul; klemmes; kann; kan; peut; etre; puo; se;"
    " puede; at; on; with; cold; cool; warm;"
    " water; wasser; eau; acqua; agua; vatten; vann; vand; lauwarm; kalt; mit; bei; bis; max;"
    " maximum; maximal; fino; hasta; tot; pa; ved; vid; till; til; a; i; im; in; en; de; der;"
    " la; le; den; the; it; fr; es; nl; sv; se; no; da; dk; gb; uk; us; und; and; et; e; y;"
    " og; och; reshape; care; pflege; pflegehinweis; pflegehinweise; entretien; cura; cuidado;"
    " lavaggio; onderhoud; skotsel; stell; pleje; then; dann; anschliessend; forme; form;"
    " pull; ziehen; remettre; lassen; laisser; dejar; laten; handle; carefully; gently;"
    " vorsichtig; separately; separat; wash; lay; shape; c; f; p; w; normal; cycle; programm;"
    " program; programme; programma; programa; instructions; washing; max; lukewarm; tiede;"
    " tiepida; tibia; lauw; ljummet; lunkent; always; immer; toujours; doucement; recommended;"
    " empfohlen; recommande; conseille; consigliato; recomendado; aanbevolen; rekommenderas;"
    " anbefales; hand; up; to; about; ca; approx; temperature; temperatur; temperatuur;"
    " temperatura; heat; low; deg; grad; degres; gradi; grados; graden; grader; allowed;"
    " erlaubt; autorise; consentito; permitido; toegestaan; tillatet; tilladt; bleed; bleeding;"
    " fade; abfarben; ausbluten; deteindre; degorger; stingere; destenir; afgeven; missfarga"
)
"""Words that may stand before a phrase and change nothing of it."""
