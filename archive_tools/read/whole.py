"""The whole collection read, in the order in which one part needs another."""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from archive_tools.model.collection import Collection, HandWrittenPage
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach
from archive_tools.read.fields import House
from archive_tools.read.folders import Entry, Ground, Telling
from archive_tools.read.pages import read_pages_of
from archive_tools.read.photo_files import FactsCache
from archive_tools.read.records import (
    read_objects,
    read_places,
    read_sources,
    read_stewards,
    read_talks,
    read_tours,
)
from archive_tools.read.settings import FILE, house_of, read_settings
from archive_tools.read.shared import share_notes, share_photos
from archive_tools.read.trees import TreeFolder, finished, look_through, read_tree

FOLDERS = (
    "stewards", "sources", "objects", "trees", "notes", "photos", "documents", "tours", "talks", "pages", "labels",
)  # fmt: skip
_FILES = (FILE, "places.yml")
_PAPERS = re.compile(r"(?:readme|licen[cs]e|changelog|changes|contributing|copying|notice)(?:\..*)?", re.IGNORECASE)


def find_collection(start: Path) -> Path | None:
    """The nearest folder from `start` upwards that holds collection.yml."""
    here = start.absolute()
    return next((folder for folder in (here, *here.parents) if (folder / FILE).is_file()), None)


def read_collection(
    folder: Path, pages_folder: Path | None = None, cache: FactsCache | None = None
) -> tuple[Collection | None, list[Problem]]:
    """Everything in the collection's folder, and every problem met, sorted by file and line.

    pages_folder: hand-written pages kept elsewhere, besides those in `pages/`. cache: what is known of the
    originals from an earlier run. The collection is None only where collection.yml says neither name nor
    custodian; a record that cannot be read is missing from it, and one that cannot be trusted is restricted.
    """
    telling = Telling()
    try:
        ground = Ground.of(folder, telling)
    except (OSError, RuntimeError):
        telling.error(Mark(FILE), "no-collection", f"there is no folder {folder}", "the folder of a collection")
        return None, telling.problems
    with _collector_at_rest():
        collection = _read(ground, pages_folder, cache)
    return collection, sorted(dict.fromkeys(telling.problems), key=lambda problem: problem.sort_key)


@contextmanager
def _collector_at_rest() -> Iterator[None]:
    """Without the collector of cycles, which finds none here and takes a third of the time at a thousand trees."""
    at_work = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if at_work:
            gc.enable()


def read_pages(folder: Path) -> tuple[tuple[HandWrittenPage, ...], list[Problem]]:
    """The hand-written pages in `folder`, and every problem met. Messages call them by `folder`'s own name."""
    telling = Telling()
    try:
        ground = Ground.of(folder, telling)
    except (OSError, RuntimeError):
        telling.error(Mark(folder.name), "no-pages", f"there is no folder {folder}", "the folder of the pages")
        return (), telling.problems
    pages = read_pages_of(ground, Entry(folder.name, folder, folder.name, True))
    return tuple(pages), sorted(telling.problems, key=lambda problem: problem.sort_key)


def _read(ground: Ground, pages_folder: Path | None, cache: FactsCache | None) -> Collection | None:
    top = {entry.name: entry for entry in ground.entries(ground.root)}
    for name, entry in top.items():
        known = name in FOLDERS if entry.is_folder else name in _FILES or _PAPERS.fullmatch(name)
        if not known:
            ground.tell_stray(entry, (*FOLDERS, *_FILES), "a collection")
    folders = {name: entry for name, entry in top.items() if entry.is_folder}
    if FILE not in top or top[FILE].is_folder:
        what = "there is no collection.yml in this folder"
        ground.telling.error(Mark(FILE), "no-collection", what, "collection.yml with name and custodian")
        settings = None
    else:
        settings = read_settings(ground)
    lying = ground.entries(folders["trees"].path, "trees") if "trees" in folders else []
    house = house_of(settings, frozenset(entry.name for entry in lying if entry.is_folder))
    pattern = re.compile(settings.accession_pattern) if settings and settings.accession_pattern else None
    trees, unread = _read_trees(ground, lying, house, pattern, cache)
    share_notes(ground, folders.get("notes"), house, trees, unread)
    share_photos(ground, folders.get("photos"), house, trees, unread, cache)
    if "documents" in folders:
        look_through(ground, folders["documents"])
    places, paths = read_places(ground, top.get("places.yml"), house)
    stewards = read_stewards(ground, folders.get("stewards"), house)
    sources = read_sources(ground, folders.get("sources"), house)
    objects = read_objects(ground, folders.get("objects"), house)
    tours = read_tours(ground, folders.get("tours"), house)
    talks = read_talks(ground, folders.get("talks"), house)
    pages = _pages(ground, folders.get("pages"), pages_folder)
    made = {accession: finished(tree, ground) for accession, tree in trees.items()}
    if settings is None:
        return None
    return Collection(settings, made, stewards, sources, objects, places, paths, tours, talks, pages)


def _read_trees(
    ground: Ground, lying: list[Entry], house: House, pattern: re.Pattern[str] | None, cache: FactsCache | None
) -> tuple[dict[str, TreeFolder], frozenset[str]]:
    """Trees by accession, and what the accessions of unreadable ones may be (their folders' names begin so)."""
    trees: dict[str, TreeFolder] = {}
    unread: set[str] = set()
    for entry in lying:
        if not entry.is_folder:
            ground.tell_stray(entry, (), "trees/")
            continue
        tree = read_tree(ground, entry, house, pattern, cache)
        if tree is None:
            pieces = entry.name.split("-")
            unread.update("-".join(pieces[:count]) for count in range(1, len(pieces) + 1))
        elif tree.accession in trees:
            _tell_twice(ground, trees[tree.accession], tree)
        else:
            trees[tree.accession] = tree
    return dict(sorted(trees.items())), frozenset(unread)


def _tell_twice(ground: Ground, first: TreeFolder, second: TreeFolder) -> None:
    marks = [tree.written.where.at("accession") for tree in (first, second)]
    own = (first.accession, "tree", first.accession)
    for here, there in (marks, reversed(marks)):
        what = f"the accession `{first.accession}` is given to two trees; the other is in {there}"
        ground.telling.error(here, "duplicate-accession", what, "a number of its own", Reach.RECORD, own)


def _pages(ground: Ground, inside: Entry | None, elsewhere: Path | None) -> tuple[HandWrittenPage, ...]:
    """Pages of the collection, then those kept elsewhere whose path is not taken."""
    pages = read_pages_of(ground, inside) if inside is not None else []
    if elsewhere is not None and not (inside is not None and elsewhere.resolve() == inside.path.resolve()):
        others, problems = read_pages(elsewhere)
        ground.telling.problems.extend(problems)
        taken = {page.path: page for page in pages}
        for page in others:
            if page.path in taken:
                what = f"a page of this path lies in {taken[page.path].where.file} already, and that one is used"
                ground.telling.warning(page.where.at(), "duplicate-page", what, "another file name")
            else:
                pages.append(page)
    return tuple(sorted(pages, key=lambda page: page.path))
