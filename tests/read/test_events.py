from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from archive_tools.model.event import Citation, Event, EventRef, Measured
from archive_tools.model.grades import Grade, Milestone, Visibility
from archive_tools.model.problems import Reach
from archive_tools.model.words import Words
from archive_tools.read.schema_event import EventSchema

from .folder_of import errors, only, places, read, read_tree

EVERY_KEY = """events:
  - id: potted
    kind: potted
    date: 1957-04
    until: 1957-05
    by: [quist, renn]
    from: a
    to: b
    joint: yes
    with: circle
    trees: [T2, "T3#died"]
    from_tree: T1#struck
    at: yard
    into: box
    objects: [stand, scroll]
    share: 1/4
    sector: 12-3
    cycle: roots
    turned: -15.5
    was: {en: broom}
    becomes: clump
    cause: frost
    award: First prize
    awarded_by: club
    planned: false
    does: plan-3
    measured:
      - {what: height, value: 61.5, unit: in, plus_minus: 0.5}
      - {what: trunk, value: 12}
    source:
      - ledger
      - {id: letter, at: p. 2, quote: As I remember}
    grade: reported
    shows: [trained, container]
    visibility: internal
    public_from: 2030-01-01
    title: First pot
    text: {en: Done, ja: 済}
    timing:
      - {after: struck, at_least: P2Y, at_most: P3Y}
      - {before: "T2#gift"}
    states_age: {of: origin, years: ">=60", as_of: 2003}
    rings: {count: 38, missed: 0..5, false: 2, of: base, up_to: collected}
"""


def the_event(folder: Path, text: str) -> Event:
    collection, problems = read_tree(folder, text)
    assert problems == []
    (event,) = collection.trees["T1"].events
    return event


def test_every_key_of_an_event_reaches_the_model(tmp_path: Path) -> None:
    event = the_event(tmp_path, EVERY_KEY)
    assert (event.id, event.kind, event.tree, event.from_note) == ("potted", "potted", "T1", False)
    assert event.when is not None and event.when.text == "1957-04"
    assert event.until is not None and event.until.text == "1957-05"
    assert (event.by, event.from_, event.to, event.with_) == (("quist", "renn"), ("a",), ("b",), ("circle",))
    assert (event.joint, event.planned, event.does) == (True, False, "plan-3")
    assert event.trees == (EventRef("T2", None), EventRef("T3", "died"))
    assert (event.from_tree, event.from_tree_text) == (EventRef("T1", "struck"), None)
    assert (event.at, event.into, event.objects) == ("yard", "box", ("stand", "scroll"))
    assert (event.share, event.sector, event.cycle, event.turned) == ((1, 4), ("12", "3"), "roots", Decimal("-15.5"))
    assert event.was == Words((("en", "broom"),)) and event.becomes == Words.plain("clump")
    assert (event.cause, event.award, event.awarded_by) == ("frost", Words.plain("First prize"), "club")
    assert event.measured == (
        Measured("height", Decimal("61.5"), "in", Decimal("0.5")),
        Measured("trunk", Decimal(12), "cm", None),
    )
    assert event.sources == (Citation("ledger"), Citation("letter", "p. 2", "As I remember"))
    assert (event.grade, event.shows, event.visibility) == (
        Grade.REPORTED,
        ("trained", "container"),
        Visibility.INTERNAL,
    )
    assert event.public_from is not None and event.public_from.text == "2030-01-01"
    assert event.title == Words.plain("First pot") and event.text == Words((("en", "Done"), ("ja", "済")))
    after, before = event.timing
    assert (after.relation, after.other) == ("after", EventRef(None, "struck"))
    assert after.at_least is not None and after.at_most is not None
    assert (after.at_least.text, after.at_most.text) == ("P2Y", "P3Y")
    assert (before.relation, before.other, before.at_least) == ("before", EventRef("T2", "gift"), None)
    (age,) = event.states_age
    assert (age.of, age.text, age.least, age.most, age.approximate) == (Milestone.ORIGIN, ">=60", 60, None, False)
    assert age.as_of is not None and age.as_of.text == "2003"
    assert event.rings is not None
    assert (event.rings.count, event.rings.missed, event.rings.false_rings) == (38, (0, 5), 2)
    assert (event.rings.of, event.rings.up_to) == ("base", EventRef(None, "collected"))


def test_no_key_of_the_schema_is_without_a_test() -> None:
    keys = {field.alias or name for name, field in EventSchema.model_fields.items()}
    written = {line.strip(" -").partition(":")[0] for line in EVERY_KEY.splitlines()[1:] if line[4] != " "}
    assert keys == written


def test_places_are_those_of_the_values(tmp_path: Path) -> None:
    # tree.yml has two lines before `events:`
    where = the_event(tmp_path, EVERY_KEY).where
    file = "trees/T1-a/tree.yml"
    assert str(where.at("date")) == f"{file}:6:11"
    assert str(where.at("by", 1)) == f"{file}:8:17"
    assert str(where.at("measured", 1, "value")) == f"{file}:31:30"
    assert str(where.at("nothing")) == f"{file}:4:5"


def test_places_inside_statements(tmp_path: Path) -> None:
    event = the_event(tmp_path, EVERY_KEY)
    assert (event.timing[1].where.at("before").line, event.timing[1].where.at("before").column) == (43, 18)
    assert (event.states_age[0].where.at("years").line, event.states_age[0].where.at("years").column) == (44, 37)
    assert event.rings is not None
    assert (event.rings.where.at("missed").line, event.rings.where.at("missed").column) == (45, 32)


@pytest.mark.parametrize(
    ("written", "text", "least", "most", "about"),
    [
        ("60", "60", 60, 60, False),
        ('">=60"', ">=60", 60, None, False),
        ("60~", "60~", 60, 60, True),
        ("55..60", "55..60", 55, 60, False),
    ],
)
def test_the_four_forms_of_a_stated_age(
    tmp_path: Path, written: str, text: str, least: int, most: int | None, about: bool
) -> None:
    event = the_event(tmp_path, f"events: {{kind: observed, states_age: {{of: care, years: {written}}}}}\n")
    (age,) = event.states_age
    assert (age.text, age.least, age.most, age.approximate) == (text, least, most, about)


@pytest.mark.parametrize(("written", "missed"), [("", (0, None)), (", missed: 3", (3, 3)), (", missed: 0..5", (0, 5))])
def test_rings_missed(tmp_path: Path, written: str, missed: tuple[int, int | None]) -> None:
    event = the_event(tmp_path, f"events: {{kind: collected, rings: {{count: 38{written}}}}}\n")
    assert event.rings is not None and event.rings.missed == missed


@pytest.mark.parametrize(
    ("written", "ref", "text"),
    [
        ("T1", EventRef("T1", None), None),
        ("T1#cut", EventRef("T1", "cut"), None),
        ("B9", EventRef("B9", None), None),
        ("a street maple of 1950", None, "a street maple of 1950"),
    ],
)
def test_the_mother_plant_is_an_accession_or_text(
    tmp_path: Path, written: str, ref: EventRef | None, text: str | None
) -> None:
    house = "name: x\ncustodian: y\naccession_pattern: '[TB][0-9]'\n"
    record = f"accession: T1\ntaxon: x\nevents: [{{kind: struck, from_tree: {written}}}]\n"
    collection, problems = read(tmp_path, {"trees/T1/tree.yml": record}, house)
    (event,) = collection.trees["T1"].events
    assert problems == []
    assert (event.from_tree, event.from_tree_text) == (ref, text)


FAULTS = [
    # the faulty key and value, rule, what must stand in the advice
    ("kind: repoted", "unknown-kind", "repotted"),
    ("kind: Repotted", "unknown-kind", "repotted"),
    ("date: March 1951", "bad-date", "1951-03"),
    ("date: [1951,1953]", "bad-date", '"[1951,1953]"'),
    ("date: {1951,1953}", "bad-date", '"{1951,1953}"'),
    ('date: "{1951,1953}"', "bad-date", "[1951,1953]"),
    ("date: 2016-02-39", "bad-date", ""),
    ("until: 1951-13", "bad-date", ""),
    ("joint: maybe", "bad-value", "true or false"),
    ("planned: True", "bad-value", "true"),
    ("visibility: pubic", "bad-visibility", "public"),
    ("visibility: secret", "bad-visibility", "public, internal or restricted"),
    ("grade: reportd", "unknown-word", "reported"),
    ("share: 5/4", "bad-value", "1/4"),
    ("share: 0", "bad-value", "1/4"),
    ("sector: 13-3", "bad-value", "12-3"),
    ("turned: 400", "bad-number", "360"),
    ("turned: half", "bad-number", "digits"),
    ("shows: traned", "unknown-word", "trained"),
    ("trees: ['#x']", "bad-reference", "accession#event"),
    ("id: a#b", "bad-id", "a-b"),
    ("bye: x", "unknown-key", "by"),
    ("who: x", "unknown-key", "by"),
    ("text: {since.care}", "bad-language", '"{since.care}"'),
    ("text: [[T1]]", "bad-value", '"[[T1]]"'),
    ("source: {quot: x, id: y}", "unknown-key", "quote"),
    ("source: {at: x}", "missing-key", "id"),
    ("by: [x, {a: b}]", "bad-value", ""),
]


@pytest.mark.parametrize(("fault", "rule", "instead"), FAULTS)
def test_a_fault_leaves_out_its_event_alone(tmp_path: Path, fault: str, rule: str, instead: str) -> None:
    kind = "" if fault.startswith("kind") else "\n    kind: fed"
    text = f"events:\n  - {{id: good, kind: fed}}\n  - {fault}{kind}\n    until: 1951-02-30\n"
    if fault.startswith("until"):
        text = text.replace("    until: 1951-02-30\n", "    public_from: 1951-02-30\n")
    collection, problems = read_tree(tmp_path, text)
    assert [event.id for event in collection.trees["T1"].events] == ["good"]
    # The second fault of the same event is told too.
    first, second = errors(problems)
    assert (first.rule, first.mark.line, second.mark.line) == (rule, 5, 7 if kind else 6)
    assert first.reach is Reach.STATEMENT and first.subject == second.subject
    assert first.subject is not None and first.subject[:2] == ("T1", "event")
    assert instead in (first.instead or "")


def test_columns_of_faults(tmp_path: Path) -> None:
    text = "events:\n  - kind: fed\n    by:   [a, [b]]\n    whon: x\n    source: {id: a, at: [b]}\n"
    _, problems = read_tree(tmp_path, text)
    file = "trees/T1-a/tree.yml"
    assert places(errors(problems)) == [(file, 5, 15), (file, 6, 5), (file, 7, 25)]


STATEMENTS = [
    ("timing: {after: a, at_lest: P1Y}", "unknown-key", "at_least", "timing"),
    ("timing: {after: a, at_least: 2 years}", "bad-duration", "P2Y", "timing"),
    ("timing: {after: a, before: b}", "bad-value", "after", "timing"),
    ("timing: {at_least: P1Y}", "bad-value", "after", "timing"),
    ("timing: {after: a, at_least: P3Y, at_most: P2Y}", "bad-duration", "at_least", "timing"),
    ("timing: soon", "bad-value", "", "timing"),
    ("states_age: {of: care, years: sixty}", "bad-value", ">=60", "states_age"),
    ("states_age: {of: car, years: 60}", "unknown-word", "care", "states_age"),
    ("states_age: {of: care, years: 60..55}", "bad-value", "55..60", "states_age"),
    ("rings: {count: 0}", "bad-number", "", "rings"),
    ("rings: {count: 38, missed: 5..0}", "bad-value", "0..5", "rings"),
    ("rings: {count: 3, false: 3}", "bad-number", "", "rings"),
    ("rings: {count: 3, of: bark}", "unknown-word", "base", "rings"),
    ("measured: {what: height, value: 61,5}", "unknown-key", "quotes", "measured"),
    ("measured: {what: height, value: '61,5'}", "bad-number", "61.5", "measured"),
]


@pytest.mark.parametrize(("fault", "rule", "instead", "sort"), STATEMENTS)
def test_a_faulty_statement_leaves_its_event_standing(
    tmp_path: Path, fault: str, rule: str, instead: str, sort: str
) -> None:
    collection, problems = read_tree(tmp_path, f"events:\n  - id: e\n    kind: fed\n    {fault}\n")
    (event,) = collection.trees["T1"].events
    assert (event.timing, event.states_age, event.rings, event.measured) == ((), (), None, ())
    problem = errors(problems)[0]
    assert (problem.rule, problem.mark.line, problem.reach) == (rule, 6, Reach.STATEMENT)
    assert problem.subject == ("T1", sort, "e")
    assert instead in (problem.instead or "")


def test_a_faulty_statement_leaves_the_others_of_its_list(tmp_path: Path) -> None:
    text = "events:\n  - kind: fed\n    timing: [{after: a}, {aftr: b}, {before: c}]\n"
    collection, problems = read_tree(tmp_path, text)
    (event,) = collection.trees["T1"].events
    assert [str(timing.other) for timing in event.timing] == ["a", "c"]
    assert event.timing[1].where.at("before").column == 46
    assert {problem.rule for problem in problems} >= {"unknown-key"}


def test_a_key_written_twice_leaves_out_its_event_alone(tmp_path: Path) -> None:
    text = "events:\n  - {id: a, kind: fed, date: 1951, date: 1952}\n  - {id: b, kind: fed}\n"
    collection, problems = read_tree(tmp_path, text)
    assert [event.id for event in collection.trees["T1"].events] == ["b"]
    problem = only(problems)
    assert (problem.rule, problem.mark.line, problem.mark.column) == ("duplicate-key", 4, 36)
    assert problem.subject == ("T1", "event", "a")


def test_a_name_for_a_value_leaves_out_its_event_alone(tmp_path: Path) -> None:
    text = "events:\n  - {id: a, kind: fed, date: &d 1951}\n  - {id: b, kind: fed, date: *d}\n  - {id: c, kind: fed}\n"
    collection, problems = read_tree(tmp_path, text)
    assert [event.id for event in collection.trees["T1"].events] == ["c"]
    assert [(problem.rule, problem.mark.column) for problem in problems] == [("alias", 30), ("alias", 30)]


def test_an_empty_item_is_no_event_but_is_told(tmp_path: Path) -> None:
    collection, problems = read_tree(tmp_path, "events:\n  - {id: a, kind: fed}\n  -\n")
    assert len(collection.trees["T1"].events) == 1
    assert only(problems).rule == "empty-value"


def test_dates_are_read_by_the_policy_of_the_house(tmp_path: Path) -> None:
    house = "name: x\ncustodian: y\nhemisphere: south\napproximate: {year: P4Y}\n"
    record = "accession: T1\ntaxon: x\nevents: [{kind: fed, date: 1951-21, until: 1951~}]\n"
    collection, problems = read(tmp_path, {"trees/T1/tree.yml": record}, house)
    (event,) = collection.trees["T1"].events
    assert problems == [] and event.when is not None and event.until is not None
    assert str(event.when.earliest) == "1951-09-01"
    assert str(event.until.earliest) == "1947-01-01"
