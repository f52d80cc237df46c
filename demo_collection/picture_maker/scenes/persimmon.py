"""She and He: two princess persimmons, of which one bears."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..flowers import Extra
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

SHE, HE = "trees/S2007.3-she/photos/", "trees/S2007.4-he/photos/"
BARK = Bark(
    ((0.020, 0.018, 0.017), (0.048, 0.043, 0.040), (0.085, 0.078, 0.072), (0.145, 0.135, 0.125)),
    scale=13,
    stretch=0.35,
    strength=0.8,
    relief=0.025,
    muscle=0.14,
)
HER_LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.10, 0, 0.22),
    (0.48, 0.05, 0.72),
    (0.92, -0.05, 1.20),
    (1.05, 0.04, 1.80),
    (1.42, 0.0, 2.35),
    (1.50, 0, 2.75),
    (1.72, 0, 3.05),
)
HIS_LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (-0.05, 0, 0.25),
    (-0.26, 0.04, 0.80),
    (0.08, -0.05, 1.45),
    (0.22, 0.05, 2.10),
    (-0.02, 0.0, 2.70),
    (0.05, 0, 3.15),
    (0.0, 0, 3.45),
)
ORANGE = ((0.78, 0.17, 0.012), (0.66, 0.060, 0.010))
YELLOW = ((0.48, 0.34, 0.03), (0.58, 0.40, 0.05), (0.40, 0.33, 0.05))


def tree(hers: bool, year: int) -> Tree:
    """One of the two in one year."""
    size = {2008: 0.72, 2016: 0.90}.get(year, 1.0)
    rows = k.limbs(
        8, (1.0, 2.85), (1.40, 0.70), 273 if hers else 274, (0.06, 0.35), 0.5, c.RIGHT if hers else c.LEFT, spread=0.5
    )
    line = HER_LINE if hers else HIS_LINE
    return Tree(
        line,
        {2008: 0.16, 2016: 0.20}.get(year, 0.235),
        k.grown(rows, size),
        Crown(0.55 * size, 2.6, 4, 0.8),
        at=(-0.55, 0) if hers else (0, 0),
        seed=273 if hers else 274,
        fill={2008: 0.6}.get(year, 0.75),
        taper=0.85,
        flare=0.40,
        roots=8,
        root_length=0.9,
        root_limit=0.8,
        kink=0.9,
        step=0.10,
        attract=200,
    )


def fruit(count: int) -> tuple[Extra, ...]:
    """Pointed fruit on long stalks."""
    return (Extra("drop", 0.26, 0.0, count, ORANGE, None, 0.26),) if count else ()


def shots() -> list[Shot]:
    """Five photographs of two trees, 2008 to 2025."""
    black = k.pot(30, 0.78, 0.55, 2.2, k.BLACK, 0.6, moss=0.5, ground="clay", mossy="olive")
    brown = k.pot(30, 0.78, 0.55, 2.2, k.BROWN, moss=0.5, ground="clay", mossy="olive")
    bare = k.leaf("oval", 0.15, YELLOW, 1, 3, 0.03)
    green = k.leaf("oval", 0.15, c.GREEN, 1, 3)

    def at(
        hers: bool,
        name: str,
        stage: Stage,
        look: Look,
        when: Taken,
        foliage: Foliage,
        mine: bool = False,
        **more: Any,
    ) -> Shot:
        year = int(name[:4])
        plain = Shot(
            (SHE if hers else HE) + name,
            (tree(hers, year),),
            BARK,
            brown if mine else black,
            stage,
            look,
            when,
            foliage,
            seed=273 if hers else 274,
            twiglets=1,
            twiglet_length=0.18,
            voxel=0.018,
            marks={"first bend": 0.85, "second bend": 1.9},
        )
        return replace(plain, **more)

    d = Look(seed=230)
    return [
        at(
            True,
            "2025-11_front_1.jpg",
            k.scene("studio_dark", 0, 0.78),
            d,
            k.taken("2025-11-06T10:32:18"),
            replace(bare, extras=fruit(21)),
        ),
        at(
            False,
            "2025-11_front_1.jpg",
            k.scene("studio_dark", 0, 0.78),
            replace(d, seed=231),
            k.taken("2025-11-06T10:47:55"),
            replace(bare, share=0.02),
            True,
        ),
        at(
            True,
            "2016-11_front_1.jpg",
            k.scene("yard", 4, 0.83, 9, lens=40),
            Look("phone", seed=232),
            k.taken("2016-11-12T14:20:31", "phone", sea=(61.2210, -9.5102)),
            k.leaf("oval", 0.15, YELLOW, 1, 3, 0.35, extras=fruit(6)),
        ),
        at(
            True,
            "2008_front_1.jpg",
            k.scene("limewash", 1, 0.76),
            replace(d, seed=233),
            k.taken("2008-07-19T12:05:14", "pocket"),
            green,
        ),
        at(
            False,
            "2008_front_1.jpg",
            k.scene("limewash", 1, 0.76),
            replace(d, seed=234),
            k.taken("2008-07-19T12:09:40", "pocket"),
            green,
        ),
    ]
