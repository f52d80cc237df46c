"""How long a plan of two thousand pictures takes, against decoding each of them once; prints ratios and the machine.

Run: python -m tests.benchmarks.sort_in [PICTURES] [MEGAPIXELS]
"""

from __future__ import annotations

import os
import platform
import sys
import tempfile
import time
from datetime import datetime, timedelta
from pathlib import Path

from PIL import Image

from archive_tools.sort_in.payload import card_text
from tests.sort_in.scenes import DAY, collection, scene, shot, showing_code, taken_in


def main(count: int, megapixels: float) -> None:
    """Time a first plan, a second one, and the doing; and one plain decoding of every picture to compare with."""
    height = round((megapixels * 1e6 * 3 / 4) ** 0.5)
    size = (height * 4 // 3, height)
    with tempfile.TemporaryDirectory() as home:
        root, source = collection(Path(home) / "house"), Path(home) / "card"
        begin = datetime(2026, 5, 3, 8, 0, 0)
        patterns = [scene(number, size) for number in range(20)]
        for number in range(count):
            at = f"{begin + timedelta(seconds=20 * number)}"
            if number % 25 == 0:
                tree = ("S1979.2", "S1986.1", "S2015.9")[number // 25 % 3]
                picture = showing_code(card_text(tree, DAY), size, number=number)
            else:
                picture = patterns[number % 20].transform(
                    size, Image.Transform.AFFINE, (1, 0, number * 7, 0, 1, number * 3)
                )
            shot(source / f"IMG_{number:04}.JPG", picture, at)
        began = time.perf_counter()
        for path in source.iterdir():
            with Image.open(path) as opened:
                opened.load()
        decoding = time.perf_counter() - began
        times = []
        for apply in (False, False, True):
            began = time.perf_counter()
            done = taken_in(root, source, apply=apply)
            times.append(time.perf_counter() - began)
        whole = sum(path.stat().st_size for path in source.iterdir()) / 1e6
        print(f"{count} pictures of {megapixels:g} megapixels, {whole:.0f} MB; {len(done.plan.filed())} filed")
        print(f"{platform.platform()}, {os.cpu_count()} processors, Python {platform.python_version()}")
        for what, took in zip(("first plan", "second plan", "plan and doing"), times, strict=True):
            print(
                f"{what}: {took:.1f} s, {took / count * 1000:.1f} ms a picture, {took / decoding:.2f} of decoding once"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000, float(sys.argv[2]) if len(sys.argv) > 2 else 12)
