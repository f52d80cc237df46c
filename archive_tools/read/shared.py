"""Notes and photographs about several trees, given to each tree concerned."""

from __future__ import annotations

from collections.abc import Mapping

from archive_tools.model.photo import Photo
from archive_tools.model.places_in_files import Where
from archive_tools.model.problems import Reach
from archive_tools.model.tree_query import QueryProblem, read_query
from archive_tools.model.vocabulary import nearest
from archive_tools.read.fields import House, shown
from archive_tools.read.folders import Entry, Ground
from archive_tools.read.notes import NoteFile, read_notes
from archive_tools.read.photo_files import FactsCache
from archive_tools.read.photos import read_photos
from archive_tools.read.trees import TreeFolder, add_note


def share_notes(
    ground: Ground, folder: Entry | None, house: House, trees: Mapping[str, TreeFolder], unread: frozenset[str]
) -> None:
    """Read the notes about several trees and give them out. `unread`: accessions whose records cannot be read."""
    if folder is None:
        return
    for note in read_notes(ground, folder, house, None):
        about = _about(ground, note, trees, unread)
        for accession in about:
            add_note(ground, trees[accession], note, house, about)


def share_photos(
    ground: Ground,
    folder: Entry | None,
    house: House,
    trees: Mapping[str, TreeFolder],
    unread: frozenset[str],
    cache: FactsCache | None,
) -> None:
    """Give photographs to the trees they show: those of the shared folder, and those whose `of` names another tree."""
    photos = read_photos(ground, folder, house, None, cache) if folder is not None else []
    for accession, tree in trees.items():
        astray = [photo for photo in tree.photos if photo.of != (accession,)]
        tree.photos = [photo for photo in tree.photos if accession in photo.of]
        for photo in astray:
            _give(ground, photo, accession, trees, unread)
    for photo in photos:
        if not photo.of:
            what = "this entry does not say which trees the photograph shows"
            subject = ("photos", "photo", photo.file)
            ground.telling.error(photo.where.at(), "missing-key", what, "of: [accessions]", Reach.STATEMENT, subject)
        _give(ground, photo, "photos", trees, unread)


def _give(ground: Ground, photo: Photo, owner: str, trees: Mapping[str, TreeFolder], unread: frozenset[str]) -> None:
    for number, accession in enumerate(photo.of):
        if accession not in trees:
            if any(other in trees for other in photo.of):
                continue  # the photograph stands under another tree, and the check of references tells it there
            subject = (owner, "photo", photo.file)
            _tell_unknown(ground, photo.where, ("of", number), accession, trees, unread, subject)
            continue
        same = next((own for own in trees[accession].photos if own.id == photo.id), None)
        if same is None:
            trees[accession].photos.append(photo)
        elif same.path != photo.path:
            what = f"a photograph of this name is among those of {accession} already ({same.path})"
            number_two = f"{photo.file}#2" if same.file == photo.file else photo.file
            mark, subject = photo.where.at("file"), (accession, "photo", number_two)
            ground.telling.error(mark, "duplicate-id", what, "another file name", Reach.STATEMENT, subject)


def _about(ground: Ground, note: NoteFile, trees: Mapping[str, TreeFolder], unread: frozenset[str]) -> tuple[str, ...]:
    where, subject = note.note.where, ("notes", "note", note.note.id)
    if isinstance(note.asked, str):
        try:
            query = read_query(note.asked)
        except QueryProblem as problem:
            ground.telling.error(
                where.at("trees"), "bad-query", problem.what, problem.instead, Reach.STATEMENT, subject
            )
            return ()
        found = tuple(accession for accession, tree in trees.items() if query.fits(tree.facts))
        if not found:
            what = f"no tree of the collection fits “{shown(note.asked)}”, so this note stands nowhere"
            ground.telling.warning(where.at("trees"), "nothing-found", what)
        return found
    about = []
    for number, ref in enumerate(note.asked):
        accession = ref.accession or ""
        if accession in trees:
            about.append(accession)
        else:
            _tell_unknown(ground, where, ("trees", number), accession, trees, unread, subject)
    return tuple(dict.fromkeys(about))


def _tell_unknown(
    ground: Ground,
    where: Where,
    path: tuple[str, int],
    accession: str,
    trees: Mapping[str, TreeFolder],
    unread: frozenset[str],
    subject: tuple[str, str, str],
) -> None:
    if accession in unread:
        return
    what = f"no tree of the collection bears the accession `{shown(accession)}`"
    instead = nearest(accession, trees)
    ground.telling.error(where.at(*path), "unknown-tree", what, instead, Reach.STATEMENT, subject)
