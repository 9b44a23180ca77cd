"""Lines of small print that tell whose yarn it is, and lines that look like a maker's name."""

from __future__ import annotations

import pytest

from intake.fields.codes import whole_name
from intake.fields.parse import parse
from intake.records import Field, State
from tests.line_making import larger, lines_from, placed

FACTS = ("100 % wool", "50 g = 120 m", "Shade 204 Heron", "Lot 88123")


def below(heading: str, *texts: str) -> dict[str, Field]:
    """Fields of a tag that is headed with ``heading`` in large print."""
    head, *rest = lines_from(heading, *FACTS, *texts)
    return dict(parse([larger(head, 2.0), *(placed(one, 0.0, 40.0) for one in rest)], ()))


@pytest.mark.parametrize(
    "name",
    [
        "The Isle of Marrow Wool Company",
        "Spinnerij Wed. J. Aldershof & Zonen",
        "Tintoria Casalinga di Nives Bertolazzo",
        "A/S Hedemølle Kamgarnsspinderi",
        "N.V. Twijnderij De Kolk",
        "'t Wolhoekje",
        "Sternkamp Garne GmbH & Co. KG",
        "Fios e Lãs do Moleiro",
    ],
)
def test_a_firms_long_name_is_one_name(name: str) -> None:
    assert whole_name(name) is not None


@pytest.mark.parametrize(
    "line",
    [
        "The Isle of Marrow Wool Company",
        "Spinnerij Wed. J. Aldershof & Zonen",
        "A/S Hedevang Kamgarnsspinderi",
        "Schäferei Grabenwirt, 0 99 / 88 00, Ennsau",
        "Nordhavn & Vik Garnlager, Pb. 9900, 0000 Sjøbygd",
        "Moleside Spinners (a division of Brill Textiles Ltd)",
        "Azienda agricola Pian del Tasso",
        "Filande Rovera",
        "Fargeskuret i Steinviken",
    ],
)
def test_a_firm_in_small_print_is_the_maker_and_the_large_name_the_range(line: str) -> None:
    found = below("Silverthistle", line)
    assert line.startswith(str(found["maker"].value))
    assert found["maker"].state is State.SURE
    assert found["range"].value == "Silverthistle"


@pytest.mark.parametrize(
    ("line", "maker"),
    [
        ("Made in Peru for Thistledown Goods", "Thistledown Goods"),
        ("Made in Peru für Distelhandel Ahorn", "Distelhandel Ahorn"),
        ("Gemaakt in Italië voor Bakkerij Wolkje", "Bakkerij Wolkje"),
        ("Tillv. för AB Rosenbergs Lager", "AB Rosenbergs Lager"),
        ("Spundet i Vendsyssel for Kaninen i Tved", "Kaninen i Tved"),
        ("Fabr.: Vrångebo", "Vrångebo"),
        ("Fabrica: Monteperalta", "Monteperalta"),
        ("Ditta: Casa Gugliermo", "Casa Gugliermo"),
        ("Marke der Wollzentrale Rugberg AG", "Wollzentrale Rugberg AG"),
        ("Un produit Manufacture Ostreval", "Manufacture Ostreval"),
        ("A product of Belmoor Mills Pty. Ltd.", "Belmoor Mills Pty. Ltd."),
        ("Geverfd in Friesland door Knotje", "Knotje"),
        ("Filé à la main par Solène Kerdival", "Solène Kerdival"),
        ("8/4 bomuld fra Bomuldskompagniet Ager", "Bomuldskompagniet Ager"),
        ("Marca Velloneta", "Velloneta"),
        ("et sommerligt uldgarn fra Tusindtråd", "Tusindtråd"),
        ("Hecho por artesanas de la Unión Puskana", "Unión Puskana"),
    ],
)
def test_words_that_lead_up_to_the_house_are_not_its_name(line: str, maker: str) -> None:
    found = below("Silverthistle", line)
    assert str(found["maker"].value) in (maker, maker.split(" i ")[0])
    assert found["range"].value == "Silverthistle"


@pytest.mark.parametrize(
    "goods",
    [
        *("glittergaren", "Zefyrgarn", "Kinderwolle", "Kaardvlies en garens", "Mohairgarn"),
        *("Tejeduría casera", "recupero da scarti di maglieria"),
    ],
)
def test_what_is_sold_is_never_surely_the_maker(goods: str) -> None:
    found = below("Silverthistle", goods)
    assert found["maker"].value != goods or found["maker"].state is State.DOUBTFUL


@pytest.mark.parametrize("goods", ["Zefyrgarn", "Mohairgarn", "Reine Wolle"])
def test_a_firm_beside_what_is_sold_is_the_maker(goods: str) -> None:
    found = below("Silverthistle", goods, "Hedemølle Kamgarnsspinderi")
    assert found["maker"].value == "Hedemølle Kamgarnsspinderi"


@pytest.mark.parametrize(
    "text",
    [
        *("Quantity", "Menge", "Tfn", "Mtrl", "Kvalität", "Abgewickelt von Kone", "från kon"),
        *("Kvalitetsgarn för hela familjen", "Wolle aus gutem Hause", "Pol. Ind. Los Molinos"),
        *("Pour commander", "Restposten"),
        *("Handfärberei", "Verfatelier", "Muster ohne Wert", "Ej till försäljning", "Varuprov"),
        *("Offre spéciale", "Umtausch ausgeschlossen", "Auslaufware", "Avd. for husflid"),
        *("Wol van een heideschaap", "Pulsvarmere", "Wrist Warmers", "This kit holds", "Farm shop"),
        *("Thursdays to Sundays", "Industria Argentina", "Restes de bobines", "Hilo en cono"),
    ],
)
def test_what_is_said_beside_a_name_is_no_maker(text: str) -> None:
    found = below("Silverthistle", text, "Moleside")
    assert text not in (found["maker"].value, found["range"].value)
    assert "Kone" not in (found["maker"].value, found["range"].value)


@pytest.mark.parametrize(
    "line", ["Garnhof Lerche GmbH, Ennsau", "Hedemølle Uldspinderi, Lille Tved"]
)
def test_the_town_of_a_firm_is_neither_range_nor_shade(line: str) -> None:
    found = parse(lines_from(line, "100 % wool", "50 g = 120 m", "Shade 204", "Lot 88123"), ())
    assert found["maker"].value == line.split(",")[0]
    assert line.split(", ")[1] not in (found["range"].value, found["shade"].value)


def test_a_shop_is_not_surely_the_maker() -> None:
    found = parse(lines_from("Oakenham Wool Shop", *FACTS), ())
    assert found["maker"].state is State.DOUBTFUL


def test_who_dyed_the_yarn_may_not_be_the_house_whose_name_is_largest() -> None:
    found = below("Ullbyting", "Enkel", "Handfärgat av Vendela Orresjö")
    assert found["maker"].value == "Ullbyting" or found["maker"].state is State.DOUBTFUL


@pytest.mark.parametrize(
    ("first", "last"),
    [("SPINNEREI HASSELGRUND &", "SÖHNE"), ("Spinnerei Hasselgrund und", "Töchter")],
)
def test_a_name_that_breaks_behind_and_is_one(first: str, last: str) -> None:
    found = parse(lines_from(first, last, "", *FACTS), ())
    assert found["maker"].value == f"{first} {last}"


def test_a_name_goes_on_below_only_where_it_ends_its_line() -> None:
    found = parse(lines_from("Hollin Fold Spinners · Breath", "of Winter", *FACTS), ())
    assert found["maker"].value == "Hollin Fold Spinners"


def test_a_firm_in_large_print_and_once_more_with_its_legal_form_is_one() -> None:
    found = below("LORNBACH", "Zimtwolke", "Lornbach Garne GmbH")
    assert str(found["maker"].value).startswith(("LORNBACH", "Lornbach"))
    assert found["range"].value == "Zimtwolke"


@pytest.mark.parametrize("name", ["Sunday Ladder", "Open Moor", "Tricotelle"])
def test_a_name_that_has_a_word_of_shops_is_a_name(name: str) -> None:
    found = below(name, "Moleside Spinners")
    assert found["range"].value == name


@pytest.mark.parametrize(
    ("line", "seller"),
    [
        ("Distributed by Meridian Craft Supply LLC, Alder Bluff", "Meridian Craft Supply LLC"),
        ("Vertrieb: Handelshaus Brösel GmbH, Nordwalde", "Handelshaus Brösel GmbH"),
        ("Importert av Garnkompaniet Solheim AS", "Garnkompaniet Solheim AS"),
        ("Import: De Garentuin", "De Garentuin"),
        ("Importør Garngrossisten Vestby", "Garngrossisten Vestby"),
    ],
)
def test_who_sold_a_yarn_that_nobody_else_made_is_asked_about(line: str, seller: str) -> None:
    found = below("Silverthistle", line)
    assert (found["maker"].value, found["maker"].state) == (seller, State.DOUBTFUL)
    assert found["range"].value == "Silverthistle"


def test_who_sold_a_yarn_is_not_its_maker_beside_one() -> None:
    found = below("Silverthistle", "Moleside Spinners", "Importert av Garnkompaniet Solheim AS")
    assert (found["maker"].value, found["maker"].state) == ("Moleside Spinners", State.SURE)


@pytest.mark.parametrize("firm", ["Wollwerk Steinach Ges.m.b.H.", "Handelshuis Bolt & Zn."])
def test_the_full_stop_of_a_legal_form_belongs_to_the_name(firm: str) -> None:
    assert below("Silverthistle", firm)["maker"].value == firm


def test_a_colour_that_may_end_a_makers_name_is_asked_about() -> None:
    first, second, *rest = lines_from(
        "FILATURE DE LA GRANGE", "BLANCHE", "", "Cabestan", *FACTS[:2], "Lot 88123"
    )
    rest = [placed(one, 0.0, 60.0) for one in rest[1:]]
    found = parse([first, second, larger(rest[0], 1.8), *rest[1:]], ())
    assert found["maker"].state is State.DOUBTFUL or "BLANCHE" in str(found["maker"].value)


def test_a_house_that_is_named_below_its_keepers_is_asked_about() -> None:
    found = below("Cold Fell Farm", "Jean & Bob Illing, tel. 01632 960 144")
    assert found["maker"].value == "Cold Fell Farm" or found["maker"].state is State.DOUBTFUL


def test_a_range_that_is_named_like_a_maker_is_asked_about() -> None:
    found = parse(lines_from("Garnkroken Solfrid Ek", "Merke: Fossheim Uldvare", *FACTS), ())
    assert found["range"].value != "Garnkroken Solfrid Ek" or (
        found["range"].state is State.DOUBTFUL
    )


def test_a_range_that_was_cut_at_a_small_word_is_asked_about() -> None:
    found = parse(lines_from("Filatura Lontra", "Il Mio Presepe all'Uncinetto", *FACTS), ())
    assert found["range"].state is not State.SURE or "Uncinetto" in str(found["range"].value)
