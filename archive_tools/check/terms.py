"""Terms that are not in the vocabulary of the format, or in the house's own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from archive_tools.check.telling import in_photo, in_value
from archive_tools.check.walk import all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem
from archive_tools.model.vocabulary import (
    DATED_BY,
    HAZARDS,
    OBJECT_KINDS,
    PENJING_CLASSES,
    PHOTO_VIEWS,
    SOURCE_KINDS,
    STEWARD_KINDS,
    STYLES,
    TRADITIONS,
    nearest,
    penjing_class_meant,
    style_meant,
)

_HOUSE = "more can be listed under `vocabulary` in collection.yml"


def unknown_styles(collection: Collection) -> Iterator[Problem]:
    """`form` and `penjing_class` of trees; a Japanese or Chinese term is answered with the term it stands for."""
    known = [*STYLES, *collection.settings.vocabulary.get("style", ())]
    for tree in collection.trees.values():
        record = ("tree", tree.accession)
        for index, term in enumerate(tree.form):
            if term not in known:
                what = f"“{term}” is not known as a style ({_HOUSE})"
                near = style_meant(term) or nearest(term, known)
                yield in_value(tree.where.at("form", index), record, f"form/{index}", "unknown-style", what, near)
        chosen = tree.penjing_class
        if chosen is not None and chosen not in PENJING_CLASSES:
            what = f"“{chosen}” is not known as a class of penjing"
            near = penjing_class_meant(chosen) or nearest(chosen, PENJING_CLASSES) or _any_of(PENJING_CLASSES)
            yield in_value(tree.where.at("penjing_class"), record, "penjing_class", "unknown-word", what, near)


def unknown_words(collection: Collection) -> Iterator[Problem]:
    """Hazards and traditions of trees, views and `dated_by` of photographs, kinds of sources, stewards and objects."""
    hazards = [*HAZARDS, *collection.settings.vocabulary.get("hazards", ())]
    for tree in collection.trees.values():
        record = ("tree", tree.accession)
        for index, hazard in enumerate(tree.hazards):
            yield from _word(
                tree.where.at("hazards", index), record, f"hazards/{index}", hazard, hazards, f"a hazard ({_HOUSE})"
            )
        yield from _word(tree.where.at("tradition"), record, "tradition", tree.tradition, TRADITIONS, "a tradition")
    for tree, photo in all_photos(collection):
        if photo.view is not None and photo.view not in PHOTO_VIEWS:
            what = f"“{photo.view}” is not known as a side of the tree"
            near = nearest(photo.view, PHOTO_VIEWS) or _any_of(PHOTO_VIEWS)
            yield in_photo(tree.accession, photo, ("view",), "unknown-word", what, near)
        # A date the program found itself is given its reason by the program.
        if photo.dated_by is not None and photo.dated_by not in DATED_BY:
            what = f"“{photo.dated_by}” is not known as what dates a photograph"
            near = nearest(photo.dated_by, DATED_BY) or _any_of(DATED_BY)
            yield in_photo(tree.accession, photo, ("dated_by",), "unknown-word", what, near)
    for sort, things, kinds in (
        ("source", collection.sources.values(), SOURCE_KINDS),
        ("steward", collection.stewards.values(), STEWARD_KINDS),
        ("object", collection.objects.values(), OBJECT_KINDS),
    ):
        for thing in things:
            mark = thing.where.at("kind")
            yield from _word(mark, (sort, thing.id), "kind", thing.kind, kinds, f"a kind of {sort}")


def _word(
    mark: Mark, record: tuple[str, str], value: str, word: str | None, known: Iterable[str], noun: str
) -> Iterator[Problem]:
    terms = tuple(known)
    if word is not None and word not in terms:
        near = nearest(word, terms) or _any_of(terms)
        yield in_value(mark, record, value, "unknown-word", f"“{word}” is not known as {noun}", near)


def _any_of(terms: Iterable[str]) -> str:
    return "one of " + ", ".join(terms)
