"""The bare lines of a tree: trunk, branches, twigs and roots as a graph of nodes with radii.

The trunk keeps absolute coordinates through a tree's ages: an older tree repeats the lower points of the
younger one and only its leader differs. Branches sit at a distance along the trunk, not at a share of it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

import numpy as np

from .geometry import UP, Ints, Vec, dice, unit

TRUNK, LIMB, TWIG, ROOT = 0, 1, 2, 3
Point = tuple[float, float, float]


@dataclass(frozen=True)
class Branch:
    """One branch with its pad of foliage. `s` is the distance from the soil along the trunk."""

    key: int
    s: float
    az: float
    length: float
    rise: float = 0.05
    width: float = 0.45
    lobes: int = 6
    full: float = 1.0
    thick: float = 0.0
    name: str = ""
    weep: float = 0.0
    """Length of the shoots that hang from the branch, instead of a pad."""

    dead: bool = False
    """Stripped to bare, bleached wood."""

    ball: float = 0.0
    """Radius of a clipped cushion at the end of the branch, instead of a pad."""

    bare: bool = False
    """No twigs: a stub, or a branch that has died back."""

    sawn: bool = False
    """Cut off short: it keeps its girth to the end."""

    angular: float = 0.0
    """How hard the turns are of a branch that is cut back and grows on from a side bud."""


@dataclass(frozen=True)
class Crown:
    """The head of the tree: a dome of `radius` about the tip, fed by side shoots from `start` upward."""

    radius: float
    start: float
    shoots: int = 5
    height: float = 0.8
    drop: float = 0.12
    toward: tuple[float, float] = (0.0, 0.0)


@dataclass(frozen=True)
class Fan:
    """The head of a broom: branches that leave the trunk near its top and fork again and again."""

    radius: float
    height: float
    start: float
    first: int = 13
    forks: int = 6


@dataclass(frozen=True)
class Tree:
    """One plant as it stood on one day."""

    trunk: Sequence[Point]
    radius: float
    branches: Sequence[Branch] = ()
    crown: Crown | None = None
    fan: Fan | None = None
    at: tuple[float, float] = (0.0, 0.0)
    seed: int = 1
    wired: float = 1.0
    fill: float = 1.0
    taper: float = 1.15
    flare: float = 0.28
    roots: int = 10
    root_length: float = 1.0
    root_limit: float = 9.0
    step: float = 0.075
    attract: float = 560.0
    bare: bool = False
    name: str = ""
    lift: float = 0.0
    grip: Callable[[float, float], float] | None = None
    turn: float = 0.0
    """Degrees by which the whole tree stands turned in its pot, seen from above against the clock."""

    kink: float = 0.0
    """How far the trunk leaves its smooth line at old cuts and knots, as a share of its girth."""

    dead_above: float = 99.0
    """The distance along the trunk from which it is bleached wood."""

    topped: float = 99.0
    """The distance along the trunk at which it has been sawn off."""


@dataclass
class Skeleton:
    """Nodes in order of growth: a parent always comes before its children."""

    places: list[Vec] = field(default_factory=list)
    parents: list[int] = field(default_factory=list)
    radii: list[float] = field(default_factory=list)
    kinds: list[int] = field(default_factory=list)
    fixed: list[bool] = field(default_factory=list)
    dead: set[int] = field(default_factory=set)

    def add(self, p: Vec, parent: int, r: float, kind: int, fixed: bool = False) -> int:
        """Append a node and return its index."""
        self.places.append(np.asarray(p, float))
        self.parents.append(parent)
        self.radii.append(r)
        self.kinds.append(kind)
        self.fixed.append(fixed)
        return len(self.places) - 1


@dataclass(frozen=True)
class Grown:
    """What is known of a tree once it has grown: named places and the nodes that carry leaves."""

    tree: Tree
    base: Vec
    tip: Vec
    trunk: list[int]
    leafy: list[int]
    joints: dict[str, Vec]


def apart(a: Vec, b: Vec) -> Vec:
    """Distances between each point of one set and each of another."""
    square = (a**2).sum(1)[:, None] + (b**2).sum(1)[None] - 2 * a @ b.T
    out: Vec = np.sqrt(np.maximum(square, 0))
    return out


def colonise(
    sk: Skeleton, start: Sequence[int], attractors: Vec, step: float, reach: float = 1.2, kind: int = TWIG
) -> list[int]:
    """Grow twigs from the start nodes toward points of space until each has been reached."""
    nodes = list(start)
    here = np.array([sk.places[i] for i in nodes]).reshape(-1, 3)
    if not len(here) or not len(attractors):
        return []
    kill = step * 1.25
    new: list[int] = []
    dist = apart(attractors, here)
    best, gap = dist.argmin(1), dist.min(1)
    for turn in range(60):
        near = gap < reach
        if len(attractors) == 0 or not near.any():
            break
        toward = unit(attractors[near] - here[best[near]])
        chosen = best[near]
        first = len(nodes)
        jitter = dice(turn, len(nodes))
        added = []
        for k in np.unique(chosen):
            d = unit(toward[chosen == k].mean(0) + UP * 0.045)
            d = unit(d + jitter.normal(size=3) * 0.28)
            added.append(here[k] + step * d)
            nodes.append(sk.add(added[-1], nodes[k], 0.0, kind))
            new.append(nodes[-1])
        fresh = np.array(added)
        here = np.vstack([here, fresh])
        dist = apart(attractors, fresh)
        m, dm = dist.argmin(1), dist.min(1)
        closer = dm < gap - 1e-9
        best, gap = np.where(closer, first + m, best), np.where(closer, dm, gap)
        keep = gap > kill
        attractors, best, gap = attractors[keep], best[keep], gap[keep]
        if not closer.any():
            break
    return new


def add_twiglets(sk: Skeleton, rng: np.random.Generator, each: int, length: float) -> None:
    """Give every outer twig a few finer ones, so that a bare tree shows the work of years."""
    carried = set(sk.parents)
    ends = [i for i, k in enumerate(sk.kinds) if k == TWIG and (i not in carried or rng.uniform() < 0.35)]
    for i in ends:
        d = unit(sk.places[i] - sk.places[sk.parents[i]])
        for _ in range(each):
            p, prev = sk.places[i], i
            dd = unit(d + rng.normal(size=3) * 0.55 + UP * 0.2)
            for _ in range(2):
                dd = unit(dd + rng.normal(size=3) * 0.2)
                p = p + dd * length * rng.uniform(0.3, 0.6)
                prev = sk.add(p, prev, 0.0, TWIG)


def thicken(sk: Skeleton, finest: float = 0.0055) -> tuple[list[list[int]], Ints]:
    """Radii of twigs from those they carry; returns children, and the height of each node above the tips."""
    n = len(sk.places)
    children: list[list[int]] = [[] for _ in range(n)]
    for i, p in enumerate(sk.parents):
        if p >= 0:
            children[p].append(i)
    power = 2.4
    load, depth = np.zeros(n), np.zeros(n, int)
    for i in range(n - 1, -1, -1):
        r = sk.radii[i] if sk.fixed[i] else (load[i] ** (1 / power) if load[i] > 0 else finest)
        sk.radii[i] = float(r)
        p = sk.parents[i]
        if p >= 0:
            load[p] += r**power
            depth[p] = max(depth[p], depth[i] + 1)
    return children, depth
