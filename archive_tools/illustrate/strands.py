"""Bars in parts: certain, fading, thin, open or dotted; as shares of the line of years, whichever way it runs."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.illustrate.bars import LEAST, Bar, bar
from archive_tools.illustrate.figure import Strand
from archive_tools.illustrate.svg_text import pixels
from archive_tools.illustrate.year_axis import YearAxis

_THICK, _HERE, _THIN, _SPLIT, _BETWEEN = 5.0, 6.6, 1.6, 2.6, 1.8
"""Pixels: a bar, one of the house, a thin line, one of several strands, and between two of them."""
_MOST = 3
"""Into more strands than these a bar is not split."""


@dataclass(frozen=True, slots=True)
class Part:
    """One piece of a bar. css: its class, or the name of its fade ("start", "end" where `soft`).

    from_, to: shares of the line of years. aside, thick: pixels across the bar, from its middle line. dotted: a line.
    """

    css: str
    from_: float
    to: float
    aside: float
    thick: float
    soft: str = ""
    dotted: bool = False


def exchange(x: str, y: float) -> str:
    """Two arrows, one each way, as SVG: from `x` on to the right, their middle at `y` pixels."""
    arrows = "M0 -2.5H10M7 -5L10 -2.5L7 0M10 2.5H0M3 0L0 2.5L3 5"
    return f'<svg class="swap" x="{x}" y="{pixels(y)}" overflow="visible"><path d="{arrows}"/></svg>'


def place_of(strand: Strand, axis: YearAxis) -> Bar:
    """Where the bar stands on the line of years."""
    return bar(strand.stretch.start, strand.stretch.end, axis)


def parts_of(strand: Strand, axis: YearAxis) -> tuple[Part, ...]:
    """The pieces of a bar, in the order in which they are drawn."""
    own = place_of(strand, axis)
    kind = strand.css.split()[0]
    if kind == "gap":
        start, end = (own.from_, own.to) if own.to - own.from_ > 2 * LEAST else (own.low, own.high)
        inset = min(0.006, (end - start) / 4)
        return (Part(strand.css, start + inset, end - inset, 0.0, 0.0, dotted=True),)
    found = []
    for aside, thick in _threads(strand, kind):
        soft = "here" if kind == "here" or strand.css == "loan" else "held"
        found += [
            Part(soft, own.low, own.from_, aside, thick, soft="start"),
            Part(soft, own.to, own.high, aside, thick, soft="end"),
        ]
        full, thin = _cut(own, [place_of(Strand(one, ""), axis) for one in strand.away])
        found += [Part(strand.css, a, b, aside, thick) for a, b in full]
        found += [Part(f"{strand.css} away", a, b, -_THIN / 2, _THIN) for a, b in thin]
    return tuple(part for part in found if part.to - part.from_ > 1e-4)


def _threads(strand: Strand, kind: str) -> list[tuple[float, float]]:
    """Where across the bar each of its strands lies, and how thick it is."""
    several = min(strand.several, _MOST)
    if several < 2:
        thick = _HERE if kind == "here" else _THIN if kind == "with" else _THICK
        return [(-thick / 2, thick)]
    whole = several * _SPLIT + (several - 1) * _BETWEEN
    return [(at * (_SPLIT + _BETWEEN) - whole / 2, _SPLIT) for at in range(several)]


def _cut(own: Bar, away: list[Bar]) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """The certain part of a bar, less the stretches in which the thing stood elsewhere; and those stretches."""
    full, thin = [], []
    at = own.from_
    for one in sorted(away, key=lambda bar: bar.low):
        first, last = max((one.low + one.from_) / 2, at), min((one.to + one.high) / 2, own.to)
        if last <= first:
            continue
        full.append((at, first))
        thin.append((first, last))
        at = last
    full.append((at, own.to))
    return full, thin
