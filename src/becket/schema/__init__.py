"""JSON Schemas of every command's ``--json`` answer, one file a command."""
