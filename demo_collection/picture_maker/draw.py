"""Builds the scene of one photograph, renders it, and works out where its named points fall."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import bpy
import numpy as np
from bpy_extras.object_utils import world_to_camera_view
from mathutils import Matrix, Vector

from . import materials
from .backdrop import build_backdrop
from .bark import bark
from .framing import framed
from .geometry import Vec, arc_lengths, dice
from .growth import grow
from .landscape import build_shore, build_stone
from .leaves import build_leaves
from .mountains import build_mountains
from .places import places, shape
from .pot import Filled, build_pot
from .props import build_props
from .shot import Shot
from .skeleton import TRUNK, Grown, Skeleton, add_twiglets, thicken
from .stage import Camera, build_bench, build_camera, build_light, render
from .wood import Body, build_wood
from .working import build_work


@dataclass(frozen=True)
class Aimed:
    """A camera in its place, and the size of the picture in pixels."""

    size: tuple[int, int]
    camera: Camera
    object: Any


@dataclass(frozen=True)
class Built:
    """A scene that stands ready but for light and camera, and what names are given to."""

    behind: bool
    sk: Skeleton
    grown: list[Grown]
    body: Body
    leaves: Vec
    filled: Filled


def draw(shot: Shot, file: Path, scale: float, samples: int) -> None:
    """Render a photograph to `file` (PNG) and its points to the JSON file beside it."""
    built = build(shot)
    aimed = aim(shot, built, scale)
    render(replace(shot.stage, camera=aimed.camera), *aimed.size, samples, file)
    file.with_suffix(".json").write_text(json.dumps(record(shot, built, aimed), indent=1, ensure_ascii=False))


def build(shot: Shot) -> Built:
    """Set up what stands in a photograph."""
    bpy.ops.wm.read_factory_settings(use_empty=True)
    s = shot.stage
    build_bench(s)
    build_backdrop(s)
    behind = abs(s.camera.azimuth) > 90
    if behind:
        turn_round(set())
    filled = build_pot(shot.pot, s.stand, shot.seed)
    if shot.shore:
        filled = build_shore(shot.shore, shot.pot, filled.rim)
    if shot.rocks:
        filled = build_mountains(shot.rocks, shot.pot, filled.rim)
    if shot.stone:
        build_stone(shot.stone, filled.surface(*shot.stone.at))
    sk = Skeleton()
    grown = [grow(sk, t, filled.surface(*t.at) - 0.03) for t in shot.trees]
    if shot.twiglets:
        add_twiglets(sk, dice(shot.seed, 888), shot.twiglets, shot.twiglet_length)
    children, depth = thicken(sk)
    body = build_wood(
        sk,
        children,
        bark(shot.bark),
        shot.bark,
        shot.seed,
        filled.soil,
        shot.voxel,
        shot.trees[0].turn if shot.trees else 0.0,
    )
    leaves = np.zeros((0, 3))
    if shot.foliage:
        leaf = materials.leaf(shot.foliage.translucency)
        leaves = build_leaves(sk, depth, grown, shot.foliage, shot.seed, leaf)
    if shot.work:
        build_work(shot.work, sk, grown[0], shot.pot, filled, 0.0)
    build_props(shot.props, filled, shot.pot, shot.seed)
    return Built(behind, sk, grown, body, leaves, filled)


def aim(shot: Shot, built: Built, scale: float) -> Aimed:
    """Light the scene and set up the camera, for a picture `scale` times its full size."""
    s, sk, grown, filled, leaves = shot.stage, built.sk, built.grown, built.filled, built.leaves
    w, h = round(shot.width * scale), round(shot.height * scale)
    aimed = s.camera
    if aimed.fit:
        foot = filled.lip * np.array([1, 1, 0]) + np.array([0, 0, s.stand])
        parts = [built.body.points[::7], filled.lip, foot, shore_points(filled, shot)]
        if len(leaves):
            parts.append(leaves[:: max(1, len(leaves) // 20000)])
        else:
            parts.append(np.array([p for p in sk.places if p[2] > filled.soil]).reshape(-1, 3))
        aimed = framed(aimed, np.vstack(parts), w, h)
    elif aimed.near:
        place = grown[0].joints.get(shot.focus)
        if place is None:
            path = np.array([sk.places[i] for i in grown[0].trunk])
            place = path[
                int(np.clip(np.searchsorted(arc_lengths(path), shot.marks.get(shot.focus, 0.0)), 0, len(path) - 1))
            ]
        place = place + np.array(shot.nudge)
        far = aimed.near * aimed.lens / 36.0
        aimed = replace(aimed, target=(float(place[0]), float(place[1]), float(place[2])), distance=far)
    s = replace(s, camera=aimed)
    before = set(bpy.data.objects)
    build_light(s)
    if built.behind:
        turn_round(before)
    camera = build_camera(aimed)
    r = bpy.context.scene.render
    r.resolution_x, r.resolution_y = w, h
    bpy.context.view_layer.update()
    return Aimed((w, h), aimed, camera)


def record(shot: Shot, built: Built, aimed: Aimed) -> dict[str, Any]:
    """What is known of a picture, in pixels of the render: its points, and the places of its pot (`places.py`)."""
    w, h = aimed.size
    sk, filled = built.sk, built.filled

    def exact(p: Vec) -> list[float]:
        v = world_to_camera_view(bpy.context.scene, aimed.object, Vector(p))
        return [v.x * w, (1 - v.y) * h]

    def seen(p: Vec) -> list[float]:
        x, y = exact(p)
        return [round(x, 1), round(y, 1)]

    wood_top = np.array([p for p, k in zip(sk.places, sk.kinds, strict=True) if k != TRUNK or shot.foliage is None])
    top = built.leaves if len(built.leaves) else wood_top
    points = name_points(shot, sk, built.grown, built.body, top, filled.lip, filled.rim, seen)
    on_pot = places(shot.pot, shot.stage.stand)
    eye = aimed.camera
    return {
        "size": [w, h],
        "rim_width_cm": round(20 * shot.pot.a, 1),
        "points": points,
        "pot": shape(shot.pot),
        "camera": {"azimuth": eye.azimuth, "elevation": eye.elevation, "distance_cm": round(10 * eye.distance, 1)},
        "places": {name: exact(p) for name, p in on_pot.items()},
        "hidden": [name for name, p in on_pot.items() if not in_sight(aimed.object, p)],
    }


def in_sight(camera: Any, p: Vec) -> bool:
    """Whether nothing stands between the camera and a place on the skin of a thing, to within 3 mm."""
    scene = bpy.context.scene
    way = Vector(p) - camera.location
    hit, at, *_ = scene.ray_cast(bpy.context.evaluated_depsgraph_get(), camera.location, way.normalized())
    return not hit or (at - camera.location).length > way.length - 0.03


def turn_round(others: set[Any]) -> None:
    """For a picture of the back: turn bench, wall and lamps to the other side, all objects but `others`."""
    half = Matrix.Rotation(math.pi, 4, "Z")
    bpy.context.view_layer.update()
    for ob in set(bpy.data.objects) - others:
        ob.matrix_world = half @ ob.matrix_world


def shore_points(filled: Filled, shot: Shot) -> Vec:
    """The tops of rocks on a tray, which count when the picture is framed."""
    if not shot.rocks:
        return filled.lip
    return np.array([(x, y, filled.rim + h) for x, y, _, _, h in shot.rocks.spires])


def name_points(
    shot: Shot,
    sk: Skeleton,
    grown: list[Grown],
    body: Body,
    top: Vec,
    lip: Vec,
    rim: float,
    seen: Callable[[Vec], list[float]],
) -> dict[str, list[float]]:
    """Named points in pixels.

    Rim ends are points of the lip in the plane of the trunk, so that a scale taken there holds for the trunk
    too. The apex is the highest point of leaf or twig that is seen (of a cascade, the lowest); edges of the
    trunk come from its mesh.
    """
    out: dict[str, list[float]] = {}
    out["rim left"] = seen(np.array([lip[:, 0].min(), 0.0, rim]))
    out["rim right"] = seen(np.array([lip[:, 0].max(), 0.0, rim]))
    if out["rim left"][0] > out["rim right"][0]:  # seen from behind
        out["rim left"], out["rim right"] = out["rim right"], out["rim left"]
    flat = np.array([seen(p) for p in (top if len(top) < 60000 else top[:: len(top) // 60000 + 1])])
    g = grown[0]
    pixel = seen(g.tip)
    near = np.abs(flat[:, 0] - pixel[0]) < 0.35 * abs(out["rim right"][0] - out["rim left"][0])
    end = flat[near]
    out["apex"] = end[end[:, 1].argmax() if shot.hangs else end[:, 1].argmin()].tolist()
    for side, k in (
        ("leftmost leaf", flat[:, 0].argmin()),
        ("rightmost leaf", flat[:, 0].argmax()),
        ("lowest leaf", flat[:, 1].argmax()),
    ):
        out[side] = flat[k].tolist()
    out["trunk base"] = seen(g.base)
    path = np.array([sk.places[i] for i in g.trunk])
    s = arc_lengths(path)
    for name, at in shot.marks.items():
        if at < s[-1]:
            out[name] = seen(path[int(np.searchsorted(s, at))])
    if len(grown) == 1:
        trunk = set(g.trunk)
        on_trunk = np.array([i in trunk for i in body.nearest])
        # a cascade crosses each level more than once, so that edges there mean nothing
        for name, up in () if shot.hangs else (("trunk", 0.55), ("upper trunk", 1.4)):
            slice_ = body.points[on_trunk & (np.abs(body.points[:, 2] - g.base[2] - up) < 0.02)]
            if len(slice_) > 8:
                px = np.array([seen(p) for p in slice_])
                out[f"{name} left"], out[f"{name} right"] = (
                    px[px[:, 0].argmin()].tolist(),
                    px[px[:, 0].argmax()].tolist(),
                )
        for name, p in g.joints.items():
            out[name] = seen(p)
    else:
        for g in grown:
            if g.tree.name:
                out[f"{g.tree.name} foot"] = seen(g.base)
                out[f"{g.tree.name} tip"] = seen(g.tip)
    return out
