"""The collection's accent, shifted until it can be read, for light and for dark paper.

Contrast is worked out by the formula of the Web Content Accessibility Guidelines 2.2 (relative luminance and contrast
ratio, W3C Recommendation 2023, section "Terms and definitions"). Text in the accent must reach 7:1 (success criterion
1.4.6, level AAA) on every ground it stands on.
"""

from __future__ import annotations

import colorsys
import re
from dataclasses import dataclass

Colour = tuple[int, int, int]

LIGHT_GROUNDS = ("#f8f7f4", "#efede7")
DARK_GROUNDS = ("#151614", "#1e1f1c")
DEFAULT_ACCENT = "#174a55"
ENOUGH = 7.0
# On dark paper a saturated colour glares: it is calmed, and lifted a little further than light paper needs.
ENOUGH_ON_DARK = 9.0
CALM = 0.62


@dataclass(frozen=True, slots=True)
class AccentTokens:
    """The accent as "#rrggbb" for light and for dark paper; `shifted` where the light one is not the colour given."""

    light: str
    dark: str
    shifted: bool


def read_colour(text: str) -> Colour | None:
    """`#rgb` or `#rrggbb` as red, green, blue of 0-255, or None for anything else."""
    match = re.fullmatch(r"#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})", text.strip())
    if match is None:
        return None
    digits = match.group(1)
    if len(digits) == 3:
        digits = "".join(digit * 2 for digit in digits)
    return int(digits[0:2], 16), int(digits[2:4], 16), int(digits[4:6], 16)


def luminance(colour: Colour) -> float:
    """Relative luminance, 0 (black) to 1 (white)."""
    linear = []
    for value in colour:
        share = value / 255
        linear.append(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio, 1 to 21."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def accent_tokens(accent: str | None) -> AccentTokens:
    """The accent for both papers: hue kept, lightness shifted only as far as the contrast asks.

    An accent that is missing or no colour is taken as the house default.
    """
    given = read_colour(accent or "") or read_colour(DEFAULT_ACCENT) or (0, 0, 0)
    light = _shifted(given, LIGHT_GROUNDS, ENOUGH, towards=0.0)
    hue, lightness, saturation = colorsys.rgb_to_hls(*(value / 255 for value in given))
    calmed = _from_hls(hue, lightness, saturation * CALM)
    dark = _shifted(calmed, DARK_GROUNDS, ENOUGH_ON_DARK, towards=1.0)
    return AccentTokens(_hex(light), _hex(dark), shifted=light != given)


def _shifted(colour: Colour, grounds: tuple[str, ...], enough: float, towards: float) -> Colour:
    on = [ground for ground in map(read_colour, grounds) if ground is not None]
    hue, start, saturation = colorsys.rgb_to_hls(*(value / 255 for value in colour))
    steps = 200
    for step in range(steps + 1):
        lightness = start + (towards - start) * step / steps
        tried = colour if step == 0 else _from_hls(hue, lightness, saturation)
        if all(contrast(tried, ground) >= enough for ground in on):
            return tried
    return _from_hls(hue, towards, 0.0)


def _from_hls(hue: float, lightness: float, saturation: float) -> Colour:
    red, green, blue = colorsys.hls_to_rgb(hue, lightness, saturation)
    return round(red * 255), round(green * 255), round(blue * 255)


def _hex(colour: Colour) -> str:
    return "#" + "".join(f"{value:02x}" for value in colour)
