"""Small collections as the rules get them, with a place for every value that is asked for.

Marks count from 1 in the order in which they are asked for; `spot` gives the path back: "trees/T1/tree.yml label".
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from archive_tools.check import check_collection
from archive_tools.model.collection import Collection, Settings
from archive_tools.model.dates import DatePolicy, Duration, WhenWritten
from archive_tools.model.event import Citation, Event, EventRef, Note, Timing
from archive_tools.model.grades import Visibility
from archive_tools.model.people import CollectionObject, Source, Steward, Taught
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.places_in_files import Mark, Step, Where
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Member, Tree
from archive_tools.model.words import Words
from archive_tools.read.edtf_text import read_date

TODAY = date(2026, 11, 25)
HOUSE = "the-house"
POLICY = DatePolicy("north")


class EverySpot(Mapping[tuple[Step, ...], tuple[int, int]]):
    """Marks of a file in which every value that is asked for is written, each on a line of its own."""

    def __init__(self) -> None:
        self.paths: list[tuple[Step, ...]] = []

    def __getitem__(self, path: tuple[Step, ...]) -> tuple[int, int]:
        if path not in self.paths:
            self.paths.append(path)
        return self.paths.index(path) + 1, 1

    def __contains__(self, path: object) -> bool:
        return True

    def __iter__(self) -> Iterator[tuple[Step, ...]]:
        return iter(list(self.paths))

    def __len__(self) -> int:
        return len(self.paths)


_FILES: dict[str, EverySpot] = {}


def where(file: str, *base: Step) -> Where:
    return Where(file, _FILES.setdefault(file, EverySpot()), base)


def spot(mark: Mark) -> str:
    """The file and the path of the value that a mark stands for."""
    if mark.line is None or mark.file not in _FILES:
        return str(mark)
    return f"{mark.file} {'/'.join(map(str, _FILES[mark.file].paths[mark.line - 1]))}".rstrip()


def when(text: str | None) -> WhenWritten | None:
    return None if text is None else read_date(text, POLICY)


def words(text: str | dict[str, str] | None) -> Words | None:
    if text is None:
        return None
    return Words.plain(text) if isinstance(text, str) else Words(tuple(text.items()))


def many(value: Any) -> tuple[Any, ...]:
    return tuple(value) if isinstance(value, (list, tuple)) else (value,)


def _written(keys: dict[str, Any]) -> dict[str, Any]:
    """Keys as a curator writes them, as the model has them."""
    values: dict[str, Any] = {}
    for key, value in keys.items():
        if key in ("from_", "until", "born", "died", "when", "public_from", "label_written"):
            is_date = key != "from_" or not isinstance(value, list)
            values[key] = when(value) if is_date and isinstance(value, (str, type(None))) else value
        elif key in ("by", "to", "with_", "objects", "made_by", "members_", "form", "hazards", "people", "aliases"):
            values[key] = many(value)
        elif key in ("text", "title", "label", "caption", "alt", "public_name", "about", "award", "why"):
            values[key] = words(value)
        elif key == "source":
            values["sources"] = tuple(Citation(one) if isinstance(one, str) else one for one in many(value))
        elif key == "visibility":
            values[key] = Visibility(value)
            values["effective"] = Visibility(value)
        else:
            values[key] = value
    return values


def event(kind: str, on: str | None = None, *, id: str | None = None, **keys: Any) -> Event:
    """An event whose place is given by the record it is put into."""
    hands = {key: many(keys.pop(key)) for key in ("from_",) if key in keys}
    values = {**_written(keys), **hands}
    return Event(id=id or kind.replace(" ", "-"), kind=kind, where=where("loose.yml"), when=when(on), **values)


def timing(relation: str, other: str) -> Timing:
    accession, _, event_id = other.rpartition("#")
    return Timing(relation, EventRef(accession or None, event_id), None, None, where("loose.yml"))


def ref(text: str) -> EventRef:
    accession, _, event_id = text.partition("#")
    return EventRef(accession, event_id or None)


def _placed(events: Iterable[Event], file: str, owner: str) -> tuple[Event, ...]:
    placed = []
    for index, one in enumerate(events):
        here = where(file, "events", index) if one.where.file == "loose.yml" else one.where
        timings = tuple(replace(t, where=here.inner("timing", i)) for i, t in enumerate(one.timing))
        rings = replace(one.rings, where=here.inner("rings")) if one.rings else None
        placed.append(replace(one, where=here, tree=owner, timing=timings, rings=rings))
    return tuple(placed)


def note(id: str, body: str = "", *, folder: str = "trees/T1", **keys: Any) -> Note:
    path = f"{folder}/notes/{id}.md"
    keys.setdefault("trees", ("T1",))
    return Note(id=id, path=path, where=where(path), when=when(id[:10]), body=body, body_line=4, **_written(keys))


def photo(file: str, *, folder: str = "trees/T1", **keys: Any) -> Photo:
    keys.setdefault("of", ("T1",))
    if "marks" in keys:
        keys["marks"] = tuple(keys["marks"].items())
    sheet = f"{folder}/photos/photos.yml"
    return Photo(file=file, path=f"{folder}/photos/{file}", where=where(sheet, file), **_written(keys))


def comparison(id: str, before: str, after: str, **keys: Any) -> ComparisonWanted:
    file = "trees/T1/tree.yml"
    return ComparisonWanted(id, before, after, where(file, "comparisons", id), **_written(keys))


def member(id: str, **keys: Any) -> Member:
    return Member(id, where("trees/T1/tree.yml", "members", id), **_written(keys))


def tree(accession: str = "T1", *events: Event, **keys: Any) -> Tree:
    """A public tree with portrait and label, so that only what a test asks for is wrong with it."""
    file = f"trees/{accession}/tree.yml"
    values = {"visibility": "public", "label": "A tree.", "portrait": "2020.jpg", **keys}
    values.setdefault("photos", (photo("2020.jpg", folder=f"trees/{accession}", of=(accession,), visibility="public"),))
    return Tree(
        accession=accession,
        folder=f"trees/{accession}",
        where=where(file),
        taxon=("Ulmus parvifolia",),
        events=_placed(events, file, accession),
        **_written(values),
    )


def taught(who: str, from_: str | None = None, until: str | None = None, **keys: Any) -> Taught:
    return Taught(who, when(from_), when(until), **_written(keys))


def steward(id: str, name: str | None = None, **keys: Any) -> Steward:
    values = {"visibility": "public", **keys}
    return Steward(id=id, name=Words.plain(name or id.title()), where=where(f"stewards/{id}.yml"), **_written(values))


def source(id: str, **keys: Any) -> Source:
    values = {"visibility": "public", "kind": "ledger", "title": id.title(), **keys}
    return Source(id=id, where=where(f"sources/{id}.yml"), **_written(values))


def thing(id: str, *events: Event, **keys: Any) -> CollectionObject:
    file = f"objects/{id}.yml"
    values = {"visibility": "public", "name": Words.plain(id.title()), **keys}
    return CollectionObject(id=id, where=where(file), events=_placed(events, file, id), **_written(values))


def collection(
    *things: Tree | Steward | Source | CollectionObject, house: dict[str, Any] | None = None, **parts: Any
) -> Collection:
    """A collection of these things, with its house among the stewards."""
    _known = [steward(HOUSE, "The House", kind="institution"), *things]
    settings = Settings(
        **{
            "name": Words.plain("The House"),
            "custodian": HOUSE,
            "where": where("collection.yml"),
            "dates": POLICY,
            "defaults": dict.fromkeys(
                ("trees", "events", "notes", "photographs", "stewards", "sources", "objects"), Visibility.PUBLIC
            ),
            "at_the_time": Duration(1, 0, 0, "P1Y"),
            "unbroken_within": Duration(10, 0, 0, "P10Y"),
            **(house or {}),
        }
    )
    return Collection(
        settings=settings,
        trees={one.accession: one for one in _known if isinstance(one, Tree)},
        stewards={one.id: one for one in _known if isinstance(one, Steward)},
        sources={one.id: one for one in _known if isinstance(one, Source)},
        objects={one.id: one for one in _known if isinstance(one, CollectionObject)},
        **{"places": {}, "paths": (), "tours": {}, "talks": {}, **parts},
    )


def told(made: Collection, rule: Callable[..., Iterable[Problem]] | None = None) -> list[tuple[str, str]]:
    """Rule and place of every problem: of one rule's function, or of all; sorted by place."""
    problems = check_collection(made, TODAY) if rule is None else list(rule(made))
    return sorted(((problem.rule, spot(problem.mark)) for problem in problems), key=lambda pair: (pair[1], pair[0]))


def the_one(made: Collection) -> Problem:
    """The only problem of a collection."""
    problems = check_collection(made, TODAY)
    assert len(problems) == 1, [(p.rule, spot(p.mark), p.what) for p in problems]
    return problems[0]


def public(made: Collection) -> Collection:
    """The collection with every tree's own things as visible as they say, or as the tree."""

    def seen(one: Any) -> Any:
        return replace(one, effective=one.visibility or Visibility.PUBLIC)

    trees = {
        a: replace(
            t,
            events=tuple(map(seen, t.events)),
            notes=tuple(map(seen, t.notes)),
            photos=tuple(map(seen, t.photos)),
            comparisons=tuple(map(seen, t.comparisons)),
        )
        for a, t in made.trees.items()
    }
    objects = {i: replace(o, events=tuple(map(seen, o.events))) for i, o in made.objects.items()}
    return replace(made, trees=trees, objects=objects)
