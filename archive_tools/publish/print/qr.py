"""QR codes for paper (ISO/IEC 18004): error correction M or better, four modules left white all round."""

from __future__ import annotations

import io
from functools import lru_cache

import segno

QUIET = 4
"""Modules left white round a code (ISO/IEC 18004)."""
SMALLEST_MODULE = 0.5
"""Millimetres. Half a millimetre is a little above the 0.396 mm that the GS1 General Specifications ask at least of a
QR code read by a telephone (from memory): a label stands in the rain and is read at arm's length."""
USUAL_MODULE = 0.6


def qr_svg(text: str, *, level: str = "m") -> bytes:
    """The code of `text` with its quiet zone, as an SVG whose side is its number of modules.

    level: "m" (15 % may be lost), "q" (25 %) or "h" (30 %); raised where the same size of code allows it.
    """
    drawn = io.BytesIO()
    _code(text, level).save(drawn, kind="svg", border=QUIET, xmldecl=True, svgclass=None, lineclass=None, light="#fff")
    return drawn.getvalue()


def side_in_modules(text: str, *, level: str = "m") -> int:
    """How many modules the code's side counts, the quiet zone with it."""
    return int(_code(text, level).symbol_size(border=QUIET)[0])


@lru_cache(maxsize=2048)
def _code(text: str, level: str) -> segno.QRCode:
    # In bytes of UTF-8 whatever the script: not every reader knows other ways of packing it.
    return segno.make(text, error=level, mode="byte", encoding="utf-8", micro=False, boost_error=True)
