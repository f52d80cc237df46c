"""Makes a render look like a print, a slide or a digital picture, moved by an exactly known similarity."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image

from .geometry import Vec
from .prints import margins, mount, tone


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


def laid(look: Look, width: int, height: int) -> tuple[Vec, Vec, Vec]:
    """How a frame lies on a render of this size: a matrix, and the middle of the render before and after."""
    th = np.radians(look.turn)
    c, s = np.cos(th) * look.scale, np.sin(th) * look.scale
    (ow, oh), (right, down) = look.size, look.shift
    return np.array([[c, -s], [s, c]]), np.array([width / 2, height / 2]), np.array([ow / 2 + right, oh / 2 + down])


def carried(point: list[float], look: Look, size: tuple[int, int], digits: int = 1) -> list[float]:
    """Where a point of a render of this size lies in the finished picture."""
    m, was, now = laid(look, *size)
    return [round(float(v), digits) for v in m @ (np.array(point) - was) + now]


def shown(point: list[float], look: Look) -> bool:
    """Whether a point of the finished picture lies inside it, and not on the paper round it."""
    (w, h), (side, low) = look.size, margins(look.kind, *look.size)
    return side <= point[0] < w - side and side <= point[1] < h - low


def finish(im: Image.Image, points: dict[str, list[float]], look: Look) -> tuple[Image.Image, dict[str, list[float]]]:
    """The finished picture and its points. The frame must lie inside the render: scale up when turned."""
    w, h = im.size
    ow, oh = look.size
    m, was, now = laid(look, w, h)
    back = np.linalg.inv(m)
    t = was - back @ now
    corners = np.array([(x, y) for x in (0, ow) for y in (0, oh)]) - now
    reach = corners @ back.T + was
    if reach.min() < -1 or (reach > np.array([w, h]) + 1).any():
        raise ValueError(f"the frame leaves the render: {reach.round(1).tolist()} of {w} x {h}")
    rows = (back[0, 0], back[0, 1], t[0], back[1, 0], back[1, 1], t[1])
    x = (
        np.asarray(im.convert("RGB").transform((ow, oh), Image.Transform.AFFINE, rows, Image.Resampling.BICUBIC))
        / 255.0
    )
    yy, xx = np.mgrid[0:oh, 0:ow]
    edge = np.hypot((xx - ow / 2) / (ow / 2), (yy - oh / 2) / (oh / 2))[..., None]
    rng = np.random.default_rng(look.seed)
    x = tone(1 - (1 - x) ** look.light, look.kind, edge, rng)  # above 1 it is printed lighter
    x = mount(x, look.kind, rng)
    out = Image.fromarray((np.clip(x, 0, 1) * 255 + 0.5).astype("uint8"))
    return out, {name: carried(p, look, (w, h)) for name, p in points.items()}
