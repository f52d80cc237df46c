"""collection.yml: the accent of the house and the address of its site."""

from __future__ import annotations

import colorsys
import re
from collections.abc import Iterator
from urllib.parse import urlsplit

from archive_tools.check.telling import in_value, warning
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem

PAPER = "#f8f7f4"
ENOUGH_CONTRAST = 7.0
"""WCAG 2.2, success criterion 1.4.6 (level AAA)."""

_COLOUR = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE | re.ASCII)


def accent_too_pale(collection: Collection) -> Iterator[Problem]:
    """An accent too pale for text on the paper; the nearest darker one of the same hue is offered."""
    accent = collection.settings.accent
    # What is no colour at all is told when collection.yml is read.
    if accent is None or not _COLOUR.fullmatch(accent):
        return
    mark = collection.settings.where.at("accent")
    found = contrast(accent, PAPER)
    if found < ENOUGH_CONTRAST:
        what = f"{accent} on the paper {PAPER} has a contrast of {found:.1f}:1, and text needs {ENOUGH_CONTRAST:g}:1"
        yield warning(mark, "pale-accent", what, _dark_enough(accent))


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours (1 to 21), by the formula of WCAG 2.2 ("relative luminance", "contrast ratio")."""
    darker, lighter = sorted((_luminance(one), _luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def _channels(colour: str) -> tuple[float, float, float]:
    digits = colour[1:] if len(colour) == 7 else "".join(digit * 2 for digit in colour[1:])
    red, green, blue = (int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4))
    return red, green, blue


def _luminance(colour: str) -> float:
    red, green, blue = (
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4 for value in _channels(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _dark_enough(colour: str) -> str:
    hue, lightness, saturation = colorsys.rgb_to_hls(*_channels(colour))
    tried = colour
    for step in range(200, -1, -1):
        red, green, blue = colorsys.hls_to_rgb(hue, lightness * step / 200, saturation)
        tried = f"#{round(red * 255):02x}{round(green * 255):02x}{round(blue * 255):02x}"
        if contrast(tried, PAPER) >= ENOUGH_CONTRAST:
            break
    return tried


def site_url_goes_on(collection: Collection) -> Iterator[Problem]:
    """An address of the site with something behind its path, to which no page can be added."""
    address = collection.settings.site_url
    parts = urlsplit(address or "")
    if parts.query or parts.fragment:
        what = f"“{address}” goes on behind the address of the site"
        mark, instead = collection.settings.where.at("site_url"), f"{parts.scheme}://{parts.netloc}{parts.path}"
        yield in_value(mark, ("collection", ""), "site_url", "bad-address", what, instead)
