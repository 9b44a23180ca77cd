"""Names of textile fibres as tags print them, in nine languages.

The fibres are those of Regulation (EU) No 1007/2011, Annex I (whose tables are the
source for the names in the languages of the Union; entered from memory, as are the
Norwegian ones).  The kinds are the trade's own words: common practice, no source.
All words are folded: lower case, no diacritics.  Alternatives are parted by ``;``.
"""

from __future__ import annotations

from intake.fields.letters import listed

FIBRES = {
    # "uii", "uill", "uiil": "ull", whose letters were read for capitals.
    "wool": "wool; wolle; schurwolle; laine; lana; wol; scheerwol; ull; uii; uill; uiil; uld;"
    " woolen; woollen; helylle; helull; heluld; reinwolle; ganzwolle; heelwol;"
    " farull; saueull; fareuld; schapenwol; neitsytvilla; schafwolle; schafswolle;"
    " schafschurwolle; schafsschurwolle; kammwolle; streichwolle; kamwol; kaardwol; heidewol;"
    " kamull; kardull; nyull; finull; finnull; palsull; ryaull; gotlandsull; gutefarsull;"
    " jamtlandsull; pelsull; spelsauull; spaelsauull; villsauull; kamuld; nyuld; pelsuld;"
    " gotlandsuld",
    "alpaca": "alpaca; alpaka; alpaga; alpakka; alpacka",
    "llama": "llama; lama",
    "camel": "camel; kamel; chameau; cammello; camello; kameel; kamelflaum",
    "cashmere": "cashmere; kashmir; kaschmir; cachemire; cachemir; cachemira; kasjmier;"
    " kasjmir; kasmir; kashmere; cashmir; kaschmere",
    "mohair": "mohair; moher",
    "angora": "angora; angorakanin; angorakaninchen; angora rabbit; lapin angora",
    "vicuna": "vicuna; vikunja; vigogne; vigogna; vicugna; vikuna",
    "yak": "yak; yack; jak",
    "guanaco": "guanaco; guanako",
    "cashgora": "cashgora; kaschgora",
    "beaver": "beaver; biber; castor; castoro; bever; baver",
    "otter": "otter; loutre; lontra; nutria; odder; oter",
    "animal hair": "animal hair; horsehair; tierhaar; rosshaar; poil animal; crin;"
    " pelo animal; crine; dierlijk haar; djurhar; dyrehar",
    "silk": "silk; seide; soie; seta; seda; zijde; silke; siden; natursilke; natursiden;"
    " helsiden; helsilke; reinseide; ganzseide;"
    " vildsilke; villsilke; rasilke; schappeseide; wildseide; silkki",
    "cotton": "cotton; baumwolle; coton; cotone; algodon; katoen; bomull; bomuld;"
    " helbomull; helbomuld; reinbaumwolle;"
    " algodao; puuvilla",
    "kapok": "kapok",
    "linen": "linen; flax; leinen; flachs; lin; lino; linnen; vlas; linne; hor; linfibre;"
    " reinleinen; ganzleinen;"
    " linho; pellava",
    "hemp": "hemp; true hemp; hanf; chanvre; canapa; canamo; hennep; hampa; hamp",
    "jute": "jute; juta; yute",
    "abaca": "abaca; manila hemp; manilahanf",
    "alfa": "alfa; esparto",
    "coir": "coir; kokos; coco; cocco; kokosfaser",
    "broom": "broom; ginster; genet; ginestra; retama; brem",
    "ramie": "ramie; rami; ramio; ramee",
    "sisal": "sisal",
    "sunn": "sunn; sunnhanf",
    "henequen": "henequen",
    "maguey": "maguey",
    "acetate": "acetate; acetat; acetato; acetaat; azetat",
    "alginate": "alginate; alginat; alginato; alginaat",
    "cupro": "cupro",
    "modal": "modal; modale",
    "protein": "protein; proteine; protein fibre; eiweiss; proteinfaser; soy protein;"
    " milk protein; milchprotein; sojaprotein; proteinica; proteica; proteinefiber",
    "triacetate": "triacetate; triacetat; triacetato; triacetaat",
    "viscose": "viscose; viskose; viscosa; viskos; rayon",
    "acrylic": "acrylic; polyacryl; acryl; acrylique; acrilica; acrilico; akryl; polyakryl;"
    " acrilic; polyacrylic; polyacrylnitril; acrylfibre;"
    " akryyli",
    "chlorofibre": "chlorofibre; polychlorid; clorofibra; chloorvezel; klorfiber",
    "fluorofibre": "fluorofibre; polyfluor; fluorfaser; fluorofibra; fluorvezel; fluorfiber",
    "modacrylic": "modacrylic; modacryl; modacrylique; modacrilica; modakryl",
    "polyamide": "polyamide; nylon; polyamid; poliammide; poliammidica; poliamida; nailon;"
    " poliamide; polyamidi",
    "aramid": "aramid; aramide; aramidica; aramida",
    "polyimide": "polyimide; polyimid; poliimmide; poliimida",
    "lyocell": "lyocell; liocel; lyocel; liocell",
    "polylactide": "polylactide; polylactid; polilattide; polilactida; polilactide",
    "polyester": "polyester; poliestere; poliester; polyesteri; pbt; polybutylenterephthalat;"
    " polybutylene terephthalate",
    "polyethylene": "polyethylene; polyathylen; polyethylen; polietilene; polietileno;"
    " polyetheen; polyeten; polyetylen",
    "polypropylene": "polypropylene; polypropylen; polipropilene; polipropileno; polypropeen;"
    " polypropen",
    "polycarbamide": "polycarbamide; polyharnstoff; policarbammide; policarbamida; polykarbamid",
    "polyurethane": "polyurethane; polyurethan; poliuretano; poliuretanica; polyuretan;"
    " polyurethaan",
    "vinylal": "vinylal; vinilal; vinilica",
    "trivinyl": "trivinyl; trivinyle; trivinilica; trivinilo",
    "elastodiene": "elastodiene; elastodien; elastodieen; elastodieno",
    "elastane": "elastane; elasthan; elasthanne; elastan; elastano; elastaan; elastam; spandex",
    "glass fibre": "glass fibre; glas; glasfaser; verre textile; vetro tessile; vidrio textil",
    "elastomultiester": "elastomultiester; elastomultiestere",
    "elastolefin": "elastolefin; elastolefine; elastolefina; elastolefinica",
    "melamine": "melamine; melamin; melammina; melamina",
    "metal fibre": "metal fibre; metal; metall; metallic; metallised; metallized;"
    " metallised fibre; metallized fibre; metallic fibre; metal fiber; metallic fiber;"
    " metallised fiber; metallized fiber; metallfaser; metallisierte faser; metallisiert;"
    " metallise; metallisee; fibre metallisee; fibre metallique; fibra metallizzata;"
    " fibra metallica; metallizzato; fibra metalizada; fibra metalica; metalizado;"
    " gemetalliseerd; gemetalliseerde vezel; metaalvezel; metaal; metallfiber; metallisk;"
    " metalliserad fiber; metalliseret fiber; metalfiber; metallisert fiber; metallise polyester;"
    " metallisiertes polyester; metallised polyester; polyester metallise;"
    " metallisierter polyester;"
    " polyester metallisiert; metallic polyester; poliestere metallizzato; poliester metalizado;"
    " gemetalliseerd polyester; metalliserad polyester; metallisert polyester;"
    " metalliseret polyester",
    "paper": "paper; papier; carta; papel; papper; papir",
    "other fibres": "other fibres; other fibers; sonstige fasern; andere fasern;"
    " autres fibres; altre fibre; otras fibras; overige vezels; andere vezels; ovriga fibrer;"
    " andre fibre; andre fibrer; ovrige fibre; ovrige fibrer",
}
"""Fibre, in lower-case English, to the words that print it."""

KINDS = {
    "merino": "merino; merinos; merina; merinoschaf; merinofar; merinovilla",
    "lambswool": "lambswool; lamb's wool; lambs wool; lammwolle; lammschurwolle; agneau;"
    " agnello; cordero; lamswol; lammull; lamull; lammeuld; lammeull; lamb; lamm; lamsuld",
    "shetland": "shetland",
    "bluefaced leicester": "bluefaced leicester; blue faced leicester; bluefaced; bfl",
    "corriedale": "corriedale",
    "falkland": "falkland",
    "cheviot": "cheviot",
    "gotland": "gotland",
    "romney": "romney",
    "polwarth": "polwarth",
    "targhee": "targhee",
    "rambouillet": "rambouillet",
    "wensleydale": "wensleydale",
    "jacob": "jacob",
    "masham": "masham",
    "icelandic": "icelandic; islandwolle",
    "highland": "highland; hochland",
    "peruvian": "peruvian",
    "superwash": "superwash; super wash; superlavable; superwashbehandlad; superwashbehandlet;"
    " superwash behandlad; superwash behandlet; superwash treated",
    "kid": "kid",
    "superkid": "superkid; super kid",
    "baby": "baby; bebe",
    "suri": "suri",
    "royal": "royal",
    "extrafine": "extrafine; extra fine; extrafein; extra fein; extrafeine; extra feine; extra fin;"
    " extrafin; extra fina; extrafina; ekstrafin; ekstra fine; ekstrafine; extra fijn;"
    " extrafijne; extra fijne; ekstra fin",
    "superfine": "superfine; super fine; superfein; superfin",
    "organic": "organic; bio; biologisch; biologische; biologique; biologico; biologica;"
    " organico; organica; ecologico; ecologica; ekologisk; okologisk; kba; kbt; organisk; eko;"
    " ecologisch; ecologische; okologische; okologischer; ekologiska; ekologiskt; okologiske;"
    " okologiskt; biologischer; organique",
    "recycled": "recycled; recycelt; recycelte; recyceltes; recycle; recyclee; riciclato;"
    " riciclata; reciclado; reciclada; gerecycled; gerecycleerd; atervunnen; resirkulert;"
    " genanvendt; recycelter; rezykliert; atervunnet; atervunna; gjenvunnet; gjenvunnen; gjenvunne;"
    " resirkulerte; genbrugt; genanvendte; recyclees; recycles; riciclati; riciclate; rigenerato;"
    " rigenerata; regenere; regeneree; regenerado; regenerada; reciclados; recicladas; recyceltem;"
    " gerecyclede; gerecycleerde; hergebruikt; hergebruikte; upcycled",
    "mulberry": "mulberry; maulbeer; murier; gelso; morera; moerbei; moerbeien; mullbar;"
    " mulbar; mulbars; mullbars; morbar; morbaer; morber",
    "tussah": "tussah; tussar; tussor; tussahseide; tasar",
    "noil": "noil; bourette",
    "pima": "pima",
    "egyptian": "egyptian; agyptische; egiziano; egipcio; egyptien;"
    " egyptisk; egyptiskt; egyptiska; egyptische; agyptisch; egipcia; egyptienne; aegyptisk",
    "mercerised": "mercerised; mercerized; mercerisiert; mercerisierte; mercerise; mercerizzato;"
    " mercerizado; gemerceriseerd; merceriserad; merceriseret; mercerisert",
    "combed": "combed; gekammt; gekammte; peigne; pettinato; peinado; gekamd; kammad; kjemmet;"
    " kaemmet; kammet",
    "microfibre": "microfibre; microfiber; mikrofaser; microfibra; microvezel; mikrofiber",
    "bamboo": "bamboo; bambus; bambou; bambu; bamboe",
    "possum": "possum",
    "qiviut": "qiviut",
    "untreated": "untreated",
}
"""The trade's refinement of a fibre to the words that print it."""

IMPLIED = {
    "merino": "wool",
    "lambswool": "wool",
    "shetland": "wool",
    "bluefaced leicester": "wool",
    "corriedale": "wool",
    "falkland": "wool",
    "cheviot": "wool",
    "gotland": "wool",
    "romney": "wool",
    "polwarth": "wool",
    "targhee": "wool",
    "rambouillet": "wool",
    "wensleydale": "wool",
    "jacob": "wool",
    "masham": "wool",
    "tussah": "silk",
    "pima": "cotton",
    "bamboo": "viscose",
    "possum": "animal hair",
    "qiviut": "animal hair",
}
"""What a kind is a kind of where it stands without a fibre's name.

Bamboo is no fibre name of the Regulation: what is spun from it is viscose.
"""

ANIMAL_HAIRS = listed(
    "alpaca; llama; camel; cashmere; mohair; angora; vicuna; yak; guanaco; cashgora;"
    " beaver; otter; animal hair"
)
"""Fibres that the Regulation lets be followed by the word wool or hair (Annex I, 2)."""

HAIR = listed("hair; haar; haare; poil; pelo; har; poils")
"""Words for hair that may follow an animal's name."""

PURE = listed(
    "pure; pur; pura; puro; reine; rein; reines; zuiver; zuivere; puur; ren; rent; rene;"
    " all; virgin; vierge; vergine; virgen; schurwolle; scheerwol; purissima; purisima;"
    " helylle; helull; heluld; reinwolle; ganzwolle; heelwol; helsiden; helsilke;"
    " reinseide; ganzseide; helbomull; helbomuld; reinbaumwolle; reinleinen; ganzleinen"
)
"""Words that say a fibre stands alone where no share is printed."""

LANDS = listed(
    "british; english; scottish; welsh; irish; european; german; swiss; austrian; french; italian;"
    " spanish; dutch; danish; swedish; norwegian; finnish; uruguayan; argentinian; chilean;"
    " australian; tasmanian; american; canadian; local; deutsche; deutscher; schweizer;"
    " osterreichische; europaische; heimische; italienische; francaise; europeenne; ecossaise;"
    " italiana; italiano; europea; europeo; espanola; espanol; nederlandse; hollandse; europese;"
    " britse; svensk; svenskt; svenska; norsk; norske; dansk; danske; finsk; finska; islandsk;"
    " islandske; europeisk; europaeisk; britisk; giza; kammgarn; kardiert; worsted; woollen; carded"
)
"""Words for where a fibre comes from, or how it was combed (common practice, no source)."""

FILLERS = (
    PURE
    | LANDS
    | listed(
        "new; neue; neu; ny; nye; nya; nytt; fine; fein; feine; feinste; finest; best;"
        " natural; natur; naturale; naturel; naturelle; echt; echte; de; d; di; of; from; aus; van;"
        " von; vom; av; af; fra; du; des; del; della; dell; the; with; mit; fibre; fiber; fibres;"
        " faser; fasern; fibra; fibras; vezel; vezels; garn; gekammte; yarn; schur; quality;"
        " qualitat; certified; spun; gesponnen; native; nativo; nativa; trashumante; transhumant;"
        " transhumante; file; filee; files; filees; hilado; hilada; filato; filata; spunnet;"
        " spunnen; spunne; spundet; gesponnene; mouton; moutons; brebis; pecora; pecore; oveja;"
        " ovejas; perle; gassed; gasiert; gasierte; gasata; gasato; gaseado; filo; scozia;"
        " sheep; schaf; schafe; schaap; schapen; peignee; cardee; pettinata; cardata;"
        " strikkegarn; strickgarn; handstrickgarn; stickgarn; breigaren; garen;"
        " handarbeidsgarn; garanterat; garanterad; garanteret; garantert; garantiert; guaranteed;"
        " garanti; garantita; garantito; garantizada; garantizado; gegarandeerd; kvalitet;"
        " kvalitets; qualite; kwaliteit;"
        " peinada; cardada; kardad; kardet; kammad; gekaard; gekaarde; karet; texelse; texelaar"
    )
)
"""Words that may stand between a share and its fibre and change nothing."""

BREEDS = listed(
    "swaledale; herdwick; hebridean; manx; loaghtan; ryeland; dorset; suffolk; southdown; lincoln;"
    " teeswater; leicester; blackface; exmoor; dartmoor; devon; welsh; kerry; bluefaced; zwartbles;"
    " coburger; heidschnucke; heidschnucken; rhonschaf; skudde; skudden; bergschaf; juraschaf;"
    " drents; drentse; kempens; kempense; mergellandse; schoonebeeker; veluwse; swifter;"
    " ouessant; arles; berrichon; solognote; solognotes; bizet; raiole; raioles; basque; bearnaise;"
    " bergamasca; biellese; sarda; sopravissana; sopravvissana; comisana; gentile; moscia;"
    " churra; castellana; xisqueta; ripollesa; guirra; lacha; latxa; manchega; carranzana;"
    " rya; ryafar; finnfar; gutefar; helsingefar; pelsfar; dalapalsfar; klovsjofar; gotlandsfar;"
    " steigar; gotlandsk; spaelsau; spelsau; villsau; pelssau; blaeset; gammelnorsk;"
    " leicesterfar; spaelsaulam; gotlaender"
)
"""Sheep of which there is wool (breeds of nine countries, entered from memory): the wool they give
is wool."""

UNDYED = listed(
    "undyed; unbleached; ungefarbt; ungefarbte; ungebleicht; ungebleichte; naturfarben;"
    " naturfarbene; ecrue; tinta; tingere; tenir; sin; non; teinte; teintes; blanchie; ofargad;"
    " ofargat; oblekt; ufarget; ubleket; ufarvet; ubleget; ongeverfd; ongeverfde; ongebleekt;"
    " ongebleekte"
)
"""Words for fibre in its own colour."""

LISTERS = listed("and; und; et; e; ed; y; en; og; och")
"""Words that part two fibres of one list."""


def words_of(table: dict[str, str]) -> dict[str, str]:
    """The table turned round: printed word to its name."""
    return {word: name for name, words in table.items() for word in listed(words)}
