"""Which printed labels are no longer true: after a change of the record, a move, or with the years."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.findings import TreeChronology, Verdict
from archive_tools.model.label import LabelChange, LabelPrinted, LabelWords, StaleLabel
from archive_tools.reason.prose.texts import Told, house_names, judge

_HERE = frozenset({"in collection", "on loan here", ""})


def stale_labels(
    register: Iterable[LabelPrinted],
    now: Mapping[str, LabelWords],
    states: Mapping[str, str],
    records: Collection,
    chronologies: Mapping[str, TreeChronology],
    as_of: date,
) -> tuple[StaleLabel, ...]:
    """Printed labels of which something is not so any more, in the register's order.

    register: what was printed; of the same tree, size and languages the newest stands for all. now: what a label would
    say in the same languages, by the key of `key_of`. states: each tree's state, by accession. What a label leaves out
    is no fault of it: only what it says is compared.
    """
    newest = {(one.accession, one.size, one.languages): one for one in register}
    found = []
    for label in newest.values():
        changes = tuple(_changes(label, now.get(key_of(label)), states.get(label.accession, "not shown")))
        if not changes:
            changes = tuple(_claims(label, records, chronologies, as_of))
        if changes:
            found.append(StaleLabel(label, changes))
    return tuple(found)


def key_of(label: LabelPrinted) -> str:
    """What a label is compared by: its tree and its languages."""
    return " ".join((label.accession, *label.languages))


def _changes(label: LabelPrinted, now: LabelWords | None, state: str) -> Iterator[LabelChange]:
    name = label.says.get("name", label.accession)
    if now is None or state not in _HERE:
        yield LabelChange("tree", name, state if now is not None else "not shown")
        return
    said = now.said
    for key, was in label.says.items():
        is_now = " ".join(said.get(key, "").split())
        if is_now != was:
            yield LabelChange(key, was, is_now)
    # A tree that rests out of sight comes back to its label; one that stands elsewhere does not.
    if label.place and now.place and label.place != now.place:
        yield LabelChange("place", label.place, now.place)


def _claims(
    label: LabelPrinted, records: Collection, chronologies: Mapping[str, TreeChronology], as_of: date
) -> Iterator[LabelChange]:
    """Ages the printed text tells that the evidence no longer bears, or that have grown since."""
    tree, chronology = records.trees.get(label.accession), chronologies.get(label.accession)
    if tree is None or chronology is None or chronology.under_review or not _is_english(label):
        return
    text = label.says.get("text", "")
    told = Told(tree, text, label.mark, as_of, label.as_of, house_names(records))
    for claim in judge(told, chronology, records.settings.dates):
        if claim.verdict in (Verdict.STALE, Verdict.CONTRADICTED):
            yield LabelChange("text", claim.words, claim.could_say or "")


def _is_english(label: LabelPrinted) -> bool:
    return not label.languages or label.languages[0].split("-", maxsplit=1)[0] == "en"
