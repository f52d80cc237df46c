"""The Exception: a silver birch that was let hang."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S2002.1-the-exception/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.05, 0, 0.28),
    (0.26, 0.04, 0.90),
    (0.02, -0.06, 1.65),
    (-0.22, 0.04, 2.40),
    (0.02, 0.0, 3.15),
    (0.20, 0.02, 3.80),
    (0.12, 0, 4.35),
    (0.16, 0, 4.75),
)
BARK = Bark(
    ((0.035, 0.030, 0.028), (0.50, 0.48, 0.45), (0.64, 0.62, 0.585), (0.74, 0.72, 0.69)),
    scale=5.5,
    stretch=1.5,
    strength=0.35,
    relief=0.012,
    muscle=0.07,
    twist=0.0,
    bands=0.62,
    twig=(0.060, 0.036, 0.028),
)
GOLD = ((0.40, 0.27, 0.02), (0.52, 0.36, 0.03), (0.60, 0.43, 0.05), (0.34, 0.30, 0.04))


def tree(year: int) -> Tree:
    """The birch in one year."""
    radius, size, high, fall = {
        1973: (0.10, 0.62, 6, 0.5),
        1988: (0.18, 0.78, 8, 1.0),
        2002: (0.25, 0.92, 9, 1.35),
    }.get(year, (0.29, 1.0, 9, 1.55))
    plan = k.limbs(13, (1.40, 4.9), (1.15, 0.35), 202, (0.35, 0.8), 0.5, c.RIGHT, spread=0.45, weep=fall, lobes=8)
    count = {1973: 5, 1988: 11}.get(year, 13)
    rows = [replace(b, length=b.length * size) for b in plan[:count] if b.s < LINE[high - 1][2] + 0.10]
    if year == 1973:
        rows = [replace(b, weep=0.0, length=0.75, rise=0.7, full=0.8) for b in rows]
    return Tree(
        LINE[:high],
        radius,
        rows,
        None,
        at=(0, 0),
        seed=202,
        fill={1973: 0.4, 1988: 0.75}.get(year, 1.0),
        taper=0.8,
        flare=0.42,
        roots=8,
        root_length=0.9,
        root_limit=1.0,
        kink=0.4,
        wired=0.5 if year == 1973 else 1.0,
    )


def shots() -> list[Shot]:
    """Five photographs, 1973 to 2026."""
    clay = Pot(1.3, 1.3, 1.0, 2, *k.CLAY, 0.85, 0.0, 0.8, 0.1, False, moss=0.2)
    green = k.pot(30, 1.0, 0.7, 2, k.GREEN, 0.4, moss=0.45)
    cream = k.pot(42, 0.76, 0.6, 2.2, k.CREAM, 0.5, moss=0.62, ground="pumice", mossy="bright")

    def leaves(palette: tuple[tuple[float, float, float], ...], share: float = 1.0) -> Foliage:
        return k.leaf("oval", 0.105, palette, 2, 30, share, hang=0.8)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        plain = Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=202,
            width=960,
            height=1280,
            voxel=0.02,
            marks={"first bend": 0.95, "second bend": 2.45},
        )
        return replace(plain, **more)

    d = Look(size=(960, 1280), seed=270)
    litter = replace(cream, ground=replace(cream.ground, litter=("oval", 0.10, GOLD, 60)))
    return [
        at(
            "2025-10_front_1.jpg",
            litter,
            k.scene("studio_blue", 0, 0.82),
            d,
            k.taken("2025-10-20T09:50:36"),
            leaves(GOLD, 0.75),
        ),
        at(
            "1988_front_1.jpg",
            green,
            k.scene("plaster", -2, 0.80),
            *k.print_look("print90", 271, True),
            leaves(c.GREEN, 0.8),
        ),
        at("1973_front_1.jpg", clay, k.scene("garden", 2, 0.76), *k.print_look("faded", 272, True), leaves(c.GREEN)),
        at(
            "2026-02_front_1.jpg",
            cream,
            k.scene("studio_blue", 1, 0.82),
            replace(d, seed=273),
            k.taken("2026-02-12T11:15:29"),
            None,
        ),
        at(
            "2002-10_front_1.jpg",
            cream,
            k.scene("terrace_low", -1, 0.80),
            replace(d, seed=274),
            k.taken("2002-10-12T14:28:06", "pocket"),
            leaves(GOLD, 0.75),
        ),
    ]
