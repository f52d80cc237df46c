"""Before and after: two photographs brought to one scale and level, or side by side where that would not be honest.

The earlier picture is laid into the frame of the later one by their shared marks or, where there are too few, by what
has not changed in them; both are cut to what they have in common.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import partial

from archive_tools.illustrate.alignment import CannotAlign, Laid, Point, TooFewMarks, shared_marks
from archive_tools.illustrate.change import Translate, measured_change
from archive_tools.illustrate.common_area import common_box
from archive_tools.illustrate.cuts import picture_of, sizes_of
from archive_tools.illustrate.derivatives import Job
from archive_tools.illustrate.exposure import MATCHING
from archive_tools.illustrate.found_alignments import Found
from archive_tools.illustrate.frame import Frame, frame_of, render_pair, told
from archive_tools.illustrate.originals import Original
from archive_tools.illustrate.richer_models import lay
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.pictures import AlignedComparison, CutPicture
from archive_tools.model.reasons import N_, because

BY_FEATURES = "features"
_NEAR = 0.03
"""A mark both pictures have must be carried to within this share of the picture's diagonal."""
_SIDES = {
    "front": N_("the front"), "back": N_("the back"), "left": N_("the left side"), "right": N_("the right side"),
    "top": N_("the top"), "detail": N_("a detail"),
}  # fmt: skip
_BOTH = N_("%(one)s; and %(other)s")
_ASTRAY = N_("what seems unchanged in the two pictures would carry the mark “%(name)s” %(pixels)s pixels astray")


@dataclass(frozen=True, slots=True)
class Shot:
    """A photograph of the pair: its record, its original, and its ordinary cuts."""

    photo: Photo
    original: Original
    cuts: CutPicture


@dataclass(frozen=True, slots=True)
class Aligned:
    """How two photographs lie over each other, by which method, and the names of the marks that hold them."""

    laid: Laid
    method: str
    names: tuple[str, ...] = ()


def marks_moved(wanted: ComparisonWanted) -> tuple[str, ...]:
    """The marks whose movement is asked for: they must not hold the pictures."""
    return tuple(measure.mark for measure in wanted.measure if measure.mark is not None)


def needs_features(before: Photo, after: Photo, asked: tuple[str, ...] = (), moved: tuple[str, ...] = ()) -> bool:
    """Whether two photographs of one side share too few marks to be held by them."""
    try:
        same_side(before, after)
        shared_marks(dict(before.marks), dict(after.marks), asked, moved)
    except TooFewMarks:
        return True
    except CannotAlign:
        return False
    return False


def align(
    before: Photo, after: Photo, asked: tuple[str, ...] = (), moved: tuple[str, ...] = (), found: Found | None = None
) -> Aligned:
    """How `before` lies over `after`: by their marks, else as it was found without marks.

    Raises CannotAlign, saying why, where neither is honest.
    """
    same_side(before, after)
    first, second = dict(before.marks), dict(after.marks)
    try:
        names = shared_marks(first, second, asked, moved)
    except TooFewMarks as few:
        if found is None:
            raise
        if found.laid is None:
            raise _neither(few, found) from None
        _hold(found.laid, first, second, moved, math.hypot(after.width, after.height))
        return Aligned(found.laid, BY_FEATURES)
    laid = lay([first[name] for name in names], [second[name] for name in names])
    return Aligned(laid, laid.model, names)


def compared(
    accession: str,
    wanted: ComparisonWanted,
    before: Shot,
    after: Shot,
    _: Translate = str,
    found: Found | None = None,
) -> tuple[AlignedComparison, Job | None]:
    """A comparison, and the work of making its pictures (None when it stands side by side in ordinary cuts).

    found: what looking for unchanged places in the two pictures has given, where it was asked (`needs_features`).
    """
    aligned: Aligned | None = None
    frame: Frame | None = None
    why_not: str | None = None
    try:
        aligned = align(before.photo, after.photo, wanted.align_on, marks_moved(wanted), found)
        first, second = dict(before.photo.marks), dict(after.photo.marks)
        keep = [*second.values(), *(aligned.laid.carry(point) for point in first.values())]
        box = common_box(aligned.laid, before.original.size, after.original.size, keep)
        frame = frame_of(aligned.laid, box, before.original.size, after.original.size)
    except CannotAlign as reason:
        why_not = reason.why.say(_)
    names = aligned.names if aligned else _names(wanted, before.photo, after.photo)
    free = aligned.laid if aligned and aligned.method == BY_FEATURES else None
    changes = tuple(measured_change(m, before.photo, after.photo, names, _, laid=free) for m in wanted.measure)
    caution = caution_of_one_view(_) if any(not change.refused for change in changes) else ""
    if aligned is None or frame is None:
        pair = AlignedComparison(
            accession, wanted.id, before.cuts, after.cuts, False, why_not, changes=changes, caution=caution
        )
        return pair, None
    sizes = sizes_of(*frame.crop[2:])
    made_from = (before.original.fingerprint, after.original.fingerprint, told(frame), MATCHING)
    pictures = tuple(picture_of(sizes, *made_from, role) for role in ("before", "after"))
    pair = AlignedComparison(
        accession,
        wanted.id,
        before=pictures[0],
        after=pictures[1],
        aligned=True,
        matrix=aligned.laid.matrix,
        residual_px=aligned.laid.residual,
        marks_used=aligned.names,
        changes=changes,
        method=aligned.method,
        back=aligned.laid.back,
        inliers=aligned.laid.points,
        kept_simple=aligned.laid.kept_simple,
        exposure_matched=True,
        caution=caution,
    )
    render = partial(render_pair, before.original, after.original, frame)
    return pair, Job(f"{accession} {wanted.id}", render, (sizes, sizes), pictures)


def caution_of_one_view(_: Translate = str) -> str:
    """What no measuring in a single photograph can tell, in words fit for every page that shows measures.

    By similar triangles: seen from the distance D, a scale that stands nearer than the object by d makes it read
    true x (D - d) / D.
    """
    return _(
        "Measured in one view, a length holds only in the plane of its scale: what stands nearer to the camera than "
        "the scale reads too long, what stands farther reads too short. With the camera 2 m away, a scale 10 cm nearer "
        "than the tree makes it read 5 in 100 too short."
    )


def same_side(before: Photo, after: Photo) -> None:
    """Raises CannotAlign where two photographs are said to show different sides of a tree."""
    if before.view and after.view and before.view != after.view:
        raise CannotAlign(
            N_("the two pictures show different sides of the tree (%(one)s, %(other)s)"),
            one=because(_SIDES.get(before.view, before.view)),
            other=because(_SIDES.get(after.view, after.view)),
        )


def _neither(few: TooFewMarks, found: Found) -> CannotAlign:
    """Neither marks nor what has not changed lay one picture over the other."""
    return CannotAlign(few.why if found.why is None else because(_BOTH, one=few.why, other=found.why))


def _names(wanted: ComparisonWanted, before: Photo, after: Photo) -> tuple[str, ...]:
    """The marks by which a movement may still be measured though the pictures stand side by side."""
    try:
        same_side(before, after)
        return shared_marks(dict(before.marks), dict(after.marks), wanted.align_on, marks_moved(wanted))
    except CannotAlign:
        return ()


def _hold(
    laid: Laid, first: dict[str, Point], second: dict[str, Point], moved: tuple[str, ...], diagonal: float
) -> None:
    for name, point in first.items():
        if name in second and name not in moved:
            missed = math.dist(laid.carry(point), second[name])
            if missed > _NEAR * diagonal:
                raise CannotAlign(_ASTRAY, name=name, pixels=f"{missed:.0f}")
