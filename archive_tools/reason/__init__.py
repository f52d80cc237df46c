"""What follows from the records: grades, chronology, ages, wording, custody."""

from archive_tools.reason.findings import find
from archive_tools.reason.grades import graded
from archive_tools.reason.prose import read_prose
from archive_tools.reason.told import told_sentences
from archive_tools.reason.tours.plan import CannotPlan
from archive_tools.reason.tours.tour import WhatIf, plan_tour

__all__ = ["CannotPlan", "WhatIf", "find", "graded", "plan_tour", "read_prose", "told_sentences"]
