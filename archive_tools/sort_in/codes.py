"""QR codes found in a picture (ISO/IEC 18004)."""

from __future__ import annotations

from typing import Any

import numpy as np
import zxingcpp
from PIL import Image

from archive_tools.sort_in.facts import CodeSeen

_DIM = 80
"""Of 255: a picture whose lightest parts are darker is looked at once more, with its light spread out."""
_QR: Any = zxingcpp.BarcodeFormat.QRCode


def codes_in(picture: Image.Image) -> tuple[CodeSeen, ...]:
    """The QR codes of a grey picture, largest first, each text once."""
    pixels = np.asarray(picture)
    found = _decoded(pixels)
    if not found and min(pixels.shape[:2]) > 1600:
        # Halving averages the grain of a dim or slightly blurred picture away.
        found = _decoded(np.asarray(picture.reduce(2)))
    if not found and (lightest := float(np.percentile(pixels[::8, ::8], 99))) < _DIM:
        # In a picture taken in the dark the code's white is nearly as dark as its black.
        found = _decoded(np.asarray(picture.reduce(2).point(lambda grey: grey * 255 / max(lightest, 1))))
    largest: dict[str, float] = {}
    for code in found:
        largest[code.text] = max(code.share, largest.get(code.text, 0.0))
    return tuple(CodeSeen(text, share) for text, share in sorted(largest.items(), key=lambda one: (-one[1], one[0])))


def _decoded(pixels: Any) -> list[CodeSeen]:
    found = zxingcpp.read_barcodes(pixels, formats=_QR, try_invert=False)
    shorter = min(pixels.shape[:2])
    return [CodeSeen(one.text, round(_side(one.position) / shorter, 4)) for one in found if one.text]


def _side(corners: zxingcpp.Position) -> float:
    """The side of a square as large as the code stands in the picture."""
    points = [(p.x, p.y) for p in (corners.top_left, corners.top_right, corners.bottom_right, corners.bottom_left)]
    around = zip(points, [*points[1:], points[0]], strict=True)
    return float(abs(sum(x * v - u * y for (x, y), (u, v) in around) / 2) ** 0.5)
