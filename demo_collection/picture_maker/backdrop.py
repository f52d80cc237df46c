"""What stands behind a tree: a swept wall, cloth, boards, dry stone, a hedge, or the sound."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from . import materials
from .stage import Stage
from .wood import mesh
from .yard import build_yard, shade


def sheet(y: float, low: float, high: float, material: Any) -> None:
    """An upright plane across the picture."""
    v = np.array([(-60, y, low), (60, y, low), (60, y, high), (-60, y, high)], float)
    mesh("backdrop", v, [(0, 1, 2, 3)], material)


def ground(y: float, material: Any) -> None:
    """Ground below the bench."""
    v = np.array([(-60, -12, -8.0), (60, -12, -8.0), (60, y, -8.0), (-60, y, -8.0)], float)
    mesh("ground", v, [(0, 1, 2, 3)], material)


def build_backdrop(s: Stage) -> None:
    """What stands behind the tree."""
    yb = s.behind
    if build_yard(s.backdrop, yb, s.wall, round(s.wall[0] * 1000) % 97):
        if s.backdrop not in ("sound", "slip", "glazing"):
            ground(yb, materials.plain("ground", (0.16, 0.155, 0.14), 0.95))
        return
    dark, light = shade(s.wall, 0.88), shade(s.wall, 1.08)
    m, t, o = materials.blank("backdrop")
    b = materials.shader(t, o, 1.0, 0.0)
    if s.backdrop == "wall":
        n = materials.textured(t, materials.position(t), "TexNoise", Scale=0.16, Detail=2.0)
        t.links.new(materials.ramp(t, n.outputs[0], [(0.3, dark), (0.7, light)]), b.inputs[0])
        profile = [(-8.0, -6.0), (yb - 3, -6.0)]
        profile += [(yb - 3 + 3 * math.sin(a), -3 - 3 * math.cos(a)) for a in np.linspace(0, math.pi / 2, 12)]
        profile.append((yb, 30.0))
        v = np.array([(x, y, z) for y, z in profile for x in (-40, 40)], float)
        mesh("backdrop", v, [(2 * i, 2 * i + 1, 2 * i + 3, 2 * i + 2) for i in range(len(profile) - 1)], m)
        return
    if s.backdrop == "cloth":
        n = materials.textured(t, materials.position(t, (1.1, 1, 0.06)), "TexNoise", Scale=1.0, Detail=3.0).outputs[0]
        dim = shade(s.wall, 0.45)
        t.links.new(materials.ramp(t, n, [(0.3, dim), (0.7, s.wall)]), b.inputs[0])
        materials.relief(t, n, b, 0.8, 0.6)
    elif s.backdrop == "boards":
        g = materials.node(t, "NewGeometry")
        turn = materials.node(t, "Mapping")
        turn.inputs["Rotation"].default_value = (math.pi / 2, 0, 0)
        t.links.new(g.outputs["Position"], turn.inputs[0])
        lay = materials.textured(
            t,
            turn.outputs[0],
            "TexBrick",
            Scale=1.0,
            **{"Brick Width": 30.0, "Row Height": 1.5, "Mortar Size": 0.035},
        )
        for k, c in (("Color1", dark), ("Color2", light), ("Mortar", (0.02, 0.018, 0.015))):
            lay.inputs[k].default_value = (*c, 1)
        grain = materials.textured(t, materials.position(t, (0.2, 1, 4)), "TexNoise", Scale=2.0, Detail=6.0).outputs[0]
        streak = materials.ramp(t, grain, [(0.3, (0.6, 0.6, 0.6)), (0.7, (1, 1, 1))])
        x = materials.node(t, "Mix", data_type="RGBA", blend_type="MULTIPLY")
        x.inputs[0].default_value = 1.0
        t.links.new(lay.outputs[0], x.inputs[6])
        t.links.new(streak, x.inputs[7])
        t.links.new(x.outputs[2], b.inputs[0])
    elif s.backdrop == "stones":
        bend = materials.textured(t, materials.position(t), "TexNoise", Scale=0.9, Detail=4.0).outputs["Color"]
        place = materials.node(t, "Mix", data_type="VECTOR")
        place.inputs[0].default_value = 0.32
        t.links.new(materials.position(t, (0.42, 0.0, 1.05)), place.inputs[4])
        t.links.new(bend, place.inputs[5])
        cells = materials.textured(t, place.outputs[1], "TexVoronoi", Scale=2.1, feature="DISTANCE_TO_EDGE").outputs[0]
        tone = materials.textured(t, place.outputs[1], "TexVoronoi", Scale=2.1).outputs["Color"]
        grey = materials.node(t, "RGBToBW")
        t.links.new(tone, grey.inputs[0])
        stone = materials.ramp(t, grey.outputs[0], [(0.2, shade(s.wall, 0.62)), (0.8, shade(s.wall, 1.3))])
        gap = materials.ramp(t, cells, [(0.0, (0, 0, 0)), (0.045, (1, 1, 1))])
        mortar = materials.node(t, "RGB")
        mortar.outputs[0].default_value = (*shade(s.wall, 0.30), 1)
        t.links.new(materials.blend(t, gap, mortar.outputs[0], stone), b.inputs[0])
    elif s.backdrop == "hedge":
        place = materials.position(t)
        broad = materials.textured(t, place, "TexNoise", Scale=0.55, Detail=3.0).outputs[0]
        fine = materials.textured(t, place, "TexVoronoi", Scale=9.0).outputs["Color"]
        grey = materials.node(t, "RGBToBW")
        t.links.new(fine, grey.inputs[0])
        leafy = materials.join(t, "MULTIPLY", grey.outputs[0], 0.38)
        n = materials.join(t, "ADD", materials.join(t, "MULTIPLY", broad, 0.75), leafy)
        stops = [(0.38, shade(s.wall, 0.30)), (0.58, s.wall), (0.82, shade(s.wall, 1.6))]
        t.links.new(materials.ramp(t, n, stops), b.inputs[0])
    else:  # the sound: far shore, water, pale sky
        split = materials.node(t, "SeparateXYZ")
        t.links.new(materials.position(t, (0.01, 0.01, 0.05)), split.inputs[0])
        sway = materials.textured(t, materials.position(t, (1, 1, 0.2)), "TexNoise", Scale=0.10, Detail=3.0).outputs[0]
        level = materials.join(t, "ADD", split.outputs[2], materials.join(t, "MULTIPLY", sway, 0.06))
        stops = [
            (0.02, (0.16, 0.21, 0.22)),
            (0.135, (0.34, 0.42, 0.44)),
            (0.15, (0.17, 0.21, 0.22)),
            (0.185, (0.22, 0.26, 0.29)),
            (0.20, (0.60, 0.64, 0.66)),
            (0.6, (0.55, 0.63, 0.72)),
        ]
        colour = materials.ramp(t, level, stops)
        glow = materials.node(t, "Emission", Strength=0.9)
        t.links.new(colour, glow.inputs[0])
        t.links.new(glow.outputs[0], o.inputs[0])
    sheet(yb, -9, 30, m)
    ground(yb, materials.plain("ground", (0.16, 0.155, 0.14), 0.95))
