"""Draws the demonstration photographs: invented trees, made to look like prints, slides and snapshots."""
