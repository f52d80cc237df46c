"""Two Fronts: a driftwood juniper that was turned round."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..shot import Shot
from ..skeleton import Branch, Crown, Point, Tree
from ..stage import Stage
from ..working import Work
from . import common as c
from . import kit as k

FOLDER = "trees/S1989.3-two-fronts/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (-0.10, 0.05, 0.30),
    (-0.42, 0.10, 0.80),
    (-0.30, -0.12, 1.40),
    (0.22, -0.10, 1.92),
    (0.74, 0.06, 2.34),
    (0.92, 0.14, 2.86),
)
BARK = replace(c.JUNIPER_BARK, deadwood=0.22, turn=2.6, twist=0.85, muscle=0.20, relief=0.055)
LIVE = replace(BARK, deadwood=0.74)
TURN = 170.0


def limbs(year: int) -> list[Branch]:
    """Pads; the dead limbs stand bare in every year."""
    size = {1988: 0.85, 1989: 0.9, 1991: 0.9, 2013: 1.16, 2014: 0.86}.get(year, 1.0)
    rows = [
        (1, 1.55, c.RIGHT - 0.15, 1.75, 0.02, "first branch"),
        (2, 1.95, c.LEFT + 0.15, 1.45, 0.0, "second branch"),
        (3, 1.80, c.BACK + 0.3, 1.25, 0.12, ""),
        (4, 2.25, c.FRONT + 0.6, 0.95, 0.12, ""),
        (5, 2.60, c.RIGHT + 0.15, 1.40, 0.04, "third branch"),
        (6, 2.80, c.LEFT - 0.25, 1.20, 0.10, ""),
        (7, 2.95, c.BACK - 0.5, 1.05, 0.2, ""),
        (8, 3.15, c.RIGHT - 0.3, 1.00, 0.18, ""),
        (9, 3.25, c.LEFT + 0.3, 0.95, 0.22, ""),
    ]
    wild = 0.7 if year in (1988, 1989) else 0.0
    out = [Branch(key, s, az, n * size, rise + wild, 0.44, 6, 1.1, 0.0, name) for key, s, az, n, rise, name in rows]
    dead = [
        (21, 0.70, c.LEFT - 0.45, 0.95, 0.5),
        (22, 1.25, c.LEFT + 0.4, 1.05, 0.35),
        (23, 0.98, c.BACK - 0.9, 1.0, 0.6),
        (24, 2.1, c.RIGHT - 0.5, 0.8, 0.9),
    ]
    return out + [Branch(key, s, az, n, rise, thick=0.10, dead=True) for key, s, az, n, rise in dead]


def tree(year: int) -> Tree:
    """The juniper in one year; from 2014 it stands turned."""
    turned = year >= 2014
    top: tuple[Point, ...] = (
        ((0.72, 0.12, 3.30), (0.34, 0.10, 3.52)) if turned else ((0.98, 0.10, 3.35), (1.06, 0.06, 3.62))
    )
    if turned:
        top = ((0.98, 0.10, 3.22), (1.20, 0.10, 3.40))
    crown = {1988: Crown(0.95, 2.7, 6, 1.1), 1989: Crown(0.75, 2.9, 5, 0.9)}.get(year, Crown(0.66, 3.0, 4, 0.7))
    return Tree(
        (*LINE, *top),
        {1988: 0.62, 1989: 0.62, 1991: 0.63, 2013: 0.68}.get(year, 0.70),
        limbs(year),
        crown,
        at=(0.15, 0.0),
        seed=189,
        fill={1988: 0.95, 1989: 0.55, 1991: 0.72, 2013: 1.05, 2014: 0.5}.get(year, 0.95),
        wired=0.35 if year == 1988 else 1.0,
        taper=0.8,
        flare=0.40,
        roots=8,
        root_length=0.7,
        root_limit=1.2,
        turn=TURN if turned else 0.0,
        kink=0.22,
    )


def shots() -> list[Shot]:
    """Ten photographs, 1988 to 2025."""
    tub = Pot(2.3, 2.0, 1.3, 2.4, *k.CLAY, 0.85, 0.0, 0.84, feet=False, moss=0.2)
    rectangle = k.pot(48, 0.74, 0.95, 7, k.BROWN, moss=0.45, ground="lava", mossy="olive")
    oval = k.pot(50, 0.76, 0.85, 2.4, k.DARK, moss=0.6, ground="lava", mossy="dark", belly=0.02)
    full = k.leaf("scale", 0.16, c.JUNIPER, 3, 2)

    def at(name: str, pot: Pot, stage: Stage, look: Look, when: Taken, **more: Any) -> Shot:
        year = int(name[:4])
        plain = Shot(
            FOLDER + name,
            (tree(year),),
            BARK if year > 1990 else LIVE,
            pot,
            stage,
            look,
            when,
            full,
            seed=189,
            marks={"first bend": 0.95, "second bend": 1.85},
        )
        return replace(plain, **more)

    d = Look(seed=190)
    return [
        at("2025-06_front_1.jpg", oval, k.scene("studio_warm", 0, 0.80), d, k.taken("2025-06-18T09:40:22")),
        at(
            "2013_back_1.jpg",
            rectangle,
            k.scene("limewash", 180, 0.80, 4),
            replace(d, seed=191),
            k.taken("2013-09-14T11:20:04", "body"),
        ),
        at("1988_front_1.jpg", tub, k.scene("terrace_low", 2, 0.82, 5), *k.print_look("slide", 192)),
        at("1991_front_1.jpg", rectangle, k.scene("hall", -2, 0.76), *k.print_look("slide", 193)),
        at(
            "1989-10_front_1.jpg",
            rectangle,
            k.scene("stage", -3, 0.72, 5),
            *k.print_look("slide", 194),
            work=Work(wired=1.9, guys=2, wire_roll=True, cuttings=18),
        ),
        at(
            "2014-09_front_1.jpg",
            rectangle,
            k.scene("yard_turn", 2, 0.72, 6),
            replace(d, seed=195),
            k.taken("2014-09-20T15:12:37", "body"),
            work=Work(wire_all=True, wire_roll=True, cuttings=12),
        ),
        at(
            "2013_front_1.jpg",
            rectangle,
            k.scene("limewash", 0, 0.80, 4),
            replace(d, seed=196),
            k.taken("2013-09-14T11:12:50", "body"),
        ),
        at(
            "2025-06_back_1.jpg",
            oval,
            k.scene("studio_warm", 180, 0.80),
            replace(d, seed=197),
            k.taken("2025-06-18T09:52:10"),
        ),
        at(
            "2025-06_detail_1.jpg",
            oval,
            replace(
                k.scene("studio_warm", -6, 0.0, 6),
                camera=replace(k.scene("studio", -6, 0.0, 6).camera, near=2.6, stop=0.7),
            ),
            replace(d, seed=198),
            k.taken("2025-06-18T10:03:44"),
            focus="second bend",
            nudge=(0.1, 0.0, -0.3),
            voxel=0.016,
        ),
    ]
