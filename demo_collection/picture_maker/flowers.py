"""Flowers and fruit, each one template copied to a share of the outer twigs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from . import materials
from .geometry import Ints, Vec, spline, unit
from .materials import Colour
from .wood import mesh, sticks


@dataclass(frozen=True)
class Extra:
    """Flowers or fruit: `share` of the outer twigs (or `count` of them), size in units of 10 cm.

    A flower's colours run from its throat to its edge; a fruit takes one tone between its two colours.
    """

    kind: str
    size: float
    share: float = 0.2
    count: int = 0
    colours: tuple[Colour, Colour] = ((0.80, 0.62, 0.55), (0.86, 0.83, 0.80))
    other: Colour | None = None
    stalk: float = 0.0


def corolla(petals: int, cup: float, wide: float, notch: float, tube: float) -> tuple[Vec, Ints, Vec]:
    """An open flower facing z, with the share of edge colour at each vertex."""
    v: list[tuple[float, float, float]] = [(0.0, 0.0, -tube)]
    w = [0.0]
    f: list[tuple[int, int, int]] = []
    rows = ((0.30, 0.30, 0.35), (0.70, 1.0, 0.8), (0.95, 0.86, 1.0), (1.0, 0.45, 1.0))
    for k in range(petals):
        az = 2 * math.pi * k / petals
        first = len(v)
        for r, across, edge in rows:
            for side in (-1, 0, 1):
                a = az + side * wide * across * math.pi / petals
                far = r * (1 - (notch if side == 0 and r == 1.0 else 0.0))
                v.append((far * math.cos(a), far * math.sin(a), cup * far * far - tube * (1 - r) + 0.05 * abs(side)))
                w.append(edge)
        f += [(0, first, first + 1), (0, first + 1, first + 2)]
        for row in range(3):
            for side in (0, 1):
                a0 = first + row * 3 + side
                f += [(a0, a0 + 3, a0 + 4), (a0, a0 + 4, a0 + 1)]
    return np.array(v), np.array(f), np.array(w)


def body(profile: list[tuple[float, float]], lumps: float = 0.0) -> tuple[Vec, Ints, Vec]:
    """A fruit turned round z: (radius, height) from stalk to tip, drawn as a smooth curve."""
    n = 18
    curve = spline([(r, 0.0, z) for r, z in profile], 0.07)
    v, f = [], []
    curve[:, 0] = np.maximum(curve[:, 0], 0.0)
    for i, (r, _, z) in enumerate(curve):
        for j in range(n):
            a = 2 * math.pi * j / n
            k = 1 + lumps * math.sin(5 * a) * math.sin(math.pi * i / (len(curve) - 1))
            v.append((r * k * math.cos(a), r * k * math.sin(a), z))
    for i in range(len(curve) - 1):
        for j in range(n):
            p, q = i * n + j, i * n + (j + 1) % n
            f += [(p, p + n, q + n), (p, q + n, q)]
    high = np.array([p[2] for p in v])
    return np.array(v), np.array(f), (high - high.min()) / np.ptp(high)


def calyx() -> tuple[Vec, Ints]:
    """The four dry sepals that stay on a persimmon, a little turned up at their ends."""
    edge = ((-0.62, 0.20, 0.03), (-0.34, 0.38, 0.02), (0.0, 0.50, 0.09), (0.34, 0.38, 0.02), (0.62, 0.20, 0.03))
    v, f = [(0.0, 0.0, 0.05)], []
    for k in range(4):
        a = math.pi / 2 * k
        first = len(v)
        for turn, r, z in edge:
            v.append((r * math.cos(a + turn), r * math.sin(a + turn), z))
        f += [(0, first + j, first + j + 1) for j in range(4)]
    return np.array(v), np.array(f)


def shape_of(kind: str) -> tuple[Vec, Ints, Vec]:
    """The template of a flower (about one unit wide from its middle) or fruit (one unit long, hanging)."""
    if kind == "blossom":
        return corolla(5, 0.35, 0.95, 0.06, 0.05)
    if kind == "trumpet":
        return corolla(5, 0.18, 0.92, 0.05, 0.30)
    if kind == "apple":
        return body(
            [(0.0, -0.12), (0.2, -0.03), (0.42, -0.12), (0.52, -0.42), (0.42, -0.76), (0.2, -0.92), (0.0, -0.86)]
        )
    if kind == "quince":
        return body(
            [(0.0, 0.0), (0.2, 0.0), (0.40, -0.18), (0.46, -0.48), (0.40, -0.80), (0.2, -0.99), (0.0, -0.96)], 0.04
        )
    if kind == "drop":
        return body(
            [(0.0, 0.0), (0.20, -0.02), (0.34, -0.20), (0.34, -0.45), (0.22, -0.75), (0.08, -0.95), (0.0, -1.0)]
        )
    raise ValueError(f"no flower or fruit is called {kind!r}")


def add_extra(k: Extra, at: Vec, middle: Vec, rng: np.random.Generator) -> None:
    """Put flowers on the outside of the crown, or hang fruit under its twigs."""
    shape, faces, edge = shape_of(k.kind)
    fruit = k.kind in ("apple", "quince", "drop")
    p = at[spaced(at, k.count, rng)] if k.count else at[rng.uniform(size=len(at)) < k.share]
    n = len(p)
    if not n:
        return
    out = unit((p - middle) * np.array([1, 1, 0.8]))
    if fruit:
        axis = unit(np.array([0, 0, 1.0]) + rng.normal(size=(n, 3)) * 0.12)
        drop = k.stalk * rng.uniform(0.6, 1.2, size=(n, 1))
        top = p + np.c_[rng.normal(size=(n, 2)) * 0.05, np.zeros(n)] - np.array([0, 0, 1.0]) * drop
    else:
        axis = unit(out + np.array([0, -0.35, 0.45]) + rng.normal(size=(n, 3)) * 0.38)
        top = p + axis * (0.05 + 0.35 * k.size)
    x = unit(np.cross(axis, rng.normal(size=(n, 3))))
    frame = np.stack([x, np.cross(axis, x), axis], 1)
    size = k.size * rng.uniform(0.8, 1.12, size=n)
    points = ((shape[None] * size[:, None, None]) @ frame + top[:, None]).reshape(-1, 3)
    all_faces = (np.arange(n)[:, None, None] * len(shape) + faces[None]).reshape(-1, 3)
    inner, outer = np.array(k.colours)
    if fruit:
        t = np.clip(rng.normal(0.5, 0.3, size=(n, 1, 1)) + 0.25 * (edge[None, :, None] - 0.5), 0, 1)
        colour = inner * (1 - t) + outer * t
    else:
        rim = np.broadcast_to(outer, (n, 3)).copy()
        if k.other is not None:
            rim[rng.uniform(size=n) < 0.35] = np.array(k.other)
        t = edge[None, :, None]
        colour = inner * (1 - t) + rim[:, None, :] * t
        colour = colour * rng.uniform(0.86, 1.08, size=(n, 1, 1))
    full = np.concatenate([colour.reshape(-1, 3), np.ones((n * len(shape), 1))], 1)
    m: Any = materials.skin(k.kind) if fruit else materials.leaf(0.30)
    mesh(k.kind, points, all_faces, m, True, {"Col": ("FLOAT_COLOR", full)})
    if k.kind == "drop":
        leaf, leaf_faces = calyx()
        caps = ((leaf[None] * size[:, None, None]) @ frame + top[:, None]).reshape(-1, 3)
        cap_faces = (np.arange(n)[:, None, None] * len(leaf) + leaf_faces[None]).reshape(-1, 3)
        mesh("calyx", caps, cap_faces, materials.plain("calyx", (0.16, 0.12, 0.045), 0.85), False)
    if k.stalk:
        thin = np.full(n, 0.007)
        sticks("stalks", p, top, thin, thin, materials.plain("stalk", (0.10, 0.07, 0.04), 0.8), thin * 0)


def spaced(at: Vec, count: int, rng: np.random.Generator) -> Ints:
    """Places well apart from each other, the outer and nearer ones first."""
    order = np.argsort(-(at[:, 1] * -0.5 - at[:, 2] * 0.4 + rng.normal(size=len(at)) * 0.9))
    chosen: list[int] = [int(order[0])]
    apart = 0.8
    while len(chosen) < count and apart > 0.1:
        for i in order:
            if len(chosen) >= count:
                break
            if np.linalg.norm(at[chosen] - at[i], axis=1).min() > apart:
                chosen.append(int(i))
        apart *= 0.8
    return np.array(chosen, dtype=np.int64)
