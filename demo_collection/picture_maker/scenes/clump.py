"""One from Thirty: beech seedlings grown together."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..geometry import dice
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import Stage
from ..working import Work
from . import common as c
from . import kit as k

FOLDER = "trees/S1995.2-one-from-thirty/photos/"
BARK = replace(
    c.SMOOTH_BARK,
    colours=((0.16, 0.155, 0.145), (0.27, 0.265, 0.25), (0.37, 0.365, 0.345), (0.47, 0.465, 0.445)),
    twist=0.05,
)
# bearing and distance from the middle, height, girth
STEMS = (
    (0.0, 0.05, 4.6, 0.30),
    (2.9, 0.36, 4.1, 0.24),
    (0.2, 0.40, 3.9, 0.23),
    (1.6, 0.28, 4.2, 0.22),
    (3.6, 0.55, 3.3, 0.18),
    (-0.4, 0.58, 3.1, 0.17),
    (-1.3, 0.30, 2.9, 0.16),
    (2.4, 0.60, 3.0, 0.16),
    (0.75, 0.55, 2.8, 0.15),
)


def trees(year: int) -> list[Tree]:
    """Nine stems that lean away from each other."""
    size = {1974: 0.62, 1996: 0.88}.get(year, 1.0)
    thick = {1974: 0.22, 1996: 0.68, 2018: 0.95, 2019: 0.95}.get(year, 1.0)
    out = []
    for i, (az, far, high, girth) in enumerate(STEMS):
        rng = dice(952, i)
        h = high * size
        dx, dy = math.cos(az), math.sin(az)
        close = 0.25 if year == 1974 else 1.0
        line: list[Point] = [(0, 0, 0)]
        z = 0.5
        while z < h - 0.3:
            lean = far * 0.42 * close
            bow = 0.14 * math.sin(1.1 * z + i) * min(1.0, far * 2) * close
            line.append(
                (
                    dx * (lean * z * 0.8 + bow) + float(rng.normal()) * 0.03,
                    dy * (lean * z * 0.6 + bow) + float(rng.normal()) * 0.03,
                    z,
                )
            )
            z += 0.6
        line.append((dx * far * 0.40 * h * close, dy * far * 0.3 * h * close, h))
        plan = k.limbs(
            8,
            (0.45 * high, 0.95 * high),
            (0.28 * high, 0.14 * high),
            952 + i,
            (0.2, 0.5),
            0.55,
            az,
            spread=0.6,
            lobes=4,
        )
        rows = [replace(b, length=b.length * size * (0.5 if year == 1974 else 1.0)) for b in plan if b.s < h - 0.25]
        if year == 1974:
            rows = rows[1::2]
        out.append(
            Tree(
                line,
                girth * thick,
                rows,
                Crown(0.09 * high * size, h * 0.84, 4, 0.9),
                at=(dx * far * (0.3 if year == 1974 else 0.9), dy * far * (0.3 if year == 1974 else 0.75)),
                seed=960 + i,
                fill={1974: 0.4, 1996: 0.75, 2018: 0.7, 2019: 0.75}.get(year, 0.95),
                flare=0.30 if year == 1974 else 0.85,
                roots=0 if year == 1974 else 5,
                root_length=1.5,
                root_limit=1.0,
                kink=0.25,
                wired=0.4 if year == 1974 else 1.0,
                step=0.085,
                attract=380,
                name=f"stem {i + 1}",
            )
        )
    return out


def shots() -> list[Shot]:
    """Six photographs, 1974 to 2026."""
    pan = k.pot(30, 1.0, 0.5, 2, k.CLAY, moss=0.25)
    brown = k.pot(46, 0.74, 0.6, 2.3, k.BROWN, moss=0.5)
    white = k.pot(52, 0.74, 0.55, 2.3, k.WHITE, 0.4, moss=0.66, ground="clay", mossy="green")
    scorched = (0.22, 0.115, 0.045)

    def leaves(palette: tuple[tuple[float, float, float], ...], share: float = 1.0, **more: Any) -> Foliage:
        return k.leaf("oval", 0.135, palette, 3, 2, share, **more)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        return replace(
            Shot(
                FOLDER + name,
                trees(int(name[:4])),
                BARK,
                pot,
                stage,
                look,
                when,
                foliage,
                seed=952,
                marks={"first bend": 1.0, "second bend": 2.0},
            ),
            **more,
        )

    d = Look(seed=320)
    buff = ((0.42, 0.27, 0.13), (0.50, 0.34, 0.17), (0.34, 0.21, 0.10))
    return [
        at(
            "2025-05_front_1.jpg",
            white,
            k.scene("studio_blue", 0, 0.82),
            d,
            k.taken("2025-05-13T09:54:30"),
            leaves(c.FRESH),
        ),
        at("1996_front_1.jpg", brown, k.scene("terrace", -2, 0.80, 4), *k.print_look("slide", 321), leaves(c.GREEN)),
        at(
            "2018-08_front_1.jpg",
            white,
            k.scene("limewash", 1, 0.80),
            replace(d, seed=322),
            k.taken("2018-08-04T12:31:44", "body"),
            leaves(c.GREEN, 0.9, edge=scorched, top_share=0.25),
        ),
        at(
            "1974_front_1.jpg",
            pan,
            k.scene("plaster", 2, 0.74, 5),
            *k.print_look("faded", 323),
            leaves(c.FRESH, 0.9),
            work=Work(tied=True),
        ),
        at(
            "2026-01_front_1.jpg",
            white,
            k.scene("winter", -1, 0.82),
            replace(d, seed=324),
            k.taken("2026-01-22T11:09:37"),
            leaves(buff, 0.06),
            twiglets=0,
        ),
        at(
            "2019-06_front_1.jpg",
            white,
            k.scene("terrace_low", 2, 0.80),
            replace(d, seed=325),
            k.taken("2019-06-29T10:48:13", "body"),
            leaves(c.FRESH, 0.95, top_share=0.45),
        ),
    ]
