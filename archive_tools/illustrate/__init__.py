"""Photographs, comparisons and drawings, made from an edition's view.

`draw` makes everything the pages of one edition need. Files land in a cache, named by what they are made from; the
caller puts those of `Pictures.cuts` into the site, and no others: the cache may hold pictures of another edition.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from PIL import Image

from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.comparison import Shot
from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.cuts import FOLDER, picture_of, sizes_of
from archive_tools.illustrate.derivatives import Job, Progress, cut_file, make
from archive_tools.illustrate.evidence_band import care_in_words, evidence_band
from archive_tools.illustrate.kinship_diagram import kinship_diagram
from archive_tools.illustrate.object_line import object_lines
from archive_tools.illustrate.originals import Original, original_of, pixels_of
from archive_tools.illustrate.pairs import paired
from archive_tools.illustrate.pixels import CannotRead
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.illustrate.steward_years import steward_years
from archive_tools.illustrate.teaching_diagram import teaching_diagrams
from archive_tools.illustrate.years_of_collection import years_of_collection
from archive_tools.model.photo import Photo
from archive_tools.model.pictures import Drawing, Pictures
from archive_tools.model.problems import Problem
from archive_tools.model.tree import Tree
from archive_tools.model.view import EditionView

__all__ = ["cut_file", "draw"]


def draw(
    view: EditionView,
    root: Path,
    cache: Path,
    out: Path | None = None,
    *,
    progress: Progress | None = None,
    translate: Translate = str,
    processes: int | None = None,
) -> Pictures:
    """Every picture one edition needs.

    root: the collection's folder, where the originals lie; they are only read. cache: where cuts are kept from build to
    build. out: the site's folder, if the cuts are to be put there as well. translate: turns the English words of
    measurements and drawings into the edition's language. A photograph that cannot be read is left out and told in
    `Pictures.problems`. Raises OSError where the cache or `out` cannot be written.
    """
    shots: dict[str, Shot] = {}
    problems: list[Problem] = []
    jobs: list[Job] = []
    owners: list[tuple[Tree, Photo]] = []
    for tree, photo in _photos(view):
        try:
            original = original_of(photo, root)
            sizes = sizes_of(*original.size)
        except CannotRead as reason:
            problems.append(_unreadable(tree, photo, str(reason)))
            continue
        cuts = picture_of(sizes, original.fingerprint)
        shots[photo.path] = Shot(photo, original, cuts)
        jobs.append(Job(photo.path, partial(_whole, original, sizes[-1].pair), (sizes,), (cuts,)))
        owners.append((tree, photo))
    of_pairs = paired(view.records.trees.values(), shots, cache, translate, processes)
    jobs += of_pairs.jobs
    made = make(jobs, cache, progress, processes)
    for place, (tree, photo) in enumerate(owners):
        if place in made.refused:
            problems.append(_unreadable(tree, photo, made.refused[place]))
            del shots[photo.path]
    failed = {cut.url for place in made.refused for picture in jobs[place].pictures for cut in picture.cuts}
    pictures = Pictures(
        photos={path: shot.cuts for path, shot in shots.items()},
        comparisons=of_pairs.shown_comparisons(failed),
        strips=of_pairs.shown_strips(failed),
        proposals=of_pairs.proposals,
        custody_lines=_drawn(custody_line, view, translate),
        kinship_diagrams=_drawn(kinship_diagram, view, translate),
        planting_charts=_drawn(planting_chart, view, translate),
        steward_years=steward_years(view, translate),
        object_lines=object_lines(view, translate),
        teaching_diagrams=teaching_diagrams(view, translate),
        evidence_bands=_evidence_bands(view, translate),
        years_of_collection=years_of_collection(view, translate),
        encoded=made.encoded,
        problems=tuple(problems),
    )
    if out is not None:
        _put(pictures, cache, out)
    return pictures


def _drawn(draw_one: Callable[[EditionView, str, Translate], str], view: EditionView, _: Translate) -> dict[str, str]:
    drawn = {accession: draw_one(view, accession, _) for accession in view.records.trees}
    return {accession: svg for accession, svg in drawn.items() if svg}


def _evidence_bands(view: EditionView, translate: Translate) -> dict[str, Drawing]:
    drawn = {accession: evidence_band(view, accession, translate) for accession in view.records.trees}
    chronologies = view.findings.chronologies
    return {a: Drawing(svg, tuple(care_in_words(chronologies[a], translate))) for a, svg in drawn.items() if svg}


def _whole(original: Original, size: tuple[int, int]) -> tuple[Image.Image, ...]:
    return (pixels_of(original, size),)


def _photos(view: EditionView) -> Iterator[tuple[Tree, Photo]]:
    """Every photograph of the edition once, with the first tree it belongs to."""
    seen: set[str] = set()
    for tree in view.records.trees.values():
        for photo in tree.photos:
            if photo.path not in seen:
                seen.add(photo.path)
                yield tree, photo


def _unreadable(tree: Tree, photo: Photo, why: str) -> Problem:
    return Problem(
        photo.where.at("file"),
        f"the picture {photo.path} cannot be shown: {why}",
        "put a whole JPEG, PNG, TIFF or WebP file in its place",
        rule="picture-unreadable",
        subject=(tree.accession, "photo", photo.file),
    )


def _put(pictures: Pictures, cache: Path, out: Path) -> None:
    """Put the cuts into the site: as another name of the same file where the disk can, else as a copy."""
    (out / FOLDER).mkdir(parents=True, exist_ok=True)
    for cut in pictures.cuts:
        source, target = cut_file(cache, cut), out / cut.url
        if target.exists() and target.stat().st_size == source.stat().st_size:
            continue
        target.unlink(missing_ok=True)
        try:
            os.link(source, target)
        except OSError:
            shutil.copyfile(source, target)
