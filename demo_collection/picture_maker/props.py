"""What stands beside a tree: labels, a staff, tools, an accent plant, empty pots, a box of land, fallen leaves."""

from __future__ import annotations

import math
from dataclasses import dataclass

import bpy
import numpy as np

from . import materials
from .geometry import Vec, dice, unit
from .ground import Ground
from .leaves import spread, template, tint
from .materials import Colour
from .pot import Filled, Pot, box, build_pot, lathe
from .wood import mesh
from .working import curve


@dataclass(frozen=True)
class Props:
    """Things by name: label, staff, shears, chopsticks, accent, pots, raffia, bucket, land. `leaves`: on the bench."""

    things: tuple[str, ...] = ()
    leaves: tuple[str, float, tuple[Colour, ...], int] | None = None
    side: float = 1.0
    """On which side they lie: 1 right, -1 left."""


def bar(name: str, a: Vec, b: Vec, radius: float, material: object) -> None:
    """A round rod from one place to another."""
    curve(name, np.array([a, b]), radius, material)


def label(filled: Filled, pot: Pot, side: float) -> None:
    """A blank zinc label on a stem at the edge of the pot."""
    x, y = side * pot.a * 0.70, -pot.b * 0.45
    z = filled.surface(x, y)
    zinc = materials.plain("zinc", (0.42, 0.43, 0.44), 0.45, 0.7)
    bar("stem", np.array([x, y, z - 0.1]), np.array([x, y, z + 0.34]), 0.012, zinc)
    plate = box("label", (x, y - 0.02, z + 0.42), (0.42, 0.015, 0.2), zinc, 0.01)
    plate.rotation_euler = (0.35, 0.0, 0.18 * side)


def staff(pot: Pot, side: float) -> None:
    """A measuring staff beside the pot, marked every ten centimetres."""
    x = side * (pot.a + 0.75)
    for i in range(9):
        tone = (0.62, 0.60, 0.55) if i % 2 else (0.05, 0.05, 0.05)
        box("staff", (x, 0.0, i + 0.5), (0.16, 0.05, 1.0), materials.plain("staff", tone, 0.5), 0.004)
    box("foot", (x, 0, 0.04), (0.7, 0.7, 0.08), materials.plain("iron", (0.06, 0.06, 0.06), 0.5, 0.6))


def shears(pot: Pot, side: float) -> None:
    """A pair of plain iron shears on the bench."""
    iron = materials.plain("shears", (0.10, 0.10, 0.105), 0.38, 0.8)
    o = np.array([side * (pot.a + 0.9), -1.5, 0.045])
    for k in (-1, 1):
        d = unit(np.array([-0.8 * side, 0.30 + 0.10 * k, 0.0]))
        bar("blade", o, o + d * 0.75, 0.035, iron)
        n = np.array([-d[1], d[0], 0.0]) * k
        loop = [
            o - d * (0.15 + 0.5 * (1 - math.cos(a)) / 2) + n * (0.16 + 0.13 * math.sin(a))
            for a in np.linspace(0, 6.29, 30)
        ]
        curve("handle", np.array(loop), 0.028, iron)


def accent(pot: Pot, side: float, seed: int) -> None:
    """A tuft of grass in a small pot of its own."""
    rng = dice(seed, 91)
    x, y = side * (pot.a + 1.35), -0.9
    small = Pot(0.42, 0.42, 0.24, 2, (0.05, 0.05, 0.055), (0.12, 0.12, 0.12), 0.5, 0.2, 0.8, 0.12, False)
    before = set(bpy.data.objects)
    rim, _ = lathe(small, 0.0, materials.glaze(small.dark, small.light, 0.5, 0.2))
    for ob in set(bpy.data.objects) - before:
        ob.location = (x, y, 0)
    n = 120
    foot = np.c_[rng.normal(size=(n, 2)) * 0.13 + np.array([x, y]), np.full(n, rim - 0.03)]
    lean = np.c_[rng.normal(size=(n, 2)) * 0.34, rng.uniform(0.5, 1.1, size=n)]
    middle, tip = foot + lean * 0.6, foot + lean * np.array([1.7, 1.7, 0.85])
    w = unit(np.cross(lean, rng.normal(size=(n, 3)))) * 0.018
    v = np.stack([foot - w, foot + w, middle - w, middle + w, tip], 1).reshape(-1, 3)
    base = np.arange(n)[:, None] * 5
    f = np.vstack([base + np.array(t) for t in ((0, 1, 3), (0, 3, 2), (2, 3, 4))])
    tone = np.array([0.10, 0.15, 0.035]) * rng.uniform(0.6, 1.3, size=(n, 1))
    mesh("grass", v, f, materials.tinted("grass", 0.6), True, tint(tone, 5))
    bed = np.c_[
        np.cos(np.linspace(0, 6.2, 24)) * 0.37 + x, np.sin(np.linspace(0, 6.2, 24)) * 0.37 + y, np.full(24, rim - 0.04)
    ]
    mesh("bed", bed, [tuple(range(24))], materials.plain("bed", (0.045, 0.06, 0.015), 0.95))


def pots(pot: Pot, side: float) -> None:
    """Two empty clay pots, one in the other, behind."""
    clay = materials.glaze((0.20, 0.085, 0.05), (0.32, 0.15, 0.09), 0.85, 0.0)
    x = side * (pot.a + 2.3)
    for k in range(2):
        before = set(bpy.data.objects)
        lathe(Pot(0.75, 0.75, 1.05, 2, taper=0.7, rim=0.08, feet=False), 0.35 * k, clay)
        for ob in set(bpy.data.objects) - before:
            ob.location = (x, 1.5, 0)


LAND = (0.9, 2.35, 0.62)
"""Where the box with the land of a planting stands, behind its tray, and how high its soil is."""


def land(seed: int) -> None:
    """A shallow box behind the tray, that holds what has been lifted off it."""
    before = set(bpy.data.objects)
    grey = ((0.10, 0.095, 0.085), (0.22, 0.21, 0.19))
    build_pot(Pot(3.0, 0.95, 0.55, 60, *grey, moss=0.66, kind="crate", mound=0.15, ground=Ground("loam")), 0.0, seed)
    for ob in set(bpy.data.objects) - before:
        ob.location = (ob.location[0] + LAND[0], ob.location[1] + LAND[1], ob.location[2])


def build_props(p: Props, filled: Filled, pot: Pot, seed: int) -> None:
    """Set out the things of one picture."""
    side = p.side
    for thing in p.things:
        if thing == "label":
            label(filled, pot, side)
        elif thing == "staff":
            staff(pot, -side)
        elif thing == "shears":
            shears(pot, side)
        elif thing == "accent":
            accent(pot, side, seed)
        elif thing == "pots":
            pots(pot, side)
        elif thing == "chopsticks":
            wood = materials.plain("stick", (0.36, 0.25, 0.14), 0.7)
            for k in (0, 1):
                a = np.array([-side * (pot.a + 0.3 + 0.2 * k), -1.7 + 0.16 * k, 0.04])
                bar("chopstick", a, a + np.array([-side * 1.9, 0.35 - 0.2 * k, 0.0]), 0.03, wood)
        elif thing == "land":
            land(seed)
        elif thing == "raffia":
            straw = materials.plain("raffia", (0.50, 0.38, 0.20), 0.9)
            for k in range(14):
                r = 0.36 + 0.02 * math.sin(k * 2.7)
                ring = [
                    (math.cos(a) * r, math.sin(a) * r * 0.8, 0.03 + 0.012 * k + 0.02 * math.sin(3 * a + k))
                    for a in np.linspace(0, 6.29, 40)
                ]
                curve("raffia", np.array(ring) + np.array([side * (pot.a + 1.2), -1.3, 0]), 0.014, straw)
        elif thing == "bucket":
            zinc = materials.plain("zinc", (0.36, 0.37, 0.38), 0.4, 0.8)
            before = set(bpy.data.objects)
            lathe(Pot(0.95, 0.95, 1.5, 2, taper=0.78, rim=0.03, feet=False), 0.0, zinc)
            for ob in set(bpy.data.objects) - before:
                ob.location = (-side * (pot.a + 2.1), 1.3, 0)
        else:
            raise ValueError(f"no thing is called {thing!r}")
    if p.leaves:
        kind, size, palette, count = p.leaves
        rng = dice(seed, 92)
        place = np.c_[rng.normal(size=count) * pot.a * 1.1, rng.uniform(-3.0, 2.2, size=count), np.full(count, 0.02)]
        outside = np.abs(place[:, 0] / pot.a) ** 2 + np.abs(place[:, 1] / pot.b) ** 2 > 1.05
        place = place[outside]
        m = len(place)
        x = unit(np.c_[rng.normal(size=(m, 2)), rng.normal(size=m) * 0.08])
        up = unit(np.c_[rng.normal(size=(m, 2)) * 0.15, np.ones(m)])
        shape = template(kind)
        v, f = spread(shape, place + np.array([0, 0, 0.02]), x, up, size * rng.uniform(0.75, 1.1, size=m))
        tones = np.array(palette)[rng.integers(len(palette), size=m)] * rng.uniform(0.6, 1.1, size=(m, 1))
        mesh("fallen", v, f, materials.tinted("fallen", 0.7), True, tint(tones, len(shape[0])))
