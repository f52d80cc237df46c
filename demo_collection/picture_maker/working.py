"""What lies about when a tree is worked on: wire, a guy line, roots laid open, a roll of wire, cut twigs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import bpy
import numpy as np

from . import materials
from .geometry import Vec, dice, unit
from .pot import Filled, Pot
from .skeleton import TRUNK, Grown, Skeleton


@dataclass(frozen=True)
class Work:
    """Signs of work in a picture. `wired`: coils on the leader from this distance along the trunk upward."""

    wired: float = 0.0
    guy: bool = False
    guys: int = 0
    wire_all: bool = False
    string: bool = False
    """String laid over the soil, to mark the quarters of the root mass."""

    sealed: bool = False
    """Pale paste on the cut ends of bare branches."""

    sawn: bool = False
    """Fresh wood on the faces of trunks sawn off."""

    tied: bool = False
    """String round trunk and box, to hold a tree that has few roots."""

    open_roots: bool = False
    wire_roll: bool = False
    cuttings: int = 0


def curve(name: str, path: Vec, radius: float, material: Any) -> None:
    """A round thread along a path."""
    c = bpy.data.curves.new(name, "CURVE")
    c.dimensions, c.bevel_depth, c.bevel_resolution, c.use_fill_caps = "3D", radius, 2, True
    s = c.splines.new("POLY")
    s.points.add(len(path) - 1)
    s.points.foreach_set("co", np.c_[path, np.ones(len(path))].astype(np.float32).ravel())
    ob = bpy.data.objects.new(name, c)
    bpy.context.collection.objects.link(ob)
    c.materials.append(material)


def coil(path: Vec, radii: Vec, pitch: float, gauge: float) -> Vec:
    """A helix wound on a limb, at about one and a half turns a pitch."""
    steps = np.linalg.norm(np.diff(path, axis=0), axis=1)
    s = np.r_[0, np.cumsum(steps)]
    v = np.arange(0, s[-1], pitch / 18)
    p = np.stack([np.interp(v, s, path[:, k]) for k in range(3)], 1)
    r = np.interp(v, s, radii) * 1.06 + gauge
    h = unit(np.gradient(p, axis=0))
    x = unit(np.cross(h, np.array([0.2, 1.0, 0.1])))
    y = np.cross(h, x)
    th = v / pitch * 2 * math.pi
    out: Vec = p + r[:, None] * (np.cos(th)[:, None] * x + np.sin(th)[:, None] * y)
    return out


def face(at: Vec, d: Vec, radius: float, thick: float, material: Any) -> None:
    """A round cut face across a limb that points along `d`."""
    curve("face", np.array([at - d * thick, at + d * thick]), radius, material)


def chain(sk: Skeleton, last: int, stop: set[int]) -> list[int]:
    """The nodes from `last` down to the trunk, in order of growth."""
    out = [last]
    while sk.parents[out[-1]] >= 0 and out[-1] not in stop:
        out.append(sk.parents[out[-1]])
    return out[::-1]


def wire_branches(sk: Skeleton, g: Grown, copper: Any) -> None:
    """Coils on every branch out to its tip, and on the upper trunk."""
    places, radii = np.array(sk.places), np.array(sk.radii)
    trunk = set(g.trunk)
    carried = {sk.parents[i] for i, k in enumerate(sk.kinds) if k == 1}
    for i, k in enumerate(sk.kinds):
        if k == 1 and i not in carried and sk.fixed[i] and i not in sk.dead:
            line = chain(sk, i, trunk)
            gauge = float(np.clip(radii[line[len(line) // 3]] * 0.28, 0.010, 0.022))
            curve("wire", coil(places[line], radii[line], gauge * 9, gauge), gauge, copper)
    upper = list(g.trunk)[len(g.trunk) // 2 :]
    curve("wire", coil(places[upper], radii[upper], 0.26, 0.022), 0.022, copper)


def build_work(w: Work, sk: Skeleton, g: Grown, pot: Pot, filled: Filled, bench: float) -> None:
    """Add the signs of work to the scene."""
    copper = materials.plain("copper", (0.42, 0.16, 0.07), 0.35, 0.9)
    places, radii = np.array(sk.places), np.array(sk.radii)
    if w.wired:
        high = list(g.trunk)[int(w.wired / 0.05) :]
        curve("wire", coil(places[high], radii[high], 0.30, 0.022), 0.022, copper)
        trunk = set(g.trunk)
        limbs = [i for i, k in enumerate(sk.kinds) if k == 1]
        ends = [
            i
            for i in limbs
            if not any(sk.kinds[c] == 1 for c in range(i + 1, min(i + 2, len(sk.kinds))) if sk.parents[c] == i)
        ]
        for i in ends:
            line = chain(sk, i, trunk)
            if line[0] in trunk and places[line[0]][2] > places[high[0]][2] - 1.2:
                curve("wire", coil(places[line], radii[line], 0.17, 0.012), 0.012, copper)
    if w.guy:
        top = places[g.trunk[-12]]
        end = filled.lip[int(np.argmax(filled.lip[:, 0] - 0.6 * filled.lip[:, 1]))]
        lip = end + np.array([0.03, -0.02, 0.02])
        thread = np.array([*np.linspace(top, lip, 20), lip - np.array([0.12, 0.0, pot.h * 0.95])])
        curve("guy", thread, 0.011, materials.plain("cord", (0.55, 0.50, 0.40), 0.8))
        around = np.array(
            [(math.cos(a) * 0.10, math.sin(a) * 0.10, 0.02 * math.sin(2 * a)) for a in np.linspace(0, 6.4, 24)]
        )
        curve("pad", around + top, 0.05, materials.plain("rubber", (0.04, 0.035, 0.03), 0.9))
    if w.wire_all:
        wire_branches(sk, g, copper)
    cord = materials.plain("cord", (0.55, 0.50, 0.40), 0.8)
    ends = [
        filled.lip[int(np.argmax(filled.lip @ np.array([math.cos(a), math.sin(a), 0])))]
        for a in (0.0, math.pi, -0.9, 4.1)
    ]
    limbs_out = [
        i
        for i in range(len(sk.places))
        if sk.kinds[i] == 1 and sk.fixed[i] and i + 1 < len(sk.places) and sk.parents[i + 1] != i
    ]
    for k in range(w.guys):
        target = ends[k % 4]
        top = min((sk.places[i] for i in limbs_out), key=lambda q: float(np.linalg.norm((q - target)[:2])) + 0.2 * k)
        curve("guy", np.array([*np.linspace(top, target, 12), target - np.array([0, 0, pot.h * 0.8])]), 0.014, cord)
    if w.string:
        base = g.base
        for axis in ((1.0, 0.0), (0.0, 1.0)):
            a, b = np.array([-pot.a, -pot.b]) * axis, np.array([pot.a, pot.b]) * axis
            laid = []
            for t in np.linspace(0, 1, 40):
                x, y = a + (b - a) * t
                x, y = (x, base[1] - 0.02) if axis[0] else (base[0] - 0.02, y)
                near = math.hypot(x - base[0], y - base[1])
                lift = 0.10 + max(0.0, 0.5 - near) * 0.5
                laid.append((x, y, max(filled.soil, filled.surface(x, y)) + lift))
            curve("string", np.array(laid), 0.020, materials.plain("string", (0.62, 0.12, 0.08), 0.8))
    if w.tied:
        top = places[g.trunk[min(len(g.trunk) - 1, 14)]]
        for target in ends:
            curve("tie", np.array([top, *np.linspace(top, target, 8), target - np.array([0, 0, 0.3])]), 0.016, cord)
        ring = [
            (
                math.cos(a) * (radii[g.trunk[14]] + 0.03),
                math.sin(a) * (radii[g.trunk[14]] + 0.03),
                0.03 * math.sin(5 * a),
            )
            for a in np.linspace(0, 12.6, 50)
        ]
        curve("tie", np.array(ring) + top, 0.022, cord)
    paste = materials.plain("paste", (0.62, 0.60, 0.54), 0.8)
    if w.sealed:
        for i in limbs_out:
            d = unit(places[i] - places[sk.parents[i]])
            face(places[i], d, max(0.03, radii[i] * 1.04), 0.035, paste)
    if w.sealed or w.sawn:
        pale = materials.stone("sawn", (0.30, 0.22, 0.13), (0.46, 0.37, 0.25), 3.0, 0.2)
        carried = {sk.parents[i] for i, k in enumerate(sk.kinds) if k == TRUNK}
        for i, k in enumerate(sk.kinds):
            if k == TRUNK and i not in carried and radii[i] > 0.10:
                d = unit(places[i] - places[sk.parents[i]])
                face(places[i] + d * 0.05, d, radii[i] * 0.94, 0.03, paste if w.sealed else pale)
    rng = dice(g.tree.seed, 77)
    if w.open_roots:
        tone = materials.plain("root", (0.30, 0.19, 0.10), 0.9)
        for _ in range(170):
            az = math.atan2(pot.quarter[1], pot.quarter[0]) + rng.uniform(-0.74, 0.74)
            p = np.array([0.15 * math.cos(az), 0.15 * math.sin(az), filled.soil + rng.uniform(-0.25, 0.05)])
            d = unit(np.array([math.cos(az), math.sin(az), rng.uniform(-0.5, 0.15)]))
            path = [p]
            far = 0.75 / max(abs(math.cos(az)) / pot.a, abs(math.sin(az)) / pot.b)
            for _ in range(16):
                d = unit(d + rng.normal(size=3) * 0.30 + np.array([0, 0, -0.03]))
                p = p + d * far * rng.uniform(0.6, 1.0) / 16
                path.append(p)
            curve("root", np.array(path), rng.uniform(0.006, 0.022), tone)
    if w.wire_roll:
        for k in range(9):
            r = 0.42 + 0.012 * math.sin(k * 2.2)
            turn = np.array([(math.cos(a) * r, math.sin(a) * r, 0.03 * k) for a in np.linspace(0, 6.29, 70)])
            curve("roll", turn + np.array([3.4 + 0.02 * math.sin(k), -1.5, bench + 0.05]), 0.022, copper)
    for _ in range(w.cuttings):
        p = np.array([rng.uniform(-3.6, 3.8), rng.uniform(-2.6, -1.6), bench + 0.03])
        d = unit(np.r_[rng.normal(size=2), 0])
        bend = np.array([-d[1], d[0], 0]) * rng.normal() * 0.08
        twig = np.array([p + d * 0.6 * t + bend * t * t + np.array([0, 0, 0.03 * t]) for t in np.linspace(0, 1, 6)])
        curve("cutting", twig, 0.014, materials.plain("cutting", (0.14, 0.10, 0.06), 0.9))
