"""Leaves and needles: one folded template, copied to every outer twig with its own colour."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from .flowers import Extra
from .flowers import add_extra as add_flowers
from .geometry import Ints, Vec, dice, fbm, unit
from .materials import Colour, tinted
from .skeleton import Grown, Skeleton
from .wood import mesh


@dataclass(frozen=True)
class Foliage:
    """What a species wears on a day. `size` is the length of a leaf, needle or spray in units of 10 cm."""

    leaf: str
    size: float
    palette: tuple[Colour, ...]
    each: int = 4
    depth: int = 2
    share: float = 1.0
    translucency: float = 0.35
    flowers: float = 0.0
    candles: float = 0.0
    extras: tuple[Extra, ...] = ()
    edge: Colour | None = None
    """Colour of scorched or turned edges, if they differ."""

    hang: float = 0.0
    """How far the leaves point down."""

    top_share: float = 1.0
    """Share of leaves left near the top of the tree."""


def lobed(angles: list[float], reach: list[float]) -> tuple[Vec, Ints]:
    """A lobed blade that arches down, as a fan of triangles from its stalk."""
    v = [(0.0, 0.0, 0.0)] + [
        (
            r * math.cos(math.radians(a)),
            r * math.sin(math.radians(a)),
            -0.16 * r * r + 0.05 * abs(math.sin(math.radians(a))),
        )
        for a, r in zip(angles, reach, strict=True)
    ]
    return np.array(v), np.array([(0, i, i + 1) for i in range(1, len(angles))])


def needles(directions: list[tuple[Vec, Vec, float, float]]) -> tuple[Vec, Ints]:
    """Thin three-sided spindles: (foot, direction, length, half width)."""
    v: list[Vec] = []
    f: list[tuple[int, int, int]] = []
    for foot, toward, length, width in directions:
        d = unit(toward)
        x = unit(np.cross(d, np.array([0.31, 0.2, 0.93])))
        y = np.cross(d, x)
        o = len(v)
        v.append(foot)
        v += [foot + d * length * 0.45 + width * (math.cos(a) * x + math.sin(a) * y) for a in (0, 2.09, 4.19)]
        v.append(foot + d * length)
        f += [(o + a, o + b, o + c) for a, b, c in ((0, 2, 1), (0, 3, 2), (0, 1, 3), (4, 1, 2), (4, 2, 3), (4, 3, 1))]
    return np.array(v), np.array(f)


def template(kind: str) -> tuple[Vec, Ints]:
    """The shape of one leaf: x toward its tip, z its upper side."""
    zero = np.zeros(3)
    r = dice(3)
    if kind == "trident":
        return lobed([-120, -75, -46, -22, 0, 22, 46, 75, 120], [0.22, 0.42, 0.88, 0.52, 1.0, 0.52, 0.88, 0.42, 0.22])
    if kind == "palmate":
        return lobed(
            [-140, -112, -84, -62, -42, -20, 0, 20, 42, 62, 84, 112, 140],
            [0.42, 0.26, 0.75, 0.28, 0.92, 0.32, 1.0, 0.32, 0.92, 0.28, 0.75, 0.26, 0.42],
        )
    if kind == "thorn":
        return lobed([-80, -50, -34, -18, 0, 18, 34, 50, 80], [0.35, 0.8, 0.55, 0.9, 1.0, 0.9, 0.55, 0.8, 0.35])
    if kind == "field":
        return lobed(
            [-115, -88, -62, -34, -14, 0, 14, 34, 62, 88, 115],
            [0.30, 0.62, 0.80, 0.48, 0.86, 1.0, 0.86, 0.48, 0.80, 0.62, 0.30],
        )
    if kind in ("sprig", "rosette"):
        one, tri = template("oval")
        parts, faces = [], []
        count, rise = (7, 0.5) if kind == "sprig" else (7, 0.0)
        for k in range(count):
            a = k * 2.39996
            d = unit(np.array([0.55 if kind == "sprig" else 0.35, math.cos(a), math.sin(a)]))
            y = unit(np.cross(np.array([1.0, 0.1, 0.2]), d))
            frame = np.stack([d, y, np.cross(d, y)])
            at = np.array([rise * k / count, 0, 0])
            parts.append(one * (0.42 if kind == "sprig" else 0.8) @ frame + at)
            faces.append(tri + k * len(one))
        return np.vstack(parts), np.vstack(faces)
    if kind == "larch":
        tuft = []
        for k in range(26):
            a, open_ = k * 2.39996, 0.25 + 1.15 * (k / 26) ** 0.7
            d = np.array([math.cos(open_), math.sin(open_) * math.cos(a), math.sin(open_) * math.sin(a)])
            tuft.append((zero, d, r.uniform(0.8, 1.05), 0.024))
        return needles(tuft)
    if kind == "cedar":
        spray = [(zero, np.array([1, 0, 0.15]), 1.0, 0.05)]
        for k in range(18):
            s, a = 0.05 + 0.052 * k, k * 2.39996
            d = np.array([0.85, 0.62 * math.cos(a), 0.62 * math.sin(a) + 0.12])
            spray.append((np.array([s, 0, 0]), d, 0.30 - 0.006 * k, 0.036))
        return needles(spray)
    if kind == "oval":
        v = [
            (0, 0, 0),
            (0.35, 0.27, 0.08),
            (0.75, 0.22, 0.05),
            (1.05, 0, -0.10),
            (0.75, -0.22, 0.05),
            (0.35, -0.27, 0.08),
            (0.5, 0, -0.02),
        ]
        return np.array(v, float), np.array([(0, 6, 1), (1, 6, 2), (2, 6, 3), (3, 6, 4), (4, 6, 5), (5, 6, 0)])
    if kind == "flower":
        ring = [(math.cos(a), math.sin(a), 0.25) for a in np.linspace(0, 2 * math.pi, 10, endpoint=False)]
        v = [(0.0, 0.0, 0.0)] + [(x * k, y * k, z) for (x, y, z), k in zip(ring, [1, 0.55] * 5, strict=True)]
        return np.array(v), np.array([(0, i, i % 10 + 1) for i in range(1, 11)])
    if kind == "candle":
        return needles([(zero, np.array([1.0, 0, 0]), 1.0, 0.085)])
    if kind == "scale":
        spray = [(zero, np.array([1, 0, 0.1]), 1.0, 0.085)]
        for k in range(12):
            s, a = 0.08 + 0.07 * k, k * 2.4
            d = np.array([0.75, 0.8 * math.cos(a), 0.6 * math.sin(a) + 0.2])
            spray.append((np.array([s, 0, 0]), d, 0.46 - 0.018 * k, 0.066))
        return needles(spray)
    if kind == "yew":
        twig = [(zero, np.array([1.0, 0, 0]), 1.0, 0.022)]
        for k in range(22):
            side = 1 if k % 2 else -1
            d = np.array([0.55, side, 0.25 + 0.12 * r.normal()])
            twig.append((np.array([0.05 + 0.043 * k, 0, 0]), d, 0.34 - 0.006 * k, 0.034))
        return needles(twig)
    if kind == "pine":
        tuft = []
        for _ in range(44):
            d = unit(np.array([0.75, r.normal() * 0.62, r.normal() * 0.62]))
            tuft.append((np.array([r.uniform(-0.2, 0.25), 0, 0]), d, r.uniform(0.75, 1.05), 0.017))
        return needles(tuft)
    raise ValueError(f"no leaf is called {kind!r}")


def spread(shape: tuple[Vec, Ints], places: Vec, x: Vec, up: Vec, size: Vec) -> tuple[Vec, Ints]:
    """Copies of a template at many places, each with its own direction, upper side and size."""
    v, f = shape
    y = unit(np.cross(up, x))
    frame = np.stack([x, y, np.cross(x, y)], 1)
    points = (v[None] * size[:, None, None]) @ frame + places[:, None]
    return points.reshape(-1, 3), (np.arange(len(places))[:, None, None] * len(v) + f[None]).reshape(-1, 3)


def tint(colour: Vec, each: int) -> dict[str, tuple[str, Vec]]:
    """A colour layer that gives every vertex of a copy the copy's colour."""
    full = np.concatenate([np.repeat(colour, each, 0), np.ones((len(colour) * each, 1))], 1)
    return {"Col": ("FLOAT_COLOR", full)}


def build_leaves(sk: Skeleton, depth: Ints, trees: list[Grown], k: Foliage, seed: int, material: Any) -> Vec:
    """Dress the outer twigs; returns the vertices of all leaves (for the visible outline)."""
    rng = dice(seed, 777)
    shape = template(k.leaf)
    pos, par = np.array(sk.places), np.array(sk.parents)
    evergreen = k.leaf in ("scale", "pine", "yew", "larch", "cedar")
    places, ahead, above, tips, ends = [], [], [], [], []
    for tree in trees:
        all_ = np.array(tree.leafy, int)
        if not len(all_):
            continue
        ln = all_[depth[all_] <= k.depth]
        ends.append(pos[ln])
        ln = ln[rng.uniform(size=len(ln)) < k.share]
        if k.top_share < 1 and len(ln):
            high = pos[ln][:, 2]
            level = np.clip((high - np.quantile(high, 0.35)) / (np.ptp(high) * 0.5 + 1e-6), 0, 1)
            ln = ln[rng.uniform(size=len(ln)) < 1 - (1 - k.top_share) * level]
        d, out = unit(pos[ln] - pos[par[ln]]), unit((pos[ln] - pos[all_].mean(0)) * np.array([1, 1, 0.5]))
        tips.append(pos[ln])
        for _ in range(k.each):
            j = rng.normal(size=d.shape)
            if evergreen:
                ahead.append(unit(d * 0.9 + out * 0.35 + np.array([0, 0, 0.9 if k.leaf == "pine" else 0.6]) + j * 0.42))
                above.append(unit(rng.normal(size=d.shape) + (np.array([0, 0, 2.0]) if k.leaf == "yew" else 0)))
            else:
                ahead.append(unit(d * 0.5 + out * 0.45 + j * 0.75 + np.array([0, 0, -0.25 - k.hang])))
                above.append(unit(np.array([0, 0, 1.0]) + out * 0.45 + rng.normal(size=d.shape) * 0.38))
            places.append(pos[ln] + rng.normal(size=d.shape) * 0.02)
    if k.extras and sum(len(p) for p in ends):
        twigs = np.vstack(ends)
        for extra in k.extras:
            add_flowers(extra, twigs, twigs.mean(0), rng)
    if not places or not sum(len(p) for p in places):
        return np.vstack(ends) if ends else np.zeros((0, 3))
    p = np.vstack(places)
    n = len(p)
    points, faces = spread(shape, p, np.vstack(ahead), np.vstack(above), k.size * rng.uniform(0.65, 1.15, size=n))
    pal = np.array(k.palette)
    # a slow drift across the tree: in autumn it turns limb by limb
    m = fbm(p * 0.55, seed + 9, 2) * 0.5 + 0.5 + rng.normal(size=n) * 0.22 + 0.10 * (p[:, 2] - p[:, 2].mean())
    m = np.clip(m, 0, 0.999) * (len(pal) - 1)
    i, f = m.astype(int), (m - m.astype(int))[:, None]
    colour = pal[i] * (1 - f) + pal[np.minimum(i + 1, len(pal) - 1)] * f
    layers = tint(colour * rng.uniform(0.72, 1.2, size=(n, 1)), len(shape[0]))
    if evergreen:
        layers["Col"][1][:, :3] *= 0.55 + 0.75 * np.tile(shape[0][:, 0] / shape[0][:, 0].max(), n)[:, None]
    if k.edge is not None:
        far = np.tile(np.linalg.norm(shape[0], axis=1) / np.linalg.norm(shape[0], axis=1).max(), n)
        burnt = np.clip((far - 0.62) * 4, 0, 1)[:, None] * np.repeat(rng.uniform(size=(n, 1)) < 0.8, len(shape[0]), 0)
        layers["Col"][1][:, :3] = layers["Col"][1][:, :3] * (1 - burnt) + np.array(k.edge) * burnt
    mesh("leaves", points, faces, material, not evergreen, layers)
    outer = np.vstack(tips)
    if k.flowers:
        add_extra("flower", outer, rng, k.flowers, 0.055, (0.78, 0.74, 0.68))
    if k.candles:
        add_extra("candle", outer, rng, k.candles, 0.34, (0.36, 0.40, 0.14))
    return points


def add_extra(kind: str, at: Vec, rng: np.random.Generator, share: float, size: float, colour: Colour) -> None:
    """Flowers or candles on a share of the outer twigs."""
    p = at[rng.uniform(size=len(at)) < share]
    n = len(p)
    upright = unit(np.array([0, 0, 1.0]) + rng.normal(size=(n, 3)) * (0.18 if kind == "candle" else 0.5))
    flat = unit(rng.normal(size=(n, 3)))
    shape = template(kind)
    x, up = (upright, flat) if kind == "candle" else (unit(np.cross(upright, flat)), upright)
    points, faces = spread(shape, p + np.array([0, 0, 0.05]), x, up, size * rng.uniform(0.7, 1.15, size=n))
    shade = np.array(colour) * rng.uniform(0.8, 1.15, size=(n, 1))
    mesh(kind, points, faces, tinted(kind, 0.6), False, tint(shade, len(shape[0])))
