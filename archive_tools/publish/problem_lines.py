"""Problems as a person reads them, and as a program does."""

from __future__ import annotations

from collections.abc import Iterable

from archive_tools.model.problems import Problem, Severity


def problem_line(problem: Problem) -> str:
    """One problem in one line or two: where, how bad, what; and what to write instead."""
    line = f"{problem.mark}: {problem.severity.value}: {problem.what}"
    return f"{line}\n    → {problem.instead}" if problem.instead else line


def number_of(count: int, noun: str) -> str:
    """So many of something, for a terminal: "1 tree", "2 trees"."""
    return f"{count} {noun}{'' if count == 1 else 's'}"


def counted(problems: Iterable[Problem]) -> tuple[int, int]:
    """How many errors, how many warnings."""
    severities = [problem.severity for problem in problems]
    return severities.count(Severity.ERROR), severities.count(Severity.WARNING)


def problems_as_json(problems: Iterable[Problem]) -> dict[str, object]:
    """The stable form of `check --json`."""
    problems = tuple(problems)
    errors, warnings = counted(problems)
    return {
        "problems": [problem_as_json(problem) for problem in problems],
        "errors": errors,
        "warnings": warnings,
    }


def problem_as_json(problem: Problem) -> dict[str, object]:
    """One problem in the stable form: its place, how bad it is, what is wrong and what to write instead."""
    return {
        "severity": problem.severity.value,
        "file": problem.mark.file,
        "line": problem.mark.line,
        "column": problem.mark.column,
        "what": problem.what,
        "instead": problem.instead,
        "rule": problem.rule,
    }
