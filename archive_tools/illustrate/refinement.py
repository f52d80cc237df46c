"""From an alignment at working size to the pixels of the originals, made finer where the originals are larger.

At full size the earlier picture is laid into the later one as found, and each place that agreed is followed the last
pixel or two (Lucas & Kanade 1981, in pyramids, as OpenCV has it); the same model is then fitted again. What does not
fit better than before is not used.
"""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from archive_tools.illustrate.alignment import CannotAlign, Laid
from archive_tools.illustrate.features import AGREES, Agreement, misses, refit
from archive_tools.illustrate.originals import Original, pixels_of

LARGER = 1.3
"""Where the originals are not larger than this many times the working size, there is nothing to gain."""
_MOST_PIXELS = 4600
"""Longest side at which is refined: beyond it a photograph holds no finer detail than its lens."""
_ENOUGH = 20

Array = NDArray[np.float64]


def refined(
    found: Agreement, first: tuple[int, int], second: tuple[int, int], before: Original, after: Original
) -> Laid:
    """The alignment in pixels of the originals. first, second: the working sizes. Raises CannotRead."""
    at_before = found.before * (np.array(before.size) / first)
    at_after = found.after * (np.array(after.size) / second)
    enlarged = max(after.size) / max(second)
    plain = refit(found.laid.model, at_before, at_after)
    if max(enlarged, max(before.size) / max(first)) < LARGER or max(*before.size, *after.size) > _MOST_PIXELS:
        return plain
    better = _followed(plain, at_before, at_after, before, after, AGREES * enlarged)
    return plain if better is None or better.residual >= plain.residual else better


def _followed(
    plain: Laid, at_before: Array, at_after: Array, before: Original, after: Original, reach: float
) -> Laid | None:
    cv2.setNumThreads(1)
    earlier, later = (np.asarray(pixels_of(original, original.size).convert("L")) for original in (before, after))
    # OpenCV counts from the centres of pixels, marks from their corners.
    half = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1.0]])
    whole = np.linalg.inv(half) @ np.array([*plain.matrix, (0.0, 0.0, 1.0)][:3]) @ half
    laid_over = cv2.warpPerspective(earlier, whole, after.size, flags=cv2.INTER_LINEAR)
    carried = np.array([plain.carry((float(x), float(y))) for x, y in at_before])
    begun = (carried - 0.5).astype(np.float32).reshape(-1, 1, 2)
    window = max(15, round(4 * reach) | 1)
    ended, good, _ = cv2.calcOpticalFlowPyrLK(laid_over, later, begun, None, winSize=(window, window), maxLevel=1)  # type: ignore[call-overload]
    shifted = ended.reshape(-1, 2).astype(float) + 0.5 - carried
    kept = (good.ravel() == 1) & (np.linalg.norm(shifted, axis=1) < reach)
    if kept.sum() < max(_ENOUGH, len(kept) // 2):
        return None
    target = carried + shifted
    for _round in range(3):
        try:
            fit = refit(plain.model, at_before[kept], target[kept])
        except CannotAlign:
            return None
        left_over = misses(fit, at_before, target)
        closer = kept & (left_over < max(3 * float(np.median(left_over[kept])), 0.5))
        if closer.sum() < _ENOUGH or (closer == kept).all():
            break
        kept = closer
    return fit
