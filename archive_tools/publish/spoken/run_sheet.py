"""A tour against the clock: what happens when, and where one should be at each minute."""

from __future__ import annotations

from dataclasses import dataclass

from archive_tools.model.grounds import Tour
from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.context import Context
from archive_tools.publish.spoken.stop_text import stop_name

WALK, WAIT, STOP, OVER = "walk", "wait", "stop", "over"
DAY = 24 * 3600


@dataclass(frozen=True, slots=True)
class RunLine:
    """From one second of the walk to another: walking, waiting, or standing at a stop (the number of it, from 1)."""

    begin: int
    end: int
    what: str
    name: str
    stop: int | None = None

    @property
    def seconds(self) -> int:
        """How long it lasts."""
        return self.end - self.begin


def run_lines(context: Context, plan: TourPlan) -> tuple[RunLine, ...]:
    """Everything of a walk in order, without gaps: the lines' seconds add up to the plan's.

    Nothing is left between two lines; a walk of no seconds, and a wait of none, have no line.
    """
    lines: list[RunLine] = []
    now = 0
    for number, stop in enumerate(plan.stops, 1):
        name = stop_name(context, stop)
        for what, length in ((WALK, stop.walk), (WAIT, stop.wait)):
            if length:
                lines.append(RunLine(now, now + length, what, name))
                now += length
        lines.append(RunLine(now, now + stop.leave - stop.arrive, STOP, name, number))
        now += stop.leave - stop.arrive
    if plan.last_walk:
        lines.append(RunLine(now, now + plan.last_walk, WALK, context.place(plan.end)))
    return tuple(lines)


def at_each_minute(lines: tuple[RunLine, ...]) -> tuple[tuple[int, RunLine], ...]:
    """For each full minute of the walk, the line in which it falls."""
    whole = lines[-1].end if lines else 0
    found = []
    for minute in range(-(-whole // 60)):
        line = next(line for line in lines if line.begin <= 60 * minute < line.end)
        found.append((minute, line))
    return tuple(found)


def start_seconds(tour: Tour) -> int | None:
    """The second of the day on which a tour begins, None where its plan says no time."""
    if not tour.start_time:
        return None
    hours, _, minutes = tour.start_time.partition(":")
    return (int(hours) * 60 + int(minutes)) * 60


def clock(start: int | None, seconds: int) -> str:
    """The time of day, "14:05", where a start is known, with the seconds where there are any: else "+5:30"."""
    if start is None:
        return f"+{seconds // 60}:{seconds % 60:02d}"
    at = (start + seconds) % DAY
    said = f"{at // 3600:02d}:{at // 60 % 60:02d}"
    return f"{said}:{at % 60:02d}" if at % 60 else said


def lasting(seconds: int) -> str:
    """Minutes and seconds: "4:05"."""
    return f"{seconds // 60}:{seconds % 60:02d}"
