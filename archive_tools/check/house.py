"""collection.yml: the house's accent, address, languages, rights and the pattern of its accessions."""

from __future__ import annotations

import colorsys
import re
from collections.abc import Iterator
from urllib.parse import urlsplit

from archive_tools.check.telling import error, in_value, warning
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem

PAPER = "#f8f7f4"
ENOUGH_CONTRAST = 7.0
"""WCAG 2.2, success criterion 1.4.6 (level AAA)."""

_COLOUR = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE | re.ASCII)
_LANGUAGE = re.compile(
    r"[A-Za-z]{2,3}(?:-[A-Za-z]{4})?(?:-(?:[A-Za-z]{2}|[0-9]{3}))?(?:-(?:[A-Za-z0-9]{5,8}|[0-9][A-Za-z0-9]{3}))*"
)
"""Language, script, region, variants: BCP 47 (RFC 5646, section 2.1), without extensions and private use."""


def accent_too_pale(collection: Collection) -> Iterator[Problem]:
    """An accent that is no colour, or too pale for text on the paper; a darker one of the same hue is offered."""
    accent = collection.settings.accent
    if accent is None:
        return
    mark = collection.settings.where.at("accent")
    if not _COLOUR.fullmatch(accent):
        what = f"“{accent}” is no colour"
        yield in_value(mark, ("collection", ""), "accent", "bad-accent", what, "six digits after #, like #1f4a3d")
        return
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


def bad_accession_pattern(collection: Collection) -> Iterator[Problem]:
    """A pattern that is no regular expression; accessions that it does not fit."""
    pattern = collection.settings.accession_pattern
    if pattern is None:
        return
    try:
        fits = re.compile(pattern)
    except re.error as fault:
        what = f"“{pattern}” is no regular expression: {fault.msg}"
        mark = collection.settings.where.at("accession_pattern")
        instead = "a pattern such as ^S[0-9]{4}[.][0-9]{1,3}$"
        yield in_value(mark, ("collection", ""), "accession_pattern", "bad-pattern", what, instead)
        return
    for tree in collection.trees.values():
        if not fits.search(tree.accession):
            what = f"{tree.accession} does not fit `accession_pattern` in collection.yml ({pattern})"
            yield error(tree.where.at("accession"), "accession-pattern", what, "the accession as the house writes it")


def bad_site_url(collection: Collection) -> Iterator[Problem]:
    """An address of the site that no browser could open."""
    address = collection.settings.site_url
    if address is None:
        return
    mark, record = collection.settings.where.at("site_url"), ("collection", "")
    instead = "an address such as https://garden.example/"
    try:
        parts = urlsplit(address)
        host, fault = parts.hostname, parts.query or parts.fragment
    except ValueError:
        parts, host, fault = urlsplit(""), None, ""
    if parts.scheme not in ("http", "https") or not host or any(letter.isspace() for letter in address):
        yield in_value(mark, record, "site_url", "bad-address", f"“{address}” is no address of the web", instead)
    elif fault:
        what = f"“{address}” goes on behind the address of the site"
        yield in_value(mark, record, "site_url", "bad-address", what, f"{parts.scheme}://{parts.netloc}{parts.path}")


def bad_languages(collection: Collection) -> Iterator[Problem]:
    """Languages that are not written as language tags."""
    for index, language in enumerate(collection.settings.languages):
        if not _LANGUAGE.fullmatch(language):
            what = f"“{language}” is no language tag"
            instead = language.replace("_", "-") if _LANGUAGE.fullmatch(language.replace("_", "-")) else None
            instead = instead or "a tag such as en, ja or zh-Hant"
            yield error(collection.settings.where.at("languages", index), "bad-language", what, instead)
