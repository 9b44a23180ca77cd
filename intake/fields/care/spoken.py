"""Words of care as a label that speaks says them, to whom it asks and of itself: "lávame".

Common practice, no source; all are folded.
"""

from __future__ import annotations

from collections.abc import Mapping

from intake.fields.care.forms import worded

SPOKEN: Mapping[str, frozenset[str]] = {
    "wash": worded(
        """
        lavame lavala lavalo laveme lavela lavarme lavarla lavenme
        lavami lavatemi lavarmi lavaci
        """
    ),
    "dry": worded(
        """
        secame secalo secala sequeme sequela secarme secarlo secarla
        asciugami asciugalo asciugala asciugatemi asciugarmi asciugarlo asciugarla
        """
    ),
    "iron": worded(
        """
        planchame planchalo planchala plancharme plancharlo
        stirami stirarmi stirarlo
        """
    ),
}
"""Meaning to the words that have it."""
