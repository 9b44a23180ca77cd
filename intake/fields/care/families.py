"""Words of care in the forms that their languages give them, beside those of
:mod:`intake.fields.care.concepts`, by what they mean.

Common practice, no source; all are folded.
"""

from __future__ import annotations

from collections.abc import Mapping

from intake.fields.care.allowances import UNRESTRICTED
from intake.fields.care.forms import (
    FRENCH,
    GERMAN,
    ITALIAN,
    NORSE,
    SPANISH,
    formed,
    worded,
)
from intake.fields.care.handling import HARM, OTHER, RUIN, STEAM
from intake.fields.care.manners import (
    DRIPPING,
    GENTLE_TREATMENTS,
    MACHINE_PROOF,
    NOT_EITHER,
    REDUCED,
    SHADED,
    SUITING,
    WITHOUT_ANY,
)
from intake.fields.care.refusals import FREE_OF, FREE_OF_CHLORINE, LEFT_OUT, REFUSALS, UNSUITED
from intake.fields.letters import listed

HARDLY = worded(
    """
    barely hardly scarcely kaum peine guere appena apenas amper nauwelijks ternauwernood knappt
    knapt knap
    """
) | listed("sa vidt; natt och jamnt; nat og naeppe; just about")
"""What makes any heat a low one: "barely warm"."""

ILL = worded(
    """
    ill badly poorly mal male malamente slecht schlecht darligt darlig daligt dalig
    """
)
"""How yarn bears what is not good for it: "tolerates the dryer badly"."""

_CLEANERS_ASKED = [
    (cleaner, negation, verdict)
    for cleaners, negation, verdicts in (
        ("tintoreria", "no", "permitida admitida posible autorizada aceptada"),
        ("tintoria lavanderia", "non", "consentita ammessa possibile permessa"),
        ("teinturerie", "non", "autorisee possible permise acceptee"),
        ("pressing", "non", "autorise possible permis accepte"),
        ("stomerij", "niet", "toegestaan mogelijk"),
        ("renseri", "ikke", "mulig tillatt tilladt"),
        ("kemtvatteri", "ej", "tillaten mojlig"),
    )
    for cleaner in cleaners.split()
    for verdict in verdicts.split()
]
"""Firms that clean, what forbids in their language, and what allows."""

_CLEANERS_ALLOWED = frozenset(f"{cleaner} {verdict}" for cleaner, _, verdict in _CLEANERS_ASKED)
_CLEANERS_FORBIDDEN = frozenset(" ".join(words) for words in _CLEANERS_ASKED)

FAMILIES: Mapping[str, frozenset[str]] = {
    "not": listed(
        "nada de; niente di; er ikke; er ikkje; er forbudt; er uegnet; er uegnede; n'est pas; n'est"
        " plus; out of the question; uit den boze; niet tegen"
    )
    | worded(
        """
        cannot mustn shouldn meiden meide meidet gemieden avoided avoiding avoids inadvisable
        unadvised vermieden vermeidet vermeide evites evitee evitees deconseillee deconseilles
        deconseillees evitate evita evitato evitarsi sconsigliata sconsigliati sconsigliate
        vietate esclusi escluse evitese eviten evitando desaconseja desaconsejada desaconsejan
        prohibidos prohibidas vermeden vermijdt afgeraden ontraden undvikas undviks undgas unngas
        frarades frarade frarad avrades avrads undlades forbjuden forbjudna forbudte forbudne
        forbydes forbjuds uitgesloten udelukket utelukket utesluten uteslutet uteslutna excluded
        excludes abgeraten bannir banni bannie bannis tabu tabou taboe
        """
    )
    | REFUSALS
    | UNSUITED
    | formed("verboten untersagt ungeeignet unzulassig", GERMAN)
    | formed("interdit exclu proscrit", FRENCH)
    | formed("ausgeschlossen", GERMAN)
    | formed("excluid", SPANISH)
    | {"af te raden", "do not recommend", "wird abgeraten"}
    | LEFT_OUT
    | NOT_EITHER,
    "allow": worded(
        """
        takes withstands aguanta aguantan resiste resisten regge reggono tar
        verdraagt verdragen bears tolerates suits zugelassen vertragen ertragt tolerent tolerer
        supportent autorisez sopporta sopportano tollera soporta soportan tolera admiten kunt tals
        talar tolererer tillate tilladte egnede lampligt egnet egnat
        """
    )
    | formed("geeignet erlaubt gestattet zulassig moglich", GERMAN)
    | formed("permis admis", FRENCH)
    | formed("consentit ammess permess adatt autorizzat tollerat", ITALIAN)
    | formed("permitid apt adecuad autorizad tolerad", SPANISH)
    | {"ma gerne", "ma gjerne", "far garna", "kan tegen", "bestand tegen", "goed tegen"}
    | listed(
        "without problem; without problems; without any problem; without any problems;"
        " ohne problem; ohne probleme; problemlos; sans probleme; sans problemes; senza problemi;"
        " senza problema; senza alcun problema; sin problema; sin problemas; zonder problemen;"
        " zonder probleem; utan problem; uden problem; uden problemer; uten problem;"
        " uten problemer; gar fint; gar bra; gar godt; gar utmarkt; gar an; er tilladt;"
        " er tilladte; er tillatt;"
        " er mulig; er muligt"
    )
    | worded(
        """
        toegelaten getolereerd godkendt godkjent godkant accepted acceptable approved tolerated
        resistente resistenti resistant resistants resistente possibles autorisables tollerabile
        possibili posibles accettabile accettabili ammissibile
        aceptable aceptables admisible geaccepteerd aanvaard aanvaardbaar toelaatbaar geoorloofd
        tillatna medges medgives
        accepteras accepteres aksepteres acceptabelt akseptabelt akseptert tales
        tolereres tolereret akzeptiert vertraglich
        """
    )
    | formed("accept", "e es ee ees")
    | formed("accettat", ITALIAN)
    | formed("aceptad admitid", SPANISH)
    | UNRESTRICTED
    | SUITING,
    "without": FREE_OF | WITHOUT_ANY,
    "oxygen": FREE_OF_CHLORINE,
    "above": worded("hotter"),
    "low wash": worded("kaltwasch*"),
    "dry shade": worded("schattentrock* skyggetork* skuggtork* skyggetorr*"),
    "hand": worded(
        """
        hendene haenderne handerna
        manuell manuelle manually manual manuel manuellement manualmente handmatig
        """
    ),
    "hand wash": worded("handwasch* handtvatt* handvask* handwash*")
    | listed(
        "von hand durchdrucken; mit der hand durchdrucken; per hand durchdrucken; lessive a la main"
    ),
    "machine": worded("maquinas macchine waschautomat wascheautomat"),
    "machine wash": MACHINE_PROOF
    | worded(
        """
        kochwasch* kochfest heisswasch* maschinenwasch* kogevask* kokvask* koktvatt* kookwas*
        waschautomaten
        """
    ),
    "wash": worded(
        """
        durchwaschen durchgewaschen durchspulen durchgespult
        launders laundering laundry waschbare waschbares waschgange
        gewaschene auswaschen wascht
        wasch lavees laves lavee lavages lavarsi lavarli lavatura lavature lavati lavarla
        laven lavan lavadas lavados lavable lavables lavese lavarlos lavela lavarse bucato colada
        coladas uitwassen wast wasbeurten wassing afwassen tvattar tvattat tvattning tvattningen
        vasker vaskede vaskbart vaskbare vasking vaskingen vasken tvatten
        """
    )
    | listed(
        "rinse through; rinsed through;"
        " trattamento in acqua; tratamiento en agua; traitement a l'eau; treatment in water;"
        " water treatment; behandling i vann; behandling i vand; wasserbehandlung"
    ),
    "medium wash": listed("warmer wasche; warme wasche; varm vask; varm tvatt; warm wassen"),
    "wool": worded("lainages wollsachen wollenes ulla ullen ulden"),
    "wool program": listed(
        "lavaggio lana; lavado lana; lavado de lana; lavado para lana; lavage laine; lavage"
        " lainages; wool wash; woolwash; machine laine; lavatrice lana; lana programma; wollwasch"
        " programm; wollwaschprogramme; wolle programm; ull program; uld program; wol programma;"
        " cycle lainages; programme lainages; programma lavaggio lana; on the wool; im"
        " wollprogramm; im wollwaschgang; position laine; position lainages; posizione lana;"
        " posicion lana; posicion de lana; lage ull; innstilling ull; installning ull;"
        " indstilling uld; setting wool; einstellung wolle; stufe wolle; instelling wol"
    ),
    "hand program": listed(
        "handwasche programm; handwasche program; handwasche waschgang; handwaschprogramm; hand"
        " washing cycle; programme lavage main; programme lavage a la main; programme main; cycle"
        " main; programma lavaggio a mano; ciclo lavaggio a mano; programma a mano; programa"
        " lavado a mano; programa de lavado a mano; ciclo lavado a mano; programa a mano; ciclo a"
        " mano"
    ),
    "mild": formed("mild", GERMAN)
    | worded("fragile fragiles tenderly")
    | formed("fein zart sanft behutsam", GERMAN)
    | formed("delicat", FRENCH)
    | formed("delicat", ITALIAN)
    | formed("delicad suav", SPANISH)
    | formed("suav", "e es")
    | formed("skansom skonsam skane skon varsom varsam nansom", NORSE),
    "mild program": GENTLE_TREATMENTS
    | worded("pflegeleicht* schonwasche feinwaschprogramme")
    | listed(
        "reduced mechanical action; action mecanique reduite; azione meccanica ridotta; accion"
        " mecanica reducida; verminderte mechanik; reduzierte mechanik; verminderter mechanik;"
        " reduzierter mechanik; beperkte mechanische werking; permanent press; perm press; easy"
        " care cycle; pflegeleicht programm; programme fragile; programme synthetique"
    ),
    "bleach": worded(
        """
        chlorbar chlorable clorabile bleachable bleaches bleichung bleichende bleichend chlorung
        chlorhaltige chlorhaltig
        chlorhaltigen blekningen blekingen blegningen
        javelliser chlorage chloree chlorees blanchissants javellisation
        candeggiante candeggianti sbianca blanqueador blanqueadores clorado chloorhoudende bleekt
        bleekproducten bleekwater chloorhoudend blekemid* blegemid* blekmed* klorblekning
        klorbleking klorbleg* bleks blanquee bleichzusatz* bleicht chloreren klorholdige klorholdigt
        klorhaltig klorhaltigt
        """
    ),
    "tumble": worded(
        """
        getrommelt trommeln getumblert trommeltrocknen tumbledry tumbledried tumbledryer tumblers
        tumblere tromletorr* trommeltork* trumtork* maskintork* maskintorr* trommeldrog*
        machinedrog* droogmachine torktrommel torktumla* torketumbl* torketum* tumlas tumler tumles
        secarropa secarropas tumbles tumblas asciugatrici
        """
    ),
    "dry": worded(
        """
        trocknest trocknend trockne secherez sechee sechees seches asciugabile asciugabili
        asciugarsi asciugati asciugata asciugare asciughi seca secarlo secarla sequelo secan
        secando droogt drogend gedroogde torkar torkad torkat torkades torker torket torrer torret
        torrede lufttork* lufttorr* luchtdrog* lufttrock* luftgetrock*
        """
    ),
    "flat": worded(
        """
        flache flacher flaches flachen horizontale horizontales horizontaux orizzontali horizontal
        planas planos piani piane distese utbredt utbrede utstrakt platte flate flata fladt
        flatliggende planliggande planliggende flachliegend flachliegende liegender extendidos
        sdraiato uitgespreid utbredda horisontal horisontalt horizontaal vannrett vandret
        """
    )
    | listed(
        "udbredt; utbrett; bredt ud; bredt ut; brett ut; breitet aus; i liggende stilling; flat"
        " surface; surface plane; superficie piana; superficie plana; ebene flache; ebenen"
        " flache; ebener flache; flache unterlage; flachen unterlage"
    ),
    "hang": worded(
        """
        suspendez suspendues appesi appese appendete appendi appenderlo colgarlo colgados cuelgue
        accrocher accroche accrochee accroches accrochees accrochez sospeso sospesa sospesi sospese
        suspendido suspendida suspendidos gehangt hangt opgehangen hengt hengte hengende hangs hangd
        hangda upphangda waslijnen
        aufzuhangen colgarla appenderla suspendant torkelina torkline torresnoren torkesnora
        wascheleinen trockengestell wascheschnur waschespinne etendoir snoren
        """
    )
    | {"en suspension", "in sospensione", "op te hangen"},
    "spread": worded(
        """
        etaler etalez etale etales etalee etalees etendu etendue etendus etendues etendez stendete
        stendi stesi stese tenderlo tendida extiendalo
        tiende tiendase tiendelo
        """
    ),
    "drip": DRIPPING
    | worded("grondante grondanti grondare sgocciolare goccia goteando escurriendo"),
    "shade": worded(
        """
        schatten schattenseite skuggsidan skuggsida skyggesiden skyggeside schaduwzijde
        schaduwkant shady shaded beschattet ombrage ombragee ombreggiato sombreado schaduwrijk
        """
    )
    | SHADED
    | listed("cote ombre; du cote ombre; cote de l'ombre; du cote de l'ombre; lato in ombra"),
    "sun": worded(
        """
        solare solari solaire solaires sonnenlichts soles zonnestralen solstraler
        """
    )
    | listed(
        "sun light; direct light; direktes licht; rayons du soleil; raggi solari; raggi del"
        " sole; luce solare; rayos solares; rayos del sol; luz solar; luz del sol; lumiere du"
        " soleil; direkt solsken"
    ),
    "far": worded(
        """
        distance eloigne eloignes eloigner ecart ferngehalten fernhalten fernzuhalten lontani
        lontana
        allontanare alejado alejada alejar weghouden weggehouden vekke bort
        """
    )
    | {"buiten bereik", "a distance"},
    "away": worded(
        """
        hors geschutzte schutze schutzt protect protects proteger protege protegez protegee
        protegida
        proteja proteggere proteggete proteggi beschermen bescherm skyddad skyddade skyddas skydda
        skjermes skjerm beskyttes beskytt beskytte beskyt
        """
    ),
    "iron": worded(
        """
        jarn jarnet jern jernet ijzer eisen
        ironable bugle bugelt bugelfahig gebugelte repasses repassees repasser repassables stirate
        stirabili stirarlo stirati stirata planchas planchelo planchable planchar planchados
        gestreken strijkt strijkbare strykjarnet strykejernet strygejernet stryker stryger
        strykbart strygbar uberbugeln uberbugelt strykvarme strykevarme strygevarme bugelhitze
        bugelwarme strijkwarmte
        """
    ),
    "high": formed("heiss", GERMAN)
    | formed("hoh", "e er em en es")
    | worded("caldi calde calientes hogvarme hoyvarme hojvarme")
    | listed(
        "meget varmt; svaert varmt; mycket varmt; veldig varmt; meget varm; svaert varm; mycket"
        " varm"
    )
    | listed("warmem wasser; warmes wasser; varmt vann; varmt vand; varmt vatten; warm water"),
    "hot-or-warm": worded("varm varmt"),
    "medium": formed("massig mittler mittel", GERMAN)
    | formed("moyen modere", FRENCH)
    | formed("moderat", ITALIAN)
    | formed("moderad templad", SPANISH)
    | listed(
        "chaud sans exces; caldo senza eccesso; caliente sin exceso;"
        " matig heet; matig hete; matig warm; middelmatig warm; middelmatig heet;"
        " moyennement chaud;"
        " moyennement chaude; moderement chaud; moderement chaude; mediamente caldo;"
        " mediamente calda; moderatamente caldo; moderatamente calda; medianamente caliente;"
        " moderadamente caliente; mattligt varmt; mattligt varm; moderat varm; moderat varmt"
    )
    | worded("medie medi medias medios middelmatig gemiddeld"),
    "low": REDUCED
    | worded(
        """
        kald kalde kold kolde kall kalla koude freddo freddi fredde froids froides frias frios
        """
    )
    | formed("lau lauwarm kuhl kalt niedrig schwach gering", GERMAN)
    | formed("faible reduit tiede", FRENCH)
    | formed("tiepid bass ridott", ITALIAN)
    | formed("tibi baj reducid", SPANISH)
    | formed("ljum", "- t ma men met")
    | worded(
        """
        lowest coolest kuhlste kuhlster kuhlsten minimal minima minimo niedrigste niedrigster
        niedrigsten laagste laveste lagsta fingervarm fingervarmt fingervarme
        kleinster kleinste handlauw lunkne ljumma svalt koele lauwwarme handwarme handwarm
        handwarmes handwarmer handvarmt handvarm handvarme svak svakt svake svagt svaga svage
        lagvarme lagtemperatur lavvarme lavtemperatur niedertemperatur svagvarme
        """
    )
    | listed(
        "air tempere; air tiede; aria tiepida; aire templado;"
        " lower temperature; niedrigere temperatur; niedrigerer temperatur;"
        " temperature plus basse; plus basse temperature; temperatura piu bassa;"
        " temperatura mas baja; lagere temperatuur; lagre temperatur; lagre varme;"
        " lavere temperatur; lavere varme"
    )
    | listed(
        "leicht warm; leicht erwarmt; slightly warm; lightly warm; legerement chaud; legerement"
        " tiede; leggermente caldo; leggermente tiepido; ligeramente caliente; ligeramente"
        " templada; ligeramente tibia; licht warm; latt varmt; lett varmt; let varmt"
    ),
    "low mild": listed(
        "temperatura suave; temperature douce; douce temperature; temperatura delicata;"
        " temperatura delicada; temperatura dolce; temperatura lieve; sanfte temperatur;"
        " sanfter temperatur; schonende temperatur; schonender temperatur; milde temperatur;"
        " milder temperatur; zachte temperatuur; milde temperatuur; skansom temperatur;"
        " skonsam temperatur; mild temperatur; mild temperature; gentle temperature;"
        " soft temperature"
    ),
    "program": worded("syklus cyklus vaskesyklus vaskecyklus tvattcykel"),
    "clean allow": _CLEANERS_ALLOWED,
    "clean not": _CLEANERS_FORBIDDEN,
    "clean": listed(
        "a un pressing; a un teinturier; au teinturier; to the cleaner; to the cleaners;"
        " solvent cleaning; solvent clean;"
        " solvent cleaned; by solvent"
    )
    | worded(
        """
        losungsmittel losungsmitteln solvant solvants solvente solventi disolvente disolventes
        kemrengor* trockenreinig* trockengereinigt oplosmiddel oplosmiddelen oplosningsmiddel
        oplosningsmidler losemiddel losemidler
        losningsmidler losningsmedel lavasecco pressings teinturier teinturerie fachreinigung
        textilreinigung chemischreinigung reinigungen kemtvatt kemikalisk renseriet stomerij
        stomerijen gestoomde
        """
    ),
    "other": OTHER,
    "harm": HARM,
    "ruin": RUIN,
    "hardly": HARDLY,
    "ill": ILL,
    "steam": STEAM,
    "steamed iron": worded("dampfbugel* stoomstrijk* angstryk* dampstryk* dampstryg*"),
}
"""Meaning, or several, to the words and beginnings of words that have it."""
