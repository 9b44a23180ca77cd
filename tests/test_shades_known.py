"""Known shades: lookup by maker and range, and the shade card."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from matplotlib.colors import XKCD_COLORS
from rapidfuzz.distance import Levenshtein

from intake.errors import BadTable, ExitCode
from intake.shades.confusion import cost_of, differences, slip_limit
from intake.shades.known import KnownShade, KnownShades, ShadeGroup, read_card
from intake.shades.spelling import key

HEADER = "maker,range,shade,shade_code\n"


def card(tmp_path: Path, content: str | bytes) -> Path:
    path = tmp_path / "card.csv"
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def near_names(group: ShadeGroup, text: str) -> list[str]:
    return [near.shade for near in group.near(text)]


@pytest.mark.parametrize("text", ["Sea Mist", "SEA MIST", "Seamist", "sea-mist", "Séa  Mist"])
def test_spelling_habits_do_not_hide_a_known_shade(text: str) -> None:
    known = KnownShades([KnownShade("Quillfen", "Brook 4", "Sea Mist")])
    (near,) = known.everything.near(text)
    assert near.is_same
    assert near.shade == "Sea Mist"


def test_space_between_digits_makes_another_shade() -> None:
    assert key("Fog 1 2") == key("Fog 1-2") != key("Fog 12")


def test_lookup_goes_from_range_to_maker() -> None:
    known = KnownShades(
        [
            KnownShade("Quillfen", "Brook 4", "Dusk"),
            KnownShade("Quillfen", "Fell 8", "Nebel"),
            KnownShade("Otterholt", "Brook 4", "Moss"),
        ]
    )
    groups = known.own_groups("QUILLFEN", "brook 4")
    assert [len(group) for group in groups] == [1, 2]
    assert near_names(groups[0], "dusk") == ["Dusk"]
    assert near_names(groups[1], "nebel") == ["Nebel"]


def test_tag_without_a_maker_is_looked_up_everywhere_and_a_new_maker_nowhere() -> None:
    known = KnownShades([KnownShade("Quillfen", "Brook 4", "Dusk")])
    assert known.own_groups(None, None) == [known.everything]
    assert known.own_groups("Otterholt", "Brook 4") == []


def test_tag_without_a_range_is_looked_up_among_the_makers_shades() -> None:
    known = KnownShades([KnownShade("Quillfen", "Brook 4", "Dusk", "0411")])
    (group,) = known.own_groups("Quillfen", None)
    assert group.shades_of("0411") == ("Dusk",)


def test_shade_added_during_a_run_is_known_to_the_next_tag() -> None:
    known = KnownShades()
    assert known.everything.near("Dusk") == []
    known.add(KnownShade("Quillfen", "Brook 4", "Dusk", "0411"))
    known.add(KnownShade("Quillfen", "Brook 4", "DUSK", "0511"))
    assert near_names(known.everything, "dusk") == ["Dusk"]
    assert known.everything.codes_of("dusk") == ("0411", "0511")


def test_record_without_a_shade_teaches_nothing() -> None:
    known = KnownShades([KnownShade("Quillfen", "Brook 4", "", "0411")])
    assert len(known.everything) == 0


def test_codes_are_told_apart_by_their_leading_zeros() -> None:
    known = KnownShades([KnownShade("Quillfen", "Brook 4", "Dusk", "0411")])
    assert known.everything.shades_of("411") == ()
    assert known.everything.shades_of("0411") == ("Dusk",)


def test_quick_search_finds_what_weighing_every_name_finds() -> None:
    # Source of the names: XKCD colour survey, carried by matplotlib.
    rng = random.Random(2)
    names = rng.sample([name.removeprefix("xkcd:") for name in XKCD_COLORS], 300)
    group = ShadeGroup()
    for name in names:
        group.add(name)
    reads = [_with_letter_changed(rng, name) for name in names[:40]]
    found = wanted = 0
    for read, nears in zip(reads, group.near_each(reads), strict=True):
        costs = {name: cost_of(differences(key(read), key(name))) for name in names}
        all_near = {name for name, cost in costs.items() if cost <= slip_limit(len(key(read)))}
        quick = {near.shade for near in nears}
        assert quick <= all_near
        found, wanted = found + len(quick), wanted + len(all_near)
    assert wanted >= 40
    assert found / wanted > 0.9


def _with_letter_changed(rng: random.Random, name: str) -> str:
    at = rng.randrange(len(name))
    return name[:at] + rng.choice("aeot1mk") + name[at + 1 :]


def test_nearest_shade_comes_first() -> None:
    group = ShadeGroup()
    for name in ("Dust", "Dusk", "Nebel"):
        group.add(name)
    assert near_names(group, "Dvsk") == ["Dusk"]
    assert near_names(group, "Dusk") == ["Dusk", "Dust"]
    # Source: rapidfuzz's Levenshtein on the same names.
    assert Levenshtein.distance("dusk", "dust") == 1


def test_card_keeps_codes_as_text_and_passes_other_columns_over(tmp_path: Path) -> None:
    content = (
        "\ufeffshade_code,Shade,note,maker,range\r\n"
        '0012,"Blue, deep",x,Quillfen,Brook 4\r\n'
        ",,,,\r\n"
        "007,Grüner Tee,,Quillfen,\r\n"
    )
    assert read_card(card(tmp_path, content)) == [
        KnownShade("Quillfen", "Brook 4", "Blue, deep", "0012"),
        KnownShade("Quillfen", "", "Grüner Tee", "007"),
    ]


def test_card_joins_the_shades_of_the_stash(tmp_path: Path) -> None:
    known = KnownShades([KnownShade("Quillfen", "Brook 4", "Dusk")])
    known.add_card(card(tmp_path, HEADER + "Quillfen,Brook 4,Nebel,0413\n"))
    assert [len(group) for group in known.own_groups("Quillfen", "Brook 4")] == [2, 2]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "maker, range, shade, shade_code"),
        (b"maker,range,shade\nQuillfen,Brook 4,Dusk\n", "there is no shade_code;"),
        (b"maker range shade shade_code\n", "parted by commas"),
        (b"maker,range,shade,shade,shade_code\n", "shade stands twice;"),
        (HEADER.encode() + b"Quillfen,Brook 4,Blue, deep,0012\n", "line 2: 5 cells"),
        (HEADER.encode() + b"Quillfen,Brook 4,Dusk\n", "line 2: 3 cells"),
        (HEADER.encode() + "Quillfen,Brook 4,Grün,1\n".encode("latin-1"), "not in UTF-8"),
        (HEADER.encode() + b'Quillfen,Brook 4,"Dusk,1\n', "no line of a CSV file"),
    ],
)
def test_card_that_is_none_is_told_in_one_line(tmp_path: Path, content: bytes, said: str) -> None:
    with pytest.raises(BadTable) as caught:
        read_card(card(tmp_path, content))
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)
    assert caught.value.exit_code is ExitCode.BAD_STASH


def test_card_that_is_not_there_or_a_folder_is_told(tmp_path: Path) -> None:
    for path in (tmp_path / "nowhere.csv", tmp_path):
        with pytest.raises(BadTable, match=r"shade card .* cannot be read"):
            read_card(path)
