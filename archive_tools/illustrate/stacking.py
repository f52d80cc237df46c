"""Labels one below the other: each as near as may be to where it belongs, none on another."""

from __future__ import annotations

from collections.abc import Sequence


def stacked(wanted: Sequence[tuple[float, float]], first: float = 0.0) -> tuple[float, ...]:
    """The tops of labels, given where each would like its top and how high it is, in order; none above `first`.

    The sum of the squares of the ways moved is the least possible: least squares under an order, by pooling adjacent
    violators (Ayer, Brunk, Ewing, Reid and Silverman 1955), then held below `first`.
    """
    above: list[float] = []
    total = 0.0
    for _top, height in wanted:
        above.append(total)
        total += height
    blocks: list[tuple[float, int]] = []
    for (top, _height), before in zip(wanted, above, strict=True):
        sum_, count = top - before, 1
        while blocks and blocks[-1][0] / blocks[-1][1] >= sum_ / count:
            other, more = blocks.pop()
            sum_, count = sum_ + other, count + more
        blocks.append((sum_, count))
    origins = [max(sum_ / count, first) for sum_, count in blocks for _ in range(count)]
    return tuple(origin + before for origin, before in zip(origins, above, strict=True))
