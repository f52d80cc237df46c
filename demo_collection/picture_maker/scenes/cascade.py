"""Cold Stair: a cascading juniper."""

from __future__ import annotations

from dataclasses import replace

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import GALLERY, OVERCAST, SUNNY, WARM, Stage
from . import common as c

FOLDER = "trees/S1994.3-cold-stair/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.08, 0, 0.28),
    (0.02, -0.06, 0.64),
    (-0.40, -0.15, 0.92),
    (-0.98, -0.12, 0.96),
    (-1.50, -0.22, 0.62),
    (-1.48, -0.38, 0.08),
    (-1.90, -0.22, -0.42),
    (-2.28, -0.10, -0.88),
    (-2.08, -0.28, -1.40),
    (-2.42, -0.18, -1.86),
    (-2.78, -0.05, -2.22),
    (-2.70, -0.1, -2.62),
    (-2.85, -0.1, -2.85),
)


def tree(year: int) -> Tree:
    """The juniper in one year: the same line, ever longer."""
    points = {1969: 9, 1983: 11, 1994: 12, 2010: 13}.get(year, 14)
    k = {1969: 0.62, 1983: 0.80, 1994: 0.90, 2010: 1.0}.get(year, 1.06)
    rows = [
        (1, 0.62, c.RIGHT + 0.1, 1.30, 0.32, 0.6),
        (2, 0.85, c.BACK, 0.95, 0.55, 0.6),
        (3, 1.00, c.FRONT + 0.5, 0.75, 0.5, 0.6),
        (4, 1.25, c.LEFT - 0.6, 1.05, 0.60, 0.6),
        (5, 1.85, c.LEFT + 0.3, 1.25, 0.20, 0.55),
        (6, 2.75, c.RIGHT + 0.3, 0.80, 0.05, 0.6),
        (7, 3.05, c.LEFT + 0.05, 1.25, 0.10, 0.55),
        (8, 3.75, c.RIGHT - 0.1, 0.85, 0.02, 0.6),
        (9, 4.15, c.LEFT + 0.2, 1.05, 0.08, 0.55),
        (10, 4.75, c.RIGHT + 0.2, 0.80, 0.0, 0.6),
        (11, 5.15, c.LEFT - 0.1, 0.85, 0.05, 0.6),
        (12, 1.6, c.FRONT - 0.3, 0.7, 0.3, 0.6),
    ]
    reach = {1969: 3.4, 1983: 4.4, 1994: 5.0}.get(year, 9.0)
    b = [
        Branch(key, s, az, length * k, rise, width, 5, 1.2, 0.0, "first branch" if key == 1 else "")
        for key, s, az, length, rise, width in rows
        if s < reach - 0.25
    ]
    return Tree(
        LINE[:points],
        {1969: 0.14, 1983: 0.22, 1994: 0.27, 2010: 0.31}.get(year, 0.34),
        b,
        Crown(0.50 * k, max(reach - 0.9, 0) if reach < 9 else 5.5, 3, 0.6, 0.05),
        at=(0.3, 0),
        seed=21,
        taper=0.85,
        flare=0.35,
        fill={1969: 0.5, 1983: 0.75, 1994: 0.85}.get(year, 1.0),
        wired={1969: 0.6}.get(year, 1.0),
        roots=6,
        root_length=0.6,
        root_limit=0.55,
        step=0.07,
        attract=620,
    )


def shots() -> list[Shot]:
    """Five photographs, 1969 to 2025."""
    pipe = Pot(0.85, 0.85, 2.3, 2, (0.10, 0.045, 0.025), (0.20, 0.10, 0.055), 0.3, 0.4, 0.97, 0.13, False, moss=0.3)
    square = Pot(1.12, 1.12, 2.1, 5, (0.05, 0.028, 0.02), (0.10, 0.055, 0.038), 0.55, 0.05, 0.80, 0.13, moss=0.65)
    round_ = Pot(1.15, 1.15, 2.0, 2, (0.03, 0.035, 0.04), (0.075, 0.085, 0.09), 0.4, 0.3, 0.78, 0.13, moss=0.65)
    foliage = Foliage("scale", 0.17, c.JUNIPER, 3, 2, 1.0, 0.08)
    bleached = replace(c.JUNIPER_BARK, deadwood=0.615)

    def at(name: str, pot: Pot, stage: Stage, look: Look, taken: Taken, upright: bool = False) -> Shot:
        year = int(name[:4])
        w, h = (960, 1280) if upright else (1280, 960)
        return Shot(
            FOLDER + name,
            (tree(year),),
            bleached if year > 1990 else c.JUNIPER_BARK,
            pot,
            stage,
            look,
            taken,
            foliage,
            width=w,
            height=h,
            seed=21,
            marks={"arch": 1.45, "second bend": 2.75, "third bend": 3.95},
            hangs=True,
        )

    return [
        at(
            "1969_front_1.jpg",
            pipe,
            c.stage(
                "stone",
                c.SLATE,
                "courses",
                (0.25, 0.24, 0.22),
                SUNNY,
                c.see(2.75, 21, -0.4, 4, 3),
                1.2,
                1.0,
                9,
            ),
            c.sepia(-0.7, 51, (900, 1200), 1.0),
            c.scan("2012-05-22"),
            True,
        ),
        at(
            "1983_front_1.jpg",
            square,
            c.stage("planks", c.GREY, "hedge", c.HEDGE, OVERCAST, c.see(2.75, 22.5, -0.6, -2, 3), 1.9, 1.5, 14),
            c.slide(0.5, 52),
            c.scan("2013-11-07"),
        ),
        at(
            "1994-09_front_1.jpg",
            square,
            c.stage("slab", c.OAK, "boards", (0.20, 0.17, 0.14), WARM, c.see(2.95, 24, -0.7, 3, 4), 2.2, 1.5, 7),
            c.slide(-0.5, 53),
            c.scan("2014-02-03"),
        ),
        at(
            "2010_front_1.jpg",
            round_,
            c.stage(
                "cloth",
                (c.EBONY[0], (0.10, 0.10, 0.11)),
                "wall",
                (0.40, 0.39, 0.37),
                WARM,
                c.see(3.1, 23, -0.65, -2, 3),
                2.6,
                1.45,
            ),
            Look(size=(960, 1280), seed=54),
            Taken("2010-05-15T13:17:50", "+01:00", "body", turned=True),
            True,
        ),
        at(
            "2025-05_front_1.jpg",
            round_,
            c.stage(
                "slab",
                c.WALNUT,
                "wall",
                (0.46, 0.45, 0.43),
                GALLERY,
                c.see(3.15, 25.5, -0.75, 0, 3),
                2.75,
                1.45,
            ),
            Look(seed=55),
            Taken("2025-05-14T09:20:18", "+01:00"),
        ),
    ]
