"""What is asked of names, where more than one place asks it or looks for it.

This imports nothing, so that whoever files tags needs no more of the parser for it.
"""

from __future__ import annotations

PLACE_ONLY = "nothing but its place says that"


def may_be_either(name: str) -> str:
    """What is asked of a range beside a maker, called ``name``, that is not sure."""
    return f"'{name}' may be the range as well as the maker"


def may_be_range_or_maker(name: str) -> str:
    """What is asked of a range on a tag whose maker only its web address names."""
    return f"'{name}' may be the name of the range or of the maker"
