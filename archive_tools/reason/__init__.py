"""What follows from the records: grades, chronology, ages, wording, custody."""

from archive_tools.reason.findings import find
from archive_tools.reason.grades import graded
from archive_tools.reason.prose import read_prose
from archive_tools.reason.told import told_sentences

__all__ = ["find", "graded", "read_prose", "told_sentences"]
