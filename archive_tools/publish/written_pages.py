"""Pages written by hand, and the two every archive has: how it dates its trees, and what its words mean.

A hand-written page stays Markdown, for the site engine to convert and to check its links. A house that has written
its own "how-we-date.md" or "glossary.md" keeps it; to the first the policies of the collection are added, because a
page about dating that does not say how wide "about" is says too little.
"""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.collection import HandWrittenPage
from archive_tools.model.page import Page
from archive_tools.model.vocabulary import PENJING_CLASSES
from archive_tools.publish.context import Context
from archive_tools.publish.duration_words import duration_words
from archive_tools.publish.prose import linked_markdown
from archive_tools.publish.style_words import Term, style_term

HOME = "index.md"
METHOD = "how-we-date.md"
GLOSSARY = "glossary.md"
VISITING = "visiting.md"
POLICIES = "{{ policies }}"


@dataclass(frozen=True, slots=True)
class Policy:
    """One row of the table of policies."""

    name: str
    value: str


def written_pages(context: Context) -> tuple[Page, ...]:
    """All of them but the home page's words, which the home page holds."""
    written = [_page(context, page) for page in context.records.pages if page.path != HOME]
    paths = {page.path for page in written}
    if METHOD not in paths:
        written.append(_method(context))
    if GLOSSARY not in paths:
        written.append(_glossary(context))
    return tuple(written)


def _page(context: Context, page: HandWrittenPage) -> Page:
    body = linked_markdown(context, page.body, root_of_source(page.path))
    # The title may stand in the front matter, as a heading, or in both.
    if page.title and not body.lstrip().startswith("# "):
        body = f"# {page.title}\n\n{body}"
    if page.path == METHOD:
        body = _with_policies(context, page.path, body)
    section = "visit" if page.path == VISITING else page.path
    return Page(page.path, page.title, body, section, is_markdown=True, language=context.language)


def _with_policies(context: Context, path: str, body: str) -> str:
    """The table of policies where the page has `{{ policies }}` on a line of its own, else at its end."""
    table = f"\n{context.render('policies.html', path, policies=policies(context))}\n"
    before, token, after = body.partition(POLICIES)
    return f"{before}{table}{after}" if token else f"{body.rstrip()}\n{table}"


def root_of_source(path: str) -> str:
    """The way from a page's source to the root of the sources; links between Markdown pages go by their sources."""
    return "../" * path.count("/")


def _method(context: Context) -> Page:
    _ = context.translations.gettext
    body = context.render("how_we_date.html", METHOD, policies=policies(context))
    return Page(METHOD, _("How we date"), body, METHOD, language=context.language)


def _glossary(context: Context) -> Page:
    _ = context.translations.gettext
    used = dict.fromkeys(form for tree in context.records.trees.values() for form in tree.form)
    styles = [style_term(context, form) for form in sorted(used)]
    classes = dict.fromkeys(tree.penjing_class for tree in context.records.trees.values() if tree.penjing_class)
    penjing = [Term(name, PENJING_CLASSES.get(name), "zh-Latn") for name in sorted(classes)]
    body = context.render("glossary.html", GLOSSARY, styles=styles, penjing=penjing)
    return Page(GLOSSARY, _("Words"), body, GLOSSARY, language=context.language)


def policies(context: Context) -> tuple[Policy, ...]:
    """What the collection has settled about reading dates."""
    _ = context.translations.gettext
    settings = context.records.settings
    rows = [
        Policy(name, _("%(width)s to either side") % {"width": duration_words(context, settings.dates.margin(unit))})
        for unit, name in (
            ("day", _("“About” a day")),
            ("month", _("“About” a month")),
            ("season", _("“About” a season")),
            ("year", _("“About” a year")),
            ("decade", _("“About” a decade")),
            ("century", _("“About” a century")),
        )
    ]
    rows.append(Policy(_("A source counts as made at the time within"), duration_words(context, settings.at_the_time)))
    rows.append(Policy(_("The longest silence that still counts as unbroken care"),
                       duration_words(context, settings.unbroken_within)))  # fmt: skip
    return tuple(rows)
