"""The frame in which two photographs are laid over each other, and the making of the pictures in it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from PIL import Image

from archive_tools.illustrate.alignment import Laid
from archive_tools.illustrate.common_area import Box
from archive_tools.illustrate.cuts import LIMITS
from archive_tools.illustrate.exposure import matched
from archive_tools.illustrate.originals import Original, pixels_of

MOST_ENLARGED = 2.0
"""The earlier picture is never enlarged more than this: a small old print keeps the whole comparison small."""


@dataclass(frozen=True, slots=True)
class Frame:
    """How an aligned pair is made.

    before, after: sizes to which the whole originals are brought first. crop: (left, top, width, height) in pixels of
    the later picture so brought down. back: for each pixel of the crop, where it lies in the earlier picture so
    brought down, in Pillow's order: six numbers, or eight for a perspective.
    """

    before: tuple[int, int]
    after: tuple[int, int]
    crop: tuple[int, int, int, int]
    back: tuple[float, ...]


def frame_of(
    laid: Laid,
    box: Box,
    before: tuple[int, int],
    after: tuple[int, int],
    longest: int = LIMITS[-1],
    enlarged: float = MOST_ENLARGED,
) -> Frame:
    """How to make the pair: at most `longest` pixels, never larger than the later picture itself.

    enlarged: how much the earlier picture may be enlarged at most.
    """
    factor = min(1.0, longest / max(box.right - box.left, box.bottom - box.top), enlarged / laid.scale)
    after_size = times(after, factor)
    across, down = after_size[0] / after[0], after_size[1] / after[1]
    left, top = math.ceil(box.left * across - 1e-6), math.ceil(box.top * down - 1e-6)
    width = min(max(1, math.floor(box.right * across + 1e-6) - left), longest)
    height = min(max(1, math.floor(box.bottom * down + 1e-6) - top), longest)
    before_size = times(before, min(1.0, factor * laid.scale))
    # The way back: from a pixel of the crop to the later original, from there to the earlier original, and down again.
    to_original = np.array([[1 / across, 0, left / across], [0, 1 / down, top / down], [0, 0, 1]])
    reduced = np.diag([before_size[0] / before[0], before_size[1] / before[1], 1.0])
    back = np.array([*laid.back, (0.0, 0.0, 1.0)][:3])
    whole = reduced @ back @ to_original
    numbers = (whole / whole[2, 2]).ravel()[: 8 if len(laid.matrix) == 3 else 6]
    return Frame(before_size, after_size, (left, top, width, height), tuple(float(number) for number in numbers))


def render_before(before: Original, frame: Frame) -> Image.Image:
    """The earlier picture in the frame, in plain sRGB pixels. Raises CannotRead."""
    turned = Image.Transform.AFFINE if len(frame.back) == 6 else Image.Transform.PERSPECTIVE
    return pixels_of(before, frame.before).transform(frame.crop[2:], turned, frame.back, Image.Resampling.BICUBIC)


def render_after(after: Original, frame: Frame) -> Image.Image:
    """The later picture in the frame. Raises CannotRead."""
    left, top, width, height = frame.crop
    return pixels_of(after, frame.after).crop((left, top, left + width, top + height))


def render_pair(before: Original, after: Original, frame: Frame) -> tuple[Image.Image, ...]:
    """The two pictures of an aligned pair, the earlier one brought to the brightness and contrast of the later.

    Raises CannotRead.
    """
    now = render_after(after, frame)
    return matched(render_before(before, frame), now), now


def told(frame: Frame) -> str:
    """The frame in figures, for the names of what is made from it."""
    numbers = " ".join(f"{number:.6f}" if at < 6 else f"{number:.9f}" for at, number in enumerate(frame.back))
    return f"{frame.before} {frame.after} {frame.crop} {numbers}"


def times(size: tuple[int, int], factor: float) -> tuple[int, int]:
    """A size enlarged or reduced, at least one pixel each way."""
    return max(1, round(size[0] * factor)), max(1, round(size[1] * factor))
