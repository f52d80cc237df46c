"""The Lamplighter, a crab apple that died, and its heir, a layer taken from it."""

from __future__ import annotations

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
from ..working import Work
from . import common as c
from . import kit as k

OLD, HEIR = "trees/S1984.2-the-lamplighter/photos/", "trees/S2008.4-lamplighters-heir/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.08, 0, 0.25),
    (0.36, 0.05, 0.80),
    (0.22, -0.08, 1.45),
    (-0.22, 0.05, 2.05),
    (-0.30, 0.0, 2.65),
    (-0.05, 0, 3.15),
    (0.0, 0, 3.4),
)
CURVE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.05, 0, 0.25),
    (0.30, 0.02, 0.85),
    (0.42, 0, 1.5),
    (0.30, 0, 2.1),
    (0.12, 0, 2.6),
    (0.08, 0, 2.85),
)
BARK = Bark(
    ((0.045, 0.036, 0.030), (0.11, 0.092, 0.078), (0.19, 0.165, 0.14), (0.29, 0.26, 0.225)),
    scale=11,
    stretch=0.35,
    strength=1.0,
    relief=0.05,
    muscle=0.20,
    flakes=0.15,
    flake_colour=(0.17, 0.11, 0.075),
)
DEAD = replace(
    BARK,
    colours=((0.06, 0.055, 0.05), (0.13, 0.12, 0.11), (0.20, 0.19, 0.175), (0.28, 0.27, 0.25)),
    flakes=0.75,
    flake_colour=(0.36, 0.31, 0.245),
    relief=0.07,
)
TURNING = ((0.20, 0.22, 0.03), (0.42, 0.32, 0.03), (0.48, 0.22, 0.02), (0.14, 0.18, 0.03))


def tree(year: int) -> Tree:
    """The old one in one year."""
    size = {1985: 0.82, 1996: 0.93}.get(year, 1.0)
    rows = k.limbs(10, (1.05, 3.1), (1.85, 0.75), 842, (0.0, 0.3), 0.48, c.LEFT, spread=0.45)
    return Tree(
        LINE,
        {1985: 0.36, 1996: 0.44}.get(year, 0.50),
        k.grown(rows, size),
        Crown(0.62 * size, 2.85, 4, 0.8),
        at=(-0.1, 0),
        seed=842,
        fill={1985: 0.75, 2013: 0.7}.get(year, 0.95),
        taper=0.9,
        flare=0.45,
        roots=10,
        root_limit=1.0,
        kink=0.8,
        step=0.09,
        attract=360,
    )


def heir(year: int) -> Tree:
    """The layer in one year."""
    size, girth, count = {2008: (0.5, 0.115, 5), 2019: (0.8, 0.17, 8)}.get(year, (1.0, 0.225, 9))
    rows = k.limbs(9, (0.95, 2.6), (1.25, 0.65), 844, (0.08, 0.35), 0.5, c.RIGHT, spread=0.45)[:count]
    return Tree(
        CURVE[: 6 if year == 2008 else 7],
        girth,
        k.grown(rows, size),
        Crown(0.50 * size, 2.3 if year > 2008 else 2.0, 4, 0.85),
        at=(-0.15, 0),
        seed=844,
        fill={2008: 0.45, 2019: 0.75}.get(year, 0.9),
        taper=0.85,
        flare=0.40,
        roots=8,
        root_limit=0.6,
        kink=0.5,
        step=0.09,
        attract=330,
        wired=0.5 if year == 2008 else 1.0,
    )


def shots() -> list[Shot]:
    """Four photographs of the old one and three of its heir, 1985 to 2025."""
    cream = k.pot(40, 0.76, 0.75, 2.3, k.CREAM, 0.5, moss=0.55, ground="clay", mossy="green")
    small = k.pot(30, 0.78, 0.6, 2.3, k.CREAM, 0.5, moss=0.6, ground="clay", mossy="bright")
    brown = k.pot(24, 1.0, 0.7, 2, k.BROWN, moss=0.45, ground="clay")
    blossom = (Extra("blossom", 0.115, 0.32, 0, ((0.80, 0.55, 0.58), (0.83, 0.78, 0.78)), (0.80, 0.50, 0.56)),)
    apples = ((0.62, 0.30, 0.03), (0.55, 0.045, 0.015))

    def old(name: str, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        plain = Shot(
            OLD + name,
            (tree(int(name[:4])),),
            BARK,
            cream,
            stage,
            look,
            when,
            foliage,
            seed=842,
            marks={"first bend": 0.95, "second bend": 2.2},
        )
        return replace(plain, **more)

    def young(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        plain = Shot(
            HEIR + name,
            (heir(int(name[:4])),),
            replace(BARK, relief=0.03),
            pot,
            stage,
            look,
            when,
            foliage,
            seed=844,
            marks={"first bend": 1.0},
        )
        return replace(plain, **more)

    fresh = k.leaf("oval", 0.10, c.FRESH, 2, 2, 0.45, extras=blossom)
    d = Look(seed=300)
    dead = replace(cream, moss=0.15, ground=replace(cream.ground, moss="dry"))
    return [
        old("2009-05_front_1.jpg", k.scene("studio_warm", 0, 0.80), d, k.taken("2009-05-12T10:20:56", "body"), fresh),
        old(
            "2013-06_front_1.jpg",
            k.scene("limewash", 1, 0.80),
            replace(d, seed=301),
            k.taken("2013-06-22T15:45:12", "body"),
            None,
            bark=DEAD,
            pot=dead,
        ),
        old(
            "1996-10_front_1.jpg",
            k.scene("plaster", -2, 0.78),
            *k.print_look("slide", 302),
            k.leaf("oval", 0.11, TURNING, 2, 2, 0.7, extras=(Extra("apple", 0.13, 0.0, 60, apples, None, 0.10),)),
        ),
        old("1985-05_front_1.jpg", k.scene("garden", 2, 0.78), *k.print_look("slide", 303), fresh),
        young(
            "2025-10_front_1.jpg",
            small,
            k.scene("studio_pale", 0, 0.78),
            replace(d, seed=304),
            k.taken("2025-10-30T10:14:22"),
            k.leaf(
                "oval",
                0.11,
                TURNING,
                1,
                2,
                0.16,
                extras=(Extra("apple", 0.15, 0.0, 25, ((0.56, 0.05, 0.012), (0.42, 0.015, 0.012)), None, 0.12),),
            ),
        ),
        young(
            "2008_front_1.jpg",
            k.box(28, 0.8, 0.85),
            k.scene("shed", 3, 0.76, 6),
            replace(d, seed=305),
            k.taken("2008-06-21T14:12:48", "pocket"),
            k.leaf("oval", 0.12, c.GREEN, 2, 2, 0.8),
            work=Work(tied=True),
        ),
        young(
            "2019_front_1.jpg",
            brown,
            k.scene("terrace", -2, 0.78),
            replace(d, seed=306),
            k.taken("2019-06-15T11:37:09", "body"),
            k.leaf("oval", 0.115, c.GREEN, 2, 2),
        ),
    ]
