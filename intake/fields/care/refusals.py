"""Words, and rows of words, that forbid as strongly as a label can, in nine languages.

"Under no circumstances" and its like count as one word that forbids: a part of it, alone at the
end of a line, says nothing.  Common practice, no source; all are folded.
"""

from __future__ import annotations

import re

from intake.fields.care.forms import GERMAN, formed, worded
from intake.fields.letters import listed

IMPOSSIBLE = formed("unmoglich", GERMAN) | worded(
    """
        impossible impossibles impossibile impossibili imposible imposibles onmogelijk onmogelijke
        umulig umuligt umulige omojlig omojligt omojliga unthinkable undenkbar
        """
)
"""Words that say of what stands beside them that it cannot be done."""

UNSUITED = worded(
    """
        olamplig olampligt olampliga otillaten otillatet otillatna otjanlig otjanligt
        uegnet uegnede uegna utilradelig utilradelige utilladelig utilladeligt utillatelig
        ungeeignet unpassend untauglich inadapte inadaptee inadaptes inadaptees inapte inaptes
        inadatto inadatta inadatti inadatte inadeguato inadeguata inidoneo inidonea
        inadecuado inadecuada inadecuados inadecuadas inapropiado inapropiada inapto inapta
        ongeschikt ontoelaatbaar unsuited unsuitable inappropriate
        """
)
"""Words that say of what stands beside them that it does not suit the yarn."""

BY_NO_MEANS = worded("keinesfalls keineswegs keinerlei mitnichten geenszins nimmer") | listed(
    "under no circumstances; under no circumstance; under no condition; on no account; in no case;"
    " in no event; by no means; at no time; in no way; no kind of; no sort of; no type of;"
    " no form of; leave out all; leave out any; steer clear of; keep clear of; stay clear of;"
    " unter keinen umstanden; unter gar keinen umstanden; unter keiner bedingung; auf keinen fall;"
    " auf gar keinen fall; in keinem fall; in keiner weise; in keinster weise; auf keine weise;"
    " zu keiner zeit; keine art von; keine form von;"
    " en aucun cas; en aucune facon; en aucune maniere; en aucune circonstance; d'aucune facon;"
    " d'aucune maniere; sous aucun pretexte; a aucun prix; aucun type de; aucun type d;"
    " aucune sorte de; aucune sorte d; aucune forme de; aucune forme d; d'aucune sorte;"
    " d'aucun type; d'aucun genre;"
    " in nessun caso; in nessun modo; in alcun modo; in alcun caso; per nessun motivo;"
    " per alcun motivo; per nessuna ragione; per alcuna ragione; sotto nessun pretesto;"
    " nessun tipo di; nessun genere di; nessuna forma di; di nessun tipo; di nessun genere;"
    " di alcun tipo; di alcun genere;"
    " en ningun caso; en ningun momento; bajo ningun concepto; bajo ningun pretexto;"
    " bajo ninguna circunstancia; de ninguna manera; de ningun modo; de ninguna forma;"
    " por ningun motivo; ningun tipo de; ninguna clase de; ninguna forma de; de ningun tipo;"
    " de ninguna clase;"
    " in geen geval; in geen enkel geval; onder geen beding; onder geen enkel beding;"
    " onder geen enkele omstandigheid; onder geen omstandigheden; onder geen enkele voorwaarde;"
    " op geen enkele manier; op geen enkele wijze; geen enkele soort; geen soort; geen vorm van;"
    " geen enkele vorm van;"
    " under inga omstandigheter; under inga forhallanden; pa inga villkor; i inget fall;"
    " pa inget satt; pa inga vis; inga slags; inget slags; inga typer av; ingen typ av;"
    " ingen form av; ingen sorts;"
    " under ingen omstaendigheder; pa ingen made; pa ingen vilkar; i intet tilfaelde;"
    " under ingen omstendigheter; pa ingen mate; i intet tilfelle; ingen form for; ingen slags;"
    " ingen type; ingen typer"
)
"""How a label says "never" and "none" in more words than one, or in one that holds both."""

LEFT_OUT = worded(
    """
        weglassen weggelassen weglaten weggelaten verzichten verzichte verzichtet oublier oubliez
        overslaan prescindir prescinda prescindere olvide olvidar olvidese slipp slippe
        """
) | listed(
    "lasciar perdere; lasciare perdere; lasciate perdere; lasciar stare;"
    " se passer de; se passer du; passez vous de; se passe de;"
    " achterwege laten; achterwege blijven; lat bli; lat bli att; la vaere a"
)
"""Words that tell to do without what stands beside them."""

FREE_OF = listed(
    "free from; free of; frei von; exempt de; exempte de; exento de; exenta de; libre de;"
    " esente da; privo di; priva di; vrij van; fri for; fritt for; fri fran; fritt fran"
)
"""Words that say of soap and its like what is not in them."""

_CHLORINE = worded("chlorine chlor chlore cloro chloor klor")

FREE_OF_CHLORINE = frozenset(f"{free} {chlorine}" for free in FREE_OF for chlorine in _CHLORINE)
"""What is said so of bleach that has no chlorine: it is allowed."""

REFUSALS = IMPOSSIBLE | BY_NO_MEANS

UNPRESSED = (
    " skal ikke presses; ma ikke presses; presses ikke; pressas ej; pressas inte; far ej pressas;"
    " far inte pressas; ska ej pressas; ska inte pressas"
)
"""How the north forbids to iron by its word for pressing."""

BROKEN = re.compile(
    r"(?<![a-z])(?:"
    + "|".join(
        r"[\s'-]{1,2}".join(re.split(r"[ ']", one))
        for one in sorted(REFUSALS, key=len, reverse=True)
        if " " in one
    )
    + r")(?![a-z])"
)
"""Rows of words that forbid together, over the end of a line or not."""
