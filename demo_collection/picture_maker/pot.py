"""Pots, training boxes and trays, and the soil, grit and moss in them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from . import materials
from .geometry import Vec, dice, fbm, mix, superellipse, unit
from .leaves import tint
from .materials import Colour
from .wood import mesh

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


def lathe(p: Pot, z0: float, material: Any) -> tuple[float, Vec]:
    """The fired body: foot, wall, lip and the inside of the lip. Returns rim height and lip points."""
    count, foot = 160, 0.12 if p.feet else 0.0

    def up(f: float) -> float:
        return z0 + foot + f * p.h

    wall = [
        (mix(p.taper, 0.965, f / 0.8) + p.belly * math.sin(math.pi * f / 0.8), up(f))
        for f in np.linspace(0, 0.8, 10)
    ]
    lip = [
        (0.965, up(0.80)),
        (1.0, up(0.825)),
        (1.003, up(0.90)),
        (1.0, up(0.985)),
        (0.985, up(1.0)),
        (0.945, up(0.995)),
    ]
    rings = [(0.0, up(0)), (p.taper * 0.9, up(0)), (p.taper * 0.985, up(0.008)), *wall[1:], *lip]
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
                steps = ((0.8, z0), (1.0, z0 + foot * 0.5), (1.15, z0 + foot + 0.02))
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
    return up(0.985), rows[len(rings) - 6]


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


def fill(p: Pot, z: float, shape: tuple[float, float, float], height: Height, seed: int) -> None:
    """Soil up to the wall, moss where it has settled, loose grit and moss blades on top."""
    a, b, power = shape
    n = 150
    x, y = np.meshgrid(np.linspace(-a, a, n * 2), np.linspace(-b, b, n))
    rr = np.abs(x / a) ** power + np.abs(y / b) ** power
    flat = np.stack([x, y, x * 0], -1)
    inner = np.clip(1 - rr, 0, 1)
    zz = np.vectorize(height)(x, y) + 0.035 * fbm(flat * 2.6, seed + 3, 3) * np.clip(inner * 4, 0, 1)
    moss = np.clip((fbm(flat * 1.1, seed + 21, 3) + p.moss * 2 - 1) * 3 + 0.5, 0, 1)
    if p.dug:
        moss *= np.clip((z - 0.1 - zz) * -8, 0, 1)
    zz += moss * (0.05 + 0.018 * fbm(flat * 16, seed + 30, 3)) * np.clip(inner * 6, 0, 1)
    points = np.stack([x, y, zz], -1).reshape(-1, 3)
    ids = np.arange(x.size).reshape(x.shape)
    quads = np.stack([ids[:-1, :-1], ids[:-1, 1:], ids[1:, 1:], ids[1:, :-1]], -1).reshape(-1, 4)
    inside = (rr < 1.0).ravel()[quads].all(1)
    mesh("soil", points, quads[inside], materials.soil(), True, {"moss": ("FLOAT", moss.ravel())})
    scatter(points, moss.ravel(), rr.ravel(), p.grit, seed)


def scatter(points: Vec, moss: Vec, rr: Vec, grit: float, seed: int) -> None:
    """Grains on bare soil, blades on moss."""
    rng = dice(seed, 55)
    pick = rng.choice(len(points), size=int(5200 * grit), replace=True)
    pick = pick[(rr[pick] < 0.985) & (rng.uniform(size=len(pick)) > moss[pick] * 0.97)]
    eight = unit(np.array([(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)], float))
    eight_f = np.array(
        [(0, 2, 4), (2, 1, 4), (1, 3, 4), (3, 0, 4), (2, 0, 5), (1, 2, 5), (3, 1, 5), (0, 3, 5)]
    )
    if m := len(pick):
        c = points[pick] + np.c_[rng.normal(size=(m, 2)) * 0.012, np.full(m, 0.008)]
        grain = (
            eight[None] * rng.uniform(0.018, 0.042, size=(m, 1, 1)) * rng.uniform(0.6, 1.2, size=(m, 6, 1))
        )
        tones = np.array(
            [
                (0.10, 0.06, 0.035),
                (0.20, 0.12, 0.07),
                (0.30, 0.21, 0.13),
                (0.12, 0.11, 0.10),
                (0.05, 0.045, 0.04),
            ]
        )
        colour = tones[rng.integers(len(tones), size=m)] * rng.uniform(0.7, 1.2, size=(m, 1))
        faces = (np.arange(m)[:, None, None] * 6 + eight_f).reshape(-1, 3)
        mesh(
            "grit",
            (grain + c[:, None]).reshape(-1, 3),
            faces,
            materials.tinted("grit"),
            False,
            tint(colour, 6),
        )
    green = np.where((moss > 0.5) & (rr < 0.97))[0]
    if len(green):
        pick = rng.choice(green, size=9000)
        m = len(pick)
        c = points[pick] + np.c_[rng.normal(size=(m, 2)) * 0.01, np.zeros(m)]
        d = unit(np.c_[rng.normal(size=(m, 2)) * 0.5, np.ones(m)])
        across = unit(np.c_[rng.normal(size=(m, 2)), np.zeros(m)])
        blades = np.stack(
            [c - across * 0.009, c + across * 0.009, c + d * rng.uniform(0.025, 0.06, size=(m, 1))], 1
        )
        drift = np.clip(fbm(c * 1.7, seed + 77, 3)[:, None], -0.5, 1)
        colour = np.array([0.05, 0.075, 0.016]) + drift * np.array([0.030, 0.022, 0.004])
        colour = colour * rng.uniform(0.5, 1.6, size=(m, 1))
        mesh(
            "moss",
            blades.reshape(-1, 3),
            np.arange(m * 3).reshape(-1, 3),
            materials.tinted("moss"),
            False,
            tint(colour, 3),
        )


def build_pot(p: Pot, z0: float, seed: int) -> Filled:
    """Set the container at height `z0` and fill it."""
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
        if p.dug and x > 0.12 and y < -0.10:  # the quarter from three to six o'clock
            edge = min(1.0, (x - 0.12) * 3.0, (-0.10 - y) * 3.0)
            level -= edge * min(0.62 * p.h, 0.5)
        return float(level)

    if p.kind != "marble":
        fill(p, z, (a, b, power), height, seed)
    return Filled(rim, z, lip, height)
