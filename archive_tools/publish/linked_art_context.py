"""The JSON-LD context of the Linked Art export: its keys, each with the CIDOC CRM term that it stands for.

Written for this export from the published definitions (CIDOC CRM 7.1; the keys as in the Linked Art model), and only as
far as the export uses them; it is no copy of the context that Linked Art publishes.
"""

from __future__ import annotations

from archive_tools.publish.open_models import Node

_CRM = "http://www.cidoc-crm.org/cidoc-crm/"

PROVENANCE_ACTIVITY: Node = {
    "id": "http://vocab.getty.edu/aat/300055863",
    "type": "Type",
    "_label": "Provenance Activity",
}
"""The Art & Architecture Thesaurus concept by which Linked Art marks activities of provenance."""

_CLASSES = {
    "Activity": "E7_Activity",
    "Acquisition": "E8_Acquisition",
    "TransferOfCustody": "E10_Transfer_of_Custody",
    "Modification": "E11_Modification",
    "Production": "E12_Production",
    "BiologicalObject": "E20_Biological_Object",
    "Person": "E21_Person",
    "HumanMadeObject": "E22_Human-Made_Object",
    "LinguisticObject": "E33_Linguistic_Object",
    "Name": "E33_E41_Linguistic_Appellation",
    "Actor": "E39_Actor",
    "Identifier": "E42_Identifier",
    "TimeSpan": "E52_Time-Span",
    "Type": "E55_Type",
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
    "carried_out_by": "P14_carried_out_by",
    "influenced_by": "P15_was_influenced_by",
    "transferred_title_to": "P22_transferred_title_to",
    "transferred_title_from": "P23_transferred_title_from",
    "transferred_title_of": "P24_transferred_title_of",
    "transferred_custody_from": "P28_custody_surrendered_by",
    "transferred_custody_to": "P29_custody_received_by",
    "transferred_custody_of": "P30_transferred_custody_of",
    "modified": "P31_has_modified",
    "current_owner": "P52_has_current_owner",
    "referred_to_by": "P67i_is_referred_to_by",
    "produced_by": "P108i_was_produced_by",
    "added_to": "P110_augmented",
    "added": "P111_added",
    "removed_from": "P112_diminished",
    "removed": "P113_removed",
    "joined": "P143_joined",
    "joined_with": "P144_joined_with",
}
_DATES = {
    "begin_of_the_begin": "P82a_begin_of_the_begin",
    "end_of_the_end": "P82b_end_of_the_end",
}

CONTEXT: Node = {
    "id": "@id",
    "type": "@type",
    "_label": "http://www.w3.org/2000/01/rdf-schema#label",
    "content": f"{_CRM}P190_has_symbolic_content",
    **{name: f"{_CRM}{term}" for name, term in _CLASSES.items()},
    **{name: {"@id": f"{_CRM}{term}", "@type": "@id"} for name, term in _LINKS.items()},
    **{
        name: {"@id": f"{_CRM}{term}", "@type": "http://www.w3.org/2001/XMLSchema#date"}
        for name, term in _DATES.items()
    },
}
