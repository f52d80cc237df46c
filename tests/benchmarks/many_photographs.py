"""Twenty thousand photographs: does a first build keep every processor busy, and does a second one open any of them?

    python -m tests.benchmarks.many_photographs [PHOTOGRAPHS] [LONGER SIDE IN PIXELS]

By default 2,000 photographs of 640 pixels, twenty to a tree, each tree with marks in its pictures and a comparison; the
full size is `20000`. Busy is told by how many of the program's own processes are running or ready to run, looked at
five times a second, since a machine may have other work; the time of the processors is told beside it. Whether a file
is opened is told by Python itself (audit event `open`), and that no process was started by the children's own time.
"""

from __future__ import annotations

import os
import resource
import shutil
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from functools import wraps
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from archive_tools import pipeline
from archive_tools.model.grades import Edition
from tests.benchmarks.machine import machine

AS_OF = date(2026, 11, 25)
A_TREE = 20
HOUSE = """\
name: The House
custodian: the-house
defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public}
"""
TREE = """\
accession: {0}
name: Tree {0}
taxon: Ulmus parvifolia
label: A label.
comparisons:
  - id: then-and-now
    before: {1}
    after: {2}
"""
ENTRY = """\
- file: {0}
  date: {1}
  dated_by: print
  view: front
  marks: {{base: [{2}, {3}], left: [{4}, {3}], right: [{5}, {3}]}}
"""


@dataclass
class Watched:
    """What is seen of a run: by stage, how many of its processes were running or ready, at each look."""

    stage: str = "rest"
    looks: list[tuple[str, int]] = field(default_factory=list)
    opened: list[str] = field(default_factory=list)
    seconds: dict[str, float] = field(default_factory=dict)
    over: bool = False


WATCHED = Watched()


def main(count: int, side: int) -> None:
    """Make the collection, build it, build it again, and print what was seen."""
    sys.addaudithook(_note_opened)
    for stage in ("gather", "draw", "make_site"):
        setattr(pipeline, stage, _staged(stage, getattr(pipeline, stage)))
    print(f"{machine()}; {count} photographs of {side} pixels, {A_TREE} to a tree", flush=True)
    with tempfile.TemporaryDirectory() as home:
        house = Path(home) / "house"
        _collection(house, count, side)
        originals = sorted(house.rglob("*.jpg"))
        before = {path: path.stat() for path in originals}
        _run("cold", house, originals)
        _run("warm, nothing changed", house, originals)
        sheet = originals[0].parents[1] / "tree.yml"
        sheet.write_text(sheet.read_text().replace("A label.", "Another label."))
        _run("warm, one record changed", house, originals)
        changed = [path for path in originals if path.stat().st_mtime_ns != before[path].st_mtime_ns]
        print(f"originals changed: {len(changed)}; cache {_weight(house / '.archive-cache') / 1e6:.0f} MB")
        shutil.rmtree(house)


def _run(what: str, house: Path, originals: list[Path]) -> None:
    WATCHED.__init__()  # type: ignore[misc]
    looking = threading.Thread(target=_look, args=(WATCHED,), daemon=True)
    children, own = _cpu(resource.RUSAGE_CHILDREN), _cpu(resource.RUSAGE_SELF)
    begun = time.perf_counter()
    looking.start()
    made = pipeline.make(house, edition=Edition.PUBLIC, as_of=AS_OF, today=date.today(), cache=house / ".archive-cache")
    wall = time.perf_counter() - begun
    WATCHED.over = True
    looking.join()
    own, children = _cpu(resource.RUSAGE_SELF) - own, _cpu(resource.RUSAGE_CHILDREN) - children
    names = {str(path) for path in originals}
    opened = len({name for name in WATCHED.opened if name in names})
    print(
        f"{what}: {wall:.1f} s, {own + children:.1f} s of the processors ({children:.1f} in processes of their own), "
        f"{made.encoded} pictures encoded, {opened} originals opened in this process",
        flush=True,
    )
    for stage in ("gather", "draw", "make_site", "rest"):
        looks = [ready for at, ready in WATCHED.looks if at == stage]
        if len(looks) > 5:
            busy = sum(ready >= 2 for ready in looks) / len(looks)
            print(
                f"  {stage}: {WATCHED.seconds.get(stage, 0) or len(looks) / 5:.1f} s, "
                f"on average {sum(looks) / len(looks):.1f} processes at work, two or more in {busy:.0%} of looks"
            )


def _staged(stage: str, work: Callable[..., Any]) -> Callable[..., Any]:
    @wraps(work)
    def timed(*args: Any, **more: Any) -> Any:
        former, WATCHED.stage = WATCHED.stage, stage
        begun = time.perf_counter()
        try:
            return work(*args, **more)
        finally:
            WATCHED.stage = former
            WATCHED.seconds[stage] = WATCHED.seconds.get(stage, 0) + time.perf_counter() - begun

    return timed


def _look(watched: Watched) -> None:
    while not watched.over:
        watched.looks.append((watched.stage, _ready()))
        time.sleep(0.2)


def _ready() -> int:
    """Of this process and its children, how many are running or ready to (Linux, proc(5))."""
    own = str(os.getpid())
    count = 0
    for told in Path("/proc").glob("[0-9]*/stat"):
        try:
            name, _, rest = told.read_text().rpartition(")")
        except OSError:
            continue
        state, parent = rest.split()[:2]
        if own in (name.split()[0], parent):
            count += state in "RD"
    return count


def _note_opened(event: str, told: tuple[Any, ...]) -> None:
    if event == "open":
        WATCHED.opened.append(str(told[0]))


def _cpu(whose: int) -> float:
    used = resource.getrusage(whose)
    return used.ru_utime + used.ru_stime


def _collection(house: Path, count: int, side: int) -> None:
    (house / "stewards").mkdir(parents=True)
    (house / "collection.yml").write_text(HOUSE)
    (house / "stewards" / "the-house.yml").write_text("name: The House\nkind: institution\n")
    rng = np.random.default_rng(1)
    size = (side, side * 3 // 4)
    grain = rng.integers(0, 256, (size[1] // 6, size[0] // 6, 3), dtype=np.uint8)
    scene = Image.fromarray(grain).resize((2 * size[0], 2 * size[1]), Image.Resampling.BICUBIC)
    for number in range(count // A_TREE):
        folder = house / "trees" / f"T{number:04}" / "photos"
        folder.mkdir(parents=True)
        names = [f"{1960 + 3 * at}_front_1.jpg" for at in range(A_TREE)]
        (folder.parent / "tree.yml").write_text(TREE.format(f"T{number:04}", names[0], names[-1]))
        entries = []
        for at, name in enumerate(names):
            left, top = (int(rng.integers(0, size[0])), int(rng.integers(0, size[1])))
            scene.crop((left, top, left + size[0], top + size[1])).save(folder / name, quality=88)
            x, y = size[0] // 2 + at % 5, int(size[1] * 0.8) - at % 7
            entries.append(ENTRY.format(name, name[:4], x, y, x - size[0] // 5, x + size[0] // 5))
        (folder / "photos.yml").write_text("".join(entries))


def _weight(folder: Path) -> int:
    return sum(path.stat().st_size for path in folder.rglob("*") if path.is_file())


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000, int(sys.argv[2]) if len(sys.argv) > 2 else 640)
