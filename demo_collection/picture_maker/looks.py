"""Makes a render look like a print, a slide or a digital picture, moved by an exactly known similarity."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image

from .prints import mount, tone


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


def finish(im: Image.Image, points: dict[str, list[float]], look: Look) -> tuple[Image.Image, dict[str, list[float]]]:
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
        np.asarray(im.convert("RGB").transform((ow, oh), Image.Transform.AFFINE, rows, Image.Resampling.BICUBIC))
        / 255.0
    )
    yy, xx = np.mgrid[0:oh, 0:ow]
    edge = np.hypot((xx - ow / 2) / (ow / 2), (yy - oh / 2) / (oh / 2))[..., None]
    rng = np.random.default_rng(look.seed)
    x = tone(1 - (1 - x) ** look.light, look.kind, edge, rng)  # above 1 it is printed lighter
    x = mount(x, look.kind, rng)
    out = Image.fromarray((np.clip(x, 0, 1) * 255 + 0.5).astype("uint8"))
    moved = {k: [round(float(v), 1) for v in m @ (np.array(p) - was) + now] for k, p in points.items()}
    return out, moved
