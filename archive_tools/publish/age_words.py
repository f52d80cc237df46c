"""What may be said of a tree's age in running text, with the range, the hedge and the day."""

from __future__ import annotations

from archive_tools.model.findings import AgeRange, Bounds, MilestoneFinding, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.publish.context import Context


def firmest(finding: MilestoneFinding | None) -> Grade | None:
    """The firmest layer that bounds a milestone at all, or None."""
    if finding is None:
        return None
    return next((grade for grade in Grade if grade in finding.layers and finding.layers[grade].known), None)


def age(context: Context, found: AgeRange) -> str:
    """Like "72 to 73 years", "at least 52 years", or "" where nothing is known."""
    ngettext = context.translations.ngettext
    _ = context.translations.gettext
    if found.min is None and found.max is None:
        return ""
    if found.min is None and found.max is not None:
        return ngettext("at most %(n)s year", "at most %(n)s years", found.max) % {"n": found.max}
    assert found.min is not None
    if found.max is None:
        return ngettext("at least %(n)s year", "at least %(n)s years", found.min) % {"n": found.min}
    if found.min == found.max:
        return ngettext("%(n)s year", "%(n)s years", found.min) % {"n": found.min}
    return _("%(least)s to %(most)s years") % {"least": found.min, "most": found.max}


def since_token(context: Context, chronology: TreeChronology | None, milestone: Milestone) -> str:
    """What `{{ since.care }}` becomes: "1953", "1953–1955", "1973 or earlier", with "it is said" where it only is."""
    _ = context.translations.gettext
    grade, finding = _answer(chronology, milestone)
    if finding is None or grade is None:
        return _unknown(context, chronology)
    return _hedged(context, grade) % {"what": _years(context, finding.layers[grade])}


def years_token(context: Context, chronology: TreeChronology | None, milestone: Milestone) -> str:
    """What `{{ years.care }}` becomes: "at least 61, as of November 2026"."""
    _ = context.translations.gettext
    grade, finding = _answer(chronology, milestone)
    if finding is None or grade is None:
        return _unknown(context, chronology)
    found = finding.ages[grade]
    if found.min is None:
        said = _("at most %(n)s") % {"n": found.max}
    elif found.max is None:
        said = _("at least %(n)s") % {"n": found.min}
    elif found.min == found.max:
        said = str(found.min)
    else:
        said = _("%(least)s to %(most)s") % {"least": found.min, "most": found.max}
    said = _("%(age)s") % {"age": said}  # a number alone, to which other languages add what it counts
    when = context.dates.month(context.as_of)
    return _("%(age)s, as of %(month)s") % {"age": _hedged(context, grade) % {"what": said}, "month": when}


def _answer(chronology: TreeChronology | None, milestone: Milestone) -> tuple[Grade | None, MilestoneFinding | None]:
    if chronology is None or chronology.under_review:
        return None, None
    finding = chronology.milestones.get(milestone)
    return firmest(finding), finding


def _unknown(context: Context, chronology: TreeChronology | None) -> str:
    _ = context.translations.gettext
    under_review = chronology is not None and chronology.under_review
    return _("dates under review") if under_review else _("a day not known")


def _years(context: Context, bounds: Bounds) -> str:
    return context.dates.bounds(bounds)


def _hedged(context: Context, grade: Grade) -> str:
    _ = context.translations.gettext
    if grade is Grade.DOCUMENTED:
        return "%(what)s"
    return _("%(what)s, it is said") if grade is Grade.REPORTED else _("perhaps %(what)s")
