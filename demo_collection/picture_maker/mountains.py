"""Upright rocks on a polished tray: a landscape of mountains and still water without water."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from . import materials
from .geometry import dice, fbm, superellipse, unit
from .ground import MOSSES
from .leaves import tint
from .materials import Colour
from .pot import Filled, Pot
from .wood import mesh

Spire = tuple[float, float, float, float, float]


@dataclass(frozen=True)
class Mountains:
    """Spires as (x, y, half width, half depth, height); moss as (x, y, half width, half depth, height)."""

    spires: Sequence[Spire]
    moss: Sequence[Spire] = ()
    seed: int = 3
    dark: Colour = (0.07, 0.075, 0.08)
    light: Colour = (0.30, 0.31, 0.32)


def spire(k: Spire, base: float, seed: int, material: object) -> None:
    """One rock: ridged along its height, narrowing in steps to a broken top."""
    x, y, wide, deep, high = k
    m, rows = 72, 56
    r = dice(seed, 5)
    lean = r.normal(size=2) * 0.10 * high
    shoulder = r.uniform(0.35, 0.75)
    points = []
    for i in range(rows + 1):
        f = i / rows
        th = np.arange(m) * 2 * math.pi / m
        ring = np.stack([np.cos(th), np.sin(th)], 1)
        q = np.c_[ring * 1.5, np.full(m, f * high * 0.45)]
        ridge = np.abs(fbm(np.c_[ring * 2.6, np.full(m, f * high * 0.18)] + seed, seed, 3))
        rough = 0.86 + 0.34 * ridge + 0.16 * fbm(q * 2.2, seed + 4, 3)
        step = 1 - 0.30 * f - 0.30 * (1 / (1 + math.exp(-14 * (f - shoulder)))) - 0.18 * max(0.0, f - 0.90) / 0.10
        jag = 1 + 0.10 * float(fbm(np.array([[f * 9.0, seed, 0.0]]), seed + 8, 2)[0])
        plan = superellipse(wide, deep, 3.0, m) * (rough * max(0.03, step) * jag)[:, None]
        z = base - 0.06 + high * f + 0.10 * min(high, 2.2) * fbm(q * 1.3 + 4, seed + 9, 2) * max(0.0, f - 0.4)
        points.append(np.c_[plan + np.array([x, y]) + lean * f**1.4, np.broadcast_to(z, m)])
    faces: list[tuple[int, ...]] = [
        (i * m + j, i * m + (j + 1) % m, (i + 1) * m + (j + 1) % m, (i + 1) * m + j)
        for i in range(rows)
        for j in range(m)
    ]
    faces.append(tuple(rows * m + j for j in range(m)))
    mesh("rock", np.vstack(points), faces, material)


def cushion(k: Spire, base: float, seed: int) -> None:
    """A low bank of moss at the foot or on a ledge of a rock."""
    x, y, wide, deep, high = k
    n = 46
    u, v = np.meshgrid(np.linspace(-1, 1, n), np.linspace(-1, 1, n))
    rough = 1 + 0.30 * fbm(np.stack([u * 1.8, v * 1.8, u * 0 + seed], -1), seed, 3)
    dome = np.clip(1 - (u * u + v * v) * rough, -0.15, 1)
    z = high * np.sign(dome) * np.abs(dome) ** 0.7 + 0.02 * fbm(np.stack([u * 12, v * 12, u * 0], -1), seed + 1, 2)
    points = np.stack([x + u * wide, y + v * deep, base + z], -1).reshape(-1, 3)
    ids = np.arange(n * n).reshape(n, n)
    quads = np.stack([ids[:-1, :-1], ids[:-1, 1:], ids[1:, 1:], ids[1:, :-1]], -1).reshape(-1, 4)
    keep = (dome > -0.1).ravel()[quads].all(1)
    mesh("bank", points, quads[keep], materials.soil(), True, {"moss": ("FLOAT", np.ones(n * n))})
    rng = dice(seed, 6)
    top = np.where(dome.ravel() > 0.02)[0]
    pick = rng.choice(top, size=int(2600 * wide * deep) + 300)
    c = points[pick] + rng.normal(size=(len(pick), 3)) * 0.012
    d = unit(np.c_[rng.normal(size=(len(c), 2)) * 0.6, np.ones(len(c))])
    across = unit(np.c_[rng.normal(size=(len(c), 2)), np.zeros(len(c))])
    tall = rng.uniform(0.03, 0.08, size=(len(c), 1))
    blades = np.stack([c - across * 0.012, c + across * 0.012, c + d * tall], 1)
    tones = np.array(MOSSES["bright"]) * rng.uniform(0.4, 1.5, size=(len(c), 1))
    faces = np.arange(len(c) * 3).reshape(-1, 3)
    mesh("moss", blades.reshape(-1, 3), faces, materials.tinted("moss"), False, tint(tones, 3))


def build_mountains(k: Mountains, p: Pot, rim: float) -> Filled:
    """The polished bed of the tray, the rocks and their moss."""
    level = rim - 0.035
    ring = superellipse(p.a * 0.965, p.b * 0.94, p.power, 120)
    bed = materials.stone("bed", p.dark, p.light, 1.1, vein=2.2)
    bed.node_tree.nodes["Principled BSDF"].inputs["Roughness"].default_value = 0.12
    mesh("bed", np.c_[ring, np.full(120, level)], [tuple(range(120))], bed, False)
    rough = materials.stone("rock", k.dark, k.light, 2.4, 1.0)
    for i, s in enumerate(k.spires):
        spire(s, level, k.seed * 20 + i, rough)
    for i, s in enumerate(k.moss):
        cushion(s, level, k.seed * 30 + i)
    edge = superellipse(p.a, p.b, p.power, 160)
    return Filled(rim, level, np.c_[edge, np.full(160, rim)], lambda x, y: level)
