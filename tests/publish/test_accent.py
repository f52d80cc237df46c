"""The accent is shifted until it can be read.

Source: Web Content Accessibility Guidelines 2.2, definitions of "relative luminance" and "contrast ratio", and the
value 7:1 of success criterion 1.4.6. The formula is written out again below, so that the tests do not lean on our
own.
"""

from __future__ import annotations

import colorsys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.publish.accent import DARK_GROUNDS, LIGHT_GROUNDS, accent_tokens, contrast, read_colour


def wcag(one: str, other: str) -> float:
    def luminance(text: str) -> float:
        channels = [int(text[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        low = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
        return 0.2126 * low[0] + 0.7152 * low[1] + 0.0722 * low[2]

    bright, dark = max(luminance(one), luminance(other)), min(luminance(one), luminance(other))
    return (bright + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_published_ends() -> None:
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21.0)
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(4.48, abs=0.01)  # #777 on white, from memory


@given(st.integers(0, 0xFFFFFF))
def test_every_accent_reaches_seven_to_one_on_every_ground(number: int) -> None:
    tokens = accent_tokens(f"#{number:06x}")
    assert min(wcag(tokens.light, ground) for ground in LIGHT_GROUNDS) >= 7
    assert min(wcag(tokens.dark, ground) for ground in DARK_GROUNDS) >= 7


def test_a_colour_that_can_be_read_is_left_alone() -> None:
    tokens = accent_tokens("#174a55")
    assert tokens.light == "#174a55"
    assert not tokens.shifted


def test_a_shifted_colour_keeps_its_hue() -> None:
    tokens = accent_tokens("#d2691e")
    assert tokens.shifted
    red, green, blue = read_colour(tokens.light) or (0, 0, 0)
    hue = colorsys.rgb_to_hls(red / 255, green / 255, blue / 255)[0]
    assert hue == pytest.approx(colorsys.rgb_to_hls(0xD2 / 255, 0x69 / 255, 0x1E / 255)[0], abs=0.02)


def test_what_is_no_colour_is_the_house_default() -> None:
    assert accent_tokens("teal") == accent_tokens(None)
    assert read_colour("#abc") == (0xAA, 0xBB, 0xCC)
