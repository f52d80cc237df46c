"""The Clipped Pine: twin trunks and cushions, kept as they were found."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S1979.3-clipped-pine/photos/"
BIG: tuple[Point, ...] = (
    (0, 0, 0),
    (-0.06, 0, 0.3),
    (-0.30, 0.05, 0.95),
    (-0.10, -0.06, 1.70),
    (0.22, 0.04, 2.40),
    (0.08, 0.0, 3.05),
    (-0.02, 0, 3.55),
)
SMALL: tuple[Point, ...] = (
    (0, 0, 0),
    (0.12, 0, 0.3),
    (0.52, -0.04, 0.85),
    (0.78, 0.04, 1.40),
    (0.74, 0.0, 1.90),
    (0.82, 0, 2.15),
)
BARK = Bark(
    ((0.038, 0.024, 0.017), (0.115, 0.066, 0.042), (0.22, 0.125, 0.075), (0.34, 0.20, 0.12)),
    scale=8,
    stretch=0.5,
    strength=0.9,
    relief=0.04,
    muscle=0.12,
    plates=True,
)
SCOTS = ((0.034, 0.060, 0.034), (0.055, 0.090, 0.050), (0.085, 0.125, 0.070), (0.12, 0.16, 0.090))


def trees(year: int) -> list[Tree]:
    """Both trunks; from 1980 on the outline does not change."""
    young = year < 1960
    size = 0.6 if young else 1.0 if year > 1980 else 0.97
    rows = [
        (1, 1.35, c.LEFT - 0.1, 1.55, 0.0, 0.50, "first branch"),
        (2, 1.95, c.RIGHT + 0.5, 1.05, 0.1, 0.40, ""),
        (3, 2.25, c.LEFT + 0.35, 1.15, 0.05, 0.42, ""),
        (4, 2.75, c.RIGHT - 0.2, 1.20, 0.0, 0.44, "second branch"),
        (5, 2.45, c.BACK + 0.3, 0.95, 0.15, 0.45, ""),
        (6, 3.10, c.LEFT - 0.2, 0.85, 0.12, 0.36, ""),
    ]
    first = [
        Branch(key, s, az, n * size, rise, 0.4, 3, 1.0, 0.0, name, ball=ball * size * 1.32)
        for key, s, az, n, rise, ball, name in rows
    ]
    second = [
        Branch(11, 1.30, c.RIGHT - 0.1, 0.85 * size, 0.05, ball=0.52 * size),
        Branch(12, 1.75, c.LEFT + 0.6, 0.5 * size, 0.2, ball=0.42 * size),
    ]
    girth = 0.20 if young else 0.44 if year == 1980 else 0.47
    if young:
        first = [replace(b, ball=0.0, rise=b.rise + 0.4) for b in first]
        second = [replace(b, ball=0.0, rise=b.rise + 0.4) for b in second]
    fill = 0.5 if young else 1.0
    base = Tree(
        BIG,
        girth,
        at=(-0.25, 0.0),
        fill=fill,
        step=0.10,
        attract=400.0,
        roots=8,
        root_limit=1.0,
        flare=0.35,
        kink=0.3,
        wired=0.5 if young else 1.0,
    )
    big, small = BIG[: 6 if young else 7], SMALL[: 5 if young else 6]
    return [
        replace(
            base, trunk=big, branches=first, crown=Crown(0.62 * size, 3.15 if not young else 2.6, 2, 0.9), seed=793
        ),
        replace(
            base,
            trunk=small,
            radius=girth * 0.62,
            branches=second,
            crown=Crown(0.55 * size, 1.85 if not young else 1.5, 2, 0.9),
            seed=794,
            roots=5,
        ),
    ]


def shots() -> list[Shot]:
    """Five photographs, from the fifties to 2025."""
    brown = k.pot(44, 0.74, 0.9, 4, k.BROWN, moss=0.55, ground="lava", mossy="olive")
    crate = k.box(48, 0.70, 1.0)
    needles = k.leaf("pine", 0.165, SCOTS, 3, 2)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, **more: Any) -> Shot:
        year = 1955 if name.startswith("195X") else int(name[:4])
        plain = Shot(
            FOLDER + name,
            trees(year),
            BARK,
            pot,
            stage,
            look,
            when,
            needles,
            seed=793,
            marks={"first bend": 1.05, "second bend": 2.55},
        )
        return replace(plain, **more)

    d = Look(seed=280)
    detail = replace(
        k.scene("studio", 8, 0.0, 2), camera=replace(k.scene("studio", 8, 0.0, 2).camera, near=2.2, stop=0.7)
    )
    return [
        at("2025-09_front_1.jpg", brown, k.scene("studio", 0, 0.78), d, k.taken("2025-09-16T09:28:03")),
        at("1980_front_1.jpg", brown, k.scene("terrace", 1, 0.78, 4), *k.print_look("slide", 281)),
        at(
            "195X_front_1.jpg",
            crate,
            k.scene("slip", 3, 0.66, 5),
            *k.print_look("sepia", 282),
            foliage=k.leaf("pine", 0.24, SCOTS, 2, 1),
        ),
        at(
            "2025-09_detail_1.jpg",
            brown,
            detail,
            replace(d, seed=283),
            k.taken("2025-09-16T09:41:50"),
            focus="second bend",
            nudge=(0.80, 0.0, -0.30),
            voxel=0.016,
        ),
        at(
            "2012_front_1.jpg",
            brown,
            k.scene("glasshouse", 4, 0.88, 9, lens=40),
            Look("phone", seed=284),
            k.taken("2012-07-21T18:05:33", "phone"),
        ),
    ]
