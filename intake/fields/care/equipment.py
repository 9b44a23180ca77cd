"""What care is done with: the sole of an iron, the line that wool hangs on, the machine's course;
and words for adding something to the washing.

Common practice, no source; all are folded.
"""

from __future__ import annotations

from collections.abc import Mapping

from intake.fields.care.forms import worded
from intake.fields.letters import listed

_IRONS = worded(
    """
    strykjarnets strykjarns strykejernets strykejerns strygejernets strygejerns
    bugeleisens strijkijzers
    """
)
"""Irons that something belongs to."""

_SOLES = {
    f"{iron} {sole}"
    for irons, soles in (
        ("strykjarnets strykjarns jarnets", "sula stryksula undersida"),
        ("strykejernets strykejerns jernets", "sale strykesale underside"),
        ("strygejernets strygejerns jernets", "sal strygesal underside"),
    )
    for iron in irons.split()
    for sole in soles.split()
} | {"zool van het strijkijzer", "zool van het ijzer", "sula pa strykjarnet"}
"""The sole of an iron in the north, where the word by itself is others as well: "sål"."""

_SOLE_WORDS = worded(
    """
    bugelsohle bugelsohlen bugelsohlentemperatur bugeleisensohle eisensohle
    strijkzool strijkzolen strijkzooltemperatur ijzerzool zooltemperatur
    stryksula stryksulan strykjarnssula strykjarnssulan stryksulans
    strykesale strykesalen strykejernssale strykejernssalen
    strygesal strygesalen strygejernssal strygejernssalen
    """
)

ADDING = worded(
    """
    add adds added adding
    zusetzen zusetzt zugesetzt zuzusetzen zufugen zugefugt zuzufugen hinzufugen hinzugefugt
    hinzuzufugen hinzugeben zugeben zugegeben zuzugeben beigeben beigegeben beifugen zusatz
    ajouter ajoutez ajoute ajoutes ajoutee additionner additionnez adjoindre
    aggiungere aggiungete aggiungi aggiunto aggiunta aggiungerla aggiunti
    anadir anada anadan anadiendo anadido anadida agregar agregue agreguen echar echen eche
    toevoegen toevoegt toegevoegd voeg voegt toe bijvoegen toevoeging
    tillsatt tillsatta tillsattas tillsatts tillsattning
    tilsett tilsette tilsettes tilsetting
    tilsaet tilsaette tilsaettes tilsat tilsaetning
    """
)
"""Words for putting something into the water: whether that is forbidden, the words beside tell."""

COURSES = worded(
    """
    procede procedes procedure procedimiento procedimientos procedimento procedura
    procedur prosess prosessen processen behandelproces specialist
    """
)
"""How cleaning goes, or who cleans: ISO 3758 calls normal what is neither mild nor very mild."""

EQUIPMENT: Mapping[str, frozenset[str]] = {
    "iron": _IRONS | _SOLES | _SOLE_WORDS,
    "program": worded("cyclus wascyclus cykel tvattcykeln wasgang vaskegang tvattgang"),
    "wool program": listed("wool course; course for wool")
    | worded("wolcyclus wolwascyclus ullcykel ullsyklus uldcyklus"),
    "hand program": worded("handwascyclus handtvattcykel handvasksyklus handvaskcyklus"),
    "mild program": listed("gentle course; delicate course; delicates course; fijnwascyclus"),
    "normal": listed(
        "normale cyclus; normale wascyclus; normale wasgang; normaler waschgang; normale wasche;"
        " normal cykel; normal tvattcykel; normal syklus; normal cyklus; vanlig syklus"
    ),
    "hang": listed(
        "sur corde; sur une corde; a une corde; a la corde; corde a linge; su una corda;"
        " su corda; alla corda; a una corda; en una cuerda; en cuerda; de una cuerda; a la cuerda"
    ),
    "flat": listed(
        "level surface; even surface; ebene unterlage; ebenen unterlage; ebener unterlage;"
        " gerade unterlage; geraden unterlage; superficie lisa; superficie liscia; surface lisse;"
        " support plat; piano orizzontale; egale ondergrond; jamnt underlag; jevnt underlag;"
        " plant underlag; jaevnt underlag; fladt underlag; flatt underlag; vlakke ondergrond"
    ),
    "dry shade": listed("shade drying; shade dry; shade dried"),
}
"""Meaning, or several, to the words that have it."""
