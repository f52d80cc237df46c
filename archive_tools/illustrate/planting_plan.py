"""A plan of a planting seen from above, its front below: which places still have the plant first set there.

Drawn only where the record counts the places of all that stand, in the words "row 2, 3 from the left" (rows from the
front; in another language, the words that its catalogue has for them). Other words are never guessed at: they stand
beside the plants in the chart.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from archive_tools.illustrate.change import Translate
from archive_tools.illustrate.svg_frame import drawing, group, id_part, words
from archive_tools.illustrate.svg_text import NARROW, Run, Text, pixels
from archive_tools.model.lineage import Lineage, MemberSpell
from archive_tools.model.view import EditionView

_PITCH, _DOT, _HEAD, _FOOT = 26.0, 5.5, 31.0, 22.0
"""Pixels: from place to place at most, half a dot, above the last row, and below the first."""
_MOST_ROWS, _MOST_PLACES = 40, 40
"""A plan of more rows, or of more places in a row, is not drawn: its dots would run into each other."""


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place, counted from the front and from the left, and the plants that have stood in it."""

    row: int
    place: int
    spells: tuple[MemberSpell, ...]

    @property
    def css(self) -> str:
        """How it is drawn: its first plant, a later one, or none."""
        if self.spells[-1].end is not None:
            return "empty"
        return "first" if len({spell.member for spell in self.spells}) == 1 else "later"


def planting_plan(view: EditionView, accession: str, _: Translate = str) -> str:
    """The plan of one planting as an SVG element; "" where the places of those that stand are not all counted."""
    tree = view.records.trees.get(accession)
    lineage = view.findings.lineages.get(accession)
    if tree is None or lineage is None:
        return ""
    language = view.records.settings.languages[0] if view.records.settings.languages else ""
    spots = _spots(lineage, language, _)
    if not spots:
        return ""
    rows, across = max(spot.row for spot in spots), max(spot.place for spot in spots)
    if rows > _MOST_ROWS or across > _MOST_PLACES:
        return ""
    pitch = min(_PITCH, (NARROW - 2 * _DOT) / max(across - 1, 1))
    foot = _HEAD + (rows - 1) * _PITCH
    dots = "".join(_dot(spot, _DOT + 1 + (spot.place - 1) * pitch, foot - (spot.row - 1) * _PITCH) for spot in spots)
    sides = (
        Text((Run(_("the back"), "gap-word"),), 0.0, 14.0),
        Text((Run(_("the front"), "gap-word"),), 0.0, foot + _FOOT + 6),
    )
    later = sum(spot.css == "later" for spot in spots)
    told = _("%(places)s places in %(rows)s rows; in %(later)s of them stands a later plant than the first.") % {
        "places": len(spots),
        "rows": rows,
        "later": later,
    }
    title = _("The places of %(tree)s, seen from above") % {"tree": tree.called(language)}
    prefix = f"plan-{id_part(accession)}"
    return drawing(prefix, title, told, foot + _FOOT + 14, "", group(words(sides), dots), "plan")


def _spots(lineage: Lineage, language: str, _: Translate) -> list[_Spot]:
    """All counted places, from the front and from the left; none if one that stands is not counted."""
    pattern = _counted(_)
    found: dict[tuple[int, int], list[MemberSpell]] = {}
    for spell in lineage.members:
        said = pattern.fullmatch(spell.place.say(language).strip()) if spell.place is not None else None
        if said is not None:
            found.setdefault((int(said["row"]), int(said["place"])), []).append(spell)
        elif spell.end is None:
            return []
    if any(min(at) < 1 for at in found):
        return []
    return [_Spot(row, place, tuple(spells)) for (row, place), spells in sorted(found.items())]


def _counted(_: Translate) -> re.Pattern[str]:
    """The words for a counted place in the reader's language, as a pattern."""
    words_of: Mapping[str, str] = {"row": "(?P<row>[0-9]{1,3})", "place": "(?P<place>[0-9]{1,3})"}
    plain = _("row %(row)s, %(place)s from the left") % {"row": "\0row\0", "place": "\0place\0"}
    parts = plain.split("\0")
    return re.compile("".join(words_of[p] if at % 2 else re.escape(p) for at, p in enumerate(parts)), re.IGNORECASE)


def _dot(spot: _Spot, x: float, y: float) -> str:
    """A full dot for the first plant, a ring for a later one, with a point in it for a third or fourth."""
    radius = {"first": _DOT, "later": _DOT - 1, "empty": _DOT / 3}[spot.css]
    place = f'cx="{pixels(x)}" cy="{pixels(y)}"'
    again = len({spell.member for spell in spot.spells}) > 2
    point = f'<circle class="again" {place} r="1.8"/>' if again and spot.css == "later" else ""
    return f'<circle class="{spot.css}" {place} r="{pixels(radius)}"/>{point}'
