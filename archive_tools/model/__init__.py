"""What the archive knows, as frozen values. No files are read here and nothing is worked out."""
