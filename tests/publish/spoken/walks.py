"""A walk worked through by hand: 32 minutes, 24 stops, in four courts.

Six stops a court of 70 seconds each: 24 x 70 = 1,680 s. To the courts 45, 50, 65 and 40 s, which is 200 s. At the last
court 12 s are waited until its gate is opened, and the way back takes 28 s. 1,680 + 200 + 12 + 28 = 1,920 s = 32 min.
"""

from __future__ import annotations

from datetime import date
from gettext import NullTranslations
from typing import Any

from archive_tools.model.collection import Selected
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition
from archive_tools.model.grounds import Place, Stop, Tour
from archive_tools.model.pictures import Pictures
from archive_tools.model.places_in_files import Where
from archive_tools.model.tour_plan import StopText, TourPlan, TourStop
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.publish.context import Context
from tests.making import collection, tree

HERE = Where("tours/all-of-them.yml")
COURTS = {"north": 45, "east": 50, "south": 65, "west": 40}
STAY, WAIT, BACK = 70, 12, 28
TEXT = "Look at the foot of it. Nobody wrote down who planted it, and so we do not say."


def accession(number: int) -> str:
    return f"T{number:02d}"


def plan() -> TourPlan:
    stops, now = [], 0
    for court, walk in COURTS.items():
        for at in range(6):
            steps = walk if at == 0 else 0
            wait = WAIT if court == "west" and at == 0 else 0
            arrive = now + steps + wait
            text = StopText(TEXT, "en")
            stops.append(TourStop("tree", accession(len(stops)), court, steps, arrive, arrive + STAY, wait, 8, text))
            now = arrive + STAY
    return TourPlan("all-of-them", 32 * 60, tuple(stops), BACK, now + BACK, 24, 24, "gate", "gate", False)


def tour(**keys: Any) -> Tour:
    keys.setdefault("start_time", "14:00")
    stops = tuple(Stop(accession(n), None, None, STAY, Words.plain(TEXT), HERE) for n in range(24))
    return Tour(
        "all-of-them", Words.plain("All of them"), HERE, minutes=32, start="gate", end="gate", stops=stops, **keys
    )


def context(*trees: Any, language: str = "en", **parts: Any) -> Context:
    """Twenty-four trees (or those given) in four courts round a gate."""
    grown = trees or tuple(tree(accession=accession(n), name=Words.plain(f"Tree {n + 1}")) for n in range(24))
    places = {
        name: Place(name, Words.plain(name.capitalize()), Where("places.yml"), open_to="public")
        for name in ("gate", *COURTS)
    }
    whole = collection(*grown, places=places, **parts)
    view = EditionView(Edition.PUBLIC, date(2026, 11, 25), Selected(whole), Findings(date(2026, 11, 25)))
    return Context(view, Pictures(), language, NullTranslations())
