"""Making the cache smaller: what no build would use again."""

from __future__ import annotations

from collections import Counter
from datetime import date
from pathlib import Path

import click

from archive_tools import pipeline
from archive_tools.cli_options import (
    as_of_option,
    collection_option,
    json_option,
    print_json,
    quiet_option,
    refusals,
)
from archive_tools.made_before import CACHE
from archive_tools.model.grades import Edition
from archive_tools.pruning import Pruning, pruning, remove

_SHOWN = 12


@click.command("prune-cache")
@collection_option
@click.option(
    "--cache",
    type=click.Path(file_okay=False, path_type=Path),
    help=f"The cache, where builds keep it elsewhere than in {CACHE} in the collection.",
)
@as_of_option
@click.option("--apply", is_flag=True, help="Remove it; without this it is only told.")
@json_option
@quiet_option
def prune_cache(folder: Path, cache: Path | None, as_of: date, apply: bool, as_json: bool, quiet: bool) -> None:
    """Tell what the cache holds that neither edition needs any more, and with --apply remove it.

    Nothing is lost by it: the cache only saves work, and originals and records are no part of it. What was written
    within the last hour stays, since a build may be at work.
    """
    if cache is not None and not cache.is_dir():
        raise click.UsageError(f"there is no folder {cache}")
    place = cache or folder / CACHE
    today = date.today()
    with refusals():
        views = [pipeline.view(folder, edition=one, as_of=as_of, today=today) for one in Edition]
    plan = pruning(views, folder, place, today)
    if apply:
        remove(plan, place)
    if as_json:
        print_json(_as_json(plan, apply))
    elif not quiet:
        for line in _lines(plan, place, apply):
            click.echo(line)


def _as_json(plan: Pruning, applied: bool) -> dict[str, object]:
    return {
        "going": [{"file": one.file, "bytes": one.size, "why": one.why} for one in plan.going],
        "bytes": plan.size,
        "kept": {"files": plan.kept, "bytes": plan.kept_bytes},
        "foreign": list(plan.foreign),
        "applied": applied,
    }


def _lines(plan: Pruning, place: Path, applied: bool) -> list[str]:
    count = len(plan.going)
    if not count:
        lines = [f"Everything in {place} is needed ({plan.kept} files, {_weight(plan.kept_bytes)})."]
    else:
        done = "were removed from" if applied else "in"
        lines = [f"{count} files ({_weight(plan.size)}) {done} {place}{'' if applied else ' would go'}:"]
        lines += [f"  {number} {why}" for why, number in Counter(one.why for one in plan.going).most_common()]
        lines.append(f"{plan.kept} files ({_weight(plan.kept_bytes)}) stay.")
        if not applied:
            lines.append("Nothing was changed; repeat it with --apply.")
    if plan.foreign:
        shown = ", ".join(plan.foreign[:_SHOWN]) + (" …" if len(plan.foreign) > _SHOWN else "")
        lines.append(f"Not written by this program, and left alone: {shown}")
    return lines


def _weight(size: int) -> str:
    return f"{size / 1e6:.1f} MB" if size >= 100_000 else f"{size / 1e3:.1f} kB"
