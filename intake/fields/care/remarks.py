"""Words of remarks beside care, of which no process hangs: what is washed and in what, what it is
laid on and rolled in, how long and how often, who asks for it, in nine languages.

Common practice, no source; all are folded. None says "but", "unless" or "except": such words may
change what stands beside them.
"""

from __future__ import annotations

from intake.fields.care.forms import (
    DUTCH,
    FRENCH,
    GERMAN,
    ITALIAN,
    NORSE,
    SPANISH,
    formed,
    worded,
)
from intake.fields.care.manners import EACH, PLACES, SHAPED, SUDS

_WATER = (
    worded(
        """
        directo directos diretto diretti directement jusqu jusque frais fraiche fraiches fresco
        fresca frescos frescas koligt kolige kjolig kjolige milt mildt prall prallen praller basin
        bowl sink bath tub bucket suds sudsy lather drop drops dash capful flakes liquid powder
        shampoo agent agents product products detergents running waschschussel becken eimer lauge
        seifenlauge waschlauge seifenflocken waschpulver vollwaschmittel spezialwaschmittel
        wollshampoo wollseife waschmittels seifenwasser spulwasser kaltwasser wassers
        wassertemperatur waschwasser bassine cuvette paillettes lessives lessiviel copeaux poudre
        liquide shampooing detergent marseille savonneuse additionnee mousse bacinella lavandino
        scaglie polvere liquido liquidi detersivi detergenti saponata marsiglia risciacquate
        risciacqua sciacquare sciacquate sciacquo sciacqua palangana barreno cubo escamas polvo
        champu detergentes marsella aclarado aclare aclarando enjuague enjuaga enjuagado
        enjuagarse abundante teil emmer sop vlokken zeepvlokken poeder vloeibaar wolshampoo
        zeepsop uitgespoeld naspoelen spoel nagespoeld wasmiddelen sopje balje spand flydende
        pulver saebespaner saebevand uldshampoo saebespaan skylles skyllet skylning skyllevand
        udskylles vaskevann flytende sapespon sapevann ullshampo ullsjampo sjampo skyll skylling
        oljesape hink flytande tvalflingor tvalvatten ullschampo schampo skolja skoljas skoljning
        lut
        """
    )
    | formed("klar sauber fliessend stehend reichlich flussig", GERMAN)
    | formed("clair abondant courant liquid", FRENCH)
    | formed("abbondant corrent liquid", ITALIAN)
    | formed("liquid", SPANISH)
    | formed("ruim schoon stromend ruimschoots", DUTCH)
    | formed("ren klar rikelig rigelig rinnand rindend rennend", NORSE)
)

_GARMENT = worded(
    """
    masker felt torsion torsions maskor steken garments clothes clothing knitwear knits knitted
    handknit handknits knitting crochet piece pieces project projects jumper sweater cardigan
    socks sock blanket blankets hat shawl scarf baby babies accessories stitches finished work
    yarns fibre fibres fiber fibers label strickstucke strickstucks strickware strickwaren
    strickteil strickteile gestrick gestrickte gestrickten handgestrickte handgestricktes kleidung
    kleidungsstuck kleidungsstucke modelle teil teile artikel stuck stucke pullover pulli mutze
    mutzen socken strumpfe schal decke decken garne garns gestricktes hakelarbeit faser fasern
    textilien waschestuck waschestucke vetement vetements tricot tricots tricote tricotes ouvrage
    ouvrages article articles pull pulls chaussettes bonnet couverture layette textile textiles
    modeles fil maille mailles capo indumento indumenti maglia maglie maglione maglioni maglieria
    lavoro lavori calzini coperta berretto filati modelli articolo articoli tessuto tessuti fibra
    tessili prenda ropa labor labores jersey jerseys calcetines manta gorro hilos hilado hilados
    ovillo modelos articulo articulos tejido tejidos fibras punto pieza piezas ropas kledingstuk
    kledingstukken kleding breisel breisels breiwerk gebreide gebreid trui sokken muts deken
    garens modellen artikelen stuk stukken vezel vezels textiel werkstuk haakwerk strikketoj strik
    strikkede strikket strikvarer bluse trojen troje stromper hue taeppe garner modeller artikler
    produktet produkt garnets tojet toj stykke fibrene arbejdet plagg plagget plaggene
    strikkeplagg strikketoy genser genseren sokker lue teppe strikkearbeid toy toyet plaggets
    arbeidet fiberen plaggen stickat stickade stickplagg stickning troja trojan strumpor mossa
    filt kladsel klader alster arbetet produkten
    """
)

_LAID = (
    worded(
        """
        towels terry cotton sheet rack racks mat board pillowcase bag bags mesh net cloths muslin
        lining piece surfaces table between underneath top onto layer layers frottiertuch frottee
        frotteetuch frotteehandtuch frottierhandtuch handtuchern handtucher badehandtuch laken
        bettlaken tucher bugeltuch bugeltuches geschirrtuch unterlage waschenetz waschesack
        waschbeutel waschestander beutel kissenbezug netz ebener ebene ebenen zwischen
        baumwolltuch auflegen unterlegen legen legt gelegt hinlegen hin rollen ausrollen einrollen
        eingerollt gerollt einwickeln gewickelt wickeln tupfen abtupfen eponge eponges serviettes
        torchon linges pattemouille mousseline surface filet sac taie entre dessus posez poser
        pose roulez rouler roule enroulez enroule tamponner tamponnez epongez eponger drap draps
        tissu claie spugna asciugamani telo teli lenzuolo panni panno superfici sacchetto retina
        federa tra sopra avvolgere avvolgete avvolto arrotolate arrotolato tamponate tampona
        poggiare adagiare adagiate appoggiare distendere distendete straccio canovaccio interposto
        interporre ripiano toallas pano panos sabana funda bolsa red rejilla encima envolver
        envuelva envolviendo envuelto enrolle enrollado enrollando enrolla colocar coloque coloca
        extender extienda tela superficies trapo interponer interponiendo algodon estirar
        handdoeken doeken theedoek perslap lakens waszak waszakje wasnet sloop tussen bovenop
        oppervlak oppervlakte gerold opgerold oprollen rol leg gelegd neerleggen uitleggen
        spreiden uitspreiden persdoek badhanddoek badstof wasrek strijkdoek handklaeder klaede
        klaeder stykke viskestykke strygeklaede pressestykke lagen vaskepose pude mellem ovenpa
        underlaget rulles rullet rul rulle laeg laegge lagt bred bredt bredes torreklaede stativ
        frottehandklaede bomuldsklaede duppes handklaer handkler klede kleder klut pressklut
        strykeklut vaskenett mellom oppa bre bres bredd frottehandkle dupp handdukar handduken duk
        dukar pressduk strykduk lakan tvattpase tvattpasar mellan ovanpa rullas rullad lagd laggs
        lagts breds breda frottehandduk tyg torkduk
        """
    )
    | formed("eben", GERMAN)
    | formed("propre blanc", FRENCH)
    | formed("asciutt", ITALIAN)
    | formed("schoon wit", DUTCH)
    | formed("slat jevn jamn hvid hvit vit", NORSE)
)

_SHAPE = worded(
    """
    na rimettere rimettete rimesso rimessa sistemate mettre mettez ridando turn turned turning
    remove removed removing pull pulled pulling ease eased easing smooth smoothed smoothing pin
    pinned pinning blocked blocking shaping reshaping size sized measurements original into
    natural naturally straighten straightened edges pop toss throw tuck transfer hold lift weight
    flatten stretched out back wet whilst gezogen zieht glatten geglattet streichen gestrichen
    spannen gespannt zurecht zurechtziehen masse grosse ursprungliche ursprunglichen dehnen
    umdrehen gedreht wenden gewendet nassem nasser nasse nasses nass zustand feuchte feuchter
    feuchtes formgebung originalform herausnehmen nehmen entnehmen stecken gesteckt herausdrucken
    drucken gedruckt ausgedruckt formez former tirer tirez tire lisser lissez etirer etirez etire
    epingler dimensions taille retourner retournez retourne sortir sortez retirer retirez presser
    pressez pressant comprimer mouille mouillee mouilles mouillees tapoter enlever eau redonner
    redonnez donnez donner initiale originale mise sistemare dimensioni misura misure rivoltare
    rivoltate rivoltato rivoltata togliere estrarre premere premete premendo pressare comprimere
    bagnato bagnata bagnati originaria modellare ridare riportare dando date ancora eccesso
    rimuovere eliminare tolto estire tirar moldear moldeando dimensiones dar vuelta girar voltear
    volteada quitar sacar retirar eliminar presionar presione presionando apretar mojado mojada
    mojados mojadas exceso sobrante todavia aun recuperar devolver trek trekken gevormd vormen
    vorm maat maten oorspronkelijke gladstrijken keren gekeerd keer omkeren halen uithalen
    uitgehaald knijp uitknijpen knijpen geknepen uitgeknepen druk drukken drukt natte overtollig
    overtollige nog opspannen draaien gedraaid traek traekkes trukket facon faconen glattes glat
    maal vend vendes vendt tag tages tage klem klemmes pres trykkes trykke vaad vade vadt
    overskydende overskud stadig endnu rettes ret form formgiv formgives trekkes fasong fasongen
    glatt vreng vrenges vrengt vrengen klemme trykk vat vate vatt overflodig fortsatt enna
    formes dra dras forma formas slatas slata matt mata vand vands vanda vant krama kramas tryck
    trycks trycka vata blot blott overflodigt annu fortfarande fuktiga tillratta avig aviga
    insidan insida utsidan utsida rata ratsidan links rechts innen aussen innenseite aussenseite
    ruckseitig umgedreht interieur exterieur endroit interno esterno interior exterior derecho
    binnenkant buitenkant achterzijde indersiden inderside udad udvendig innsiden utsiden
    innvendig retten
    """
)

_TIME = worded(
    """
    speed speeds short shorter brief briefly quick quickly slow slowly minute minutes hour hours
    overnight day days time times once twice often several first second few before after during
    until immediately promptly completely fully total kurz kurze kurzer kurzes kurzem langsam
    langsame minuten stunde stunden tag tage mehrmals oft sofort zugig vollstandig vorher
    nachher wahrend danach zuerst erste ersten erster erstes zweite hochstens einige ganz drehzahl
    drehzahlen umdrehungen touren kurzzeitig abondamment copieusement abbondantemente
    abundantemente ruimschoots rikeligt rikligt rigeligt latt latta lett lette court courte courts
    courtes bref brievement rapidement rapide lentement lent lente vitesse heure heures jour jours
    fois plusieurs immediatement completement avant apres pendant premiere premier premieres
    premiers prolonge prolongee longtemps breve brevi corto corta veloce velocemente lento lenta
    lentamente velocita minuto minuti ore giorno giorni volta volte subito immediatamente
    completamente prima dopo durante primo primi prime prolungato lungo poi infine quindi breves
    cortos rapido rapida rapidamente despacio velocidad minutos hora horas dia dias vez veces
    inmediatamente antes despues primer primera primeras primeros prolongado tiempo luego kort
    korte snel langzaam toerental toerentallen minuut uur dag dagen keer maal vaak direct
    onmiddellijk volledig voordat nadat tijdens daarna eerste eerst enkele kortstondig lang hurtig
    hurtigt langsom langsomt hastighed omdrejning minut minutter timer dage gange ofte helt inden
    efter under forste flere derefter raskt sakte hastighet omdreining minutt dager ganger etter
    deretter foran snabb snabbt langsamt minuter timme timmar dagar genast fore forsta flera
    darefter kortvarig kortvarigt varvtal varvtalet
    """
)


_COLOUR = (
    worded(
        """
        colour colours color colors coloured colored shades tones bright vivid similar like same
        alone together whites hues dye dyes run farbe farben farbig farbige farbigen farbiges
        farbtone wascheteile gemeinsam zusammen allein einzeln extra farbstoff farbstoffe
        uberschussige farbecht couleur couleurs teinte teintes coloris seul seule ensemble separee
        separees separes meme memes teinture surplus colori tinta tinte solo soli insieme separati
        separata separate simile simili analoghi vivaci colores tono tonos aparte junto juntos
        separadas separados separada mismo misma mismos similares parecidos parecidas vivos kleur
        kleuren gekleurd gekleurde tinten alleen samen afzonderlijk gelijke gelijksoortige
        soortgelijke dezelfde zelfde felle farve farver farvede farvet alene sammen saerskilt
        seperat separat samme ens kulorte kulort overskudsfarve farge farger fargede farget
        liknende farg fargen fargade fargat ensam ensamt tillsammans liknande lika samma likadana
        kulorta separerat
        """
    )
    | formed("dunkel dunkl bunt kraftig ahnlich intensiv leuchtend", GERMAN)
    | formed("fonce vif clair similaire semblable separe", FRENCH)
    | formed("scur intens", ITALIAN)
    | formed("oscur clar intens", SPANISH)
    | formed("donker licht fel", DUTCH)
    | formed("mork lys ljus kraftig staerk sterk stark", NORSE)
)

_PLACE = worded(
    """
    radiator radiators heater heaters heating fire stove source sources room fresh open airy
    outside outdoors indoors heizung heizungen heizkorper heizkorpern ofen kamin warmequelle
    warmequellen hitzequelle hitzequellen warme warmer frische frischer freien luftig luftige
    luftiger raum naturlich radiateur radiateurs chauffage poele cheminee air libre plein vif
    termosifone termosifoni radiatore radiatori calorifero stufa fonte fonti aperto libero pieno
    radiador radiadores estufa calefaccion fuente fuentes pleno verwarming verwarmingen radiatoren
    kachel warmtebron warmtebronnen hittebron buiten buitenlucht buurt volle bereik radiatorer
    varmekilde varmekilder ovn ovnen frisk luft fri udendors varmeapparat peis utendors panelovn
    element elementet varmekalla varmekallor utomhus spis
    """
)

_COUNTED = worded(
    """
    hoeveelheid hoeveelheden quantites cantidades quantita mengder mangder
    maengder
    threads thread warp faden fils ordito fili ordimbre hilos draad draden tradar trader trade
    bestelnr bestelnummer bestellnr bestellnummer artikelnr artikelnummer
    """
)

_DEMANDED = worded(
    """
    near nahe vicino cerca nara down standard standaard hoort horen houd thuis hemma hor horer
    hjemme
    usuali usuels usuel usuelle usuelles habituales habituels habituelle comunes comuni correnti
    corrientes gebruikelijke gebruikelijk gangbare saedvanlige sedvanlige gangige gangigen common
    ordinary usual plain gewohnlich gewohnliche gewohnlicher gewohnliches gewohnlichen ublich
    ubliche
    ublicher ubliches ublichen ordinaire ordinaires habituel habituelle ordinario ordinaria solito
    consueto corriente habitual gewoon gewone vanlig vanligt vanlige vanliga ordinar ordinart
    ordinaer
    ordinaert almindelig almindeligt almindelige saedvanlig saedvanligt
    wants want likes like loves prefers requires goes come comes kept keeping held unbedingt auch
    streng strengstens strictly absolutely absolut ausdrucklich bevorzugt wunscht kommt
    kommen gehort gehoren gehe geht halten halt gehalten absolument strictement egalement aussi
    veut veulent prefere preferent aime aiment demande exige tenir tenez tenu garder gardez
    aller ailles absolutamente assolutamente rigorosamente anche vuole vogliono preferisce
    preferiscono richiede gradisce ama tenere tenete tenga tenuto andare vanno dall dell nell sull
    all coll tambien estrictamente prefiere prefieren quiere quieren requiere gusta mantener
    mantenga mantengase mantenerse mantenerlo ir van absoluut ook beslist wil houdt wenst
    vraagt verkiest houden gehouden gaan gaat helemaal alls absolut ocksa bra vill foredrar onskar
    halls hallas lamnas lamnat lamnar leveres levert ogsa vil foretrekker onsker holdes hold
    foretraekker afleveres mich mig meg mij moi mir ihm mod vom
    """
)

_ASKING = worded(
    """
    zeer lado lato
    grazie gracias danke dank bedankt takk tack tak alstublieft stellen gestellt blijf
    apoyado apoyada apoyar appoggiato appoggiata appuye remis remise presses pressas pressar
    because seg sig since weil car puisque perche poiche porque ya omdat want fordi eftersom
    derfor soapy jabonosa jabonoso saponosa seifig meterse metersela komme kommer kommen friluft
    luften lufta friluften frei libera untreated runs run below
       unterhalb dessous sotto inferior debajo onder beneden effet mode modes type
    types vive vives aconsejable aconsejables introducir introduzca introduire inserire einlegen
    roce filzfrei filzarm ausgerustet ausrustung antifeutrant irretrecissable krympfri krimpvrij
    strykfri strygefri strykefri strijkvrij schranktrocken dezelfde ben expose exposed exposing
    exposure aussetzen ausgesetzt exposer exposez esporre esponete esposto exponer exponga
    expuesto expuesta blootstellen blootgesteld udsaettes udsaette utsettes utsette utsattas
    utsatt utsatta kindly thank thanks love enjoy treat treated treating special specially extra
    super superb follow following see instructions directions advice tip tips guide guidelines
    notes information make sure ensure suggest suggested suggests advise advised advises prefer
    preferred better its our they them their need needs ensuring so such rather quite little lots
    plenty same ready regular everyday happy lovely sollten mochten empfiehlt empfehlung
    empfehlungen raten ratsam hinweis hinweise pflegehinweise waschhinweis waschhinweise beachten
    achten achtung vorsicht ihr ihre ihren ihrem ihrer ihres dieser diese diesem diesen unser
    unsere wird wurde wurden es man damit dabei dazu sowie jedoch etwas wenig eventuell
    gegebenenfalls spezielles spezielle speziellen geben geht lieber ublichen ublicher ublichem
    alle allen aller allem pflegen pflegetipp tipp tipps conseiller conseillons conseillee
    conseillees recommandee recommandees recommandes recommandation attention veillez veiller nos
    notre vos ce cet ces cette etant doit doivent faut afin suivre suivez consulter tout tous
    toute toutes speciale speciaux speciales quelques quelque si comme ainsi puis ensuite enfin
    donc sous usage soin soins merci simple consigliamo consigliano raccomanda raccomandato
    raccomandata attenzione nostro nostri vostro questi queste essere deve devono dovete potete
    fate facendo fare seguire seguite tutto tutti tutta tutte speciali specifico specifica qualche
    qualsiasi come cosi semplice cura curare vanno meglio lasciate lasciatelo usate
    utilizzate mettete mettetelo aconsejamos aconseja recomienda recomendable recomendado
    recomendada atencion nuestro nuestra su sus estos estas ser deber debe deje dejelo dejela
    dejar deja haga hagalo seguir siga todo todos toda todas especial especiales especifico alguno
    como asi cualquier cuidar conviene utilice utilizando usando mejor hay que lo la adviseren
    adviseert advies aangeraden raden wij we ons onze uw zijn dit deze moet moeten laat laten zorg
    zorgen let attentie volg volgen alles speciaal specifiek enkele zoals zo dan verzorgen
    verzorging wordt worden gewoon gewone beetje weinig gebruikt bij anbefaler anbefalet bor boer
    vores jeres den det disse skal lad lade folg folges specielt specielle saerligt noget lidt som
    saa sa pleje plejes pa obs bedst gerne venligst anbefalt ber vare deres denne spesielt
    spesielle litt noe slik pleie pleies best gjerne vennligst husk rekommenderad rekommenderat
    var vara era dessa ska lat folj foljs alla speciellt speciella nagot lite sadan skot skots
    bast garna vanligen gor tank donner moelleux souplesse faerdige faerdigt ferdige arbejde
    fertige fertiges opvaskemiddel oppvaskmiddel diskmedel olieret
    """
)

REMARKS = (_WATER | _GARMENT | _LAID | _SHAPE | _TIME | _COLOUR | _PLACE | _COUNTED) | (
    _DEMANDED | _ASKING | PLACES | EACH | SHAPED | SUDS | worded("allo nello nella zich")
)
"""All words of remarks."""
