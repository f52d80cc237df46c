"""Lineage: whose hands a tree went through, what it came of, what it stands in, and who taught whom.

Read in this order: `happened` (events in the order in which they changed things), `owners` and `loans` (the line of one
thing), `custody` (of all trees, with what other records tell of them), `members` and `kinship`, `things`, `teaching`,
`telling` (the line in words), `stewards`.
"""
