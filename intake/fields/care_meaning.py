"""What a clause of care says, from the meanings of its words."""

from __future__ import annotations

from collections.abc import Collection, Sequence

_IRON_HEATS_C = {110: "low", 150: "medium", 200: "high"}
_HEATS = ("low", "medium", "high")

NO_SUN = "no sun"
"""Kind of a clause that forbids the sun and does not say for what."""

Kinds = tuple[str, ...]
"""Kinds of events (:mod:`intake.fields.care_events`); none where a clause is not understood."""


def kinds_of(meanings: Sequence[str], celsius: Sequence[int]) -> Kinds:
    """What words of these ``meanings`` (keys of
    :data:`~intake.fields.care_concepts.MEANINGS`) say together, with the temperatures
    printed among them in degrees Celsius."""
    said = set(meanings)
    forbids = "not" in said or "without" in said
    if "or" in said or {"not", "without"} <= said:
        return ()
    if forbids and said - {"not", "without"} == {"sun"}:
        return (NO_SUN,)
    things = _things(said, celsius)
    if len(things) != 1:
        return ()
    thing = things[0]
    if thing == "wash":
        return _washing(said, celsius, forbids)
    if thing == "iron":
        return _ironing(said, celsius, forbids)
    if thing == "dry":
        return _drying(said, forbids)
    if thing == "tumble":
        return _tumbling(said, forbids)
    if thing == "bleach":
        return _bleaching(said, forbids)
    if thing == "other":
        return ("other",)
    name = {"clean": "dry clean", "wet": "wet clean"}[thing]
    return (f"do not {name}",) if forbids else (name,)


def _things(said: Collection[str], celsius: Sequence[int]) -> list[str]:
    """What the clause is about.  Drying in a machine is tumbling; to wash or dry by the
    cleaner is cleaning."""
    things = {"tumble", "clean", "wet", "bleach", "iron", "wash", "dry", "other"} & set(said)
    if "oxygen" in said:
        things.add("bleach")
    if "dry" in things and "machine" in said and "wash" not in things:
        things.add("tumble")
    if "wet" in things:
        things.discard("clean")
    if things & {"clean", "wet"}:
        things -= {"wash", "dry"}
    if "tumble" in things:
        things.discard("dry")
    by_machine = ("program" in said and {"mild", "wool"} & set(said)) or (
        "machine" in said and celsius
    )
    if not things and by_machine:
        things.add("wash")
    if not things and ({"flat", "shade"} & set(said) or set(said) == {"hang"}):
        things.add("dry")
    return sorted(things)


def _washing(said: Collection[str], celsius: Sequence[int], forbids: bool) -> Kinds:
    by_program = "program" in said
    mild = ("mild",) if "mild" in said or (by_program and {"wool", "hand"} & set(said)) else ()
    if {"hand", "machine"} <= set(said) and not by_program:
        return ()
    if "hand" in said and not by_program:
        return () if forbids else ("hand wash",)
    if forbids:
        if mild:
            return ()
        if "machine" in said:
            return ("no machine",)
        return ("other",) if celsius else ("do not wash",)
    if "machine" in said:
        return ("machine", *mild)
    return mild if celsius or by_program else ()


def _ironing(said: Collection[str], celsius: Sequence[int], forbids: bool) -> Kinds:
    heats = {heat for heat in _HEATS if heat in said}
    heats |= {_IRON_HEATS_C[degrees] for degrees in celsius if degrees in _IRON_HEATS_C}
    if "mild" in said and not heats:
        heats = {"low"}
    if "steam" in said and forbids and not heats:
        return ()
    if len(heats) > 1:
        return ()
    if not heats:
        return ("do not iron",) if forbids else ()
    heat = heats.pop()
    if forbids and "steam" not in said:
        return ("iron low",) if heat == "high" else ()
    return (f"iron {heat}",)


def _drying(said: Collection[str], forbids: bool) -> Kinds:
    shaded = "shade" in said or ("sun" in said and (forbids or "away" in said))
    if forbids and not ("sun" in said and not {"flat", "hang", "shade"} & set(said)):
        return ()
    if {"flat", "hang"} <= set(said):
        return ()
    place: Kinds = ()
    if "flat" in said:
        place = ("dry flat",)
    elif "drip" in said:
        place = ("drip line dry",)
    elif "hang" in said:
        place = ("line dry",)
    return place + (("dry in shade",) if shaded else ())


def _tumbling(said: Collection[str], forbids: bool) -> Kinds:
    gentle = "low" in said or "mild" in said
    hot = "high" in said
    if gentle and (forbids or hot):
        return ()
    if forbids:
        return ("tumble dry low",) if hot else ("do not tumble dry",)
    return ("tumble dry low",) if gentle else ("tumble dry",)


def _bleaching(said: Collection[str], forbids: bool) -> Kinds:
    if "oxygen" in said:
        return () if forbids else ("oxygen bleach only",)
    if forbids:
        return ("do not bleach",)
    return ("any bleach",) if "allow" in said else ()
