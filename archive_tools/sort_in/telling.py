"""The plan in words for a person, and as JSON for a program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from archive_tools.model.problems import Problem
from archive_tools.sort_in.plan import Line, Plan, State

_HEADINGS = {
    State.DOUBTFUL: "Doubtful, and left where they are (a line in a mapping file decides):",
    State.UNREADABLE: "Cannot be read, and left where they are:",
    State.SAME: "There already, and not taken in again:",
    State.CARD: "Cards and labels, which are not filed:",
    State.LEFT_OUT: "Left out, as the mapping file says:",
}


def lines_of(plan: Plan, applied: bool) -> Iterator[str]:
    """The plan, or what was done of it, line by line: what goes where and why, then all that does not."""
    filed = plan.filed()
    trees: dict[tuple[str, ...], list[Line]] = {}
    for line in filed:
        trees.setdefault(line.of, []).append(line)
    for of, ones in sorted(trees.items()):
        yield f"{' and '.join(of)}: {_pictures(len(ones))}"
        for line in ones:
            yield f"  {line.source} → {line.target}"
            yield from (f"      {said}" for said in _besides(line, with_reason=True))
    for state, heading in _HEADINGS.items():
        some = [line for line in plan.lines if line.state is state]
        if some:
            yield heading
            for line in some:
                yield f"  {line.source}: {_why(line)}"
                yield from (f"      {said}" for said in _besides(line, with_reason=False))
    yield from (f"Clocks: {told}." for told in plan.clocks)
    yield from (f"Note: {told}." for told in plan.empty)
    if plan.others:
        yield f"{sum(count for _, count in plan.others)} other files are no pictures."
    yield summary(plan, applied)


def summary(plan: Plan, applied: bool) -> str:
    """One sentence: how many were taken in, or would be, and how many not."""
    counts = {state: sum(line.state is state for line in plan.lines) for state in State}
    others = [
        f"{counts[state]} {word}"
        for state, word in (
            (State.DOUBTFUL, "doubtful"),
            (State.SAME, "there already"),
            (State.CARD, "cards and labels"),
            (State.LEFT_OUT, "left out"),
            (State.UNREADABLE, "unreadable"),
        )
        if counts[state]
    ]
    done = "were taken in" if applied else "would be taken in"
    rest = f" ({', '.join(others)})" if others else ""
    then = "" if applied or not counts[State.FILED] else " Nothing is written yet: repeat with --apply."
    return f"{_pictures(counts[State.FILED])} {done}{rest}.{then}"


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
        "no_pictures": sum(count for _, count in plan.others),
        "counts": {state.value: sum(line.state is state for line in plan.lines) for state in State},
        "problems": [_problem_as_json(problem) for problem in plan.problems],
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


def _problem_as_json(problem: Problem) -> dict[str, object]:
    return {
        "severity": problem.severity.value,
        "file": problem.mark.file,
        "line": problem.mark.line,
        "column": problem.mark.column,
        "what": problem.what,
        "instead": problem.instead,
        "rule": problem.rule,
    }


def _why(line: Line) -> str:
    if line.same is not None:
        kind = "byte for byte" if line.same.kind == "bytes" else "pixel for pixel"
        where = "in the collection" if line.same.in_collection else "in the same folder"
        return f"{kind} the same as {line.same.other} {where}"
    return line.doubt or "; ".join(line.because)


def _besides(line: Line, with_reason: bool) -> Iterator[str]:
    if with_reason:
        said = dict(line.entry)
        date = f"{said['date']} ({said['dated_by']})" if "date" in said and "dated_by" in said else said.get("date")
        yield f"{'; '.join(line.because)}; {f'dated {date}' if date else 'no date'}"
    yield from line.told
    if line.near:
        nearest = ", ".join(one.other + (" in the collection" if one.in_collection else "") for one in line.near[:3])
        more = f" and {len(line.near) - 3} more" if len(line.near) > 3 else ""
        yield f"looks nearly like {nearest}{more}"


def _pictures(count: int) -> str:
    return "1 picture" if count == 1 else f"{count} pictures"
