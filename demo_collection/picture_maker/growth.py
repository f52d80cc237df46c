"""How a tree grows: trunk, roots, branches with their pads, the crown, and the forking head of a broom."""

from __future__ import annotations

import math

import numpy as np

from .geometry import UP, Vec, arc_lengths, dice, fbm, mix, spline, unit
from .skeleton import LIMB, ROOT, TRUNK, TWIG, Branch, Grown, Skeleton, Tree, colonise


def pad_points(rng: np.random.Generator, length: float, width: float, count: int, lobes: int, full: float) -> Vec:
    """Attractors of one pad, (along, across, up): small flat-bottomed domes set on a fan."""
    high = 0.22 * length
    domes = [(0.95 * length, 0.0, 0.0, 0.6), (0.6 * length, 0.0, 0.25 * high, 1.0)]
    for _ in range(lobes):
        u, v = rng.uniform(0.30, 1.06), rng.uniform(-1, 1)
        v *= math.sqrt(max(0.05, 1 - ((u - 0.62) / 0.5) ** 2))
        domes.append((u * length, v * width, rng.uniform(-0.35, 0.5) * high, rng.uniform(0.38, 1.1)))
    d = np.array(domes)[rng.integers(len(domes), size=count)]
    q = unit(rng.normal(size=(count, 3))) * rng.uniform(size=(count, 1)) ** (1 / 3)
    q[:, 2] = np.abs(q[:, 2]) - 0.08
    size = d[:, 3:4] * max(0.33 * length, 0.32) * full
    out: Vec = d[:, :3] + q * size * np.array([1, 1, 0.62])
    return out


def grow_branch(sk: Skeleton, tree: Tree, b: Branch, path: Vec, radii: Vec, ids: list[int], s: Vec) -> list[int]:
    """Grow one branch and its pad; returns the nodes that may carry leaves."""
    rng = dice(tree.seed, 100 + b.key)
    k = int(np.clip(np.searchsorted(s, b.s), 1, len(path) - 2))
    p0 = path[k]
    rise = mix(0.75, b.rise, tree.wired)
    az = b.az + rng.normal() * 0.06 + math.radians(tree.turn)
    out, side = np.array([math.cos(az), math.sin(az), 0]), np.array([-math.sin(az), math.cos(az), 0])
    base = min(radii[k] * 0.62, b.thick or 0.085 * b.length + 0.02)
    phase, sway = rng.uniform(0, 6.28, 2), rng.uniform(0.25, 0.5)
    q, prev, limb, steps = p0.copy(), ids[k], [], 16
    for j in range(1, steps + 1):
        f = j / steps
        e = rise * (1 - f * 0.55) + (0.10 if tree.wired > 0.5 else 0.25) * f
        d = out * math.cos(e) + UP * (math.sin(e) + 0.28 * math.sin(8 * f + phase[1]))
        if b.angular:  # five straight lengths, turned up and down, left and right
            part, flip = int(f * 4.99), 1 if int(f * 4.99) % 2 else -1
            d = unit(out + UP * (rise + 0.75 * b.angular * flip) + side * b.angular * (0.6 if part % 3 else -0.7))
            q = q + d * b.length / steps * 1.15
        else:
            q = q + unit(d + side * sway * math.sin(6.5 * f + phase[0])) * b.length / steps * 0.93
        thick = base * (1 - 0.25 * f) if b.sawn else base * (1 - f) ** 0.8 + 0.010
        prev = sk.add(q, prev, thick, LIMB, True)
        limb.append(prev)
    if b.dead:
        sk.dead.update(limb)
        return []
    if b.bare:
        return []
    if b.weep:
        return grow_strands(sk, tree, b, limb, out)
    along = unit((q - p0) * np.array([1, 1, mix(0.9, 0.65, tree.wired)]))
    count = int(tree.attract * b.length**2 * 0.55) + 40
    full = mix(0.75, 1.08, tree.fill) * b.full
    if b.ball:
        q = unit(rng.normal(size=(int(tree.attract * b.ball**2 * 1.9) + 60, 3))) * b.ball
        q *= rng.uniform(0.25, 1, size=(len(q), 1)) ** (1 / 3) * full
        pad = q * np.array([1.12, 1.12, 0.62]) + np.array([b.length * 0.85, 0, b.ball * 0.25])
    else:
        pad = pad_points(rng, b.length, b.width * b.length, count, b.lobes, full)
    pad = pad[rng.uniform(size=len(pad)) < mix(0.45, 1, tree.fill)]
    aim = p0 + pad[:, :1] * along + pad[:, 1:2] * side + pad[:, 2:] * UP
    return colonise(sk, limb[4:], aim, tree.step)


def grow_strands(sk: Skeleton, tree: Tree, b: Branch, limb: list[int], out: Vec) -> list[int]:
    """Shoots that leave a branch, arch over and hang; returns the nodes that may carry leaves."""
    rng = dice(tree.seed, 300 + b.key)
    leafy: list[int] = []
    for _ in range(int(tree.fill * b.lobes * 5 * max(0.5, b.length))):
        node = limb[int(rng.integers(3, len(limb)))]
        p, prev = sk.places[node], node
        turn = rng.uniform(-1.5, 1.5)
        c, s = math.cos(turn), math.sin(turn)
        d = unit(np.array([out[0] * c - out[1] * s, out[0] * s + out[1] * c, rng.uniform(0.2, 0.9)]))
        long = b.weep * rng.uniform(0.45, 1.0)
        steps = max(5, int(long / 0.09))
        pull = rng.uniform(0.20, 0.34)
        for j in range(steps):
            d = unit(d + np.array([0, 0, -pull]) + rng.normal(size=3) * 0.07)
            p = p + d * long / steps
            prev = sk.add(p, prev, 0.0, TWIG)
            if j > 0:
                leafy.append(prev)
    return leafy


def grow_crown(sk: Skeleton, tree: Tree, path: Vec, radii: Vec, ids: list[int], s: Vec) -> list[int]:
    """Grow the head: side shoots that shorten toward the tip, then the dome itself."""
    c = tree.crown
    assert c is not None
    leafy: list[int] = []
    for i in range(c.shoots):
        f = i / max(1, c.shoots - 1)
        shoot = Branch(
            key=500 + i,
            s=mix(c.start, s[-1] * 0.97, f),
            az=(0.4 if i % 2 else 3.5) + 1.1 * math.sin(2.4 * i),
            length=c.radius * mix(1.15, 0.55, f),
            rise=mix(0.15, 0.55, f),
            width=0.6,
            lobes=4,
        )
        leafy += grow_branch(sk, tree, shoot, path, radii, ids, s)
    rng = dice(tree.seed, 999)
    q = unit(rng.normal(size=(int(tree.attract * c.radius**2 * 2.2) + 50, 3)))
    q *= rng.uniform(size=(len(q), 1)) ** (1 / 3)
    q[:, 2] = np.abs(q[:, 2]) * c.height - 0.25
    lumps = 1 + 0.22 * fbm(unit(q) * 1.7 + 5, tree.seed, 2)
    t = math.radians(tree.turn)
    toward = (
        c.toward[0] * math.cos(t) - c.toward[1] * math.sin(t),
        c.toward[0] * math.sin(t) + c.toward[1] * math.cos(t),
    )
    centre = path[-1] + np.array([*toward, -c.drop]) * c.radius
    aim = centre + q * lumps[:, None] * c.radius * mix(0.6, 1, tree.fill)
    aim = aim[rng.uniform(size=len(aim)) < mix(0.4, 1, tree.fill)]
    first = int(np.searchsorted(s, mix(c.start, s[-1], 0.5)))
    return leafy + colonise(sk, ids[first:], aim, tree.step, reach=2.0)


def grow_fan(sk: Skeleton, tree: Tree, path: Vec, ids: list[int], s: Vec) -> list[int]:
    """Grow the head of a broom; twigs end on a dome above the point where the trunk divides."""
    fan = tree.fan
    assert fan is not None
    rng = dice(tree.seed, 321)
    tips: list[int] = []

    def fork(node: int, d: Vec, length: float, r: float, level: int) -> None:
        prev, p = node, sk.places[node]
        bend = rng.normal(size=3) * 0.05
        for j in range(4):
            d = unit(d + bend + UP * 0.035 + rng.normal(size=3) * 0.04)
            p = p + d * length / 4
            prev = sk.add(p, prev, r * (1 - 0.09 * (j + 1)), LIMB if level < 2 else TWIG, level < 4)
            if level >= fan.forks - 2:
                tips.append(prev)
        if level >= fan.forks:
            return
        across = unit(np.cross(d, rng.normal(size=3)))
        for sign in (-1, 1) if rng.uniform() > 0.22 else (-1, 0.15, 1):
            turn = sign * rng.uniform(0.17, 0.33)
            fork(
                prev,
                unit(d * math.cos(turn) + across * math.sin(turn)),
                length * rng.uniform(0.74, 0.9),
                r * 0.70,
                level + 1,
            )

    shares = sum(0.82**i for i in range(fan.forks + 1))
    for i in range(fan.first):
        f = (i + 0.5) / fan.first
        az, open_ = i * 2.39996 + rng.normal() * 0.1, math.acos(1 - 0.93 * f) * 0.88
        d = np.array([math.cos(az) * math.sin(open_), math.sin(az) * math.sin(open_), math.cos(open_)])
        s0 = mix(s[-1], fan.start, f**0.7)
        node = ids[int(np.clip(np.searchsorted(s, s0), 0, len(ids) - 1))]
        reach = 1 / math.hypot(math.sin(open_) / fan.radius, math.cos(open_) / fan.height)
        fork(node, d, reach * rng.uniform(0.93, 1.03) / shares, tree.radius * 0.34, 0)
    return tips


def grow_roots(sk: Skeleton, tree: Tree, origin: Vec, hub: int) -> None:
    """Surface roots: on flat soil they sink away, on a stone (`grip`) they follow its face down."""
    rng = dice(tree.seed, 11)
    first = rng.uniform(0, 6.28)
    for k in range(tree.roots):
        az = first + 6.283 * k / tree.roots + rng.normal() * 0.22 + math.radians(tree.turn)
        r0 = tree.radius * rng.uniform(0.28, 0.52)
        room = tree.root_limit * (1 + 0.6 * abs(math.cos(az)))  # pots are wider than deep
        high = rng.uniform(0.15, 0.50)
        reach = min(room, tree.radius * rng.uniform(1.6, 3.0) * tree.root_length)
        prev = hub
        steps = 34 if tree.grip else 12
        drift = rng.normal() * 0.25
        for j in range(1, steps + 1):
            f = j / steps
            if tree.grip:
                down = (tree.lift + 0.25) * f
                turn = az + drift * f + 0.22 * math.sin(5 * f + k)
                thick = r0 * (1 - 0.62 * f) * 0.8 + 0.02
                d = max(tree.radius * 0.4, tree.grip(turn, tree.lift - down) + thick * 0.35)
                d = mix(tree.radius * 0.5, d, min(1, f * 5))
                p = origin + np.array([math.cos(turn) * d, math.sin(turn) * d, 0.1 * (1 - f) - down])
            else:
                turn = az + 0.35 * math.sin(3 * f + k)
                # a root leaves the trunk high up and inside it, and swells as it comes out
                d = tree.radius * 0.30 + reach * f
                z = tree.radius * high * (1 - f) ** 3.2 - 0.12 * f - 0.03 + 0.02 * math.sin(9 * f + k)
                thick = r0 * (0.35 + 0.65 * min(1.0, 3.5 * f)) * (1 - f) ** 0.7 + 0.015
                p = origin + np.array([math.cos(turn) * d, math.sin(turn) * d, z])
            prev = sk.add(p, prev, thick, ROOT, True)


def grow(sk: Skeleton, tree: Tree, soil: float) -> Grown:
    """Grow a whole tree whose trunk leaves the soil (or its stone) at height `soil`."""
    origin = np.array([tree.at[0], tree.at[1], soil + tree.lift])
    path = spline(tree.trunk, 0.05)
    s = arc_lengths(path)
    t = s / s[-1]
    # a stout foot spreads over more of its height than a slim one
    spread = tree.flare * np.exp(-s / (0.14 + 0.35 * tree.radius))
    radii = tree.radius * ((1 - t) ** tree.taper * 0.95 + 0.035 + spread)
    if tree.kink:
        knots = np.stack([s * 2.3, s * 0 + tree.seed, s * 0], 1)
        free = np.clip(s / 0.4, 0, 1) * tree.kink * radii
        path = path + np.stack([fbm(knots + k, tree.seed + k, 2) * free for k in (0, 31)] + [s * 0], 1)
        radii = radii * (1 + 0.12 * tree.kink * fbm(knots * 1.7 + 5, tree.seed, 2))
    c, sn = math.cos(math.radians(tree.turn)), math.sin(math.radians(tree.turn))
    path = path @ np.array([[c, sn, 0], [-sn, c, 0], [0, 0, 1]]) + origin
    stands = s <= tree.topped
    path, radii, s = path[stands], radii[stands], s[stands]
    prev = sk.add(origin - UP * 0.5, -1, radii[0] * 1.05, TRUNK, True)
    prev = sk.add(origin - UP * 0.2, prev, radii[0] * 1.03, TRUNK, True)
    ids: list[int] = []
    for p, r in zip(path, radii, strict=True):
        ids.append(sk.add(p, ids[-1] if ids else prev, max(float(r), 0.014), TRUNK, True))
    sk.dead.update(i for i, at in zip(ids, s, strict=True) if at > tree.dead_above)
    grow_roots(sk, tree, origin, ids[1])
    leafy: list[int] = []
    joints: dict[str, Vec] = {}
    for b in tree.branches:
        leafy += grow_branch(sk, tree, b, path, radii, ids, s)
        if b.name:
            joints[b.name] = path[int(np.clip(np.searchsorted(s, b.s), 1, len(path) - 2))]
    if tree.crown:
        leafy += grow_crown(sk, tree, path, radii, ids, s)
    if tree.fan:
        leafy += grow_fan(sk, tree, path, ids, s)
    return Grown(tree, path[0], path[-1], ids, [] if tree.bare else leafy, joints)
