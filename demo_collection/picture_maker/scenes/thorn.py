"""The Gale Thorn: a hawthorn blown to one side."""

from __future__ import annotations

from dataclasses import replace

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import GALLERY, LOW_SUN, OVERCAST, SHOW, Stage
from . import common as c

FOLDER = "trees/S2001.5-gale-thorn/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.10, 0, 0.20),
    (0.42, -0.05, 0.58),
    (0.56, 0.08, 1.05),
    (0.98, 0.0, 1.48),
    (1.52, -0.08, 1.74),
    (1.98, 0.04, 2.06),
    (2.6, 0.0, 2.36),
    (3.25, 0.04, 2.72),
)


def tree(year: int) -> Tree:
    """The thorn in one year; it was old when it was lifted, so the trunk hardly thickens."""
    k = {1966: 0.62, 1985: 0.82, 2002: 0.92}.get(year, 1.0)
    rows = [
        (1, 1.05, 0.10, 1.9, -0.08, 0.24),
        (2, 1.45, -0.40, 1.5, 0.0, 0.30),
        (3, 1.75, 0.5, 1.8, 0.20, 0.30),
        (4, 2.05, -0.12, 2.1, 0.0, 0.24),
        (5, 2.4, 0.35, 1.9, 0.20, 0.26),
        (6, 2.75, -0.30, 1.7, 0.06, 0.28),
        (7, 3.1, 0.1, 1.8, 0.16, 0.26),
        (8, 1.95, 0.9, 1.0, 0.5, 0.4),
        (9, 2.4, -0.8, 0.9, 0.25, 0.4),
    ]
    count = {1966: 5, 1985: 7}.get(year, 9)
    b = [
        c.branch(key, s, az, length * k, rise, width, 6, 0.9, "first branch" if key == 1 else "")
        for key, s, az, length, rise, width in rows[:count]
    ]
    return Tree(
        LINE,
        {1966: 0.34, 1985: 0.37, 2002: 0.40}.get(year, 0.42),
        b,
        Crown(0.55 * k, 3.0, 4, 0.5, 0.0, (0.7, 0.0)),
        at=(-1.0, 0.05),
        seed=44,
        fill={1966: 0.5, 1985: 0.75}.get(year, 0.95),
        wired={1966: 0.5}.get(year, 0.9),
        taper=0.95,
        flare=0.45,
        roots=9,
        root_length=0.9,
        root_limit=0.85,
    )


def shots() -> list[Shot]:
    """Four photographs, 1966 to 2025."""
    crock = Pot(1.6, 1.6, 0.9, 2, (0.045, 0.034, 0.026), (0.10, 0.075, 0.055), 0.85, 0.0, 0.82, 0.09, False, moss=0.3)
    brown = Pot(2.1, 1.45, 0.62, 6, (0.075, 0.038, 0.024), (0.14, 0.075, 0.048), 0.65, 0.0, 0.9, moss=0.5)
    lichen = Pot(2.15, 1.55, 0.55, 2.6, (0.07, 0.075, 0.065), (0.15, 0.155, 0.13), 0.75, 0.0, 0.86, moss=0.62)
    bark = replace(c.THORN_BARK, deadwood=0.68)

    def at(name: str, pot: Pot, stage: Stage, look: Look, taken: Taken, foliage: Foliage) -> Shot:
        return Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            bark,
            pot,
            stage,
            look,
            taken,
            foliage,
            seed=44,
            twiglets=1,
            marks={"first bend": 0.72, "second bend": 1.3},
        )

    return [
        at(
            "1966_front_1.jpg",
            crock,
            c.stage("planks", c.GREY, "stones", (0.33, 0.31, 0.28), OVERCAST, c.see(1.6, 20, 0.9, 3, 5), behind=8),
            c.sepia(1.0, 61),
            c.scan("2012-05-22"),
            Foliage("thorn", 0.10, c.GREEN, 3, 2, 0.8),
        ),
        at(
            "1985_front_1.jpg",
            brown,
            c.stage("slab", c.OAK, "cloth", (0.10, 0.07, 0.045), SHOW, c.see(1.55, 20, 0.95, -3, 4), behind=7),
            replace(c.slide(-0.6, 62), light=1.35),
            c.scan("2014-02-03"),
            Foliage("thorn", 0.10, c.GREEN, 3, 2, 1.0),
        ),
        at(
            "2002_front_1.jpg",
            lichen,
            c.stage(
                "stone",
                c.PALE_STONE,
                "sea",
                (0.5, 0.5, 0.5),
                LOW_SUN,
                c.see(1.65, 20.5, 0.95, 2, 4),
                behind=30,
            ),
            Look(seed=63),
            Taken("2002-05-19T17:45:03", "+01:00", "pocket"),
            Foliage("thorn", 0.10, c.GREEN, 4, 2, 1.0, flowers=0.008),
        ),
        at(
            "2025-04_front_1.jpg",
            lichen,
            c.stage("slab", c.WALNUT, "wall", (0.42, 0.43, 0.435), GALLERY, c.see(1.6, 20.5, 0.6, 0, 3.5)),
            Look(seed=64),
            Taken("2025-04-29T09:55:36", "+01:00"),
            Foliage("thorn", 0.095, c.FRESH, 4, 2, 0.9),
        ),
    ]
