"""The Interpreter: a hackberry clipped and let grow, in angles."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

from ..bark import Bark
from ..geometry import dice
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S1996.4-the-interpreter/photos/"
# straight lengths with hard turns: two points close together hold a corner
CORNERS = (
    (0, 0, 0),
    (-0.10, 0, 0.40),
    (-0.62, 0.05, 0.92),
    (0.05, -0.08, 1.52),
    (-0.28, 0.06, 2.08),
    (0.42, -0.04, 2.52),
    (0.20, 0.04, 2.98),
    (0.55, 0.0, 3.30),
)
BARK = Bark(
    ((0.085, 0.080, 0.074), (0.16, 0.155, 0.145), (0.24, 0.235, 0.22), (0.34, 0.33, 0.315)),
    scale=9,
    stretch=0.5,
    strength=0.35,
    relief=0.018,
    muscle=0.16,
)


def zigzag(corners: tuple[tuple[float, float, float], ...]) -> list[Point]:
    """A line that keeps straight between its corners."""
    out: list[Point] = [corners[0]]
    for a, b in pairwise(corners):
        for t in (0.12, 0.5, 0.88):
            out.append((a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t))
    out.append(corners[-1])
    return out


def limbs(year: int) -> list[Branch]:
    """Branches with elbows; rounded off in 1996."""
    size = {1979: 0.7, 1996: 0.95}.get(year, 1.0)
    rng = dice(964, 1)
    out = []
    for i, (s, az, n) in enumerate(
        (
            (1.15, c.LEFT + 0.1, 1.75),
            (1.75, c.RIGHT - 0.1, 1.75),
            (2.0, c.BACK, 1.2),
            (2.5, c.LEFT - 0.2, 1.55),
            (2.75, c.FRONT + 0.4, 0.9),
            (3.05, c.RIGHT + 0.2, 1.35),
            (3.4, c.LEFT + 0.3, 1.1),
            (3.65, c.RIGHT - 0.2, 0.95),
        )
    ):
        name = {0: "first branch", 1: "second branch"}.get(i, "")
        out.append(
            Branch(
                i + 1,
                s,
                az + float(rng.normal()) * 0.1,
                n * size,
                0.25 - 0.3 * (i % 2),
                0.36,
                4,
                0.72,
                0.0,
                name,
                angular=0.9,
            )
        )
    if year == 1996:
        out = [replace(b, rise=0.05, width=0.6, full=1.25, lobes=8) for b in out]
    return out[: 5 if year == 1979 else 8]


def tree(year: int) -> Tree:
    """The hackberry in one year."""
    corners = CORNERS[:7] if year == 1979 else CORNERS
    crown = {1979: Crown(0.42, 2.6, 3, 0.7), 1996: Crown(1.05, 2.6, 7, 0.8)}.get(year, Crown(0.48, 3.0, 4, 0.7))
    return Tree(
        zigzag(corners),
        {1979: 0.26, 1996: 0.42}.get(year, 0.50),
        limbs(year),
        crown,
        at=(0.1, 0),
        seed=964,
        fill={1979: 0.65, 1996: 1.0}.get(year, 0.8),
        taper=0.95,
        flare=0.65,
        roots=9,
        root_length=1.7,
        root_limit=0.95,
        step=0.10,
        attract=300,
    )


def shots() -> list[Shot]:
    """Four photographs, 1979 to 2026."""
    tray = k.pot(40, 0.62, 0.42, 6, k.BROWN, 0.5, moss=0.35)
    brown = k.pot(44, 0.72, 0.85, 7, k.BROWN, moss=0.5)
    pale = k.pot(50, 0.66, 0.45, 3, k.PALE_GREEN, 0.6, moss=0.6, ground="river", mossy="bright")

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
            seed=964,
            marks={"first bend": 1.15, "second bend": 2.05},
        )
        return replace(plain, **more)

    d = Look(seed=340)
    green = k.leaf("oval", 0.105, c.GREEN, 4, 3)
    return [
        at("2025-08_front_1.jpg", pale, k.scene("studio_pale", 0, 0.80), d, k.taken("2025-08-19T09:22:11"), green),
        at(
            "1996_front_1.jpg",
            brown,
            k.scene("plaster", -2, 0.78),
            *k.print_look("slide", 341),
            k.leaf("oval", 0.12, c.GREEN, 3, 2),
        ),
        at("1979_front_1.jpg", tray, k.scene("garden", 2, 0.74), *k.print_look("faded", 342), green),
        at(
            "2026-01_front_1.jpg",
            pale,
            k.scene("winter", 1, 0.80),
            replace(d, seed=343),
            k.taken("2026-01-27T11:33:46"),
            None,
            twiglets=1,
        ),
    ]
