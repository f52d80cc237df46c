"""Which trees a plain query names: `taxon = Acer palmatum and place = tide-court`.

Keys: taxon, form, tradition, kind, place, accession. In a value `*` stands for any run of letters and `?`
for one; capitals do not matter. A tree fits when every part fits.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fnmatch import translate

from archive_tools.model.tree import Tree
from archive_tools.model.vocabulary import nearest

KEYS = ("taxon", "form", "tradition", "kind", "place", "accession")


class QueryProblem(ValueError):  # noqa: N818  (what a curator can mend is no fault of the program)
    """A query that cannot be read: `what` is wrong, and what to write `instead`."""

    def __init__(self, what: str, instead: str | None = None) -> None:
        super().__init__(what)
        self.what = what
        self.instead = instead


@dataclass(frozen=True, slots=True)
class TreeQuery:
    """A query that has been read."""

    parts: tuple[tuple[str, re.Pattern[str]], ...]

    def fits(self, facts: Mapping[str, tuple[str, ...]]) -> bool:
        """Whether a tree with these `facts` (values by key) is meant."""
        return all(any(pattern.match(value) for value in facts.get(key, ())) for key, pattern in self.parts)


def read_query(text: str) -> TreeQuery:
    """The query `text`. Raises QueryProblem."""
    parts = []
    for part in re.split(r"\s+and(?:\s+|$)", text.strip(), flags=re.IGNORECASE):
        key, sign, value = (piece.strip() for piece in part.partition("="))
        if not sign or not value:
            raise QueryProblem(f"“{part}” is no part of a query", "key = value, parts joined by “and”")
        if key.lower() not in KEYS:
            instead = nearest(key, KEYS) or " or ".join(KEYS)
            raise QueryProblem(f"a query cannot ask for “{key}”", instead)
        plain = value[1:-1] if len(value) > 1 and value[0] == value[-1] and value[0] in "\"'" else value
        parts.append((key.lower(), re.compile(translate(plain), re.IGNORECASE)))
    return TreeQuery(tuple(parts))


def trees_that_fit(text: str, trees: Iterable[Tree]) -> tuple[Tree, ...]:
    """Those of `trees` that the query names, in their order. Raises QueryProblem."""
    query = read_query(text)
    return tuple(tree for tree in trees if query.fits(facts_of(tree)))


def facts_of(tree: Tree) -> dict[str, tuple[str, ...]]:
    """What a query may ask of a tree; its place only as far as the edition at hand knows it."""
    return {
        "accession": (tree.accession,),
        "taxon": tree.taxon,
        "form": tree.form,
        "tradition": (tree.tradition,) if tree.tradition else (),
        "kind": (tree.kind,),
        "place": (tree.place,) if tree.place else (),
    }
