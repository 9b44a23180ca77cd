"""Words of care by what they mean, in nine languages: what care sentences are made of.

Tags word care in more ways than any list of phrases has, but with few words.  All are
folded; ``*`` stands for any ending, and words parted by a space or a hyphen count only
together.  A key of several meanings is a compound word.  Common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from intake.fields.care.equipment import ADDING, COURSES, EQUIPMENT
from intake.fields.care.families import FAMILIES
from intake.fields.care.handling import HUNG_WET
from intake.fields.care.manners import WITHOUT_CHLORINE
from intake.fields.care.neutral import NEUTRAL
from intake.fields.care.phrases import HARMLESS
from intake.fields.care.remarks import REMARKS
from intake.fields.care.spoken import SPOKEN
from intake.fields.letters import listed

MEANINGS: Mapping[str, str] = {
    "not": "nichts; ingenting; rien; niets; nulla;"
    " not; no; don't; dont; never; avoid; unsuitable; forbidden; prohibited; nor; neither;"
    " nicht; kein; keine; keinen; keiner; nie; niemals; verboten; vermeiden; ungeeignet;"
    " untersagt; ne; pas; jamais; aucun; aucune; interdit; interdite; exclu; exclue; exclus;"
    " eviter; evitez; proscrire; proscrit; deconseille; ni; non; mai; niente; nessun; nessuna;"
    " evitare; vietato; vietata; vietati; escluso; esclusa; sconsigliato; nunca; jamas; ningun;"
    " ninguna; prohibido; prohibida; evitar; evite; desaconsejado; niet; geen; nooit; vermijd;"
    " vermijden; verboden; ongeschikt; ej; inte; aldrig; inga; inget; ingen; undvik; forbjudet;"
    " ikke; aldri; intet; unnga; undga; forbudt; icke; keep out; keep away; keep off; hold unna;"
    " hold vaek; undlad; la vaere; divieto; divieti; nein; nee; craint; craignent; interdits;"
    " interdites; nej; nei; weder; hverken; verken;"
    " varken",
    "without": "without; ohne; sans; senza; sin; zonder; utan; uten; uden",
    "allow": "can; may; yes; ja; oui; tolere; toleree; autorises; autorisees; could; suitable;"
    " safe; allowed; permitted; possible; ok; okay; fine; darf;"
    " durfen; kann; konnen; geeignet; moglich; erlaubt; gestattet; zulassig; vertragt; peut;"
    " peuvent; autorise; autorisee; permis; passe; va; convient; admis; admise; supporte; puo;"
    " possono; consentito; consentita; ammesso; ammessa; possibile; adatto; permesso; puede;"
    " pueden; apto; apta; permitido; permitida; posible; admite; se puede; mag; mogen; geschikt;"
    " toegestaan; mogelijk; kan; kunnen; far; tal; taler; tale; tillatet; tillatt; tilladt;"
    " tillaten;"
    " tolereras; mulig; mojlig; egnet; egnad; lampad; lamplig; gar; tillates",
    "hand": "hand; hands; hande; handen; main; mains; mano; mani; manos; handa; hender; haender",
    "hand wash": "handwash*; handwasch*; handwas; handwassen; handtvatt*; handvask*",
    "machine": "machine; machines; maschine; maschinell; lavatrice; lavadora; maquina; maskin;"
    " maskine; maskinen; machinaal; macchina; lave linge; lavabiancheria; automaat;"
    " lavarropas; lavarropa; lavaropas; wasautomaat; waschautomat; waschautomaten;"
    " laveuse; machine a laver; machine a laver le linge",
    "machine wash": "maschinenwasch*; machinewas*; maskintvatt*; maskinvask*; waschmaschine*;"
    " wasmachine*; vaskemaskin*; tvattmaskin*; waschmaschinen*; maschinenfest; buntwasche;"
    " buntwaschgang; normalwaschgang; kulortvatt; kulortvask; bontewas; bonte was;"
    " boil wash; boilwash;"
    " hvitvask; kvitvask; vittvatt; hvidvask; witte was",
    "wash": "waschtemperatur; wastemperatuur; tvattemperatur; vasketemperatur; wash; washed;"
    " washes; washing; washable; launder; laundered; laundry; waschen;"
    " wasche; waschbar; gewaschen; wascht; laver; lavage; lavable; lavables; lavez; lave; lavare;"
    " lava; lavi; lavatelo; lavaggio; lavabile; lavabili; lavato; lavata; lavate; lavar; lavado;"
    " lavada; lavese; lavelo; wassen; was; wasbaar; gewassen; wasbeurt; tvatt; tvatta; tvattas;"
    " tvattbar; tvattning; lavarse; lavarlo; lavarsi; tvattade; tvattad; vattentvatt*; vask;"
    " vaske; vaskes; vaskbar; vasket; vaskning",
    "wool": "wool; woollen; wolle; laine; lainages; lana; wol; ull; uld; silk; seide; soie; seta;"
    " seda",
    "program": "cycle; cycles; program; programs; programme; programmes; setting; programm;"
    " waschgang; gang; programma; programmi; ciclo; ciclos; programa; programas; stand;"
    " wasprogramma; tvattprogram; vaskeprogram; koksprogram",
    "machine program": "maschinengang; maschinenprogramm; maskinprogram; maskinprogrammet;"
    " machineprogramma",
    "wool program": "wolstand; wolleinstellung; ullinnstilling; ullinstallning;"
    " uldindstilling; on wool; auf wolle; op wol; sur laine; su lana; wollwasch*; wollprogramm;"
    " wollgang; wolwas*; wolprogramma; ulltvatt*;"
    " ullprogram*; ullvask*; uldvask*; uldprogram*; ylletvatt*; ylleprogram*",
    "hand program": "handwaschprogramm; handwaschgang; handwasprogramma; handtvattprogram;"
    " handvaskprogram; handvaskeprogram; handwas programma; hand wash cycle; hand wash program;"
    " hand wash programme",
    "mild": "schonstufe; gentle process; gentle treatment; gentle action; mild process;"
    " mild treatment; reduced action; schonender prozess; schonende behandlung; traitement modere;"
    " traitement tres modere; action reduite; azione ridotta; trattamento delicato;"
    " accion reducida; proceso moderado; proceso suave; tratamiento suave; mild behandling;"
    " skonsam behandling; skansom behandling; gentle; gently; delicate; delicately; delicates;"
    " mild; mildly; soft; schonend;"
    " schonendem; schonende; sanft; behutsam; vorsichtig; delicat; delicatement; delicats;"
    " delicata; doux; douce; doucement; delicato; delicatamente; delicati; delicado; delicada;"
    " suave; suavemente; con cuidado; cuidadosamente; con precaucion; con cautela; voorzichtig;"
    " zacht; zachte; zachtjes; fijn;"
    " fijne; skonsam; skonsamt; varsam; varsamt; forsiktig; forsiktigt; skansom; skansomt; varsom;"
    " delicatezza; suavidad; delicadeza; douceur; rustig; rustige; forsiktighet; varsomhet;"
    " varsomt; forsigtig; forsigtigt; naensom; naensomt; nensomt; lempelig*; omtanke; fin; kind;"
    " carefully; with care; with great care; with extra care",
    "mild program": "schonwasch*; schongang; schonprogramm; feinwaschgang;"
    " feinwaschprogramm; fijnwasprogramma; fintvattprogram; finvaskeprogram; skaneprogram;"
    " skanevask*; skontvatt*; skontvattprogram",
    "mild wash": "feinwasche; fijnwas; fintvatt; finvask; skanevask; skontvatt; finvaskes;"
    " fintvattas; schonwasche",
    "bleach": "chlorbleiche; bleach; bleaching; chloren; chlorieren; chloration; clorazione;"
    " bleached; bleaches; chlorine; chlor; bleichen; bleiche;"
    " bleichmittel*; gebleicht; bleichbar; blanchir; blanchiment; blanchissant; chlore; chlorer;"
    " javel; javellis*; candegg*; varechina; blanchiments; varichina; cloro; clorare; clorar;"
    " lejia; blanquea*;"
    " blanqueo; bleken; bleek; bleekmiddel*; bleking; gebleekt; chloor; chloorbleek*; blekas;"
    " blekes; bleka; bleke; blekmedel; blekning; blekemiddel*; klor; klorin; klorblek*; bleges;"
    " blege; blegning; blegemiddel*; klorblegning; sbiancare; sbiancante; sbiancanti; hypochlorit*",
    "oxygen": "oxygen; oxygene; oxygenes; sauerstoff; sauerstoffbleiche; ossigeno; oxigeno;"
    " oxigenado; zuurstof; syre; oksygen; ilt; non chlorine; non chlorinated; chlorine free;"
    " chlorfrei; chlorfreie; sans chlore; senza cloro; sin cloro; chloorvrij; klorfri; klorfritt;"
    " zuurstofbleek*; sauerstoffbleich*; syreblekmed*; oksygenblek*; iltbleg*; oksygenbas*;"
    " oksygenhold*; iltholdig*; iltbaser*; sauerstoffhaltig*; syrehaltig*;"
    " zuurstofhoudend*; ossigenato; ossigenati; ossigenata; oxigenada; oxigenados; oxigenadas;"
    " oxygenee; oxygenees; syrebaserat; sauerstoffbasis; syrebasert; iltblegemiddel;"
    " oksygenblekemiddel;"
    " syrebleking; syreblekmedel",
    "tumble": "trocknertemperatur; tumble; tumbling; tumbles; tumbler; tumblern; tumbled; dryer;"
    " dryers; drier;"
    " trockner;"
    " trockners; waschetrockner*; trockner geeignet; trocknergeeignet; trocknerfest;"
    " maschinentrock*; trommel; tumblertrock*; trommeltrock*; seche linge; sechoir; sechoirs;"
    " tambour; asciugatrice; asciugabiancheria; tamburo; secadora; secadoras; tambor; droger;"
    " drogers; wasdroger; droogtrommel; droogautomaat; droogkast; torktuml*; torktrumm*; tumla;"
    " tromling; tumlare; culbutage; culbuter; secheuse; secheuses;"
    " torketrom*; torretuml*; torretumbl*; torretroml*; tumletork*",
    "dry": "dry; drying; dried; dries; trocknen; trocken; trocknung; getrocknet; trocknet; secher;"
    " sechage; seche; sechez; sec; asciugare; asciugatura; asciuga; asciugate; asciugato; secar;"
    " secado; seque; secarse; sequese; sequelo; drogen; droog; gedroogd; droging; torka; torkas;"
    " torkning; tork; torkes; torke; torking; torres; torre; torring; tor; tort; toerres; torrt;"
    " fino ad asciutto;"
    " finche asciutto; finche e asciutto; hasta que este seco; hasta que seque; bis es trocken ist;"
    " jusqu'au sechage; jusqu'a sechage; jusqu'au sechage complet",
    "flat": "auf handtuch; auf einem handtuch; auf ein handtuch; op een doek; sur serviette;"
    " estirado; estirada; ausgelegt; spread; spread out; flat; flach; flachem; liegend; liegen;"
    " plat; piatto;"
    " piatta; piano; plano;"
    " plana;"
    " orizzontale; orizzontalmente; horizontal; horizontalement; horizontalmente; disteso;"
    " distesa; distesi; extendido; extendida; liggend; liggende; liggande; vlak; vlakke; plant;"
    " plan; flatt; fladt; flade; lying; laying; ausgebreitet; ausbreiten; utbredd; tumbado;"
    " acostado; neergelegd; waagerecht; waagrecht; laid out; on a towel; auf einem tuch;"
    " op een handdoek; sur une serviette; su un asciugamano; sobre una toalla; pa et handkle;"
    " pa et handklaede; pa en handduk; su un telo; bred ud; bred ut; bre ut",
    "dry flat": "plantork*; flattork*; liggetork*; liggetorr*; fladtorr*; plantorr*; flachtrock*;"
    " liegendtrock*",
    "hang": "peg out; pegged out; tvattlina; tvattlinan; hang; hanging; hung; hangs; line;"
    " clothesline; washing line; leine; wascheleine;"
    " aufhangen; aufgehangt; hangend; hangen; sur fil; sur un fil; sur le fil; sur corde;"
    " suspendu; suspendue; suspendre; suspendus; cintre; appeso; appesa;"
    " appendere; sul filo; tendedero; colgado; colgada;"
    " colgar; cuerda; percha; lijn; waslijn; droogrek; uithangen; uitgehangen; ophangen;"
    " ophangend; opgehangen; upphangd;"
    " hanga; hangande; hangas; streck; torkstreck; kladstreck; torkstallning; klessnor;"
    " klessnora; torrestativ; al filo; su filo; su un filo; corde a linge; fil a linge;"
    " sur corde a linge; sur une corde a linge; sur la corde a linge; sur fil a linge;"
    " sur un fil a linge; stendino; stendibiancheria; lina; torklina; torkestativ; henge; henges;"
    " hengende; heng;"
    " torkesnor; snor; snora; haenge; haenges; haengende; haeng; torresnor; bugel",
    "spread": "steso; stesa; stendere; tender; tendido; etendre; etendage",
    "heat": "at or below; or below; or cooler",
    "dry hang": "hangtork*; hengetork*; haengetorr*; hengetorr*; hangetorr*; leinentrock*;"
    " hangetrock*; hangendtrock*; lijndrog*; lijndroog*; hangdrog*; hangdroog*; linjetork*;"
    " linetork*; lintork*; snortork*; snortorr*; linjetorr*; linetorr*",
    "drip": "drip; dripping; tropfnass; triefend; gocciolante; gocciolare; escurrir; escurrido;"
    " egoutter; egouttant; druipend; druipnat; triefnass; tropfend; goteo; uitdruipend;"
    " dryppende; drypvad; drypvadt; drypende",
    "dry drip": "druipdrogen; dropptork*; drypptork*; dryptorr*; drypptorr*; dryppetork*;"
    " dryppetorr*",
    "drip hang": "; ".join(sorted(HUNG_WET)),
    "shade": "in shade; in the shade; schatten; schattig; schattigen; ombre; ombra; sombra;"
    " schaduw; skugga; skuggan; skygge; skyggen",
    "sun": "sun; sunlight; sunshine; sonne; sonnenlicht; sonneneinstrahlung; sonnenbestrahlung;"
    " soleil; sole; sol; zon; zonlicht; sollys; solljus; solen; sola; solskin; sunlys; direkt sol;"
    " sonnig",
    "far": "aside; to one side; beiseite; zur seite; de cote; da parte; a un lado; opzij; terzijde;"
    " at sidan; at sidan om; til side; til siden; away; fern; loin; lontano; lejos; weg;"
    " uit de buurt; borte; borta; unna; vaek; vekk",
    "away sun": "buiten de zon; buiten zon",
    "away": "out of; protected; off; geschutzt; schutzen; abri; riparo; riparato; protetto;"
    " protegido; abrigo; resguardo; uit; beschermd; skyddat; beskyttet; skjermet",
    "iron": "bugeltemperatur; stryktemperatur; stryketemperatur; strygetemperatur;"
    " strijktemperatuur; iron; press; pressed; ironing; ironed; irons; ironable; bugeln; bugelbar;"
    " gebugelt;"
    " bugelt; bugeleisen; plattbar; repasser; repassage; repassez; repasse; repassable; fer;"
    " stira; stirare; stirabile; stiratura; stirato; stiro; ferro; planchar; planchado;"
    " planche; plancha; planchable; bout; strijkbout; plancharse; planchese; stirarsi; repassee;"
    " strijken;"
    " strijkbaar; gestreken;"
    " strijkijzer; strijk; stryk; strykas; stryks;"
    " strykjarn; strykning; strykbar; stryka; stryke; strykes; strykejern; stryking; stryges;"
    " stryge; strygning; strygejern; stryg",
    "high": "three dots; stufe drei; drei punkte; drei punkten; trois points; tre punti;"
    " tres puntos; drie punten; drie stippen; stand drie; tre prickar; tre prikker; hot; high;"
    " heiss; heisse; heissem; hohe; hoher; haute; chaud; chaude; forte; fort;"
    " alta; alto; caldo; calda; caliente; hoge; hoog; heet; hete; hett; hog; hoga; heta;"
    " hoy; hoye; hoj; hoje",
    "medium": "mellem varme; mellem temperatur; mellemvarme;"
    " middelhoge; middelhoog; two dots; stufe zwei; zwei punkte; zwei punkten;"
    " deux points; due punti;"
    " dos puntos; twee punten; twee stippen; stand twee; tva prickar; to prikker; medium; warm;"
    " moderate; moderately; massig; massiger; mittel; mittlere; mittlerer;"
    " mittelheiss; mittelwarm; moyen; moyenne; modere; moderee; media; medio; moderata; templada;"
    " templado; gemiddelde; middelmatige; matig; matige; medelvarm; medelvarmt; medelvarme; medel;"
    " medelhog; middels; middel; middelvarm; middelvarmt; middelvarme; middelhoy; middelhoj;"
    " lagom; middels varmt; middels varm; middel varmt; medel varmt; massig heiss; mittel heiss;"
    " moderately hot; massig warm; middels hoy; medel hog; middel hoj",
    "low": "gentle heat; mild heat; soft heat; sanfte hitze; sanfter hitze; milde hitze;"
    " milder hitze; sanfter warme; milder warme; chaleur douce; douce chaleur; calore delicato;"
    " calore dolce; calore lieve; calor suave; zachte warmte; milde warmte; skonsam varme;"
    " skansom varme; nensom varme; naensom varme; mild varme; lempelig varme; one dot; stufe eins;"
    " ein punkt; einem punkt; un point; un punto; een punt;"
    " een stip; stand een; en prick; en prikk; en prik; low; cool; cooler; niedrig; niedrige;"
    " niedriger; lauwarm; lauwarmem; kuhl; schwach; schwach warm;"
    " schwacher; leicht; gering; geringer; geringe; kalt; basse; faible; tiede; reduite; reduit;"
    " bas; froid; bassa; basso; ridotta; ridotto; tiepido; tiepida; tenue; baja; bajo; reducida;"
    " reducido; tibia; tibio; fria; frio; lage; laag; lauw; lauwe; lauwwarm; koel; koud; lag;"
    " laga; svag; svalt; sval; svalare; ljummet; ljum; ljummen; kall; lav; lave; lavt; lunken;"
    " lunkent; lunt; kaldt; koldt; kolig; svak; svagt; minimum; reduced",
    "above": "above; exceed; exceeding; hotter than; more than; uber; ueber; heisser als; hoher"
    " als; au dessus; au dela; plus chaud que; plus de; a plus de; oltre; boven; heter dan; hoger"
    " dan; varmere enn; varmere end; varmare an; over; mas de; superior; superiore",
    "clean": "dry clean; dry cleaned; dry cleaning; dry cleanable; dry cleaner;"
    " dry cleaners;"
    " dry cleanings; dryclean*; chemisch; chemische; chemischen; chemischer; reinigen; reinigung;"
    " reinigbar; gereinigt; reiniging; reinigbaar; chemischreinigung; nettoyage; nettoyer;"
    " nettoyable; nettoyez; nettoye; nettoyee; nettoyes; nettoyees; chimique; chimiquement;"
    " gereinigd; pulire; pulito; pulita; pulirsi; limpiado; limpiarse; a sec; au pressing;"
    " de pressing; en pressing; en teinturerie;"
    " a la teinturerie; a secco;"
    " secco; pulitura; in tintoria; alla tintoria; en seco; seco; limpieza; limpiar;"
    " quimica; pulizia; trockenreinigung;"
    " en tintoreria; a la tintoreria; stomen; stomerij;"
    " gestoomd; kemtvatt*; kemisk; kjemisk; rens; rense; renses; renset; rensning; rensing;"
    " renseri; solvent; solvents; perchlorethyl*; perchloroethylene; professionally;"
    " percloroetil*; perkloretyl*",
    "wet": "natreinig*; nassreinig*; vattvatt*; vatrengor*; vadrens*; vatreng*; wet clean; wet"
    " cleaning; wet cleaned; nassreinigung; nass reinigen; nettoyage a l'eau;"
    " nettoyer a l'eau; natreiniging; vattvatt*; vatrens*; vadrens*; nettoyage humide;"
    " limpieza en humedo; limpieza profesional en humedo; limpiar en humedo; pulitura ad acqua;"
    " professionell vattentvatt; professionell vattvatt; profesjonell vatvask;"
    " professionel vadvask; lavaggio professionale ad acqua; lavaggio ad acqua professionale",
    "normal": "normales programm; normalem programm; normalprogramm; normaler waschgang;"
    " normal heat; normal temperature; normal setting; normal program; normal programme;"
    " normal cycle; regular heat; standard heat; normale temperatur; normaler temperatur;"
    " normaler hitze; normale hitze; normalstufe; normaltemperatur; temperature normale;"
    " chaleur normale; programme normal; cycle normal; temperatura normale; calore normale;"
    " programma normale; ciclo normale; temperatura normal; calor normal; programa normal;"
    " ciclo normal; normale temperatuur; normaal programma; normal temperatur; normal varme;"
    " normalt program; normalprogram; vanlig temperatur; vanlig varme; almindelig temperatur",
    "or": "or; oder; ou; eller",
}
"""Meaning, or several, to the words that have it."""

_JOINING = listed(
    "while; still; damp; moist; excess; squeeze; squeezed; roll; rolled; pat; blot; block;"
    " feucht; feuchtem; feuchten; ausdrucken; einrollen; humide; enrouler; umido; umida;"
    " arrotolare; tamponare; humedo; humeda; enrollar; vochtig; vochtige; oprollen; uitdrukken;"
    " fuktig; fuktigt; rulla; krama; rull; klem; fugtig; fugtigt; rul; klemmes; must; should;"
    " shall; will; have; has; had; been; being; give; take; emplear; emplee; employer; employez;"
    " impiegare;"
    " anvand; tills; indtil; inntil; finche; jusqu; hasta; auslegen; auszulegen; ute; utomhus;"
    " utendors; udendors; strekk;"
    " strekkes; disporre; disposto; than; take; send; bring; go; goes; stay; out;"
    " over; under; through; not only; about; just; best; result; results; you; we; all; any;"
    " geben; gegeben; bringen; stecken; legen; verwenden; verwende; benutzen; gern; gerne; fall;"
    " noch; muss; soll; sollte; hoch; gut; nach; sie; wir; durch; ins; ans; beim;"
    " waschbehandlung; behandeln; porter; donner; apporter; confier; passer; peine; lui; ce;"
    " cette; votre; vous; plus; fait; etre; appena; uso; portare; mandare; passare; dare; fare;"
    " essere; far; questo; questa; piu; ad; un; suo; anche; llevar; lleve; mandar; dar; ser; use;"
    " este; esta; mas; apenas; ponga; poner; hacer; otra; brengen; geven; sturen; stoppen;"
    " leggen; graag; moet; deze; dit; niet te; door; zonder; al; lamna; ge; skicka; lagg; lagga;"
    " garna; helst; denna; detta; inte for; eller; hall; hang upp; levere; gi; legge; gjerne;"
    " denne; dette; opp; ned; saet; sett; aflever; giv; laegge; by; in; on; at; the; a; an; to;"
    " from; of; your; it; this; with; for; up; max; maximum; maximal; maximale; only; always;"
    " please; then; and; or; be; is; are; do; does; using; used; put; place; lay; leave; let;"
    " keep; heat; temp; temperature; temperatures; degrees; degree; inside; side; reverse; towel;"
    " surface; air; water; item; items; garment; article; yarn; knit; when; if; needed;"
    " necessary; recommended; iron; well; very; direct; strong; normal; separately; shape; into;"
    " reshape; reshaped; cold; warm; lukewarm; soap; detergent; mit; bei; bis; im; der; die; das;"
    " den; dem; des; auf; zum; zur; am; fur; von; vor; aus; und; nur; sich; ist; sind; werden;"
    " lassen; lasst; stufe; hitze; temperatur; einstellung; eisen; handtuch; flache; lage; form;"
    " ziehen; luft; bitte; immer; direkte; direkter; starker; linke; links; seite; ein; eine;"
    " einem; einer; kalt; wasser; waschmittel; feinwaschmittel; seife; per; le; la; les; l; d;"
    " de; du; en; au; aux; et; une; par; sur; avec; dans; pour; est; tres; bien; faire; laisser;"
    " mettre; remettre; utiliser; chaleur; programme; eau; froide; libre; seulement; uniquement;"
    " toujours; envers; se; il; elle; peu; que; lessive; produit; agent; agents; produits;"
    " position; forme; douce; tiede; serviette; directe; lumiere; lo; i; gli; e; con; di; da;"
    " dal; dalla; del; della; alla; sul; sulla; su; si; usare; utilizzare; mettere; lasciare;"
    " temperatura; calore; superficie; aria; aperta; acqua; fredda; solo; sempre; molto; bene;"
    " asciugamano; rovescio; una; uno; forma; detersivo; detergente; sapone; luce; diretta;"
    " prodotti; base; el; los; las; y; por; para; usar; utilizar; meter; dejar; calor; agua;"
    " aire; siempre; muy; toalla; reves; jabon; sobre; dentro; luz; directa; es; het; een; op;"
    " aan; te; met; van; voor; naar; bij; tot; alleen; altijd; laten; gebruik; gebruiken; doen;"
    " temperatuur; warmte; hitte; stand; lucht; handdoek; ondergrond; vorm; trekken; zeep;"
    " wasmiddel; worden; heel; goed; uw; binnenstebuiten; ijzer; pa; med; vid; av; till; fran;"
    " och; det; ett; bara; endast; alltid; varme; anvand; anvands; handduk; underlag; formas;"
    " vatten; tvattmedel; ska; skall; bor; som; ut; mycket; direkt; jarn; maste; ved; til; fra;"
    " og; af; kun; altid; bruk; brukes; brug; bruges; handkle; handklaede; vann; vand; ma; skal;"
    " meget; jern; vaskemiddel; saebe; sape; hang; mot; uten; paa; selv; legges; legg; laegges;"
    " laeg; tuch; badetuch; cloth; drap; telo; linge; model; p; f; w; as; whilst; care; capi; ar;"
    " temperatuurstand; temperatuurinstelling; temperaturstufe;"
    " temperatureinstellung; warmestufe; heizstufe; hitzestufe; varmegrad; varmetrin; varmelage;"
    " temperaturlage; temperaturtrin; bugelstufe; instelling; warmtestand; niveau; niveauet;"
    " livello; nivel; trin; innstilling; installning; indstilling; reglage; regolazione;"
    " regulacion;"
    " lett; vrangen; vrangsiden; baksidan; avigsidan; avigan; separat; tous; toutes; leger;"
    " legere; leggera; leggero; prendas; modele; modello; modelo; modell; panno; doek; handklede;"
    " laken"
)

_AROUND = NEUTRAL | HARMLESS | _JOINING | ADDING | COURSES
FILLERS = _AROUND | REMARKS
"""Words that stand between those and change nothing."""

_GAP = re.compile(r"[ '-]")


def _entries() -> tuple[dict[tuple[str, ...], tuple[str, ...]], dict[str, tuple[str, ...]]]:
    whole: dict[tuple[str, ...], tuple[str, ...]] = {}
    stems: dict[str, tuple[str, ...]] = {}
    listings = ((meanings, listed(words)) for meanings, words in MEANINGS.items())
    for meanings, words in (
        *listings,
        *FAMILIES.items(),
        *EQUIPMENT.items(),
        *SPOKEN.items(),
        ("oxygen", WITHOUT_CHLORINE),
    ):
        for word in sorted(words):
            parts = tuple(_GAP.split(word))
            if word.endswith("*"):
                stems.setdefault(word[:-1], tuple(meanings.split()))
            else:
                whole.setdefault(parts, tuple(meanings.split()))
    return whole, stems


WHOLE, STEMS = _entries()
"""Whole words, several in a row where they count only together, and beginnings of words,
to what they mean."""

BESIDE = _AROUND | (REMARKS - {word for words in WHOLE if len(words) > 1 for word in words})
"""Those of them that mean nothing in a row with others: "fil" is none, for "sur un fil"."""

LONGEST = max(map(len, WHOLE))
"""The most words that one entry has."""


_GLUED_NEGATION = re.compile(
    r"\B(?:frarad|avrad|forbud|forbjud|verbod|verbot|interdi|vietat|niet|nicht|ikke|inte$|ej$)"
)
"""A negation that has lost the space before it is no ending of a word."""


def meanings_of(words: tuple[str, ...]) -> tuple[str, ...]:
    """What folded ``words`` mean together; empty where they have no meaning of their own."""
    found = WHOLE.get(words)
    if found is not None or len(words) != 1:
        return found or ()
    (word,) = words
    if _GLUED_NEGATION.search(word):
        return ()
    stem = next((word[:n] for n in range(len(word), 3, -1) if word[:n] in STEMS), "")
    return STEMS.get(stem, ())


_SHORTEST_PART = 5

STRONG = frozenset({"tumble", "bleach", "iron", "clean", "wash", "dry"})
"""What care is about."""

_PARTS = frozenset(
    part
    for part, said in (*((" ".join(words), told) for words, told in WHOLE.items()), *STEMS.items())
    if STRONG & set(said) and " " not in part and len(part) >= _SHORTEST_PART
)


def is_made_of_care(word: str) -> bool:
    """Whether a word has one in it that tells what care is about: "lufttrocknen"."""
    return any(part in word for part in _PARTS)


def meant(meanings: str) -> set[str]:
    """All words and beginnings of words, these with ``*``, that have just these ``meanings``."""
    told = set(listed(MEANINGS[meanings])) | FAMILIES.get(meanings, frozenset())
    return told | EQUIPMENT.get(meanings, frozenset()) | SPOKEN.get(meanings, frozenset())


def forbidding_words() -> set[str]:
    """All single words that forbid and mean nothing else."""
    return {words[0] for words, said in WHOLE.items() if said == ("not",) and len(words) == 1}


def allowing_words() -> set[str]:
    """All single words that allow and mean nothing else."""
    return {words[0] for words, said in WHOLE.items() if said == ("allow",) and len(words) == 1}


def concept_words() -> set[str]:
    """All words and beginnings of words, each by itself, but for those that forbid: what is
    nearly one of them is not to be taken for it."""
    named = {word for words, meanings in WHOLE.items() if meanings != ("not",) for word in words}
    return named | set(STEMS)
