"""The Linked Art export held against CIDOC CRM, the Linked Art API 1.0 and the programs of others.

Outside: the names, domains and ranges below are from the Definition of the CIDOC Conceptual Reference Model, version
7.1; the shapes are written from it and from the schemas of the Linked Art API 1.0; rdflib and pyshacl read the export.
Where the `cromulent` package is installed (a library of Linked Art's editors), the context that Linked Art publishes
and its profile of classes and properties have their say too.
"""

from __future__ import annotations

import json
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import pyshacl
import pytest
from rdflib import RDF, Graph, Namespace, URIRef

from archive_tools import pipeline
from archive_tools.model.grades import Edition
from archive_tools.publish.exports_linked_art import linked_art_document
from archive_tools.publish.linked_art_context import CONTEXT, PUBLISHED_CONTEXT
from tests.making import HOUSE, event, source, tree
from tests.outside.histories import edition, stories
from tests.reason.lineage_asking import member, refs

# rdflib tells itself of what it means to change.
pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")
SHAPES = Path(__file__).parent / "shapes" / "linked_art.ttl"
DEMO = Path(__file__).parents[2] / "demo_collection"
AS_OF = date(2026, 11, 25)
CRM = Namespace("http://www.cidoc-crm.org/cidoc-crm/")
Document = dict[str, Any]

# Definition of the CIDOC CRM, version 7.1 (2021): class declarations, "Subclass of", as far as they are used here.
SUPERCLASS = {
    "E6_Destruction": "E64_End_of_Existence", "E8_Acquisition": "E7_Activity",
    "E10_Transfer_of_Custody": "E7_Activity", "E11_Modification": "E7_Activity", "E12_Production": "E11_Modification",
    "E79_Part_Addition": "E11_Modification", "E80_Part_Removal": "E11_Modification", "E85_Joining": "E7_Activity",
    "E7_Activity": "E5_Event", "E64_End_of_Existence": "E5_Event", "E66_Formation": "E7_Activity",
    "E68_Dissolution": "E64_End_of_Existence", "E67_Birth": "E63_Beginning_of_Existence",
    "E69_Death": "E64_End_of_Existence", "E63_Beginning_of_Existence": "E5_Event", "E5_Event": "E2_Temporal_Entity",
    "E2_Temporal_Entity": "E1_CRM_Entity", "E21_Person": "E39_Actor", "E74_Group": "E39_Actor",
    "E39_Actor": "E1_CRM_Entity", "E22_Human-Made_Object": "E24_Physical_Human-Made_Thing",
    "E24_Physical_Human-Made_Thing": "E18_Physical_Thing", "E18_Physical_Thing": "E70_Thing",
    "E70_Thing": "E1_CRM_Entity", "E33_Linguistic_Object": "E89_Propositional_Object",
    "E36_Visual_Item": "E89_Propositional_Object", "E89_Propositional_Object": "E1_CRM_Entity",
    "E33_E41_Linguistic_Appellation": "E41_Appellation", "E42_Identifier": "E41_Appellation",
    "E41_Appellation": "E1_CRM_Entity", "E52_Time-Span": "E1_CRM_Entity", "E55_Type": "E1_CRM_Entity",
}  # fmt: skip
# The same, property declarations: domain and range. An "i" turns a property round; E4 Period is read as E5 Event.
PROPERTIES = {
    "P1_is_identified_by": ("E1_CRM_Entity", "E41_Appellation"),
    "P2_has_type": ("E1_CRM_Entity", "E55_Type"),
    "P4_has_time-span": ("E2_Temporal_Entity", "E52_Time-Span"),
    "P9_consists_of": ("E5_Event", "E5_Event"),
    "P13i_was_destroyed_by": ("E18_Physical_Thing", "E6_Destruction"),
    "P14_carried_out_by": ("E7_Activity", "E39_Actor"),
    "P15_was_influenced_by": ("E7_Activity", "E1_CRM_Entity"),
    "P16_used_specific_object": ("E7_Activity", "E70_Thing"),
    "P22_transferred_title_to": ("E8_Acquisition", "E39_Actor"),
    "P23_transferred_title_from": ("E8_Acquisition", "E39_Actor"),
    "P24_transferred_title_of": ("E8_Acquisition", "E18_Physical_Thing"),
    "P28_custody_surrendered_by": ("E10_Transfer_of_Custody", "E39_Actor"),
    "P29_custody_received_by": ("E10_Transfer_of_Custody", "E39_Actor"),
    "P30_transferred_custody_of": ("E10_Transfer_of_Custody", "E18_Physical_Thing"),
    "P31i_was_modified_by": ("E18_Physical_Thing", "E11_Modification"),
    "P46i_forms_part_of": ("E18_Physical_Thing", "E18_Physical_Thing"),
    "P50_has_current_keeper": ("E18_Physical_Thing", "E39_Actor"),
    "P51_has_former_or_current_owner": ("E18_Physical_Thing", "E39_Actor"),
    "P52_has_current_owner": ("E18_Physical_Thing", "E39_Actor"),
    "P67i_is_referred_to_by": ("E1_CRM_Entity", "E89_Propositional_Object"),
    "P95i_was_formed_by": ("E74_Group", "E66_Formation"),
    "P98i_was_born": ("E21_Person", "E67_Birth"),
    "P99i_was_dissolved_by": ("E74_Group", "E68_Dissolution"),
    "P100i_died_in": ("E21_Person", "E69_Death"),
    "P107i_is_current_or_former_member_of": ("E39_Actor", "E74_Group"),
    "P108i_was_produced_by": ("E24_Physical_Human-Made_Thing", "E12_Production"),
    "P110_augmented": ("E79_Part_Addition", "E18_Physical_Thing"),
    "P111i_was_added_by": ("E18_Physical_Thing", "E79_Part_Addition"),
    "P112_diminished": ("E80_Part_Removal", "E18_Physical_Thing"),
    "P113i_was_removed_by": ("E18_Physical_Thing", "E80_Part_Removal"),
    "P143_joined": ("E85_Joining", "E39_Actor"),
    "P144_joined_with": ("E85_Joining", "E74_Group"),
}
LITERALS = {"P190_has_symbolic_content", "P82a_begin_of_the_begin", "P81a_end_of_the_begin", "P81b_begin_of_the_end",
            "P82b_end_of_the_end"}  # fmt: skip


def graph_of(document: Document, context: object = CONTEXT) -> Graph:
    """The graph, read without a network: the published address of the context gives way to what it says."""
    assert document["@context"] == PUBLISHED_CONTEXT
    return Graph().parse(data=json.dumps({**document, "@context": context}), format="json-ld")


def of(*trees: Any, **more: Any) -> tuple[Document, Graph]:
    document = linked_art_document(edition(*trees, **more))
    return document, graph_of(document)


@pytest.fixture(scope="module", params=["histories", pytest.param("demo", marks=pytest.mark.slow)])
def documents(request: pytest.FixtureRequest) -> dict[str, Document]:
    """The small histories, each with a house of its own; and the invented collection."""
    if request.param == "demo":
        return {"demo": linked_art_document(pipeline.view(DEMO, edition=Edition.PUBLIC, as_of=AS_OF, today=AS_OF))}
    made = {}
    for number, (name, (view_of, _)) in enumerate(stories().items()):
        text = json.dumps(linked_art_document(view_of()))
        made[name] = json.loads(text.replace("//house.example/", f"//house-{number}.example/"))
    assert len(made) >= 28
    return made


def together(documents: dict[str, Document]) -> Graph:
    whole = Graph()
    for document in documents.values():
        whole += graph_of(document)
    return whole


def test_valid_after_shapes_from_linked_art(documents: dict[str, Document]) -> None:
    valid, _, report = pyshacl.validate(together(documents), shacl_graph=str(SHAPES), inference="none")
    assert valid, report


def test_every_class_and_property_is_of_cidoc_crm_and_joins_what_it_may(documents: dict[str, Document]) -> None:
    graph = together(documents)
    used, wrong = Counter[str](), []
    for subject, link, target in graph:
        name = str(link).removeprefix(str(CRM))
        if link == RDF.type:
            assert str(target).removeprefix(str(CRM)) in SUPERCLASS, target
        elif str(link).startswith(str(CRM)) and name not in LITERALS:
            used[name] += 1
            domain, range_ = PROPERTIES[name]
            if domain not in kinds(graph, subject) or range_ not in kinds(graph, target):
                wrong.append((subject, name, target))
    assert wrong == []
    assert len(used) >= 15


def kinds(graph: Graph, node: Any) -> set[str]:
    found = set()
    for sort in graph.objects(node, RDF.type):
        name: str | None = str(sort).removeprefix(str(CRM))
        while name:
            found.add(name)
            name = SUPERCLASS.get(name)
    return found


@pytest.mark.parametrize(
    "slip",
    [
        "EX:a a crm:E8_Acquisition ; crm:P24_transferred_title_of EX:t .",
        "EX:a a crm:E8_Acquisition ; crm:P24_transferred_title_of EX:t ; crm:P22_transferred_title_to EX:t .",
        "EX:a a crm:E10_Transfer_of_Custody ; crm:P29_custody_received_by EX:p .",
        'EX:s a crm:E52_Time-Span ; crm:P82a_begin_of_the_begin "1951" .',
        'EX:s a crm:E52_Time-Span ; crm:P82a_begin_of_the_begin "1952-01-01T00:00:00Z"^^xsd:dateTime ;'
        ' crm:P82b_end_of_the_end "1951-12-31T23:59:59Z"^^xsd:dateTime .',
        "EX:a a crm:E79_Part_Addition ; crm:P110_augmented EX:t .",
        "EX:a a crm:E85_Joining ; crm:P143_joined EX:p ; crm:P144_joined_with EX:p .",
        'EX:a a crm:E7_Activity ; rdfs:label "a" ; crm:P9_consists_of EX:b . EX:b a crm:E8_Acquisition ;'
        " crm:P24_transferred_title_of EX:t ; crm:P22_transferred_title_to EX:p .",
    ],
)
def test_the_shapes_find_slips(slip: str) -> None:
    head = "@prefix EX: <https://e.example/> . @prefix crm: <http://www.cidoc-crm.org/cidoc-crm/> . "
    head += "@prefix rdfs: <http://www.w3.org/2000/01/rdf-schema#> . @prefix xsd: <http://www.w3.org/2001/XMLSchema#> ."
    head += 'EX:t a crm:E22_Human-Made_Object ; rdfs:label "t" . EX:p a crm:E21_Person ; rdfs:label "p" .'
    plain = Graph().parse(data=head, format="turtle")
    assert pyshacl.validate(plain, shacl_graph=str(SHAPES), inference="none")[0]
    graph = Graph().parse(data=f"{head}\n{slip}", format="turtle")
    assert not pyshacl.validate(graph, shacl_graph=str(SHAPES), inference="none")[0]


def test_the_published_context_says_the_same(documents: dict[str, Document]) -> None:
    """The context as the `cromulent` package carries it (of linked.art/ns/v1)."""
    import cromulent

    published = json.loads((Path(cromulent.__file__).parent / "data" / "linked-art.json").read_text("utf-8"))
    for name, document in documents.items():
        # Every node gets an address, so that the triples can be compared one by one.
        addressed = json.loads(json.dumps(document))
        for number, node in enumerate(every_node(addressed["@graph"])):
            node.setdefault("id", f"urn:node:{number}")
        ours, theirs = graph_of(addressed), graph_of(addressed, published["@context"])
        assert set(ours) == set(theirs), name


def test_the_library_of_linked_art_reads_every_record(documents: dict[str, Document]) -> None:
    """It knows the profile of CIDOC CRM that Linked Art uses, and refuses what is outside of it."""
    from cromulent import reader

    read = reader.Reader()
    for document in documents.values():
        for record in document["@graph"]:
            # The one property outside the profile: CIDOC CRM's own for an owner of whom no acquisition is known.
            inside = {key: value for key, value in record.items() if key != "former_or_current_owner"}
            made = read.read(json.dumps(inside))
            assert made.id == record["id"]


def test_every_record_has_the_shape_the_api_asks_for(documents: dict[str, Document]) -> None:
    """Linked Art API 1.0, "Shared structures": id, one type and a label; references are no more than these three."""
    several = {"identified_by", "classified_as", "referred_to_by", "carried_out_by", "part", "transferred_title_of",
               "transferred_title_to", "transferred_title_from", "transferred_custody_of", "transferred_custody_to",
               "transferred_custody_from", "influenced_by", "used_specific_object", "current_owner", "member_of",
               "current_custodian", "removed_by"}  # fmt: skip
    one = {"timespan", "produced_by", "destroyed_by", "diminished", "part_of", "born", "died", "content", "type", "id"}
    for document in documents.values():
        addresses = [record["id"] for record in document["@graph"]]
        assert len(addresses) == len(set(addresses))
        for record in document["@graph"]:
            assert {"id", "type", "_label"} <= set(record)
            for node in every_node(record):
                assert isinstance(node["type"], str)
                for key, value in node.items():
                    assert not (key in several and not isinstance(value, list)), key
                    assert not (key in one and isinstance(value, list)), key
                    assert value not in ([], {}, "", None), key


def every_node(value: object) -> list[dict[str, Any]]:
    if isinstance(value, list):
        return [node for one in value for node in every_node(one)]
    return [value, *every_node(list(value.values()))] if isinstance(value, dict) else []


# The patterns --------------------------------------------------------------------------------------------------------


def records(document: Document, sort: str) -> list[dict[str, Any]]:
    return [record for record in document["@graph"] if record["type"] == sort]


def last(reference: Any) -> str:
    return str(reference["id"]).rsplit("/", 1)[1]


def test_a_gift_is_an_acquisition_of_a_vague_day() -> None:
    """P24 of, P23 from, P22 to; P82a and P82b are the first and the last possible day (CIDOC CRM 7.1)."""
    gift = event("gift", "1954", from_="anna", to=HOUSE, sources="deed")
    document, graph = of(tree(event("potted", "1950", by="anna"), gift), sources=(source("deed", "Deed of gift"),))
    (activity,) = records(document, "Activity")
    (change,) = activity["part"]
    assert [last(change[f"transferred_title_{way}"][0]) for way in ("of", "from", "to")] == ["T1", "anna", HOUSE]
    assert activity["timespan"] == {
        "type": "TimeSpan",
        "begin_of_the_begin": "1954-01-01T00:00:00Z",
        "end_of_the_end": "1954-12-31T23:59:59Z",
    }
    assert [one["_label"] for one in activity["classified_as"]] == ["Provenance Activity", "documented"]
    assert [one["_label"] for one in activity["referred_to_by"]] == ["Deed of gift"]
    (acquisition,) = graph.subjects(RDF.type, CRM.E8_Acquisition)
    assert graph.value(acquisition, CRM.P24_transferred_title_of) == URIRef("https://house.example/id/tree/T1")


def test_an_exchange_is_one_activity_of_two_acquisitions() -> None:
    """Linked Art, "Provenance of objects": an exchange has an acquisition for each direction."""
    document, _ = of(
        tree(event("potted", "1980", by="anna"),
             event("exchange", "2001-04-28", from_="anna", to=HOUSE, trees=refs("T2"))),
        tree(event("purchase", "1990", from_="bo", to=HOUSE), accession="T2"),
    )  # fmt: skip
    exchange = next(one for one in records(document, "Activity") if one["_label"] == "exchange")
    ways = [
        tuple(last(change[f"transferred_title_{way}"][0]) for way in ("of", "from", "to"))
        for change in exchange["part"]
    ]
    assert sorted(ways) == [("T1", "anna", HOUSE), ("T2", HOUSE, "anna")]


def test_a_loan_is_a_transfer_of_custody_and_comes_back_only_where_that_is_recorded() -> None:
    back = event("loan", "1999-05-01", "1999-09-30", from_=HOUSE, to="harbour-museum")
    document, _ = of(tree(event("gift", "1985", from_="anna", to=HOUSE), back))
    given, returned = [one for one in records(document, "Activity") if one["_label"] in ("loan", "return")]
    (out,), (home,) = given["part"], returned["part"]
    assert {out["type"], home["type"]} == {"TransferOfCustody"}
    assert last(out["transferred_custody_to"][0]) == last(home["transferred_custody_from"][0]) == "harbour-museum"
    assert returned["timespan"]["begin_of_the_begin"] == "1999-09-30T00:00:00Z"
    # Lent in 1994 and given in 1996: it never went back.
    document, _ = of(
        tree(event("purchase", "1989", from_="bo", to="anna"), event("loan", "1994-03", from_="anna", to=HOUSE),
             event("gift", "1996-09-01", from_="anna", to=HOUSE))
    )  # fmt: skip
    assert [one["_label"] for one in records(document, "Activity")] == ["purchase", "loan", "gift"]


def test_an_owner_of_whom_nobody_tells_has_no_acquisition() -> None:
    """P51 is CIDOC CRM's shortcut for an owner whose acquisition is not documented (7.1, P51, scope note)."""
    document, _ = of(tree(event("gift", "1985", from_="anna", to=HOUSE)))
    (record,) = records(document, "HumanMadeObject")
    assert [last(one) for one in record["former_or_current_owner"]] == ["anna"]
    assert [last(one) for one in record["current_owner"]] == [HOUSE]
    assert [one["_label"] for one in records(document, "Activity")] == ["gift"]


def test_a_gap_is_left_empty() -> None:
    document, _ = of(
        tree(event("potted", "1963", by="anna"), event("sold", "1984-11", from_="anna"),
             event("purchase", "1991", to="bo"), event("gift", "1994", from_="bo", to=HOUSE))
    )  # fmt: skip
    changes = [(one["_label"], one["part"][0]) for one in records(document, "Activity")]
    assert [label for label, _ in changes] == ["purchase", "gift"]
    assert "transferred_title_from" not in changes[0][1]


def test_beginning_and_work_are_production_and_modification() -> None:
    mother = tree(event("sown", "1950"), accession="T2")
    child = tree(event("layer severed", "1986", by="bo", from_tree=refs("T2")[0]), event("potted", "1988", by="bo"),
                 event("wired", "1990", by="cleo"))  # fmt: skip
    document, _ = of(child, mother)
    record = next(one for one in records(document, "HumanMadeObject") if last(one) == "T1")
    severed, potted = record["produced_by"]["part"]
    assert (severed["type"], severed["_label"], last(severed["influenced_by"][0])) == (
        "Production", "layer severed", "T2",
    )  # fmt: skip
    assert potted["_label"] == "potted"
    assert [(one["_label"], last(one["carried_out_by"][0])) for one in record["modified_by"]] == [("wired", "cleo")]


def test_plants_of_a_planting_are_added_and_removed() -> None:
    """P111i added by, P110 augmented; P113i removed by, P112 diminished."""
    grove = tree(event("assembled", "1972-03-18", by="hill-club", trees=refs("tall", "T2")),
                 event("member removed", "1989", by="anna", trees=refs("tall")),
                 kind="planting", members=(member("tall"), member("other", "T2")))  # fmt: skip
    document, _ = of(grove, tree(accession="T2"))
    tall = next(one for one in records(document, "HumanMadeObject") if last(one) == "tall")
    other = next(one for one in records(document, "HumanMadeObject") if last(one) == "T2")
    assert last(tall["added_by"][0]["augmented"]) == last(tall["removed_by"][0]["diminished"]) == "T1"
    assert tall["removed_by"][0]["timespan"]["end_of_the_end"] == "1989-12-31T23:59:59Z"
    assert "part_of" not in tall
    assert last(other["part_of"]) == "T1"
    assert "removed_by" not in other


def test_belonging_to_a_club_is_a_joining_without_a_day() -> None:
    """P143 joined, P144 joined with; P107i is the shortcut. No record says when, nor that anybody left."""
    document, _ = of(tree(event("sown", "1950", by="anna")), hill_club={"members": ("anna",)})
    (joining,) = records(document, "Joining")
    assert (last(joining["joined"]), last(joining["joined_with"])) == ("anna", "hill-club")
    assert "timespan" not in joining
    anna = next(one for one in records(document, "Person") if last(one) == "anna")
    assert [last(one) for one in anna["member_of"]] == ["hill-club"]


def test_a_tree_that_died() -> None:
    document, _ = of(tree(event("struck", "1954", by="anna"), event("died", "1998-06")))
    (record,) = records(document, "HumanMadeObject")
    assert record["destroyed_by"]["timespan"]["begin_of_the_begin"] == "1998-06-01T00:00:00Z"
    assert "current_owner" not in record
