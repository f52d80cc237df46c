"""An edition's pages, in the order in which they are made."""

from __future__ import annotations

from collections.abc import Iterator
from gettext import NullTranslations
from html import escape

from archive_tools.model.page import Page, Site, SiteFile
from archive_tools.model.pictures import Pictures
from archive_tools.model.view import EditionView
from archive_tools.publish.addresses import plain_address
from archive_tools.publish.context import Context
from archive_tools.publish.frame import frame
from archive_tools.publish.home_page import home_page
from archive_tools.publish.marks_page import marks_files, marks_pages
from archive_tools.publish.object_pages import object_pages
from archive_tools.publish.steward_pages import steward_pages
from archive_tools.publish.teaching_page import teaching_pages
from archive_tools.publish.tour_pages import tour_files, tour_pages
from archive_tools.publish.translation import translations_for
from archive_tools.publish.tree_page import tree_page
from archive_tools.publish.tree_poster import posters
from archive_tools.publish.trees_page import trees_pages
from archive_tools.publish.work_page import work_page
from archive_tools.publish.written_pages import written_pages


def make_site(view: EditionView, pictures: Pictures, translate: NullTranslations | None = None) -> Site:
    """All pages of an edition, and the files they need.

    `translate` is the catalogue of the site's language; unsaid, it is the one that comes with the package for the
    first of the collection's languages. Pages are HTML bodies, hand-written ones Markdown; both stand in the frame
    that comes along.
    """
    language = view.records.settings.languages[0]
    context = Context(view, pictures, language, translate or translations_for(language))
    sheets = tuple(posters(context))
    pages: tuple[Page, ...] = (
        home_page(context),
        *trees_pages(context),
        *(tree_page(context, tree) for tree in view.records.trees.values()),
        *steward_pages(context),
        *teaching_pages(context),
        *object_pages(context),
        *tour_pages(context),
        *written_pages(context),
        *(page for page, _drawing in sheets),
        *marks_pages(context),
        *(() if view.is_public else (work_page(context),)),
    )
    drawings = (drawing for _page, drawing in sheets)
    files = (*_picture_files(pictures), *drawings, *marks_files(context), *tour_files(context), *_old_numbers(context))
    return Site(pages, files, frame(context, pages))


def _picture_files(pictures: Pictures) -> Iterator[SiteFile]:
    """Every cut once; it lies in the cache under the address it has in the site."""
    return (SiteFile(cut.url, copied_from=cut.url) for cut in pictures.cuts)


def _old_numbers(context: Context) -> Iterator[SiteFile]:
    """A former number of the house leads on to the tree: a label printed with it stays good."""
    taken = {address.casefold() for address in context.tree_addresses.values()}
    for tree in context.records.trees.values():
        for other in tree.other_numbers:
            address = plain_address(other.number)
            if other.given_by not in {None, context.records.settings.custodian} or address.casefold() in taken:
                continue
            taken.add(address.casefold())
            yield SiteFile(f"trees/{address}/index.html", _leads_to(context, tree.accession).encode())


def _leads_to(context: Context, accession: str) -> str:
    named = context.tree_named(accession)
    address = f"../{context.tree_addresses[accession]}/"
    return (
        f'<!doctype html>\n<html lang="{escape(context.language)}">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{escape(named.name)}</title>\n"
        f'<meta http-equiv="refresh" content="0; url={escape(address)}">\n'
        '<meta name="robots" content="noindex">\n</head>\n'
        f'<body><p><a href="{escape(address)}">{escape(named.name)}</a></p></body>\n</html>\n'
    )
