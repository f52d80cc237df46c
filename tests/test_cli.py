"""The commands: names, switches, codes, and which stream carries what."""

from __future__ import annotations

import contextlib
import json
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from archive_tools.cli import cli

HOUSE = """\
name: The House
custodian: the-house
defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public}
"""
TREE = """\
accession: T1
name: The Old Elm
taxon: Ulmus parvifolia
label: A label.
events:
  - id: potted
    kind: potted
    date: 1953
    by: edda
    source: book
  - id: given
    kind: gift
    date: 1985-06-02
    from: edda
    to: the-house
    source: book
"""


@pytest.fixture
def house(tmp_path: Path) -> Path:
    folder = tmp_path / "collection"
    for path, text in {
        "collection.yml": HOUSE,
        "stewards/the-house.yml": "name: The House\nkind: institution\n",
        "stewards/edda.yml": "name: Edda Lund\nkind: person\n",
        "sources/book.yml": "title: Bench book\nkind: diary\n",
        "trees/T1-the-old-elm/tree.yml": TREE,
    }.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, "utf-8")
    return folder


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli, [str(argument) for argument in arguments])


def test_check_of_a_sound_collection_is_fine(house: Path) -> None:
    result = run("check", house, "--as-of", "2026-11-25")
    assert result.exit_code == 0, result.output
    assert "0 errors" in result.stderr


def test_check_tells_a_mistake_with_its_place_and_leaves_with_1(house: Path) -> None:
    record = house / "trees/T1-the-old-elm/tree.yml"
    record.write_text(TREE.replace("by: edda", "by: eda"), "utf-8")
    result = run("check", house, "--json")
    told = json.loads(result.stdout)
    assert result.exit_code == 1
    (problem,) = [p for p in told["problems"] if p["severity"] == "error"]
    assert (problem["file"], problem["line"], problem["column"]) == ("trees/T1-the-old-elm/tree.yml", 9, 9)
    assert "edda" in problem["instead"]
    assert set(problem) == {"severity", "file", "line", "column", "what", "instead", "rule"}
    assert told["errors"] == 1


def test_json_leaves_nothing_else_on_standard_output(house: Path) -> None:
    for command in (
        ["check", house],
        ["chronology", "T1", "--collection", house],
        ["lineage", "T1", "--collection", house],
    ):
        json.loads(run(*command, "--json").stdout)


def test_chronology_in_its_stable_form(house: Path) -> None:
    told = json.loads(run("chronology", "T1", "--collection", house, "--as-of", "2026-11-25", "--json").stdout)
    assert told["accession"] == "T1"
    assert told["state"] == "ok"
    assert told["milestones"]["care"]["documented"] == {"earliest": "1953-01-01", "latest": "1953-12-31"}
    assert told["ages"]["care"]["documented"] == {"min": 72, "max": 73}
    assert told["wording"]["care"] == "In training since 1953"
    assert told["milestones"]["origin"]["documented"]["earliest"] is None
    assert told["because"]["care"]["latest"][0]["line"] == 8
    assert set(told) >= {"events", "unbroken_since", "quiet", "evidence_share", "contradictions", "sharpen"}


def test_lineage_in_its_stable_form(house: Path) -> None:
    told = json.loads(run("lineage", "T1", "--collection", house, "--json").stdout)
    assert [holder["steward"] for holder in told["holders"]] == ["edda", "the-house"]
    assert told["gaps"] == []


def test_show_prints_one_page(house: Path) -> None:
    result = run("show", "T1", "--collection", house, "--as-of", "2026-11-25")
    assert result.exit_code == 0
    for words in ("The Old Elm", "In training since 1953", "Edda Lund", "gift"):
        assert words in result.stdout
    assert len(result.stdout.splitlines()) < 60


def test_research_ranks_what_would_gain_most(house: Path) -> None:
    record = TREE.replace("  - id: potted", "  - {id: begun, kind: training begun, date: 1930}\n  - id: potted")
    (house / "trees/T1-the-old-elm/tree.yml").write_text(record, "utf-8")
    told = json.loads(run("research", "--collection", house, "--as-of", "2026-11-25", "--json").stdout)
    assert set(told) == {"as_of", "research"}
    years = [gain["years"] for gain in told["research"]]
    assert years == sorted(years, reverse=True)
    care = next(gain for gain in told["research"] if gain["milestone"] == "care")
    assert (care["accession"], care["years"]) == ("T1", 23)  # 1930 said without a source, 1953 documented
    assert "training begun 1930" in run("research", "--collection", house).stdout


def test_an_unknown_tree_is_wrong_use_and_the_nearest_is_named(house: Path) -> None:
    result = run("show", "T11", "--collection", house)
    assert result.exit_code == 2
    assert "did you mean T1?" in result.stderr


@pytest.mark.parametrize(
    "arguments",
    [("check", "nowhere"), ("show",), ("build", "--edition", "secret"), ("check", "--as-of", "yesterday"), ("chop",)],
)
def test_wrong_use_leaves_with_2(arguments: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(*arguments).exit_code == 2


def test_the_collection_is_found_upwards(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(house / "trees" / "T1-the-old-elm")
    assert run("show", "T1").exit_code == 0


def test_a_broken_collection_refuses_questions_without_a_traceback(house: Path) -> None:
    (house / "collection.yml").write_text("name: [unclosed\n", "utf-8")
    result = run("show", "T1", "--collection", house)
    assert result.exit_code == 1
    assert "collection.yml:1" in result.stderr
    assert result.exception is None or isinstance(result.exception, SystemExit)


def test_a_build_with_a_record_that_cannot_be_trusted_stops_and_publishes_nothing(house: Path, tmp_path: Path) -> None:
    (house / "trees/T1-the-old-elm/tree.yml").write_text(TREE + "visiblity: restricted\n", "utf-8")
    result = run("build", house, "--out", tmp_path / "site")
    assert result.exit_code == 1
    assert "visibility" in result.stderr
    assert not (tmp_path / "site").exists()


@pytest.mark.slow
def test_a_build_leaves_out_a_bad_statement_and_names_it(house: Path, tmp_path: Path) -> None:
    (house / "trees/T1-the-old-elm/tree.yml").write_text(TREE.replace("date: 1953", "date: 1953-02-30"), "utf-8")
    result = run("build", house, "--out", tmp_path / "site")
    assert result.exit_code == 0, result.output
    assert "tree.yml:8" in result.stderr
    assert (tmp_path / "site" / "trees" / "T1" / "index.html").is_file()


def fetch_until(address: str, words: str) -> str:
    """The page, fetched again and again until it holds the words or half a minute has passed."""
    until = time.monotonic() + 30
    page = ""
    while words not in page and time.monotonic() < until:
        time.sleep(0.5)
        with contextlib.suppress(OSError), urllib.request.urlopen(address, timeout=30) as answer:
            page = answer.read().decode("utf-8")
    return page


@pytest.mark.slow
def test_serve_tells_its_address_shows_the_site_and_builds_again_on_change(house: Path) -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-u", "-m", "archive_tools", "serve", str(house), "--port", str(port)]
    with subprocess.Popen(command, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True) as serving:
        try:
            assert serving.stderr is not None
            address = f"http://127.0.0.1:{port}/"
            assert any(address in line for line in iter(serving.stderr.readline, ""))
            assert "A label." in fetch_until(f"{address}trees/T1/", "A label.")
            record = house / "trees/T1-the-old-elm/tree.yml"
            record.write_text(TREE.replace("A label.", "Another label."), "utf-8")
            assert "Another label." in fetch_until(f"{address}trees/T1/", "Another label.")
        finally:
            serving.terminate()


def test_a_public_text_that_names_a_withheld_donor_stops_the_build(house: Path, tmp_path: Path) -> None:
    (house / "stewards/donor.yml").write_text("name: Zoë Quill\nvisibility: restricted\n", "utf-8")
    (house / "trees/T1-the-old-elm/tree.yml").write_text(TREE.replace("A label.", "Kept by Zoe Quill."), "utf-8")
    result = run("build", house, "--out", tmp_path / "site")
    assert result.exit_code == 1
    assert "trees/T1-the-old-elm/tree.yml:4" in result.stderr
    assert not (tmp_path / "site").exists()


def test_a_bench_code_in_a_public_note_stops_the_build(house: Path, tmp_path: Path) -> None:
    (house / "places.yml").write_text("places:\n  y-7: {name: Y-7}\n", "utf-8")
    note = house / "trees/T1-the-old-elm/notes/2024-03-16-moved.md"
    note.parent.mkdir()
    note.write_text("---\ntitle: Moved\n---\nIt stands on Y-7 for the summer.\n", "utf-8")
    result = run("build", house, "--out", tmp_path / "site")
    assert result.exit_code == 1
    assert "places.yml" in result.stderr
    assert "trees/T1/index" in result.stderr
    assert not (tmp_path / "site").exists()


def test_new_writes_starters_that_check_finds_sound(house: Path) -> None:
    assert (
        run("new", "tree", "T2", "--name", "No: 1, “Low”", "--taxon", "Acer palmatum", "--collection", house).exit_code
        == 0
    )
    assert run("new", "note", "T2", "First look", "--date", "2024-03-16", "--collection", house).exit_code == 0
    assert run("new", "steward", "jo", "--name", "Jo Øst", "--collection", house).exit_code == 0
    assert (
        run(
            "new", "source", "book-2", "--title", "Book: the second", "--kind", "diary", "--collection", house
        ).exit_code
        == 0
    )
    told = json.loads(run("check", house, "--json").stdout)
    assert [p for p in told["problems"] if p["severity"] == "error"] == []
    assert "No: 1, “Low”" in run("show", "T2", "--collection", house).stdout


def test_new_writes_nothing_over(house: Path) -> None:
    again = run("new", "steward", "edda", "--name", "Another", "--collection", house)
    assert again.exit_code == 2
    assert "Edda Lund" in (house / "stewards/edda.yml").read_text("utf-8")
    assert run("new", "tree", "T1", "--name", "Another", "--taxon", "Acer", "--collection", house).exit_code == 2


def test_every_command_is_in_the_readme() -> None:
    readme = (Path(__file__).resolve().parent.parent / "README.md").read_text("utf-8")
    for name in cli.commands:
        assert f"| `{name}" in readme, name
