"""Short ways to make values of the model in tests: `event("gift", "1985-06-02", from_="edda", to="house")`."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from archive_tools.model.collection import Collection, Settings
from archive_tools.model.dates import DatePolicy, Duration, WhenWritten
from archive_tools.model.event import Citation, Event, Note
from archive_tools.model.findings import TreeChronology
from archive_tools.model.grades import Grade, Visibility
from archive_tools.model.people import Source, Steward
from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Tree
from archive_tools.model.words import Words
from archive_tools.read.edtf_text import read_date

POLICY = DatePolicy(hemisphere="north")
AS_OF = date(2026, 11, 25)
HOUSE = "the-house"


def when(text: str | None) -> WhenWritten | None:
    return read_date(text, POLICY) if text else None


def event(kind: str, on: str | None = None, until: str | None = None, **keys: Any) -> Event:
    """An event; a steward may stand alone where the record takes several."""
    for key in ("by", "from_", "to", "with_"):
        if isinstance(keys.get(key), str):
            keys[key] = (keys[key],)
    keys.setdefault("id", f"{kind}-{on}".replace(" ", "-"))
    keys.setdefault("standing", Grade.DOCUMENTED)
    if isinstance(keys.get("sources"), str):
        keys["sources"] = (Citation(keys["sources"]),)
    return Event(kind=kind, where=Where("tree.yml"), tree="T1", when=when(on), until=when(until), **keys)


def tree(*events: Event, accession: str = "T1", **keys: Any) -> Tree:
    keys.setdefault("visibility", Visibility.PUBLIC)
    return Tree(
        accession=accession,
        folder=f"trees/{accession}",
        where=Where(f"trees/{accession}/tree.yml"),
        taxon=("Ulmus parvifolia",),
        events=tuple(replace(e, tree=accession) for e in events),
        **keys,
    )


def note(note_id: str, body: str, **keys: Any) -> Note:
    keys.setdefault("trees", ("T1",))
    path = f"trees/T1/notes/{note_id}.md"
    return Note(id=note_id, path=path, where=Where(path), when=when(note_id[:10]), body=body, body_line=3, **keys)


def photo(file: str, **keys: Any) -> Photo:
    keys.setdefault("of", ("T1",))
    return Photo(file=file, path=f"trees/T1/photos/{file}", where=Where("trees/T1/photos/photos.yml"), **keys)


def steward(steward_id: str, name: str, **keys: Any) -> Steward:
    return Steward(id=steward_id, name=Words.plain(name), where=Where(f"stewards/{steward_id}.yml"), **keys)


def source(source_id: str, title: str, **keys: Any) -> Source:
    keys.setdefault("kind", "letter")
    return Source(id=source_id, title=Words.plain(title), where=Where(f"sources/{source_id}.yml"), **keys)


def collection(*trees: Tree, defaults: dict[str, Visibility] | None = None, **parts: Any) -> Collection:
    settings = Settings(
        name=Words.plain("The House"),
        custodian=HOUSE,
        where=Where("collection.yml"),
        dates=POLICY,
        defaults=defaults or {},
        at_the_time=Duration(1, 0, 0, "P1Y"),
        unbroken_within=Duration(10, 0, 0, "P10Y"),
    )
    house = steward(HOUSE, "The House", visibility=Visibility.PUBLIC, kind="institution")
    stewards = {s.id: s for s in (house, *parts.pop("stewards", ()))}
    sources = {s.id: s for s in parts.pop("sources", ())}
    empty: dict[str, Any] = {"objects": {}, "places": {}, "paths": (), "tours": {}, "talks": {}}
    return Collection(
        settings=settings,
        trees={t.accession: t for t in trees},
        stewards=stewards,
        sources=sources,
        **{**empty, **parts},
    )


def nothing_found(accession: str = "T1") -> TreeChronology:
    """A chronology that adds nothing to the dates as written."""
    return TreeChronology(accession=accession, as_of=AS_OF, under_review=False, milestones={}, events=())
