"""The command: `python -m picture_maker.make render|finish|points|marks|sheet`, run from the folder above this."""

from __future__ import annotations

import argparse
import json
import math
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from PIL import Image

from .looks import carried, finish, shown
from .marks import RIM, write_marks
from .metadata import encode
from .scenes import every_shot
from .shot import Shot

Points = dict[str, list[float]]
REGISTER = Path(__file__).with_name("points.json")
EARLIER = (0.62, 0.68, 0.85, 1.0)
"""Shares of the full size at which pictures were rendered before `effort` was what it is."""
AGREES = 0.05
"""Pixels: points that lie nearer than this to those of the finished picture belong to the same scene."""


def effort(shot: Shot) -> tuple[float, int]:
    """Share of the full size and samples a pixel: what film grain and soft lenses hide need not be rendered."""
    if shot.look.kind != "digital":
        return 0.58, 7
    if shot.stage.backdrop == "wall":
        return 0.78, 9
    return 0.64, 8


def render_all(shots: list[Shot], out: Path, draft: bool, again: bool) -> None:
    """Render what has not been rendered yet; may be stopped at any time."""
    from .draw import draw

    for shot in shots:
        file = out / f"{shot.name}{'_draft' if draft else ''}.png"
        if file.with_suffix(".json").exists() and not again:
            continue
        start = time.monotonic()
        scale, samples = effort(shot)
        draw(shot, file, 0.4 if draft else scale, 6 if draft else samples)
        print(f"{shot.name}: {time.monotonic() - start:.0f} s", flush=True)


def full_size(shot: Shot, im: Image.Image, points: Points) -> tuple[Image.Image, Points]:
    """A render and its points at the size the shot asks for."""
    k = shot.width / im.width
    if k == 1:
        return im, points
    grown = im.convert("RGB").resize((shot.width, shot.height), Image.Resampling.LANCZOS)
    return grown, {name: [v * k for v in p] for name, p in points.items()}


def entry(shot: Shot, record: dict[str, Any]) -> dict[str, Any]:
    """What points.json says of a picture; `record` is what was worked out on its render.

    Points are given to a tenth of the render's own pixel, and carried by one factor both ways, though a render has
    whole pixels: up to 0.9 pixels from where they are, in details more. Places are carried exactly.
    """
    width, height = record["size"]
    k = shot.width / width
    down = shot.height / height
    size = (shot.width, shot.height)
    points = {name: carried([x * k, y * k], shot.look, size) for name, (x, y) in record["points"].items()}
    places = {name: carried([x * k, y * down], shot.look, size, 2) for name, (x, y) in record["places"].items()}
    return {
        "size": list(shot.look.size),
        "rim_width_cm": record["rim_width_cm"],
        "points": points,
        "pot": record["pot"],
        "camera": record["camera"],
        "places": places,
        "hidden": [name for name, p in places.items() if name in record["hidden"] or not shown(p, shot.look)],
    }


def finish_all(shots: list[Shot], out: Path, collection: Path) -> None:
    """Turn renders into photographs of the collection, and write their points beside the maker."""
    known = read_register()
    for shot in shots:
        source = out / f"{shot.name}.png"
        if not source.with_suffix(".json").exists():
            continue
        record = json.loads(source.with_suffix(".json").read_text())
        picture, _ = finish(*full_size(shot, Image.open(source), {}), shot.look)
        target = collection / shot.file
        target.parent.mkdir(parents=True, exist_ok=True)
        data = encode(picture, shot.taken, 220_000)
        if not target.exists() or target.read_bytes() != data:
            target.write_bytes(data)
        known[shot.file] = entry(shot, record)
    write_register(known)


def points_again(shots: list[Shot], out: Path) -> None:
    """Work the places out anew, without rendering. They are taken over where they belong to the finished picture.

    They do where the ends of the rim, worked out again at a size at which pictures have been rendered, are the
    points that the picture has: then the pot and the camera are the same, whatever has become of leaves and bark.
    """
    from .draw import aim, build, record

    known = read_register()
    for shot in shots:
        if (had := known.get(shot.file)) is None:
            continue
        file = out / f"{shot.name}.places.json"
        if not file.exists():
            built = build(shot)
            tried = [record(shot, built, aim(shot, built, scale)) for scale in (effort(shot)[0], *EARLIER)]
            file.write_text(json.dumps(tried))
        found = [entry(shot, tried) for tried in json.loads(file.read_text())]
        best = min(found, key=lambda new: apart(new["points"], had["points"], RIM))
        off = apart(best["points"], had["points"], RIM)
        every = apart(best["points"], had["points"], [*had["points"]])
        print(f"{shot.name}: rim {off:.2f}, all points {every:.2f} pixels from those of the picture", flush=True)
        if off < AGREES:
            known[shot.file] = best | {"points": had["points"]}
    write_register(known)


def apart(one: Points, other: Points, names: Sequence[str]) -> float:
    """The largest distance between points of these names, in pixels; those that only one has are infinitely far."""
    return max(math.dist(one[n], other[n]) if n in one and n in other else math.inf for n in names)


def read_register() -> dict[str, Any]:
    """What is known of every finished picture, by its path in the collection."""
    found: dict[str, Any] = json.loads(REGISTER.read_text()) if REGISTER.exists() else {}
    return found


def write_register(known: dict[str, Any]) -> None:
    """Write it, one picture a line."""
    lines = [f"  {json.dumps(k)}: {json.dumps(known[k], ensure_ascii=False)}" for k in sorted(known)]
    REGISTER.write_text("{\n" + ",\n".join(lines) + "\n}\n")


def contact_sheet(shots: list[Shot], out: Path, draft: bool, marks: bool, file: Path) -> None:
    """All pictures on one sheet, small, for looking at."""
    tiles = []
    for shot in shots:
        source = out / f"{shot.name}{'_draft' if draft else ''}.png"
        if source.exists():
            im = Image.open(source).convert("RGB")
            if not draft:
                points = json.loads(source.with_suffix(".json").read_text())["points"] if marks else {}
                im, points = finish(*full_size(shot, im, points), shot.look)
                for x, y in points.values():
                    im.paste((255, 0, 255), (round(x) - 3, round(y) - 3, round(x) + 4, round(y) + 4))
            im.thumbnail((480, 480))
            tiles.append(im)
    columns = min(4, max(1, len(tiles)))
    height = max((t.height for t in tiles), default=1)
    sheet = Image.new("RGB", (columns * 480, -(-len(tiles) // columns) * height), "white")
    for i, t in enumerate(tiles):
        sheet.paste(t, ((i % columns) * 480, i // columns * height))
    sheet.save(file, quality=88)


def main() -> None:
    """Read the command line and do what it asks."""
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("what", choices=("render", "finish", "points", "marks", "sheet"))
    ap.add_argument("names", nargs="*", help="parts of picture names, such as S1979.2 or 2025; all if none")
    ap.add_argument("--out", type=Path, required=True, help="folder for renders, outside the collection")
    ap.add_argument("--collection", type=Path, default=Path(__file__).parent.parent)
    ap.add_argument("--draft", action="store_true", help="small and quick")
    ap.add_argument("--again", action="store_true", help="render even what exists")
    ap.add_argument("--marks", action="store_true", help="show the named points on the sheet")
    a = ap.parse_intermixed_args()
    shots = [s for s in every_shot() if not a.names or any(n in s.name for n in a.names)]
    a.out.mkdir(parents=True, exist_ok=True)
    if a.what == "render":
        render_all(shots, a.out, a.draft, a.again)
    elif a.what == "finish":
        finish_all(shots, a.out, a.collection)
    elif a.what == "points":
        points_again(shots, a.out)
    elif a.what == "marks":
        write_marks(a.collection, REGISTER)
    else:
        contact_sheet(shots, a.out, a.draft, a.marks, a.out / "sheet.jpg")


if __name__ == "__main__":
    main()
