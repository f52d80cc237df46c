"""What lies on a pot: soil, grit, moss and its tones, fallen leaves, small weeds, snow."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from . import materials
from .geometry import Vec, dice, fbm, unit
from .leaves import spread, template, tint
from .materials import Colour
from .wood import mesh

GRITS: dict[str, tuple[Colour, ...]] = {
    "mixed": ((0.10, 0.06, 0.035), (0.20, 0.12, 0.07), (0.30, 0.21, 0.13), (0.12, 0.11, 0.10), (0.05, 0.045, 0.04)),
    "clay": ((0.30, 0.19, 0.10), (0.36, 0.24, 0.13), (0.24, 0.14, 0.075), (0.28, 0.18, 0.11)),
    "lava": ((0.045, 0.038, 0.036), (0.09, 0.06, 0.05), (0.13, 0.06, 0.045), (0.06, 0.055, 0.052)),
    "pumice": ((0.46, 0.43, 0.37), (0.38, 0.35, 0.30), (0.30, 0.21, 0.13), (0.52, 0.49, 0.44)),
    "river": ((0.22, 0.21, 0.19), (0.30, 0.28, 0.25), (0.13, 0.13, 0.13), (0.36, 0.33, 0.28)),
    "loam": ((0.035, 0.025, 0.018), (0.06, 0.042, 0.03), (0.085, 0.06, 0.042), (0.02, 0.016, 0.012)),
}
MOSSES: dict[str, Colour] = {
    "green": (0.05, 0.075, 0.016),
    "bright": (0.085, 0.125, 0.022),
    "olive": (0.075, 0.072, 0.020),
    "grey": (0.085, 0.098, 0.062),
    "dark": (0.026, 0.045, 0.014),
    "dry": (0.13, 0.10, 0.045),
}


@dataclass(frozen=True)
class Ground:
    """Tones of grit and moss by name; fallen leaves as (template, size, colours, count); share of snow."""

    grit: str = "mixed"
    moss: str = "green"
    coarse: float = 1.0
    litter: tuple[str, float, tuple[Colour, ...], int] | None = None
    weeds: int = 0
    snow: float = 0.0


def fill(
    g: Ground,
    mossy: float,
    gritty: float,
    z: float,
    dug: float | None,
    shape: tuple[float, float, float],
    height: Callable[[float, float], float],
    seed: int,
) -> None:
    """Soil up to the wall, moss where it has settled, loose grit and moss blades on top.

    Moss does not grow lower than `dug` below the level `z`, where soil has been taken out.
    """
    a, b, power = shape
    n = 150
    x, y = np.meshgrid(np.linspace(-a, a, n * 2), np.linspace(-b, b, n))
    rr = np.abs(x / a) ** power + np.abs(y / b) ** power
    flat = np.stack([x, y, x * 0], -1)
    inner = np.clip(1 - rr, 0, 1)
    if power > 20:  # a box: what lies in it runs out toward the boards, and does not break off
        inner = np.clip(np.minimum(a - np.abs(x), b - np.abs(y)) / 1.2, 0, 1)
    zz = np.vectorize(height)(x, y) + 0.035 * fbm(flat * 2.6, seed + 3, 3) * np.clip(inner * 4, 0, 1)
    moss = np.clip((fbm(flat * 1.1, seed + 21, 3) + mossy * 2 - 1) * 3 + 0.5, 0, 1)
    if dug is not None:
        moss *= np.clip((z + dug - zz) * -8, 0, 1)
    # cushions: moss does not lie like a carpet
    cushions = np.clip(fbm(flat * 3.1, seed + 33, 2), -0.3, 1)
    zz += moss * (0.05 + 0.06 * cushions + 0.018 * fbm(flat * 16, seed + 30, 3)) * np.clip(inner * 6, 0, 1)
    points = np.stack([x, y, zz], -1).reshape(-1, 3)
    ids = np.arange(x.size).reshape(x.shape)
    quads = np.stack([ids[:-1, :-1], ids[:-1, 1:], ids[1:, 1:], ids[1:, :-1]], -1).reshape(-1, 4)
    inside = (rr < 1.0 + 1e-9).ravel()[quads].all(1)
    mesh(
        "soil",
        points,
        quads[inside],
        materials.soil(GRITS[g.grit], MOSSES[g.moss]),
        True,
        {"moss": ("FLOAT", moss.ravel())},
    )
    scatter(points, moss.ravel(), rr.ravel(), gritty, seed, g)
    strew(points, rr.ravel(), seed, g)
    if g.snow:
        deep = np.clip(fbm(flat * 1.6, seed + 60, 3) + g.snow * 2 - 1, 0, 1) * np.clip(inner * 5, 0, 1)
        white = points + np.c_[np.zeros((len(points), 2)), (deep.ravel() * 0.22 - 0.03)]
        mesh("snow", white, quads[inside], materials.plain("snow", (0.84, 0.87, 0.92), 0.6))


def scatter(points: Vec, moss: Vec, rr: Vec, grit: float, seed: int, g: Ground = Ground()) -> None:
    """Grains on bare soil, blades on moss."""
    rng = dice(seed, 55)
    pick = rng.choice(len(points), size=int(5200 * grit), replace=True)
    pick = pick[(rr[pick] < 0.985) & (rng.uniform(size=len(pick)) > moss[pick] * 0.97)]
    eight = unit(np.array([(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)], float))
    eight_f = np.array([(0, 2, 4), (2, 1, 4), (1, 3, 4), (3, 0, 4), (2, 0, 5), (1, 2, 5), (3, 1, 5), (0, 3, 5)])
    if m := len(pick):
        c = points[pick] + np.c_[rng.normal(size=(m, 2)) * 0.012, np.full(m, 0.008)]
        size = rng.uniform(0.018, 0.042, size=(m, 1, 1)) * g.coarse
        grain = eight[None] * size * rng.uniform(0.6, 1.2, size=(m, 6, 1))
        tones = np.array(GRITS[g.grit])
        colour = tones[rng.integers(len(tones), size=m)] * rng.uniform(0.7, 1.2, size=(m, 1))
        faces = (np.arange(m)[:, None, None] * 6 + eight_f).reshape(-1, 3)
        mesh("grit", (grain + c[:, None]).reshape(-1, 3), faces, materials.tinted("grit"), False, tint(colour, 6))
    green = np.where((moss > 0.5) & (rr < 0.97))[0]
    if len(green):
        pick = rng.choice(green, size=9000)
        m = len(pick)
        c = points[pick] + np.c_[rng.normal(size=(m, 2)) * 0.01, np.zeros(m)]
        d = unit(np.c_[rng.normal(size=(m, 2)) * 0.5, np.ones(m)])
        across = unit(np.c_[rng.normal(size=(m, 2)), np.zeros(m)])
        blades = np.stack([c - across * 0.009, c + across * 0.009, c + d * rng.uniform(0.025, 0.06, size=(m, 1))], 1)
        drift = np.clip(fbm(c * 1.7, seed + 77, 3)[:, None], -0.5, 1)
        base = np.array(MOSSES[g.moss])
        colour = base * (1 + drift * np.array([0.75, 0.35, 0.30])) * rng.uniform(0.5, 1.6, size=(m, 1))
        faces = np.arange(m * 3).reshape(-1, 3)
        mesh("moss", blades.reshape(-1, 3), faces, materials.tinted("moss"), False, tint(colour, 3))


def strew(points: Vec, rr: Vec, seed: int, g: Ground) -> None:
    """Fallen leaves on the soil, and small weeds that came by themselves."""
    rng = dice(seed, 58)
    open_ = np.where(rr < 0.93)[0]
    if g.litter:
        kind, size, palette, count = g.litter
        p = points[rng.choice(open_, size=count)] + np.array([0, 0, 0.05])
        x = unit(np.c_[rng.normal(size=(count, 2)), rng.normal(size=count) * 0.15])
        up = unit(np.c_[rng.normal(size=(count, 2)) * 0.3, np.ones(count)])
        shape = template(kind)
        v, f = spread(shape, p, x, up, size * rng.uniform(0.7, 1.1, size=count))
        tones = np.array(palette)[rng.integers(len(palette), size=count)] * rng.uniform(0.6, 1.1, size=(count, 1))
        mesh("litter", v, f, materials.tinted("litter", 0.7), True, tint(tones, len(shape[0])))
    if g.weeds:
        at = points[rng.choice(open_, size=g.weeds)]
        p = np.repeat(at, 9, 0) + np.c_[rng.normal(size=(g.weeds * 9, 2)) * 0.02, np.full(g.weeds * 9, 0.03)]
        m = len(p)
        x = unit(np.c_[rng.normal(size=(m, 2)), rng.uniform(0.3, 1.2, size=m)])
        up = unit(np.c_[rng.normal(size=(m, 2)) * 0.4, np.ones(m)])
        shape = template("oval")
        v, f = spread(shape, p, x, up, 0.11 * rng.uniform(0.5, 1.1, size=m))
        tones = np.array([0.09, 0.15, 0.03]) * rng.uniform(0.7, 1.2, size=(m, 1))
        mesh("weeds", v, f, materials.tinted("weed", 0.6), True, tint(tones, len(shape[0])))
