"""Words for colours in nine languages, folded (common practice, no source).

They tell the name of a shade from that of a range where a tag has no caption for either.
"""

from __future__ import annotations

import re
import unicodedata

from intake.fields.letters import Folded

_WORDS = (
    # English
    "white|black|grey|gray|red|blue|green|yellow|brown|pink|purple|orange|violet|ivory|cream|ecru"
    "|beige|navy|teal|turquoise|mustard|rust|charcoal|burgundy|maroon|fuchsia|coral|salmon|lilac"
    "|lavender|plum|aubergine|terracotta|anthracite|silver|gold|golden|copper|bronze|indigo|ochre"
    "|jade|emerald|scarlet|crimson|magenta|mauve|khaki|petrol|off-white|undyed|variegated|marled"
    # German
    "|weiss|schwarz|rosa|lila|bunt|natur|creme|senf|rost|anthrazit|silber|kupfer|ocker|weinrot"
    "|tuerkis|turkis|koralle|flieder|pflaume|smaragd|ungefarbt|meliert"
    # French
    "|blanc|blanche|noir|noire|gris|grise|rouge|bleu|bleue|vert|verte|jaune|brun|brune|marron|rose"
    "|violette|ecrue|ivoire|moutarde|rouille|bordeaux|corail|saumon|prune|argent|cuivre|anis"
    # Italian
    "|bianco|bianca|nero|nera|grigio|grigia|rosso|rossa|blu|azzurro|azzurra|celeste|verde|giallo"
    "|gialla|marrone|arancio|arancione|viola|avorio|panna|senape|ruggine|antracite|argento|oro|rame"
    # Spanish
    "|blanco|blanca|negro|negra|rojo|roja|azul|amarillo|amarilla|gris|marron|naranja|morado|morada"
    "|crudo|marfil|mostaza|burdeos|granate|turquesa|antracita|plata|dorado|cobre"
    # Dutch
    "|wit|zwart|grijs|rood|blauw|groen|geel|bruin|roze|paars|oranje|ecru|creme|mosterd|roest"
    "|antraciet|zilver|goud|koper|oker|turkoois"
    # Swedish, Norwegian, Danish
    "|vit|svart|gra|rod|bla|gron|gul|brun|rosa|lila|natur|senap|rost|antracit|silver|guld|koppar"
    "|hvit|hvid|sort|gronn|sennep|rust|solv|gull|kobber|turkis|meleret|melerad|melert|ufarvet"
    # in several of them
    "|marine|marin[oe]?|marinbla|olive|oliva|oliven|taupe|gra(?:ph|f)it\\w*|mint|menta|menthe|munt|mocca"
    "|mokk?a|cognac|[ck]aramell?[oe]?|apricot|albicocca|abricot|albaricoque|aprikose?|abrikoos"
    "|himbeere?|framboise|lampone|frambuesa|framboos|hallon|hindbaer|bringebaer|raspberry|kirsche?"
    "|cerise|ciliegia|cereza|kers|cherry|kirsebaer|korsbar|tabacco|tabaco|tabak|baksteen|ziegel"
    "|brique|mattone|cannella|canela|cannelle|zimt|kaneel|kanel|cinnamon|sabbia|salbei|sauge|salie"
    "|avellana|nocciola|noisette|hazelnoot|haselnuss|pistache|pistacchio|pistacho|pistazie|rahvid"
    "|rahvit|ravit"
)
_ENDINGS = (
    r"weiss|schwarz|grau|rot|blau|grun|gruen|gelb|braun|rosa|violett|wit|zwart|grijs|rood|blauw|groen"
    r"|geel|bruin|paars|vit|svart|rod|bla|gron|gul|brun|lilla|hvit|hvid|gronn"
)
_GREY = re.compile(r"\w{3,}grå(?!\w)")
"""The one ending that many other words have without its ring."""

_COLOUR = re.compile(rf"(?<!\w)(?:{_WORDS}|\w{{3,}}(?:{_ENDINGS}))(?!\w)")

_ONE_COLOUR = re.compile(_WORDS)


_HOW = (
    "light|dark|pale|deep|mid|off|bright|hell|dunkel|mittel|clair|claire|fonce|casse|chiaro|chiara"
    "|scuro|scura|claro|clara|oscuro|oscura|licht|donker|ljus|mork|lys|natural|naturel|naturelle"
    "|naturale|melange|melierte?|heather|lilla"
)
"""Words that tell what a colour is like."""

_PLAIN = re.compile(rf"(?:{_WORDS}|{_HOW}|\w{{3,}}(?:{_ENDINGS}))")


def is_plain_colour(text: str) -> bool:
    """Whether every word of ``text`` is a colour or tells how light or dark it is: "Blanc cassé",
    "Lys lilla"."""
    words = re.findall(r"[^\W\d_]+", Folded(text).text)
    return has_colour_word(text) and all(_PLAIN.fullmatch(word) for word in words)


def has_colour_word(text: str) -> bool:
    """Whether a word for a colour stands in ``text``, as in many names of shades."""
    is_grey = _GREY.search(unicodedata.normalize("NFC", text).casefold()) is not None
    return is_grey or _COLOUR.search(Folded(text).text) is not None


def is_only_colours(text: str) -> bool:
    """Whether ``text`` is one word for a colour and nothing else, as a range is hardly named."""
    return _ONE_COLOUR.fullmatch(Folded(text).text) is not None
