"""A claim compared with what the evidence bears."""

from __future__ import annotations

from datetime import date

from archive_tools.model.findings import Bounds, MilestoneFinding, Verdict
from archive_tools.model.grades import Grade
from archive_tools.reason.prose.claims import Claim


def verdict(claim: Claim, found: MilestoneFinding) -> Verdict:
    """Supported when the evidence leaves nothing outside the claimed days; contradicted when it leaves nothing inside;
    stronger in between, and where only a layer below the one the claim speaks for supports it.
    """
    layers = [found.layers.get(grade, Bounds()) for grade in Grade]
    spoken_for = layers[: claim.hedge]
    if any(_within(layer, claim.days) for layer in spoken_for):
        return Verdict.SUPPORTED
    if any(_within(layer, claim.days) for layer in layers):
        return Verdict.STRONGER
    if not _meet(spoken_for[-1], claim.days):
        return Verdict.CONTRADICTED
    return Verdict.STRONGER


def _within(inner: Bounds, outer: Bounds) -> bool:
    """Whether every day that `inner` leaves open lies in `outer`; nothing known lies in nothing."""
    if not inner.known:
        return False
    begins = outer.earliest is None or (inner.earliest is not None and inner.earliest >= outer.earliest)
    ends = outer.latest is None or (inner.latest is not None and inner.latest <= outer.latest)
    return begins and ends


def _meet(one: Bounds, other: Bounds) -> bool:
    first = max(one.earliest or date.min, other.earliest or date.min)
    last = min(one.latest or date.max, other.latest or date.max)
    return first <= last
