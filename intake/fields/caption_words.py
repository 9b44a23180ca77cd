"""Words that captions are made of, in nine languages (common practice, no source).

All are folded as by :class:`intake.fields.letters.Folded`: lower case, no accents.
"""

from __future__ import annotations

CALLED = (
    "my name is", "i am called", "they call me", "ich heisse", "mein name ist", "je m'appelle",
    "mon nom est", "on m'appelle", "mi chiamo", "il mio nome e", "me llamo", "mi nombre es",
    "ik heet", "mijn naam is", "jag heter", "mitt namn ar", "jeg heter", "mitt navn er",
    "jeg hedder", "mit navn er", "this colour is called", "this color is called",
    "this shade is called", "diese farbe heisst", "cette couleur s'appelle",
    "questo colore si chiama",
    "este color se llama", "deze kleur heet", "fargen heter", "farven hedder", "our name for it",
)  # fmt: skip
"""What a tag that speaks for itself says before its shade's name, or the yarn's."""

NAMES = ("name", "nom", "nome", "nombre", "naam", "namn", "navn")
"""A caption only where a colon follows or nothing else stands in the line."""

LINES_OF_YARN = (
    "line", "sorte", "garnsorte", "base", "reihe", "gamme", "linea", "lijn", "linje", "linie",
    "gama",
    "description", "bezeichnung", "designation", "denominazione", "denominacion", "omschrijving",
    "benamning", "betegnelse", "soort",
)  # fmt: skip
"""Captions of a range with a colon behind, or alone in their line."""

YARN = (
    *LINES_OF_YARN,
    "yarn", "garn", "garen", "fil", "filato", "hilo", "laine", "wolle", "wool", "produkt",
    "product", "produit", "prodotto", "producto", "lana", "ull", "uld", "wol",
)  # fmt: skip
"""Those and captions of a range only with a colon behind: makers are named so, too."""

NUMBERED_LOTS = (
    # English, German
    "dye", "dye run", "dye pot", "pot", "kettle", "cauldron", "pt", "prt", "kessel",
    "farbkessel", "farbtopf", "sud", "farbsud", "kochung",
    # French, Italian, Spanish
    "chaudron", "marmite", "pentolone", "calderone", "vasca", "tintatura", "caldero", "tina",
    "tanda", "tanda de tinte", "tanda de tenido", "tenido", "tinte", "ptda",
    # Dutch, Swedish, Norwegian, Danish
    "ketel", "verfketel", "verfkuip", "verfpan", "gryta", "fargryta", "gryte", "fargegryte",
    "gryde", "farvegryde", "kok", "fargkok", "fargekok", "kog", "farvekog", "kokning", "koking",
    "kogning", "verfronde", "verfbeurt", "fargkittel", "kittel", "fargekjele", "kjele",
    "farvekedel", "kedel", "farbegang", "farbposten", "farbeposten", "farbansatz", "fournee",
    "cuvee", "trempe", "infornata", "hornada", "remesa", "omgang", "fargomgang", "ansatz",
    "brew", "brygd", "brygg", "bryg", "brouwsel",
    # a word of two letters or three
    "dl", "lt", "bd", "fbd", "vb", "kb", "bno", "bgo", "tda",
)  # fmt: skip
"""What a lot was dyed in or at, and shortened words: captions only before a number."""

NATURAL_SHADES = (
    "natural colour", "natural color", "natural shade", "fleece colour", "fleece color",
    "yarn colour", "yarn color", "naturfarbe", "naturton", "tierfarbe", "wollfarbe",
    "vliesfarbe", "garnfarbe", "couleur naturelle", "coloris naturel", "teinte naturelle",
    "couleur du fil", "colore naturale", "tinta naturale", "colore del filato", "color natural",
    "tono natural", "color del hilo", "natuurkleur", "natuurlijke kleur", "garenkleur",
    "vachtkleur", "naturfarg", "naturlig farg", "garnfarg", "naturfarge", "naturlig farge",
    "garnfarge", "naturfarve", "naturlig farve", "garnfarve",
)  # fmt: skip
"""Captions of a shade only with a colon behind: "natural colour" by itself is a name."""

WORDS: dict[str, tuple[str, ...]] = {
    "lot": (
        # English
        "dye lot", "dyelot", "lot", "batch", "dye batch", "dye bath",
        # German
        "partie", "part", "ptie", "farbpartie", "farbepartie", "farbbad", "farbebad", "faerbebad",
        "charge",
        "chargen", "farbchargen", "farbecharge", "farbung",
        # French
        "bain", "bain de teinture", "lot de teinture", "bain de couleur",
        # Italian
        "bagno", "bagno di tintura", "bagno di colore", "bagno colore", "bgn", "lotto", "partita",
        # Spanish
        "bano", "bano de tinte", "lote", "lote de tinte", "partida", "tintada",
        # Dutch
        "verfbad", "kleurbad", "verfpartij", "partij", "bad",
        # Swedish, Norwegian, Danish
        "fargbad", "fargparti", "parti", "fargebad", "fargeparti", "innfarging", "farvebad",
        "farveparti", "indfarvning", "infargning", "farvning", "farging", "fargning",
        "fargbads", "fargparti", "fargebads",
        "farvebads", "innfargings", "indfarvnings", "infargnings", "farbbads", "verfbads",
        "anfertigung", "farbcharge", "teinture", "tintura", "d/lot", "dye vat", "farvelot",
        "cuve", "cuve de teinture", "farbflotte", "fargelot", "kleurpartij", "verflot", "kleurlot",
        "produktionslos", "farblos", "numero de lot",
        "kettlot",
        "fargebadet", "farvebadet", "fargbadet", "partiet", "farbelos", "anfarbung", "einfarbung",
        "verfnummer", "verfnr", "verfcharge", "kleurcharge",
        "sats", "fargsats", "farvesats", "fargesats", "produktionssats",
        # abbreviated
        "bain de teint", "bain teint", "los nr", "los no", "los", "bath", "innf", "indf",
        "indfarv nr", "innfarg nr", "infargn nr", "fargn nr", "indfarv", "innfarg",
        "farb los", "bagno tint", "bano tinte",
        # Finnish and Portuguese
        "era", "eranumero", "eranro", "varjayseran numero", "varjaysera", "banho",
        "banho de tinturaria", "lote de tintura",
        # with a word that is a shade's caption by itself
        "bagno tinta", "bagno di tinta", "lotto colore", "lotto tinta", "bain teinte",
        "bain couleur", "lot de couleur", "lot couleur", "bano color", "bano de color",
        "lote de color", "lote color", "partida de color", "partida de tinte", "partida de tintura",
        "lote de tintura", "lotto di tintura", "partita di tintura", "partita di tinta",
        "partita di colore", "partita tinta", "partita colore",
        "partida tinta", "partida color", "lote tinte", "lote tinta", "lot de coloris",
        "bain de coloris", "numero di bagno",
        # of what was made or dyed at one time
        "dyebath", "production lot", "production batch", "lot de fabrication", "lot de production",
        "lotto di produzione", "lote de fabricacion", "lote de produccion", "productiepartij",
        "productielot", "tillverkningsparti", "produktionsparti", "produksjonsparti",
        "produktionspartie", "fertigungslos", "dyed in lot", "gefarbt in partie",
        # shortened, or of one going through the dye
        "d/l", "dlot", "badje", "verfbadje", "kleurbadje", "bg", "farvegang", "fargegang",
        "farggang", "farbgang", "farveomgang", "fargeomgang", "verfgang",
        *NUMBERED_LOTS,
    ),
    "shade": (
        "kolorit", "ton", "fargenyanse", "fargnyans", "farvenuance", "shade", "sh", "shd", "shde",
        "colour", "color", "colourway", "colorway", "col", "colr", "clr", "cw",
        "farbe", "farb", "farbton", "fb", "fbe",
        "coloris", "couleur", "teinte", "nuance", "coul",
        "colore", "colori", "tinta", "tonalita", "tono",
        "kleur", "kl", "ki", "tint",
        "fargen", "farven", "kuloren",
        "farg", "fargton", "farbzahl", "kulor", "nyans", "farge", "fargetone", "farve", "farvetone",
        "farbnuance", "fv", "farv", "fg", "hue", "nyanse", "tonalidad", "matiz", "sfumatura",
        "vari", "varinumero", "varinro", "savy", "cor", "tonalidade",
        "tone", "farbschlussel", "kleurstelling", "variante", "variant", "fargens", "farvens",
        "fargstallning", "nom de la couleur", "nom du coloris", "nome del colore",
        "farbbezeichnung", "farbebezeichnung", "farvebetegnelse", "fargebetegnelse",
        "fargbenamning",
        "kleuraanduiding", "kleuromschrijving", "designation couleur", "denominazione colore",
        "denominacion del color",
        "nome della tinta", "nombre del color", "nombre del tono", "naam van de kleur",
        "kleurtint", "tonart", "kol", "kulorton", "fargeton", "farvenuance", "farbstellung", "tom",
        # of the first colour of a kit
        "hauptfarbe", "grundfarbe", "hoofdkleur", "basiskleur", "huvudfarg", "grundfarg",
        "hovedfarge", "bunnfarge", "hovedfarve", "bundfarve",
        *NATURAL_SHADES, *CALLED, *NAMES,
    ),
    "range": (
        "quality", "qualitat", "qualite", "qualita", "calidad", "kwaliteit", "kvalitet",
        "range", "garnqualitat", "yarn name", "name of yarn", "garnname", "garnnamn", "garnnavn",
        "laatu", "qualidade", "nome do fio", "langan nimi",
        "nom du fil", "nome filato", "nome del filato", "nombre del hilo", "garennaam",
        *YARN,
    ),
    "number": (
        "article", "art", "artikel", "articolo", "articulo", "artikkel", "item", "ref", "reference",
        "referenz", "referencia", "riferimento", "referens", "referanse", "style", "model",
        "modell", "modele", "modello", "modelo", "order", "bestell", "best", "commande", "ordine",
        "pedido", "bestelling", "customer", "client", "kunde", "kunden", "kund", "klant", "cliente",
        "varenr", "varenummer", "varunr", "varunummer", "vare", "sku", "cod", "codice", "code",
        "codigo", "kod", "kode", "clave",
        "ean", "gtin", "upc", "isbn", "barcode", "tel", "telephone", "telefon", "telefono", "tlf",
        "fon", "phone", "telefoon", "fax", "mobil", "plz", "cap", "cp", "po box", "postfach",
        "boite postale", "postbus", "vat", "ust-id", "ust", "p iva", "iva", "cif", "nif", "siret",
        "btw", "moms", "cvr", "org nr", "reg", "register", "registro", "rn", "patent", "id", "rev",
        "revision",
        "date", "datum", "data", "fecha", "dato", "packed", "price", "prix", "preis", "precio",
        "prezzo", "pris", "prijs", "pattern", "anleitung", "modele no", "serie", "series",
        "collection", "kollektion", "seit", "since", "est", "anno",
        "bestelcode", "sachnummer", "stock", "item code", "parcel", "paket", "colis", "pacco",
        "paquete", "pakket", "pakke", "report", "bericht", "prufbericht", "rapporto", "informe",
        "certificate", "certificat", "zertifikat", "certificato", "certificado", "certificaat",
        "certifikat", "sertifikat",
        "packed on", "packing date", "packed in", "verpackt", "verpackt am", "verpackt im",
        "abgepackt", "abgepackt am", "packdatum", "emballe le", "conditionne le",
        "date d'emballage", "confezionato il", "imballato il", "envasado el", "empaquetado el",
        "verpakt op", "ingepakt op", "inpakdatum", "packad den", "forpackad den", "forpackad",
        "pakket den", "pakket d", "pakkedato",
    ),
    "topic": (
        "needle", "needles", "knitting pins", "knitting needles", "hook", "nadel", "nadeln",
        "nadelstarke", "aiguille", "aiguilles",
        "crochet", "ferri", "ferro", "uncinetto", "agujas", "aguja", "ganchillo", "naald",
        "naalden", "naalddikte", "haaknaald", "stickor", "sticka", "virknal", "pinner", "pinne",
        "pinde", "pind", "heklenal", "haeklenal", "tension", "gauge", "maschenprobe", "echantillon",
        "campione", "muestra", "stekenproef", "masktathet", "masketetthet", "stickfasthet",
        "strikkefasthet", "strikkefasthed", "stekenverhouding", "proeflapje",
        "composition", "zusammensetzung", "material", "materia", "materia prima", "materiale",
        "materiaal", "matiere", "composizione", "composicion",
        "samenstelling", "sammansattning", "sammensetning", "sammensaetning", "fibre", "fiber",
        "length", "lauflange", "ll", "longueur", "metrage", "lunghezza", "longitud", "lengte",
        "metraggio", "metraje", "metragem", "yardage", "meterage",
        "looplengte", "langd", "lengde", "laengde", "lopelengde", "loblaengde", "lobelaengde",
        "lobelengde", "lopmeter", "loplangd", "garnlangd", "gross weight", "bruttogewicht",
        "nettogewicht", "nettovikt", "lange", "knauelgewicht", "stranggewicht", "spulengewicht",
        "bolgewicht", "strenggewicht", "nystvikt", "nystanvikt", "nystanets vikt", "harvvikt",
        "nostevekt", "hespevekt", "noglevaegt", "noglevegt", "fedvaegt",
        "nettovekt", "nettovaegt", "poids brut", "peso lordo", "peso netto", "peso bruto",
        "peso neto", "netto", "brutto", "lordo",
        "weight", "gewicht", "poids", "peso", "vikt", "vekt", "vaegt", "net weight", "poids net",
        "care", "pflege", "entretien", "lavaggio", "lavado", "wasvoorschrift", "tvattrad",
        "vaskerad", "pleierad", "plejerad", "vask",
        "washing", "instructions", "instruktion", "pflegehinweis", "pflegehinweise",
        "pflegeanleitung", "waschanleitung", "conseils", "manutenzione", "istruzioni", "cuidado",
        "cuidados", "conservacion", "instrucciones", "onderhoud", "verzorging", "skotsel",
        "tvatt", "skotselrad", "vedlikehold", "vaskeanvisning", "stell", "pleje", "plejeanvisning",
        "vedligeholdelse", "wash", "recommended",
        "put-up", "put up", "contents", "content", "inhalt", "contenu", "contenuto", "contenido",
        "inhoud", "innehall", "innhold", "indhold", "thickness", "garnstarke", "garndicke",
        "epaisseur", "grosseur", "grossezza", "spessore", "grosor", "garendikte", "dikte",
        "garntjocklek", "tjocklek", "garntykkelse", "tykkelse", "draaddikte", "tradtjocklek",
        "tradtykkelse", "fadenstarke", "fadendicke", "grosseur du fil", "epaisseur du fil",
        "spessore del filo", "grosor del hilo",
        "category", "kategori", "kategorie", "categoria", "categorie", "type de fil",
        "tipo di filato", "tipo de hilo", "garntype", "garntyp", "garnsoort",
        "yarn type", "type of yarn", "titolo", "titre", "titulo", "nm", "tex",
        "net content", "net contents", "net mass", "contenu net", "contenuto netto",
        "contenido neto", "netto inhoud", "nettoinhoud", "nettoinnehall", "nettoinnhold",
        "nettoindhold", "nettofullmenge", "fullmenge", "fullgewicht", "fullmasse",
        "run length", "length per ball",
        "fadenlange", "longueur du fil", "lunghezza filo", "lunghezza del filo", "metri circa",
        "metros aprox", "largo del hilo", "draadlengte", "tradlangd", "tradlengde", "tradlaengde",
        "yarn class", "garngruppe", "garngrupp", "starke", "categoria filato", "clase de hilo",
        "garenklasse", "stitch count", "sample square", "probequadrat", "carre d'essai",
        "quadrato di prova", "cuadrado de prueba", "proeflap", "provruta", "proverute",
        "provefirkant", "mode de lavage", "modo de lavado", "wasinstructie", "tvattanvisning",
        "fibres used", "rohstoff", "grondstof", "composition textile", "fibre tessili",
        "size", "grosse", "taille", "taglia", "talla", "maat", "storlek", "storrelse",
    ),
}  # fmt: skip
"""The captions by what they announce, as :class:`intake.fields.captions.Role` names it."""
