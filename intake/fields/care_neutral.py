"""Words of care sentences that say nothing of care, wherever they stand, in nine languages.

Common practice, no source; all are folded.
"""

from __future__ import annotations

from intake.fields.letters import listed

NEUTRAL = listed(
    "upp; opptil; inntil; enkel; slechts; ort; ga; indleveres; innleveres; inlamnas;"
    " achterkant; as; whilst; felts; strickstuck; bugelfrei; rincage; baksidan; vrangen; leger;"
    " legere; leggera; leggero; prendas; perchlorethylene; perchlorethylen; percloroetilene;"
    " percloroetileno; perkloretylen; perchloorethyleen; solventi; solvants; disolventes;"
    " losungsmittel; separat; aclarar; am; an; anbefaler; anleitung; anvand; anvandas; anvendes;"
    " apart; auf; "
    "ausschliesslich; ausspulen; avec; avigsidan; bagsiden; bare; bedarf; behandling; behandlung; "
    "behov; bene; best; besten; bien; brug; bruges; bruk; brukes; bugelsohle; capful; celsius; "
    "chaleur; claire; colorwaschmittel; con; conseils; consiglia; dark; debe; deben; debera; "
    "degres; denna; denne; "
    "detta; dette; dieses; donkere; dunkle; easy; empfehlen; enjuagar; erstem; ersten; "
    "esclusivamente; este; exclusively; exclusivement; filato; first; foncees; fonti; for; "
    "formas; formes; froid; fuentes; garen; garn; garnet; getrennt; giri; godt; goed; grad; "
    "graden; grader; gradi; grados; grundig; grundigt; grundlich; gut; handwarm; handwarmem; "
    "heisses; hilo; hochste; hochstens; hochsttemperatur; hogst; hogsta; hojeste; hojst; "
    "hoogstens; hoyeste; hoyst; instrucciones; istruzioni; jabon; kaldt; kallt; kaltem; kaltes; "
    "koldt; lad; laegges; lat; lauwarmes; leg; maks; maksimal; maksimum; massima; massimo; "
    "maxi; maxima; maximaal; maximale; maximalen; maximaler; maximo; me; med; met; min; mogelijk; "
    "moglich; mojlig; morka; morke; moth; mothproof; mothproofed; mulig; nach; necesario; "
    "necessaire; necessario; necessary; needed; neutral; neutre; neutro; nodig; noga; normaal; "
    "normale; normaler; normales; om; omdreininger; omdrejninger; op; oscuros; par; para; per; "
    "piastra; plate; por; posible; posicion; posizione; possibile; possible; pour; pre; "
    "preferably; pressa; pressen; prewash; proces; proceso; process; processo; processus; "
    "profesional; profesjonell; profesjonelle; profesjonelt; professional; professionale; "
    "professioneel; professionel; professionele; professionell; professionelle; professioneller; "
    "professionelt; professionnel; professionnelle; proof; proofed; prozess; prozesse; questo; "
    "raccomandiamo; recomendamos; recomienda; recommande; recommandons; recommend; recommends; "
    "rekommenderar; rincer; rincez; rinse; rinsed; rinsing; risciacquare; risciacquo; rol; rpm; "
    "ruckseite; saebe; sape; sapone; savon; scuri; seife; semelle; separado; separatamente; "
    "separate; separement; ska; skal; skall; skolj; skoljs; skyl; skyll; soap; sole; soleplate; "
    "sondern; source; sources; spoelen; spulen; strack; strackes; suela; te; tepid; this; "
    "thoroughly; tillstand; tilstand; toeren; tours; toute; traitement; tratamiento; tratar; "
    "trattamento; trattare; treatment; tryk; tval; tvattrad; ud; uitsluitend; uitspoelen; "
    "unicamente; ur; usar; usare; use; ut; uteslutande; utiliser; utilizzare; val; vandet; "
    "vannet; varmekilder; varv; vaskeanvisning; vat; vatt; vattnet; verwendet; verwijderen; voor; "
    "voorkeur; vrangsiden; warmtebronnen; waschanleitung; wasvoorschrift; wenig; yarn; zeep; zum; "
    "zur"
)
"""Water and soap, adjectives of a trade, modal verbs, prepositions: words that neither allow nor
forbid anything."""
