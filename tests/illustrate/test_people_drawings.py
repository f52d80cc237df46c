"""The years of a steward, who taught whom, and the line of a pot: what is drawn, where, and that no words meet."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from datetime import date
from itertools import pairwise
from typing import Any

import pytest

from archive_tools.illustrate.across import LEAST_WIDE
from archive_tools.illustrate.object_line import object_lines
from archive_tools.illustrate.steward_years import MOST, steward_years
from archive_tools.illustrate.svg_text import NARROW
from archive_tools.illustrate.teaching_diagram import teaching_diagrams
from archive_tools.model.collection import Selected
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition
from archive_tools.model.people import CollectionObject, Taught
from archive_tools.model.places_in_files import Where
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.reason.lineage.whole import lineages
from tests.illustrate.drawing_reader import (
    across_of,
    all_of,
    assert_clear,
    each,
    extent,
    marks,
    rows,
    said,
    share,
    upright_of,
    years_across,
)
from tests.making import AS_OF, HOUSE, collection, event, steward, tree, when

WIDE = (LEAST_WIDE, 680.0, 940.0, 1400.0)
PHONE = (NARROW, 330.0, 400.0)


def view_of(
    *trees: Any, stewards: tuple[Any, ...] = (), objects: dict[str, CollectionObject] | None = None
) -> EditionView:
    """Everything is public; dates stand as they are written."""
    records = collection(*trees, stewards=stewards, objects=objects or {})
    found = lineages(records, {}, AS_OF)
    findings = Findings(
        AS_OF, custodies=found.custodies, lineages=found.trees, objects=found.objects, teaching=found.teaching,
        stewards=found.stewards,
    )  # fmt: skip
    return EditionView(Edition.PUBLIC, AS_OF, Selected(records), findings)


def taught(who: str, start: str | None = None, end: str | None = None) -> Taught:
    return Taught(who, when(start), when(end))


def named(words: str) -> Words:
    return Words.plain(words)


ELM = tree(
    event("struck", "1950", by="edda"),
    event("styled", "1962", by="edda"),
    event("gift", "1970/1975", id="passed", from_="edda", to="jon"),
    event("styled", "1981", by="mo"),
    event("gift", "1990-05-02", id="given", from_="jon", to=HOUSE),
    accession="T1",
    name=named("The Ferry Elm"),
)
PEOPLE = (
    steward("edda", "Edda Lund", born=when("1911~"), died=when("1979-03-01"), kind="person"),
    steward("jon", "Jon Vik", kind="person", taught_by=(taught("edda", "1955", "1960"),)),
    steward("mo", "Mo Sand", kind="person", taught_by=(taught("jon", "1970~"), taught("edda"))),
)


def test_a_steward_has_a_row_of_their_own_and_one_for_each_tree() -> None:
    svg = across_of(steward_years(view_of(ELM, stewards=PEOPLE))["edda"])
    own, one = rows(svg, "own")[0], rows(svg, "tree")[0]
    assert "Edda Lund" in said(own)
    assert "in the records from 1950 to 1970–75" in said(own)
    assert said(one).startswith("The Ferry Elm")
    years = years_across(svg)
    first, last = extent(one)
    assert first == pytest.approx(years.at(date(1950, 1, 1)), abs=0.004)
    assert last == pytest.approx(years.at(date(1975, 12, 31)), abs=0.004), (
        "the end is soft until the last day it may be"
    )
    # Crisp to the first day on which it may have gone, fading from there.
    solid = [bar for bar in one.iter("rect") if bar.get("class") == "held"]
    assert share(solid[0]) + share(solid[0], "width") == pytest.approx(years.at(date(1970, 1, 1)), abs=0.004)
    assert marks(one, "hand") == pytest.approx([years.at(date(1950, 7, 2)), years.at(date(1962, 7, 2))], abs=0.012)


def test_a_life_is_drawn_thin_and_vague_where_it_is() -> None:
    svg = across_of(steward_years(view_of(ELM, stewards=PEOPLE))["edda"])
    own = rows(svg, "own")[0]
    life = [bar for bar in own.iter("rect") if bar.get("class") == "with"]
    years = years_across(svg)
    assert share(life[0]) == pytest.approx(years.at(date(1913, 12, 31)), abs=0.004), (
        "certain from the last day of 1911~"
    )
    assert share(life[0]) + share(life[0], "width") == pytest.approx(years.at(date(1979, 3, 1)), abs=0.004)


def test_one_who_only_worked_has_marks_and_no_bar() -> None:
    svg = across_of(steward_years(view_of(ELM, stewards=PEOPLE))["mo"])
    one = rows(svg, "tree")[0]
    assert "Worked on" in said(one)
    assert "styled 1981" in said(one)
    assert not list(one.iter("rect"))
    assert len(marks(one, "hand")) == 1


def many(count: int) -> tuple[Any, ...]:
    return tuple(
        tree(
            event("sown", str(1900 + n), by="edda"),
            event("gift", str(1962 + n * 60 // count), id="came", from_="edda", to=HOUSE),
            accession=f"T{n}",
            name=named(f"A Tree of the Long Slope, Number {n}"),
        )
        for n in range(count)
    )


def test_of_many_trees_those_of_a_decade_share_a_row() -> None:
    svg = across_of(steward_years(view_of(*many(30), stewards=PEOPLE))[HOUSE])
    decades = rows(svg, "tree")
    assert len(decades) == 7
    assert said(decades[0]).startswith("1962–68")
    assert "and 2 others" in said(decades[0])
    assert sum(len(marks(row, "hand")) for row in decades) == 30
    assert len(rows(across_of(steward_years(view_of(*many(MOST), stewards=PEOPLE))[HOUSE]), "tree")) == MOST


def test_a_thousand_trees_are_still_a_drawing_of_a_page() -> None:
    svg = across_of(steward_years(view_of(*many(99), stewards=PEOPLE))["edda"])
    assert float(re.search(r'height="([\d.]+)"', svg)[1]) < 700


def test_ties_stand_at_their_day_between_teacher_and_pupil() -> None:
    drawn = teaching_diagrams(view_of(ELM, stewards=PEOPLE))
    assert set(drawn) == {"edda"}
    svg = across_of(drawn["edda"])
    years = years_across(svg)
    xs = sorted(share(line, "x1") for line in all_of(svg, "line", "tie"))
    # From Edda to Jon in the middle of 1955, from Jon to Mo about 1970, and an undated one at Mo's first day.
    assert xs[0] == pytest.approx(years.at(date(1955, 7, 2)), abs=0.01)
    assert xs[1:] == pytest.approx([years.at(date(1968, 1, 1)), years.at(date(1970, 7, 2))], abs=0.03)
    order = [said(row).split(" 1")[0] for row in rows(svg, "taught-row")]
    assert [name.split()[0] for name in order] == ["Edda", "Jon", "Mo"]
    assert "1955 to 1960" in said(rows(svg, "taught-row")[1])


def test_the_description_says_who_taught_whom() -> None:
    svg = across_of(teaching_diagrams(view_of(ELM, stewards=PEOPLE))["edda"])
    assert "Edda Lund taught Jon Vik (1955 to 1960), Mo Sand." in svg
    assert "Jon Vik taught Mo Sand (from 1968–72)." in svg


def test_a_phone_has_an_outline_with_a_step_for_each_generation() -> None:
    svg = upright_of(teaching_diagrams(view_of(ELM, stewards=PEOPLE))["edda"])
    steps = [row.find("text").get("dx") for row in rows(svg, "taught-row")]
    assert steps == [None, "18", "36"]
    assert len(all_of(svg, "path", "elbow")) == 2
    assert "with Edda Lund, 1955 to 1960" in said(rows(svg, "taught-row")[1])


def test_where_nothing_is_dated_the_outline_stands_alone() -> None:
    people = (steward("a", "Ada Berg"), steward("b", "Bo Dal", taught_by=(taught("a"),)))
    drawn = teaching_diagrams(view_of(stewards=people))["a"]
    (svg,) = each(drawn)
    assert 'class="drawing"' in svg
    assert said(rows(svg, "taught-row")[1]) == "Bo Dal with Ada Berg"


def pot(**keys: Any) -> dict[str, CollectionObject]:
    return {"oval": CollectionObject("oval", named("the blue oval"), Where("objects/oval.yml"), **keys)}


def potted(accession: str, *events: Any) -> Any:
    return tree(event("sown", "1950", by="edda"), *events, accession=accession, name=named(f"Tree {accession}"))


def test_a_pot_shows_its_holders_and_the_trees_that_stood_in_it() -> None:
    bought = replace(event("purchase", "1955", id="bought", to="edda"), tree=None)
    trees = (
        potted(
            "T1",
            event("repotted", "1957-04-01", id="in", into="oval"),
            event("repotted", "1969-03-01", id="out", into="box"),
        ),
        potted("T2", event("repotted", "1970-04-01", id="in", into="oval")),
        potted("T3", event("repotted", "2003-04-01", id="in", into="oval")),
        potted("T4", event("exhibited", "2010-06", id="shown", objects=("oval",))),
    )
    drawn = object_lines(view_of(*trees, stewards=PEOPLE, objects=pot(events=(bought,))))
    svg = across_of(drawn["oval"])
    assert "Edda Lund" in said(rows(svg, "holder")[0])
    told = [said(row) for row in rows(svg, "tree")]
    assert told == [
        "Trees that stood in it or with it Tree T1 1957 to 1969",
        "Tree T2 from 1970, gone by 2003",
        "Tree T3 since 2003",
        "Tree T4 shown with it, 2010",
    ]
    years = years_across(svg)
    assert extent(rows(svg, "tree")[0]) == pytest.approx(
        (years.at(date(1957, 4, 1)), years.at(date(1969, 3, 1))), abs=0.006
    )
    assert 'href="tree:T1"' in svg


LONG = "Hildegunn Maria Okonkwo-Brattebakken of the Upper Terraces by the Sound"
NAMES = ("Li", "Ada Berg", "Wenna Harrack-Moen", "青沼すみれ", LONG)


def school(seed: int, count: int) -> tuple[Any, ...]:
    chance = random.Random(seed)
    people = []
    for n in range(count):
        teachers = {chance.randrange(max(0, n - 9), n) for _ in range(chance.choice((1, 1, 2)))} if n else set()
        lessons = tuple(
            taught(
                f"s{t}",
                chance.choice((None, f"{1900 + n * 3}", f"{1900 + n * 3}~")),
                chance.choice((None, f"{1910 + n * 3}")),
            )
            for t in sorted(teachers)
        )
        people.append(steward(f"s{n}", chance.choice(NAMES), kind="person", taught_by=lessons))
    return tuple(people)


@pytest.mark.parametrize("seed", range(5))
def test_no_words_meet_in_who_taught_whom(seed: int) -> None:
    """By the widths the drawings reckon with, and by the real glyphs of the theme's faces (Pillow)."""
    for markup in teaching_diagrams(view_of(stewards=school(seed, 34))).values():
        for svg in each(markup):
            phone = 'class="drawing wide"' not in svg
            for across in PHONE if phone else WIDE:
                assert_clear(svg, across, phone)


@pytest.mark.parametrize("seed", range(5))
def test_no_words_meet_in_the_years_of_stewards_and_the_lines_of_pots(seed: int) -> None:
    chance = random.Random(seed)
    trees = []
    for n in range(30):
        begun = chance.randrange(1880, 2020)
        holders = [f"s{chance.randrange(6)}" for _ in range(3)]
        events = [event("sown", f"{begun}~", by=holders[0])]
        for at, (giver, taker) in enumerate(pairwise(holders)):
            if giver != taker:
                later = min(begun + 4 + at * chance.randrange(1, 20), 2025)
                events.append(event("gift", f"{later}/{min(later + 6, 2026)}", id=f"g{at}", from_=giver, to=taker))
        events.append(event("repotted", str(min(begun + 3, 2026)), id="pot", by=holders[1], into="oval"))
        events.append(event("styled", str(min(begun + 9, 2026)), id="style", by=holders[2]))
        trees.append(tree(*events, accession=f"T{n}", name=named(chance.choice(NAMES))))
    view = view_of(*trees, stewards=school(seed, 6), objects=pot(owner="s0"))
    drawn = [*steward_years(view).values(), *object_lines(view).values()]
    assert len(drawn) >= 6
    for markup in drawn:
        for svg in each(markup):
            phone = 'class="drawing wide"' not in svg
            for across in PHONE if phone else WIDE:
                assert_clear(svg, across, phone)


def test_every_drawing_has_a_title_and_a_description_and_no_script() -> None:
    view = view_of(ELM, stewards=PEOPLE)
    for markup in (*steward_years(view).values(), *teaching_diagrams(view).values()):
        for svg in each(markup):
            prefix = re.search(r'aria-labelledby="([^"]+)-title"', svg)[1]
            assert f'<title id="{prefix}-title">' in svg
            assert f'<desc id="{prefix}-desc">' in svg
            assert "<script" not in svg
            assert "<image" not in svg
            assert " onload" not in svg
        ids = re.findall(r' id="([^"]+)"', markup)
        assert len(ids) == len(set(ids))


def test_a_masked_steward_has_no_drawing_and_no_place_in_one() -> None:
    hidden = steward("withheld-1", "a private donor", masked=True)
    one = tree(event("sown", "1950", by="withheld-1"), event("gift", "1960", id="g", from_="withheld-1", to="edda"))
    view = view_of(one, stewards=(*PEOPLE, hidden))
    assert "withheld-1" not in steward_years(view)
    assert "withheld" not in "".join((*steward_years(view).values(), *teaching_diagrams(view).values()))
