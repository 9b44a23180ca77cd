"""The mildest care that all yarns of one garment bear, after ISO 3758:2012.

What a tag leaves unsaid is never made up: the sum says who is silent, and what a careful
person does then.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce

from intake.fields.fibre.names import ANIMAL_HAIRS
from intake.records import FibrePart
from intake.sums.ball import Ball
from intake.sums.care_limits import (
    ASPECTS,
    BY_HAND,
    FLAT,
    GRADES_UNSAID,
    IN_SUN,
    UNSAID,
    WRUNG,
    Limits,
    Subject,
    both,
    limits_of,
    loosest,
    process_name,
)
from intake.wording import care_processes, fibre_parts

WHEN_UNSAID: Mapping[Subject, Limits] = {
    Subject.WASHING: (30, BY_HAND),
    Subject.BLEACHING: (0,),
    Subject.TUMBLE_DRYING: (0,),
    Subject.NATURAL_DRYING: (FLAT, WRUNG, IN_SUN),
    Subject.IRONING: (0,),
    Subject.DRY_CLEANING: (0, 0),
    Subject.WET_CLEANING: (0,),
}
"""How a careful person treats a yarn whose tag is silent: common practice, no source."""

Choices = tuple[Limits, ...]
"""What a yarn bears of one subject: one process, or several of which any may be chosen."""


@dataclass(frozen=True, slots=True)
class YarnCare:
    """One yarn of a garment: what its tag, or else the maker sheet, says of its care.

    ``records`` are the ids of its balls.  ``stated`` has the subjects that are spoken of;
    ``unread`` the words of the care cell that are no process, ``grades`` how processes
    without a grade are taken.  ``assumed`` has those of the columns ``care`` and ``fibre``
    that the maker sheet fills.
    """

    name: str
    records: tuple[str, ...]
    stated: Mapping[Subject, Choices]
    fibres: tuple[FibrePart, ...] = ()
    unread: tuple[str, ...] = ()
    grades: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()

    def is_silent(self, subject: Subject) -> bool:
        """Whether the tag leaves ``subject`` open; a shade alone says not how to dry."""
        said = self.stated.get(subject)
        return said is None or any(UNSAID in limits for limits in said)


@dataclass(frozen=True, slots=True)
class SubjectCare:
    """Care of one subject for all yarns together.

    ``stated`` are the processes, any one of them to be chosen, that all yarns bear which
    speak of the subject; none where no yarn does.  ``forced_by`` maps an aspect of it
    (``temperature``) to the names of the yarns that hold it down; it is empty where all
    agree.  ``silent`` names the yarns that leave it open, and ``treat_as`` is what to do
    for their sake; it is ``stated`` where none is silent.
    """

    subject: Subject
    stated: tuple[str, ...]
    forced_by: Mapping[str, tuple[str, ...]]
    silent: tuple[str, ...]
    treat_as: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CommonCare:
    """Care of a garment: ``yarns`` that it is made of, each subject, and what to beware."""

    yarns: tuple[YarnCare, ...]
    subjects: tuple[SubjectCare, ...]
    cautions: tuple[str, ...]


def common_care(balls: Iterable[Ball]) -> CommonCare:
    """The mildest common care of the yarns that ``balls`` are of; at least one ball."""
    yarns = yarns_of(balls)
    if not yarns:
        raise ValueError("no yarn to care for")
    subjects = tuple(subject_care(subject, yarns) for subject in Subject)
    return CommonCare(yarns, subjects, tuple(cautions(yarns, subjects)))


# The yarns


def yarns_of(balls: Iterable[Ball]) -> tuple[YarnCare, ...]:
    """The yarns of ``balls``: those of one name that say the same are one."""
    alike: defaultdict[tuple[str, str, str], dict[str, Ball]] = defaultdict(dict)
    for ball in balls:
        said = (yarn_name(ball), ball.text("care"), ball.text("fibre"))
        alike[said][ball.record.id] = ball
    named = Counter(name for name, _, _ in alike)
    return tuple(
        yarn_care(name if named[name] == 1 else f"{name} (record {min(same)})", same)
        for (name, _, _), same in alike.items()
    )


def yarn_name(ball: Ball) -> str:
    """Maker, range, shade and shade code; the id where the tag names none of them."""
    words = (ball.text(column) for column in ("maker", "range", "shade", "shade_code"))
    return " ".join(word for word in words if word) or ball.record.id


def yarn_care(name: str, balls: Mapping[str, Ball]) -> YarnCare:
    """What the yarn ``name`` says of its care; ``balls``, by id, all say the same."""
    ball = next(iter(balls.values()))
    said: dict[Subject, list[Limits]] = {}
    unread, grades = [], []
    for process in care_processes(ball.text("care")):
        try:
            subject, limits = limits_of(process)
        except KeyError:
            unread.append(process)
            continue
        said.setdefault(subject, []).append(limits)
        if process in GRADES_UNSAID:
            grades.append(f"{process}: {GRADES_UNSAID[process]}")
    return YarnCare(
        name,
        tuple(balls),
        {subject: choices_among(subject, limits) for subject, limits in said.items()},
        _fibres(ball.text("fibre")),
        tuple(unread),
        tuple(grades),
        tuple(column for column in ("care", "fibre") if ball.is_assumed(column)),
    )


def choices_among(subject: Subject, said: Sequence[Limits]) -> Choices:
    """What one tag's processes of one subject leave to choose.

    All that a tag says holds together, but for one case: a wash by hand printed beside a
    machine's programme is offered in its stead.
    """
    by_hand = [limits for limits in said if subject is Subject.WASHING and limits[-1] == BY_HAND]
    others = [limits for limits in said if limits not in by_hand]
    if by_hand and others and reduce(both, others)[-1] > BY_HAND:
        return (*by_hand[:1], reduce(both, others))
    return (reduce(both, said),)


def _fibres(text: str) -> tuple[FibrePart, ...]:
    try:
        return fibre_parts(text) if text else ()
    except ValueError:  # someone wrote into the stash by hand
        return ()


# One subject


def subject_care(subject: Subject, yarns: Sequence[YarnCare]) -> SubjectCare:
    """What ``yarns`` together bear of ``subject``."""
    said = {yarn.name: yarn.stated[subject] for yarn in yarns if subject in yarn.stated}
    silent = tuple(yarn.name for yarn in yarns if yarn.is_silent(subject))
    common = borne_by_all(said.values())
    treated = borne_by_all([*said.values(), (WHEN_UNSAID[subject],)]) if silent else common
    return SubjectCare(
        subject,
        tuple(process_name(subject, limits) for limits in common),
        forced_by(subject, said, common),
        silent,
        tuple(process_name(subject, limits) for limits in treated),
    )


def borne_by_all(yarns: Iterable[Choices]) -> Choices:
    """The loosest limits that lie within a choice of every yarn."""
    common: list[Limits] = []
    for number, choices in enumerate(yarns):
        met = [both(one, two) for one in common for two in choices]
        common = loosest(met if number else choices)
    return tuple(common)


def forced_by(
    subject: Subject, said: Mapping[str, Choices], common: Choices
) -> dict[str, tuple[str, ...]]:
    """Aspect by aspect, the yarns that hold it down where another would bear more."""
    forced = {}
    for place, aspect in enumerate(ASPECTS[subject]):
        bears = {name: max(limits[place] for limits in said[name]) for name in said}
        held = max((limits[place] for limits in common), default=0)
        if any(most > held and most != UNSAID for most in bears.values()):
            forced[aspect] = tuple(name for name, most in bears.items() if most == held)
    return forced


# What to beware


def cautions(yarns: Sequence[YarnCare], subjects: Sequence[SubjectCare]) -> Iterable[str]:
    """What to beware of, most pressing first.  Common practice, no source."""
    yield from _about_tags(yarns)
    yield from _felting(yarns)
    drying = next(one for one in subjects if one.subject is Subject.NATURAL_DRYING)
    if any("flat" in process for process in drying.treat_as):
        yield "a stuffed toy filled with polyester need not be dried flat: it may hang to dry"
    if len(yarns) > 1:
        yield (
            "several yarns: wash a swatch of all of them together first; one may shrink or "
            "lose colour where another does not"
        )
    animal = _names(yarns, lambda yarn: any(_is_animal(part) for part in yarn.fibres))
    if animal:
        yield f"animal fibre in {animal}: ask whoever will wear it about allergy and itching"
    yield (
        "for a child's garment or a toy: small parts can come off, and fibres burn; keep to the "
        "local rules on small parts and flammability, which balltag does not know"
    )
    yield (
        "where a tag says otherwise, follow the tag and local rules; professional care is for "
        "licensed practice"
    )


def _about_tags(yarns: Sequence[YarnCare]) -> Iterable[str]:
    for yarn in yarns:
        if yarn.unread:
            words = "; ".join(yarn.unread)
            yield f"{yarn.name}: not understood and left out: {words}; correct the record"
        for grade in yarn.grades:
            yield f"{yarn.name}: {grade}"
        if yarn.assumed:
            yield (
                f"{yarn.name}: {' and '.join(yarn.assumed)} assumed from the maker sheet, not read"
            )


def _felting(yarns: Sequence[YarnCare]) -> Iterable[str]:
    felts = _names(yarns, lambda yarn: any(_felts(part) for part in yarn.fibres))
    if felts:
        yield (
            f"may felt: {felts}, for superwash is not stated: by hand or the machine's wool cycle, "
            "no rubbing, no change of heat, dry flat"
        )
    unknown = _names(yarns, lambda yarn: not yarn.fibres)
    if unknown:
        yield f"fibre not stated: {unknown}; take it for wool that felts"


def _felts(part: FibrePart) -> bool:
    return _is_animal(part) and "superwash" not in part.kind.split()


def _is_animal(part: FibrePart) -> bool:
    return part.fibre == "wool" or part.fibre in ANIMAL_HAIRS


def _names(yarns: Sequence[YarnCare], chosen: Callable[[YarnCare], bool]) -> str:
    return ", ".join(dict.fromkeys(yarn.name for yarn in yarns if chosen(yarn)))
