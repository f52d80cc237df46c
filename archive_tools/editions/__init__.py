"""Who may see what, and the audit of what was written."""
