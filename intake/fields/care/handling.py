"""Words of handling that has no symbol, and of harm that a label warns of, in nine languages.

Wringing, soaking, spinning, softener, brightener: whether a label asks for it or forbids it, no
process hangs of it.  Common practice, no source; all are folded.
"""

from __future__ import annotations

import re

from intake.fields.care.forms import worded
from intake.fields.letters import listed

_PHRASES = worded(
    """
    blotlegg* blotlagg* blotlaeg* bloetlegg* bloetlaeg* iblodlaegn* schonschleud* schleuderg*
    schleuderdrehzahl* anschleuder* ausschleuder* geschleudert sentrifuger* centrifuger*
    centrifugera* iblodsaet* weichspul* skyllemiddel* skoljmedel* toymykner* mykgjor* blodgor*
    mjukmed* wasverzachter* aufheller* weissmacher* vitmedel witmakers witmaker bleichmittelfrei
    optisk optiskt optiska optisch optische optischen optischer optique optiques ottico ottici
    optico opticos optical brightener brighteners brightening azurant azurants azureur azureurs
    """
)
"""Words, and beginnings of words, for agents and for the machine's spinning."""

_HANDLING = (
    worded(
        """
        wring wringing wrung spin spinning rub rubbing rubbed scrub scrubbing twist twisting
        agitate agitating agitation soak soaking soaked softener softeners conditioner softening
        squeezing stretching creasing wringen auswringen gewrungen ausgewrungen wringt schleudern
        geschleudert schleudert schleuder ausschleudern einweichen eingeweicht einweicht weichen
        reiben gerieben reibt rubbeln gerubbelt weichspuler bursten knicken tordre tordez tordu
        tordue essorer essorez essore essoree essorage essorages tremper trempez trempe trempee
        trempage frotter frottez frotte frottement rincage adoucissant adoucissants assouplissant
        assouplissants torsade brosser torcere torcete strizzare strizzate strizzato strizzatura
        centrifugare centrifuga centrifugato centrifugazione centrifugate strofinare strofinate
        strofinato sfregare sfregate sfregamento ammorbidente ammorbidenti ammollo bagnare
        spazzolare retorcer retuerza retorciendo retorcido escurrido exprimir exprima exprimido
        estrujar estruje centrifugar centrifugado centrifugue remojo remojar remoje remojado
        frotar frote frotando suavizante suavizantes mojar restregar uitwringen gewrongen
        centrifugeren gecentrifugeerd weken geweekt wrijven gewreven wrijving uitgewrongen
        wasverzachter wasverzachters verzachter spoelen borstelen vrid vrides vride vridning
        gnides gnid gnide gnidning gnubbes gnub gnubbe skrubbes blodgoring bloedgoring
        skyllemiddel skyllemidler slynges slyngning vri vris vridd vriing gni gnis gnikke gnukkes
        gnukk gnuss sentrifugering toymykner toymykneren slynging vridas vrida vrids urvridning
        gnugga gnuggas gnuggning gnida gnidas skoljmedel mjukmedel blotlaggning slunga slungas
        centrifugering
        """
    )
    | _PHRASES
)

_WRUNG = worded(
    """
    auszuwringen auswinden auszuwinden auszuschleudern anzuschleudern tordant essorant
    strizzarlo strizzarla strizzarli strizzarle strizzando torcerlo torcerla torcerli torcerle
    torcendo centrifugarlo centrifugarla centrifugarli centrifugarle spremere spremerlo spremerla
    escurrirlo escurrirla escurrirlos exprimirlo exprimirla exprimirlos retorcerlo retorcerla
    retorcerlos torcer torcerlo torcerla centrifugarlos estrujarlo estrujarla uitpersen
    immerse immersed immersing submerge submerged eintauchen eingetaucht immerger immergere
    sumergir sumerja onderdompelen ondergedompeld
    uitgecentrifugeerd urvriden urvridet opvridning slynge slungning ursvangning
    """
)
"""Forms of what gets water out of wool by force."""

WRINGING = re.compile(
    r"(?:aus|aus(?:ge|zu)|an(?:ge|zu)|ge|uit|uitge|ur|op|ned|ver)?(?:wr[iu]ng|spin|twist|schleud|wind"
    r"|essor|tor[ds]|torc|retorc|strizz|[cs]entrifug|sprem|exprim|escurr|estruj|persen|vri|slyng"
    r"|slung)"
)
"""How words for it begin: what is hung up without it is hung up dripping."""

_SEVERAL = listed(
    "blanqueadores opticos; blanqueador optico; blanqueantes opticos; blanqueante optico;"
    " sbiancanti ottici; sbiancante ottico; agents azurants; agent azurant; candeggianti ottici;"
    " optical bleach; optical bleaches; optische bleichmittel; optische bleekmiddelen; optisk"
    " blekemiddel; optisk blegemiddel; optiska blekmedel; spin dry; spin dried; spin drying; with"
    " wool wash; little wool wash; fabric conditioner; fabric softener; half load; reduced load;"
    " halbe trommel; halbe fullung; halber fullung; demi charge; media carga; mezzo carico; halve"
    " lading; halv last; halv maskine; halv maskin; not superwash; dampfen erlaubt; i blod; i"
    " blot; en remojo; a bagno; in ammollo; in de week; laten weken; ligge i blod; legges i blot;"
    " ligga i blot; legges i blod"
)
"""What counts only together."""

OTHER = _HANDLING | _WRUNG | _SEVERAL
"""Care of no process."""

HARM = worded(
    """
    falla faller smitte smitter agitated felts felting shrink shrinks shrinking shrinkage bleed
    bleeds bleeding fade fades fading stretches filzt filzen verfilzt verfilzen verfilzung
    einlaufen eingelaufen schrumpft schrumpfen abfarben ausbluten blutet ausleiern feutre feutrent
    feutrer feutrage retrecit retrecir retrecissement deteint deteindre degorger degorge deforme
    deformer infeltrisce infeltrire infeltriscono infeltrimento restringe restringersi restringono
    stinge stingere scolorire scolorisce deforma deformarsi apelmaza apelmazar apelmazan afieltra
    afieltrar encoge encoger encogen encogimiento destine destenir destinen deformarse vervilt
    vervilten krimpt krimpen gekrompen afgeven verkleurt verkleuren uitrekken filter filtrer
    krymper krympe krympning krymping afsmitte farvesmitter tover tove toves roye royter filtar
    filtas filta krympa krymps
    """
)
"""What wool and its colour suffer, told of a washing that is none of those asked for."""

RUIN = worded(
    """
    ruin ruins ruined ruining damage damages damaged damaging destroy destroys destroyed spoil
    spoils spoilt spoiled harm harms harmed harmful hurts wreck wrecks
    enemy enemies feind feinde ennemi ennemie ennemis nemico nemica nemici enemigo enemiga enemigos
    vijand vijanden fiende fiender fienden fjende fjender hates hasst deteste detestent odia odiano
    odian haat haten hatar hater hader
    attacks kaputt kapot attaque attaquent attacca attaccano ataca atacan angriber angriper
    zerstort zerstoren ruiniert ruinieren schadet schaden schadigt schadigen beschadigt
    beschadigen verdirbt verderben schadlich
    abime abiment abimer abimerait abimeraient detruit detruisent detruire detruirait endommage
    endommagent endommager endommagerait nuit nuisent nuirait gate ruine ruinent nuisible
    rovina rovinano rovinare rovinerebbe rovinerebbero danneggia danneggiano danneggiare
    danneggerebbe distrugge distruggono distruggere guasta guastano nuoce nuocciono dannoso
    dannosa dannosi
    estropea estropean estropear estropearia estropeara dana danan danar danaria danara destruye
    destruyen destruir arruina arruinan arruinar perjudica perjudican perjudicar danino
    vernielt vernielen bederft bederven beschadigd schaadt ruineert ruineren verpest verknoeit
    schadelijk
    forstor forstora forstors skadar skada skadas skadligt skadlig fordarvar
    odelegger odelegge odelegges odelaegger odelaegge odelaegges skader skade skades skadelig
    skadeligt
    """
)
"""What the dryer or bleach does to yarn that a label warns of: it forbids them."""

HUNG_WET = listed(
    "hang wet; hang up wet; hang it wet; hang it up wet; hang while wet; hang up while wet;"
    " hang soaking wet; hang up soaking wet; hung wet; hung up wet; wet hanging;"
    " nass aufhangen; nass aufgehangt; nass hangend; klatschnass aufhangen;"
    " suspendre mouille; suspendu mouille; suspendue mouillee; suspendez mouille;"
    " suspendre encore mouille; accrocher mouille; suspendre trempe;"
    " appendere bagnato; appendere bagnata; appeso bagnato; appesa bagnata;"
    " appendere ancora bagnato; appendere da bagnato; stendere bagnato;"
    " colgar mojado; colgar mojada; colgado mojado; colgada mojada; colgar en mojado;"
    " colgar aun mojado; tender mojado; tender en mojado; tendido mojado;"
    " nat ophangen; nat opgehangen; nat hangend; kletsnat ophangen;"
    " hangs vat; hangs vata; hangas vat; hangas vata; hang vat; hangs upp vat; hangs upp vata;"
    " hang upp vat; hangs blot; hangs upp blot; hang upp blot;"
    " henges vat; henges vatt; heng vat; heng vatt; henges opp vat; henges opp vatt;"
    " heng opp vat; heng opp vatt;"
    " haenges vad; haenges vadt; haeng vad; haeng vadt; haenges op vad; haenges vad op;"
    " haenges vadt op; haeng vad op; haeng vadt op; hangs dyvat; haenges drypvad;"
    " haenges drypvadt"
)
"""How wool is said to be hung up with all its water: it drips."""

LAYING = worded(
    """
    lay laid laying place spread legen legt lege hinlegen leg leggen neerleggen laegges laeg
    laegge lagg laggs lagga legg legges legge poser posez poggiare adagiare adagiate extender
    extienda extendido coloque colocar stendere etaler etendre auslegen auflegen ausbreiten
    auszulegen uitleggen uitspreiden spreiden disporre disposto distendere distendete
    """
)
"""What is done with wet wool that is said to lie flat: it dries so."""

SUPPORTS = worded(
    """
    towel towels rack racks mat handtuch handtucher badetuch frotteetuch gitter unterlage
    serviette serviettes grille claie asciugamano asciugamani telo griglia toalla toallas rejilla
    handdoek handdoeken doek rek handduk handdukar handdukken underlag handkle handklaer handklede
    handklaede handklaeder stativ rist
    """
)
"""What wet wool is laid on to dry."""

ROLLING = re.compile(r"(?:ein|auf|op|in|en|ar)?(?:ge|zu)?r[ou]{1,2}l")
"""How words begin for rolling wool up in a towel, which does not dry it."""

GENTLY = worded(
    """
    gently carefully sanft behutsam vorsichtig zart delicatement doucement delicatamente
    dolcemente delicadamente suavemente cuidadosamente voorzichtig zachtjes forsigtigt naensomt
    skansomt lempeligt forsiktig forsiktigt varsomt varsamt skonsamt
    """
)
"""How wet wool is handled; none of them names a programme of the machine."""

STEAM = worded(
    """
    steam steaming steamed dampf dampfen gedampft dampft vapeur vaporiser vapore vapor
    vaporizar stoom stomend anga angas angning dampe dampes damp dampning
    """
)

CLEANERS = worded(
    """
    cleaner cleaners drycleaner reinigung teinturerie teinturier pressing pressings tintoria
    tintorie lavanderia tintoreria tintorerias lavanderias stomerij stomerijen renseri renseriet
    renserier kemtvatteri
    """
)
"""Firms that clean; what is taken to them is cleaned, though no other word says so."""
