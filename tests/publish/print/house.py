"""A small collection with labels, and what other programs make of the file that comes out."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import numpy as np
import zxingcpp
from click.testing import CliRunner, Result
from PIL import Image

from archive_tools import typesetter
from archive_tools.cli import cli
from tests.conftest import missing
from tests.read.folder_of import made

SITE = "https://the-slope.example/"
HOUSE = (
    f'name: The Slope\ncustodian: house\nsite_url: {SITE}\nhemisphere: north\naccent: "#1f4a3d"\nlanguages: [en, ja]\n'
    "defaults: {trees: public, events: public, stewards: public, sources: public, places: public}\n"
)
TEXT = "Edda Lund kept this elm in a bucket for thirty years. It leans to the sea, as she did."
ELM = f"""\
accession: T1
name: The Old Elm
taxon: Ulmus × hollandica 'Jacqueline Hillier'
common_name: {{en: Dutch elm, ja: 楡}}
native_to: Gardens
label:
  en: {TEXT}
  ja: エッダ・ルンドが三十年、桶で育てた楡。
credit_line: Given by Edda Lund, 1985
events:
  - {{id: potted, kind: potted, date: 1953, by: edda, source: book}}
  - {{id: given, kind: gift, date: 1985-06-02, from: edda, to: house, source: book}}
"""
PINE = """\
accession: T2
name: Low Water
taxon: Pinus thunbergii
label: A pine from the shore.
events:
  - {id: given, kind: gift, date: 1990, from: edda, to: house, source: book}
"""
FILES: dict[str, str | bytes] = {
    "stewards/house.yml": "name: The Slope\nkind: institution\n",
    "stewards/edda.yml": "name: Edda Lund\nkind: person\n",
    "sources/book.yml": "title: Bench book\nkind: diary\n",
    "trees/T1-the-old-elm/tree.yml": ELM,
    "trees/T2-low-water/tree.yml": PINE,
}
AS_OF = "2026-11-25"


def house(folder: Path, **changed: str) -> Path:
    """The collection in `folder`; changed: other text for T1 or T2, or for `house` (collection.yml)."""
    files = dict(FILES)
    for accession, path in (("T1", "trees/T1-the-old-elm/tree.yml"), ("T2", "trees/T2-low-water/tree.yml")):
        files[path] = changed.get(accession, str(files[path]))
    return made(folder, files, changed.get("house", HOUSE))


def labels(folder: Path, *arguments: str | Path, as_of: str = AS_OF) -> Result:
    """What `archive-tools labels` says to the collection in `folder`."""
    given = ["labels", "--collection", str(folder), "--as-of", as_of, *map(str, arguments)]
    return CliRunner().invoke(cli, given)


def poppler(*command: str | Path) -> str:
    """What a program of poppler-utils prints."""
    if shutil.which(str(command[0])) is None:
        missing(f"{command[0]} (Debian: poppler-utils)")
    return subprocess.run([str(part) for part in command], capture_output=True, check=True).stdout.decode("utf-8")


def raster(pdf: Path, dpi: int, page: int = 1) -> np.ndarray:
    """One page in grey, 0 black to 255 white."""
    out = pdf.with_suffix(f".{page}")
    poppler("pdftoppm", "-r", str(dpi), "-f", str(page), "-l", str(page), "-gray", "-singlefile", pdf, out)
    return np.asarray(Image.open(f"{out}.pgm").convert("L"))


def need_cjk() -> None:
    """Skips a test where no font for Chinese, Japanese and Korean is installed."""
    if not typesetter.machine_fonts():
        missing("a font for Chinese, Japanese and Korean (Debian: fonts-noto-cjk)")


def boxes(pdf: Path) -> dict[str, tuple[float, float]]:
    """Width and height of the page's boxes in millimetres, by poppler."""
    said = poppler("pdfinfo", "-box", pdf)
    found = re.findall(r"^(\w+Box): +([-\d.]+) +([-\d.]+) +([-\d.]+) +([-\d.]+)", said, re.M)
    return {
        name: ((float(x1) - float(x0)) * 25.4 / 72, (float(y1) - float(y0)) * 25.4 / 72)
        for name, x0, y0, x1, y1 in found
    }


def codes_by_zxing(picture: np.ndarray) -> list[str]:
    """Every code in a picture, as one reader sees it."""
    return sorted(found.text for found in zxingcpp.read_barcodes(np.ascontiguousarray(picture)))


def codes_by_zbar(picture: np.ndarray, folder: Path) -> list[str]:
    """Every code in a picture, as a reader that shares nothing with the other sees it."""
    if shutil.which("zbarimg") is None:
        missing("zbarimg (Debian: zbar-tools)")
    path = folder / "codes.png"
    Image.fromarray(picture).save(path)
    run = subprocess.run(["zbarimg", "--quiet", "--raw", "--nodbus", str(path)], capture_output=True, check=False)
    return sorted(run.stdout.decode("utf-8").split("\n")[:-1])
