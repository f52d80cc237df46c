"""Places of one pot that lie in one plane, in two photographs: how one lies over the other has one exact answer.

The renderer of the demo's pictures knows them (picture_maker/points.json, its README tells of them): round the lip,
round the foot, and in the pot's upright front.
"""

from __future__ import annotations

import json
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import combinations
from typing import Any

import numpy as np

from archive_tools.illustrate.alignment import Point
from tests.outside.constructed_pairs import DEMO

LIP, FOOT, FRONT = "lip", "foot", "front"
WRITTEN = 0.1
"""Pixels: photos.yml gives marks to a tenth."""
Places = Mapping[str, Point]


@dataclass(frozen=True)
class InPlane:
    """Two pictures of one pot. visible: the places of this plane that both show, and where a mark can be placed."""

    plane: str
    before: str
    after: str
    first: Places
    second: Places
    visible: tuple[str, ...]
    azimuth: float
    elevation: float
    """By how much the two cameras differ, in degrees."""

    rim_width_cm: float

    @cached_property
    def in_order(self) -> tuple[str, ...]:
        """The visible places, well placed marks first: two far apart, a third off their line, a fourth off all three
        lines, and then always the one farthest from those before it.
        """
        at = [np.array([places[name] for name in self.visible]) for places in (self.first, self.second)]
        whole = np.hstack([(points - points.mean(axis=0)) / np.maximum(points.std(axis=0), 1) for points in at])
        far = np.linalg.norm(whole[:, None] - whole, axis=2)
        chosen = [int(place) for place in np.unravel_index(int(far.argmax()), far.shape)]
        for _ in range(2):
            lines = [areas(points, points[[one, other]]) for points in at for one, other in combinations(chosen, 2)]
            chosen.append(int(np.min(lines, axis=0).argmax()))
        while len(chosen) < len(self.visible):
            away = far[:, chosen].min(axis=1)
            away[chosen] = -1
            chosen.append(int(away.argmax()))
        return tuple(self.visible[place] for place in chosen)

    def placed(self, marks: Sequence[str], rng: np.random.Generator | None = None) -> tuple[list[Point], list[Point]]:
        """The marks as a curator has them in photos.yml: to a tenth of a pixel, or placed by eye to 2 pixels."""
        both = []
        for places in (self.first, self.second):
            exact = np.array([places[name] for name in marks])
            at = np.round(exact / WRITTEN) * WRITTEN if rng is None else exact + rng.normal(0, 2, exact.shape)
            both.append([(float(x), float(y)) for x, y in at])
        return both[0], both[1]


def areas(points: np.ndarray, line: np.ndarray) -> np.ndarray:
    """Twice the areas of the triangles that each point makes with the two ends of a line, in square pixels."""
    along, to = line[1] - line[0], points - line[0]
    return np.abs(along[0] * to[:, 1] - along[1] * to[:, 0])


@cache
def register() -> dict[str, Any]:
    """All pictures whose pot the renderer knows, by path."""
    known = json.loads((DEMO / "picture_maker" / "points.json").read_text(encoding="utf-8"))
    return {path: scene for path, scene in known.items() if scene.get("places")}


def planes_of(scene: Mapping[str, Any]) -> Iterator[tuple[str, list[str]]]:
    """The names that lie in one plane. Of a box the whole front does; of a pot with a straight wall its corners."""
    names = list(scene["places"])
    for plane in (LIP, FOOT):
        yield plane, [name for name in names if name.startswith(plane)]
    if scene["pot"].startswith("box"):
        yield FRONT, [name for name in names if 225 <= int(name.split()[1]) <= 315]
    elif "straight" in scene["pot"]:
        yield FRONT, [name for name in names if name.startswith(("wall 225", "wall 315"))]


@cache
def pairs(fewest: int = 7) -> tuple[InPlane, ...]:
    """All pairs of pictures of one tree in one and the same pot, plane by plane, that share so many visible places."""
    by_pot = defaultdict(list)
    for path, scene in sorted(register().items()):
        by_pot[path.split("/")[1], scene["pot"]].append((path, scene))
    found = []
    for pictures in by_pot.values():
        for (before, there), (after, here) in combinations(pictures, 2):
            for plane, names in planes_of(there):
                visible = tuple(name for name in names if name not in {*there["hidden"], *here["hidden"]})
                if len(visible) >= fewest:
                    found.append(_pair(plane, before, after, visible))
    return tuple(found)


def _pair(plane: str, before: str, after: str, visible: tuple[str, ...]) -> InPlane:
    there, here = register()[before], register()[after]
    first, second = ({name: (x, y) for name, (x, y) in scene["places"].items()} for scene in (there, here))
    between = [abs(there["camera"][angle] - here["camera"][angle]) for angle in ("azimuth", "elevation")]
    width = here["rim_width_cm"]
    return InPlane(plane, before, after, first, second, visible, between[0], between[1], width)


def worst(carry: Any, pair: InPlane, names: Sequence[str]) -> float:
    """The largest distance, in pixels of the second picture, of carried places from where they are."""
    return max(math.dist(carry(pair.first[name]), pair.second[name]) for name in names)
