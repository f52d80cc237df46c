"""The entries of a steward's page, the index of names, who taught whom and the pots, as pages tell them."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from typing import Any

import pytest

from archive_tools.illustrate.object_line import object_lines
from archive_tools.illustrate.steward_years import steward_years
from archive_tools.illustrate.teaching_diagram import teaching_diagrams
from archive_tools.model.active_years import active_ends
from archive_tools.model.collection import Selected
from archive_tools.model.findings import Bounds, Findings
from archive_tools.model.grades import Edition
from archive_tools.model.lineage import StewardLine
from archive_tools.model.page import Site
from archive_tools.model.people import CollectionObject, Taught
from archive_tools.model.pictures import Pictures
from archive_tools.model.places_in_files import Where
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.publish import make_site
from archive_tools.publish.names_index import by_letter
from archive_tools.reason.lineage.whole import lineages
from tests.making import AS_OF, HOUSE, collection, event, source, steward, tree, when

PEOPLE = (
    steward("edda", "Edda Lund", sort_name="Lund, Edda", kind="person", born=when("1911"), died=when("1979")),
    steward("jon", "Jon Vik", sort_name="Vik, Jon", kind="person", active=when("1955/.."),
            taught_by=(Taught("edda", when("1955"), when("1960~")),)),
    steward("dealer", "Reed and Sons", kind="institution"),
)  # fmt: skip


def site_of(*trees: Any, stewards: tuple[Any, ...] = PEOPLE, objects: Any = None) -> Site:
    book = source("book", "Bench book", kind="diary")
    records = collection(*trees, stewards=stewards, objects=objects or {}, sources=(book,))
    found = lineages(records, {}, AS_OF)
    findings = Findings(
        AS_OF, custodies=found.custodies, lineages=found.trees, objects=found.objects, teaching=found.teaching,
        stewards=found.stewards,
    )  # fmt: skip
    view = EditionView(Edition.PUBLIC, AS_OF, Selected(records), findings)
    pictures = Pictures(
        steward_years=steward_years(view), object_lines=object_lines(view), teaching_diagrams=teaching_diagrams(view)
    )
    return make_site(view, pictures)


def body(site: Site, path: str) -> str:
    return next(page.body for page in site.pages if page.path == path)


def words(html: str) -> str:
    return unescape(" ".join(re.sub(r"<[^>]+>", " ", re.sub(r"<svg.*?</svg>", " ", html, flags=re.DOTALL)).split()))


def part(html: str, key: str) -> str:
    return words(html.split(f'aria-labelledby="{key}"')[1].split("</section>", maxsplit=1)[0]).removeprefix("> ")


def elm(*events: Any, accession: str = "T1", **keys: Any) -> Any:
    return tree(*events, accession=accession, name=Words.plain(f"Elm {accession}"), **keys)


PASSED_ON = elm(
    event("sown", "1950", by="edda", sources="book"),
    event("styled", "1956", by="edda", sources="book"),
    event("repotted", "1958", by="edda", sources="book"),
    event("repotted", "1961", by="edda", id="again"),
    event("gift", "1970", id="g", from_="edda", to="jon", sources="book"),
    event("loan", "1975", "1977", id="lent", from_="jon", to="dealer", sources="book"),
    event("sold", "1980", id="s", from_="jon", to=HOUSE, sources="book"),
)


def test_it_is_told_how_a_tree_came_and_how_it_went() -> None:
    site = site_of(PASSED_ON)
    edda = part(body(site, "stewards/edda/index.md"), "held")
    assert edda == "Held 1950 to 1970 Elm T1 T1 First hands. Then by gift to Jon Vik. Documented. Bench book"
    jon = part(body(site, "stewards/jon/index.md"), "held")
    assert "1970 to 1980 Elm T1 T1 By gift from Edda Lund. Then by sale to The House. Documented" in jon
    dealer = part(body(site, "stewards/dealer/index.md"), "held")
    assert "1975 to 1977 Elm T1 T1 On loan from Jon Vik. Then back to Jon Vik." in dealer
    house = part(body(site, f"stewards/{HOUSE}/index.md"), "held")
    assert "since 1980 Elm T1 T1 By purchase from Jon Vik. Documented" in house


def test_made_styled_and_worked_on_stand_apart_with_their_evidence() -> None:
    edda = body(site_of(PASSED_ON), "stewards/edda/index.md")
    assert part(edda, "made") == "Made 1950 Elm T1 T1 Sown. Documented. Bench book"
    assert part(edda, "styled") == "Styled 1956 Elm T1 T1 Styled. Documented. Bench book"
    assert part(edda, "worked").startswith("Worked on 1958–1961 Elm T1 T1 Repotted twice.")


def test_teachers_and_pupils_are_told_with_years_source_and_grade() -> None:
    site = site_of(PASSED_ON)
    assert "1955 to about 1960 Edda Lund Without a source" in part(body(site, "stewards/jon/index.md"), "teachers")
    assert "1955 to about 1960 Jon Vik Without a source" in part(body(site, "stewards/edda/index.md"), "pupils")
    assert 'href="../../teaching/"' in body(site, "stewards/jon/index.md")


def test_the_drawing_has_its_table() -> None:
    edda = body(site_of(PASSED_ON), "stewards/edda/index.md")
    assert edda.count('<svg class="drawing') == 2
    rows = re.findall(r"<tr>(.*?)</tr>", edda.split("<tbody>")[1].split("</tbody>")[0])
    assert [words(row) for row in rows] == [
        "1950 to 1970 Elm T1 Held First hands. Then by gift to Jon Vik.",
        "1950 Elm T1 Made Sown.",
        "1956 Elm T1 Styled Styled.",
        "1958–1961 Elm T1 Worked on Repotted twice.",
    ]
    assert 'href="../../trees/T1/"' in edda.split("<svg")[1]


def test_many_trees_are_folded_by_decades() -> None:
    trees = [elm(event("gift", str(1960 + n), id="g", from_="edda", to=HOUSE), accession=f"T{n}") for n in range(25)]
    house = body(site_of(*trees), f"stewards/{HOUSE}/index.md")
    assert re.findall(r'class="title">([^<]+)<', house) == ["The 1960s", "The 1970s", "The 1980s"]
    assert "10 trees: Elm T0, Elm T1, Elm T2 …" in words(house)
    assert part(house, "held").startswith("Held 25 trees")
    assert house.count("<details") == 4, "three decades and the table"


@pytest.mark.parametrize(("first", "last"), [("1950", "1950"), ("1949~", "1960/1963")])
def test_the_years_of_activity_are_as_vague_as_what_they_rest_on(first: str, last: str) -> None:
    one = elm(event("sown", first, by="edda"), event("pruned", last, by="edda", id="p"))
    records = collection(one, stewards=PEOPLE)
    line = lineages(records, {}, AS_OF).stewards["edda"]
    start, end = active_ends(replace(line, held=(), pupils=()))
    began, ended = when(first), when(last)
    assert began is not None
    assert ended is not None
    assert start == Bounds(began.earliest, began.latest)
    assert end == Bounds(ended.earliest, ended.latest)


def test_who_is_still_active_by_the_record_has_no_end() -> None:
    line = StewardLine("jon", teachers=())
    assert active_ends(line, PEOPLE[1]) == (Bounds(), Bounds())
    site = site_of(PASSED_ON)
    assert "In the records since 1955" in words(body(site, "stewards/jon/index.md"))
    assert "In the records 1950 to 1970" in words(body(site, "stewards/edda/index.md"))


def test_names_stand_by_their_letter_without_accents() -> None:
    found = by_letter([("Ängström", 1), ("abel", 2), ("‘t Hooft", 3), ("Zhu", 4), ("林", 5), ("1950 Club", 6)])
    assert [(one.letter, one.items) for one in found] == [
        ("A", (2, 1)), ("T", (3,)), ("Z", (4,)), ("林", (5,)), ("#", (6,)),
    ]  # fmt: skip
    anchors = [one.anchor for one in found]
    assert len(set(anchors)) == len(anchors)
    assert all(re.fullmatch(r"[a-z][a-z0-9-]*", one) for one in anchors)


def school(count: int, lines: int) -> tuple[Any, ...]:
    """So many lines of `count` people each, one after the other, and a few pairs."""
    people = []
    for line in range(lines):
        for n in range(count):
            lessons = (Taught(f"l{line}-{n - 1}", when(str(1900 + 5 * n))),) if n else ()
            people.append(steward(f"l{line}-{n}", f"Person {n} of {line}", kind="person", taught_by=lessons))
    return tuple(people)


def test_smaller_lines_are_folded_and_every_name_leads_to_its_place() -> None:
    page = body(site_of(stewards=school(9, 7)), "teaching/index.md")
    assert "A teacher or a pupil is known of 63 people, in 7 lines." in words(page)
    opened, folded = page.split('id="smaller"')
    assert opened.count('class="part"') - 1 == 2, "eighteen people lie open, with twenty-seven there were too many"
    assert folded.count('<details class="decade"') == 5
    ids = set(re.findall(r' id="([^"]+)"', page))
    links = re.findall(r'<li><a href="#([^"]+)">', page.split('id="by-name"')[1])
    names = [link for link in links if link.startswith("who-")]
    assert len(names) == 63
    assert {link for link in links if link not in ids} == set()


def test_a_page_of_who_taught_whom_needs_somebody_who_did() -> None:
    paths = {page.path for page in site_of(stewards=PEOPLE[:1]).pages}
    assert "teaching/index.md" not in paths
    assert "objects/index.md" not in paths


def test_pots_and_trees_lead_to_each_other() -> None:
    oval = CollectionObject("oval", Words.plain("the blue oval"), Where("o"), owner=HOUSE, maker="dealer")
    trees = (
        elm(event("sown", "1950", by="edda"), event("repotted", "1960", id="in", into="oval"),
            event("repotted", "1970", id="out", into="box")),
        elm(event("sown", "1951", by="edda"), event("repotted", "1980", id="in", into="oval"), accession="T2"),
    )  # fmt: skip
    box = CollectionObject("box", Words.plain("a box"), Where("o"), kind="tray")
    site = site_of(*trees, objects={"oval": oval, "box": box})
    page = body(site, "objects/oval/index.md")
    table = words(page.split("<tbody>")[1].split("</tbody>")[0])
    assert table == ("1960 to 1970 Elm T1 T1 Stood in it Documented since 1980 Elm T2 T2 Stands in it Documented")
    assert 'href="../../trees/T1/"' in page
    assert 'href="../../stewards/dealer/"' in page
    first = body(site, "trees/T1/index.md")
    assert '<dt>Pot</dt><dd><a href="../../objects/box/">A box</a></dd>' in first
    before = first.split('<dt class="off-sheet">Before that</dt>')[1].split("</dd>")[0]
    assert '<a href="../../objects/oval/">The blue oval, 1960 to 1970</a>' in before
    index = words(body(site, "objects/index.md"))
    assert "Pots the blue oval Elm T2 , since 1980 Trays a box Elm T1 , since 1970" in index


def test_the_lists_stand_in_the_colophon() -> None:
    site = site_of(PASSED_ON)
    assert ("Who taught whom", "teaching/") in [(entry.title, entry.path) for entry in site.frame.colophon]


def test_of_very_many_trees_only_names_and_years_are_told() -> None:
    trees = [
        elm(event("gift", str(1960 + n // 5), id="g", from_="edda", to=HOUSE), accession=f"T{n}") for n in range(210)
    ]
    page = body(site_of(*trees), f"stewards/{HOUSE}/index.md")
    assert part(page, "held").startswith("Held 210 trees")
    assert page.count('href="../../trees/T7/"') == 1
    assert "By gift from" not in page
    assert len(page) / 210 < 600
