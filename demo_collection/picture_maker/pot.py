"""Pots, training boxes and trays, and the soil, grit and moss in them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from . import materials
from .geometry import Vec, dice, fbm, mix, superellipse
from .ground import Ground, fill
from .materials import Colour
from .wood import mesh, sticks

Height = Callable[[float, float], float]


@dataclass(frozen=True)
class Pot:
    """A container. `a`, `b`: half width and depth at the rim; `power` 2 is oval, 6 and more rectangular."""

    a: float
    b: float
    h: float
    power: float = 2.3
    dark: Colour = (0.07, 0.035, 0.022)
    light: Colour = (0.13, 0.07, 0.045)
    rough: float = 0.6
    coat: float = 0.0
    taper: float = 0.86
    rim: float = 0.10
    feet: bool = True
    belly: float = 0.0
    mound: float = 0.22
    moss: float = 0.6
    grit: float = 1.0
    kind: str = "fired"
    dug: bool = False
    quarter: tuple[float, float] = (1.0, -1.0)
    """Which quarter of the roots has been opened when `dug`: signs of x and y, the viewer being at negative y."""

    hole: tuple[float, float, float] | None = None
    """Where a tree has been lifted out: place and radius."""

    ground: Ground = field(default_factory=Ground)


@dataclass(frozen=True)
class Filled:
    """A pot in its place: height of rim and soil, points round the lip, and the soil's surface."""

    rim: float
    soil: float
    lip: Vec
    surface: Height


def box(name: str, centre: Colour, size: Colour, material: Any, bevel: float = 0.03) -> Any:
    """A box with softened edges."""
    x, y, z = (s / 2 for s in size)
    v = np.array([(i * x, j * y, k * z) for i in (-1, 1) for j in (-1, 1) for k in (-1, 1)])
    f = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    ob = mesh(name, v, [tuple(q) for q in f], material, False)
    ob.location = centre
    soft = ob.modifiers.new("soft", "BEVEL")
    soft.width, soft.segments = bevel, 2
    return ob


FOOT = 0.12
"""How high the feet lift a fired body."""
LIP_HEIGHT = 0.985
"""Of the lip's upper outer edge, as a share of the body's height."""


def body_height(p: Pot, z0: float, f: float) -> float:
    """The height of a share `f` of a fired body that stands at `z0`."""
    return z0 + (FOOT if p.feet else 0.0) + f * p.h


def foot_share(p: Pot) -> float:
    """The width of a fired body's lowest edge, as a share of the lip's."""
    return p.taper * 0.985


def wall_share(p: Pot, f: float) -> float:
    """The width of a fired body at a share `f` of its height, up to 0.8, as a share of the lip's."""
    return mix(p.taper, 0.965, f / 0.8) + p.belly * math.sin(math.pi * f / 0.8)


def lathe(p: Pot, z0: float, material: Any) -> tuple[float, Vec]:
    """The fired body: foot, wall, lip and the inside of the lip. Returns rim height and lip points."""
    count = 160

    def up(f: float) -> float:
        return body_height(p, z0, f)

    wall = [(wall_share(p, f), up(f)) for f in np.linspace(0, 0.8, 10)]
    lip = [
        (0.965, up(0.80)),
        (1.0, up(0.825)),
        (1.003, up(0.90)),
        (1.0, up(LIP_HEIGHT)),
        (0.985, up(1.0)),
        (0.945, up(0.995)),
    ]
    rings = [(0.0, up(0)), (p.taper * 0.9, up(0)), (foot_share(p), up(0.008)), *wall[1:], *lip]
    rings += [(1 - p.rim, up(0.93)), (1 - p.rim, up(0.6))]
    rows, small = [], min(p.a, p.b)
    for share, z in rings:
        a, b = (p.a - (1 - share) * small, p.b - (1 - share) * small) if share > 0.5 else (0.001, 0.001)
        rows.append(np.c_[superellipse(a, b, p.power, count), np.full(count, z)])
    faces = [
        (i * count + j, i * count + (j + 1) % count, (i + 1) * count + (j + 1) % count, (i + 1) * count + j)
        for i in range(len(rings) - 1)
        for j in range(count)
    ]
    mesh("pot", np.vstack(rows), [tuple(f) for f in faces], material)
    if p.feet:
        for sx in (-1, 1):
            for sy in (-1, 1):
                shape = superellipse(0.24 * min(1.3, p.a * 0.5), 0.16, 5, 32)
                c = np.array([sx * p.a * 0.62 * p.taper, sy * p.b * 0.60 * p.taper])
                steps = ((0.8, z0), (1.0, z0 + FOOT * 0.5), (1.15, z0 + FOOT + 0.02))
                v = np.vstack([np.c_[shape * s + c, np.full(32, z)] for s, z in steps])
                mesh(
                    "foot",
                    v,
                    [
                        (i * 32 + j, i * 32 + (j + 1) % 32, (i + 1) * 32 + (j + 1) % 32, (i + 1) * 32 + j)
                        for i in range(2)
                        for j in range(32)
                    ],
                    material,
                )
    return up(LIP_HEIGHT), rows[len(rings) - 6]


def crate(p: Pot, z0: float) -> tuple[float, Vec]:
    """A box of boards, as a fish box or a training box is made."""
    wood = materials.boards("crate", p.dark, p.light, 0.8)
    thick, rows = 0.14, 2
    high = p.h / rows
    for k in range(rows):
        z = z0 + 0.12 + high * (k + 0.5)
        for side in (-1, 1):
            box("board", (0.01 * k, side * (p.b - thick / 2), z), (2 * p.a, thick, high - 0.025), wood)
            box("board", (side * (p.a - thick / 2), 0, z), (thick, 2 * p.b - 2 * thick, high - 0.025), wood)
    box("bottom", (0, 0, z0 + 0.16), (2 * p.a - 0.1, 2 * p.b - 0.1, 0.1), wood)
    for side in (-1, 1):
        box("bearer", (side * p.a * 0.7, 0, z0 + 0.06), (0.22, 2 * p.b, 0.12), wood)
        box("cleat", (side * (p.a - 0.3), -p.b - 0.03, z0 + 0.12 + p.h / 2), (0.18, 0.07, p.h * 0.94), wood)
    rim = z0 + 0.12 + p.h - 0.0125
    edge = superellipse(p.a, p.b, 60, 160)
    return rim, np.c_[edge, np.full(160, rim)]


def opened(p: Pot, x: float, y: float) -> float:
    """How far the mass of roots reaches in this direction, as a share: less where a quarter is opened."""
    if not p.dug:
        return 1.0
    u, v = x * p.quarter[0], y * p.quarter[1]
    inside = min(u, v) / (math.hypot(x, y) + 1e-9)
    return mix(1.0, 0.42, min(1.0, max(0.0, inside * 9)))


def root_ball(p: Pot, z0: float, seed: int) -> Filled:
    """The tree out of its pot: a mat of soil and roots in the shape of the pot it came from."""
    count, rows = 120, 14
    points = []
    for k in range(rows + 1):
        f = k / rows
        ring = superellipse(p.a * mix(p.taper, 1, f), p.b * mix(p.taper, 1, f), p.power, count)
        rough = 1 + 0.05 * fbm(np.c_[ring * 2.2, np.full(count, f * 4)], seed + 2, 4)
        rough *= np.array([opened(p, x, y) for x, y in ring])
        points.append(np.c_[ring * rough[:, None], np.full(count, z0 + 0.02 + p.h * f)])
    faces = [
        (i * count + j, i * count + (j + 1) % count, (i + 1) * count + (j + 1) % count, (i + 1) * count + j)
        for i in range(rows)
        for j in range(count)
    ]
    mesh("ball", np.vstack(points), [tuple(f) for f in faces], materials.soil())
    rng = dice(seed, 66)
    a, b = [], []
    for _ in range(420):
        th, h = rng.uniform(0, 2 * math.pi), rng.uniform(0.05, 0.98)
        turn, fall = rng.normal() * 0.05, rng.normal() * 0.03 - 0.01
        last = None
        for _ in range(26):
            th, h = th + turn * 0.5, min(0.99, max(0.02, h + fall))
            turn, fall = turn + rng.normal() * 0.03, fall + rng.normal() * 0.02
            narrow = mix(p.taper, 1, h) * 1.012
            edge = 1 / (abs(math.cos(th) / p.a) ** p.power + abs(math.sin(th) / p.b) ** p.power) ** (1 / p.power)
            edge *= opened(p, math.cos(th), math.sin(th))
            here = np.array([math.cos(th) * edge * narrow, math.sin(th) * edge * narrow, z0 + 0.02 + p.h * h])
            if last is not None:
                a.append(last)
                b.append(here)
            last = here
    thick = rng.uniform(0.006, 0.016, size=(420, 1)).repeat(25, 1).ravel()
    sticks("roots", np.array(a), np.array(b), thick, thick, materials.plain("root", (0.36, 0.24, 0.13), 0.9), thick * 0)
    z = z0 + p.h

    def height(x: float, y: float) -> float:
        rr = abs(x / p.a) ** p.power + abs(y / p.b) ** p.power
        level = z - 0.02 + p.mound * max(0.0, 1 - rr) ** 0.8
        if opened(p, x, y) < 0.9 and rr ** (1 / p.power) > 0.36:
            level -= p.h * min(1.0, (rr ** (1 / p.power) - 0.36) * 9)
        return float(level)

    fill(p.ground, p.moss, p.grit, z, -0.1 if p.dug else None, (p.a * 0.99, p.b * 0.99, p.power), height, seed)
    edge_ = superellipse(p.a, p.b, p.power, 160)
    return Filled(z, z, np.c_[edge_, np.full(160, z)], height)


def build_pot(p: Pot, z0: float, seed: int) -> Filled:
    """Set the container at height `z0` and fill it."""
    if p.kind == "ball":
        return root_ball(p, z0, seed)
    if p.kind == "crate":
        rim, lip = crate(p, z0)
        inset, power = 0.14, 60.0
    else:
        clay = (
            materials.stone("pot", p.dark, p.light, 1.3, vein=2.5)
            if p.kind == "marble"
            else materials.glaze(p.dark, p.light, p.rough, p.coat)
        )
        rim, lip = lathe(p, z0, clay)
        inset, power = min(p.a, p.b) * p.rim, p.power
    a, b = p.a - inset, p.b - inset
    z = rim - 0.085 * p.h

    def height(x: float, y: float) -> float:
        rr = abs(x / a) ** power + abs(y / b) ** power
        level = z - 0.02 + p.mound * max(0.0, 1 - rr) ** 0.8
        u, v = x * p.quarter[0], y * p.quarter[1]
        if p.dug and u > 0.12 and v > 0.10:
            edge = min(1.0, (u - 0.12) * 3.0, (v - 0.10) * 3.0)
            level -= edge * min(0.62 * p.h, 0.5)
        if p.hole:
            away = math.hypot(x - p.hole[0], y - p.hole[1]) / p.hole[2]
            level -= 0.9 * p.h * min(1.0, max(0.0, 1.15 - away) * 2.5)
        return float(level)

    if p.kind != "marble":
        over = -0.1 if p.dug or p.hole else None
        fill(p.ground, p.moss, p.grit, z, over, (a, b, power), height, seed)
    return Filled(rim, z, lip, height)
