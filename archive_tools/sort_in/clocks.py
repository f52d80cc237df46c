"""What cameras' clocks tell: in which order one camera took its pictures, and how far two cameras' clocks differ.

A card photographed by two cameras sets the difference between their clocks. Nothing else does: that two telephones are
set by their network is likely, and no proof.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise

from archive_tools.sort_in.facts import Camera, Picture, in_words
from archive_tools.sort_in.payload import Meant

BESIDE = timedelta(seconds=90)
"""How far apart two cameras may photograph one card and be taken to have photographed it together (common practice)."""
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
    """How far one camera's clock is ahead of another's, how sure that is (`margin`), and by which of its own codes."""

    ahead: timedelta
    margin: timedelta
    by: frozenset[str]


def shots_of(
    pictures: Iterable[Picture], meanings: Mapping[str, Meant], small: Collection[str] = ()
) -> dict[Camera, list[Shot]]:
    """The pictures of each camera in the order of its clock; pictures without a time of day are not among them.

    small: the pictures whose code is so small that it may stand in the background.
    """
    by_camera: dict[Camera, list[Picture]] = {}
    for picture in pictures:
        if picture.clock is not None:
            by_camera.setdefault(picture.camera, []).append(picture)
    made = {}
    for camera, ones in sorted(by_camera.items()):
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
    numbered: list[tuple[int, Shot]] = []
    prefixes: set[str] = set()
    for shot in shots:
        found = _COUNTER.fullmatch(shot.file.rpartition("/")[2].rpartition(".")[0])
        if found is None or len(found[2]) > 6:
            return None
        prefixes.add(found[1].casefold())
        numbered.append((int(found[2]), shot))
    numbers = [number for number, _ in numbered]
    if len(prefixes) != 1 or len(set(numbers)) != len(numbers) or max(numbers) - min(numbers) > 5_000:
        return None
    ordered = [shot for _, shot in sorted(numbered, key=lambda one: one[0])]
    turned_back = any(later.time < earlier.time for earlier, later in pairwise(ordered))
    return ordered if turned_back else None


def differences(one: Sequence[Shot], other: Sequence[Shot]) -> list[Difference]:
    """How far the clock of `other` may be ahead of that of `one`, by the codes both photographed; best first.

    Empty where they photographed none in common; more than one where the codes do not agree. A code photographed by
    both several times is matched so that as many as possible fit one difference.
    """
    ours, theirs = _openings(one), _openings(other)
    found: list[Difference] = []
    while True:
        pairs = _best(ours, theirs)
        if pairs is None:
            return found
        gaps = [theirs[j].time - ours[i].time for i, j in pairs]
        margin = max(max(gaps) - min(gaps), timedelta(seconds=60))
        by = frozenset(ours[i].file for i, _ in pairs)
        found.append(Difference(min(gaps) + (max(gaps) - min(gaps)) / 2, margin, by))
        ours = [shot for i, shot in enumerate(ours) if i not in {pair[0] for pair in pairs}]
        theirs = [shot for j, shot in enumerate(theirs) if j not in {pair[1] for pair in pairs}]


def clock_words(one: Camera, other: Camera, found: Sequence[Difference]) -> str:
    """What two cameras' clocks are to each other, in words."""
    if len(found) == 1:
        return f"{_differ(one, other, found[0])}, by {_cards(len(found[0].by))} that both photographed"
    told = " and ".join(
        f"{in_words(each.ahead)} {'ahead' if each.ahead >= timedelta(0) else 'behind'}" for each in found
    )
    apart = abs(found[0].ahead - found[1].ahead)
    summer = abs(apart - timedelta(hours=1)) <= BESIDE
    why = "; an hour between them is what the change to or from summer time makes" if summer else ""
    return f"the cards do not agree on the clock of {other.called}: {told} that of {one.called}{why}"


def natural(name: str) -> tuple[tuple[int, str], ...]:
    """A key by which names stand in the order a person puts them: IMG_9 before IMG_10."""
    return tuple(
        (int(piece), "") if piece.isdigit() and piece.isascii() else (-1, piece)
        for piece in re.split(r"([0-9]+)", name)
    )


def _differ(one: Camera, other: Camera, found: Difference) -> str:
    if abs(found.ahead) <= timedelta(seconds=2):
        return f"the clocks of {one.called} and {other.called} agree"
    ahead, behind = (other, one) if found.ahead > timedelta(0) else (one, other)
    return f"the clock of {ahead.called} is {in_words(found.ahead)} ahead of that of {behind.called}"


def _cards(count: int) -> str:
    return "one code" if count == 1 else f"{count} codes"


def _on_one_clock(moment: datetime, zoned: bool) -> datetime:
    return moment.astimezone(UTC).replace(tzinfo=None) if zoned else moment.replace(tzinfo=None)


def _openings(shots: Sequence[Shot]) -> list[Shot]:
    """Shots of a code whose meaning is clear; of a code photographed several times on end, the last."""
    coded = [shot for shot in shots if shot.meant is not None and shot.meant.doubt is None]
    return [
        shot
        for shot, after in zip(coded, (*coded[1:], None), strict=False)
        if after is None or _text(after) != _text(shot) or after.time - shot.time > BESIDE
    ]


def _text(shot: Shot) -> str:
    return shot.meant.text if shot.meant else ""


def _best(ours: Sequence[Shot], theirs: Sequence[Shot]) -> list[tuple[int, int]] | None:
    """The largest set of pairs (ours, theirs) of one code each that fit one difference of the clocks."""
    candidates = [
        (theirs[j].time - ours[i].time, i, j)
        for i in range(len(ours))
        for j in range(len(theirs))
        if _text(ours[i]) == _text(theirs[j])
    ]
    best: list[tuple[int, int]] = []
    best_spread = timedelta.max
    for gap, _, _ in candidates:
        pairs: dict[int, tuple[int, timedelta]] = {}
        used: set[int] = set()
        near = sorted(
            (one for one in candidates if abs(one[0] - gap) <= BESIDE), key=lambda one: (abs(one[0] - gap), one[1:])
        )
        for other, i, j in near:
            if i not in pairs and j not in used:
                pairs[i] = (j, other)
                used.add(j)
        spread = sum((abs(other - gap) for _, other in pairs.values()), timedelta(0))
        if (-len(pairs), spread) < (-len(best), best_spread):
            best, best_spread = [(i, j) for i, (j, _) in sorted(pairs.items())], spread
    return best or None
