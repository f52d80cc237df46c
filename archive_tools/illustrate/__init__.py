"""Photographs, comparisons and drawings, made from an edition's view."""
