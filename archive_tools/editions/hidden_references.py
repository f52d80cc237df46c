"""Public texts that point at trees the public edition does not hold."""

from __future__ import annotations

import re
from collections.abc import Iterator

from archive_tools.editions.masking import may_show
from archive_tools.model.collection import Collection
from archive_tools.model.grades import Edition
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach
from archive_tools.model.words import Words

_REFERENCE = re.compile(r"\[\[([^\]|]+)\]\]")


def references_to_hidden_trees(collection: Collection, edition: Edition) -> list[Problem]:
    """`[[accession]]` in a text of the edition that names a tree outside it: the number alone would tell of the tree.

    Takes a collection whose effective visibility is set. The problems stop the publication.
    """
    hidden = {a for a, tree in collection.trees.items() if not may_show(tree.effective, edition)}
    problems = []
    for mark, text in _texts(collection, edition) if hidden else ():
        for line_of_text, line in enumerate(text.split("\n")):
            for reference in _REFERENCE.finditer(line):
                if reference.group(1).strip() in hidden:
                    at = Mark(mark.file, mark.line + line_of_text if mark.line else None)
                    problems.append(_problem(at, reference.group(), edition))
    return problems


def _problem(mark: Mark, reference: str, edition: Edition) -> Problem:
    return Problem(
        mark=mark,
        what=f"{reference} names a tree that is not in the {edition} edition",
        instead="leave the reference out, or make this text internal",
        rule="hidden-reference",
        reach=Reach.RECORD,
    )


def _texts(collection: Collection, edition: Edition) -> Iterator[tuple[Mark, str]]:
    for tree in collection.trees.values():
        if may_show(tree.effective, edition):
            for key in ("label", "talking_points", "credit_line"):
                words: Words | None = getattr(tree, key)
                yield from ((tree.where.at(key), text) for text in (words.all_texts if words else ()))
            for event in tree.events:
                if may_show(event.effective, edition) and event.text:
                    yield from ((event.where.at("text"), text) for text in event.text.all_texts)
            for note in tree.notes:
                if may_show(note.effective, edition):
                    yield Mark(note.path, note.body_line), note.body
            for photo in tree.photos:
                if may_show(photo.effective, edition) and photo.caption:
                    yield from ((photo.where.at("caption"), text) for text in photo.caption.all_texts)
    for steward in collection.stewards.values():
        if may_show(steward.effective, edition) and steward.about:
            yield from ((steward.where.at("about"), text) for text in steward.about.all_texts)
    for page in collection.pages:
        if may_show(page.visibility, edition):
            yield page.where.at(), page.body
