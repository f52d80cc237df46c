"""How each decade's pictures look: colour, contrast and grain by kind, and the paper's edge."""

from __future__ import annotations

import numpy as np
from PIL import Image, ImageFilter

from .geometry import Vec


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


def black_and_white(x: Vec) -> Vec:
    """One layer of tones, as a film that sees blue well."""
    out: Vec = np.clip(((x @ np.array([0.25, 0.55, 0.20]))[..., None] - 0.02) * 1.15, 0, 1)
    return out


def screen(x: Vec, pitch: float) -> Vec:
    """The dots of a printed page, at forty-five degrees."""
    yy, xx = np.mgrid[0 : x.shape[0], 0 : x.shape[1]]
    u, v = (xx + yy) * np.pi / pitch, (xx - yy) * np.pi / pitch
    dot = (np.cos(u) * np.cos(v) + 1) / 2
    out: Vec = np.clip((x - dot[..., None] * 0.9 + 0.02) * 3.2 + 0.5, 0, 1)
    return out


def metered(x: Vec) -> Vec:
    """What a camera's meter does: the lightest hundredth comes near to white; a dark room stays dark."""
    light = x.mean(2)
    most = 1.06 if np.median(light) < 0.30 else 1.24
    y = x * float(np.clip(0.85 / np.percentile(light, 99), 1.0, most))
    over = np.maximum(y - 0.85, 0)
    out: Vec = np.minimum(y, 0.85) + 0.15 * (1 - np.exp(-over / 0.15))
    return out


def tone(x: Vec, kind: str, edge: Vec, rng: np.random.Generator) -> Vec:
    """Colour, contrast and darkening to the corners."""
    if kind == "sepia":
        light = black_and_white(blur(x, 1.2)) ** 0.95
        x = light * np.array([1.0, 0.93, 0.80]) * 0.86 + np.array([0.085, 0.065, 0.04])
        return grain(x * (1 - 0.20 * edge**2), rng, 0.016, 0.6)
    if kind == "bw":
        light = black_and_white(blur(x, 1.0))
        light = light * light * (3 - 2 * light) * 0.4 + light * 0.6
        x = light * np.array([0.96, 0.95, 0.92]) * 0.92 + 0.035
        return grain(x * (1 - 0.22 * edge**2), rng, 0.018, 0.6)
    if kind == "halftone":
        light = black_and_white(blur(x, 1.4)) ** 0.85
        x = screen(light * 0.94 + 0.03, 5.0) * 0.75 + 0.09
        return grain(x * np.array([1.0, 0.975, 0.91]), rng, 0.008, 0.4)
    if kind == "faded":  # cyan has gone, blacks have lifted
        x = blur(x, 0.9)
        light = x.mean(2, keepdims=True)
        x = (light + (x - light) * 0.66) * np.array([0.80, 0.70, 0.60]) + np.array([0.17, 0.125, 0.10])
        return grain(x * (1 - 0.15 * edge**2), rng, 0.013, 0.5)
    if kind == "instant":  # thin shadows, yellowed whites
        x = blur(x, 1.5)
        light = x.mean(2, keepdims=True)
        x = (light + (x - light) * 0.72) * np.array([0.82, 0.80, 0.66]) + np.array([0.10, 0.12, 0.11])
        return grain(x * (1 - 0.24 * edge**2), rng, 0.010, 0.7)
    if kind == "slide":
        x = np.clip(blur(x, 0.6), 0, 1)
        x = x * x * (3 - 2 * x) * 0.5 + x * 0.5
        light = x.mean(2, keepdims=True)
        x = (light + (x - light) * 1.08) * np.array([1.05, 0.985, 0.90]) + np.array([0.02, 0.012, 0.02])
        return grain(x * (1 - 0.20 * edge**2), rng, 0.010, 0.4, False)
    if kind == "print90":  # glossy, a little blue-green
        x = np.clip(metered(blur(x, 0.8)), 0, 1)
        light = x.mean(2, keepdims=True)
        x = (light + (x - light) * 1.02) * np.array([0.915, 0.965, 0.95]) + np.array([0.025, 0.038, 0.046])
        return grain(x * (1 - 0.10 * edge**2), rng, 0.011, 0.5, False)
    if kind == "phone":  # over-sharpened, shadows lifted
        x = metered(x)
        light = x.mean(2, keepdims=True)
        x = x * (1 + 0.30 * (1 - np.clip(light * 2.2, 0, 1)))
        x = x + 0.75 * (x - blur(x, 1.3))
        x = x.mean(2, keepdims=True) + (x - x.mean(2, keepdims=True)) * 1.16
        return grain(x, rng, 0.007, 0, False)
    if kind == "early":  # small sensor: highlights gone, coloured noise
        x = np.clip(blur(x, 1.1) * 1.10, 0, 1)
        x = x + 0.9 * (x - blur(x, 2.0))
        return grain(x * np.array([1.02, 1.0, 0.97]), rng, 0.016, 0.8, False)
    return grain(metered(x), rng, 0.004, 0, False)


PAPER = {
    "sepia": (0.93, 0.90, 0.83),
    "bw": (0.93, 0.92, 0.90),
    "faded": (0.93, 0.91, 0.88),
    "instant": (0.92, 0.92, 0.88),
    "print90": (0.94, 0.95, 0.95),
    "halftone": (0.90, 0.87, 0.79),
}


def margins(kind: str, width: int, height: int) -> tuple[int, int]:
    """How wide the paper shows at the sides and above, and how wide below, in pixels; none of what has no paper."""
    if kind not in PAPER:
        return 0, 0
    side = round({"print90": 0.022, "halftone": 0.05}.get(kind, 0.032) * min(width, height))
    return side, round(0.17 * height) if kind == "instant" else side


def mount(x: Vec, kind: str, rng: np.random.Generator) -> Vec:
    """Dust, scratches, and the white edge of a print or page."""
    oh, ow = x.shape[:2]
    yy, xx = np.mgrid[0:oh, 0:ow]
    paper = PAPER.get(kind)
    if paper is None:
        return x
    if kind in ("sepia", "bw", "faded"):
        for _ in range(22):  # dust
            px, py, r = rng.uniform(0, ow), rng.uniform(0, oh), rng.uniform(0.6, 1.6)
            spot = (xx - px) ** 2 + (yy - py) ** 2 < r * r
            x[spot] = x[spot] * 0.4 + 0.5
        for _ in range(3):  # scratches
            px, py, long = rng.uniform(0, ow), rng.uniform(0, oh), rng.uniform(20, 110)
            line = (np.abs(xx - px - (yy - py) * 0.06) < 0.7) & (yy > py) & (yy < py + long)
            x[line] = x[line] * 0.75 + 0.2
    b, low = margins(kind, ow, oh)
    border = (xx < b) | (yy < b) | (xx >= ow - b) | (yy >= oh - low)
    x[border] = np.array(paper) + rng.normal(size=(int(border.sum()), 1)) * 0.004
    if kind == "bw":  # the deckle of the fifties: a wavy cut, seen on the grey lid of the scanner

        def wave(t: Vec, k: float) -> Vec:
            cut: Vec = 3.5 + 2.2 * np.sin(t * 0.55 + k) + 1.2 * np.sin(t * 1.31 + 2 * k)
            return cut

        outside = (xx < wave(yy, 0.3)) | (yy < wave(xx, 1.7)) | (ow - xx < wave(yy, 2.9)) | (oh - yy < wave(xx, 4.1))
        x[outside] = np.array([0.80, 0.80, 0.79])
    return x
