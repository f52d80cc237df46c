"""The photographs of a tree from one side, laid into one frame, so that the years can be looked through in one place.

The frame is that of the tree's portrait or, where the portrait shows another side, of the last picture. What cannot be
laid into it honestly stays as it is and says why, and so does what would leave too little in common to see the tree.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial

from PIL import Image, ImageFilter

from archive_tools.illustrate.alignment import SIMILARITY, CannotAlign, Laid, Point
from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.common_area import Box, box_inside, outline
from archive_tools.illustrate.comparison import Aligned, Shot, align, needs_features
from archive_tools.illustrate.cuts import Size, picture_of
from archive_tools.illustrate.derivatives import Job, encode
from archive_tools.illustrate.exposure import MATCHING, matched
from archive_tools.illustrate.found_alignments import Found, Pair, working_size
from archive_tools.illustrate.frame import Frame, frame_of, render_after, render_before, told
from archive_tools.illustrate.originals import Original, pixels_of
from archive_tools.model.photo import Photo
from archive_tools.model.pictures import StripFrame, YearsStrip
from archive_tools.model.reasons import N_, Reason, because
from archive_tools.model.tree import Tree

FEWEST = 3
WIDEST = 480
"""Pixels, the longer side of a strip's pictures."""
HEAVIEST = 40_000
"""Bytes of one picture: a strip of ten is looked through on a phone."""
LEAST_COMMON = 0.35
"""Share of the reference that all aligned pictures must have in common."""
_NO_SIDE = ("detail",)
_NOT_MOVED = Laid(SIMILARITY, ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), 0.0, (0.0, 0.0), 1.0, 2)

Founds = Mapping[tuple[str, str], Found]


@dataclass(frozen=True, slots=True)
class Side:
    """The dated photographs of a tree from one side, the oldest first, and the one into whose frame they are laid."""

    view: str
    shots: tuple[Shot, ...]
    reference: Shot


def sides_of(tree: Tree, shots: Mapping[str, Shot]) -> tuple[Side, ...]:
    """The sides of a tree of which three dated photographs or more can be shown."""
    by_view: dict[str, list[tuple[date, Shot]]] = {}
    for photo in tree.photos:
        day = dated(photo)
        if day is not None and photo.path in shots and photo.view not in _NO_SIDE and photo.sure != "no":
            by_view.setdefault(photo.view or "", []).append((day, shots[photo.path]))
    sides = []
    for view, found in by_view.items():
        if len(found) >= FEWEST:
            found.sort(key=lambda one: (one[0], one[1].photo.file))
            ordered = tuple(shot for _, shot in found)
            portrait = next((shot for shot in ordered if shot.photo.file == tree.portrait), ordered[-1])
            sides.append(Side(view, ordered, portrait))
    return tuple(sides)


def dated(photo: Photo) -> date | None:
    """The day by which a photograph stands among others: the first it can be of, as its words say."""
    return None if photo.when is None else photo.when.said.first or photo.when.said.last


def moved_marks(tree: Tree) -> tuple[str, ...]:
    """The marks of which a comparison of the tree asks how far they moved: they hold no picture."""
    asked = (measure.mark for wanted in tree.comparisons for measure in wanted.measure)
    return tuple(dict.fromkeys(mark for mark in asked if mark is not None))


def strip_pairs(tree: Tree, shots: Mapping[str, Shot]) -> Iterator[Pair]:
    """The pairs in which the program itself has to look for what has not changed."""
    moved = moved_marks(tree)
    for side in sides_of(tree, shots):
        for shot in side.shots:
            if shot is not side.reference and needs_features(shot.photo, side.reference.photo, moved=moved):
                yield shot.original, side.reference.original


def strips_of(
    tree: Tree, shots: Mapping[str, Shot], found: Founds, _: Translate = str
) -> Iterator[tuple[YearsStrip, tuple[Job, ...]]]:
    """The strips of a tree, and the work of making their pictures. A strip that aligns nothing but its reference stays
    a row of plain pictures.
    """
    moved = moved_marks(tree)
    for side in sides_of(tree, shots):
        yield _strip(tree.accession, side, moved, found, _)


def _strip(
    accession: str, side: Side, moved: tuple[str, ...], found: Founds, _: Translate
) -> tuple[YearsStrip, tuple[Job, ...]]:
    target = side.reference
    laid: dict[str, Aligned] = {}
    why_not: dict[str, Reason] = {}
    for shot in side.shots:
        if shot is not target:
            key = (shot.original.fingerprint, target.original.fingerprint)
            try:
                laid[shot.photo.file] = align(shot.photo, target.photo, moved=moved, found=found.get(key))
            except CannotAlign as reason:
                why_not[shot.photo.file] = reason.why
    box, kept = _common(side, laid, why_not)
    frames: list[StripFrame] = []
    jobs: list[Job] = []
    for shot in side.shots:
        file = shot.photo.file
        if shot is target or file in kept:
            aligned = laid.get(file)
            frame, job = _in_place(accession, shot, target, aligned, box)
        else:
            frame, job = _plain(accession, shot, why_not[file].say(_))
        frames.append(frame)
        jobs.append(job)
    return YearsStrip(accession, side.view, target.photo.file, tuple(frames)), tuple(jobs)


def _common(side: Side, laid: dict[str, Aligned], why_not: dict[str, Reason]) -> tuple[Box, frozenset[str]]:
    """What as many pictures as possible have in common; whichever would leave too little is told in `why_not`."""
    size = side.reference.original.size
    box = Box(0.0, 0.0, float(size[0]), float(size[1]))
    outlines: dict[str, list[Point]] = {}
    for shot in side.shots:
        if shot.photo.file in laid:
            try:
                outlines[shot.photo.file] = outline(laid[shot.photo.file].laid, shot.original.size)
            except CannotAlign as reason:
                why_not[shot.photo.file] = reason.why

    def alone(file: str) -> float:
        inside = box_inside([outlines[file]], size)
        return 0.0 if inside is None else inside.area

    kept: list[str] = []
    for file in sorted(outlines, key=lambda one: (-alone(one), one)):
        smaller = box_inside([outlines[one] for one in (*kept, file)], size)
        if smaller is None or smaller.area < LEAST_COMMON * size[0] * size[1]:
            why_not[file] = because(N_("laid over the others, it would leave too little in common"))
        else:
            box, kept = smaller, [*kept, file]
    return box, frozenset(kept)


def _in_place(accession: str, shot: Shot, target: Shot, aligned: Aligned | None, box: Box) -> tuple[StripFrame, Job]:
    size = target.original.size
    laid = _NOT_MOVED if aligned is None else aligned.laid
    before = size if aligned is None else shot.original.size
    # Every picture of the strip has the same size, however small its original is.
    frame = frame_of(laid, box, before, size, WIDEST, enlarged=math.inf)
    made_from = (shot.original.fingerprint, target.original.fingerprint, told(frame), MATCHING, "strip")
    sizes = (Size(*frame.crop[2:]),)
    picture = picture_of(sizes, *made_from)
    earlier = None if aligned is None else shot.original
    job = Job(f"{accession} {shot.photo.file}", partial(_render, earlier, target.original, frame), (sizes,), (picture,))
    return StripFrame(shot.photo.file, picture.largest, True, method=aligned.method if aligned else None), job


def _plain(accession: str, shot: Shot, why: str) -> tuple[StripFrame, Job]:
    size = Size(*working_size(shot.original.size, WIDEST))
    picture = picture_of((size,), shot.original.fingerprint, "strip")
    job = Job(
        f"{accession} {shot.photo.file}", partial(_render_plain, shot.original, size.pair), ((size,),), (picture,)
    )
    return StripFrame(shot.photo.file, picture.largest, False, why), job


def _render(shot: Original | None, target: Original, frame: Frame) -> tuple[Image.Image, ...]:
    """One picture in the strip's frame; the reference itself where there is no other."""
    now = render_after(target, frame)
    return (light(now if shot is None else matched(render_before(shot, frame), now)),)


def _render_plain(shot: Original, size: tuple[int, int]) -> tuple[Image.Image, ...]:
    return (light(pixels_of(shot, size)),)


def light(picture: Image.Image) -> Image.Image:
    """The picture, softened as little as it takes for its file to be no larger than `HEAVIEST`."""
    softened = picture
    for step in range(1, 12):
        if len(encode(softened)) <= HEAVIEST:
            break
        softened = picture.filter(ImageFilter.GaussianBlur(0.35 * step))
    return softened
