"""What stands round every page: masthead, band, colophon, colours, and the frame's own words."""

from __future__ import annotations

from archive_tools.model.page import Entry, Frame, Page
from archive_tools.publish.accent import accent_tokens
from archive_tools.publish.context import Context
from archive_tools.publish.home_page import about_line
from archive_tools.publish.object_pages import PATH as OBJECTS
from archive_tools.publish.teaching_page import PATH as TEACHING
from archive_tools.publish.tour_pages import TOURS
from archive_tools.publish.written_pages import HOME, VISITING

IN_MASTHEAD = frozenset({HOME, VISITING})
LISTS = frozenset({OBJECTS, TEACHING})
"""Lists of the collection that stand in the colophon, because the masthead of a phone has no room for them."""


def frame(context: Context, pages: tuple[Page, ...]) -> Frame:
    """The frame of a site that has these pages. In the internal edition work comes first."""
    _ = context.translations.gettext
    tokens = accent_tokens(context.records.settings.accent)
    masthead = [] if context.is_public else [Entry(_("Work"), "work/", "work")]
    masthead += [
        Entry(_("Trees"), "trees/", "trees"),
        Entry(_("Years"), "#years", "years"),
        Entry(_("Stewards"), "stewards/", "stewards"),
    ]
    if any(page.path == TOURS for page in pages):
        masthead.append(Entry(_("Walks"), "tours/", "tours"))
    if any(page.path == VISITING for page in pages):
        masthead.append(Entry(_("Visit"), "visiting/", "visit"))
    others = sorted(
        (page for page in pages if "/" not in page.path and page.path not in IN_MASTHEAD), key=lambda page: page.title
    )
    lists = [page for page in pages if page.path in LISTS]
    return Frame(
        house=context.house,
        language=context.language,
        masthead=tuple(masthead),
        colophon=(
            *(Entry(page.title, page.path.removesuffix("index.md"), page.section) for page in lists),
            *(Entry(page.title, page.path.removesuffix(".md") + "/", page.section) for page in others),
        ),
        about=about_line(context),
        band=None if context.is_public else _band(context),
        accent_light=tokens.light,
        accent_dark=tokens.dark,
        site_url=context.records.settings.site_url if context.is_public else None,
        words=_words(context),
    )


def _band(context: Context) -> str:
    _ = context.translations.gettext
    day = context.dates.day(context.as_of)
    return _("Internal edition, as of %(day)s. Not for the public.") % {"day": day}


def _words(context: Context) -> dict[str, str]:
    _ = context.translations.gettext
    return {
        "skip": _("To the page"),
        "main": _("Main"),
        "more": _("More"),
        "edition": _("Edition"),
        "paper": _("Paper:"),
        "light": _("light"),
        "comma": _(", "),
        "dark": _("dark"),
        "device": _("as your device has it"),
        "as_of": _("As of %(day)s.") % {"day": context.dates.day(context.as_of)},
        "lost_title": _("Nothing stands here"),
        "lost_text": _("The page you asked for is not in this archive. Perhaps the tree has a new number:"),
        "lost_link": _("all trees"),
        "to_tree": _("To the tree"),
    }
