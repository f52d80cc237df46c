"""What follows from the records: grades, chronology, ages, wording, custody."""
