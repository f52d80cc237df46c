"""A small view made by hand: an invented house with four trees, enough to walk through every part of every page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from archive_tools.model.collection import Collection, HandWrittenPage, Selected, Settings
from archive_tools.model.dates import DatePolicy, Duration, Span, WhenWritten
from archive_tools.model.event import Citation, Event, EventRef, Measured, Note
from archive_tools.model.findings import (
    AgeRange,
    Bounds,
    Contradiction,
    Custody,
    CustodyPeriod,
    EventFinding,
    Findings,
    Hand,
    MilestoneFinding,
    QuietPeriod,
    Sharpening,
    Statement,
    TreeChronology,
    TreeState,
)
from archive_tools.model.grades import Edition, Grade, Milestone, Visibility
from archive_tools.model.grounds import Place
from archive_tools.model.lineage import Kinship, Lineage, MemberSpell, ObjectLine, TeachingTie, TreeInObject
from archive_tools.model.people import CollectionObject, Source, Steward, Taught
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.pictures import AlignedComparison, Cut, CutPicture, MeasuredChange, Pictures
from archive_tools.model.places_in_files import Mark, Where
from archive_tools.model.tree import Due, Kin, Member, NotShown, Tree
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.reason.lineage.stewards import steward_lines

AS_OF = date(2026, 11, 25)
HERE = Where("trees/M1/tree.yml", {(): (1, 1)})
DRAWING = (
    '<svg class="drawing" height="60" role="img" aria-labelledby="d-{0}"><title id="d-{0}">Who held it</title>'
    '<rect class="held" x="5%" width="40%" y="33" height="5"/></svg>'
)


def year(text: str) -> WhenWritten:
    """A whole year, "1951", or an approximate one, "1951~" (two years to either side)."""
    number = int(text[:4])
    about = text.endswith("~")
    said = Span(date(number, 1, 1), date(number, 12, 31))
    margin = 2 if about else 0
    return WhenWritten(
        text, date(number - margin, 1, 1), date(number + margin, 12, 31), said, (said,), about, False, "year"
    )


def day(text: str) -> WhenWritten:
    """One day, "1953-04-14"."""
    one = date.fromisoformat(text)
    return WhenWritten(text, one, one, Span(one, one), (Span(one, one),), False, False, "day")


def cuts(name: str, *sizes: tuple[int, int]) -> CutPicture:
    """Cuts of a picture, smallest first."""
    return CutPicture(tuple(Cut(f"pictures/{name}-{width}.jpg", width, height) for width, height in sizes))


def milestone(
    which: Milestone, wording: str | None, first: date | None, last: date | None, *because: Statement
) -> MilestoneFinding:
    """A milestone that is documented in every layer."""
    least = 0 if last is None else AS_OF.year - last.year
    most = None if first is None else AS_OF.year - first.year
    return MilestoneFinding(
        which,
        {grade: Bounds(first, last) for grade in Grade},
        {grade: AgeRange(None if last is None else least, most) for grade in Grade},
        wording,
        because,
        because,
    )


ELM_EVENTS = (
    Event("struck", "struck", HERE, "M1", year("1951"), by=("edda",), from_tree_text="a street elm",
          sources=(Citation("letter"),), standing=Grade.REPORTED),
    Event("potted", "potted", HERE, "M1", day("1953-04-14"), by=("edda",), into="oval",
          sources=(Citation("bench-book", "page 31", "Ferry elm, wired and into the fish box."),),
          standing=Grade.DOCUMENTED, title=Words.plain("Into the fish box")),
    Event("gale", "damaged", HERE, "M1", year("1968"), cause="wind", standing=Grade.DOCUMENTED),
    Event("restyled", "styled", HERE, "M1", year("1988"), by=("renn",), at="court", standing=Grade.DOCUMENTED,
          measured=(Measured("height", Decimal("42"), "cm", None),)),
    Event("fed", "fed", HERE, "M1", year("1989"), by=("renn",), standing=Grade.DOCUMENTED),
    Event("gift", "gift", HERE, "M1", year("1996"), from_=("withheld-1",), to=("house",),
          sources=(Citation("withheld-source-1"),), standing=Grade.DOCUMENTED),
    Event("repot-2027", "repotted", HERE, "M1", year("2027"), planned=True, text=Words.plain("Into the same oval.")),
)  # fmt: skip

ELM = Tree(
    "M1", "trees/M1-elm", HERE, ("Ulmus parvifolia 'Low Water'",),
    name=Words((("en", "The Ferry Elm"), ("ja", "渡しの楡"))), common_name=Words.plain("Chinese elm"),
    tradition="bonsai", form=("informal upright",), place="court", portrait="2024_front_1.jpg",
    label=Words.plain("Struck from a cutting on a river bank. A part of it lives on as [[M2]]; the rest < > stays."),
    hazards=("heavy",), events=ELM_EVENTS,
    notes=(
        Note("1953-first", "trees/M1-elm/notes/1953-first.md", HERE, ("M1",), day("1953-04-14"),
             "Edda kept a nursery *where the ferry put in*. <script>alert(1)</script>\n\n# Later\n\nSee [[M2]] and "
             "[[M9]], in training since {{ since.care }}, {{ years.care }}. [bad](javascript:alert(1)) "
             "[good](https://example.org/) ![the print](../photos/1971_front_1.jpg) ![gone](x.jpg)\n", 3,
             title=Words.plain("The ferry"), by=("edda",), effective=Visibility.PUBLIC),
    ),
    photos=(
        Photo("1971_front_1.jpg", "trees/M1-elm/photos/1971_front_1.jpg", HERE, ("M1",), when=year("1971~"),
              dated_by="print", view="front", photographer="T. Verrell", shows=("trained",), standing=Grade.DOCUMENTED),
        Photo("2024_front_1.jpg", "trees/M1-elm/photos/2024_front_1.jpg", HERE, ("M1",), when=year("2024"),
              dated_by="camera", view="front", alt=Words.plain("A broad elm in a blue-green oval pot."),
              photographer="pim", rights="CC-BY-4.0", standing=Grade.DOCUMENTED),
    ),
    comparisons=(ComparisonWanted("first", "1971_front_1.jpg", "2024_front_1.jpg", HERE),),
    kin=(Kin(Words.plain("A second layer of it."), "School garden", "https://example.org/elm"),),
    due=(Due("repotted", None, (3,), None, None, HERE),),
    not_shown=(NotShown(day("2026-11-16"), day("2027-03-20"), Words.plain("In the winter house.")),),
)  # fmt: skip

DAUGHTER = Tree(
    "M2", "trees/M2-daughter", HERE, ("Ulmus parvifolia 'Low Water'",), name=Words.plain("The Daughter"),
    form=("informal upright", "stair cascade"), tradition="penjing", penjing_class="tree",
    events=(Event("severed", "layer severed", HERE, "M2", year("1986"), by=("renn",), from_tree=EventRef("M1", None),
                  standing=Grade.DOCUMENTED),),
)  # fmt: skip

FOREST = Tree(
    "M3", "trees/M3-forest", HERE, ("Carpinus laxiflora",), name=Words.plain("Seven at Ebb"), form=("forest",),
    kind="planting", label=Words.plain("Planted together in 1969."),
    members=(
        Member("tall-one", HERE, place_in_planting=Words.plain("left of the middle"), from_=year("1969")),
        Member("small-ones", HERE, count=5, began=Words.plain("seedlings of one sowing")),
        Member("lost-one", HERE, from_=year("1969"), until=year("2004")),
    ),
    events=(Event("assembled", "assembled", HERE, "M3", year("1969"), by=("circle",), standing=Grade.DOCUMENTED),),
)  # fmt: skip

BARE = Tree("M/4", "trees/M-4", HERE, ("Pinus thunbergii",))


def _years(number: int) -> Bounds:
    return Bounds(date(number, 1, 1), date(number, 12, 31))


POTTED = Statement(Mark("trees/M1-elm/tree.yml", 14), "potted 14 April 1953", Grade.DOCUMENTED, "potted")
STRUCK = Statement(Mark("trees/M1-elm/tree.yml", 8), "struck 1951", Grade.REPORTED, "struck")
LATE = Statement(Mark("trees/M3/tree.yml", 9), "planted together in 1969", Grade.DOCUMENTED, "assembled")
EARLY = Statement(Mark("trees/M3/tree.yml", 12), "given before 1960", Grade.DOCUMENTED)

FINDINGS = Findings(
    AS_OF,
    chronologies={
        "M1": TreeChronology(
            "M1", AS_OF, False,
            {
                Milestone.ORIGIN: milestone(
                    Milestone.ORIGIN, "Said to be from a cutting struck in 1951", date(1951, 1, 1), date(1951, 12, 31),
                    STRUCK,
                ),
                Milestone.CARE: milestone(
                    Milestone.CARE, "In training since 1953", date(1953, 4, 14), date(1953, 4, 14), POTTED
                ),
                Milestone.ARRIVAL: milestone(
                    Milestone.ARRIVAL, "Here since 1996", date(1996, 1, 1), date(1996, 12, 31)
                ),
            },
            (
                EventFinding("struck", "struck", Bounds(date(1951, 1, 1), date(1951, 12, 31)), None, Grade.REPORTED),
                EventFinding("potted", "potted", Bounds(date(1953, 4, 14), date(1953, 4, 14)), None, Grade.DOCUMENTED),
            ),
            quiet=(QuietPeriod(date(1974, 1, 1), date(1981, 12, 31), 8),),
            sharpen=(Sharpening(Milestone.ORIGIN, "earliest", "a document for the cutting of 1951", 2),),
        ),
        "M2": TreeChronology(
            "M2", AS_OF, False,
            {Milestone.CARE: milestone(Milestone.CARE, "In training since 1986 or earlier", None, date(1986, 12, 31))},
            (EventFinding("severed", "layer severed", Bounds(date(1986, 1, 1), date(1986, 12, 31)), None,
                          Grade.DOCUMENTED),),
        ),
        "M3": TreeChronology("M3", AS_OF, True, {}, (), contradictions=(Contradiction((LATE, EARLY), None),)),
        "M/4": TreeChronology("M/4", AS_OF, False, {}, ()),
    },
    custodies={
        "M1": Custody(
            "M1",
            (
                CustodyPeriod(("edda",), Bounds(date(1951, 1, 1), date(1951, 12, 31)),
                              Bounds(date(1974, 1, 1), date(1974, 12, 31)), "first hands", grade=Grade.REPORTED),
                CustodyPeriod((), Bounds(date(1974, 1, 1), date(1974, 12, 31)),
                              Bounds(date(1981, 1, 1), date(1983, 12, 31)), "", gap_grade="unknown"),
                CustodyPeriod(("withheld-1",), Bounds(date(1981, 1, 1), date(1983, 12, 31)),
                              Bounds(date(1996, 1, 1), date(1996, 12, 31)), "purchase"),
                CustodyPeriod(("house",), Bounds(date(1994, 1, 1), date(1994, 12, 31)), None, "loan", owner=False,
                              lent_by=("withheld-1",)),
            ),
            (Hand(("edda",), "potted", Bounds(date(1953, 4, 14), date(1953, 4, 14)), "potted", Grade.DOCUMENTED),
             Hand(("renn",), "styled", Bounds(date(1988, 1, 1), date(1988, 12, 31)), "restyled", Grade.DOCUMENTED)),
            TreeState(True, "in collection", True, "court"),
        ),
        "M2": Custody("M2", (), (), TreeState(True, "in collection", False, None)),
        "M3": Custody("M3", (), (), TreeState(False, "died", False, None)),
    },
    lineages={
        "M1": Lineage(
            "M1",
            came_from=(Kinship(None, "cutting", "struck", _years(1951), "struck", Grade.REPORTED, "a street elm"),),
            gave_rise_to=(
                Kinship("M2", "layer", "layer severed", _years(1986), "M2#severed", Grade.DOCUMENTED,
                        when=year("1986")),
            ),
        ),
        "M2": Lineage(
            "M2",
            came_from=(
                Kinship("M1", "layer", "layer severed", _years(1986), "severed", Grade.DOCUMENTED, when=year("1986")),
            ),
        ),
        "M3": Lineage(
            "M3",
            members=(
                MemberSpell("M3", "tall-one", None, _years(1969), None, Words.plain("left of the middle")),
                MemberSpell("M3", "small-ones", None, _years(1969), None, count=5),
                MemberSpell("M3", "lost-one", None, _years(1969), _years(2004)),
            ),
        ),
    },
)  # fmt: skip

STEWARDS = {
    steward.id: steward
    for steward in (
        Steward("house", Words.plain("Merrowby Court"), HERE, kind="institution"),
        Steward("edda", Words.plain("Edda Lindqvarn"), HERE, kind="person", born=year("1911"), died=year("1979"),
                about=Words.plain("She kept a nursery *by the ferry*."), sort_name="Lindqvarn, Edda"),
        Steward("renn", Words.plain("Tobiah Renn"), HERE, names=(("ja", "レン"),), kind="person",
                taught_by=(Taught("edda", year("1960"), year("1964")),), member_of=("circle",)),
        Steward("circle", Words.plain("The Harbour Circle"), HERE, kind="club", members=("renn",)),
        Steward("pim", Words.plain("Pim Dracott"), HERE, kind="person"),
        Steward("withheld-1", Words.plain("a private donor"), Where(""), masked=True),
    )
}  # fmt: skip

SOURCES = {
    source.id: source
    for source in (
        Source("bench-book", Words.plain("Bench book of Edda Lindqvarn"), "diary", HERE, year("1953"),
               made_by=("edda",),
               kept_at=Words.plain("Papers of the house, box 4")),
        Source("letter", Words.plain("Letter of her niece"), "letter", HERE, year("1985")),
        Source("withheld-source-1", Words.plain("a source that is not public"), "", Where(""), masked=True),
    )
}  # fmt: skip

PAGES = (
    HandWrittenPage("index.md", "Four trees and those who kept them", "Merrowby Court looks after *elms*.\n", HERE),
    HandWrittenPage(
        "visiting.md", "Visiting", "Open from ten. Begin with [[M1]], or with [all trees](trees/index.md).\n", HERE
    ),
)


def sample_view(edition: Edition = Edition.PUBLIC, *, trees: tuple[Tree, ...] = (ELM, DAUGHTER, FOREST, BARE),
                pages: tuple[HandWrittenPage, ...] = PAGES, accent: str | None = "#174a55") -> EditionView:  # fmt: skip
    """The view; fewer or other trees, pages or another accent for one question at a time."""
    year_long = Duration(1, 0, 0, "P1Y")
    collection = Collection(
        Settings(
            Words.plain("Merrowby Court"), "house", HERE, DatePolicy("north"), {}, year_long,
            Duration(10, 0, 0, "P10Y"),
            site_url="https://merrowby.example/", accent=accent, languages=("en", "ja"), rights="CC-BY-4.0",
        ),
        {tree.accession: tree for tree in trees},
        STEWARDS,
        SOURCES,
        {"oval": CollectionObject("oval", Words.plain("the blue oval"), HERE, size=Words.plain("45 cm"))},
        {"court": Place("court", Words.plain("Lower Court"), HERE, open_to="public")},
        (),
        {},
        {},
        pages,
    )  # fmt: skip
    return EditionView(edition, AS_OF, Selected(collection), _with_people(FINDINGS))


def _with_people(findings: Findings) -> Findings:
    """With what each steward had to do with the trees, and the line of the pot."""
    taught = (
        TeachingTie(
            "edda",
            "renn",
            _years(1960),
            _years(1964),
            Grade.REPORTED,
            (Citation("letter"),),
            year("1960"),
            year("1964"),
        ),
    )
    period = CustodyPeriod(("edda",), _years(1950), _years(1974), "purchase", grade=Grade.REPORTED)
    stood = TreeInObject(
        "oval", "M1", "in", Bounds(date(1953, 4, 14), date(1953, 4, 14)), None, "potted", Grade.DOCUMENTED
    )
    things = {"oval": ObjectLine("oval", (period,), (), (stood,))}
    lines = steward_lines(STEWARDS, findings.custodies, things, taught, AS_OF)
    return replace(findings, stewards=lines, teaching=taught, objects=things)


def sample_pictures() -> Pictures:
    """Pictures for the sample: three cuts of each photograph, one aligned comparison with measures, one drawing."""
    then = cuts("then", (480, 360), (960, 720))
    now = cuts("now", (480, 360), (960, 720), (1280, 960))
    return Pictures(
        photos={ELM.photos[0].path: then, ELM.photos[1].path: now},
        comparisons={
            "M1": (
                AlignedComparison(
                    "M1", "first", cuts("a", (480, 360), (960, 720)), cuts("b", (480, 360), (960, 720)), aligned=True,
                    marks_used=("rim-left", "rim-right"),
                    changes=(
                        MeasuredChange(Words.plain("Trunk"), 3.4, 11.1, 0.2, 0.3, words="3.4 cm, now 11.1 cm (± 0.3)"),
                        MeasuredChange(Words.plain("Apex"), moved=(4.2, -9.0), moved_uncertainty=1.0,
                                      words="lowered by 9 cm (± 1)"),
                        MeasuredChange(Words.plain("Rim of the pot"), refused="No scale in the older picture."),
                    ),
                ),
            )
        },
        custody_lines={"M1": DRAWING.format("m1")},
        years_of_collection=DRAWING.format("years"),
    )  # fmt: skip


def without_pictures(tree: Tree) -> Tree:
    """The tree with nothing to look at."""
    return replace(tree, photos=(), portrait=None, comparisons=())
