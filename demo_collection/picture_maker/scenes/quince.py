"""The Aldersay Quince: flaking bark and a frost."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..flowers import Extra
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S1999.2-the-quince/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (-0.06, 0, 0.25),
    (-0.30, 0.04, 0.85),
    (0.02, -0.08, 1.55),
    (0.34, 0.05, 2.20),
    (0.20, 0.0, 2.80),
    (0.02, 0, 3.30),
    (0.06, 0, 3.55),
)
BARK = Bark(
    ((0.10, 0.080, 0.060), (0.18, 0.155, 0.12), (0.26, 0.235, 0.185), (0.35, 0.325, 0.27)),
    scale=6,
    stretch=0.6,
    strength=0.4,
    relief=0.02,
    muscle=0.14,
    twist=0.08,
    flakes=0.62,
    flake_colour=(0.30, 0.19, 0.10),
)
STRIPPED = replace(BARK, deadwood=0.60, turn=-2.05)
AUTUMN = ((0.20, 0.24, 0.03), (0.50, 0.36, 0.03), (0.56, 0.27, 0.02), (0.48, 0.13, 0.015))


def tree(year: int) -> Tree:
    """The quince in one year."""
    rows = k.limbs(11, (1.15, 3.2), (1.75, 0.75), 992, (0.0, 0.3), 0.5, c.LEFT, spread=0.4)
    size = 0.85 if year == 1999 else 1.0
    rows = k.grown(rows, size)
    left = {b.key for b in rows if math.cos(b.az) < -0.45}
    if year == 2011:
        rows = [replace(b, dead=True, length=b.length * 0.85) if b.key in left else b for b in rows]
    elif year > 2011:
        low = min(left)
        rows = [replace(b, dead=True, length=b.length * 0.4) if b.key == low else b for b in rows]
    return Tree(
        LINE,
        {1999: 0.36, 2009: 0.43, 2011: 0.43}.get(year, 0.48),
        rows,
        Crown(0.62 * size, 2.95, 4, 0.8),
        at=(0.0, 0),
        seed=992,
        fill={2011: 0.8}.get(year, 0.95),
        taper=0.9,
        flare=0.42,
        roots=10,
        root_limit=1.0,
        kink=0.45,
        step=0.09,
        attract=340,
    )


def shots() -> list[Shot]:
    """Four photographs, 1999 to 2025."""
    blue = k.pot(42, 0.76, 0.9, 7, k.BLUE, 0.7, moss=0.58, ground="clay", mossy="green")
    brown = k.pot(38, 0.78, 0.85, 7, k.BROWN, moss=0.45)

    def fruit(count: int) -> tuple[Extra, ...]:
        return (Extra("quince", 0.52, 0.0, count, ((0.66, 0.50, 0.05), (0.58, 0.47, 0.08)), None, 0.05),)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        year = int(name[:4])
        plain = Shot(
            FOLDER + name,
            (tree(year),),
            STRIPPED if year > 2010 else BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=992,
            marks={"first bend": 0.95, "second bend": 2.4},
        )
        return replace(plain, **more)

    d = Look(seed=330)
    return [
        at(
            "2025-10_front_1.jpg",
            blue,
            k.scene("studio_warm", 0, 0.80),
            d,
            k.taken("2025-10-14T09:31:25"),
            k.leaf("oval", 0.14, AUTUMN, 3, 2, 1.0, extras=fruit(4)),
        ),
        at(
            "2009-10_front_1.jpg",
            blue,
            k.scene("limewash", -1, 0.80),
            replace(d, seed=331),
            k.taken("2009-10-17T14:03:11", "body"),
            k.leaf("oval", 0.14, AUTUMN, 3, 2, 1.0, extras=fruit(5)),
        ),
        at(
            "2011-06_front_1.jpg",
            blue,
            k.scene("terrace", 2, 0.80),
            replace(d, seed=332),
            k.taken("2011-06-11T11:24:58", "body"),
            k.leaf("oval", 0.13, c.GREEN, 2, 2, 0.9),
        ),
        at(
            "1999_front_1.jpg",
            brown,
            k.scene("garden", 1, 0.78),
            *k.print_look("slide", 333),
            k.leaf("oval", 0.14, c.GREEN, 3, 2),
        ),
    ]
