"""Left Bank and Right Bank: two groups of field maple in twin trays."""

from __future__ import annotations

from dataclasses import replace

from ..bark import Bark
from ..geometry import dice
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

LEFT, RIGHT = "trees/S2012.2-left-bank/photos/", "trees/S2012.3-right-bank/photos/"
BARK = Bark(
    ((0.060, 0.046, 0.035), (0.13, 0.105, 0.082), (0.20, 0.17, 0.135), (0.29, 0.25, 0.205)),
    scale=10,
    stretch=0.22,
    strength=1.0,
    relief=0.035,
    muscle=0.10,
    twist=0.05,
)
YELLOW = ((0.56, 0.40, 0.03), (0.66, 0.49, 0.045), (0.58, 0.36, 0.03), (0.40, 0.38, 0.05))
FIVE = (
    (-0.35, 0.0, 4.3, 0.26),
    (-1.35, 0.2, 3.5, 0.20),
    (0.75, 0.15, 3.7, 0.21),
    (-2.0, -0.15, 2.6, 0.14),
    (1.6, -0.1, 2.7, 0.15),
)
THREE = ((0.55, 0.0, 4.2, 0.27), (-0.55, 0.2, 3.3, 0.19), (1.45, -0.15, 2.6, 0.15))


def trees(left: bool, year: int) -> list[Tree]:
    """The group of one bank."""
    size, thick = (0.68, 0.45) if year == 2012 else (1.0, 1.0)
    lean = 0.16 if left else -0.16
    out = []
    for i, (x, y, high, girth) in enumerate(FIVE if left else THREE):
        seed = (1220 if left else 1230) + i
        rng = dice(seed, 1)
        h = high * size
        line: list[Point] = [(0, 0, 0)]
        z = 0.5
        while z < h - 0.3:
            line.append((lean * z + float(rng.normal()) * 0.06, float(rng.normal()) * 0.05, z))
            z += 0.6
        line.append((lean * h, 0.0, h))
        plan = k.limbs(
            9,
            (0.36 * high, 0.94 * high),
            (0.30 * high, 0.15 * high),
            seed,
            (0.1, 0.4),
            0.52,
            0.0 if left else 3.14,
            spread=0.55,
            lobes=4,
        )
        rows = [replace(b, length=b.length * size) for b in plan if b.s < h - 0.25]
        out.append(
            Tree(
                line,
                girth * thick,
                rows,
                Crown(0.11 * high * size, h * 0.84, 4, 0.9),
                at=(x, y),
                seed=seed,
                fill=0.6 if year == 2012 else 0.95,
                flare=0.45,
                roots=6,
                root_length=0.9,
                kink=0.4,
                step=0.09,
                attract=360,
                wired=0.7 if year == 2012 else 1.0,
                name=f"tree {i + 1}",
            )
        )
    return out


def shots() -> list[Shot]:
    """Two photographs of each bank, 2012 and 2024."""
    tray = k.pot(56, 0.58, 0.45, 2.3, k.BROWN, moss=0.68, ground="river", mossy="green", mound=0.3)
    tray = replace(tray, ground=replace(tray.ground, litter=("field", 0.12, YELLOW, 40)))
    seed_tray = k.box(52, 0.62, 0.5, k.GREY, ground="clay")

    def leaves(palette: tuple[tuple[float, float, float], ...]) -> Foliage:
        return k.leaf("field", 0.135, palette, 3, 2)

    def at(left: bool, name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage) -> Shot:
        return Shot(
            (LEFT if left else RIGHT) + name,
            trees(left, int(name[:4])),
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=1220 if left else 1230,
        )

    d = Look(seed=360)
    return [
        at(
            True,
            "2024-10_front_1.jpg",
            tray,
            k.scene("studio", 0, 0.82),
            d,
            k.taken("2024-10-22T09:40:17"),
            leaves(YELLOW),
        ),
        at(
            False,
            "2024-10_front_1.jpg",
            tray,
            k.scene("studio", 0, 0.82),
            replace(d, seed=361),
            k.taken("2024-10-22T10:01:53"),
            leaves(YELLOW),
        ),
        at(
            True,
            "2012_front_1.jpg",
            seed_tray,
            k.scene("yard", 4, 0.88, 9, lens=40),
            Look("phone", seed=362),
            k.taken("2012-05-19T13:22:08", "phone", sea=(61.2504, -9.4011)),
            leaves(c.FRESH),
        ),
        at(
            False,
            "2012_front_1.jpg",
            seed_tray,
            k.scene("yard", -4, 0.88, 9, lens=40),
            Look("phone", seed=363),
            k.taken("2012-05-19T13:24:41", "phone", sea=(61.2504, -9.4013)),
            leaves(c.FRESH),
        ),
    ]
