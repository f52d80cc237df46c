"""What a reader of one file cannot see: rules over the whole collection, one topic a file."""
