"""The Daughter, layered from Halvard's Maple."""

from __future__ import annotations

from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import GALLERY, LOW_SUN, OVERCAST, Light
from . import common as c
from .maple import leaves

DAUGHTER: tuple[Point, ...] = (
    (0, 0, 0),
    (-0.05, 0, 0.2),
    (-0.24, 0.05, 0.6),
    (-0.02, -0.06, 1.2),
    (0.22, 0.05, 1.75),
)


def daughter(year: int) -> Tree:
    """The daughter in one year."""
    k = {1996: 0.68, 2015: 0.92}.get(year, 1.0)
    b = [
        c.branch(1, 0.95, c.LEFT - 0.1, 1.45 * k, 0.0, 0.45, 6, name="first branch"),
        c.branch(2, 1.45, c.RIGHT + 0.1, 1.35 * k, 0.05, 0.45, 6, name="second branch"),
        c.branch(3, 1.6, c.BACK + 0.3, 1.0 * k, 0.15, 0.5),
        c.branch(4, 2.0, c.LEFT + 0.2, 1.0 * k, 0.12),
    ]
    if year > 1996:
        b += [
            c.branch(5, 1.85, c.FRONT + 0.4, 0.7 * k, 0.1, 0.5),
            c.branch(6, 2.2, c.RIGHT - 0.3, 0.85 * k, 0.2),
        ]
    top: tuple[Point, ...] = (
        ((0.12, 0, 2.35), (0.05, 0.02, 3.0)) if year == 1996 else ((0.14, 0, 2.2), (0.0, 0.02, 2.6))
    )
    return Tree(
        (*DAUGHTER, *top),
        {1996: 0.14, 2015: 0.27}.get(year, 0.33),
        b,
        Crown(0.55 * k + 0.1, 2.15, 5, 0.8),
        at=(0.1, 0),
        seed=29,
        fill={1996: 0.6, 2015: 0.88}.get(year, 1.0),
        wired=0.5 if year == 1996 else 1.0,
        roots=8,
    )


def shots() -> list[Shot]:
    """Three photographs, 1996 to 2025."""
    f = "trees/S2015.9-the-daughter/photos/"
    brown = Pot(1.35, 1.05, 0.75, 2, (0.13, 0.05, 0.028), (0.24, 0.11, 0.06), 0.8, 0.0, 0.75, moss=0.3)
    green = Pot(1.55, 1.15, 0.58, 2.4, (0.035, 0.05, 0.035), (0.11, 0.135, 0.085), 0.3, 0.5, 0.86, moss=0.7)
    yard: Light = OVERCAST
    return [
        Shot(
            f + "1996_front_1.jpg",
            (daughter(1996),),
            c.MAPLE_BARK,
            brown,
            c.stage("planks", c.GREY, "courses", (0.28, 0.25, 0.21), LOW_SUN, c.see(1.85, 17.5, 0.0, 3, 6), behind=17),
            c.slide(-0.5, 31),
            c.scan("2016-02-09"),
            leaves(0.9, 4, 0.11),
            seed=29,
            marks={"first bend": 0.64},
        ),
        Shot(
            f + "2015_front_1.jpg",
            (daughter(2015),),
            c.MAPLE_BARK,
            green,
            c.stage("stone", c.SLATE, "boards", (0.16, 0.15, 0.14), yard, c.see(1.65, 15.5, 0.0, -2, 5), behind=8),
            Look(seed=32),
            Taken("2015-05-30T16:20:31", "+01:00", "pocket", (61.0544, -9.8702)),
            leaves(1, 4, 0.10),
            seed=29,
            marks={"first bend": 0.64},
        ),
        Shot(
            f + "2025-06_front_1.jpg",
            (daughter(2025),),
            c.MAPLE_BARK,
            green,
            c.stage("slab", c.WALNUT, "wall", (0.47, 0.455, 0.43), GALLERY, c.see(1.65, 16.5, 0.0), stand=0.0),
            Look(seed=33),
            Taken("2025-06-16T10:48:09", "+01:00"),
            leaves(1, 5, 0.10),
            seed=29,
            marks={"first bend": 0.64},
        ),
    ]
