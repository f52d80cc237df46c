"""Colours, barks, benches and small helpers that several trees share."""

from __future__ import annotations

import math

from ..bark import Bark
from ..looks import Look
from ..metadata import Taken
from ..skeleton import Branch
from ..stage import Camera, Light, Stage

LEFT, RIGHT, BACK, FRONT = math.pi, 0.0, math.pi / 2, -math.pi / 2

GREEN = ((0.042, 0.075, 0.014), (0.075, 0.125, 0.022), (0.12, 0.18, 0.032), (0.20, 0.26, 0.05))
FRESH = ((0.085, 0.14, 0.018), (0.14, 0.21, 0.03), (0.21, 0.28, 0.045), (0.30, 0.36, 0.08))
TURNED = (
    (0.13, 0.16, 0.02),
    (0.42, 0.24, 0.02),
    (0.50, 0.12, 0.012),
    (0.38, 0.035, 0.010),
    (0.20, 0.015, 0.008),
)
SCARLET = ((0.50, 0.10, 0.012), (0.46, 0.035, 0.010), (0.36, 0.012, 0.008), (0.20, 0.008, 0.008))
BROWNED = ((0.20, 0.11, 0.035), (0.26, 0.13, 0.04), (0.15, 0.075, 0.03))
JUNIPER = ((0.030, 0.060, 0.028), (0.055, 0.095, 0.040), (0.09, 0.14, 0.052), (0.14, 0.19, 0.065))
PINE = ((0.022, 0.044, 0.014), (0.040, 0.074, 0.020), (0.066, 0.108, 0.030), (0.10, 0.145, 0.042))
YEW = ((0.010, 0.024, 0.009), (0.018, 0.040, 0.013), (0.032, 0.062, 0.018), (0.06, 0.10, 0.03))

MAPLE_BARK = Bark(
    ((0.055, 0.042, 0.032), (0.13, 0.105, 0.08), (0.22, 0.19, 0.15), (0.33, 0.30, 0.25)),
    scale=12,
    stretch=0.3,
    strength=0.8,
    relief=0.03,
    muscle=0.16,
)
SMOOTH_BARK = Bark(
    ((0.10, 0.085, 0.07), (0.20, 0.18, 0.15), (0.30, 0.28, 0.245), (0.42, 0.40, 0.36)),
    scale=9,
    strength=0.25,
    relief=0.008,
    muscle=0.07,
)
ELM_BARK = Bark(
    ((0.05, 0.035, 0.025), (0.13, 0.095, 0.07), (0.23, 0.18, 0.14), (0.36, 0.30, 0.24)),
    scale=13,
    strength=0.7,
    relief=0.02,
    muscle=0.10,
)
THORN_BARK = Bark(
    ((0.04, 0.032, 0.026), (0.10, 0.085, 0.07), (0.18, 0.155, 0.13), (0.28, 0.255, 0.22)),
    scale=14,
    stretch=0.2,
    strength=0.9,
    relief=0.035,
    muscle=0.24,
    twist=0.5,
)
JUNIPER_BARK = Bark(
    ((0.045, 0.02, 0.012), (0.11, 0.055, 0.035), (0.19, 0.105, 0.07), (0.28, 0.19, 0.14)),
    scale=14,
    stretch=0.10,
    strength=0.9,
    relief=0.035,
    muscle=0.22,
    twist=0.7,
)
PINE_BARK = Bark(
    ((0.020, 0.015, 0.012), (0.075, 0.055, 0.043), (0.15, 0.115, 0.09), (0.25, 0.205, 0.165)),
    scale=8,
    stretch=0.45,
    strength=1.0,
    relief=0.055,
    muscle=0.12,
    plates=True,
)
YEW_BARK = Bark(
    ((0.05, 0.02, 0.013), (0.12, 0.05, 0.032), (0.20, 0.10, 0.07), (0.29, 0.17, 0.12)),
    scale=10,
    stretch=0.2,
    strength=0.7,
    relief=0.03,
    muscle=0.2,
)

HEDGE = (0.155, 0.185, 0.115)
WALNUT = ((0.06, 0.035, 0.02), (0.20, 0.12, 0.065))
OAK = ((0.17, 0.11, 0.06), (0.36, 0.26, 0.16))
GREY = ((0.10, 0.098, 0.09), (0.27, 0.26, 0.24))
SLATE = ((0.05, 0.054, 0.058), (0.13, 0.14, 0.15))
EBONY = ((0.012, 0.009, 0.008), (0.05, 0.036, 0.028))
PALE_STONE = ((0.24, 0.235, 0.22), (0.44, 0.43, 0.40))


def branch(
    key: int,
    s: float,
    az: float,
    length: float,
    rise: float = 0.05,
    width: float = 0.45,
    lobes: int = 6,
    full: float = 1.0,
    name: str = "",
) -> Branch:
    """A branch in one line."""
    return Branch(key, s, az, length, rise, width, lobes, full, 0.0, name)


def stage(
    bench: str,
    wood: tuple[tuple[float, float, float], tuple[float, float, float]],
    backdrop: str,
    wall: tuple[float, float, float],
    lamp: Light,
    camera: Camera,
    stand: float = 0.0,
    stand_half: float = 1.35,
    behind: float = 9.0,
    depth: float = 6.4,
) -> Stage:
    """A stage in one line."""
    return Stage(bench, wood[0], wood[1], depth, backdrop, wall, behind, stand, stand_half, lamp, camera)


def see(
    height: float,
    distance: float,
    x: float = 0.0,
    azimuth: float = 0.0,
    elevation: float = 3.5,
    roll: float = 0.0,
    lens: float = 85.0,
) -> Camera:
    """A camera aimed at a height above the bench."""
    return Camera((x, 0.0, height), distance, azimuth, elevation, roll, lens)


def scan(day: str) -> Taken:
    """A print or slide: only the day of the scan is in the file."""
    return Taken(f"{day}T10:20:00", device="scanner")


def sepia(turn: float, seed: int, size: tuple[int, int] = (1200, 900), scale: float = 1.0) -> Look:
    """A black-and-white print gone brown."""
    return Look("sepia", turn, scale, (4.0, -3.0), size, seed)


def faded(turn: float, seed: int, size: tuple[int, int] = (1200, 900), scale: float = 1.0) -> Look:
    """A colour print of the seventies."""
    return Look("faded", turn, scale, (-5.0, 2.0), size, seed)


def slide(turn: float, seed: int, scale: float = 1.035) -> Look:
    """A mounted slide."""
    return Look("slide", turn, scale, (3.0, -2.0), (1280, 960), seed)
