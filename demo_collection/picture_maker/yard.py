"""Backdrops with depth: a clipped hedge of leaves, laths, plaster, glazing, the sound, a curtain, a window."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from . import materials
from .geometry import Vec, dice, fbm, unit
from .leaves import spread, template, tint
from .materials import Colour
from .pot import box
from .wood import mesh, sticks


def shade(colour: Colour, k: float) -> Colour:
    """A colour made darker or lighter."""
    r, g, b = (min(1.0, c * k) for c in colour)
    return r, g, b


def leaf_wall(y: float, colour: Colour, seed: int, size: float = 0.70) -> None:
    """A hedge: leaves on a rough upright surface, dark behind."""
    rng = dice(seed, 41)
    n = 26000
    x, z = rng.uniform(-21, 21, n), rng.uniform(-6, 18, n)
    bulge = fbm(np.stack([x * 0.28, z * 0.28, x * 0], -1), seed, 3)
    p = np.stack([x, y - 0.9 * bulge + rng.uniform(0, 0.9, n), z], 1)
    d = unit(np.c_[rng.normal(size=(n, 1)), np.full(n, -0.7), rng.normal(size=n) * 0.7 - 0.25])
    up = unit(np.c_[rng.normal(size=(n, 1)) * 0.5, np.full(n, -0.8), np.full(n, 0.7)])
    shape = template("oval")
    v, f = spread(shape, p, d, up, size * rng.uniform(0.5, 1.2, size=n))
    tone = np.array(colour) * rng.uniform(0.45, 1.35, size=(n, 1)) * (1 + 0.35 * bulge[:, None])
    mesh("hedge", v, f, materials.tinted("hedge", 0.55), True, tint(tone, len(shape[0])))
    back = np.array([(-60, y + 1.3, -9), (60, y + 1.3, -9), (60, y + 1.3, 30), (-60, y + 1.3, 30)], float)
    mesh("depth", back, [(0, 1, 2, 3)], materials.plain("depth", shade(colour, 0.12), 1.0))


def laths(y: float, colour: Colour, seed: int) -> None:
    """A screen of upright split laths with dark gaps."""
    rng = dice(seed, 42)
    wood = materials.boards("lath", shade(colour, 0.6), shade(colour, 1.25), 0.85, "z")
    x = -17.0
    while x < 17:
        wide = rng.uniform(0.55, 0.85)
        box("lath", (x, y + rng.uniform(-0.06, 0.06), 4.0), (wide, 0.12, 24), wood, 0.02)
        x += wide + rng.uniform(0.02, 0.07)
    for z in (-0.5, 4.6, 9.6):
        box("rail", (0, y + 0.3, z), (40, 0.3, 0.5), wood, 0.03)
    mesh(
        "depth",
        np.array([(-60, y + 1, -9), (60, y + 1, -9), (60, y + 1, 30), (-60, y + 1, 30)], float),
        [(0, 1, 2, 3)],
        materials.plain("depth", shade(colour, 0.35), 1.0),
    )


def plaster(y: float, colour: Colour) -> None:
    """A limewashed wall, stained by weather."""
    m, t, o = materials.blank("plaster")
    b = materials.shader(t, o, 0.95, 0.1)
    broad = materials.textured(t, materials.position(t, (1, 1, 0.5)), "TexNoise", Scale=0.35, Detail=5.0).outputs[0]
    fine = materials.textured(t, materials.position(t), "TexNoise", Scale=3.2, Detail=8.0, Roughness=0.7).outputs[0]
    n = materials.join(t, "ADD", materials.join(t, "MULTIPLY", broad, 0.65), materials.join(t, "MULTIPLY", fine, 0.35))
    t.links.new(
        materials.ramp(t, n, [(0.30, shade(colour, 0.68)), (0.5, colour), (0.68, shade(colour, 1.12))]), b.inputs[0]
    )
    materials.relief(t, fine, b, 0.5, 0.15)
    v = np.array([(-60, y, -9), (60, y, -9), (60, y, 30), (-60, y, 30)], float)
    mesh("backdrop", v, [(0, 1, 2, 3)], m)


def courses(y: float, colour: Colour, seed: int) -> None:
    """A wall of squared stone laid in courses, each block its own."""
    rng = dice(seed, 43)
    rough = [
        materials.stone(f"block{k}", shade(colour, 0.60 + 0.13 * k), shade(colour, 0.98 + 0.13 * k), 1.6, 0.9)
        for k in range(3)
    ]
    z = -3.0
    while z < 13:
        high, x = rng.uniform(0.8, 2.0), -19 + rng.uniform(-1.5, 0)
        while x < 19:
            wide = rng.uniform(1.0, 4.2)
            place = (x + wide / 2, y + rng.uniform(-0.10, 0.10), z + high / 2)
            box("block", place, (wide - 0.05, 1.0, high - 0.05), rough[int(rng.integers(3))], 0.07)
            x += wide
        z += high
    face = y - 0.36  # the joints are filled almost to the face of the blocks
    v = np.array([(-60, face, -9), (60, face, -9), (60, face, 30), (-60, face, 30)], float)
    mesh("mortar", v, [(0, 1, 2, 3)], materials.plain("mortar", shade(colour, 0.72), 1.0))


def glazing(y: float, colour: Colour) -> None:
    """The bars of a glasshouse against a white sky, with something green outside."""
    m, t, o = materials.blank("sky")
    glow = materials.node(t, "Emission", Strength=0.95)
    n = materials.textured(t, materials.position(t, (1, 1, 1.5)), "TexNoise", Scale=0.14, Detail=4.0).outputs[0]
    z = materials.node(t, "SeparateXYZ")
    t.links.new(materials.position(t, (1, 1, 0.055)), z.inputs[0])
    level = materials.join(t, "ADD", z.outputs[2], materials.join(t, "MULTIPLY", n, 0.5))
    stops = [(0.22, (0.10, 0.14, 0.08)), (0.40, (0.22, 0.28, 0.19)), (0.55, (0.55, 0.60, 0.60)), (0.8, colour)]
    t.links.new(materials.ramp(t, level, stops), glow.inputs[0])
    t.links.new(glow.outputs[0], o.inputs[0])
    v = np.array([(-60, y + 12, -9), (60, y + 12, -9), (60, y + 12, 40), (-60, y + 12, 40)], float)
    mesh("outside", v, [(0, 1, 2, 3)], m)
    paint = materials.plain("bar", (0.50, 0.52, 0.50), 0.6)
    for x in np.arange(-15.2, 16, 3.8):
        box("bar", (float(x), y, 6), (0.22, 0.4, 30), paint, 0.03)
    for z_ in (-0.4, 6.4, 13.2):
        box("bar", (0, y, z_), (40, 0.35, 0.28), paint, 0.03)


def sound(y: float, seed: int) -> None:
    """The sound: ripples, two headlands, a pale sky with some cloud."""
    m, t, o = materials.blank("sky")
    glow = materials.node(t, "Emission", Strength=0.9)
    cloud = materials.textured(t, materials.position(t, (0.4, 1, 1.6)), "TexNoise", Scale=0.10, Detail=5.0).outputs[0]
    t.links.new(materials.ramp(t, cloud, [(0.36, (0.42, 0.52, 0.62)), (0.62, (0.70, 0.73, 0.75))]), glow.inputs[0])
    t.links.new(glow.outputs[0], o.inputs[0])
    v = np.array([(-120, y + 60, -20), (120, y + 60, -20), (120, y + 60, 60), (-120, y + 60, 60)], float)
    mesh("sky", v, [(0, 1, 2, 3)], m)
    for far, high, tone in ((55, 4.2, (0.27, 0.32, 0.36)), (42, 2.6, (0.15, 0.19, 0.19))):
        x = np.linspace(-70, 70, 160)
        h = high * np.clip(0.35 + 0.9 * fbm(np.stack([x * 0.035 + far, x * 0, x * 0], -1), seed + int(far), 4), 0, 2)
        base = np.full_like(x, 0.0)
        points = np.r_[np.c_[x, np.full(160, y + far), base - 1.5], np.c_[x, np.full(160, y + far), base + h]]
        faces: list[tuple[int, ...]] = [(i, i + 1, 161 + i, 160 + i) for i in range(159)]
        haze, ht, ho = materials.blank("land")
        e = materials.node(ht, "Emission", Strength=0.8)
        e.inputs[0].default_value = (*tone, 1)
        ht.links.new(e.outputs[0], ho.inputs[0])
        mesh("headland", points, faces, haze)
    w, wt, wo = materials.blank("sea")
    b = materials.shader(wt, wo, 0.18, 0.5)
    b.inputs["Base Color"].default_value = (0.10, 0.15, 0.17, 1)
    n = materials.textured(wt, materials.position(wt, (0.25, 0.9, 1)), "TexNoise", Scale=1.1, Detail=5.0).outputs[0]
    materials.relief(wt, n, b, 0.8, 0.6)
    s = np.array([(-120, y - 16, -1.2), (120, y - 16, -1.2), (120, y + 60, -0.6), (-120, y + 60, -0.6)], float)
    mesh("water", s, [(0, 1, 2, 3)], w)


def hull(y: float) -> None:
    """A boat on the stocks: keel, ribs, and planks up to half her height."""
    wood = materials.boards("hull", (0.16, 0.11, 0.07), (0.34, 0.26, 0.17), 0.8)

    def rib(x: float) -> Vec:
        f = 1 - (x / 9.5) ** 2
        half, deep = 3.4 * max(0.06, f) ** 0.6, 3.6
        a = np.linspace(0, math.pi / 2, 12)
        side = np.c_[
            np.full(12, x), half * np.sin(a) ** 0.8, -0.6 + deep * (1 - np.cos(a)) * (1.05 + 0.05 * abs(x) / 9)
        ]
        out: Vec = np.vstack([side[::-1] * np.array([1, -1, 1]), side[1:]]) + np.array([1.5, y, 0.2])
        return out

    a, b = [], []
    xs = np.linspace(-9, 9, 15)
    ribs = [rib(float(x)) for x in xs]
    for r in ribs:
        a += list(r[:-1])
        b += list(r[1:])
    sticks("ribs", np.array(a), np.array(b), np.full(len(a), 0.10), np.full(len(a), 0.10), wood, np.zeros(len(a)))
    for k in range(2, 9):
        plank = np.array([r[k + 10] * np.array([1, 1, 1]) for r in ribs])
        near = np.array([r[12 - k] for r in ribs])
        for line in (plank, near):
            low = line + np.array([0, 0, -0.19])
            high = line + np.array([0, 0, 0.19])
            points = np.vstack([low, high])
            mesh("strake", points, [(i, i + 1, 16 + i, 15 + i) for i in range(14)], wood, False)
    for x in (-6.0, 0.0, 6.0):
        box("prop", (x + 1.5, y - 3.0, -1.0), (0.4, 0.4, 4.0), wood)


def curtain(y: float, colour: Colour) -> None:
    """Heavy cloth in folds."""
    x = np.linspace(-18, 18, 700)
    fold = 0.35 * np.sin(x * 2.6 + 1.2 * np.sin(x * 0.7)) + 0.12 * np.sin(x * 6.1 + 2)
    points = np.r_[np.c_[x, y + fold, np.full(700, -8.0)], np.c_[x, y + fold * 0.8, np.full(700, 18.0)]]
    mesh(
        "curtain", points, [(i, i + 1, 701 + i, 700 + i) for i in range(699)], materials.plain("curtain", colour, 0.95)
    )


def window(y: float, colour: Colour) -> None:
    """A plastered wall with the painted frame of a window."""
    plaster(y, colour)
    paint = materials.plain("frame", (0.62, 0.60, 0.54), 0.5)
    dark: Any = materials.plain("pane", (0.035, 0.04, 0.045), 0.15)
    box("pane", (-1.0, y - 0.02, 5.4), (8.4, 0.05, 6.6), dark, 0.01)
    for x in (-5.2, -3.1, -1.0, 1.1, 3.2):
        box("bar", (x, y - 0.12, 5.4), (0.42 if x in (-5.2, 3.2) else 0.16, 0.3, 7.0), paint, 0.03)
    for z in (1.9, 4.2, 6.6, 8.9):
        box("bar", (-1.0, y - 0.12, z), (8.8, 0.3, 0.5 if z in (1.9, 8.9) else 0.16), paint, 0.03)
    box("sill", (-1.0, y - 0.35, 1.5), (9.6, 0.8, 0.3), paint, 0.04)


def build_yard(kind: str, y: float, colour: Colour, seed: int) -> bool:
    """Build the backdrop of that name; false if it is not one of these."""
    if kind == "leaves":
        leaf_wall(y, colour, seed)
    elif kind == "laths":
        laths(y, colour, seed)
    elif kind == "plaster":
        plaster(y, colour)
    elif kind == "courses":
        courses(y, colour, seed)
    elif kind == "glazing":
        glazing(y, colour)
    elif kind == "sound":
        sound(y, seed)
    elif kind == "slip":
        sound(y + 6, seed)
        hull(y)
    elif kind == "curtain":
        curtain(y, colour)
    elif kind == "window":
        window(y, colour)
    else:
        return False
    return True
