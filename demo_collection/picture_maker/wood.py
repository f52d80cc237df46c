"""Meshes of wood: thick limbs and roots fused into one body with its grain, fine twigs as thin sticks."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import bpy
import numpy as np

from .bark import Bark
from .geometry import Ints, Vec, fbm, unit
from .skeleton import LIMB, ROOT, Skeleton

THICK = 0.03
Faces = list[tuple[int, ...]]


@dataclass(frozen=True)
class Body:
    """The fused wood: its vertices, and the skeleton node nearest to each."""

    points: Vec
    nearest: Ints


def mesh(
    name: str,
    points: Vec,
    faces: Ints | Faces,
    material: Any = None,
    smooth: bool = True,
    layers: dict[str, tuple[str, Vec]] | None = None,
) -> Any:
    """A mesh object in the scene; `layers` are named values for each vertex."""
    me = bpy.data.meshes.new(name)
    if isinstance(faces, np.ndarray):
        k = faces.shape[1]
        me.vertices.add(len(points))
        me.vertices.foreach_set("co", points.astype(np.float32).ravel())
        me.loops.add(faces.size)
        me.loops.foreach_set("vertex_index", faces.astype(np.int32).ravel())
        me.polygons.add(len(faces))
        me.polygons.foreach_set("loop_start", np.arange(0, faces.size, k, dtype=np.int32))
        me.update(calc_edges=True)
    else:
        me.from_pydata([tuple(v) for v in points], [], faces)
        me.update()
    me.polygons.foreach_set("use_smooth", np.full(len(me.polygons), smooth))
    for layer, (kind, values) in (layers or {}).items():
        set_layer(me, layer, kind, values)
    ob = bpy.data.objects.new(name, me)
    bpy.context.collection.objects.link(ob)
    if material:
        me.materials.append(material)
    return ob


def set_layer(me: Any, name: str, kind: str, values: Vec) -> None:
    """Store one value a vertex on a mesh."""
    slot = {"FLOAT": "value", "FLOAT_VECTOR": "vector", "FLOAT_COLOR": "color"}[kind]
    me.attributes.new(name, kind, "POINT").data.foreach_set(slot, values.astype(np.float32).ravel())


def tube(path: Vec, radii: Vec, sides: int) -> tuple[Vec, Faces]:
    """A closed tube round a path."""
    heading = unit(np.gradient(path, axis=0))
    a = np.array([1.0, 0, 0]) if abs(heading[0][0]) < 0.8 else np.array([0, 1.0, 0])
    th = np.arange(sides) * 2 * math.pi / sides
    rows = []
    for p, r, h in zip(path, radii, heading, strict=True):
        a = unit(a - h * np.dot(a, h))
        rows.append(p + r * (np.cos(th)[:, None] * a + np.sin(th)[:, None] * np.cross(h, a)))
    n, k = len(path), sides
    faces: Faces = [
        (i * k + j, i * k + (j + 1) % k, (i + 1) * k + (j + 1) % k, (i + 1) * k + j)
        for i in range(n - 1)
        for j in range(k)
    ]
    end = n * k
    faces += [(end, (j + 1) % k, j) for j in range(k)]
    faces += [(end + 1, (n - 1) * k + j, (n - 1) * k + (j + 1) % k) for j in range(k)]
    return np.vstack([*rows, path[0], path[-1] + heading[-1] * min(radii[-1] * 0.5, 0.06)]), faces


def limb_tubes(sk: Skeleton, children: list[list[int]], thick: Any) -> tuple[Vec, Faces]:
    """Tubes along every chain of thick nodes of one kind."""
    used = np.zeros(len(sk.places), bool)
    parts: list[Vec] = []
    faces: Faces = []
    offset = 0
    for i in range(len(sk.places)):
        if not thick[i] or used[i]:
            continue
        chain, j = [i], i
        used[i] = True
        while same := [x for x in children[j] if thick[x] and not used[x] and sk.kinds[x] == sk.kinds[j]]:
            j = max(same, key=lambda x: sk.radii[x])
            used[j] = True
            chain.append(j)
        path = [sk.places[x] for x in chain]
        radii = [sk.radii[x] for x in chain]
        if sk.parents[i] >= 0:
            path, radii = [sk.places[sk.parents[i]], *path], [radii[0] * 1.15, *radii]
        if len(path) < 2:
            continue
        if sk.kinds[i] == LIMB and len(radii) > 3:
            radii[0], radii[1] = radii[0] * 1.25, radii[1] * 1.18  # the collar where a branch leaves
        sides = 48 if max(radii) > 0.2 else 20 if max(radii) > 0.08 else 9
        v, f = tube(np.array(path), np.maximum(radii, 0.012), sides)
        parts.append(v)
        faces += [tuple(a + offset for a in q) for q in f]
        offset += len(v)
    return np.vstack(parts), faces


def relax(values: Vec, pairs: Ints, weight: Vec, rounds: int) -> Vec:
    """Draw each vertex's values toward the mean of its neighbours, as far as `weight` (0 to 1) allows."""
    n = len(values)
    a, b = np.r_[pairs[:, 0], pairs[:, 1]], np.r_[pairs[:, 1], pairs[:, 0]]
    near = weight[a] > 0
    a, b = a[near], b[near]
    count = np.maximum(np.bincount(a, minlength=n), 1)
    out = values.copy()
    for _ in range(rounds):
        mean = np.stack([np.bincount(a, out[b, k], n) / count for k in range(values.shape[1])], 1)
        out += (0.5 * weight)[:, None] * (mean - out)
    return out


def build_wood(
    sk: Skeleton,
    children: list[list[int]],
    material: Any,
    bark: Bark,
    seed: int,
    soil: float,
    voxel: float,
    turn: float = 0.0,
) -> Body:
    """Fuse the thick limbs, press muscle and bark into them, lay the grain; then add the fine twigs."""
    r, pos, par = np.array(sk.radii), np.array(sk.places), np.array(sk.parents)
    kinds = np.array(sk.kinds)
    thick = (r > THICK) | np.array(sk.fixed)
    ob = mesh("wood", *limb_tubes(sk, children, thick), material)
    fuse = ob.modifiers.new("fuse", "REMESH")
    fuse.mode, fuse.voxel_size = "VOXEL", voxel
    soften = ob.modifiers.new("soften", "SMOOTH")
    soften.factor, soften.iterations = 0.5, 5
    graph = bpy.context.evaluated_depsgraph_get()
    me = bpy.data.meshes.new_from_object(ob.evaluated_get(graph))
    ob.modifiers.clear()
    ob.data = me
    n = len(me.vertices)
    raw = np.empty(n * 3, np.float32)
    me.vertices.foreach_get("co", raw)
    co = raw.reshape(-1, 3).astype(float)
    # nearest thick node of every vertex, counted from the skin of the limb
    core = np.where(thick & (r > THICK * 0.4))[0]
    nearest = np.empty(n, int)
    hubs, girths = pos[core].astype(np.float32), r[core].astype(np.float32)
    square = (hubs**2).sum(1)
    for a in range(0, n, 2000):
        some = co[a : a + 2000].astype(np.float32)
        gap = (some**2).sum(1)[:, None] + square - 2 * some @ hubs.T
        np.sqrt(np.maximum(gap, 0, out=gap), out=gap)
        gap -= girths
        nearest[a : a + 2000] = core[gap.argmin(1)]
    foot = np.clip(1 - (co[:, 2] - soil - 0.9) / 0.4, 0, 1) * np.clip((r[nearest] - 0.07) / 0.13, 0, 1)
    flat = np.empty(len(me.edges) * 2, np.int32)
    me.edges.foreach_get("vertices", flat)
    pairs = flat.astype(np.int64).reshape(-1, 2)
    # roots meet the trunk in ledges that no living base has
    co = relax(co, pairs, foot, 24 * bark.melt)
    me.vertices.foreach_set("co", co.astype(np.float32).ravel())
    me.update()
    me.vertices.foreach_get("normal", raw)
    normal = raw.reshape(-1, 3).astype(float)
    arc = np.zeros(len(pos))
    for i in range(len(pos)):
        if par[i] >= 0:
            arc[i] = arc[par[i]] + np.linalg.norm(pos[i] - pos[par[i]])
    before = pos[np.maximum(par[nearest], 0)]
    grain = unit(np.where((par[nearest] >= 0)[:, None], pos[nearest] - before, np.array([0, 0, 1.0])))
    d = co - pos[nearest]
    lift = (d * grain).sum(1)
    s, across, girth = arc[nearest] + lift, unit(d - lift[:, None] * grain), r[nearest]
    c, s_ = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    spin = np.array([[c, s_, 0], [-s_, c, 0], [0, 0, 1]])
    aim = np.array([0.3, 1, 0.2]) @ spin
    ref = unit(aim - grain * (grain @ aim)[:, None])
    ang = np.arctan2((across * np.cross(grain, ref)).sum(1), (across * ref).sum(1)) + bark.twist * s + bark.turn
    # where limbs bend or meet, the nearest node jumps; the grain must not
    even = relax(np.column_stack([np.cos(ang), np.sin(ang), s, girth]), pairs, np.ones(n), 14)
    ang, s, girth = np.arctan2(even[:, 1], even[:, 0]), even[:, 2], even[:, 3]
    q = np.stack([np.cos(ang) * girth, np.sin(ang) * girth, s], 1)
    # young leaders carry the knots of leaves and old cuts
    strong = np.clip((girth - 0.03) / 0.35, 0, 1) ** 0.75
    lobes = np.stack([np.cos(ang) * 1.3, np.sin(ang) * 1.3, s * 0.35], 1)
    push = bark.muscle * girth * fbm(lobes + 7, seed, 3) * strong
    push += bark.relief * strong * fbm(q * np.array([9, 9, 2.2]), seed + 5, 4)
    # near the ground noise goes by place: the grain jumps where roots meet the trunk
    up = np.clip((co[:, 2] - soil - 0.15) / 0.55, 0, 1) * (kinds[nearest] != ROOT)
    low = 0.05 * fbm(co @ spin.T * np.array([2.6, 2.6, 1.6]) + 3, seed + 40, 3) * np.clip(girth / 0.12, 0.2, 1)
    relief = relax((push * up + low * (1 - up))[:, None], pairs, foot, 12 * bark.melt)
    co = co + normal * relief
    me.vertices.foreach_set("co", co.astype(np.float32).ravel())
    set_layer(me, "grain", "FLOAT_VECTOR", q)
    set_layer(me, "girth", "FLOAT", girth)
    set_layer(me, "dead", "FLOAT", np.isin(nearest, list(sk.dead)).astype(float))
    set_layer(me, "around", "FLOAT_VECTOR", np.stack([np.cos(ang), np.sin(ang), s], 1))
    me.polygons.foreach_set("use_smooth", np.ones(len(me.polygons), bool))
    me.update()
    if not me.materials:
        me.materials.append(material)
    # thin ends of limbs are lost in the fusing and are drawn again as sticks
    thin = np.where((~thick | (r < THICK)) & (par >= 0))[0]
    if len(thin):
        thick_end = np.minimum(r[par[thin]], r[thin] * 1.25)
        bleached = np.isin(thin, list(sk.dead)).astype(float)
        sticks("twigs", pos[par[thin]], pos[thin], thick_end, r[thin], material, bleached)
    return Body(co, nearest)


def sticks(name: str, a: Vec, b: Vec, ra: Vec, rb: Vec, material: Any, dead: Vec) -> None:
    """Many thin four-sided sticks in one mesh."""
    t = unit(b - a)
    x = unit(np.cross(t, np.where(np.abs(t[:, :1]) < 0.8, np.array([1.0, 0, 0]), np.array([0, 1.0, 0]))))
    y = np.cross(t, x)
    rows = [
        p + rr[:, None] * (math.cos(k * math.pi / 2) * x + math.sin(k * math.pi / 2) * y)
        for p, rr in ((a, ra), (b, rb))
        for k in range(4)
    ]
    points = np.stack(rows, 1).reshape(-1, 3)
    base = np.arange(len(a))[:, None] * 8
    faces = np.vstack([base + np.array([k, (k + 1) % 4, 4 + (k + 1) % 4, 4 + k]) for k in range(4)])
    layers = {
        "grain": ("FLOAT_VECTOR", points),
        "around": ("FLOAT_VECTOR", points),
        "girth": ("FLOAT", np.repeat(rb, 8)),
        "dead": ("FLOAT", np.repeat(dead, 8)),
    }
    mesh(name, points, faces, material, True, layers)
