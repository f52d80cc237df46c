"""Pots and other things as lines of their own; teaching; what one steward had to do with the trees."""

from __future__ import annotations

from typing import Any

from archive_tools.model.event import Citation
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Grade
from archive_tools.model.people import CollectionObject, Taught
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words
from archive_tools.reason import find, graded
from archive_tools.reason.lineage.teaching import line_down, line_up
from archive_tools.reason.steward_json import steward_as_json
from tests.making import AS_OF, HOUSE, collection, event, source, tree, when
from tests.reason.lineage_asking import people, refs, years


def found(*trees: Any, objects: tuple[CollectionObject, ...] = (), **more: dict[str, Any]) -> Findings:
    records = collection(*trees, stewards=people(**more), objects={thing.id: thing for thing in objects})
    return find(records, AS_OF, AS_OF)


def pot(pot_id: str, *events: Any, **keys: Any) -> CollectionObject:
    return CollectionObject(pot_id, Words.plain(pot_id), Where(f"objects/{pot_id}.yml"), events=events, **keys)


def span(start: Any, end: Any) -> str:
    def day(bounds: Any) -> dict[str, str | None] | None:
        if bounds is None:
            return None
        return {k: v.isoformat() if v else None for k, v in (("earliest", bounds.earliest), ("latest", bounds.latest))}

    return f"{years(day(start))} to {years(day(end))}"


def stood(findings: Findings, pot_id: str) -> list[str]:
    return [
        f"{s.tree} {s.sort} {span(s.start, s.end)}{' presumed' if s.presumed_end else ''}"
        for s in findings.objects[pot_id].trees
    ]


def test_which_trees_stood_in_a_pot_and_when() -> None:
    """Repotted into the same pot it stays one time; a repotting that names no pot says nothing of it."""
    maple = tree(
        event("potted", "1957", into="box"),
        event("repotted", "1963"),
        event("repotted", "1969", into="oval"),
        event("repotted", "1975", into="oval"),
        event("planted out", "1990"),
    )
    findings = found(maple, objects=(pot("box"), pot("oval")))
    assert stood(findings, "box") == ["T1 in 1957 to 1969"]
    assert stood(findings, "oval") == ["T1 in 1969 to 1990"]
    assert [s.object for s in findings.lineages["T1"].objects] == ["box", "oval"]


def test_a_planting_set_back_into_its_tray_in_one_work_stood_there_all_the_time() -> None:
    """Taken apart and planted together again on one day; a year out of the tray, or another tray, is another matter."""

    def grove(back: str, into: str) -> list[str]:
        planting = tree(
            event("repotted", "1995-03", into="tray"),
            event("taken apart", "2009-03-14"),
            event("assembled", back, into=into),
            kind="planting",
        )
        return stood(found(planting, objects=(pot("tray"), pot("slab"))), "tray")

    assert grove("2009-03-14", "tray") == ["T1 in 1995 to now"]
    assert grove("2010-03-14", "tray") == ["T1 in 1995 to 2009", "T1 in 2010 to now"]
    assert grove("2009-03-14", "slab") == ["T1 in 1995 to 2009"]


def test_another_tree_in_the_same_pot_shows_that_the_first_had_left_it() -> None:
    one = tree(event("potted", "1957", into="oval"))
    other = tree(event("repotted", "1980-03", into="oval"), accession="T2")
    findings = found(one, other, objects=(pot("oval"),))
    assert stood(findings, "oval") == ["T1 in 1957 to 1957-1980 presumed", "T2 in 1980 to now"]


def test_what_a_tree_was_shown_with_and_what_the_things_own_record_tells() -> None:
    shown = tree(event("on display", "2016-06-11", "2016-06-26", objects=("scroll",)))
    stone = pot("stone", event("observed", "1976-04-11", by="anna", trees=refs("T1")))
    findings = found(shown, objects=(pot("scroll"), stone))
    assert stood(findings, "scroll") == ["T1 with 2016 to 2016"]
    assert stood(findings, "stone") == ["T1 with 1976 to 1976"]
    assert [hand.stewards for hand in findings.objects["stone"].hands] == [("anna",)]


def test_a_pot_has_holders_of_its_own() -> None:
    oval = pot(
        "oval",
        event("purchase", "1969-03", id="a", from_="old-rooms", to="anna"),
        event("gift", "1979", id="b", from_="anna", to=HOUSE),
        event("loan", "2001", "2002", id="c", from_=HOUSE, to="harbour-museum"),
    )
    line = found(tree(), objects=(oval, pot("tray", owner=HOUSE))).objects
    assert [(p.holders, span(p.start, p.end), p.owner) for p in line["oval"].periods] == [
        (("old-rooms",), "-1969 to 1969", True),
        (("anna",), "1969 to 1979", True),
        ((HOUSE,), "1979 to now", True),
        (("harbour-museum",), "2001 to 2002", False),
    ]
    assert [(p.holders, p.how) for p in line["tray"].periods] == [((HOUSE,), "not known how")]


def taught(who: str, from_: str | None = None, until: str | None = None, **keys: Any) -> Taught:
    return Taught(who, when(from_), when(until), **keys)


def test_teaching_is_graded_by_its_sources() -> None:
    """A diary of those years documents it, an interview reports it, nothing leaves it without a source."""
    cited = {"sources": (Citation("diary"),)}
    told = {"sources": (Citation("talk"),)}
    more = {
        "bo": {"taught_by": (taught("anna", "1960", "1965", **cited),)},
        "cleo": {"taught_by": (taught("bo", "1970", **told), taught("anna"))},
        "dov": {"taught_by": (taught("cleo", "1980", grade=Grade.INFERRED, **cited),)},
    }
    books = (source("diary", "Diary", kind="diary"), source("talk", "Talk", kind="interview"))
    records = graded(collection(tree(), stewards=people(**more), sources=books))
    findings = find(records, AS_OF, AS_OF)
    assert [(t.teacher, t.pupil, t.grade) for t in findings.teaching] == [
        ("anna", "bo", Grade.DOCUMENTED),
        ("bo", "cleo", Grade.REPORTED),
        ("cleo", "dov", Grade.INFERRED),
        ("anna", "cleo", Grade.UNSOURCED),
    ]
    assert line_up("dov", findings.teaching) == [["cleo"], ["bo", "anna"]]
    assert line_down("anna", findings.teaching) == [["bo", "cleo"], ["dov"]]


def test_a_line_of_teaching_that_goes_in_a_circle_is_walked_once() -> None:
    more = {"anna": {"taught_by": (taught("bo"),)}, "bo": {"taught_by": (taught("anna"),)}}
    findings = found(tree(), **more)
    assert line_up("anna", findings.teaching) == [["bo"]]


def test_all_that_one_steward_had_to_do_with_the_trees() -> None:
    elm = tree(
        event("struck", "1950", by="anna"),
        event("styled", "1960-05", by="bo", with_="anna"),
        event("gift", "1970", from_="anna", to=HOUSE),
    )
    pine = tree(event("wired", "1955-03", by="anna"), event("gift", "1980", from_="bo", to="anna"), accession="T2")
    records = collection(elm, pine, stewards=people(bo={"taught_by": (taught("anna", "1958", "1962"),)}))
    findings = find(records, AS_OF, AS_OF)
    told: Any = steward_as_json(records.stewards["anna"], findings, records.stewards)
    assert [(h["tree"], h["how"], years(h["from"]), years(h["to"])) for h in told["held"]] == [
        ("T1", "first hands", "1950", "1970"),
        ("T2", "gift", "1980", "now"),
    ]
    assert [(w["tree"], w["kind"]) for w in told["made"]] == [("T1", "struck")]
    assert [(w["tree"], w["kind"]) for w in told["worked"]] == [("T2", "wired")]
    assert [(w["tree"], w["kind"]) for w in told["present"]] == [("T1", "styled")]
    assert [(p["steward"], years(p["from"]), years(p["to"])) for p in told["pupils"]] == [("bo", "1958", "1962")]
    # She still has the pine, so the records tell of her until the day asked for.
    assert told["active"] == {"earliest": "1950-01-01", "latest": AS_OF.isoformat()}
