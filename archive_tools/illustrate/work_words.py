"""What was done to a tree, as it is said within a line of a drawing."""

from __future__ import annotations

from collections.abc import Mapping

from archive_tools.illustrate.change import Translate


def work_words(_: Translate = str) -> Mapping[str, str]:
    """Kinds of events that hands do, and those that kinship and plantings tell of, as they stand before a year."""
    return {
        "sown": _("sown"), "germinated": _("germinated"), "struck": _("cutting struck"),
        "layer severed": _("layer severed"), "raised from graft": _("grafted"),
        "raised from division": _("divided off"), "collected": _("collected"),
        "training begun": _("training begun"), "potted": _("first potted"), "repotted": _("repotted"),
        "root pruned": _("roots pruned"), "soil refreshed": _("soil refreshed"), "pruned": _("pruned"),
        "pinched": _("pinched"), "candles cut": _("candles cut"), "needles plucked": _("needles plucked"),
        "leaves thinned": _("leaves thinned"), "cut back": _("cut back"), "branch removed": _("branch removed"),
        "defoliated": _("defoliated"), "wired": _("wired"), "unwired": _("wire taken off"), "guyed": _("guyed"),
        "bent": _("bent"), "carved": _("carved"), "deadwood made": _("dead wood made"),
        "deadwood treated": _("dead wood treated"), "styled": _("styled"), "front changed": _("front changed"),
        "planting angle changed": _("planting angle changed"), "layer set": _("layer set"),
        "grafted on": _("grafted on"), "divided": _("divided"), "fed": _("fed"), "treated": _("treated"),
        "wintered": _("wintered"), "rested": _("rested"), "condition checked": _("condition checked"),
        "planted out": _("planted out"), "lifted": _("lifted"), "assembled": _("planted together"),
        "taken apart": _("taken apart"), "member added": _("a tree added"), "member removed": _("a tree taken out"),
        "merged": _("merged"), "split off": _("split off"), "demonstrated": _("worked on before an audience"),
        "observed": _("seen"),
    }  # fmt: skip
