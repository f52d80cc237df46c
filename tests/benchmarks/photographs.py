"""How much work a photograph costs: our cuts against libvips and against the plain way (open, three resizes, three
JPEGs), in one run.

    python tests/benchmarks/photographs.py [PICTURE …]

Without pictures it makes one of 12 megapixels itself. It prints CPU milliseconds a photograph and, what matters more,
their ratio: times differ between machines and between hours, the ratio hardly does. libvips (pyvips, for tests only) is
given the cheaper of two ways: a thumbnail from the file for each size, which decodes it three times at a reduced size,
or one from the file and the smaller ones from that. Also said: what a second run costs that finds everything made.
"""

from __future__ import annotations

import hashlib
import io
import os
import platform
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
import PIL
import pyvips
from PIL import Image, ImageOps

from archive_tools.illustrate.cuts import LIMITS, QUALITY, picture_of, sizes_of
from archive_tools.illustrate.derivatives import Job, make
from archive_tools.illustrate.originals import Original, pixels_of
from archive_tools.illustrate.pixels import open_original, upright_size

ROUNDS = 9
PROMISED = 1.1
"""Times the work of libvips, at most."""


def main(pictures: list[Path]) -> None:
    """Measure each picture and print one line for it."""
    print(
        f"{_processor()}, {os.cpu_count()} processors; Python {platform.python_version()}, Pillow {PIL.__version__}, "
        f"libvips {'.'.join(str(pyvips.version(part)) for part in range(3))}"
    )
    with tempfile.TemporaryDirectory() as folder:
        for picture in pictures or [_made(Path(folder))]:
            _measure(picture, Path(folder))


def _measure(picture: Path, folder: Path) -> None:
    with picture.open("rb") as file, open_original(file) as image:
        width, height = upright_size(image)
    original = Original(picture, hashlib.sha256(picture.read_bytes()).hexdigest(), width, height)
    sizes = sizes_of(width, height)
    cuts = picture_of(sizes, original.fingerprint)
    job = Job(picture.name, partial(_whole, original, sizes[-1].pair), (sizes,), (cuts,))
    pairs = [size.pair for size in sizes]
    ways = {
        "plain": partial(_plain, picture),
        "ours": partial(make, [job]),
        "libvips, each from the file": partial(_vips_each, picture, pairs),
        "libvips, one from the other": partial(_vips_chained, picture, pairs),
    }
    taken: dict[str, list[float]] = {way: [] for way in ways}
    wall = []
    for number in range(ROUNDS):  # by turns, so that a busy hour falls on all
        cache = folder / f"cache-{number}"
        for way, work in ways.items():
            taken[way].append(_cpu(partial(work, cache) if way == "ours" else work))
        begun = time.perf_counter()
        make([job], cache)
        wall.append(time.perf_counter() - begun)
    median = {way: statistics.median(times) for way, times in taken.items()}
    theirs = min(median[way] for way in ways if way.startswith("libvips"))
    print(f"{picture.name}: {width} x {height}; ms of CPU: " + ", ".join(f"{w} {t:.0f}" for w, t in median.items()))
    ratio = median["ours"] / theirs
    print(
        f"  {ratio:.2f} times libvips (promised: {PROMISED} at most; {'held' if ratio <= PROMISED else 'NOT HELD'}), "
        f"{median['plain'] / median['ours']:.1f} times as fast as plain; "
        f"found made {statistics.median(wall) * 1000:.2f} ms"
    )


def _whole(original: Original, size: tuple[int, int]) -> tuple[Image.Image, ...]:
    return (pixels_of(original, size),)


def _plain(picture: Path) -> None:
    """What one would write first, with the same sizes and the same encoding."""
    with Image.open(picture) as image:
        upright = ImageOps.exif_transpose(image).convert("RGB")
        for side in LIMITS:
            smaller = upright.copy()
            smaller = ImageOps.contain(smaller, (side, side), Image.Resampling.LANCZOS)
            smaller.save(io.BytesIO(), "JPEG", quality=QUALITY, optimize=True, progressive=True)


def _vips_each(picture: Path, sizes: list[tuple[int, int]]) -> None:
    for width, height in sizes:
        _vips_jpeg(_vips_thumbnail(picture, width, height))


def _vips_chained(picture: Path, sizes: list[tuple[int, int]]) -> None:
    current = None
    for width, height in reversed(sizes):
        if current is None:
            current = _vips_thumbnail(picture, width, height).copy_memory()
        else:
            current = current.thumbnail_image(width, height=height, size="force").copy_memory()
        _vips_jpeg(current)


def _vips_thumbnail(picture: Path, width: int, height: int) -> pyvips.Image:
    """In sRGB where a profile is embedded, as ours is."""
    how = (
        {"export_profile": "srgb"}
        if "icc-profile-data" in pyvips.Image.new_from_file(str(picture)).get_fields()
        else {}
    )
    return pyvips.Image.thumbnail(str(picture), width, height=height, size="force", **how)


def _vips_jpeg(image: pyvips.Image) -> None:
    image.jpegsave_buffer(Q=QUALITY, optimize_coding=True, interlace=True, subsample_mode="on", strip=True)


def _cpu(work: Callable[[], object]) -> float:
    begun = time.process_time()
    work()
    return (time.process_time() - begun) * 1000


def _made(folder: Path) -> Path:
    """A picture of 12 megapixels with detail at every size, about as hard to encode as a garden."""
    rng = np.random.default_rng(1)
    total = np.zeros((3000, 4000, 3))
    for step, weight in ((400, 70), (100, 40), (25, 25), (6, 14), (2, 7)):
        grain = rng.integers(0, 256, (3000 // step + 1, 4000 // step + 1, 3), dtype=np.uint8)
        total += np.asarray(Image.fromarray(grain).resize((4000, 3000), Image.Resampling.BICUBIC), dtype=float) * weight
    path = folder / "made.jpg"
    Image.fromarray((total / 156).clip(0, 255).astype(np.uint8)).save(path, quality=92)
    return path


def _processor() -> str:
    told = Path("/proc/cpuinfo")
    if told.exists():
        for line in told.read_text(encoding="utf-8").splitlines():
            if line.startswith("model name"):
                return line.split(":", 1)[1].strip()
    return platform.processor() or platform.machine()


if __name__ == "__main__":
    main([Path(argument) for argument in sys.argv[1:]])
