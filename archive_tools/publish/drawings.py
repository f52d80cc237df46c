"""Drawings on their way into a page: links get the addresses of pages, apostrophes the shape a printer gives them."""

from __future__ import annotations

import re
from html import escape, unescape

from archive_tools.publish.context import Context

_LINK = re.compile(r'href="(tree|steward|object):([^"]*)"')
_APOSTROPHE = re.compile(r"(?<=\w)&#x27;(?=\w)")


def set_drawing(context: Context, svg: str, root: str) -> str:
    """SVG elements as the illustrate stage makes them, for a page whose way to the site's root is `root`.

    A link is written there as `tree:` and the accession, `steward:` or `object:` and the id; it leads to that page.
    """
    paths = {"tree": context.tree_path, "steward": context.steward_path, "object": context.object_path}

    def address(found: re.Match[str]) -> str:
        return f'href="{escape(root + (paths[found[1]](unescape(found[2])) or ""))}"'

    placed = _LINK.sub(address, svg)
    return _APOSTROPHE.sub("\u2019", placed) if context.language.split("-", maxsplit=1)[0] == "en" else placed
