"""Where the picture is taken: bench, backdrop, light, camera, and the renderer's settings."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import bpy
from mathutils import Vector

from . import materials
from .materials import Colour
from .pot import box


@dataclass(frozen=True)
class Camera:
    """Where the camera stands: `target` in units, `distance` to it, angles in degrees."""

    target: Colour = (0.0, 0.0, 2.7)
    distance: float = 23.5
    azimuth: float = 0.0
    elevation: float = 3.5
    roll: float = 0.0
    lens: float = 85.0
    stop: float = 0.45
    fit: float = 0.0
    """Share of the picture that the tree fills; when above zero, target and distance are worked out."""

    aside: float = 0.0
    near: float = 0.0
    """For details: the width of what is shown, in units, about the named place of the shot."""


@dataclass(frozen=True)
class Light:
    """Sun, two soft lamps, one lamp on the backdrop, sky; angles in degrees, exposure in stops."""

    sun: float = 2.2
    softness: float = 4.0
    sun_colour: Colour = (1.0, 0.94, 0.85)
    sun_height: float = 42.0
    sun_side: float = -38.0
    key: float = 1100.0
    fill: float = 260.0
    back: float = 500.0
    sky: float = 0.28
    sky_colour: Colour = (0.75, 0.85, 1.0)
    exposure: float = 0.36


GALLERY = Light()
WARM = Light(sun=1.6, softness=8, sun_colour=(1, 0.88, 0.74), key=1200, fill=200, back=620, exposure=0.3)
NORTH = Light(sun=0.5, softness=20, sun_side=40, key=1500, fill=420, back=420, sky=0.45, exposure=0.15)
SUNNY = Light(sun=4.6, softness=0.6, sun_height=50, sun_side=-48, key=0, fill=0, back=0, sky=0.95, exposure=-0.25)
OVERCAST = Light(
    sun=0.9,
    softness=40,
    sun_height=70,
    sun_side=-20,
    key=0,
    fill=0,
    back=0,
    sky=1.5,
    sky_colour=(0.85, 0.91, 1.0),
    exposure=0.05,
)
LOW_SUN = Light(
    sun=3.6,
    softness=1.2,
    sun_colour=(1, 0.80, 0.56),
    sun_height=26,
    sun_side=-62,
    key=0,
    fill=0,
    back=0,
    sky=0.7,
    exposure=0.15,
)
SHOW = Light(
    sun=1.0,
    softness=3,
    sun_colour=(1, 0.86, 0.68),
    sun_height=55,
    key=1300,
    fill=120,
    back=90,
    sky=0.10,
    exposure=0.25,
)


@dataclass(frozen=True)
class Stage:
    """Bench, backdrop and what the tree stands on."""

    bench: str = "slab"
    dark: Colour = (0.06, 0.035, 0.02)
    light: Colour = (0.20, 0.12, 0.065)
    depth: float = 6.4
    backdrop: str = "wall"
    wall: Colour = (0.42, 0.43, 0.44)
    behind: float = 9.0
    stand: float = 0.0
    stand_half: float = 1.35
    lamp: Light = field(default_factory=Light)
    camera: Camera = field(default_factory=Camera)


NEAR = 7.0  # how far the bench reaches toward the viewer beyond its middle part


def build_bench(s: Stage) -> None:
    """The bench, its upper side at height zero; it runs out of the picture toward the viewer."""
    if s.bench == "planks":
        wood = materials.boards("bench", s.dark, s.light, 0.75)
        wide, count = 1.25, max(3, round((s.depth + NEAR) / 1.25))
        for i in range(count):
            y = s.depth / 2 - wide * (i + 0.5)
            box("plank", (0.7 * math.sin(i * 2.7), y, -0.16 - 0.012 * (i % 2)), (27, wide - 0.07, 0.32), wood)
    elif s.bench == "stone":
        box(
            "bench",
            (0, -NEAR / 2, -0.6),
            (26, s.depth + NEAR, 1.2),
            materials.stone("bench", s.dark, s.light, 1.4, 0.4),
            0.06,
        )
    elif s.bench == "turntable":
        wood = materials.boards("bench", s.dark, s.light, 0.8)
        box("bench", (0, -NEAR / 2, -0.58), (26, s.depth + NEAR, 0.44), wood, 0.05)
        bpy.ops.mesh.primitive_cylinder_add(vertices=96, radius=2.9, depth=0.24, location=(0, 0, -0.12))
        disc = bpy.context.object
        disc.data.materials.append(materials.boards("disc", (0.16, 0.12, 0.08), (0.34, 0.27, 0.19), 0.8))
        bpy.ops.mesh.primitive_cylinder_add(vertices=48, radius=0.9, depth=0.16, location=(0, 0, -0.30))
        bpy.context.object.data.materials.append(materials.plain("iron", (0.05, 0.05, 0.05), 0.5, 0.6))
    elif s.bench == "trestle":
        wood = materials.boards("bench", s.dark, s.light, 0.85)
        for i in range(4):
            box("plank", (0.1 * math.sin(i * 2.7), 1.6 - 1.25 * i, -0.14), (11.5, 1.2, 0.26), wood)
        for x in (-4.2, 4.2):
            for y in (-2.4, 2.0):
                box("leg", (x + 0.3 * math.copysign(1, x), y, -4.2), (0.34, 0.34, 8.0), wood)
            box("rail", (x, -0.2, -0.5), (0.4, 4.6, 0.42), wood)
    elif s.bench == "cloth":
        m = materials.plain("cloth", s.light, 0.95)
        box("bench", (0, -NEAR / 2, -0.3), (26, s.depth + NEAR, 0.6), m, 0.25)
    else:
        box(
            "bench",
            (0, -NEAR / 2, -0.22),
            (26, s.depth + NEAR, 0.44),
            materials.boards("bench", s.dark, s.light),
            0.05,
        )
    if s.stand:
        wood = materials.boards("stand", (0.02, 0.008, 0.005), (0.06, 0.025, 0.014), 0.45)
        h = s.stand_half
        box("stand", (0, 0, s.stand - 0.09), (2 * h, 2 * h, 0.18), wood)
        if s.stand > 0.6:
            for sx in (-1, 1):
                for sy in (-1, 1):
                    box(
                        "leg",
                        (sx * (h - 0.25), sy * (h - 0.25), s.stand / 2 - 0.09),
                        (0.22, 0.22, s.stand - 0.18),
                        wood,
                    )
                box("rail", (sx * (h - 0.25), 0, 0.5), (0.12, 2 * h - 0.6, 0.14), wood)
                box("rail", (0, sx * (h - 0.25), 0.5), (2 * h - 0.6, 0.12, 0.14), wood)


def build_light(s: Stage) -> None:
    """Sun, lamps and sky."""
    k, z, yb = s.lamp, s.camera.target[2], s.behind
    scene = bpy.context.scene
    sun = bpy.data.lights.new("sun", "SUN")
    sun.energy, sun.angle, sun.color = k.sun, math.radians(k.softness), k.sun_colour
    ob = bpy.data.objects.new("sun", sun)
    ob.rotation_euler = (math.radians(90 - k.sun_height), 0, math.radians(k.sun_side))
    scene.collection.objects.link(ob)
    lamps = (
        ("key", (-7, -9, z + 8), (0, 0, z), 6, k.key, (1, 1, 1)),
        ("fill", (9, -8, z + 1), (0, 0, z), 8, k.fill, (0.86, 0.92, 1)),
        ("back", (3, yb - 4, z + 9), (0, yb, z + 1), 5, k.back, (1, 1, 1)),
    )
    for name, place, aim, size, power, colour in lamps:
        if not power:
            continue
        lamp = bpy.data.lights.new(name, "AREA")
        lamp.size, lamp.energy, lamp.color = size, power, colour
        ob = bpy.data.objects.new(name, lamp)
        ob.location = place
        ob.rotation_euler = (Vector(aim) - Vector(place)).to_track_quat("-Z", "Y").to_euler()
        scene.collection.objects.link(ob)
    world = bpy.data.worlds.new("world")
    scene.world = world
    world.use_nodes = True
    sky = world.node_tree.nodes.get("Background") or world.node_tree.nodes.new("ShaderNodeBackground")
    sky.inputs[0].default_value, sky.inputs[1].default_value = (*k.sky_colour, 1), k.sky


def build_camera(c: Camera) -> Any:
    """The camera; returns its object."""
    data = bpy.data.cameras.new("camera")
    data.lens = c.lens
    ob = bpy.data.objects.new("camera", data)
    bpy.context.scene.collection.objects.link(ob)
    bpy.context.scene.camera = ob
    az, el, d = math.radians(c.azimuth), math.radians(c.elevation), c.distance
    aim = Vector(c.target)
    ob.location = aim + Vector((math.sin(az) * math.cos(el) * d, -math.cos(az) * math.cos(el) * d, math.sin(el) * d))
    ob.rotation_euler = (aim - ob.location).to_track_quat("-Z", "Y").to_euler()
    ob.rotation_euler.rotate_axis("Z", math.radians(c.roll))
    data.dof.use_dof, data.dof.focus_distance, data.dof.aperture_fstop = True, d, c.stop
    return ob


def render(s: Stage, width: int, height: int, samples: int, file: Path) -> None:
    """Render the scene as it stands into a PNG file."""
    scene = bpy.context.scene
    r, cy = scene.render, scene.cycles
    r.engine = "CYCLES"
    cy.device, cy.samples, cy.seed = "CPU", samples, 1
    cy.use_adaptive_sampling, cy.adaptive_threshold = True, 0.045
    cy.denoising_prefilter, cy.denoising_quality = "FAST", "BALANCED"
    cy.use_denoising, cy.denoiser, cy.denoising_input_passes = True, "OPENIMAGEDENOISE", "RGB_ALBEDO_NORMAL"
    cy.max_bounces, cy.diffuse_bounces, cy.glossy_bounces, cy.transmission_bounces = 3, 1, 1, 2
    # light of the second bounce and later is taken from the sky nearby: a third quicker, and hardly to be seen
    cy.use_fast_gi, cy.fast_gi_method, cy.ao_bounces_render = True, "REPLACE", 1
    scene.world.light_settings.distance = 4.0
    cy.caustics_reflective = cy.caustics_refractive = False
    r.threads_mode, r.threads = "FIXED", 2
    r.resolution_x, r.resolution_y, r.filepath = width, height, str(file)
    r.image_settings.file_format = "PNG"
    scene.view_settings.view_transform = "AgX"
    scene.view_settings.look = "AgX - Medium High Contrast"
    scene.view_settings.exposure = s.lamp.exposure
    bpy.ops.render.render(write_still=True)
