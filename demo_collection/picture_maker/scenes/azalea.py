"""Salt and Rose: an azalea that grew out of its outline and was cut to its bones."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from ..bark import Bark
from ..flowers import Extra
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

FOLDER = "trees/S1997.3-salt-and-rose/photos/"
LINE: tuple[Point, ...] = (
    (0, 0, 0),
    (0.04, 0, 0.30),
    (0.20, 0.05, 0.85),
    (0.06, -0.06, 1.45),
    (-0.30, 0.0, 2.00),
    (-0.18, 0.04, 2.45),
)
BARK = Bark(
    ((0.075, 0.048, 0.035), (0.16, 0.11, 0.08), (0.25, 0.19, 0.145), (0.36, 0.29, 0.235)),
    scale=8,
    stretch=0.3,
    strength=0.5,
    relief=0.02,
    muscle=0.20,
    flakes=0.25,
    melt=7,
    flake_colour=(0.30, 0.20, 0.145),
)
LEAF = ((0.030, 0.060, 0.016), (0.052, 0.095, 0.022), (0.085, 0.135, 0.032), (0.13, 0.18, 0.045))
WHITE, ROSE = (0.80, 0.76, 0.76), (0.62, 0.075, 0.17)


def tree(year: int) -> Tree:
    """The azalea in one year."""
    rows = k.limbs(9, (0.95, 2.45), (1.75, 0.85), 197, (0.0, 0.25), 0.46, c.RIGHT)
    top: tuple[Point, ...] = ((0.02, 0.0, 2.85), (0.08, 0.0, 3.15))
    crown: Crown | None = Crown(0.72, 2.4, 4, 0.75)
    topped = 99.0
    fill = {1986: 0.9, 2010: 1.0, 2013: 0.55, 2017: 0.8}.get(year, 1.0)
    if year == 2010:
        rows = [replace(b, length=b.length * 1.35, rise=b.rise + 0.35, full=1.15) for b in rows]
        top, crown = ((0.05, 0.0, 3.2), (0.10, 0.0, 4.3)), Crown(1.75, 2.5, 8, 0.55)
    elif year == 1986:
        crown = Crown(1.25, 2.2, 6, 0.9)
        rows = [replace(b, full=1.2, rise=b.rise + 0.1) for b in rows]
    elif year == 2011:
        rows = [
            replace(b, length=0.98 - 0.14 * b.s + 0.06 * (b.key % 3), bare=True, sawn=True, thick=0.13) for b in rows
        ]
        topped, crown = 2.80, None
    elif year == 2013:
        rows = [Branch(b.key, b.s, b.az, 0.62, 0.5, 0.9, 5, 0.9, 0.12, b.name) for b in rows]
        topped, crown = 2.90, Crown(0.42, 2.4, 3, 0.9)
    elif year == 2017:
        rows = k.grown(rows, 0.82)
    return Tree(
        (*LINE, *top),
        0.58 if year > 1990 else 0.46,
        rows,
        crown,
        at=(-0.1, 0.0),
        seed=197,
        fill=fill,
        taper=0.85,
        flare=0.42,
        roots=11,
        root_length=1.0,
        root_limit=1.1,
        kink=0.5,
        step=0.085,
        attract=430,
        topped=topped,
    )


def leaves(bloom: float) -> Foliage:
    """Rosettes of small leaves with flowers over them."""
    flower = Extra("trumpet", 0.21, bloom, 0, (WHITE, WHITE), ROSE)
    return k.leaf("rosette", 0.15, LEAF, 2, 1, 1.0, extras=(flower,) if bloom else ())


def shots() -> list[Shot]:
    """Six photographs, 1986 to 2025."""
    steel = k.pot(45, 0.74, 0.85, 7, k.STEEL, 0.4, moss=0.55, ground="clay", mossy="bright")
    brown = k.pot(42, 0.76, 0.8, 7, k.BROWN, moss=0.35, ground="clay")

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
            seed=197,
            marks={"first bend": 0.90, "second bend": 2.05},
        )
        return replace(plain, **more)

    d = Look(seed=200)
    return [
        at("2025-05_front_1.jpg", steel, k.scene("studio", 0, 0.80), d, k.taken("2025-05-27T09:18:31"), leaves(0.24)),
        at(
            "2010-06_front_1.jpg",
            steel,
            k.scene("limewash", -2, 0.82),
            replace(d, seed=201),
            k.taken("2010-06-05T12:02:45", "body"),
            leaves(0.17),
        ),
        at(
            "2011-04_front_1.jpg",
            steel,
            k.scene("yard", 2, 0.70, 5),
            replace(d, seed=202),
            k.taken("2011-04-02T14:41:09", "body"),
            None,
            work=Work(sealed=True, cuttings=26),
        ),
        at(
            "2013_front_1.jpg",
            steel,
            k.scene("terrace_low", 1, 0.72),
            replace(d, seed=203),
            k.taken("2013-08-10T10:30:12", "pocket"),
            k.leaf("rosette", 0.14, c.FRESH, 2, 2),
        ),
        at(
            "2017-06_front_1.jpg",
            steel,
            k.scene("terrace", -1, 0.78),
            replace(d, seed=204),
            k.taken("2017-06-03T16:08:55", "body"),
            leaves(0.02),
        ),
        at("1986-05_front_1.jpg", brown, k.scene("plaster", 2, 0.78), *k.print_look("print90", 205), leaves(0.17)),
    ]
