from __future__ import annotations

from pathlib import Path

import pytest

from archive_tools.model.event import Citation
from archive_tools.model.grades import Grade, Visibility
from archive_tools.model.problems import Reach
from archive_tools.model.words import Words
from archive_tools.read.schema_grounds import (
    PlaceInGroundsSchema,
    SectionSchema,
    StopSchema,
    TalkSchema,
    TourSchema,
)
from archive_tools.read.schema_people import ObjectSchema, SourceSchema, StewardSchema

from .folder_of import errors, only, read, rules

STEWARD = """\
name: {en: Sumire Aonuma, ja: 青沼すみれ}
names: [{ja: 青沼すみれ, art name: Sumi}, S. Aonuma]
aliases: Miss Aonuma
sort_name: Aonuma, Sumire
pronunciation: ah-oh-noo-mah
kind: person
members: [a, b]
born: 1924~
died: 2009
active: 1951/1998
grade: reported
source: [letter, {id: diary, at: p. 3}]
taught_by: [renn, {who: quist, from: 1974, until: 1979, source: letter, grade: inferred}]
member_of: circle
visibility: public
public_from: 2030
public_name: a teacher
about: Teacher.
same_as: https://people.example/1
"""

SOURCE = """\
title: Ledger B
kind: ledger
date: 1958/1984
at_the_time: true
made_by: [nursery]
kept_at: Box 4
file: documents/b.pdf
visibility: internal
public_from: 2030
citation: Ledger B, 1958-1984.
"""

OBJECT = """\
name: The blue oval
kind: pot
maker: fenn
mark: Two gulls
material: Stoneware
glaze: Blue
size: 46 cm
owner: house
events: [{id: fired, kind: observed}, {kind: gift, date: 1992}]
visibility: public
public_from: 2030
public_name: A pot
"""

TOUR = """\
title: Round the courts
date: 2026-05-01
start_time: 9:30
minutes: 45
language: en
audience: staff
start: gate
end: yard
step_free: yes
must: [T1, T2]
prefer: taxon = Acer*
stops: [{tree: T1, seconds: 60, text: Look}, {place: yard}, {object: pot}]
visibility: internal
public_from: 2030
"""

TALK = """\
title: Years
date: 2026-05-01
minutes: 45
language: en
audience: public
speaker: adeyi
sections:
  - {title: One, seconds: 60, trees: [T1, T2], text: Say, show: [T1/a.jpg, "T1#c"]}
  - {trees: taxon = Acer*}
visibility: public
public_from: 2030
"""


def keys(text: str) -> set[str]:
    return {line.partition(":")[0] for line in text.splitlines() if line[0] != " "}


@pytest.mark.parametrize(
    ("schema", "text"),
    [(StewardSchema, STEWARD), (SourceSchema, SOURCE), (ObjectSchema, OBJECT), (TourSchema, TOUR), (TalkSchema, TALK)],
)
def test_no_key_of_a_schema_is_without_a_test(schema: type[StewardSchema], text: str) -> None:
    assert {field.alias or name for name, field in schema.model_fields.items()} == keys(text)


def test_every_key_of_a_steward_reaches_the_model(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"stewards/sumire-aonuma.yml": STEWARD})
    assert problems == []
    steward = collection.stewards["sumire-aonuma"]
    assert (steward.id, steward.name) == ("sumire-aonuma", Words((("en", "Sumire Aonuma"), ("ja", "青沼すみれ"))))
    assert steward.names == (("ja", "青沼すみれ"), ("art name", "Sumi"), ("", "S. Aonuma"))
    assert (steward.aliases, steward.sort_name, steward.pronunciation) == (
        ("Miss Aonuma",),
        "Aonuma, Sumire",
        "ah-oh-noo-mah",
    )
    assert (steward.kind, steward.members, steward.member_of) == ("person", ("a", "b"), ("circle",))
    dates = [when.text if when else None for when in (steward.born, steward.died, steward.active, steward.public_from)]
    assert dates == ["1924~", "2009", "1951/1998", "2030"]
    assert (steward.grade, steward.sources) == (Grade.REPORTED, (Citation("letter"), Citation("diary", "p. 3")))
    first, second = steward.taught_by
    assert (first.who, first.from_, second.who, second.grade) == ("renn", None, "quist", Grade.INFERRED)
    assert second.from_ is not None and second.until is not None and second.sources == (Citation("letter"),)
    assert (steward.visibility, steward.public_name) == (Visibility.PUBLIC, Words.plain("a teacher"))
    assert (steward.about, steward.same_as) == (Words.plain("Teacher."), ("https://people.example/1",))


def test_every_key_of_a_source_reaches_the_model(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"sources/ledger-b.yml": SOURCE})
    assert problems == []
    source = collection.sources["ledger-b"]
    assert (source.id, source.title, source.kind) == ("ledger-b", Words.plain("Ledger B"), "ledger")
    assert source.when is not None and source.when.text == "1958/1984"
    assert (source.at_the_time, source.made_by, source.kept_at) == (True, ("nursery",), Words.plain("Box 4"))
    assert (source.file, source.visibility) == ("documents/b.pdf", Visibility.INTERNAL)
    assert source.public_from is not None and source.citation == Words.plain("Ledger B, 1958-1984.")


def test_every_key_of_an_object_reaches_the_model(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"objects/blue-oval.yml": OBJECT})
    assert problems == []
    pot = collection.objects["blue-oval"]
    assert (pot.id, pot.name, pot.kind, pot.maker) == ("blue-oval", Words.plain("The blue oval"), "pot", "fenn")
    assert (pot.mark, pot.material, pot.glaze, pot.size) == tuple(
        map(Words.plain, ("Two gulls", "Stoneware", "Blue", "46 cm"))
    )
    assert (pot.owner, pot.visibility, pot.public_name) == ("house", Visibility.PUBLIC, Words.plain("A pot"))
    assert pot.public_from is not None
    assert [(event.id, event.kind, event.tree) for event in pot.events] == [
        ("fired", "observed", ""),
        ("gift-1992", "gift", ""),
    ]
    assert str(pot.events[1].where.at("date")) == "objects/blue-oval.yml:9:58"


def test_every_key_of_a_tour_reaches_the_model(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"tours/courts.yml": TOUR})
    assert problems == []
    tour = collection.tours["courts"]
    assert (tour.id, tour.title, tour.start_time, tour.minutes) == (
        "courts",
        Words.plain("Round the courts"),
        "09:30",
        45,
    )
    assert tour.when is not None and tour.when.text == "2026-05-01"
    assert (tour.language, tour.audience, tour.start, tour.end, tour.step_free) == ("en", "staff", "gate", "yard", True)
    assert (tour.must, tour.prefer, tour.visibility) == (("T1", "T2"), "taxon = Acer*", Visibility.INTERNAL)
    assert tour.public_from is not None
    assert [(stop.tree, stop.place, stop.object, stop.seconds) for stop in tour.stops] == [
        ("T1", None, None, 60),
        (None, "yard", None, None),
        (None, None, "pot", None),
    ]
    assert tour.stops[0].text == Words.plain("Look") and tour.stops[1].where.at("place").column == 54


def test_every_key_of_a_talk_reaches_the_model(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"talks/years.yml": TALK})
    assert problems == []
    talk = collection.talks["years"]
    assert (talk.id, talk.title, talk.minutes, talk.language) == ("years", Words.plain("Years"), 45, "en")
    assert (talk.audience, talk.speaker, talk.visibility) == ("public", "adeyi", Visibility.PUBLIC)
    assert talk.when is not None and talk.public_from is not None
    first, second = talk.sections
    assert (first.title, first.seconds, first.trees, first.trees_query) == (Words.plain("One"), 60, ("T1", "T2"), None)
    assert (first.text, first.show) == (Words.plain("Say"), ("T1/a.jpg", "T1#c"))
    assert (second.trees, second.trees_query) == ((), "taxon = Acer*")
    assert {*SectionSchema.model_fields} == {"title", "seconds", "trees", "text", "show"}
    assert {*StopSchema.model_fields} == {"tree", "place", "object", "seconds", "text"}


PLACES = """\
places:
  yard: {name: The Yard, at: [84, 52.5], open_to: staff, shade: half, water: tap, visibility: internal}
  court: {name: {en: Court, ja: 庭}}
paths:
  - {between: [yard, court], metres: 26, step_free: true}
  - {between: [court, yard], metres: 20.5}
"""


def test_places_and_paths_reach_the_model(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"places.yml": PLACES})
    assert problems == []
    assert list(collection.places) == ["court", "yard"]
    yard = collection.places["yard"]
    assert (yard.id, yard.name, yard.at, yard.open_to) == ("yard", Words.plain("The Yard"), (84.0, 52.5), "staff")
    assert (yard.shade, yard.water, yard.visibility) == (Words.plain("half"), Words.plain("tap"), Visibility.INTERNAL)
    assert str(yard.where.at("shade")) == "places.yml:2:65"
    assert [(path.between, path.metres, path.step_free) for path in collection.paths] == [
        (("yard", "court"), 26.0, True),
        (("court", "yard"), 20.5, False),
    ]
    assert {*PlaceInGroundsSchema.model_fields} == {"name", "at", "open_to", "shade", "water", "visibility"}


FAULTS = [
    ("stewards/a.yml", "name: x\nkind: persn\n", "unknown-word", "person"),
    ("stewards/a.yml", "name: x\nvisibilty: restricted\n", "unknown-key", "visibility"),
    ("stewards/a.yml", "name: x\nborn: spring 1911\n", "bad-date", "1911-21"),
    ("stewards/a.yml", "name: x\nsame_as: wiki\n", "bad-address", "https://"),
    ("sources/a.yml", "title: x\nkind: bok\n", "unknown-word", ""),
    ("sources/a.yml", "title: x\nvisibility: 3\nkind: diary\n", "bad-visibility", "public"),
    ("objects/a.yml", "name: x\nkind: post\n", "unknown-word", "pot"),
    ("tours/a.yml", "title: x\nstart_time: 25:00\n", "bad-value", "14:30"),
    ("tours/a.yml", "title: x\nstops: {tree: a, place: b}\n", "bad-value", "tree"),
    ("talks/a.yml", "title: x\naudience: all\n", "unknown-word", "public or staff"),
]


@pytest.mark.parametrize(("file", "text", "rule", "instead"), FAULTS)
def test_a_fault_in_a_record_stops_a_build_and_closes_it(
    tmp_path: Path, file: str, text: str, rule: str, instead: str
) -> None:
    collection, problems = read(tmp_path, {file: text})
    problem = only(errors(problems))
    folder = file.partition("/")[0]
    assert (problem.rule, problem.mark.file, problem.mark.line) == (rule, file, 2)
    assert (problem.reach, problem.subject) == (Reach.RECORD, ("a", folder.removesuffix("s"), "a"))
    assert instead in (problem.instead or "")
    records = getattr(collection, folder)
    if (folder, rule) == ("sources", "unknown-word"):
        assert records == {}  # a source needs a kind
    else:
        assert records["a"].visibility is Visibility.RESTRICTED


@pytest.mark.parametrize(
    ("text", "rule", "line", "reach", "places", "paths"),
    [
        ("places:\n  a: {name: A, visibilty: restricted}\n  b: {name: B}\n", "unknown-key", 2, Reach.RECORD, 2, 0),
        ("places:\n  a: {at: [1, 2]}\n  b: {name: B}\n", "missing-key", 2, Reach.RECORD, 1, 0),
        ("places:\n  a: {name: A}\n  a: {name: B}\n", "duplicate-key", 3, Reach.RECORD, 1, 0),
        ("paths: [{between: [a], metres: 3}, {between: [a, b], metres: 3}]\n", "bad-value", 1, Reach.STATEMENT, 0, 1),
        ("paths: [{between: [a, b], metres: far}]\n", "bad-number", 1, Reach.STATEMENT, 0, 0),
        ("places: [a, b]\n", "bad-value", 1, Reach.RECORD, 0, 0),
        ("place: {}\n", "unknown-key", 1, Reach.RECORD, 0, 0),
        ("- a\n", "bad-value", 1, Reach.RECORD, 0, 0),
    ],
)
def test_faults_in_places(
    tmp_path: Path, text: str, rule: str, line: int, reach: Reach, places: int, paths: int
) -> None:
    collection, problems = read(tmp_path, {"places.yml": text})
    problem = only(errors(problems))
    assert (problem.rule, problem.mark.line, problem.reach) == (rule, line, reach)
    assert (len(collection.places), len(collection.paths)) == (places, paths)


def test_records_come_by_id_and_other_files_are_told(tmp_path: Path) -> None:
    files: dict[str, str | bytes] = {f"stewards/{name}.yml": f"name: {name}\n" for name in ("b", "a-1", "a")}
    collection, problems = read(tmp_path, {**files, "stewards/c.yaml": "name: c\n", "stewards/old/d.yml": "name: d\n"})
    assert list(collection.stewards) == ["a", "a-1", "b"]
    assert [(p.rule, p.mark.file, p.instead) for p in problems] == [
        ("stray-file", "stewards/c.yaml", "c.yml"),
        ("stray-file", "stewards/old", None),
    ]


def test_a_faulty_teacher_is_left_out_alone(tmp_path: Path) -> None:
    text = "name: x\ntaught_by: [{who: a, form: 1974}, b]\n"
    collection, problems = read(tmp_path, {"stewards/x.yml": text})
    assert [one.who for one in collection.stewards["x"].taught_by] == ["b"]
    assert only(problems).reach is Reach.STATEMENT and collection.stewards["x"].visibility is None


def test_a_faulty_event_of_an_object_is_left_out_alone(tmp_path: Path) -> None:
    text = "name: x\nevents: [{kind: fird}, {id: e, kind: gift}]\n"
    collection, problems = read(tmp_path, {"objects/x.yml": text})
    assert [event.id for event in collection.objects["x"].events] == ["e"]
    assert only(problems).subject == ("x", "event", "fird")


def test_an_unreadable_record_is_missing_and_the_others_are_read(tmp_path: Path) -> None:
    collection, problems = read(tmp_path, {"stewards/a.yml": "name: 'x\n", "stewards/b.yml": "name: b\n"})
    assert list(collection.stewards) == ["b"] and rules(problems) == ["bad-yaml"]
