"""Claims of years in the curator's own texts, found and compared with what the evidence bears.

`texts` says which texts are read, `sentences` and `clauses` cut them up. `times` (with `years`, `lengths`, `numbers`) and
`predicates` find what a claim is made of; `pairing` (with `fits`, `elided`) puts it together. `subjects` (with `genera`) finds
out what is spoken of, `stance` what is denied or only told, `tenses` as of which day; `claims` joins all these, and
`verdicts` compares a claim with the evidence. English only; other languages are left alone.
"""

from archive_tools.reason.prose.texts import read_prose

__all__ = ["read_prose"]
