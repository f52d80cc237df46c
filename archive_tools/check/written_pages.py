"""Pages written by hand that would stand where another page of the site stands: one would replace the other unseen."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import left_out
from archive_tools.model.collection import Collection, HandWrittenPage
from archive_tools.model.page import MADE_FOLDERS, address_of
from archive_tools.model.problems import Problem


def pages_in_the_way(collection: Collection) -> Iterator[Problem]:
    """A hand-written page where the archive makes its own, or two of them at one address; the page is left out.

    The folders are kept free whether or not a collection fills them today: a house that writes an "objects.md" before
    it records its first tray would lose one of the two later. Letters count alike in capitals: not every server tells
    them apart.
    """
    taken: dict[str, str] = {}
    for page in collection.pages:
        address = address_of(page.path).casefold()
        made = MADE_FOLDERS.get(address.partition("/")[0])
        if made is not None:
            what = f"this page would stand at {address}, where the archive puts {made}"
            yield _left_out(page, what, f"another name, such as {_another(page, address)}")
        elif address in taken:
            what = f"this page would stand at {address or 'the front door'}, and so would {taken[address]}"
            yield _left_out(page, what, "one page of the two, or another name")
        taken.setdefault(address, page.where.file)


def _left_out(page: HandWrittenPage, what: str, instead: str) -> Problem:
    return left_out(page.where, (), ("", "page", page.path), "page-in-the-way", what, instead)


def _another(page: HandWrittenPage, address: str) -> str:
    parts = address.strip("/").split("/")
    stem = "-".join(parts[1:]) if len(parts) > 1 else f"about-{parts[0]}"
    return f"{page.where.file[: -len(page.path)]}{stem}.md"
