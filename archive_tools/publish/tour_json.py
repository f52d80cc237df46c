"""A tour's plan in the machine form. Seconds count from its beginning."""

from __future__ import annotations

from collections.abc import Mapping

from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.spoken.run_sheet import clock


def tour_as_json(plan: TourPlan, names: Mapping[str, str], title: str, start: int | None) -> dict[str, object]:
    """The stops in order, what was left out, what five minutes more would add, and how good it is known to be.

    start: the second of the day at which it begins, for the times of the clock; None where nobody has said.
    """
    return {
        "tour": plan.tour,
        "title": title,
        "minutes": plan.asked // 60,
        "seconds": plan.seconds,
        "step_free": plan.step_free,
        "start": plan.start,
        "end": plan.end,
        "stops": [
            {
                "kind": stop.sort, "id": stop.id, "name": names.get(stop.id, stop.id), "place": stop.place,
                "at": clock(start, stop.arrive), "walk": stop.walk, "wait": stop.wait, "arrive": stop.arrive,
                "leave": stop.leave, "speech": stop.speech,
            }
            for stop in plan.stops
        ],
        "last_walk": plan.last_walk,
        "left_out": [{"kind": one.sort, "id": one.id, "why": one.why} for one in plan.left_out],
        "with_five_minutes_more": [{"kind": one.sort, "id": one.id} for one in plan.with_more],
        "interest": plan.interest,
        "best_possible": plan.best_possible,
        "proved_best": plan.is_best,
    }  # fmt: skip
