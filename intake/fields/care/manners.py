"""Manners of wording care that each language has for itself, put together from their parts: a
treatment that is gentle, a heat that is reduced, a place in the shade, a washing that is forbidden
even by hand, and yarn that care suits.

Common practice, no source; all are folded.
"""

from __future__ import annotations

from intake.fields.care.forms import FRENCH, GERMAN, ITALIAN, SPANISH, formed, worded

_TREATMENTS = (
    (
        worded("gentle reduced mild moderate delicate soft limited"),
        "action agitation treatment movement process",
    ),
    (
        formed("mild sanft schonend reduziert vermindert gering massig moderat", GERMAN),
        "behandlung bewegung mechanik einwirkung beanspruchung",
    ),
    (
        worded("milde zachte beperkte verminderde gereduceerde gematigde voorzichtige"),
        "behandeling beweging werking mechaniek",
    ),
    (
        worded("mild milt mildt reducerad begransad reducert redusert begrenset reduceret minsket")
        | formed("skonsam skansom varsam varsom nansom naensom nensom forsigtig forsiktig", "- t"),
        "behandling bearbetning rorelse bearbeiding bevegelse bearbejdning bevaegelse gang gange",
    ),
)
"""Adjectives, and behind them nouns of what a machine does, by language; the north has its words
together."""

_TREATMENTS_BEHIND = (
    (
        formed("modere reduit limite delicat", FRENCH) | worded("douce doux faible"),
        "action agitation traitement mouvement brassage",
    ),
    (
        formed("moderat ridott delicat limitat", "o a") | worded("lieve mite dolce"),
        "azione agitazione trattamento movimento",
    ),
    (
        formed("moderad reducid delicad limitad", "o a") | worded("suave"),
        "accion agitacion tratamiento movimiento",
    ),
)
"""The same where the adjective stands behind the noun."""

GENTLE_TREATMENTS = frozenset(
    f"{adjective} {noun}"
    for adjectives, nouns in _TREATMENTS
    for adjective in adjectives
    for noun in nouns.split()
) | frozenset(
    f"{noun} {adjective}"
    for adjectives, nouns in _TREATMENTS_BEHIND
    for adjective in adjectives
    for noun in nouns.split()
)
"""How a machine is told to go gently: "action moderee", "milde behandeling"."""

REDUCED = (
    formed("reduziert vermindert herabgesetzt", GERMAN)
    | formed("limite diminue attenue", FRENCH)
    | formed("debol diminuit", "e i o a")
    | formed("disminuid", SPANISH)
    | worded(
        """
        reducerad reducerat reducerade sankt sankta redusert reduserte senket senkede
        reduceret reducerede nedsat nedsatte gereduceerd gereduceerde verminderd verminderde
        verlaagd verlaagde lowered
        """
    )
)
"""A heat that is less than the usual one: "reduzierte Hitze", "redusert varme"."""

SHADED = (
    formed("schattig beschattet", GERMAN)
    | formed("ombrage", FRENCH)
    | formed("ombreggiat ombros", ITALIAN)
    | formed("sombread sombri umbri", SPANISH)
    | worded(
        """
        schaduwrijk schaduwrijke beschaduwd beschaduwde shadowy
        skuggig skuggigt skuggiga skuggad skuggade
        skyggefull skyggefullt skyggefulle skyggefuld skyggefuldt skyggefulde skyggelagt
        skyggelagte
        """
    )
)
"""What a place in the shade is called."""

PLACES = worded(
    """
    platz platze platzchen stelle stellen emplacement lieu lieux coin luogo luoghi posto lugar
    lugares sitio rincon plaats plek plekje hoekje plats platsen stalle plass plassen sted steder
    spot spots corner
    """
)
"""Places that yarn is dried in."""

WITHOUT_ANY = frozenset(
    f"{without} {some}"
    for without, somes in (
        ("without", "any"),
        ("ohne", "jede jedes jeden jeglich jegliche jegliches jeglichen irgendein irgendwelche"),
        ("sans", "aucun aucune nul nulle"),
        ("senza", "alcun alcuna alcuno nessun nessuna nessuno"),
        ("sin", "ningun ninguna ninguno"),
        ("zonder", "enig enige enkel enkele"),
        ("utan", "nagon nagot nagra"),
        ("uten", "noe noen"),
        ("uden", "nogen noget"),
    )
    for some in somes.split()
)
"""The words for without, and for any behind them, which some languages have their negation for."""

SHAPED = worded(
    """
    rimodellare rimodella rimodellate rimodellato remodelar remodele remodeler remodelez remodelant
    hervormen herformen omforma omformes
    """
)
"""Words for giving wet wool its shape again."""

SUDS = worded("sapvatten saplosning saebelud sapelut zeepwater zeepoplossing savonnee jabonosa")
"""Water with soap in it."""

EACH = worded(
    """
    ogni ciascun ciascuna queda quedan quedara each every jede jeder jedes jeden elk elke ieder
    iedere enig enige varje nagon nagra noen hver ethvert enhver hvert nogen
    """
)
"""Words for every and for any: "ogni candeggio e escluso"."""

SUITING = worded(
    """
    suited egner eignet eignen lampar prete pretent presta prestan prestano leent lenen
    withstand endure endures
    """
)
"""Words that say of what stands beside them that it suits the yarn, or of the yarn that it bears
it: "egner sig ikke til", "eignet sich nicht"."""

_BY_HAND = (
    ("not even", "by hand;hand wash;hand washing;a hand wash"),
    (
        "auch nicht;nicht einmal",
        "von hand;per hand;mit der hand;mit den handen",
    ),
    ("auch keine;nicht einmal", "handwasche"),
    ("meme pas;pas meme;ni meme;ni", "a la main"),
    ("nemmeno;neanche;neppure;ne", "a mano"),
    ("ni siquiera;tampoco;ni", "a mano"),
    ("ook niet;zelfs niet;evenmin", "met de hand;op de hand"),
    ("ook geen;zelfs geen;evenmin", "handwas;handwassen"),
    (
        "inte ens;inte heller;heller inte;ej heller;heller ej;ikke engang;heller ikke;ikke heller"
        ";ikke en gang",
        "for hand;i handen;i hand;i hande;med handen;handtvatt;handvask",
    ),
    ("heller ingen", "handtvatt;handvask"),
)
"""Words for "not even" and for "by hand", by language."""

NOT_EVEN_BY_HAND = frozenset(
    f"{even} {way}"
    for evens, ways in _BY_HAND
    for even in evens.split(";")
    for way in ways.split(";")
)
"""What forbids all washing: "not even by hand"."""

NOT_EITHER = worded("nemmeno neanche neppure tampoco") | {
    "heller ikke",
    "ikke heller",
    "inte heller",
    "heller inte",
    "ej heller",
    "ni siquiera",
    "auch nicht",
    "nicht einmal",
    "not even",
    "ook niet",
    "zelfs niet",
    "inte ens",
    "ikke engang",
}
"""What forbids one thing more."""

IN_SHADE = frozenset(
    {
        "use a shaded place",
        "use a shady place",
        "choose a shaded place",
        "choose a shady place",
        "schattigen platz wahlen",
        "choisir un endroit ombrage",
        "scegliere un luogo ombreggiato",
        "elegir un lugar sombreado",
        "schaduwrijke plek kiezen",
        "valj en skuggig plats",
        "velg en skyggefull plass",
        "vaelg et skyggefuldt sted",
    }
)
"""How a label asks for the shade behind a sentence that forbids the sun."""

DRIPPING = worded(
    """
    chorreando chorreante chorreantes
    ungewrungen unausgewrungen ungeschleudert unwrung ongewrongen ongecentrifugeerd
    """
)
"""How wet what is hung drips."""

OF_ONE_DOT = (
    r"(?<=un punto, )(?:suave|delicato|lieve)",
    r"(?<=un point, )(?:doux|douce)",
    r"(?<=een stip, )zacht",
    r"(?<=one dot, )(?:gentle|mild)",
    r"(?<=einem punkt, )(?:sanft|schonend)",
    r"(?<=en prick, )(?:svagt|skonsamt)",
    r"(?<=en prikk, )(?:svakt|skansomt)",
    r"(?<=en prik, )(?:svagt|skansomt)",
)
"""What a label says of an iron of one dot beside the dot: it tells of no programme."""

EVEN_BY_HAND = (r"meme a la main",)
"""How French goes on where it forbids all washing: "aucun lavage, meme a la main"."""

MODALS = worded(
    """
    may can could must should darf durfen kann konnen soll sollen peut peuvent doit doivent
    puo possono deve devono puede pueden debe deben mag mogen kan kunnen moet moeten
    far ska skall kan bor ma skal maa
    """
)
"""Verbs that want another behind them, or a word that forbids."""

MACHINE_PROOF = worded(
    """
    machinebestendig machinebestendige machinevast maskinbestandig maskintalig maskintaalig
    waschmaschinenbestandig maschinenbestandig
    """
)
"""What stands a washing by machine."""

WITHOUT_CHLORINE = frozenset(
    f"{bleaching} {without} {chlorine}"
    for bleachings, without, chlorines in (
        ("bleach;bleaching", "without", "chlorine"),
        ("bleichen;bleiche;bleichmittel", "ohne", "chlor"),
        ("blanchiment;blanchir", "sans", "chlore;javel"),
        ("candeggio;candeggiare;sbiancare", "senza", "cloro"),
        ("blanqueo;blanquear;blanqueador", "sin", "cloro;lejia"),
        ("bleken;bleekmiddel;bleek", "zonder", "chloor"),
        ("blekning;blekas;bleka;blekmedel", "utan", "klor"),
        ("bleking;blekes;bleke;blekemiddel", "uten", "klor"),
        ("blegning;bleges;blege;blegemiddel", "uden", "klor"),
    )
    for bleaching in bleachings.split(";")
    for chlorine in chlorines.split(";")
)
"""How bleach is allowed that has no chlorine in it."""

MORE_PHRASES = {
    "oxygen bleach only": WITHOUT_CHLORINE,
    "machine": MACHINE_PROOF,
    "do not wash": NOT_EVEN_BY_HAND,
    "dry in shade": IN_SHADE,
    "any bleach": frozenset({"bleach as required", "bleach when required"}),
}
"""Phrases beside those of :mod:`intake.fields.care.phrases`, by kind."""
