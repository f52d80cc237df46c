"""What cameras' clocks tell: in which order one camera took its pictures, and how far two cameras' clocks differ.

A card photographed by two cameras sets the difference between their clocks. Nothing else does: that two telephones are
set by their network is likely, and no proof.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from archive_tools.sort_in.facts import Camera, Picture, in_words
from archive_tools.sort_in.payload import Meant

BESIDE = timedelta(seconds=90)
"""How far apart two cameras may photograph one card and be taken to have photographed it together (common practice)."""
_AT_LEAST = timedelta(seconds=60)
"""Nobody photographs a card with two cameras at the same second: so sure is a difference at best."""
_OTHER_DAY = timedelta(hours=14)
"""More than two clocks differ by that are set to the time of two places on earth on which it is one day."""
_COUNTER = re.compile(r"(.*?)(\d{2,})\D*")


@dataclass(frozen=True, slots=True)
class Shot:
    """One picture on its camera's clock: `time` counts as the clock showed it (all of one camera alike)."""

    file: str
    time: datetime
    meant: Meant | None = None
    small: bool = False
    """The code is so small in the picture that it may stand in the background."""


@dataclass(frozen=True, slots=True)
class Difference:
    """How far one camera's clock may be ahead of another's, how sure that is (`margin`), and by how many codes.

    by: those of the other camera's codes that this explains, or that a second difference explains (`broken`), as where
    a clock was set anew between two cards.
    """

    ahead: timedelta
    margin: timedelta
    codes: int
    by: frozenset[str]
    broken: bool = False


def shots_of(
    pictures: Iterable[Picture], meanings: Mapping[str, Meant], small: Collection[str] = ()
) -> dict[Camera, list[Shot]]:
    """The pictures of each camera in the order of its clock; pictures without a time of day are not among them.

    A clock that cannot be believed as a date (nobody has set it, or it runs years ahead) still runs, but may have begun
    again in between: such pictures count only where running numbers in the names of all tell the order besides.
    small: the pictures whose code is so small that it may stand in the background.
    """
    by_camera: dict[Camera, list[Picture]] = {}
    for picture in pictures:
        if picture.clock is not None:
            by_camera.setdefault(picture.camera, []).append(picture)
    made = {}
    for camera, theirs in sorted(by_camera.items()):
        in_order = not any(one.clock_doubted for one in theirs) or _numbered([one.file for one in theirs]) is not None
        ones = theirs if in_order else [one for one in theirs if not one.clock_doubted]
        if not ones:
            continue
        zoned = all(one.clock is not None and one.clock.tzinfo is not None for one in ones)
        shots = [
            Shot(one.file, _on_one_clock(one.clock, zoned), meanings.get(one.file), one.file in small)
            for one in ones
            if one.clock is not None
        ]
        made[camera] = sorted(shots, key=lambda shot: (shot.time, natural(shot.file)))
    return made


def by_counter(shots: Sequence[Shot]) -> list[Shot] | None:
    """The same pictures in the order of the running numbers in their names, where that differs from the clock's.

    None where the clock agrees with the names, or the names have no running numbers to go by (one prefix, each number
    once, no start anew at 1).
    """
    numbers = _numbered([shot.file for shot in shots])
    if numbers is None:
        return None
    ordered = [shot for _, shot in sorted(zip(numbers, shots, strict=True), key=lambda one: one[0])]
    turned_back = any(later.time < earlier.time for earlier, later in pairwise(ordered))
    return ordered if turned_back else None


def differences(one: Sequence[Shot], other: Sequence[Shot]) -> list[Difference]:
    """How far the clock of `other` may be ahead of that of `one`, by the codes that both photographed.

    Empty where they photographed none in common. More than one where the codes do not agree, or where a code that was
    photographed several times can be matched in several ways that explain equally many: all of them are then possible.
    """
    return [each for steps in _explained(openings(one), openings(other)) for each in steps]


def clock_words(one: Camera, other: Camera, found: Sequence[Difference]) -> str:
    """What two cameras' clocks are to each other, in words."""
    if len(found) == 1:
        wrong = "; one of the two shows a wrong day, and a mapping file can give the right one"
        told = f"{_differ(one, other, found[0])}, by {_codes(found[0].codes)} that both photographed"
        return told + (wrong if abs(found[0].ahead) >= _OTHER_DAY else "")
    told = " or ".join(dict.fromkeys(_ahead(each) for each in found))
    if not any(each.broken for each in found):
        return f"the codes leave open how the clock of {other.called} stands to that of {one.called}: {told}"
    apart = abs(found[0].ahead - found[1].ahead)
    summer = abs(apart - timedelta(hours=1)) <= BESIDE
    why = "; an hour between them is what the change to or from summer time makes" if summer else ""
    return f"the codes do not agree how the clock of {other.called} stands to that of {one.called}: {told}{why}"


def natural(name: str) -> tuple[tuple[int, str], ...]:
    """A key by which names stand in the order a person puts them: IMG_9 before IMG_10."""
    return tuple(
        (int(piece), "") if piece.isdigit() and piece.isascii() else (-1, piece)
        for piece in re.split(r"([0-9]+)", name)
    )


def _numbered(files: Sequence[str]) -> list[int] | None:
    """The running numbers in a camera's file names; None where there are none to go by."""
    numbers: list[int] = []
    prefixes: set[str] = set()
    for file in files:
        found = _COUNTER.fullmatch(file.rpartition("/")[2].rpartition(".")[0])
        if found is None or len(found[2]) > 6:
            return None
        prefixes.add(found[1].casefold())
        numbers.append(int(found[2]))
    if len(prefixes) != 1 or len(set(numbers)) != len(numbers) or max(numbers) - min(numbers) > 5_000:
        return None
    return numbers


def _differ(one: Camera, other: Camera, found: Difference) -> str:
    if abs(found.ahead) <= timedelta(seconds=2):
        return f"the clocks of {one.called} and {other.called} agree"
    ahead, behind = (other, one) if found.ahead > timedelta(0) else (one, other)
    return f"the clock of {ahead.called} is {in_words(found.ahead)} ahead of that of {behind.called}"


def _ahead(found: Difference) -> str:
    if abs(found.ahead) <= timedelta(seconds=2):
        return "equal"
    return f"{in_words(found.ahead)} {'ahead' if found.ahead > timedelta(0) else 'behind'}"


def _codes(count: int) -> str:
    return "one code" if count == 1 else f"{count} codes"


def _on_one_clock(moment: datetime, zoned: bool) -> datetime:
    return moment.astimezone(UTC).replace(tzinfo=None) if zoned else moment.replace(tzinfo=None)


def openings(shots: Sequence[Shot]) -> list[Shot]:
    """Shots of a code whose meaning is clear; of a code photographed several times on end, the last."""
    coded = [shot for shot in shots if shot.meant is not None and shot.meant.doubt is None]
    return [
        shot
        for shot, after in zip(coded, (*coded[1:], None), strict=False)
        if after is None or _text(after) != _text(shot) or after.time - shot.time > BESIDE
    ]


def _text(shot: Shot) -> str:
    return shot.meant.text if shot.meant else ""


def _explained(ours: Sequence[Shot], theirs: Sequence[Shot]) -> list[list[Difference]]:
    """Every way to explain the codes in common, the largest difference first and then whatever it leaves over."""
    explained = []
    for pairs in _largest(ours, theirs):
        steps = [_difference(ours, theirs, pairs)]
        rest = _without(ours, theirs, pairs)
        while more := _largest(*rest):
            steps.append(_difference(*rest, more[0]))
            rest = _without(*rest, more[0])
        by = frozenset().union(*(each.by for each in steps))
        explained.append([replace(each, by=by, broken=len(steps) > 1) for each in steps])
    return explained


def _difference(ours: Sequence[Shot], theirs: Sequence[Shot], pairs: Sequence[tuple[int, int]]) -> Difference:
    gaps = [theirs[j].time - ours[i].time for i, j in pairs]
    spread = max(gaps) - min(gaps)
    by = frozenset(ours[i].file for i, _ in pairs)
    return Difference(min(gaps) + spread / 2, max(spread, _AT_LEAST), len(pairs), by)


def _without(
    ours: Sequence[Shot], theirs: Sequence[Shot], pairs: Sequence[tuple[int, int]]
) -> tuple[list[Shot], list[Shot]]:
    one, other = {i for i, _ in pairs}, {j for _, j in pairs}
    return [s for i, s in enumerate(ours) if i not in one], [s for j, s in enumerate(theirs) if j not in other]


def _largest(ours: Sequence[Shot], theirs: Sequence[Shot]) -> list[list[tuple[int, int]]]:
    """The largest sets of pairs (ours, theirs) of one code each that fit one difference: several if equally large."""
    by_text: dict[str, list[int]] = {}
    for j, shot in enumerate(theirs):
        by_text.setdefault(_text(shot), []).append(j)
    candidates = sorted(
        (theirs[j].time - ours[i].time, i, j) for i in range(len(ours)) for j in by_text.get(_text(ours[i]), ())
    )
    gaps = [gap for gap, _, _ in candidates]
    sets: list[tuple[int, timedelta, timedelta, list[tuple[int, int]]]] = []
    for gap in dict.fromkeys(gaps):
        near = candidates[bisect_left(gaps, gap - BESIDE) : bisect_right(gaps, gap + BESIDE)]
        pairs: dict[int, int] = {}
        spread = timedelta(0)
        for apart, i, j in sorted((abs(other - gap), i, j) for other, i, j in near):
            if i not in pairs and j not in pairs.values():
                pairs[i] = j
                spread += apart
        sets.append((-len(pairs), spread, gap, sorted(pairs.items())))
    sets.sort()
    kept: list[tuple[timedelta, list[tuple[int, int]]]] = []
    for count, _, gap, matched in sets:
        if count == sets[0][0] and all(abs(gap - other) > BESIDE for other, _ in kept):
            kept.append((gap, matched))
    return [matched for _, matched in kept]
