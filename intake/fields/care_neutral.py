"""Words of care sentences that say nothing of care, wherever they stand, in nine languages.

Common practice, no source; all are folded.
"""

from __future__ import annotations

from intake.fields.letters import listed

NEUTRAL = listed(
    "achterkant; aclarar; am; an; anbefaler; anleitung; anvand; anvandas; anvendes; auf; "
    "ausspulen; avec; avigsidan; bagsiden; bedarf; behandling; behandlung; behov; bene; bien; "
    "brug; bruges; bruk; brukes; bugelsohle; celsius; chaleur; claire; con; conseils; denna; "
    "denne; detta; dette; dieses; easy; empfehlen; enjuagar; erstem; ersten; este; filato; first; "
    "fonti; for; formas; formes; fuentes; garen; garn; garnet; godt; goed; grundig; grundigt; "
    "grundlich; gut; handwarm; handwarmem; hilo; hochste; hochstens; hochsttemperatur; hogst; "
    "hogsta; hojeste; hojst; hoogstens; hoyeste; hoyst; instrucciones; istruzioni; jabon; kaldt; "
    "kallt; kaltem; kaltes; koldt; lad; lat; lauwarmes; leg; maks; maksimal; maksimum; massima; "
    "massimo; maxima; maximaal; maximale; maximalen; maximaler; maximo; med; met; mogelijk; "
    "moglich; mojlig; moth; mothproof; mothproofed; mulig; nach; necesario; necessaire; "
    "necessario; necessary; needed; neutral; neutre; neutro; nodig; noga; normaal; normale; "
    "normaler; normales; om; op; par; para; per; piastra; plate; por; posible; posicion; "
    "posizione; possibile; possible; pour; pressa; pressen; proces; proceso; process; processo; "
    "processus; profesional; profesjonell; profesjonelle; profesjonelt; professional; "
    "professionale; professioneel; professionel; professionele; professionell; professionelle; "
    "professioneller; professionelt; professionnel; professionnelle; proof; proofed; prozess; "
    "prozesse; questo; raccomandiamo; recomendamos; recommande; recommandons; recommend; "
    "recommends; rekommenderar; rincer; rincez; rinse; rinsed; rinsing; risciacquare; risciacquo; "
    "rol; ruckseite; saebe; sape; sapone; savon; seife; semelle; ska; skal; skall; skolj; skoljs; "
    "skyl; skyll; soap; sole; soleplate; source; sources; spoelen; spulen; strack; strackes; "
    "suela; te; tepid; this; thoroughly; tillstand; tilstand; toute; traitement; tratamiento; "
    "tratar; trattamento; trattare; treatment; tryk; tval; tvattrad; ud; uitspoelen; ur; usar; "
    "usare; use; ut; utiliser; utilizzare; val; vandet; vannet; varmekilder; vaskeanvisning; vat; "
    "vatt; vattnet; verwendet; verwijderen; voor; vrangsiden; warmtebronnen; waschanleitung; "
    "wasvoorschrift; wet state; yarn; zeep; zum; zur"
)
"""Water and soap, adjectives of a trade, modal verbs, prepositions: words that neither allow nor
forbid anything."""
