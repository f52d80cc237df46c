"""The Lanterns: a planting of maples, and the Odd One that came out of it."""

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

FOLDER, ODD = "trees/S1988.2-the-lanterns/photos/", "trees/S2009.6-the-odd-one/photos/"
BARK = replace(
    c.SMOOTH_BARK, colours=((0.085, 0.078, 0.062), (0.16, 0.15, 0.12), (0.24, 0.23, 0.195), (0.34, 0.33, 0.29))
)
RED = ((0.46, 0.085, 0.012), (0.44, 0.030, 0.010), (0.33, 0.012, 0.008), (0.50, 0.16, 0.015))
# the leaning one: its lower line is the same in the planting and alone
LEANING: tuple[Point, ...] = (
    (0, 0, 0),
    (0.10, 0, 0.35),
    (0.52, 0.03, 1.05),
    (0.66, -0.04, 1.80),
    (1.06, 0.02, 2.50),
    (1.58, 0.0, 3.15),
    (1.66, 0.03, 3.85),
    (1.98, 0.0, 4.45),
    (2.22, 0, 4.95),
)
# name, place, height, girth, from, until
PLACES = (
    ("tall", -0.55, 0.05, 5.3, 0.27, 1980, 2100),
    ("m2", -1.5, 0.25, 4.5, 0.21, 1980, 2100),
    ("m3", -2.35, -0.15, 3.9, 0.18, 1980, 2100),
    ("m4", -3.2, 0.15, 3.0, 0.13, 1980, 2100),
    ("m5", 0.35, 0.35, 4.7, 0.21, 1980, 2100),
    ("m6", 0.95, -0.3, 3.8, 0.17, 1980, 2100),
    ("m7", 1.65, 0.2, 4.1, 0.18, 1980, 2100),
    ("m8", -1.05, -0.5, 3.2, 0.13, 1980, 2100),
    ("m9", 2.35, -0.1, 3.1, 0.13, 1980, 2100),
    ("m10", -3.65, -0.3, 2.3, 0.09, 1980, 2100),
    ("x1", -2.8, 0.5, 3.1, 0.11, 1980, 1994),
    ("x2", 0.55, -0.55, 2.9, 0.10, 1980, 1994),
    ("odd", 2.75, 0.0, 5.1, 0.16, 1980, 2009),
    ("new", 3.0, 0.1, 2.9, 0.085, 2020, 2100),
)


def member(i: int, year: int) -> Tree | None:
    """One trunk of the planting, if it stands there in that year."""
    name, x, y, high, girth, since, until = PLACES[i]
    if not since <= year < until:
        return None
    size = {1980: 0.70, 1993: 0.88, 1995: 0.89, 2008: 0.96, 2010: 0.96}.get(year, 1.0)
    thick = {1980: 0.5, 1993: 0.72, 1995: 0.74, 2008: 0.88, 2010: 0.89}.get(year, 1.0)
    if name == "new":
        size, thick = (0.85, 0.8) if year == 2022 else (1.0, 1.0)
    rng = dice(882, i)
    sway = rng.normal(size=(9, 2)) * 0.06
    h = high * size
    if name == "odd":
        line = [p for p in LEANING if p[2] < h]
        rows = k.limbs(6, (3.4, 5.1), (0.95, 0.6), 896, (0.0, 0.3), 0.5, c.RIGHT, spread=0.6, lobes=4)
        crown = Crown(0.45, min(4.2, 0.8 * h), 3, 0.8)
    else:
        lean = 0.06 * x
        line = [(0.0, 0.0, 0.0)]
        z = 0.6
        while z < h - 0.4:
            j = round(z / 0.6) % 9
            line.append((lean * z + sway[j][0], -0.04 * y * z + sway[j][1], z))
            z += 0.6
        line.append((lean * h, -0.04 * y * h, h))
        rows = k.limbs(
            8,
            (0.40 * high, 0.92 * high),
            (0.27 * high, 0.14 * high),
            882 + i,
            (0.15, 0.4),
            0.55,
            0.0 if x > 0 else math.pi,
            spread=0.5,
            lobes=4,
        )
        crown = Crown(0.10 * high, 0.82 * h, 4, 0.9)
    rows = [replace(b, length=b.length * size) for b in rows if b.s < h - 0.3]
    return Tree(
        line,
        girth * thick,
        rows,
        crown,
        at=(x, y),
        seed=880 + i,
        fill={1980: 0.6, 1993: 0.8}.get(year, 0.9),
        flare=0.45,
        wired=0.7 if year == 1980 else 1.0,
        roots=6,
        root_length=0.8,
        kink=0.4,
        name=name,
        step=0.085,
        attract=400,
    )


def odd_one(year: int) -> Tree:
    """The leaning one alone, set a little straighter."""
    rows = k.limbs(8, (3.4, 5.35), (1.0, 0.62), 896, (-0.05, 0.25), 0.5, c.RIGHT, spread=0.6)
    k_ = {2009: 0.8, 2016: 0.9}.get(year, 1.0)
    return Tree(
        LEANING,
        {2009: 0.15, 2016: 0.17}.get(year, 0.19),
        k.grown(rows, k_),
        Crown(0.52 * k_, 4.9, 4, 0.75),
        at=(-0.35, 0),
        seed=892,
        fill={2009: 0.6}.get(year, 0.9),
        flare=0.45,
        roots=8,
        root_length=0.9,
        root_limit=0.6,
        kink=0.4,
        step=0.085,
        attract=400,
        taper=0.75,
    )


def shots() -> list[Shot]:
    """The planting from 1980 to 2025, and three photographs of the Odd One."""
    board = Pot(4.3, 1.9, 0.22, 5, *k.BOARD, 0.9, 0.0, 0.97, 0.03, False, 0, 0.4, 0.45, 1.4)
    slate = k.pot(84, 0.46, 0.40, 2.5, k.SLATE, 0.5, moss=0.72, ground="river", mossy="green", mound=0.34, grit=1.4)
    round_ = k.pot(22, 1.0, 0.62, 2, k.DARK, moss=0.55, ground="clay", mossy="bright")
    box = k.box(26, 0.8, 0.8)

    def leaves(palette: tuple[tuple[float, float, float], ...], share: float = 1.0) -> Foliage:
        return k.leaf("palmate", 0.135, palette, 3, 2, share)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage) -> Shot:
        ts = [t for i in range(len(PLACES)) if (t := member(i, int(name[:4])))]
        return Shot(
            FOLDER + name,
            ts,
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=882,
            voxel=0.02,
            marks={"first bend": 1.2, "second bend": 2.4},
        )

    def alone(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        plain = Shot(
            ODD + name,
            (odd_one(int(name[:4])),),
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=892,
            width=960,
            height=1280,
            marks={"first bend": 1.15, "second bend": 2.7},
        )
        return replace(plain, **more)

    red = replace(slate, ground=replace(slate.ground, litter=("palmate", 0.13, RED, 90)))
    d, tall = Look(seed=250), Look(size=(960, 1280), seed=260)
    return [
        at(
            "2025-11_front_1.jpg",
            red,
            k.scene("studio_pale", 0, 0.86, 4.5),
            d,
            k.taken("2025-11-04T10:05:33"),
            leaves(RED),
        ),
        at(
            "2008-11_front_1.jpg",
            slate,
            k.scene("limewash", 1, 0.84, 5),
            replace(d, seed=251),
            k.taken("2008-11-08T13:14:26", "pocket"),
            leaves(RED, 0.9),
        ),
        at(
            "2010_front_1.jpg",
            slate,
            k.scene("limewash", -1, 0.84, 5),
            replace(d, seed=252),
            k.taken("2010-06-12T11:48:02", "body"),
            leaves(c.GREEN),
        ),
        at(
            "1980_front_1.jpg", board, k.scene("plaster", 2, 0.80, 6), *k.print_look("faded", 253), leaves(c.GREEN, 0.9)
        ),
        at(
            "1995_front_1.jpg", slate, k.scene("terrace", 1, 0.82, 6), *k.print_look("slide", 254), leaves(c.FRESH, 0.9)
        ),
        at(
            "1993_front_1.jpg",
            board,
            k.scene("hall", -2, 0.80, 5),
            *k.print_look("slide", 255, light=1.75),
            leaves(c.GREEN),
        ),
        at(
            "2022_front_1.jpg",
            slate,
            k.scene("sound", 2, 0.84, 5),
            replace(d, seed=256),
            k.taken("2022-06-18T10:22:59", "body"),
            leaves(c.GREEN),
        ),
        alone(
            "2025-11_front_1.jpg",
            round_,
            k.scene("studio_pale", 0, 0.82),
            tall,
            k.taken("2025-11-04T11:20:08"),
            leaves(RED),
        ),
        alone(
            "2009-03_front_1.jpg",
            box,
            k.scene("yard", 3, 0.80, 5),
            replace(tall, seed=261),
            k.taken("2009-03-14T14:33:51", "pocket"),
            None,
            twiglets=2,
            work=Work(guys=1, tied=True),
        ),
        alone(
            "2016_front_1.jpg",
            round_,
            k.scene("terrace", -2, 0.82),
            replace(tall, seed=262),
            k.taken("2016-06-25T15:02:17", "body"),
            leaves(c.GREEN),
        ),
    ]
