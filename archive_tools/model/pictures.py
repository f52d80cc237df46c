"""What the illustrate stage makes: cuts of photographs, comparisons, drawings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from archive_tools.model.problems import Problem
from archive_tools.model.words import Words


@dataclass(frozen=True, slots=True)
class Cut:
    """One derivative of a photograph: a file of the site, named by its content."""

    url: str
    """Relative to the site's root, like "pictures/3f9a0c….jpg"."""
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class CutPicture:
    """The cuts of one photograph, smallest first."""

    cuts: tuple[Cut, ...]

    @property
    def largest(self) -> Cut:
        """The widest cut."""
        return self.cuts[-1]

    @property
    def ratio(self) -> float:
        """Width over height."""
        return self.largest.width / self.largest.height


@dataclass(frozen=True, slots=True)
class MeasuredChange:
    """One measurement of a comparison, in centimetres; uncertainties are standard uncertainties (k = 1).

    For a length `before` and `after` are set; for the movement of a mark `moved` is (right, up).
    `refused` says in plain words why nothing can be measured.
    """

    name: Words
    before: float | None = None
    after: float | None = None
    before_uncertainty: float | None = None
    after_uncertainty: float | None = None
    moved: tuple[float, float] | None = None
    moved_uncertainty: float | None = None
    refused: str | None = None
    words: str = ""
    """The change in plain words, like "lowered by 9 cm (± 1)"; never empty once the illustrate stage has made it."""


@dataclass(frozen=True, slots=True)
class AlignedComparison:
    """Two photographs brought to one scale and level, or side by side where that cannot be done honestly.

    matrix: the 2 x 3 transform from pixels of the upright `before` to pixels of the upright `after`.
    residual_px: root mean square distance of the marks after alignment, in pixels of `after`.
    """

    accession: str
    id: str
    before: CutPicture
    after: CutPicture
    aligned: bool
    why_not: str | None = None
    matrix: tuple[tuple[float, float, float], tuple[float, float, float]] | None = None
    residual_px: float | None = None
    marks_used: tuple[str, ...] = ()
    changes: tuple[MeasuredChange, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing as an SVG element, and the sentences that say the same."""

    svg: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Pictures:
    """Everything drawn for one edition. Photographs by the path of their original; comparisons by accession."""

    photos: Mapping[str, CutPicture] = field(default_factory=dict)
    comparisons: Mapping[str, tuple[AlignedComparison, ...]] = field(default_factory=dict)
    custody_lines: Mapping[str, str] = field(default_factory=dict)
    """By accession: the line of stewards, as an SVG element."""
    evidence_bands: Mapping[str, Drawing] = field(default_factory=dict)
    """By accession: how well the tree's care is witnessed."""
    years_of_collection: str = ""
    """All trees on one line of years, as an SVG element."""
    encoded: int = 0
    """How many files were encoded in this run; 0 when everything came from the cache."""
    problems: tuple[Problem, ...] = ()
    """Photographs that could not be shown, and why; they are left out of `photos` and `comparisons`."""

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Every file the edition needs, each once."""
        pictures = [*self.photos.values()]
        for comparisons in self.comparisons.values():
            for comparison in comparisons:
                pictures += [comparison.before, comparison.after]
        return tuple({cut.url: cut for picture in pictures for cut in picture.cuts}.values())
