"""Finds the camera's distance and aim so that a tree fills a chosen share of the picture."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from .geometry import Vec
from .stage import Camera

SENSOR = 36.0


def view_axes(c: Camera) -> tuple[Vec, Vec, Vec]:
    """Right, up, and the direction from the aim back to the camera."""
    az, el = math.radians(c.azimuth), math.radians(c.elevation)
    back = np.array([math.sin(az) * math.cos(el), -math.cos(az) * math.cos(el), math.sin(el)])
    right = np.array([math.cos(az), math.sin(az), 0.0])
    return right, np.cross(back, right), back


def framed(c: Camera, points: Vec, width: int, height: int) -> Camera:
    """The camera with target and distance such that the points fill `c.fit` of the picture's width or height."""
    right, up, back = view_axes(c)
    half_w = SENSOR / 2 / c.lens * min(1.0, width / height)
    half_h = SENSOR / 2 / c.lens * min(1.0, height / width)
    aim = (points.min(0) + points.max(0)) / 2
    far = 20.0
    for _ in range(12):
        q = points - aim
        depth = far - q @ back
        x, y = (q @ right) / depth / half_w, (q @ up) / depth / half_h
        aim = aim + right * (x.max() + x.min()) / 2 * half_w * far + up * (y.max() + y.min()) / 2 * half_h * far
        far *= max((x.max() - x.min()) / 2 / c.fit, (y.max() - y.min()) / 2 / (c.fit + 0.02))
    # more room above than below looks right, and shows the front of the bench
    aim = aim - up * 0.03 * half_h * far + right * c.aside * half_w * far
    return replace(c, target=(float(aim[0]), float(aim[1]), float(aim[2])), distance=float(far), fit=0.0)
