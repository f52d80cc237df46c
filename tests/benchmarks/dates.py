"""How fast dates are read: the plain path against the library path, on this machine.

Run from the root of the repository: `python tests/benchmarks/dates.py`. Times are the best of several
runs; the ratio is what to compare between machines.
"""

from __future__ import annotations

import platform
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from archive_tools.model.dates import DatePolicy
from archive_tools.read.edtf_text import _read_by_library, _read_plain, read_date

TEXTS = (
    "1951",
    "1951-03",
    "1951-03-12",
    "1951~",
    "1951-03-12~",
    "195X",
    "1951-21",
    "../1951",
    "1951/1953",
    "1951~/1953-04-12",
)
BEYOND = ("1984-1X", "2004-06~-11", "[1667,1668,1670..1672]", "1985-04-12T23:20:30")
POLICY = DatePolicy("north")


def best(work: Callable[[], object], repeats: int, rounds: int = 5) -> float:
    """Microseconds a call, the best of `rounds` runs of `repeats` calls."""
    took = []
    for _ in range(rounds):
        begun = time.perf_counter()
        for _ in range(repeats):
            work()
        took.append((time.perf_counter() - begun) / repeats * 1e6)
    return min(took)


def processor() -> str:
    """The processor's name where the system tells it."""
    listing = Path("/proc/cpuinfo")
    if listing.exists():
        for line in listing.read_text().splitlines():
            if line.startswith("model name"):
                return line.partition(":")[2].strip()
    return platform.processor() or platform.machine()


def main() -> None:
    """Print the table."""
    print(f"{processor()}, {platform.system()}, Python {platform.python_version()}")
    _read_by_library("1951-1X", POLICY)  # builds the library's grammar once, outside the measure
    print(f"{'text':26}{'plain':>12}{'library':>14}{'ratio':>8}")
    for text in TEXTS:
        plain = best(partial(_read_plain, text, POLICY), 5000)
        library = best(partial(_read_by_library, text, POLICY), 5, 3)
        print(f"{text:26}{plain:9.1f} µs{library:11.0f} µs{library / plain:8.0f}")
    for text in BEYOND:
        library = best(partial(_read_by_library, text, POLICY), 5, 3)
        print(f"{text:26}{'':12}{library:11.0f} µs")
    read_date("1951", POLICY)
    print(f"{'any date read before':26}{best(partial(read_date, '1951', POLICY), 20000):9.1f} µs")


if __name__ == "__main__":
    main()
