"""Settings, looks and branch plans that let a tree's pictures be written in a line each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ..geometry import dice, mix
from ..ground import Ground
from ..leaves import Foliage
from ..looks import Look
from ..metadata import Taken
from ..pot import Pot
from ..skeleton import Branch
from ..stage import GALLERY, LOW_SUN, NORTH, OVERCAST, SHOW, SUNNY, WARM, Camera, Stage
from . import common as c

Colour = tuple[float, float, float]
Pair = tuple[Colour, Colour]

# a bright overcast day: soft, yet it comes from one side
OPEN_SKY = replace(OVERCAST, sun=1.5, softness=22, sun_height=52, sun_side=-48, sky=1.25, exposure=0.12)

BROWN: Pair = ((0.075, 0.036, 0.022), (0.135, 0.07, 0.045))
DARK: Pair = ((0.030, 0.020, 0.016), (0.065, 0.043, 0.033))
BLACK: Pair = ((0.010, 0.010, 0.012), (0.030, 0.030, 0.034))
CLAY: Pair = ((0.17, 0.07, 0.04), (0.28, 0.13, 0.075))
IRON: Pair = ((0.035, 0.038, 0.042), (0.085, 0.092, 0.098))
GREY: Pair = ((0.11, 0.105, 0.098), (0.20, 0.19, 0.175))
CREAM: Pair = ((0.40, 0.36, 0.27), (0.56, 0.52, 0.42))
WHITE: Pair = ((0.46, 0.45, 0.42), (0.60, 0.59, 0.55))
BLUE: Pair = ((0.008, 0.016, 0.065), (0.022, 0.050, 0.15))
SLATE: Pair = ((0.035, 0.055, 0.085), (0.085, 0.12, 0.16))
STEEL: Pair = ((0.07, 0.095, 0.13), (0.14, 0.18, 0.22))
GREEN: Pair = ((0.04, 0.055, 0.04), (0.10, 0.13, 0.09))
PALE_GREEN: Pair = ((0.16, 0.22, 0.18), (0.30, 0.37, 0.31))
GREY_GREEN: Pair = ((0.075, 0.090, 0.075), (0.15, 0.17, 0.145))
BOARD: Pair = ((0.12, 0.085, 0.055), (0.28, 0.21, 0.14))


def pot(
    cm: float,
    share: float = 0.74,
    deep: float = 0.8,
    power: float = 2.3,
    tone: Pair = BROWN,
    glaze: float = 0.0,
    moss: float = 0.6,
    ground: str = "mixed",
    mossy: str = "green",
    **more: Any,
) -> Pot:
    """A pot `cm` wide at the rim, `share` of that from front to back, `deep` in units."""
    a = cm / 20
    rough = 0.28 if glaze > 0.3 else 0.7
    return replace(
        Pot(a, a * share, deep, power, tone[0], tone[1], rough, glaze, 0.88, moss=moss, ground=Ground(ground, mossy)),
        **more,
    )


def box(
    cm: float, share: float = 0.74, deep: float = 1.0, tone: Pair = BOARD, moss: float = 0.2, ground: str = "loam"
) -> Pot:
    """A box of boards."""
    return Pot(cm / 20, cm / 20 * share, deep, 60, *tone, moss=moss, kind="crate", mound=0.1, ground=Ground(ground))


def scene(
    name: str,
    az: float = 0.0,
    fit: float = 0.78,
    el: float = 3.5,
    roll: float = 0.0,
    aside: float = 0.0,
    lens: float = 85.0,
) -> Stage:
    """A setting by name, with the camera at an azimuth; the tree fills the share `fit` of the frame."""
    eye = Camera(
        azimuth=az,
        elevation=el,
        roll=roll,
        fit=fit,
        aside=aside,
        lens=lens,
        stop=0.28 if "garden" in name else 0.34 if "terrace" in name else 0.45,
    )
    rows = {
        "studio": ("slab", c.WALNUT, "wall", (0.43, 0.435, 0.43), GALLERY, 9.0),
        "studio_pale": ("slab", c.OAK, "wall", (0.56, 0.55, 0.52), NORTH, 9.0),
        "studio_warm": ("slab", c.EBONY, "wall", (0.40, 0.37, 0.33), WARM, 9.0),
        "studio_blue": ("slab", c.SLATE, "wall", (0.36, 0.40, 0.44), GALLERY, 9.0),
        "studio_dark": ("slab", c.EBONY, "wall", (0.045, 0.046, 0.050), replace(GALLERY, back=140, exposure=0.5), 9.0),
        "winter": ("slab", c.SLATE, "wall", (0.52, 0.525, 0.53), NORTH, 9.0),
        "stage": (
            "cloth",
            (c.EBONY[0], (0.035, 0.03, 0.035)),
            "curtain",
            (0.045, 0.035, 0.038),
            replace(SHOW, exposure=0.6),
            7.0,
        ),
        "red_cloth": ("cloth", (c.EBONY[0], (0.15, 0.03, 0.03)), "wall", (0.46, 0.43, 0.38), WARM, 9.0),
        "hall": ("cloth", (c.EBONY[0], (0.42, 0.40, 0.35)), "curtain", (0.13, 0.15, 0.13), SHOW, 7.0),
        "yard": ("planks", c.GREY, "laths", (0.085, 0.072, 0.058), OVERCAST, 12.0),
        "yard_turn": ("turntable", c.GREY, "boards", (0.22, 0.21, 0.20), OVERCAST, 11.0),
        "yard_trestle": ("trestle", c.GREY, "boards", (0.22, 0.21, 0.20), OVERCAST, 12.0),
        "shed": ("planks", c.OAK, "laths", (0.26, 0.19, 0.12), WARM, 7.0),
        "garden": ("stone", c.PALE_STONE, "leaves", (0.120, 0.150, 0.065), replace(SUNNY, exposure=0.05), 25.0),
        "terrace": ("stone", c.PALE_STONE, "courses", (0.25, 0.24, 0.22), OPEN_SKY, 17.0),
        "terrace_low": ("stone", c.SLATE, "courses", (0.28, 0.25, 0.21), LOW_SUN, 17.0),
        "plaster": ("planks", c.OAK, "plaster", (0.50, 0.48, 0.43), SUNNY, 6.0),
        "limewash": ("slab", c.GREY, "plaster", (0.56, 0.56, 0.54), OVERCAST, 6.0),
        "glasshouse": ("planks", c.GREY, "glazing", (0.85, 0.88, 0.90), replace(OVERCAST, exposure=0.25), 9.0),
        "sound": ("stone", c.SLATE, "sound", (0.5, 0.5, 0.5), LOW_SUN, 20.0),
        "slip": ("planks", c.GREY, "slip", (0.5, 0.5, 0.5), SUNNY, 17.0),
        "window": ("planks", c.OAK, "window", (0.48, 0.46, 0.41), OVERCAST, 6.5),
    }
    bench, tones, backdrop, wall, lamp, behind = rows[name]
    return c.stage(bench, tones, backdrop, wall, lamp, eye, behind=behind)


SCAN_DAYS = (
    "2012-03-14",
    "2012-05-22",
    "2012-05-24",
    "2013-11-05",
    "2013-11-07",
    "2014-02-03",
    "2014-02-05",
    "2015-01-20",
    "2016-03-09",
)


def print_look(kind: str, seed: int, tall: bool = False, light: float = 1.25) -> tuple[Look, Taken]:
    """A print, slide or page with the slight turn it was laid on the glass with, and the day of its scan."""
    rng = dice(seed, 17)
    turn = float(rng.uniform(-0.8, 0.8))
    size = {"slide": (1280, 960), "print90": (1230, 920), "halftone": (1200, 900)}.get(kind, (1200, 900))
    if tall:
        size = (size[1], size[0])
    scale = 1.035 if kind == "slide" else 1.0
    shift = (float(rng.uniform(-4, 4)), float(rng.uniform(-3, 3)))
    if kind == "print90":
        scale, shift = 1.01, (shift[0] / 2, shift[1] / 2)
        turn *= 0.6
    return Look(kind, turn, scale, shift, size, seed, light), c.scan(SCAN_DAYS[seed % len(SCAN_DAYS)])


def taken(day: str, device: str = "studio", **more: Any) -> Taken:
    """A digital picture, taken at that day and time on the clock of the place."""
    summer = "03-28" < day[5:10] < "10-27"
    return replace(Taken(day, "+01:00" if summer else "+00:00", device), **more)


def limbs(
    count: int,
    s: tuple[float, float],
    length: tuple[float, float],
    seed: int,
    rise: tuple[float, float] = (0.0, 0.25),
    width: float = 0.42,
    first: float = math.pi,
    full: float = 1.0,
    lobes: int = 6,
    spread: float = 0.35,
    **more: Any,
) -> list[Branch]:
    """Branches in turn left, right and behind, shorter and steeper toward the top.

    Each keeps its key, place and bearing whatever its length, so that a younger tree is the same tree.
    """
    rng = dice(seed, 23)
    out = []
    for k in range(count):
        f = k / max(1, count - 1)
        turn = (0.0, math.pi, math.pi / 2 if (k // 3) % 2 == 0 else -math.pi / 2)[k % 3]
        az = first + turn + float(rng.normal()) * spread
        vary = float(rng.uniform(0.85, 1.15))
        front = 0.62 if math.sin(az) < -0.6 else 1.0
        plan = Branch(
            k + 1,
            mix(s[0], s[1], f) + float(rng.normal()) * 0.04,
            az,
            mix(length[0], length[1], f**0.9) * vary * front,
            mix(rise[0], rise[1], f),
            width,
            lobes,
            full,
            0.0,
            {0: "first branch", 1: "second branch", 3: "third branch"}.get(k, ""),
        )
        out.append(replace(plan, **more))
    return out


def grown(branches: Sequence[Branch], k: float, **more: Any) -> list[Branch]:
    """The same branches at another length."""
    return [replace(b, length=b.length * k, **more) for b in branches]


def leaf(
    kind: str,
    size: float,
    palette: tuple[Colour, ...],
    each: int = 3,
    depth: int = 2,
    share: float = 1.0,
    **more: Any,
) -> Foliage:
    """Foliage in one line; evergreens let less light through."""
    through = 0.06 if kind in ("scale", "pine", "yew", "cedar") else 0.15 if kind == "larch" else 0.33
    return replace(Foliage(kind, size, palette, each, depth, share, through), **more)
