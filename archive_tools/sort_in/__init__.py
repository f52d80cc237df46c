"""Taking in photographs: from a memory card's folder into the trees' own folders, with a plan first.

Facts of pictures (`look`, `opening`, `codes`) become a plan (`plan`: `payload`, `clocks`, `sessions`, `names`,
`mapping`, `decide`, `duplicates`, `naming`, `sheet`), and the plan becomes actions (`carry_out`, `disk`, `receipt`).
Files are touched at both ends only; everything between is values.
"""

from archive_tools.sort_in.card import card_svg
from archive_tools.sort_in.payload import card_text, end_card_text
from archive_tools.sort_in.work import Done, plan_for, take_in

__all__ = ["Done", "card_svg", "card_text", "end_card_text", "plan_for", "take_in"]
