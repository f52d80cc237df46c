"""A session card to print: photographed before a tree, it says whose pictures follow."""

from __future__ import annotations

import io
from html import escape

import segno

_WIDTH, _HEIGHT = 148, 105
"""Millimetres: A6 across (ISO 216), a card that a hand can hold before a lens."""
_SIDE = 84
_QUIET = 4
"""Modules left white round a QR code (ISO/IEC 18004)."""


def code_of(text: str) -> segno.QRCode:
    """The code of a text, in bytes of UTF-8 whatever the script: not every reader knows other ways of packing it."""
    return segno.make(text, error="q", mode="byte", encoding="utf-8", micro=False, boost_error=False)


def card_svg(text: str, heading: str, below: str = "") -> str:
    """One card as an SVG of its own, A6 across: the code of `text`, a heading (the accession), and a line below it.

    The code is made with error correction Q (a quarter of it may be dirty or hidden by a finger).
    """
    code = code_of(text)
    modules = code.symbol_size(border=_QUIET)[0]
    drawn = io.BytesIO()
    code.save(
        drawn, kind="svg", border=_QUIET, xmldecl=False, svgns=False, omitsize=True, svgclass=None, lineclass=None
    )
    left = 10 + _SIDE + 6
    room = _WIDTH - left - 6
    size = min(12.0, room / max(len(heading), 1) / 0.62)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_WIDTH}mm" height="{_HEIGHT}mm" '
        f'viewBox="0 0 {_WIDTH} {_HEIGHT}" role="img" aria-label="{escape(text)}">'
        f'<rect width="{_WIDTH}" height="{_HEIGHT}" fill="#fff"/>'
        f'<g transform="translate(8 {(_HEIGHT - _SIDE) / 2:g}) scale({_SIDE / modules:.5f})">{_inner(drawn)}</g>'
        f'<g font-family="sans-serif" fill="#000">'
        f'<text x="{left}" y="46" font-size="{size:.2f}" font-weight="bold">{escape(heading)}</text>'
        f'<text x="{left}" y="56" font-size="4.2">{escape(_shortened(below, 24))}</text>'
        f'<text x="{left}" y="94" font-size="2.6">{escape(text)}</text></g></svg>\n'
    )


def _shortened(words: str, most: int) -> str:
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def _inner(drawn: io.BytesIO) -> str:
    """What lies inside the code's own svg element."""
    markup = drawn.getvalue().decode()
    return markup[markup.index(">") + 1 : markup.rindex("</svg>")].strip()
