"""Walks against the clock: which stops, in which order, at which second."""
