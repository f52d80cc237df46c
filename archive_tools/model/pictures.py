"""What the illustrate stage makes: cuts of photographs, comparisons, drawings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from archive_tools.model.problems import Problem
from archive_tools.model.reasons import Reason
from archive_tools.model.words import Words

COVERAGE = 2.0
"""Standard uncertainties told after ±, and beyond which a change is claimed: about 95 in 100 (JCGM 100:2008, 6.3.3)."""


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
    `change_uncertainty` is that of after - before, or of the movement up; what both lengths share does not count in it.
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
    """The change in plain words, like "lowered by 9 cm (± 1)"; never empty once the illustrate stage has made it.

    What stands after ± there is `COVERAGE` standard uncertainties."""
    change_uncertainty: float | None = None
    told: Reason | None = None
    """The same as `words`, for whoever says it in another language than the pages'."""

    def say(self, translate: Callable[[str], str]) -> str:
        """The change in words of another language; as the pages have it where it was never told apart from them."""
        return self.told.say(translate) if self.told is not None else self.words

    @property
    def change(self) -> float | None:
        """After less before, in centimetres; for a mark how far it went up, so that what was lowered is negative."""
        if self.moved is not None:
            return self.moved[1]
        if self.before is None or self.after is None:
            return None
        return self.after - self.before

    @property
    def is_measurable(self) -> bool:
        """Whether the change is larger than what is left open about it (`COVERAGE` standard uncertainties)."""
        change, within = self.change, self.change_uncertainty
        return change is not None and within is not None and abs(change) > COVERAGE * within


@dataclass(frozen=True, slots=True)
class AlignedComparison:
    """Two photographs brought to one scale and level, or side by side where that cannot be done honestly.

    matrix: from pixels of the upright `before` to pixels of the upright `after`: two rows of three, or three rows for a
    perspective; `back` is the way back. method: "similarity", "affine" or "perspective" by marks, or "features" where
    the program found by itself what did not change. residual_px: root mean square distance of the marks, or of those
    places, after alignment, in pixels of `after`. inliers: how many there were.
    """

    accession: str
    id: str
    before: CutPicture
    after: CutPicture
    aligned: bool
    why_not: str | None = None
    matrix: tuple[tuple[float, float, float], ...] | None = None
    residual_px: float | None = None
    marks_used: tuple[str, ...] = ()
    changes: tuple[MeasuredChange, ...] = ()
    method: str | None = None
    back: tuple[tuple[float, float, float], ...] | None = None
    inliers: int | None = None
    kept_simple: str | None = None
    """Why a richer model that the marks ask for was not used."""
    exposure_matched: bool = False
    """Whether the earlier picture has the brightness and contrast of the later one, for the eye: to be said."""
    caution: str = ""
    """In plain words, what measuring in one view cannot tell; empty where nothing is measured."""


@dataclass(frozen=True, slots=True)
class StripFrame:
    """One photograph of a strip of years. `file` is its name in the tree's folder.

    aligned: whether `cut` lies in the frame of the strip's reference, so that one can follow another in the same place;
    else it is the photograph as it is, and `why_not` says why. method: as in a comparison; None for the reference.
    """

    file: str
    cut: Cut
    aligned: bool
    why_not: str | None = None
    method: str | None = None


@dataclass(frozen=True, slots=True)
class YearsStrip:
    """The dated photographs of a tree from one side, the oldest first, for looking through the years in one place.

    reference: the file into whose frame the others are laid. The cuts of aligned frames have one size, and show what
    all of them have in common; they are brought to the brightness and contrast of the reference, which is to be said.
    """

    accession: str
    view: str
    reference: str
    frames: tuple[StripFrame, ...]

    @property
    def aligned(self) -> tuple[StripFrame, ...]:
        """The frames that can follow each other in one place, the reference among them."""
        return tuple(frame for frame in self.frames if frame.aligned)


@dataclass(frozen=True, slots=True)
class ProposedPair:
    """Two photographs that nobody has declared a comparison yet and that would make one.

    score: 0 to 1, only for ranking. reasons: in plain words. snippet: lines to paste under `comparisons:` in tree.yml.
    """

    accession: str
    before: str
    after: str
    score: float
    reasons: tuple[str, ...]
    snippet: str


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
    """By accession: the line of stewards, as SVG elements."""
    kinship_diagrams: Mapping[str, str] = field(default_factory=dict)
    """By accession: whom a tree came of and what came of it, as SVG elements; links are `tree:` and an accession."""
    planting_charts: Mapping[str, str] = field(default_factory=dict)
    """By accession: who stood in a planting and when, as an SVG element; links as in `kinship_diagrams`."""
    steward_years: Mapping[str, str] = field(default_factory=dict)
    """By steward id: their years and the trees in them, as SVG elements; links as in `kinship_diagrams`."""
    object_lines: Mapping[str, str] = field(default_factory=dict)
    """By object id: its holders, and the trees that stood in it, as SVG elements; links as in `kinship_diagrams`."""
    teaching_diagrams: Mapping[str, str] = field(default_factory=dict)
    """By the id of the steward who heads a branch: who taught whom in it, as SVG elements; links are `steward:` and
    an id."""
    evidence_bands: Mapping[str, Drawing] = field(default_factory=dict)
    """By accession: how well the tree's care is witnessed."""
    years_of_collection: str = ""
    """All trees on one line of years, as an SVG element."""
    encoded: int = 0
    """How many files were encoded in this run; 0 when everything came from the cache."""
    problems: tuple[Problem, ...] = ()
    """Photographs that could not be shown, and why; they are left out of `photos` and `comparisons`."""
    strips: Mapping[str, tuple[YearsStrip, ...]] = field(default_factory=dict)
    """By accession: for each side with three dated photographs or more, the years in one place."""
    proposals: Mapping[str, tuple[ProposedPair, ...]] = field(default_factory=dict)
    """By accession: what else could be compared, the best first. For the internal edition's eyes."""

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """Every file the edition needs, each once."""
        pictures = [*self.photos.values()]
        for comparisons in self.comparisons.values():
            for comparison in comparisons:
                pictures += [comparison.before, comparison.after]
        for strips in self.strips.values():
            pictures += [CutPicture((frame.cut,)) for strip in strips for frame in strip.frames]
        return tuple({cut.url: cut for picture in pictures for cut in picture.cuts}.values())
