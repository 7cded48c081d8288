"""The command line: read, call one function, present."""
