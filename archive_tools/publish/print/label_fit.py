"""What does not fit on a label, and by how much."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from archive_tools.model.label import LabelWords
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.publish.print.document import has_cjk
from archive_tools.publish.print.label_type import LINE_LENGTH
from archive_tools.publish.print.labels import Fit, LabelFormat


def fit_problems(words: Sequence[LabelWords], found: Iterable[Fit], form: LabelFormat) -> tuple[Problem, ...]:
    """Errors for labels whose words do not fit at the smallest size allowed; warnings for lines that are too long."""
    problems = []
    kind = form.type
    size = f"{form.width:g} x {form.height:g} mm in {kind.smallest:g} point ({kind.guidance})"
    for one, fit in zip(words, found, strict=True):
        mark = one.marks.get("text", Mark("collection.yml"))
        if fit.size is None:
            cjk = has_cjk(one.text)
            count = len(one.text) if cjk else len(one.text.split())
            unit = "characters" if cjk else "words"
            if one.other is not None and one.other.text:
                what = f"the label of {one.accession} in two languages does not fit on {size}"
                instead = "a larger --size, or one language a label"
            elif fit.room < 1:
                what = f"the label of {one.accession} does not fit on {size}, even without its text"
                instead = "a larger --size"
            else:
                what = f"the label of {one.accession} does not fit on {size}: {count - fit.room} {unit} too many"
                instead = f"at most {fit.room} {unit}, or a larger --size"
            problems.append(Problem(mark, what, instead, "label-does-not-fit", reach=Reach.TOLD))
        elif fit.line > LINE_LENGTH + 0.5:
            long = f"lines of {fit.line:.0f} characters on the label of {one.accession}"
            what = f"{long}; at most {LINE_LENGTH} are read well"
            problems.append(Problem(mark, what, None, "label-lines", Severity.WARNING, Reach.TOLD))
    return tuple(problems)
