"""Bark that follows the grain of each limb: plates, flakes, rings, and the bleached wood of dead parts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from .materials import Colour, blank, blend, join, node, ramp, relief, shader, textured


@dataclass(frozen=True)
class Bark:
    """How the wood looks: four colours from fissure to ridge, and how deep the relief is."""

    colours: tuple[Colour, Colour, Colour, Colour]
    scale: float = 9.0
    stretch: float = 0.28
    strength: float = 0.6
    relief: float = 0.02
    muscle: float = 0.10
    twist: float = 0.25
    plates: bool = False
    deadwood: float = 0.0
    turn: float = 0.0
    flakes: float = 0.0
    """Share of the trunk where bark has come away in patches and shows `flake_colour`."""

    flake_colour: Colour = (0.30, 0.15, 0.08)
    melt: int = 1
    """How far roots have melted into the foot of the trunk, in rounds of smoothing."""

    twig: Colour | None = None
    """The colour of twigs, where it is not that of the trunk."""

    bleach: float = 1.0
    """How pale dead wood has become: 1 is the bone white of old juniper."""

    bands: float = 0.0
    """How strong the dark rings of a cherry are."""


def bark(k: Bark) -> Any:
    """Bark that follows the grain of each limb, with plates for a pine or a bleached strip for deadwood."""
    m, t, o = blank("bark")
    b = shader(t, o, 0.85, 0.25)
    grain = node(t, "Attribute", attribute_name="grain")
    mp = node(t, "Mapping")
    mp.inputs["Scale"].default_value = (1, 1, k.stretch)
    t.links.new(grain.outputs["Vector"], mp.inputs[0])
    fine = textured(t, mp.outputs[0], "TexNoise", Scale=k.scale, Detail=8.0, Roughness=0.62).outputs[0]
    broad = textured(t, grain.outputs["Vector"], "TexNoise", Scale=2.2, Detail=4.0).outputs[0]
    tone = join(t, "ADD", join(t, "MULTIPLY", fine, 0.65), join(t, "MULTIPLY", broad, 0.38))
    height = fine
    if k.plates:
        cells = textured(t, mp.outputs[0], "TexVoronoi", Scale=k.scale * 0.72, feature="DISTANCE_TO_EDGE").outputs[0]
        edge = join(t, "MINIMUM", join(t, "MULTIPLY", cells, 3.2), 0.42)
        tone = join(t, "ADD", join(t, "MULTIPLY", tone, 0.78), join(t, "MULTIPLY", edge, 0.30))
        height = join(t, "ADD", join(t, "MULTIPLY", fine, 0.5), join(t, "MULTIPLY", edge, 1.1))
    colour = ramp(t, tone, list(zip((0.36, 0.48, 0.58, 0.70), k.colours, strict=True)))
    if k.flakes:
        patch = textured(t, grain.outputs["Vector"], "TexNoise", Scale=4.6, Detail=3.5).outputs[0]
        edge_ = 0.72 - 0.4 * k.flakes
        share = ramp(t, patch, [(edge_, (0, 0, 0)), (edge_ + 0.03, (1, 1, 1))])
        aged: Colour = (k.flake_colour[0] * 0.62, k.flake_colour[1] * 0.72, k.flake_colour[2] * 0.82)
        under = ramp(t, broad, [(0.38, aged), (0.60, k.flake_colour)])
        colour = blend(t, share, colour, under)
    if k.bands:
        ring = node(t, "Mapping")
        ring.inputs["Scale"].default_value = (0.5, 0.5, 5.0)
        t.links.new(grain.outputs["Vector"], ring.inputs[0])
        lines = textured(t, ring.outputs[0], "TexNoise", Scale=3.0, Detail=3.0).outputs[0]
        dark_ = ramp(t, lines, [(0.36, (1 - k.bands,) * 3), (0.50, (1, 1, 1))])
        x = node(t, "Mix", data_type="RGBA", blend_type="MULTIPLY")
        x.inputs[0].default_value = 1.0
        t.links.new(colour, x.inputs[6])
        t.links.new(dark_, x.inputs[7])
        colour = x.outputs[2]
    if k.twig:
        slim = node(t, "Attribute", attribute_name="girth").outputs["Fac"]
        wood = node(t, "RGB")
        wood.outputs[0].default_value = (*k.twig, 1)
        colour = blend(t, ramp(t, slim, [(0.022, (1, 1, 1)), (0.075, (0, 0, 0))]), colour, wood.outputs[0])
    dead = node(t, "Attribute", attribute_name="dead").outputs["Fac"]
    streaks = node(t, "Mapping")
    streaks.inputs["Scale"].default_value = (1, 1, 0.07)
    t.links.new(grain.outputs["Vector"], streaks.inputs[0])
    line = textured(t, streaks.outputs[0], "TexNoise", Scale=14.0, Detail=6.0, Roughness=0.6).outputs[0]
    pale = [(0.34, (0.11, 0.085, 0.065)), (0.47, (0.46, 0.42, 0.35)), (0.66, (0.70, 0.665, 0.60))]
    bleached = ramp(t, line, [(at, (r * k.bleach, g * k.bleach, u * k.bleach)) for at, (r, g, u) in pale])
    if k.deadwood:
        round_ = node(t, "Attribute", attribute_name="around")
        split = node(t, "SeparateXYZ")
        t.links.new(round_.outputs["Vector"], split.inputs[0])
        side = join(t, "MULTIPLY", join(t, "ADD", join(t, "MULTIPLY", fine, 0.8), split.outputs[0]), 0.5)
        strip = ramp(t, side, [(max(0.0, k.deadwood), (0, 0, 0)), (max(0.0, k.deadwood) + 0.04, (1, 1, 1))])
        girth = node(t, "Attribute", attribute_name="girth")
        dead = join(t, "MAXIMUM", dead, join(t, "MULTIPLY", strip, join(t, "GREATER_THAN", girth.outputs["Fac"], 0.07)))
    colour = blend(t, dead, colour, bleached)
    groove = join(t, "MULTIPLY", join(t, "MULTIPLY", line, dead), 1.6)
    relief(t, join(t, "ADD", height, groove), b, k.strength, 0.06)
    t.links.new(colour, b.inputs["Base Color"])
    return m
