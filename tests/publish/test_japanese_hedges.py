"""What the wording table says of an age keeps its hedge in Japanese, and dates read as they are printed there.

The rows are those of the chronology's wording table; the words of doubt are those of Japanese catalogues of works of
art: 頃 about, 以前 or earlier, 以降 or later, 間 between, と伝えられる it is said, と推定される it is thought, おそらく
probably, 少なくとも at least (common practice, no source).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from archive_tools.model.dates import DatePolicy, WhenWritten
from archive_tools.model.event import Event, Rings
from archive_tools.model.findings import AgeRange, Bounds, MilestoneFinding
from archive_tools.model.grades import Edition, Grade, Milestone
from archive_tools.model.places_in_files import Where
from archive_tools.publish.context import Context
from archive_tools.publish.date_words import DateWords
from archive_tools.publish.prose import as_text
from archive_tools.publish.translation import translations_for
from archive_tools.publish.tree_opening import facts_of
from archive_tools.read.edtf_text import read_date
from archive_tools.reason.chronology import wording
from archive_tools.reason.chronology.wording import Told
from archive_tools.reason.lineage import years as in_sentences
from tests.publish.sample_view import sample_pictures, sample_view

JA = translations_for("ja")
WORDS = DateWords("ja", JA)
SILENT = Told(Bounds())


def written(text: str) -> WhenWritten:
    """A date as the records write it."""
    return read_date(text, DatePolicy("north"))


def event(kind: str, text: str) -> Event:
    """A beginning of this kind on this date."""
    return Event(id=kind, kind=kind, where=Where(""), when=written(text))


def between(first: int | None, last: int | None) -> Bounds:
    """From the first day of one year to the last of another."""
    return Bounds(date(first, 1, 1) if first else None, date(last, 12, 31) if last else None)


def begun(first: int | None, last: int | None, text: str = "", *, uncertain: bool = False) -> Told:
    """What a layer tells where a beginning decides; `text` is its date where that is approximate."""
    said = text or str(first or last)
    return Told(between(first, last), event("training begun", said), approximate="~" in text, uncertain=uncertain)


def spoken(saying: str, documented: Told = SILENT, reported: Told = SILENT, inferred: Told = SILENT) -> str:
    """The sentence of the wording table, in Japanese."""
    told = {Grade.DOCUMENTED: documented, Grade.REPORTED: reported, Grade.INFERRED: inferred}
    return wording.sentence(told, saying, JA.gettext)


ONE, RANGE, BY = begun(1953, 1953), begun(1953, 1955), Told(between(None, 1971))
ABOUT = begun(1951, 1955, "1953~")
PERHAPS = begun(1950, 1950, uncertain=True)

ROWS = [
    # saying, documented, reported, inferred: Japanese
    ("care", BY, SILENT, SILENT, "1971年以前より培養"),
    ("care", ABOUT, SILENT, SILENT, "1953年頃より培養"),
    ("care", ONE, SILENT, SILENT, "1953年より培養"),
    ("care", RANGE, SILENT, SILENT, "1953–1955年より培養"),
    ("care", begun(1953, None), SILENT, SILENT, "1953年以降より培養"),
    ("care", begun(1961, 1961), ONE, SILENT, "1961年より培養（1953年に遡ると伝えられる）"),
    ("care", BY, ONE, SILENT, "1971年以前より培養（1953年に遡ると伝えられる）"),
    ("care", BY, ABOUT, SILENT, "1971年以前より培養（1953年頃に遡ると伝えられる）"),
    ("care", SILENT, PERHAPS, SILENT, "おそらく1950年より培養"),
    ("care", SILENT, ONE, SILENT, "1953年より培養と伝えられる"),
    ("care", SILENT, ABOUT, SILENT, "1953年頃より培養と伝えられる"),
    ("care", SILENT, BY, SILENT, "1971年以前より培養と伝えられる"),
    ("care", SILENT, SILENT, ONE, "1953年頃より培養と推定される"),
    ("care", SILENT, SILENT, BY, "1971年以前より培養と推定される"),
    ("collected", ONE, SILENT, SILENT, "1953年より栽培"),
    ("collected", SILENT, ONE, SILENT, "1953年より栽培と伝えられる"),
    ("collected", SILENT, SILENT, ONE, "1953年頃より栽培と推定される"),
    ("container", ONE, SILENT, SILENT, "1953年より鉢植え"),
    ("container", SILENT, ONE, SILENT, "1953年より鉢植えと伝えられる"),
    ("container", SILENT, SILENT, RANGE, "1953–1955年頃より鉢植えと推定される"),
    ("arrival", begun(1996, 1996), SILENT, SILENT, "1996年より所蔵"),
    ("arrival", SILENT, begun(1996, 1996, uncertain=True), SILENT, "おそらく1996年より所蔵"),
    ("arrival", SILENT, begun(1996, 1996), SILENT, "1996年より所蔵と伝えられる"),
    ("loan", begun(1994, 1994), SILENT, SILENT, "1994年より寄託"),
    ("loan", SILENT, SILENT, begun(1994, 1994), "1994年頃より寄託と推定される"),
    ("planting", begun(1969, 1969), SILENT, SILENT, "1969年に寄せ植え"),
    ("planting", SILENT, begun(1969, 1969), SILENT, "1969年に寄せ植えされたと伝えられる"),
    ("planting", SILENT, SILENT, begun(1969, 1969), "1969年頃に寄せ植えされたと推定される"),
    ("origin", BY, SILENT, SILENT, "1971年以前より生育"),
    ("sown", begun(1951, 1951), SILENT, SILENT, "実生、1951年播種"),
    ("sown", SILENT, begun(1951, 1951), SILENT, "実生、1951年播種と伝えられる"),
    ("germinated", SILENT, SILENT, begun(1951, 1951), "実生、1951年頃発芽と推定される"),
    ("struck", begun(1951, 1951), SILENT, SILENT, "1951年の挿し木より"),
    ("struck", begun(1949, 1953, "1951~"), SILENT, SILENT, "1951年頃の挿し木より"),
    ("struck", SILENT, begun(1951, 1951, uncertain=True), SILENT, "おそらく1951年の挿し木より"),
    ("struck", SILENT, begun(1951, 1951), SILENT, "1951年の挿し木によると伝えられる"),
    ("layer severed", SILENT, SILENT, begun(1951, 1951), "1951年頃の取り木によると推定される"),
    ("raised from graft", begun(1951, 1953), SILENT, SILENT, "1951–1953年の接ぎ木より"),
    ("raised from division", SILENT, begun(None, 1951), SILENT, "1951年以前の株分けによると伝えられる"),
]


@pytest.mark.parametrize(("saying", "documented", "reported", "inferred", "japanese"), ROWS)
def test_a_row_of_the_wording_table(
    saying: str, documented: Told, reported: Told, inferred: Told, japanese: str
) -> None:
    assert spoken(saying, documented, reported, inferred) == japanese


def test_every_sentence_of_a_lower_grade_has_a_hedge_of_its_own() -> None:
    for plain, probably, said, thought in wording.SAYINGS.values():
        japanese = [JA.gettext(message) % {"years": "1953年"} for message in (plain, probably, said, thought)]
        assert not any(hedge in japanese[0] for hedge in ("おそらく", "伝えられる", "推定"))
        assert "おそらく" in japanese[1]
        assert japanese[2].endswith("と伝えられる")
        assert japanese[3].endswith("と推定される")


def test_what_is_said_after_a_beginning() -> None:
    loan, gift = event("loan", "1994"), event("gift", "1996")
    assert (
        spoken("loan", begun(1994, 1994)) + wording.acquired([loan, gift], JA.gettext) == "1994年より寄託、1996年に寄贈"
    )
    again = [event("assembled", "1994"), event("assembled", "2011")]
    assert wording.remade(again, JA.gettext) == "、1994年、2011年に植え直し"
    assert JA.gettext(wording.UNDER_REVIEW) == "年代は検討中"


@pytest.mark.parametrize(
    ("grade", "kind", "missed", "japanese"),
    [
        (Grade.DOCUMENTED, "collected", (0, None), "1961年に山採り、年輪38本により当時少なくとも樹齢37年"),
        (Grade.DOCUMENTED, "collected", (0, 5), "1961年に山採り、年輪38本により当時樹齢37–43年"),
        (Grade.DOCUMENTED, "observed", (0, None), "年輪38本により、1961年に少なくとも樹齢37年"),
        (Grade.REPORTED, "collected", (0, None), "1961年に山採り、年輪38本により当時少なくとも樹齢37年と伝えられる"),
        (Grade.INFERRED, "observed", (0, 5), "年輪38本により、1961年に樹齢37–43年と推定される"),
    ],
)
def test_ages_by_rings(grade: Grade, kind: str, missed: tuple[int, int | None], japanese: str) -> None:
    rings = Rings(38, missed, 0, None, None, Where(""))
    assert wording.rings_sentence(rings, event(kind, "1961"), grade, JA.gettext) == japanese


@pytest.mark.parametrize(
    ("text", "japanese"),
    [
        ("1953-04-14", "1953年4月14日"), ("1953-04", "1953年4月"), ("1953", "1953年"), ("1953~", "1953年頃"),
        ("1953?", "1953年か"), ("1953%", "1953年頃か"), ("1948-02~", "1948年2月頃"), ("195X", "1950年代"),
        ("1991-21", "1991年春"), ("1991-24", "1991–92年冬"), ("1991-21~", "1991年春頃"), ("2001-34", "2001年第2四半期"),
        ("../1951", "1951年以前"), ("1951/..", "1951年以降"), ("1951/1953", "1951年から1953年の間"),
        ("1951-03/1951-05", "1951年3月から1951年5月の間"), ("1951~/1953", "1951年頃から1953年の間"),
        ("[1951,1953]", "1951年または1953年"), ("[1951,1953,1960]", "1951年、1953年または1960年"),
    ],
)  # fmt: skip
def test_a_written_date(text: str, japanese: str) -> None:
    assert WORDS.when(written(text)) == japanese


def test_years_alone() -> None:
    assert WORDS.bounds(between(1953, 1955)) == "1953–1955年"
    assert WORDS.bounds(between(None, 1973)) == "1973年以前"
    assert WORDS.year(written("1953?")) == "1953年？"
    assert WORDS.years(date(1951, 3, 1), date(1953, 4, 1)) == "1951–53年"
    assert WORDS.until(written("1951"), written("1953-04")) == "1951年から1953年4月まで"


@pytest.mark.parametrize(
    ("first", "last", "text", "japanese"),
    [
        (1953, 1953, None, "1953年に"),
        (1951, 1955, "1953~", "1953年頃に"),
        (1951, 1955, None, "1951年から1955年の間に"),
        (None, 1953, None, "1953年またはそれ以前に"),
        (1953, None, None, "1953年またはそれ以降に"),
        (1953, 1953, "1953?", "おそらく1953年に"),
    ],
)
def test_when_something_happened_in_a_line_of_holders(
    first: int | None, last: int | None, text: str | None, japanese: str
) -> None:
    assert in_sentences.at(between(first, last), written(text) if text else None, JA.gettext) == japanese


@pytest.mark.parametrize(
    ("least", "most", "japanese"),
    [
        (6, 7, "6–7年"), (3, None, "少なくとも3年"), (0, 0, "1年未満"), (0, 1, "多くとも1年"), (0, 4, "多くとも4年"),
        (None, None, "期間は不明"), (1, 1, "1年"),
    ],
)  # fmt: skip
def test_how_long_something_lasted(least: int | None, most: int | None, japanese: str) -> None:
    assert in_sentences.how_long(AgeRange(least, most), JA.gettext) == japanese


def test_a_span_of_a_loan() -> None:
    assert in_sentences.span(between(1994, 1994), between(1996, 1996), JA.gettext) == "1994年から1996年まで"
    assert in_sentences.span(between(2016, 2016), between(2016, 2016), JA.gettext) == "2016年に"
    assert in_sentences.span(between(2020, 2020), None, JA.gettext) == "2020年より"


def test_an_age_in_running_text_has_its_range_its_unit_and_its_day() -> None:
    context = Context(sample_view(Edition.PUBLIC), sample_pictures(), "ja", JA)
    assert as_text(context, "樹齢{{ years.care }}", "M1") == "樹齢2026年11月現在で73年"
    assert as_text(context, "樹齢{{ years.care }}", "M2") == "樹齢2026年11月現在で少なくとも40年"
    assert as_text(context, "{{ since.care }}より", "M1") == "1953年より"


@pytest.mark.parametrize(
    ("wording", "fact"),
    [
        ("1996年より所蔵", "1996年より"),
        ("1996年より所蔵と伝えられる", "1996年より所蔵と伝えられる"),
        ("おそらく1996年より所蔵", "おそらく1996年より"),
        ("1994年より寄託、1996年に寄贈", "1994年より寄託、1996年に寄贈"),
    ],
)
def test_since_when_it_is_here_is_not_said_twice_and_keeps_its_hedge(wording: str, fact: str) -> None:
    view = sample_view(Edition.PUBLIC)
    chronology = view.findings.chronologies["M1"]
    arrival = MilestoneFinding(Milestone.ARRIVAL, {}, {}, wording)
    found = replace(chronology, milestones={**chronology.milestones, Milestone.ARRIVAL: arrival})
    view = replace(view, findings=replace(view.findings, chronologies={"M1": found}))
    facts = facts_of(Context(view, sample_pictures(), "ja", JA), view.records.trees["M1"])
    assert [fact.terms[0].word for fact in facts if fact.name == "所蔵"] == [fact]
