"""Surfaces: leaf, glaze, soil, boards, walls. Colours are linear red, green, blue."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import bpy

Colour = tuple[float, float, float]


def blank(name: str) -> tuple[Any, Any, Any]:
    """An empty material: itself, its node tree, its output."""
    m = bpy.data.materials.new(name)
    m.use_nodes = True
    tree = m.node_tree
    tree.nodes.clear()
    return m, tree, tree.nodes.new("ShaderNodeOutputMaterial")


def node(tree: Any, kind: str, **values: Any) -> Any:
    """A shader node; values go to its inputs by name, else to its attributes."""
    n = tree.nodes.new("ShaderNode" + kind)
    for k, v in values.items():
        if k in n.inputs:
            n.inputs[k].default_value = v
        else:
            setattr(n, k, v)
    return n


def ramp(tree: Any, source: Any, stops: Sequence[tuple[float, Colour]]) -> Any:
    """A colour ramp fed by a value; returns its colour."""
    r = node(tree, "ValToRGB")
    marks = r.color_ramp.elements
    while len(marks) < len(stops):
        marks.new(0.5)
    for mark, (place, colour) in zip(marks, stops, strict=True):
        mark.position = place
        mark.color = (*colour, 1)
    tree.links.new(source, r.inputs[0])
    return r.outputs[0]


def shader(tree: Any, out: Any, rough: float, specular: float = 0.3) -> Any:
    """A principled shader joined to the output."""
    b = node(tree, "BsdfPrincipled", Roughness=rough)
    b.inputs["Specular IOR Level"].default_value = specular
    tree.links.new(b.outputs[0], out.inputs[0])
    return b


def relief(tree: Any, height: Any, b: Any, strength: float, distance: float) -> None:
    """A bump map on a shader."""
    bump = node(tree, "Bump", Strength=strength, Distance=distance)
    tree.links.new(height, bump.inputs["Height"])
    tree.links.new(bump.outputs[0], b.inputs["Normal"])


def position(tree: Any, scale: Colour = (1, 1, 1)) -> Any:
    """World position, scaled along each axis."""
    g = node(tree, "NewGeometry")
    m = node(tree, "Mapping")
    m.inputs["Scale"].default_value = scale
    tree.links.new(g.outputs["Position"], m.inputs[0])
    return m.outputs[0]


def textured(tree: Any, vector: Any, kind: str, **values: Any) -> Any:
    """A texture node fed with a vector."""
    n = node(tree, kind, **values)
    tree.links.new(vector, n.inputs["Vector"])
    return n


def join(tree: Any, operation: str, a: Any, b: Any, c: float = 0.0) -> Any:
    """Arithmetic on sockets or numbers."""
    m = node(tree, "Math", operation=operation)
    for i, v in enumerate((a, b, c)):
        if isinstance(v, int | float):
            m.inputs[i].default_value = v
        else:
            tree.links.new(v, m.inputs[i])
    return m.outputs[0]


def blend(tree: Any, share: Any, a: Any, b: Any) -> Any:
    """One colour over another."""
    m = node(tree, "Mix", data_type="RGBA")
    for source, place in ((share, 0), (a, 6), (b, 7)):
        tree.links.new(source, m.inputs[place])
    return m.outputs[2]


def leaf(translucency: float) -> Any:
    """A leaf lit from both sides; its colour lies on the mesh."""
    m, t, o = blank("leaf")
    a = node(t, "Attribute", attribute_name="Col")
    b = node(t, "BsdfPrincipled", Roughness=0.5)
    b.inputs["Specular IOR Level"].default_value = 0.35
    t.links.new(a.outputs[0], b.inputs[0])
    through = node(t, "BsdfTranslucent")
    warm = node(t, "HueSaturation", Saturation=1.1, Value=1.25)
    t.links.new(a.outputs[0], warm.inputs["Color"])
    t.links.new(warm.outputs[0], through.inputs[0])
    x = node(t, "MixShader")
    x.inputs[0].default_value = translucency
    t.links.new(b.outputs[0], x.inputs[1])
    t.links.new(through.outputs[0], x.inputs[2])
    t.links.new(x.outputs[0], o.inputs[0])
    return m


def glaze(dark: Colour, light: Colour, rough: float, coat: float) -> Any:
    """Fired clay: with a coat it is glazed, without it is bare."""
    m, t, o = blank("pot")
    b = shader(t, o, rough)
    b.inputs["Coat Weight"].default_value = coat
    b.inputs["Coat Roughness"].default_value = 0.12
    cloud = textured(t, position(t), "TexNoise", Scale=2.3, Detail=6.0, Roughness=0.65)
    t.links.new(ramp(t, cloud.outputs[0], [(0.35, dark), (0.68, light)]), b.inputs[0])
    skin = textured(t, position(t), "TexNoise", Scale=26.0, Detail=3.0)
    relief(t, skin.outputs[0], b, 0.10 if coat > 0.2 else 0.35, 0.03)
    return m


def soil(
    grits: Sequence[Colour] = ((0.035, 0.022, 0.014), (0.12, 0.075, 0.045), (0.22, 0.16, 0.11)),
    mossy: Colour = (0.05, 0.075, 0.016),
) -> Any:
    """Grit that turns to moss where the mesh says so."""
    m, t, o = blank("soil")
    b = shader(t, o, 0.95, 0.1)
    a = node(t, "Attribute", attribute_name="moss")
    n = textured(t, position(t), "TexNoise", Scale=30.0, Detail=5.0).outputs[0]
    v = textured(t, position(t), "TexVoronoi", Scale=22.0).outputs["Color"]

    def tone(k: float) -> Colour:
        return (mossy[0] * k * 1.1, mossy[1] * k, mossy[2] * k)

    green = ramp(t, n, [(0.3, tone(0.42)), (0.55, tone(1.5)), (0.75, tone(2.7))])
    order = sorted(grits)
    grit = ramp(t, v, [(0.1, order[0]), (0.55, order[len(order) // 2]), (0.95, order[-1])])
    t.links.new(blend(t, a.outputs["Fac"], grit, green), b.inputs[0])
    relief(t, n, b, 0.9, 0.04)
    return m


def tinted(name: str, rough: float = 0.9) -> Any:
    """Plain colour taken from the mesh."""
    m, t, o = blank(name)
    b = shader(t, o, rough, 0.15)
    t.links.new(node(t, "Attribute", attribute_name="Col").outputs[0], b.inputs[0])
    return m


def skin(name: str) -> Any:
    """The skin of fruit: smooth, a little waxy, its colour taken from the mesh."""
    m, t, o = blank(name)
    b = shader(t, o, 0.32, 0.5)
    b.inputs["Subsurface Weight"].default_value = 0.12
    b.inputs["Subsurface Radius"].default_value = (0.05, 0.02, 0.01)
    t.links.new(node(t, "Attribute", attribute_name="Col").outputs[0], b.inputs[0])
    return m


def plain(name: str, colour: Colour, rough: float = 0.6, metal: float = 0.0) -> Any:
    """One colour."""
    m, t, o = blank(name)
    b = shader(t, o, rough)
    b.inputs["Base Color"].default_value = (*colour, 1)
    b.inputs["Metallic"].default_value = metal
    return m


def boards(name: str, dark: Colour, light: Colour, rough: float = 0.6, along: str = "x") -> Any:
    """Wood with its grain along an axis."""
    m, t, o = blank(name)
    b = shader(t, o, rough)
    scale = {"x": (0.16, 3.2, 4.0), "z": (3.2, 4.0, 0.16)}[along]
    n = textured(t, position(t, scale), "TexNoise", Scale=4.5, Detail=9.0, Roughness=0.6, Distortion=0.6).outputs[0]
    t.links.new(ramp(t, n, [(0.32, dark), (0.66, light)]), b.inputs[0])
    relief(t, n, b, 0.25, 0.03)
    return m


def stone(
    name: str,
    dark: Colour,
    light: Colour,
    scale: float = 3.0,
    strength: float = 0.7,
    vein: float = 0.0,
    ring: float = 0.0,
) -> Any:
    """Rough stone, with a white vein round it at the height `ring`; marble when `vein` is above zero."""
    m, t, o = blank(name)
    b = shader(t, o, 0.32 if vein else 0.85, 0.4 if vein else 0.2)
    n = textured(t, position(t), "TexNoise", Scale=scale, Detail=10.0, Roughness=0.62, Distortion=vein).outputs[0]
    colour = ramp(t, n, [(0.34, dark), (0.46 if vein else 0.66, light)])
    if ring:
        split = node(t, "SeparateXYZ")
        t.links.new(position(t), split.inputs[0])
        slant = join(t, "ADD", split.outputs[2], join(t, "MULTIPLY", split.outputs[0], 0.22))
        away = join(
            t,
            "ABSOLUTE",
            join(t, "SUBTRACT", join(t, "ADD", slant, join(t, "MULTIPLY", n, 0.35)), ring + 0.17),
            0.0,
        )
        band = ramp(t, away, [(0.030, (1, 1, 1)), (0.055, (0, 0, 0))])
        white = ramp(t, n, [(0.3, (0.50, 0.49, 0.46)), (0.7, (0.70, 0.69, 0.66))])
        colour = blend(t, band, colour, white)
    t.links.new(colour, b.inputs[0])
    if not vein:
        fine = textured(t, position(t), "TexNoise", Scale=scale * 4, Detail=8.0).outputs[0]
        relief(t, join(t, "ADD", n, join(t, "MULTIPLY", fine, 0.4)), b, strength, 0.12)
    return m


def water() -> Any:
    """Still, shallow, pale water."""
    m, t, o = blank("water")
    b = shader(t, o, 0.06, 0.6)
    b.inputs["Base Color"].default_value = (0.50, 0.57, 0.56, 1)
    n = textured(t, position(t, (1, 2.2, 1)), "TexNoise", Scale=1.6, Detail=2.0).outputs[0]
    relief(t, n, b, 0.06, 0.1)
    return m
