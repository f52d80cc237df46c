"""Makes a render look like a print, a slide or a digital picture, moved by an exactly known similarity."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageFilter

from .geometry import Vec


@dataclass(frozen=True)
class Look:
    """Kind of picture, how its frame lies on the render (degrees, scale, pixels), and how it was printed."""

    kind: str = "digital"
    turn: float = 0.0
    scale: float = 1.0
    shift: tuple[float, float] = (0.0, 0.0)
    size: tuple[int, int] = (1280, 960)
    seed: int = 1
    light: float = 1.0


def blur(x: Vec, radius: float) -> Vec:
    """A soft lens."""
    im = Image.fromarray((np.clip(x, 0, 1) * 255).astype("uint8")).filter(ImageFilter.GaussianBlur(radius))
    return np.asarray(im).astype(float) / 255


def grain(x: Vec, rng: np.random.Generator, strength: float, clump: float, mono: bool = True) -> Vec:
    """Film grain, strongest in the middle tones."""
    g = rng.normal(size=(*x.shape[:2], 1 if mono else 3))
    if clump:
        g = g + clump * (np.roll(g, 1, 0) + np.roll(g, -1, 0))
        g = g + clump * (np.roll(g, 1, 1) + np.roll(g, -1, 1))
    light = x.mean(2, keepdims=True)
    out: Vec = x + g / g.std() * strength * (0.4 + 2.4 * light * (1 - light))
    return out


def tone(x: Vec, kind: str, edge: Vec, rng: np.random.Generator) -> Vec:
    """Colour, contrast and darkening to the corners."""
    if kind == "sepia":
        x = blur(x, 1.2)
        light = np.clip(((x @ np.array([0.25, 0.55, 0.20]))[..., None] - 0.02) * 1.15, 0, 1) ** 0.95
        x = light * np.array([1.0, 0.93, 0.80]) * 0.86 + np.array([0.085, 0.065, 0.04])
        return grain(x * (1 - 0.20 * edge**2), rng, 0.016, 0.6)
    if kind == "faded":  # cyan has gone, blacks have lifted
        x = blur(x, 0.9)
        light = x.mean(2, keepdims=True)
        x = (light + (x - light) * 0.66) * np.array([0.80, 0.70, 0.60]) + np.array([0.17, 0.125, 0.10])
        return grain(x * (1 - 0.15 * edge**2), rng, 0.013, 0.5)
    if kind == "slide":
        x = np.clip(blur(x, 0.6), 0, 1)
        x = x * x * (3 - 2 * x) * 0.5 + x * 0.5
        light = x.mean(2, keepdims=True)
        x = (light + (x - light) * 1.08) * np.array([1.05, 0.985, 0.90]) + np.array([0.02, 0.012, 0.02])
        return grain(x * (1 - 0.20 * edge**2), rng, 0.010, 0.4, False)
    return grain(x, rng, 0.004, 0, False)


def finish(
    im: Image.Image, points: dict[str, list[float]], look: Look
) -> tuple[Image.Image, dict[str, list[float]]]:
    """The finished picture and its points. The frame must lie inside the render: scale up when turned."""
    w, h = im.size
    ow, oh = look.size
    th = np.radians(look.turn)
    c, s = np.cos(th) * look.scale, np.sin(th) * look.scale
    m = np.array([[c, -s], [s, c]])
    was, now = np.array([w / 2, h / 2]), np.array([ow / 2 + look.shift[0], oh / 2 + look.shift[1]])
    back = np.linalg.inv(m)
    t = was - back @ now
    corners = np.array([(x, y) for x in (0, ow) for y in (0, oh)]) - now
    reach = corners @ back.T + was
    if reach.min() < -1 or (reach > np.array([w, h]) + 1).any():
        raise ValueError(f"the frame leaves the render: {reach.round(1).tolist()} of {w} x {h}")
    rows = (back[0, 0], back[0, 1], t[0], back[1, 0], back[1, 1], t[1])
    x = (
        np.asarray(
            im.convert("RGB").transform((ow, oh), Image.Transform.AFFINE, rows, Image.Resampling.BICUBIC)
        )
        / 255.0
    )
    yy, xx = np.mgrid[0:oh, 0:ow]
    edge = np.hypot((xx - ow / 2) / (ow / 2), (yy - oh / 2) / (oh / 2))[..., None]
    rng = np.random.default_rng(look.seed)
    x = tone(1 - (1 - x) ** look.light, look.kind, edge, rng)  # above 1 it is printed lighter
    if look.kind in ("sepia", "faded"):
        for _ in range(22):  # dust
            px, py, r = rng.uniform(0, ow), rng.uniform(0, oh), rng.uniform(0.6, 1.6)
            spot = (xx - px) ** 2 + (yy - py) ** 2 < r * r
            x[spot] = x[spot] * 0.4 + 0.5
        for _ in range(3):  # scratches
            px, py, long = rng.uniform(0, ow), rng.uniform(0, oh), rng.uniform(20, 110)
            line = (np.abs(xx - px - (yy - py) * 0.06) < 0.7) & (yy > py) & (yy < py + long)
            x[line] = x[line] * 0.75 + 0.2
        b = round(0.032 * min(ow, oh))
        paper = np.array([0.93, 0.90, 0.83] if look.kind == "sepia" else [0.93, 0.91, 0.88])
        border = (xx < b) | (yy < b) | (xx >= ow - b) | (yy >= oh - b)
        x[border] = paper + rng.normal(size=(int(border.sum()), 1)) * 0.004
    out = Image.fromarray((np.clip(x, 0, 1) * 255 + 0.5).astype("uint8"))
    moved = {k: [round(float(v), 1) for v in m @ (np.array(p) - was) + now] for k, p in points.items()}
    return out, moved
