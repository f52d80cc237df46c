"""The JSON-LD context of the Linked Art export: its keys, each with the CIDOC CRM term that it stands for.

The export names the context that Linked Art publishes, which a reader has to fetch. The same keys are written out here
as far as the export uses them, so that it can be read without a network; the two must say the same.
"""

from __future__ import annotations

from archive_tools.publish.open_models import Node

PUBLISHED_CONTEXT = "https://linked.art/ns/v1/linked-art.json"
"""The address of the context, as the Linked Art API 1.0 asks for it."""
_CRM = "http://www.cidoc-crm.org/cidoc-crm/"
_XSD = "http://www.w3.org/2001/XMLSchema#"


def _aat(number: str, label: str) -> Node:
    return {"id": f"http://vocab.getty.edu/aat/{number}", "type": "Type", "_label": label}


PROVENANCE_ACTIVITY = _aat("300055863", "Provenance Activity")
PROVENANCE_STATEMENT = _aat("300435438", "Provenance Statement")
ACCESSION_NUMBER = _aat("300312355", "Accession Number")
"""Concepts of the Art & Architecture Thesaurus by which Linked Art marks these things."""

_CLASSES = {
    "Destruction": "E6_Destruction",
    "Activity": "E7_Activity",
    "Acquisition": "E8_Acquisition",
    "TransferOfCustody": "E10_Transfer_of_Custody",
    "Modification": "E11_Modification",
    "Production": "E12_Production",
    "Person": "E21_Person",
    "HumanMadeObject": "E22_Human-Made_Object",
    "LinguisticObject": "E33_Linguistic_Object",
    "Name": "E33_E41_Linguistic_Appellation",
    "VisualItem": "E36_Visual_Item",
    "Actor": "E39_Actor",
    "Identifier": "E42_Identifier",
    "TimeSpan": "E52_Time-Span",
    "Type": "E55_Type",
    "Formation": "E66_Formation",
    "Birth": "E67_Birth",
    "Dissolution": "E68_Dissolution",
    "Death": "E69_Death",
    "Group": "E74_Group",
    "PartAddition": "E79_Part_Addition",
    "PartRemoval": "E80_Part_Removal",
    "Joining": "E85_Joining",
}
_LINKS = {
    "identified_by": "P1_is_identified_by",
    "classified_as": "P2_has_type",
    "timespan": "P4_has_time-span",
    "part": "P9_consists_of",
    "destroyed_by": "P13i_was_destroyed_by",
    "carried_out_by": "P14_carried_out_by",
    "influenced_by": "P15_was_influenced_by",
    "used_specific_object": "P16_used_specific_object",
    "transferred_title_to": "P22_transferred_title_to",
    "transferred_title_from": "P23_transferred_title_from",
    "transferred_title_of": "P24_transferred_title_of",
    "transferred_custody_from": "P28_custody_surrendered_by",
    "transferred_custody_to": "P29_custody_received_by",
    "transferred_custody_of": "P30_transferred_custody_of",
    "modified_by": "P31i_was_modified_by",
    "part_of": "P46i_forms_part_of",
    "current_custodian": "P50_has_current_keeper",
    "former_or_current_owner": "P51_has_former_or_current_owner",
    "current_owner": "P52_has_current_owner",
    "referred_to_by": "P67i_is_referred_to_by",
    "formed_by": "P95i_was_formed_by",
    "born": "P98i_was_born",
    "dissolved_by": "P99i_was_dissolved_by",
    "died": "P100i_died_in",
    "member_of": "P107i_is_current_or_former_member_of",
    "produced_by": "P108i_was_produced_by",
    "augmented": "P110_augmented",
    "added_by": "P111i_was_added_by",
    "diminished": "P112_diminished",
    "removed_by": "P113i_was_removed_by",
    "joined": "P143_joined",
    "joined_with": "P144_joined_with",
}
_DATES = {
    "begin_of_the_begin": "P82a_begin_of_the_begin",
    "end_of_the_begin": "P81a_end_of_the_begin",
    "begin_of_the_end": "P81b_begin_of_the_end",
    "end_of_the_end": "P82b_end_of_the_end",
}

CONTEXT: Node = {
    "id": "@id",
    "type": "@type",
    "_label": "http://www.w3.org/2000/01/rdf-schema#label",
    "content": f"{_CRM}P190_has_symbolic_content",
    **{name: f"{_CRM}{term}" for name, term in _CLASSES.items()},
    **{name: {"@id": f"{_CRM}{term}", "@type": "@id"} for name, term in _LINKS.items()},
    **{name: {"@id": f"{_CRM}{term}", "@type": f"{_XSD}dateTime"} for name, term in _DATES.items()},
}
"""What the published context says of the keys that the export uses."""
