"""Brightness brought nearer for the eye: what it must do, and what it must leave alone."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from archive_tools.illustrate.exposure import MOST_MOVED, matched


def wall_and_tree(wall: int, tree: int) -> Image.Image:
    levels = np.full((80, 120), wall, dtype=np.uint8)
    levels[20:60, 40:80] = np.linspace(max(tree - 30, 0), min(tree + 30, 255), 40).astype(np.uint8)
    return Image.fromarray(np.stack([levels] * 3, axis=-1))


def mean(picture: Image.Image) -> float:
    return float(np.asarray(picture.convert("L"), dtype=float).mean())


def test_a_slightly_dark_slide_gets_the_brightness_of_the_later_picture():
    dark, bright = wall_and_tree(110, 60), wall_and_tree(130, 80)
    assert mean(matched(dark, bright)) == pytest.approx(mean(bright), abs=4)


def test_a_dark_wall_is_not_made_a_bright_one():
    dark, bright = wall_and_tree(40, 60), wall_and_tree(220, 60)
    assert mean(matched(dark, bright)) - mean(dark) <= MOST_MOVED + 4


def test_sepia_stays_sepia():
    sepia = Image.new("RGB", (40, 40), (150, 120, 90))
    red, green, blue = matched(sepia, wall_and_tree(170, 120)).getpixel((5, 5))  # type: ignore[misc]
    assert red > green > blue


@given(st.integers(1, 254), st.integers(1, 254), st.integers(0, 255), st.integers(0, 255))
def test_black_stays_black_white_stays_white_and_nothing_changes_order(wall: int, tree: int, other: int, third: int):
    first = wall_and_tree(wall, tree)
    pixels = np.asarray(first).copy()
    pixels[0, :256] = 0
    pixels[1, :256] = 255
    pixels[2, :60, :] = np.arange(60)[:, None] * 4
    done = np.asarray(matched(Image.fromarray(pixels), wall_and_tree(other, third)))
    assert done[0].max() == 0 and done[1].min() == 255
    assert (np.diff(done[2, :60, 0].astype(int)) >= 0).all()
