"""After the Gale: a larch blown down, whose branches became a row of trees."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..geometry import dice
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Point, Tree
from ..stage import Stage
from . import kit as k

FOLDER = "trees/S1990.5-after-the-gale/photos/"
BARK = Bark(
    ((0.060, 0.040, 0.030), (0.135, 0.095, 0.072), (0.215, 0.165, 0.13), (0.31, 0.255, 0.21)),
    scale=11,
    stretch=0.35,
    strength=0.9,
    relief=0.035,
    muscle=0.12,
)
SPRING = ((0.095, 0.175, 0.030), (0.14, 0.235, 0.042), (0.20, 0.30, 0.062), (0.26, 0.36, 0.09))
SUMMER = ((0.045, 0.095, 0.026), (0.07, 0.13, 0.036), (0.11, 0.18, 0.05), (0.15, 0.22, 0.065))
GOLD = ((0.52, 0.33, 0.03), (0.66, 0.45, 0.045), (0.74, 0.54, 0.075), (0.60, 0.36, 0.03))
# along the trunk, toward the back, height, girth, since
PLACES = (
    (-2.55, 0.05, 2.5, 0.115, 1965),
    (-1.75, -0.06, 3.5, 0.16, 1965),
    (-0.95, 0.05, 4.4, 0.215, 1965),
    (0.05, -0.04, 3.4, 0.155, 1965),
    (0.85, 0.08, 3.0, 0.135, 1985),
    (1.60, -0.05, 2.5, 0.12, 1965),
    (2.35, 0.03, 1.9, 0.09, 1995),
)


def log_line(x: float) -> Point:
    """The lying trunk."""
    return (x, 0.10 * math.sin(1.3 * x) + 0.02, -0.02 + 0.06 * math.sin(2.1 * x + 0.6))


def trees(year: int) -> list[Tree]:
    """The lying trunk and the stems that stand on it."""
    thick = {1965: 0.55, 1978: 0.66, 1990: 0.82}.get(year, 1.0)
    xs = [-3.15 + 0.35 * i for i in range(18)]
    lying = Tree(
        [log_line(x) for x in xs],
        0.30 * (0.75 + 0.25 * thick),
        (),
        None,
        seed=905,
        taper=0.25,
        flare=0.0,
        roots=7,
        root_length=1.0,
        root_limit=1.0,
        kink=0.8,
        bare=True,
        at=(0.0, 0.0),
    )
    out = [lying]
    for i, (x, y, high, girth, since) in enumerate(PLACES):
        if since > year:
            continue
        size = {1965: 0.52, 1978: 0.72, 1990: 0.88}.get(year, 1.0)
        rng = dice(905, i)
        h = high * size
        lean = 0.05 * x + float(rng.normal()) * 0.02
        line: list[Point] = [(0, 0, 0)]
        z = 0.45
        while z < h - 0.35:
            line.append((lean * z + float(rng.normal()) * 0.035, float(rng.normal()) * 0.03, z))
            z += 0.55
        line.append((lean * h, 0.0, h))
        plan = k.limbs(
            10,
            (0.32 * high, 0.94 * high),
            (0.30 * high, 0.13 * high),
            905 + i,
            (0.0, 0.2),
            0.4,
            0.0 if i % 2 else math.pi,
            spread=0.5,
            lobes=4,
        )
        rows = [replace(b, length=max(0.3, b.length * size)) for b in plan if b.s < h - 0.3]
        out.append(
            Tree(
                line,
                girth * thick,
                rows,
                Crown(0.10 * high * size, h * 0.85, 3, 1.3),
                at=(x, log_line(x)[1] + y * 0.5),
                lift=0.05,
                seed=910 + i,
                fill={1965: 0.45, 1978: 0.7}.get(year, 0.95),
                roots=0,
                flare=0.5,
                taper=0.9,
                kink=0.35,
                step=0.085,
                attract=380,
                name=f"stem {i + 1}",
            )
        )
    return out


def shots() -> list[Shot]:
    """Six photographs, 1965 to 2026."""
    oval = k.pot(72, 0.50, 0.42, 2.3, k.GREY_GREEN, 0.3, moss=0.62, ground="river", mossy="green", mound=0.12)
    tray = k.box(72, 0.48, 0.55, moss=0.3, ground="loam")
    crate = k.box(76, 0.42, 0.9, moss=0.08, ground="loam")

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        year = int(name[:4])
        ts = trees(year)
        # the tallest stem comes first: its foot and tip are the marked ones
        order = [ts[3], ts[0], *ts[1:3], *ts[4:]]
        plain = Shot(
            FOLDER + name,
            order,
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=905,
            marks={"first bend": 0.8, "second bend": 1.9},
        )
        return replace(plain, **more)

    def larch(palette: tuple[tuple[float, float, float], ...], size: float = 0.105, share: float = 1.0) -> Foliage:
        return k.leaf("larch", size, palette, 2, 2, share)

    d = Look(seed=220)
    return [
        at(
            "2024-11_front_1.jpg",
            replace(oval, ground=replace(oval.ground, litter=("candle", 0.10, GOLD, 260))),
            k.scene("studio_warm", 0, 0.86),
            d,
            k.taken("2024-11-12T10:11:52"),
            larch(GOLD),
        ),
        at(
            "2025-05_front_1.jpg",
            oval,
            k.scene("studio", 1, 0.86),
            replace(d, seed=221),
            k.taken("2025-05-06T09:44:13"),
            larch(SPRING),
        ),
        at("1990_front_1.jpg", oval, k.scene("sound", -2, 0.84, 5), *k.print_look("slide", 222), larch(SUMMER)),
        at(
            "1965_front_1.jpg",
            crate,
            k.scene("yard", 2, 0.78, 7),
            *k.print_look("sepia", 223),
            larch(SUMMER, 0.09, 0.8),
        ),
        at(
            "2026-02_front_1.jpg",
            oval,
            k.scene("winter", -1, 0.86),
            replace(d, seed=224),
            k.taken("2026-02-17T11:26:40"),
            None,
            twiglets=1,
            twiglet_length=0.12,
        ),
        at("1978_front_1.jpg", tray, k.scene("plaster", 2, 0.80, 6), *k.print_look("faded", 225), larch(SUMMER)),
    ]
