"""The gate: the one place where an EditionView is made."""

from __future__ import annotations

from archive_tools.model.collection import Selected
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition
from archive_tools.model.view import EditionView, LeftOut


def view_of(
    selected: Selected, findings: Findings, edition: Edition, left_out: tuple[LeftOut, ...] = ()
) -> EditionView:
    """The view of an edition: records already cut down, and what was concluded from exactly those.

    Raises ValueError when the findings speak of a tree the records do not hold: they would come from more than
    the edition may know.
    """
    strangers = (set(findings.chronologies) | set(findings.custodies)) - set(selected.trees)
    if strangers:
        raise ValueError(f"findings about trees that are not in the {edition} edition: {', '.join(sorted(strangers))}")
    return EditionView(edition, findings.as_of, selected, findings, left_out)
