"""The wall of all trees with its index, and one plain page for each index, which needs no script."""

from __future__ import annotations

from archive_tools.model.page import Page
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.number_words import counted_trees
from archive_tools.publish.tree_index import Index, indexes
from archive_tools.publish.wall import wall_entry

PATH = "trees/index.md"


def in_wall_order(context: Context) -> list[Tree]:
    """Trees on display first, then those at rest, then those no longer here; each by number."""
    custodies = context.view.findings.custodies

    def rank(tree: Tree) -> int:
        custody = custodies.get(tree.accession)
        if custody is None or not custody.state.in_collection:
            return 2
        return 0 if custody.state.on_display else 1

    return sorted(context.records.trees.values(), key=rank)


def trees_pages(context: Context) -> tuple[Page, ...]:
    """The wall, and a page for each index."""
    _ = context.translations.gettext
    trees = in_wall_order(context)
    filing = indexes(context, trees)
    entries = tuple(
        wall_entry(context, tree, {index.key: index.values_of(tree.accession) for index in filing}) for tree in trees
    )
    body = context.render(
        "trees.html", PATH, entries=entries, indexes=filing, count=counted_trees(context, len(trees)), total=len(trees)
    )
    description = _("All trees of %(house)s.") % {"house": context.house}
    wall_page = Page(PATH, _("Trees"), body, "trees", description, language=context.language)
    return (wall_page, *(_index_page(context, index) for index in filing))


def _index_page(context: Context, index: Index) -> Page:
    _ = context.translations.gettext
    path = f"{index.path}index.md"
    title = _("Trees: %(index)s") % {"index": index.title}
    body = context.render("index_by.html", path, index=index)
    return Page(path, title, body, "trees", language=context.language)
