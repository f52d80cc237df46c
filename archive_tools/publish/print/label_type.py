"""How large the type of a label must be, by published guidance.

- Clear print and large print: UK Association for Accessible Formats, G003 "Creating clear print and large print
  documents" (2019): at least 12 point, ideally 14; large print at least 16 point, ideally 18.
- By viewing distance: Smithsonian Guidelines for Accessible Exhibition Design, table of type sizes: 24 point at 75 mm,
  100 point at 1 m, 200 point at 2 m (values from memory), read along straight lines between.
- A line holds at most 55 characters, 45 to 50 are better (the same guidelines).
"""

from __future__ import annotations

from dataclasses import dataclass

CLEAR_PRINT, LARGE_PRINT = 12.0, 16.0
BY_DISTANCE = ((75.0, 24.0), (1000.0, 100.0), (2000.0, 200.0))
"""Millimetres of viewing distance, points of type."""
LINE_LENGTH = 55
SMALL_PRINT = 9.0
"""Points of the credit and the number, which are for those who look for them (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class LabelType:
    """The type of a run of labels, in points. smallest: below which no text for visitors goes; largest: none above.

    guidance: who says so, for the message about a text that does not fit.
    """

    smallest: float
    largest: float
    small_print: float
    guidance: str

    @property
    def sizes(self) -> tuple[float, ...]:
        """The sizes that are tried, from the largest, half a point apart."""
        steps = int((self.largest - self.smallest) * 2)
        return tuple(self.largest - step / 2 for step in range(steps + 1))


def points_for_distance(millimetres: float) -> float:
    """The least size of type that is read from so far away; nearer than the table's first row, that row's.

    >>> points_for_distance(1000)
    100.0
    """
    first, *rest = BY_DISTANCE
    if millimetres <= first[0]:
        return first[1]
    near = first
    for far in rest:
        if millimetres <= far[0]:
            share = (millimetres - near[0]) / (far[0] - near[0])
            return near[1] + share * (far[1] - near[1])
        near = far
    return near[1] * millimetres / near[0]


def label_type(width: float, *, large_print: bool, distance: float | None) -> LabelType:
    """The sizes for labels `width` millimetres wide; distance: of the reader's eye, in millimetres, if given."""
    smallest = LARGE_PRINT if large_print else CLEAR_PRINT
    guidance = f"{'large' if large_print else 'clear'} print, UKAAF G003"
    if distance is not None and points_for_distance(distance) > smallest:
        smallest = round(points_for_distance(distance) * 2) / 2
        guidance = f"a viewing distance of {distance:g} mm, Smithsonian Guidelines for Accessible Exhibition Design"
    # A wider label is read from further away: its type grows with it, from 16 point on a postcard.
    largest = round(16 * (1.5 if large_print else 1) * max(width, 60) / 148 * 2) / 2
    return LabelType(smallest, max(largest, smallest), smallest if large_print else SMALL_PRINT, guidance)
