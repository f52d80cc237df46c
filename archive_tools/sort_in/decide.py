"""Whose a picture is: the ways of knowing weighed against each other, and every doubt told.

The mapping file decides whatever it speaks of. A code photographed before the tree and a number in the path count
alike: where they differ, the picture is doubtful and stays out. A session named for the whole folder counts where
neither says anything.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from archive_tools.model.tree import Tree
from archive_tools.sort_in.facts import MappingRow, Picture
from archive_tools.sort_in.names import Days, Numbers
from archive_tools.sort_in.payload import Meant, meant_by
from archive_tools.sort_in.sessions import Belongs

SMALL_CODE = 0.06
"""Side of a code, as a share of the picture's shorter side, below which it may stand in the background."""
LABEL_ALONE = 0.12
"""The same, above which a picture of a label is taken for a picture of the label alone (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whose a picture is: the trees; why; what else the curator should know; and why it is doubtful, if it is."""

    trees: tuple[str, ...] = ()
    because: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
    doubt: str | None = None
    left_out: bool = False


@dataclass(frozen=True, slots=True)
class Coded:
    """What the codes of all pictures mean, by file. small: those whose code may stand in the background. cards:
    those that show a card or a label alone, and no tree. strange: codes that have nothing to do with this collection.
    """

    meant: Mapping[str, Meant]
    small: Collection[str]
    cards: Collection[str]
    strange: Mapping[str, tuple[str, ...]]


def codes_meant(pictures: Sequence[Picture], trees: Mapping[str, Tree], site_url: str | None) -> Coded:
    """What the codes found in pictures mean to this collection."""
    meant: dict[str, Meant] = {}
    small: set[str] = set()
    cards: set[str] = set()
    strange: dict[str, tuple[str, ...]] = {}
    for picture in pictures:
        read = [(meant_by(code.text, trees, site_url), code) for code in picture.codes]
        unknown = tuple(code.text for what, code in read if what is None)
        if unknown:
            strange[picture.file] = unknown
        ours = [(what, code) for what, code in read if what is not None]
        if not ours:
            continue
        largest = max(code.share for _, code in ours)
        meant[picture.file] = _together([what for what, _ in ours])
        if largest < SMALL_CODE and not meant[picture.file].is_card:
            small.add(picture.file)
        if meant[picture.file].is_card or largest >= LABEL_ALONE:
            cards.add(picture.file)
    return Coded(meant, small, cards, strange)


def verdict_of(
    picture: Picture,
    belongs: Belongs,
    row: MappingRow | None,
    session: tuple[str, ...],
    numbers: Numbers,
    days: Days | None,
) -> Verdict:
    """Whose a picture is. session: the trees named for the whole folder, if any."""
    named = numbers.named_by(picture.file, days)
    by_code = (belongs.trees, belongs.says) if belongs.trees else None
    by_name = (named.trees, named.says) if named and named.trees and not named.doubt else None
    # Codes that say nothing of it leave it to the name, or to the session named for the folder.
    of_codes = None if belongs.silent and (by_name or session) else belongs.doubt
    doubts = [doubt for doubt in (of_codes, named.doubt if named else None) if doubt]
    if row is not None and row.trees is not None:
        return _by_mapping(row, row.trees, [one for one in (by_code, by_name) if one], doubts)
    if by_code and by_name and set(by_code[0]) != set(by_name[0]):
        return Verdict((), (), (), f"it {by_code[1]}, but {by_name[1]}")
    if doubts:
        return Verdict((), (), tuple(doubts[1:]), doubts[0])
    sure = [one for one in (by_code, by_name) if one]
    if sure:
        return Verdict(sure[0][0], tuple(says for _, says in sure))
    if session:
        return Verdict(session, ("the whole folder is said to be one session of " + " and ".join(session),))
    code = f"it {belongs.says}" if belongs.says else "no code before it"
    return Verdict((), (), (), f"nothing says which tree it shows: {code}, no number in its path, no mapping")


def _together(found: Sequence[Meant]) -> Meant:
    """What several codes in one picture mean: one thing, or it cannot be said."""
    first = next((one for one in found if one.is_card), found[0])
    if all((set(one.trees), one.is_end, one.doubt) == (set(first.trees), first.is_end, first.doubt) for one in found):
        return first
    named = " and of ".join(dict.fromkeys(" and ".join(one.trees) or "no tree" for one in found))
    doubt = f"one picture shows codes of {named}, so that it cannot be said whose pictures follow"
    return Meant(first.text, is_card=first.is_card, doubt=doubt)


def _by_mapping(
    row: MappingRow, trees: tuple[str, ...], others: Sequence[tuple[tuple[str, ...], str]], doubts: Sequence[str]
) -> Verdict:
    says = f"line {row.line} of the mapping file says so"
    against = tuple(
        f"the mapping file decides, although it {_it(said)}" for named, said in others if set(named) != set(trees)
    )
    told = (*against, *(f"the mapping file decides, although {doubt}" for doubt in doubts))
    if not trees:
        return Verdict((), (says,), told, None, left_out=True)
    return Verdict(trees, (says,), told)


def _it(said: str) -> str:
    return said if said.startswith("follows") else f"is otherwise with the name: {said}"
