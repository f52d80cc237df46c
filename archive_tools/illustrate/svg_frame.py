"""The frame every drawing shares: its title, its description, and ids that meet no others on the page."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from archive_tools.illustrate.svg_text import Text, pixels


def id_part(accession: str) -> str:
    """An accession as part of an id: letters and figures stay, the rest becomes its code, so no two fall together."""
    return "".join(letter if letter.isascii() and letter.isalnum() else f"-{ord(letter):x}-" for letter in accession)


def drawing(prefix: str, title: str, description: str, height: float, definitions: str, marks: str) -> str:
    """A whole SVG element, `height` pixels high and as wide as its place on the page."""
    return (
        f'<svg class="drawing" height="{pixels(height)}" role="img" aria-labelledby="{prefix}-title {prefix}-desc">'
        f'<title id="{prefix}-title">{escape(title)}</title><desc id="{prefix}-desc">{escape(description)}</desc>'
        f"{f'<defs>{definitions}</defs>' if definitions else ''}{marks}</svg>"
    )


def group(*parts: str) -> str:
    """Marks that belong together, in the order in which they are read."""
    return f"<g>{''.join(parts)}</g>"


def words(texts: Iterable[Text]) -> str:
    """Lines of words as SVG."""
    return "".join(text.markup() for text in texts)
