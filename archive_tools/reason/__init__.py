"""What follows from the records: grades, chronology, ages, wording, custody."""

from archive_tools.reason.findings import find
from archive_tools.reason.grades import graded
from archive_tools.reason.prose import read_prose

__all__ = ["find", "graded", "read_prose"]
