"""What would sharpen an age: the one new document that would gain most years for each milestone."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from archive_tools.model.calendar import completed_years
from archive_tools.model.findings import AgeRange, Bounds, Sharpening, Statement
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.chronology.wording import N_, Translate

_SHOWS: Mapping[Milestone, str] = {
    Milestone.ORIGIN: N_("a dated document of the plant before %(year)s"),
    Milestone.CARE: N_("a dated document of its training before %(year)s"),
    Milestone.CONTAINER: N_("a dated document of its container before %(year)s"),
    Milestone.ARRIVAL: N_("a dated document of its arrival before %(year)s"),
}


def sharpened(
    milestone: Milestone,
    layers: Mapping[Grade, Bounds],
    ages: Mapping[Grade, AgeRange],
    deciding: Callable[[Grade], Sequence[Statement]],
    translate: Translate,
) -> Sharpening | None:
    """What would gain most for the age that documents prove, and how many years; None where nothing would.

    A statement of a lower grade that a document would confirm comes first, because what to look for is then known;
    `deciding` gives the statements that decide the latest day in a layer. Else anything before the present latest day
    would do, and gains at most the years between the two ends.
    """
    documented = ages[Grade.DOCUMENTED]
    proven = documented.min or 0
    lower = [g for g in Grade if g is not Grade.DOCUMENTED and (ages[g].min or 0) > proven]
    if lower:
        gained = {grade: (ages[grade].min or 0) - proven for grade in lower}
        best = max(lower, key=lambda grade: (gained[grade], -grade))
        below = [statement for statement in deciding(best) if statement.grade is not Grade.DOCUMENTED]
        if below:
            said = "; ".join(statement.says for statement in below)
            what = translate("a document for: %(said)s") % {"said": said}
            return Sharpening(milestone, "latest", what, gained[best], tuple(below))
    latest = layers[Grade.DOCUMENTED].latest
    earliest = max((bounds.earliest for bounds in layers.values() if bounds.earliest), default=None)
    if latest is None or earliest is None or earliest.year >= latest.year:
        return None
    what = translate(_SHOWS[milestone]) % {"year": latest.year}
    return Sharpening(milestone, "latest", what, completed_years(earliest, latest))
