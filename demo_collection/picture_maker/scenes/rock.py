"""Ring and Stone: a maple with its roots over a rock."""

from __future__ import annotations

from ..landscape import Stone, face
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import GALLERY, NORTH, SUNNY, WARM, Stage
from . import common as c

FOLDER = "trees/S2003.7-ring-and-stone/photos/"
STONE = Stone(1.25, 1.55, (0.0, 0.0), 5, (0.06, 0.06, 0.06), (0.24, 0.235, 0.225))
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.06, 0, 0.22),
    (0.34, 0.04, 0.62),
    (0.22, -0.05, 1.10),
    (-0.20, 0.03, 1.58),
    (-0.12, 0, 2.05),
)


def tree(year: int) -> Tree:
    """The maple in one year."""
    k = {1977: 0.62, 2003: 0.90}.get(year, 1.0)
    rows = [
        (1, 0.75, c.RIGHT + 0.05, 1.85, 0.0, 0.42, "first branch"),
        (2, 1.05, c.LEFT + 0.1, 1.55, 0.04, 0.42, ""),
        (3, 1.25, c.BACK + 0.2, 1.3, 0.15, 0.5, ""),
        (4, 1.62, c.LEFT - 0.1, 1.6, 0.05, 0.42, "second branch"),
        (5, 1.8, c.RIGHT - 0.2, 1.25, 0.1, 0.45, ""),
        (6, 1.7, c.FRONT - 0.3, 0.8, 0.1, 0.5, ""),
        (7, 2.05, c.LEFT + 0.4, 0.95, 0.2, 0.5, ""),
    ]
    count = {1977: 4}.get(year, 7)
    b = [
        c.branch(key, s, az, length * k, rise, width, 6, 1.0, name)
        for key, s, az, length, rise, width, name in rows[:count]
    ]
    top: tuple[Point, ...] = ((0.0, 0, 2.5), (0.1, 0, 2.9)) if year > 1977 else ((-0.05, 0, 2.6), (0.0, 0, 3.1))
    return Tree(
        (*LINE, *top),
        {1977: 0.15, 2003: 0.29}.get(year, 0.34),
        b,
        Crown(0.72 * k, 2.25, 5, 0.75),
        at=STONE.at,
        seed=77,
        fill={1977: 0.6, 2003: 0.9}.get(year, 1.0),
        wired={1977: 0.6}.get(year, 1.0),
        roots=9,
        lift=STONE.height - 0.12,
        grip=face(STONE),
    )


def shots() -> list[Shot]:
    """Four photographs, 1977 to 2026."""
    clay = Pot(2.0, 1.5, 0.7, 2.2, (0.15, 0.07, 0.04), (0.26, 0.13, 0.08), 0.8, 0.0, 0.82, moss=0.35)
    grey = Pot(2.35, 1.7, 0.55, 6, (0.085, 0.08, 0.075), (0.16, 0.15, 0.14), 0.7, 0.0, 0.9, moss=0.6)
    celadon = Pot(2.4, 1.75, 0.5, 2.3, (0.12, 0.17, 0.15), (0.24, 0.30, 0.26), 0.25, 0.7, 0.86, moss=0.72)

    def at(
        name: str,
        pot: Pot,
        stage: Stage,
        look: Look,
        taken: Taken,
        foliage: Foliage | None,
        twiglets: int = 0,
    ) -> Shot:
        return Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            c.MAPLE_BARK,
            pot,
            stage,
            look,
            taken,
            foliage,
            stone=STONE,
            twiglets=twiglets,
            seed=77,
            marks={"first bend": 0.72, "second bend": 1.7},
        )

    return [
        at(
            "1977_front_1.jpg",
            clay,
            c.stage("planks", c.GREY, "hedge", c.HEDGE, SUNNY, c.see(2.75, 27, 0, 3, 5), behind=12),
            c.faded(-0.7, 101),
            c.scan("2012-05-24"),
            Foliage("palmate", 0.16, c.GREEN, 3, 2),
        ),
        at(
            "2003_front_1.jpg",
            grey,
            c.stage(
                "cloth",
                (c.EBONY[0], (0.16, 0.03, 0.03)),
                "wall",
                (0.50, 0.46, 0.40),
                WARM,
                c.see(2.5, 22, 0, -2, 4),
            ),
            Look(seed=102),
            Taken("2003-10-04T16:33:19", "+01:00", "pocket"),
            Foliage("palmate", 0.15, c.GREEN, 3, 2),
        ),
        at(
            "2024-11_front_1.jpg",
            celadon,
            c.stage("slab", c.EBONY, "wall", (0.40, 0.39, 0.375), GALLERY, c.see(2.5, 22.5, 0, 0, 3.5)),
            Look(seed=103),
            Taken("2024-11-05T10:26:48", "+00:00"),
            Foliage("palmate", 0.15, c.SCARLET, 4, 2),
        ),
        at(
            "2026-01_front_1.jpg",
            celadon,
            c.stage("slab", c.WALNUT, "wall", (0.52, 0.525, 0.53), NORTH, c.see(2.5, 21.5, 0, 1, 3.5)),
            Look(seed=104),
            Taken("2026-01-21T11:05:40", "+00:00"),
            None,
            2,
        ),
    ]
