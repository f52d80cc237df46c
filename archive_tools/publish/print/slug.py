"""The line outside the trim of every sheet: what it is, of which day, how to print it and on what."""

from __future__ import annotations

from collections.abc import Sequence

from archive_tools.model.label import LabelWords
from archive_tools.publish.context import Context
from archive_tools.publish.print.labels import LabelFormat
from archive_tools.publish.print.sheets import Sheet


def weather_hint(context: Context) -> str:
    """What to print labels on that stand outdoors (common practice, no source)."""
    _ = context.translations.gettext
    return _(
        "For outdoors: laser or pigment ink on matt waterproof polyester of 200 micrometres or more, not laminated; "
        "dye inks fade within a summer, gloss hides the code from a camera"
    )


def slugs(
    context: Context, words: Sequence[LabelWords], form: LabelFormat, sheet: Sheet, size: float | None, further: int = 0
) -> tuple[str, ...]:
    """A line for each sheet. size: of the text in points, where it is one; further: pieces that are no tree's."""
    _ = context.translations.gettext
    numbers = [one.accession for one in words] + [""] * further
    count = -(-len(numbers) // sheet.count)
    lines = []
    for number in range(count):
        here = [one for one in numbers[number * sheet.count : (number + 1) * sheet.count] if one]
        said = _("%(house)s, as of %(day)s. Sheet %(number)s of %(count)s: %(trees)s. %(width)s × %(height)s mm") % {
            "house": context.house,
            "day": context.dates.day(context.as_of),
            "number": number + 1,
            "count": count,
            "trees": _shortened(here),
            "width": f"{sheet.piece_width:g}",
            "height": f"{sheet.piece_height:g}",
        }
        if size is not None:
            said += _(", text %(size)s point") % {"size": f"{size:g}"}
        if sheet.bleed:
            said += _(", bleed %(bleed)s mm") % {"bleed": f"{sheet.bleed:g}"}
        sentences = (said, _("Print at 100 %, not fitted to the page"), weather_hint(context))
        lines.append(" ".join(_("%(sentence)s.") % {"sentence": one} for one in sentences))
    return tuple(lines)


def _shortened(numbers: Sequence[str], most: int = 4) -> str:
    if len(numbers) <= most:
        return ", ".join(numbers) or "–"
    return f"{numbers[0]} … {numbers[-1]}"
