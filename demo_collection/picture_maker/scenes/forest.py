"""The Nine at Low Water: a hornbeam forest, once eleven."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ..geometry import dice
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Tree
from ..stage import GALLERY, LOW_SUN, NORTH, OVERCAST, WARM, Stage
from . import common as c

FOLDER = "trees/S1986.1-the-nine/photos/"
# name, place across and back, full height, girth, years in the planting
PLACES = (
    ("tall", -1.05, 0.0, 6.0, 0.30, 1972, 2100),
    ("m1", -3.05, 0.15, 3.3, 0.14, 1972, 2100),
    ("m2", -2.1, -0.2, 4.3, 0.19, 1972, 2100),
    ("m4", -0.45, 0.6, 4.9, 0.21, 1972, 2100),
    ("fallen", 0.15, -0.15, 4.9, 0.21, 1972, 2004),
    ("m6", 1.15, 0.1, 5.3, 0.25, 1972, 2100),
    ("m7", 1.7, -0.5, 3.7, 0.16, 1972, 2100),
    ("m8", 2.15, 0.5, 4.2, 0.18, 1972, 2100),
    ("m9", 3.0, 0.1, 3.2, 0.14, 1972, 2100),
    ("dry1", 3.55, -0.35, 2.9, 0.12, 1972, 1976),
    ("dry2", 3.75, 0.4, 2.7, 0.12, 1972, 1976),
    ("young", 0.35, 0.85, 3.4, 0.10, 2004, 2100),
)


def member(index: int, year: float) -> Tree | None:
    """One tree of the forest, or nothing if it does not stand there in that year."""
    name, x, y, full, girth, since, until = PLACES[index]
    if not since <= year < until:
        return None
    if name == "young":
        grown = {2005: 0.0}.get(int(year), 0.8)
        size, thick = 0.62 + 0.38 * grown, 0.55 + 0.45 * grown
    else:
        size = {1973: 0.74, 1987: 0.88, 2003: 0.97, 2005: 0.97}.get(int(year), 1.0)
        thick = {1973: 0.42, 1987: 0.65, 2003: 0.86, 2005: 0.87}.get(int(year), 1.0)
    rng = dice(33, index)
    sway = rng.normal(size=(7, 2)) * 0.055
    lean = 0.055 * x + (0.06 if name == "fallen" else 0.0)
    # absolute points up the stem: a younger tree is the same line, cut lower
    points = [(0.0, 0.0, 0.0)]
    for k in range(1, 9):
        z = 0.75 * k
        if z > full * size - 0.5:
            break
        points.append((lean * z + sway[k % 7][0], -0.03 * y * z + sway[k % 7][1], z))
    top = full * size - 0.25
    points.append((lean * top, -0.03 * y * top, top))
    branches: list[Branch] = []
    for k in range(8):
        s = full * (0.34 + 0.60 * k / 8) + rng.normal() * 0.05
        az = (0.0 if (k + index) % 2 else math.pi) + rng.normal() * 0.5
        if k % 3 == 2:
            az = (c.FRONT if y < 0.1 else c.BACK) + rng.normal() * 0.5
        outward = math.cos(az) * np.sign(x + 0.3) > 0
        length = (1.45 - 0.85 * s / full) * full / 5.4 * (1.3 if outward else 0.85) * (0.75 + 0.25 * size)
        rise = 0.25 + rng.normal() * 0.10
        if s < top - 0.35:
            branches.append(c.branch(k, s, az, length, rise, 0.55, 4))
    start = top * 0.80
    return Tree(
        points,
        girth * thick,
        branches,
        Crown(0.50 * full / 5.2, start, 4, 1.0),
        at=(x, y),
        seed=330 + index,
        wired=0.75 if year < 1980 else 1.0,
        fill={1973: 0.62, 1987: 0.8}.get(int(year), 0.95),
        flare=0.5,
        roots=6,
        root_length=0.8,
        name=name,
    )


def shots() -> list[Shot]:
    """Six photographs, 1973 to 2025."""
    slab = Pot(
        4.4,
        2.3,
        0.28,
        2.4,
        (0.09, 0.088, 0.085),
        (0.2, 0.195, 0.19),
        0.9,
        0.0,
        0.95,
        0.05,
        False,
        0,
        0.5,
        0.45,
        1.6,
    )
    cream = Pot(
        4.6,
        2.6,
        0.32,
        2.3,
        (0.42, 0.38, 0.29),
        (0.60, 0.56, 0.46),
        0.35,
        0.4,
        0.92,
        0.08,
        True,
        0,
        0.42,
        0.75,
        1.4,
    )

    def at(
        name: str,
        pot: Pot,
        stage: Stage,
        look: Look,
        taken: Taken,
        foliage: Foliage | None,
        twiglets: int = 0,
    ) -> Shot:
        year = int(name[:4])
        trees = [t for i in range(len(PLACES)) if (t := member(i, year))]
        return Shot(
            FOLDER + name,
            trees,
            c.SMOOTH_BARK,
            pot,
            stage,
            look,
            taken,
            foliage,
            twiglets=twiglets,
            seed=33,
            voxel=0.02,
        )

    def leaf(palette: tuple[tuple[float, float, float], ...] = c.GREEN, share: float = 1.0, each: int = 3) -> Foliage:
        return Foliage("oval", 0.125, palette, each, 2, share)

    return [
        at(
            "1973_front_1.jpg",
            slab,
            c.stage(
                "cloth",
                ((0.3, 0.28, 0.22), (0.40, 0.36, 0.26)),
                "boards",
                (0.34, 0.27, 0.18),
                WARM,
                c.see(2.9, 29, 0.2, 2, 5),
                behind=7,
            ),
            c.faded(0.5, 41),
            c.scan("2012-03-15"),
            leaf(share=0.9),
        ),
        at(
            "1987_front_1.jpg",
            cream,
            c.stage("planks", c.GREY, "sound", (0.5, 0.5, 0.5), LOW_SUN, c.see(3.1, 30, 0, -2, 5), behind=20),
            replace(c.slide(-0.4, 42), light=1.35),
            c.scan("2013-11-06"),
            leaf(),
        ),
        at(
            "2003_front_1.jpg",
            cream,
            c.stage(
                "stone",
                c.PALE_STONE,
                "stones",
                (0.27, 0.26, 0.24),
                OVERCAST,
                c.see(3.2, 29, 0, 1, 5),
                behind=14,
            ),
            Look(seed=43),
            Taken("2003-05-24T15:06:44", "+01:00", "pocket"),
            leaf(),
        ),
        at(
            "2005_front_1.jpg",
            cream,
            c.stage("stone", c.PALE_STONE, "hedge", c.HEDGE, OVERCAST, c.see(3.2, 28, 0, -1, 4.5), behind=14),
            Look(seed=44),
            Taken("2005-06-11T14:31:20", "+01:00", "pocket"),
            leaf(),
        ),
        at(
            "2025-06_front_1.jpg",
            cream,
            c.stage("slab", c.WALNUT, "wall", (0.43, 0.435, 0.43), GALLERY, c.see(3.15, 29, 0, 0, 4.5)),
            Look(seed=45),
            Taken("2025-06-17T09:31:12", "+01:00"),
            leaf(each=4),
        ),
        at(
            "2025-11_front_1.jpg",
            cream,
            c.stage("slab", c.SLATE, "wall", (0.50, 0.49, 0.47), NORTH, c.see(3.15, 28, 0, 0, 4)),
            Look(seed=46),
            Taken("2025-11-18T11:14:27", "+00:00"),
            leaf(c.BROWNED, 0.05, 1),
            1,
        ),
    ]
