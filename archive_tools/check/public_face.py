"""What the public meets first: portraits, labels, and stewards who may not be named."""

from __future__ import annotations

import re
from collections.abc import Iterator

from archive_tools.check.declared import is_public, public_event, public_photo, public_tree
from archive_tools.check.telling import error, warning
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem

_YEARS_TOKEN = re.compile(r"\{\{\s*years\.(\w+)\s*\}\}")
_TOKEN = re.compile(r"\[\[[^\]]*\]\]|\{\{[^}]*\}\}")


def hidden_portraits(collection: Collection) -> Iterator[Problem]:
    """A public tree whose portrait is not public."""
    for tree in collection.trees.values():
        photo = tree.photo(tree.portrait) if tree.portrait else None
        if photo is not None and public_tree(collection, tree) and not public_photo(collection, tree, photo):
            what = f"{tree.accession} is public, and its portrait {photo.file} is not"
            instead = f"a public photograph, or `visibility: public` in {photo.where.file}"
            yield error(tree.where.at("portrait"), "hidden-portrait", what, instead)


def faceless_trees(collection: Collection) -> Iterator[Problem]:
    """A public tree without a portrait or a label."""
    for tree in collection.trees.values():
        if not public_tree(collection, tree):
            continue
        if tree.portrait is None:
            what = f"{tree.accession} is public, and has no `portrait`"
            files = [photo.file for photo in tree.photos if public_photo(collection, tree, photo)]
            instead = f"the name of a public photograph, such as {files[-1]}" if files else "a public photograph"
            yield warning(tree.where.at("accession"), "no-portrait", what, instead)
        if tree.label is None:
            what = f"{tree.accession} is public, and has no `label`"
            instead = f"a text of at most {collection.settings.label_words} words"
            yield warning(tree.where.at("accession"), "no-label", what, instead)


def words_of(text: str) -> int:
    """Words of a label as a visitor reads it: what stands between spaces; a reference or token counts as one.

    Scripts without spaces are not counted.
    """
    spaced = _TOKEN.sub("x", text)
    return sum(1 for word in spaced.split() if any(letter.isalnum() for letter in word))


def long_labels(collection: Collection) -> Iterator[Problem]:
    """A label longer than the house allows, in any of its languages."""
    most = collection.settings.label_words
    for tree in collection.trees.values():
        for language, text in tree.label.by_language if tree.label else ():
            count = words_of(text)
            if count > most:
                mark = tree.where.at("label", language) if language else tree.where.at("label")
                what = f"this label has {count} words, and the house allows {most}"
                yield warning(mark, "long-label", what, "the sentences a visitor needs in front of the tree")


def ages_on_labels(collection: Collection) -> Iterator[Problem]:
    """A label that has an age in years filled in: printed, it would be wrong within a year."""
    for tree in collection.trees.values():
        for language, text in tree.label.by_language if tree.label else ():
            for token in _YEARS_TOKEN.finditer(text):
                mark = tree.where.at("label", language) if language else tree.where.at("label")
                what = f"`{token[0]}` in a label: an age in years is wrong within a year of printing"
                yield error(mark, "age-on-label", what, f"{{{{ since.{token[1]} }}}}, which never goes stale")


def nameless_in_public(collection: Collection) -> Iterator[Problem]:
    """A steward who is not public, takes part in public events, and has no `public_name`."""
    appears: dict[str, str] = {}
    for tree in collection.trees.values():
        for event in tree.events:
            if public_event(collection, tree, event):
                for steward_id in (*event.by, *event.from_, *event.to, *event.with_):
                    appears.setdefault(steward_id, f"{tree.accession}#{event.id}")
    for steward in collection.stewards.values():
        hidden = not is_public(collection, "stewards", steward.visibility)
        if hidden and steward.public_name is None and steward.id in appears:
            what = (
                f"{steward.id} is not public and takes part in {appears[steward.id]}, which is; "
                "without `public_name` the public edition says “name withheld”"
            )
            mark = steward.where.at("visibility") if steward.visibility else steward.where.at("name")
            yield warning(mark, "no-public-name", what, "`public_name`, such as “a private donor”")
