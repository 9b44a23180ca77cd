"""Words that houses, shops, works and unions of the trade have in their names and yarns hardly
ever, in nine languages (common practice, no source).

All are folded as by :class:`intake.fields.letters.Folded`; Germanic languages put other words
before many of them without a space.
"""

from __future__ import annotations

import re

BY_WORDS = (
    "from the house of|de la maison"
    "|aus dem hause|aus dem haus|aus der|de chez|dalla|dal|de la casa|uit het huis"
    "|by|von|par|door|av|af|fra|fran|from|por|bei|vom|di|da|van|de"
)
"""Words before a maker's name, "Drystone by Hollin Fold"; the last five stand within names
as well."""

_KIN = (
    r"fratelli|sorelle|hermanos|hermanas|gebroeders|gebruder|brodrene|broderna|brodr\.?|systrarna"
    r"|sostrene|gebr\.?|geschw\.?|geschwister|gezusters|erven"
    r"|f\.?lli|figli[aeo]? di|hij[oa]s de|hnos\.?|viuda de|vda\.? de|veuve|vve\.?|witwe|wwe\.?"
    r"|freres|soeurs|sohne|zonen|sonner|soner"
    r"|filles de|(?:&|et|und|y|og|och|en|e|and) (?:son|daughter|sister|brother|sohn|tochter|bruder"
    r"|schwester|datter|dotter|soster|syster|bror|zoon|zus|broer|soeur|frere|fratello"
    r"|sorella|hermano|hermana|cie|cia|comp|compagnie|compagnia|compania|partner[es]?|c\.)"
)
"""Whose house it is."""

_SHOPS = (
    r"\w*butikk?(?:en|er)?|boutiques?|\w*boetiek|(?:wol|garen|brei|handwerk|stoffen|dorps|hobby)\w*"
    r"winkel(?:tje)?|(?:woll|garn|strick|faden|hof|dorf|kram|handarbeits)laden|kramerei|kramladen"
    r"|negozio|tienda|tiendecita|almacen|merceri[ae]s?|merceries|mercer[so]?|merceros?"
    r"|fournitures|fournituren|kurzwaren|haberdash\w+|drapers?|drapery"
    r"|\w*sybehor(?:et)?|\w*sytilbehor(?:et)?|\w*sybod\w*|needlecrafts?"
)
_STORES = (
    r"\w*kaufhalle|kaufhaus|\w*warenhaus|\w*varehus(?:et)?|\w*varuhus(?:et)?|warenhuis"
    r"|(?:grands? )?magasins|(?:grandi )?magazzini|almacenes|department stores?|stores"
    r"|super(?:markt|marked|marche|mercato|mercado)|hypermarket|hypermarche|ipermercato|hipermercado"
    r"|outlet|\w*versand(?:haus)?|importers?|imports?|importaciones|importazioni|export"
    r"|grand bazar|emporio|restposten\w*|grootwinkel|\w*handels\w*"
    r"|\w*gro(?:ss|ot)handel|grossist\w*|engros|trading"
)
_WORKS = (
    r"\w*fabrikk?(?:en)?|\w*fabriek|fabbriche?|fabricas?|fabriques?|factory|factories"
    r"|(?:farge|farg|farve|garn|ull|uld|strikke|stick|textil|tekstil|spinn|woll|faden|farb|strick)"
    r"(?:verk(?:et)?|vaerk(?:et)?|werke?|werkerei)|mfg\.?|manufacturers|manufactures|manufacturas"
    r"|ateliers|\w+macherei|peignages?|pettinatura|matasseria|filanda|skeinery|fiber ?works"
    r"|laborator(?:io|y)|\w*kammgarnspinner\w*|usines?|tissages|teinturiers?"
)
_DYERS = (
    r"tenidos a mano|(?:hand|haand|vaxt|plante|ull|uld|garn)(?:farg|farv)(?:arna|erne|eren|aren)"
    r"|teintures|tinture|tintes|tintoreros?|tintori|(?:farge|farg|farve)(?:gryt|kittel|gryd|kar)\w*"
    r"|farb(?:kessel|topf)\w*|verf(?:ketel|pot|kuip)\w*|dye ?(?:pot|kettle|vat|shed|barn|lab)s?"
)
_KNITTERS = (
    r"generos de punto|trikotas\w*|trikotage\w*|tricotages?|(?:strick|wirk|strumpf)waren"
    r"|(?:strik|strikke|trika)(?:varer?|varor)|maglier(?:ie|ia)|calcetin(?:es|eria)|hosiery"
    r"|hosiers|passementerie|passamaneria|pasamaneria|posament\w*|bonnetiers?"
)
_UNIONS = (
    r"rebano|kudde|gregge|troupeau|ovejas de|pecore di|moutons de|schapen van|algodones|sauene pa"
    r"|\w+verein(?:igung)?|\w*forening(?:en)?|samvirkel?a?g?(?:et)?|\w*samvirke|\w*andels\w*|\w+laug(?:et)?"
    r"|guild|gilde|collective|collectif|collettivo|colectivo|kollektiv(?:et)?|consorzio|consorcio"
    r"|consortium|association|associazione|asociacion|vereniging|sociedad|societa|societat"
)

HOUSE_WORDS = re.compile(
    rf"(?<!\w)(?:{'|'.join((_KIN, _SHOPS, _STORES, _WORKS, _DYERS, _KNITTERS, _UNIONS))})(?!\w)"
)
