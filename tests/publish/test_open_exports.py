"""Both exports in open models: who is named, that nothing is said twice, and that addresses and bytes stay."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from archive_tools import pipeline
from archive_tools.cli import cli
from archive_tools.model.grades import Edition
from archive_tools.model.view import EditionView
from archive_tools.publish.exports_linked_art import linked_art_document
from archive_tools.publish.exports_provo import prov_document
from archive_tools.publish.open_models import words_in
from tests.read.folder_of import made

ROOT = Path(__file__).parents[2]
AS_OF = date(2026, 11, 25)
PUBLIC = (
    "defaults: {trees: public, events: public, notes: public, photographs: public, stewards: public, sources: public, "
    "objects: public}\n"
)
HOUSE = f"name: The House\ncustodian: the-house\nhemisphere: north\nsite_url: https://house.example/trees/\n{PUBLIC}"
MODELS = ("prov", "linked-art")
WRITERS: dict[str, Callable[[EditionView], dict[str, Any]]] = {"prov": prov_document, "linked-art": linked_art_document}


def tree(number: str, *events: str) -> str:
    lines = "".join(f"  - {{{one}}}\n" for one in events)
    return f"accession: {number}\ntaxon: Ulmus parvifolia\nevents:\n{lines}"


def given(number: str, donor: str) -> str:
    return tree(
        number,
        f"id: bought, kind: purchase, date: 1960, to: {donor}",
        f"id: wired, kind: wired, date: 1965, by: {donor}, with: [{donor}], source: book",
        f"id: came, kind: gift, date: 1990-05-01, from: {donor}, to: the-house, source: [deed, book]",
    )


DONOR = "kind: person\nvisibility: restricted\npublic_name: a private donor\n"
FILES = {
    "stewards/the-house.yml": "name: The House\nkind: institution\n",
    "stewards/ottoline-vance.yml": f"name: Ottoline Vance\nborn: 1921\n{DONOR}",
    "stewards/perrin-dace.yml": f'name: Perrin "Bo" Dace\ntaught_by: [ottoline-vance]\n{DONOR}',
    "stewards/hill-club.yml": "name: The Hill Club\nkind: club\nmembers: [ottoline-vance, ilka-thorn]\n",
    "stewards/ilka-thorn.yml": "name: Ilka Thorn\nkind: person\ntaught_by: [perrin-dace]\n",
    "sources/deed.yml": "title: Deed of Perrin Dace\nkind: letter\nvisibility: restricted\n",
    "sources/book.yml": "title: Bench book\nkind: diary\n",
    "objects/tray.yml": "name: Grey tray\nkind: tray\nowner: perrin-dace\n",
}


def run(folder: Path, model: str, *more: str) -> Result:
    arguments = ["export", "jsonld", "--model", model, "--collection", str(folder), "--as-of", "2026-11-25", *more]
    return CliRunner().invoke(cli, arguments)


def house(folder: Path, first: str, second: str) -> Path:
    trees = {"trees/T1-elm/tree.yml": given("T1", first), "trees/T2-elm/tree.yml": given("T2", second)}
    return made(folder, {**FILES, **trees}, HOUSE)


@pytest.mark.parametrize("model", MODELS)
def test_two_anonymous_donors_cannot_be_told_from_one(tmp_path: Path, model: str) -> None:
    """One of them gave both trees; or each gave one. The public export is the same to the byte."""
    one = run(house(tmp_path / "one", "perrin-dace", "perrin-dace"), model)
    two = run(house(tmp_path / "two", "perrin-dace", "ottoline-vance"), model)
    assert one.exit_code == two.exit_code == 0, one.output
    assert one.stdout == two.stdout
    assert one.stdout.count("a private donor") > 3
    names = ("vance", "dace", "ottoline", "perrin", "1921", "withheld")
    assert [name for name in names if name in one.stdout.casefold()] == []


@pytest.mark.parametrize("model", MODELS)
def test_no_address_is_shared_by_two_mentions_of_somebody_anonymous(tmp_path: Path, model: str) -> None:
    document = json.loads(run(house(tmp_path, "perrin-dace", "perrin-dace"), model).stdout)
    labelled: dict[str, set[str]] = {}
    for node in every_node(document):
        if "a private donor" in (node.get("rdfs:label"), node.get("_label")) and "id" in {k.strip("@") for k in node}:
            address = node.get("@id") or node["id"]
            thing = address.split("/event/")[0].split("/held/")[0]
            labelled.setdefault(thing, set()).add(address)
    assert {thing.rsplit("/", 1)[1] for thing in labelled} >= {"T1", "T2"}
    # Held it, and worked on it: two mentions, each of its own.
    assert all(len(addresses) >= 2 for thing, addresses in labelled.items() if "/tree/" in thing)


def every_node(value: Any) -> list[dict[str, Any]]:
    if isinstance(value, list):
        return [node for one in value for node in every_node(one)]
    return [value, *every_node(list(value.values()))] if isinstance(value, dict) else []


@pytest.mark.parametrize("model", MODELS)
def test_a_hidden_name_in_a_public_text_stops_the_export(tmp_path: Path, model: str) -> None:
    files = {**FILES, "sources/book.yml": 'title: Bench book of Perrin "Bo" Dace\nkind: diary\n'}
    result = run(made(tmp_path, {**files, "trees/T1-elm/tree.yml": given("T1", "perrin-dace")}, HOUSE), model)
    assert (result.exit_code, result.stdout) == (1, "")
    assert "sources/book.yml:1:8: error: this public text names the steward perrin-dace" in result.stderr


def test_a_name_that_only_the_export_gives_away_is_found_as_json_writes_it(tmp_path: Path) -> None:
    folder = house(tmp_path, "perrin-dace", "ottoline-vance")

    def refused(written: str) -> bool:
        try:
            pipeline.export(
                folder, edition=Edition.PUBLIC, as_of=AS_OF, today=AS_OF, write=lambda _: written, read=words_in
            )
        except pipeline.RefusedError:
            return True
        return False

    assert refused(json.dumps({"a": [{"b": 'Perrin "Bo" Dace'}]}))
    assert refused(json.dumps({"a": 'Perrin "Bo" D\u0061ce'}).replace("a", "\\u0061"))
    assert refused('{"@id": "https://house.example/id/Ottoline%20Vance"}')
    assert not refused('{"@id": "https://house.example/id/ilka-thorn"}')


@pytest.mark.parametrize("model", MODELS)
def test_addresses_stay_when_the_records_grow(tmp_path: Path, model: str) -> None:
    before = json.loads(run(house(tmp_path / "one", "perrin-dace", "ottoline-vance"), model).stdout)
    folder = house(tmp_path / "two", "perrin-dace", "ottoline-vance")
    more = tree("A0", "id: sown, kind: sown, date: 1940, by: perrin-dace")
    (folder / "trees" / "A0-elm").mkdir()
    (folder / "trees" / "A0-elm" / "tree.yml").write_text(more, "utf-8")
    first = folder / "trees" / "T1-elm" / "tree.yml"
    older = "  - {id: raised, kind: sown, date: 1930, by: ilka-thorn}\n"
    first.write_text(first.read_text("utf-8").replace("events:\n", f"events:\n{older}"), "utf-8")
    after = json.loads(run(folder, model).stdout)
    assert addresses(before) - addresses(after) == set()
    assert all(one.startswith("https://house.example/trees/id/") for one in addresses(after))


def addresses(document: dict[str, Any]) -> set[str]:
    return {
        node.get("@id") or node["id"] for node in document["@graph"] if not str(node.get("@id")).startswith("terms")
    }


@pytest.fixture(scope="module")
def views() -> dict[str, EditionView]:
    demo = ROOT / "demo_collection"
    return {one.value: pipeline.view(demo, edition=one, as_of=AS_OF, today=AS_OF) for one in Edition}


@pytest.mark.slow
@pytest.mark.parametrize("edition", ["public", "internal"])
@pytest.mark.parametrize("model", MODELS)
def test_everything_of_the_edition_is_there_exactly_once(
    views: dict[str, EditionView], model: str, edition: str
) -> None:
    view = views[edition]
    document = WRITERS[model](view)
    counted = Counter(node.get("@id") or node["id"] for node in document["@graph"])
    assert [address for address, times in counted.items() if times > 1] == []
    base = "https://skerrow-terraces.example/id"
    wanted = {f"{base}/tree/{accession}" for accession in view.records.trees}
    wanted |= {f"{base}/steward/{one.id}" for one in view.records.stewards.values() if not one.masked}
    wanted |= {f"{base}/object/{one.id}" for one in view.records.objects.values() if not one.masked}
    wanted |= {f"{base}/source/{one.id}" for one in view.records.sources.values() if not one.masked}
    assert wanted - set(counted) == set()
    said = json.dumps(document, ensure_ascii=False)
    assert said == json.dumps(WRITERS[model](view), ensure_ascii=False)
    if edition == "public":
        private = (ROOT / "tests" / "demo_private_strings.txt").read_text("utf-8").split("\n")
        assert [line for line in private if line and line.casefold() in said.casefold()] == []


@pytest.mark.parametrize("model", MODELS)
def test_the_same_bytes_twice(tmp_path: Path, model: str) -> None:
    folder = house(tmp_path, "perrin-dace", "ilka-thorn")
    assert run(folder, model).stdout_bytes == run(folder, model).stdout_bytes


def test_wrong_use_is_said_plainly(tmp_path: Path) -> None:
    empty = CliRunner().invoke(cli, ["export", "jsonld", "--collection", str(tmp_path)])
    assert (empty.exit_code, empty.stdout) == (2, "")
    assert "holds no collection.yml" in empty.stderr
    folder = house(tmp_path / "house", "perrin-dace", "ilka-thorn")
    unknown = run(folder, "museum")
    assert unknown.exit_code == 2
    assert "'prov', 'linked-art'" in unknown.stderr
    assert run(folder, "prov", "--edition", "internal").stdout.count("Perrin") == 0  # restricted: in no edition
