"""What the site engine says of hand-written pages, as problems a curator can mend: file, line, what, what to write."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach

_LINK = re.compile(
    r"Doc file '(?P<page>[^']+)' contains an? (?:absolute |unrecognized relative )?link '(?P<link>[^']*)'"
)
_MEANT = re.compile(r"Did you mean '(?P<meant>[^']+)'")


def link_problems(messages: Iterable[str], pages: Path, folder_name: str) -> tuple[Problem, ...]:
    """A problem for each warning. `pages` is the folder of hand-written pages, `folder_name` how a message calls it.

    A warning that is not about a link is passed on in the engine's own words, without a place.
    """
    return tuple(_problem(message, pages, folder_name) for message in dict.fromkeys(messages))


def _problem(message: str, pages: Path, folder_name: str) -> Problem:
    found = _LINK.search(message)
    if found is None:
        return Problem(Mark(folder_name), message, None, "page-fault", reach=Reach.RECORD)
    link = found["link"]
    meant = _MEANT.search(message)
    instead = f"the path of the page's Markdown file, like “{meant['meant']}”" if meant else "a page that exists"
    mark = _place(pages / found["page"], link, f"{folder_name}/{found['page']}")
    return Problem(mark, f"the link “{link}” leads nowhere", instead, "page-link", reach=Reach.RECORD)


def _place(file: Path, link: str, name: str) -> Mark:
    """Where the link stands in its file, as far as it can be found there."""
    try:
        lines = file.read_text("utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return Mark(name)
    for number, line in enumerate(lines, start=1):
        if link in line:
            return Mark(name, number, line.index(link) + 1)
    return Mark(name)
