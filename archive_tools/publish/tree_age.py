"""How we know a tree's age: one sentence, and the chain of statements that proves it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from archive_tools.model.findings import MilestoneFinding, Statement, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.tree import Tree
from archive_tools.publish.age_words import age, firmest
from archive_tools.publish.context import Context
from archive_tools.publish.event_words import grade_word
from archive_tools.publish.statement_words import SaidWords, date_of, home_of, statement_words
from archive_tools.publish.typography import years_in_type

LEADING = (Milestone.CARE, Milestone.CONTAINER, Milestone.ARRIVAL, Milestone.ORIGIN)


@dataclass(frozen=True, slots=True)
class Step:
    """One statement of a proof. `mark` is where it is written ("" in the public edition)."""

    when: str
    says: str
    quote: str
    grade: str
    role: str
    sources: str
    mark: str = ""
    firm: bool = True
    decides: bool = False
    quiet_after: int = 0


@dataclass(frozen=True, slots=True)
class Proof:
    """The sentence, the steps in order of time, and what follows from them."""

    sentence: str
    steps: tuple[Step, ...]
    verdict: tuple[str, ...]
    under_review: bool = False


@dataclass(slots=True)
class _Roles:
    """Which ends of which milestones one statement decides."""

    statement: Statement
    earliest: set[Milestone] = field(default_factory=set)
    latest: set[Milestone] = field(default_factory=set)


def sentence_of(context: Context, accession: str) -> str:
    """The one sentence about a tree's years that stands beside its name; "" where nothing may be said."""
    chronology = context.view.findings.chronologies.get(accession)
    if chronology is None:
        return ""
    if chronology.under_review:
        return context.translations.gettext("Dates under review")
    leading = _leading(chronology)
    return years_in_type(leading.wording or "") if leading else ""


def proof_of(context: Context, tree: Tree) -> Proof | None:
    """The proof of what is said of the tree's years, or None where nothing is said."""
    chronology = context.view.findings.chronologies.get(tree.accession)
    if chronology is None:
        return None
    sentence = sentence_of(context, tree.accession)
    if chronology.under_review:
        statements = [s for contradiction in chronology.contradictions for s in contradiction.statements]
        return Proof(sentence, _steps(context, tree, chronology, _without_roles(statements)), (), under_review=True)
    leading = _leading(chronology)
    if leading is None:
        return None
    roles = _roles(chronology)
    return Proof(
        sentence,
        _steps(context, tree, chronology, roles, leading),
        _verdict(context, tree, chronology, leading),
    )


def _leading(chronology: TreeChronology) -> MilestoneFinding | None:
    found = (chronology.milestones.get(milestone) for milestone in LEADING)
    return next((finding for finding in found if finding is not None and finding.wording), None)


def _roles(chronology: TreeChronology) -> Iterable[_Roles]:
    roles: dict[Statement, _Roles] = {}
    for milestone, finding in chronology.milestones.items():
        for statement in finding.because_earliest:
            roles.setdefault(statement, _Roles(statement)).earliest.add(milestone)
        for statement in finding.because_latest:
            roles.setdefault(statement, _Roles(statement)).latest.add(milestone)
    return roles.values()


def _without_roles(statements: Iterable[Statement]) -> Iterable[_Roles]:
    return [_Roles(statement) for statement in dict.fromkeys(statements)]


def _steps(
    context: Context,
    tree: Tree,
    chronology: TreeChronology,
    roles: Iterable[_Roles],
    leading: MilestoneFinding | None = None,
) -> tuple[Step, ...]:
    told = _told_once(context, tree, roles)
    days = {role.statement: _day(context, tree, role.statement) for role in told}
    ordered = sorted(told, key=lambda role: (days[role.statement] or date.max, role.statement.mark))
    steps = []
    for at, role in enumerate(ordered):
        following = days[ordered[at + 1].statement] if at + 1 < len(ordered) else None
        steps.append(_step(context, tree, role, leading, _quiet(chronology, days[role.statement], following)))
    return tuple(steps)


def _told_once(context: Context, tree: Tree, roles: Iterable[_Roles]) -> list[_Roles]:
    """Statements that read alike (the day of an event, and who was in it) as one, which decides what any of them does
    and is no firmer than the least firm.
    """
    by_words: dict[tuple[SaidWords, str | None, str | None], _Roles] = {}
    for role in sorted(roles, key=lambda role: (-role.statement.grade, role.statement.mark)):
        words = statement_words(context, tree, role.statement)
        one = by_words.setdefault((words, role.statement.tree, role.statement.event), role)
        one.earliest |= role.earliest
        one.latest |= role.latest
    return list(by_words.values())


def _step(context: Context, tree: Tree, role: _Roles, leading: MilestoneFinding | None, quiet: int) -> Step:
    statement = role.statement
    words = statement_words(context, tree, statement)
    milestone = leading.milestone if leading else None
    grade = firmest(leading)
    # What is only said or thought decides nothing that is printed as documented.
    is_firm_enough = grade is not None and statement.grade <= grade
    return Step(
        when=words.when,
        says=words.says.rstrip("."),
        quote=words.quote,
        grade=grade_word(statement.grade, context.translations.gettext),
        role=_role_words(context, role, milestone if is_firm_enough else None),
        sources=words.sources,
        mark="" if context.is_public else str(statement.mark),
        firm=statement.grade is Grade.DOCUMENTED,
        decides=is_firm_enough and (milestone in role.earliest or milestone in role.latest),
        quiet_after=quiet,
    )


def _role_words(context: Context, role: _Roles, leading: Milestone | None) -> str:
    _ = context.translations.gettext
    if leading in role.earliest and leading in role.latest:
        return _("decides since when")
    if leading in role.latest:
        return _("decides the latest day")
    if leading in role.earliest:
        return _("decides the earliest day")
    others = role.earliest | role.latest
    words = {
        Milestone.ORIGIN: _("says how the tree began"),
        Milestone.CARE: _("bears on its training"),
        Milestone.CONTAINER: _("says since when in a container"),
        Milestone.ARRIVAL: _("says since when it is here"),
    }
    return next((words[milestone] for milestone in Milestone if milestone in others), "")


def _verdict(context: Context, tree: Tree, chronology: TreeChronology, leading: MilestoneFinding) -> tuple[str, ...]:
    _ = context.translations.gettext
    lines = []
    grade = firmest(leading)
    years = age(context, leading.ages[grade]) if grade is not None and grade in leading.ages else ""
    custody = context.view.findings.custodies.get(tree.accession)
    if years and not (custody and custody.state.word == "died"):
        lines.append(
            _("As of %(day)s that is %(years)s.") % {"day": context.dates.day(chronology.as_of), "years": years}
        )
    lines += [
        f"{years_in_type(finding.wording)}."
        for milestone, finding in chronology.milestones.items()
        if finding.wording and milestone is not leading.milestone
    ]
    left_out = [c.left_out for c in chronology.contradictions if c.left_out is not None]
    for statement in dict.fromkeys(left_out):
        words = statement_words(context, tree, statement)
        said = ". ".join(part for part in (words.says, words.when, words.sources) if part)
        lines.append(_("Left out, because firmer evidence speaks against it: %(says)s.") % {"says": said.rstrip(".")})
    return tuple(lines)


def _day(context: Context, tree: Tree, statement: Statement) -> date | None:
    chronology = context.view.findings.chronologies.get(home_of(context, tree, statement).accession)
    found = chronology.event(statement.event) if chronology is not None and statement.event else None
    if found is not None and found.bounds.known:
        return found.bounds.earliest or found.bounds.latest
    when = date_of(context, tree, statement)
    return (when.said.first or when.said.last) if when is not None else None


def _quiet(chronology: TreeChronology, start: date | None, end: date | None) -> int:
    if start is None or end is None:
        return 0
    return max((q.years for q in chronology.quiet if q.start >= start and q.end <= end), default=0)
