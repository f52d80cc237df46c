"""The Customs House Box: three pale trunks of box."""

from __future__ import annotations

from ..bark import Bark
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S2010.1-customs-house-box/photos/"
BARK = Bark(
    ((0.14, 0.12, 0.09), (0.25, 0.22, 0.17), (0.36, 0.325, 0.26), (0.47, 0.43, 0.36)),
    scale=10,
    stretch=0.14,
    strength=0.8,
    relief=0.035,
    muscle=0.26,
    twist=0.3,
)
BOX = ((0.018, 0.038, 0.012), (0.032, 0.062, 0.018), (0.055, 0.092, 0.026), (0.09, 0.13, 0.04))
TRUNKS: tuple[tuple[tuple[float, float], float, tuple[Point, ...]], ...] = (
    (
        (0.0, 0.1),
        0.36,
        ((0, 0, 0), (-0.02, 0, 0.35), (0.10, 0.02, 1.0), (-0.05, 0, 1.7), (0.06, 0, 2.4), (0.02, 0, 2.95)),
    ),
    (
        (-0.42, -0.05),
        0.27,
        ((0, 0, 0), (-0.12, 0, 0.3), (-0.42, 0, 0.85), (-0.58, 0, 1.4), (-0.72, 0, 1.9), (-0.70, 0, 2.2)),
    ),
    (
        (0.40, -0.08),
        0.24,
        ((0, 0, 0), (0.14, 0, 0.3), (0.40, 0, 0.75), (0.66, 0, 1.2), (0.70, 0, 1.65), (0.80, 0, 1.85)),
    ),
)


def trees(year: int) -> list[Tree]:
    """Three trunks from one foot."""
    size, thick = {1961: (0.74, 0.55), 1984: (0.88, 0.78)}.get(year, (1.0, 1.0))
    out = []
    for i, (at, girth, line) in enumerate(TRUNKS):
        high = line[-1][2]
        rows = [
            Branch(
                b.key,
                b.s,
                b.az,
                b.length * size,
                b.rise,
                0.4,
                3,
                1.0,
                0.0,
                b.name if i == 0 else "",
                ball=(0.50 - 0.03 * b.key) * size,
            )
            for b in k.limbs(
                6,
                (high * 0.50, high * 0.94),
                (0.33 * high, 0.20 * high),
                101 + i,
                (0.1, 0.4),
                0.4,
                c.LEFT if i == 1 else c.RIGHT,
                spread=0.45,
            )
        ]
        out.append(
            Tree(
                line,
                girth * thick,
                rows,
                Crown(0.42 * size, high * 0.86, 2, 0.9),
                at=at,
                seed=101 + i,
                fill=0.8 if year == 1961 else 1.0,
                taper=0.7,
                flare=0.4,
                roots=6,
                root_limit=0.9,
                kink=0.6,
                step=0.075,
                attract=560,
                name=f"trunk {i + 1}",
            )
        )
    return out


def shots() -> list[Shot]:
    """Three photographs, 1961 to 2025."""
    glazed = k.pot(28, 1.0, 0.75, 2, k.GREEN, 0.6, moss=0.3)
    brown = k.pot(38, 0.76, 0.7, 2.3, k.BROWN, moss=0.6, ground="pumice", mossy="dark")
    leaves = k.leaf("sprig", 0.10, BOX, 3, 2)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken) -> Shot:
        return Shot(
            FOLDER + name,
            trees(int(name[:4])),
            BARK,
            pot,
            stage,
            look,
            when,
            leaves,
            seed=101,
            marks={"first bend": 0.9},
        )

    return [
        at(
            "2025-06_front_1.jpg",
            brown,
            k.scene("studio_pale", 0, 0.78),
            Look(seed=350),
            k.taken("2025-06-11T10:02:40"),
        ),
        at("1961_front_1.jpg", glazed, k.scene("window", 2, 0.66, 4), *k.print_look("sepia", 351)),
        at("1984_front_1.jpg", brown, k.scene("garden", -2, 0.76, 4), *k.print_look("slide", 352)),
    ]
