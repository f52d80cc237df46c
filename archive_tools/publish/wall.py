"""The wall: each tree by portrait, names, since when, style."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from markupsafe import Markup

from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import Shot, portrait
from archive_tools.publish.style_words import styles_of, tradition_of
from archive_tools.publish.tree_age import sentence_of

# Empty plates stand in the row like a picture a little higher than wide.
EMPTY_RATIO = 0.9


@dataclass(frozen=True, slots=True)
class WallEntry:
    """One tree on the wall. `filed` holds, by index, the values under which the tree is filed."""

    accession: str
    name: str
    heading: Markup
    path: str
    taxa: tuple[Markup, ...]
    sentence: str
    style: str
    portrait: Shot | None
    ratio: float
    filed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


def wall_entry(context: Context, tree: Tree, filed: Mapping[str, tuple[str, ...]] | None = None) -> WallEntry:
    """One tree as it hangs on a wall."""
    picture = portrait(context, tree)
    return WallEntry(
        accession=tree.accession,
        name=context.tree_name(tree),
        path=context.tree_path(tree.accession) or "",
        heading=context.tree_heading(tree),
        taxa=context.taxa_beside(tree),
        sentence=sentence_of(context, tree.accession),
        style=_style(context, tree),
        portrait=picture,
        ratio=picture.ratio if picture else EMPTY_RATIO,
        filed=filed or {},
    )


def _style(context: Context, tree: Tree) -> str:
    """The styles; for a landscape, which has none, its tradition."""
    tradition = tradition_of(context, tree)
    terms = styles_of(context, tree) or ((tradition,) if tradition else ())
    return ", ".join(term.word for term in terms)


def wall(context: Context, trees: Iterable[Tree]) -> tuple[WallEntry, ...]:
    """Several trees, in the order given."""
    return tuple(wall_entry(context, tree) for tree in trees)
