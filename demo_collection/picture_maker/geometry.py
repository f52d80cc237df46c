"""Numbers and curves used by every subject. One unit is 10 cm, z points up, the viewer is at negative y."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

Vec = NDArray[np.float64]
Ints = NDArray[np.int64]
UP: Vec = np.array([0.0, 0.0, 1.0])


def dice(*keys: int) -> np.random.Generator:
    """A random generator that depends on the keys alone, so that one tree looks itself at every age."""
    return np.random.default_rng([abs(k) for k in keys])


def unit(v: ArrayLike) -> Vec:
    """The vectors scaled to length one (along the last axis)."""
    a = np.asarray(v, float)
    out: Vec = a / (np.linalg.norm(a, axis=-1, keepdims=True) + 1e-12)
    return out


def mix(a: float, b: float, t: float) -> float:
    """The number that lies `t` of the way from `a` to `b`."""
    return a + (b - a) * t


def spline(points: Sequence[Sequence[float]] | Vec, spacing: float) -> Vec:
    """A Catmull-Rom curve through the points, sampled at about equal steps of arc length."""
    p = np.asarray(points, float)
    q = np.vstack([2 * p[0] - p[1], p, 2 * p[-1] - p[-2]])
    m = len(p) - 1
    rows = []
    for u in np.linspace(0, m - 1e-6, 40 * m):
        i = int(u)
        t = u - i
        a, b, c, d = q[i : i + 4]
        rows.append(0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t**3))
    fine = np.array(rows)
    s = arc_lengths(fine)
    v = np.linspace(0, s[-1], max(4, round(s[-1] / spacing)))
    return np.stack([np.interp(v, s, fine[:, k]) for k in range(3)], 1)


def arc_lengths(path: Vec) -> Vec:
    """The distance walked along the path at each of its points."""
    out: Vec = np.r_[0.0, np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))]
    return out


def noise(p: Vec, seed: int = 0) -> Vec:
    """Value noise between -1 and 1 at points of space."""
    whole = np.floor(p).astype(np.int64)
    f = p - whole
    f = f * f * (3 - 2 * f)

    def lattice(a: Ints) -> Vec:
        n = (a[..., 0] * 374761393 + a[..., 1] * 668265263 + a[..., 2] * 2147483647 + seed * 1274126177) & 0xFFFFFFFF
        n = ((n ^ (n >> 13)) * 1274126177) & 0xFFFFFFFF
        out: Vec = ((n ^ (n >> 16)) & 0xFFFF) / 65535.0
        return out

    total: Vec = np.zeros(p.shape[:-1])
    for dx in (0, 1):
        for dy in (0, 1):
            for dz in (0, 1):
                w = (
                    (f[..., 0] if dx else 1 - f[..., 0])
                    * (f[..., 1] if dy else 1 - f[..., 1])
                    * (f[..., 2] if dz else 1 - f[..., 2])
                )
                total = total + w * lattice(whole + np.array([dx, dy, dz]))
    return total * 2 - 1


def fbm(p: Vec, seed: int = 0, octaves: int = 4) -> Vec:
    """Noise summed over octaves, each twice as fine and half as strong."""
    total: Vec = np.zeros(p.shape[:-1])
    strength = 1.0
    for k in range(octaves):
        total = total + strength * noise(p * 2**k, seed + k)
        strength *= 0.5
    return total


def superellipse(a: float, b: float, power: float, count: int) -> Vec:
    """Points round an oval (power 2) or a rectangle with soft corners (power 5 and more)."""
    th = np.arange(count) * 2 * math.pi / count
    c, s = np.cos(th), np.sin(th)
    return np.stack([a * np.sign(c) * np.abs(c) ** (2 / power), b * np.sign(s) * np.abs(s) ** (2 / power)], 1)
