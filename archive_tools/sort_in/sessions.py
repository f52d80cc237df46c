"""Which tree a picture belongs to by the codes photographed before it.

A code opens a session of its own camera: every picture of that camera is the tree's until the next code, by its clock.
A code that another camera photographed counts too where a code photographed by both has set their clocks against each
other; but two cameras that each photographed codes of their own may have gone different ways, and then a camera's own
code and another's are weighed. Wherever two readings of the evidence would give a picture to different trees, it is
doubtful.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import islice, product

from archive_tools.sort_in.clocks import BESIDE, Difference, Shot, by_counter, clock_words, differences, openings
from archive_tools.sort_in.facts import Camera, in_words, listed
from archive_tools.sort_in.payload import Meant

LAPSE = timedelta(hours=12)
"""A pause of a camera longer than this ends its session: nobody walks on from one tree overnight (common practice)."""

_MOST_WAYS = 64
"""Ways to set the clocks that are weighed; more than that say no more than that nothing is sure."""


@dataclass(frozen=True, slots=True)
class Belongs:
    """What the codes say of a picture: its trees (none: nothing), in words, and why it is doubtful, if it is.

    silent: the doubt is only that the codes can say nothing of it; none of them speaks for another tree.
    """

    trees: tuple[str, ...] = ()
    says: str = ""
    doubt: str | None = None
    silent: bool = False


@dataclass(frozen=True, slots=True)
class Sessions:
    """What the codes say of every picture that has a time, of each pair of clocks, and of codes without pictures."""

    belongs: Mapping[str, Belongs]
    clocks: tuple[str, ...]
    empty: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Foreign:
    """A code photographed by another camera alone, on this camera's clock."""

    time: datetime
    margin: timedelta
    meant: Meant
    camera: Camera


_NOTHING = Belongs()


def sessions_of(shots: Mapping[Camera, Sequence[Shot]]) -> Sessions:
    """Whose pictures follow whose codes, by camera; `shots` as `shots_of` gives them."""
    belongs: dict[str, Belongs] = {}
    told: list[str] = []
    gaps: dict[tuple[Camera, Camera], list[Difference]] = {}
    for one, other in product(sorted(shots), repeat=2):
        if one == other:
            continue
        gaps[one, other] = differences(shots[one], shots[other])
        if one < other and gaps[one, other]:
            told.append(clock_words(one, other, gaps[one, other]))
    coded = [camera for camera, ones in shots.items() if any(shot.meant for shot in ones)]
    for camera, own in shots.items():
        orders = [list(own)]
        other_order = by_counter(own)
        if other_order is not None:
            orders.append(other_order)
        others = [other for other in coded if other != camera]
        linked = [other for other in others if gaps[other, camera]]
        ways = list(islice(product(*(gaps[other, camera] for other in linked)), _MOST_WAYS + 1))
        readings = [
            _read(
                order,
                [
                    one
                    for other, gap in zip(linked, way, strict=True)
                    for one in _foreign(shots[other], own, other, gap)
                ],
                _goes_its_own_way(own, [(shots[other], gap) for other, gap in zip(linked, way, strict=True)]),
            )
            for order in orders
            for way in ways
        ]
        conflict = next((clock_words(o, camera, gaps[o, camera]) for o in linked if len(gaps[o, camera]) > 1), None)
        for shot in own:
            outcomes = [reading[shot.file] for reading in readings]
            if len(ways) > _MOST_WAYS:
                outcomes.append(Belongs((), "", conflict))
            belongs[shot.file] = _agreed(outcomes, conflict) if len(outcomes) > 1 else outcomes[0]
            if others and not linked and not belongs[shot.file].trees and belongs[shot.file].doubt is None:
                doubt = (
                    f"{camera.called} photographed no code in common with {listed([one.called for one in others])}, "
                    "so that nothing sets its clock against the session"
                )
                belongs[shot.file] = Belongs((), "", doubt, silent=True)
    return Sessions(belongs, tuple(told), tuple(_empty(shots, belongs)))


def _read(order: Sequence[Shot], foreign: Sequence[_Foreign], own_way: bool) -> dict[str, Belongs]:
    """What each shot of one camera belongs to, in one order of its shots and with one reading of the others' clocks.

    own_way: the camera photographed codes that no other did, so that it may have been elsewhere.
    """
    foreign = sorted(foreign, key=lambda one: one.time)
    times = [one.time for one in foreign]
    found: dict[str, Belongs] = {}
    opened: Shot | None = None
    before: Shot | None = None
    pause: timedelta | None = None
    for shot in order:
        if before is not None and shot.time - before.time > LAPSE:
            pause = shot.time - before.time
        before = shot
        if shot.meant is not None:
            opened, pause = (_in_question(shot, opened) if shot.small else shot), None
        own = _own(opened, pause)
        after = opened.time + BESIDE if opened else None
        sure = bisect_right(times, shot.time)
        last = next((one for one in reversed(foreign[:sure]) if one.time <= shot.time - one.margin), None)
        if last is not None and after is not None and last.time <= after:
            last = None
        beside = [
            one for one in foreign if abs(one.time - shot.time) < one.margin and (after is None or one.time > after)
        ]
        found[shot.file] = own if shot.meant is not None else _weighed(own, last, beside, shot, own_way)
    return found


def _own(opened: Shot | None, pause: timedelta | None) -> Belongs:
    if opened is None or opened.meant is None:
        return _NOTHING
    meant = opened.meant
    if meant.is_end:
        return Belongs((), f"follows the {_what(meant)} ({opened.file.rpartition('/')[2]})")
    if meant.doubt is not None:
        return Belongs((), "", meant.doubt)
    name = opened.file.rpartition("/")[2]
    says = f"follows the {'card' if meant.is_card else 'label'} of {' and '.join(meant.trees)} ({name})"
    if pause is not None:
        doubt = (
            f"the last code before it is {says.removeprefix('follows ')}, but the camera rested {in_words(pause)} since"
        )
        return Belongs((), says, doubt, silent=True)
    return Belongs(meant.trees, says)


def _in_question(shot: Shot, opened: Shot | None) -> Shot:
    """A small code: while another tree's session is open, it may stand in the background."""
    was = opened.meant if opened is not None else None
    if shot.meant is None or was is None or was.is_end or was.doubt is not None or was.trees == shot.meant.trees:
        return shot
    doubt = (
        f"the {_what(shot.meant)} is small in {shot.file.rpartition('/')[2]}: it may begin that tree's pictures, or "
        f"stand behind {' and '.join(was.trees)}"
    )
    return replace(shot, meant=replace(shot.meant, trees=(), doubt=doubt))


def _weighed(own: Belongs, last: _Foreign | None, beside: Iterable[_Foreign], shot: Shot, own_way: bool) -> Belongs:
    """What this camera's own code says, against what other cameras photographed in between."""
    for one in beside:
        if set(one.meant.trees) != set(own.trees):
            doubt = (
                f"it was taken within {in_words(one.margin)} of the {_what(one.meant)} that {one.camera.called} alone "
                "photographed, and the clocks are not set against each other more closely"
            )
            return Belongs((), own.says, doubt)
    if last is None or (own.trees and set(last.meant.trees) == set(own.trees)):
        return own
    if own.doubt is not None:
        return own
    if last.meant.doubt is not None:
        return Belongs((), own.says, last.meant.doubt)
    if own.trees and own_way:
        doubt = (
            f"it {own.says}, but {last.camera.called} photographed the {_what(last.meant)} in between, which this "
            "camera did not, and this one photographed codes that the other did not: they may have gone different ways"
        )
        return Belongs((), own.says, doubt)
    if last.meant.is_end:
        doubt = f"the {_what(last.meant)} was photographed by {last.camera.called} before it"
        return Belongs((), "", doubt, silent=True) if own.trees else own
    if shot.time - last.time > LAPSE:
        doubt = f"the last code before it was photographed {in_words(shot.time - last.time)} earlier"
        return Belongs((), "", doubt, silent=True)
    says = f"follows the {_what(last.meant)}, by the clock of {last.camera.called}"
    return Belongs(last.meant.trees, says)


def _what(meant: Meant) -> str:
    if meant.is_end:
        return "card that ends a session"
    return f"{'card' if meant.is_card else 'label'} of {' and '.join(meant.trees) or 'no clear tree'}"


def _foreign(theirs: Sequence[Shot], own: Sequence[Shot], camera: Camera, gap: Difference) -> list[_Foreign]:
    """The codes of another camera that this one did not photograph at that time, on this one's clock."""
    near = max(BESIDE, gap.margin)
    codes = [(shot.meant.text, shot.time) for shot in own if shot.meant is not None]
    found = []
    for shot in theirs:
        if shot.meant is None or shot.small or shot.file in gap.by:
            continue
        time = shot.time + gap.ahead
        if not any(text == shot.meant.text and abs(at - time) <= near for text, at in codes):
            found.append(_Foreign(time, gap.margin, shot.meant, camera))
    return found


def _goes_its_own_way(own: Sequence[Shot], others: Sequence[tuple[Sequence[Shot], Difference]]) -> bool:
    """Whether a camera photographed a code that none of the others did then; `others`: their shots and clocks."""

    def seen_by_another(code: Shot) -> bool:
        return any(
            shot.meant is not None
            and code.meant is not None
            and shot.meant.text == code.meant.text
            and abs(shot.time + gap.ahead - code.time) <= max(BESIDE, gap.margin)
            for theirs, gap in others
            for shot in theirs
        )

    return any(not code.small and not seen_by_another(code) for code in openings(own))


def _agreed(outcomes: Sequence[Belongs], conflict: str | None) -> Belongs:
    """The outcome of all readings, where they come to the same tree."""
    first = outcomes[0]
    if all(one.trees == first.trees and (one.doubt is None) == (first.doubt is None) for one in outcomes):
        return replace(first, silent=all(one.silent for one in outcomes))
    why = (
        conflict or "the running numbers in the camera's file names contradict its clock, which may have been set back"
    )
    named = " or ".join(dict.fromkeys(" and ".join(one.trees) for one in outcomes if one.trees))
    return Belongs((), first.says, f"{why}; it may belong to {named or 'no tree'}")


def _empty(shots: Mapping[Camera, Sequence[Shot]], belongs: Mapping[str, Belongs]) -> Iterable[str]:
    """Codes that no picture follows, in words; of several pictures of one code, the last."""
    served = {
        tree for ones in shots.values() for shot in ones if shot.meant is None for tree in belongs[shot.file].trees
    }
    for camera, ones in sorted(shots.items()):
        for shot, after in zip(ones, [*ones[1:], None], strict=True):
            if shot.meant is None or shot.meant.is_end or shot.meant.doubt is not None or shot.small:
                continue
            repeated = after is not None and after.meant is not None and after.meant.text == shot.meant.text
            followed = after is not None and after.meant is None
            if not repeated and not followed and not served.intersection(shot.meant.trees):
                name = shot.file.rpartition("/")[2]
                yield f"no picture follows the {_what(shot.meant)} ({name}, {camera.called})"
