"""The frame every drawing shares: its title, its description, and ids that meet no others on the page."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from archive_tools.illustrate.svg_text import Text, pixels


def id_part(accession: str) -> str:
    """An accession as part of an id: letters and figures stay, the rest becomes its code, so no two fall together."""
    return "".join(letter if letter.isascii() and letter.isalnum() else f"-{ord(letter):x}-" for letter in accession)


def drawing(
    prefix: str,
    title: str,
    description: str,
    height: float,
    definitions: str,
    marks: str,
    css: str = "",
    *,
    linked: bool = False,
) -> str:
    """A whole SVG element, `height` pixels high and as wide as its place on the page.

    linked: it holds links. To a screen reader a picture has nothing inside, so it is then a group with a name.
    """
    named = f'role="img" aria-labelledby="{prefix}-title {prefix}-desc"'
    if linked:
        named = f'role="group" aria-labelledby="{prefix}-title" aria-describedby="{prefix}-desc"'
    return (
        f'<svg class="{f"drawing {css}".strip()}" height="{pixels(height)}" {named}>'
        f'<title id="{prefix}-title">{escape(title)}</title><desc id="{prefix}-desc">{escape(description)}</desc>'
        f"{f'<defs>{definitions}</defs>' if definitions else ''}{marks}</svg>"
    )


def group(*parts: str, css: str = "") -> str:
    """Marks that belong together, in the order in which they are read."""
    attribute = f' class="{css}"' if css else ""
    return f"<g{attribute}>{''.join(parts)}</g>"


def words(texts: Iterable[Text]) -> str:
    """Lines of words as SVG."""
    return "".join(text.markup() for text in texts)
