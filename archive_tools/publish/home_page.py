"""The home page: one portrait, a few words, six trees to begin with, the years of the collection."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.collection import HandWrittenPage
from archive_tools.model.page import Page
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context, root_of
from archive_tools.publish.number_words import counted_trees, number_in_words
from archive_tools.publish.photographs import credit, portrait, portrait_photo
from archive_tools.publish.prose import Setting, as_text, block
from archive_tools.publish.tree_age import sentence_of
from archive_tools.publish.tree_index import decade_words, first_care_year
from archive_tools.publish.trees_page import in_wall_order
from archive_tools.publish.wall import wall

PATH = "index.md"
TO_BEGIN_WITH = 6


@dataclass(frozen=True, slots=True)
class DecadeRow:
    """Trees whose first care is filed under one decade; how many of them are no longer here."""

    decade: str
    count: int
    gone: int


def home_page(context: Context) -> Page:
    """The home page, with the house's own words if it has written any."""
    _ = context.translations.gettext
    trees = in_wall_order(context)
    written = written_home(context)
    leading = next((tree for tree in _by_width(context, trees) if portrait(context, tree)), None)
    photo = portrait_photo(context, leading) if leading else None
    title, text = _split_heading(written.body) if written else ("", "")
    if not title:
        title = _("%(trees)s and those who kept them") % {"trees": counted_trees(context, len(trees))}
    body = context.render(
        "home.html",
        PATH,
        title=title,
        text=block(context, text, Setting(root_of(PATH), first_heading=2)) if text else None,
        leading=leading,
        portrait=portrait(context, leading) if leading else None,
        leading_taxa=[context.botanical(name) for name in leading.taxon] if leading else [],
        leading_sentence=sentence_of(context, leading.accession) if leading else "",
        leading_credit=credit(context, photo) if photo else "",
        leading_date=context.dates.when(photo.when) if photo else "",
        first=wall(context, to_begin_with(context, trees, leading)),
        total=number_in_words(context, len(trees)),
        drawing=context.pictures.years_of_collection,
        decades=decades(context),
    )
    shot = portrait(context, leading) if leading else None
    meta = {"picture": shot.middle.url} if shot else {}
    return Page(PATH, context.house, body, "home", about_line(context), language=context.language, meta=meta)


def about_line(context: Context) -> str:
    """The house at the foot of every page, in its own words where it has any."""
    line = context.translations.gettext("%(house)s, a collection of bonsai and penjing.") % {"house": context.house}
    custodian = context.records.stewards.get(context.records.settings.custodian)
    about = custodian.about if custodian and not custodian.masked else None
    return f"{line} {as_text(context, about)}" if about else line


def _split_heading(body: str) -> tuple[str, str]:
    """The text's own first heading, which becomes the page's, and the text after it."""
    text = body.lstrip()
    if not text.startswith("# "):
        return "", body
    heading, _, rest = text.partition("\n")
    return heading.removeprefix("# ").strip().rstrip("#").strip(), rest


def written_home(context: Context) -> HandWrittenPage | None:
    """The hand-written `index.md`, if the house has one."""
    return next((page for page in context.records.pages if page.path == PATH), None)


def to_begin_with(context: Context, trees: list[Tree], leading: Tree | None) -> list[Tree]:
    """Six trees with portraits: those of which most is told, no species or style twice while another is left."""
    comparisons = context.pictures.comparisons

    def told(tree: Tree) -> int:
        sentence = bool(sentence_of(context, tree.accession))
        return 4 * len(comparisons.get(tree.accession, ())) + 3 * sentence + min(len(tree.photos), 9) + len(tree.notes)

    ready = [tree for tree in trees if portrait(context, tree)]
    if len(ready) > TO_BEGIN_WITH:
        ready = [tree for tree in ready if tree is not leading]
    ready.sort(key=told, reverse=True)
    chosen: list[Tree] = []
    for unlike in (_species_and_styles, _species, _nothing):
        for tree in ready:
            seen = {word for other in chosen for word in unlike(other)}
            if len(chosen) < TO_BEGIN_WITH and tree not in chosen and not seen.intersection(unlike(tree)):
                chosen.append(tree)
    return sorted(chosen, key=trees.index)


def _species_and_styles(tree: Tree) -> set[str]:
    return {*tree.taxon, *tree.form, *([tree.penjing_class] if tree.penjing_class else [])}


def _species(tree: Tree) -> set[str]:
    return set(tree.taxon)


def _nothing(_tree: Tree) -> set[str]:
    return set()


def decades(context: Context) -> tuple[DecadeRow, ...]:
    """The table beside the drawing of the years."""
    rows: dict[int, list[bool]] = {}
    for tree in context.records.trees.values():
        year = first_care_year(context.view.findings.chronologies.get(tree.accession))
        custody = context.view.findings.custodies.get(tree.accession)
        gone = custody is not None and not custody.state.in_collection
        rows.setdefault(-1 if year is None else year // 10 * 10, []).append(gone)
    unknown = context.translations.gettext("Not known")
    known = [DecadeRow(decade_words(context, d), len(rows[d]), sum(rows[d])) for d in sorted(rows) if d >= 0]
    return (*known, DecadeRow(unknown, len(rows[-1]), sum(rows[-1]))) if -1 in rows else tuple(known)


def _by_width(context: Context, trees: list[Tree]) -> list[Tree]:
    """Wide portraits first: the home page's picture fills the width of the page. Plantings are the widest of trees."""

    def width(tree: Tree) -> tuple[bool, float]:
        shot = portrait(context, tree)
        return (tree.is_planting, shot.ratio if shot else 0.0)

    return sorted(trees, key=width, reverse=True)
