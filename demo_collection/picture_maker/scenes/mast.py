"""The Mast: a cedar of Japan, straight as its name."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S2000.2-the-mast/photos/"
BARK = Bark(
    ((0.05, 0.022, 0.014), (0.13, 0.062, 0.04), (0.22, 0.115, 0.075), (0.32, 0.19, 0.13)),
    scale=13,
    stretch=0.06,
    strength=0.9,
    relief=0.03,
    muscle=0.12,
    twist=0.05,
)
CEDAR = ((0.024, 0.052, 0.020), (0.042, 0.085, 0.028), (0.070, 0.125, 0.040), (0.115, 0.175, 0.055))
BRONZE = ((0.055, 0.048, 0.020), (0.095, 0.070, 0.026), (0.14, 0.090, 0.034), (0.15, 0.13, 0.045))


def tree(year: int) -> Tree:
    """The cedar in one year; it grows at its tip and in girth alone."""
    high, radius, size = {
        1964: (2.55, 0.11, 0.36),
        1979: (4.55, 0.25, 0.66),
        1999: (6.3, 0.41, 0.86),
        2012: (6.7, 0.46, 0.95),
    }.get(year, (6.9, 0.50, 1.0))
    trunk: list[Point] = [(0, 0, 0)]
    for i in range(1, 14):
        z = 0.55 * i
        if z > high - 0.3:
            break
        trunk.append((0.016 * ((i * 7) % 3 - 1), 0.012 * ((i * 5) % 3 - 1), z))
    trunk.append((0.0, 0.0, high))
    plan = k.limbs(19, (1.35, 6.35), (1.95, 0.55), 200, (-0.10, 0.22), 0.48, c.LEFT, spread=0.28, lobes=5)
    rows = [replace(b, length=b.length * size * (1 if b.s < high - 1 else 0.75)) for b in plan if b.s < high - 0.45]
    if year == 1964:
        rows = [replace(b, length=0.62, rise=0.35) for b in plan if b.s < 2.2]
    return Tree(
        trunk,
        radius,
        rows,
        Crown({1964: 0.25, 1979: 0.38}.get(year, 0.46), high - 0.9, 4, 1.2),
        at=(0, 0),
        seed=200,
        fill={1964: 0.5, 1979: 0.62, 1999: 0.85}.get(year, 0.95),
        taper=0.85,
        flare=0.42,
        wired=0.5 if year == 1964 else 1.0,
        roots=11,
        root_length=0.9,
        root_limit=1.2,
        step=0.095,
        attract=560,
    )


def shots() -> list[Shot]:
    """Six photographs, 1964 to 2026."""
    nursery = Pot(0.85, 0.85, 1.15, 2, *k.CLAY, 0.85, 0.0, 0.72, 0.1, False, moss=0.2)
    brown = k.pot(40, 0.76, 0.85, 7, k.BROWN, moss=0.35)
    dark = k.pot(48, 0.74, 0.85, 7, k.DARK, moss=0.62, ground="pumice", mossy="dark")
    green = k.leaf("cedar", 0.20, CEDAR, 3, 3)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage = green, **more: Any) -> Shot:
        plain = Shot(
            FOLDER + name,
            (tree(int(name[:4])),),
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            width=960,
            height=1280,
            seed=200,
            marks={"first bend": 1.0, "second bend": 2.2},
        )
        return replace(plain, **more)

    d = Look(size=(960, 1280), seed=210)
    return [
        at("2025-07_front_1.jpg", dark, k.scene("studio", 0, 0.82), d, k.taken("2025-07-09T09:25:18")),
        at("1979_front_1.jpg", brown, k.scene("plaster", 2, 0.80, 4), *k.print_look("faded", 211, True)),
        at("1964_front_1.jpg", nursery, k.scene("window", 1, 0.62, 4), *k.print_look("sepia", 212, True)),
        at(
            "2026-01_front_1.jpg",
            dark,
            k.scene("winter", -1, 0.80),
            replace(d, seed=213),
            k.taken("2026-01-15T11:42:07"),
            k.leaf("cedar", 0.19, BRONZE, 3, 3),
        ),
        at("1999_front_1.jpg", dark, k.scene("plaster", -2, 0.80), *k.print_look("slide", 214, True)),
        at(
            "2012_front_1.jpg",
            dark,
            k.scene("terrace", 2, 0.80),
            replace(d, seed=215),
            k.taken("2012-06-30T13:20:41", "body", turned=True),
        ),
    ]
