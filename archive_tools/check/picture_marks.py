"""Marks in photographs, the scales between them, and the comparisons that lean on them."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import error, in_comparison, in_value, warning
from archive_tools.check.walk import all_comparisons, all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Tree
from archive_tools.model.vocabulary import nearest

RULE = "unknown-mark"


def marks_outside(collection: Collection) -> Iterator[Problem]:
    """A mark beyond the edge of the upright picture."""
    for tree, photo in all_photos(collection):
        if not photo.width or not photo.height:
            continue
        for index, (name, (x, y)) in enumerate(photo.marks):
            if not (0 <= x <= photo.width and 0 <= y <= photo.height):
                what = (
                    f"“{name}” lies at {x:g}, {y:g}, and the upright picture has {photo.width} × {photo.height} pixels"
                )
                record, value = ("photo", f"{tree.accession}/{photo.file}"), f"marks/{index}"
                instead = "pixels from the top left corner of the upright picture"
                yield in_value(photo.where.at("marks", name), record, value, "mark-outside", what, instead)


def scales_between_nothing(collection: Collection) -> Iterator[Problem]:
    """A scale whose ends are no marks of its picture."""
    for tree, photo in all_photos(collection):
        names = [name for name, _ in photo.marks]
        if photo.scale is None:
            continue
        for key, end in (("from", photo.scale.from_mark), ("to", photo.scale.to_mark)):
            if end not in names:
                record = ("photo", f"{tree.accession}/{photo.file}")
                what, instead = _no_mark(photo, end)
                yield in_value(photo.where.at("scale", key), record, "scale", RULE, what, instead)


def comparisons_without_marks(collection: Collection) -> Iterator[Problem]:
    """What a comparison aligns on or measures and one of its pictures lacks; pictures that share too few marks.

    Only what it aligns on makes the whole comparison fall: a measure that lacks a mark is refused by itself.
    """
    for tree, wanted in all_comparisons(collection):
        pair = [photo for photo in (tree.photo(wanted.before), tree.photo(wanted.after)) if photo is not None]
        if wanted.before == wanted.after:
            what = "a comparison needs two photographs, and `before` and `after` are the same"
            yield in_comparison(tree.accession, wanted, ("after",), "same-photo", what, "another photograph")
        elif len(pair) == 2:
            yield from _lacking(tree, wanted, pair)
            yield from _too_few(tree, wanted, pair)


def _lacking(tree: Tree, wanted: ComparisonWanted, pair: list[Photo]) -> Iterator[Problem]:
    for index, name in enumerate(wanted.align_on):
        if (photo := _without(name, pair)) is not None:
            yield in_comparison(tree.accession, wanted, ("align_on", index), RULE, *_no_mark(photo, name))
    for index, measure in enumerate(wanted.measure):
        for key, mark in (("from", measure.from_mark), ("to", measure.to_mark), ("mark", measure.mark)):
            if mark is not None and (photo := _without(mark, pair)) is not None:
                yield error(wanted.where.at("measure", index, key), RULE, *_no_mark(photo, mark))


def _too_few(tree: Tree, wanted: ComparisonWanted, pair: list[Photo]) -> Iterator[Problem]:
    shared = [name for name, _ in pair[0].marks if name in dict(pair[1].marks)]
    files, instead = f"{pair[0].file} and {pair[1].file}", "marks with the same names in both pictures"
    if wanted.align_on:
        usable = set(wanted.align_on) & set(shared)
        if len(usable) < 2 and not any(name not in shared for name in wanted.align_on):
            what = f"two marks at least must be the same in {files}, and they share {len(usable)}"
            yield in_comparison(tree.accession, wanted, ("align_on",), "too-few-marks", what, instead)
    elif len(shared) < 2 and (wanted.measure or (pair[0].marks and pair[1].marks)):
        what = (
            f"{files} share {len(shared)} marks, and two are needed to lay them over each other by marks; "
            "what has not changed in them is looked for instead"
        )
        at = "measure" if wanted.measure else "id"
        yield warning(wanted.where.at(at), "too-few-marks", what, instead)


def _without(name: str, pair: list[Photo]) -> Photo | None:
    return next((photo for photo in pair if name not in dict(photo.marks)), None)


def _no_mark(photo: Photo, name: str) -> tuple[str, str | None]:
    known = [mark for mark, _ in photo.marks]
    what = f"{photo.file} has no mark “{name}”"
    return what, nearest(name, known) or (None if known else f"`marks` of {photo.file} in {photo.where.file}")
