"""A tree's page, top to bottom."""

from __future__ import annotations

from archive_tools.model.page import Page
from archive_tools.model.tree import Tree
from archive_tools.publish import botanical_names
from archive_tools.publish.context import Context, root_of
from archive_tools.publish.japanese_marks import with_own_marks
from archive_tools.publish.marks_page import marks_path
from archive_tools.publish.prose import as_text
from archive_tools.publish.tree_age import proof_of, sentence_of
from archive_tools.publish.tree_comparison import comparisons_of
from archive_tools.publish.tree_credits import credits_part
from archive_tools.publish.tree_film import films_of
from archive_tools.publish.tree_kin import kin_part
from archive_tools.publish.tree_next import coming_of
from archive_tools.publish.tree_opening import opening_part
from archive_tools.publish.tree_poster import poster_path
from archive_tools.publish.tree_stewards import stewards_part
from archive_tools.publish.tree_story import story_of
from archive_tools.publish.tree_years import years_part


def tree_page(context: Context, tree: Tree) -> Page:
    """The page of one tree. A tree of which nothing but its number and name is known still has one."""
    path = f"{context.tree_path(tree.accession)}index.md"
    root = root_of(path)
    opening = opening_part(context, tree, root)
    body = context.render(
        "tree.html",
        path,
        tree=tree,
        opening=opening,
        proof=proof_of(context, tree),
        comparisons=comparisons_of(context, tree),
        stewards=stewards_part(context, tree),
        films=films_of(context, tree),
        years=years_part(context, tree),
        marks=marks_path(context, tree),
        poster=poster_path(context, tree),
        story=story_of(context, tree, root),
        kin=kin_part(context, tree),
        coming=coming_of(context, tree),
        credits=credits_part(context, tree),
    )
    meta = {"picture": opening.portrait.middle.url} if opening.portrait else {}
    return Page(
        path=path,
        title=opening.name,
        body=body,
        section="trees",
        description=description_of(context, tree),
        language=context.language,
        meta=meta,
    )


def description_of(context: Context, tree: Tree) -> str:
    """One line for the head of the page: name, botanical name, since when."""
    names = ", ".join(botanical_names.plain(name) for name in tree.taxon)
    sentence = sentence_of(context, tree.accession)
    parts = [context.tree_name(tree), names, sentence]
    told = ". ".join(dict.fromkeys(part for part in parts if part))
    label = as_text(context, tree.label, tree.accession)
    said = with_own_marks(f"{told}. {label}" if label else f"{told}.", context.language)
    return said[:300].strip()
