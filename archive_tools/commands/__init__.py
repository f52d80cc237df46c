"""The commands, one file each: arguments, one call of the pipeline, printing, and the code to leave with."""
