"""Who may see what, and the audit of what was written."""

from archive_tools.editions.audit import find_secrets, named_in, secrets_of
from archive_tools.editions.hidden_references import references_to_hidden_trees
from archive_tools.editions.select import select
from archive_tools.editions.view import view_of
from archive_tools.editions.visibility import with_effective_visibility

__all__ = [
    "find_secrets",
    "named_in",
    "references_to_hidden_trees",
    "secrets_of",
    "select",
    "view_of",
    "with_effective_visibility",
]
