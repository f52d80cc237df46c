"""Files in, values of the model out; every problem with its place in the file."""
