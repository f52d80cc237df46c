"""`[[accession]]` in texts: live references to trees."""

from __future__ import annotations

import re
from collections.abc import Iterator

from archive_tools.check.telling import error
from archive_tools.check.texts import all_texts
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem
from archive_tools.model.vocabulary import nearest

_LINK = re.compile(r"\[\[([^\[\]|\n]*)(?:\|[^\[\]\n]*)?\]\]")


def unknown_tree_links(collection: Collection) -> Iterator[Problem]:
    """A reference in any text to a tree that is not in the collection."""
    for told in all_texts(collection):
        if told.is_address:
            continue
        for link in _LINK.finditer(told.text):
            accession = link[1].strip()
            if accession not in collection.trees:
                near = nearest(accession, collection.trees) if accession else None
                what = f"{link[0]} refers to a tree that is not in the collection"
                yield error(told.place_of(link.start()), "unknown-tree", what, f"[[{near}]]" if near else None)
