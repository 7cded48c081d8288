"""Every way to a wrong pass that is known: one test each, listed in docs/dangers.md."""
