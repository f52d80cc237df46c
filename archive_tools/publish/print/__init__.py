"""What is set in type for paper: labels, tags, cue cards, handouts.

`document` holds the value that is typeset and the pieces it is made of, `style` the house's page in the type of the
site. Nothing here runs the typesetter: that is an edge of its own (`archive_tools.typesetter`).
"""
