"""Lines of stewards for the tests of drawings."""

from datetime import date

from illustrate_builders import AS_OF, steward, tree, view_of

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.model.findings import Bounds, Custody, CustodyPeriod, EventFinding, Hand, TreeChronology, TreeState
from archive_tools.model.grades import Grade

HERE = TreeState(True, "in collection", True, None)


def during(first: int | None, last: int | None = None) -> Bounds:
    """Some day from the beginning of one year to the end of another (or of the same)."""
    last = first if last is None else last
    return Bounds(None if first is None else date(first, 1, 1), None if last is None else date(last, 12, 31))


def line_of(periods, hands=(), stewards=(), name="The Tide Elm", accession="T1", told=(), trees=()):
    """The drawing of a line; `told`: events whose dates are known, by id."""
    custody = Custody(accession, tuple(periods), tuple(hands), HERE)
    events = tuple(EventFinding(id_, "observed", bounds, None, Grade.DOCUMENTED) for id_, bounds in told)
    found = {accession: TreeChronology(accession, AS_OF, False, {}, events)}
    view = view_of([tree(accession, name=name), *trees], stewards, {accession: custody}, found)
    return custody_line(view, accession)


FERRY = (
    CustodyPeriod(("anna",), during(1951), during(1960, 1964), "first hands"),
    CustodyPeriod(("tomas",), during(1960, 1964), during(1974), "gift"),
    CustodyPeriod((), during(1974), during(1981, 1983), "gap", gap_grade="unknown"),
    CustodyPeriod(("circle",), during(1981, 1983), during(1989), "not known how"),
    CustodyPeriod(("ines",), during(1989), during(1996), "gift"),
    CustodyPeriod(("house",), during(1994), during(1996), "loan", owner=False, lent_by=("ines",)),
    CustodyPeriod(("house",), during(1996), None, "gift"),
)


WHO = (
    steward("anna", "Anna Lindq <b>&"),
    steward("tomas", "Tomas Verr"),
    steward("circle", "The Harbour Circle"),
    steward("ines", "Inés Okor"),
)


WORK = (
    Hand(("anna",), "potted", during(1953), "a", Grade.DOCUMENTED),
    Hand(("ines",), "styled", during(1988), "b", Grade.DOCUMENTED),
    Hand((), "repotted", during(1990, 1994), "c", Grade.REPORTED),
)
