"""The Besom: a broom."""

from __future__ import annotations

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Fan, Tree
from ..stage import GALLERY, NORTH, SHOW, SUNNY, WARM, Stage
from . import common as c

FOLDER = "trees/S1983.6-the-besom/photos/"


def tree(year: int) -> Tree:
    """The broom in one year; its trunk divides at the same height throughout."""
    k = {1971: 0.66, 1984: 0.82, 2009: 0.95}.get(year, 1.0)
    line = ((0, 0, 0), (0.02, 0, 0.5), (-0.02, 0.01, 1.0), (0.01, 0, 1.42))
    return Tree(
        line,
        {1971: 0.16, 1984: 0.25, 2009: 0.33}.get(year, 0.37),
        (),
        None,
        Fan(2.65 * k, 3.15 * k, 1.08, {1971: 7, 1984: 11}.get(year, 14), {1971: 5}.get(year, 6)),
        seed=83,
        taper=0.32,
        flare=0.22,
        roots=12,
        root_length=1.3,
    )


def shots() -> list[Shot]:
    """Five photographs, 1971 to 2026."""
    clay = Pot(1.5, 1.4, 0.55, 2, (0.17, 0.07, 0.04), (0.28, 0.13, 0.075), 0.85, 0.0, 0.8, moss=0.25)
    green = Pot(1.9, 1.4, 0.55, 2.2, (0.04, 0.055, 0.04), (0.10, 0.13, 0.09), 0.35, 0.4, 0.86, moss=0.5)
    ivory = Pot(1.95, 1.45, 0.48, 2.2, (0.36, 0.33, 0.26), (0.52, 0.49, 0.40), 0.35, 0.4, 0.86, moss=0.72)

    def at(
        name: str,
        pot: Pot,
        stage: Stage,
        look: Look,
        taken: Taken,
        foliage: Foliage | None,
        twiglets: int = 0,
        long: float = 0.16,
    ) -> Shot:
        return Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            c.SMOOTH_BARK,
            pot,
            stage,
            look,
            taken,
            foliage,
            twiglets=twiglets,
            twiglet_length=long,
            seed=83,
            voxel=0.018,
            marks={"division": 1.1},
        )

    full = Foliage("oval", 0.125, c.GREEN, 2, 5)
    return [
        at(
            "1971_front_1.jpg",
            clay,
            c.stage("planks", c.GREY, "stones", (0.34, 0.32, 0.29), SUNNY, c.see(2.1, 22, 0, 3, 5), behind=7),
            c.sepia(0.9, 81, (910, 910)),
            c.scan("2012-05-23"),
            Foliage("oval", 0.125, c.GREEN, 2, 5),
        ),
        at(
            "1984-02_front_1.jpg",
            green,
            c.stage("slab", c.OAK, "cloth", (0.09, 0.10, 0.13), SHOW, c.see(2.4, 22.5, 0, -2, 3.5), behind=7),
            c.slide(0.5, 82),
            c.scan("2014-02-04"),
            None,
            2,
            0.34,
        ),
        at(
            "2009_front_1.jpg",
            ivory,
            c.stage("slab", c.OAK, "boards", (0.24, 0.22, 0.19), WARM, c.see(2.45, 23, 0, 2, 4), behind=7),
            Look(seed=83),
            Taken("2009-07-12T12:08:00", "+01:00", "body"),
            full,
        ),
        at(
            "2025-08_front_1.jpg",
            ivory,
            c.stage("slab", c.WALNUT, "wall", (0.45, 0.45, 0.445), GALLERY, c.see(2.55, 24.5, 0, 0, 3.5)),
            Look(seed=84),
            Taken("2025-08-12T09:05:52", "+01:00"),
            Foliage("oval", 0.115, c.GREEN, 3, 6),
        ),
        at(
            "2026-02_front_1.jpg",
            ivory,
            c.stage("slab", c.SLATE, "wall", (0.54, 0.535, 0.52), NORTH, c.see(2.5, 23.5, 0, -1, 3.5)),
            Look(seed=85),
            Taken("2026-02-10T11:50:29", "+00:00"),
            None,
            2,
        ),
    ]
