"""Halvard's Maple, a trident maple."""

from __future__ import annotations

from dataclasses import replace

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import GALLERY, NORTH, OVERCAST, SHOW, SUNNY, WARM, Stage
from ..working import Work
from . import common as c

FOLDER = "trees/S1979.2-halvards-maple/photos/"
LOWER: tuple[Point, ...] = (
    (0, 0, 0),
    (0.06, 0, 0.2),
    (0.34, -0.06, 0.75),
    (0.12, 0.12, 1.5),
    (-0.36, -0.08, 2.3),
    (-0.16, 0.05, 2.95),
)
UPRIGHT: tuple[Point, ...] = ((0.18, 0.08, 3.45), (0.24, -0.05, 4.0), (0.14, 0, 4.5))
BENT: tuple[Point, ...] = ((0.30, 0.10, 3.26), (0.70, 0.02, 3.40), (0.92, -0.05, 3.62))
MARKS = {"first bend": 0.84, "second bend": 2.55, "left wound": 1.35}

CRATE = Pot(2.9, 1.9, 1.1, 60, (0.13, 0.085, 0.05), (0.30, 0.21, 0.13), moss=0.25, kind="crate", mound=0.1)
GREY_RECTANGLE = Pot(2.5, 1.8, 1.02, 7, (0.11, 0.105, 0.098), (0.20, 0.19, 0.175), 0.7, 0.0, 0.9, moss=0.5)
BLUE_OVAL = Pot(2.3, 1.75, 0.80, 2.3, (0.012, 0.05, 0.085), (0.05, 0.16, 0.19), 0.22, 0.7, 0.84, belly=0.01, moss=0.68)


def limbs(year: int) -> list[Branch]:
    """The branches of one year: the lowest left one long, then shortened, then gone."""
    k = {1962: 0.60, 1978: 0.85, 1990: 0.95, 1991: 0.92, 1992: 0.88, 2008: 0.97}.get(year, 1.06)
    b = [
        c.branch(2, 1.02, c.RIGHT + 0.12, 2.35 * k, -0.02, 0.40, 7, name="first branch"),
        c.branch(4, 2.42, c.LEFT + 0.05, 2.15 * k, 0.02, 0.42, 7, name="second branch"),
        c.branch(5, 2.95, c.RIGHT - 0.2, 1.70 * k, 0.06, name="third branch"),
    ]
    if year < 1991:
        long = {1962: 1.3, 1978: 2.3, 1990: 0.95}[year]
        b.append(c.branch(1, 1.35, c.LEFT - 0.12, long, 0.02, 0.42, 7 if long > 1 else 4, name="lowest left branch"))
    if year > 1962:
        b += [
            c.branch(3, 1.85, c.BACK - 0.5, 1.65 * k, 0.15, 0.5),
            c.branch(6, 3.05, c.BACK + 0.5, 1.4 * k, 0.18),
            c.branch(8, 3.2, c.LEFT - 0.35, 1.35 * k, 0.14),
        ]
    if year > 1978:
        b += [
            c.branch(7, 2.7, c.FRONT + 0.35, 0.95 * k, 0.10, 0.5),
            c.branch(9, 2.2, c.BACK + 0.7, 1.4 * k, 0.12, 0.5),
        ]
    if year < 1991 and year > 1962:
        b += [
            c.branch(10, 3.65, c.RIGHT - 0.15, 1.25 * k, 0.16),
            c.branch(11, 3.95, c.LEFT + 0.2, 1.1 * k, 0.2),
        ]
    if year > 1991:
        b += [
            c.branch(12, 3.55, c.RIGHT + 0.35, 1.0 * k, 0.14),
            c.branch(13, 3.45, c.BACK - 0.3, 1.0 * k, 0.3),
        ]
    return b


def tree(year: int) -> Tree:
    """The maple in one year."""
    radius = {1962: 0.15, 1978: 0.31, 1990: 0.43, 1991: 0.43, 1992: 0.44, 2008: 0.53}.get(year, 0.60)
    fill = {1962: 0.55, 1978: 0.82, 1990: 0.9, 1991: 0.45, 1992: 0.62, 2008: 0.9}.get(year, 1.0)
    if year == 1962:
        trunk, crown = (*LOWER, (0.05, 0.08, 3.5), (0.0, 0.0, 4.0)), Crown(0.5, 3.1, 5, 0.9)
    elif year < 1991:
        trunk, crown = (*LOWER, *UPRIGHT), Crown(0.78, 3.5, 6, 0.85)
    else:
        full = {1991: 0.62, 1992: 0.80, 2008: 0.92}.get(year, 1.0)
        trunk, crown = (*LOWER, *BENT), Crown(full, 3.35, 5, 0.62, 0.10, (-0.12, 0.0))
    return Tree(
        trunk,
        radius,
        limbs(year),
        crown,
        at=(-0.3, 0.05),
        seed=7,
        fill=fill,
        wired={1962: 0.15, 1978: 0.6}.get(year, 1.0),
        roots=6 if year == 1962 else 10,
        root_limit=1.05,
    )


def leaves(
    share: float = 1.0,
    each: int = 4,
    size: float = 0.125,
    palette: tuple[tuple[float, float, float], ...] = c.GREEN,
) -> Foliage:
    """Trident leaves."""
    return Foliage("trident", size, palette, each, 2, share)


def shots() -> list[Shot]:
    """Nine photographs, 1962 to 2026."""
    f, bark = FOLDER, c.MAPLE_BARK

    def at(
        name: str,
        pot: Pot,
        stage: Stage,
        look: Look,
        taken: Taken,
        foliage: Foliage | None,
        work: Work | None = None,
        twiglets: int = 0,
    ) -> Shot:
        return Shot(
            f + name,
            (tree(int(name[:4])),),
            bark,
            pot,
            stage,
            look,
            taken,
            foliage,
            work=work,
            twiglets=twiglets,
            seed=7,
            marks=MARKS,
        )

    return [
        at(
            "1962_front_1.jpg",
            CRATE,
            c.stage("planks", c.GREY, "sea", (0.5, 0.5, 0.5), SUNNY, c.see(2.5, 25, 0.1, 2, 5), behind=30),
            c.sepia(0.8, 11),
            c.scan("2012-03-14"),
            leaves(0.9, 5),
        ),
        at(
            "1978_front_1.jpg",
            GREY_RECTANGLE,
            c.stage("stone", c.PALE_STONE, "hedge", c.HEDGE, SUNNY, c.see(2.8, 27, 0.1, -2, 4.5, 0.5), behind=14),
            c.faded(-0.6, 12),
            c.scan("2012-03-14"),
            leaves(),
        ),
        at(
            "1990_front_1.jpg",
            GREY_RECTANGLE,
            c.stage(
                "planks",
                c.GREY,
                "boards",
                (0.20, 0.17, 0.13),
                OVERCAST,
                c.see(2.8, 26.5, 0.0, 1, 4),
                behind=6,
            ),
            c.slide(0.4, 13),
            c.scan("2013-11-05"),
            leaves(),
        ),
        at(
            "1991_front_1.jpg",
            GREY_RECTANGLE,
            c.stage(
                "turntable",
                c.OAK,
                "curtain",
                (0.13, 0.15, 0.13),
                SHOW,
                c.see(2.2, 24, 0.15, -3, 6),
                behind=9,
            ),
            replace(c.slide(-0.7, 14), light=1.6),
            c.scan("2013-11-05"),
            leaves(0.55, 3),
            Work(wired=2.6, guy=True, wire_roll=True, cuttings=14),
        ),
        at(
            "1992_front_1.jpg",
            GREY_RECTANGLE,
            c.stage(
                "cloth",
                (c.EBONY[0], (0.035, 0.03, 0.035)),
                "cloth",
                (0.05, 0.055, 0.07),
                SHOW,
                c.see(2.45, 25, 0.1, 2, 3),
                behind=7,
            ),
            replace(c.slide(0.3, 15, 1.025), light=1.5),
            c.scan("2013-11-06"),
            leaves(0.8),
        ),
        at(
            "2008_front_1.jpg",
            BLUE_OVAL,
            c.stage("slab", c.OAK, "wall", (0.50, 0.45, 0.37), WARM, c.see(2.5, 23.5, 0.1, -1.5, 4)),
            Look(seed=16),
            Taken("2008-06-07T11:42:10", "+01:00", "pocket", (61.2031, -9.4417)),
            leaves(),
        ),
        at(
            "2025-06_front_1.jpg",
            BLUE_OVAL,
            c.stage("slab", c.WALNUT, "wall", (0.42, 0.43, 0.44), GALLERY, c.see(2.45, 24.5, 0.1)),
            Look(seed=17),
            Taken("2025-06-16T09:12:40", "+01:00"),
            leaves(each=5),
        ),
        at(
            "2025-10_front_1.jpg",
            BLUE_OVAL,
            c.stage("slab", c.EBONY, "wall", (0.36, 0.345, 0.32), WARM, c.see(2.45, 24.0, 0.1, 1, 3)),
            Look(seed=18),
            Taken("2025-10-21T10:03:55", "+01:00"),
            leaves(each=5, palette=c.TURNED),
        ),
        at(
            "2026-01_front_1.jpg",
            BLUE_OVAL,
            c.stage("slab", c.WALNUT, "wall", (0.52, 0.53, 0.54), NORTH, c.see(2.45, 23.5, 0.1, -1, 3.5)),
            Look(seed=19),
            Taken("2026-01-20T11:30:02", "+00:00"),
            None,
            twiglets=2,
        ),
    ]
