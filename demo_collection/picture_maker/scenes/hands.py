"""Eleven Hands: mountains of upright stone on a white tray."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..mountains import Mountains
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Crown, Tree
from ..stage import Stage
from . import common as c
from . import kit as k

FOLDER = "trees/S2011.2-eleven-hands/photos/"
ROCKS = Mountains(
    (
        (-2.15, 0.25, 0.95, 0.71, 4.75),
        (-2.95, 0.15, 0.67, 0.57, 3.30),
        (-1.35, 0.35, 0.71, 0.57, 2.95),
        (-3.45, -0.25, 0.59, 0.48, 1.75),
        (-2.45, -0.45, 0.67, 0.46, 1.95),
        (-1.55, -0.40, 0.61, 0.44, 1.25),
        (-0.85, 0.0, 0.55, 0.46, 0.85),
        (-4.05, 0.15, 0.43, 0.37, 0.80),
        (2.55, 0.35, 0.76, 0.60, 1.85),
        (3.20, 0.15, 0.61, 0.48, 1.15),
        (1.95, 0.10, 0.55, 0.44, 0.95),
        (3.75, 0.05, 0.39, 0.34, 0.50),
        (2.55, -0.30, 0.61, 0.37, 0.55),
        (0.75, -0.95, 0.41, 0.32, 0.42),
        (1.05, -1.0, 0.24, 0.21, 0.22),
    ),
    (
        (-2.6, -0.75, 1.15, 0.42, 0.20),
        (-1.2, -0.55, 0.75, 0.40, 0.18),
        (-3.9, -0.15, 0.5, 0.45, 0.18),
        (2.4, -0.35, 0.95, 0.42, 0.18),
        (3.4, -0.15, 0.6, 0.35, 0.14),
        (0.85, -0.95, 0.5, 0.3, 0.10),
    ),
    4,
)
# place, height of the foot above the bed, height of the tree
PLANTED = (
    (-2.95, -0.68, 0.12, 1.15, 0.06),
    (-1.65, -0.78, 0.12, 0.95, -0.08),
    (-1.02, -0.40, 0.20, 1.25, 0.18),
    (-3.75, -0.35, 0.15, 0.85, -0.22),
    (-2.35, -0.86, 0.10, 0.75, 0.0),
    (-2.62, -0.20, 1.75, 0.75, -0.15),
    (2.15, -0.50, 0.14, 0.80, -0.1),
    (2.95, -0.42, 0.12, 0.95, 0.2),
    (3.55, -0.22, 0.12, 0.6, 0.25),
    (-1.55, -0.12, 1.18, 0.62, 0.2),
)


def trees(year: int) -> list[Tree]:
    """Small box and heath, planted at the foot of the rocks and on ledges."""
    out = []
    size = 0.88 if year == 2020 else 1.0
    for i, (x, y, up, high, lean) in enumerate(PLANTED):
        h = high * size
        line = [
            (0.0, 0.0, 0.0),
            (0.3 * lean * h + 0.04, 0.0, 0.35 * h),
            (0.6 * lean * h - 0.03, 0.02, 0.7 * h),
            (lean * h, 0.0, h),
        ]
        rows = k.limbs(
            5, (0.45 * h, 0.9 * h), (0.42 * h, 0.22 * h), 540 + i, (0.0, 0.3), 0.5, math.pi if i % 2 else 0.0, lobes=4
        )
        out.append(
            Tree(
                line,
                0.035 + 0.03 * high,
                rows,
                Crown(0.24 * h, 0.75 * h, 3, 0.9),
                at=(x, y),
                lift=up,
                seed=540 + i,
                roots=4,
                root_length=0.5,
                root_limit=0.15,
                flare=0.5,
                kink=0.7,
                step=0.05,
                attract=760,
                name=f"tree {i + 1}",
            )
        )
    return out


def shots() -> list[Shot]:
    """Three photographs, 2011 to 2025."""
    tray = Pot(
        5.5,
        2.0,
        0.30,
        2.3,
        (0.50, 0.49, 0.47),
        (0.74, 0.73, 0.71),
        0.3,
        0.0,
        0.96,
        0.05,
        False,
        0,
        0.0,
        0.0,
        0.0,
        "marble",
    )
    tiny = k.leaf("sprig", 0.075, c.GREEN, 2, 2)

    def at(
        name: str,
        rocks: Mountains,
        ts: list[Tree],
        stage: Stage,
        look: Look,
        when: Taken,
        foliage: Foliage | None,
        **more: Any,
    ) -> Shot:
        return replace(
            Shot(FOLDER + name, ts, c.ELM_BARK, tray, stage, look, when, foliage, rocks=rocks, seed=112, voxel=0.015),
            **more,
        )

    bare = replace(ROCKS, spires=tuple(s for i, s in enumerate(ROCKS.spires) if i not in (3, 6, 9)), moss=())
    bush = Tree([(0, 0, 0), (0, 0, 0.1)], 0.001, (), None, at=(0.0, 0.6), lift=-0.4, roots=0, bare=True)
    d = Look(scale=1.08, shift=(0.0, 36.0), seed=240)
    return [
        at(
            "2025-06_front_1.jpg",
            ROCKS,
            trees(2025),
            k.scene("studio_blue", 0, 0.82, 6),
            d,
            k.taken("2025-06-24T09:33:47"),
            tiny,
        ),
        at(
            "2011-05_front_1.jpg",
            bare,
            [bush],
            k.scene("yard", -3, 0.86, 10),
            Look(seed=241),
            k.taken("2011-05-07T13:55:20", "pocket"),
            None,
        ),
        at(
            "2020_front_1.jpg",
            ROCKS,
            trees(2020),
            k.scene("terrace", 5, 0.86, 9, lens=40),
            Look("phone", seed=242),
            k.taken("2020-08-22T17:31:05", "phone"),
            tiny,
        ),
    ]
