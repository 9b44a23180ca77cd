"""What a clause of care says, from the meanings of its words."""

from __future__ import annotations

from collections.abc import Collection, Sequence

_IRON_HEATS_C = {110: "low", 150: "medium", 200: "high"}
"""Highest temperature of the sole plate (ISO 3758) to the heat."""

_HEAT_ROUNDED_C = 1
"""A heat printed in degrees Fahrenheit is off by so much: 300 °F, 390 °F."""

_HEATS = ("low", "medium", "high")

HOTTEST_BY_HAND_C = 40
"""Hands wash no hotter (ISO 3758, from memory): a washing that is hotter is the machine's."""

_HOTTEST_WASH_C = 95
"""Nothing is washed hotter (ISO 3758, from memory)."""

NO_SUN = "no sun"
"""Kind of a clause that forbids the sun and does not say for what."""


HOT_OR_WARM = "hot-or-warm"
"""A word of the north that is an iron of 200 °C to some and one of 150 °C to others."""

_ANYWHERE = frozenset({"not", "without", "allow", "or", "other", "harm", "ruin", "hardly", "ill"})
_HOW_HOT = frozenset({*_HEATS, "heat", "above", HOT_OR_WARM})
_BESIDE: dict[str, frozenset[str]] = {
    "wash": _HOW_HOT | {"hand", "machine", "program", "wool", "mild", "normal"},
    "bleach": frozenset({"oxygen", "wash", "far"}),
    "tumble": _HOW_HOT | {"dry", "machine", "program", "mild", "away", "far", "normal"},
    "dry": frozenset({"flat", "hang", "unhung", "spread", "drip", "shade", "sun"})
    | {"away", "far", "heat", "mild"},
    "iron": _HOW_HOT | {"steam", "steamed", "program", "wool", "mild", "dry", "far"},
    "clean": frozenset({"wash", "dry", "mild"}),
    "wet": frozenset({"clean", "wash", "mild"}),
    "other": _HOW_HOT
    | {"wash", "hand", "machine", "program", "wool", "mild", "steam", "hang", "drip"},
}
"""Meanings that words beside a thing may have, by the thing."""


_THINGS = frozenset({"tumble", "clean", "wet", "bleach", "iron", "wash", "dry", "other", "oxygen"})
"""What a clause can be about."""

_SUFFERED = frozenset({"harm", "wash", "wool", "machine", "or", "other", "allow"}) | {
    *_HEATS,
    "heat",
    "above",
}
"""What wool suffers from, none of it told to be done."""


_ONLY_HOT = frozenset({"wash", "allow", "heat", HOT_OR_WARM, *_HEATS})
"""What tells how hot to wash and not by what."""


def iron_heat(celsius: int) -> str:
    """The heat of an iron of so many degrees Celsius: high, medium or low; empty for another."""
    return next(
        (heat for at, heat in _IRON_HEATS_C.items() if abs(at - celsius) <= _HEAT_ROUNDED_C), ""
    )


_TUMBLING_HEATS_C = {60: "low", 80: "normal"}
"""Highest temperature of the air that leaves a dryer (ISO 3758, from memory) to the heat."""


def tumbling_heat(celsius: int) -> str:
    """The heat of a dryer of so many degrees Celsius: low or normal; empty for another."""
    return next(
        (heat for at, heat in _TUMBLING_HEATS_C.items() if abs(at - celsius) <= _HEAT_ROUNDED_C), ""
    )


_ONLY_MACHINE = frozenset({"not", "machine", "allow", "program", "normal"})
"""What names a machine, which washes where nothing else is told of it."""

_WASHED_WITHOUT_BLEACH = {"without", "bleach", "wash"}

Kinds = tuple[str, ...]
"""Kinds of events (:mod:`intake.fields.care.events`); none where a clause is not understood."""


def kinds_of(meanings: Sequence[str], celsius: Sequence[int]) -> Kinds:
    """What words of these ``meanings`` (keys of
    :data:`~intake.fields.care.concepts.MEANINGS`) say together, with the temperatures
    printed among them in degrees Celsius."""
    said = _tempered(set(meanings))
    if "steamed" in said and {"not", "without", "far"} & said:
        return ()  # it may be the steam alone that is forbidden, or the heat
    if "unhung" in said:
        return _unhung(meanings, celsius)
    if "ill" in said and "allow" in said:
        return ()  # "tolerates the dryer badly"
    said.discard("ill")
    if "ruin" in said and "hardly" in meanings:
        return ()
    if "ruin" in said:
        return _ruined(said - {"ruin", "allow", "harm", "wool"}, celsius)
    forbids = "not" in said or "without" in said
    if "far" in said and said & {"iron", "bleach", "oxygen"}:
        return _kept_far(said - {"far", "allow"}, celsius)
    said = said - {"far"} | ({"away"} if "far" in said else set())
    if _is_remark(said, celsius):
        return ("other",)
    if "or" in said or {"not", "without"} <= said:
        return ()
    if said == {"not", "above", "heat"} and max(celsius, default=0) <= _HOTTEST_WASH_C:
        return ("wash",)
    if (forbids or "away" in said) and said - {"not", "without", "away"} == {"sun"}:
        return (NO_SUN,)
    if said - {"allow"} == _WASHED_WITHOUT_BLEACH:
        return ("do not bleach",)
    things = _things(said, celsius)
    if len(things) != 1:
        return ()
    thing = things[0]
    if "harm" in said and thing not in ("wash", "dry", "other") and not forbids:
        return ()  # "shrinks in the dryer"
    if thing == "wash":
        return _washing(said, celsius, forbids)
    if thing == "iron":
        return _ironing(said, celsius, forbids)
    if thing == "dry":
        return _drying(said, forbids)
    if thing == "tumble":
        return _tumbling(said, forbids, celsius)
    if thing == "bleach":
        return _bleaching(said, forbids)
    if thing == "other":
        return () if celsius and "machine" in said else ("other",)
    name = {"clean": "dry clean", "wet": "wet clean"}[thing]
    return (f"do not {name}",) if forbids else (name,)


def _unhung(meanings: Sequence[str], celsius: Sequence[int]) -> Kinds:
    """What a clause says that tells to dry "without hanging": that something lies, or, by itself,
    nothing that has a process."""
    left = [name for name in meanings if name not in ("unhung", "without")]
    if not left and not celsius:
        return ("other",)
    alone = meanings.count("without") == meanings.count("unhung") and "not" not in left
    return kinds_of(left, celsius) if alone and "flat" in left else ()


def _tempered(said: set[str]) -> set[str]:
    """``said``, a heat that is hardly one told as the lowest: "barely warm"."""
    if "hardly" not in said:
        return said
    hot = {*_HEATS, HOT_OR_WARM}
    return said - {"hardly", *hot} | ({"low"} if said & hot else set())


def _ruined(said: set[str], celsius: Sequence[int]) -> Kinds:
    """What a clause forbids that says of the things of ``said`` that they ruin the yarn; nothing
    where it tells of how hot or how else, or that they do not."""
    if said == {"sun"}:
        return (NO_SUN,)
    if celsius or said & {"not", "without", "or", "mild", "other", "hand", "program"}:
        return ()
    if said & {*_HEATS, HOT_OR_WARM, "heat", "above"}:
        return ()
    things = _things(said, celsius)
    if len(things) != 1 or things[0] not in ("tumble", "bleach", "iron", "clean", "wet", "wash"):
        return ()
    return kinds_of(["not", *sorted(said)], ())


def _kept_far(said: set[str], celsius: Sequence[int]) -> Kinds:
    """What a clause forbids that keeps an iron or bleach from the yarn; nothing where it tells
    more than that."""
    if len(said) != 1 or celsius:
        return ()
    return {"iron": ("do not iron",), "bleach": ("do not bleach",)}.get(min(said), ())


def _is_remark(said: Collection[str], celsius: Sequence[int]) -> bool:
    """Whether a clause tells of nothing that has a process: how wool suffers, what is done with
    wet wool, that it is steamed, or washed without softener."""
    about = set(said)
    if "harm" in about:
        told = bool({"wash", *_HEATS} & about)
        return not celsius and told and about <= _SUFFERED
    if "steam" in about and about <= {"steam", "not", "without", "allow", "mild", "low", "or"}:
        return True
    if "other" in about and "wash" in about:
        return not celsius and about <= {"other", "wash", "without", "mild", "or"}
    if celsius and "machine" in about:
        return False  # what it is not to do is told beside the washing
    return "other" in about and not about & (_THINGS - {"other"})


def hang_together(meanings: Sequence[str], celsius: Sequence[int]) -> bool:
    """Whether words of these ``meanings`` can all be about the one thing that they speak of: a
    bleach is not hung up."""
    said = set(meanings)
    if "ruin" in said:
        said -= {"wool"}
    if said - {"allow"} == _WASHED_WITHOUT_BLEACH:
        return True
    return all(said <= {thing, *_ANYWHERE, *_BESIDE[thing]} for thing in _things(said, celsius))


def _things(said: Collection[str], celsius: Sequence[int]) -> list[str]:
    """What the clause is about.  Drying in a machine is tumbling; to wash or dry by the
    cleaner is cleaning."""
    things = {*_THINGS} & set(said) - {"oxygen"}
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
    by_program = "program" in said and {"mild", "wool"} & set(said)
    by_machine = "machine" in said and (celsius or set(said) <= _ONLY_MACHINE)
    if not things and (by_program or by_machine):
        things.add("wash")
    if "tumble" in things and {"flat", "hang", "spread", "shade", "drip"} & set(said):
        things.add("dry")  # nothing is dried in both ways
    only_hung = _is_hung(said) and set(said) <= {
        "hang",
        "spread",
        "drip",
        "not",
        "sun",
        "away",
        "allow",
    }
    if not things and (only_hung or {"flat", "shade"} & set(said)):
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
        if {"high", "medium", HOT_OR_WARM} & set(said) and not celsius:
            return ("other",)
        if mild:
            return ()
        if "machine" in said:
            return ("no machine",)
        if celsius and "above" in said:
            return ("wash",)  # "not above 30 °C" is the washing's heat
        return ("other",) if celsius else ("do not wash",)
    if "machine" in said or any(degrees > HOTTEST_BY_HAND_C for degrees in celsius):
        return ("machine", *mild)
    if set(said) <= _ONLY_HOT:
        return ("wash",)
    if celsius and "normal" in said:
        return ("machine", *mild)  # hands have no "normal cycle"
    return mild if celsius or by_program else ()


def _ironing(said: Collection[str], celsius: Sequence[int], forbids: bool) -> Kinds:
    heats = {heat for heat in _HEATS if heat in said}
    heats |= {heat for degrees in celsius if (heat := iron_heat(degrees))}
    if HOT_OR_WARM in said and not heats:
        return ("iron low",) if forbids else ("iron",)  # to be told by its degrees
    if "mild" in said and not heats:
        heats = {"low"}
    if "steam" in said and forbids and not heats:
        return ()
    if forbids and len(celsius) == 1 and {"above", "high"} & set(said):
        # "Not hotter than 110 °C" names the heat that is allowed.
        allowed = iron_heat(celsius[0])
        return (f"iron {allowed}",) if allowed else ()
    if len(heats) > 1:
        return ()
    if not heats:
        return ("do not iron",) if forbids else ()
    heat = heats.pop()
    if forbids and "steam" not in said:
        return ("iron low",) if heat == "high" else ()
    return (f"iron {heat}",)


def _drying(said: Collection[str], forbids: bool) -> Kinds:
    if forbids and set(said) <= {"not", "hang", "dry", "allow"} and "hang" in said:
        return ("other",)
    if "not" in said and "sun" in said and set(said) <= {"not", "sun", "hang", "spread", "dry"}:
        return ("dry in shade",)
    shaded = "shade" in said or ("sun" in said and (forbids or "away" in said))
    if forbids and not ("sun" in said and not {"flat", "hang", "spread", "shade"} & set(said)):
        return ()
    if {"flat", "hang"} <= set(said):
        return ()
    place: Kinds = ()
    if "flat" in said:
        place = ("dry flat",)
    elif "drip" in said:
        place = ("drip line dry",)
    elif _is_hung(said):
        place = ("line dry",)
    return place + (("dry in shade",) if shaded else ())


def _is_hung(said: Collection[str]) -> bool:
    """Whether what dries is hung, or spread with no word that it lies."""
    return "hang" in said or ("spread" in said and "flat" not in said)


def _tumbling(said: Collection[str], forbids: bool, celsius: Sequence[int]) -> Kinds:
    if celsius:
        return _tumbling_at(said, forbids, celsius)
    forbids = forbids or "away" in said
    gentle = "low" in said or "mild" in said
    hot = "high" in said
    if {"medium", HOT_OR_WARM} & set(said) or (gentle and (forbids or hot)):
        return ()
    if "normal" in said and (forbids or gentle or hot):
        return ()  # "moderate" is the lower of two heats, "medium" the higher one
    if forbids:
        return ("tumble dry low",) if hot else ("do not tumble dry",)
    return ("tumble dry low",) if gentle else ("tumble dry",)


def _tumbling_at(said: Collection[str], forbids: bool, celsius: Sequence[int]) -> Kinds:
    """What a clause says of a dryer that is so hot; nothing where it is neither of the two heats,
    is said to be another one, or is not the hottest that is allowed."""
    heats = {heat for at in celsius if (heat := tumbling_heat(at))}
    if len(celsius) != 1 or not heats or "without" in said or "away" in said:
        return ()
    heat = heats.pop()
    gentle, hot = bool({"low", "mild"} & set(said)), bool({"high", "medium", "normal"} & set(said))
    if HOT_OR_WARM in said or (hot and heat == "low") or (gentle and heat != "low"):
        return ()
    if forbids and not ("above" in said or ("high" in said and heat != "low")):
        return ()
    return ("tumble dry low",) if heat == "low" else ("tumble dry",)


def _bleaching(said: Collection[str], forbids: bool) -> Kinds:
    if "oxygen" in said:
        return () if forbids else ("oxygen bleach only",)
    if forbids:
        return ("do not bleach",)
    return ("any bleach",) if "allow" in said else ()
