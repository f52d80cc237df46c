"""Before and after: two photographs brought to one scale and level, or side by side where that would not be honest.

The earlier picture is laid into the frame of the later one by their shared marks, both are cut to what they have in
common, and nothing else is done to either: exposure and colour stay as each picture has them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial

from PIL import Image

from archive_tools.illustrate.alignment import CannotAlign, Similarity, shared_marks, similarity
from archive_tools.illustrate.change import Translate, measured_change
from archive_tools.illustrate.common_area import Box, common_box
from archive_tools.illustrate.cuts import LIMITS, picture_of, sizes_of
from archive_tools.illustrate.derivatives import Job
from archive_tools.illustrate.originals import Original, pixels_of
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.pictures import AlignedComparison, CutPicture

MOST_ENLARGED = 2.0
"""The earlier picture is never enlarged more than this: a small old print keeps the whole comparison small."""


@dataclass(frozen=True, slots=True)
class Shot:
    """A photograph of the pair: its record, its original, and its ordinary cuts."""

    photo: Photo
    original: Original
    cuts: CutPicture


@dataclass(frozen=True, slots=True)
class Frame:
    """How the aligned pair is made.

    before, after: sizes to which the whole originals are brought first. crop: (left, top, width, height) in pixels of
    the later picture so brought down. affine: for each pixel of the crop, where it lies in the earlier picture so
    brought down (Pillow's order of the six numbers).
    """

    before: tuple[int, int]
    after: tuple[int, int]
    crop: tuple[int, int, int, int]
    affine: tuple[float, float, float, float, float, float]


def compared(
    accession: str, wanted: ComparisonWanted, before: Shot, after: Shot, _: Translate = str
) -> tuple[AlignedComparison, Job | None]:
    """A comparison, and the work of making its pictures (None when it stands side by side in ordinary cuts)."""
    first, second = dict(before.photo.marks), dict(after.photo.marks)
    asked_to_move = tuple(measure.mark for measure in wanted.measure if measure.mark is not None)
    names: tuple[str, ...] = ()
    laid: Similarity | None = None
    frame: Frame | None = None
    why_not: str | None = None
    try:
        _same_side(before.photo, after.photo)
        names = shared_marks(first, second, wanted.align_on, asked_to_move)
        laid = similarity([first[name] for name in names], [second[name] for name in names])
        keep = [*second.values(), *(laid.carry(point) for point in first.values())]
        box = common_box(laid, before.original.size, after.original.size, keep)
        frame = frame_of(laid, box, before.original.size, after.original.size)
    except CannotAlign as reason:
        why_not = str(reason)
    changes = tuple(measured_change(measure, before.photo, after.photo, names, _) for measure in wanted.measure)
    if laid is None or frame is None:
        pair = AlignedComparison(accession, wanted.id, before.cuts, after.cuts, False, why_not, changes=changes)
        return pair, None
    sizes = sizes_of(*frame.crop[2:])
    made_from = (before.original.fingerprint, after.original.fingerprint, _told(frame))
    pictures = tuple(picture_of(sizes, *made_from, role) for role in ("before", "after"))
    pair = AlignedComparison(
        accession,
        wanted.id,
        before=pictures[0],
        after=pictures[1],
        aligned=True,
        matrix=laid.matrix,
        residual_px=laid.residual,
        marks_used=names,
        changes=changes,
    )
    render = partial(render_pair, before.original, after.original, frame)
    return pair, Job(f"{accession} {wanted.id}", render, (sizes, sizes), pictures)


def frame_of(laid: Similarity, box: Box, before: tuple[int, int], after: tuple[int, int]) -> Frame:
    """How to make the pair: at most the size of the largest cut, and never larger than the later picture itself."""
    longest = max(box.right - box.left, box.bottom - box.top)
    factor = min(1.0, LIMITS[-1] / longest, MOST_ENLARGED / laid.scale)
    after_size = _times(after, factor)
    across, down = after_size[0] / after[0], after_size[1] / after[1]
    left, top = math.ceil(box.left * across - 1e-6), math.ceil(box.top * down - 1e-6)
    width = min(max(1, math.floor(box.right * across + 1e-6) - left), LIMITS[-1])
    height = min(max(1, math.floor(box.bottom * down + 1e-6) - top), LIMITS[-1])
    before_size = _times(before, min(1.0, factor * laid.scale))
    back_across, back_down = before_size[0] / before[0], before_size[1] / before[1]
    # The way back: from a pixel of the crop to the later original, from there to the earlier original, and down again.
    (a, b, c), (d, e, f) = laid.matrix
    determinant = a * e - b * d
    ia, ib, id_, ie = e / determinant, -b / determinant, -d / determinant, a / determinant
    ic, if_ = -(ia * c + ib * f), -(id_ * c + ie * f)
    affine = (
        back_across * ia / across,
        back_across * ib / down,
        back_across * (ia * left / across + ib * top / down + ic),
        back_down * id_ / across,
        back_down * ie / down,
        back_down * (id_ * left / across + ie * top / down + if_),
    )
    return Frame(before_size, after_size, (left, top, width, height), affine)


def render_pair(before: Original, after: Original, frame: Frame) -> tuple[Image.Image, ...]:
    """The two pictures of an aligned pair, in plain sRGB pixels. Raises CannotRead."""
    left, top, width, height = frame.crop
    then = pixels_of(before, frame.before).transform(
        (width, height), Image.Transform.AFFINE, frame.affine, Image.Resampling.BICUBIC
    )
    now = pixels_of(after, frame.after).crop((left, top, left + width, top + height))
    return then, now


def _same_side(before: Photo, after: Photo) -> None:
    if before.view and after.view and before.view != after.view:
        raise CannotAlign(f"the two pictures show different sides of the tree ({before.view}, {after.view})")


def _times(size: tuple[int, int], factor: float) -> tuple[int, int]:
    return max(1, round(size[0] * factor)), max(1, round(size[1] * factor))


def _told(frame: Frame) -> str:
    numbers = " ".join(f"{number:.6f}" for number in frame.affine)
    return f"{frame.before} {frame.after} {frame.crop} {numbers}"
