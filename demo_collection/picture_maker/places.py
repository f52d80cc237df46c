"""Named places of a pot, many to a plane: the same place has the same name in every picture of that pot.

Angles are seen from above, in degrees from the pot's right side (of its front), toward its back: 000 right, 090 back,
180 left, 270 front. On an oval 045 is halfway between; on a rectangle it is the corner.
"""

from __future__ import annotations

import math

import numpy as np

from .geometry import Vec
from .pot import LIP_HEIGHT, Pot, body_height, foot_share, wall_share

RING = range(0, 360, 15)
CORNERS = (0, 180, 225, 315)
"""Where the wall is marked from the foot upward: its two ends in the plane of the trunk, and its two front corners."""
LEVELS = (0.1, 0.3, 0.5, 0.7)


def edge(p: Pot, share: float, angle: float) -> tuple[float, float]:
    """The outline of the pot at one angle, where it is `share` of its width at the lip."""
    small = min(p.a, p.b) * (1 - share)
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    sharp = p.kind == "crate"
    far = 1 / max(abs(c), abs(s)) if sharp else (abs(c) ** p.power + abs(s) ** p.power) ** (-1 / p.power)
    return (p.a - small) * far * c, (p.b - small) * far * s


def places(p: Pot, z0: float) -> dict[str, Vec]:
    """Places in units: `lip 000` … round the upper outer edge, `foot 000` … round the lowest edge of the wall,
    `wall 225 30` … on the wall at a share of the pot's height in hundredths.

    The lip lies in one level plane, the foot in another. The wall at 000 and 180 lies in the upright plane of the
    trunk, with lip and foot there; at 225 and 315 it lies in one plane too (nearly upright, facing the viewer) where
    the wall is straight. Of a box everything from 225 to 315 lies in the plane of its front.
    Roots that stand bare have no pot, and none of these places.
    """
    if p.kind == "ball":
        return {}
    if p.kind == "crate":
        low, rim, bottom = 1.0, z0 + 0.12 + p.h - 0.0125, z0 + 0.12 + 0.0125
        heights = {f: (1.0, z0 + 0.12 + f * p.h) for f in LEVELS}
    else:
        low, rim, bottom = foot_share(p), body_height(p, z0, LIP_HEIGHT), body_height(p, z0, 0.008)
        heights = {f: (wall_share(p, f), body_height(p, z0, f)) for f in LEVELS}
    out = {f"lip {angle:03}": np.array([*edge(p, 1.0, angle), rim]) for angle in RING}
    out |= {f"foot {angle:03}": np.array([*edge(p, low, angle), bottom]) for angle in RING}
    for f, (share, z) in heights.items():
        out |= {f"wall {angle:03} {f * 100:.0f}": np.array([*edge(p, share, angle), z]) for angle in CORNERS}
    return out


def shape(p: Pot) -> str:
    """What tells one pot from another, in words: pictures with the same words show the same pot."""
    size = f"{20 * p.a:g} x {20 * p.b:g} x {10 * p.h:g} cm"
    if p.kind == "crate":
        return f"box {size}"
    kind = {"marble": "tray of marble", "ball": "bare roots"}.get(p.kind, "pot")
    wall = "straight" if p.belly == 0 else f"bellied {p.belly:g}"
    return f"{kind} {size}, power {p.power:g}, taper {p.taper:g}, {wall}, {'feet' if p.feet else 'no feet'}"
