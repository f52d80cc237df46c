"""The plan in words for a person, and as JSON for a program."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from archive_tools.publish.problem_lines import number_of, problem_as_json
from archive_tools.sort_in.dating import NOTHING
from archive_tools.sort_in.facts import listed
from archive_tools.sort_in.plan import Line, Plan, State

_HEADINGS = {
    State.DOUBTFUL: "Doubtful, and left where they are; a table given with --mapping decides.",
    State.UNREADABLE: "Cannot be read, and left where they are:",
    State.SAME: "There already, and not taken in again:",
    State.CARD: "Cards and labels, which are not filed:",
    State.LEFT_OUT: "Left out, as the mapping file says:",
}
_COUNTED = {
    State.DOUBTFUL: ("doubtful", "doubtful"),
    State.SAME: ("there already", "there already"),
    State.CARD: ("card or label", "cards and labels"),
    State.LEFT_OUT: ("left out", "left out"),
    State.UNREADABLE: ("that cannot be read", "that cannot be read"),
}
_BY = {"camera": "by the camera", "file name": "by the file name"}
_WIDTH = 80
"""Of the narrowest terminal in use (common practice, no source)."""


def lines_of(plan: Plan, applied: bool) -> Iterator[str]:
    """The plan, or what was done of it, line by line: what goes where and why, then all that does not.

    Pictures of one tree that go in for one reason stand together below that reason, a line each; likewise those that
    stay out for one. Lines are as wide as a terminal where words can be parted; names of files are kept whole.
    """
    trees: dict[tuple[tuple[str, ...], str], list[Line]] = {}
    for line in plan.lines:
        if line.state is State.FILED:
            trees.setdefault((line.of, (line.target or "").rpartition("/")[0]), []).append(line)
    for (of, folder), ones in sorted(trees.items()):
        yield from _wrapped(f"{listed(of)}: {number_of(len(ones), 'picture')}{f' to {folder}/' if folder else ''}")
        for reasons, some in _together(ones, _reasons_to_file).items():
            for reason in reasons:
                yield from _wrapped(reason, 2)
            for line in some:
                yield from _pair(line.source, " → ", (line.target or "").rpartition("/")[2])
                yield from _near(line, folder)
    for state, heading in _HEADINGS.items():
        ones = [line for line in plan.lines if line.state is state]
        if ones:
            yield from _wrapped(heading + (_example(ones) if state is State.DOUBTFUL else ""))
        for reasons, some in _together(ones, _reasons_to_stay).items():
            for reason in reasons:
                yield from _wrapped(reason, 2)
            for line in some:
                yield from _pair(line.source, " = ", line.same.other if line.same else "")
                yield from _near(line, "")
    for told in plan.clocks:
        yield from _wrapped(f"Clocks: {told}.")
    for told in plan.empty:
        yield from _wrapped(f"Note: {told}.")
    if plan.others:
        kinds = [f"{count} {ending or 'without an ending'}" for ending, count in plan.others]
        count = sum(count for _, count in plan.others)
        are = "other file is no picture" if count == 1 else "other files are no pictures"
        yield from _wrapped(f"{count} {are}: {listed(kinds)}.")
    yield from summary(plan, applied)


def summary(plan: Plan, applied: bool) -> Iterator[str]:
    """A few words at the end: how many were taken in, or would be, how many not, and what to do next."""
    counts = {state: sum(line.state is state for line in plan.lines) for state in State}
    filed = plan.filed()
    trees = len({tree for line in filed for tree in line.of})
    size = sum(line.size for line in filed) / 1_000_000
    of = f"{number_of(len(filed), 'picture')} of {number_of(trees, 'tree')} ({size:,.1f} MB)"
    if plan.problems:
        yield from _wrapped("Nothing is taken in: what is said of the files above is to be mended first.")
    elif filed and applied:
        yield from _wrapped(f"{of} {'was' if len(filed) == 1 else 'were'} taken in.")
    elif filed:
        yield from _wrapped(f"{of} would be taken in.")
    else:
        yield from _wrapped("There is nothing to take in.")
    near = sum(bool(line.near) for line in filed)
    if near:
        yield from _wrapped(f"{near} of them {'looks' if near == 1 else 'look'} nearly like another, as said above.")
    others = [f"{counts[state]} {words[counts[state] != 1]}" for state, words in _COUNTED.items() if counts[state]]
    if others and not plan.problems:
        yield from _wrapped(f"Not taken in: {listed(others)}.")
    if filed and not applied and not plan.problems:
        yield "Nothing is written yet: repeat with --apply."


def as_json(plan: Plan, receipt: str | None) -> dict[str, object]:
    """The stable form of `sort-in --json`: what is not known is null, never absent."""
    return {
        "from": plan.source,
        "applied": receipt is not None,
        "receipt": receipt,
        "pictures": [_line_as_json(line) for line in plan.lines],
        "clocks": list(plan.clocks),
        "cards_without_pictures": list(plan.empty),
        "cameras": [{"camera": name, "pictures": count} for name, count in plan.cameras],
        "other_files": [{"ending": ending, "count": count} for ending, count in plan.others],
        "no_pictures": sum(count for _, count in plan.others),
        "counts": {state.value: sum(line.state is state for line in plan.lines) for state in State},
        "problems": [problem_as_json(problem) for problem in plan.problems],
    }


def taken_back_as_json(file: str, gone: int, stay: Mapping[str, str]) -> dict[str, object]:
    """The stable form of `sort-in --undo --json`."""
    return {"receipt": file, "taken_back": gone, "left": [{"file": name, "why": why} for name, why in stay.items()]}


def _line_as_json(line: Line) -> dict[str, object]:
    same = line.same
    return {
        "file": line.source,
        "state": line.state.value,
        "of": list(line.of),
        "goes_to": line.target,
        "because": list(line.because),
        "told": list(line.told),
        "doubt": line.doubt,
        "entry": dict(line.entry) or None,
        "sha256": line.sha256 or None,
        "same_as": {"file": same.other, "in_collection": same.in_collection, "by": same.kind} if same else None,
        "near": [{"file": one.other, "in_collection": one.in_collection, "bits": one.bits} for one in line.near],
    }


def _reasons_to_file(line: Line) -> tuple[str, ...]:
    said = dict(line.entry)
    date, by = said.get("date"), said.get("dated_by")
    dated = f"dated {_BY.get(str(by), f'by {by}')}" if by else "dated as the mapping file says" if date else "no date"
    if NOTHING in line.told:
        dated = "no date, as neither camera, file name nor mapping gives one"
    if date and not str(line.target).rpartition("/")[2].startswith(str(date)):
        dated += f": {date}"
    return (f"{'; '.join(line.because)}; {dated}", *(told for told in line.told if told != NOTHING))


def _reasons_to_stay(line: Line) -> tuple[str, ...]:
    if line.same is not None:
        kind = "byte for byte" if line.same.kind == "bytes" else "pixel for pixel"
        where = "in the collection" if line.same.in_collection else "in the same folder"
        return (f"{kind} the same as one {where}", *line.told)
    return (line.doubt or "; ".join(line.because), *line.told)


def _together(lines: Iterable[Line], reasons: Callable[[Line], tuple[str, ...]]) -> dict[tuple[str, ...], list[Line]]:
    """Lines by their reasons, in the order in which these first come up."""
    found: dict[tuple[str, ...], list[Line]] = {}
    for line in lines:
        found.setdefault(reasons(line), []).append(line)
    return found


def _example(doubtful: Sequence[Line]) -> str:
    name = doubtful[0].source
    name = f'"{name.replace(chr(34), chr(34) * 2)}"' if any(sign in name for sign in ',;"\t') else name
    return f" Its first row is file,accession and the next may be {name},ACCESSION"


def _pair(source: str, sign: str, other: str) -> Iterator[str]:
    """Two names beside each other, or below each other where that is too wide."""
    if not other:
        yield f"    {source}"
    elif len(source) + len(sign) + len(other) + 4 <= _WIDTH:
        yield f"    {source}{sign}{other}"
    else:
        yield f"    {source}"
        yield f"     {sign}{other}"


def _near(line: Line, folder: str) -> Iterator[str]:
    if line.near:
        beside = f"{folder}/" if folder else ""
        nearest = [one.other.removeprefix(beside) + (" in the collection" if one.in_collection else "")
                   for one in line.near[:3]]  # fmt: skip
        more = [f"{len(line.near) - 3} more"] if len(line.near) > 3 else []
        yield from _wrapped(f"looks nearly like {listed([*nearest, *more])}", 6)


def _wrapped(words: str, indent: int = 0) -> list[str]:
    lead = " " * indent
    return textwrap.wrap(
        words, _WIDTH, initial_indent=lead, subsequent_indent=lead + "  ", break_long_words=False,
        break_on_hyphens=False,
    )  # fmt: skip
