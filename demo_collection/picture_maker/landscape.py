"""Stones, and the land and water of a tray landscape."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from . import materials
from .geometry import fbm, mix, superellipse, unit
from .ground import scatter
from .materials import Colour
from .pot import Filled, Pot
from .wood import mesh


@dataclass(frozen=True)
class Stone:
    """A standing stone under a tree: `radius` at its foot, `height` above the soil."""

    radius: float
    height: float
    at: tuple[float, float] = (0.0, 0.0)
    seed: int = 5
    dark: Colour = (0.05, 0.048, 0.045)
    light: Colour = (0.26, 0.25, 0.23)


def face(k: Stone) -> Callable[[float, float], float]:
    """The stone's radius at an angle and a height above the soil."""

    def at(az: float, z: float) -> float:
        f = min(1.15, max(-0.3, z / k.height))
        p = np.array([[math.cos(az) * 1.2, math.sin(az) * 1.2, z * 1.1]])
        rough = 1 + 0.30 * float(fbm(p + 11, k.seed, 2)[0]) + 0.07 * float(fbm(p * 5, k.seed + 3, 3)[0])
        shape = mix(1.0, 0.52, max(0.0, f)) * (1 - max(0.0, f - 0.9) * 2.2)
        return max(0.02, k.radius * shape * rough)

    return at


def build_stone(k: Stone, soil: float) -> None:
    """The stone itself, a little sunk in the soil."""
    radius = face(k)
    m, rows = 96, 46
    levels = [mix(-0.25, k.height, i / (rows - 1)) for i in range(rows)]
    points = [
        (k.at[0] + radius(az, z) * math.cos(az), k.at[1] + radius(az, z) * math.sin(az), soil + z)
        for z in levels
        for az in np.arange(m) * 2 * math.pi / m
    ]
    points.append((k.at[0], k.at[1], soil + k.height))
    faces: list[tuple[int, ...]] = [
        (i * m + j, i * m + (j + 1) % m, (i + 1) * m + (j + 1) % m, (i + 1) * m + j)
        for i in range(rows - 1)
        for j in range(m)
    ]
    faces += [((rows - 1) * m + j, (rows - 1) * m + (j + 1) % m, rows * m) for j in range(m)]
    mesh(
        "stone",
        np.array(points),
        faces,
        materials.stone("stone", k.dark, k.light, ring=soil + 0.62 * k.height),
    )


def boulder(at: tuple[float, float, float], size: tuple[float, float, float], seed: int, material: object) -> None:
    """One rough stone."""
    m, rows = 40, 26
    th, ph = np.meshgrid(np.arange(m) * 2 * math.pi / m, np.linspace(0.02, math.pi - 0.02, rows))
    d = np.stack([np.cos(th) * np.sin(ph), np.sin(th) * np.sin(ph), np.cos(ph)], -1)
    edged = np.sign(d) * np.abs(d) ** 0.75  # flatter faces, sharper shoulders
    lump = 1 + 0.34 * fbm(d * 1.5 + seed * 7.1, seed, 2) + 0.10 * fbm(d * 6 + seed, seed + 1, 3)
    points = (unit(edged) * lump[..., None] * np.array(size) + np.array(at)).reshape(-1, 3)
    faces: list[tuple[int, ...]] = [
        (i * m + j, (i + 1) * m + j, (i + 1) * m + (j + 1) % m, i * m + (j + 1) % m)
        for i in range(rows - 1)
        for j in range(m)
    ]
    mesh("boulder", points, faces, material)


@dataclass(frozen=True)
class Shore:
    """A landscape on a flat tray: where the land ends, and the stones that hold it."""

    edge: float = 0.1
    high: float = 0.42
    stones: Sequence[tuple[float, float, float, float, float]] = ()
    seed: int = 4


def build_shore(k: Shore, p: Pot, rim: float) -> Filled:
    """Land with moss on the right, still water on the left, stones between; returns the land as a surface."""
    a, b = p.a * 0.965, p.b * 0.93
    level = rim - 0.05

    def land(x: float, y: float) -> float:
        q = np.array([[x * 0.8, y * 0.8, 0.0]])
        bank = k.edge + 0.9 * float(fbm(q + 3, k.seed, 2)[0]) + 0.28 * math.sin(2.1 * y + 0.6)
        front = 0.66 * b + 0.35 * float(fbm(q * 1.6 + 9, k.seed, 2)[0])
        sides = (0.90 * a - x, front + y, 0.90 * b - y)  # a strip of water stays open in front
        return min(1.0, (x - bank) * 1.1, 1.5 * min(sides))

    def height(x: float, y: float) -> float:
        s = land(x, y)  # below the water line the shore runs on downward
        return level + k.high * math.copysign(abs(s) ** 0.6, s)

    n = 130
    x, y = np.meshgrid(np.linspace(-a, a, n * 2), np.linspace(-b, b, n))
    share = np.vectorize(land)(x, y)
    flat = np.stack([x, y, x * 0], -1)
    bare = np.clip((fbm(flat * 1.3, k.seed + 8, 3) + 0.55) * 3, 0, 1)
    z = np.vectorize(height)(x, y) + 0.03 * fbm(flat * 3, k.seed, 3) * np.clip(share * 5, 0, 1)
    moss = bare * np.clip(share * 9 - 0.4, 0, 1)
    z += moss * (0.04 + 0.018 * fbm(flat * 16, k.seed + 30, 3))
    points = np.stack([x, y, z], -1).reshape(-1, 3)
    ids = np.arange(x.size).reshape(x.shape)
    quads = np.stack([ids[:-1, :-1], ids[:-1, 1:], ids[1:, 1:], ids[1:, :-1]], -1).reshape(-1, 4)
    keep = (share > -0.12).ravel()[quads].all(1)
    mesh("land", points, quads[keep], materials.soil(), True, {"moss": ("FLOAT", moss.ravel())})
    scatter(
        points,
        np.where(share.ravel() > 0.02, moss.ravel(), 0.0),
        np.where(share.ravel() > 0.02, 0.5, 2.0),
        0.8,
        k.seed,
    )
    ring = superellipse(a, b, p.power, 120)
    mesh("water", np.c_[ring, np.full(120, level)], [tuple(range(120))], materials.water(), False)
    rough = materials.stone("boulder", (0.035, 0.036, 0.036), (0.22, 0.22, 0.21), 3.5, 1.0)
    for i, (sx, sy, wide, tall, deep) in enumerate(k.stones):
        boulder((sx, sy, level + tall * 0.25), (wide, deep, tall), k.seed * 10 + i, rough)
    edge = superellipse(p.a, p.b, p.power, 160)
    return Filled(rim, level, np.c_[edge, np.full(160, rim)], height)
