"""What is wrong in a collection that was read: rules over the whole of it, one topic a file, one rule a function."""

from archive_tools.check.leaving_out import without
from archive_tools.check.whole import check_collection, check_findings
from archive_tools.check.withheld_names import names_in_public_texts

__all__ = ["check_collection", "check_findings", "names_in_public_texts", "without"]
