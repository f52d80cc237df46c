"""The parts of a tree's page about stewards and kin: the key, the table, the ages, and links in drawings."""

from __future__ import annotations

import re
from dataclasses import replace
from gettext import NullTranslations
from pathlib import Path

import pytest

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.kinship_diagram import kinship_diagram
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.model.collection import Selected
from archive_tools.model.findings import Bounds, CustodyPeriod
from archive_tools.model.grades import Edition
from archive_tools.model.pictures import Pictures
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Member, Tree
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.pipeline import view
from archive_tools.publish.came_and_went import came_words
from archive_tools.publish.context import Context
from archive_tools.publish.drawings import set_drawing
from archive_tools.publish.translation import translations_for
from archive_tools.publish.tree_kin import kin_part
from archive_tools.publish.tree_members import members_of
from archive_tools.publish.tree_stewards import how_words, stewards_part
from archive_tools.reason import find
from archive_tools.reason.lineage.sayings import CAME
from tests.illustrate.great_planting import write
from tests.making import AS_OF, HOUSE, collection, event, tree, when
from tests.reason.lineage_asking import people, refs


def context_of(shown: EditionView) -> Context:
    """A context with the drawings of these records, and no photographs."""
    drawn = Pictures(
        custody_lines={one: custody_line(shown, one) for one in shown.records.trees},
        kinship_diagrams={one: kinship_diagram(shown, one) for one in shown.records.trees},
        planting_charts={one: planting_chart(shown, one) for one in shown.records.trees},
    )
    return Context(shown, drawn, "en", NullTranslations())


def house(*trees: Tree, **more: dict[str, object]) -> Context:
    records = collection(*trees, stewards=people(**more))
    return context_of(EditionView(Edition.INTERNAL, AS_OF, Selected(records), find(records, AS_OF, AS_OF)))


def key_of(*events: object, **more: dict[str, object]) -> tuple[str, ...]:
    context = house(tree(*events), **more)  # type: ignore[arg-type]
    part = stewards_part(context, context.records.trees["T1"])
    assert part is not None
    return part.key


def test_the_table_calls_a_plant_as_the_drawing_does_and_never_by_its_id() -> None:
    """By its number where its place does not tell which it is: the record says nothing of it, or of another as well."""
    row, edge = Words.plain("in the middle"), Words.plain("at the edge")
    members = tuple(
        Member(member, Where("tree.yml"), from_=when("1979"), place_in_planting=place, count=count)
        for member, place, count in (
            ("lamps", row, 10), ("old-one", edge, 1), ("new-one", edge, 1), ("stray", None, 1), ("tall", row, 1),
            ("low", Words.plain("behind"), 1),
        )
    )  # fmt: skip
    context = house(tree(event("assembled", "1979", by="anna"), kind="planting", members=members))
    planting = context.records.trees["T1"]
    rows = members_of(context, planting, context.view.findings.lineages["T1"])
    assert [(one.named.name, one.place) for one in rows] == [
        ("10 plants", "in the middle"), ("Plant 2", "at the edge"), ("Plant 3", "at the edge"), ("Plant 4", ""),
        ("Plant 5", "in the middle"), ("One plant", "behind"),
    ]  # fmt: skip


WAYS = sorted({*CAME, "first hands", "quarantine", "loan"})


@pytest.mark.parametrize("how", WAYS)
def test_every_way_of_coming_is_said_in_words_of_the_page_s_language(how: str) -> None:
    """The table of a tree and the page of a steward say it alike, and neither prints the word the reasoning uses."""
    period = CustodyPeriod(("anna",), Bounds(), None, how)
    english = house(tree(event("sown", "1950", by="anna")))
    said = how_words(english, period)
    assert said == came_words(english, (period,), 0)
    assert said[:1].isupper()
    assert said != how
    japanese = how_words(replace(english, language="ja", translations=translations_for("ja")), period)
    assert re.search("[A-Za-z]", japanese) is None


def test_the_key_tells_of_nothing_that_the_drawing_does_not_show() -> None:
    sown = event("sown", "1950-04-01", by="anna")
    given = event("gift", "1980-05-01", from_="anna", to=HOUSE)
    assert key_of(sown, given) == ()
    assert key_of(sown, event("gift", "197X", from_="anna", to=HOUSE)) == ("A soft end is a vague date.",)
    lent = event("loan", "1990-05-01", "1991-05-01", from_=HOUSE, to="bo")
    assert key_of(sown, given, lent) == (
        "An open bar: it stood with them and was not theirs.",
        "A thin line: theirs, and standing elsewhere.",
    )
    both = event("gift", "1980-05-01", from_="anna", to=("bo", "cleo"), joint=True)
    assert key_of(sown, both) == ("A bar in strands is held together.",)


def test_each_grade_of_gap_has_its_own_sentence() -> None:
    last = event("repotted", "1960-04-01", by="anna")
    first = event("gift", "1985-01-01", from_="bo", to=HOUSE)
    sown = event("sown", "1950-04-01", by="anna")
    dots = "Dots are years in which nobody is known."
    assert dots in key_of(sown, last, first)
    bridged = key_of(sown, last, event("observed", "1971-08"), first)
    assert dots in bridged
    assert "A stroke among them: somebody tells of the tree." in bridged
    couple = key_of(sown, last, first, orr_lind={"members": ("anna", "bo")})
    assert "Dashes: nothing is told, and it is thought to have stayed." in couple
    assert dots not in couple


def test_the_table_tells_joint_holders_agents_what_went_in_return_and_who_was_present() -> None:
    context = house(
        tree(
            event("purchase", "1960-03-01", from_="dov", to=("anna", "bo"), joint=True, by="old-rooms"),
            event("styled", "1970-05-02", by="cleo", with_="hill-club"),
            event("exchange", "2001-04-28", from_=("anna", "bo"), to=HOUSE, trees=refs("T2")),
        ),
        tree(event("purchase", "1990", from_="dov", to=HOUSE), accession="T2"),
    )
    part = stewards_part(context, context.records.trees["T1"])
    assert part is not None
    assert [row.note for row in part.held][1:] == [
        "By purchase, jointly, through Old Rooms", "By exchange, for Ulmus parvifolia",
    ]  # fmt: skip
    assert [(row.who[0].name, row.what) for row in part.hands] == [
        ("Cleo Ray", "Styled"), ("The Hill Club", "Present: styled"),
    ]  # fmt: skip


@pytest.fixture(scope="module")
def fifty(tmp_path_factory: pytest.TempPathFactory) -> Context:
    folder: Path = write(tmp_path_factory.mktemp("fifty"))
    return context_of(view(folder, edition=Edition.PUBLIC, as_of=AS_OF, today=AS_OF))


def test_the_age_of_a_planting_is_said_apart_from_its_oldest_plant(fifty: Context) -> None:
    part = kin_part(fifty, fifty.records.trees["W1"])
    assert part is not None
    assert part.standing == 50
    assert part.oldest == "Planted together 1966; its oldest plant: in training since 1949."
    assert len(part.members) == 80
    assert len([row for row in part.members if row.is_gone]) == 30


def test_a_planting_of_which_no_plant_has_a_record_says_nothing_of_theirs() -> None:
    context = house(tree(event("assembled", "1972", by="anna", trees=refs("a")), kind="planting"))
    part = kin_part(context, context.records.trees["T1"])
    assert part is None or part.oldest == ""


def test_links_of_drawings_lead_to_the_pages_of_the_trees(fifty: Context) -> None:
    part = kin_part(fifty, fifty.records.trees["W1"])
    assert part is not None
    assert "tree:" not in part.chart
    assert 'href="../../trees/W1.1/"' in part.chart


def test_apostrophes_are_set_as_a_printer_sets_them_in_english_alone(fifty: Context) -> None:
    svg = "<text>Halvard&#x27;s Maple</text>"
    assert set_drawing(fifty, svg, "") == "<text>Halvard’s Maple</text>"
    assert set_drawing(replace(fifty, language="ja"), svg, "") == svg
