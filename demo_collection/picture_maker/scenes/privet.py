"""The Rope Works Privet: a hedge stump, hollow in the middle."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import Stage
from ..working import Work
from . import common as c
from . import kit as k

FOLDER = "trees/S1987.4-rope-works-privet/photos/"
BARK = Bark(
    ((0.050, 0.040, 0.032), (0.115, 0.095, 0.078), (0.19, 0.165, 0.135), (0.28, 0.25, 0.21)),
    scale=10,
    stretch=0.3,
    strength=0.8,
    relief=0.045,
    muscle=0.28,
    deadwood=0.80,
    bleach=0.62,
)
# bearing about the hollow, height of the living column, girth, lean outward
COLUMNS = (
    (2.85, 1.35, 0.40, 0.42),
    (0.25, 1.10, 0.42, 0.40),
    (1.6, 1.25, 0.34, 0.25),
    (-1.95, 0.66, 0.24, 0.12),
    (-1.0, 0.88, 0.24, 0.16),
    (-2.65, 0.46, 0.20, 0.30),
    (-0.35, 0.50, 0.22, 0.34),
)


def trees(year: int) -> list[Tree]:
    """Columns of living wood round a hollow, two of them dead and broken, with what grew on them."""
    out = []
    for i, (az, high, girth, lean) in enumerate(COLUMNS):
        x, y = 0.62 * math.cos(az), 0.48 * math.sin(az)
        living = i < 3
        reach = 0.9 if year == 2001 else 0.75
        line: list[Point] = [(0, 0, 0)]
        steps = 5
        for j in range(1, steps + 1):
            z = high * j / steps
            line.append((lean * math.cos(az) * z + 0.05 * math.sin(3 * j + i), lean * math.sin(az) * z, z))
        if living:
            line += [
                (line[-1][0] * 1.15 + 0.05, line[-1][1] * 1.1, high + reach * 0.5),
                (line[-1][0] * 1.05, line[-1][1], high + reach),
            ]
        rows: list[Branch] = []
        if living and year == 1989:
            rows = [
                Branch(
                    q,
                    high * (0.78 + 0.05 * (q % 4)),
                    az + 2.4 * q,
                    1.15 + 0.3 * math.sin(2.2 * q),
                    1.15,
                    0.22,
                    3,
                    0.6,
                    0.045,
                )
                for q in range(7)
            ]
        elif living and year == 2001:
            rows = k.limbs(6, (high * 0.75, high + 0.75), (1.25, 0.7), 874 + i, (0.2, 0.45), 0.5, az, spread=0.4)
        elif living and year > 2001:
            rows = k.limbs(8, (high * 0.72, high + 0.65), (1.55, 0.8), 874 + i, (0.02, 0.3), 0.52, az, spread=0.45)
        crown = Crown(0.75 if year > 2001 else 0.5, high + 0.1, 4, 0.7) if living and year > 2000 else None
        rows = [replace(b, name="first branch" if i == 0 and b.key == rows[0].key else "") for b in rows]
        out.append(
            Tree(
                line,
                girth,
                rows,
                crown,
                at=(x, y),
                seed=874 + i,
                taper=0.42 if living else 1.0,
                flare=0.40,
                roots=4,
                root_length=0.9,
                root_limit=1.2,
                kink=0.7 if living else 1.3,
                fill={1989: 0.55, 2001: 0.75}.get(year, 1.0),
                wired=0.2 if year == 1989 else 1.0,
                dead_above=99.0 if living else 0.25,
                topped=99.0 if year > 2000 else high * 1.06,
                name=f"column {i + 1}",
                step=0.085,
                attract=400,
            )
        )
    return out


def shots() -> list[Shot]:
    """Five photographs, 1987 to 2025."""
    crate = k.box(58, 0.72, 1.15)
    tub = Pot(2.5, 2.2, 1.2, 2.3, *k.BROWN, 0.6, 0.1, 0.86, moss=0.35)
    grey = k.pot(50, 0.72, 1.02, 7, k.GREY, moss=0.6, ground="lava", mossy="green")
    green = k.leaf("oval", 0.095, c.GREEN, 3, 2)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, foliage: Foliage | None, **more: Any) -> Shot:
        plain = Shot(
            FOLDER + name,
            trees(int(name[:4])),
            BARK,
            pot,
            stage,
            look,
            when,
            foliage,
            seed=874,
            marks={"first bend": 0.5, "second bend": 0.9},
        )
        return replace(plain, **more)

    d = Look(seed=310)
    return [
        at("2025-06_front_1.jpg", grey, k.scene("studio", 0, 0.76), d, k.taken("2025-06-10T09:36:19"), green),
        at(
            "1989_front_1.jpg",
            crate,
            k.scene("plaster", 2, 0.72, 5),
            *k.print_look("slide", 311),
            k.leaf("oval", 0.12, c.FRESH, 2, 2),
        ),
        at(
            "1987_front_1.jpg",
            crate,
            k.scene("yard", -2, 0.66, 7),
            *k.print_look("print90", 312),
            None,
            work=Work(sawn=True, cuttings=20),
        ),
        at(
            "2025-06_back_1.jpg",
            grey,
            k.scene("studio", 180, 0.76),
            replace(d, seed=313),
            k.taken("2025-06-10T09:49:02"),
            green,
        ),
        at("2001_front_1.jpg", tub, k.scene("sound", -1, 0.74, 5), *k.print_look("print90", 314), green),
    ]
