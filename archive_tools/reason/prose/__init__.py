"""Claims of years in the curator's own texts, found and compared with what the evidence bears.

`texts` says which texts are read, `sentences` cuts them up, `subjects` finds out what a sentence speaks of, `years` and
`numbers` read the times, `claims` finds the claims, `verdicts` compares them. English only; other languages are left alone.
"""

from archive_tools.reason.prose.texts import read_prose

__all__ = ["read_prose"]
