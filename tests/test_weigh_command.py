"""The commands that weigh a part ball and that speak yarn numbers."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pint
import pytest

from intake.cli import main
from intake.errors import ExitCode
from intake.filing.cabinet import open_cabinet
from intake.filing.changes import Action
from intake.records import FibrePart
from intake.reports.weighing import give_or_take
from intake.sums.balls import balls
from tests.filing_tags import tag

WOOL = (FibrePart("wool", "", 100.0),)


@dataclass(frozen=True)
class Done:
    """What a command left behind."""

    returncode: int
    stdout: str
    stderr: str


Balltag = Callable[..., Done]


@pytest.fixture
def balltag(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Balltag:
    """The command line, run within this process, which is quicker."""

    def run(*arguments: str | Path) -> Done:
        monkeypatch.setattr(sys, "argv", ["balltag", *map(str, arguments)])
        with pytest.raises(SystemExit) as left:
            main()
        out, err = capsys.readouterr()
        return Done(int(left.value.code or 0), out, err)

    return run


@pytest.fixture
def stash(tmp_path: Path) -> Path:
    """Kelp in lot 0012 twice, Gorse in lot 88 and, of unknown fibre, Moss in lot 5."""
    path = tmp_path / "stash.csv"
    cabinet = open_cabinet(path)
    for picture, fields in (
        ("a.jpg", {}),
        ("b.jpg", {}),
        ("c.jpg", {"shade": "Gorse", "lot": "88"}),
        ("d.jpg", {"shade": "Moss", "lot": "5", "fibre": None}),
    ):
        known = {"fibre": WOOL, "length_m": 200.0, "mass_g": 100.0, **fields}
        cabinet.file(tag(picture, 1, **known))
    return path


def test_a_weighing_is_kept_and_told(balltag: Balltag, stash: Path) -> None:
    before = stash.read_bytes()
    done = balltag("weigh", "88", "37", "--room", "dry radiator", "--stash", stash)
    assert done.returncode == ExitCode.OK, done.stderr
    assert "Gorse 041, lot 88" in done.stdout
    assert "m left of 200 m" in done.stdout
    for source in ("steps of 1 g", "dry radiator, 38 % ± 8 %", "common practice", "together"):
        assert source in done.stdout
    assert stash.read_bytes() == before
    gorse = next(ball for ball in balls(open_cabinet(stash)) if ball.record.lot == "88")
    # 37 g on a radiator are 37 / 0.94 g at standard air: common practice, no source.
    assert gorse.left_g == pytest.approx(37 / 0.94, abs=0.3)
    assert gorse.left_m == pytest.approx(2 * 37 / 0.94, abs=0.6)
    assert gorse.length_m == 200.0


@pytest.mark.parametrize(
    ("amount", "plus_minus", "said"),
    [(151.6, 10.5, "152 m ± 11 m"), (151.6, 9.9, "151.6 m ± 9.9 m"), (3.1, 0.2, "3.1 m ± 0.2 m")],
)
def test_a_plus_minus_is_said_in_two_digits(amount: float, plus_minus: float, said: str) -> None:
    # JCGM 100:2008, 7.2.6.
    assert give_or_take(amount, plus_minus, "m") == said


def test_json_says_what_the_history_keeps(balltag: Balltag, stash: Path) -> None:
    done = balltag("weigh", "Gorse", "37.5", "--humidity", "45", "--step", "0.5", "--tare", "2",
                   "--stash", stash, "--json")  # fmt: skip
    said = json.loads(done.stdout)
    (change,) = open_cabinet(stash).history.changes(said["record"])
    assert change.action is Action.WEIGHED
    assert {name: said[name] for name in change.new} == {
        name: float(text) for name, text in change.new.items()
    }
    assert said["kept"] is True
    assert (said["balance_g"], said["tare_g"], said["humidity_pct"]) == (37.5, 2.0, 45.0)
    assert {share["source"] for share in said["budget"]} >= {"scale", "tare", "winding"}


def test_a_dry_run_keeps_nothing(balltag: Balltag, stash: Path) -> None:
    done = balltag("weigh", "88", "37", "--dry-run", "--stash", stash)
    assert done.returncode == ExitCode.OK
    assert "Nothing was kept" in done.stdout
    assert "--humidity or --room narrows" in done.stdout
    assert open_cabinet(stash).history.changes() == []


def test_two_balls_of_a_lot_are_asked_about_and_told_apart_by_what_is_left(
    balltag: Balltag, stash: Path
) -> None:
    done = balltag("weigh", "0012", "37", "--stash", stash)
    assert done.returncode == ExitCode.USAGE
    assert "2 balls go by '0012'" in done.stderr
    first = balls(open_cabinet(stash))[0].record.id
    assert balltag("weigh", first, "37", "--stash", stash).returncode == ExitCode.OK
    again = balltag("weigh", "0012", "37", "--stash", stash)
    assert "200 m left" in again.stderr
    assert again.stderr.count("200 m left") == 1


def test_a_missing_fibre_is_asked_for(balltag: Balltag, stash: Path) -> None:
    done = balltag("weigh", "5", "37", "--stash", stash)
    assert done.returncode == ExitCode.USAGE
    assert "the fibre of" in done.stderr
    assert done.stderr.count("\n") == 1


def test_a_fibre_from_the_maker_sheet_is_used_and_said(balltag: Balltag, stash: Path) -> None:
    sheet = stash.with_suffix(".makers.csv")
    sheet.write_text("maker,fibre\nQuillstow Spinners,100% wool\n", encoding="utf-8")
    done = balltag("weigh", "5", "37", "--stash", stash)
    assert done.returncode == ExitCode.OK, done.stderr
    assert "the tag does not say the fibre; the maker sheet does" in done.stdout


def test_more_than_a_whole_ball_is_kept_only_when_insisted_on(
    balltag: Balltag, stash: Path
) -> None:
    arguments = ("weigh", "88", "130", "--room", "living room", "--stash", stash)
    done = balltag(*arguments)
    assert done.returncode == ExitCode.USAGE
    assert "more than the 200 m of a whole ball" in done.stderr
    assert open_cabinet(stash).history.changes() == []
    insisted = balltag(*arguments, "--anyway")
    assert insisted.returncode == ExitCode.OK
    assert "Look again" in insisted.stdout
    assert len(open_cabinet(stash).history.changes()) == 1


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("37", "--humidity", "0.45"), "from 1 to 100"),
        (("37", "--humidity", "45", "--room", "bathroom"), "not both"),
        (("37", "--room", "attic"), "no room is known as 'attic'"),
        (("37", "--within", "5"), "give both"),
        (("0",), "no yarn is left"),
        (("5", "--tare", "6"), "no yarn is left"),
        (("37", "--step", "0"), "no scale has steps of 0 g"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(
    balltag: Balltag, stash: Path, arguments: tuple[str, ...], said: str
) -> None:
    done = balltag("weigh", "88", *arguments, "--stash", stash)
    assert done.returncode == ExitCode.USAGE
    assert said in done.stderr
    assert done.stderr.count("\n") == 1
    assert not done.stdout


@pytest.mark.parametrize(
    "arguments",
    [
        ("--length", "210", "--mass", "50"),
        ("--yards", "229.6588", "--mass", "50"),
        ("--yards", "229.6588", "--ounces", "1.763698"),
        ("--tex", "238.0952"),
    ],
)
def test_numbers_are_said_alike_whatever_they_were_given_in(
    balltag: Balltag, arguments: tuple[str, ...]
) -> None:
    units: pint.UnitRegistry[float] = pint.UnitRegistry()
    per_mass = units.Quantity(210, "metre") / units.Quantity(50, "gram")
    said = json.loads(balltag("numbers", *arguments, "--json").stdout)
    assert said["tex"] == pytest.approx((1 / per_mass).to("tex").magnitude, rel=1e-5)
    assert said["yards_per_ounce"] == pytest.approx(per_mass.to("yd/oz").magnitude, rel=1e-5)
    assert said["metres_per_100_g"] == pytest.approx(420, rel=1e-5)
    assert said["likely_weight_class"] == "super fine"


def test_estimates_and_hints_are_marked_so(balltag: Balltag) -> None:
    said = balltag("numbers", "--length", "210", "--mass", "50").stdout
    assert "wraps per inch (estimate)" in said
    assert "a rough guide" in said


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("--length", "210"),
        ("--mass", "50"),
        ("--length", "210", "--yards", "230", "--mass", "50"),
        ("--tex", "250", "--mass", "50"),
        ("--length", "0", "--mass", "50"),
        ("--tex", "-5"),
    ],
)
def test_numbers_that_cannot_be_are_refused_in_one_line(
    balltag: Balltag, arguments: tuple[str, ...]
) -> None:
    done = balltag("numbers", *arguments)
    assert done.returncode == ExitCode.USAGE
    assert done.stderr.startswith("balltag: ")
    assert done.stderr.count("\n") == 1
