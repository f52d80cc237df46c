"""How long a build takes against a plain MkDocs build of as many pages: ratios of whole processes in one run.

    python tests/benchmarks/site.py [TREES]        (default 200)

Prints the first build (photographs encoded), the second (nothing changed), and a third after one note was changed, each
against `mkdocs build` with the same theme package on as many Markdown pages of about the same text, search off.
"""

from __future__ import annotations

import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from PIL import Image

ROUNDS = 5
TREE = """\
accession: B{number}
name: Benchmark Tree {number}
taxon: Ulmus parvifolia
form: informal upright
portrait: 2020_front_1.jpg
label: A tree that stands here only to be counted; it was struck, potted, given and repotted like any other.
events:
  - {{id: struck, kind: struck, date: 1951, by: edda, source: book}}
  - {{id: potted, kind: potted, date: 1953, by: edda, source: book}}
{work}
  - {{id: gift, kind: gift, date: 1985-06-02, from: edda, to: the-house, source: book}}
"""
WORK = "  - {{id: repotted-{year}, kind: repotted, date: {year}-03, by: edda, source: book}}"
NOTE = "---\ntitle: Seen in spring\n---\nThe buds on the lower left branch came late, as they did in the year before.\n"
HOUSE = """\
name: The House
custodian: the-house
defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public}
"""


def write_collection(folder: Path, trees: int) -> None:
    """An invented collection: twelve events, a note and one photograph a tree."""
    files = {
        "collection.yml": HOUSE,
        "stewards/the-house.yml": "name: The House\nkind: institution\n",
        "stewards/edda.yml": "name: Edda Lund\nkind: person\n",
        "sources/book.yml": "title: Bench book\nkind: diary\ndate: 1949/1990\n",
    }
    work = "\n".join(WORK.format(year=year) for year in range(1957, 1985, 3))
    for number in range(trees):
        home = f"trees/B{number}-benchmark-tree-{number}"
        files[f"{home}/tree.yml"] = TREE.format(number=number, work=work)
        files[f"{home}/notes/2020-04-01-spring.md"] = NOTE
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, "utf-8")
    for number in range(trees):
        photos = folder / f"trees/B{number}-benchmark-tree-{number}/photos"
        photos.mkdir()
        picture = Image.radial_gradient("L").resize((640, 480)).point(lambda v, n=number: (v + n) % 256)
        picture.convert("RGB").save(photos / "2020_front_1.jpg", quality=80)


def write_plain(folder: Path, site: Path) -> int:
    """As many Markdown pages as our site has, each with the words of one of its pages."""
    docs = folder / "docs"
    pages = sorted(site.rglob("*.html"))
    for page in pages:
        words = re.sub(r"(?s)<(script|style|svg).*?</\1>|<[^>]+>", " ", page.read_text("utf-8"))
        text = "\n\n".join(line.strip() for line in words.splitlines() if line.strip())
        target = docs / page.relative_to(site).with_suffix(".md")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(f"# {page.parent.name}\n\n{text}\n", "utf-8")
    names = "\n".join(f"  {p.relative_to(docs).as_posix()}" for p in sorted(docs.rglob("*.md")))
    config = "site_name: plain\ntheme: {name: material}\nplugins: []\nnot_in_nav: |\n" + names + "\nnav: [index.md]\n"
    (folder / "mkdocs.yml").write_text(config, "utf-8")
    return len(pages)


def seconds(command: list[str], cwd: Path) -> float:
    """Wall time of one whole process."""
    began = time.perf_counter()
    env = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    subprocess.run(command, cwd=cwd, check=True, capture_output=True, env=env)
    return time.perf_counter() - began


def main() -> None:
    """Measure and print."""
    trees = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    print(f"{platform.platform()}, Python {platform.python_version()}, {os.cpu_count()} cores")
    with tempfile.TemporaryDirectory() as temporary:
        home = Path(temporary)
        write_collection(home / "collection", trees)
        ours = [sys.executable, "-m", "archive_tools", "build", str(home / "collection"), "--out", str(home / "site")]
        plain = [sys.executable, "-m", "mkdocs", "build", "-q"]
        first = seconds(ours, home)
        pages = write_plain(home, home / "site")
        seconds(plain, home)
        again, changed, beside = [], [], []
        note = home / "collection/trees/B0-benchmark-tree-0/notes/2020-04-01-spring.md"
        for round_ in range(ROUNDS):
            beside.append(seconds(plain, home))
            again.append(seconds(ours, home))
            note.write_text(NOTE + f"\nAnd again, {round_}.\n", "utf-8")
            changed.append(seconds(ours, home))
            seconds(ours, home)
        base = statistics.median(beside)
        print(f"{trees} trees, {pages} pages; plain MkDocs {base:.2f} s (median of {ROUNDS})")
        for name, value in (
            ("first build", first),
            ("nothing changed", statistics.median(again)),
            ("one note changed", statistics.median(changed)),
        ):
            print(f"{name:<18} {value:6.2f} s   {value / base:5.2f} times plain")


if __name__ == "__main__":
    main()
