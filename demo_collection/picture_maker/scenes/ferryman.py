"""The Ferryman: a white pine leaning over its pot."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S1982.5-the-ferryman/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.10, 0, 0.26),
    (0.16, -0.04, 0.70),
    (-0.22, -0.12, 1.10),
    (-0.85, -0.14, 1.16),
    (-1.42, -0.18, 0.86),
    (-1.78, -0.10, 0.36),
    (-2.25, -0.16, 0.06),
    (-2.72, -0.08, -0.22),
    (-3.02, -0.1, -0.50),
)
BARK = replace(
    c.PINE_BARK,
    colours=((0.035, 0.030, 0.028), (0.10, 0.088, 0.078), (0.19, 0.17, 0.15), (0.29, 0.27, 0.24)),
    relief=0.035,
)
YELLOW = ((0.095, 0.115, 0.028), (0.14, 0.165, 0.038), (0.20, 0.225, 0.055), (0.26, 0.28, 0.08))
BLUE = ((0.030, 0.060, 0.050), (0.052, 0.092, 0.078), (0.085, 0.130, 0.112), (0.13, 0.18, 0.155))


def tree(year: int) -> Tree:
    """The pine in one year."""
    points = {1968: 8, 1983: 9}.get(year, 10)
    size = {1968: 0.62, 1983: 0.82, 1999: 1.0}.get(year, 1.0)
    rows = [
        (1, 0.72, c.RIGHT + 0.1, 1.35, 0.22, "first branch"),
        (2, 0.95, c.BACK, 1.05, 0.4, ""),
        (3, 1.15, c.FRONT + 0.5, 0.75, 0.4, ""),
        (4, 1.45, c.LEFT - 0.5, 1.05, 0.55, "second branch"),
        (5, 1.95, c.BACK + 0.5, 0.95, 0.35, ""),
        (6, 2.45, c.LEFT + 0.4, 1.05, 0.30, ""),
        (7, 2.75, c.RIGHT + 0.6, 0.75, 0.1, ""),
        (8, 3.10, c.LEFT - 0.4, 0.95, 0.18, ""),
        (9, 3.50, c.BACK, 0.75, 0.25, ""),
        (10, 3.85, c.LEFT + 0.2, 0.80, 0.10, ""),
    ]
    end = {1968: 3.2, 1983: 3.7}.get(year, 4.3)
    b = [
        Branch(key, s, az, n * size, rise, 0.5, 5, 1.15, 0.0, name)
        for key, s, az, n, rise, name in rows
        if s < end - 0.3
    ]
    dense = year > 2000
    return Tree(
        LINE[:points],
        {1968: 0.20, 1983: 0.27, 1999: 0.33}.get(year, 0.38),
        b,
        Crown(0.45 * size, end - 0.55, 3, 0.6, 0.05),
        at=(0.25, 0),
        seed=825,
        taper=0.85,
        flare=0.35,
        fill=1.0 if dense else 0.62,
        wired=1.0 if dense else 0.75,
        roots=7,
        root_length=0.7,
        root_limit=0.7,
        kink=0.35,
        step=0.105,
        attract=420 if dense else 300,
    )


def shots() -> list[Shot]:
    """Five photographs, 1968 to 2025."""
    black = Pot(1.3, 1.3, 1.35, 2, *k.BLACK, 0.4, 0.3, 0.82, 0.12, moss=0.3)
    dark = Pot(1.5, 1.5, 1.45, 3.2, *k.DARK, 0.6, 0.0, 0.82, 0.12, moss=0.5)
    iron = k.pot(32, 1.0, 1.45, 2, k.IRON, 0.15, moss=0.62, ground="lava", mossy="dark")
    loose = k.leaf("pine", 0.40, YELLOW, 2, 1)
    short = k.leaf("pine", 0.185, BLUE, 3, 1)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage, **more: Any) -> Shot:
        low = replace(stage, stand=0.95, stand_half=1.45)
        plain = Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            BARK,
            pot,
            low,
            look,
            when,
            foliage,
            seed=825,
            hangs=True,
            marks={"first bend": 0.75, "second bend": 1.75, "third bend": 2.6},
        )
        return replace(plain, **more)

    d = Look(seed=290)
    return [
        at("2025-05_front_1.jpg", iron, k.scene("studio", 0, 0.76), d, k.taken("2025-05-20T09:11:27"), short),
        at("1999_front_1.jpg", dark, k.scene("terrace", 2, 0.76, 4), *k.print_look("slide", 291), loose),
        at(
            "2018_front_1.jpg",
            iron,
            k.scene("limewash", -2, 0.76),
            replace(d, seed=292),
            k.taken("2018-05-26T11:50:14", "body"),
            short,
        ),
        at(
            "1968_front_1.jpg",
            black,
            k.scene("hall", 1, 0.72),
            *k.print_look("halftone", 293),
            replace(loose, size=0.36),
        ),
        at("1983_front_1.jpg", dark, k.scene("garden", -1, 0.76, 4), *k.print_look("slide", 294), loose),
    ]
